package sheet

import (
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// spaceAround is what every line of lettering keeps clear of the edges of lines,
// and half of what it keeps clear of other lettering, mm.
const spaceAround = 0.22

// tidy reports whether all lettering of a picture keeps clear of its lines and
// of other lettering. What lies below a tone that the lettering stands on is
// not seen and does not count.
func tidy(d drawing.Drawing) bool {
	var lines lettering.Obstacles
	var tones []cover
	type seen struct {
		drawing.Text
		from int // first of the lines that can be seen near it
	}
	var texts []seen
	for _, s := range d.Shapes {
		switch s := s.(type) {
		case drawing.Stroke:
			if s.Tone != drawing.NoTone && s.Path.Closed {
				tones = append(tones, cover{s.Path, len(lines)})
			}
			if pen := drawing.PenOf(s.Role).Width; pen > 0 || s.Tone == drawing.Dark {
				lines.Line(s.Path, pen)
			}
		case drawing.Ring:
			lines.Line(s.Circle.Path(), drawing.PenOf(s.Role).Width)
		case drawing.Text:
			texts = append(texts, seen{s, ground(tones, s.Bounds().Grow(spaceAround))})
		}
	}
	for i, t := range texts {
		if !keepsOff(t.Text, lines[t.from:]) {
			return false
		}
		// A long text may hold a short one, so each looks for the others.
		var others lettering.Obstacles
		for k, u := range texts {
			if k != i && t.Bounds().Overlaps(u.Bounds(), 2*spaceAround) {
				others.Line(u.Box(), 2*spaceAround)
			}
		}
		if !keepsOff(t.Text, others) {
			return false
		}
	}
	return true
}

// keepsOff reports whether lettering, level or slanting, is clear of obstacles.
func keepsOff(t drawing.Text, o lettering.Obstacles) bool {
	if t.Angle != 0 {
		level := geom.Rotate(-t.Angle)
		o, t.At, t.Angle = o.Apply(level), level.Apply(t.At), 0
	}
	return o.Clear(t.Bounds(), spaceAround)
}

// cover is a shape that hides the lines drawn before it.
type cover struct {
	path   geom.Path
	hidden int
}

// ground returns how many lines are hidden below the last of the covers that
// fills all of a box.
func ground(tones []cover, box geom.Rect) int {
	for i := len(tones) - 1; i >= 0; i-- {
		if holds(tones[i].path, box) {
			return tones[i].hidden
		}
	}
	return 0
}

package kit

import (
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// board is a drawing on which everything lettered finds a place: clear of all
// lines that stand there, and no line is drawn through lettering afterwards.
type board struct {
	d     drawing.Drawing
	lines lettering.Obstacles
	texts []drawing.Text
	words lettering.Obstacles // the texts' boxes
}

// textGap is what lettering on a board keeps off other things, mm.
const textGap = 0.7

// add draws shapes as they are.
func (b *board) add(shapes ...drawing.Shape) {
	for _, s := range shapes {
		switch s := s.(type) {
		case drawing.Stroke:
			b.lines.Line(s.Path, drawing.PenOf(s.Role).Width)
		case drawing.Ring:
			b.lines.Line(s.Circle.Path(), drawing.PenOf(s.Role).Width)
		case drawing.Text:
			b.texts = append(b.texts, s)
			b.words.Line(s.Box(), 0)
		}
	}
	b.d.Add(shapes...)
}

// square turns the plane so that a text's base line is level.
func square(t drawing.Text) geom.Transform { return geom.Rotate(-t.Angle) }

// off reports whether a text keeps gap mm off obstacles.
func off(t drawing.Text, o lettering.Obstacles, gap float64) bool {
	turn := square(t)
	if t.Angle != 0 {
		o = o.Apply(turn)
	}
	return o.Clear(t.Box().Apply(turn).Bounds(), gap)
}

// clear reports whether shapes have room: their lettering off what stands there
// and off their own lines, their lines off the lettering.
func (b *board) clear(shapes []drawing.Shape) bool {
	var own lettering.Obstacles
	var words []drawing.Text
	for _, s := range shapes {
		switch s := s.(type) {
		case drawing.Stroke:
			own.Line(s.Path, drawing.PenOf(s.Role).Width)
		case drawing.Text:
			words = append(words, s)
		}
	}
	for _, t := range words {
		if !off(t, b.words, textGap) || !off(t, b.lines, textGap) || !off(t, own, 0.2) {
			return false
		}
	}
	for _, t := range b.texts {
		if !off(t, own, textGap) {
			return false
		}
	}
	return true
}

// tries is how many places are tried for a thing.
const tries = 120

// put draws the first of a run of attempts that has room, and reports whether one
// had. An attempt without shapes is skipped.
func (b *board) put(attempt func(k int) []drawing.Shape) bool {
	for k := range tries {
		if shapes := attempt(k); len(shapes) > 0 && b.clear(shapes) {
			b.add(shapes...)
			return true
		}
	}
	return false
}

// letterAt puts a short word near a point, as near as it finds room.
func (b *board) letterAt(at geom.Point, word string) { b.nameHole(at, 0, word) }

// nameHole puts a short word beside a hole of radius r mm.
func (b *board) nameHole(at geom.Point, r float64, word string) {
	const turns = 12
	w := width(word)
	b.put(func(k int) []drawing.Shape {
		a := geom.Angle(k%turns)*(30*geom.Degree) + 75*geom.Degree
		c := at.Add(geom.Polar(r+1.2+w/2+small/2+2.5*float64(k/turns), a))
		return []drawing.Shape{drawing.Text{At: c.Sub(geom.Pt(0, small/2)), Words: word, Height: small, Anchor: drawing.Middle, Role: drawing.Note}}
	})
}

// block puts lines of lettering where they make the drawing no larger, off the
// outline, else below everything.
func (b *board) block(lines []string, outline geom.Path) {
	box := b.d.Bounds()
	o := append(lettering.Obstacles{}, b.lines...)
	for _, t := range b.texts {
		o.Box(t.Bounds())
	}
	for _, most := range lineLengths {
		p := paragraphOf(lines, most, true)
		if at, ok := p.room(o, box, box.Min.Y, func(q geom.Point) bool { return !outline.Contains(q) }); ok {
			p.at(&b.d, at)
			return
		}
	}
	below(&b.d, lines)
}

package sheet

import (
	"math"

	"overbend/export/drawing"
	"overbend/geom"
)

// spaceAround is what every line of lettering keeps clear of the edges of lines,
// and half of what it keeps clear of other lettering, mm.
const spaceAround = 0.22

// widest is no less than half the width of any pen, mm.
const widest = 0.5

// tidy reports whether all lettering of a picture keeps clear of its lines and
// of other lettering. What lies below a tone that the lettering stands on is
// not seen and does not count.
func tidy(d drawing.Drawing) bool {
	var texts []letter
	var tones []cover
	boxes := make([]geom.Rect, len(d.Shapes)) // of strokes
	for i, s := range d.Shapes {
		switch s := s.(type) {
		case drawing.Stroke:
			boxes[i] = around(s.Path)
			if s.Tone != drawing.NoTone && s.Path.Closed {
				tones = append(tones, cover{s.Path, boxes[i], i})
			}
		case drawing.Text:
			l := newLetter(s)
			l.from = ground(tones, l.box)
			texts = append(texts, l)
		}
	}
	for i, t := range texts {
		for _, u := range texts[:i] {
			if t.box.Overlaps(u.box, 0) && t.meets(u) {
				return false
			}
		}
		for k, s := range d.Shapes[t.from:] {
			if _, ok := s.(drawing.Stroke); ok && !boxes[t.from+k].Overlaps(t.box, widest) {
				continue
			}
			if t.touches(s) {
				return false
			}
		}
	}
	return true
}

// around returns a box that holds a path whose arcs are half circles at most,
// little larger than need be and quickly found.
func around(p geom.Path) geom.Rect {
	box, rise := geom.EmptyRect(), 0.0
	n := len(p.Vertices)
	for i, v := range p.Vertices {
		box = box.Add(v.Point)
		if v.Bulge != 0 {
			rise = max(rise, math.Abs(v.Bulge)*v.Dist(p.Vertices[(i+1)%n].Point)/2)
		}
	}
	return box.Grow(rise)
}

// cover is a shape that hides what was drawn before it.
type cover struct {
	path geom.Path
	box  geom.Rect
	at   int // among the drawing's shapes
}

// ground returns the last of the covers that fills all of a box: where it lies
// among the shapes, 0 without one.
func ground(tones []cover, box geom.Rect) int {
	for i := len(tones) - 1; i >= 0; i-- {
		if c := tones[i]; c.box.Holds(box, 0) && holds(c.path, box) {
			return c.at
		}
	}
	return 0
}

// letter is a line of lettering: the middle of its box, its directions, and
// half its sizes with the space around.
type letter struct {
	middle, along geom.Point
	half          geom.Point
	box           geom.Rect
	from          int // first shape that can be seen near it
}

func newLetter(t drawing.Text) letter {
	v := t.Box().Vertices
	m := v[0].Lerp(v[2].Point, 0.5)
	return letter{
		middle: m, along: geom.Polar(1, t.Angle),
		half: geom.Pt(v[0].Dist(v[1].Point)/2+spaceAround, v[1].Dist(v[2].Point)/2+spaceAround),
		box:  t.Bounds().Grow(spaceAround),
	}
}

// local returns q in the lettering's own frame.
func (l letter) local(q geom.Point) geom.Point {
	v := q.Sub(l.middle)
	return geom.Pt(v.Dot(l.along), v.Dot(l.along.Left()))
}

// meets reports whether two boxes overlap: they don't if one of their sides
// parts them.
func (l letter) meets(m letter) bool { return !l.parts(m) && !m.parts(l) }

func (l letter) parts(m letter) bool {
	c := l.local(m.middle)
	turn := m.along.Sub(geom.Point{}).Direction() - l.along.Direction()
	cos, sin := math.Abs(turn.Cos()), math.Abs(turn.Sin())
	return math.Abs(c.X) > l.half.X+cos*m.half.X+sin*m.half.Y || math.Abs(c.Y) > l.half.Y+sin*m.half.X+cos*m.half.Y
}

// touches reports whether a shape's line comes into the box.
func (l letter) touches(s drawing.Shape) bool {
	own := geom.Rect{Min: l.half.Mul(-1), Max: l.half}
	switch s := s.(type) {
	case drawing.Stroke:
		own = own.Grow(drawing.PenOf(s.Role).Width / 2)
	case drawing.Ring:
		own = own.Grow(drawing.PenOf(s.Role).Width / 2)
	}
	line := func(a, b geom.Point) bool { return geom.Segment{From: l.local(a), To: l.local(b)}.Enters(own) }
	switch s := s.(type) {
	case drawing.Stroke:
		if drawing.PenOf(s.Role).Width == 0 && s.Tone != drawing.Dark {
			return false
		}
		for _, g := range s.Path.Segments() {
			if !g.IsArc() {
				if line(g.From, g.To) {
					return true
				}
				continue
			}
			if !around(geom.Path{Vertices: []geom.Vertex{{Point: g.From, Bulge: g.Bulge}, {Point: g.To}}}).Overlaps(l.box, widest) {
				continue
			}
			// Chords that leave the arc by a fiftieth of a mm.
			n := max(1, math.Ceil(math.Abs(float64(g.Sweep()))/(2*math.Sqrt(2*0.02/g.Radius()))))
			from := g.From
			for i := 1.0; i <= n; i++ {
				to, _ := g.At(i / n)
				if line(from, to) {
					return true
				}
				from = to
			}
		}
	case drawing.Ring:
		// The box's nearest and furthest points from the centre.
		c := l.local(s.Circle.Centre)
		x, y := math.Abs(c.X), math.Abs(c.Y)
		near := math.Hypot(max(0, x-own.Max.X), max(0, y-own.Max.Y))
		far := math.Hypot(x+own.Max.X, y+own.Max.Y)
		return near < s.Circle.Radius && (far > s.Circle.Radius || s.Tone == drawing.Dark)
	}
	return false
}

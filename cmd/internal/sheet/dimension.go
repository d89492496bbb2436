package sheet

import (
	"math"

	"overbend/export/drawing"
	"overbend/geom"
)

// Sizes of dimensions, mm (ISO 129-1, from memory, where it gives any).
const (
	arrow   = 2.5
	past    = 1.2  // extension line beyond the dimension line
	aside   = 0.8  // extension line from what it measures
	raise   = 1.75 // base line above its dimension line: the descender's room and clear of arrowheads
	outward = 4.5  // tail of an arrow that points in from outside
)

// readable turns the direction of a base line so that it is read from below or
// from the right.
func readable(a geom.Angle) geom.Angle {
	const quarter = 90 * geom.Degree
	for a > quarter+1e-6 {
		a -= math.Pi
	}
	for a <= -quarter+1e-6 {
		a += math.Pi
	}
	return a
}

// dimension draws the distance from a to b on a line off mm to the left of it
// (to the right when negative), with extension lines, arrows and the figure
// above the middle. Arrows without room point in from outside; under a figure
// that is longer than the line the extension lines stop short of it.
func (l pen) dimension(d *drawing.Drawing, a, b geom.Point, off float64, figure string) {
	dir := b.Sub(a).Unit()
	n := dir.Left()
	if off < 0 {
		n = n.Mul(-1)
	}
	length, h := a.Dist(b), math.Abs(off)
	p, q := a.Add(n.Mul(h)), b.Add(n.Mul(h))
	angle := readable(dir.Direction())
	up := geom.Polar(1, angle).Left()
	over := past
	if l.width(figure)+1 > length && up.Dot(n) > 0 {
		over = 0
	}
	from := min(aside, h/2)
	if l.width(figure)+1 > length && up.Dot(n) < 0 {
		// The figure stands between the line and what is measured.
		from = max(from, h-0.3)
	}
	for _, e := range [2]geom.Point{a, b} {
		d.Line(drawing.Thin, e.Add(n.Mul(from)), e.Add(n.Mul(h+over)))
	}
	if length >= 3*arrow {
		d.Line(drawing.Thin, p, q)
		d.Add(drawing.Arrow(p, dir.Mul(-1).Direction(), arrow), drawing.Arrow(q, dir.Direction(), arrow))
	} else {
		d.Line(drawing.Thin, p.Sub(dir.Mul(outward)), q.Add(dir.Mul(outward)))
		d.Add(drawing.Arrow(p, dir.Direction(), arrow), drawing.Arrow(q, dir.Mul(-1).Direction(), arrow))
	}
	d.Add(drawing.Text{
		At: p.Lerp(q, 0.5).Add(up.Mul(raise)), Words: figure, Height: l.h, Angle: angle,
		Anchor: drawing.Middle, Role: drawing.Note,
	})
}

// dot ends a leader within the outline of what it names.
func dot(q geom.Point) drawing.Ring {
	return drawing.Ring{Circle: geom.Circle{Centre: q, Radius: 0.5}, Role: drawing.Fill, Tone: drawing.Dark}
}

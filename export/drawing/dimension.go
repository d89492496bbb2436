package drawing

import (
	"math"

	"overbend/export/lettering"
	"overbend/geom"
)

// Sizes of dimensions, mm (ISO 129-1, from memory, where it gives any).
const (
	ArrowLength    = 2.5
	ExtensionPast  = 1.2  // extension line beyond the dimension line
	ExtensionAside = 0.8  // extension line from what it measures
	FigureRaise    = 1.75 // base line above its dimension line: the descender's room and clear of arrowheads
	ArrowTail      = 4.5  // of an arrow that points in from outside
)

// Readable turns the direction of a base line so that it is read from below or
// from the right.
func Readable(a geom.Angle) geom.Angle {
	const quarter = 90 * geom.Degree
	for a > quarter+1e-6 {
		a -= math.Pi
	}
	for a <= -quarter+1e-6 {
		a += math.Pi
	}
	return a
}

// Dimension is a distance with its figure, as ISO 129-1 draws one (from memory):
// extension lines, a dimension line with arrows, the figure above its middle.
type Dimension struct {
	A, B   geom.Point
	Off    float64 // of the line from A and B, to the left of the way from A to B; below 0 to the right
	Figure string
	Height float64 // of the figure, mm
	// FromA and FromB are how far from A and B, towards the dimension line, the
	// features end that the extension lines start beside; below 0 they lie further
	// off than A and B.
	FromA, FromB float64
}

// Shapes returns the dimension, its figure last. Arrows without room point in from
// outside; under a figure that is longer than the line the extension lines stop
// short of it.
func (m Dimension) Shapes() []Shape {
	var d Drawing
	dir := m.B.Sub(m.A).Unit()
	n := dir.Left()
	if m.Off < 0 {
		n = n.Mul(-1)
	}
	length, h := m.A.Dist(m.B), math.Abs(m.Off)
	p, q := m.A.Add(n.Mul(h)), m.B.Add(n.Mul(h))
	angle := Readable(dir.Direction())
	up := geom.Polar(1, angle).Left()
	long := lettering.Face{Height: m.Height}.Width(m.Figure)+1 > length
	over := ExtensionPast
	if long && up.Dot(n) > 0 {
		over = 0
	}
	for i, e := range [2]geom.Point{m.A, m.B} {
		start := [2]float64{m.FromA, m.FromB}[i]
		from := start + min(ExtensionAside, (h-start)/2)
		if long && up.Dot(n) < 0 {
			// The figure stands between the line and what is measured.
			from = max(from, h-0.3)
		}
		d.Line(Thin, e.Add(n.Mul(from)), e.Add(n.Mul(h+over)))
	}
	if length >= 3*ArrowLength {
		d.Line(Thin, p, q)
		d.Add(Arrow(p, dir.Mul(-1).Direction(), ArrowLength), Arrow(q, dir.Direction(), ArrowLength))
	} else {
		d.Line(Thin, p.Sub(dir.Mul(ArrowTail)), q.Add(dir.Mul(ArrowTail)))
		d.Add(Arrow(p, dir.Direction(), ArrowLength), Arrow(q, dir.Mul(-1).Direction(), ArrowLength))
	}
	d.Add(Text{
		At: p.Lerp(q, 0.5).Add(up.Mul(FigureRaise)), Words: m.Figure, Height: m.Height, Angle: angle,
		Anchor: Middle, Role: Note,
	})
	return d.Shapes
}

// AngleLine returns the dimension line of an angle about c, rho mm from it, with
// its arrows.
func AngleLine(c geom.Point, rho float64, from, to geom.Angle) []Shape {
	p, q := c.Add(geom.Polar(rho, from)), c.Add(geom.Polar(rho, to))
	// An arrow's axis is a chord of the arc.
	lean := geom.Angle(ArrowLength / 2 / rho)
	return []Shape{
		Stroke{Path: geom.Start(p).ArcTo(q, to-from), Role: Thin},
		Arrow(p, from-90*geom.Degree+lean, ArrowLength), Arrow(q, to+90*geom.Degree-lean, ArrowLength),
	}
}

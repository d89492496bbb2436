package chain

import (
	"math"

	"overbend/geom"
)

// Bend is an arc in a chain with what is straight on both sides of it, in the
// direction in which it turns clockwise: seen with the crown on top, from left to
// right.
type Bend struct {
	geom.Bend
	Chain, Piece int
	Legs         [2]Leg // left, right
	Centre       geom.Point
	// Kink is the largest at the arc's ends, Gap the widest.
	Kink geom.Angle
	Gap  float64
}

// Leg is the straight beside an arc.
type Leg struct {
	Length float64    // from the arc on, mm; 0: there is none
	Start  geom.Point // the tangent point
	Out    geom.Point // unit direction away from the arc
	Drawn  bool       // there is one
	Free   bool       // nothing follows it, or the arc, but the chain's end
}

// End returns where the leg ends.
func (l Leg) End() geom.Point { return l.Start.Add(l.Out.Mul(l.Length)) }

// Outside returns the unit normal to the outside of the bend at leg i's tangent
// point.
func (b Bend) Outside(i int) geom.Point {
	// Looking out along the left leg the outside lies on the right.
	n := b.Legs[i].Out.Left()
	if i == 0 {
		n = n.Mul(-1)
	}
	return n
}

// Path returns leg, arc and leg.
func (b Bend) Path() geom.Path {
	l, r := b.Legs[0], b.Legs[1]
	p := geom.Start(l.Start)
	if l.Length > 0 {
		p = geom.Lines(l.End(), l.Start)
	}
	p = p.ArcTo(r.Start, -b.Angle)
	if r.Length > 0 {
		p = p.LineTo(r.End())
	}
	return p
}

// exact is the kink and the gap in mm below which a drawing counts as made
// exactly: the arc's own sweep and ends are then better known than the legs'
// crossing.
const (
	exactKink = 1e-5
	exactGap  = 1e-5
)

// Bends returns the bends of a chain, number chain, each arc with what is beside
// it. A closed chain has none: it has no ends.
func (c Chain) Bends(chain int) []Bend {
	if c.Closed {
		return nil
	}
	var out []Bend
	for k, p := range c.Pieces {
		if p.IsArc() {
			out = append(out, c.bend(chain, k))
		}
	}
	return out
}

// bend measures the arc that is piece k.
func (c Chain) bend(chain, k int) Bend {
	arc := c.Pieces[k].Segment
	b := Bend{Chain: chain, Piece: k}
	b.Radius = arc.Radius()
	b.Angle = geom.Angle(math.Abs(float64(arc.Sweep())))
	b.Centre = arc.Centre()
	// In the chain's own direction first.
	in, on := Leg{Start: arc.From, Out: direction(arc, false).Mul(-1), Free: k == 0}, Leg{Start: arc.To, Out: direction(arc, true), Free: k == len(c.Pieces)-1}
	note := func(p Piece) {
		b.Gap, b.Kink = max(b.Gap, p.Gap), max(b.Kink, p.Kink)
	}
	if k > 0 {
		note(c.Pieces[k-1])
		if p := c.Pieces[k-1]; !p.IsArc() {
			in = Leg{Length: p.Chord(), Start: p.To, Out: p.From.Sub(p.To).Unit(), Drawn: true, Free: k == 1}
		}
	}
	if k < len(c.Pieces)-1 {
		note(c.Pieces[k])
		if p := c.Pieces[k+1]; !p.IsArc() {
			on = Leg{Length: p.Chord(), Start: p.From, Out: p.To.Sub(p.From).Unit(), Drawn: true, Free: k+1 == len(c.Pieces)-1}
		}
	}
	if in.Drawn && on.Drawn && (b.Kink > exactKink || b.Gap > exactGap) {
		b.refit(arc, &in, &on)
	}
	b.Legs = [2]Leg{in, on}
	if arc.Bulge > 0 {
		b.Legs = [2]Leg{on, in}
	}
	return b
}

// refit lays an arc of the drawn radius into the corner of the two legs, where it
// is tangent to both.
func (b *Bend) refit(arc geom.Segment, in, on *Leg) {
	side := math.Copysign(1, arc.Bulge)
	angle := geom.Angle(side) * turn(in.Out.Mul(-1), on.Out)
	if angle < 0 {
		angle += 2 * math.Pi
	}
	cross := in.Out.Cross(on.Out)
	// Near half a turn the legs have no corner to speak of.
	if math.Abs(cross) < 0.02 || math.Abs(float64(angle-b.Angle)) > float64(hard) || angle > 178*geom.Degree {
		return
	}
	t := on.End().Sub(in.End()).Cross(on.Out) / cross
	v := in.End().Add(in.Out.Mul(t))
	tangent := b.Radius * (angle / 2).Tan()
	first, second := v.Add(in.Out.Mul(tangent)), v.Add(on.Out.Mul(tangent))
	one, two := in.End().Sub(first).Dot(in.Out), on.End().Sub(second).Dot(on.Out)
	if one < 0 || two < 0 {
		return
	}
	b.Angle = angle
	in.Start, in.Length = first, one
	on.Start, on.Length = second, two
	b.Centre = first.Add(in.Out.Mul(-1).Left().Mul(side * b.Radius))
}

// Beside returns how far b runs from a, positive to the outside of the bend, and
// whether they are parallel: the same arc about the same centre, but for its
// radius, and legs in the same directions, within the tolerance.
func (a Bend) Beside(b Bend, tol Tolerance) (float64, bool) {
	slack := tol.Gap + math.Min(1, tol.Kink.Radians())
	var d [2]float64
	for i := range 2 {
		v := b.Legs[i].Start.Sub(a.Legs[i].Start)
		if math.Abs(v.Dot(a.Legs[i].Out)) > slack || math.Abs(float64(turn(a.Legs[i].Out, b.Legs[i].Out))) > 2*float64(tol.Kink) {
			return 0, false
		}
		d[i] = v.Dot(a.Outside(i))
	}
	if math.Abs(d[0]-d[1]) > slack {
		return 0, false
	}
	off := (d[0] + d[1]) / 2
	// The radius of chords, or of a flat arc, is known less well than its ends are.
	return off, math.Abs(b.Radius-a.Radius-off) <= slack+0.002*a.Radius
}

package bend

import (
	"math"

	"overbend/geom"
)

// Finished is the predicted shape of the part's centreline after melt-out, one
// half of it: crown at the origin, bending upwards to the right.
type Finished struct {
	Curvature float64    // of the part that lay on the block, 1/mm
	Arc       float64    // developed length of that part from the crown, mm
	Angle     geom.Angle // direction of the straight leg: half the part's angle
	Line      geom.Path  // arc, tail as short arcs, up to where the straight leg begins
}

// straightTurn is the turn in radians that is left when a leg counts as
// straight: over a leg of a metre it is 0.001 mm. (A Ramberg-Osgood curve has no
// elastic limit, so the leg is never quite straight before the roller.)
const straightTurn = 1e-6

// Finished returns the shape that a state leaves after melt-out.
func (p *Press) Finished(s State) Finished {
	if s.Crown == 0 {
		return Finished{Line: geom.Start(geom.Point{}).LineTo(geom.Pt(s.Leg, 0))}
	}
	c := p.curveOf(s)
	f := Finished{Curvature: c.meltedP, Angle: s.Melted / 2}
	stops := []stop{{}}
	if s.HalfWrap > 0 {
		f.Arc = float64(s.HalfWrap) / c.kp
		stops = append(stops, onArc(c.meltedP, f.Arc))
	}
	stops, end := c.walk(stops, s.Arm, straightTurn, func(n *node) float64 { return n.melted })
	end.dir = float64(f.Angle)
	if s.HalfWrap == 0 && len(stops) == 1 && end.at.Norm() < sliver { // nothing stays: a straight leg
		end.at = geom.Polar(s.Leg, f.Angle)
	}
	f.Line = arcs(append(stops, end))
	return f
}

// Gap is the largest distance between the predicted and the drawn centreline.
type Gap struct {
	Size  float64 // mm
	At    float64 // developed length from the crown at which it occurs, mm
	Shift float64 // how far the predicted shape was moved across for the best fit, mm
	Leg   float64 // distance between the straight legs, mm; positive: predicted lies outside
}

// Gap compares the shape with a drawn bend of centreline radius r, mm, and
// angle 2 Angle, laid over it crown to crown and then moved along the axis of
// symmetry until the largest distance is least.
func (f Finished) Gap(r float64) Gap {
	sinH, cosH := math.Sincos(float64(f.Angle))
	end := geom.Pt(r*sinH, geom.Sagitta(r, f.Angle))
	dir := geom.Pt(cosH, sinH)
	out := dir.Left().Mul(-1) // outward normal of the drawn leg
	// outside returns how far q lies outside the drawn centreline.
	outside := func(q geom.Point) float64 {
		if up := r - q.Y; q.X*cosH <= up*sinH {
			return math.Sqrt(q.X*q.X+up*up) - r
		}
		return q.Sub(end).Dot(out)
	}
	type station struct {
		p  geom.Point
		at float64
	}
	var room [512]station // most jobs need no more
	st := room[:0]
	s := 0.0
	v := f.Line.Vertices
	for i := range len(v) - 1 {
		g := geom.Segment{From: v[i].Point, To: v[i+1].Point, Bulge: v[i].Bulge}
		l := g.Length()
		a, c := g.Halves()
		_, b := a.Halves()
		_, d := c.Halves()
		for i, q := range [...]geom.Point{g.From, b.From, c.From, d.From} {
			st = append(st, station{q, s + l*float64(i)/4})
		}
		s += l
	}
	// Beyond the line's end the leg runs straight, and may have some of the
	// drawn arc beside it still; once past that its distance stays. A point well
	// past stands for the rest, at the length where the drawn leg begins.
	last := f.Line.End()
	beside := max(0, end.Sub(last).Dot(dir))
	leg := last.Add(dir.Mul(beside + r))
	st = append(st, station{last, s}, station{leg, s + beside})
	// extremes returns the places furthest outside and inside after a shift.
	extremes := func(shift float64) (most, least float64, i, j int) {
		most, least = math.Inf(-1), math.Inf(1)
		for n, t := range st {
			d := outside(t.p.Add(geom.Pt(0, shift)))
			if d > most {
				most, i = d, n
			}
			if d < least {
				least, j = d, n
			}
		}
		return most, least, i, j
	}
	// A shift towards the bend's centre brings every place further inside, so
	// the best is where the furthest outside and the furthest inside are as far.
	most, least, i, j := extremes(0)
	span := max(most, -least)
	shift, err := root("best fit", -2*span/cosH, 2*span/cosH, func(shift float64) float64 {
		most, least, _, _ := extremes(shift)
		return most + least
	})
	if err == nil {
		most, least, i, j = extremes(shift)
	}
	g := Gap{Size: max(most, -least), At: st[i].at, Shift: shift, Leg: outside(leg.Add(geom.Pt(0, shift)))}
	// The two are alike at the best fit: the one nearer to the crown is named, not
	// the one that rounding makes larger.
	if st[j].at < g.At {
		g.At = st[j].at
	}
	return g
}

// RiseOver returns the rise in mm over a chord of c mm laid across the crown
// on the inside face, depth/2 from the centreline, and whether the chord's
// ends still lie on the bent part (arc and tails).
func (f Finished) RiseOver(c, depth float64) (float64, bool) {
	h := depth / 2
	for _, g := range f.Line.Segments() {
		face := func(t float64) geom.Point {
			p, d := g.At(t)
			return p.Add(d.Left().Mul(h)) // the bend's centre is above
		}
		if face(1).X < c/2 {
			continue
		}
		t, err := root("chord", 0, 1, func(t float64) float64 { return face(t).X - c/2 })
		if err != nil {
			return 0, false
		}
		return face(t).Y - h, true
	}
	// Past the tail the leg is straight.
	p, d := f.Line.End(), geom.Polar(1, f.Angle)
	q := p.Add(d.Left().Mul(h))
	return q.Y - h + (c/2-q.X)*f.Angle.Tan(), false
}

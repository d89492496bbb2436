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

// Finished returns the shape that a state leaves after melt-out.
func (p *Press) Finished(s State) Finished {
	c := p.curve
	if s.Wrap == 0 {
		c = p.stack.legCurve(s.Crown, p.refine)
	}
	f := Finished{Curvature: c.meltedP, Angle: s.Melted / 2}
	f.Line = geom.Start(geom.Point{})
	at, dir := geom.Point{}, 0.0
	if s.Wrap > 0 {
		f.Arc = float64(s.Wrap) / c.kp
		dir = f.Arc * c.meltedP
		at = geom.Pt(math.Sin(dir)/c.meltedP, geom.Sagitta(1/c.meltedP, geom.Angle(dir)))
		f.Line = f.Line.ArcTo(at, geom.Angle(dir))
	}
	// Down the tail panel by panel, from the tangent point to the roller: the
	// position at every node by the panel's own running integral.
	start := dir
	heading := func(n node) float64 { return start + s.Leg*n.freed }
	v := append([]geom.Vertex(nil), f.Line.Vertices...)
	add := func(q geom.Point, h float64) {
		if q.Dist(v[len(v)-1].Point) < 0.05 {
			return // a sliver: the next station carries its turn
		}
		v[len(v)-1].Bulge = math.Tan((h - dir) / 4)
		v = append(v, geom.Vertex{Point: q})
		dir = h
	}
	for b := len(c.nodes) - order; b >= 0; b -= order {
		panel := c.nodes[b : b+order]
		var whole geom.Point
		var cs [order]geom.Point
		for j, n := range panel {
			sin, cos := math.Sincos(heading(n))
			cs[j] = geom.Pt(cos, sin).Mul(s.Leg * n.w / gaussW[j])
			whole = whole.Add(cs[j].Mul(gaussW[j]))
		}
		for j := order - 1; j >= 0; j-- {
			var below geom.Point // from the panel's roller end to node j
			for l := range order {
				below = below.Add(cs[l].Mul(cumulative[j][l]))
			}
			add(at.Add(whole).Sub(below), heading(panel[j]))
		}
		at = at.Add(whole)
	}
	add(at, float64(f.Angle))
	f.Line.Vertices = v
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
	half := float64(f.Angle)
	end := geom.Pt(r*math.Sin(half), geom.Sagitta(r, f.Angle))
	out := geom.Polar(1, f.Angle).Left().Mul(-1) // outward normal of the drawn leg
	// outside returns how far q lies outside the drawn centreline.
	outside := func(q geom.Point) float64 {
		if a := math.Atan2(q.X, r-q.Y); a <= half {
			return math.Hypot(q.X, r-q.Y) - r
		}
		return q.Sub(end).Dot(out)
	}
	type station struct {
		p  geom.Point
		at float64
	}
	var st []station
	s := 0.0
	for _, g := range f.Line.Segments() {
		const parts = 4
		for i := range parts {
			q, _ := g.At(float64(i) / parts)
			st = append(st, station{q, s + g.Length()*float64(i)/parts})
		}
		s += g.Length()
	}
	st = append(st, station{f.Line.End(), s})
	worst := func(shift float64) (float64, float64) {
		m, at := 0.0, 0.0
		for _, t := range st {
			if d := math.Abs(outside(t.p.Add(geom.Pt(0, shift)))); d > m {
				m, at = d, t.at
			}
		}
		return m, at
	}
	// The largest distance is a convex function of the shift up to curvature
	// terms far below what a shop can measure: golden section.
	span, _ := worst(0)
	lo, hi := -2*span, 2*span
	const g = 0.6180339887498949
	a, b := hi-g*(hi-lo), lo+g*(hi-lo)
	fa, _ := worst(a)
	fb, _ := worst(b)
	for hi-lo > 1e-4 {
		if fa < fb {
			hi, b, fb = b, a, fa
			a = hi - g*(hi-lo)
			fa, _ = worst(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + g*(hi-lo)
			fb, _ = worst(b)
		}
	}
	shift := (lo + hi) / 2
	m, at := worst(shift)
	return Gap{Size: m, At: at, Shift: shift, Leg: outside(f.Line.End().Add(geom.Pt(0, shift)))}
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

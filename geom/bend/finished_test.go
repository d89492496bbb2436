package bend

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
	"overbend/profiles"
)

// finishedCases are parts with little and much tail, and one without wrap.
func finishedCases() []struct {
	name  string
	stack Stack
	rig   Rig
	block float64
	angle geom.Angle
} {
	soft := davit()
	soft.Tube.Law = profiles.RambergOsgood{Youngs: 70000, Proof: 110, Exponent: 7.7}
	plastic := davit()
	plastic.Tube.Law = epp(70000, 250)
	return []struct {
		name  string
		stack Stack
		rig   Rig
		block float64
		angle geom.Angle
	}{
		{"davit", davit(), Rig{420, 40}, 356.6, 33 * geom.Degree},
		{"soft", soft, Rig{500, 40}, 200, 60 * geom.Degree},
		{"plastic", plastic, Rig{400, 60}, 250, 45 * geom.Degree},
		{"no wrap", soft, Rig{500, 40}, 200, 9 * geom.Degree},
	}
}

// TestFinishedLine: the line starts level at the crown, is tangent at every
// joint, turns through half the part's angle, and lies where a step by step
// integration of the curvature that stays puts it.
func TestFinishedLine(t *testing.T) {
	for _, c := range finishedCases() {
		p := press(t, c.stack, c.rig, c.block)
		s := state(t)(p.ToMelted(c.angle))
		f := p.Finished(s)
		if f.Angle != s.Melted/2 {
			t.Errorf("%s: leg at %g, half the angle is %g", c.name, f.Angle, s.Melted/2)
		}
		segs := f.Line.Segments()
		dir := geom.Angle(0)
		for i, g := range segs {
			_, d := g.At(0)
			if kink := float64(d.Direction() - dir); math.Abs(kink) > 5e-4 {
				t.Errorf("%s: kink of %.2g rad before piece %d of %d, %.3g mm long", c.name, kink, i, len(segs), g.Length())
			}
			_, d = g.At(1)
			dir = d.Direction()
			if g.Length() < sliver {
				t.Errorf("%s: piece %d of %d is %.3g mm long", c.name, i, len(segs), g.Length())
			}
		}
		if math.Abs(float64(dir-f.Angle)) > 5e-4 {
			t.Errorf("%s: line ends at %.6f rad, the leg at %.6f", c.name, dir, f.Angle)
		}
		if len(segs) > 150 {
			t.Errorf("%s: %d pieces", c.name, len(segs))
		}

		h := newByHand(c.stack, s.Crown, 200)
		arc := float64(s.HalfWrap) / s.Crown
		turn := arc * f.Curvature
		near(t, c.name+": arc", f.Arc, arc, 1e-12)
		base := geom.Point{}
		if arc > 0 {
			base = geom.Pt(math.Sin(turn), 1-math.Cos(turn)).Mul(1 / f.Curvature)
		}
		pts, _, _ := h.walk(h.stays, turn, s.Arm)
		for i, q := range pts {
			q = q.Add(base)
			if q.X > f.Line.End().X {
				// Past the line's end the leg runs straight on.
				if d := q.Sub(f.Line.End()).Cross(geom.Polar(1, f.Angle)); math.Abs(d) > 2e-3 {
					t.Errorf("%s: the leg is off by %.4f mm at station %d", c.name, d, i)
					break
				}
				continue
			}
			best := math.Inf(1)
			for _, g := range segs {
				best = min(best, g.Nearest(q).Dist(q))
			}
			if best > 2e-3 {
				t.Errorf("%s: the line is off by %.4f mm at station %d", c.name, best, i)
				break
			}
		}
	}
}

// TestGap compares the largest gap with a dense computation of its own: points
// from the step by step integration, nearest points on the drawn arc and
// straight, and every shift in turn.
func TestGap(t *testing.T) {
	for _, c := range finishedCases() {
		p := press(t, c.stack, c.rig, c.block)
		s := state(t)(p.ToMelted(c.angle))
		f := p.Finished(s)
		for _, r := range []float64{0.9 / f.Curvature, 1 / f.Curvature, 1.15 / f.Curvature} {
			g := f.Gap(r)

			turn := f.Arc * f.Curvature
			var pts []geom.Point
			for i := range 200 {
				a := turn * float64(i) / 200
				pts = append(pts, geom.Pt(math.Sin(a), 1-math.Cos(a)).Mul(1/f.Curvature))
			}
			base := geom.Pt(math.Sin(turn), 1-math.Cos(turn)).Mul(1 / f.Curvature)
			h := newByHand(c.stack, s.Crown, 200)
			leg, _, _ := h.walk(h.stays, turn, s.Arm)
			for _, q := range leg {
				pts = append(pts, base.Add(q))
			}
			half := c.angle / 2
			mid := geom.Pt(r*half.Sin(), r-r*half.Cos())
			drawn := geom.Start(geom.Point{}).ArcTo(mid, half).LineTo(mid.Add(geom.Polar(4*s.Leg, half)))
			// Mirrored about the crown, so that a shift never runs off the end.
			left := geom.Start(geom.Point{}).ArcTo(geom.Pt(-mid.X, mid.Y), -half)
			segs := append(drawn.Segments(), left.Segments()...)
			worst := func(shift float64) float64 {
				most := 0.0
				for _, q := range pts {
					q.Y += shift
					d := math.Inf(1)
					for _, g := range segs {
						d = min(d, g.Nearest(q).Dist(q))
					}
					most = max(most, d)
				}
				return most
			}
			lo, hi, best := -2*worst(0), 2*worst(0), math.Inf(1)
			for range 3 { // every shift, then closer about the best
				at, step := 0.0, (hi-lo)/40
				for i := range 41 {
					if w := worst(lo + step*float64(i)); w < best {
						best, at = w, lo+step*float64(i)
					}
				}
				if best == math.Inf(1) {
					t.Fatal("no best shift")
				}
				if at == 0 && lo > 0 {
					at = g.Shift
				}
				lo, hi = at-2*step, at+2*step
			}
			if math.Abs(g.Size-best) > 0.003*best+2e-3 {
				t.Errorf("%s on a drawn radius of %.1f: gap %.4f mm, densely %.4f", c.name, r, g.Size, best)
			}
			if got := worst(g.Shift); math.Abs(got-g.Size) > 0.003*best+2e-3 {
				t.Errorf("%s on a drawn radius of %.1f: gap %.4f mm, at its own shift %.4f", c.name, r, g.Size, got)
			}
			end := base.Add(leg[len(leg)-1]).Add(geom.Pt(0, g.Shift))
			off := end.Sub(mid).Cross(geom.Polar(1, half))
			if math.Abs(g.Leg-off) > 3e-3 {
				t.Errorf("%s on a drawn radius of %.1f: legs %.4f mm apart, densely %.4f", c.name, r, g.Leg, off)
			}
			if g.At < 0 || g.At > f.Arc+s.Leg || math.Abs(g.Leg) > g.Size+1e-9 {
				t.Errorf("%s: %+v", c.name, g)
			}
		}
	}
}

// TestGapOfPlainArc: an arc with the drawing's radius has no gap; one with
// another radius has the gap that two symmetric arcs have.
func TestGapOfPlainArc(t *testing.T) {
	arc := func(r float64, half geom.Angle) Finished {
		end := geom.Pt(r*half.Sin(), geom.Sagitta(r, half))
		return Finished{Curvature: 1 / r, Arc: r * float64(half), Angle: half, Line: geom.Start(geom.Point{}).ArcTo(end, half)}
	}
	if g := arc(420, 0.3).Gap(420); g.Size > 1e-9 {
		t.Errorf("an arc differs from itself by %g mm", g.Size)
	}
	// Of radius r against R, turned alike: (r - R)(sec h - 1) apart at the legs
	// when the crowns meet, half of it at the best shift, nearly, for small h.
	const h = 0.1
	want := 20 * (1/math.Cos(h) - 1) / 2
	near(t, "gap", arc(440, h).Gap(420).Size, want, 0.01)
}

// TestRiseOver: on a plain arc the rise is geom.Rise of the inside face, and
// past its end the straight leg's.
func TestRiseOver(t *testing.T) {
	const r, depth = 420.0, 40.0
	half := 16.5 * geom.Degree
	end := geom.Pt(r*half.Sin(), geom.Sagitta(r, half))
	f := Finished{Curvature: 1 / r, Arc: r * float64(half), Angle: half, Line: geom.Start(geom.Point{}).ArcTo(end, half)}
	inside := r - depth/2
	last := 2 * inside * half.Sin()
	for _, c := range []float64{1, 50, 100, 200, last - 1e-6} {
		got, bent := f.RiseOver(c, depth)
		if !bent {
			t.Errorf("a chord of %g mm is said to end past the bend", c)
		}
		near(t, "rise", got, geom.Rise(inside, c), 1e-9)
	}
	got, bent := f.RiseOver(last+100, depth)
	if bent {
		t.Error("a chord past the bend is said to end on it")
	}
	near(t, "rise past the bend", got, geom.Sagitta(inside, half)+50*half.Tan(), 1e-9)

	// On a predicted part: between that of the arc it keeps and the leg's.
	for _, c := range finishedCases() {
		p := press(t, c.stack, c.rig, c.block)
		s := state(t)(p.ToMelted(c.angle))
		f := p.Finished(s)
		if s.HalfWrap == 0 {
			continue
		}
		short := 0.9 * 2 * (1/f.Curvature - depth/2) * math.Sin(f.Arc*f.Curvature)
		got, bent := f.RiseOver(short, depth)
		if !bent {
			t.Errorf("%s: a chord within the arc is said to end past the bend", c.name)
		}
		near(t, c.name+": rise", got, geom.Rise(1/f.Curvature-depth/2, short), 1e-9)
		wide := 2 * (f.Line.End().X + 20)
		if got, bent := f.RiseOver(wide, depth); bent || !(got > 0 && got < geom.Rise(max(wide, 1/f.Curvature), wide)+wide/2*f.Angle.Tan()) {
			t.Errorf("%s: rise %g over %g, bent %v", c.name, got, wide, bent)
		}
	}
}

// TestGapAt: at the developed length that is named the shape is as far off as the
// gap says, on one side or the other, and nowhere before is it as far.
func TestGapAt(t *testing.T) {
	checked := 0
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		p := press(t, j.stack, j.rig, j.block)
		s, err := p.ToMelted(j.angle)
		if err != nil {
			return
		}
		f := p.Finished(s)
		r := rapid.Float64Range(0.95, 1.1).Draw(t, "radius") / f.Curvature
		g := f.Gap(r)
		if !(g.Size > 1e-3) || s.HalfWrap == 0 || math.IsInf(r, 0) || g.At > f.Line.Length() {
			return
		}
		checked++
		half := float64(f.Angle)
		off := func(q geom.Point) float64 { // from arc and leg, whichever is beside
			q.Y += g.Shift
			if math.Atan2(q.X, r-q.Y) <= half {
				return math.Abs(math.Hypot(q.X, r-q.Y) - r)
			}
			end := geom.Pt(r*math.Sin(half), r-r*math.Cos(half))
			return math.Abs(q.Sub(end).Cross(geom.Polar(1, f.Angle)))
		}
		at := 0.0
		for _, seg := range f.Line.Segments() {
			l := seg.Length()
			for i := range 4 {
				q, _ := seg.At(float64(i) / 4)
				d, here := off(q), at+l*float64(i)/4
				if math.Abs(here-g.At) < 1e-9*(1+g.At) && math.Abs(d/g.Size-1) > 1e-6 {
					t.Fatalf("%g mm off at %g mm, where a gap of %g is said to be", d, here, g.Size)
				}
				if here < g.At-1e-9*(1+g.At) && d > g.Size*(1-1e-9) {
					t.Fatalf("%g mm off at %g mm already, a gap of %g said to be at %g mm", d, here, g.Size, g.At)
				}
			}
			at += l
		}
	})
	if checked == 0 {
		t.Error("no gap was checked")
	}
	t.Logf("%d checked", checked)
}

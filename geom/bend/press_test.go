package bend

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
	"overbend/profiles"
)

// TestSmallForce: while slopes are small the force is that of a beam on two
// supports, 4 M/span, with or without a little wrap.
func TestSmallForce(t *testing.T) {
	s, rig := davit(), Rig{Supports: 350, Roller: 40}
	p := press(t, s, rig, 361)
	for _, k := range []float64{1e-7, 1e-6} {
		st := state(t)(p.AtCrown(k))
		near(t, "force", st.Force, 4*s.Moment(k)/rig.Supports, 100*k)
		// Elastic: deflection F a³/(48 EI)·8 and end slope of the same beam.
		ei := s.Tube.Stiffness() + s.Filler.Stiffness() + s.Strip.Stiffness()
		near(t, "travel", st.Travel, st.Force*math.Pow(rig.Supports, 3)/(48*ei), 200*k)
		near(t, "slope", float64(st.Slope), st.Force*rig.Supports*rig.Supports/(16*ei), 200*k)
	}
	flat := press(t, s, rig, 200000)
	st := state(t)(flat.AtWrap(1e-6))
	near(t, "force on a nearly flat block", st.Force, 4*s.Moment(1/200020.0)/(rig.Supports-2*200020*1e-6), 1e-3)
}

// TestPlainArcLimits: in which limits the released angle is the plain arc's.
//
// A wide span alone is not one: a leg's tail grows with the leg, whatever the
// law, because an elastic-perfectly-plastic section still carries more moment
// after its faces have yielded (shape factor). It is one for a section whose
// moment itself is perfectly plastic, all metal at the faces: there the moment
// falls below yield at once and the leg unloads entirely.
func TestPlainArcLimits(t *testing.T) {
	law := epp(70000, 250)
	excess := func(s Stack, block, span float64, angle geom.Angle) float64 {
		p := press(t, s, Rig{Supports: span, Roller: 40}, block)
		st := state(t)(p.AtWrap(angle))
		plain := 2 * float64(st.HalfWrap) * Release(s.Tube, p.Curvature()).Ratio()
		return float64(st.Melted)/plain - 1
	}
	t.Run("faces only, wide span", func(t *testing.T) {
		last := math.Inf(1)
		for _, face := range []float64{1, 0.1, 0.01} {
			// Two faces, 40 over all, and no web.
			outer := profiles.Solid{Width: 1000, Depth: 40}
			bore := profiles.Solid{Width: 1000, Depth: 40 - 2*face}
			got := excess(Stack{Tube: Member{Outer: outer, Bore: bore, Law: law}, Depth: 40}, 300, 2000, 20*geom.Degree)
			t.Logf("faces %g mm: %.5f above the plain arc on a span of 2 m", face, got)
			if got < 0 || got > last/5 || got > 1e-4*face {
				t.Errorf("faces %g mm: released angle %.5f above the plain arc's, before %.5f", face, got, last)
			}
			last = got
		}
	})
	t.Run("short legs", func(t *testing.T) {
		s := Stack{Tube: Hollow(rectangle(40, 40, 3, 0), law), Depth: 40}
		last := math.Inf(1)
		for _, block := range []float64{400, 4000, 40000} {
			// The leg stays about two depths while the arc grows.
			p := press(t, s, Rig{Supports: 2*(block+40)*math.Sin(0.35) + 160, Roller: 40}, block)
			st := state(t)(p.AtWrap(20 * geom.Degree))
			plain := 2 * float64(st.HalfWrap) * Release(s.Tube, p.Curvature()).Ratio()
			got := float64(st.Melted) - plain
			t.Logf("block %g: leg %.0f mm, %.4f deg above the plain arc", block, st.Leg, got*180/math.Pi)
			if block < 1000 && !(got > 0.002) || !(got < last) || !(st.Leg > 20 && st.Leg < 200) {
				t.Errorf("block %g: %.5f rad above the plain arc, before %.5f; leg %.0f", block, got, last, st.Leg)
			}
			last = got
		}
		if math.Abs(last) > 1e-12 {
			t.Errorf("on a block that does not yield the tube the legs still add %g", last)
		}
	})
	t.Run("an ordinary tube on a wide span is not one", func(t *testing.T) {
		s := Stack{Tube: Hollow(rectangle(40, 40, 3, 0), law), Depth: 40}
		narrow, wide := excess(s, 300, 500, 20*geom.Degree), excess(s, 300, 2000, 20*geom.Degree)
		if !(wide > 5*narrow && wide > 0.04) {
			t.Errorf("tails add %.3f on 0.5 m and %.3f on 2 m", narrow, wide)
		}
	})
}

// ramsWork returns the ram's work from first touch to a state, force over
// travel in fine steps, and the same up to where the tube first lies on the
// block.
func ramsWork(t tester, p *Press, final State, steps int) (laid, work float64) {
	var last State
	add := func(s State, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		work += (s.Travel - last.Travel) * (s.Force + last.Force) / 2
		last = s
	}
	for i := 1; i <= steps; i++ {
		f := float64(i) / float64(steps)
		add(p.AtCrown(final.Crown * f * f))
	}
	laid = work
	for i := 1; i <= steps && final.HalfWrap > 0; i++ {
		add(p.AtWrap(final.HalfWrap * geom.Angle(i) / geom.Angle(steps)))
	}
	return laid, work
}

// closes is how well the ram's work must meet the work in the layers.
const closes = 1e-4

// TestWork: the ram's work, force over travel in fine steps from first touch to
// the final state, equals the elastic and plastic work in tube, filler and
// strip: force and shape come from different equations, and only exact statics
// make them agree.
func TestWork(t *testing.T) {
	soft := davit()
	soft.Tube.Law = profiles.RambergOsgood{Youngs: 70000, Proof: 110, Exponent: 7.7}
	bare := davit()
	bare.Filler, bare.Strip, bare.StripThickness = Member{}, Member{}, 0
	plastic := bare
	plastic.Tube.Law = epp(70000, 250)
	round := davit()
	round.Tube = Hollow(roundTube(40, 3), round.Tube.Law)
	round.Filler = Massive(roundTube(40, 3).Bore(), epp(12700, 26.2))
	for _, c := range []struct {
		name  string
		s     Stack
		rig   Rig
		block float64
		angle geom.Angle
	}{
		{"davit", davit(), Rig{350, 40}, 361, 33},
		{"davit, wide", davit(), Rig{600, 40}, 361, 33},
		{"bare", bare, Rig{480, 40}, 300, 60},
		{"perfectly plastic", plastic, Rig{400, 60}, 250, 45},
		{"soft, tight", soft, Rig{320, 40}, 120, 90},
		{"soft, wide", soft, Rig{500, 40}, 120, 60},
		{"soft, round the block", soft, Rig{420, 40}, 120, 145},
		{"round", round, Rig{400, 40}, 300, 40},
		{"no wrap", soft, Rig{500, 40}, 200, 20},
	} {
		p := press(t, c.s, c.rig, c.block)
		final := state(t)(p.ToMelted(c.angle * geom.Degree))
		first := final
		if final.HalfWrap > 0 {
			first = state(t)(p.AtWrap(0))
		}
		laid, work := ramsWork(t, p, final, 400)
		before, off := laid/first.Work-1, work/final.Work-1
		t.Logf("%-21s wrap %4.1f deg, slope %4.1f deg: ram's work off by %+.4f %% before wrapping, %+.4f %% at the end",
			c.name, final.HalfWrap.Degrees(), final.Slope.Degrees(), 100*before, 100*off)
		if !(math.Abs(off) < closes && math.Abs(before) < closes) {
			t.Errorf("%s: ram's work off by %.4f %% (%.4f %% before wrapping)", c.name, 100*off, 100*before)
		}
	}
}

// TestWorkOfRandomJobs is the same over all jobs that can be made.
func TestWorkOfRandomJobs(t *testing.T) {
	worst := 0.0
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		p := press(t, j.stack, j.rig, j.block)
		s, err := p.ToLoaded(j.angle)
		if err != nil {
			return
		}
		_, work := ramsWork(t, p, s, 400)
		off := math.Abs(work/s.Work - 1)
		worst = max(worst, off)
		if !(off < closes) {
			t.Fatalf("the ram's work is %.9g, that in the layers %.9g, off by %.1e at a slope of %.1f deg", work, s.Work, off, s.Slope.Degrees())
		}
	})
	t.Logf("off by %.1e at most", worst)
}

// byHand is one leg integrated step by step: curvature from the moment by
// bisection, slope, length and position by Runge and Kutta's rule from the
// roller up, with the moment as the variable. Nothing of the package's leg is
// used.
type byHand struct {
	curvature []float64 // at 2n+1 equal steps of moment from roller to tangent point
	stays     []float64 // the tube's curvature after melt-out at the same
}

func newByHand(s Stack, kp float64, n int) byHand {
	h := byHand{}
	mp := s.Moment(kp)
	lo := 0.0
	for i := range 2*n + 1 {
		m := mp * float64(i) / float64(2*n)
		hi := kp
		for hi-lo > 1e-15 {
			if mid := (lo + hi) / 2; s.Moment(mid) < m {
				lo = mid
			} else {
				hi = mid
			}
		}
		h.curvature = append(h.curvature, hi)
		h.stays = append(h.stays, Release(s.Tube, hi).Final)
	}
	return h
}

// walk returns the points from tangent point to roller of a leg with a lever
// arm in mm that has the curvatures f and starts at slope w, its length, and the
// slope at its end. Whatever f is, the leg was pressed with the curvatures h
// has, which say how much of it carries which moment.
func (h byHand) walk(f []float64, w, arm float64) (pts []geom.Point, length, slope float64) {
	// Pressed slope, length, slope by f, and place by f, against the roller.
	type place [5]float64
	grow := func(p place, i int) place {
		ds := arm / math.Cos(p[0])
		return place{h.curvature[i] * ds, ds, f[i] * ds, math.Cos(p[2]) * ds, math.Sin(p[2]) * ds}
	}
	add := func(p, d place, step float64) place {
		for i := range p {
			p[i] += d[i] * step
		}
		return p
	}
	n := len(f) / 2
	step := 1 / float64(n)
	p := place{}
	at := []place{p}
	for i := range n {
		a := grow(p, 2*i)
		b := grow(add(p, a, step/2), 2*i+1)
		c := grow(add(p, b, step/2), 2*i+1)
		d := grow(add(p, c, step), 2*i+2)
		p = add(add(add(add(p, a, step/6), b, step/3), c, step/3), d, step/6)
		at = append(at, p)
	}
	slope = w + p[2]
	for i := n; i >= 0; i-- {
		q := geom.Pt(p[3]-at[i][3], at[i][4]-p[4])
		sin, cos := math.Sincos(slope)
		pts = append(pts, geom.Pt(q.X*cos-q.Y*sin, q.X*sin+q.Y*cos))
	}
	return pts, p[1], slope
}

// solve returns lever arm, leg length, travel, end slope and what the legs keep
// of it on a rig.
func (h byHand) solve(p *Press, kp, w float64) (arm, length, travel, slope, kept float64) {
	d := p.stack.Depth/2 + p.stack.StripThickness + p.rig.Roller/2
	base := geom.Pt(math.Sin(w)/kp, (1-math.Cos(w))/kp)
	var end geom.Point
	lo, hi := 0.0, p.rig.Supports/2
	for range 60 {
		arm = (lo + hi) / 2
		var pts []geom.Point
		pts, length, slope = h.walk(h.curvature, w, arm)
		end = base.Add(pts[len(pts)-1])
		if end.X+d*math.Sin(slope) < p.rig.Supports/2 {
			lo = arm
		} else {
			hi = arm
		}
	}
	_, _, kept = h.walk(h.stays, 0, arm)
	return arm, length, end.Y - d*math.Cos(slope) + d, slope, kept
}

// TestLegByHand compares lever arm, leg, travel, slopes and released angle with
// the step by step integration.
func TestLegByHand(t *testing.T) {
	const steps = 500
	gentle := davit()
	gentle.Tube.Law = profiles.RambergOsgood{Youngs: 70000, Proof: 150, Exponent: 8}
	plastic := davit()
	plastic.Tube.Law = epp(70000, 250)
	for _, c := range []struct {
		name  string
		s     Stack
		block float64
		wrap  geom.Angle
		crown float64
	}{
		{"davit", davit(), 361, 18 * geom.Degree, 0},
		{"davit, no wrap", davit(), 361, 0, 0.001},
		{"gentle", gentle, 200, 30 * geom.Degree, 0},
		{"steep", gentle, 150, 55 * geom.Degree, 0},
		{"plastic", plastic, 361, 10 * geom.Degree, 0},
	} {
		p := press(t, c.s, Rig{Supports: 420, Roller: 40}, c.block)
		s, kp := state(t)(p.AtWrap(c.wrap)), p.Curvature()
		if c.crown > 0 {
			s, kp = state(t)(p.AtCrown(c.crown)), c.crown
		}
		h := newByHand(c.s, kp, steps)
		arm, l, travel, slope, kept := h.solve(p, kp, float64(c.wrap))
		near(t, c.name+": arm", s.Arm, arm, 1e-5)
		near(t, c.name+": leg", s.Leg, l, 1e-5)
		near(t, c.name+": travel", s.Travel, travel, 1e-5)
		near(t, c.name+": slope", float64(s.Slope), slope, 1e-5)
		arc := float64(c.wrap) * Release(c.s.Tube, kp).Ratio()
		near(t, c.name+": melted", float64(s.Melted), 2*(arc+kept), 1e-5)
		near(t, c.name+": push", s.Push, c.s.Moment(kp)/arm, 1e-5)
		near(t, c.name+": force", s.Force, 2*c.s.Moment(kp)/arm*math.Cos(slope), 1e-5)
	}
}

// scaled returns the job with every length f times as long.
func (j aJob) scaled(f float64) aJob {
	member := func(m Member) Member {
		for _, s := range []*profiles.Solid{&m.Outer, &m.Bore} {
			s.Width, s.Depth, s.Corner = f*s.Width, f*s.Depth, f*s.Corner
		}
		return m
	}
	j.stack.Tube, j.stack.Filler, j.stack.Strip = member(j.stack.Tube), member(j.stack.Filler), member(j.stack.Strip)
	j.stack.Depth *= f
	j.stack.StripThickness *= f
	j.rig.Supports *= f
	j.rig.Roller *= f
	j.block *= f
	return j
}

// TestScaleLaw: all lengths doubled, angles are equal, lengths double, forces
// are four times and work eight times as large.
func TestScaleLaw(t *testing.T) {
	power := map[string]float64{
		"wrap": 0, "slope": 0, "loaded": 0, "filled": 0, "melted": 0, "crown": -1,
		"leg": 1, "travel": 1, "tail": 1, "roller x": 1, "roller y": 1, "force": 2, "work": 3, "push": 2, "arm": 1, "across": 1,
	}
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		f := rapid.SampledFrom([]float64{2, 1 / 25.4, 3.7}).Draw(t, "factor")
		k := j.scaled(f)
		p, q := press(t, j.stack, j.rig, j.block), press(t, k.stack, k.rig, k.block)
		a, errA := p.ToLoaded(j.angle)
		b, errB := q.ToLoaded(j.angle)
		if errA != nil || errB != nil {
			if (errA == nil) != (errB == nil) {
				t.Fatalf("one size can, the other can't: %v, %v", errA, errB)
			}
			return
		}
		got, want := b.values(), a.values()
		for name, n := range power {
			w := want[name] * math.Pow(f, n)
			if !(math.Abs(got[name]-w) <= 1e-7*math.Abs(w)+1e-12) {
				t.Fatalf("%g times as large: %s is %g, want %g", f, name, got[name], w)
			}
		}
	})
}

// TestMirror: a bend the other way carries the moment the other way, and both
// halves of the part are alike: the line of the finished shape, mirrored, has
// its chord's ends level.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		k := rapid.Float64Range(1e-6, 0.02).Draw(t, "curvature")
		if a, b := j.stack.Moment(k), j.stack.Moment(-k); a != -b {
			t.Fatalf("moment %g at %g and %g at %g", a, k, b, -k)
		}
		a, b := Release(j.stack.Tube, k), Release(j.stack.Tube, -k)
		if a.Final != -b.Final || a.Ratio() != b.Ratio() {
			t.Fatalf("springs to %g and %g", a.Final, b.Final)
		}
	})
}

// TestRefinement: an integration refined tenfold moves no result by more than
// 0.05 %, the accuracy that the program states.
func TestRefinement(t *testing.T) {
	worst := map[string]float64{}
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		coarse := press(t, j.stack, j.rig, j.block)
		form, err := newForm(j.stack, j.block, 10)
		if err != nil {
			t.Fatal(err)
		}
		fine, err := form.On(j.rig)
		if err != nil {
			t.Fatal(err)
		}
		if n, m := len(coarse.curve.nodes), len(fine.curve.nodes); m < 9*n {
			t.Fatalf("%d nodes are refined to %d only", n, m)
		}
		share := rapid.Float64Range(0.05, 1).Draw(t, "share")
		for _, at := range []func(p *Press) (State, error){
			func(p *Press) (State, error) { return p.AtCrown(share * p.Curvature()) },
			func(p *Press) (State, error) { return p.AtWrap(j.angle / 2 * geom.Angle(share)) },
		} {
			a, errA := at(coarse)
			b, errB := at(fine)
			if errA != nil || errB != nil {
				if (errA == nil) != (errB == nil) {
					t.Fatalf("only one refinement has a state: %v, %v", errA, errB)
				}
				continue
			}
			got, want := a.values(), b.values()
			for name := range got {
				// An angle or length of nothing is nothing either way, and the
				// roller's height is the travel less a constant.
				small := 1e-9
				if name == "roller y" {
					small = 5e-4 * want["travel"]
				}
				off := math.Abs(got[name] - want[name])
				if !(off <= 5e-4*math.Abs(want[name])+small) {
					t.Fatalf("%s is %.9g, refined %.9g", name, got[name], want[name])
				}
				worst[name] = max(worst[name], off/(math.Abs(want[name])+1e-6))
			}
			// The gap depends on where its stations lie too: a thousandth of
			// a millimetre is nothing on a template.
			r := 1.02 / coarse.Curvature()
			ga, gb := coarse.Finished(a).Gap(r), fine.Finished(b).Gap(r)
			if !(math.Abs(ga.Size-gb.Size) <= 5e-4*gb.Size+1e-3) {
				t.Fatalf("gap is %.9g, refined %.9g", ga.Size, gb.Size)
			}
		}
	})
	for name, off := range worst {
		t.Logf("%-8s moves by %.1e at most", name, off)
	}
}

// TestInverses: asking for what a state has gives the state back.
func TestInverses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		p := press(t, j.stack, j.rig, j.block)
		share := rapid.Float64Range(0.01, 1).Draw(t, "share")
		var s State
		var err error
		if rapid.Bool().Draw(t, "wrapped") {
			s, err = p.AtWrap(j.angle / 2 * geom.Angle(share))
		} else {
			s, err = p.AtCrown(share * p.Curvature())
		}
		if err != nil || s.Leg < 0.3*j.stack.Depth {
			return // no such state, or past where the search ends
		}
		if w, _, err := p.mostWrap(); err != nil || float64(s.HalfWrap) > w {
			return // the same
		}
		same := func(what string, got State, err error, of func(State) float64) {
			if err != nil {
				t.Fatalf("%s: %v", what, err)
			}
			if !(math.Abs(of(got)/of(s)-1) < 1e-8) {
				t.Fatalf("%s %g gives a state with %g", what, of(s), of(got))
			}
			if !(math.Abs(got.Travel/s.Travel-1) < 1e-5) {
				t.Fatalf("%s %g gives travel %g, was %g", what, of(s), got.Travel, s.Travel)
			}
		}
		got, err := p.ToTravel(s.Travel)
		same("travel", got, err, func(s State) float64 { return s.Travel })
		got, err = p.ToLoaded(s.Loaded)
		same("loaded", got, err, func(s State) float64 { return float64(s.Loaded) })
		if s.Melted > 1e-4 {
			// Below, a Ramberg-Osgood tube keeps next to nothing and the angle
			// no longer tells one travel from another.
			got, err = p.ToMelted(s.Melted)
			same("melted", got, err, func(s State) float64 { return float64(s.Melted) })
		}
	})
}

// TestShortAngle: a part so slight that the legs alone make it has no wrap and a
// crown short of the block's curvature.
func TestShortAngle(t *testing.T) {
	p := press(t, davit(), Rig{Supports: 600, Roller: 40}, 361)
	laid := state(t)(p.AtWrap(0))
	s := state(t)(p.ToMelted(laid.Melted / 2))
	if s.HalfWrap != 0 || !(s.Crown < p.Curvature()) || !(s.Crown > 0) {
		t.Errorf("wrap %g, crown %g on a block of %g", s.HalfWrap, s.Crown, p.Curvature())
	}
	if !(s.Travel < laid.Travel && s.Force < laid.Force && s.Developed() == s.Leg) {
		t.Errorf("travel %g and force %g, laid on %g and %g", s.Travel, s.Force, laid.Travel, laid.Force)
	}
	near(t, "angle", float64(s.Melted), float64(laid.Melted/2), 1e-9)
	// The two phases meet: the last state without wrap is the first with.
	end := state(t)(p.AtCrown(p.Curvature()))
	for name, v := range end.values() {
		near(t, name, v, laid.values()[name], 1e-12)
	}
	// And join smoothly in travel: no jump on either side.
	before := state(t)(p.AtCrown(p.Curvature() * (1 - 1e-6)))
	after := state(t)(p.AtWrap(1e-6))
	near(t, "force before", before.Force, laid.Force, 1e-5)
	near(t, "force after", after.Force, laid.Force, 1e-5)
}

// TestBlockThatDoesNotYield: a block so large that a perfectly plastic tube
// stays elastic on it gives no NaN and no part.
func TestBlockThatDoesNotYield(t *testing.T) {
	s := Stack{Tube: Hollow(rectangle(40, 40, 3, 0), epp(70000, 250)), Depth: 40}
	p := press(t, s, Rig{Supports: 2000, Roller: 40}, 8000)
	st := state(t)(p.AtWrap(2 * geom.Degree))
	if math.Abs(float64(st.Melted)) > 1e-12 || st.Tail != 0 {
		t.Errorf("released angle %g, tail %g", st.Melted, st.Tail)
	}
	f := p.Finished(st)
	rise, _ := f.RiseOver(200, 40)
	if gap := f.Gap(420); math.Abs(rise) > 1e-9 || math.IsNaN(gap.Size) {
		t.Errorf("a straight tube has rise %g and gap %g", rise, gap.Size)
	}
	if _, err := p.ToMelted(geom.Degree); err == nil {
		t.Error("an elastic tube was bent by a degree")
	}
}

// TestWideSupports: on supports so wide that the tube slips through before it
// lies on a small block, slight angles can still be pressed, and the error for
// more says so.
func TestWideSupports(t *testing.T) {
	s := davit()
	s.Tube.Law = profiles.RambergOsgood{Youngs: 70000, Proof: 110, Exponent: 5}
	p := press(t, s, Rig{Supports: 1500, Roller: 40}, 80)
	if _, err := p.AtWrap(0); !slips(err) {
		t.Fatalf("lies on the block: %v", err)
	}
	st := state(t)(p.ToMelted(20 * geom.Degree))
	near(t, "angle", st.Melted.Degrees(), 20, 1e-9)
	if _, err := p.ToMelted(150 * geom.Degree); !slips(err) || !errors.Is(err, ErrNoSolution) {
		t.Errorf("150 deg: %v", err)
	}
}

// TestMostWrap: the search ends where the lever arm is a quarter of a depth.
func TestMostWrap(t *testing.T) {
	for _, supports := range []float64{300, 350, 420, 600} {
		p := press(t, davit(), Rig{Supports: supports, Roller: 40}, 361)
		w, s, err := p.mostWrap()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "arm", s.Arm, leastLeg*40, 1e-9)
		near(t, "wrap", float64(s.HalfWrap), w, 0)
		near(t, "supports", 2*s.Roller.X, supports, 1e-12)
	}
}

func TestPressErrors(t *testing.T) {
	s, rig := davit(), Rig{Supports: 350, Roller: 40}
	p := press(t, s, rig, 361)
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name string
		do   func() (any, error)
		why  Why // "": a caller's mistake, and no refusal
	}{
		{"block of 0", func() (any, error) { return onRig(s, rig, 0) }, ""},
		{"block NaN", func() (any, error) { return onRig(s, rig, nan) }, ""},
		{"block Inf", func() (any, error) { return onRig(s, rig, inf) }, ""},
		{"roller larger than the gap", func() (any, error) { return onRig(s, Rig{100, 120}, 361) }, ""},
		{"roller as large as the gap", func() (any, error) { return onRig(s, Rig{100, 100}, 361) }, ""},
		{"roller 0", func() (any, error) { return onRig(s, Rig{350, 0}, 361) }, ""},
		{"roller NaN", func() (any, error) { return onRig(s, Rig{350, nan}, 361) }, ""},
		{"supports NaN", func() (any, error) { return onRig(s, Rig{nan, 40}, 361) }, ""},
		{"supports Inf", func() (any, error) { return onRig(s, Rig{inf, 40}, 361) }, ""},
		{"too narrow", func() (any, error) { q, _ := p.On(Rig{240, 40}); return q.ToMelted(60 * geom.Degree) }, TooNarrow},
		{"no leg at all", func() (any, error) { q, _ := p.On(Rig{18, 5}); return q.ToMelted(60 * geom.Degree) }, NoLeg},
		{"wrap past the rollers", func() (any, error) { return p.AtWrap(60 * geom.Degree) }, TooNarrow},
		{"negative wrap", func() (any, error) { return p.AtWrap(-0.1) }, ""},
		{"NaN wrap", func() (any, error) { return p.AtWrap(geom.Angle(nan)) }, ""},
		{"crown 0", func() (any, error) { return p.AtCrown(0) }, ""},
		{"crown past the block's", func() (any, error) { return p.AtCrown(2 * p.Curvature()) }, ""},
		{"no angle", func() (any, error) { return p.ToMelted(0) }, ""},
		{"angle NaN", func() (any, error) { return p.ToLoaded(geom.Angle(nan)) }, ""},
		{"travel Inf", func() (any, error) { return p.ToTravel(inf) }, ""},
	} {
		got, err := c.do()
		switch {
		case err == nil:
			t.Errorf("%s: no error, %v", c.name, got)
		case c.why != "":
			wantRefusal(t, c.name, err, c.why)
		case errors.Is(err, ErrNoSolution):
			t.Errorf("%s: %v counts as a bend that can't be", c.name, err)
		}
	}
}

// TestRandomJobs: over the whole range of jobs every answer is finite and makes
// sense, and what can't be made is refused in a sentence.
func TestRandomJobs(t *testing.T) {
	made, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		p := press(t, j.stack, j.rig, j.block)
		s, err := p.ToMelted(j.angle)
		if err != nil {
			refused++
			wantRefusal(t, "random job", err, SlipsFlat, SlipsWrapped, TooNarrow, NoLeg)
			return
		}
		made++
		steps, err := p.Schedule(s)
		if err != nil {
			t.Fatal(err)
		}
		if len(steps) < 13 { // first touch and at least twelve
			t.Fatalf("schedule of %d states", len(steps))
		}
		last := steps[0]
		for i, x := range steps {
			for name, v := range x.values() {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("step %d: %s is %g", i, name, v)
				}
			}
			if i == 0 {
				continue
			}
			grow := map[string][2]float64{
				"travel": {last.Travel, x.Travel}, "loaded": {float64(last.Loaded), float64(x.Loaded)},
				"work": {last.Work, x.Work},
			}
			stay := map[string][2]float64{
				"wrap": {float64(last.HalfWrap), float64(x.HalfWrap)}, "crown": {last.Crown, x.Crown},
				"filled": {float64(last.Filled), float64(x.Filled)}, "melted": {float64(last.Melted), float64(x.Melted)},
			}
			// On a block of a few depths or more, while slopes are gentle, the
			// leg shortens as it wraps and a deeper push takes more force.
			// Beyond, neither holds: towards slipping through the leg grows
			// and the force falls.
			if j.block > 4*j.stack.Depth && x.Slope < 30*geom.Degree && last.HalfWrap > 0 {
				stay["leg, falling,"] = [2]float64{-last.Leg, -x.Leg}
			}
			if j.block > 4*j.stack.Depth && x.Slope < 10*geom.Degree {
				grow["force"] = [2]float64{last.Force, x.Force}
			}
			for name, v := range grow {
				if !(v[1] > v[0]) {
					t.Fatalf("step %d: %s goes from %.12g to %.12g", i, name, v[0], v[1])
				}
			}
			for name, v := range stay {
				if !(v[1] >= v[0]-1e-12) {
					t.Fatalf("step %d: %s goes from %.12g to %.12g", i, name, v[0], v[1])
				}
			}
			if !(x.Loaded > x.Melted && x.Loaded > x.Filled && x.Melted > -1e-12 && x.Force > 0 && x.Tail >= 0 && x.Tail < x.Leg && x.Slope < math.Pi/2) {
				t.Fatalf("step %d makes no sense: %+v", i, x)
			}
			last = x
		}
		if last != s {
			t.Fatal("the schedule does not end in the final state")
		}
		f := p.Finished(s)
		if segs := f.Line.Segments(); len(segs) > 2 && segs[len(segs)-1].Length() < sliver {
			t.Fatalf("the finished line ends in a piece of %.3g mm", segs[len(segs)-1].Length())
		}
		g := f.Gap(1 / p.curve.meltedP)
		rise, _ := f.RiseOver(j.stack.Depth, j.stack.Depth)
		for _, v := range []float64{g.Size, g.At, g.Shift, g.Leg, rise, f.Curvature, f.Arc} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("shape: %+v, gap %+v, rise %g", f.Angle, g, rise)
			}
		}
	})
	t.Logf("%d jobs made, %d refused", made, refused)
	if made < refused/2 {
		t.Error("too few of the random jobs can be made for the test to mean anything")
	}
}

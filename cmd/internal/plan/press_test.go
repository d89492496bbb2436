package plan

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// Capacity is judged with friction and the strong end of the range, and warned
// of above 80 % of it.
func TestCapacity(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "400 mm"`))
	if c.q.Share != 0 || c.q.Proposed {
		t.Errorf("without a capacity: share %g, proposed %v", c.q.Share, c.q.Proposed)
	}
	// The strong end's own press, worked out here.
	form, err := bend.NewForm(stack(c.j, c.strip, c.m.Curve.At(c.m.Spread.High).Law()), c.q.Block)
	if err != nil {
		t.Fatal(err)
	}
	model, err := form.On(c.q.Rig)
	if err != nil {
		t.Fatal(err)
	}
	final, err := model.ToMelted(c.j.Bend.Angle)
	if err != nil {
		t.Fatal(err)
	}
	course, err := model.Course(final)
	if err != nil {
		t.Fatal(err)
	}
	about(t, "needed", c.q.Needed, course.Peak(0.15), 1e-9)
	about(t, "needed by", c.q.NeededBy, c.m.Spread.High, 1e-12)
	if !(c.q.Needed > c.q.PeakRubbed) {
		t.Errorf("needed %g, by the nominal metal %g", c.q.Needed, c.q.PeakRubbed)
	}
	about(t, "final with friction", c.q.FinalRubbed, max(c.q.Final.Force, c.q.Final.ForceWithFriction(0.15)), 1e-12)
	for _, w := range []struct {
		share      float64
		near, weak words.Level
	}{{0.799, "", ""}, {0.801, words.Warning, ""}, {0.999, words.Warning, ""}, {1.001, "", words.Stop}} {
		j := c.j
		j.Press.Capacity = c.q.Needed / w.share
		got := chained(t, j)
		about(t, "share", got.q.Share, w.share, 1e-9)
		has(t, got.said, words.PressNearCapacity, w.near, words.SetUp, "press")
		has(t, got.said, words.PressTooWeak, w.weak, words.SetUp, "press.capacity")
		for _, code := range []words.Code{words.PressNearCapacity, words.PressTooWeak} {
			a := find(got.said, code)
			if a == nil {
				continue
			}
			about(t, "needed, said", figure(t, a.Reason, "needed"), c.q.Needed, 1e-9)
			about(t, "share, said", figure(t, a.Reason, "share"), w.share, 1e-9)
			about(t, "proof, said", figure(t, a.Reason, "proof"), c.m.Spread.High, 1e-9)
		}
	}
}

// On bearings friction costs nothing; a metal without a range needs what the
// nominal one needs.
func TestWithoutFriction(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "400 mm"`, "press.friction = 0"))
	if c.q.FinalRubbed != c.q.Final.Force || c.q.PeakRubbed != c.q.Peak {
		t.Errorf("friction 0: final %g and %g, peak %g and %g", c.q.FinalRubbed, c.q.Final.Force, c.q.PeakRubbed, c.q.Peak)
	}
	c = chained(t, jobOf(t, append(ownMetal(200), `press.supports = "400 mm"`)...))
	if c.q.Low != nil || c.q.High != nil || c.q.Needed != c.q.PeakRubbed || c.q.NeededBy != 200 {
		t.Errorf("no range: low %v, high %v, needed %g, peak %g, by %g", c.q.Low, c.q.High, c.q.Needed, c.q.PeakRubbed, c.q.NeededBy)
	}
	if n := len(c.q.finals()); n != 1 {
		t.Errorf("%d final states", n)
	}
}

// On supports so wide that the force falls again the peak is before the end.
func TestPeakBeforeTheEnd(t *testing.T) {
	c := chained(t, jobOf(t, `bend.radius = "300 mm"`, `bend.angle = "120 deg"`, `press.supports = "1100 mm"`))
	most, rubbed := 0.0, 0.0
	for _, s := range c.q.Schedule {
		most, rubbed = max(most, s.Force), max(rubbed, s.ForceWithFriction(0.15))
	}
	about(t, "peak", c.q.Peak, most, 1e-12)
	about(t, "peak with friction", c.q.PeakRubbed, rubbed, 1e-12)
	if c.q.Final.Force >= most {
		t.Logf("the force does not fall: %g of %g", c.q.Final.Force, most)
	}
}

// At the ends of the range, pushed as far as the nominal metal, weak metal comes
// out bent further and strong metal less.
func TestEnds(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "400 mm"`))
	for _, e := range []struct {
		name  string
		end   *PressEnd
		proof float64
		more  bool
	}{{"low", c.q.Low, c.m.Spread.Low, true}, {"high", c.q.High, c.m.Spread.High, false}} {
		if e.end == nil {
			t.Fatalf("%s: none", e.name)
		}
		about(t, e.name+": proof", e.end.Proof, e.proof, 1e-12)
		about(t, e.name+": angle", float64(e.end.Final.Melted), float64(c.j.Bend.Angle), 1e-6)
		if (e.end.AtTravel > c.j.Bend.Angle) != e.more {
			t.Errorf("%s: %v at the nominal travel, drawn %v", e.name, e.end.AtTravel, c.j.Bend.Angle)
		}
		if (e.end.Final.Travel < c.q.Final.Travel) != e.more {
			t.Errorf("%s: travel %g, nominal %g", e.name, e.end.Final.Travel, c.q.Final.Travel)
		}
	}
	if want := min(c.q.Final.Leg, c.q.Low.Final.Leg, c.q.High.Final.Leg); c.q.leg() != want {
		t.Errorf("leg %g, want %g", c.q.leg(), want)
	}
	if want := max(c.q.Final.Travel, c.q.Low.Final.Travel, c.q.High.Final.Travel); c.q.travel() != want {
		t.Errorf("travel %g, want %g", c.q.travel(), want)
	}
	if len(c.q.finals()) != 3 || len(c.q.states()) != 3+len(c.q.Schedule) {
		t.Errorf("%d finals, %d states of %d steps", len(c.q.finals()), len(c.q.states()), len(c.q.Schedule))
	}
}

// The least leg is two depths, or for a wide tube what carries the push in
// shear, at the strong end of the range.
func TestLeastLeg(t *testing.T) {
	for _, c := range []struct {
		edits []string
		shear bool
	}{{[]string{`tube.width = "20 mm"`}, false}, {nil, true}, {[]string{`tube.width = "120 mm"`, `bend.radius = "600 mm"`}, true}} {
		j := jobOf(t, c.edits...)
		m := catalogued(j)
		s, err := newSite(j, m, stripOf(j), j.Bend.Radius-20)
		if err != nil {
			t.Fatal(err)
		}
		shear := bend.LeastLeg(j.Tube, m.Curve.At(m.Spread.High).Law(), 1/j.Bend.Radius)
		if (shear > 80) != c.shear {
			t.Fatalf("%v: shear asks for %g mm", c.edits, shear)
		}
		about(t, "least leg", s.leastLeg(), max(80, shear), 1e-12)
		about(t, "limit", s.lim.LeastL, max(80, shear), 1e-12)
	}
}

// The bed bounds what is proposed; without one 3 m do. Spacings are whole tens
// of mm, or half inches, and the proposal uses 80 % of the press.
func TestLimits(t *testing.T) {
	for _, c := range []struct {
		edits []string
		want  bend.Limits
	}{
		{nil, bend.Limits{Step: 10, MostF: 0, Mu: 0.15, Largest: 3000}},
		{[]string{`units = "in"`, `press.bed = "800 mm"`, `press.capacity = "100 kN"`, "press.friction = 0.1"}, bend.Limits{Step: 12.7, MostF: 80000, Mu: 0.1, Largest: 800}},
	} {
		j := jobOf(t)
		if len(c.edits) > 0 {
			j = jobOf(t, c.edits[1:]...)
			j.Inches = true
		}
		s, err := newSite(j, catalogued(j), stripOf(j), 380)
		if err != nil {
			t.Fatal(err)
		}
		c.want.LeastL = s.leastLeg()
		if s.lim != c.want {
			t.Errorf("got %+v, want %+v", s.lim, c.want)
		}
	}
	free := chained(t, jobOf(t))
	at := free.q.Rig.Supports
	if !free.q.Proposed || math.Abs(at/10-math.Round(at/10)) > 1e-9 {
		t.Errorf("proposed %v, %g mm", free.q.Proposed, at)
	}
	// A step closer leaves too short a leg: the proposal is the closest.
	closer := chained(t, jobOf(t, fmt.Sprintf(`press.supports = "%g mm"`, at-10)))
	if free.q.leg() < free.q.LeastLeg || closer.q.leg() >= closer.q.LeastLeg {
		t.Errorf("legs of %g and, a step closer, %g mm; least %g", free.q.leg(), closer.q.leg(), free.q.LeastLeg)
	}
	bedded := chained(t, jobOf(t, fmt.Sprintf(`press.bed = "%g mm"`, at)))
	if bedded.q == nil || bedded.q.Rig.Supports != at {
		t.Errorf("a bed of %g mm: %+v", at, bedded.q)
	}
	none := chained(t, jobOf(t, fmt.Sprintf(`press.bed = "%g mm"`, at-100)))
	if none.q != nil {
		t.Errorf("a bed of %g mm: supports at %g mm", at-100, none.q.Rig.Supports)
	}
	has(t, none.said, words.NoSetUp, words.Stop, words.SetUp, "press")
}

// Leg, stroke, bed, hold and fit, each from both sides of its limit.
func TestPressLimits(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "400 mm"`))
	s, err := newSite(c.j, c.m, c.strip, c.q.Block)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []struct {
		name string
		set  func(s *site, q *Press)
		code words.Code
		is   words.Level
		step words.Step
		key  string
	}{
		{"leg left", func(_ *site, q *Press) { q.LeastLeg = q.leg() - 1e-6 }, words.LegShort, "", "", ""},
		{"leg short", func(s *site, q *Press) { q.LeastLeg = q.leg() + 1e-6; s.j.Tube.Depth = q.LeastLeg / 2 }, words.LegShort, words.Warning, words.SetUp, "press.supports"},
		{"leg not sheared", func(s *site, q *Press) { q.LeastLeg = q.leg() + 1e-6; s.j.Tube.Depth = q.LeastLeg / 1.999 }, words.LegSheared, "", "", ""},
		{"leg sheared", func(s *site, q *Press) { q.LeastLeg = q.leg() + 1e-6; s.j.Tube.Depth = q.LeastLeg / 2.001 }, words.LegSheared, words.Warning, words.SetUp, "press.supports"},
		{"stroke", func(s *site, q *Press) { s.j.Press.Stroke = q.travel() + 1e-6 }, words.StrokeTooShort, "", "", ""},
		{"stroke too short", func(s *site, q *Press) { s.j.Press.Stroke = q.travel() - 1e-6 }, words.StrokeTooShort, words.Stop, words.SetUp, "press.stroke"},
		{"travel 149.9", func(_ *site, q *Press) { q.High.Final.Travel = 149.9 }, words.LongTravel, "", "", ""},
		{"travel 150.1", func(_ *site, q *Press) { q.High.Final.Travel = 150.1 }, words.LongTravel, words.Caution, words.SetUp, "press.stroke"},
		{"travel 150.1 of a stroke", func(s *site, q *Press) { q.High.Final.Travel = 150.1; s.j.Press.Stroke = 151 }, words.LongTravel, "", "", ""},
		{"bed 700", func(_ *site, q *Press) { q.Rig.Supports = 700 }, words.WideSupports, "", "", ""},
		{"bed 700.1", func(_ *site, q *Press) { q.Rig.Supports = 700.1 }, words.WideSupports, words.Caution, words.SetUp, "press.bed"},
		{"bed given", func(s *site, q *Press) { q.Rig.Supports = 700.1; s.j.Press.Bed = 800 }, words.WideSupports, "", "", ""},
		{"on the block", func(*site, *Press) {}, words.OffTheBlock, "", "", ""},
		{"off the block", func(_ *site, q *Press) { q.Final.HalfWrap = 0 }, words.OffTheBlock, words.Warning, words.SetUp, "press"},
		{"fit 0.999", func(_ *site, q *Press) { q.Gap.Size = 0.999 }, words.OffTheDrawing, "", "", ""},
		{"fit 1.001", func(_ *site, q *Press) { q.Gap.Size = 1.001 }, words.OffTheDrawing, words.Warning, words.Check, "fit"},
	} {
		site, q := *s, *c.q
		low, high := *q.Low, *q.High
		q.Low, q.High = &low, &high
		w.set(&site, &q)
		t.Run(w.name, func(t *testing.T) { has(t, site.advice(&q), w.code, w.is, w.step, w.key) })
	}
}

// What advice promises holds when it is tried: on the supports that it names
// the warning is gone, and no other of its kind has come.
func TestPromises(t *testing.T) {
	weak := chained(t, jobOf(t, `press.supports = "320 mm"`)).q.Needed
	weaker := chained(t, jobOf(t, `press.supports = "400 mm"`)).q.Needed
	gap := func(said []words.Advice) float64 { return figure(t, find(said, words.OffTheDrawing).Reason, "gap") }
	for _, c := range []struct {
		code, found words.Code
		edits       []string
	}{
		{words.PressTooWeak, words.SupportsNeedLess, []string{`press.supports = "320 mm"`, fmt.Sprintf(`press.capacity = "%g kN"`, weak/1.15e3)}},
		{words.PressNearCapacity, words.SupportsNeedLess, []string{`press.supports = "400 mm"`, fmt.Sprintf(`press.capacity = "%g kN"`, weaker/0.99e3)}},
		{words.LegShort, words.SupportsLeaveLeg, []string{`press.supports = "320 mm"`, `tube.width = "20 mm"`}},
		{words.LegSheared, words.SupportsLeaveLeg, []string{`press.supports = "460 mm"`, `tube.width = "120 mm"`, `bend.radius = "600 mm"`}},
		{words.StrokeTooShort, words.SupportsTakeLess, []string{`press.supports = "700 mm"`, `press.stroke = "70 mm"`}},
		{words.OffTheBlock, words.SupportsLayIt, []string{`press.supports = "800 mm"`, `bend.angle = "5 deg"`}},
		{words.OffTheDrawing, words.SupportsFitBetter, append(ownMetal(200), "material.exponent = 5", `press.supports = "1200 mm"`)},
	} {
		t.Run(string(c.code), func(t *testing.T) {
			was := chained(t, jobOf(t, c.edits...))
			a := find(was.said, c.code)
			if a == nil {
				t.Fatalf("only %v", codes(was.said))
			}
			r := instead(t, a)
			if r.Code != c.found {
				t.Fatalf("got %s", r.Code)
			}
			at := figure(t, r, "supports")
			is := chained(t, jobOf(t, append(c.edits, fmt.Sprintf(`press.supports = "%g mm"`, at))...))
			if c.code == words.OffTheDrawing {
				if find(is.said, c.code) != nil && gap(is.said) >= 0.9*gap(was.said) {
					t.Errorf("%g mm: %g mm off, before %g", at, gap(is.said), gap(was.said))
				}
			} else {
				has(t, is.said, c.code, "", "", "")
			}
			has(t, is.said, words.PressTooWeak, "", "", "")
			if c.code != words.PressTooWeak && c.code != words.PressNearCapacity {
				has(t, is.said, words.LegShort, "", "", "")
				has(t, is.said, words.LegSheared, "", "", "")
			}
		})
	}
}

// Supports that the job states and that leave no leg are the job's fault, and
// the spacing named instead makes the bend.
func TestImpossibleSupports(t *testing.T) {
	j := jobOf(t, `press.supports = "200 mm"`)
	m := catalogued(j)
	o, _, _ := springback(j, m)
	_, _, err := press(j, m, stripOf(j), o.Working)
	if err == nil || !strings.Contains(err.Error(), "press.supports") {
		t.Fatalf("got %v", err)
	}
	s, err := newSite(j, m, stripOf(j), o.Nominal.Block)
	if err != nil {
		t.Fatal(err)
	}
	r := s.instead(words.Reason{Code: words.TrialsNoLesson})
	if r.Code != words.SupportsInstead {
		t.Fatalf("got %s", r.Code)
	}
	is := chained(t, jobOf(t, fmt.Sprintf(`press.supports = "%g mm"`, figure(t, r, "supports"))))
	if is.q == nil || is.q.leg() < is.q.LeastLeg {
		t.Errorf("supports instead leave too short a leg: %+v", is.q)
	}
}

// The gauge shows the peak force over the piston's area, and nothing without a
// piston.
func TestGauge(t *testing.T) {
	if c := chained(t, jobOf(t, `press.supports = "400 mm"`)); c.q.Gauge != 0 {
		t.Errorf("without a ram: %g MPa", c.q.Gauge)
	}
	c := chained(t, jobOf(t, `press.supports = "400 mm"`, `press.ram_diameter = "60 mm"`))
	about(t, "gauge", c.q.Gauge, c.q.Peak/(math.Pi*30*30), 1e-12)
}

// The strip is good for another bend where its set rises by half its thickness
// at most. The rise goes with the square of the length that was bent.
func TestStripReuse(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "400 mm"`))
	under := stack(c.j, c.strip, c.m.Curve.Law())
	a := c.strip.after(under, c.q.Final)
	if a.StripAfter != c.q.Strip.StripAfter || !(a.Rise > 0) {
		t.Fatalf("got %+v, the press has %+v", a, c.q.Strip)
	}
	k := under.StripCurvature(c.q.Final.Crown)
	bent := 2 * float64(c.q.Final.HalfWrap) / k
	kept := bend.Release(under.Strip, k).Final
	about(t, "curvature", a.Curvature, kept, 1e-9)
	about(t, "rise", a.Rise, kept*bent*bent/8, 1e-9)
	for over, want := range map[float64]bool{0.9999: true, 1.0001: false} {
		s := c.q.Final
		s.HalfWrap *= geom.Angle(math.Sqrt(over * 3 / a.Rise))
		got := c.strip.after(under, s)
		if got.Reusable != want {
			t.Errorf("rise %g mm of 6 mm: reusable %v", got.Rise, got.Reusable)
		}
		code := words.StripKeepsSet
		if want {
			code = words.StripStaysFlat
		}
		has(t, []words.Advice{got.advice()}, code, words.Note, words.Press, "strip")
	}
	// Where nothing lies on the block all of the tube between the rollers bends.
	s := c.q.Final
	s.HalfWrap = 0
	about(t, "rise off the block", c.strip.after(under, s).Rise, kept*4*s.Leg*s.Leg/8, 1e-9)
}

// The gap is where it is said to be, and nowhere larger: the line is walked in
// steps of a tenth of a mm and each point's distance measured to the drawing's
// own path.
func TestWhereTheGapIs(t *testing.T) {
	for _, edits := range [][]string{
		{`press.supports = "400 mm"`}, {`press.supports = "600 mm"`},
		{`press.supports = "900 mm"`, `bend.angle = "60 deg"`}, {`press.supports = "460 mm"`, `bend.angle = "12 deg"`},
	} {
		c := chained(t, jobOf(t, edits...))
		g, half := c.q.Gap, float64(c.q.Shape.Angle)
		end := geom.Pt(420*math.Sin(half), 420*(1-math.Cos(half)))
		leg := geom.Polar(1, geom.Angle(half))
		drawn := func(p geom.Point) float64 {
			if a := math.Atan2(p.X, 420-p.Y); a <= half {
				return math.Abs(p.Sub(geom.Pt(0, 420)).Norm() - 420)
			}
			v := p.Sub(end)
			return math.Abs(leg.X*v.Y - leg.Y*v.X)
		}
		most, at, said, s := 0.0, 0.0, math.NaN(), 0.0
		visit := func(p geom.Point, here float64) {
			d := drawn(p.Add(geom.Pt(0, g.Shift)))
			if d > most {
				most, at = d, here
			}
			if math.Abs(here-g.At) <= 0.05 {
				said = d
			}
		}
		for _, seg := range c.q.Shape.Line.Segments() {
			n := int(seg.Length()/0.1) + 1
			for i := range n {
				p, _ := seg.At(float64(i) / float64(n))
				visit(p, s+seg.Length()*float64(i)/float64(n))
			}
			s += seg.Length()
		}
		last := c.q.Shape.Line.End()
		for d := 0.0; d < 1000; d += 0.1 {
			visit(last.Add(leg.Mul(d)), s+d)
		}
		if math.Abs(said-g.Size) > 2e-3 {
			t.Errorf("%v: %g mm said at %g mm, where it is %g; largest is %g at %g", edits, g.Size, g.At, said, most, at)
		}
		if most > g.Size+0.01 {
			t.Errorf("%v: %g mm said, %g mm at %g mm", edits, g.Size, most, at)
		}
	}
}

// A metal of the range that can't be brought to the angle on these supports is
// said, by its proof stress.
func TestMetalNotReached(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "400 mm"`))
	s, err := newSite(c.j, c.m, c.strip, c.q.Block)
	if err != nil {
		t.Fatal(err)
	}
	e, said, err := s.end(nil, 3000, c.q)
	if err != nil || e != nil {
		t.Fatalf("got %+v, %v", e, err)
	}
	has(t, said, words.MetalNotReached, words.Warning, words.SetUp, "press")
	about(t, "proof", figure(t, said[0].Reason, "proof"), 3000, 1e-12)
}

// Where no other supports would do, advice says that.
func TestNoOtherSupports(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "400 mm"`, `press.bed = "400 mm"`))
	j := c.j
	j.Press.Capacity = c.q.Needed / 1.3
	got := chained(t, j)
	a := find(got.said, words.PressTooWeak)
	if a == nil {
		t.Fatalf("only %v", codes(got.said))
	}
	if r := instead(t, a); r.Code != words.NoSupportsNeedLess {
		t.Errorf("on a bed of 400 mm: %s", r.Code)
	}
	// Looked for further apart, the first that is good is named, on the step; and
	// closer none at or below the roller.
	s, err := newSite(c.j, c.m, c.strip, c.q.Block)
	if err != nil {
		t.Fatal(err)
	}
	s.lim.Largest = 3000
	var tried []float64
	s.other(c.q, wider, words.SupportsNeedLess, words.NoSupportsNeedLess, func(o *trialRun) bool {
		tried = append(tried, o.model.Rig().Supports)
		return len(tried) == 2
	})
	if len(tried) != 2 || tried[0] != 420 || tried[1] != 450 {
		t.Errorf("tried %v", tried)
	}
	tried = nil
	s.other(c.q, closer, words.SupportsFitBetter, words.NoSupportsFitBetter, func(o *trialRun) bool {
		tried = append(tried, o.model.Rig().Supports)
		return len(tried) == 2
	})
	if len(tried) != 2 || tried[0] != 380 || tried[1] != 360 {
		t.Errorf("tried %v", tried)
	}
}

// A trial run counts the range: the strong metal's force and the worse of both
// legs and travels.
func TestRunOverTheRange(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "400 mm"`))
	s, err := newSite(c.j, c.m, c.strip, c.q.Block)
	if err != nil {
		t.Fatal(err)
	}
	o, ok := s.run(c.q.Rig)
	if !ok {
		t.Fatal("the job's own supports will not do")
	}
	about(t, "needed", o.needed, c.q.Needed, 1e-9)
	about(t, "leg", o.leg, c.q.leg(), 1e-9)
	about(t, "travel", o.travel, c.q.travel(), 1e-9)
	about(t, "gap", o.gap(), c.q.Gap.Size, 1e-9)
	for capacity, want := range map[float64]bool{0: true, o.needed: true, o.needed - 1: false} {
		s.j.Press.Capacity = capacity
		if s.takes(o) != want {
			t.Errorf("a press of %g N for %g N", capacity, o.needed)
		}
	}
	s.j.Press.Capacity = 0
	for stroke, want := range map[float64]bool{0: true, o.travel: true, o.travel - 1e-3: false} {
		s.j.Press.Stroke = stroke
		if s.takes(o) != want {
			t.Errorf("a stroke of %g mm for %g mm", stroke, o.travel)
		}
	}
}

// What less force or a longer leg would take is not advised where the ram does
// not reach so far.
func TestAdviceKeepsToTheStroke(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "320 mm"`))
	for _, stroke := range []float64{c.q.travel() + 0.5, c.q.travel() + 100} {
		j := c.j
		j.Press.Capacity, j.Press.Stroke = c.q.Needed/1.1, stroke
		short := stroke < c.q.travel()+1
		got := chained(t, j)
		for code, none := range map[words.Code]words.Code{words.PressTooWeak: words.NoSupportsNeedLess, words.LegSheared: words.NoSupportsLeaveLeg} {
			a := find(got.said, code)
			if a == nil {
				t.Fatalf("stroke %g: no %s", stroke, code)
			}
			r := a.Reason.Figures["instead"].(words.Reason)
			if (r.Code == none) != short {
				t.Errorf("stroke %g: %s says %s", stroke, code, r.Code)
			}
			if !short {
				j.Press.Supports = figure(t, r, "supports")
				has(t, chained(t, j).said, words.StrokeTooShort, "", words.SetUp, "press.stroke")
			}
		}
	}
}

// The force that a press must have counts a roller that rubs less than stated:
// on close supports that takes more.
func TestNeedsTheLargerForce(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "360 mm"`))
	bare := c.q.Schedule[len(c.q.Schedule)-1]
	if !(bare.ForceWithFriction(c.j.Press.Friction) < bare.Force) {
		t.Fatal("friction takes more here as well")
	}
	about(t, "peak", c.q.PeakRubbed, c.q.Peak, 1e-12)
	about(t, "final", c.q.FinalRubbed, bare.Force, 1e-12)
}

// A strip is as bought: the job's, or the stock thickness nearest to a sixth of
// the depth.
func TestStripOf(t *testing.T) {
	if s := stripOf(jobOf(t)); s.Thickness != 6 {
		t.Errorf("the job's: %g", s.Thickness)
	}
	for depth, want := range map[string]float64{"30 mm": 5, "60 mm": 10, "40 mm": 6} {
		if s := stripOf(jobOf(t, "strip.thickness =", `tube.depth = "`+depth+`"`)); s.Thickness != want {
			t.Errorf("depth %s: %g mm, want %g", depth, s.Thickness, want)
		}
	}
}

// What is said of a bend that never lies on the block, of a press and of a strip
// are their own figures.
func TestPressFigures(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "800 mm"`, `bend.angle = "5 deg"`, `press.capacity = "5 kN"`))
	a := find(c.said, words.OffTheBlock)
	if a == nil {
		t.Fatalf("only %v", codes(c.said))
	}
	about(t, "radius", figure(t, a.Reason, "radius"), 1/c.q.Final.Crown, 1e-12)
	about(t, "wanted", figure(t, a.Reason, "wanted"), c.q.Block+20, 1e-12)
	if a = find(c.said, words.PressTooWeak); a == nil {
		t.Fatalf("only %v", codes(c.said))
	}
	about(t, "capacity", figure(t, a.Reason, "capacity"), 5000, 1e-12)
	c = chained(t, jobOf(t))
	r := c.q.Strip.Radius()
	if got := figure(t, c.q.Strip.advice().Reason, "radius"); got != r {
		t.Errorf("strip keeps a radius of %g mm, said %g", r, got)
	}
}

// A stroke's promise keeps the leg and the press's strength.
func TestPromiseKeepsTheRest(t *testing.T) {
	c := chained(t, jobOf(t, `press.supports = "700 mm"`, `press.stroke = "40 mm"`))
	a := find(c.said, words.StrokeTooShort)
	if a == nil {
		t.Fatalf("only %v", codes(c.said))
	}
	// 40 mm of travel would leave too short a leg.
	if r := instead(t, a); r.Code != words.NoSupportsTakeLess {
		is := chained(t, jobOf(t, fmt.Sprintf(`press.supports = "%g mm"`, figure(t, r, "supports"))))
		t.Errorf("%g mm would leave a leg of %g mm, least %g", is.q.Rig.Supports, is.q.leg(), is.q.LeastLeg)
	}
	// Nor does a press that is too weak on closer supports help.
	edits := []string{`press.supports = "700 mm"`, `press.stroke = "70 mm"`}
	need := chained(t, jobOf(t, edits...)).q.Needed
	c = chained(t, jobOf(t, append(edits, fmt.Sprintf(`press.capacity = "%g kN"`, need*1.01/1000))...))
	if r := instead(t, find(c.said, words.StrokeTooShort)); r.Code != words.NoSupportsTakeLess {
		t.Errorf("a press at its limit: %s %v", r.Code, r.Figures)
	}
}

// What is kept of the supports that were proposed for the strong metal serves on
// those supports alone.
func TestOtherSupportsAreWorkedOut(t *testing.T) {
	j := jobOf(t, ``)
	m, _, err := metal(j, stripOf(j))
	if err != nil {
		t.Fatal(err)
	}
	s, err := newSite(j, m, stripOf(j), 356)
	if err != nil {
		t.Fatal(err)
	}
	model, _, err := s.on()
	if err != nil {
		t.Fatal(err)
	}
	for _, more := range []float64{0, 100, 200} {
		rig := model.Rig()
		rig.Supports += more
		o, ok := s.run(rig)
		if !ok {
			t.Fatalf("nothing on %v", rig)
		}
		strong, err := s.strong.On(rig)
		if err != nil {
			t.Fatal(err)
		}
		final, err := strong.ToMelted(j.Bend.Angle)
		if err != nil {
			t.Fatal(err)
		}
		peak, err := strong.Peak(final, j.Press.Friction)
		if err != nil {
			t.Fatal(err)
		}
		about(t, "needed", o.needed, peak, 1e-9)
		about(t, "travel", o.travel, final.Travel, 1e-9)
	}
}

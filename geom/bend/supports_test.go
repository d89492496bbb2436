package bend

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// TestProposeSupports compares the proposal with a scan of every spacing from
// the closest up.
func TestPropose(t *testing.T) {
	found, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		p := press(t, j.stack, j.rig, j.block)
		d := j.stack.Depth
		lim := Limits{Step: d * rapid.Float64Range(0.2, 1).Draw(t, "step/depth"), LeastL: d * rapid.Float64Range(0.5, 4).Draw(t, "leg/depth")}
		lim.Largest = j.rig.Supports * rapid.Float64Range(0.8, 2).Draw(t, "largest")
		lim.Mu = rapid.SampledFrom([]float64{0, 0.15, 0.4}).Draw(t, "friction")
		if s, err := p.ToMelted(j.angle); err == nil && rapid.Bool().Draw(t, "limited") {
			lim.MostF = s.Force * rapid.Float64Range(0.5, 1.5).Draw(t, "force share")
		}
		var want float64
		var leg, force float64
		for n := 1; float64(n)*lim.Step <= lim.Largest; n++ {
			q, err := p.On(Rig{Supports: float64(n) * lim.Step, Roller: j.rig.Roller})
			if err != nil {
				continue
			}
			s, err := q.ToMelted(j.angle)
			if err != nil || s.Leg < lim.LeastL {
				continue
			}
			steps, err := q.Schedule(s)
			if err != nil {
				t.Fatal(err)
			}
			force = 0
			for _, x := range steps {
				force = max(force, x.Force, x.ForceWithFriction(lim.Mu))
			}
			if lim.MostF == 0 || force <= lim.MostF {
				want, leg = q.Rig().Supports, s.Leg
				break
			}
		}
		q, s, err := p.Propose(j.angle, j.rig.Roller, lim)
		if want == 0 {
			none++
			if err == nil {
				t.Fatalf("proposed %g mm, leg %.4g, force %.4g, where no spacing fits", q.Rig().Supports, s.Leg, s.Force)
			}
			r := wantRefusal(t, "no supports", err, NoSpacing, RollerTooWide, TooMuchForce, LegTooShort, TooNarrow, NoLeg)
			if r.Spacing != lim.Largest {
				t.Fatalf("refused for spacings up to %g, want %g", r.Spacing, lim.Largest)
			}
			return
		}
		found++
		if err != nil {
			t.Fatalf("%g mm fits with a leg of %g, but: %v", want, leg, err)
		}
		course, err := q.Course(s)
		if err != nil {
			t.Fatal(err)
		}
		if course.Peak(0) != slices.MaxFunc(course.Steps, func(a, b State) int { return cmp.Compare(a.Force, b.Force) }).Force {
			t.Fatalf("a peak of %g over %v", course.Peak(0), course.Steps)
		}
		if peak, err := q.Peak(s, lim.Mu); err != nil || peak != course.Peak(lim.Mu) {
			t.Fatalf("a peak of %g, %v, over a course of %g", peak, err, course.Peak(lim.Mu))
		}
		if got := q.Rig().Supports; math.Abs(got-want) > 1e-9*want {
			t.Fatalf("proposed %g mm, the closest is %g mm (leg %.5g of at least %.5g, force %.5g of at most %.5g)", got, want, leg, lim.LeastL, force, lim.MostF)
		}
		if !(math.Abs(float64(s.Melted/j.angle)-1) < 1e-8) || s.Leg < lim.LeastL || lim.MostF > 0 && course.Peak(lim.Mu) > lim.MostF {
			t.Fatalf("the final state is not the job's: %+v", s)
		}
	})
	t.Logf("%d found, %d refused", found, none)
}

func TestProposeSupportsRefusals(t *testing.T) {
	p := press(t, davit(), Rig{Supports: 350, Roller: 40}, 356.6)
	for _, c := range []struct {
		name string
		lim  Limits
		want Refusal // figures left at 0 are not looked at
	}{
		{"press too weak", Limits{Step: 10, LeastL: 80, MostF: 5e3, Largest: 800}, Refusal{Why: TooMuchForce, At: 800, Most: 5e3, Spacing: 800}},
		{"legs too long", Limits{Step: 10, LeastL: 500, Largest: 400}, Refusal{Why: LegTooShort, At: 400, Least: 500, Spacing: 400}},
		{"no room", Limits{Step: 10, LeastL: 80, Largest: 200}, Refusal{Why: TooNarrow, At: 200, Value: 356.6, Spacing: 200}},
		{"less than a roller", Limits{Step: 10, LeastL: 80, Largest: 30}, Refusal{Why: RollerTooWide, Value: 40, Most: 30, Spacing: 30}},
	} {
		_, _, err := p.Propose(33*geom.Degree, 40, c.lim)
		got := *wantRefusal(t, c.name, err, c.want.Why)
		if c.want.Value == 0 {
			if !(got.Value > c.want.Most || got.Value < c.want.Least) {
				t.Errorf("%s: a value of %g is allowed", c.name, got.Value)
			}
			got.Value = 0
		}
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// TestSchedule: what the steps are for. Monotony and finiteness over random jobs
// are in TestRandomJobs.
func TestSchedule(t *testing.T) {
	for _, c := range finishedCases() {
		p := press(t, c.stack, c.rig, c.block)
		final := state(t)(p.ToMelted(c.angle))
		steps, err := p.Schedule(final)
		if err != nil {
			t.Fatal(err)
		}
		touch := steps[0]
		if touch.Travel != 0 || touch.Force != 0 || touch.Work != 0 || touch.Leg != c.rig.Supports/2 || touch.Loaded != 0 {
			t.Errorf("%s: does not begin at first touch: %+v", c.name, touch)
		}
		if len(steps) < 13 || steps[len(steps)-1] != final {
			t.Errorf("%s: %d steps", c.name, len(steps))
		}
		// The crown's moment at the stops before wrapping is the share asked.
		for i, q := range crownStops {
			near(t, c.name+": crown moment", c.stack.Moment(steps[i+1].Crown)/c.stack.Moment(final.Crown), q, 1e-7)
		}
		// Creeping up: the last step before the end is a small one.
		if last := steps[len(steps)-2]; !(final.Travel-last.Travel < 0.12*final.Travel) {
			t.Errorf("%s: last step from %.1f to %.1f mm", c.name, last.Travel, final.Travel)
		}
		for i, s := range steps[1:] {
			again := state(t)(p.ToTravel(s.Travel))
			near(t, c.name+": force by travel", again.Force, s.Force, 1e-6)
			if i < len(crownStops) && s.HalfWrap != 0 {
				t.Errorf("%s: wraps at step %d", c.name, i)
			}
		}
	}
	p := press(t, davit(), Rig{Supports: 350, Roller: 40}, 361)
	if s, err := p.Schedule(State{}); err == nil {
		t.Errorf("schedule to nothing: %v", s)
	}
}

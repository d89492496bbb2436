package bend

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// TestProposeSupports compares the proposal with a scan of every spacing from
// the closest up.
func TestProposeSupports(t *testing.T) {
	found, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		p := press(t, j.stack, j.rig, j.block)
		d := j.stack.Depth
		lim := Limits{Step: d * rapid.Float64Range(0.2, 1).Draw(t, "step/depth"), LeastL: d * rapid.Float64Range(0.5, 4).Draw(t, "leg/depth")}
		lim.Largest = j.rig.Supports * rapid.Float64Range(0.8, 2).Draw(t, "largest")
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
				force = max(force, x.Force)
			}
			if lim.MostF == 0 || force <= lim.MostF {
				want, leg = q.Rig().Supports, s.Leg
				break
			}
		}
		q, s, err := p.ProposeSupports(j.angle, j.rig.Roller, lim)
		if want == 0 {
			none++
			if err == nil {
				t.Fatalf("proposed %g mm, leg %.4g, force %.4g, where no spacing fits", q.Rig().Supports, s.Leg, s.Force)
			}
			checkSentence(t, "no supports", err)
			if !errors.Is(err, ErrNoSolution) || !strings.Contains(err.Error(), "no supports up to") {
				t.Fatalf("refused with %v", err)
			}
			return
		}
		found++
		if err != nil {
			t.Fatalf("%g mm fits with a leg of %g, but: %v", want, leg, err)
		}
		if got := q.Rig().Supports; math.Abs(got-want) > 1e-9*want {
			t.Fatalf("proposed %g mm, the closest is %g mm (leg %.5g of at least %.5g, force %.5g of at most %.5g)", got, want, leg, lim.LeastL, force, lim.MostF)
		}
		if !(math.Abs(float64(s.Melted/j.angle)-1) < 1e-8) || s.Leg < lim.LeastL || lim.MostF > 0 && s.Force > lim.MostF {
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
		says string
	}{
		{"press too weak", Limits{Step: 10, LeastL: 80, MostF: 5e3, Largest: 800}, "kN and may be 5.0 kN"},
		{"legs too long", Limits{Step: 10, LeastL: 500, Largest: 400}, "mm and must be 500 mm"},
		{"no room", Limits{Step: 10, LeastL: 80, Largest: 200}, "too narrow"},
		{"less than a roller", Limits{Step: 10, LeastL: 80, Largest: 30}, "further apart than a roller of 40 mm"},
	} {
		_, _, err := p.ProposeSupports(33*geom.Degree, 40, c.lim)
		if err == nil {
			t.Errorf("%s: proposed", c.name)
			continue
		}
		checkSentence(t, c.name, err)
		if !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %q does not say %q", c.name, err, c.says)
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
			if i < len(crownStops) && s.Wrap != 0 {
				t.Errorf("%s: wraps at step %d", c.name, i)
			}
		}
	}
	p := press(t, davit(), Rig{Supports: 350, Roller: 40}, 361)
	if s, err := p.Schedule(State{}); err == nil {
		t.Errorf("schedule to nothing: %v", s)
	}
}

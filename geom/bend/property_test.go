package bend

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
	"overbend/profiles"
)

// with returns the job with its tube's section and metal changed, and the filler
// cast to the new bore.
func (j aJob) with(sec profiles.Section, law profiles.Law) aJob {
	j.stack.Tube = Hollow(sec, law)
	j.stack.Depth = sec.Depth
	if !j.stack.Filler.None() {
		j.stack.Filler.Outer = sec.Bore()
	}
	return j
}

// section returns the job's tube as a section.
func (j aJob) section() profiles.Section {
	o, b := j.stack.Tube.Outer, j.stack.Tube.Bore
	return profiles.Section{Shape: o.Shape, Width: o.Width, Depth: o.Depth, Corner: o.Corner, Wall: (o.Depth - b.Depth) / 2}
}

// harder returns the law with its proof or yield stress f times as high.
func harder(law profiles.Law, f float64) profiles.Law {
	switch l := law.(type) {
	case profiles.RambergOsgood:
		l.Proof *= f
		return l
	case profiles.ElasticPlastic:
		l.Yield *= f
		return l
	}
	panic("bend: no law to harden")
}

// drawFactor draws a factor from next to nothing to half as much again.
func drawFactor(t *rapid.T) float64 {
	return 1 + math.Exp(rapid.Float64Range(math.Log(1e-4), math.Log(0.5)).Draw(t, "ln more"))
}

// TestMonotone: a harder metal springs back more, needs more force and is
// brought to less; a larger drawn radius needs a larger block and stretches
// less; a thicker wall carries more, needs more force, and holds longer against
// buckling.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, f := drawJob(t), drawFactor(t)
		sec, law := j.section(), j.stack.Tube.Law
		rises := func(what string, from, to float64) {
			if !(to > from) {
				t.Fatalf("by a factor of %.6g: %s goes from %.12g to %.12g", f, what, from, to)
			}
		}
		pressed := func(s profiles.Section, l profiles.Law, radius float64) Springback {
			b, err := Overbend(Hollow(s, l), 1/radius)
			if err != nil {
				t.Fatal(err)
			}
			return b
		}
		strain := func(s profiles.Section, l profiles.Law) float64 {
			b, err := BucklingStrain(s, l, 0.33)
			if err != nil {
				t.Fatal(err)
			}
			return b.Strain
		}
		radius := j.block + sec.Depth/2
		hard, a := harder(law, f), pressed(sec, law, radius)
		rises("pressed curvature with proof stress", a.Pressed, pressed(sec, hard, radius).Pressed)
		rises("pressed radius with the drawn", 1/a.Pressed, 1/pressed(sec, law, radius*f).Pressed)
		rises("outer stretch with curvature", deformed(t, sec, law, Member{}, 1/(radius*f)).OuterStrain, deformed(t, sec, law, Member{}, 1/radius).OuterStrain)

		thick := sec
		thick.Wall = min(sec.Wall*f, 0.45*min(sec.Width, sec.Depth))
		if thick.Corner > 0 {
			thick.Corner = sec.Corner // as drawn: the bore's own corner shrinks
		}
		if thick.Wall > sec.Wall*(1+1e-6) {
			rises("moment with wall", a.Moment, Hollow(thick, law).Moment(a.Pressed))
			// A perfectly plastic cylinder gives way where it yields, whatever its
			// wall, and a stout wall not at all.
			rises("buckling strain with wall", strain(sec, law)*(1-1e-9), strain(thick, law))
		}

		s, err := press(t, j.stack, j.rig, j.block).ToLoaded(j.angle)
		// Where the legs stand steep a stiffer tube may need less.
		if err != nil || s.HalfWrap == 0 || s.Slope > 35*geom.Degree {
			return
		}
		h := j.with(sec, hard)
		if x, err := press(t, h.stack, h.rig, h.block).AtWrap(s.HalfWrap); err == nil {
			rises("force with proof stress", s.Force*(1-1e-9), x.Force) // the same where nothing yields
		}
		if x, err := press(t, h.stack, h.rig, h.block).ToTravel(s.Travel); err == nil && s.Melted > 1e-3 && j.stack.Filler.None() && j.stack.Strip.None() {
			rises("angle with softness", float64(x.Melted), float64(s.Melted))
		}
		if w := j.with(thick, law); thick.Wall > sec.Wall*(1+1e-6) {
			if x, err := press(t, w.stack, w.rig, w.block).AtWrap(s.HalfWrap); err == nil {
				rises("force with wall", s.Force, x.Force)
			}
		}
	})
}

// TestNoJump: an input that changes by 1e-6 of itself changes no result by more
// than two hundred times that.
func TestNoJump(t *testing.T) {
	worst := map[string]float64{}
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		const little = 1 + 1e-6
		k := j
		what := rapid.SampledFrom([]string{"proof", "wall", "block", "supports", "angle"}).Draw(t, "what")
		switch what {
		case "proof":
			k = j.with(j.section(), harder(j.stack.Tube.Law, little))
		case "wall":
			sec := j.section()
			sec.Wall *= little
			k = j.with(sec, j.stack.Tube.Law)
		case "block":
			k.block *= little
		case "supports":
			k.rig.Supports *= little
		case "angle":
			k.angle *= little
		}
		a, errA := press(t, j.stack, j.rig, j.block).ToLoaded(j.angle)
		b, errB := press(t, k.stack, k.rig, k.block).ToLoaded(k.angle)
		if errA != nil || errB != nil {
			return
		}
		got, want := b.values(), a.values()
		for name := range got {
			// Against what the thing is of: an angle of the whole one, a length of
			// the leg.
			scale := math.Abs(want[name])
			switch name {
			case "wrap", "filled", "melted":
				scale = float64(a.Loaded)
			case "tail", "across", "roller y", "travel":
				scale = a.Arm
			}
			off := math.Abs(got[name]-want[name]) / scale
			worst[name] = max(worst[name], off)
			if !(off < 2e-4) {
				t.Fatalf("%s a millionth more: %s goes from %.12g to %.12g", what, name, want[name], got[name])
			}
		}
	})
	for name, off := range worst {
		t.Logf("%-8s moves by %.1e at most", name, off)
	}
}

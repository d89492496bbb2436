package bend

import (
	"math"
	"testing"

	"overbend/geom"
	"overbend/profiles"
)

// benchCase is a tube whose moment costs more or less to compute.
type benchCase struct {
	name  string
	stack Stack
	block float64 // mm
}

func benchCases() []benchCase {
	sharp := profiles.Section{Width: 40, Depth: 40, Wall: 3}
	cornered := profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: 6}
	round := profiles.Section{Shape: profiles.Round, Width: 40, Depth: 40, Wall: 3}
	law := profiles.RambergOsgood{Youngs: 70000, Proof: 287.5, Exponent: 29.63}
	alloy := profiles.ElasticPlastic{Youngs: 12700, Yield: 26.2}
	strip := profiles.RambergOsgood{Youngs: 200000, Proof: 370, Exponent: 22}
	var out []benchCase
	for _, c := range []struct {
		name string
		s    profiles.Section
	}{{"sharp", sharp}, {"cornered", cornered}, {"round", round}} {
		out = append(out, benchCase{c.name, Stack{
			Tube:           Hollow(c.s, law),
			Filler:         Massive(c.s.Bore(), alloy),
			Strip:          Massive(profiles.Solid{Width: 40, Depth: 6}, strip),
			Depth:          c.s.Depth,
			StripThickness: 6,
		}, 361})
	}
	return out
}

var benchRig = Rig{Supports: 350, Roller: 40}

func each(b *testing.B, f func(b *testing.B, c benchCase)) {
	for _, c := range benchCases() {
		b.Run(c.name, func(b *testing.B) { b.ReportAllocs(); f(b, c) })
	}
}

func BenchmarkMoment(b *testing.B) {
	each(b, func(b *testing.B, c benchCase) {
		tube, filler := c.stack.Tube.upTo(1.0/381), c.stack.Filler.upTo(1.0/381)
		for b.Loop() {
			tube.Moment(1.0 / 381)
			filler.Moment(1.0 / 381)
		}
	})
}

func BenchmarkOverbend(b *testing.B) {
	each(b, func(b *testing.B, c benchCase) {
		for b.Loop() {
			if _, err := Overbend(c.stack.Tube, 1.0/420); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkNewForm(b *testing.B) {
	each(b, func(b *testing.B, c benchCase) {
		for b.Loop() {
			if _, err := onRig(c.stack, benchRig, c.block); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func benchPress(b *testing.B, c benchCase) *Press {
	p, err := onRig(c.stack, benchRig, c.block)
	if err != nil {
		b.Fatal(err)
	}
	return p
}

func BenchmarkToMelted(b *testing.B) {
	each(b, func(b *testing.B, c benchCase) {
		p := benchPress(b, c)
		for b.Loop() {
			if _, err := p.ToMelted(33 * geom.Degree); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkSchedule(b *testing.B) {
	each(b, func(b *testing.B, c benchCase) {
		p := benchPress(b, c)
		s, err := p.ToMelted(33 * geom.Degree)
		if err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			if _, err := p.Schedule(s); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkPropose(b *testing.B) {
	each(b, func(b *testing.B, c benchCase) {
		p := benchPress(b, c)
		lim := Limits{Step: 10, LeastL: 80, MostF: 60e3, Largest: 1200}
		for b.Loop() {
			if _, _, err := p.Propose(33*geom.Degree, 40, lim); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkFinished(b *testing.B) {
	each(b, func(b *testing.B, c benchCase) {
		p := benchPress(b, c)
		s, err := p.ToMelted(33 * geom.Degree)
		if err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			p.Finished(s).Gap(420)
		}
	})
}

func BenchmarkFitTrials(b *testing.B) {
	each(b, func(b *testing.B, c benchCase) {
		trials := []Trial{{
			Block: 300, Travel: 40, Loaded: geom.Angle(math.NaN()), Filled: geom.Angle(math.NaN()),
			Melted: 33 * geom.Degree, Chord: math.NaN(), Rise: math.NaN(),
			AngleError: 0.25 * geom.Degree, RiseError: 0.5,
		}}
		build := func(proof, exponent float64) Stack {
			s := c.stack
			s.Tube.Law = profiles.RambergOsgood{Youngs: 70000, Proof: proof, Exponent: exponent}
			return s
		}
		for b.Loop() {
			if _, err := FitTrials(trials, benchRig, build, 287.5, 29.63); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkShow is what one run of the program asks of this package: three
// proof levels on supports given, and the schedule and shape of the middle one.
func BenchmarkShow(b *testing.B) {
	each(b, func(b *testing.B, c benchCase) {
		for b.Loop() {
			for i, proof := range []float64{250, 287.5, 333.5} {
				s := c.stack
				s.Tube.Law = profiles.RambergOsgood{Youngs: 70000, Proof: proof, Exponent: 29.63}
				sb, err := Overbend(s.Tube, 1.0/420)
				if err != nil {
					b.Fatal(err)
				}
				p, err := onRig(s, benchRig, 1/sb.Pressed-s.Depth/2)
				if err != nil {
					b.Fatal(err)
				}
				st, err := p.ToMelted(33 * geom.Degree)
				if err != nil {
					b.Fatal(err)
				}
				if i == 1 {
					if _, err := p.Schedule(st); err != nil {
						b.Fatal(err)
					}
					p.Finished(st).Gap(420)
				}
			}
		}
	})
}

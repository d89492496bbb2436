package bend

import (
	"math"
	"testing"
)

// TestSample compares a sampled law with the law itself, finely, inside its
// range and past it, and checks that the rest is the law's own.
func TestSample(t *testing.T) {
	for name, law := range testLaws() {
		for _, top := range []float64{0.001, 0.01, 0.3} {
			s := sample(law, top)
			worst, worstMoment := 0.0, 0.0
			for i := range 5001 {
				e := top * 1.01 * float64(i) / 5000
				got, want := s.Stress(e), law.Stress(e)
				both, m := s.StressWithMoment(e)
				if both != got || m != s.StressMoment(-e) {
					t.Fatalf("%s: %g and %g at %g together, %g and %g alone", name, both, m, e, got, s.StressMoment(-e))
				}
				if i > 0 {
					worstMoment = max(worstMoment, math.Abs(m/law.StressMoment(e)-1))
				}
				// Relative to the stress at the end of the panel at most a
				// third away: what a moment feels.
				if d := math.Abs(got-want) / (law.Stress(e+top/100) + 1e-300); d > worst {
					worst = d
				}
				if back := s.Stress(-e); back != -got {
					t.Fatalf("%s: stress %g at %g, %g at the opposite", name, got, e, back)
				}
			}
			if worst > 2e-8 || worstMoment > 1e-8 {
				t.Errorf("%s to %g: stress off by %.1e, its moment by %.1e, in %d panels", name, top, worst, worstMoment, len(s.coef))
			}
			if len(s.coef) > 60 {
				t.Errorf("%s to %g: %d panels", name, top, len(s.coef))
			}
			if s.YieldStrain() != law.YieldStrain() || s.Tangent(top/2) != law.Tangent(top/2) {
				t.Errorf("%s: not the law's own", name)
			}
		}
	}
}

// TestUpTo: a member with its law sampled carries the same moment and slope.
func TestUpTo(t *testing.T) {
	for section, m := range testSections() {
		for name, law := range testLaws() {
			m.Law = law
			top := 0.3 / (m.Outer.Depth / 2)
			fast := m.upTo(top)
			for k := top; k > 1e-6; k /= 3 {
				a, da := fast.momentSlope(k)
				b, db := m.momentSlope(k)
				if math.Abs(a/b-1) > 2e-8 || math.Abs(da-db) > 1e-7*b/k {
					t.Errorf("%s, %s, k %.3g: moment off by %.1e, slope by %.1e of M/k", section, name, k, a/b-1, (da-db)*k/b)
				}
			}
		}
	}
}

func BenchmarkSample(b *testing.B) {
	law := benchCases()[0].stack.Tube.Law
	b.Run("build", func(b *testing.B) {
		for b.Loop() {
			sample(law, 0.0525)
		}
	})
	s := sample(law, 0.0525)
	read := func(b *testing.B, stress func(float64) float64) {
		e := 0.0
		for b.Loop() {
			if e += 1.3e-4; e > 0.0525 {
				e = 0
			}
			stress(e)
		}
	}
	b.Run("read", func(b *testing.B) { read(b, s.Stress) })
	b.Run("law", func(b *testing.B) { read(b, law.Stress) })
}

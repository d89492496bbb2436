package profiles_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"overbend/profiles"
)

// relative reports how far got lies from want, relative to want; infinitely far
// where one is no number.
func relative(got, want float64) float64 {
	switch d := math.Abs(got-want) / math.Abs(want); {
	case got == want:
		return 0
	case math.IsNaN(d):
		return math.Inf(1)
	default:
		return d
	}
}

// anyRambergOsgood draws a curve from far beyond what metals have.
func anyRambergOsgood(t *rapid.T) profiles.RambergOsgood {
	return profiles.RambergOsgood{
		Youngs:   logBetween(t, 1e3, 3e5, "E"),
		Proof:    logBetween(t, 5, 2000, "proof"),
		Exponent: rapid.Float64Range(1, 80).Draw(t, "n"),
	}
}

func anyStrain(t *rapid.T) float64 { return logBetween(t, 1e-9, 0.5, "strain") }

// logBetween draws a number whose logarithm is evenly spread.
func logBetween(t *rapid.T, low, high float64, label string) float64 {
	u := rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, label)
	return max(low, min(high, math.Exp(u)))
}

func TestStressInvertsStrain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, e := anyRambergOsgood(t), anyStrain(t)
		if d := relative(l.Strain(l.Stress(e)), e); d > 1e-12 {
			t.Fatalf("%+v: strain %g comes back %g off", l, e, d)
		}
		if l.Stress(-e) != -l.Stress(e) {
			t.Fatalf("%+v: not odd at %g", l, e)
		}
	})
}

// The knee of each curve, where the solver works hardest, up to exponents of a
// nearly perfectly plastic metal.
func TestStressInvertsStrainAtTheKnee(t *testing.T) {
	for n := 1.0; n < 400; n *= 1.1 {
		for proof := 5.0; proof < 2500; proof *= 1.7 {
			l := profiles.RambergOsgood{Youngs: 70000, Proof: proof, Exponent: n}
			for f := 0.5; f < 1.5; f += 0.01 {
				e := l.Strain(f * proof)
				if e > 0.5 {
					break
				}
				if d := relative(l.Stress(e), f*proof); d > 2e-14 {
					t.Fatalf("%+v: stress %g comes back %g off", l, f*proof, d)
				}
			}
		}
	}
}

func TestStressIsNeverAboveItsAsymptotes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, e := anyRambergOsgood(t), anyStrain(t)
		s := l.Stress(e)
		bound := min(l.Youngs*e, l.Proof*math.Pow(e/0.002, 1/l.Exponent))
		if s > bound*(1+1e-13) || s < bound/2 {
			t.Fatalf("%+v: stress %g at %g, asymptote %g", l, s, e, bound)
		}
	})
}

// The definition of the curve: 0.2 % of plastic strain at the proof stress.
func TestProofStressIsTheTwoTenthsPoint(t *testing.T) {
	l := profiles.RambergOsgood{Youngs: 70000, Proof: 250, Exponent: 29.63}
	if got := l.Stress(250.0/70000 + 0.002); relative(got, 250) > 1e-14 {
		t.Errorf("stress %v, want 250", got)
	}
}

func TestZeroStrain(t *testing.T) {
	for _, l := range []profiles.Law{
		profiles.RambergOsgood{Youngs: 70000, Proof: 250, Exponent: 29.63},
		profiles.ElasticPlastic{Youngs: 70000, Yield: 250},
	} {
		if l.Stress(0) != 0 || l.StressMoment(0) != 0 || relative(l.Tangent(0), 70000) > 1e-15 {
			t.Errorf("%+v: stress %g, moment %g, tangent %g at 0", l, l.Stress(0), l.StressMoment(0), l.Tangent(0))
		}
		if l.YoungsModulus() != 70000 {
			t.Errorf("%+v: E %g", l, l.YoungsModulus())
		}
		if l.YieldStrain() != 250.0/70000 {
			t.Errorf("%+v: yield strain %g", l, l.YieldStrain())
		}
	}
	straight := profiles.RambergOsgood{Youngs: 70000, Proof: 250, Exponent: 1}
	if straight.Stress(0) != 0 || straight.StressMoment(0) != 0 {
		t.Errorf("exponent 1: stress %g, moment %g at 0", straight.Stress(0), straight.StressMoment(0))
	}
	if got, want := straight.StressMoment(1), straight.Stress(1)/3; relative(got, want) > 1e-14 {
		t.Errorf("exponent 1: stress moment %g at 1, want %g", got, want)
	}
	if got, want := straight.Tangent(1), straight.Stress(1); relative(got, want) > 1e-14 {
		t.Errorf("exponent 1: tangent %g at 1, want %g", got, want)
	}
	if got, want := straight.Tangent(0), straight.Tangent(1e-6); relative(got, want) > 1e-12 {
		t.Errorf("exponent 1: tangent %g at 0, %g beside it", got, want)
	}
}

func TestTangentIsTheSlope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, e := anyRambergOsgood(t), anyStrain(t)
		// Strain is the curve's definition, and its difference quotient the
		// reciprocal slope; (n h)²/6 is what the quotient leaves out.
		s := l.Stress(e)
		const h = 1e-6
		up, down := s*(1+h), s*(1-h)
		slope := (up - down) / (l.Strain(up) - l.Strain(down))
		if d := relative(l.Tangent(e), slope); d > 1e-8 {
			t.Fatalf("%+v: tangent %g at %g, difference quotient %g", l, l.Tangent(e), e, slope)
		}
		if l.Tangent(-e) != l.Tangent(e) {
			t.Fatalf("%+v: tangent not even at %g", l, e)
		}
	})
}

// stressMoment is ∫ s e de by Gauss-Legendre over u = ln e, in which the curve
// has features of the same width everywhere. What lies below e^-16 of the
// strain adds less than 1e-13.
func stressMoment(l profiles.Law, strain float64, panels int) float64 {
	return over(func(e float64) float64 { return l.Stress(e) * e }, strain, 16, panels)
}

// over is ∫ f(e) de from e^-depth of strain on to strain, likewise.
func over(f func(e float64) float64, strain, depth float64, panels int) float64 {
	end := math.Log(strain)
	start := end - depth
	step := depth / float64(panels)
	sum := 0.0
	for i := range panels {
		a := start + float64(i)*step
		sum += quad.Fixed(func(u float64) float64 {
			e := math.Exp(u)
			return f(e) * e
		}, a, a+step, 32, quad.Legendre{}, 0)
	}
	return sum
}

// all holds the law's integrals against each other at a strain above 0: what
// gives two at once, and the work by parts,
//
//	∫ s e de = e W(e) - ∫ W de,  W(e) = ∫ s de
func all(t *rapid.T, l profiles.Law, e float64) {
	s, m := l.StressWithMoment(e)
	if s != l.Stress(e) || m != l.StressMoment(e) {
		t.Fatalf("%+v: together %g and %g at %g, alone %g and %g", l, s, m, e, l.Stress(e), l.StressMoment(e))
	}
	h := 1e-4 * e
	if got, want := (l.Work(e+h)-l.Work(e-h))/(2*h), (l.Stress(e+h)+4*s+l.Stress(e-h))/6; relative(got, want) > 1e-6 {
		t.Fatalf("%+v: work grows by %g a strain at %g, stress %g", l, got, e, want)
	}
	// Under a curve that bends down the work lies between a triangle and a rectangle.
	if got := l.Work(1e-9*e) / (l.Stress(1e-9*e) * 1e-9 * e); !(got > 0.5-1e-6 && got <= 1) {
		t.Fatalf("%+v: work of %g of stress times strain next to nothing", l, got)
	}
}

func TestStressMomentAgainstQuadrature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, e := anyRambergOsgood(t), anyStrain(t)
		want := stressMoment(l, e, 100)
		if d := relative(l.StressMoment(e), want); d > 1e-9 {
			t.Fatalf("%+v: stress moment %g at %g, quadrature %g", l, l.StressMoment(e), e, want)
		}
		if l.StressMoment(-e) != l.StressMoment(e) || l.Work(-e) != l.Work(e) {
			t.Fatalf("%+v: stress moment or work not even at %g", l, e)
		}
		all(t, l, e)
	})
}

func TestKneesRise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyRambergOsgood(t)
		last := 0.0
		for _, e := range l.Knees() {
			if !(e > last) {
				t.Fatalf("%+v: knees %v", l, l.Knees())
			}
			last = e
		}
	})
}

// moment returns that of a sharp rectangle w wide and h deep at curvature k.
func moment(l profiles.Law, w, h, k float64) float64 {
	return 2 * w * l.StressMoment(k*h/2) / (k * k)
}

// A rectangle of an elastic, perfectly plastic metal: M/My = 1.5 (1 -
// (ky/k)²/3), elementary plasticity.
func TestElasticPlasticRectangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := profiles.ElasticPlastic{
			Youngs: logBetween(t, 1e3, 3e5, "E"),
			Yield:  logBetween(t, 5, 2000, "yield"),
		}
		w, h := logBetween(t, 1, 200, "w"), logBetween(t, 1, 200, "h")
		over := rapid.Float64Range(1, 100).Draw(t, "k/ky")
		ky := 2 * l.Yield / (l.Youngs * h)
		my := l.Yield * w * h * h / 6
		want := 1.5 * (1 - 1/(3*over*over)) * my
		if got := moment(l, w, h, over*ky); relative(got, want) > 1e-12 {
			t.Fatalf("%+v: moment %g, want %g", l, got, want)
		}
		// Below yield the metal is elastic: E I k.
		want = l.Youngs * w * h * h * h / 12 * ky / over
		if got := moment(l, w, h, ky/over); relative(got, want) > 1e-12 {
			t.Fatalf("%+v: elastic moment %g, want %g", l, got, want)
		}
	})
}

func TestElasticPlasticExamples(t *testing.T) {
	bar := profiles.ElasticPlastic{Youngs: 200e3, Yield: 240}
	tube := profiles.ElasticPlastic{Youngs: 70000, Yield: 250}
	small := profiles.ElasticPlastic{Youngs: 70000, Yield: 160}
	for _, row := range []struct {
		name      string
		got, want float64
		tolerance float64 // absolute
		source    string
	}{
		{"50 x 120 bar, elastic core 80 mm, moment", moment(bar, 50, 120, 240/(200e3*40)), 36.8e6, 1, "Beer and Johnston, Mechanics of Materials, plastic bending example, from memory"},
		{"50 x 120 bar, yield moment", moment(bar, 50, 120, 240/(200e3*60)), 28.8e6, 1, "the same"},
		{"40 x 40 x 3 at R 260, moment", moment(tube, 40, 40, 1.0/260) - moment(tube, 34, 34, 1.0/260), 1_543_069, 0.5, "closed form for sharp corners, computed apart from this code"},
		{"25 x 25 x 2.5 at R 300, moment", moment(small, 25, 25, 1.0/300) - moment(small, 20, 20, 1.0/300), 304_875, 0.5, "closed form for sharp corners, computed apart from this code"},
		{"tangent below yield", tube.Tangent(0.003), 70000, 0, "definition"},
		{"tangent above yield", tube.Tangent(-0.004), 0, 0, "definition"},
		{"stress above yield", tube.Stress(-0.004), -250, 0, "definition"},
		{"stress below yield", tube.Stress(0.003), 210, 1e-12, "definition"},
	} {
		if math.Abs(row.got-row.want) > row.tolerance {
			t.Errorf("%s: %v, want %v (%s)", row.name, row.got, row.want, row.source)
		}
	}
}

// With a large exponent Ramberg-Osgood tends to the perfectly plastic curve.
func TestLargeExponentIsPerfectlyPlastic(t *testing.T) {
	ro := profiles.RambergOsgood{Youngs: 70000, Proof: 250, Exponent: 5000}
	ep := profiles.ElasticPlastic{Youngs: 70000, Yield: 250}
	for _, e := range []float64{1e-4, 3e-3, 0.01, 0.08} {
		if d := relative(ro.StressMoment(e), ep.StressMoment(e)); d > 1e-3 {
			t.Errorf("at %g they are %g apart", e, d)
		}
	}
}

func TestAnnexEExponentIsSmoothAt400(t *testing.T) {
	below, above := profiles.AnnexEExponent(400-1e-9, 450), profiles.AnnexEExponent(400, 450)
	if relative(below, above) > 1e-9 {
		t.Errorf("exponent jumps from %g to %g", below, above)
	}
}

func TestAnnexEExponentNeedsUltimateAboveProof(t *testing.T) {
	for _, fu := range []float64{0, 240, 250} {
		if n := profiles.AnnexEExponent(250, fu); n > 0 && !math.IsInf(n, 0) {
			t.Errorf("fu %g gives %g, a usable exponent", fu, n)
		}
	}
}

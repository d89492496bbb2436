package profiles_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/profiles"
)

// anyTwoStage draws a curve from far beyond what steels have.
func anyTwoStage(t *rapid.T) profiles.TwoStage {
	proof := logBetween(t, 20, 2000, "proof")
	return profiles.TwoStage{
		Youngs:   logBetween(t, 5e4, 3e5, "E"),
		Proof:    proof,
		Ultimate: proof * (1 + logBetween(t, 1e-3, 4, "over")),
		Exponent: rapid.Float64Range(1, 40).Draw(t, "n"),
		Uniform:  logBetween(t, 1e-3, 1, "eu"),
		Second:   rapid.Float64Range(1, 5).Draw(t, "m"),
	}
}

// stainless is 304L as measured: EN 1993-1-4 Annex C with n = 7.
var stainless = profiles.TwoStage{Youngs: 193e3, Proof: 223, Ultimate: 579.7, Exponent: 7, Uniform: 1 - 223/579.7, Second: 1 + 3.5*223/579.7}

// Points of the formula worked out apart from this code, to 7 figures: strain
// at stress, slope, and the stress moment by fine sums over the stress.
func TestTwoStagePoints(t *testing.T) {
	for _, row := range []struct{ stress, strain, tangent, moment float64 }{
		{100, 0.0005254275427, 175689.9536, 9.28714961e-06},
		{180, 0.001379124009, 44356.68238, 0.0001355595854},
		{223, 0.003155440415, 14714.18803, 0.0009735727629},
		{260, 0.008690097349, 3853.82677, 0.00911106298},
		{320, 0.03873081971, 1300.306015, 0.2236096362},
		{450, 0.2316700439, 440.4240208, 10.93759113},
		{579.7, 0.642715617, 242.9809837, 106.3888372},
		{650, 0.9706240384, 191.395432, 270.0220052},
	} {
		l := stainless
		if d := relative(l.Strain(row.stress), row.strain); d > 1e-6 {
			t.Errorf("strain at %g: %.9g, want %g", row.stress, l.Strain(row.stress), row.strain)
		}
		if d := relative(l.Stress(row.strain), row.stress); d > 1e-6 {
			t.Errorf("stress at %g: %.9g, want %g", row.strain, l.Stress(row.strain), row.stress)
		}
		if d := relative(l.Tangent(row.strain), row.tangent); d > 1e-6 {
			t.Errorf("tangent at %g: %.9g, want %g", row.strain, l.Tangent(row.strain), row.tangent)
		}
		if d := relative(l.StressMoment(row.strain), row.moment); d > 1e-6 {
			t.Errorf("stress moment at %g: %.9g, want %g", row.strain, l.StressMoment(row.strain), row.moment)
		}
	}
	// What names its parts: 0.2 % at the proof stress, eu beyond the straight
	// part at the ultimate one.
	l := stainless
	e2 := l.Youngs / (1 + 0.002*7*l.Youngs/l.Proof)
	if got, want := l.Strain(l.Ultimate), 0.002+l.Proof/l.Youngs+(l.Ultimate-l.Proof)/e2+l.Uniform; relative(got, want) > 1e-14 {
		t.Errorf("strain at the ultimate stress %g, want %g", got, want)
	}
	if l.YieldStrain() != l.Proof/l.Youngs || l.YoungsModulus() != l.Youngs || l.Stress(0) != 0 || l.StressMoment(0) != 0 || relative(l.Tangent(0), l.Youngs) > 1e-14 {
		t.Errorf("at 0: %g %g %g %g %g", l.YieldStrain(), l.YoungsModulus(), l.Stress(0), l.StressMoment(0), l.Tangent(0))
	}
}

func TestTwoStageInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, e := anyTwoStage(t), logBetween(t, 1e-9, 1, "strain")
		s := l.Stress(e)
		// Where the curve is flat, the stress's own last digit is much strain.
		if d := math.Abs(l.Strain(s) - e); d > 1e-12*e+4e-16*s/l.Tangent(e) {
			t.Fatalf("%+v: strain %g comes back %g off", l, e, d)
		}
		if d := relative(l.Stress(l.Strain(s)), s); d > 1e-13 {
			t.Fatalf("%+v: stress %g comes back %g off", l, s, d)
		}
		if s != -l.Stress(-e) || l.Strain(-s) != -l.Strain(s) {
			t.Fatalf("%+v: not odd at %g", l, e)
		}
		if l.Tangent(-e) != l.Tangent(e) || l.StressMoment(-e) != l.StressMoment(e) {
			t.Fatalf("%+v: not even at %g", l, e)
		}
	})
}

// The stages meet in stress, slope and stress moment, and the curve rises all
// the way, past the ultimate stress too.
func TestTwoStageIsSmoothAndRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyTwoStage(t)
		e0 := 0.002 + l.Proof/l.Youngs
		// A second stage with an exponent near 1 turns in no room at all.
		l.Second = max(l.Second, 2)
		below, above := e0*(1-1e-12), e0*(1+1e-12)
		for name, f := range map[string]func(float64) float64{"stress": l.Stress, "moment": l.StressMoment, "work": l.Work} {
			if d := relative(f(above), f(below)); d > 1e-11 {
				t.Fatalf("%+v: %s jumps by %g at the proof stress", l, name, d)
			}
		}
		if d := relative(l.Tangent(above), l.Tangent(below)); d > 2e-3 {
			t.Fatalf("%+v: slope jumps by %g at the proof stress", l, d)
		}
		last := 0.0
		for e := 1e-4; e <= 1; e *= 1.1 {
			s := l.Stress(e)
			if !(s > last) || math.IsInf(s, 0) || !(l.Tangent(e) > 0 && l.Tangent(e) <= l.Youngs*(1+1e-12)) {
				t.Fatalf("%+v: stress %g after %g, slope %g at %g", l, s, last, l.Tangent(e), e)
			}
			last = s
		}
	})
}

func TestTwoStageTangentIsTheSlope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, e := anyTwoStage(t), logBetween(t, 1e-6, 1, "strain")
		const h = 1e-6
		s := l.Stress(e)
		if math.Abs(s-l.Proof) < 1e-3*(l.Ultimate-l.Proof) {
			return // the quotient would straddle the border or lose its digits
		}
		up, down := s*(1+h), s*(1-h)
		if s > l.Proof {
			d := h * (s - l.Proof)
			up, down = s+d, s-d
		}
		want := (up - down) / (l.Strain(up) - l.Strain(down))
		if d := relative(l.Tangent(e), want); d > 1e-5 {
			t.Fatalf("%+v: tangent %g at %g, difference quotient %g", l, l.Tangent(e), e, want)
		}
	})
}

func TestTwoStageMomentAgainstQuadrature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, e := anyTwoStage(t), logBetween(t, 1e-6, 1, "strain")
		e0 := 0.002 + l.Proof/l.Youngs
		want := stressMoment(l, min(e, e0), 100)
		if e > e0 {
			// Over ln of the strain above the border, in which the second
			// stage has features of one width; below e^-40 of it nothing is left.
			want += over(func(u float64) float64 { return l.Stress(e0+u) * (e0 + u) }, e-e0, 40, 150)
		}
		if d := relative(l.StressMoment(e), want); d > 1e-10 {
			t.Fatalf("%+v: stress moment %g at %g, quadrature %g, %g off", l, l.StressMoment(e), e, want, d)
		}
		all(t, l, e)
	})
}

func TestTwoStageKneesRise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyTwoStage(t)
		last := 0.0
		for _, e := range l.Knees() {
			if !(e > last && e < 1) {
				t.Fatalf("%+v: knees %v", l, l.Knees())
			}
			last = e
		}
	})
	// They stand where the curve turns: the border of the stages is one, and of
	// the second stage's the middle is where its two parts are as large.
	l := stainless
	k := l.Knees()
	e0 := 0.002 + l.Proof/l.Youngs
	straight := func(e float64) float64 {
		return (l.Stress(e) - l.Proof) * (1 + 0.002*7*l.Youngs/l.Proof) / l.Youngs
	}
	if len(k) != 6 || relative(k[2], e0) > 1e-12 || relative(straight(k[4]), (k[4]-e0)/2) > 1e-9 {
		t.Errorf("knees %v, border %g", k, e0)
	}
	// The two about it, and a stage that hardens by a low power.
	if relative(k[3]-e0, (k[4]-e0)/8) > 1e-9 || relative(k[5]-e0, 4*(k[4]-e0)) > 1e-9 || relative(k[0], k[1]/2) > 1e-12 || k[1] != l.YieldStrain() {
		t.Errorf("knees %v", k)
	}
	if l.Second = 1.9; len(l.Knees()) != 6 {
		t.Errorf("an exponent of %g: knees %v", l.Second, l.Knees())
	}
}

// What a metal's law is: its kind decides.
func TestCurveLaw(t *testing.T) {
	for _, row := range []struct {
		c    profiles.Curve
		want profiles.Law
	}{
		{profiles.Curve{Family: profiles.Aluminium, Youngs: 7e4, Proof: 250, Ultimate: 290, Exponent: 30}, profiles.RambergOsgood{Youngs: 7e4, Proof: 250, Exponent: 30}},
		{profiles.Curve{Youngs: 7e4, Proof: 250, Ultimate: 290, Exponent: 30}, profiles.RambergOsgood{Youngs: 7e4, Proof: 250, Exponent: 30}},
		{profiles.Curve{Family: profiles.Stainless, Youngs: 193e3, Proof: 223, Ultimate: 579.7, Exponent: 7}, stainless},
		{profiles.Curve{Family: profiles.Steel, Youngs: 21e4, Proof: 200, Ultimate: 400, Exponent: 8}, profiles.TwoStage{Youngs: 21e4, Proof: 200, Ultimate: 400, Exponent: 8, Uniform: 0.3, Second: 2.65}},
		// Only an exponent is known of it.
		{profiles.Curve{Family: profiles.Steel, Youngs: 21e4, Proof: 200, Exponent: 12}, profiles.RambergOsgood{Youngs: 21e4, Proof: 200, Exponent: 12}},
		{profiles.Curve{Family: profiles.Stainless, Youngs: 21e4, Proof: 200, Exponent: 12}, profiles.RambergOsgood{Youngs: 21e4, Proof: 200, Exponent: 12}},
	} {
		if got := row.c.Law(); got != row.want {
			t.Errorf("%+v: %+v, want %+v", row.c, got, row.want)
		}
		// Another proof stress: the shape stays, in proportion.
		twice := row.c.At(2 * row.c.Proof)
		if twice.Proof != 2*row.c.Proof || twice.Ultimate != 2*row.c.Ultimate || twice.Exponent != row.c.Exponent || twice.Family != row.c.Family || twice.Youngs != row.c.Youngs {
			t.Errorf("%+v at twice the proof stress: %+v", row.c, twice)
		}
	}
}

// A certificate's pair of strengths decides the exponent where the metal's law
// has one that follows.
func TestCurveFromACertificate(t *testing.T) {
	m := mustFind(t, "6082-T6", 3)
	c := m.Curve(280, 310)
	want := profiles.Curve{Family: profiles.Aluminium, Youngs: 70e3, Proof: 280, Ultimate: 310, Exponent: profiles.AnnexEExponent(280, 310)}
	if c != want {
		t.Errorf("%+v, want %+v", c, want)
	}
	if c := m.Curve(280, 0); c.Exponent != profiles.AnnexEExponent(250, 290) || relative(c.Ultimate, 280*290/250.0) > 1e-12 {
		t.Errorf("without an ultimate stress: %+v", c)
	}
	m.Exponent = 20
	if c := m.Curve(280, 310); c.Exponent != 20 || c.Ultimate != 310 {
		t.Errorf("a metal with an exponent of its own: %+v", c)
	}
	if c := mustFind(t, "304 annealed", 3).Curve(260, 620); c.Family != profiles.Stainless || c.Exponent != 7 || c.Proof != 260 || c.Ultimate != 620 {
		t.Errorf("304: %+v", c)
	}
	if c := mustFind(t, "S235", 3).Curve(300, 0); c.Family != profiles.Steel || c.Exponent != 8 || relative(c.Ultimate, 300*360/235.0) > 1e-12 {
		t.Errorf("S235: %+v", c)
	}
}

package bend

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/profiles"
)

// TestClosedForms checks moment and springback at a pressed radius against
// closed forms.
func TestClosedForms(t *testing.T) {
	solid := profiles.Solid{Width: 21.5, Depth: 21.5}
	for _, c := range []struct {
		name   string
		m      Member
		radius float64 // pressed, mm
		moment float64 // N·mm, 0: not given
		final  float64 // mm
		source string
	}{
		{"40x40x3", Hollow(rectangle(40, 40, 3, 0), epp(70000, 250)), 260, 1543069, 275.484, "own closed form, worked by hand"},
		{"25x25x2.5", Hollow(rectangle(25, 25, 2.5, 0), epp(70000, 160)), 300, 304875, 321.884, "own closed form, worked by hand"},
		{"solid 21.5", Massive(solid, epp(70000, 160)), 300, 0, 331.694, "own closed form, worked by hand"},
		{"solid 21.5", Massive(solid, epp(70000, 160)), 100, 0, 103.294, "own closed form, worked by hand"},
		{"power law 21.5", Massive(solid, powerLaw{70000, 400, 0.2}), 300, 464280, 337.741, "M = 2 b K (t/2)^(n+2) k^n/(n+2), own closed form"},
		{"bar 50x120", Massive(profiles.Solid{Width: 50, Depth: 120}, epp(200000, 240)), 100000.0 / 3, 36.8e6, 225000, "Beer and Johnston, Mechanics of Materials, plastic bending example (from memory)"},
	} {
		s := Release(c.m, 1/c.radius)
		if c.moment != 0 && math.Abs(s.Moment-c.moment) > 0.5 {
			t.Errorf("%s on %.6g: moment %.1f, want %.0f (%s)", c.name, c.radius, s.Moment, c.moment, c.source)
		}
		if got := 1 / s.Final; math.Abs(got/c.final-1) > 0.5e-3/c.final+1e-9 {
			t.Errorf("%s on %.6g: springs to %.4f, want %.3f (%s)", c.name, c.radius, got, c.final, c.source)
		}
	}
}

// TestBeerJohnstonMoment runs the textbook's question the way it is asked: from
// the moment of 36.8 kN·m to an elastic core of 80 mm.
func TestBeerJohnstonMoment(t *testing.T) {
	m := Massive(profiles.Solid{Width: 50, Depth: 120}, epp(200000, 240))
	k, err := root("curvature", 0, 1e-3, func(k float64) float64 { return m.Moment(k) - 36.8e6 })
	if err != nil {
		t.Fatal(err)
	}
	near(t, "elastic core, mm", 2*m.Law.YieldStrain()/k, 80, 1e-9)
	near(t, "radius, mm", 1/k, 33333.3, 1e-5)
	near(t, "yield moment, N·mm", m.Moment(m.Law.YieldStrain()/60), 28.8e6, 1e-12)
}

// TestPlasticRectangle: M/My = 1.5 (1 - (ky/k)²/3), Beer and Johnston, and below
// yield M = E I k.
func TestPlasticRectangle(t *testing.T) {
	m := Massive(profiles.Solid{Width: 31, Depth: 17}, epp(70000, 213))
	ky := 213.0 / 70000 / 8.5
	my := 213 * 31.0 * 17 * 17 / 6
	for x := 0.01; x < 500; x *= 1.3 {
		want := x
		if x > 1 {
			want = 1.5 * (1 - 1/(3*x*x))
		}
		near(t, "M/My", m.Moment(x*ky)/my, want, 1e-12)
	}
}

// TestGardiner: Ri/Rf = 4 x³ - 3 x + 1, x = Ri Y/(E T), F. J. Gardiner, Trans.
// ASME 79 (1957), for a wide elastic-perfectly-plastic sheet that has yielded
// (x < 1/2); both ways, springback and overbend.
func TestGardiner(t *testing.T) {
	const young, yield, thick = 207000.0, 345.0, 2.0
	m := Massive(profiles.Solid{Width: 100, Depth: thick}, epp(young, yield))
	for x := 0.001; x < 0.5; x += 0.007 {
		ri := x * young * thick / yield
		want := 4*x*x*x - 3*x + 1
		got := Release(m, 1/ri)
		near(t, "Ri/Rf", got.Ratio(), want, 1e-9)
		if want > 1e-3 {
			back, err := Overbend(m, want/ri)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "overbend radius", 1/back.Pressed, ri, 1e-8)
		}
	}
}

// TestKalpakjianSchmid: the springback example of Kalpakjian and Schmid,
// Manufacturing Engineering and Technology (from memory): 20 gauge steel, inches
// and psi.
func TestKalpakjianSchmid(t *testing.T) {
	m := Massive(profiles.Solid{Width: 1, Depth: 0.0359}, epp(29e6, 40000))
	s := Release(m, 1/0.5)
	near(t, "ratio", s.Ratio(), 0.9424, 0.5e-4)
	near(t, "final radius, in", 1/s.Final, 0.5306, 1e-4)
}

// TestRoundTube: plane checks of a perfectly plastic round tube. Elastic limit
// Y W at k = Y/(E r); far beyond, Y Z with Z = (D³ - d³)/6; shape factor
// 16 D (D³ - d³)/(3 π (D⁴ - d⁴)), 1.3705 for 40x3 (own closed form).
func TestRoundTube(t *testing.T) {
	sec := roundTube(40, 3)
	m := Hollow(sec, epp(70000, 250))
	ky := 250.0 / 70000 / 20
	d4 := math.Pow(40, 4) - math.Pow(34, 4)
	d3 := math.Pow(40, 3) - math.Pow(34, 3)
	near(t, "elastic limit", m.Moment(ky), 250*math.Pi*d4/64/20, 1e-10)
	near(t, "half the elastic limit", m.Moment(ky/2), 250*math.Pi*d4/64/40, 1e-10)
	near(t, "plastic limit", m.Moment(1e4*ky), 250*d3/6, 1e-7)
	near(t, "shape factor", m.Moment(1e4*ky)/m.Moment(ky), 1.3705, 0.4e-4)
	// Between the two a disc has a closed form in the yield height r sin a:
	// E k ∫ y² w dy below it and Y ∫ y w dy above, w = 2 sqrt(r² - y²).
	disc := Massive(sec.Outer(), epp(70000, 250))
	for _, x := range []float64{1.01, 1.2, 2, 5, 40} {
		a := math.Asin(1 / x)
		sin, cos := math.Sincos(a)
		elastic := 250 / (20 * sin) * 20 * 20 * 20 * 20 * (a - sin*cos*(1-2*sin*sin)) / 2
		plastic := 250 * 4.0 / 3 * 20 * 20 * 20 * cos * cos * cos
		near(t, "disc", disc.Moment(x*ky), elastic+plastic, 1e-10)
	}
}

// TestBuckling: NACA TN 3781 worked by hand, and both shapes' elastic
// limits in closed form.
func TestBuckling(t *testing.T) {
	buckles := func(s profiles.Section, law profiles.Law, poisson float64, web bool) float64 {
		t.Helper()
		b, err := BucklingStrain(s, law, poisson)
		if err != nil {
			t.Fatal(err)
		}
		if b.Web != web {
			t.Errorf("%v: a web goes first: %v, want %v", s, b.Web, web)
		}
		return b.Strain
	}
	sec := rectangle(40, 40, 3, 0)
	law := profiles.RambergOsgood{Youngs: 70000, Proof: 250, Exponent: 29.63}
	e := buckles(sec, law, 0.33, false)
	near(t, "strain", e, 0.0212, 2e-3)
	near(t, "stress, MPa", law.Stress(e), 268.9, 2e-4)
	elastic := 4 * math.Pi * math.Pi / (12 * (1 - 0.33*0.33)) * (3.0 / 37) * (3.0 / 37)
	near(t, "elastic stress, MPa", 70000*elastic, 1699, 3e-4)
	near(t, "eta", law.Stress(e)/(70000*elastic), 0.158, 3e-3)
	near(t, "wrinkles below, mm", 20/e, 943, 1e-3)
	// The webs of 20 x 80 x 2, the same by hand: elastic 23.9 π² 70000/(12 (1 -
	// 0.33²)) (2/78)² = 1015 MPa, eta 0.297, 301.3 MPa, 1.23 % where the inner
	// wall would hold to 4.0 %. The other way up the wide wall goes first.
	deep := rectangle(20, 80, 2, 0)
	metal := profiles.RambergOsgood{Youngs: 70000, Proof: 287.5, Exponent: 29.63}
	e = buckles(deep, metal, 0.33, true)
	near(t, "web's strain", e, 0.01232, 1e-3)
	near(t, "web's stress, MPa", metal.Stress(e), 301.3, 1e-4)
	near(t, "web's elastic stress, MPa", metal.Stress(e)/0.29678, 1015.2, 1e-3)
	flat := buckles(rectangle(80, 20, 2, 0), metal, 0.33, false)
	near(t, "wide wall's elastic strain", flat, 0.002427, 1e-3)

	hard := epp(70000, 1e6)
	near(t, "elastic plate", buckles(sec, hard, 0.33, false), elastic, 1e-9)
	near(t, "elastic web", buckles(deep, hard, 0.33, true), 23.9*math.Pi*math.Pi/(12*(1-0.33*0.33))*4/(78*78), 1e-9)
	// Walls so stout that the webs hold to any strain: the inner wall, perfectly
	// plastic, goes at k π²/12 (t/b)² (3/4)/(1 - 1/4).
	near(t, "stout", buckles(rectangle(10, 10, 4.5, 0), epp(70000, 60), 0.33, false), math.Pi*math.Pi/3*4.5*4.5/(5.5*5.5), 1e-3)
	// Both at once where (D - t)/(W - t) is the root of 23.9/4.
	even := 2 + 18*math.Sqrt(23.9/4)
	if a, b := buckles(rectangle(20, even-0.01, 2, 0), metal, 0.33, false), buckles(rectangle(20, even+0.01, 2, 0), metal, 0.33, true); math.Abs(a/b-1) > 2e-3 {
		t.Errorf("at %g mm deep the inner wall buckles at %g, the webs at %g", even, a, b)
	}
	// The classical cylinder, 0.605 t/r for a Poisson ratio of 0.3
	// (Timoshenko and Gere, Theory of elastic stability).
	near(t, "elastic cylinder", buckles(roundTube(102, 2), epp(210000, 1e6), 0.3, false), 0.605*2/50, 1e-3)
	// Perfectly plastic, the plate keeps half its secant stiffness and the
	// cylinder none.
	for _, s := range []profiles.Section{sec, roundTube(40, 3)} {
		if e := buckles(s, epp(70000, 250), 0.33, false); !(e >= 250.0/70000*(1-1e-9)) {
			t.Errorf("%v, perfectly plastic: buckles at %g", s, e)
		}
	}
}

// TestOverbendRoundTrip: pressing to Overbend's curvature and letting go leaves
// the wanted one; more wanted needs more pressed; a section twice as large on
// twice the radius has twice the radius.
func TestOverbendRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sec := drawTube(t)
		m := Hollow(sec, drawLaw(t))
		final := 1 / (sec.Depth * math.Exp(rapid.Float64Range(math.Log(1.2), math.Log(200)).Draw(t, "ln radius/depth")))
		s, err := Overbend(m, final)
		if err != nil {
			t.Fatal(err)
		}
		got := Release(m, s.Pressed).Final
		if !(math.Abs(got/final-1) < 1e-7) {
			t.Fatalf("wanted %g, left %g, off by %.1e", final, got, got/final-1)
		}
		if !(s.Pressed > final) || !(s.Ratio() < 1) || !(s.Moment > 0) {
			t.Fatalf("pressed %g for %g", s.Pressed, final)
		}
		more, err := Overbend(m, 1.01*final)
		if err != nil || !(more.Pressed > s.Pressed) {
			t.Fatalf("1 %% more wanted: pressed %g after %g (%v)", more.Pressed, s.Pressed, err)
		}
		double := sec
		double.Width, double.Depth, double.Wall, double.Corner = 2*sec.Width, 2*sec.Depth, 2*sec.Wall, 2*sec.Corner
		twice, err := Overbend(Hollow(double, m.Law), final/2)
		if err != nil || !(math.Abs(twice.Pressed*2/s.Pressed-1) < 1e-8) || !(math.Abs(twice.Moment/8/s.Moment-1) < 1e-8) {
			t.Fatalf("twice the size: pressed %g and moment %g, of %g and %g (%v)", twice.Pressed, twice.Moment, s.Pressed, s.Moment, err)
		}
	})
}

func TestOverbendErrors(t *testing.T) {
	m := davit().Tube
	for _, final := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if s, err := Overbend(m, final); err == nil {
			t.Errorf("overbend to %g gives %v", final, s)
		}
	}
}

func TestReleaseStrip(t *testing.T) {
	// Gardiner again: 6 mm S355 on 300 + 43: x = R Y/(E T).
	strip := Massive(profiles.Solid{Width: 40, Depth: 6}, epp(210000, 355))
	x := 343 * 355.0 / 210000 / 6
	got := ReleaseStrip(strip, 1.0/343, 400)
	near(t, "radius", got.Radius(), 343/(4*x*x*x-3*x+1), 1e-9)
	near(t, "rise", got.Rise, 400*400/(8*got.Radius()), 1e-9)
	// On the demo's block the strip itself is bent to 356.6 + 40 + 3 and not, as
	// the tube's centreline, to 376.6: it keeps 676 mm and not 616.
	demo := davit()
	demo.Strip.Law = profiles.RambergOsgood{Youngs: 205000, Proof: 425.5, Exponent: 22.37}
	k := demo.StripCurvature(1 / 376.6)
	near(t, "strip's own radius", 1/k, 399.6, 1e-12)
	near(t, "demo's strip", ReleaseStrip(demo.Strip, k, 400).Radius(), 676, 0.01)
	near(t, "at the centreline", ReleaseStrip(demo.Strip, 1/376.6, 400).Radius(), 616, 0.01)
	// 1.5 mm spring strip stays elastic above R 129 (R > E t/(2 fy)).
	spring := Massive(profiles.Solid{Width: 40, Depth: 1.5}, epp(206000, 1200))
	if s := ReleaseStrip(spring, 1.0/129, 400); s.Curvature != 0 || !math.IsInf(s.Radius(), 1) || s.Rise != 0 {
		t.Errorf("an elastic strip keeps %g/mm, radius %g", s.Curvature, s.Radius())
	}
	if s := ReleaseStrip(spring, 1.0/128, 400); !(s.Curvature > 0) {
		t.Error("a spring strip on R 128 keeps nothing")
	}
}

package profiles_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"overbend/profiles"
)

// EN 10219-2, cold-formed square hollow sections, in the table's units (cm)
// and to its rounding: half of the last printed digit.
func TestSquareHollowSectionsOfEN10219(t *testing.T) {
	for _, row := range []struct {
		side, wall, outer, inner        float64 // mm
		area, inertia, elastic, plastic float64
		areaTol, inertiaTol             float64
		elasticTol, plasticTol          float64
	}{
		{20, 2, 4, 2, 1.34, 0.692, 0.692, 0.877, 0.005, 0.0005, 0.0005, 0.0005},
		{25, 2.5, 5, 2.5, 2.09, 1.69, 1.35, 1.71, 0.005, 0.005, 0.005, 0.005},
		{30, 3, 6, 3, 3.01, 3.50, 2.34, 2.96, 0.005, 0.005, 0.005, 0.005},
		{40, 3, 6, 3, 4.21, 9.32, 4.66, 5.72, 0.005, 0.005, 0.005, 0.005},
		{50, 3, 6, 3, 5.41, 19.5, 7.79, 9.39, 0.005, 0.05, 0.005, 0.005},
	} {
		s := profiles.Section{Width: row.side, Depth: row.side, Wall: row.wall, Corner: profiles.ColdFormedCorner(row.wall)}
		if s.Corner != row.outer || s.Bore().Corner != row.inner {
			t.Errorf("%v: corners %g and %g, want %g and %g", s, s.Corner, s.Bore().Corner, row.outer, row.inner)
		}
		for _, v := range []struct {
			name           string
			got, want, tol float64
		}{
			{"area cm2", s.Area() / 1e2, row.area, row.areaTol},
			{"inertia cm4", s.Inertia() / 1e4, row.inertia, row.inertiaTol},
			{"elastic modulus cm3", s.ElasticModulus() / 1e3, row.elastic, row.elasticTol},
			{"plastic modulus cm3", s.PlasticModulus() / 1e3, row.plastic, row.plasticTol},
		} {
			if math.Abs(v.got-v.want) > v.tol {
				t.Errorf("%v: %s %.4f, want %g", s, v.name, v.got, v.want)
			}
		}
	}
}

// The standard's own limits: 2t to 6 mm, 2.5t to 10 mm, 3t above.
func TestColdFormedCorner(t *testing.T) {
	for _, row := range []struct{ wall, want float64 }{
		{3, 6}, {6, 12}, {6.3, 15.75}, {10, 25}, {12, 36},
	} {
		if got := profiles.ColdFormedCorner(row.wall); math.Abs(got-row.want) > 1e-12 {
			t.Errorf("wall %g: corner %g, want %g", row.wall, got, row.want)
		}
	}
}

// Plastic over elastic modulus, from elementary plasticity.
func TestShapeFactors(t *testing.T) {
	solid := func(s profiles.Solid) float64 { return s.FirstMoment() / (s.Inertia() / (s.Depth / 2)) }
	hollow := func(s profiles.Section) float64 { return s.PlasticModulus() / s.ElasticModulus() }
	round := func(d, wall float64) profiles.Section {
		return profiles.Section{Shape: profiles.Round, Width: d, Depth: d, Wall: wall}
	}
	tube := func(d, wall float64) float64 { // 16 D (D³-d³) / (3 π (D⁴-d⁴))
		in := d - 2*wall
		return 16 * d * (d*d*d - in*in*in) / (3 * math.Pi * (d*d*d*d - in*in*in*in))
	}
	for _, row := range []struct {
		name           string
		got, want, tol float64
	}{
		{"rectangle 3/2", solid(profiles.Solid{Width: 20, Depth: 50}), 1.5, 1e-12},
		{"circle 16/(3 pi)", solid(profiles.Solid{Shape: profiles.Round, Width: 40, Depth: 40}), 16 / (3 * math.Pi), 1e-12},
		{"rectangle of corners only is a circle", solid(profiles.Solid{Width: 40, Depth: 40, Corner: 20}), 16 / (3 * math.Pi), 1e-12},
		{"thin round 4/pi", hollow(round(40, 0.01)), 4 / math.Pi, 1e-3},
		{"round 40 x 3, closed form", hollow(round(40, 3)), tube(40, 3), 1e-12},
		{"round 40 x 3, computed apart", hollow(round(40, 3)), 1.3705, 5e-5},
		{"square 40 x 3 cold formed, EN 10219-2 5.72/4.66", hollow(profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: 6}), 5.72 / 4.66, 2.5e-3},
	} {
		if math.Abs(row.got-row.want) > row.tol {
			t.Errorf("%s: %.6f, want %.6f", row.name, row.got, row.want)
		}
	}
}

// anySolid draws a rounded rectangle or a disc.
func anySolid(t *rapid.T) profiles.Solid {
	d := logBetween(t, 1, 300, "depth")
	if rapid.Bool().Draw(t, "round") {
		return profiles.Solid{Shape: profiles.Round, Width: d, Depth: d}
	}
	w := logBetween(t, 1, 300, "width")
	return profiles.Solid{Width: w, Depth: d, Corner: min(w, d) / 2 * rapid.Float64Range(0, 1).Draw(t, "corner")}
}

// overHeight integrates f(y) w(y) over the upper half by quadrature, with the
// round part taken over the angle so that its end is smooth.
func overHeight(s profiles.Solid, f func(y float64) float64) float64 {
	h := s.Depth / 2
	r := s.Corner
	if s.Shape == profiles.Round {
		r = h
	}
	flat := quad.Fixed(func(y float64) float64 { return f(y) * s.WidthAt(y) }, 0, h-r, 40, quad.Legendre{}, 0)
	return flat + quad.Fixed(func(a float64) float64 {
		y := h - r + r*math.Sin(a)
		return f(y) * s.WidthAt(y) * r * math.Cos(a)
	}, 0, math.Pi/2, 60, quad.Legendre{}, 0)
}

func TestSectionIntegralsAgainstQuadrature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySolid(t)
		for _, v := range []struct {
			name string
			got  float64
			f    func(y float64) float64
		}{
			{"area", s.Area(), func(float64) float64 { return 1 }},
			{"first moment", s.FirstMoment(), func(y float64) float64 { return y }},
			{"inertia", s.Inertia(), func(y float64) float64 { return y * y }},
		} {
			if want := 2 * overHeight(s, v.f); relative(v.got, want) > 1e-9 {
				t.Fatalf("%+v: %s %g, quadrature %g", s, v.name, v.got, want)
			}
		}
		if s.WidthAt(s.Depth/2*1.001) != 0 || s.WidthAt(-s.Depth/3) != s.WidthAt(s.Depth/3) {
			t.Fatalf("%+v: width is not even or does not end", s)
		}
	})
}

// A hollow section is its outside less its bore, by the elementary formulas of
// sharp rectangles and rings.
func TestHollowClosedForms(t *testing.T) {
	square := profiles.Section{Width: 40, Depth: 40, Wall: 3}
	pipe := profiles.Section{Shape: profiles.Round, Width: 40, Depth: 40, Wall: 3}
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"40x40x3 area", square.Area(), 40*40 - 34*34},
		{"40x40x3 bore", square.BoreArea(), 34 * 34},
		{"40x40x3 inertia", square.Inertia(), (40*40*40*40 - 34*34*34*34) / 12.0},
		{"40x40x3 plastic modulus", square.PlasticModulus(), (40*40*40 - 34*34*34) / 4.0},
		{"dia 40x3 area", pipe.Area(), math.Pi * 37 * 3},
		{"dia 40x3 bore", pipe.BoreArea(), math.Pi * 17 * 17},
		{"dia 40x3 inertia", pipe.Inertia(), math.Pi * (40*40*40*40 - 34*34*34*34) / 64},
	} {
		if relative(row.got, row.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", row.name, row.got, row.want)
		}
	}
}

func TestSectionString(t *testing.T) {
	for _, row := range []struct {
		s    profiles.Section
		want string
	}{
		{profiles.Section{Width: 40, Depth: 60, Wall: 2.5}, "40 x 60 x 2.5"},
		{profiles.Section{Shape: profiles.Round, Width: 30, Depth: 30, Wall: 2}, "dia 30 x 2"},
	} {
		if got := row.s.String(); got != row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
}

func TestValidate(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	const least, most = 0.01, 10_000.0
	for _, row := range []struct {
		s    profiles.Section
		want *profiles.SectionError // nil: valid
	}{
		{profiles.Section{Width: 40, Depth: 40, Wall: 3}, nil},
		{profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: 20}, nil},
		{profiles.Section{Width: most, Depth: 0.03, Wall: least}, nil},
		{profiles.Section{Shape: profiles.Round, Width: 40, Depth: 40, Wall: 19.9}, nil},
		{profiles.Section{Width: 40, Depth: 60, Wall: 20}, &profiles.SectionError{What: "wall", Why: profiles.NoBore, Value: 20, Most: 20, Side: "width"}},
		{profiles.Section{Width: 60, Depth: 40, Wall: 25}, &profiles.SectionError{What: "wall", Why: profiles.NoBore, Value: 25, Most: 20, Side: "depth"}},
		{profiles.Section{Shape: profiles.Round, Width: 40, Depth: 40, Wall: 20}, &profiles.SectionError{What: "wall", Why: profiles.NoBore, Value: 20, Most: 20, Side: "diameter"}},
		{profiles.Section{Width: 40, Depth: 30, Wall: 3, Corner: 15.5}, &profiles.SectionError{What: "corner radius", Why: profiles.NoRoom, Value: 15.5, Most: 15, Side: "depth"}},
		{profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: -1}, &profiles.SectionError{What: "corner radius", Why: profiles.Negative, Value: -1, Most: 20, Side: "depth"}},
		{profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: inf}, &profiles.SectionError{What: "corner radius", Why: profiles.NotFinite, Value: inf, Most: 20, Side: "depth"}},
		{profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: nan}, &profiles.SectionError{What: "corner radius", Why: profiles.NotFinite, Value: nan, Most: 20, Side: "depth"}},
		{profiles.Section{Shape: profiles.Round, Width: 40, Depth: 40, Wall: 3, Corner: 2}, &profiles.SectionError{What: "corner radius", Why: profiles.RoundCorner, Value: 2, Most: 20, Side: "diameter"}},
		{profiles.Section{Shape: profiles.Round, Width: 30, Depth: 40, Wall: 3}, &profiles.SectionError{What: "width", Why: profiles.TwoSizes, Value: 30, Least: 40, Most: 40}},
		{profiles.Section{Shape: profiles.Round, Wall: 3}, &profiles.SectionError{What: "diameter", Why: profiles.NotPositive, Least: least, Most: most}},
		{profiles.Section{Depth: 40, Wall: 3}, &profiles.SectionError{What: "width", Why: profiles.NotPositive, Least: least, Most: most}},
		{profiles.Section{Width: 40, Depth: -40, Wall: 3}, &profiles.SectionError{What: "depth", Why: profiles.NotPositive, Value: -40, Least: least, Most: most}},
		{profiles.Section{Width: 40, Depth: -inf, Wall: 3}, &profiles.SectionError{What: "depth", Why: profiles.NotFinite, Value: -inf, Least: least, Most: most}},
		{profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: -inf}, &profiles.SectionError{What: "corner radius", Why: profiles.NotFinite, Value: -inf, Most: 20, Side: "depth"}},
		{profiles.Section{Width: 40, Depth: inf, Wall: 3}, &profiles.SectionError{What: "depth", Why: profiles.NotFinite, Value: inf, Least: least, Most: most}},
		{profiles.Section{Width: nan, Depth: 40, Wall: 3}, &profiles.SectionError{What: "width", Why: profiles.NotFinite, Value: nan, Least: least, Most: most}},
		{profiles.Section{Width: 40, Depth: 40, Wall: nan}, &profiles.SectionError{What: "wall", Why: profiles.NotFinite, Value: nan, Least: least, Most: most}},
		{profiles.Section{Width: 10_001, Depth: 40, Wall: 3}, &profiles.SectionError{What: "width", Why: profiles.OutOfRange, Value: 10_001, Least: least, Most: most}},
		{profiles.Section{Width: 40, Depth: 40, Wall: 0.0099}, &profiles.SectionError{What: "wall", Why: profiles.OutOfRange, Value: 0.0099, Least: least, Most: most}},
	} {
		var got *profiles.SectionError
		if err := row.s.Validate(); err != nil && !errors.As(err, &got) {
			t.Errorf("%+v: a %T", row.s, err)
		}
		// Printed, so that NaN equals itself.
		if fmt.Sprintf("%+v", deref(got)) != fmt.Sprintf("%+v", deref(row.want)) {
			t.Errorf("%+v: %+v, want %+v", row.s, deref(got), deref(row.want))
		}
	}
	err := profiles.Section{Width: 24, Depth: 24, Wall: 12}.Validate()
	if err == nil || err.Error() != "profiles: wall 12 leaves no bore" {
		t.Errorf("%v", err)
	}
}

func deref(e *profiles.SectionError) profiles.SectionError {
	if e == nil {
		return profiles.SectionError{}
	}
	return *e
}

// What passes has finite section values above 0; what does not has a code.
func TestValidSectionsHaveValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := profiles.Section{
			Width:  rapid.Float64().Draw(t, "width"),
			Depth:  rapid.Float64().Draw(t, "depth"),
			Wall:   rapid.Float64().Draw(t, "wall"),
			Corner: rapid.Float64().Draw(t, "corner"),
		}
		if rapid.Bool().Draw(t, "sensible") {
			s.Width, s.Depth = logBetween(t, 0.02, 1e4, "w"), logBetween(t, 0.02, 1e4, "d")
			s.Wall, s.Corner = logBetween(t, 0.01, 1e4, "t"), logBetween(t, 0.01, 1e4, "r")
		}
		if err := s.Validate(); err != nil {
			if e := (*profiles.SectionError)(nil); !errors.As(err, &e) || e.What == "" || e.Why == "" {
				t.Fatalf("%#v says nothing", err)
			}
			return
		}
		for _, v := range []float64{s.Area(), s.BoreArea(), s.Inertia(), s.ElasticModulus(), s.PlasticModulus()} {
			if !(v > 0) || math.IsInf(v, 0) {
				t.Fatalf("%+v: area %g, bore %g, inertia %g, moduli %g and %g", s, s.Area(), s.BoreArea(), s.Inertia(), s.ElasticModulus(), s.PlasticModulus())
			}
		}
	})
}

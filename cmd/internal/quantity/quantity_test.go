package quantity

import (
	"math"
	"strings"
	"testing"

	"overbend/geom"

	"pgregory.net/rapid"
)

// near reports whether got is want to 1e-12 relative, which leaves room for the
// roundings of a conversion and no more.
func near(got, want float64) bool { return math.Abs(got-want) <= 1e-12*math.Abs(want) }

// of is a parser for one system.
func of(parse func(string, Units) (float64, error), u Units) func(string) (float64, error) {
	return func(s string) (float64, error) { return parse(s, u) }
}

func mm(s string) (float64, error)  { return ParseLength(s, Millimetres) }
func in(s string) (float64, error)  { return ParseLength(s, Inches) }
func rad(s string) (float64, error) { a, err := ParseAngle(s); return float64(a), err }

// The sizes of units are their definitions (NIST SP 811, appendix B.8): inch
// 25.4 mm, foot 304.8 mm, psi 6.894757 kPa, lbf 4.448222 N, short ton-force
// 8.896443 kN, kilogram-force 9.80665 N, lb/in3 27679.90 kg/m3.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		parse func(string) (float64, error)
		s     string
		want  float64
		rel   float64 // 0: near
	}{
		{mm, "40", 40, 0},
		{mm, "40mm", 40, 0},
		{mm, "40 mm", 40, 0},
		{mm, " 40\tmm\n", 40, 0},
		{mm, "40\u00a0mm", 40, 0},
		{mm, "40 MM", 40, 0},
		{mm, "+40.", 40, 0},
		{mm, ".5", 0.5, 0},
		{mm, "1e3", 1000, 0},
		{mm, "1.5E-1 m", 150, 0},
		{mm, "4 cm", 40, 0},
		{mm, "0.42 m", 420, 0},
		{mm, "1.5in", 38.1, 0},
		{mm, "1 1/2 in", 38.1, 0},
		{mm, `1-1/2"`, 38.1, 0},
		{mm, `1-1/2 "`, 38.1, 0},
		{mm, `3/8"`, 9.525, 0},
		{mm, "3/8″", 9.525, 0},
		{mm, "3/8 inch", 9.525, 0},
		{mm, "2 inches", 50.8, 0},
		{mm, "2 ft", 609.6, 0},
		{mm, "6'", 1828.8, 0},
		{mm, "6′", 1828.8, 0},
		{mm, "6’", 1828.8, 0},
		{mm, "6 feet", 1828.8, 0},
		{mm, "1 foot", 304.8, 0},
		{mm, "5-1/2'", 1676.4, 0},
		{mm, "6ft 2in", 1879.6, 0}, // 74 x 25.4
		{mm, "6 FT 2 In", 1879.6, 0},
		{in, `6'2"`, 1879.6, 0},
		{mm, `6' 2-1/2"`, 1892.3, 0}, // 74.5 x 25.4
		{mm, `6'-2 1/2"`, 1892.3, 0},
		{mm, "6'-2-1/2\"", 1892.3, 0},
		{mm, "6′ 2.5″", 1892.3, 0},
		{mm, "6' 1/2 inch", 1841.5, 0}, // 72.5 x 25.4
		{mm, "0' 11.9 in", 302.26, 0},
		{mm, "2 1/2", 2.5, 0},
		{mm, "1/2 mm", 0.5, 0},
		{mm, "-0", 0, 0},
		{mm, "0 in", 0, 0},
		{in, "1.5", 38.1, 0},
		{in, "1-1/2", 38.1, 0},
		{in, "40 mm", 40, 0},
		{rad, "33", 33 * math.Pi / 180, 0},
		{rad, "33 deg", 33 * math.Pi / 180, 0},
		{rad, "33°", 33 * math.Pi / 180, 0},
		{rad, "22 1/2 degrees", 22.5 * math.Pi / 180, 0},
		{rad, "0.576 rad", 0.576, 0},
		{rad, "-22.5", -22.5 * math.Pi / 180, 0},
		{of(ParseStress, Millimetres), "260 MPa", 260, 0},
		{of(ParseStress, Millimetres), "260 N/mm2", 260, 0},
		{of(ParseStress, Millimetres), "260 N/mm²", 260, 0},
		{of(ParseStress, Millimetres), "70 GPa", 70000, 0},
		{of(ParseStress, Millimetres), "38 ksi", 262.0007, 1e-6},
		{of(ParseStress, Millimetres), "36000psi", 248.2113, 1e-6},
		{of(ParseForce, Millimetres), "150 kN", 150e3, 0},
		{of(ParseForce, Millimetres), "500 N", 500, 0},
		{of(ParseForce, Millimetres), "20 t", 196133, 0},
		{of(ParseForce, Millimetres), "20 tonnes", 196133, 0},
		{of(ParseForce, Millimetres), "20 short ton", 177928.9, 1e-6},
		{of(ParseForce, Millimetres), "20 short  tons", 177928.9, 1e-6},
		{of(ParseForce, Millimetres), "20 tonf", 177928.9, 1e-6},
		{of(ParseForce, Millimetres), "1000 lbf", 4448.222, 1e-6},
		{of(ParseDensity, Millimetres), "2700 kg/m3", 2700, 0},
		{of(ParseDensity, Millimetres), "2.7 g/cm3", 2700, 0},
		{of(ParseDensity, Millimetres), "0.283 lb/in3", 0.283 * 27679.90, 1e-6},
		{ParseFraction, "8 %", 0.08, 0},
		{ParseFraction, "8%", 0.08, 0},
		{ParseFraction, "0.08", 0.08, 0},
		{ParseFraction, "1", 1, 0},
		{ParseFraction, "120 %", 1.2, 0},
		{ParseNumber, "0.33", 0.33, 0},
		{ParseNumber, "-1/4", -0.25, 0},
	} {
		got, err := c.parse(c.s)
		if err != nil {
			t.Errorf("%q: %v", c.s, err)
		} else if c.rel == 0 && !near(got, c.want) || c.rel != 0 && math.Abs(got-c.want) > c.rel*c.want {
			t.Errorf("%q = %v, want %v", c.s, got, c.want)
		}
		if got == 0 && math.Signbit(got) {
			t.Errorf("%q = negative zero", c.s)
		}
	}
}

func TestParseErrors(t *testing.T) {
	const length = " is not a length; write it like 40 mm"
	for _, c := range []struct {
		parse   func(string) (float64, error)
		s, want string
	}{
		{mm, "", "an empty text" + length},
		{mm, " \n ", "an empty text" + length},
		{mm, "mm", `"mm"` + length},
		{mm, "abc", `"abc"` + length},
		{mm, "NaN", `"NaN"` + length},
		{mm, "+Inf", `"+Inf"` + length},
		{mm, "-", `"-"` + length},
		{mm, ".", `"."` + length},
		{mm, "1.2.3", `"1.2.3"` + length},
		{mm, "1_000", `"1_000"` + length},
		{mm, "--1", `"--1"` + length},
		{mm, "3/", `"3/"` + length},
		{mm, "3/0 in", `"3/0 in"` + length},
		{mm, "1 5/4 in", `"1 5/4 in"` + length},
		{mm, "1 2 mm", `"1 2 mm"` + length},
		{mm, "0x1p-2", `"0x1p-2" has the unknown unit "x1p-2"; a length takes mm, cm, m or inch units`},
		{mm, "40 kg", `"40 kg" has the unknown unit "kg"; a length takes mm, cm, m or inch units`},
		{mm, "5 ft 3", `"5 ft 3" is not allowed; behind feet stand inches with their unit, like 6 ft 2 in`},
		{mm, "5' 3", `"5' 3" is not allowed; behind feet stand inches with their unit, like 6 ft 2 in`},
		{mm, "5''", `"5''" is not allowed; behind feet stand inches with their unit, like 6 ft 2 in`},
		{mm, "5' 30 mm", `"5' 30 mm" is not allowed; behind feet stand inches with their unit, like 6 ft 2 in`},
		{mm, "5' 0 ft", `"5' 0 ft" is not allowed; behind feet stand inches with their unit, like 6 ft 2 in`},
		{mm, "5'--3 in", `"5'--3 in" is not allowed; behind feet stand inches with their unit, like 6 ft 2 in`},
		{mm, "5'-", `"5'-" is not allowed; behind feet stand inches with their unit, like 6 ft 2 in`},
		{mm, "5.5' 3\"", `"5.5' 3\"" is not allowed; with inches behind them feet are a whole number, like 6 ft 2 in`},
		{mm, "5' 12 in", `"5' 12 in" is not allowed; inches behind feet are less than 12, like 6 ft 2 in`},
		{mm, "5 ft -3 in", `5 ft -3 in is not allowed; a length can't be negative`},
		{mm, "-5 ft 3 in", `-5 ft 3 in is not allowed; a length can't be negative`},
		{mm, "0' -1\x00", `"0' -1\x00" is not allowed; behind feet stand inches with their unit, like 6 ft 2 in`}, // found by FuzzParse
		{mm, "-5 ft", `-5 ft is not allowed; a length can't be negative`},
		{mm, "1e11 ft 3 in", `"1e11 ft 3 in" is too large for a length`},
		{mm, "1e999' 3 in", `"1e999' 3 in" is too large for a length`},
		{mm, "1,5 mm", `"1,5 mm" has a comma; write the number with a dot and without a thousands mark, like 1.5`},
		{mm, "1,000", `"1,000" has a comma; write the number with a dot and without a thousands mark, like 1.5`},
		{mm, ",5", `",5" has a comma; write the number with a dot and without a thousands mark, like 1.5`},
		{mm, "1e308", `"1e308" is too large for a length`},
		{mm, "1e999 mm", `"1e999 mm" is too large for a length`},
		{mm, "1e308 m", `"1e308 m" is too large for a length`},
		{mm, "-3\nmm", `-3 mm is not allowed; a length can't be negative`},
		{mm, strings.Repeat("x", 100), `"` + strings.Repeat("x", 40) + `"` + length},
		{rad, "", "an empty text is not an angle; write it like 33 deg"},
		{rad, "22°30'", `"22°30'" has the unknown unit "°30'"; an angle takes deg or rad`},
		{rad, "33 mm", `"33 mm" has the unknown unit "mm"; an angle takes deg or rad`},
		{of(ParseStress, Millimetres), "260", `"260" has no unit; write it like 260 MPa`},
		{of(ParseStress, Millimetres), "260 bar", `"260 bar" has the unknown unit "bar"; a stress takes MPa, N/mm2, GPa or US units`},
		{of(ParseStress, Millimetres), "-1 MPa", `-1 MPa is not allowed; a stress can't be negative`},
		{of(ParseForce, Millimetres), "20", `"20" has no unit; write it like 20 t or 200 kN`},
		{of(ParseForce, Millimetres), "20 ton", `"20 ton" could be metric or short tons; write t for metric tons, tonf for short tons`},
		{of(ParseForce, Millimetres), "20 kg", `"20 kg" has the unknown unit "kg"; a force takes N, kN, t or US units`},
		{of(ParseDensity, Millimetres), "2700", `"2700" has no unit; write it like 2700 kg/m3`},
		{in, "abc", `"abc" is not a length; write it like 1-1/2 in`},
		{in, "40 kg", `"40 kg" has the unknown unit "kg"; a length takes in, ft or metric units`},
		{of(ParseStress, Inches), "260", `"260" has no unit; write it like 38 ksi`},
		{of(ParseStress, Inches), "260 bar", `"260 bar" has the unknown unit "bar"; a stress takes ksi, psi or metric units`},
		{of(ParseForce, Inches), "20", `"20" has no unit; write it like 20 tonf or 40000 lbf`},
		{of(ParseForce, Inches), "20 kg", `"20 kg" has the unknown unit "kg"; a force takes lbf, tonf, short ton or metric units`},
		{of(ParseDensity, Inches), "2700", `"2700" has no unit; write it like 0.0975 lb/in3`},
		{of(ParseDensity, Inches), "2 kg", `"2 kg" has the unknown unit "kg"; a density takes lb/in3 or metric units`},
		{of(ParseDensity, Millimetres), "2 ton", `"2 ton" has the unknown unit "ton"; a density takes kg/m3, g/cm3 or US units`},
		{ParseFraction, "8", `8 is not a share of 1; write 8 % or a number up to 1`},
		{ParseFraction, "8\n1/2", `8 1/2 is not a share of 1; write 8 1/2 % or a number up to 1`},
		{ParseFraction, "-8 %", `-8 % is not allowed; a share can't be negative`},
		{ParseFraction, "8 mm", `"8 mm" has the unknown unit "mm"; a share takes % or no unit`},
		{ParseNumber, "1 mm", `"1 mm" has a unit; a plain number takes none`},
	} {
		got, err := c.parse(c.s)
		if err == nil {
			t.Errorf("%q = %v, want an error", c.s, got)
		} else if err.Error() != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.s, err, c.want)
		}
	}
}

func TestParseSize(t *testing.T) {
	for _, c := range []struct {
		s    string
		bare Units
		w, h float64
	}{
		{"1000x500 mm", Millimetres, 1000, 500},
		{"1000 mm x 500 mm", Inches, 1000, 500},
		{"1000 × 500", Millimetres, 1000, 500},
		{`48" X 24"`, Millimetres, 1219.2, 609.6},
		{"48x24in", Millimetres, 1219.2, 609.6},
		{"48x24", Inches, 1219.2, 609.6},
		{"4' x 8'", Millimetres, 1219.2, 2438.4},
		{"4x8 ft", Millimetres, 1219.2, 2438.4},
		{`4' x 8' 6"`, Millimetres, 1219.2, 2590.8},
		{`4' 3" x 8'`, Millimetres, 1295.4, 2438.4},
		{"1 m x 500", Millimetres, 1000, 500},
	} {
		w, h, err := ParseSize(c.s, c.bare)
		if err != nil || !near(w, c.w) || !near(h, c.h) {
			t.Errorf("%q = %v, %v, %v, want %v, %v", c.s, w, h, err, c.w, c.h)
		}
	}
	for s, want := range map[string]string{
		"":            `"" is not a size; write it like 1000x500 mm`,
		"1000 mm":     `"1000 mm" is not a size; write it like 1000x500 mm`,
		"1000x":       `"1000x" is not a size; write it like 1000x500 mm`,
		"x5":          `"x5" is not a size; write it like 1000x500 mm`,
		"1x2x3 mm":    `"2x3 mm" has the unknown unit "x3 mm"; a length takes mm, cm, m or inch units`,
		"1000x-5":     "-5 is not allowed; a length can't be negative",
		"4 x 8' 6\"":  `"4" has no unit; write it like 40 mm`,
		"1000x500 kg": `"500 kg" has the unknown unit "kg"; a length takes mm, cm, m or inch units`,
	} {
		if _, _, err := ParseSize(s, Millimetres); err == nil || err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", s, err, want)
		}
	}
	const want = `"48 in" is not a size; write it like 48x24 in`
	if _, _, err := ParseSize("48 in", Inches); err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	for _, u := range []Units{Millimetres, Inches} {
		if _, _, err := ParseSize(SizeLike(u), u); err != nil {
			t.Error(err)
		}
	}
}

func TestParseUnits(t *testing.T) {
	for _, u := range []Units{Millimetres, Inches} {
		if got, err := ParseUnits(u.String()); got != u || err != nil {
			t.Errorf("%v = %v, %v", u, got, err)
		}
	}
	const want = `"cm" is not allowed; it must be "mm" or "in"`
	if _, err := ParseUnits("cm"); err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Millimetres.Length(420), "420 mm"},
		{Millimetres.Length(275.4837), "275.48 mm"},
		{Millimetres.Length(399.5), "399.5 mm"},
		{Millimetres.Length(-0.001), "0 mm"},
		{Millimetres.Length(100), "100 mm"},
		{Inches.Length(260), "10.236 in"},
		{Inches.Length(-0.001), "0 in"},
		{Inches.Length(-25.4), "-1 in"},
		{Millimetres.Size(1000, 500.25), "1000 x 500.25 mm"},
		{Inches.Size(25.4, 38.1), "1 x 1.5 in"},
		{Millimetres.Tape(419.49), "419 mm"},
		{Millimetres.Tape(419.51), "420 mm"},
		{Millimetres.Tape(-0.1), "0 mm"},
		{Inches.Tape(260), "10.236 in (10-1/4 in)"},
		{Inches.Tape(254), "10 in (10 in)"},
		{Inches.Tape(9.525), "0.375 in (3/8 in)"},
		{Inches.Tape(25.4 * 31.9 / 32), "0.997 in (1 in)"},
		{Inches.Tape(25.4 * 5 / 32), "0.156 in (5/32 in)"},
		{Inches.Tape(-38.1), "-1.5 in (-1-1/2 in)"},
		{Inches.Tape(-0.001), "0 in (0 in)"},
		{Millimetres.Angle(33 * geom.Degree), "33 deg"},
		{Inches.Angle(35.268 * geom.Degree), "35.27 deg"},
		{Millimetres.Angle(-1e-9), "0 deg"},
		{Millimetres.Show(Stress.Of(262.0007)), "262 MPa"},
		{Inches.Show(Stress.Of(262.0007)), "38 ksi"},
		{Millimetres.Show(Stress.Of(999.96)), "1000 MPa"},
		{Millimetres.Show(Stress.Of(1000.4)), "1000 MPa"},
		{Millimetres.Show(Stress.Of(1199.6)), "1200 MPa"},
		{Inches.Show(Stress.Of(70000)), "10153 ksi"}, // 10152.64
		{Millimetres.Change(Length.Of(1.234)), "+1.23"},
		{Millimetres.Change(Length.Of(-1.234)), "-1.23"},
		{Millimetres.Change(Length.Of(0.004)), "0"},
		{Millimetres.Change(Force.Of(-1)), "0"}, // 0.00
		{Millimetres.Change(Force.Of(1234)), "+1.23"},
		{Inches.Change(Degrees(geom.Degree)), "+1"},
		{Millimetres.Show(Pressure.Of(14.2)), "142 bar"},
		{Inches.Show(Pressure.Of(14.2)), "2060 psi"}, // 14.2 MPa / 6.894757 kPa
		{Millimetres.Show(Force.Of(17617)), "17.6 kN"},
		{Millimetres.Show(Force.Of(176170)), "176 kN"},
		{Millimetres.Show(Force.Of(1761)), "1.76 kN"},
		{Millimetres.Show(Force.Of(99960)), "100 kN"},
		{Millimetres.Show(Force.Of(0)), "0 kN"},
		{Millimetres.Show(Travel.Of(47.67)), "47.5 mm"},
		{Millimetres.Show(Travel.Of(47.76)), "48.0 mm"},
		{Millimetres.Show(Travel.Of(9.96)), "10.0 mm"},
		{Millimetres.Show(Travel.Of(2.97)), "3.0 mm"},
		{Inches.Show(Travel.Of(47.67)), "1.88 in (1-7/8 in)"},
		{Inches.Show(Travel.Of(48.1)), "1.89 in (1-57/64 in)"}, // 1.8937 x 64 = 121.2
		{Millimetres.Show(Radius.Of(356.634)), "356.6 mm"},
		{Millimetres.Show(Radius.Of(56.634)), "56.63 mm"},
		{Inches.Show(Radius.Of(254)), "10.000 in"},
		{Millimetres.Show(Reading.Of(0.5767)), "33.0 deg"}, // 33.04
		{Millimetres.Show(Stop.Of(0.5767)), "33.0 deg"},
		{Millimetres.Show(Stop.Of(0.4887)), "28.0 deg"}, // 28.0004
		{Millimetres.Show(Stop.Of(0.4930)), "28.0 deg"}, // 28.247
		{Millimetres.Show(Stop.Of(0.4932)), "28.5 deg"}, // 28.258
		{Millimetres.Fraction(Travel.Of(47.67)), "47.5"},
		{Inches.Fraction(Tape.Of(260)), "10-1/4"},
		{Inches.Show(Force.Of(17617)), "3960 lbf"}, // 17617 / 4.448222
		{Inches.Show(Force.Of(31686)), "7120 lbf"}, // 7123.3
		{Millimetres.Show(Rise.Of(12.61)), "12.6 mm"},
		{Inches.Show(Rise.Of(4.3656)), "0.172 in (11/64 in)"},
		{Millimetres.Show(Nominal.Of(336.55)), "336.55 mm"},
		{Inches.Show(Nominal.Of(336.55)), "13-1/4 in"},
		{Inches.Show(Nominal.Of(4.7625)), "3/16 in"},
		{Inches.Show(Nominal.Of(25.4 * 9 / 64)), "9/64 in"},
		{Inches.Show(Nominal.Of(25.4 * (13.25 + 0.0004))), "13-1/4 in"},
		{Inches.Show(Nominal.Of(25.4 * (13.25 + 0.0006))), "13.251 in"},
		{Inches.Show(Nominal.Of(25.4 * (13.25 - 0.0006))), "13.249 in"},
		{Inches.Show(Nominal.Of(0)), "0 in"},
		{Millimetres.Show(Overall.Of(309.2)), "310 mm"},
		{Millimetres.Show(Overall.Of(309 + 1e-9)), "309 mm"},
		{Inches.Show(Overall.Of(25.4 * 3.121)), "3.13 in"},
		{Inches.Show(Overall.Of(25.4 * 10)), "10 in"},
		{Inches.Show(Overall.Of(25.4 * 12.21)), "12.3 in"},
		{Millimetres.SizeAs(Overall, 309.2, 74.1), "310 x 75 mm"},
		{Inches.SizeAs(Nominal, 38.1, 3.175), "1-1/2 x 1/8 in"},
		{Millimetres.Show(Tonnes.Of(196133)), "20 t"},
		{Inches.Show(Tonnes.Of(196133)), "20 t"},
		{Millimetres.Show(ShortTons.Of(177928.9)), "20 tonf"},
		{Inches.Show(ShortTons.Of(177928.9)), "20 tonf"},
		{Inches.Show(Kilonewtons.Of(200e3)), "200 kN"},
		{Millimetres.Show(PoundsForce.Of(177928.8646)), "40000 lbf"},
		{Millimetres.Show(Moment.Of(1543069)), "1543.1 N m"},
		{Inches.Show(Moment.Of(1543069)), "13657.3 lbf in"}, // NIST SP 811: 0.1129848 N m
		{Millimetres.Show(Mass.Of(1)), "1.00 kg"},
		{Inches.Show(Mass.Of(1)), "2.20 lb"},
		{Millimetres.Show(Area.Of(444)), "444 mm2"},
		{Inches.Show(Area.Of(444)), "0.688 in2"},
		{Millimetres.Show(Modulus.Of(5098.6)), "5099 mm3"},
		{Inches.Show(Modulus.Of(16387.064)), "1 in3"},
		{Millimetres.Show(Inertia.Of(101972)), "101972 mm4"},
		{Inches.Show(Inertia.Of(416231.4)), "1 in4"},
		{Millimetres.Show(Volume.Of(1156123)), "1156.1 cm3"},
		{Inches.Show(Volume.Of(16387.064)), "1 in3"},
		{Millimetres.Show(Temperature.Of(47.2)), "47.2 °C"},
		{Inches.Show(Temperature.Of(70)), "158 °F"},
		{Percent(0.4618), "46.2 %"},
		{Percent(1), "100 %"},
	} {
		if got := Plain(c.got); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// A decimal of inches is the mm that a calculator shows, to the last bit.
func TestInches(t *testing.T) {
	for s, want := range map[string]float64{
		"1.5 in": 38.1, `3/16"`: 4.7625, "0.065 in": 1.651, "1-1/4 in": 31.75, "18 in": 457.2, "5.25 ft": 1600.2,
	} {
		if got, err := ParseLength(s, Millimetres); got != want || err != nil {
			t.Errorf("%s = %v, %v, want %v", s, got, err, want)
		}
	}
}

// What is written can be read back to the last decimal written.
func TestFormatParse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom([]Units{Millimetres, Inches}).Draw(t, "units")
		v := rapid.Float64Range(0, 1e5).Draw(t, "value")
		for _, c := range []struct {
			text  string
			parse func(string) (float64, error)
			tol   float64 // half of the last decimal
		}{
			{Millimetres.Length(v), in, 0.005},
			{Inches.Length(v), mm, 0.0005 * 25.4},
			{Millimetres.Tape(v), in, 0.5},
			{u.Show(Stress.Of(v)), of(ParseStress, u), max(0.05*6.895, v/wholeStress/2)},
			{u.Show(Force.Of(v)), of(ParseForce, u), 0.005*v + 5},
			{u.Show(Tonnes.Of(v)), of(ParseForce, u), 0.005 * 9806.65},
			{u.Show(ShortTons.Of(v)), of(ParseForce, u), 0.005 * 8896.44},
			{u.Show(PoundsForce.Of(v)), of(ParseForce, u), 0.005 * 4.4483},
			{u.Show(Kilonewtons.Of(v)), of(ParseForce, u), 0.005 * 1000},
			{Inches.Show(Nominal.Of(v)), mm, 0.0005 * 25.4 * (1 + 1e-6)},
			{Percent(v / 1e5), ParseFraction, 0.0005},
		} {
			got, err := c.parse(c.text)
			want := v
			if strings.HasSuffix(c.text, "%") {
				want = v / 1e5
			}
			if err != nil || math.Abs(got-want) > c.tol*(1+1e-9) {
				t.Fatalf("%q = %v, %v, want %v", c.text, got, err, want)
			}
		}

		tape := Inches.Tape(v)
		_, fraction, _ := strings.Cut(strings.TrimSuffix(tape, ")"), "(")
		if got, err := mm(fraction); err != nil || math.Abs(got-v) > 25.4/64*(1+1e-9) {
			t.Fatalf("%q: %q = %v, %v, want %v", tape, fraction, got, err, v)
		}

		a := geom.Angle(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle"))
		if got, err := ParseAngle(u.Angle(a)); err != nil || math.Abs((got-a).Degrees()) > 0.005*(1+1e-9) {
			t.Fatalf("%q = %v, %v, want %v", u.Angle(a), got, err, a)
		}

		w, h := rapid.Float64Range(0, 1e4).Draw(t, "width"), rapid.Float64Range(0, 1e4).Draw(t, "height")
		gw, gh, err := ParseSize(u.Size(w, h), Millimetres)
		if tol := 0.0005 * 25.4; err != nil || math.Abs(gw-w) > tol || math.Abs(gh-h) > tol {
			t.Fatalf("%q = %v, %v, %v", u.Size(w, h), gw, gh, err)
		}
	})
}

// A mixed number is its whole plus its fraction, however it is joined.
func TestMixed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		under := rapid.IntRange(2, 128).Draw(t, "under")
		over := rapid.IntRange(0, under-1).Draw(t, "over")
		whole := rapid.IntRange(0, 1000).Draw(t, "whole")
		join := rapid.SampledFrom([]string{" ", "-", "  "}).Draw(t, "join")
		unit := rapid.SampledFrom([]string{"in", " in", `"`, " inches"}).Draw(t, "unit")
		s := itoa(whole) + join + itoa(over) + "/" + itoa(under) + unit
		want := 25.4 * (float64(whole) + float64(over)/float64(under))
		if got, err := mm(s); err != nil || math.Abs(got-want) > 1e-9 {
			t.Fatalf("%q = %v, %v, want %v", s, got, err, want)
		}
	})
}

func itoa(i int) string { return trimmed(float64(i), 0) }

// Nothing printed is a negative zero, whatever the value.
func TestNoNegativeZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-0.6, 0.6).Draw(t, "v")
		for d := range 5 {
			for _, s := range []string{fixed(v, d), trimmed(v, d)} {
				if strings.HasPrefix(s, "-") && !strings.ContainsAny(s, "123456789") {
					t.Fatalf("%v prints as %q", v, s)
				}
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"40", "40mm", "1 1/2 in", "6' 2-1/2\"", "6ft-2in", "5''", `1-1/2"`, `3/8"`, "33°", "0.576 rad", "260 N/mm²", "20 short ton",
		"1000x500 mm", "8 %", "1,5", "-0", "1e308", "0x1p-2", "NaN", "\xff", "1/0", "×", "1e+", "3 /4",
	} {
		f.Add(s)
	}
	parsers := []func(string) (float64, error){
		mm, in, rad, of(ParseStress, Inches), of(ParseForce, Inches), of(ParseDensity, Inches), ParseFraction, ParseNumber, of(ParseMass, Inches),
		func(s string) (float64, error) { w, h, err := ParseSize(s, Inches); return w + h, err },
	}
	f.Fuzz(func(t *testing.T, s string) {
		for i, parse := range parsers {
			v, err := parse(s)
			switch {
			case err != nil && v != 0 && i != len(parsers)-1:
				t.Errorf("parser %d: %q = %v with an error", i, s, v)
			case err != nil && (strings.ContainsAny(err.Error(), "\n\r\x00") || len(err.Error()) > 800):
				t.Errorf("parser %d: %q: not one plain sentence: %q", i, s, err)
			case math.IsNaN(v) || math.Abs(v) > 2*huge:
				t.Errorf("parser %d: %q = %v", i, s, v)
			case v < 0 && i != 2 && i != 7:
				t.Errorf("parser %d: %q = %v, negative", i, s, v)
			}
		}
	})
}

func BenchmarkParseLength(b *testing.B) {
	for b.Loop() {
		if _, err := ParseLength("1-1/2 in", Millimetres); err != nil {
			b.Fatal(err)
		}
	}
}

// A capacity is shown in the unit in which it was given, whatever the system.
func TestParseCapacity(t *testing.T) {
	for in, want := range map[string]string{
		"20 t": "20 t", "20tonne": "20 t", "12.5 Tonnes": "12.5 t", "20 tonf": "20 tonf", "20 short  tons": "20 tonf", "1/2 short ton": "0.5 tonf",
		"200 kN": "200 kN", "200000 N": "200 kN", "40000 lbf": "40000 lbf",
	} {
		for _, u := range []Units{Millimetres, Inches} {
			v, err := ParseCapacity(in, u)
			n, _ := ParseForce(in, u)
			if got := Plain(u.Show(v)); got != want || err != nil || v.V != n {
				t.Errorf("%s is shown as %s in %s (%v), %v", in, got, u, v, err)
			}
		}
	}
	if v, err := ParseCapacity("20 ton", Inches); err == nil {
		t.Errorf("20 ton = %v", v)
	}
}

// Feet and inches are the inches that they make, however they are joined.
func TestFeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		feet, inches := rapid.IntRange(0, 300).Draw(t, "feet"), rapid.IntRange(0, 12*16-1).Draw(t, "sixteenths")
		ft := rapid.SampledFrom([]string{"'", " ft", "ft", " feet", "′", "’", " foot", "FT"}).Draw(t, "ft")
		join := rapid.SampledFrom([]string{" ", "", "-", "  "}).Draw(t, "join")
		in := rapid.SampledFrom([]string{`"`, " in", "in", " inches", "″", "”"}).Draw(t, "in")
		s := itoa(feet) + ft + join + mixed(float64(inches)/16, 16) + in
		want := 25.4 * (float64(12*feet) + float64(inches)/16)
		if got, err := mm(s); err != nil || math.Abs(got-want) > 1e-8 {
			t.Fatalf("%q = %v, %v, want %v", s, got, err, want)
		}
	})
}

// Half way between two roundings goes away from 0 whatever the last bits say, and
// nothing else moves.
func TestTies(t *testing.T) {
	for _, row := range []struct {
		v    float64
		want string
	}{
		{7.1875, "7.188"}, {math.Nextafter(7.1875, 0), "7.188"}, {math.Nextafter(7.1875, 8), "7.188"},
		{7.0625, "7.063"}, {-7.0625, "-7.063"}, {7.18749999, "7.187"}, {7, "7"}, {1e9, "1000000000"}, {0, "0"},
	} {
		if got := trimmed(row.v, 3); got != row.want {
			t.Errorf("%.17g: %s, want %s", row.v, got, row.want)
		}
	}
	if got := significant(math.Nextafter(12.5, 0), 2); got != "13" {
		t.Errorf("%s", got)
	}
}

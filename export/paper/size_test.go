package paper

import (
	"math"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	// Sources: ISO 216 (A sizes, whole mm), ANSI Y14.1 A and B (8.5 x 11 and
	// 11 x 17 in) with 25.4 mm to the inch.
	for _, row := range []struct {
		in   string
		w, h float64
	}{
		{"A4", 210, 297},
		{"a3", 297, 420},
		{" A2 ", 420, 594},
		{"A1", 594, 841},
		{"letter", 8.5 * 25.4, 11 * 25.4},
		{"Tabloid", 11 * 25.4, 17 * 25.4},
		{"300x200", 300, 200},
		{"300x200mm", 300, 200},
		{"300mmx200mm", 300, 200},
		{"300 mm x 200 mm", 300, 200},
		{"8.5x14in", 8.5 * 25.4, 14 * 25.4},
		{"8.5 in × 14 in", 8.5 * 25.4, 14 * 25.4},
		{"12inx300mm", 12 * 25.4, 300},
	} {
		got, err := Parse(row.in)
		if err != nil {
			t.Errorf("%q: %v", row.in, err)
			continue
		}
		if math.Abs(got.Width-row.w) > 1e-9 || math.Abs(got.Height-row.h) > 1e-9 {
			t.Errorf("%q: %g x %g mm, want %g x %g", row.in, got.Width, got.Height, row.w, row.h)
		}
		if got.Name == "" {
			t.Errorf("%q: no name", row.in)
		}
	}
	for in, want := range map[string]string{
		"":                                "allowed are A4",
		"A5":                              "allowed are A4",
		"300":                             "allowed are A4",
		"x":                               "allowed are A4",
		"300x":                            "allowed are A4",
		"300mmx200":                       "allowed are A4",
		"300x200cm":                       "allowed are A4",
		"-300x200":                        "allowed are A4",
		"1e3x200":                         "allowed are A4",
		"nanx200":                         "allowed are A4",
		"infxinf":                         "allowed are A4",
		"300x200x100":                     "allowed are A4",
		"1..2x200":                        "allowed are A4",
		"99x200":                          "from 100 to 5000 mm",
		"300x5001":                        "from 100 to 5000 mm",
		"300x300in":                       "from 100 to 5000 mm",
		strings.Repeat("9", 500):          "allowed are A4",
		"200x" + strings.Repeat("9", 500): "allowed are A4",
	} {
		_, err := Parse(in)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: error %v, want %q in it", in, err, want)
		} else if strings.ContainsAny(err.Error(), "\n") || len(err.Error()) > 250 {
			t.Errorf("%q: not one sentence: %v", in, err)
		}
	}
}

func TestParseScale(t *testing.T) {
	x, y, err := ParseScale(" 1.013 x 0.998 ")
	if err != nil || x != 1.013 || y != 0.998 {
		t.Errorf("got %g, %g, %v", x, y, err)
	}
	if _, _, err := ParseScale("0.9×1.1"); err != nil {
		t.Errorf("the limits themselves: %v", err)
	}
	for _, in := range []string{"", "1", "1x", "x1", "2x1", "1x0.89", "1.11x1", "1x1x1", "nanx1", "1,01x1", "101.3x99.8", "-1x1", "1e0x1"} {
		if _, _, err := ParseScale(in); err == nil || !strings.Contains(err.Error(), "from 0.9 to 1.1") {
			t.Errorf("%q: error %v", in, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"A4", "letter", "300x200mm", "8.5 in x 14 in", "1e9x1", "NaNx1", "×", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		size, err := Parse(s)
		if err != nil {
			return
		}
		if !(size.Width >= minSide && size.Width <= maxSide && size.Height >= minSide && size.Height <= maxSide) {
			t.Errorf("%q gave %v", s, size)
		}
		// What it calls itself reads back as the same size, to the name's
		// six digits.
		again, err := Parse(size.Name)
		if err != nil || math.Abs(again.Width-size.Width) > 0.01 || math.Abs(again.Height-size.Height) > 0.01 {
			t.Errorf("%q gave %v, whose name gives %v, %v", s, size, again, err)
		}
	})
}

func FuzzParseScale(f *testing.F) {
	for _, s := range []string{"1.013x0.998", "1x1", "1 × 1", "1e0x1", "x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		x, y, err := ParseScale(s)
		if err == nil && !(x >= 0.9 && x <= 1.1 && y >= 0.9 && y <= 1.1) {
			t.Errorf("%q gave %g, %g", s, x, y)
		}
	})
}

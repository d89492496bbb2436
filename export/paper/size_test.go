package paper

import (
	"math"
	"strings"
	"testing"
)

func TestNamed(t *testing.T) {
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
		{"Letter", 8.5 * 25.4, 11 * 25.4},
		{"Tabloid", 11 * 25.4, 17 * 25.4},
		{"TABLOID", 11 * 25.4, 17 * 25.4},
	} {
		got, ok := Named(row.in)
		if !ok || math.Abs(got.Width-row.w) > 1e-9 || math.Abs(got.Height-row.h) > 1e-9 || !strings.EqualFold(got.Name, strings.TrimSpace(row.in)) {
			t.Errorf("%q: %+v, %v, want %g x %g", row.in, got, ok, row.w, row.h)
		}
	}
	for _, name := range strings.Split(Names, ", ") {
		if size, ok := Named(name); !ok || size.Name != name {
			t.Errorf("%q is not known", name)
		}
	}
	for _, name := range []string{"", "A5", "A 4", "300x200", "legal"} {
		if size, ok := Named(name); ok {
			t.Errorf("%q is %v", name, size)
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

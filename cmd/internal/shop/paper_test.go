package shop

import (
	"math"
	"strings"
	"testing"

	"overbend/cmd/internal/quantity"
	"overbend/export/paper"
)

// Source of the sizes: ANSI Y14.1 and a ruler; 25.4 mm to the inch.
func TestPaperSize(t *testing.T) {
	for _, row := range []struct {
		in   string
		w, h float64
		name string
	}{
		{"A4", 210, 297, "A4"},
		{" a3 ", 297, 420, "A3"},
		{"TABLOID", 279.4, 431.8, "tabloid"},
		{"Letter", 215.9, 279.4, "letter"},
		{"300x200", 300, 200, "300x200 mm"},
		{"300X200mm", 300, 200, "300X200mm"},
		{"300mmx200mm", 300, 200, "300mmx200mm"},
		{"300  mm x 200 mm", 300, 200, "300 mm x 200 mm"},
		{"30x40cm", 300, 400, "30x40cm"},
		{"0.3 x 0.4 m", 300, 400, "0.3 x 0.4 m"},
		{`11x17"`, 279.4, 431.8, `11x17"`},
		{`11"x17"`, 279.4, 431.8, `11"x17"`},
		{"8-1/2x14in", 215.9, 355.6, "8-1/2x14in"},
		{"8 1/2 in × 14 in", 215.9, 355.6, "8 1/2 in × 14 in"},
		{"8.5x14in", 215.9, 355.6, "8.5x14in"},
		{"1x1.5 ft", 304.8, 457.2, "1x1.5 ft"},
		{"12inx300mm", 304.8, 300, "12inx300mm"},
		{"300mmx200", 300, 200, "300mmx200 mm"},
		{"300x199", 300, 199, "300x199 mm"},
		{"100x5000", 100, 5000, "100x5000 mm"},
	} {
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			got, err := PaperSize(row.in, u)
			if err != nil || math.Abs(got.Width-row.w) > 1e-9 || math.Abs(got.Height-row.h) > 1e-9 || got.Name != row.name {
				t.Errorf("%q: %+v, %v, want %+v", row.in, got, err, row)
			}
		}
	}
	no := func(s string) string {
		return s + " is no paper; allowed are " + paper.Names + " or WxH such as 300x200 mm"
	}
	nines := strings.Repeat("9", 500)
	for in, want := range map[string]string{
		"":             no(`""`),
		"foolscap":     no(`"foolscap"`),
		"executive":    no(`"executive"`),
		"A5":           no(`"A5"`),
		"300":          no(`"300"`),
		"11 in":        no(`"11 in"`),
		"x":            no(`"x"`),
		"300x":         no(`"300x"`),
		"x200":         no(`"x200"`),
		"300x200 kg":   no(`"300x200 kg"`),
		"-300x200":     no(`"-300x200"`),
		"300x-200":     no(`"300x-200"`),
		"nanx200":      no(`"nanx200"`),
		"infxinf":      no(`"infxinf"`),
		"300x200x100":  no(`"300x200x100"`),
		"30,5x40cm":    no(`"30,5x40cm"`),
		nines:          no(`"` + nines[:40] + `"`),
		"200x" + nines: no(`"200x` + nines[:36] + `"`),
		"0x0":          `"0x0" has a side of 0 mm; from 100 mm to 5000 mm is allowed`,
		"99.9x200":     `"99.9x200" has a side of 99.9 mm; from 100 mm to 5000 mm is allowed`,
		"300x5001":     `"300x5001" has a side of 5001 mm; from 100 mm to 5000 mm is allowed`,
		"1e9x200":      `"1e9x200" has a side of 1000000000 mm; from 100 mm to 5000 mm is allowed`,
		"300x300in":    `"300x300in" has a side of 7620 mm; from 100 mm to 5000 mm is allowed`,
	} {
		if _, err := PaperSize(in, quantity.Millimetres); err == nil || err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", in, err, want)
		}
	}
	for in, want := range map[string]string{
		"A5":     `"A5" is no paper; allowed are A4, A3, A2, A1, letter, tabloid or WxH such as 11x17 in`,
		"3x17in": `"3x17in" has a side of 3 in; from 4 in to 196 in is allowed`,
	} {
		if _, err := PaperSize(in, quantity.Inches); err == nil || err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", in, err, want)
		}
	}
}

// Whatever is taken is a sheet that a layout takes too.
func FuzzPaperSize(f *testing.F) {
	for _, s := range []string{"A4", "letter", "300x200mm", "8-1/2 in x 14 in", "1e9x1", "NaNx1", "×", "\xff", "11x17\""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		size, err := PaperSize(s, quantity.Inches)
		if err != nil {
			if len(err.Error()) > 250 || strings.ContainsAny(err.Error(), "\n\r") {
				t.Errorf("%q: not one sentence: %v", s, err)
			}
			return
		}
		if !(min(size.Width, size.Height) >= paper.MinSide && max(size.Width, size.Height) <= paper.MaxSide) || size.Name == "" {
			t.Errorf("%q gave %+v", s, size)
		}
	})
}

package words

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/geom/tooling"
)

// Every reason of the tools has its sentence in both systems, with no unit of the
// other, no gap and every number that it turns on.
func TestSizes(t *testing.T) {
	facts := tooling.Facts{Arc: 0.71, Gap: 41.4, Hole: 13, Depth: 40, Radius: 25, Width: 49, Wrap: 43 * geom.Degree, Cut: 45 * geom.Degree, Plates: 414}
	for _, why := range tooling.Reasons() {
		for _, angular := range []bool{false, true} {
			e := &tooling.SizeError{Part: "block", Dimension: tooling.Height, Why: why, Angular: angular, Value: 1.2, Least: 2, Most: 3, Facts: facts}
			for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
				s := quantity.Plain(Because(e).Say(u))
				other := (quantity.Inches - u).String()
				if regexp.MustCompile(`[0-9] `+other+`\b`).MatchString(s) || strings.Contains(s, "{") || strings.Contains(s, "tooling") {
					t.Errorf("%s in %s: %q", why, u, s)
				}
				value := quantity.Length
				if angular {
					value = quantity.Angle
				}
				if !strings.Contains(s, "height "+quantity.Plain(u.Show(value.Of(1.2)))) {
					t.Errorf("%s in %s: %q does not say what was asked for", why, u, s)
				}
			}
		}
	}
}

// The sentences in full, as they were before the reasons were values.
func TestSizeSentences(t *testing.T) {
	length := func(part string, d tooling.Dimension, why tooling.Why, v, least, most float64, f tooling.Facts) error {
		return &tooling.SizeError{Part: part, Dimension: d, Why: why, Value: v, Least: least, Most: most, Facts: f}
	}
	for _, row := range []struct {
		err    error
		mm, in string
	}{
		{
			length("block", tooling.Height, tooling.HeightTooLow, 30, 61.231, 0, tooling.Facts{Wrap: 43 * geom.Degree, Hole: 13}),
			"height 30 mm is too low for a wrap of 43 deg with two holes of 13 mm: allowed is 61.24 mm or more",
			"height 1.181 in is too low for a wrap of 43 deg with two holes of 0.512 in: allowed is 2.411 in or more",
		},
		{
			length("block", tooling.Hole, tooling.HoleWide, 13.006, 4, 12.349, tooling.Facts{Radius: 25, Width: 49}),
			"hole 13.01 mm is too large for a block of radius 25 mm, 49 mm wide: allowed is 4 mm to 12.34 mm",
			"hole 0.512 in is too large for a block of radius 0.984 in, 1.929 in wide: allowed is 0.158 in to 0.486 in",
		},
		{
			length("block", tooling.Plate, tooling.PlateThick, 50, 0, 41.4, tooling.Facts{Gap: 41.4}),
			"plate 50 mm is thicker than the gap of 41.4 mm between the cheeks: allowed is 41.4 mm or less",
			"plate 1.969 in is thicker than the gap of 1.63 in between the cheeks: allowed is 1.629 in or less",
		},
		{
			length("cheek", tooling.Kerf, tooling.KerfAboveHole, 13, 0, 0, tooling.Facts{Hole: 13}),
			"cheek: kerf 13 mm is not less than a hole of 13 mm is wide",
			"cheek: kerf 0.512 in is not less than a hole of 0.512 in is wide",
		},
		{
			length("strip", tooling.Width, tooling.NotPositive, 0, 0, 0, tooling.Facts{}),
			"width 0 mm is not allowed, it must be more than 0",
			"width 0 in is not allowed, it must be more than 0",
		},
		{
			&tooling.SizeError{Part: "block", Dimension: tooling.WorkingArc, Why: tooling.NotStraight, Angular: true, Value: (186.5 * geom.Degree).Radians(), Most: (174 * geom.Degree).Radians()},
			"working arc 186.5 deg can't be covered by a block that is pushed straight: allowed is 174 deg or less",
			"working arc 186.5 deg can't be covered by a block that is pushed straight: allowed is 174 deg or less",
		},
		{
			&tooling.SheetError{Part: "block", Width: 620.04, Height: 180, Sheet: tooling.Sheet{Width: 600, Height: 400, Gap: 5, Edge: 10}},
			"block of 620.04 x 180 mm does not fit a sheet of 600 x 400 mm with an edge of 10 mm",
			"block of 24.411 x 7.087 in does not fit a sheet of 23.622 x 15.748 in with an edge of 0.394 in",
		},
		{
			&tooling.SheetError{Part: "block", Width: 620, Height: 180, Sheet: tooling.Sheet{Width: 600, Height: 400}},
			"block of 620 x 180 mm does not fit a sheet of 600 x 400 mm",
			"block of 24.409 x 7.087 in does not fit a sheet of 23.622 x 15.748 in",
		},
	} {
		r := Because(row.err)
		if got := quantity.Plain(r.Say(quantity.Millimetres)); got != row.mm {
			t.Errorf("got %q, want %q", got, row.mm)
		}
		if got := quantity.Plain(r.Say(quantity.Inches)); got != row.in {
			t.Errorf("got %q, want %q", got, row.in)
		}
	}
	// A limit as printed is allowed, on either side and in either system.
	for _, v := range []float64{0.004, 1, 12.345, 61.231, 99.999, 254} {
		for u, step := range map[quantity.Units]float64{quantity.Millimetres: 0.01, quantity.Inches: 0.0254} {
			low, high := u.Inward(quantity.Length.Of(v), false).V, u.Inward(quantity.Length.Of(v), true).V
			if low < v-1e-5*step || low > v+step || high > v+1e-5*step || high < v-step || math.Abs(math.Mod(low/step+0.5, 1)-0.5) > 1e-6 {
				t.Errorf("%g in %s: %g and %g", v, u, low, high)
			}
		}
	}
}

package profiles_test

import (
	"math"
	"testing"

	"overbend/profiles"
)

// ISO 2768-1 class m, table 1 (read) and table 3 (from memory), at both sides of
// every step.
func TestGeneralTolerances(t *testing.T) {
	for _, c := range []struct{ size, want float64 }{
		{-1, 0}, {0.4, 0}, {0.5, 0.1}, {6, 0.1}, {6.1, 0.2}, {30, 0.2}, {31, 0.3}, {120, 0.3}, {121, 0.5},
		{400, 0.5}, {401, 0.8}, {1000, 0.8}, {1001, 1.2}, {2000, 1.2}, {2001, 2}, {4000, 2}, {4001, 0},
		{math.NaN(), 0}, {math.Inf(1), 0},
	} {
		if got := profiles.LinearTolerance(c.size); got != c.want {
			t.Errorf("%g mm: got ±%g mm, want ±%g mm", c.size, got, c.want)
		}
	}
	for _, c := range []struct{ leg, minutes float64 }{
		{0, 60}, {10, 60}, {10.1, 30}, {50, 30}, {51, 20}, {120, 20}, {121, 10}, {400, 10}, {401, 5}, {1e6, 5},
	} {
		if got := profiles.AngularTolerance(c.leg) * 180 / math.Pi * 60; math.Abs(got-c.minutes) > 1e-9 {
			t.Errorf("leg of %g mm: got ±%g', want ±%g'", c.leg, got, c.minutes)
		}
	}
}

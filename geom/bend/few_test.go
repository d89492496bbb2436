package bend

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestFew: the places stand for the nodes, to 1e-9 at 45 degrees of turn and to
// 1e-12 at 20.
func TestFew(t *testing.T) {
	used, worst := 0, 0.0
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		c := press(t, j.stack, j.rig, j.block).curve
		sin := rapid.Float64Range(0.001, 1).Draw(t, "sine")
		arm := sin / c.lean
		few := c.few
		if got := few.serves(arm); got != (sin <= fewSine) {
			t.Fatalf("at a sine of %g: serves %v", sin, got)
		}
		if !few.serves(arm) {
			return
		}
		used++
		c.few = nil
		allowed := 1e-12
		if sin > 0.34 {
			allowed = 1e-9
		}
		off := func(what string, got, want float64) {
			d := math.Abs(got/want - 1)
			if want == 0 {
				d = math.Abs(got)
			}
			worst = max(worst, d)
			if d > allowed {
				t.Fatalf("%s at a sine of %g: %.15g, %.15g by all nodes, %g off", what, sin, got, want, d)
			}
		}
		v, dv := few.across(arm)
		wantV, wantDV := c.across(arm)
		off("across", v, wantV)
		off("its slope", dv, wantDV)
		got, want := few.along(arm), c.along(arm)
		off("length", got.length, want.length)
		off("tail", got.tail, want.tail)
		off("filled", got.filled, want.filled)
		off("melted", got.melted, want.melted)
		off("work", got.energy, want.energy)
	})
	t.Logf("%d used, %.2g at worst", used, worst)
	if used == 0 {
		t.Error("never used")
	}
}

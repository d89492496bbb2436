package plan_test

import (
	"math"
	"slices"
	"testing"

	"overbend/cmd/internal/plan/plantest"
	"overbend/geom"
	"overbend/geom/bend"
)

// What stops are for: few, each with something to measure, in order, none past the
// softest metal's full travel before the one at it, the one that makes the part
// among them and at most one past it, short of the hardest's.
func TestStops(t *testing.T) {
	seen := 0
	for _, path := range plantest.Examples(t, "../../..") {
		q := plantest.Read(t, path).Press
		if q == nil {
			continue
		}
		seen++
		if n := len(q.Stops); n < 5 || n > 8 {
			t.Errorf("%s: %d stops", path, n)
		}
		final := slices.Index(q.Stops, q.Final)
		if final < 0 || final < len(q.Stops)-2 {
			t.Errorf("%s: the part is made at stop %d of %d", path, final+1, len(q.Stops))
		}
		for i, s := range q.Stops {
			if s.Melted < 0.25*geom.Degree || i > 0 && s.Travel <= q.Stops[i-1].Travel {
				t.Errorf("%s: stop %d at %g mm leaves %g deg", path, i+1, s.Travel, s.Melted.Degrees())
			}
		}
		if q.Low != nil && q.High != nil {
			soft := q.Low.Final.Travel
			if q.Final.Travel-soft > 0.39 && !slices.ContainsFunc(q.Stops, func(s bend.State) bool { return math.Abs(s.Travel-soft) < 1e-6 }) {
				t.Errorf("%s: no stop at %g mm, where soft metal is done", path, soft)
			}
			if last := q.Stops[len(q.Stops)-1].Travel; last >= q.High.Final.Travel && last > q.Final.Travel {
				t.Errorf("%s: the last stop at %g mm is past the hardest metal's %g", path, last, q.High.Final.Travel)
			}
		}
		if q.Creep <= 0 || math.IsNaN(float64(q.Creep)) {
			t.Errorf("%s: a mm more gives %g deg", path, q.Creep.Degrees())
		}
	}
	if seen == 0 {
		t.Error("no job has a press")
	}
}

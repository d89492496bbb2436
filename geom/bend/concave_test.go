package bend

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"
)

// TestReachIsConcave goes through the inequality by which a leg's reach is
// concave in its lever arm, and so Newton's steps find the arm or prove that the
// tube slips through. With t = tan(turn), s the slope at the roller and <> the
// mean over the moment from 0 to the crown's,
//
//	arm x'' = -t sin s - t² cos s - t sin s/cos² turn - t² sin s <tan psi>
//	          + t cos s (<tan psi>/cos² turn + <tan psi/cos² psi> + <tan psi (1 + 1/cos² psi)>)
//	          + sin s <tan psi (3/cos² psi - 1)/cos² psi>
//
// and the roller's offset D adds -D lean² sin w/cos³ turn. The means grow with
// psi, and where the moment is concave in the curvature, so that curvature is
// convex in moment, sin psi is at most q² sin(turn), which is the elastic leg's.
// With that put in, and the fourth term left out, the rest must be below 0.
func TestReachIsConcave(t *testing.T) {
	worst := math.Inf(-1)
	for turn := 0.5; turn < 89.9; turn += 0.45 {
		z, cosT := math.Sincos(turn * math.Pi / 180)
		// q = 1 - v² spreads the steep end out.
		mean := func(f func(tan, sec2 float64) float64) float64 {
			return quad.Fixed(func(v float64) float64 {
				q := 1 - v*v
				sin := z * q * q
				sec2 := 1 / (1 - sin*sin)
				return 2 * v * f(sin*math.Sqrt(sec2), sec2)
			}, 0, 1, 200, quad.Legendre{}, 0)
		}
		a := mean(func(tan, _ float64) float64 { return tan })
		b := mean(func(tan, sec2 float64) float64 { return tan * sec2 })
		c := mean(func(tan, sec2 float64) float64 { return tan * sec2 * (3*sec2 - 1) })
		tan := z / cosT
		for share := 0.0; share < 1; share += 0.02 {
			s := (turn + share*(90-turn)) * math.Pi / 180
			sin, cos := math.Sincos(s)
			got := -tan*sin - tan*tan*cos - tan*sin/(cosT*cosT) + tan*cos*(a/(cosT*cosT)+2*b+a) + sin*c
			worst = max(worst, got/(tan*sin))
		}
	}
	t.Logf("at most %.3f of t sin s", worst)
	if !(worst < -0.9) {
		t.Errorf("the reach is not concave: %.3f", worst)
	}
}

// TestReachSlope: the slope of the reach that Newton's steps go by, and its sign
// of bending, on the curves themselves.
func TestReachSlope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		p := press(t, j.stack, j.rig, j.block)
		c := &p.curve
		w := rapid.Float64Range(0, 1.4).Draw(t, "wrap")
		sinW, cosW := math.Sincos(w)
		arm := cosW / c.lean * rapid.Float64Range(0.01, 0.95).Draw(t, "share")
		d := p.offset()
		reach := func(arm float64) float64 {
			x, _ := c.reach(sinW, cosW, arm, d)
			return x
		}
		h := 1e-4 * arm
		lo, mid, hi := reach(arm-h), reach(arm), reach(arm+h)
		if !(hi+lo < 2*mid) {
			t.Fatalf("convex at an arm of %g and a wrap of %g: %g, %g, %g", arm, w, lo, mid, hi)
		}
		if _, got := c.reach(sinW, cosW, arm, d); math.Abs(got-(hi-lo)/(2*h)) > 1e-5 {
			t.Fatalf("slope %g, difference quotient %g", got, (hi-lo)/(2*h))
		}
	})
}

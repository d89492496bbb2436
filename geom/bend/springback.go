package bend

import (
	"fmt"
	"math"
)

// Springback is a plain bend at constant curvature, pressed and released.
type Springback struct {
	Pressed float64 // curvature under load, 1/mm
	Final   float64 // curvature after release, 1/mm
	Moment  float64 // under load, N·mm
}

// Ratio returns finished over pressed curvature, 1 for no springback.
func (s Springback) Ratio() float64 { return s.Final / s.Pressed }

// Release returns what is left when the member is bent to curvature k, 1/mm,
// and let go. Unloading is linear, with the member's share u of Young's modulus:
//
//	kf = k - M(k)/(u E I)
//
// and not past straight.
func Release(m Member, k float64) Springback {
	mom := m.Moment(k)
	return Springback{Pressed: k, Final: stays(k, mom, m.unloading()), Moment: mom}
}

// Overbend returns the pressed curvature that leaves the member at curvature
// final, 1/mm: the solution kp of
//
//	kp - M(kp)/(u E I) = final
//
// For an elastic-perfectly-plastic rectangle this is the relation of
// [Gardiner]. The left side never falls as kp grows, so there is one solution;
// an error means that final is not a positive finite curvature.
func Overbend(m Member, final float64) (Springback, error) {
	if !(final > 0) || math.IsInf(final, 0) {
		return Springback{}, fmt.Errorf("overbend to curvature %g: it must be positive and finite", final)
	}
	hi := 2 * final
	ei, fast := m.unloading(), m.upTo(hi)
	left := func(k float64) float64 { return stays(k, fast.Moment(k), ei) - final }
	for left(hi) < 0 {
		hi *= 2
		if math.IsInf(hi, 0) {
			return Springback{}, fmt.Errorf("overbend to curvature %g: %w", final, ErrNoSolution)
		}
	}
	kp, err := root("overbend", final, hi, left)
	if err != nil {
		return Springback{}, err
	}
	return Release(m, kp), nil
}

// impliedSpan bounds an implied proof stress to a factor either way of where the
// search starts: no metal of a kind lies further from its catalogue.
const impliedSpan = 5

// ImpliedProof returns the proof stress in MPa at which a member springs back to
// curvature final, 1/mm, from final/ratio: the metal that behaves as somebody
// says who has bent it. Build returns the member for a proof stress, and around
// is where to look. An error that wraps [ErrNoSolution] says that no metal
// within a factor 5 of that does.
func ImpliedProof(build func(proof float64) Member, around, final, ratio float64) (float64, error) {
	// More proof stress, more springback, in ln(proof).
	x, err := root("implied proof stress", math.Log(around/impliedSpan), math.Log(around*impliedSpan), func(x float64) float64 {
		return Release(build(math.Exp(x)), final/ratio).Final - final
	})
	return math.Exp(x), err
}

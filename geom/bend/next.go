package bend

import "math"

// Next is the trial that would teach most.
type Next struct {
	Travel     float64 // to push to, mm
	ProofError float64 // what the fit's would come down to, MPa
}

// nextStops is at how many travels up to the final one a next trial is looked
// at: readings change slowly with the travel.
const nextStops = 12

// NextTrial returns the travel, on a block on a rig and no deeper than to a final
// state, whose angle after melt-out tells most about the proof stress: where the
// angle's change with the proof stress is largest against its error and that of
// the travel,
//
//	(∂angle/∂ln proof)²/(AngleError² + (∂angle/∂travel TravelError)²).
//
// A tube pushed no deeper than that can still become the part. Errors are those
// of t; build returns the stack for a proof stress in MPa and the fit's exponent.
func NextTrial(f Fit, rig Rig, block, most float64, t Trial, build func(proof float64) Stack) (Next, error) {
	const step = 0.01 // in ln(proof)
	var presses [2]*Press
	for i, k := range [...]float64{1, math.Exp(step)} {
		form, err := NewForm(build(f.Proof*k), block)
		if err != nil {
			return Next{}, err
		}
		if presses[i], err = form.On(rig); err != nil {
			return Next{}, err
		}
	}
	melted := func(i int, travel float64) (float64, error) {
		s, err := presses[i].ToTravel(travel)
		return float64(s.Melted), err
	}
	best, most2 := Next{}, 0.0
	for i := 1; i <= nextStops; i++ {
		travel := most * float64(i) / nextStops
		at, err := melted(0, travel)
		if err != nil {
			return Next{}, err
		}
		strong, err := melted(1, travel)
		if err != nil {
			continue // the stronger metal does not come so far
		}
		less, err := melted(0, travel*(1-1e-4))
		if err != nil {
			return Next{}, err
		}
		byProof, byTravel := (strong-at)/step, (at-less)/(1e-4*travel)
		lesson := byProof * byProof / (math.Pow(float64(t.AngleError), 2) + math.Pow(byTravel*t.TravelError, 2))
		if lesson > most2 {
			most2 = lesson
			old := f.ProofError / f.Proof
			best = Next{travel, f.Proof / math.Sqrt(1/(old*old)+lesson)}
		}
	}
	return best, nil
}

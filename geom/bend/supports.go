package bend

import (
	"fmt"
	"math"

	"overbend/geom"
)

// Limits bound the choice of supports.
type Limits struct {
	Step    float64 // spacings are whole multiples of it, mm
	LeastL  float64 // shortest leg at the final wrap, mm
	MostF   float64 // largest force, N; 0 for no limit
	Largest float64 // widest spacing the shop can set, mm
}

// ProposeSupports returns the model on the closest spacing that leaves a leg
// of at least LeastL at the final wrap and needs no more force than MostF, and
// its final state for the angle want after melt-out. An error says why no
// spacing will do.
//
// Closer supports give a truer arc (less tail) but need more force; both fall
// or rise steadily with the spacing, so the first that fits is found by
// halving.
func (p *Press) ProposeSupports(want geom.Angle, roller float64, lim Limits) (*Press, State, error) {
	type answer struct {
		p   *Press
		s   State
		err error
	}
	try := func(n int) answer {
		q, err := p.On(Rig{Supports: float64(n) * lim.Step, Roller: roller})
		if err != nil {
			return answer{err: err}
		}
		s, err := q.ToMelted(want)
		return answer{q, s, err}
	}
	fits := func(a answer) bool {
		return a.err == nil && a.s.Leg >= lim.LeastL && (lim.MostF == 0 || a.s.Force <= lim.MostF)
	}
	// Too close is the side on which the leg is short, the force high, or no
	// state exists because the rollers are in the block's way.
	lo := int(math.Floor(roller / lim.Step))
	hi := int(math.Floor(lim.Largest / lim.Step))
	// Double up from the closest spacing that could leave the leg.
	n := max(lo+1, int(math.Ceil(2*lim.LeastL/lim.Step)))
	best := answer{}
	for {
		if n > hi {
			n = hi
		}
		best = try(n)
		if fits(best) || n >= hi {
			break
		}
		lo = n
		n += max(1, n/4)
	}
	if !fits(best) {
		if best.err != nil {
			return nil, State{}, fmt.Errorf("no supports up to %g mm apart will do: %w", lim.Largest, best.err)
		}
		return nil, State{}, fmt.Errorf("%w: no supports up to %g mm apart keep the force below %.1f kN (%.1f kN at the widest) and leave legs of %.0f mm", ErrNoSolution, lim.Largest, lim.MostF/1000, best.s.Force/1000, lim.LeastL)
	}
	for hi = n; hi-lo > 1; {
		mid := (lo + hi) / 2
		if a := try(mid); fits(a) {
			hi, best = mid, a
		} else {
			lo = mid
		}
	}
	return best.p, best.s, nil
}

package bend

import (
	"errors"
	"fmt"
	"math"

	"overbend/geom"
)

// Limits bound the choice of supports.
type Limits struct {
	Step    float64 // spacings are whole multiples of it, mm
	LeastL  float64 // shortest leg at the final wrap, mm
	MostF   float64 // largest force on the way to the final state, N; 0 for no limit
	Largest float64 // widest spacing the shop can set, mm
}

// ProposeSupports returns the model on the closest spacing that leaves a leg
// of at least LeastL at the final wrap and needs no more force than MostF on
// the way to it, and its final state for the angle want after melt-out. An
// error says why no spacing will do.
//
// Closer supports give a truer arc (less tail) but need more force; leg and
// force rise and fall steadily with the spacing until the tube slips through,
// so the first that fits is found by halving.
func (p *Press) ProposeSupports(want geom.Angle, roller float64, lim Limits) (*Press, State, error) {
	type answer struct {
		p    *Press
		s    State
		peak float64
		err  error
	}
	try := func(n int) answer {
		q, err := p.On(Rig{Supports: float64(n) * lim.Step, Roller: roller})
		if err != nil {
			return answer{err: err}
		}
		s, err := q.ToMelted(want)
		if err != nil {
			return answer{err: err}
		}
		return answer{q, s, q.peak(s), nil}
	}
	fits := func(a answer) bool {
		return a.err == nil && a.s.Leg >= lim.LeastL && !lim.tooMuch(a.peak)
	}
	wide := func(a answer) bool { return errors.Is(a.err, errSlips) }

	// At lo the supports are too close: the leg is short, the force high, or
	// the rollers are in the block's way. At hi they fit or are too wide. Grow
	// from the closest spacing that could leave the leg.
	lo := int(math.Floor(roller / lim.Step))
	most := int(math.Floor(lim.Largest / lim.Step))
	if most <= lo {
		return nil, State{}, fmt.Errorf("%w: no supports up to %g mm apart are further apart than a roller of %g mm", ErrNoSolution, lim.Largest, roller)
	}
	var best, near answer
	hi := min(most, max(lo+1, int(math.Ceil(2*lim.LeastL/lim.Step))))
	for {
		a := try(hi)
		if fits(a) {
			best = a
			break
		}
		near = a
		if wide(a) {
			break
		}
		if hi >= most {
			if a.err != nil {
				return nil, State{}, fmt.Errorf("no supports up to %g mm apart will do: %w", lim.Largest, a.err)
			}
			return nil, State{}, lim.refuse(a.s, a.peak, nil)
		}
		lo = hi
		hi = min(most, hi+max(1, hi/4))
	}
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		switch a := try(mid); {
		case fits(a):
			hi, best = mid, a
		case wide(a):
			hi = mid
		default:
			lo, near = mid, a
		}
	}
	if best.p == nil {
		return nil, State{}, lim.refuse(near.s, near.peak, near.err)
	}
	return best.p, best.s, nil
}

func (l Limits) tooMuch(force float64) bool { return l.MostF > 0 && force > l.MostF }

// refuse says why no supports will do, from the spacing that came nearest: its
// error, which means that no state exists, or its state and peak force.
func (l Limits) refuse(s State, peak float64, err error) error {
	if err != nil {
		return fmt.Errorf("%w: no supports up to %g mm apart will do; on close ones no leg is left beside the block, on wide ones the tube slips through before it has the angle", ErrNoSolution, l.Largest)
	}
	at := math.Round(2*s.Roller.X*1000) / 1000
	if l.tooMuch(peak) {
		return fmt.Errorf("%w: no supports up to %g mm apart will do: at %g mm the force is still %.1f kN and may be %.1f kN", ErrNoSolution, l.Largest, at, peak/1000, l.MostF/1000)
	}
	return fmt.Errorf("%w: no supports up to %g mm apart will do: at %g mm the leg is only %.0f mm and must be %.0f mm", ErrNoSolution, l.Largest, at, s.Leg, l.LeastL)
}

// gentle is the slope at the roller below which a deeper push always takes more
// force. Beyond, the push leans so much that on wide supports the force falls
// again before the part is done.
const gentle = 10 * geom.Degree

// peak returns the largest force in N among a schedule's steps to a state.
func (p *Press) peak(final State) float64 {
	if final.Slope < gentle {
		return final.Force
	}
	// The steps before wrapping cost most and are looked at only when the force
	// has fallen ever since.
	if final.Wrap > 0 {
		first, most := 0.0, final.Force
		for i, f := range wrapStops[:len(wrapStops)-1] {
			s, err := p.AtWrap(final.Wrap * geom.Angle(f))
			if err != nil {
				continue
			}
			if i == 0 {
				first = s.Force
			}
			most = max(most, s.Force)
		}
		if most > first {
			return most
		}
	}
	most := final.Force
	steps, _ := p.Schedule(final)
	for _, s := range steps {
		most = max(most, s.Force)
	}
	return most
}

package bend

import (
	"fmt"

	"overbend/geom"
)

// wrapStops are the stops of a schedule after the tube first lies on the
// block, as shares of the final wrap: closer together towards the end, where
// the operator creeps up, releases and measures.
var wrapStops = [...]float64{0, 0.2, 0.4, 0.6, 0.75, 0.85, 0.9, 0.95, 1}

// crownStops are the stops before that, as shares of the moment at the crown
// that lays the tube on the block.
var crownStops = [...]float64{0.25, 0.5, 0.75, 0.9}

// Course is the way from first touch to a final state.
type Course struct {
	Steps []State // the last one is the final state
}

// Final returns the last state.
func (c Course) Final() State { return c.Steps[len(c.Steps)-1] }

// Course returns the way to a final state of this press.
func (p *Press) Course(final State) (Course, error) {
	steps, err := p.Schedule(final)
	if err != nil {
		return Course{}, err
	}
	return Course{steps}, nil
}

// Peak returns the largest force over the steps in N, with any coefficient of
// friction from 0 to mu at the rollers: on wide supports it can come before the
// end.
func (c Course) Peak(mu float64) float64 {
	most := 0.0
	for _, s := range c.Steps {
		most = max(most, s.LargestForce(mu))
	}
	return most
}

// Schedule returns at least twelve states from first touch to the final one,
// in order of travel: the first is the flat tube just touched. The force need
// not be largest in the last: once the legs slope steeply it can fall.
func (p *Press) Schedule(final State) ([]State, error) {
	out := []State{p.touch()}
	full := final.HalfWrap > 0
	top := final.Crown
	for _, q := range crownStops {
		k, err := p.crownAt(q, top)
		if err != nil {
			return nil, err
		}
		s, err := p.AtCrown(k)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	if !full {
		// The part is done before the tube lies on the block: creep up in
		// curvature instead.
		for i := range 7 {
			lo := out[len(crownStops)].Crown
			s, err := p.AtCrown(lo + (top-lo)*float64(i+1)/8)
			if err != nil {
				return nil, err
			}
			out = append(out, s)
		}
		return append(out, final), nil
	}
	for _, f := range wrapStops[:len(wrapStops)-1] {
		s, err := p.AtWrap(final.HalfWrap * geom.Angle(f))
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return append(out, final), nil
}

// touch returns the state at first touch: a flat tube, no force.
func (p *Press) touch() State {
	a := p.rig.Supports / 2
	return State{Leg: a, Roller: geom.Pt(a, -p.offset())}
}

// crownAt returns the curvature at which the stack carries the share q, below
// 1, of its moment at curvature top. An error says that the moment does not
// rise with the curvature.
func (p *Press) crownAt(q, top float64) (float64, error) {
	s := p.loads.stack
	m := q * s.Moment(top)
	k, ok := climbFrom(p.loads.start(m), top, func(k float64) (float64, float64) {
		mt, dt := s.Tube.momentSlope(k)
		mf, df := s.Filler.momentSlope(k)
		ms, ds := s.Strip.momentSlope(k)
		return mt + mf + ms - m, dt + df + ds
	})
	if !ok {
		return 0, fmt.Errorf("bend: %w: the moment does not rise with the curvature up to %g", ErrNoSolution, top)
	}
	return k, nil
}

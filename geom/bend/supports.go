package bend

import (
	"errors"
	"math"

	"overbend/geom"
)

// Limits bound the choice of supports.
type Limits struct {
	Step    float64 // spacings are whole multiples of it, mm
	LeastL  float64 // shortest leg at the final wrap, mm
	MostF   float64 // largest force on the way to the final state, N; 0 for no limit
	Mu      float64 // coefficient of friction at the rollers, by which that force is judged
	Largest float64 // widest spacing the shop can set, mm
}

// Propose returns the form on the closest spacing that leaves a leg
// of at least LeastL at the final wrap and needs no more force than MostF on
// the way to it, and the state of the angle want after melt-out. A [*Refusal]
// says why no spacing will do.
//
// Closer supports give a truer arc (less tail) but need more force; leg and
// force rise and fall steadily with the spacing until the tube slips through,
// so the first that fits is found by halving.
func (f *Form) Propose(want geom.Angle, roller float64, lim Limits) (*Press, State, error) {
	type answer struct {
		p    *Press
		s    State
		peak float64
		err  error
	}
	try := func(n int) answer {
		q, err := f.On(Rig{Supports: float64(n) * lim.Step, Roller: roller})
		if err != nil {
			return answer{err: err}
		}
		s, err := q.ToMelted(want)
		if err != nil {
			return answer{err: err}
		}
		a := answer{p: q, s: s}
		a.peak, a.err = q.Peak(s, lim.Mu)
		return a
	}
	fits := func(a answer) bool {
		return a.err == nil && a.s.Leg >= lim.LeastL && !lim.tooMuch(a.peak)
	}
	wide := func(a answer) bool { return slips(a.err) }

	// At lo the supports are too close: the leg is short, the force high, or
	// the rollers are in the block's way. At hi they fit or are too wide. Grow
	// from the closest spacing that could leave the leg.
	lo := int(math.Floor(roller / lim.Step))
	most := int(math.Floor(lim.Largest / lim.Step))
	if most <= lo {
		return nil, State{}, &Refusal{Why: RollerTooWide, Value: roller, Most: lim.Largest, Spacing: lim.Largest}
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
				return nil, State{}, lim.widest(a.err)
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

// widest says of a refusal on the widest spacing that closer ones won't do either.
func (l Limits) widest(err error) error {
	var r *Refusal
	if errors.As(err, &r) {
		all := *r
		all.Spacing = l.Largest
		return &all
	}
	return err
}

// refuse says why no supports will do, from the spacing that came nearest: its
// error, which means that no state exists, or its state and peak force.
func (l Limits) refuse(s State, peak float64, err error) error {
	r := &Refusal{At: math.Round(2*s.Roller.X*1000) / 1000, Spacing: l.Largest}
	switch {
	case err != nil:
		r.Why, r.At, r.Most = NoSpacing, 0, l.Largest
	case l.tooMuch(peak):
		r.Why, r.Value, r.Most = TooMuchForce, peak, l.MostF
	default:
		r.Why, r.Value, r.Least = LegTooShort, s.Leg, l.LeastL
	}
	return r
}

// gentle is the slope at the roller below which a deeper push always takes more
// force. Beyond, the push leans so much that on wide supports the force falls
// again before the part is done.
const gentle = 10 * geom.Degree

// Peak returns the largest force in N on the way to a state, with any coefficient
// of friction from 0 to mu at the rollers: that of the state's course, of which it
// works out no more than it must.
func (p *Press) Peak(final State, mu float64) (float64, error) {
	force := final.LargestForce(mu)
	if final.Slope < gentle {
		return force, nil
	}
	// The steps before wrapping cost most and are looked at only when the force
	// has fallen ever since.
	if final.HalfWrap > 0 {
		first, most := 0.0, force
		for i, f := range wrapStops[:len(wrapStops)-1] {
			s, err := p.AtWrap(final.HalfWrap * geom.Angle(f))
			if err != nil {
				continue
			}
			if i == 0 {
				first = s.LargestForce(mu)
			}
			most = max(most, s.LargestForce(mu))
		}
		if most > first {
			return most, nil
		}
	}
	c, err := p.Course(final)
	return c.Peak(mu), err
}

package bend

import (
	"fmt"
	"math"

	"overbend/geom"
)

// Rig is what the tube lies on: two equal rollers, centres level.
type Rig struct {
	Supports float64 // roller centre to roller centre, mm
	Roller   float64 // roller diameter, mm
}

// Press is a block of known radius above a stack on a rig: symmetric
// three-point bending with frictionless rollers, at any depth of push.
//
// The tube lies on the block over the half angle w with the block's curvature;
// from each tangent point a leg runs to its roller, along whose developed
// length the moment falls linearly to 0. Slopes and positions are integrated
// in full: no small-angle and no rigid-leg approximation.
type Press struct {
	stack  Stack
	rig    Rig
	block  float64  // radius, mm
	curve  legCurve // below a crown that lies on the block
	refine int
}

// NewPress returns the model of a block of radius block mm pushed onto the
// stack. An error says which of the rig's sizes can't be.
func NewPress(s Stack, r Rig, block float64) (*Press, error) {
	return newPress(s, r, block, 1)
}

func newPress(s Stack, r Rig, block float64, refine int) (*Press, error) {
	if !(block > 0) || math.IsInf(block, 0) {
		return nil, fmt.Errorf("a block radius of %g mm is not allowed; it must be more than 0 mm", block)
	}
	p := &Press{stack: s, block: block, refine: refine}
	p.curve = s.legCurve(1/(block+s.Depth/2), refine)
	return p.on(r)
}

// On returns the same block and stack on another rig; what does not depend on
// the rig is not computed again.
func (p *Press) On(r Rig) (*Press, error) {
	q := *p
	return q.on(r)
}

func (p *Press) on(r Rig) (*Press, error) {
	if !(r.Roller > 0) || !(r.Supports > r.Roller) || math.IsInf(r.Supports, 0) {
		return nil, fmt.Errorf("supports %g mm apart with rollers of %g mm are not allowed; the rollers must be more than 0 mm and the supports further apart than one roller", r.Supports, r.Roller)
	}
	p.rig = r
	return p, nil
}

// Rig returns the rig that the model was made for.
func (p *Press) Rig() Rig { return p.rig }

// Block returns the block's radius in mm.
func (p *Press) Block() float64 { return p.block }

// Curvature returns the curvature of the tube's centreline on the block, 1/mm.
func (p *Press) Curvature() float64 { return p.curve.kp }

// State is the press at one depth of push.
type State struct {
	Wrap   geom.Angle // half angle over which the tube lies on the block
	Crown  float64    // curvature of the centreline at the crown, 1/mm
	Leg    float64    // developed length from tangent point to roller contact, mm
	Travel float64    // of the ram since it first touched the flat tube, mm
	Force  float64    // of the ram, N
	Slope  geom.Angle // of the tube at the roller
	Loaded geom.Angle // change of direction under load
	Filled geom.Angle // after release, filler still in
	Melted geom.Angle // after melt-out: the part's angle
	Tail   float64    // length beyond each tangent point that yields, mm
	Work   float64    // elastic and plastic work in all layers, N·mm
	Roller geom.Point // centre of the right roller; the crown's centreline is the origin, y against the push
}

// Developed returns the centreline's length from the crown to the roller
// contact, mm: how much tube is needed on each side.
func (s State) Developed() float64 {
	if s.Wrap == 0 {
		return s.Leg
	}
	return float64(s.Wrap)/s.Crown + s.Leg
}

// offset is the distance from the centreline to the roller's centre when the
// tube's underside touches it.
func (p *Press) offset() float64 { return p.stack.below() + p.rig.Roller/2 }

// AtWrap returns the state in which the tube lies on the block over half angle
// w >= 0. An error says that no such state exists on this rig.
func (p *Press) AtWrap(w geom.Angle) (State, error) { return p.state(p.curve, float64(w)) }

// AtCrown returns the state before the tube lies on the block at all: the
// crown at curvature k, 1/mm, 0 < k <= that of the block, and no wrap.
func (p *Press) AtCrown(k float64) (State, error) {
	return p.state(p.stack.legCurve(k, p.refine), 0)
}

// state solves the developed leg length l from the roller's place:
//
//	Rp sin w + x(l) + D sin(w + l a0) = Supports/2
//
// where D is the offset from centreline to roller centre and a0 the leg's mean
// curvature.
func (p *Press) state(c legCurve, w float64) (State, error) {
	a, d := p.rig.Supports/2, p.offset()
	rp := 1 / c.kp
	sinW, cosW := math.Sincos(w)
	miss := func(l float64) float64 {
		x, _ := c.reach(w, l)
		return rp*sinW + x + d*math.Sin(w+l*c.slope) - a
	}
	if miss(0) >= 0 {
		return State{}, fmt.Errorf("%w: a wrap of %.1f deg each side of the crown reaches past rollers %g mm apart", ErrNoSolution, geom.Angle(w).Degrees(), p.rig.Supports)
	}
	// The leg can't turn past vertical, where it would slip through.
	top := min(4*a, (math.Pi/2-w)/c.slope)
	if miss(top) <= 0 {
		return State{}, fmt.Errorf("%w: the tube slips through between rollers %g mm apart", ErrNoSolution, p.rig.Supports)
	}
	l, err := root("leg length", 0, top, miss)
	if err != nil {
		return State{}, err
	}
	x, y := c.reach(w, l)
	slope := w + l*c.slope
	sinS, cosS := math.Sincos(slope)
	s := State{
		Wrap:   geom.Angle(w),
		Crown:  c.kp,
		Leg:    l,
		Force:  2 * c.moment / l * cosS,
		Slope:  geom.Angle(slope),
		Loaded: geom.Angle(2 * slope),
		Filled: geom.Angle(2 * (w*rp*c.filledP + l*c.filled)),
		Melted: geom.Angle(2 * (w*rp*c.meltedP + l*c.melted)),
		Tail:   l * p.tailShare(c),
		Work:   2 * (w*rp*c.wrapU + l*c.energy),
		Roller: geom.Pt(rp*sinW+x+d*sinS, rp*(1-cosW)+y-d*cosS),
	}
	s.Travel = s.Roller.Y + d
	return s, nil
}

// tailShare returns the share of the leg, from the tangent point, in which the
// tube's outer face is strained beyond the first knee's yield: proof stress
// over E.
func (p *Press) tailShare(c legCurve) float64 {
	ky := p.yieldCurvature()
	if ky >= c.kp {
		return 0
	}
	return 1 - p.stack.Moment(ky)/c.moment
}

// ToMelted returns the state whose angle after melt-out is want: the depth of
// push that makes the part. If the legs alone give it before the tube lies on
// the block, the state has no wrap and a crown curvature below the block's.
func (p *Press) ToMelted(want geom.Angle) (State, error) {
	return p.to("angle after melt-out", float64(want), func(s State) float64 { return float64(s.Melted) })
}

// ToLoaded returns the state whose angle under load is want.
func (p *Press) ToLoaded(want geom.Angle) (State, error) {
	return p.to("angle under load", float64(want), func(s State) float64 { return float64(s.Loaded) })
}

// ToTravel returns the state at a ram travel of want mm.
func (p *Press) ToTravel(want float64) (State, error) {
	return p.to("travel", want, func(s State) float64 { return s.Travel })
}

// to finds the state in which a quantity that grows with the push has a value.
func (p *Press) to(what string, want float64, of func(State) float64) (State, error) {
	if !(want > 0) {
		return State{}, fmt.Errorf("%s: %g is not allowed; it must be more than 0", what, want)
	}
	first, err := p.AtWrap(0)
	if err != nil {
		return State{}, err
	}
	if of(first) >= want {
		k, err := root(what, 1e-6*p.curve.kp, p.curve.kp, func(k float64) float64 {
			s, e := p.AtCrown(k)
			if e != nil {
				err = e
			}
			return of(s) - want
		})
		if err != nil {
			return State{}, err
		}
		return p.AtCrown(k)
	}
	top, err := p.mostWrap()
	if err != nil {
		return State{}, err
	}
	last, err := p.AtWrap(geom.Angle(top))
	if err != nil {
		return State{}, err
	}
	if of(last) < want {
		return State{}, fmt.Errorf("%s: %w: supports %g mm apart are too narrow for a block radius of %.1f mm", what, ErrNoSolution, p.rig.Supports, p.block)
	}
	w, err := root(what, 0, top, func(w float64) float64 {
		s, e := p.AtWrap(geom.Angle(w))
		if e != nil {
			err = e
		}
		return of(s) - want
	})
	if err != nil {
		return State{}, err
	}
	return p.AtWrap(geom.Angle(w))
}

// leastLeg is the shortest leg, in tube depths, that the model is asked about:
// below it the tube is sheared between block and roller rather than bent.
const leastLeg = 0.25

// mostWrap returns the largest half angle in radians for which a leg of
// leastLeg depths remains and the tube still rests on the rollers.
func (p *Press) mostWrap() (float64, error) {
	c := p.curve
	a, d, l := p.rig.Supports/2, p.offset(), leastLeg*p.stack.Depth
	past := func(w float64) float64 {
		x, _ := c.reach(w, l)
		return math.Sin(w)/c.kp + x + d*math.Sin(w+l*c.slope) - a
	}
	top := math.Pi/2 - l*c.slope
	if past(0) >= 0 || top <= 0 {
		return 0, fmt.Errorf("%w: supports %g mm apart are too narrow; no leg of %.0f mm remains beside the block", ErrNoSolution, p.rig.Supports, l)
	}
	if past(top) < 0 {
		// Wide supports: the tube would slip through before the block's arc
		// reached them. Stop where the leg's end still lies on its roller.
		return p.slipWrap(), nil
	}
	return root("largest wrap", 0, top, past)
}

// slipWrap returns, within 0.1 %, the largest half angle in radians at which a
// state exists on supports too wide for the block to reach.
func (p *Press) slipWrap() float64 {
	lo, hi := 0.0, math.Pi/2
	for hi-lo > 1e-3*hi {
		mid := (lo + hi) / 2
		if _, err := p.AtWrap(geom.Angle(mid)); err != nil {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

// yieldCurvature returns the curvature at which the tube's outer face reaches
// the proof stress over E, 1/mm.
func (p *Press) yieldCurvature() float64 {
	t := p.stack.Tube
	return t.Law.YieldStrain() / (t.Outer.Depth / 2)
}

package bend

import (
	"errors"
	"fmt"
	"math"

	"overbend/geom"
)

// Rig is what the tube lies on: two equal rollers, centres level.
type Rig struct {
	Supports float64 // roller centre to roller centre, mm
	Roller   float64 // roller diameter, mm
}

// Form is a block of known radius above a stack, before it is known what the
// stack lies on: all that a bend on any rig has in common.
type Form struct {
	stack Stack
	block float64  // radius, mm
	loads ladder   // up to the block's curvature
	curve legCurve // below a crown that lies on the block
}

// NewForm returns the model of a block of radius block mm pushed onto the
// stack. The radius must be positive and finite.
func NewForm(s Stack, block float64) (*Form, error) { return newForm(s, block, 1) }

func newForm(s Stack, block float64, refine int) (*Form, error) {
	if !positive(block) {
		return nil, fmt.Errorf("bend: a block radius of %g is not positive and finite", block)
	}
	kp := 1 / (block + s.Depth/2)
	f := &Form{stack: s, block: block, loads: s.ladder(kp, refine)}
	f.curve = f.loads.below(kp, nil)
	f.curve.few = newFew(&f.curve)
	return f, nil
}

// Block returns the block's radius in mm.
func (f *Form) Block() float64 { return f.block }

// Curvature returns the curvature of the tube's centreline on the block, 1/mm.
func (f *Form) Curvature() float64 { return f.curve.kp }

// Melted returns the curvature that the tube keeps where it lay on the block,
// 1/mm: that of a plain arc pressed on it.
func (f *Form) Melted() float64 { return f.curve.meltedP }

// Press is a form above a rig: symmetric three-point bending with frictionless
// rollers, at any depth of push.
//
// The tube lies on the block over the half angle w with the block's curvature;
// from each tangent point a leg runs to its roller. The moment at a point of
// the leg is the roller's push times the distance from that push's line of
// action, which stands square on the tube at the roller. Slopes and positions
// are integrated in full: no small-angle and no rigid-leg approximation.
type Press struct {
	*Form
	rig Rig
}

// On returns the form above a rig; what does not depend on the rig is not
// computed again. The rollers must be larger than 0 and further apart than one
// of them is wide.
func (f *Form) On(r Rig) (*Press, error) {
	if !positive(r.Roller, r.Supports) || r.Supports <= r.Roller {
		return nil, fmt.Errorf("bend: no rig of supports %g apart and rollers of %g", r.Supports, r.Roller)
	}
	return &Press{f, r}, nil
}

// Rig returns the rig that the model was made for.
func (p *Press) Rig() Rig { return p.rig }

// State is the press at one depth of push.
type State struct {
	HalfWrap geom.Angle // half angle over which the tube lies on the block
	Crown    float64    // curvature of the centreline at the crown, 1/mm
	Leg      float64    // developed length from tangent point to roller contact, mm
	Travel   float64    // of the ram since it first touched the flat tube, mm
	Force    float64    // of the ram, N
	Push     float64    // of one roller, square to the tube that it touches, N
	Arm      float64    // of that push about the tangent point, mm
	Across   float64    // from the tube's underside at the roller, as a line, to the centreline at the tangent point, mm
	Slope    geom.Angle // of the tube at the roller
	Loaded   geom.Angle // change of direction under load
	Filled   geom.Angle // after release, filler still in
	Melted   geom.Angle // after melt-out: the part's angle
	Tail     float64    // length beyond each tangent point that yields, mm
	Work     float64    // elastic and plastic work in all layers, N·mm
	Roller   geom.Point // centre of the right roller; the crown's centreline is the origin, y against the push
}

// Developed returns the centreline's length from the crown to the roller
// contact, mm: how much tube is needed on each side.
func (s State) Developed() float64 {
	if s.HalfWrap == 0 {
		return s.Leg
	}
	return float64(s.HalfWrap)/s.Crown + s.Leg
}

// offset is the distance from the centreline to the roller's centre when the
// tube's underside touches it.
func (p *Press) offset() float64 { return p.stack.below() + p.rig.Roller/2 }

// refuse returns a refusal on this rig.
func (p *Press) refuse(why Why, value, least float64) error {
	return &Refusal{Why: why, At: p.rig.Supports, Value: value, Least: least}
}

// slips reports whether an error says that the supports are too wide.
func slips(err error) bool {
	var r *Refusal
	return errors.As(err, &r) && r.slips()
}

// AtWrap returns the state in which the tube lies on the block over half angle
// w >= 0. An error says that no such state exists on this rig.
func (p *Press) AtWrap(w geom.Angle) (State, error) {
	if !(w >= 0) {
		return State{}, fmt.Errorf("bend: a wrap of %g deg is negative", w.Degrees())
	}
	return p.state(&p.curve, float64(w))
}

// AtCrown returns the state before the tube lies on the block at all: the
// crown at curvature k, 1/mm, 0 < k <= that of the block, and no wrap.
func (p *Press) AtCrown(k float64) (State, error) {
	if !(k > 0 && k <= p.curve.kp) {
		return State{}, fmt.Errorf("bend: a crown curvature of %g is not above 0 and at most the block's %g", k, p.curve.kp)
	}
	var room [24 * order]node // most jobs need no more
	c := p.loads.below(k, room[:])
	return p.state(&c, 0)
}

// state solves the lever arm of the roller's push from the roller's place:
//
//	Rp sin w + arm cos s + across sin s + D sin s = Supports/2
//
// where D is the offset from centreline to roller centre, s = w + turn the
// slope at the roller, and across the tangent point's distance from the tube at
// the roller, both functions of the arm. While all slopes are between 0 and a
// right angle the left side is concave in the arm (a test goes through the
// proof's one inequality, which holds for every stack whose moment is a concave
// function of the curvature): it rises to the widest supports that the tube
// still spans, and past that the tube slips through.
func (p *Press) state(c *legCurve, w float64) (State, error) {
	a, d := p.rig.Supports/2, p.offset()
	rp := 1 / c.kp
	sinW, cosW := math.Sincos(w)
	if w >= math.Pi/2 || (rp+d)*sinW >= a {
		return State{}, p.refuse(TooNarrow, p.block, 0)
	}
	arm, ok := climb(cosW/c.lean, func(arm float64) (float64, float64) {
		x, dx := c.reach(sinW, cosW, arm, d)
		return rp*sinW + x - a, dx
	})
	if !ok {
		return State{}, p.refuse(SlipsWrapped, 0, 0)
	}
	v, _ := c.across(arm)
	turn, _ := c.turn(arm)
	slope := w + turn
	sin, cos := math.Sincos(slope)
	s := State{
		HalfWrap: geom.Angle(w),
		Crown:    c.kp,
		Push:     c.moment / arm,
		Force:    2 * c.moment / arm * cos,
		Arm:      arm,
		Across:   v + p.stack.below(),
		Slope:    geom.Angle(slope),
		Loaded:   geom.Angle(2 * slope),
		Roller:   geom.Pt(rp*sinW+arm*cos+(v+d)*sin, rp*(1-cosW)+arm*sin-(v+d)*cos),
	}
	leg := c.along(arm)
	s.Leg, s.Tail = leg.length, leg.tail
	s.Filled = geom.Angle(2 * (w*rp*c.filledP + leg.filled))
	s.Melted = geom.Angle(2 * (w*rp*c.meltedP + leg.melted))
	s.Work = 2 * (w*rp*c.wrapU + leg.energy)
	s.Travel = s.Roller.Y + d
	return s, nil
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
	if !positive(want) {
		return State{}, fmt.Errorf("bend: %s of %g is not positive and finite", what, want)
	}
	// at gives the state for a place from 0 to top.
	seek := func(top float64, at func(float64) (State, error)) (State, error) {
		var failed error
		x, err := root(what, 0, top, func(x float64) float64 {
			s, err := at(x)
			if err != nil {
				failed = err
			}
			return of(s) - want
		})
		if err == nil {
			err = failed
		}
		if err != nil {
			return State{}, err
		}
		return at(x)
	}
	k, first, err := p.mostCrown()
	if err != nil {
		return State{}, err
	}
	if of(first) >= want {
		return seek(k, p.fromTouch)
	}
	if first.Crown < p.curve.kp {
		return State{}, p.refuse(SlipsFlat, 0, 0)
	}
	w, last, err := p.mostWrap()
	if err != nil {
		return State{}, err
	}
	if of(last) >= want {
		return seek(w, func(w float64) (State, error) { return p.AtWrap(geom.Angle(w)) })
	}
	if last.Leg > 2*leastLeg*p.stack.Depth {
		return State{}, p.refuse(SlipsWrapped, 0, 0)
	}
	return State{}, p.refuse(TooNarrow, p.block, 0)
}

// fromTouch is AtCrown with the flat tube for a curvature of 0.
func (p *Press) fromTouch(k float64) (State, error) {
	if k == 0 {
		return p.touch(), nil
	}
	return p.AtCrown(k)
}

// slipShare is how near the search comes to the push at which the tube slips
// through: within a thousandth, where a press would long have been stopped.
const slipShare = 1e-3

// mostCrown returns the largest crown curvature that the tube reaches before it
// lies on the block, and the state there: the block's curvature, or less on
// supports so wide that the tube slips through first.
func (p *Press) mostCrown() (float64, State, error) {
	s, err := p.AtWrap(0)
	if !slips(err) {
		return p.curve.kp, s, err
	}
	return lastGood(p.curve.kp, p.fromTouch)
}

// leastLeg is the shortest lever arm, in tube depths, that the model is asked about:
// below it the tube is sheared between block and roller rather than bent.
const leastLeg = 0.25

// mostWrap returns the largest half angle in radians at which a lever
// arm of leastLeg depths remains and the tube still rests on the rollers, and the
// state there.
func (p *Press) mostWrap() (float64, State, error) {
	c := &p.curve
	a, d, l := p.rig.Supports/2, p.offset(), leastLeg*p.stack.Depth
	v, _ := c.across(l)
	turn, _ := c.turn(l)
	// Sines and cosines of angles below a right one: concave.
	past := func(w float64) (float64, float64) {
		sin, cos := math.Sincos(w + turn)
		sinW, cosW := math.Sincos(w)
		return sinW/c.kp + l*cos + (v+d)*sin - a, cosW/c.kp - l*sin + (v+d)*cos
	}
	top := math.Pi/2 - turn
	if v, _ := past(0); v >= 0 || top <= 0 {
		return 0, State{}, p.refuse(NoLeg, p.block, l)
	}
	at := func(w float64) (State, error) { return p.AtWrap(geom.Angle(w)) }
	if w, ok := climb(top, past); ok {
		if s, err := at(w); err == nil {
			return w, s, nil
		}
	}
	// Wide supports: the tube slips through before the block's arc reaches
	// them.
	return lastGood(math.Pi/2, at)
}

// lastGood returns, within slipShare, the largest x below top for which a state
// exists, given that one exists at 0.
func lastGood(top float64, at func(float64) (State, error)) (float64, State, error) {
	lo, hi := 0.0, top
	best, err := at(0)
	for err == nil && hi-lo > slipShare*hi {
		mid := (lo + hi) / 2
		if s, bad := at(mid); bad == nil {
			lo, best = mid, s
		} else {
			hi = mid
		}
	}
	return lo, best, err
}

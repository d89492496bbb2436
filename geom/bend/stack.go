package bend

import (
	"math"
	"slices"
)

// Stack is what the block pushes on: the tube, the filler cast into it and the
// loose backing strip below. The layers share one curvature and each bends
// about its own mid-depth, unbonded:
//
//	M_stack(k) = M_tube(k) + M_filler(k) + M_strip(k)
//
// Filler and strip may be absent.
type Stack struct {
	Tube, Filler, Strip Member
	Depth               float64 // of the tube, mm
	StripThickness      float64 // mm, 0 without a strip
}

// Moment returns the moment of all layers in N·mm at curvature k in 1/mm.
func (s Stack) Moment(k float64) float64 {
	return s.Tube.Moment(k) + s.Filler.Moment(k) + s.Strip.Moment(k)
}

// unloading returns the stiffness in N·mm² of tube and filler, which spring back
// together while the filler is in.
func (s Stack) unloading() float64 { return s.Tube.unloading() + s.Filler.unloading() }

// below returns the distance in mm from the tube's centreline to the face that
// lies on the rollers.
func (s Stack) below() float64 { return s.Depth/2 + s.StripThickness }

// station is what the layers carry at one curvature.
type station struct {
	k      float64 // 1/mm
	moment float64 // of the stack, N·mm
	slope  float64 // of that moment, N·mm²
	energy float64 // ∫ M dk from 0, work per mm of stack, N
	// Curvature that stays after release and after melt-out, 1/mm.
	filled, melted float64
}

// panel is a stretch of curvature in which the stack's moment is smooth, with
// a station at each Gauss node.
type panel struct {
	lo, hi     float64
	atLo, atHi float64 // ∫ M dk from 0, N
	at         [order]station
}

// ladder is a stack's moment from curvature 0 up to the block's: what every
// leg on that block is made of.
type ladder struct {
	stack  Stack // its laws sampled where that pays
	panels []panel
}

// ladder tabulates the stack's moment up to curvature top. Refine 1 is what the
// program uses; the tests show that 10 moves no result by 0.05 %.
func (s Stack) ladder(top float64, refine int) ladder {
	s.Tube, s.Filler = s.Tube.upTo(top), s.Filler.upTo(top)
	// The yield point borders a panel too: there the tail begins.
	knees := slices.Concat(s.Tube.knees(), s.Filler.knees(), s.Strip.knees(), []float64{s.yieldCurvature()})
	slices.Sort(knees)
	borders := panels(top, knees, refine)
	t := ladder{stack: s, panels: make([]panel, len(borders)-1)}
	energy := 0.0
	for i := range t.panels {
		t.panels[i] = s.panel(borders[i], borders[i+1], energy)
		energy = t.panels[i].atHi
	}
	return t
}

// panel returns the panel between two curvatures, with ∫ M dk at the lower one.
func (s Stack) panel(lo, hi, atLo float64) panel {
	weights := cumulative()
	fei, tei := s.unloading(), s.Tube.unloading()
	p := panel{lo: lo, hi: hi, atLo: atLo, atHi: atLo}
	half := (hi - lo) / 2
	var moments [order]float64
	for j := range order {
		k := lo + half*(1+gaussX[j])
		mt, dt := s.Tube.momentSlope(k)
		mf, df := s.Filler.momentSlope(k)
		ms, ds := s.Strip.momentSlope(k)
		moments[j] = mt + mf + ms
		p.at[j] = station{
			k: k, moment: moments[j], slope: dt + df + ds,
			filled: stays(k, mt+mf, fei), melted: stays(k, mt, tei),
		}
	}
	for j := range order {
		p.at[j].energy = atLo + half*running(&weights[j], &moments)
		p.atHi += half * gaussW[j] * moments[j]
	}
	return p
}

// start returns a curvature below that of a moment in N·mm, and near it where the
// moment is reached at all.
func (t ladder) start(moment float64) float64 {
	k := 0.0
	for i := range t.panels {
		for j := range t.panels[i].at {
			at := &t.panels[i].at[j]
			if at.moment >= moment {
				return k
			}
			k = at.k
		}
	}
	return k
}

// node is one station along a leg.
type node struct {
	k      float64 // curvature, 1/mm
	w      float64 // weight of the station in an integral over q, the moment over the crown's
	lean   float64 // sine of the slope against the tube at the roller, per mm of lever arm
	energy float64 // work per mm of tube, N
	// Curvature that stays after release and after melt-out, 1/mm.
	filled, melted float64
}

// legCurve holds everything about a leg that does not depend on its length or
// on where the rollers are. The roller pushes square to the tube that it
// touches, with a force N, so the moment at a point of the leg is N times the
// distance u from the push's line of action. With s the length along the leg
// and psi the slope, both from the roller, against the tube there,
//
//	M = N u,  du = cos psi ds,  dpsi = k ds
//
// gives cos psi dpsi = k dM/N, which with U = ∫ M dk is closed:
//
//	sin psi = (k M - U(k))/N
//
// (plane statics of a thin bar, exact at any slope). N stands for the lever
// arm of the tangent point, where the moment is Mp: arm = Mp/N. Integrals along
// the leg, ds = dM/(N cos psi), are taken over the curvature, dM = M'(k) dk, so
// M is never inverted.
type legCurve struct {
	kp     float64 // curvature at the tangent point, 1/mm
	moment float64 // of the stack there, N·mm
	nodes  []node  // from the roller to the tangent point, order to a panel
	few    *few    // stands for the nodes where the leg turns little; nil where it is not worth its making
	lean   float64 // at the tangent point, as a node's
	yield  float64 // curvature at which the tube's outer face yields, 1/mm
	wrapU  float64 // U(kp), N: internal work per mm of wrapped tube
	// Curvature that stays of what lay on the block, after release and after
	// melt-out, 1/mm.
	filledP, meltedP float64
}

// below returns the leg below a crown at curvature kp, not above the ladder's
// top, its nodes in room where they fit. Only the panel that kp cuts is computed anew.
func (t ladder) below(kp float64, room []node) legCurve {
	s := t.stack
	mt := s.Tube.Moment(kp)
	mf := s.Filler.Moment(kp)
	c := legCurve{
		kp:      kp,
		moment:  mt + mf + s.Strip.Moment(kp),
		nodes:   slices.Grow(room[:0], order*len(t.panels)),
		yield:   s.yieldCurvature(),
		filledP: stays(kp, mt+mf, s.unloading()),
		meltedP: stays(kp, mt, s.Tube.unloading()),
	}
	for i := range t.panels {
		p := &t.panels[i]
		if p.lo >= kp {
			break
		}
		if c.wrapU = p.atHi; p.hi > kp {
			cut := s.panel(p.lo, kp, p.atLo)
			p, c.wrapU = &cut, cut.atHi
		}
		half := (p.hi - p.lo) / 2 / c.moment
		for j := range order {
			at := &p.at[j]
			c.nodes = append(c.nodes, node{
				k: at.k, w: half * gaussW[j] * at.slope, lean: (at.k*at.moment - at.energy) / c.moment,
				energy: at.energy, filled: at.filled, melted: at.melted,
			})
		}
	}
	c.lean = kp - c.wrapU/c.moment
	return c
}

// yieldCurvature returns the curvature at which the tube's outer face reaches
// the proof stress over E, 1/mm.
func (s Stack) yieldCurvature() float64 {
	return s.Tube.Law.YieldStrain() / (s.Tube.Outer.Depth / 2)
}

// across returns how far the tangent point lies, square to the tube at the
// roller, from the roller contact, for a lever arm in mm, and how much that
// grows per mm of arm: ∫ tan psi du.
func (c *legCurve) across(arm float64) (v, dv float64) {
	if arm == 0 {
		return 0, 0 // where every search begins
	}
	if c.few.serves(arm) {
		return c.few.across(arm)
	}
	for i := range c.nodes {
		n := &c.nodes[i]
		sin := arm * n.lean
		cos2 := 1 - sin*sin
		tan := n.w * sin / math.Sqrt(cos2)
		v += tan
		dv += tan + tan/cos2
	}
	return arm * v, dv
}

// turn returns the slope at the tangent point against the tube at the roller,
// in radians, and its cosine, for a lever arm in mm.
func (c *legCurve) turn(arm float64) (turn, cos float64) {
	sin := arm * c.lean
	return math.Asin(sin), math.Sqrt(1 - sin*sin)
}

// reach returns how far out in mm a leg with a lever arm in mm takes the centre of
// its roller, d from the centreline, that starts at a slope w, and how much that
// grows per mm of arm. The slope is given by its sine and cosine.
func (c *legCurve) reach(sinW, cosW, arm, d float64) (x, dx float64) {
	v, dv := c.across(arm)
	sinT := arm * c.lean
	cosT := math.Sqrt(1 - sinT*sinT)
	sin, cos := sinW*cosT+cosW*sinT, cosW*cosT-sinW*sinT
	return arm*cos + (v+d)*sin, cos + dv*sin + ((v+d)*cos-arm*sin)*c.lean/cosT
}

// pace returns the length in mm of leg that a node stands for.
func (n *node) pace(arm float64) float64 {
	sin := arm * n.lean
	return arm * n.w / math.Sqrt(1-sin*sin)
}

// along returns the leg's length and the sums over it, for a lever arm in mm.
func (c *legCurve) along(arm float64) sums {
	if c.few.serves(arm) {
		return c.few.along(arm)
	}
	var s sums
	for i := range c.nodes {
		n := &c.nodes[i]
		s.add(n.pace(arm), n.share(c.yield))
	}
	return s
}

// sums are integrals along a leg.
type sums struct {
	length         float64 // mm
	tail           float64 // length that yields, mm
	filled, melted float64 // turn that stays after release and after melt-out, radians
	energy         float64 // work, N·mm
}

// add adds a stretch of a length ds in mm with what it has a mm.
func (s *sums) add(ds float64, per sums) {
	s.length += ds * per.length
	s.tail += ds * per.tail
	s.filled += ds * per.filled
	s.melted += ds * per.melted
	s.energy += ds * per.energy
}

// share returns what a mm of leg at the node adds to the sums.
func (n *node) share(yield float64) sums {
	s := sums{1, 0, n.filled, n.melted, n.energy}
	if n.k > yield {
		s.tail = 1
	}
	return s
}

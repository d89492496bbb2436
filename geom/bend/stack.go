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

// filledStiffness returns E I in N·mm² of tube and filler, which unload
// together while the filler is in.
func (s Stack) filledStiffness() float64 { return s.Tube.Stiffness() + s.Filler.Stiffness() }

// below returns the distance in mm from the tube's centreline to the face that
// lies on the rollers.
func (s Stack) below() float64 { return s.Depth/2 + s.StripThickness }

// station is what the layers carry at one curvature.
type station struct {
	k      float64 // 1/mm
	tube   float64 // moment, N·mm
	filler float64 // moment, N·mm
	moment float64 // of the stack, N·mm
	slope  float64 // of the stack's moment, N·mm²
}

// panel is a stretch of curvature in which the stack's moment is smooth, with
// a station at each Gauss node.
type panel struct {
	lo, hi float64
	at     [order]station
}

// ladder is a stack's moment from curvature 0 up to the block's: what every
// leg on that block is made of.
type ladder struct {
	stack  Stack // its tube's law sampled where that pays
	panels []panel
}

// ladder tabulates the stack's moment up to curvature top. Refine 1 is what the
// program uses; the tests show that 10 moves no result by 0.05 %.
func (s Stack) ladder(top float64, refine int) ladder {
	s.Tube = s.Tube.upTo(top)
	knees := slices.Concat(s.Tube.knees(), s.Filler.knees(), s.Strip.knees())
	slices.Sort(knees)
	borders := panels(top, knees, refine)
	t := ladder{stack: s, panels: make([]panel, len(borders)-1)}
	for i := range t.panels {
		t.panels[i] = s.panel(borders[i], borders[i+1])
	}
	return t
}

func (s Stack) panel(lo, hi float64) panel {
	p := panel{lo: lo, hi: hi}
	for j := range order {
		k := lo + (hi-lo)/2*(1+gaussX[j])
		mt, dt := s.Tube.momentSlope(k, true)
		mf, df := s.Filler.momentSlope(k, true)
		ms, ds := s.Strip.momentSlope(k, true)
		p.at[j] = station{k: k, tube: mt, filler: mf, moment: mt + mf + ms, slope: dt + df + ds}
	}
	return p
}

// node is one station along a leg, seen from the crown's curvature down to 0.
type node struct {
	q     float64 // moment over the crown's moment
	w     float64 // weight of the station in an integral over q
	a     float64 // slope gained from the tangent point, per mm of leg length
	k     float64 // curvature, 1/mm
	freed float64 // slope that stays after melt-out, from the tangent point, per mm of leg length
}

// legCurve holds everything about a leg that does not depend on its length or
// on where the rollers are. Along a leg of developed length L the moment falls
// linearly, so q = M/Mp is the station (distance from the tangent point over
// L is 1 - q) and with U = ∫ M dk the slope gained from the tangent point is
// closed:
//
//	L a(k),  a(k) = ∫ k' dq' = kp - k q - (U(kp) - U(k))/Mp
//
// Integrals over q are taken over the curvature instead (dq = M'(k)/Mp dk), so
// M is never inverted.
type legCurve struct {
	kp     float64 // curvature at the tangent point, 1/mm
	moment float64 // of the stack there, N·mm
	nodes  []node  // from the roller to the tangent point, order to a panel
	slope  float64 // a at the roller, 1/mm
	energy float64 // ∫ U dq, N: internal work in the leg per mm of its length
	wrapU  float64 // U(kp), N: internal work per mm of wrapped tube
	tail   float64 // share of the leg in which the tube's outer face yields
	// Mean residual curvature of the leg, 1/mm: ∫ (k - M/EI) dq.
	filled, melted float64
	// The same at the tangent point, which the wrapped part has all over.
	filledP, meltedP float64
}

// below returns the leg below a crown at curvature kp, not above the ladder's
// top. Only the panel that kp cuts is computed anew.
func (t ladder) below(kp float64) legCurve {
	s := t.stack
	fei, tei := s.filledStiffness(), s.Tube.Stiffness()
	mt := s.Tube.Moment(kp)
	mf := s.Filler.Moment(kp)
	c := legCurve{
		kp:      kp,
		moment:  mt + mf + s.Strip.Moment(kp),
		nodes:   make([]node, 0, order*len(t.panels)),
		filledP: kp - (mt+mf)/fei,
		meltedP: kp - mt/tei,
	}
	if ky := s.yieldCurvature(); ky < kp {
		c.tail = 1 - s.Moment(ky)/c.moment
	}

	// Upwards in curvature, for the running integrals of M and of what stays.
	u := 0.0
	for i := range t.panels {
		p := &t.panels[i]
		if p.lo >= kp {
			break
		}
		if p.hi > kp {
			cut := s.panel(p.lo, kp)
			p = &cut
		}
		half := (p.hi - p.lo) / 2
		var left [order]float64
		base := len(c.nodes)
		for j := range order {
			at := &p.at[j]
			n := node{
				q: at.moment / c.moment,
				w: half * gaussW[j] * at.slope / c.moment,
				k: at.k,
			}
			left[j] = (at.k - at.tube/tei) * n.w / gaussW[j]
			c.filled += n.w * (at.k - (at.tube+at.filler)/fei)
			c.nodes = append(c.nodes, n)
		}
		for j := range order {
			run, stays := 0.0, 0.0
			for l := range order {
				run += cumulative[j][l] * p.at[l].moment
				stays += cumulative[j][l] * left[l]
			}
			n := &c.nodes[base+j]
			n.a = u + half*run // U at the node, turned into a below
			n.freed = c.melted + stays
			c.energy += n.w * n.a
		}
		for l := range order {
			u += half * gaussW[l] * p.at[l].moment
			c.melted += gaussW[l] * left[l]
		}
	}
	c.wrapU = u
	for i := range c.nodes {
		n := &c.nodes[i]
		n.a = kp - n.k*n.q - (u-n.a)/c.moment
		n.freed = c.melted - n.freed
	}
	c.slope = kp - u/c.moment
	return c
}

// yieldCurvature returns the curvature at which the tube's outer face reaches
// the proof stress over E, 1/mm.
func (s Stack) yieldCurvature() float64 {
	return s.Tube.Law.YieldStrain() / (s.Tube.Outer.Depth / 2)
}

// reach returns the displacement in mm from the tangent point, where the
// centreline's slope is w, to the end of a leg of length l, and how much x
// grows per mm of l. Per radian of w it grows by -y.
func (c *legCurve) reach(w, l float64) (x, y, dx float64) {
	turned := 0.0
	for i := range c.nodes {
		n := &c.nodes[i]
		sin, cos := math.Sincos(w + l*n.a)
		x += n.w * cos
		y += n.w * sin
		turned += n.w * n.a * sin
	}
	return l * x, l * y, x - l*turned
}

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
	// Mean residual curvature of the leg, 1/mm: ∫ (k - M/EI) dq.
	filled, melted float64
	// The same at the tangent point, which the wrapped part has all over.
	filledP, meltedP float64
}

// legCurve tabulates the leg below a crown at curvature kp. Refine 1 is what
// the program uses; the tests show that 10 moves no result by 0.05 %.
func (s Stack) legCurve(kp float64, refine int) legCurve {
	knees := slices.Concat(s.Tube.knees(), s.Filler.knees(), s.Strip.knees())
	slices.Sort(knees)
	c := legCurve{kp: kp, moment: s.Moment(kp)}
	borders := panels(kp, knees, refine)
	c.nodes = make([]node, 0, order*(len(borders)-1))
	fei, tei := s.filledStiffness(), s.Tube.Stiffness()
	c.filledP = kp - (s.Tube.Moment(kp)+s.Filler.Moment(kp))/fei
	c.meltedP = kp - s.Tube.Moment(kp)/tei

	// Upwards in curvature, for the running integrals of M and of what stays.
	u := 0.0
	for i := range len(borders) - 1 {
		lo, hi := borders[i], borders[i+1]
		half := (hi - lo) / 2
		var mom, left [order]float64
		base := len(c.nodes)
		for j := range order {
			k := lo + half*(1+gaussX[j])
			mt, dt := s.Tube.momentSlope(k, true)
			mf, df := s.Filler.momentSlope(k, true)
			ms, ds := s.Strip.momentSlope(k, true)
			mom[j] = mt + mf + ms
			n := node{
				q: mom[j] / c.moment,
				w: half * gaussW[j] * (dt + df + ds) / c.moment,
				k: k,
			}
			left[j] = (k - mt/tei) * n.w / gaussW[j]
			c.filled += n.w * (k - (mt+mf)/fei)
			c.nodes = append(c.nodes, n)
		}
		for j := range order {
			run, stays := 0.0, 0.0
			for l := range order {
				run += cumulative[j][l] * mom[l]
				stays += cumulative[j][l] * left[l]
			}
			n := &c.nodes[base+j]
			n.a = u + half*run // U at the node, turned into a below
			n.freed = c.melted + stays
			c.energy += n.w * n.a
		}
		for l := range order {
			u += half * gaussW[l] * mom[l]
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

// reach returns the displacement in mm from the tangent point, where the
// centreline's slope is w, to the end of a leg of length l.
func (c legCurve) reach(w, l float64) (x, y float64) {
	for i := range c.nodes {
		n := &c.nodes[i]
		sin, cos := math.Sincos(w + l*n.a)
		x += n.w * cos
		y += n.w * sin
	}
	return l * x, l * y
}

package bend

import (
	"math"

	"overbend/geom"
)

// BlockBeam is a form block under the press's ram, as a beam: flat at the back,
// where the ram pushes on its middle, an arc below, of plates side by side.
type BlockBeam struct {
	Radius    float64 // of the arc, mm
	Height    float64 // from the arc's crown to the back, mm
	Thickness float64 // of the plates together, mm
	Ram       float64 // width of the ram along the block, mm
	Young     float64 // of the plates, MPa
}

// BlockLoad is what a state of the press puts on a block.
type BlockLoad struct {
	Force    float64    // of the ram, N
	HalfWrap geom.Angle // half angle over which the tube lies on the block
}

// BlockBent is what a load does to a block.
type BlockBent struct {
	// Closes is the change of the arc's curvature at the crown as a share of it:
	// above 0 the ends are pushed up and the arc tightens, below 0, under a ram
	// wider than the tube's hold, it flattens.
	Closes float64
	Stress float64 // largest lengthwise stress in the plates, either sign, MPa
}

const (
	plateRigidity = 1 / 2.6 // shear modulus over Young's, Poisson ratio 0.3
	shearCarrying = 5.0 / 6 // of a rectangle's area, in shear (S. P. Timoshenko)
	blockStations = 48      // from the crown to the tangent point
)

// Under returns what a load does to the block. Where the tube lies on it the
// tube's moment is the same all over, so nothing there needs a reaction: the
// tube bears on the block at the two tangent points alone, square to the arc.
// Against that the ram bears evenly over its width. With F half the ram's force,
// X and Y the tangent point's distance from the crown across and up, and h the
// height of the crown, the moment and the thrust there are
//
//	M = F (X - ram/4) - F tan(wrap) (h/2 - Y),  H = F tan(wrap)
//
// and the curvature changes by M/(E I), and by q/(shear stiffness) below the ram,
// where q is its force per width (beam on two supports with shear, S. P.
// Timoshenko; from memory). Stress is that of plane sections of the block's own
// height at each place, h less the arc's rise. Friction and the tube's small
// thrust along itself are left out; local pressure is too.
func (b BlockBeam) Under(l BlockLoad) BlockBent {
	return BlockBent{Closes: b.closes(l), Stress: b.stress(l)}
}

// hold is where the tube bears on one side of the block.
type hold struct {
	force, thrust float64 // upwards and towards the crown, N
	at            geom.Point
}

func (b BlockBeam) hold(l BlockLoad) hold {
	sin, cos := math.Sincos(float64(l.HalfWrap))
	f := l.Force / 2
	return hold{f, f * sin / cos, geom.Pt(b.Radius*sin, geom.Sagitta(b.Radius, l.HalfWrap))}
}

// moment returns the moment in N·mm at a place x across from the crown, where
// the arc has risen by rise.
func (b BlockBeam) moment(o hold, x, rise float64) float64 {
	m := o.force*(o.at.X-x) - o.thrust*((rise+b.Height)/2-o.at.Y)
	if past := b.Ram/2 - x; past > 0 {
		m -= o.force / b.Ram * past * past
	}
	return m
}

func (b BlockBeam) closes(l BlockLoad) float64 {
	area := b.Thickness * b.Height
	bending := b.moment(b.hold(l), 0, 0) / (b.Young * area * b.Height * b.Height / 12)
	shear := l.Force / b.Ram / (shearCarrying * plateRigidity * b.Young * area)
	return (bending + shear) * b.Radius
}

func (b BlockBeam) stress(l BlockLoad) float64 {
	o, most := b.hold(l), 0.0
	for i := range blockStations + 1 {
		x := o.at.X * float64(i) / blockStations
		rise := x * x / (b.Radius + math.Sqrt(max(0, b.Radius*b.Radius-x*x)))
		h := b.Height - rise
		if h <= 0 {
			return math.Inf(1)
		}
		most = max(most, (6*math.Abs(b.moment(o, x, rise))/h+o.thrust)/(b.Thickness*h))
	}
	return most
}

// LeastHeight returns the block's least height in mm at the crown, to a tenth of
// a mm, with which no load changes the crown's curvature by more than a share of
// it, either way, or stresses the plates beyond stress in MPa. Height is not
// looked at. A [*Refusal] says that no height up to
// twice the radius will do.
func (b BlockBeam) LeastHeight(loads []BlockLoad, share, stress float64) (float64, error) {
	holds := func(h float64) bool {
		b.Height = h
		for _, l := range loads { // the quicker of the two for all
			if !(math.Abs(b.closes(l)) <= share) {
				return false
			}
		}
		for _, l := range loads {
			if !(b.stress(l) <= stress) {
				return false
			}
		}
		return true
	}
	const grow, fine = 1.1, 0.1
	lo, hi := 0.0, b.Thickness/10
	for !holds(hi) {
		if lo, hi = hi, hi*grow; hi > 2*b.Radius {
			return 0, &Refusal{Why: BlockGivesWay, Value: b.Radius, Most: 2 * b.Radius}
		}
	}
	for hi-lo > fine {
		if mid := (lo + hi) / 2; holds(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, nil
}

package tooling

import (
	"math"

	"overbend/geom"
)

// arm is one straight leg of a bend about the origin: the unit direction in
// which it leaves the arc, and the unit normal to the outside of the bend.
type arm struct{ along, out geom.Point }

// arms returns the left and the right leg of a bend through angle.
func arms(angle geom.Angle) [2]arm {
	n := toward(angle / 2)
	// Quarter clockwise of the right-hand normal.
	right := arm{along: geom.Pt(n.Y, -n.X), out: n}
	left := arm{along: geom.Pt(-n.Y, -n.X), out: geom.Pt(-n.X, n.Y)}
	return [2]arm{left, right}
}

// at returns the point of a leg on the given radius, along mm past the tangent.
func (a arm) at(radius, along float64) geom.Point {
	return a.out.Mul(radius).Add(a.along.Mul(along))
}

// TubeOutline returns the outline of the finished tube seen from the side: the
// arcs of its outer and its inner face, both legs and the end cuts. radius is
// the centreline's, legs (left and right) run from tangent point to trimmed end
// on the centreline, all in mm. A cut is the angle of the end from square,
// positive when it makes the outside of the bend the longer face. An end cut
// that [CheckEnds] refuses gives an outline that crosses itself.
func TubeOutline(radius, depth float64, angle geom.Angle, legs [2]float64, cuts [2]geom.Angle) geom.Path {
	outer, inner := radius+depth/2, radius-depth/2
	a := arms(angle)
	reach := [2]float64{depth / 2 * cuts[0].Tan(), depth / 2 * cuts[1].Tan()}
	// Inside of the bend to the right, that is counter-clockwise: out along the
	// right leg's inner face, back along its outer face, over the crown.
	var v []geom.Vertex
	v = append(v,
		geom.Vertex{Point: a[1].at(inner, 0)},
		geom.Vertex{Point: a[1].at(inner, legs[1]-reach[1])},
		geom.Vertex{Point: a[1].at(outer, legs[1]+reach[1])},
		geom.Vertex{Point: a[1].at(outer, 0), Bulge: (angle / 4).Tan()},
		geom.Vertex{Point: a[0].at(outer, 0)},
		geom.Vertex{Point: a[0].at(outer, legs[0]+reach[0])},
		geom.Vertex{Point: a[0].at(inner, legs[0]-reach[0])},
		geom.Vertex{Point: a[0].at(inner, 0), Bulge: -(angle / 4).Tan()},
	)
	return distinct(v)
}

// distinct returns the closed path through v without vertices that repeat the
// one before, as a leg of no length leaves them.
func distinct(v []geom.Vertex) geom.Path {
	out := geom.Path{Closed: true}
	for i, w := range v {
		next := v[(i+1)%len(v)]
		if w.Dist(next.Point) < geom.Coincident {
			continue
		}
		out.Vertices = append(out.Vertices, w)
	}
	return out
}

// Centreline returns the finished tube's centreline as an open path from the
// left end to the right: leg, arc, leg. Arguments are those of [TubeOutline].
func Centreline(radius float64, angle geom.Angle, legs [2]float64) geom.Path {
	a := arms(angle)
	p := geom.Start(a[0].at(radius, legs[0]))
	if legs[0] > geom.Coincident {
		p = p.LineTo(a[0].at(radius, 0))
	}
	p = p.ArcTo(a[1].at(radius, 0), -angle)
	if legs[1] > geom.Coincident {
		p = p.LineTo(a[1].at(radius, legs[1]))
	}
	return p
}

// mostCut is the steepest end cut from square; beyond it the long point is
// drawn out to a blade.
const mostCut = 75 * geom.Degree

// CheckEnds returns a [*SizeError] when an end cut is steeper than 75° or, on
// its short face, reaches past the tangent point into the bend.
func CheckEnds(depth float64, legs [2]float64, cuts [2]geom.Angle) error {
	for i, c := range cuts {
		if !(math.Abs(float64(c)) <= float64(mostCut)) {
			return &SizeError{Part: "tube", Dimension: EndCut, Angular: true, Value: c.Radians(), Why: CutTooSteep, Most: mostCut.Radians()}
		}
		if least := depth / 2 * math.Abs(c.Tan()); !(legs[i] >= least) {
			return &SizeError{Part: "tube", Dimension: Leg, Value: legs[i], Why: CutIntoBend, Least: least, Facts: Facts{Cut: c}}
		}
	}
	return nil
}

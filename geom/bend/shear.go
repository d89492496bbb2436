package bend

import (
	"math"

	"overbend/profiles"
)

// shearShare is the share of the plastic shear resistance up to which shear
// leaves the bending moment as it is (EN 1993-1-1 6.2.8).
const shearShare = 0.5

// ShearArea returns the area in mm² of a section that carries shear along its
// depth (EN 1993-1-1 6.2.6 (3), for hollow sections of even wall):
//
//	A D/(B + D), a round tube 2 A/π
func ShearArea(s profiles.Section) float64 {
	if s.Shape == profiles.Round {
		return 2 * s.Area() / math.Pi
	}
	return s.Area() * s.Depth / (s.Width + s.Depth)
}

// LeastLeg returns the shortest leg in mm between block and roller in which a
// tube bent to curvature k > 0, 1/mm, is bent and not sheared: the roller's push
// M/leg is at most half of the plastic shear resistance,
//
//	leg = M(k)/(0.5 Av s/sqrt(3))
//
// with s the stress that the outer face has hardened to. The filler's help is
// left out.
func LeastLeg(s profiles.Section, law profiles.Law, k float64) float64 {
	resistance := ShearArea(s) * law.Stress(k*s.Depth/2) / math.Sqrt(3)
	return Hollow(s, law).Moment(k) / (shearShare * resistance)
}

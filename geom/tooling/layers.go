package tooling

import (
	"math"

	"overbend/geom"
)

// leastShim is the thinnest shim in mm that is worth stating; the bolts take up
// the rest.
const leastShim = 0.3

// CheekGap returns the distance in mm between the cheeks: the tube's inner face
// as the bend widens it, and half a millimetre so that the tube comes out.
func CheekGap(innerWidth float64) float64 { return innerWidth + 0.5 }

// Layers returns the most whole plates that fit a gap, both in mm, and the
// thickness of the shim that makes up the rest: 0 when it would be thinner
// than 0.3 mm. n is 0 when a single plate is too thick, or when gap or plate
// is not a size.
func Layers(gap, plate float64) (n int, shim float64) {
	if !(gap > 0 && plate > 0) || math.IsInf(gap, 1) {
		return 0, 0
	}
	// A plate that is too thick by rounding alone still fits.
	n = int(math.Min(math.Floor(gap/plate*(1+1e-12)), math.MaxInt32))
	shim = gap - float64(n)*plate
	if n == 0 || shim < leastShim-geom.Coincident {
		shim = 0
	}
	return n, shim
}

// LayerRadii returns the arc radius in mm of each of n plates in a stack that
// makes a stepped saddle for a round tube, from one cheek to the other:
//
//	R = centreRadius - √(r² - x²),
//
// centreRadius the pressed radius of the centreline, r the tube's outer
// radius, x the distance from the middle of the stack to the plate's edge that
// is nearer the middle (0 for a plate on the middle). A plate that stands
// wholly beside the tube gets centreRadius.
func LayerRadii(centreRadius, tubeRadius, plate float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		// The plate reaches from (i - n/2) to (i + 1 - n/2) plates.
		near := math.Abs(float64(2*i+1-n))/2 - 0.5
		x := max(0, near) * plate
		out[i] = centreRadius - math.Sqrt(max(0, tubeRadius*tubeRadius-x*x))
	}
	return out
}

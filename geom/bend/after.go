package bend

import (
	"math"

	"overbend/profiles"
)

// After is what a bend does to the tube's section, at the inner (compressed)
// and outer (stretched) face.
type After struct {
	Strain     float64 // outer face, as a fraction; the inner face has its negative
	OuterWall  float64 // mm
	InnerWall  float64 // mm
	OuterWidth float64 // mm
	InnerWidth float64 // mm
}

// Deform returns the section's state at curvature k, 1/mm. With plastic
// Poisson ratio 1/2 (constant volume) and strain e = k depth/2:
//
//	wall  = t / sqrt(1 ± e)
//	width = W (1 ∓ e/2)
//
// A round tube's width is its diameter; the figure for its inner face is then
// an upper bound, for the tube is narrower there.
func Deform(s profiles.Section, k float64) After {
	e := k * s.Depth / 2
	return After{
		Strain:     e,
		OuterWall:  s.Wall / math.Sqrt(1+e),
		InnerWall:  s.Wall / math.Sqrt(max(1-e, 1e-9)),
		OuterWidth: s.Width * (1 - e/2),
		InnerWidth: s.Width * (1 + e/2),
	}
}

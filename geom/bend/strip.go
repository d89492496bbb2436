package bend

import "math"

// StripAfter is the backing strip after release.
type StripAfter struct {
	Curvature float64 // that it keeps, 1/mm
	Rise      float64 // of that set over the length that was bent, mm
}

// Radius returns the radius in mm that the strip keeps, +Inf when flat.
func (s StripAfter) Radius() float64 { return 1 / s.Curvature }

// elasticShare is the share of the pressed curvature below which what is left
// counts as nothing: rounding, or the foot of a curve that has no sharp yield.
const elasticShare = 1e-6

// StripCurvature returns the curvature of the strip's own middle when the tube's
// centreline has curvature k > 0, 1/mm: it lies half the tube's depth and half
// its own thickness further out.
func (s Stack) StripCurvature(k float64) float64 {
	return 1 / (1/k + (s.Depth+s.StripThickness)/2)
}

// ReleaseStrip returns what a strip keeps whose own middle was bent to curvature
// k, 1/mm, over a developed length of bent mm.
func ReleaseStrip(strip Member, k, bent float64) StripAfter {
	kf := Release(strip, k).Final
	if math.Abs(kf) < elasticShare*math.Abs(k) {
		kf = 0
	}
	return StripAfter{Curvature: kf, Rise: kf * bent * bent / 8}
}

package bend

import "math"

// StripAfter is the backing strip after release.
type StripAfter struct {
	Curvature float64 // that it keeps, 1/mm
	Rise      float64 // of that set over the length that was bent, mm
}

// Radius returns the radius in mm that the strip keeps, +Inf when flat.
func (s StripAfter) Radius() float64 { return 1 / s.Curvature }

// ReleaseStrip returns what a strip keeps that was bent to curvature k, 1/mm,
// over a developed length of bent mm.
func ReleaseStrip(strip Member, k, bent float64) StripAfter {
	kf := Release(strip, k).Final
	if math.Abs(kf) < 1e-12*math.Abs(k) {
		kf = 0 // rounding of an elastic strip
	}
	return StripAfter{Curvature: kf, Rise: kf * bent * bent / 8}
}

package geom

import "math"

// Angle is a plane angle in radians, counter-clockwise positive.
type Angle float64

// Degree is one degree. To build an angle write 33*Degree; to read one write
// a.Degrees(). The conversion rounds once: relative error below 3e-16.
const Degree Angle = math.Pi / 180

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a) * 180 / math.Pi }

// Radians returns a in radians as a plain number.
func (a Angle) Radians() float64 { return float64(a) }

// Sin returns the sine of a.
func (a Angle) Sin() float64 { return math.Sin(float64(a)) }

// Cos returns the cosine of a.
func (a Angle) Cos() float64 { return math.Cos(float64(a)) }

// Tan returns the tangent of a.
func (a Angle) Tan() float64 { return math.Tan(float64(a)) }

// Sagitta returns the rise in mm of an arc of radius r mm that spans half
// angle h to each side of its crown:
//
//	rise = r (1 - cos h) = 2 r sin²(h/2)
//
// The second form keeps full precision as h goes to zero.
func Sagitta(r float64, h Angle) float64 {
	s := (h / 2).Sin()
	return 2 * r * s * s
}

// Rise returns the height in mm of an arc of radius r mm over a chord of
// length c mm, r - sqrt(r² - c²/4), in the form that keeps full precision for
// shallow arcs. It returns NaN when the chord is longer than the diameter.
func Rise(r, c float64) float64 {
	h := c / 2
	return h * h / (r + math.Sqrt(r*r-h*h))
}

// RadiusFromChordRise returns the radius in mm of the arc with chord c mm and
// rise h mm,
//
//	R = c²/(8h) + h/2,
//
// and dR/dh, how many mm the radius moves for 1 mm of error in the rise:
//
//	dR/dh = 1/2 - c²/(8h²)
func RadiusFromChordRise(c, h float64) (radius, perRise float64) {
	return c*c/(8*h) + h/2, 0.5 - c*c/(8*h*h)
}

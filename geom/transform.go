package geom

import "math"

// Transform is a similarity of the plane (shift, turn, mirror, equal scale),
// the maps under which an arc stays an arc:
//
//	x' = A x + B y + X
//	y' = C x + D y + Y
//
// The zero value collapses everything to the origin; start from a constructor.
type Transform struct{ A, B, C, D, X, Y float64 }

// Translate returns the shift by d.
func Translate(d Point) Transform { return Transform{1, 0, 0, 1, d.X, d.Y} }

// Rotate returns the turn by a about the origin.
func Rotate(a Angle) Transform {
	s, c := math.Sincos(float64(a))
	return Transform{c, -s, s, c, 0, 0}
}

// RotateAbout returns the turn by a about c.
func RotateAbout(c Point, a Angle) Transform {
	return Translate(c.Mul(-1)).Then(Rotate(a)).Then(Translate(c))
}

// MirrorX returns the mirror image left to right, x' = -x.
func MirrorX() Transform { return Transform{-1, 0, 0, 1, 0, 0} }

// MirrorY returns the mirror image top to bottom, y' = -y.
func MirrorY() Transform { return Transform{1, 0, 0, -1, 0, 0} }

// Scale returns the equal scaling by k about the origin.
func Scale(k float64) Transform { return Transform{k, 0, 0, k, 0, 0} }

// Then returns the transform that does t first and u after it.
func (t Transform) Then(u Transform) Transform {
	return Transform{
		u.A*t.A + u.B*t.C, u.A*t.B + u.B*t.D,
		u.C*t.A + u.D*t.C, u.C*t.B + u.D*t.D,
		u.A*t.X + u.B*t.Y + u.X, u.C*t.X + u.D*t.Y + u.Y,
	}
}

// Apply returns the image of p.
func (t Transform) Apply(p Point) Point {
	return Point{t.A*p.X + t.B*p.Y + t.X, t.C*p.X + t.D*p.Y + t.Y}
}

// Mirrors reports whether t turns left into right.
func (t Transform) Mirrors() bool { return t.A*t.D-t.B*t.C < 0 }

// Factor returns the scale of t: lengths are multiplied by it.
func (t Transform) Factor() float64 { return math.Sqrt(math.Abs(t.A*t.D - t.B*t.C)) }

// ApplyCircle returns the image of c.
func (t Transform) ApplyCircle(c Circle) Circle {
	return Circle{t.Apply(c.Centre), c.Radius * t.Factor()}
}

package geom

import "math"

// Point is a point, or a displacement, in the plane, in mm.
type Point struct{ X, Y float64 }

// Pt is short for Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// Polar returns the displacement of length r mm in direction a.
func Polar(r float64, a Angle) Point { return Point{r * a.Cos(), r * a.Sin()} }

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul returns p scaled by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Dot returns the scalar product p · q in mm².
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the signed area in mm² of the parallelogram p, q: positive
// when q lies counter-clockwise of p.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Norm returns the length of p in mm.
func (p Point) Norm() float64 { return math.Hypot(p.X, p.Y) }

// Dist returns the distance from p to q in mm.
func (p Point) Dist(q Point) float64 { return p.Sub(q).Norm() }

// Unit returns p scaled to length 1. The zero displacement has no direction:
// Unit returns it unchanged, so test Norm first where that can happen.
func (p Point) Unit() Point {
	n := p.Norm()
	if n == 0 {
		return p
	}
	return Point{p.X / n, p.Y / n}
}

// Left returns p turned by a quarter counter-clockwise.
func (p Point) Left() Point { return Point{-p.Y, p.X} }

// Direction returns the angle of p from the x axis, in (-π, π]; zero for the
// zero displacement.
func (p Point) Direction() Angle { return Angle(math.Atan2(p.Y, p.X)) }

// Lerp returns the point at fraction t from p (t = 0) to q (t = 1).
func (p Point) Lerp(q Point, t float64) Point {
	return Point{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t}
}

// Finite reports whether both coordinates are finite numbers.
func (p Point) Finite() bool {
	return !math.IsNaN(p.X) && !math.IsInf(p.X, 0) && !math.IsNaN(p.Y) && !math.IsInf(p.Y, 0)
}

package geom

import "math"

// Circle is a full circle: centre and radius in mm.
type Circle struct {
	Centre Point
	Radius float64
}

// Area returns the enclosed area in mm².
func (c Circle) Area() float64 { return math.Pi * c.Radius * c.Radius }

// Bounds returns the box around the circle.
func (c Circle) Bounds() Rect { return Rect{c.Centre, c.Centre}.Grow(c.Radius) }

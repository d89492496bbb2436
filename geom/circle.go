package geom

import "math"

// Circle is a full circle: centre and radius in mm.
type Circle struct {
	Centre Point
	Radius float64
}

// Area returns the enclosed area in mm².
func (c Circle) Area() float64 { return math.Pi * c.Radius * c.Radius }

// Path returns the circle as two half circles, counter-clockwise from its
// rightmost point.
func (c Circle) Path() Path {
	r := Pt(c.Radius, 0)
	return Path{[]Vertex{{c.Centre.Add(r), 1}, {c.Centre.Sub(r), 1}}, true}
}

// Bounds returns the box around the circle.
func (c Circle) Bounds() Rect { return Rect{c.Centre, c.Centre}.Grow(c.Radius) }

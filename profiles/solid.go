package profiles

import "math"

// Shape is the outline of a section.
type Shape uint8

// The shapes a tube comes in. A square is a rectangle.
const (
	Rectangle Shape = iota
	Round
)

// String returns the shape's name as job files spell it.
func (s Shape) String() string {
	if s == Round {
		return "round"
	}
	return "rectangle"
}

// Solid is a filled cross section, symmetric about the centreline y = 0 on
// which it bends: a rectangle with rounded corners, or a disc. It stands for a
// strip, the filler in a bore, or the outside of a tube.
type Solid struct {
	Shape  Shape
	Width  float64 // across the bend plane, mm; a disc's diameter
	Depth  float64 // in the bend plane, mm; a disc's diameter
	Corner float64 // corner radius of a rectangle, mm; 0 is sharp
}

// Area returns the area in mm²: WD - (4 - π) r², or π D²/4.
func (s Solid) Area() float64 {
	if s.Shape == Round {
		return math.Pi * s.Depth * s.Depth / 4
	}
	return s.Width*s.Depth - (4-math.Pi)*s.Corner*s.Corner
}

// Inertia returns the second moment of area about the centreline in mm⁴.
//
// A disc has π D⁴/64. A rounded rectangle is the sharp one less, at each
// corner, a square of side r without its quarter disc; the quarter disc's
// centroid lies 4r/(3π) from its straight edges and its own second moment is
// (π/16 - 4/(9π)) r⁴ (parallel axes; elementary statics).
func (s Solid) Inertia() float64 {
	if s.Shape == Round {
		return math.Pi * math.Pow(s.Depth, 4) / 64
	}
	r := s.Corner
	full := s.Width * math.Pow(s.Depth, 3) / 12
	if r == 0 {
		return full
	}
	yc := s.Depth/2 - r // height of the corner's centre
	square := math.Pow(r, 4)/12 + r*r*(yc+r/2)*(yc+r/2)
	q := 4 * r / (3 * math.Pi)
	quarter := (math.Pi/16-4/(9*math.Pi))*math.Pow(r, 4) + math.Pi*r*r/4*(yc+q)*(yc+q)
	return full - 4*(square-quarter)
}

// FirstMoment returns ∫|y| dA over the whole section in mm³, which is the
// plastic section modulus of the solid: WD²/4 when sharp, D³/6 for a disc.
func (s Solid) FirstMoment() float64 {
	if s.Shape == Round {
		return math.Pow(s.Depth, 3) / 6
	}
	r := s.Corner
	full := s.Width * s.Depth * s.Depth / 4
	yc := s.Depth/2 - r
	square := r * r * (yc + r/2)
	quarter := math.Pi * r * r / 4 * (yc + 4*r/(3*math.Pi))
	return full - 4*(square-quarter)
}

// WidthAt returns the width in mm at height y from the centreline, 0 outside.
func (s Solid) WidthAt(y float64) float64 {
	y = math.Abs(y)
	h := s.Depth / 2
	if y > h {
		return 0
	}
	if s.Shape == Round {
		return 2 * math.Sqrt(h*h-y*y)
	}
	if over := y - (h - s.Corner); over > 0 {
		return s.Width - 2*s.Corner + 2*math.Sqrt(max(0, s.Corner*s.Corner-over*over))
	}
	return s.Width
}

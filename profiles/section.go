package profiles

import (
	"fmt"
	"math"
)

// Section is a hollow tube section. It bends in the direction of its depth.
type Section struct {
	Shape  Shape
	Width  float64 // across the bend plane, mm; round: the outside diameter
	Depth  float64 // in the bend plane, mm; round: the outside diameter
	Wall   float64 // wall thickness, mm
	Corner float64 // outside corner radius, mm; round: 0
}

// String returns the section as a shop writes it, in mm: "40 x 40 x 3".
func (s Section) String() string {
	if s.Shape == Round {
		return fmt.Sprintf("dia %g x %g", s.Depth, s.Wall)
	}
	return fmt.Sprintf("%g x %g x %g", s.Width, s.Depth, s.Wall)
}

// The range that a length of a section must lie in, mm: outside it is a slip of
// the unit, and the fourth powers of the section values lose their meaning.
const (
	leastLength = 0.01
	mostLength  = 10_000.0
)

// Validate returns nil for a section that can exist, otherwise a *SectionError
// with the first thing wrong: a length not finite, not above 0 or out of range,
// a round section that is not one, a wall that leaves no bore, a corner radius
// that does not fit.
func (s Section) Validate() error {
	if s.Shape == Round {
		if err := checkLength(Diameter, s.Depth); err != nil {
			return err
		}
		if s.Width != s.Depth {
			return &SectionError{What: Width, Why: TwoSizes, Value: s.Width, Least: s.Depth, Most: s.Depth}
		}
	} else {
		if err := checkLength(Width, s.Width); err != nil {
			return err
		}
		if err := checkLength(Depth, s.Depth); err != nil {
			return err
		}
	}
	if err := checkLength(Wall, s.Wall); err != nil {
		return err
	}
	least, side := s.Depth, Depth
	if s.Width < s.Depth {
		least, side = s.Width, Width
	}
	if s.Shape == Round {
		side = Diameter
	}
	corner := SectionError{What: Corner, Value: s.Corner, Most: least / 2, Side: side}
	switch {
	case 2*s.Wall >= least:
		return &SectionError{What: Wall, Why: NoBore, Value: s.Wall, Most: least / 2, Side: side}
	case math.IsNaN(s.Corner) || math.IsInf(s.Corner, 0):
		corner.Why = NotFinite
	case s.Corner < 0:
		corner.Why = Negative
	case s.Shape == Round && s.Corner != 0:
		corner.Why = RoundCorner
	case 2*s.Corner > least:
		corner.Why = NoRoom
	default:
		return nil
	}
	return &corner
}

// checkLength returns a plain nil or a *SectionError.
func checkLength(what Size, mm float64) error {
	e := SectionError{What: what, Value: mm, Least: leastLength, Most: mostLength}
	switch {
	case math.IsNaN(mm) || math.IsInf(mm, 0):
		e.Why = NotFinite
	case mm <= 0:
		e.Why = NotPositive
	case mm < leastLength || mm > mostLength:
		e.Why = OutOfRange
	default:
		return nil
	}
	return &e
}

// Outer returns the section as if it were not hollow.
func (s Section) Outer() Solid {
	return Solid{s.Shape, s.Width, s.Depth, s.Corner}
}

// Bore returns the hollow. A rectangle's inner corner radius is the outer one
// less the wall, never below 0, as in EN 10219-2's tables.
func (s Section) Bore() Solid {
	return Solid{s.Shape, s.Width - 2*s.Wall, s.Depth - 2*s.Wall, max(s.Corner-s.Wall, 0)}
}

// Area returns the metal's cross-sectional area in mm².
func (s Section) Area() float64 { return s.Outer().Area() - s.Bore().Area() }

// BoreArea returns the hollow's cross-sectional area in mm².
func (s Section) BoreArea() float64 { return s.Bore().Area() }

// Inertia returns the metal's second moment of area in mm⁴ about the
// centreline across the depth.
func (s Section) Inertia() float64 { return s.Outer().Inertia() - s.Bore().Inertia() }

// ElasticModulus returns the elastic section modulus in mm³, I / (depth/2).
func (s Section) ElasticModulus() float64 { return s.Inertia() / (s.Depth / 2) }

// PlasticModulus returns the plastic section modulus in mm³, ∫|y| dA.
func (s Section) PlasticModulus() float64 {
	return s.Outer().FirstMoment() - s.Bore().FirstMoment()
}

// ColdFormedCorner returns the outside corner radius in mm that EN 10219-2
// takes for cold-formed rectangular hollow sections when it computes section
// properties: 2t to a wall of 6 mm, 2.5t to 10 mm, 3t above.
func ColdFormedCorner(wall float64) float64 {
	switch {
	case wall <= 6:
		return 2 * wall
	case wall <= 10:
		return 2.5 * wall
	default:
		return 3 * wall
	}
}

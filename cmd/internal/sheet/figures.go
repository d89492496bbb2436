package sheet

import (
	"math"

	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/profiles"
)

// figures prints numbers as a drawing has them, in one system.
type figures struct{ u quantity.Units }

// given returns a length as it was given, without its unit.
func (f figures) given(mm float64) string { return f.u.Figure(quantity.Length.Of(mm)) }

// stock returns a size of stock, without its unit.
func (f figures) stock(mm float64) string { return f.u.Figure(quantity.Nominal.Of(mm)) }

// stockUnit returns it with its unit.
func (f figures) stockUnit(mm float64) string { return f.stock(mm) + "\u00a0" + f.u.String() }

// length returns it with its unit.
func (f figures) length(mm float64) string { return f.given(mm) + "\u00a0" + f.u.String() }

// radius returns a radius that was worked out, without its unit.
func (f figures) radius(mm float64) string { return f.u.Figure(quantity.Radius.Of(mm)) }

// overall returns a size of plate to be found for a part that is cut by its
// file, without its unit.
func (f figures) overall(mm float64) string { return f.u.Figure(quantity.Overall.Of(mm)) }

// travel returns a travel of the ram without its unit, in inches as a decimal and
// the nearest fraction.
func (f figures) travel(mm float64) string { return f.measured(quantity.Travel.Of(mm)) }

// measured returns a travel or a rise so.
func (f figures) measured(v quantity.Value) string {
	if f.u == quantity.Inches {
		return f.u.Figure(v) + "\u00a0=\u00a0" + f.u.Fraction(v)
	}
	return f.u.Figure(v)
}

// tape returns a length as laid out with a tape, without its unit.
func (f figures) tape(mm float64) string { return f.u.Figure(quantity.Tape.Of(mm)) }

// tapeUnit returns it with its unit.
func (f figures) tapeUnit(mm float64) string { return f.tape(mm) + "\u00a0" + f.u.String() }

// drawnAngle returns an angle as the drawing gives it.
func (f figures) drawnAngle(a geom.Angle) string { return f.u.Figure(quantity.Degrees(a)) + "°" }

// angle returns an angle that is measured.
func (f figures) angle(a geom.Angle) string {
	return f.u.Figure(quantity.Reading.Of(float64(a))) + "°"
}

// finder returns what an angle finder laid on a bend of an angle shows.
func (f figures) finder(a geom.Angle) string { return f.drawnAngle(math.Pi - a) }

// mass returns a mass in kg or lb, with its unit.
func (f figures) mass(kg float64) string {
	return f.u.Figure(quantity.Mass.Of(kg)) + "\u00a0" + f.u.Unit(quantity.Mass)
}

// tube returns the section in words.
func (f figures) tube(t profiles.Section) string {
	if t.Shape == profiles.Round {
		return "Ø" + f.stock(t.Depth) + " × " + f.stock(t.Wall)
	}
	return f.stock(t.Width) + " × " + f.stock(t.Depth) + " × " + f.stock(t.Wall)
}

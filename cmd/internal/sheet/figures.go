package sheet

import (
	"math"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/profiles"
)

// figures prints numbers as a drawing has them, in one system.
type figures struct{ u quantity.Units }

// trimmed leaves out zeros at the end of a decimal fraction.
func trimmed(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// given returns a length as it was given, without its unit.
func (f figures) given(mm float64) string { return trimmed(f.u.Figure(quantity.Length.Of(mm))) }

// length returns it with its unit.
func (f figures) length(mm float64) string { return f.given(mm) + "\u00a0" + f.u.String() }

// radius returns a radius that was worked out, without its unit.
func (f figures) radius(mm float64) string { return trimmed(f.u.Figure(quantity.Radius.Of(mm))) }

// overall returns a size of plate to be found for a part that is cut by its
// file, rounded up: whole mm, or hundredths of an inch and tenths above ten.
func (f figures) overall(mm float64) string {
	step := 1.0
	if f.u == quantity.Inches {
		if step = f.u.MM(0.01); mm > 1000*step {
			step *= 10
		}
	}
	return f.given(math.Ceil(mm/step-1e-6) * step)
}

// travel returns a travel of the ram without its unit, in inches as a decimal and
// the nearest fraction.
func (f figures) travel(mm float64) string {
	v := quantity.Travel.Of(mm)
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
		return "Ø" + f.given(t.Depth) + " × " + f.given(t.Wall)
	}
	return f.given(t.Width) + " × " + f.given(t.Depth) + " × " + f.given(t.Wall)
}

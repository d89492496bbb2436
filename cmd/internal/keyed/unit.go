package keyed

import (
	"math"
	"strconv"

	"overbend/cmd/internal/quantity"
)

// Unit is a unit in which a sentence about the file speaks.
type Unit struct {
	size float64 // in the unit used inside
	name string
}

// own returns a unit of the file's own system: the first in mm, the second in
// inches.
func (r *Reader) own(parse func(string, quantity.Units) (float64, error), mm, inch string) Unit {
	name := r.Like(mm, inch)
	size, err := parse("1 "+name, r.Units)
	if err != nil {
		panic("keyed: " + err.Error())
	}
	return Unit{size, name}
}

// UnitOf returns the unit of a kind in a system.
func UnitOf(k quantity.Kind, u quantity.Units) Unit { return Unit{1 / u.Of(k.Of(1)), u.Unit(k)} }

// Lengths, and those below, return the unit of a kind.
func (r *Reader) Lengths() Unit   { return r.own(quantity.ParseLength, "mm", "in") }
func (r *Reader) Distances() Unit { return r.own(quantity.ParseLength, "m", "ft") }
func (r *Reader) Stresses() Unit  { return r.own(quantity.ParseStress, "MPa", "ksi") }
func (r *Reader) Moduli() Unit    { return r.own(quantity.ParseStress, "GPa", "ksi") }
func (r *Reader) Masses() Unit    { return r.own(quantity.ParseMass, "kg", "lb") }
func (r *Reader) Densities() Unit { return r.own(quantity.ParseDensity, "kg/m3", "lb/in3") }

// Like returns which of two examples is of the file's own system.
func (r *Reader) Like(mm, inch string) string {
	if r.Units == quantity.Inches {
		return inch
	}
	return mm
}

// Show returns a value with up to six figures.
func (u Unit) Show(v float64) string { return u.Rounded(v, 6) }

// Rounded returns a value with up to n significant figures.
func (u Unit) Rounded(v float64, n int) string { return figures(v/u.size, n) + " " + u.name }

// Least returns a lower limit, and Most an upper one, with up to six figures,
// rounded such that what is printed is allowed.
func (u Unit) Least(v float64) string { return u.Inward(v, 6, 1) }
func (u Unit) Most(v float64) string  { return u.Inward(v, 6, -1) }

// Between returns what stands behind "must be" for two limits that are fixed;
// three figures are enough for those.
func (u Unit) Between(lo, hi float64) string {
	return "from " + u.Inward(lo, 3, 1) + " to " + u.Inward(hi, 3, -1)
}

// Inward returns a limit with up to n figures, in the other system rounded up
// (way 1) or down (way -1) if it must be.
func (u Unit) Inward(v float64, n int, way float64) string {
	const same = 1e-9 // of the value: what a conversion may leave
	v /= u.size
	got, _ := strconv.ParseFloat(figures(v, n), 64)
	if (v-got)*way > same*math.Abs(v) {
		got += way * math.Pow(10, math.Floor(math.Log10(math.Abs(v)))+1-float64(n))
	}
	return figures(got, n) + " " + u.name
}

// figures returns a number with up to n significant figures and no exponent.
func figures(v float64, n int) string {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64)
	return strconv.FormatFloat(short, 'f', -1, 64)
}

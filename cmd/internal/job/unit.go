package job

import (
	"math"
	"strconv"

	"overbend/cmd/internal/quantity"
)

// unit is a unit in which a sentence about the file speaks.
type unit struct {
	size float64 // in the unit used inside
	name string
}

// own returns a unit of the file's own system: the first in mm, the second in
// inches.
func (r *reader) own(parse func(string, quantity.Units) (float64, error), mm, inch string) unit {
	name := r.like(mm, inch)
	size, err := parse("1 "+name, r.units)
	if err != nil {
		panic("job: " + err.Error())
	}
	return unit{size, name}
}

func (r *reader) lengths() unit   { return r.own(quantity.ParseLength, "mm", "in") }
func (r *reader) distances() unit { return r.own(quantity.ParseLength, "m", "ft") }
func (r *reader) stresses() unit  { return r.own(quantity.ParseStress, "MPa", "ksi") }
func (r *reader) moduli() unit    { return r.own(quantity.ParseStress, "GPa", "ksi") }
func (r *reader) densities() unit { return r.own(quantity.ParseDensity, "kg/m3", "lb/in3") }

// like returns which of two examples is of the file's own system.
func (r *reader) like(mm, inch string) string {
	if r.units == quantity.Inches {
		return inch
	}
	return mm
}

// show returns a value with up to six figures.
func (u unit) show(v float64) string { return figures(v/u.size, 6) + " " + u.name }

// least returns a lower limit, and most an upper one, with up to six figures,
// rounded such that what is printed is allowed.
func (u unit) least(v float64) string { return u.inward(v, 6, 1) }
func (u unit) most(v float64) string  { return u.inward(v, 6, -1) }

// between returns what stands behind "must be" for two limits that are fixed;
// three figures are enough for those.
func (u unit) between(lo, hi float64) string {
	return "from " + u.inward(lo, 3, 1) + " to " + u.inward(hi, 3, -1)
}

// inward returns a limit with up to n figures, in the other system rounded up
// (way 1) or down (way -1) if it must be.
func (u unit) inward(v float64, n int, way float64) string {
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

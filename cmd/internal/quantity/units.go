package quantity

import (
	"fmt"
	"math"

	"overbend/geom"
)

// Units is the system in which a bare length is read and all results are
// printed. The zero value is millimetres.
type Units uint8

// The systems.
const (
	Millimetres Units = iota
	Inches
)

// Sizes of the customary units, all exact by definition: the inch (1959) and
// the pound-force, 0.45359237 kg x 9.80665 m/s².
const (
	mmPerInch    = 25.4
	kgPerPound   = 0.45359237
	nPerKgf      = 9.80665
	nPerPound    = kgPerPound * nPerKgf
	nPerTonne    = 1000 * nPerKgf
	nPerShortTon = 2000 * nPerPound
	mpaPerPSI    = nPerPound / (mmPerInch * mmPerInch)
)

// ParseUnits returns the system named "mm" or "in".
func ParseUnits(s string) (Units, error) {
	switch s {
	case "mm":
		return Millimetres, nil
	case "in":
		return Inches, nil
	}
	return Millimetres, fmt.Errorf(`%.40q is not allowed; it must be "mm" or "in"`, s)
}

// String returns "mm" or "in".
func (u Units) String() string {
	if u == Inches {
		return "in"
	}
	return "mm"
}

// MM returns in mm the length v given in u.
func (u Units) MM(v float64) float64 {
	if u == Inches {
		return fromInches(v)
	}
	return v
}

// Pick returns a default in mm that is round in the system: one in mm, or one in
// inches.
func (u Units) Pick(mm, in float64) float64 {
	if u == Inches {
		return fromInches(in)
	}
	return mm
}

// fromInches returns in mm a length given in inches, rounded to 1e-9 mm. That takes
// out what the product leaves of 25.4 not being a binary number: 0.065 in is
// 1.651 mm and not 1.6510000000000002.
func fromInches(v float64) float64 { return math.Round(v*mmPerInch*1e9) / 1e9 }

// feetNames are the units of [fromLength] behind which inches may stand, a longer
// one before what it starts with.
var feetNames = [...]string{"feet", "foot", "ft", "'", "′", "’"}

// The converters below return in the unit used inside a value given in a unit,
// named in lower case, and false for a name that is no unit.

func fromLength(v float64, unit string) (float64, bool) {
	switch unit {
	case "mm":
		return v, true
	case "cm":
		return v * 10, true
	case "m":
		return v * 1000, true
	case "in", "inch", "inches", `"`, "″", "”":
		return fromInches(v), true
	case "ft", "feet", "foot", "'", "′", "’":
		return fromInches(v * 12), true
	}
	return 0, false
}

func fromAngle(v float64, unit string) (float64, bool) {
	switch unit {
	case "deg", "°", "degree", "degrees":
		return v * geom.Degree.Radians(), true
	case "rad":
		return v, true
	}
	return 0, false
}

func fromStress(v float64, unit string) (float64, bool) {
	switch unit {
	case "mpa", "n/mm2", "n/mm²", "n/mm^2":
		return v, true
	case "gpa":
		return v * 1000, true
	case "psi":
		return v * mpaPerPSI, true
	case "ksi":
		return v * 1000 * mpaPerPSI, true
	}
	return 0, false
}

func fromForce(v float64, unit string) (float64, bool) {
	switch unit {
	case "n":
		return v, true
	case "kn":
		return v * 1000, true
	case "t", "tonne", "tonnes":
		return v * nPerTonne, true
	case "tonf", "short ton", "short tons":
		return v * nPerShortTon, true
	case "lbf":
		return v * nPerPound, true
	}
	return 0, false
}

func fromDensity(v float64, unit string) (float64, bool) {
	switch unit {
	case "kg/m3", "kg/m³", "kg/m^3":
		return v, true
	case "g/cm3", "g/cm³", "g/cm^3":
		return v * 1000, true
	case "lb/in3", "lb/in³", "lb/in^3":
		return v * kgPerPound / (mmPerInch * mmPerInch * mmPerInch * 1e-9), true
	}
	return 0, false
}

func fromMass(v float64, unit string) (float64, bool) {
	switch unit {
	case "kg":
		return v, true
	case "g":
		return v / 1000, true
	case "lb":
		return v * kgPerPound, true
	case "oz":
		return v * kgPerPound / 16, true
	}
	return 0, false
}

func fromShare(v float64, unit string) (float64, bool) {
	switch unit {
	case unity:
		return v, true
	case "%":
		return v / 100, true
	}
	return 0, false
}

func fromNumber(v float64, unit string) (float64, bool) { return v, unit == unity }

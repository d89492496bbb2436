package quantity

import (
	"fmt"
	"math"
	"strings"

	"overbend/geom"
)

// The parsers take all units always. Their errors speak the system that they
// are given, and name the other's units only as such.

func lengthKind(u Units) kind {
	k := kind{name: "a length", like: "40 mm", units: "mm, cm, m or inch units", from: fromLength, bare: u.String()}
	if u == Inches {
		k.like, k.units = "1-1/2 in", "in, ft or metric units"
	}
	return k
}

// ParseLength returns a length in mm, 0 or more. It takes mm, cm, m, in (also
// inch, inches and ") and ft (also feet, foot and '); a bare number is in the given
// units. Feet may be followed by inches, which then have their unit and are less
// than a foot: 6 ft 2 in, 6' 2-1/2", 6'-2".
func ParseLength(s string, bare Units) (float64, error) {
	return lengthKind(bare).length(s)
}

// length reads a length, in feet and inches too.
func (k kind) length(s string) (float64, error) {
	feet, rest, ok := feetAndMore(s)
	if !ok {
		return k.parse(s)
	}
	whole := strings.Join(strings.Fields(s), " ")
	odd := func(why string) (float64, error) {
		return 0, fmt.Errorf("%.40q is not allowed; %s, like 6 ft 2 in", whole, why)
	}
	inches, unit, ok := number(rest)
	one, _ := fromLength(1, strings.ToLower(strings.TrimSpace(unit)))
	switch {
	case !ok || one != mmPerInch:
		return odd("behind feet stand inches with their unit")
	case feet < 0 || inches < 0: // all of the text is known now, so that it can be repeated
		return 0, fmt.Errorf("%.40s is not allowed; %s can't be negative", whole, k.name)
	case feet != math.Trunc(feet):
		return odd("with inches behind them feet are a whole number")
	case inches >= 12:
		return odd("inches behind feet are less than 12")
	}
	ft, _ := fromLength(feet, "ft")
	if ft > huge {
		return 0, fmt.Errorf("%.40q is too large for %s", whole, k.name)
	}
	return ft + fromInches(inches), nil
}

// feetAndMore splits a text that starts with a number of feet and goes on: the
// number, and what follows it. A hyphen straight behind the unit joins the inches.
func feetAndMore(s string) (feet float64, rest string, ok bool) {
	feet, rest, ok = number(strings.Join(strings.Fields(s), " "))
	if !ok {
		return 0, "", false
	}
	rest = strings.TrimLeft(rest, " ")
	for _, unit := range feetNames {
		if len(rest) > len(unit) && strings.EqualFold(rest[:len(unit)], unit) {
			rest = rest[len(unit):]
			if after, joined := strings.CutPrefix(rest, "-"); joined && after != "" && after[0] != '-' {
				rest = after
			}
			return feet, strings.TrimLeft(rest, " "), true
		}
	}
	return 0, "", false
}

// ParseSize returns the two lengths in mm of a size such as "1000x500 mm" or
// `48" x 24"`, split by an x or a multiplication sign. A first length without a
// unit has that of the second.
func ParseSize(s string, bare Units) (width, height float64, err error) {
	first, second, ok := cutSize(s)
	if !ok || strings.TrimSpace(first) == "" || strings.TrimSpace(second) == "" {
		return 0, 0, fmt.Errorf("%.40q is not a size; write it like %s", s, SizeLike(bare))
	}
	k := lengthKind(bare)
	if height, err = k.length(second); err != nil {
		return 0, 0, err
	}
	if _, _, more := feetAndMore(second); more {
		k.bare = "" // feet or inches
	} else if _, unit, ok := number(strings.TrimSpace(second)); ok {
		if unit = strings.ToLower(strings.TrimSpace(unit)); unit != "" {
			k.bare = unit
		}
	}
	if width, err = k.length(first); err != nil {
		return 0, 0, err
	}
	return width, height, nil
}

// ParseGauge returns the number of a gauge such as 16 ga, also gauge and gage, and
// whether the text is one at all. An error says that its number is none.
func ParseGauge(s string) (n int, ok bool, err error) {
	whole := strings.Join(strings.Fields(s), " ")
	v, unit, ok := number(whole)
	switch strings.ToLower(strings.TrimSpace(unit)) {
	case "ga", "ga.", "gauge", "gage":
	default:
		return 0, false, nil
	}
	if !(v >= 0 && v < 100) || v != math.Trunc(v) {
		return 0, true, fmt.Errorf("%.40q is not allowed; a gauge is a whole number, like 16 ga", whole)
	}
	return int(v), ok, nil
}

// SizeLike returns an example of a size.
func SizeLike(u Units) string {
	if u == Inches {
		return "48x24 in"
	}
	return "1000x500 mm"
}

// cutSize splits a size at its first sign of multiplication. No unit of length
// has an x in it.
func cutSize(s string) (first, second string, ok bool) {
	for i, r := range s {
		switch r {
		case 'x', 'X', '×':
			return s[:i], s[i+len(string(r)):], true
		}
	}
	return s, "", false
}

// ParseAngle returns an angle of either sign. It takes deg (also degrees and °)
// and rad; a bare number is degrees.
func ParseAngle(s string) (geom.Angle, error) {
	v, err := kind{
		name: "an angle", like: "33 deg", units: "deg or rad",
		from: fromAngle, bare: "deg", signed: true,
	}.parse(s)
	return geom.Angle(v), err
}

// ParseStress returns a stress in MPa, 0 or more. It takes MPa, N/mm2 (also
// N/mm²), GPa, ksi and psi. A bare number is refused: it could be any of them.
func ParseStress(s string, u Units) (float64, error) {
	k := kind{name: "a stress", like: "260 MPa", units: "MPa, N/mm2, GPa or US units", from: fromStress}
	if u == Inches {
		k.like, k.units = "38 ksi", "ksi, psi or metric units"
	}
	return k.parse(s)
}

// ParseForce returns a force in N, 0 or more. It takes N, kN, lbf, t (tonne:
// the weight of 1000 kg, 9806.65 N) and short ton or tonf (2000 lbf, 8896.44
// N). A bare number is refused, and so is "ton", which could be either.
func ParseForce(s string, u Units) (float64, error) {
	k := kind{name: "a force", like: "20 t or 200 kN", units: "N, kN, t or US units", from: fromForce}
	if u == Inches {
		k.like, k.units = "20 tonf or 40000 lbf", "lbf, tonf, short ton or metric units"
	}
	return k.parse(s)
}

// ParseCapacity returns a press's capacity in N, as [ParseForce] reads it, of the
// kind that shows it in the unit in which it was given.
func ParseCapacity(s string, u Units) (Value, error) {
	n, err := ParseForce(s, u)
	if err != nil {
		return Value{}, err
	}
	_, unit, _ := number(strings.Join(strings.Fields(s), " "))
	switch strings.ToLower(strings.TrimSpace(unit)) {
	case "t", "tonne", "tonnes":
		return Tonnes.Of(n), nil
	case "tonf", "short ton", "short tons":
		return ShortTons.Of(n), nil
	case "lbf":
		return PoundsForce.Of(n), nil
	}
	return Kilonewtons.Of(n), nil
}

// ParseDensity returns a density in kg/m³, 0 or more. It takes kg/m3, g/cm3 and
// lb/in3, also with a superscript. A bare number is refused.
func ParseDensity(s string, u Units) (float64, error) {
	k := kind{name: "a density", like: "2700 kg/m3", units: "kg/m3, g/cm3 or US units", from: fromDensity}
	if u == Inches {
		k.like, k.units = "0.0975 lb/in3", "lb/in3 or metric units"
	}
	return k.parse(s)
}

// ParseMass returns a mass in kg, 0 or more. It takes kg, g, lb and oz. A bare
// number is refused.
func ParseMass(s string, u Units) (float64, error) {
	k := kind{name: "a mass", like: "12 kg", units: "kg, g or US units", from: fromMass}
	if u == Inches {
		k.like, k.units = "25 lb", "lb, oz or metric units"
	}
	return k.parse(s)
}

// ParseFraction returns a share of a whole as a pure number, 0 or more: "8 %"
// and "0.08" are the same. A bare number above 1 is refused, because it was
// almost surely meant as a percentage.
func ParseFraction(s string) (float64, error) {
	k := kind{
		name: "a share", like: "8 % or 0.08", units: "% or no unit",
		from: fromShare, bare: unity,
	}
	v, err := k.parse(s)
	if bare := strings.Join(strings.Fields(s), " "); err == nil && v > 1 && !strings.HasSuffix(bare, "%") {
		return 0, fmt.Errorf("%.20s is not a share of 1; write %.20s %% or a number up to 1", bare, bare)
	}
	return v, err
}

// ParseNumber returns a pure number of either sign.
func ParseNumber(s string) (float64, error) {
	return kind{name: "a plain number", like: "0.33", from: fromNumber, bare: unity, signed: true}.parse(s)
}

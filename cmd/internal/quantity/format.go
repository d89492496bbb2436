package quantity

import (
	"math"
	"strconv"
	"strings"

	"overbend/geom"
)

// Length returns a length given in mm as text: mm with up to two decimals,
// inches with three.
func (u Units) Length(mm float64) string {
	if u == Inches {
		return fixed(mm/mmPerInch, 3) + " in"
	}
	return trimmed(mm, 2) + " mm"
}

// Size returns a width and height given in mm as text, "1000 x 500 mm".
func (u Units) Size(width, height float64) string {
	return Bare(u.Length(width)) + " x " + u.Length(height)
}

// Bare returns the figure alone of what a method of [Units] printed, its unit
// cut off: for a column or a drawing in which the unit stands once.
func Bare(printed string) string {
	figure, _, _ := strings.Cut(printed, " ")
	return figure
}

// Tape returns a length given in mm for what is laid out with a tape: to the
// half mm, or inches with three decimals and the nearest 1/32,
// "10.236 in (10-1/4 in)".
func (u Units) Tape(mm float64) string {
	if u == Inches {
		in := mm / mmPerInch
		return fixed(in, 3) + " in (" + thirtySeconds(in) + " in)"
	}
	return trimmed(math.Round(mm*2)/2, 1) + " mm"
}

// thirtySeconds returns v to the nearest 1/32 as a reduced mixed number. A
// value that is not finite, or beyond any tape, comes back as a decimal.
func thirtySeconds(v float64) string {
	n := math.Round(math.Abs(v) * 32)
	if !(n < 1e15) {
		return trimmed(v, 3)
	}
	whole, over, under := int64(n)/32, int64(n)%32, int64(32)
	for over != 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	s := strconv.FormatInt(whole, 10)
	if over != 0 {
		f := strconv.FormatInt(over, 10) + "/" + strconv.FormatInt(under, 10)
		if whole == 0 {
			s = f
		} else {
			s += "-" + f
		}
	}
	if v < 0 && n != 0 {
		s = "-" + s
	}
	return s
}

// Angle returns an angle as text in degrees with up to two decimals. It is a
// method for the sake of one way to write a report; both systems use degrees.
func (u Units) Angle(a geom.Angle) string { return trimmed(a.Degrees(), 2) + " deg" }

// Stress returns a stress given in MPa as text, in MPa or ksi with up to one
// decimal.
func (u Units) Stress(mpa float64) string {
	if u == Inches {
		return trimmed(mpa/(1000*mpaPerPSI), 1) + " ksi"
	}
	return trimmed(mpa, 1) + " MPa"
}

// Pressure returns a gauge pressure given in MPa as text, in whole bar or psi,
// which is what gauges are marked in.
func (u Units) Pressure(mpa float64) string {
	if u == Inches {
		return trimmed(mpa/mpaPerPSI, 0) + " psi"
	}
	return trimmed(mpa*10, 0) + " bar"
}

// Force returns a force given in N as text: kN with up to two decimals, or
// whole lbf.
func (u Units) Force(n float64) string {
	if u == Inches {
		return trimmed(n/nPerPound, 0) + " lbf"
	}
	return trimmed(n/1000, 2) + " kN"
}

// Tons returns a force given in N as presses are rated: t (tonnes) or short
// tons, with up to two decimals.
func (u Units) Tons(n float64) string {
	if u == Inches {
		return trimmed(n/nPerShortTon, 2) + " short tons"
	}
	return trimmed(n/nPerTonne, 2) + " t"
}

// Moment returns a moment given in N mm as text, in N m or lbf in with up to
// one decimal.
func (u Units) Moment(nmm float64) string {
	if u == Inches {
		return trimmed(nmm/(nPerPound*mmPerInch), 1) + " lbf in"
	}
	return trimmed(nmm/1000, 1) + " N m"
}

// Mass returns a mass given in kg as text in both kg and lb, the system's own
// first: "1.23 kg (2.71 lb)".
func (u Units) Mass(kg float64) string {
	k, lb := fixed(kg, 2)+" kg", fixed(kg/kgPerPound, 2)+" lb"
	if u == Inches {
		k, lb = lb, k
	}
	return k + " (" + lb + ")"
}

// Area returns an area given in mm² as text, in mm2 or in2.
func (u Units) Area(mm2 float64) string { return u.power(mm2, 2, 1, 3) }

// Modulus returns a section modulus given in mm³ as text, in mm3 or in3.
func (u Units) Modulus(mm3 float64) string { return u.power(mm3, 3, 0, 4) }

// Inertia returns a second moment of area given in mm⁴ as text, in mm4 or in4.
func (u Units) Inertia(mm4 float64) string { return u.power(mm4, 4, 0, 4) }

// power returns a length to the power n with a number of decimals in each
// system.
func (u Units) power(v float64, n, metric, customary int) string {
	decimals := metric
	if u == Inches {
		v, decimals = v/math.Pow(mmPerInch, float64(n)), customary
	}
	return trimmed(v, decimals) + " " + u.String() + strconv.Itoa(n)
}

// Volume returns a volume given in mm³ as text, in cm3 with up to one decimal
// or in3 with up to two.
func (u Units) Volume(mm3 float64) string {
	if u == Inches {
		return trimmed(mm3/(mmPerInch*mmPerInch*mmPerInch), 2) + " in3"
	}
	return trimmed(mm3/1000, 1) + " cm3"
}

// Temperature returns a temperature given in °C as text, in C with up to one
// decimal or whole F.
func (u Units) Temperature(c float64) string {
	if u == Inches {
		return trimmed(c*9/5+32, 0) + " F"
	}
	return trimmed(c, 1) + " C"
}

// Percent returns a share of 1 as text in percent with up to one decimal.
func Percent(share float64) string { return trimmed(share*100, 1) + " %" }

// fixed returns v with exactly so many decimals, and never a negative zero.
func fixed(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if s[0] == '-' && strings.Trim(s, "-0.") == "" {
		return s[1:]
	}
	return s
}

// trimmed returns v with at most so many decimals, trailing zeros left out, and
// never a negative zero.
func trimmed(v float64, decimals int) string {
	s := fixed(v, decimals)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

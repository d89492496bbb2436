package quantity

import (
	"math"
	"strconv"
	"strings"

	"overbend/geom"
)

// Kind is what a number is a measure of. It decides, for each system, the unit
// and how a shop reads the number: the one rounding of terminal, sheet and page.
type Kind uint8

// The kinds, with the unit in which a [Value] holds them.
const (
	Length   Kind = iota // mm
	Tape                 // mm, laid out with a tape: to a mm, or the nearest 1/32 in
	Travel               // mm, of the ram: to half a mm, or the nearest 1/64 in too; tenths below 10 mm
	Rise                 // mm, under a straightedge: to a tenth, or the nearest 1/64 in too
	Nominal              // mm, of stock or on a part: in inches a fraction down to 1/64 where one says the same
	Overall              // mm, of plate to be found for a part that is cut by its file: rounded up
	Radius               // mm, worked out: to a tenth above 100 mm
	Angle                // radians, as given
	Reading              // radians, as an angle finder is read: to a tenth of a degree
	Stop                 // radians, at a stop: to half a degree
	Stress               // MPa
	Pressure             // MPa, on a gauge
	Force                // N
	Tonnes               // N, of a press that is rated in them; likewise the next three
	ShortTons
	Kilonewtons
	PoundsForce
	Moment      // N·mm
	Mass        // kg
	Area        // mm²
	Modulus     // mm³, of a section
	Inertia     // mm⁴, of a section
	Volume      // mm³
	Temperature // °C
	Share       // of 1
	Hours       // of time
	Number      // a pure number
)

// Value is a number of a kind, in the kind's unit inside.
type Value struct {
	Kind Kind
	V    float64
}

// Of returns a value of the kind.
func (k Kind) Of(v float64) Value { return Value{k, v} }

// Degrees returns an angle as a value.
func Degrees(a geom.Angle) Value { return Value{Angle, float64(a)} }

// joint stands between a figure and its unit: a space at which no line may be
// broken. [Plain] turns it into an ordinary one.
const joint = "\u00a0"

// Plain returns printed text with ordinary spaces only, for a terminal or JSON.
func Plain(s string) string { return strings.ReplaceAll(s, joint, " ") }

// Show returns a value as a person reads it, figure and unit, which are kept
// together: "40 mm". Inches of a tape and of travel have both their forms,
// "10.236 in (10-1/4 in)". A press's capacity stays in the unit of its plate.
func (u Units) Show(v Value) string {
	figure, unit := u.Figure(v), u.Unit(v.Kind)
	switch {
	case v.Kind == Tape && u == Inches:
		return u.Show(Length.Of(v.V)) + " (" + figure + joint + unit + ")"
	case (v.Kind == Travel || v.Kind == Rise) && u == Inches:
		return figure + joint + unit + " (" + u.Fraction(v) + joint + unit + ")"
	case unit == "":
		return figure
	case v.Kind == Hours && v.V < 1:
		return trimmed(60*v.V, 0) + joint + "min"
	}
	return figure + joint + unit
}

// Unit returns the unit in which a kind is shown, "" for a pure number.
func (u Units) Unit(k Kind) string {
	i := u == Inches
	pick := func(metric, customary string) string {
		if i {
			return customary
		}
		return metric
	}
	switch k {
	case Length, Tape, Travel, Rise, Nominal, Overall, Radius:
		return u.String()
	case Angle, Reading, Stop:
		return "deg"
	case Stress:
		return pick("MPa", "ksi")
	case Pressure:
		return pick("bar", "psi")
	case Force:
		return pick("kN", "lbf")
	case Tonnes:
		return "t"
	case ShortTons:
		return "tonf"
	case Kilonewtons:
		return "kN"
	case PoundsForce:
		return "lbf"
	case Moment:
		return pick("N"+joint+"m", "lbf"+joint+"in")
	case Mass:
		return pick("kg", "lb")
	case Area:
		return u.String() + "2"
	case Modulus:
		return u.String() + "3"
	case Inertia:
		return u.String() + "4"
	case Volume:
		return pick("cm3", "in3")
	case Temperature:
		return pick("°C", "°F")
	case Share:
		return "%"
	case Hours:
		return "h"
	}
	return ""
}

// Figure returns a value's number alone, rounded as a shop reads it, for a
// column or a drawing in which the unit stands once.
func (u Units) Figure(v Value) string {
	in := u == Inches
	x := u.Of(v)
	switch v.Kind {
	case Length:
		if in {
			return trimmed(x, 3)
		}
		return trimmed(x, 2)
	case Nominal:
		return u.nominal(x)
	case Overall:
		return trimmed(u.Of(Length.Of(u.overall(v.V))), 2)
	case Rise:
		if in {
			return fixed(x, 3)
		}
		return fixed(x, 1)
	case Tape:
		if in {
			return mixed(x, 32)
		}
		return trimmed(x, 0)
	case Travel:
		switch {
		case in:
			return fixed(x, 2)
		case math.Abs(x) < finestTravel:
			return fixed(x, 1)
		}
		return fixed(math.Round(x*2)/2, 1)
	case Radius:
		switch {
		case in:
			return fixed(x, 3)
		case math.Abs(x) > coarseRadius:
			return trimmed(x, 1)
		}
		return trimmed(x, 2)
	case Reading:
		return fixed(x, 1)
	case Stop:
		return fixed(math.Round(x*2)/2, 1)
	case Stress, Moment, Share:
		if v.Kind == Stress && math.Abs(x) >= wholeStress {
			return trimmed(x, 0)
		}
		return trimmed(x, 1)
	case Force, Pressure:
		return significant(x, 3)
	case Mass:
		return fixed(x, 2)
	case Area:
		if in {
			return trimmed(x, 3)
		}
		return trimmed(x, 1)
	case Modulus, Inertia:
		if in {
			return trimmed(x, 4)
		}
		return trimmed(x, 0)
	case Volume, Temperature:
		switch {
		case !in:
			return trimmed(x, 1)
		case v.Kind == Volume:
			return trimmed(x, 2)
		}
		return trimmed(x, 0)
	}
	return trimmed(x, 2) // angles, capacities, numbers
}

// Change returns the figure of a difference with its sign: "+1.2", "0".
func (u Units) Change(v Value) string {
	switch figure := u.Figure(v); {
	case strings.Trim(figure, "-0.") == "":
		return "0"
	case v.V > 0:
		return "+" + figure
	default:
		return figure
	}
}

// Of returns a value in the unit of [Units.Unit], unrounded: for an axis.
func (u Units) Of(v Value) float64 {
	in := u == Inches
	pick := func(metric, customary float64) float64 {
		if in {
			return v.V / customary
		}
		return v.V / metric
	}
	const inch = mmPerInch
	switch v.Kind {
	case Length, Tape, Travel, Rise, Nominal, Overall, Radius:
		return pick(1, inch)
	case Angle, Reading, Stop:
		return geom.Angle(v.V).Degrees()
	case Stress:
		return pick(1, 1000*mpaPerPSI)
	case Pressure:
		return pick(0.1, mpaPerPSI)
	case Force:
		return pick(1000, nPerPound)
	case Tonnes:
		return v.V / nPerTonne
	case ShortTons:
		return v.V / nPerShortTon
	case Kilonewtons:
		return v.V / 1000
	case PoundsForce:
		return v.V / nPerPound
	case Moment:
		return pick(1000, nPerPound*inch)
	case Mass:
		return pick(1, kgPerPound)
	case Area:
		return pick(1, inch*inch)
	case Modulus:
		return pick(1, inch*inch*inch)
	case Inertia:
		return pick(1, inch*inch*inch*inch)
	case Volume:
		return pick(1000, inch*inch*inch)
	case Temperature:
		if in {
			return v.V*9/5 + 32
		}
	case Share:
		return 100 * v.V
	}
	return v.V
}

// Inward returns a limit that is a length or an angle, moved by less than the last
// figure that [Units.Figure] prints: down if it is an upper one, else up, so that
// what is printed is allowed.
func (u Units) Inward(v Value, upper bool) Value {
	steps := 100.0 // in one of what is printed
	if u == Inches && v.Kind == Length {
		steps = 1000
	}
	const same = 1e-6 // of a step: what a conversion may leave
	one := u.Of(Value{v.Kind, 1})
	x := u.Of(v) * steps
	if upper {
		return Value{v.Kind, math.Floor(x+same) / steps / one}
	}
	return Value{v.Kind, math.Ceil(x-same) / steps / one}
}

// Length returns a length given in mm with its unit.
func (u Units) Length(mm float64) string { return u.Show(Length.Of(mm)) }

// Tape returns a length given in mm for what is laid out with a tape.
func (u Units) Tape(mm float64) string { return u.Show(Tape.Of(mm)) }

// Angle returns an angle with its unit. Both systems use degrees.
func (u Units) Angle(a geom.Angle) string { return u.Show(Degrees(a)) }

// Size returns sizes given in mm, the unit behind the last: "1000 x 500 mm".
func (u Units) Size(mm ...float64) string { return u.SizeAs(Length, mm...) }

// SizeAs is [Units.Size] of a kind that is a length.
func (u Units) SizeAs(k Kind, mm ...float64) string {
	var b strings.Builder
	for i, v := range mm {
		if i > 0 {
			b.WriteString(joint + "x" + joint)
		}
		b.WriteString(u.Figure(k.Of(v)))
	}
	return b.String() + joint + u.String()
}

// overall rounds a size in mm up to whole mm, or to hundredths of an inch and
// tenths above ten.
func (u Units) overall(mm float64) float64 {
	step := u.Pick(1, 0.01)
	if u == Inches && mm > 1000*step {
		step *= 10
	}
	return math.Ceil(mm/step-1e-6) * step
}

// nominal returns x as a fraction down to 1/64 where that is the same to half the
// last figure of its decimal, else the decimal.
func (u Units) nominal(x float64) string {
	if u != Inches {
		return u.Figure(Length.Of(x))
	}
	const same = 0.0005 // in
	if math.Abs(x-math.Round(x*64)/64) <= same {
		return mixed(x, 64)
	}
	return trimmed(x, 3)
}

// Sum returns thicknesses given in mm that lie on each other: "1.2 mm + 0.2 mm".
func (u Units) Sum(mm ...float64) string {
	all := make([]string, len(mm))
	for i, v := range mm {
		all[i] = u.Length(v)
	}
	return strings.Join(all, " + ")
}

// Percent returns a share of 1 with its unit.
func Percent(share float64) string { return Millimetres.Show(Share.Of(share)) }

// finestTravel is the travel in mm below which half a millimetre would be too
// coarse; coarseRadius the radius above which hundredths are not to be had, and
// wholeStress the stress above which tenths are not. All are common practice, no source.
const (
	finestTravel = 10.0
	coarseRadius = 100.0
	wholeStress  = 1000.0
)

// Fraction returns a length in inches as a rule has it: to the nearest 1/32, or
// 1/64 for a travel or a rise. In millimetres it is the figure.
func (u Units) Fraction(v Value) string {
	if u != Inches {
		return u.Figure(v)
	}
	if v.Kind == Travel || v.Kind == Rise {
		return mixed(u.Of(v), 64)
	}
	return mixed(u.Of(v), 32)
}

// mixed returns v to the nearest nth as a reduced mixed number. A value that
// is not finite, or beyond any tape, comes back as a decimal.
func mixed(v float64, nth int64) string {
	n := math.Round(math.Abs(v) * float64(nth))
	if !(n < 1e15) {
		return trimmed(v, 3)
	}
	whole, over, under := int64(n)/nth, int64(n)%nth, nth
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

// tie is the share of a value by which one half way between two roundings is
// lifted, so that it is rounded away from 0, as a shop does, whatever the last bits
// of the sums that it came from: sizes go by sixteenths and half millimetres and are
// often just there.
const tie = 1e-13

// fixed returns v with exactly so many decimals, and never a negative zero.
func fixed(v float64, decimals int) string {
	s := strconv.FormatFloat(v+v*tie, 'f', decimals, 64)
	if s[0] == '-' && strings.Trim(s, "-0.") == "" {
		return s[1:]
	}
	return s
}

// significant returns v rounded to so many figures, never in powers of ten, and
// with one figure before the point at least.
func significant(v float64, n int) string {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v+v*tie, 'g', n, 64), 64)
	if err != nil || r == 0 {
		return trimmed(v, n)
	}
	return fixed(r, max(0, min(n-1, n-1-int(math.Floor(math.Log10(math.Abs(r)))))))
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

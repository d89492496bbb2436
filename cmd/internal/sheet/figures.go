package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/profiles"
)

// figures prints numbers as a drawing has them: the unit stands once in the
// title block, not behind each number.
type figures struct {
	u      quantity.Units
	finest float64 // the whole travel, mm
}

// trimmed leaves out zeros at the end of a decimal fraction.
func trimmed(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// given returns a length as it was given or must be met.
func (f figures) given(mm float64) string { return trimmed(f.u.Figure(quantity.Length.Of(mm))) }

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

// travel returns a travel of the ram with as many decimals as all of a job's:
// tenths of a mm or thousandths of an inch, or finer where it is short.
func (f figures) travel(mm float64) string {
	decimals, v := 1, mm
	if f.u == quantity.Inches {
		decimals, v = 3, mm/f.u.MM(1)
	} else if f.finest < 10 {
		decimals = 2
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// tape returns a length as laid out with a tape: to half a mm or 1/32 in.
func (f figures) tape(mm float64) string {
	return f.u.Figure(quantity.Tape.Of(mm))
}

// angle returns an angle in degrees to a tenth, or as the drawing gives it.
func (f figures) angle(a geom.Angle) string {
	return f.u.Figure(quantity.Degrees(geom.Angle(math.Round(a.Degrees()*10))*geom.Degree/10)) + "°"
}

func (f figures) drawnAngle(a geom.Angle) string { return f.u.Figure(quantity.Degrees(a)) + "°" }

// tenth returns an angle in degrees with one decimal, for columns.
func (f figures) tenth(a geom.Angle) string { return fmt.Sprintf("%.1f", math.Abs(a.Degrees())) }

// force returns a force with its unit: kN to a tenth, or whole lbf.
func (f figures) force(n float64) string {
	if f.u == quantity.Inches {
		return f.u.Show(quantity.Force.Of(n))
	}
	return f.u.Show(quantity.Force.Of(math.Round(n/100) * 100))
}

// mass returns a mass in kg or lb.
func (f figures) mass(kg float64) string { return f.u.Figure(quantity.Mass.Of(kg)) }

func (f figures) massUnit() string { return f.u.Unit(quantity.Mass) }

// massWithUnit returns a mass with its unit.
func (f figures) massWithUnit(kg float64) string {
	return f.mass(kg) + "\u00a0" + f.massUnit()
}

// temperature returns a temperature given in °C.
func (f figures) temperature(c float64) string {
	return f.u.Show(quantity.Temperature.Of(c))
}

// tube returns the section in words.
func (f figures) tube(t profiles.Section) string {
	if t.Shape == profiles.Round {
		return "Ø" + f.given(t.Depth) + " × " + f.given(t.Wall)
	}
	return f.given(t.Width) + " × " + f.given(t.Depth) + " × " + f.given(t.Wall)
}

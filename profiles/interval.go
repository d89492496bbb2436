package profiles

import (
	_ "embed"
	"slices"
	"strings"
)

//go:embed intervals.csv
var intervalsCSV string

// Input names something that a bend depends on and that is not known to the last
// figure.
type Input string

// The inputs, with the unit of their values.
const (
	ProofInput      Input = "proof"           // of the tube, MPa
	ExponentInput   Input = "exponent"        // of the tube's curve
	UltimateInput   Input = "ultimate"        // of the tube, where its curve hangs on it, MPa
	YoungsInput     Input = "youngs_modulus"  // of the tube, MPa
	UnloadingInput  Input = "unloading"       // share of Young's modulus
	WallInput       Input = "wall"            // mm
	DepthInput      Input = "depth"           // mm
	WidthInput      Input = "width"           // mm
	DiameterInput   Input = "diameter"        // mm
	FillerInput     Input = "filler_yield"    // MPa
	StripInput      Input = "strip_thickness" // mm
	StripProofInput Input = "strip_proof"     // MPa
	SupportsInput   Input = "supports"        // mm
	TravelInput     Input = "travel"          // mm
	RollerInput     Input = "roller"          // diameter, mm
	FrictionInput   Input = "friction"        // at the rollers
)

// Interval is how far an input's value may lie below and above its nominal one, in
// the value's own unit.
type Interval struct {
	Below, Above float64
	Source       string
}

// IntervalOf returns the interval of an input at a nominal value, for tube or strip
// of a metal and a shape, in a job that speaks inches or not. False says that the
// table has none.
func IntervalOf(in Input, m Material, s Shape, inch bool, nominal float64) (Interval, bool) {
	for line := range lines(intervalsCSV) {
		if i, ok := readInterval(line, in, m, s, inch, nominal); ok {
			return i, true
		}
	}
	return Interval{}, false
}

// tabled returns the name by which the table has an input: all sizes across a
// tube have one tolerance.
func (in Input) tabled() string {
	switch in {
	case DepthInput, WidthInput, DiameterInput:
		return "size"
	case FillerInput:
		return "filler"
	case StripInput:
		return "strip"
	}
	return string(in)
}

// readInterval reads a row; false says that it is not for this.
func readInterval(line string, in Input, m Material, s Shape, inch bool, nominal float64) (Interval, bool) {
	if !strings.HasPrefix(line, in.tabled()+",") {
		return Interval{}, false
	}
	r := read("intervals.csv", line)
	r.text()
	of, alloys, shape, units := r.text(), r.text(), r.text(), r.text()
	over, to := r.number(), r.number()
	i := Interval{Below: r.number(), Above: r.number()}
	of100, unit := 1.0, 1.0
	switch r.text() {
	case "%":
		of100, unit = 100, nominal // of 100 % nothing is left over
	case "in":
		unit = mmPerInch
	case "mm", "":
	default:
		r.bug("an unknown unit")
	}
	i.Below, i.Above, i.Source = i.Below/of100*unit, i.Above/of100*unit, r.text()
	r.end()
	// Tubes of an inch size are met in mm too: a nanometre decides nothing.
	const same = 1e-6
	ok := (of == "" || strings.HasPrefix(m.Standard, of) || of == string(m.Family)) &&
		(alloys == "" || slices.ContainsFunc(strings.Split(alloys, ";"), func(a string) bool { return strings.HasPrefix(m.Name, a) })) &&
		(shape == "" || shape == s.String()) &&
		(units == "" || (units == "in") == inch) &&
		(over == 0 || nominal > over+same) && (to == 0 || nominal <= to+same)
	return i, ok
}

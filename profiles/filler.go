package profiles

import (
	"strconv"
	"strings"
)

// Filler is a low-melting alloy cast into a bore so that it cannot collapse.
type Filler struct {
	Name      string             // its melting point in °F, as the trade names it: "158"
	Mass      map[string]float64 // composition, mass percent by element symbol; adds to 100
	Solidus   float64            // °C
	Liquidus  float64            // °C
	Density   float64            // kg/m³
	Youngs    float64            // MPa
	Yield     float64            // MPa, for a bend that takes minutes: under a lasting load they creep at a tenth of it
	Estimate  bool               // Youngs or Yield is an estimate, not from a source for this alloy
	Cadmium   bool
	Lead      bool
	MeltOutIn string   // what it is melted out in: "hot water", "hot oil or an oven"
	MeltOut   float64  // temperature of that bath, °C
	Ceiling   float64  // never hotter than this, °C
	Growth    []Growth // as it ages after casting; nil: not given
	Over, To  float64  // mm; the depths of tube that it is for; 0: no limit
	Poor      bool     // made for something else
	Use       string   // what it is for, without the limits
	Source    string
}

// Growth is how much longer than its mould a casting is some time after
// freezing.
type Growth struct {
	Hours  float64 // after casting
	Strain float64 // change of length over length, positive longer
}

// Suitability is how well an alloy does for a tube.
type Suitability string

// The suitabilities.
const (
	Suits       Suitability = ""
	Poor        Suitability = "poor"         // it is no filler
	ForSmaller  Suitability = "smaller"      // it is for tube up to To
	ForLarger   Suitability = "larger"       // it is for tube over Over
	RollingBoil Suitability = "rolling boil" // only boiling water melts it out, less surely at altitude
)

// Suits returns what speaks against the alloy for a tube of a depth in mm, the
// worst first.
func (f Filler) Suits(depth float64) Suitability {
	switch {
	case f.Poor:
		return Poor
	case f.To > 0 && depth > f.To:
		return ForSmaller
	case f.Over > 0 && depth <= f.Over:
		return ForLarger
	case f.Liquidus < boiling && f.MeltOut >= boiling:
		return RollingBoil
	}
	return Suits
}

// Composition returns the alloy as text in mass percent, "Bi 50, Pb 26.7,
// Sn 13.3, Cd 10", always in the order Bi, Pb, Sn, Cd, In.
func (f Filler) Composition() string {
	var parts []string
	for _, element := range elements() {
		if share := f.Mass[element]; share > 0 {
			parts = append(parts, element+" "+strconv.FormatFloat(share, 'g', -1, 64))
		}
	}
	return strings.Join(parts, ", ")
}

// Grows reports whether a casting goes on growing after it has frozen, by the
// row's own values, or where it has none by the rule that alloys of more than
// 48 % bismuth with lead do (supplier tables).
func (f Filler) Grows() bool {
	if n := len(f.Growth); n > 0 {
		return f.Growth[n-1].Strain > f.Growth[0].Strain
	}
	return f.Lead && f.Mass["Bi"] > 48
}

// elements are those that these alloys are made of, in the order in which the
// trade writes them.
func elements() [5]string { return [5]string{"Bi", "Pb", "Sn", "Cd", "In"} }

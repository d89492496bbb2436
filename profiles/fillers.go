package profiles

import (
	_ "embed"
	"strings"
)

//go:embed fillers.csv
var fillersCSV string

//go:embed cautions.csv
var cautionsCSV string

// Fillers returns the catalogue of filler alloys, by the start of melting, lowest first.
func Fillers() []Filler {
	var all []Filler
	for line := range lines(fillersCSV) {
		all = append(all, readFiller(line))
	}
	return all
}

// FindFiller returns the filler alloy of a name, the ASTM B774 grade. Case,
// spaces, hyphens and the word alloy before it do not count. The error is an
// *UnknownError.
func FindFiller(name string) (Filler, error) {
	key := strings.TrimPrefix(squash(name), "alloy")
	var names []string
	for line := range lines(fillersCSV) {
		first, _, _ := strings.Cut(line, ",")
		if named(first, key) {
			return readFiller(line), nil
		}
		names = append(names, first)
	}
	return Filler{}, &UnknownError{Alloys, shorten(name, 40), near(key, names)}
}

// Caution is one thing to mind in handling a filler.
type Caution struct {
	About  string // "health", "use", or the step it belongs to: "before pouring", "pouring", "chilling", "bending", "melting out", "after"
	Text   string // one sentence, no full stop
	Source string
}

// Cautions returns what to mind in handling the filler: dangers first, then in
// the order of the work.
func (f Filler) Cautions() []Caution {
	var all []Caution
	for line := range lines(cautionsCSV) {
		r := read("cautions.csv", line)
		applies := false
		switch r.text() {
		case "all":
			applies = true
		case "cadmium":
			applies = f.Cadmium
		case "lead":
			applies = f.Lead
		case "toxic":
			applies = f.Cadmium || f.Lead
		case "grows":
			applies = f.Grows()
		case "water":
			applies = f.Liquidus < boiling
		case "boil":
			applies = f.Liquidus >= boiling
		default:
			r.bug("an unknown condition")
		}
		if applies {
			all = append(all, Caution{About: r.text(), Text: r.text(), Source: r.text()})
			r.end()
		}
	}
	return all
}

// boiling is the boiling point of water at sea level, °C.
const boiling = 100.0

func readFiller(line string) Filler {
	r := read("fillers.csv", line)
	f := Filler{Name: r.text(), Mass: make(map[string]float64, 5)}
	for _, element := range elements() {
		if share := r.number(); share > 0 {
			f.Mass[element] = share
		}
	}
	f.Solidus, f.Liquidus = r.number(), r.number()
	f.Density, f.Youngs, f.Yield, f.Tensile = r.number(), r.number(), r.number(), r.number()
	f.Estimate = r.yes()
	f.MeltOutIn, f.MeltOut, f.Ceiling = r.text(), r.number(), r.number()
	for pair := range strings.SplitSeq(r.text(), "; ") {
		if hours, strain, ok := strings.Cut(pair, " "); ok {
			f.Growth = append(f.Growth, Growth{r.float(hours), r.float(strain)})
		}
	}
	f.Use, f.Source = r.text(), r.text()
	r.end()
	f.Cadmium, f.Lead = f.Mass["Cd"] > 0, f.Mass["Pb"] > 0
	return f
}

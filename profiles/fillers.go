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

// FindFiller returns the filler alloy of a name, "158". Case,
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
	About   string  // "health", "use", or the step it belongs to: "before pouring", "pouring", "chilling", "bending", "melting out", "after"
	Text    string  // one sentence, no full stop; {C} in it stands for Celsius
	Celsius float64 // °C; 0: the sentence has no temperature
}

// Say returns the sentence with its temperature as the reader writes one.
func (c Caution) Say(temperature func(celsius float64) string) string {
	return strings.Replace(c.Text, "{C}", temperature(c.Celsius), 1)
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
			c := Caution{About: r.text(), Text: r.text()}
			if at := r.text(); at == "ceiling" {
				c.Celsius = f.Ceiling
			} else if at != "" {
				c.Celsius = r.float(at)
			}
			all = append(all, c)
			r.text() // the source
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
	f.Density, f.Youngs, f.Yield = r.number(), r.number(), r.number()
	r.text() // tensile stress, which the estimates of yield rest on
	f.Estimate = r.yes()
	f.MeltOutIn, f.MeltOut, f.Ceiling = r.text(), r.number(), r.number()
	for pair := range strings.SplitSeq(r.text(), "; ") {
		if hours, strain, ok := strings.Cut(pair, " "); ok {
			f.Growth = append(f.Growth, Growth{r.float(hours), r.float(strain)})
		}
	}
	f.Over, f.To, f.Poor = r.number(), r.number(), r.yes()
	f.Use, f.Source = r.text(), r.text()
	r.end()
	f.Cadmium, f.Lead = f.Mass["Cd"] > 0, f.Mass["Pb"] > 0
	return f
}

package profiles

import (
	_ "embed"
	"math"
)

//go:embed tubes.csv
var tubesCSV string

//go:embed plates.csv
var platesCSV string

//go:embed sheets.csv
var sheetsCSV string

//go:embed strips.csv
var stripsCSV string

//go:embed flats.csv
var flatsCSV string

// mmPerInch is exact by definition (international yard, 1959).
const mmPerInch = 25.4

// StockTube is a tube size that dealers keep.
type StockTube struct {
	Name    string  // as a shop writes it, in its own unit: "40 x 40 x 3", "1-1/2 x 1-1/2 x 1/8 in", "dia 30 x 2"
	Family  Family  // what it is made of
	Inch    bool    // an inch size
	Section Section // in mm; a rectangle may as well be turned over
	Listed  Listed  // section values as its standard prints them
	Source  string
}

// Listed is a section's values as a standard's table prints them, in the
// table's units. All are 0 where none are given.
type Listed struct {
	Area    float64 // cm²
	Inertia float64 // cm⁴
	Elastic float64 // elastic section modulus, cm³
	Plastic float64 // plastic section modulus, cm³
}

// StockPlate is a thickness that cutting shops keep: of plate for blocks and
// cheeks, of sheet for packing.
type StockPlate struct {
	Name      string  // in its own unit: "10 mm", "3/8 in"
	Inch      bool    // an inch size
	Thickness float64 // mm
	Source    string
}

// StockStrip is a thickness of flat that dealers keep, for backing strips.
type StockStrip struct {
	Name      string  // in its own unit: "6 mm", "1/4 in"
	Inch      bool    // an inch size
	Thickness float64 // mm
	Source    string
}

// Tubes returns the stock tube sizes.
func Tubes() []StockTube {
	var all []StockTube
	for line := range lines(tubesCSV) {
		all = append(all, readTube(line))
	}
	return all
}

// Plates returns the stock plate thicknesses, metric ones first, each thinnest
// first.
func Plates() []StockPlate { return readPlates("plates.csv", platesCSV) }

// Sheets returns the stock thicknesses of sheet from which packing is made up,
// in the order of [Plates].
func Sheets() []StockPlate { return readPlates("sheets.csv", sheetsCSV) }

func readPlates(table, text string) []StockPlate {
	var all []StockPlate
	for line := range lines(text) {
		name, inch, thickness, source := readThickness(table, line)
		all = append(all, StockPlate{name, inch, thickness, source})
	}
	return all
}

// Strips returns the stock thicknesses of flat, metric ones first, each
// thinnest first.
func Strips() []StockStrip {
	var all []StockStrip
	for line := range lines(stripsCSV) {
		name, inch, thickness, source := readThickness("strips.csv", line)
		all = append(all, StockStrip{name, inch, thickness, source})
	}
	return all
}

// StockFlat is a width of flat that dealers keep, for backing strips.
type StockFlat struct {
	Name   string  // in its own unit: "40 mm", "1-1/2 in"
	Inch   bool    // an inch size
	Width  float64 // mm
	Source string
}

// Flats returns the stock widths of flat, in the order of [Strips].
func Flats() []StockFlat {
	var all []StockFlat
	for line := range lines(flatsCSV) {
		name, inch, width, source := readThickness("flats.csv", line)
		all = append(all, StockFlat{name, inch, width, source})
	}
	return all
}

// flatTolerance is how far in mm a rolled flat may be off its width anyway: that
// of EN 10058 for widths to 40 mm, from memory.
const flatTolerance = 0.75

// FlatKept reports whether dealers keep flat of a width in mm, among the inch
// sizes or among the metric ones, as near as flat is rolled.
func FlatKept(width float64, inch bool) bool {
	for _, f := range Flats() {
		if f.Inch == inch && math.Abs(f.Width-width) <= flatTolerance {
			return true
		}
	}
	return false
}

// NearestStrip returns the stock flat whose thickness is nearest to one given
// in mm, among the inch sizes or among the metric ones. Of two as near it is
// the thinner, which springs back flatter.
func NearestStrip(thickness float64, inch bool) StockStrip {
	var best StockStrip
	least := math.Inf(1)
	for _, s := range Strips() {
		// Sizes in mm and their halves are exact, those in inches are not:
		// a nanometre decides nothing.
		if d := math.Abs(s.Thickness - thickness); s.Inch == inch && d < least-1e-6 {
			best, least = s, d
		}
	}
	return best
}

func readTube(line string) StockTube {
	r := read("tubes.csv", line)
	t := StockTube{Family: Family(r.text()), Inch: r.inch()}
	shape := r.text()
	// The size's own spelling is its name, so it is read twice.
	names := *r
	t.Section = Section{Width: r.number(), Depth: r.number(), Wall: r.number(), Corner: r.number()}
	width, depth, wall := names.text(), names.text(), names.text()
	switch shape {
	case "rectangle":
		t.Name = width + " x " + depth + " x " + wall
	case "round":
		t.Section.Shape = Round
		t.Name = "dia " + depth + " x " + wall
	default:
		r.bug("neither rectangle nor round")
	}
	if t.Inch {
		t.Name += " in"
		t.Section.Width *= mmPerInch
		t.Section.Depth *= mmPerInch
		t.Section.Wall *= mmPerInch
		t.Section.Corner *= mmPerInch
	}
	t.Listed = Listed{r.number(), r.number(), r.number(), r.number()}
	t.Source = r.text()
	r.end()
	return t
}

// readThickness reads a row of one size: a thickness, or a width of flat, in mm.
func readThickness(table, line string) (name string, inch bool, thickness float64, source string) {
	r := read(table, line)
	inch = r.inch()
	names := *r
	thickness = r.number()
	name = names.text() + " mm"
	if inch {
		name = name[:len(name)-2] + "in"
		thickness *= mmPerInch
	}
	source = r.text()
	r.end()
	return name, inch, thickness, source
}

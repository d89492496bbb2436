package profiles

import (
	_ "embed"
	"fmt"
	"math"
)

//go:embed gauges.csv
var gaugesCSV string

// GaugeList names a list of gauges. One number is another thickness in each.
type GaugeList string

// The lists.
const (
	AluminiumSheet GaugeList = "aluminium sheet"
	SteelSheet     GaugeList = "steel sheet"
	StainlessSheet GaugeList = "stainless sheet"
	// TubeWall is for the wall of a tube of any metal, which the trade does not
	// gauge as sheet: 16 ga of steel is 0.0598 in as sheet, 0.065 in as a tube's wall.
	TubeWall GaugeList = "tube wall"
)

// SheetGauge returns the list by which sheet, plate and flat of a family of metals
// are gauged.
func SheetGauge(f Family) GaugeList {
	switch f {
	case Aluminium:
		return AluminiumSheet
	case Stainless:
		return StainlessSheet
	}
	return SteelSheet
}

// Gauge is a row of a list of gauges.
type Gauge struct {
	List      GaugeList
	Number    int
	Thickness float64 // mm
	Source    string  // of the list
}

// GaugeError says that a list, which has the gauges from Least to Most, has none of
// a number.
type GaugeError struct {
	List                GaugeList
	Number, Least, Most int
}

func (e *GaugeError) Error() string {
	return fmt.Sprintf("profiles: no %s of gauge %d", e.List, e.Number)
}

// Gauges returns the rows of all lists, of each the thickest first.
func Gauges() []Gauge {
	var all []Gauge
	for line := range lines(gaugesCSV) {
		r := read("gauges.csv", line)
		g := Gauge{List: GaugeList(r.text()), Number: int(r.number())}
		// To 1e-9 mm: 0.065 in is 1.651 mm, whoever converts it.
		g.Thickness = math.Round(r.number()*mmPerInch*1e9) / 1e9
		g.Source = r.text()
		r.end()
		all = append(all, g)
	}
	return all
}

// FindGauge returns the row of a list with a number, or a *GaugeError.
func FindGauge(list GaugeList, number int) (Gauge, error) {
	e := &GaugeError{List: list, Number: number}
	for _, g := range Gauges() {
		if g.List != list {
			continue
		}
		if g.Number == number {
			return g, nil
		}
		if e.Least == 0 {
			e.Least = g.Number
		}
		e.Most = g.Number
	}
	return Gauge{}, e
}

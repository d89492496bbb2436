package tooling

import (
	"fmt"
	"math"
	"strings"

	"overbend/geom"
)

// Source is the kind of source that a limit has.
type Source uint8

// The kinds of [Source].
const (
	Practice  Source = iota // common practice, no source
	Published               // printed by cutting shops in their design rules
)

// String returns the kind in words.
func (s Source) String() string {
	if s == Published {
		return "cutting shops' published rules"
	}
	return "common practice, no source"
}

// Limit is a least size that grows with the plate: the larger of Floor mm and
// Factor times the thickness.
type Limit struct {
	Factor float64
	Floor  float64
	Source Source
}

// At returns the limit in mm for a plate thickness in mm.
func (l Limit) At(plate float64) float64 { return max(l.Floor, l.Factor*plate) }

// Process is what a way of cutting plate can do. Its limits are for warnings
// and defaults; a good table beats them.
type Process struct {
	Name string
	// Hole is the smallest hole's diameter; +Inf when the process cuts none.
	Hole Limit
	Web  Limit // least plate between cuts, or from a cut to an edge
	Gap  Limit // between parts on a sheet, and to its edge
}

// Processes returns what is known of each way of cutting.
func Processes() []Process {
	return []Process{
		{
			Name: "plasma",
			Hole: Limit{1.5, 0, Published},
			Web:  Limit{1.5, 0, Published},
			Gap:  Limit{1.5, 8, Practice},
		},
		{
			Name: "laser",
			Hole: Limit{1, 0, Published},
			Web:  Limit{1, 0, Published},
			Gap:  Limit{1, 3, Practice},
		},
		{
			Name: "waterjet",
			Hole: Limit{0, 3, Practice},
			Web:  Limit{0.5, 2, Practice},
			Gap:  Limit{0.5, 3, Practice},
		},
		{
			// A band saw begins at an edge: every hole is drilled.
			Name: "saw",
			Hole: Limit{0, math.Inf(1), Practice},
			Web:  Limit{0.5, 3, Practice},
			Gap:  Limit{0, 5, Practice},
		},
	}
}

// ProcessNamed returns the process with that name. The error lists all names.
func ProcessNamed(name string) (Process, error) {
	var known []string
	for _, p := range Processes() {
		if p.Name == name {
			return p, nil
		}
		known = append(known, fmt.Sprintf("%q", p.Name))
	}
	return Process{}, fmt.Errorf("cutting process %q is not known, allowed is %s", name, strings.Join(known, ", "))
}

// LimitHoles returns the part with the holes that the process can't cut in
// plate of that thickness in mm moved from Holes to Drill.
func LimitHoles(p Part, by Process, plate float64) Part {
	least := by.Hole.At(plate)
	var cut []geom.Circle
	drill := append([]geom.Circle(nil), p.Drill...)
	for _, h := range p.Holes {
		if 2*h.Radius < least-geom.Coincident {
			drill = append(drill, h)
		} else {
			cut = append(cut, h)
		}
	}
	p.Holes, p.Drill = cut, drill
	return p
}

// Package shop reads the shop file: what stays from job to job. One press, what
// lies in stock, how plate is cut, the printer's paper, tins of alloy, blocks on
// the rack and metals that trial bends taught. A job overrides any of it.
//
// It also keeps a metal in that file, in which every other byte stays, even when
// two programs do so at once. It knows no job and works nothing out but the mean
// of what several jobs say about one bar.
package shop

import (
	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
	"overbend/export/paper"
	"overbend/geom"
	"overbend/profiles"
)

// Shop is what a shop file says, in SI-mm. [Nothing] is that of no shop file.
type Shop struct {
	File    string // as named by the user; "": none
	Units   quantity.Units
	Press   Press
	Stock   Stock
	Cutting Cutting
	Paper   Paper
	Fillers []Filler
	Blocks  []Block
	Metals  []Metal

	places keyed.Places
}

// Press is the shop's press. What is not given is 0.
type Press struct {
	Capacity float64       // N
	Rated    quantity.Kind // that shows Capacity in the unit in which the file gives it
	Stroke   float64       // longest travel of the ram, mm
	Bed      float64       // widest support spacing that fits, mm
	Ram      float64       // ram (piston) diameter, mm
	Friction float64       // coefficient at the rollers
	Rollers  []float64     // diameters at hand, mm, the one to try first in front; none: not given
}

// Stock is what the shop has of plate and flat. Empty lists stand for whatever
// dealers keep.
type Stock struct {
	Plates  []float64 // thicknesses for block, cheeks and templates, mm
	Packing []float64 // thicknesses of sheet to pack with, mm
	Strips  []Strip
}

// Strip is flat for backing strips.
type Strip struct {
	Thickness float64           // mm
	Material  profiles.Material // zero: not given
}

// Cutting is how plate is cut.
type Cutting struct {
	Process string     // "plasma", "laser", "waterjet", "saw" or "" (not given)
	Kerf    float64    // mm; 0: the table's software compensates
	Sheet   [2]float64 // plate size for the nest, mm; zero: no nest asked for
}

// Paper is the printer's.
type Paper struct {
	Size           paper.Size // zero: not given
	Margin         float64    // white edge that the printer leaves, mm
	ScaleX, ScaleY float64    // what the bars of a page measured, as shares
}

// Filler is alloy at hand.
type Filler struct {
	Alloy profiles.Filler
	Mass  float64 // kg
}

// Block is a form block on the rack.
type Block struct {
	Name   string
	Radius float64    // of its working arc, mm
	Arc    geom.Angle // that it covers
	Width  float64    // across the tube, over all plates, mm
}

// Written returns the value of a key as the shop file has it; false for a key that
// it leaves out.
func (s Shop) Written(key string) (string, bool) { return s.places.Written(key) }

// Metal returns the metal that was kept under a name, whose case does not count.
func (s Shop) Metal(name string) (Metal, bool) {
	for _, m := range s.Metals {
		if same(m.Name, name) {
			return m, true
		}
	}
	return Metal{}, false
}

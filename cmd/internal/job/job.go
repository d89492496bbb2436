// Package job reads a job file: the one small TOML text in which a fabricator
// describes a bend. What it returns is checked, complete and in SI-mm (mm, N,
// MPa, radians); defaults that need mechanics are left at zero for the plan to
// fill.
//
// It computes no springback, draws nothing and prints nothing.
package job

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/geom"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Job is one bend to be made.
type Job struct {
	File      string // as named by the user; "" when parsed from memory
	Name      string
	Inches    bool // a bare number in the file means inches
	Drawing   Drawing
	Tube      profiles.Section
	Material  profiles.Material // of the tube
	Inline    bool              // the tube's material was given in the file: no catalogue range
	Bend      Bend
	Allowance Allowance
	Strip     Strip
	Block     Block
	Template  Template
	Filler    Filler
	Press     Press
	Ends      Ends
	Cutting   shop.Cutting
	Fixture   Fixture
	Trials    []Trial
	Gauges    []Gauge       // that thicknesses were given in
	Stock     shop.Stock    // what defaults are taken from
	Rack      []shop.Block  // blocks that the shop has
	Alloys    []shop.Filler // filler that the shop has
	Learned   *shop.Metal   // the tube's metal is one that trials taught; nil otherwise
	Lot       shop.Lot      // of which the tube is, with Learned
	FromShop  FromShop      // what the shop file gave

	places keyed.Places // for Errorf
}

// Drawing holds what goes into the job sheet's title block. All optional.
type Drawing struct {
	Owner    string // legal owner: the shop
	Number   string
	Revision string
	Date     string // as written, ISO 8601 preferred; never taken from the clock
	Drawn    string
	Approved string
	// How far the part may be off, either way, where the drawing says so; 0: it
	// does not.
	AngleTolerance  geom.Angle
	RadiusTolerance float64 // mm
}

// Bend is the finished bend as drawn.
type Bend struct {
	geom.Bend            // its angle is in (0, π]
	RadiusAt  Face       // where the drawing measures its radius
	Legs      [2]float64 // straight lengths, tangent point to trimmed end, mm
}

// Face is where on the tube a radius is measured.
type Face string

// The faces.
const (
	Centre  Face = "centre"
	Inside  Face = "inside"
	Outside Face = "outside"
)

// Drawn returns the radius in mm that the drawing gives, at its own face, for a
// tube of a depth in mm.
func (b Bend) Drawn(depth float64) float64 {
	switch b.RadiusAt {
	case Inside:
		return b.Inside(depth)
	case Outside:
		return b.Outside(depth)
	}
	return b.Radius
}

// Mode says where the overbend comes from.
type Mode string

// The modes of [Allowance].
const (
	Computed Mode = "computed" // from the metal
	Ratio    Mode = "ratio"    // finished/pressed curvature given
	Degrees  Mode = "degrees"  // extra angle at the press given
)

// Allowance is the overbend asked for.
type Allowance struct {
	Mode  Mode
	Ratio float64    // with Ratio: in (0, 1]
	Extra geom.Angle // with Degrees: >= 0
	Proof float64    // certificate's proof stress, MPa; 0: use the catalogue
	// Ultimate is the certificate's ultimate stress, MPa; 0: not given. The
	// curve's exponent follows from both.
	Ultimate float64
}

// Strip is the backing strip.
type Strip struct {
	Thickness float64 // mm; 0: nearest stock thickness to a sixth of the depth
	Material  profiles.Material
}

// Block is the form block and what goes with it.
type Block struct {
	Plate      float64 // plate thickness, mm; 0: the stock plate that suits the tube
	Height     float64 // crown to back, mm; 0: default
	Blend      float64 // fillet at the arc's ends, mm; 0: default
	Hole       float64 // stack bolt hole, mm; 0: [Job.BoltHole]
	CheekDepth float64 // how far cheeks reach past the arc, mm; 0: half the depth
	Existing   float64 // radius of a block the shop has, mm; 0: none
	Use        string  // the block on the rack that the kit is made around; "": a new one
	Lighten    bool
}

// Template is what the check templates are cut from.
type Template struct {
	Plate float64 // thickness, mm; 0: thin sheet
}

// Filler is what holds the bore open.
type Filler struct {
	Alloy profiles.Filler // zero value: none
	Plugs [2]float64      // length of the left and the right end's plug, mm
}

// Named reports whether the tube is filled, whatever else of the job can be made.
func (f Filler) Named() bool { return f.Alloy.Name != "" }

// Press is the shop's press.
type Press struct {
	Capacity float64       // N; 0: not given
	Rated    quantity.Kind // that shows Capacity in the unit in which the file gives it
	Supports float64       // roller centre to roller centre, mm; 0: propose
	Roller   float64       // roller diameter, mm
	Rollers  []float64     // those at hand where the job names none, of which Roller is the first; mm
	Ram      float64       // ram (piston) diameter, mm; 0: not given
	RamWidth float64       // of the ram's foot on the block's back, along the block, mm
	Friction float64       // coefficient at the rollers
	Stroke   float64       // longest travel of the ram, mm; 0: not given
	Bed      float64       // widest support spacing that fits, mm; 0: not given
}

// Ends are the end cuts of the finished part.
type Ends struct {
	Cut  [2]geom.Angle // from square
	Trim [2]float64    // spare length each end, mm; negative: default
}

// Fixture is the plate on which the bent part's ends are cut.
type Fixture struct {
	Pin   float64    // diameter of its dowels, mm
	Plate float64    // thickness, mm; 0: the block's
	Size  [2]float64 // of a plate at hand, mm; zero: proposed
}

// Trial is one bend that was pressed and measured. Absent measurements are NaN.
type Trial struct {
	BlockRadius float64    // mm
	Travel      float64    // mm, or NaN
	Loaded      geom.Angle // angle under load, or NaN
	Filled      geom.Angle // measured with the filler in, or NaN
	Melted      geom.Angle // measured after melt-out, or let go without a filler; or NaN
	Chord       float64    // mm, or NaN; with Rise, on the inside of the bend
	Rise        float64    // mm, or NaN
	AngleError  geom.Angle // one standard deviation of an angle reading
	RiseError   float64    // one standard deviation of a rise reading, mm
	TravelError float64    // one standard deviation of Travel, mm
	LoadedError geom.Angle // one standard deviation of Loaded
}

// BoltHole returns the diameter of the stack's bolt holes in mm, the job's own or
// the default: 13 mm for M12, or 9/16 in for 1/2 in.
func (j Job) BoltHole() float64 {
	return cmp.Or(j.Block.Hole, j.Units().Pick(tooling.DefaultHole, tooling.InchHole/25.4))
}

// Gauge is a thickness that the file gives by its gauge.
type Gauge struct {
	Key string // "tube.wall"
	profiles.Gauge
}

// Units returns the system of a bare length in the file, in which the file's own
// numbers are shown.
func (j Job) Units() quantity.Units {
	if j.Inches {
		return quantity.Inches
	}
	return quantity.Millimetres
}

// Errorf returns a *keyed.Error at a key of the file that j was read from, for
// what only shows once the bend is computed. The key is dotted; an element of an
// array is counted from 0: "press.supports", "trial[1].travel". A key that the
// file leaves out is placed at its table.
func (j Job) Errorf(key, format string, args ...any) error {
	return j.places.Errorf(j.File, key, format, args...)
}

// At returns the place of a key as an error begins with it: "davit.toml:7:
// tube.wall".
func (j Job) At(key string) string { return j.places.At(j.File, key) }

// Written returns the value of a key as the job file has it; false for a key that
// it leaves out.
func (j Job) Written(key string) (string, bool) { return j.places.Written(key) }

// Digest tells a trial of the job from all others, by the job's name and what was
// read: 12 hexadecimal digits.
func (j Job) Digest(trial int) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%q %v", j.Name, j.Trials[trial]))
	return hex.EncodeToString(sum[:6])
}

// Digests returns those of all trials.
func (j Job) Digests() []string {
	var all []string
	for i := range j.Trials {
		all = append(all, j.Digest(i))
	}
	return all
}

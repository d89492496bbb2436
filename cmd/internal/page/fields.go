package page

import (
	"strings"

	"overbend/profiles"
)

// form says how a key is asked for.
type form uint8

const (
	line   form = iota // free text
	choice             // one of a few words
	tick               // true or left out
	pair               // two texts, left and right
)

// field is one key of the job file as the page asks for it.
type field struct {
	Key, Label, Help string
	Form             form
	Words            []string        // the choices; the first holds where the key is left out
	List             func() []string // what a line proposes
	Long             bool            // a line that is wide
	// Picture names a small drawing for what words don't say.
	Picture string
}

// Name returns the key of one side of a pair.
func (f field) Name(side int) string { return f.Key + [2]string{".0", ".1"}[side] }

// The forms, for the template.
func (f field) IsChoice() bool { return f.Form == choice }
func (f field) IsTick() bool   { return f.Form == tick }
func (f field) IsPair() bool   { return f.Form == pair }

// group is fields under one heading.
type group struct {
	Name   string // "" for what is always in sight
	Fields []field
}

// groups returns every key of the job file but those of trials, in the order of
// the work: first the five that matter, then the rest by heading.
func groups() []group {
	return []group{
		{"", []field{
			{Key: "name", Label: "Name", Help: "Stands on every part and print."},
			{Key: "units", Label: "Bare numbers are", Help: "What a length without a unit means, and the units of all results.", Form: choice, Words: []string{"mm", "in"}},
			{Key: "tube.shape", Label: "Tube", Help: "A square is a rectangle.", Form: choice, Words: []string{"rectangle", "round"}},
			{Key: "tube.width", Label: "Width", Help: "Outside, across the bend plane.", List: widths, Picture: "section"},
			{Key: "tube.depth", Label: "Depth", Help: "Outside, in the bend plane.", List: widths, Picture: "section"},
			{Key: "tube.diameter", Label: "Diameter", Help: "Outside, of a round tube.", List: diameters},
			{Key: "tube.wall", Label: "Wall", Help: "Thickness of the wall.", List: walls},
			{Key: "tube.material", Label: "Metal", Help: "A name from the list; one that is not listed goes under Own metal.", List: metals, Long: true},
			{Key: "bend.radius", Label: "Radius", Help: "Of the finished bend, at the face chosen beside it.", Picture: "radius"},
			{Key: "bend.radius_at", Label: "Radius is at", Help: "Where the drawing measures radius, chord, rise and arc.", Form: choice, Words: []string{"centre", "inside", "outside"}, Picture: "radius"},
			{Key: "bend.angle", Label: "Angle", Help: "Change of direction: a straight tube has 0 deg.", Picture: "angle"},
			{Key: "bend.legs", Label: "Legs", Help: "Straights from the end of the arc to the trimmed end.", Form: pair, Picture: "angle"},
		}},
		{"Instead of radius and angle", []field{
			{Key: "bend.chord", Label: "Chord", Help: "From end to end of the arc, with its rise; then leave radius and angle empty.", Picture: "chord"},
			{Key: "bend.rise", Label: "Rise", Help: "Of the arc over the middle of its chord.", Picture: "chord"},
			{Key: "bend.arc", Label: "Arc length", Help: "Along the arc, with either the radius or the angle.", Picture: "chord"},
		}},
		{"End cuts and spare length", []field{
			{Key: "ends.cut", Label: "End cuts", Help: "From square; above 0 makes the outside of the bend longer.", Form: pair, Picture: "cut"},
			{Key: "ends.trim", Label: "Spare length", Help: "Left on each end for the press and cut off at last; one value counts for both.", Form: pair},
		}},
		{"Tube corner", []field{
			{Key: "tube.corner", Label: "Corner", Help: "Outside radius of the tube's corners; 0 is sharp.", Picture: "section"},
		}},
		{"Own metal", []field{
			{Key: "material.youngs_modulus", Label: "Young's modulus", Help: "Fill these in for a metal that is not listed, and leave Metal empty."},
			{Key: "material.proof", Label: "Proof stress", Help: "At 0.2 % of set."},
			{Key: "material.ultimate", Label: "Ultimate stress", Help: "Gives the shape of the stress-strain curve; or give the exponent."},
			{Key: "material.exponent", Label: "Exponent", Help: "Of a Ramberg-Osgood curve."},
			{Key: "material.elongation", Label: "Elongation", Help: "After fracture."},
			{Key: "material.poisson", Label: "Poisson's ratio", Help: "How much it narrows as it stretches."},
			{Key: "material.density", Label: "Density", Help: "For the mass on the cut list."},
			{Key: "material.family", Label: "Family", Help: "Decides the form of the curve.", Form: choice, Words: []string{"", "aluminium", "steel", "stainless"}},
			{Key: "material.unloading", Label: "Unloading share", Help: "Share of Young's modulus by which it unloads once it has yielded."},
		}},
		{"Springback and certificate", []field{
			{Key: "allowance.mode", Label: "Overbend", Help: "Computed from the metal, or stated by you as a ratio or as degrees.", Form: choice, Words: []string{"computed", "ratio", "degrees"}},
			{Key: "allowance.ratio", Label: "Ratio", Help: "Finished over pressed curvature."},
			{Key: "allowance.degrees", Label: "Extra angle", Help: "At the press, past the drawing's angle."},
			{Key: "allowance.proof", Label: "Certificate's proof stress", Help: "From the mill certificate: takes the place of the listed range."},
			{Key: "tube.lot", Label: "Lot", Help: "With a metal kept in the shop file: that very bar, or a new one.", Form: choice, Words: []string{"", "new", "same"}},
			{Key: "allowance.ultimate", Label: "Certificate's ultimate stress", Help: "Beside it on the certificate."},
		}},
		{"Strip", []field{
			{Key: "strip.thickness", Label: "Thickness", Help: "Of the flat steel behind the outer side.", List: strips},
			{Key: "strip.material", Label: "Metal of the strip", Help: "A name from the list.", List: metals, Long: true},
		}},
		{"Block", []field{
			{Key: "block.plate", Label: "Plate", Help: "That block, side plates and templates are cut from.", List: plates},
			{Key: "block.height", Label: "Height", Help: "From crown to back."},
			{Key: "block.blend", Label: "Blend", Help: "Radius at both ends of the arc, so that they mark nothing."},
			{Key: "block.hole", Label: "Bolt hole", Help: "For the bolts that hold the layers together."},
			{Key: "block.cheek_depth", Label: "Side plates reach", Help: "Past the arc, down the sides of the tube."},
			{Key: "block.existing", Label: "Block at hand", Help: "Radius of a block that the shop has: what does it give?"},
			{Key: "block.use", Label: "Block of the rack", Help: "Its name in the shop file: the kit is made around it."},
			{Key: "block.lighten", Label: "Lighten", Help: "Cut openings to save weight.", Form: tick},
		}},
		{"Templates", []field{
			{Key: "template.plate", Label: "Template's plate", Help: "What the check templates are cut from.", List: plates},
		}},
		{"Filler", []field{
			{Key: "filler.alloy", Label: "Alloy", Help: "By its melting point in F, or none.", List: alloys},
			{Key: "filler.plugs", Label: "Plugs", Help: "Length of the plug in each end; one value counts for both.", Form: pair},
		}},
		{"Press", []field{
			{Key: "press.capacity", Label: "Capacity", Help: "What the press is rated for."},
			{Key: "press.supports", Label: "Supports", Help: "Roller centre to roller centre; left out: proposed."},
			{Key: "press.roller", Label: "Roller", Help: "Its diameter."},
			{Key: "press.ram_diameter", Label: "Piston", Help: "Its diameter: gives the gauge pressure."},
			{Key: "press.ram_width", Label: "Foot of the ram", Help: "Its width along the block's back."},
			{Key: "press.friction", Label: "Friction", Help: "At the rollers; 0 on bearings."},
			{Key: "press.stroke", Label: "Stroke", Help: "Longest travel of the ram."},
			{Key: "press.bed", Label: "Bed", Help: "Widest support spacing that fits."},
		}},
		{"Cutting", []field{
			{Key: "cutting.process", Label: "Process", Help: "Its limits for holes and webs are checked.", Form: choice, Words: []string{"", "plasma", "laser", "waterjet", "saw"}},
			{Key: "cutting.kerf", Label: "Kerf", Help: "0: the cutting table's software allows for it."},
			{Key: "cutting.sheet", Label: "Plate size", Help: "Lays all parts out on plate of this size."},
		}},
		{"Trim fixture", []field{
			{Key: "fixture.pin", Label: "Pins", Help: "Diameter of the dowels that hold the bent part while its ends are cut."},
			{Key: "fixture.plate", Label: "Fixture's plate", Help: "Its thickness.", List: plates},
			{Key: "fixture.size", Label: "Fixture's size", Help: "Of a plate at hand; left out: as large as it must be."},
		}},
		{"Title block and tolerances", []field{
			{Key: "drawing.owner", Label: "Owner", Help: "The shop, for the sheet's title block.", Long: true},
			{Key: "drawing.number", Label: "Drawing number", Help: "As it stands on the drawing."},
			{Key: "drawing.revision", Label: "Revision", Help: "Of the drawing."},
			{Key: "drawing.date", Label: "Date", Help: "As you write it."},
			{Key: "drawing.drawn", Label: "Drawn by", Help: "For the title block."},
			{Key: "drawing.approved", Label: "Approved by", Help: "For the title block."},
			{Key: "drawing.angle_tolerance", Label: "Angle tolerance", Help: "Either way, where the drawing states one."},
			{Key: "drawing.radius_tolerance", Label: "Radius tolerance", Help: "Either way, where the drawing states one."},
		}},
	}
}

// Values returns what the page proposes for a key of the job file; none where the
// key takes whatever is measured.
func Values(key string) []string {
	for _, g := range groups() {
		for _, f := range g.Fields {
			switch {
			case f.Key != key:
			case f.List != nil:
				return f.List()
			default:
				return f.Words
			}
		}
	}
	return nil
}

// trialFields returns the keys of one trial, named without their table.
func trialFields() []field {
	return []field{
		{Key: "block", Label: "Block", Help: "Radius of the block used."},
		{Key: "travel", Label: "Travel", Help: "Of the ram from first touch; or give the angle under pressure."},
		{Key: "loaded", Label: "Angle under pressure", Help: "Instead of the travel."},
		{Key: "filled", Label: "Let go, alloy in", Help: "Angle measured with the alloy in."},
		{Key: "melted", Label: "Alloy out", Help: "Angle measured after melt-out."},
		{Key: "released", Label: "Let go, empty tube", Help: "Angle of a tube that was bent without a filler."},
		{Key: "chord", Label: "Chord", Help: "With its rise, on the inside of the bend.", Picture: "chord"},
		{Key: "rise", Label: "Rise", Help: "In the middle of the chord.", Picture: "chord"},
		{Key: "angle_error", Label: "Angles read to", Help: "How well the angles were read."},
		{Key: "rise_error", Label: "Rise read to", Help: "How well the rise was read."},
		{Key: "travel_error", Label: "Travel set to", Help: "How well the travel was set."},
		{Key: "loaded_error", Label: "That angle read to", Help: "How well the angle under pressure was read."},
	}
}

// once returns names without what was there before, in order.
func once(names []string) []string {
	seen := map[string]bool{}
	out := names[:0]
	for _, n := range names {
		if !seen[n] && n != "" {
			seen[n] = true
			out = append(out, n)
		}
	}
	return out
}

func metals() []string {
	var out []string
	for _, m := range profiles.Materials() {
		out = append(out, m.Name)
	}
	return once(out)
}

func alloys() []string {
	out := []string{"none"}
	for _, a := range profiles.Fillers() {
		out = append(out, a.Name)
	}
	return once(out)
}

func plates() []string {
	var out []string
	for _, p := range profiles.Plates() {
		out = append(out, p.Name)
	}
	return once(out)
}

func strips() []string {
	var out []string
	for _, s := range profiles.Strips() {
		out = append(out, s.Name)
	}
	return once(out)
}

// sizes returns the n-th figure of the names of stock tubes, with their unit.
func sizes(round bool, n int) []string {
	var out []string
	for _, t := range profiles.Tubes() {
		if (t.Section.Shape == profiles.Round) != round {
			continue
		}
		figures := strings.Split(strings.TrimPrefix(strings.TrimSuffix(t.Name, " in"), "dia "), " x ")
		if n < 0 {
			n = len(figures) - 1
		}
		unit := " mm"
		if t.Inch {
			unit = " in"
		}
		if n < len(figures) {
			out = append(out, figures[n]+unit)
		}
	}
	return out
}

func widths() []string    { return once(sizes(false, 0)) }
func diameters() []string { return once(sizes(true, 0)) }
func walls() []string     { return once(append(sizes(false, -1), sizes(true, -1)...)) }

package profiles

import "fmt"

// The errors of this package are values: what is wrong, and figures in mm. Their
// Error is for programmers, without units; a reader's sentence is made from the
// fields, in the reader's units.

// UnknownError says that a table has no row of a name.
type UnknownError struct {
	Kind    Kind
	Name    string   // as given, cut to 40 letters
	Nearest []string // names of rows that may be meant; none when nothing is near
}

// Kind is what a table lists.
type Kind string

// The kinds of which names are looked up.
const (
	Metals Kind = "material"
	Alloys Kind = "filler alloy"
)

func (e *UnknownError) Error() string { return fmt.Sprintf("profiles: no %s %q", e.Kind, e.Name) }

// WallError says that a wall, mm, lies outside a material's rows, which are for
// walls over Least and up to Most. A wall that is no thickness at all has no
// Name.
type WallError struct {
	Name              string
	Wall, Least, Most float64
}

func (e *WallError) Error() string {
	if e.Name == "" {
		return fmt.Sprintf("profiles: wall %g is no thickness", e.Wall)
	}
	return fmt.Sprintf("profiles: %s has no wall %g", e.Name, e.Wall)
}

// SectionError is the first thing wrong with a section.
type SectionError struct {
	What        Size
	Why         Fault
	Value       float64 // mm, as given
	Least, Most float64 // mm, allowed; where Why says that they are
	Side        Size    // what Most is half of, where Why says so
}

// Size names a length of a section.
type Size string

// The sizes.
const (
	Diameter Size = "diameter"
	Width    Size = "width"
	Depth    Size = "depth"
	Wall     Size = "wall"
	Corner   Size = "corner radius"
)

// Fault is why a size can't be.
type Fault string

// The faults.
const (
	NotFinite   Fault = "is not a finite number"
	NotPositive Fault = "is not above 0"
	OutOfRange  Fault = "is out of range"              // of Least to Most
	TwoSizes    Fault = "is not the depth"             // of a round tube; the depth is Most
	NoBore      Fault = "leaves no bore"               // it must be under Most, half of Side
	Negative    Fault = "is below 0"                   //
	RoundCorner Fault = "is no size of a round tube's" //
	NoRoom      Fault = "does not fit"                 // it must be at most Most, half of Side
)

func (e *SectionError) Error() string {
	return fmt.Sprintf("profiles: %s %g %s", e.What, e.Value, e.Why)
}

package tooling

import (
	"fmt"

	"overbend/geom"
)

// Why is a reason for which a part can't be made as asked.
type Why string

// The reasons, and which [Facts] they turn on.
const (
	NotPositive     Why = "size-must-be-positive"  // it must be more than 0
	Negative        Why = "size-is-negative"       // it must be 0 or more
	TooLarge        Why = "size-too-large"         // for any part
	NoAngle         Why = "angle-not-allowed"      // it must be more than 0
	RadiusTooSmall  Why = "radius-too-small"       // to be cut from plate
	NotStraight     Why = "not-pushed-straight"    // a block that covers it is not pushed straight
	ArcTooShort     Why = "arc-too-short"          // Arc
	OffTheArc       Why = "off-the-arc"            // a tangent point
	BlendOffArc     Why = "blend-off-arc"          // the fillet does not fit the arc
	HoleTooSmall    Why = "hole-too-small"         // for a stack bolt
	HoleTooLarge    Why = "hole-too-large"         // for a stack bolt
	HoleWide        Why = "hole-too-wide-for-body" // Radius and Width of the block
	NoRoomForBolts  Why = "no-room-for-bolts"      // Hole: not even two of the least
	HeightTooLow    Why = "height-too-low"         // Wrap and Hole
	PlateThick      Why = "plate-thicker-than-gap" // Gap
	PlateThin       Why = "plate-too-thin"         // Plates
	WallsUnborne    Why = "walls-unborne"          // Gap: one plate does not reach under both walls
	SaddleFlat      Why = "saddle-flat"            // Gap and Plates
	CheekOffTube    Why = "cheek-off-tube"         // Depth of the tube
	NoHollow        Why = "no-hollow"              // a template's inside
	AngleUnseen     Why = "angle-unseen"           // on a template
	LegUnseen       Why = "leg-unseen"             // on a template
	CutTooSteep     Why = "cut-too-steep"          // an end cut
	CutIntoBend     Why = "cut-into-bend"          // Cut
	KerfNoWidth     Why = "kerf-no-width"          // it must be 0 or more
	KerfAboveHole   Why = "kerf-above-hole"        // Hole
	NoRoomForPins   Why = "no-room-for-pins"       // Hole: a fixture's pins, clear of the saw
	PlateTooLarge   Why = "plate-too-large"        // for a fixture
	LargerThanSheet Why = "larger-than-sheet"      // see [SheetError]
)

// Reasons returns every [Why] of a [SizeError], for the tests of whoever puts
// them into words.
func Reasons() []Why {
	return []Why{
		NotPositive, Negative, TooLarge, NoAngle, RadiusTooSmall, NotStraight, ArcTooShort, OffTheArc, BlendOffArc,
		HoleTooSmall, HoleTooLarge, HoleWide, NoRoomForBolts, HeightTooLow, PlateThick, PlateThin, WallsUnborne, SaddleFlat,
		CheekOffTube, NoHollow, AngleUnseen, LegUnseen, CutTooSteep, CutIntoBend, KerfNoWidth, KerfAboveHole,
		NoRoomForPins, PlateTooLarge,
	}
}

// Dimension is a size of a part.
type Dimension string

// The dimensions that a [SizeError] names.
const (
	Radius       Dimension = "radius"
	Depth        Dimension = "depth"
	Width        Dimension = "width"
	Height       Dimension = "height"
	Length       Dimension = "length"
	Thickness    Dimension = "thickness"
	Gap          Dimension = "gap"
	Plate        Dimension = "plate"
	Blend        Dimension = "blend"
	Hole         Dimension = "hole"
	Web          Dimension = "web"
	WorkingArc   Dimension = "working arc"
	TangentPoint Dimension = "tangent point"
	CheekDepth   Dimension = "cheek depth"
	BendAngle    Dimension = "angle"
	Leg          Dimension = "leg"
	Straight     Dimension = "straight"
	Below        Dimension = "side"
	Band         Dimension = "band"
	EndCut       Dimension = "end cut"
	Trim         Dimension = "trim"
	PressLength  Dimension = "length for the press"
	Supports     Dimension = "supports"
	Kerf         Dimension = "kerf"
	PartGap      Dimension = "part gap"
	Edge         Dimension = "edge"
)

// Facts are the numbers that a reason turns on, in mm; those that it does not
// turn on are 0.
type Facts struct {
	Arc, Gap, Hole, Depth, Radius, Width float64
	Wrap, Cut                            geom.Angle
	Plates                               int
}

// SizeError says that a part can't be made as asked, and which dimension to
// change.
type SizeError struct {
	Part      string // "block", "cheek", "inside template" ...
	Dimension Dimension
	Why       Why
	Angular   bool    // Value, Least and Most are radians, else mm
	Value     float64 // as asked
	Least     float64 // smallest that is allowed; 0: no lower limit
	Most      float64 // largest that is allowed; 0: no upper limit
	Facts     Facts
}

// Error is for programmers; package words has the sentences.
func (e *SizeError) Error() string {
	return fmt.Sprintf("tooling: %s: %s %g: %s (least %g, most %g, %+v)", e.Part, e.Dimension, e.Value, e.Why, e.Least, e.Most, e.Facts)
}

// SheetError says that a part is too large for the sheet. Sizes in mm.
type SheetError struct {
	Part          string
	Width, Height float64 // of the part
	Sheet         Sheet
}

// Error is for programmers, as that of [SizeError].
func (e *SheetError) Error() string {
	return fmt.Sprintf("tooling: %s: %s, %g x %g on %+v", e.Part, LargerThanSheet, e.Width, e.Height, e.Sheet)
}

// named is a dimension in mm.
type named struct {
	name  Dimension
	value float64
}

// mostSize is a kilometre: no part is as large.
const mostSize = 1e6

// positive returns an error unless every dimension is a number above 0 and
// below a kilometre.
func positive(part string, dims ...named) error {
	for _, d := range dims {
		if !(d.value > 0) {
			return &SizeError{Part: part, Dimension: d.name, Value: d.value, Why: NotPositive}
		}
		if err := within(part, d.name, d.value); err != nil {
			return err
		}
	}
	return nil
}

// within returns an error unless v is a number from 0 to a kilometre.
func within(part string, name Dimension, v float64) error {
	if !(v >= 0) {
		return &SizeError{Part: part, Dimension: name, Value: v, Why: Negative}
	}
	if v > mostSize {
		return &SizeError{Part: part, Dimension: name, Value: v, Why: TooLarge, Most: mostSize}
	}
	return nil
}

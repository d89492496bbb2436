package words

import "overbend/geom/tooling"

// The words of the trade that stand on paper, terminal and page: each thing has
// one name, and here is the list. Keys of JSON and job file are others.
const (
	UnderPressure = "under pressure"
	LetGo         = "let\u00a0go" // of an empty tube
	LetGoFilled   = "let\u00a0go, alloy\u00a0in"
	LetGoMelted   = "alloy out"

	BendStarts = "bend starts"
	BendEnds   = "bend ends"
	BendMiddle = "middle of bend"
	CutHere    = "cut here after bending"
	RollerAt   = "roller"
	TubeEnd    = "end"

	Packing    = "packing"
	BlockPlate = "block"
	SidePlate  = "side plate (cheek)"
	BackStrip  = "strip"
	TheTube    = "tube"
	ARoller    = "roller"
	StackBolt  = "bolt"
	FirstTouch = "first touch"
)

// LetGoName returns what the angle is called that a part keeps when the ram is
// backed off.
func LetGoName(filled bool) string {
	if filled {
		return LetGoFilled
	}
	return LetGo
}

// PieceName returns what a piece to cut is called, given the name of its file.
func PieceName(file string) string {
	switch file {
	case "cheek":
		return SidePlate
	case "template-inside":
		return "template, inside"
	case "template-outside":
		return "template, outside"
	}
	return file
}

// MarkName returns what a mark on the blank is called: of its two tangent points
// the first is where the bend starts.
func MarkName(marks []tooling.BlankMark, i int) string {
	switch marks[i].Name {
	case tooling.MarkTrim:
		return CutHere
	case tooling.MarkCentre:
		return BendMiddle
	case tooling.MarkRoller:
		return RollerAt
	}
	for _, m := range marks[:i] {
		if m.Name == tooling.MarkTangent {
			return BendEnds
		}
	}
	return BendStarts
}

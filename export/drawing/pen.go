package drawing

// Pen is how a role looks on paper.
type Pen struct {
	// Width of the line in mm; 0 draws no line.
	Width float64
	// Dash lists dash and gap lengths in mm; empty is unbroken.
	Dash []float64
	// Ink is the line's colour as 0xRRGGBB.
	Ink uint32
}

// Line group 0.5 of ISO 128-2 (from memory): wide 0.5, narrow 0.25, extra
// wide 0.7. Dash lengths follow its multiples of the width: dash 12 d, gap
// 3 d, long dash 24 d, dot 0.5 d.
const (
	wide   = 0.5
	narrow = 0.25
	frame  = 0.7
)

// PenOf returns the pen of a role on paper.
func PenOf(r Role) Pen {
	switch r {
	case CutOuter, CutInner, Visible:
		return Pen{Width: wide}
	case Mark, Note, Thin:
		return Pen{Width: narrow}
	case Hidden:
		return Pen{Width: narrow, Dash: []float64{3, 0.75}}
	case Centre:
		return Pen{Width: narrow, Dash: []float64{6, 0.75, 0.125, 0.75}}
	case Phantom:
		return Pen{Width: narrow, Dash: []float64{6, 0.75, 0.125, 0.75, 0.125, 0.75}}
	case Predicted:
		return Pen{Width: 0.35, Dash: []float64{2, 1.2}}
	case Frame:
		return Pen{Width: frame}
	default:
		return Pen{}
	}
}

// Colour returns a tone as 0xRRGGBB, and whether it fills at all. Relative
// luminance falls from each tone to the next, so that grey prints keep them
// apart; the test of this package holds them to that.
func (t Tone) Colour() (uint32, bool) {
	switch t {
	case Paper:
		return 0xFFFFFF, true
	case Pale:
		return 0xF1EFEA, true
	case Filler:
		return 0xE6DFC8, true
	case Tube:
		return 0xB9CCD2, true
	case Block:
		return 0xC9AE8C, true
	case Steel:
		return 0x8C969B, true
	case Dark:
		return 0x000000, true
	default:
		return 0, false
	}
}

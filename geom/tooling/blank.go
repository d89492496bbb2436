package tooling

import (
	"cmp"
	"math"
	"slices"

	"overbend/geom"
)

// BlankSpec describes the straight tube that a bend starts from. Sizes in mm.
type BlankSpec struct {
	Radius, Depth float64
	Angle         geom.Angle
	Legs          [2]float64    // finished, tangent point to trimmed end on the centreline
	Cuts          [2]geom.Angle // end cuts from square, signed as in [TubeOutline]
	Trim          [2]float64    // spare beyond each finished end; negative: half the depth
	// Growth is the share by which the centreline's arc grows as it is bent, for
	// the line that keeps its length lies further in.
	Growth float64
	// Half is the tube's length that the press needs to each side of the bend's
	// middle, measured along the tube: to the furthest point that a roller
	// touches, and the overhang. 0: no press.
	Half float64
	// Roller is how far from the middle a roller touches the straight tube, half
	// the distance between supports; 0 marks none.
	Roller float64
}

// Blank is the straight tube to be cut, marked and bent.
type Blank struct {
	Length   float64 // to cut, mm
	ForPress float64 // how much of it is there only for the press, mm
	Middle   float64 // of the bend, from the left end, mm
	Marks    []BlankMark
	// Outside and Inside are the finished part's lengths along its outer and
	// inner face, end to end, mm: with end cuts from long point to long point
	// and from short to short where both cuts are positive.
	Outside, Inside float64
	// OutsideLeg and InsideLeg are the same from each tangent point, for setting
	// the saw: the longer of the two is the leg's long point.
	OutsideLeg, InsideLeg [2]float64
	Part                  Part // length by depth, marks scribed; outside of the bend on top
}

// BlankMark is a place on the blank. At is its distance in mm from the left
// end, on the centreline. Slant is how much further right it lies on the outer
// face, and further left on the inner one.
type BlankMark struct {
	Name  string // "trim", "tangent", "centre" or "roller"
	At    float64
	Slant float64
	// Scribe is its line on the part, without a vertex where the blank is cut
	// anyway: on the end.
	Scribe geom.Path
}

// Names of the marks on a blank.
const (
	MarkTrim    = "trim"
	MarkTangent = "tangent"
	MarkCentre  = "centre"
	MarkRoller  = "roller"
)

// NewBlank returns the blank for a bend:
//
//	length = leg + arc + leg + end cuts + trim,
//
// where the arc is the centreline's, by Growth shorter than it is bent, and a cut
// takes depth/2·tan|cut|. Where the press needs more on a side, that side is longer:
// the bend's middle must stand midway between the rollers.
func NewBlank(spec BlankSpec) (Blank, error) {
	if err := positive("blank", named{Radius, spec.Radius}, named{Depth, spec.Depth}); err != nil {
		return Blank{}, err
	}
	for _, d := range []named{{Leg, spec.Legs[0]}, {Leg, spec.Legs[1]}, {PressLength, spec.Half}, {Supports, spec.Roller}} {
		if err := within("blank", d.name, d.value); err != nil {
			return Blank{}, err
		}
	}
	if !(spec.Angle > 0 && spec.Angle <= math.Pi+1e-9) {
		return Blank{}, &SizeError{Part: "blank", Dimension: BendAngle, Angular: true, Value: spec.Angle.Radians(), Why: NoAngle, Most: math.Pi}
	}
	if err := CheckEnds(spec.Depth, spec.Legs, spec.Cuts); err != nil {
		return Blank{}, err
	}
	arc := spec.Radius * float64(spec.Angle) / (1 + spec.Growth)
	var b Blank
	var half, slant [2]float64
	for i := range half {
		trim := spec.Trim[i]
		if trim < 0 {
			trim = spec.Depth / 2
		}
		if err := within("blank", Trim, trim); err != nil {
			return Blank{}, err
		}
		slant[i] = spec.Depth / 2 * spec.Cuts[i].Tan()
		own := arc/2 + spec.Legs[i] + math.Abs(slant[i]) + trim
		half[i] = max(own, spec.Half)
		b.ForPress += half[i] - own
		b.OutsideLeg[i] = spec.Legs[i] + slant[i]
		b.InsideLeg[i] = spec.Legs[i] - slant[i]
	}
	b.Length, b.Middle = half[0]+half[1], half[0]
	b.Outside = b.OutsideLeg[0] + b.OutsideLeg[1] + (spec.Radius+spec.Depth/2)*float64(spec.Angle)
	b.Inside = b.InsideLeg[0] + b.InsideLeg[1] + (spec.Radius-spec.Depth/2)*float64(spec.Angle)

	m := b.Middle
	mark := func(name string, at, slant float64) {
		b.Marks = append(b.Marks, BlankMark{Name: name, At: at, Slant: slant})
	}
	// Without spare the trim is the end, whatever the rounding.
	mark(MarkTrim, max(0, m-arc/2-spec.Legs[0]), 0-slant[0])
	mark(MarkTangent, m-arc/2, 0)
	mark(MarkCentre, m, 0)
	mark(MarkTangent, m+arc/2, 0)
	mark(MarkTrim, min(b.Length, m+arc/2+spec.Legs[1]), slant[1])
	if spec.Roller > 0 {
		for _, at := range [...]float64{m - spec.Roller, m + spec.Roller} {
			if at >= 0 && at <= b.Length {
				mark(MarkRoller, at, 0)
			}
		}
	}
	slices.SortStableFunc(b.Marks, func(a, b BlankMark) int { return cmp.Compare(a.At, b.At) })
	b.draw(spec.Depth)
	return b, nil
}

// draw makes the blank's part: rollers are ticks on the outer face, which they
// touch, all else runs across.
func (b *Blank) draw(depth float64) {
	b.Part = Part{Name: "blank", Outline: geom.Rect{Max: geom.Pt(b.Length, depth)}.Path()}
	for i := range b.Marks {
		m := &b.Marks[i]
		foot := geom.Pt(m.At-m.Slant, 0)
		up := geom.Pt(2*m.Slant, depth)
		low, high := scribeGap/depth, 1-scribeGap/depth
		if m.Name == MarkRoller {
			low = 0.7
		}
		a, c := foot.Add(up.Mul(low)), foot.Add(up.Mul(high))
		if depth <= 4*scribeGap || min(a.X, c.X) < scribeGap || max(a.X, c.X) > b.Length-scribeGap {
			continue // on the end, which is cut there anyway
		}
		m.Scribe = geom.Lines(a, c)
		b.Part.Marks = append(b.Part.Marks, m.Scribe)
	}
}

package tooling

import (
	"fmt"
	"math"
	"slices"

	"overbend/geom"
)

// MostHalfAngle is the most that a block can wrap to each side of its crown.
// It is pushed straight between the rollers: further round, its sides would
// have to lean inwards and the tube could not be lifted off.
const MostHalfAngle = 87 * geom.Degree

// Default sizes of a block, in mm. None has a source; they are common practice.
const (
	leastBlend    = 10.0  // or a quarter of the depth
	leastHeight   = 60.0  // or one and a half times the depth
	straightSide  = 10.0  // side that stays between fillet and back
	mostPitch     = 200.0 // between bolts in a row
	mostPlates    = 100
	markLength    = 10.0
	leastRadius   = 5.0
	leastArc      = 1.0
	edgeDistances = 1.5 // hole's centre to any edge, in hole diameters
	pitches       = 3.0 // between hole centres, in hole diameters
)

// Diameters of the stack's bolt holes in mm, whatever the plate: a drill goes
// through any. Clearance for M12, for 1/2 in (9/16 in), M4's bolt and clearance
// for M42: common practice, no source.
const (
	DefaultHole = 13.0
	InchHole    = 14.2875
	LeastHole   = 4.0
	MostHole    = 45.0
)

// BlockSpec describes a form block. Sizes in mm.
type BlockSpec struct {
	// Radius of the working arc: of the tube's inside face under load. For a
	// round tube that is the bottom of the groove, the smallest of the layers'.
	Radius float64
	// HalfAngle is what the arc covers to each side of the crown, the cover
	// beyond the wrap included. TangentHalfAngle is where the tangent points are
	// marked; 0 marks none.
	HalfAngle, TangentHalfAngle geom.Angle
	Depth                       float64 // of the tube, in the bend plane
	Round                       bool    // tube of diameter Depth: layers step to a saddle
	Gap                         float64 // between the cheeks; see [CheekGap]
	Plate                       float64 // thickness of the plate the block is cut from; see [BestPlate]
	// Sheets are the thicknesses at hand to make packing from; without any,
	// packing is one sheet of the very thickness that is missing.
	Sheets []float64
	Blend  float64 // fillet at the arc's ends; 0: the larger of 10 mm and Depth/4
	// Height from crown to back (of a round tube's lowest layer); 0: the larger
	// of 60 mm and 1.5 Depth, or what wrap and bolts need.
	Height  float64
	Hole    float64 // stack bolt hole's diameter; 0: [DefaultHole]
	Lighten bool    // cut round openings where there is room; see [Block.Openings]
	// Opening is the least diameter that the process cuts of an opening: 25 mm is
	// the least in any case, +Inf leaves all out.
	Opening float64
	// Web is the least plate to leave round an opening; 0: 1.5 Plate. It is
	// never less than 10 mm.
	Web float64
}

// Layer is one outline of the block and how many plates of it to cut.
type Layer struct {
	Part   Part    // its holes are the block's bolts and openings
	Radius float64 // of its working arc, mm
	Count  int
	body   body
}

// Block is a form block of stacked plates.
type Block struct {
	BlockSpec // as given, defaults filled in
	// Layers are the distinct outlines from the middle of the stack outwards:
	// one for a rectangular tube.
	Layers     []Layer
	Stack      []Leaf    // plates and packing from one cheek to the other
	LayerRadii []float64 // of each plate, in the same order
	Packing    Packing
	Shim       float64       // thickness of all packing, mm
	HalfWidth  float64       // from the middle to a side of the widest layer
	Back       float64       // y of the back
	Bolts      []geom.Circle // holes of the stack's bolts, the same in every layer
	Openings   []geom.Circle // that lighten each layer; none when there was no room
}

// NewBlock designs a form block: a working arc, at both ends a tangent fillet
// into vertical sides, a flat back, and bolt holes for the stack.
//
// Holes keep 1.5 diameters from centre to any edge of any layer and three
// diameters between each other, and stand in one row near the back or, where
// the height allows, in two. A body too narrow for them is widened: the fillet
// runs into a flank that falls away from the tube's leg. When neither that nor
// (if no height was asked for) a higher body makes room, a [*SizeError] names
// the dimension to change.
func NewBlock(spec BlockSpec) (Block, error) {
	b := Block{BlockSpec: spec}
	if err := b.defaults(); err != nil {
		return Block{}, err
	}
	n, rest := Layers(b.Gap, b.Plate)
	if why, least := bears(n, rest, b.Round); why != "" {
		e := &SizeError{Part: "block", Dimension: Plate, Value: b.Plate, Why: why, Facts: Facts{Gap: b.Gap, Plates: n}}
		if least > 0 {
			e.Most = b.Gap / float64(least)
		} else {
			e.Least = b.Gap / mostPlates
		}
		return Block{}, e
	}
	b.stack(n, rest)

	for _, l := range b.Stack {
		if !l.Packing {
			b.LayerRadii = append(b.LayerRadii, l.Radius)
		}
	}
	same := func(a, b float64) bool { return math.Abs(a-b) <= geom.Coincident }
	for _, r := range slices.CompactFunc(slices.Sorted(slices.Values(b.LayerRadii)), same) {
		layer := Layer{Radius: r}
		for i := range b.Stack {
			if l := &b.Stack[i]; !l.Packing && same(l.Radius, r) {
				l.Layer = len(b.Layers)
				layer.Count++
			}
		}
		b.Layers = append(b.Layers, layer)
	}
	var err error
	if b.Bolts, err = b.shape(); err != nil {
		return Block{}, err
	}
	if b.Lighten {
		b.Openings = b.openings()
	}
	for i := range b.Layers {
		l := &b.Layers[i]
		l.Part = Part{Name: "block", Outline: l.body.outline(), Holes: slices.Concat(b.Bolts, b.Openings), Marks: b.marks(l.Radius)}
		if len(b.Layers) > 1 {
			l.Part.Name = fmt.Sprintf("block-%d", i+1)
		}
	}
	if b.Packing.Count > 0 {
		b.Packing.Part = b.packingPart()
	}
	return b, nil
}

// defaults fills in what was left out and refuses what is no size.
func (b *Block) defaults() error {
	if err := positive("block", named{Radius, b.Radius}, named{Depth, b.Depth}, named{Gap, b.Gap}, named{Plate, b.Plate}); err != nil {
		return err
	}
	for _, d := range []named{{Blend, b.Blend}, {Height, b.Height}, {Hole, b.Hole}, {Web, b.Web}} {
		if err := within("block", d.name, d.value); err != nil {
			return err
		}
	}
	if b.Radius < leastRadius {
		return &SizeError{Part: "block", Dimension: Radius, Value: b.Radius, Why: RadiusTooSmall, Least: leastRadius}
	}
	if !(b.HalfAngle > 0) || b.HalfAngle > MostHalfAngle {
		return &SizeError{Part: "block", Dimension: WorkingArc, Angular: true, Value: 2 * b.HalfAngle.Radians(), Why: NotStraight, Most: 2 * MostHalfAngle.Radians()}
	}
	if arc := 2 * b.Radius * float64(b.HalfAngle); arc < leastArc {
		return &SizeError{Part: "block", Dimension: WorkingArc, Angular: true, Value: 2 * b.HalfAngle.Radians(),
			Why: ArcTooShort, Least: leastArc / b.Radius, Facts: Facts{Arc: arc}}
	}
	if !(b.TangentHalfAngle >= 0 && b.TangentHalfAngle <= b.HalfAngle) {
		return &SizeError{Part: "block", Dimension: TangentPoint, Angular: true, Value: b.TangentHalfAngle.Radians(), Why: OffTheArc, Most: b.HalfAngle.Radians()}
	}
	if b.Blend == 0 {
		// A fillet larger than the arc would reach out to the tube.
		b.Blend = min(max(leastBlend, b.Depth/4), b.Radius/2)
	}
	if least := leastRadius / 2; b.Blend < least || b.Blend > b.Radius {
		return &SizeError{Part: "block", Dimension: Blend, Value: b.Blend, Why: BlendOffArc, Least: least, Most: b.Radius}
	}
	if b.Hole == 0 {
		b.Hole = DefaultHole
	}
	if b.Hole < LeastHole || b.Hole > MostHole {
		e := &SizeError{Part: "block", Dimension: Hole, Value: b.Hole, Why: HoleTooSmall, Least: LeastHole, Most: MostHole}
		if b.Hole > MostHole {
			e.Why = HoleTooLarge
		}
		return e
	}
	if b.Web == 0 {
		b.Web = 1.5 * b.Plate
	}
	b.Web = max(b.Web, leastWeb)
	return nil
}

// shape finds width, height and bolt holes, the same for all layers, and each
// layer's body.
func (b *Block) shape() ([]geom.Circle, error) {
	edge, apart := edgeDistances*b.Hole, pitches*b.Hole
	least := edge + apart/2
	last := len(b.Layers) - 1
	wide := newBody(b.Layers[last].Radius, b.HalfAngle, b.Blend, least, 0)
	for i := range b.Layers {
		b.Layers[i].body = newBody(b.Layers[i].Radius, b.HalfAngle, b.Blend, wide.side, 0)
	}
	b.HalfWidth = wide.side

	// The lowest layer lies within the others: what fits it fits them all.
	low := b.Layers[0].body
	if low.side < least-geom.Coincident {
		most := low.side / (edgeDistances + pitches/2)
		if most < LeastHole {
			return nil, &SizeError{Part: "block", Dimension: Radius, Value: low.radius, Why: NoRoomForBolts,
				Least: LeastHole * (edgeDistances + pitches/2) / b.HalfAngle.Sin(), Facts: Facts{Hole: LeastHole}}
		}
		return nil, &SizeError{Part: "block", Dimension: Hole, Value: b.Hole, Why: HoleWide, Least: LeastHole, Most: most,
			Facts: Facts{Radius: low.radius, Width: 2 * low.side}}
	}
	// The lower row can stand no higher than where two holes at their closest
	// keep their distance from arc, fillets and flanks.
	top := highest(low, apart/2, edge, low.radius-edge)
	need := low.radius - top + edge
	for i := range b.Layers {
		need = max(need, low.radius-b.Layers[i].body.shoulder()+straightSide)
	}
	switch {
	case b.Height == 0:
		b.Height = max(leastHeight, 1.5*b.Depth)
		if need > b.Height {
			b.Height = math.Ceil(need - 1e-9) // a whole millimetre reads better on the sheet
		}
	case b.Height < need-1e-9:
		return nil, &SizeError{Part: "block", Dimension: Height, Value: b.Height, Why: HeightTooLow, Least: need,
			Facts: Facts{Wrap: 2 * b.HalfAngle, Hole: b.Hole}}
	}
	b.Back = low.radius - b.Height
	for i := range b.Layers {
		b.Layers[i].body.back = b.Back
	}
	low.back = b.Back

	// Lower row: as far apart as the sides allow. Upper row: as high as it can
	// go and still be half as wide.
	y := b.Back + edge
	x := widest(low, y, apart/2, edge)
	holes := row(x, y, b.Hole)
	x = max(apart/2, x/2)
	if up := highest(low, x, edge, low.radius-edge); up-y >= apart {
		holes = append(holes, row(x, up, b.Hole)...)
	}
	return holes, nil
}

// highest returns the largest y up to top at which a point at x keeps edge mm
// from arc, fillets, flanks and sides of b. The side must allow it.
func highest(b body, x, edge, top float64) float64 {
	ok := func(y float64) bool { return b.clearance(geom.Pt(x, y)) >= edge-1e-9 }
	// Convex and open below (the back does not count): far enough down only the
	// sides limit. The flank falls at 80° at most, so six widths will do.
	low := min(b.shoulder(), top) - 6*b.side - edge
	return bisect(low, top, ok)
}

// widest returns the largest x from least on at which a point at y keeps edge
// mm from arc, fillets, flanks and sides of b.
func widest(b body, y, least, edge float64) float64 {
	return bisect(least, max(least, b.side-edge), func(x float64) bool { return b.clearance(geom.Pt(x, y)) >= edge-1e-9 })
}

// bisect returns the largest value from good to bad for which ok holds, to
// 1e-9 of the interval, given that ok(good) and that ok holds up to one value
// and not beyond.
func bisect(good, bad float64, ok func(float64) bool) float64 {
	if ok(bad) {
		return bad
	}
	for range 34 {
		if m := (good + bad) / 2; ok(m) {
			good = m
		} else {
			bad = m
		}
	}
	return good
}

// row returns holes of diameter d at height y from -x to x, an even number so
// that none falls on the centreline, no more than 200 mm or nine diameters
// apart: adding two then leaves at least three.
func row(x, y, d float64) []geom.Circle {
	n := 2
	for 2*x/float64(n-1) > max(mostPitch, 3*pitches*d) {
		n += 2
	}
	out := make([]geom.Circle, n)
	for i := range out {
		out[i] = geom.Circle{Centre: geom.Pt(x*(2*float64(i)/float64(n-1)-1), y), Radius: d / 2}
	}
	return out
}

// marks returns the scribe lines of a layer of the given radius: centreline at
// crown and back, tangent points.
func (b *Block) marks(radius float64) []geom.Path {
	// No hole comes nearer to an edge than its own diameter; and on a very tight
	// arc a mark must not run past the centre and out on the other side.
	length := min(markLength, b.Hole-2*scribeGap, (radius-scribeGap)/2)
	radial := func(a geom.Angle) geom.Path {
		return geom.Lines(toward(a).Mul(radius-scribeGap), toward(a).Mul(radius-scribeGap-length))
	}
	out := []geom.Path{
		radial(0),
		geom.Lines(geom.Pt(0, b.Back+scribeGap), geom.Pt(0, b.Back+scribeGap+length)),
	}
	if b.TangentHalfAngle > 0 {
		out = append(out, radial(-b.TangentHalfAngle), radial(b.TangentHalfAngle))
	}
	return out
}

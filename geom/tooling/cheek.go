package tooling

import "overbend/geom"

// stripClear is the least distance in mm that a cheek keeps from the strip's
// side of the tube: more than the error of a plasma-cut edge.
const stripClear = 2.0

// Cheek returns the outline of the two cheeks: the block's own, carried past
// the bottom of the working arc by depth mm all round (0: half the tube's
// depth), the back flush and the bolt holes the same. The working arc is
// scribed on it, so that plates and cheeks line up. A round tube's cheek is
// carried past the lowest layer, so that it covers as much of the tube.
//
// A [*SizeError] says that the cheek would reach the strip, or end below the
// outer layers of a round tube's saddle.
func (b Block) Cheek(depth float64) (Part, error) {
	if depth == 0 {
		depth = b.Depth / 2
	}
	outer := b.Layers[len(b.Layers)-1]
	// The outer layers of a saddle already stand above its bottom.
	stands := outer.Radius - b.Radius
	if !(depth > 0) || depth > b.Depth-stripClear || depth < stands-geom.Coincident {
		return Part{}, &SizeError{Part: "cheek", Dimension: CheekDepth, Value: depth, Why: CheekOffTube, Least: stands,
			Most: max(0, b.Depth-stripClear), Facts: Facts{Depth: b.Depth}}
	}
	d := max(0, depth-stands)
	part := Part{
		Name:    "cheek",
		Outline: outer.body.offset(d).outline(),
		Holes:   outer.Part.Holes,
		Marks:   b.marks(outer.Radius + d),
	}
	if wrap := 2 * outer.Radius * float64(b.HalfAngle); d > 2*scribeGap && wrap > 2*scribeGap {
		end := toward(b.HalfAngle).Mul(outer.Radius)
		part.Marks = append(part.Marks, geom.Start(end).ArcTo(geom.Pt(-end.X, end.Y), 2*b.HalfAngle))
	}
	return part, nil
}

package tooling

import (
	"math"

	"overbend/geom"
)

// Packing fills up what whole plates leave of the gap between the cheeks.
type Packing struct {
	Part      Part
	Count     int       // in the stack; 0: none
	Thickness float64   // of one, mm
	Sheets    []float64 // that make up one, mm, thickest first; each is cut as Part
}

// packingDrop is by how much packing stays below the plates that carry the tube,
// mm, so that a roughly cut sheet never touches it: common practice, no source.
const packingDrop = 2.0

// packingPart returns packing's outline, the lowest plate's with a smaller arc, on
// the same bolts and back.
func (b *Block) packingPart() Part {
	r := b.Layers[0].Radius - packingDrop
	p := newBody(r, b.HalfAngle, min(b.Blend, r), b.HalfWidth-packingDrop, b.Back)
	return Part{Name: "packing", Outline: p.outline(), Holes: b.Bolts}
}

// makeUp returns the sheets that make up a thickness: as few as come within fit,
// and of those the nearest; all in mm. Without stock it is one of that very
// thickness. It is empty when nothing comes nearer than no sheet at all.
func makeUp(thickness, fit float64, stock []float64) []float64 {
	if len(stock) == 0 {
		return []float64{thickness}
	}
	thickest := 0.0
	for _, s := range stock {
		thickest = max(thickest, s)
	}
	var out []float64
	for thickness > 3*thickest { // beyond what is worth searching
		out, thickness = append(out, thickest), thickness-thickest
	}
	const mostSheets = 4
	var best []float64
	off := math.Abs(thickness)
	for n := 1; n <= mostSheets && off > fit+geom.Coincident; n++ {
		var try func(chosen []float64, rest, last float64)
		try = func(chosen []float64, rest, last float64) {
			if len(chosen) == n {
				if math.Abs(rest) < off-geom.Coincident {
					best, off = append([]float64(nil), chosen...), math.Abs(rest)
				}
				return
			}
			for _, s := range stock {
				if s <= last && s <= rest+fit {
					try(append(chosen, s), rest-s, s)
				}
			}
		}
		try(nil, thickness, thickest)
	}
	return append(out, best...)
}

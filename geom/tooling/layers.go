package tooling

import (
	"math"

	"overbend/geom"
)

// leastShim is the thinnest packing in mm that is worth making; the bolts take
// up the rest. No stack is further from its gap than that.
const leastShim = 0.3

// CheekGap returns the distance in mm between the cheeks: the tube's inner face
// as the bend widens it, and half a millimetre so that the tube comes out.
func CheekGap(innerWidth float64) float64 { return innerWidth + 0.5 }

// Layers returns the most whole plates that fit a gap, both in mm, and what
// packing must make up: 0 when it would be thinner than 0.3 mm. n is 0 when a
// single plate is too thick, or when gap or plate is not a size.
func Layers(gap, plate float64) (n int, shim float64) {
	if !(gap > 0 && plate > 0) || math.IsInf(gap, 1) {
		return 0, 0
	}
	// A plate that is too thick by rounding alone still fits.
	n = int(math.Min(math.Floor(gap/plate*(1+1e-12)), math.MaxInt32))
	shim = gap - float64(n)*plate
	if n == 0 || shim < leastShim-geom.Coincident {
		shim = 0
	}
	return n, shim
}

// The default plate, mm: common practice, no source. Cheeks are cut from
// it too; above half an inch they weigh more than they need.
const (
	leastPlate = 5.0
	mostPlate  = 13.0
)

// BestPlate returns which of the stock thicknesses a block for a gap should be
// cut from, all in mm: of those from 5 to 13 mm whose plates stand under both of
// the tube's walls (of a round tube: make a saddle) the one that leaves the least
// packing, or where several leave the same, to 0.3 mm, the thickest, for fewer
// plates. For a tube too small for these it is a thinner one, and where none will
// do the thinnest. A usual thickness that a shop has in any case, 0 for none, is
// taken where its plates stand under both walls and it takes no more packing than
// the best by over half its own thickness (common practice, no source).
func BestPlate(gap float64, round bool, stock []float64, usual float64) float64 {
	best, least := math.Inf(1), math.Inf(1)
	for _, lowest := range [...]float64{leastPlate, 0} {
		for _, plate := range stock {
			n, rest := Layers(gap, plate)
			if plate < lowest || plate > mostPlate {
				continue
			}
			if why, _ := bears(n, rest, round); why != "" {
				continue
			}
			if rest < least-leastShim || rest < least+leastShim && plate > best {
				best, least = plate, rest
			}
		}
		if math.IsInf(best, 1) {
			continue
		}
		if n, rest := Layers(gap, usual); usual > 0 && rest <= least+usual/2 {
			if why, _ := bears(n, rest, round); why == "" {
				return usual
			}
		}
		return best
	}
	for _, plate := range stock {
		best = min(best, plate)
	}
	return best
}

// leastSaddle is how many plates make a saddle: on three or fewer a round tube
// lies on one flat, on four there are two steps to each side.
const leastSaddle = 4

// bears returns what is wrong with n plates and a rest to be packed under a tube,
// and how many plates there must be at least; "" when they carry it. The
// outermost plates must stand under the walls.
func bears(n int, rest float64, round bool) (why Why, least int) {
	least = 2
	switch {
	case round:
		least = leastSaddle
	case n == 0:
		least = 1
	}
	switch {
	case n == 0:
		return PlateThick, least
	case round && n < leastSaddle:
		return SaddleFlat, least
	case n == 1 && rest > 0:
		return WallsUnborne, least
	case n > mostPlates:
		return PlateThin, 0
	}
	return "", 0
}

// Leaf is one plate or one packing of a block's stack.
type Leaf struct {
	Packing   bool
	Thickness float64 // mm
	Layer     int     // of a plate: its outline's number in Layers
	Radius    float64 // of a plate: of its working arc, mm
}

// stack lays n plates and what packs the rest of the gap from one cheek to the
// other. Packing lies between plates, for only plates carry the tube's walls: in
// one place near the middle or, in a saddle, which must stay symmetric and have a
// plate under the bottom of the tube, in two.
func (b *Block) stack(n int, rest float64) {
	at := [2]int{n / 2, n / 2} // packing goes before these plates
	count := 0
	if rest > 0 {
		count = 1
		if b.Round {
			at, count = [2]int{n / 2, n/2 + 1}, 2
			if n%2 == 0 {
				at[0]--
			}
		}
		b.Packing = Packing{Count: count, Sheets: makeUp(rest/float64(count), leastShim/float64(count), b.Sheets)}
		for _, s := range b.Packing.Sheets {
			b.Packing.Thickness += s
		}
		if len(b.Packing.Sheets) == 0 {
			b.Packing = Packing{}
			count = 0
		}
	}
	b.Shim = float64(count) * b.Packing.Thickness
	thick := float64(n)*b.Plate + b.Shim
	x := -thick / 2 // of the leaf's first face, from the middle
	for i := range n {
		for k := range count {
			if at[k] == i {
				b.Stack = append(b.Stack, Leaf{Packing: true, Thickness: b.Packing.Thickness})
				x += b.Packing.Thickness
			}
		}
		r := b.Radius
		if b.Round {
			r = stepRadius(b.Radius+b.Depth/2, b.Depth/2, max(0, x, -x-b.Plate))
		}
		b.Stack = append(b.Stack, Leaf{Thickness: b.Plate, Radius: r})
		x += b.Plate
	}
}

// stepRadius returns the radius in mm of a saddle's plate whose nearer face is x
// mm from the middle of the stack:
//
//	R = centreRadius - √(r² - x²),
//
// centreRadius the pressed radius of the centreline, r the tube's outer radius. A
// plate that stands wholly beside the tube gets centreRadius.
func stepRadius(centreRadius, tubeRadius, x float64) float64 {
	return centreRadius - math.Sqrt(max(0, tubeRadius*tubeRadius-x*x))
}

package bend

import (
	"fmt"
	"math"
	"slices"

	"overbend/profiles"
)

// After is what a bend does to the tube's section, at the inner (compressed)
// and outer (stretched) face. Strains are engineering ones, change of length
// over length, by which elongation is measured.
type After struct {
	OuterStrain float64 // above 0
	InnerStrain float64 // below 0
	NeutralAxis float64 // distance of the line that keeps its length from mid-depth, towards the inside, mm
	ArcGrowth   float64 // of the line at mid-depth, as a fraction
	OuterWall   float64 // mm
	InnerWall   float64 // mm
	OuterWidth  float64 // mm
	InnerWidth  float64 // mm
}

// leastBend is the strain at the faces below which a bend moves the neutral
// axis by nothing that rounding would leave.
const leastBend = 1e-6

// Deform returns the section's state when its mid-depth line is bent to
// curvature k > 0, 1/mm, with a filler in its bore or none. An error says that
// the inside face would have no radius left.
//
// With R = 1/k a fibre at height y from mid-depth, outwards positive, is
// stretched to the share
//
//	l = (R + y)/(R - c)
//
// of its length, where R - c is the radius of the neutral line. The law is read
// as true stress against logarithmic strain, ln l, the same in tension and
// compression; metal keeps its volume, so a strip of width w has the area w/l
// left, and no force pulls along the bend:
//
//	∫ s(ln l) w/l dy = 0
//
// over tube and filler together: a filler that holds to the bore. One that
// slides in it, as the press model has it, leaves the tube to itself: give none,
// which is also on the safe side for the outer face. The equation has one root, c between 0 and the half
// depth: the sum grows with c where it is 0, is below 0 at mid-depth and above 0
// at the inner face. (Plane sections and constant volume as in R. Hill, The
// mathematical theory of plasticity, 1950, ch. XI, on a wide sheet, whose
// radial stress is left out here; from memory.) A catalogue's law is an
// engineering curve. Read so it errs by the strain itself in stress, tension and
// compression against each other, which moves c by far less.
//
// Wall and face width then are, by constant volume and alike across both,
//
//	t/sqrt(l),  W/sqrt(l)
//
// A round tube's width is its diameter; the figure for its inner face is then
// an upper bound, for the tube is narrower there.
func Deform(s profiles.Section, law profiles.Law, filler Member, k float64) (After, error) {
	h := s.Depth / 2
	if !(k > 0 && k*h < 1) {
		return After{}, fmt.Errorf("bend: a tube %g deep bent to curvature %g has no radius left inside", s.Depth, k)
	}
	c := 0.0
	if k*h >= leastBend {
		var err error
		if c, err = neutralAxis(s, law, filler, 1/k); err != nil {
			return After{}, err
		}
	}
	r := 1 / k
	outer, inner := (r+h)/(r-c), (r-h)/(r-c)
	return After{
		OuterStrain: outer - 1,
		InnerStrain: inner - 1,
		NeutralAxis: c,
		ArcGrowth:   c / (r - c),
		OuterWall:   s.Wall / math.Sqrt(outer),
		InnerWall:   s.Wall / math.Sqrt(inner),
		OuterWidth:  s.Width / math.Sqrt(outer),
		InnerWidth:  s.Width / math.Sqrt(inner),
	}, nil
}

// neutralAxis returns the distance c of Deform at a mid-depth radius r, mm.
//
// With e = ln l, dy = (r - c) l de, so that a band of constant width w between
// heights -y and y pulls
//
//	w (r - c) (W(e(y)) - W(e(-y))),  W(e) = ∫ s de
//
// without a sum over its height. A section with rounded parts is summed.
func neutralAxis(s profiles.Section, law profiles.Law, filler Member, r float64) (float64, error) {
	if s.Shape == profiles.Round || s.Corner > 0 {
		return neutralAxisSummed(s, law, filler, r)
	}
	band := func(b profiles.Solid, law profiles.Law, c float64) float64 {
		y := b.Depth / 2
		return b.Width * (law.Work(math.Log((r+y)/(r-c))) - law.Work(math.Log((r-y)/(r-c))))
	}
	return root("neutral axis", 0, s.Depth/2, func(c float64) float64 {
		pull := band(s.Outer(), law, c) - band(s.Bore(), law, c)
		if !filler.None() {
			pull += band(s.Bore(), filler.Law, c)
		}
		return pull
	})
}

// neutralAxisSummed is neutralAxis for any section.
func neutralAxisSummed(s profiles.Section, law profiles.Law, filler Member, r float64) (float64, error) {
	h, outer, bore := s.Depth/2, s.Outer(), s.Bore()
	// No fibre is strained more than when the neutral line lies at a face.
	tube := sampledTo(law, math.Log((r+h)/(r-h))*(1+1e-9))
	knees := tube.Knees()
	if !filler.None() {
		knees = slices.Concat(knees, filler.Law.Knees())
	}
	// Heights at which a width is not smooth.
	fixed := []float64{-h, h, bore.Depth / 2, -bore.Depth / 2}
	for _, b := range []profiles.Solid{outer, bore} {
		fixed = append(fixed, b.Depth/2-b.Corner, b.Corner-b.Depth/2)
	}
	var borders []float64
	force := func(c float64) float64 {
		borders = append(append(borders[:0], fixed...), -c)
		for _, e := range knees {
			borders = append(borders, (r-c)*math.Exp(e)-r, (r-c)*math.Exp(-e)-r)
		}
		slices.Sort(borders)
		sum := 0.0
		for i := range len(borders) - 1 {
			lo, hi := borders[i], borders[i+1]
			if lo < -h || hi > h || hi-lo < 1e-12*h {
				continue
			}
			// Through y = mid + half sin a, so that a rounded end's root in
			// the width does no harm.
			mid, half := (lo+hi)/2, (hi-lo)/2
			for j := range order {
				sin, cos := math.Sincos(math.Pi / 2 * gaussX[j])
				y := mid + half*sin
				l := (r + y) / (r - c)
				e, inside := math.Log(l), bore.WidthAt(y)
				pull := tube.Stress(e) * (outer.WidthAt(y) - inside)
				if !filler.None() {
					pull += filler.Law.Stress(e) * inside
				}
				sum += math.Pi / 2 * gaussW[j] * half * cos * pull / l
			}
		}
		return sum
	}
	return root("neutral axis", 0, h, force)
}

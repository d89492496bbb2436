package bend

import (
	"math"
	"slices"

	"overbend/profiles"
)

// Remains is what a bend left of the section: how it resists being bent further,
// or back, in the plane of the bend. The shares are of the straight tube's.
type Remains struct {
	Area    float64 // mm²
	Inertia float64 // about the section's own centroid, mm⁴
	Modulus float64 // elastic, Inertia over the way to the further face, mm³

	AreaShare, InertiaShare, ModulusShare float64
}

// Remain returns what is left of a section once its mid-depth line has been bent
// to curvature k, 1/mm, which left it in state a (see [Deform]).
//
// A fibre at height y that is stretched to the share l of its length is W/sqrt(l)
// wide over its faces and t/sqrt(l) thick, as in [Deform]; the depth stays, and so
// do the radii of a rectangle's corners. On a round tube the outer outline at an
// angle u is (h cos u/sqrt(l), h sin u) and the inner one lies t/sqrt(l) inside of
// it, along the straight tube's radius. Faces that sink in or bulge are left out.
// Area, first and second moment are integrals over the height, in closed panels:
//
//	A = ∫ w dy,  S = ∫ w y dy,  I = ∫ w y² dy - S²/A
//
// (elementary statics).
func Remain(s profiles.Section, k float64, a After) Remains {
	r := 1 / k
	outer := bentSolid{s.Outer(), s.Depth / 2, -s.Depth / 2, r, r - a.NeutralAxis}
	bore := outer
	bore.solid = s.Bore()
	bore.top -= a.OuterWall
	bore.bottom += a.InnerWall
	var m moments
	if s.Shape == profiles.Round {
		m.round(outer, 0, 1)
		m.round(outer, s.Wall, -1)
	} else {
		m.rectangle(outer, 1)
		if bore.top > bore.bottom { // else the inner wall fills it
			m.rectangle(bore, -1)
		}
	}
	c := m.first / m.area
	out := Remains{Area: m.area, Inertia: m.second - m.first*c}
	out.Modulus = out.Inertia / (s.Depth/2 + math.Abs(c))
	out.AreaShare, out.InertiaShare, out.ModulusShare = out.Area/s.Area(), out.Inertia/s.Inertia(), out.Modulus/s.ElasticModulus()
	return out
}

// bentSolid is a filled outline once bent: it was solid, now reaches from bottom
// to top, and a fibre at height y is (mid + y)/neutral times as long as it was.
type bentSolid struct {
	solid        profiles.Solid
	top, bottom  float64 // from the tube's mid-depth, outwards positive, mm
	mid, neutral float64 // radii, mm
}

// shrink returns by how much the width at height y shrinks, 1/sqrt(l).
func (d bentSolid) shrink(y float64) float64 { return math.Sqrt(d.neutral / (d.mid + y)) }

// moments are ∫ w dy, ∫ w y dy and ∫ w y² dy.
type moments struct{ area, first, second float64 }

// add adds one point of the integrals.
func (m *moments) add(y, dA float64) {
	m.area += dA
	m.first += dA * y
	m.second += dA * y * y
}

// rectangle adds a rectangle with rounded corners, sign times.
func (m *moments) rectangle(d bentSolid, sign float64) {
	corner := d.solid.Corner
	borders := []float64{d.bottom, min(d.bottom+corner, d.top), max(d.top-corner, d.bottom), d.top}
	slices.Sort(borders)
	for i := range len(borders) - 1 {
		lo, hi := borders[i], borders[i+1]
		if hi-lo < 1e-12*d.solid.Depth {
			continue
		}
		// Through y = mid + half sin u, so that a corner's root does no harm.
		mid, half := (lo+hi)/2, (hi-lo)/2
		for j := range order {
			sin, cos := math.Sincos(math.Pi / 2 * gaussX[j])
			y := mid + half*sin
			w := d.solid.Width * d.shrink(y)
			if over := corner - min(y-d.bottom, d.top-y); over > 0 {
				w -= 2 * (corner - math.Sqrt(max(0, corner*corner-over*over)))
			}
			m.add(y, sign*math.Pi/2*gaussW[j]*half*cos*w)
		}
	}
}

// round adds a disc whose edge lies depth mm inside of d's, sign times.
func (m *moments) round(d bentSolid, depth, sign float64) {
	h := d.solid.Depth / 2
	const panels = 6
	for i := range panels {
		for j := range order {
			u := math.Pi * ((float64(i)+(1+gaussX[j])/2)/panels - 0.5)
			sin, cos := math.Sincos(u)
			k := d.shrink(h * sin)
			// d(1/sqrt(l))/du = -k/(2 (mid + y)) dy/du
			turn := -k / 2 / (d.mid + h*sin) * h * cos
			w := 2 * k * (h - depth) * cos
			y, dy := (h-depth*k)*sin, (h-depth*k)*cos-depth*turn*sin
			m.add(y, sign*math.Pi/panels/2*gaussW[j]*w*dy)
		}
	}
}

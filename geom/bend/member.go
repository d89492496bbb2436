package bend

import (
	"math"
	"slices"

	"overbend/profiles"
)

// Member is one layer that bends about its own mid-depth: the solid Outer less
// the solid Bore (zero for none), of one material.
//
// Strained metal unloads on a softer line than it was first loaded on. Unload is
// that line's slope as a share of Young's modulus; 0 counts as 1.
type Member struct {
	Outer, Bore profiles.Solid
	Law         profiles.Law
	Unload      float64
}

// Hollow returns the member of a tube section.
func Hollow(s profiles.Section, law profiles.Law) Member {
	return Member{Outer: s.Outer(), Bore: s.Bore(), Law: law}
}

// Massive returns the member of a solid section: a strip, or filler in a bore.
func Massive(s profiles.Solid, law profiles.Law) Member {
	return Member{Outer: s, Law: law}
}

// None reports whether the member is absent: no law.
func (m Member) None() bool { return m.Law == nil }

// Stiffness returns E I in N·mm², 0 for an absent member.
func (m Member) Stiffness() float64 {
	if m.None() {
		return 0
	}
	return m.Law.YoungsModulus() * (m.Outer.Inertia() - m.Bore.Inertia())
}

// unloading returns the stiffness in N·mm² by which the member springs back, 0
// for an absent member.
func (m Member) unloading() float64 {
	if m.Unload > 0 {
		return m.Unload * m.Stiffness()
	}
	return m.Stiffness()
}

// stays returns what stays of a curvature k, 1/mm, when the moment mom in N·mm is
// let go on a line of stiffness ei in N·mm². Never less than straight: metal that
// was not strained past its yield unloads on the line it came by, whatever its
// softer line after that.
func stays(k, mom, ei float64) float64 {
	kf := k - mom/ei
	if (kf < 0) != (k < 0) {
		return 0
	}
	return kf
}

// Moment returns the bending moment in N·mm at curvature k in 1/mm,
//
//	M(k) = ∫ s(k y) y w(y) dy,
//
// y from the centreline. Parts of constant width are in closed form
// ([profiles.Law] StressMoment); rounded parts by Gauss-Legendre panels in the
// corner's own angle, to better than 1e-6 relative. An absent member carries
// nothing.
func (m Member) Moment(k float64) float64 {
	mom, _ := m.momentSlope(k)
	return mom
}

// momentSlope returns M and dM/dk at curvature k.
func (m Member) momentSlope(k float64) (mom, dm float64) {
	if m.None() {
		return 0, 0
	}
	if k == 0 {
		return 0, m.Stiffness()
	}
	a := math.Abs(k)
	mom, dm = solidMoment(m.Outer, m.Law, a)
	if m.Bore.Depth > 0 {
		bm, bd := solidMoment(m.Bore, m.Law, a)
		mom, dm = mom-bm, dm-bd
	}
	return math.Copysign(mom, k), dm
}

// solidMoment returns M and dM/dk of a solid at curvature k > 0.
func solidMoment(s profiles.Solid, law profiles.Law, k float64) (mom, dm float64) {
	h := s.Depth / 2
	r := s.Corner
	if s.Shape == profiles.Round {
		r = h
	}
	// constant adds a band of width w from the centreline to height y, both
	// sides: M = 2 w G(k y)/k², dM/dk = 2 w (s(k y) y² - 2 G/k²)/k.
	constant := func(w, y float64) {
		if w <= 0 || y <= 0 {
			return
		}
		s, g := law.StressWithMoment(k * y)
		g /= k * k
		mom += 2 * w * g
		dm += 2 * w * (s*y*y - 2*g) / k
	}
	if s.Shape == profiles.Rectangle {
		constant(s.Width-2*r, h)
	}
	if r > 0 {
		cm, cd := roundedMoment(law, k, h-r, r)
		mom, dm = mom+cm, dm+cd
	}
	return mom, dm
}

// roundedMoment returns what the parts of a solid beside its four rounded corners
// carry, as upright bands: at a distance r cos a from where the corner begins the
// band is y = c + r sin a high, on both sides of the centreline, so that with G
// and s as for a band of constant width
//
//	M = 4 ∫ G(k y)/k² r sin a da
//	dM/dk = 4 ∫ (s(k y) y² - 2 G(k y)/k²)/k r sin a da
//
// G is an integral of the stress and so is smooth enough for few panels.
func roundedMoment(law profiles.Law, k, c, r float64) (mom, dm float64) {
	var room [16]float64
	borders := cornerPanels(room[:0], law.Knees(), k, c, r)
	var g, p float64 // of the bands: ∫ s e de, and stress times height squared
	for i := range len(borders) - 1 {
		lo, hi := borders[i], borders[i+1]
		n := math.Ceil((hi-lo)/mostOfCorner - 1e-9)
		half := (hi - lo) / (2 * n)
		for mid := lo + half; mid < hi; mid += 2 * half {
			for q := range order {
				sin := math.Sin(mid + half*gaussX[q])
				y := c + r*sin
				stress, moment := law.StressWithMoment(k * y)
				w := half * gaussW[q] * sin
				g += w * moment
				p += w * stress * y * y
			}
		}
	}
	mom = 4 * r * g / (k * k)
	return mom, (4*r*p - 2*mom) / k
}

// mostOfCorner is how much of a corner one panel spans at most, radians: what is
// left to the rule is then little more than the sine.
const mostOfCorner = math.Pi / 4

// cornerPanels appends the borders, as angles from 0 to π/2, between which the
// stress over a rounded part is smooth: at the knees, and half way between the
// first two (a Ramberg-Osgood curve of exponent 60 turns within a tenth of the
// yield strain).
func cornerPanels(out, knees []float64, k, c, r float64) []float64 {
	out = append(out, 0)
	add := func(e float64) {
		if u := (e/k - c) / r; u > 0 && u < 1 {
			out = append(out, math.Asin(u))
		}
	}
	for i, e := range knees {
		if i == 1 {
			add((knees[i-1] + e) / 2)
		}
		add(e)
	}
	return append(out, math.Pi/2)
}

// upTo returns the member with its law sampled for curvatures up to top, 1/mm,
// when it has rounded parts; the others are in closed form and cheap as it is. A
// law without hardening costs nothing to ask but for its knee.
func (m Member) upTo(top float64) Member {
	if m.None() || m.Outer.Corner == 0 && m.Outer.Shape == profiles.Rectangle {
		return m
	}
	if l, ok := m.Law.(profiles.ElasticPlastic); ok {
		m.Law = plastic{l, l.Knees()}
		return m
	}
	m.Law = sampledTo(m.Law, top*m.Outer.Depth/2*(1+1e-9))
	return m
}

// plastic is a law without hardening that makes its list of knees once.
type plastic struct {
	profiles.ElasticPlastic
	knees []float64
}

// Knees returns the law's knee.
func (p plastic) Knees() []float64 { return p.knees }

// knees returns the curvatures at which the member's outer face and, for a
// tube, the inside of its flange pass a knee of the law.
func (m Member) knees() []float64 {
	if m.None() {
		return nil
	}
	var out []float64
	for _, e := range m.Law.Knees() {
		out = append(out, e/(m.Outer.Depth/2))
		if m.Bore.Depth > 0 {
			out = append(out, e/(m.Bore.Depth/2))
		}
	}
	slices.Sort(out)
	return out
}

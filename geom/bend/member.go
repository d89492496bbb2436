package bend

import (
	"math"
	"slices"

	"overbend/profiles"
)

// Member is one layer that bends about its own mid-depth: the solid Outer less
// the solid Bore (zero for none), of one material.
type Member struct {
	Outer, Bore profiles.Solid
	Law         profiles.Law
}

// Hollow returns the member of a tube section.
func Hollow(s profiles.Section, law profiles.Law) Member {
	return Member{s.Outer(), s.Bore(), law}
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

// Moment returns the bending moment in N·mm at curvature k in 1/mm,
//
//	M(k) = ∫ s(k y) y w(y) dy,
//
// y from the centreline. Parts of constant width are in closed form
// ([profiles.Law] StressMoment); rounded parts by Gauss-Legendre panels in the
// corner's own angle, to better than 1e-6 relative. An absent member carries
// nothing.
func (m Member) Moment(k float64) float64 {
	mom, _ := m.momentSlope(k, false)
	return mom
}

// momentSlope returns M and, when asked, dM/dk at curvature k.
func (m Member) momentSlope(k float64, slope bool) (mom, dm float64) {
	if m.None() {
		return 0, 0
	}
	if k == 0 {
		return 0, m.Stiffness()
	}
	a := math.Abs(k)
	mom, dm = solidMoment(m.Outer, m.Law, a, slope)
	if m.Bore.Depth > 0 {
		bm, bd := solidMoment(m.Bore, m.Law, a, slope)
		mom, dm = mom-bm, dm-bd
	}
	return math.Copysign(mom, k), dm
}

// solidMoment returns M and dM/dk of a solid at curvature k > 0.
func solidMoment(s profiles.Solid, law profiles.Law, k float64, slope bool) (mom, dm float64) {
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
		g := law.StressMoment(k*y) / (k * k)
		mom += 2 * w * g
		if slope {
			dm += 2 * w * (law.Stress(k*y)*y*y - 2*g) / k
		}
	}
	if s.Shape == profiles.Rectangle {
		constant(s.Width-2*r, h)
		constant(2*r, h-r)
	}
	if r > 0 {
		cm, cd := roundedMoment(law, k, h-r, r, slope)
		mom, dm = mom+cm, dm+cd
	}
	return mom, dm
}

// roundedMoment returns what the rounded parts carry: width 2 sqrt(r² - u²) at
// height c + u, u from 0 to r, both sides of the centreline. With u = r sin a
// the integrand is smooth:
//
//	M = 2 ∫ s(k y) y 2 r² cos² a da,  y = c + r sin a
func roundedMoment(law profiles.Law, k, c, r float64, slope bool) (mom, dm float64) {
	var borders [12]float64
	b := append(borders[:0], 0)
	for _, e := range law.Knees() {
		if u := (e/k - c) / r; u > 0 && u < 1 {
			b = append(b, math.Asin(u))
		}
	}
	b = append(b, math.Pi/2)
	for i := range len(b) - 1 {
		// Far above a knee the strain may still grow a hundredfold within one
		// panel; split so that no panel spans more than a third of the corner.
		n := int(math.Ceil((b[i+1] - b[i]) / (math.Pi / 6)))
		for j := range n {
			lo := b[i] + (b[i+1]-b[i])*float64(j)/float64(n)
			hi := b[i] + (b[i+1]-b[i])*float64(j+1)/float64(n)
			mid, half := (lo+hi)/2, (hi-lo)/2
			for q := range order {
				sin, cos := math.Sincos(mid + half*gaussX[q])
				y := c + r*sin
				w := 4 * r * r * cos * cos * half * gaussW[q]
				mom += w * law.Stress(k*y) * y
				if slope {
					dm += w * law.Tangent(k*y) * y * y
				}
			}
		}
	}
	return mom, dm
}

// knees returns the curvatures at which the member's outer face and, for a
// tube, the inside of its flange pass a knee of the law.
func (m Member) knees() []float64 {
	if m.None() {
		return nil
	}
	var out []float64
	for _, e := range m.Law.Knees() {
		out = append(out, e/(m.Outer.Depth/2))
	}
	slices.Sort(out)
	return out
}

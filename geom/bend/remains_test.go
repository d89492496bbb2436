package bend

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/profiles"
)

// ring is a closed run of points of an outline.
type ring [][2]float64

// green returns area, first and second moment about y = 0 of a polygon, by Green's
// theorem on its edges.
func (r ring) green() (a, s, q float64) {
	for i, p := range r {
		n := r[(i+1)%len(r)]
		cross := p[0]*n[1] - n[0]*p[1]
		a += cross / 2
		s += cross * (p[1] + n[1]) / 6
		q += cross * (p[1]*p[1] + p[1]*n[1] + n[1]*n[1]) / 12
	}
	return a, s, q
}

// outlines returns the outer and the inner outline of a bent tube as points close
// to each other, each moved from where it lay on the straight tube: right half up,
// then mirrored. lambda is the stretch at a height.
func outlines(s profiles.Section, lambda func(y float64) float64) (outer, inner ring) {
	const n = 4000
	both := func(half ring) ring {
		out := append(ring{}, half...)
		for i := len(half) - 1; i >= 0; i-- {
			out = append(out, [2]float64{-half[i][0], half[i][1]})
		}
		return out
	}
	h := s.Depth / 2
	if s.Shape == profiles.Round {
		var a, b ring
		for i := range n + 1 {
			u := math.Pi * (float64(i)/n - 0.5)
			k := 1 / math.Sqrt(lambda(h*math.Sin(u)))
			a = append(a, [2]float64{h * math.Cos(u) * k, h * math.Sin(u)})
			b = append(b, [2]float64{a[i][0] - s.Wall*k*math.Cos(u), a[i][1] - s.Wall*k*math.Sin(u)})
		}
		return both(a), both(b)
	}
	// A rectangle between two heights: the face's half width shrinks, the corners
	// are quarter circles as they were.
	box := func(width, corner, bottom, top float64) ring {
		var half ring
		face := func(y float64) float64 { return width / 2 / math.Sqrt(lambda(y)) }
		for i := range n + 1 {
			u := math.Pi / 2 * float64(i) / n
			y := bottom + corner*(1-math.Cos(u))
			half = append(half, [2]float64{face(y) - corner*(1-math.Sin(u)), y})
		}
		for i := range n + 1 {
			y := bottom + corner + (top-bottom-2*corner)*float64(i)/n
			half = append(half, [2]float64{face(y), y})
		}
		for i := range n + 1 {
			u := math.Pi / 2 * float64(i) / n
			y := top - corner*(1-math.Sin(u))
			half = append(half, [2]float64{face(y) - corner*(1-math.Cos(u)), y})
		}
		return both(half)
	}
	bore := s.Bore()
	return box(s.Width, s.Corner, -h, h),
		box(bore.Width, bore.Corner, -h+s.Wall/math.Sqrt(lambda(-h)), h-s.Wall/math.Sqrt(lambda(h)))
}

// What is left agrees with Green's theorem on the deformed outlines, point by
// point, on random tubes and bends; 1e-5 is what the polygons' chords leave.
func TestRemainAgainstPolygons(t *testing.T) {
	law := profiles.Curve{Family: profiles.Aluminium, Youngs: 70e3, Proof: 250, Ultimate: 290, Exponent: 30}.Law()
	rapid.Check(t, func(t *rapid.T) {
		depth := rapid.Float64Range(10, 120).Draw(t, "depth")
		s := profiles.Section{Shape: profiles.Round, Width: depth, Depth: depth}
		if rapid.Bool().Draw(t, "rectangle") {
			s.Shape, s.Width = profiles.Rectangle, rapid.Float64Range(10, 120).Draw(t, "width")
		}
		least := min(s.Width, s.Depth)
		s.Wall = least * rapid.Float64Range(0.02, 0.3).Draw(t, "wall over depth")
		if s.Shape == profiles.Rectangle && rapid.Bool().Draw(t, "corners") {
			s.Corner = least * rapid.Float64Range(0.01, 0.35).Draw(t, "corner over depth")
		}
		r := depth * rapid.Float64Range(1.5, 40).Draw(t, "radius over depth")
		a, err := Deform(s, law, Member{}, 1/r)
		if err != nil {
			t.Fatal(err)
		}
		got := Remain(s, 1/r, a)
		outer, inner := outlines(s, func(y float64) float64 { return (r + y) / (r - a.NeutralAxis) })
		a1, s1, q1 := outer.green()
		a2, s2, q2 := inner.green()
		area := a1 - a2
		c := (s1 - s2) / area
		inertia := q1 - q2 - area*c*c
		for _, v := range []struct {
			name      string
			got, want float64
		}{
			{"area", got.Area, area}, {"inertia", got.Inertia, inertia},
			{"modulus", got.Modulus, inertia / max(depth/2-c, depth/2+c)},
			{"area share", got.AreaShare, area / s.Area()}, {"inertia share", got.InertiaShare, inertia / s.Inertia()},
			{"modulus share", got.ModulusShare, got.Modulus / (s.Inertia() / depth * 2)},
		} {
			if !(math.Abs(v.got-v.want) <= 1e-5*v.want) {
				t.Errorf("%s of %v on R %g: %g, polygons say %g", v.name, s, r, v.got, v.want)
			}
		}
	})
}

// Nearly straight, everything is left.
func TestRemainStraight(t *testing.T) {
	law := profiles.Curve{Family: profiles.Aluminium, Youngs: 70e3, Proof: 250, Ultimate: 290, Exponent: 30}.Law()
	for _, s := range []profiles.Section{
		{Width: 40, Depth: 40, Wall: 3}, {Width: 40, Depth: 60, Wall: 3, Corner: 6}, {Shape: profiles.Round, Width: 30, Depth: 30, Wall: 2},
	} {
		a, err := Deform(s, law, Member{}, 1e-9)
		if err != nil {
			t.Fatal(err)
		}
		got := Remain(s, 1e-9, a)
		for _, share := range []float64{got.AreaShare, got.InertiaShare, got.ModulusShare} {
			if math.Abs(share-1) > 1e-6 {
				t.Errorf("%v: %+v", s, got)
			}
		}
	}
}

// A bend so tight that the inner wall would fill the bore leaves no less than the
// metal there is.
func TestRemainWithoutBore(t *testing.T) {
	s := profiles.Section{Width: 20, Depth: 20, Wall: 6}
	a := After{InnerWall: 17, OuterWall: 5, NeutralAxis: 5}
	got := Remain(s, 1/12.0, a)
	// Of the outer outline alone, width 20 sqrt((12-5)/(12+y)): ∫ = 40 sqrt(7) (sqrt(22)-sqrt(2)).
	if want := 40 * math.Sqrt(7) * (math.Sqrt(22) - math.Sqrt(2)); math.Abs(got.Area-want) > 1e-4*want {
		t.Errorf("area %g mm², want %g", got.Area, want)
	}
}

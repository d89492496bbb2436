package bend

import (
	"math"
	"testing"

	"overbend/geom"
	"overbend/profiles"
)

// The outlines hold what the integrals say is left, summed here by Green's theorem
// over the polygons, and reach from face to face with the faces' own widths.
func TestOutlines(t *testing.T) {
	law := profiles.Curve{Family: profiles.Aluminium, Youngs: 70e3, Proof: 250, Ultimate: 290, Exponent: 30}.Law()
	around := func(p geom.Path) (r ring) {
		for _, v := range p.Vertices {
			r = append(r, [2]float64{v.X, v.Y})
		}
		return r
	}
	for _, s := range []profiles.Section{
		{Shape: profiles.Rectangle, Width: 40, Depth: 40, Wall: 3},
		{Shape: profiles.Rectangle, Width: 25, Depth: 60, Wall: 4, Corner: 6},
		{Shape: profiles.Rectangle, Width: 80, Depth: 20, Wall: 2, Corner: 1},
		{Shape: profiles.Round, Width: 38, Depth: 38, Wall: 2.5},
	} {
		for _, radius := range []float64{80, 400, 5000} {
			a, err := Deform(s, law, Member{}, 1/radius)
			if err != nil {
				t.Fatal(err)
			}
			want := Remain(s, 1/radius, a)
			outer, bore := Outlines(s, a)
			a1, s1, q1 := around(outer).green()
			a2, s2, q2 := around(bore).green()
			area, inertia := a1-a2, q1-q2-(s1-s2)*(s1-s2)/(a1-a2)
			// 48 chords of half a turn leave a circle by 0.1 % of its area at most.
			if math.Abs(area/want.Area-1) > 3e-3 || math.Abs(inertia/want.Inertia-1) > 6e-3 {
				t.Errorf("%v at %v: area %v and inertia %v, want %v and %v", s, radius, area, inertia, want.Area, want.Inertia)
			}
			box := outer.Bounds()
			if math.Abs(box.Height()-s.Depth) > 1e-9 {
				t.Errorf("%v: %v deep", s, box.Height())
			}
			if s.Shape == profiles.Rectangle {
				in := bore.Bounds()
				if math.Abs(box.Max.Y-in.Max.Y-a.OuterWall) > 1e-9 || math.Abs(in.Min.Y-box.Min.Y-a.InnerWall) > 1e-9 {
					t.Errorf("%v: walls are not those of %+v", s, a)
				}
				top, bottom := 0.0, 0.0
				for _, v := range outer.Vertices {
					if v.Y > box.Max.Y-1e-9 {
						top = max(top, 2*(v.X+s.Corner))
					}
					if v.Y < box.Min.Y+1e-9 {
						bottom = max(bottom, 2*(v.X+s.Corner))
					}
				}
				if math.Abs(top-a.OuterWidth) > 1e-6 || math.Abs(bottom-a.InnerWidth) > 1e-6 {
					t.Errorf("%v: %v and %v wide, want %v and %v", s, top, bottom, a.OuterWidth, a.InnerWidth)
				}
			}
		}
		// Not bent: the tube itself.
		outer, bore := Outlines(s, After{})
		if math.Abs((outer.Area()-bore.Area())/s.Area()-1) > 3e-3 {
			t.Errorf("%v unbent: %v, want %v", s, outer.Area()-bore.Area(), s.Area())
		}
	}
}

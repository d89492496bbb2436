package tooling

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// The points of a part agree with a walk along it in complex numbers: out along leg
// 1, round the arc, along leg 2, with the faces at half a depth to either side.
func TestBentPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := fixtureSpec(t).Bent
		b, err := NewBent(s)
		if err != nil {
			t.Fatal(err)
		}
		h := s.Depth / 2
		tan := [2]float64{math.Tan(float64(s.Cuts[0])), math.Tan(float64(s.Cuts[1]))}
		// End 1's middle lies half a depth above its inside corner, and further out by
		// what the cut takes.
		end1 := complex(-h*tan[0], h)
		bend1 := end1 + complex(s.Legs[0], 0)
		centre := bend1 - complex(0, s.Radius)
		turn := cmplx.Exp(complex(0, -float64(s.Angle)))
		bend2 := centre + complex(0, s.Radius)*turn
		end2 := bend2 + complex(s.Legs[1], 0)*turn
		want := []complex128{
			0, end1 + complex(-h*tan[0], h), bend1 - complex(0, h), bend1 + complex(0, h),
			bend2 - complex(0, h)*turn, bend2 + complex(0, h)*turn,
			end2 + complex(-h*tan[1], -h)*turn, end2 + complex(h*tan[1], h)*turn, centre,
		}
		names := []string{End1Inside, End1Outside, Bend1Inside, Bend1Outside, Bend2Inside, Bend2Outside, End2Inside, End2Outside, ArcCentre}
		if len(b.Points) != len(want) {
			t.Fatalf("%d points", len(b.Points))
		}
		for i, q := range b.Points {
			if q.Name != names[i] || cmplx.Abs(complex(q.At.X, q.At.Y)-want[i]) > 1e-6 {
				t.Errorf("%s at %v, want %s at %v", q.Name, q.At, names[i], want[i])
			}
		}
		if b.Points[0].At != (geom.Point{}) {
			t.Errorf("the datum is at %v", b.Points[0].At)
		}
		for _, q := range b.Points[:8] {
			if d := b.Outline.Distance(q.At); d > 1e-6 {
				t.Errorf("%s lies %g mm off the outline", q.Name, d)
			}
		}
		if l, want := b.Centreline.Length(), s.Legs[0]+s.Legs[1]+s.Radius*float64(s.Angle); math.Abs(l-want) > 1e-6 {
			t.Errorf("centreline %g mm, want %g", l, want)
		}
	})
}

// A cut that reaches into the bend is refused.
func TestBentRefuses(t *testing.T) {
	s := BentSpec{Radius: 100, Depth: 40, Angle: 1, Legs: [2]float64{19, 100}, Cuts: [2]geom.Angle{45 * geom.Degree}}
	if _, err := NewBent(s); err == nil {
		t.Error("a cut into the bend was taken")
	}
	if _, err := NewFixture(FixtureSpec{Bent: s, Shape: s.AsDrawn(), Pin: 10}); err == nil {
		t.Error("a fixture for a cut into the bend")
	}
}

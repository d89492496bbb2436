package dxf

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// TestMeetCircles compares with the closed form for two circles of centres c
// apart: their lines are c - r1 - r2 apart, or |r1 - r2| - c, or they cross.
func TestMeetCircles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r1 := rapid.Float64Range(1, 500).Draw(t, "r1")
		r2 := rapid.Float64Range(0.5, 500).Draw(t, "r2")
		gap := rapid.SampledFrom([]float64{-5, -1, -0.1, -0.001, 0.001, 0.1, 1, 5}).Draw(t, "gap")
		apart := r1 + r2 + gap
		if rapid.Bool().Draw(t, "inside") {
			r1 = r2 + 20
			apart = 20 - gap
		}
		apart = math.Abs(apart)
		at := geom.Polar(apart, geom.Angle(rapid.Float64Range(0, 6.3).Draw(t, "turn")))
		a := contourOf(halfCircles(geom.Circle{Radius: r1}))
		b := contourOf(halfCircles(geom.Circle{Centre: at, Radius: r2}))
		between := max(apart-r1-r2, math.Abs(r1-r2)-apart, 0)
		if want := between < touching; a.touches(b) != want {
			t.Errorf("circles %g and %g, centres %g apart: touch is %v", r1, r2, apart, !want)
		}
	})
}

func contourOf(p geom.Path) contour { return contour{path: p, segments: p.Segments(), box: p.Bounds()} }

// TestHalves compares with the middle that geom finds by angles.
func TestHalves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := geom.Segment{
			From:  geom.Pt(rapid.Float64Range(-500, 500).Draw(t, "x"), rapid.Float64Range(-500, 500).Draw(t, "y")),
			To:    geom.Pt(1000, 3),
			Bulge: rapid.Float64Range(-20, 20).Draw(t, "bulge"),
		}
		if s.Bulge != 0 && s.Radius() > largest {
			t.Skip("the lint refuses it")
		}
		a, b := halves(s)
		mid, _ := s.At(0.5)
		if a.To.Dist(mid) > 1e-7 || a.To != b.From {
			t.Errorf("middle %v, want %v", a.To, mid)
		}
		if d := math.Abs(a.Length() + b.Length() - s.Length()); d > 1e-9*s.Length() {
			t.Errorf("halves are %g longer", d)
		}
		if math.Abs(a.Bulge) > 1 {
			t.Errorf("bulge %g of half", a.Bulge)
		}
	})
}

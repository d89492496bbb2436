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
		a := contourOf(geom.Circle{Radius: r1}.Path())
		b := contourOf(geom.Circle{Centre: at, Radius: r2}.Path())
		between := max(apart-r1-r2, math.Abs(r1-r2)-apart, 0)
		if want := between < touching; a.touches(b) != want {
			t.Errorf("circles %g and %g, centres %g apart: touch is %v", r1, r2, apart, !want)
		}
	})
}

func contourOf(p geom.Path) contour { return contour{path: p, segments: p.Segments(), box: p.Bounds()} }

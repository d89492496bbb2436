package plan

import (
	"testing"

	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// Let go, the pressed arc is the drawing's at every end of the range; its length
// is kept, so the angles are as the curvatures.
func TestSpringback(t *testing.T) {
	j := jobOf(t)
	m := catalogued(j)
	s, said, err := springback(j, m)
	if err != nil {
		t.Fatal(err)
	}
	if len(said) != 0 {
		t.Errorf("said %v", codes(said))
	}
	for _, o := range []struct {
		name string
		*Overbend
		proof float64
	}{{"low", s.Low, m.Spread.Low}, {"nominal", &s.Nominal, m.Spread.Nominal}, {"high", s.High, m.Spread.High}} {
		if o.Overbend == nil {
			t.Fatalf("%s: none", o.name)
		}
		about(t, o.name+": proof", o.Proof, o.proof, 1e-12)
		k := o.Pressed.Curvature()
		r := bend.Release(hollow(j, m.Curve.At(o.proof).Law()), k)
		about(t, o.name+": released", r.Final, 1/420., 1e-9)
		about(t, o.name+": ratio", o.Ratio, r.Final/k, 1e-9)
		about(t, o.name+": moment", o.Moment, r.Moment, 1e-9)
		about(t, o.name+": length", o.Pressed.Length(), j.Bend.Length(), 1e-9)
		about(t, o.name+": block", o.Block, o.Pressed.Radius-20, 1e-12)
		// What the nominal block leaves of this metal.
		kf := bend.Release(hollow(j, m.Curve.At(o.proof).Law()), s.Nominal.Pressed.Curvature()).Final
		about(t, o.name+": final radius", o.Final.Radius, 1/kf, 1e-9)
		about(t, o.name+": final length", o.Final.Length(), j.Bend.Length(), 1e-9)
	}
	if !(s.Low.Pressed.Angle < s.Nominal.Pressed.Angle && s.Nominal.Pressed.Angle < s.High.Pressed.Angle) {
		t.Error("stronger metal is not pressed further")
	}
	if s.most() != s.High.Pressed.Angle {
		t.Errorf("most: %v, want %v", s.most(), s.High.Pressed.Angle)
	}
	s.Low, s.High = s.High, s.Low
	if s.most() != s.Low.Pressed.Angle {
		t.Error("most leaves the low end out")
	}
	s.Low, s.High = nil, nil
	if s.most() != s.Nominal.Pressed.Angle {
		t.Error("most without a range is not the nominal angle")
	}
}

// Softer unloading springs back more.
func TestSpringbackUnloads(t *testing.T) {
	j := jobOf(t)
	full, _, _ := springback(j, catalogued(j))
	j.Material.Unloading = 0.95
	soft, _, err := springback(j, catalogued(j))
	if err != nil {
		t.Fatal(err)
	}
	if !(soft.Nominal.Block < full.Nominal.Block) {
		t.Errorf("block %g mm at 0.95 of E, %g mm at E", soft.Nominal.Block, full.Nominal.Block)
	}
}

// Less than half of the curvature staying is said; more is not.
func TestMostlySpringback(t *testing.T) {
	for ratio, level := range map[float64]words.Level{0.499: words.Warning, 0.501: ""} {
		j := jobOf(t)
		m := catalogued(j)
		m.Ratio, m.Ranged = ratio, false
		s, said, err := springback(j, m)
		if err != nil {
			t.Fatal(err)
		}
		has(t, said, words.MostlySpringback, level, words.Design, "springback")
		about(t, "ratio", s.Nominal.Ratio, ratio, 1e-12)
		about(t, "pressed radius", s.Nominal.Pressed.Radius, 420*ratio, 1e-12)
		about(t, "pressed angle", float64(s.Nominal.Pressed.Angle), float64(33*geom.Degree)/ratio, 1e-12)
		if s.Low != nil || s.High != nil {
			t.Error("a range that the metal does not have")
		}
	}
}

package bend

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/profiles"
)

// TestFamily: a law of the family is the law, below, within and past its tables,
// and one of another exponent or kind is left as it is.
func TestFamily(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := profiles.RambergOsgood{
			Youngs:   rapid.SampledFrom([]float64{70000, 200000}).Draw(t, "young"),
			Proof:    rapid.Float64Range(60, 600).Draw(t, "proof"),
			Exponent: rapid.Float64Range(2, 60).Draw(t, "exponent"),
		}
		top := rapid.Float64Range(0.002, 0.2).Draw(t, "top")
		f := NewFamily(of.Exponent, FamilyStrain(of, top))
		law := of
		law.Proof *= rapid.Float64Range(0.5, 2).Draw(t, "stronger")
		got := f.Law(law)
		if got == profiles.Law(law) {
			t.Fatal("not tabled")
		}
		if r := got.(tabled); law.Proof == of.Proof && math.Abs(r.top()/top-1) > 1e-9 {
			t.Fatalf("tables up to %g, want %g", r.top(), top)
		}
		e := top * math.Exp(rapid.Float64Range(-9, 0.5).Draw(t, "ln share"))
		for name, v := range map[string][2]float64{
			"stress": {got.Stress(-e), law.Stress(-e)}, "moment": {got.StressMoment(-e), law.StressMoment(e)},
			"work": {got.Work(e), law.Work(e)}, "tangent": {got.Tangent(e), law.Tangent(e)},
			"yield": {got.YieldStrain(), law.YieldStrain()}, "knee": {got.Knees()[2], law.Knees()[2]},
		} {
			if math.Abs(v[0]/v[1]-1) > 2e-8 {
				t.Fatalf("%s of %+v at %g: %.12g, want %.12g", name, law, e, v[0], v[1])
			}
		}
		if s, m := got.StressWithMoment(e); s != got.Stress(e) || m != got.StressMoment(e) {
			t.Fatalf("together %g and %g, alone %g and %g", s, m, got.Stress(e), got.StressMoment(e))
		}
		other := law
		other.Exponent++
		for _, l := range []profiles.Law{other, epp(70000, 100)} {
			if f.Law(l) != l {
				t.Fatalf("%+v is of the family", l)
			}
		}
	})
	straight := profiles.RambergOsgood{Youngs: 70000, Proof: 100, Exponent: 1}
	if f := NewFamily(1, 0.1); f.Law(straight) != profiles.Law(straight) {
		t.Error("an exponent of 1 has a family")
	}
}

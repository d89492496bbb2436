package plan

import (
	"math"
	"testing"

	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/profiles"
)

// EN 1999-1-1 Table 3.2b has 250 and 290 MPa for 6082-T6 profiles to 5 mm, and
// the catalogue a typical strength of 1.15 times that and a variation of 8 %.
func TestCatalogued(t *testing.T) {
	for _, c := range []struct {
		name   string
		edits  []string
		want   profiles.Spread
		ranged bool
		origin words.Code
	}{
		{"catalogue", nil, spread(250, 287.5, 287.5*1.16), true, words.FromMinimum},
		{"certificate", []string{`allowance.proof = "300 MPa"`}, spread(288, 300, 312), true, words.FromCertificate},
		{"inline", ownMetal(200), spread(200, 200, 200), false, words.FromJobFile},
	} {
		j := jobOf(t, c.edits...)
		m, said, err := metal(j, stripOf(j))
		if err != nil {
			t.Fatal(err)
		}
		about(t, c.name+": low", m.Spread.Low, c.want.Low, 1e-12)
		about(t, c.name+": nominal", m.Spread.Nominal, c.want.Nominal, 1e-12)
		about(t, c.name+": high", m.Spread.High, c.want.High, 1e-12)
		about(t, c.name+": curve", m.Curve.Proof, c.want.Nominal, 1e-12)
		if m.Ranged != c.ranged || m.Origin.Code != c.origin || m.Ratio != 0 || m.Trial != nil || len(said) != 0 {
			t.Errorf("%s: got ranged %v, %s, ratio %g, trial %v, %v", c.name, m.Ranged, m.Origin.Code, m.Ratio, m.Trial, codes(said))
		}
	}
	j := jobOf(t)
	m, _, _ := metal(j, stripOf(j))
	about(t, "times the minimum", figure(t, m.Origin, "times"), 1.15, 0)
	if m.Origin.Figures["source"] == "" {
		t.Error("no source of the range")
	}
}

// A certificate that gives the ultimate stress gives the exponent too, by EN
// 1999-1-1 Annex E: n = ln(0.002/eu)/ln(fo/fu), eu = 0.30 - 0.22 fo/400 below 400
// MPa, from memory.
func TestCertificateWithUltimate(t *testing.T) {
	j := jobOf(t, `allowance.proof = "300 MPa"`)
	plain, _, _ := metal(j, stripOf(j))
	j = jobOf(t, `allowance.proof = "300 MPa"`, `allowance.ultimate = "330 MPa"`)
	m, _, err := metal(j, stripOf(j))
	if err != nil {
		t.Fatal(err)
	}
	want := math.Log(0.002/(0.30-0.22*300/400)) / math.Log(300./330)
	about(t, "exponent", m.Curve.Exponent, want, 1e-9)
	about(t, "proof", m.Curve.Proof, 300, 1e-12)
	if math.Abs(plain.Curve.Exponent-want) < 1 {
		t.Errorf("without an ultimate stress the exponent is %g, as good as with one", plain.Curve.Exponent)
	}
	if c := m.with(200, 9); c.Proof != 200 || c.Exponent != 9 || c.Youngs != m.Curve.Youngs {
		t.Errorf("with(200, 9): got %+v", c)
	}
}

// A stated ratio implies the metal that springs back so; extra degrees are the
// ratio of the angles.
func TestStated(t *testing.T) {
	for _, c := range []struct {
		name  string
		edits []string
		want  float64
	}{
		{"ratio", []string{`allowance.mode = "ratio"`, "allowance.ratio = 0.9"}, 0.9},
		{"degrees", []string{`allowance.mode = "degrees"`, `allowance.degrees = "3 deg"`}, 33. / 36},
	} {
		j := jobOf(t, c.edits...)
		m, said, err := metal(j, stripOf(j))
		if err != nil {
			t.Fatal(err)
		}
		about(t, c.name, m.Ratio, c.want, 1e-12)
		k := 1 / 420. / c.want
		about(t, c.name+": final curvature of the implied metal", bend.Release(hollow(j, m.Curve.Law()), k).Final, 1/420., 1e-6)
		if m.Ranged || m.Origin.Code != words.FromAllowance || len(said) != 0 || m.Spread != spread(m.Curve.Proof, m.Curve.Proof, m.Curve.Proof) {
			t.Errorf("%s: ranged %v, %s, %v, %+v of %g MPa", c.name, m.Ranged, m.Origin.Code, codes(said), m.Spread, m.Curve.Proof)
		}
	}
}

// Where no metal of the kind springs back so, the catalogue's is kept and that
// is said.
func TestNoSuchRatio(t *testing.T) {
	j := jobOf(t, `allowance.mode = "ratio"`, "allowance.ratio = 0.9999")
	m, said, err := metal(j, stripOf(j))
	if err != nil {
		t.Fatal(err)
	}
	has(t, said, words.NoSuchRatio, words.Warning, words.Design, "allowance")
	about(t, "proof", m.Curve.Proof, 287.5, 1e-12)
	about(t, "spread", m.Spread.High, 287.5, 1e-12)
	if m.Ratio != 0.9999 || m.Ranged || m.Origin.Code != words.FromMinimum {
		t.Errorf("ratio %g, ranged %v, %s", m.Ratio, m.Ranged, m.Origin.Code)
	}
}

// A pressed radius must be more than half the depth: 20/420 of the drawing's.
func TestPressedTooTight(t *testing.T) {
	for ratio, want := range map[float64]bool{20./420 - 1e-6: true, 20./420 + 1e-6: false} {
		j := jobOf(t)
		m := catalogued(j)
		if _, _, err := stated(j, m, ratio); (err != nil) != want {
			t.Errorf("ratio %g: got error %v", ratio, err)
		}
	}
}

// What trials say of this very piece beats a stated ratio.
func TestTrialsBeatMode(t *testing.T) {
	travel, melted := made(t, 300)
	j := jobOf(t, `allowance.mode = "ratio"`, "allowance.ratio = 0.9", `press.supports = "400 mm"`, trialText(400, travel, melted))
	m, said, err := metal(j, stripOf(j))
	if err != nil {
		t.Fatal(err)
	}
	has(t, said, words.TrialsBeatMode, words.Note, words.Design, "allowance")
	if a := find(said, words.TrialsBeatMode); a != nil && a.Figures["mode"] != "ratio" {
		t.Errorf("mode %v", a.Figures["mode"])
	}
	if m.Trial == nil || m.Ratio != 0 {
		t.Errorf("trial %v, ratio %g", m.Trial, m.Ratio)
	}
	about(t, "proof", m.Curve.Proof, 300, 1e-3)
}

// made returns the travel to 30 degrees, and those, of a press on which the base
// job's metal has a proof stress in MPa, on a 400 mm block and supports 400 mm
// apart.
func made(t testing.TB, proof float64) (float64, geom.Angle) {
	t.Helper()
	j := jobOf(t)
	m := catalogued(j)
	form, err := bend.NewForm(stack(j, stripOf(j), m.Curve.At(proof).Law()), 400)
	if err != nil {
		t.Fatal(err)
	}
	model, err := form.On(bend.Rig{Supports: 400, Roller: j.Press.Roller})
	if err != nil {
		t.Fatal(err)
	}
	s, err := model.ToMelted(30 * geom.Degree)
	if err != nil {
		t.Fatal(err)
	}
	return s.Travel, s.Melted
}

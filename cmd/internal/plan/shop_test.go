package plan

import (
	"math"
	"os"
	"strings"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
	"overbend/profiles"
)

// tried is the example that has trials, of a kept metal.
func tried(t *testing.T, lot string, metal shop.Metal) job.Job {
	t.Helper()
	const path = "../../../testdata/jobs/davit-arm-tried.toml"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	s := shop.Nothing()
	s.Metals = []shop.Metal{metal}
	j, err := job.ParseIn(s, path, []byte(strings.NewReplacer(
		`"6082-T6"`, "\"bar\"\nlot = \""+lot+"\"", "proof = \"268 N/mm2\"", "").Replace(string(text))))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func planned(t *testing.T, j job.Job) *Plan {
	t.Helper()
	p, err := New(j)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What the shop kept of a metal, and what the job's own trials say of it: with the
// same lot they count together, unless it is the same trials; of another delivery
// only the job's own do.
func TestKeptAndTried(t *testing.T) {
	joins := func(p *Plan) bool {
		for _, a := range p.Advice {
			if a.Code == words.TrialsJoined {
				return true
			}
		}
		return false
	}
	lesson := shop.Lesson{Proof: 262, ProofError: 4}
	metal := shop.Metal{Name: "bar", Base: "6082-T6", Lesson: shop.Join([]shop.Lesson{lesson}), Trials: []shop.Part{{Job: "first", Lesson: lesson, Of: []string{"1"}}}}

	other := planned(t, tried(t, "new", metal))
	fit := other.Metal.Trial.Fit
	if other.Metal.Spread.Nominal != fit.Proof || joins(other) {
		t.Errorf("another lot: %+v", other.Metal.Spread)
	}
	same := planned(t, tried(t, "same", metal))
	// By hand: weights 1/(e² + (2 %)²) of what was kept and of the fit.
	w := func(l shop.Lesson) float64 {
		return 1 / (l.ProofError*l.ProofError + 0.0004*l.Proof*l.Proof)
	}
	own := same.Metal.Trial.Lesson()
	want := (w(lesson)*262 + w(own)*own.Proof) / (w(lesson) + w(own))
	band := 2 * math.Hypot(1/math.Sqrt(w(lesson)+w(own)), 0.02*want)
	if s := same.Metal.Spread; math.Abs(s.Nominal-want) > 1e-9 || math.Abs(s.High-want-band) > 1e-9 || math.Abs(want-s.Low-band) > 1e-9 || !joins(same) || same.Metal.Curve.Proof != s.Nominal {
		t.Errorf("same lot: %+v, want %v +- %v", s, want, band)
	}
	// Kept of these very trials, they count once.
	metal.Trials[0].Of = tried(t, "same", metal).Digests()[:1]
	once := planned(t, tried(t, "same", metal))
	if s := once.Metal.Spread; s.Nominal != once.Metal.Trial.Proof || joins(once) {
		t.Errorf("once: %+v", s)
	}
}

// Without trials of its own a job has the kept metal's proof stress and exponent, and
// all else of the metal under it; a certificate beats it.
func TestKept(t *testing.T) {
	metal := shop.Metal{Name: "bar", Base: "6082-T6", Lesson: shop.Lesson{Proof: 300, ProofError: 8, Exponent: 22}}
	j := tried(t, "same", metal)
	j.Trials = nil
	m := planned(t, j).Metal
	base, err := profiles.FindMaterial("6082-T6", 3, profiles.Rectangle)
	if err != nil {
		t.Fatal(err)
	}
	want := base.Curve(300, 0)
	want.Exponent = 22
	if m.Curve != want || m.Spread != (profiles.Spread{Low: 280, Nominal: 300, High: 320}) || !m.Ranged || m.Origin.Code != words.FromShopSameLot {
		t.Errorf("%+v", m)
	}
	j.Learned.Exponent = 0
	if m := planned(t, j).Metal; m.Curve != base.Curve(300, 0) {
		t.Errorf("%+v", m.Curve)
	}
	j.Lot = shop.NewLot
	if m := planned(t, j).Metal; m.Spread.Low != base.Proof || m.Spread.High < 356 || m.Origin.Code != words.FromShopOtherLot {
		t.Errorf("%+v", m)
	}
	j.Allowance.Proof = 268
	if m := planned(t, j).Metal; m.Spread != profiles.Certified(268) {
		t.Errorf("%+v", m)
	}
}

// Plate and packing come from the shop's stock, whatever its order.
func TestInStock(t *testing.T) {
	j := jobOf(t, "block.plate =")
	j.Stock = shop.Stock{Plates: []float64{15, 8}, Packing: []float64{2, 0.5}}
	p := planned(t, j)
	if p.Tools.Plate != 8 {
		t.Errorf("plate %v", p.Tools.Plate)
	}
	for _, s := range p.Tools.Block.Packing.Sheets {
		if s != 2 && s != 0.5 {
			t.Errorf("packing of %v", p.Tools.Block.Packing.Sheets)
		}
	}
	if got := sheets(j); got[0] != 0.5 || j.Stock.Packing[0] != 2 {
		t.Errorf("%v of %v", got, j.Stock.Packing)
	}
	j.Stock.Plates = []float64{15}
	if p := planned(t, j); p.Tools.Plate != 15 {
		t.Errorf("plate %v", p.Tools.Plate)
	}
}

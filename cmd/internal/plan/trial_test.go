package plan

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// trialText is a trial on a block of a radius in mm, pushed to a travel in mm.
func trialText(block, travel float64, melted geom.Angle) string {
	return fmt.Sprintf("[[trial]]\nblock = \"%g mm\"\ntravel = \"%.9g mm\"\nmelted = \"%.9g deg\"\n", block, travel, float64(melted/geom.Degree))
}

// A fit is not believed at its bounds, beyond a factor 2 either way of the
// catalogue, with a reading three errors off, or with a scatter of twice what
// the errors explain. Each limit from both sides, on made-up fits.
func TestSuspect(t *testing.T) {
	// fit has residuals that are so many of their errors off.
	fit := func(proof float64, offs ...float64) bend.Fit {
		f := bend.Fit{Proof: proof}
		for i, off := range offs {
			f.Residuals = append(f.Residuals, bend.Residual{Trial: i, Measured: off * 0.01, Error: 0.01})
		}
		return f
	}
	limited := fit(300, 0)
	limited.AtLimit = true
	for _, c := range []struct {
		name string
		fit  bend.Fit
		want Suspicion
	}{
		{"as the catalogue", fit(300, 0), Trusted},
		{"at its limit", limited, AtLimit},
		{"hard", fit(600.1, 0), TooHard}, {"hardly hard", fit(599.9, 0), Trusted},
		{"soft", fit(149.9, 0), TooSoft}, {"hardly soft", fit(150.1, 0), Trusted},
		{"one off", fit(300, 3.01, 0, 0, 0), OneOff}, {"one nearly off", fit(300, 2.99, 0, 0, 0), Trusted},
		{"one off below", fit(300, -3.01, 0, 0, 0), OneOff}, {"one nearly off below", fit(300, -2.99, 0, 0, 0), Trusted},
		// Of three readings two are free: 2² + 2² = 8 = 2 · 2².
		{"scattered", fit(300, 2.01, -2.01, 0), Contradictory}, {"nearly scattered", fit(300, 1.99, -1.99, 0), Trusted},
	} {
		if got := suspect(c.fit, 300); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
	if got := suspect(fit(300, 3.05, 0, 0, 0), 300); got != OneOff {
		t.Errorf("got %q", got)
	}
	// What was set counts as what was read: 3.01 and an error of setting.
	f := fit(300, 3.01, 0, 0, 0)
	f.Residuals[0].Set = 0.002
	if got := suspect(f, 300); got != Trusted {
		t.Errorf("with an error of setting: %q", got)
	}
}

// Each suspicion is said and stops the job, with the worst reading to look at.
func TestVerdict(t *testing.T) {
	j := jobOf(t, `press.supports = "400 mm"`, trialText(400, 40, 30*geom.Degree), "[[trial]]\nblock = \"400 mm\"\nloaded = \"36 deg\"\nmelted = \"31 deg\"\n")
	residuals := []bend.Residual{
		{Trial: 0, Reading: bend.ReadMelted, Measured: 0.5, Predicted: 0.51, Error: 0.01},
		{Trial: 1, Reading: bend.ReadMelted, Measured: 0.54, Predicted: 0.50, Error: 0.01},
	}
	for s, code := range map[Suspicion]words.Code{
		AtLimit: words.TrialsAtLimit, TooSoft: words.TrialsTooSoft, TooHard: words.TrialsTooHard, OneOff: words.TrialOneOff, Contradictory: words.TrialsDisagree,
	} {
		tr := Trial{Fit: bend.Fit{Proof: 310, ProofError: 7, Residuals: residuals}, Catalogue: 287.5, Suspect: s}
		said := tr.verdict(j, "2 trials")
		has(t, said, code, words.Stop, words.Trial, "trial")
		has(t, said, words.TrialsUsed, words.Note, words.Trial, "trial")
		a := find(said, code)
		about(t, "off", figure(t, a.Reason, "off"), 4, 1e-9)
		look := a.Figures["look"].(words.Reason)
		if look.Code != words.LookAtLoaded || look.Figures["trial"] != 2 {
			t.Errorf("%s: look %s at trial %v", s, look.Code, look.Figures["trial"])
		}
		about(t, "measured", figure(t, look, "measured"), quantity.Degrees(0.54).V, 1e-9)
		about(t, "predicted", figure(t, look, "predicted"), quantity.Degrees(0.50).V, 1e-9)
	}
	trusted := Trial{Fit: bend.Fit{Proof: 310, ProofError: 7, Residuals: residuals}, Catalogue: 287.5}
	if said := trusted.verdict(j, "2 trials"); len(said) != 1 {
		t.Errorf("trusted: said %v", codes(said))
	}
	if r := look(j, residuals[0]); r.Code != words.LookAtTravel || r.Figures["trial"] != 1 || figure(t, r, "set") != 40 {
		t.Errorf("look at the first: %+v", r)
	}
	if r := look(j, bend.Residual{Reading: bend.ReadRise, Measured: 12.5}); figure(t, r, "measured") != 12.5 {
		t.Errorf("a rise is not in mm: %+v", r)
	}
}

// An angle finder shows what is left of a half turn: 147 for 33 degrees, to 5
// degrees; not where the bend itself could be meant.
func TestAngleFinder(t *testing.T) {
	for _, c := range []struct {
		angle, read float64
		want        words.Level
	}{
		{33, 147, words.Warning}, {33, 142.1, words.Warning}, {33, 151.9, words.Warning},
		{33, 141.9, ""}, {33, 152.1, ""}, {33, 33, ""},
		// 90 less 10 either way may be the bend: four times 5 degrees.
		{85, 95, ""}, {80, 100.1, words.Warning}, {80, 99.9, ""}, {100, 79.9, words.Warning}, {100, 80.1, ""},
	} {
		j := jobOf(t, fmt.Sprintf(`bend.angle = "%g deg"`, c.angle))
		j.Trials = []job.Trial{{Melted: geom.Angle(c.read) * geom.Degree}}
		tr := Trial{Fit: bend.Fit{Residuals: []bend.Residual{{Error: 1}}}}
		said := tr.verdict(j, "1 trial")
		has(t, said, words.AngleFinder, c.want, words.Trial, "trial")
	}
}

// Trials made by the model of a metal teach that metal, and the range is two
// standard deviations either way.
func TestLearn(t *testing.T) {
	for _, proof := range []float64{230, 300, 350} {
		travel, melted := made(t, proof)
		j := jobOf(t, `press.supports = "400 mm"`, trialText(400, travel, melted))
		m, said, err := learn(j, catalogued(j), stripOf(j))
		if err != nil {
			t.Fatal(err)
		}
		about(t, "proof", m.Spread.Nominal, proof, 1e-3)
		about(t, "curve", m.Curve.Proof, m.Spread.Nominal, 1e-12)
		about(t, "high", m.Spread.High-m.Spread.Nominal, 2*m.Trial.ProofError, 1e-9)
		about(t, "low", m.Spread.Nominal-m.Spread.Low, 2*m.Trial.ProofError, 1e-9)
		about(t, "catalogue", m.Trial.Catalogue, 287.5, 1e-12)
		if !m.Ranged || m.Origin.Code != words.FromTrials || m.Trial.Suspect != Trusted || m.Trial.Rig.Supports != 400 || !(m.Trial.ProofError > 0) {
			t.Errorf("%g MPa: ranged %v, %s, %q, %+v, ± %g", proof, m.Ranged, m.Origin.Code, m.Trial.Suspect, m.Trial.Rig, m.Trial.ProofError)
		}
		if len(said) != 1 {
			t.Errorf("said %v", codes(said))
		}
	}
	// However unsure, the range's low end is a quarter of what was found.
	travel, _ := made(t, 300)
	unsure := jobOf(t, `press.supports = "400 mm"`, fmt.Sprintf("[[trial]]\nblock = \"400 mm\"\ntravel = \"%g mm\"\nchord = \"150 mm\"\nrise = \"6.5 mm\"\n", travel))
	u, _, err := learn(unsure, catalogued(unsure), stripOf(unsure))
	if err != nil {
		t.Fatal(err)
	}
	if u.Trial.ProofError < 0.4*u.Spread.Nominal {
		t.Fatalf("a rise leaves ± %g MPa of %g", u.Trial.ProofError, u.Spread.Nominal)
	}
	about(t, "low end", u.Spread.Low, u.Spread.Nominal/4, 1e-12)
	// A misread trial stops.
	travel, melted := made(t, 287.5)
	j := jobOf(t, `press.supports = "400 mm"`, trialText(400, travel, melted*0.6))
	_, said, err := learn(j, catalogued(j), stripOf(j))
	if err != nil {
		t.Fatal(err)
	}
	stops := 0
	for _, a := range said {
		if a.Level == words.Stop {
			stops++
		}
	}
	if stops != 1 {
		t.Errorf("a misread angle: said %v", codes(said))
	}
}

// Without supports a travel can't be read; an angle under load can, on the
// supports that are proposed, which is said.
func TestTrialsWithoutSupports(t *testing.T) {
	j := jobOf(t, trialText(400, 40, 30*geom.Degree))
	if _, _, err := learn(j, catalogued(j), stripOf(j)); err == nil || !strings.Contains(err.Error(), "travel") {
		t.Errorf("a travel: got %v", err)
	}
	loaded := "[[trial]]\nblock = \"400 mm\"\nloaded = \"36 deg\"\nmelted = \"31.5 deg\"\n"
	j = jobOf(t, loaded)
	m, said, err := learn(j, catalogued(j), stripOf(j))
	if err != nil {
		t.Fatal(err)
	}
	has(t, said, words.TrialsOnProposed, words.Warning, words.Trial, "trial")
	if a := find(said, words.TrialsOnProposed); a != nil {
		about(t, "supports", figure(t, a.Reason, "supports"), m.Trial.Rig.Supports, 0)
	}
	plain := jobOf(t)
	plain.Trials = nil
	if c := chained(t, plain); m.Trial == nil || m.Trial.Rig != c.q.Rig {
		t.Errorf("trial %+v, proposed %+v", m.Trial, c.q.Rig)
	}
	// On a bed that is too small there are none to be proposed: the metal stays.
	j = jobOf(t, loaded, `press.bed = "200 mm"`)
	was := catalogued(j)
	m, said, err = learn(j, was, stripOf(j))
	if err != nil {
		t.Fatal(err)
	}
	has(t, said, words.TrialsLeftOut, words.Warning, words.Trial, "trial")
	if m.Trial != nil || m.Spread != was.Spread || len(said) != 1 {
		t.Errorf("trial %v, %+v, said %v", m.Trial, m.Spread, codes(said))
	}
}

// A trial that its block can't make is the trial's own fault.
func TestTrialFault(t *testing.T) {
	for _, c := range []struct{ text, key string }{
		{trialText(400, 900, 30*geom.Degree), "trial[0].travel"},
		{"[[trial]]\nblock = \"400 mm\"\nloaded = \"175 deg\"\nmelted = \"170 deg\"\n", "trial[0].loaded"},
	} {
		j := jobOf(t, `press.supports = "300 mm"`, c.text)
		_, _, err := learn(j, catalogued(j), stripOf(j))
		if err == nil || !(strings.Contains(err.Error(), c.key) || strings.Contains(err.Error(), c.key[len("trial[0]."):])) {
			t.Errorf("%s: got %v", c.key, err)
		}
	}
	// The most that is named is reached, and hardly more.
	_, melted := made(t, 287.5)
	try := func(travel float64) error {
		j := jobOf(t, `press.supports = "400 mm"`, trialText(400, travel, melted))
		_, _, err := learn(j, catalogued(j), stripOf(j))
		return err
	}
	err := try(900)
	if err == nil {
		t.Fatal("900 mm of travel on supports 400 mm apart")
	}
	_, after, _ := strings.Cut(err.Error(), "at most ")
	var most float64
	if _, err := fmt.Sscanf(after, "%g", &most); err != nil || try(most) != nil || try(most*1.05) == nil {
		t.Errorf("%q: %v at %g mm, %v at a twentieth more", after, try(most), most, try(most*1.05))
	}
}

// The forecast is the wider end of what the fit leaves open, and the next trial
// is pushed no further than the part.
func TestForecast(t *testing.T) {
	travel, melted := made(t, 300)
	j := jobOf(t, `press.supports = "400 mm"`, trialText(400, travel, melted))
	c := chained(t, j)
	f, err := forecast(j, c.m, c.strip, c.q, c.over.Nominal.Block)
	if err != nil || f == nil {
		t.Fatalf("got %v, %v", f, err)
	}
	if f.Next.Travel <= 0 || f.Next.Travel > c.q.Final.Travel+1e-9 {
		t.Errorf("next trial pushed to %g mm, the part to %g", f.Next.Travel, c.q.Final.Travel)
	}
	if !(f.Next.ProofError < c.m.Trial.ProofError) {
		t.Errorf("the next trial leaves ± %g MPa of ± %g", f.Next.ProofError, c.m.Trial.ProofError)
	}
	want := math.Max(math.Abs(float64(c.q.Low.AtTravel-c.q.Final.Melted)), math.Abs(float64(c.q.High.AtTravel-c.q.Final.Melted)))
	about(t, "angle", float64(f.Angle), want, 1e-12)
	about(t, "template", f.Template, max(c.q.Gap.Size, c.q.Low.Gap.Size, c.q.High.Gap.Size), 1e-12)
	// Where the travel is sure, the last of it teaches most.
	j = jobOf(t, `press.supports = "400 mm"`, trialText(400, travel, melted)+"travel_error = \"0.01 mm\"\n")
	s := chained(t, j)
	if f, err = forecast(j, s.m, s.strip, s.q, s.over.Nominal.Block); err != nil || f.Next.Travel > s.q.Final.Travel+1e-9 {
		t.Errorf("next trial pushed to %g mm, the part to %g, %v", f.Next.Travel, s.q.Final.Travel, err)
	}
	about(t, "sure travel", f.Next.Travel, s.q.Final.Travel, 0.1)
	j = c.j
	// Each of the three gaps may be the largest.
	for i := range 3 {
		q := *c.q
		low, high := *q.Low, *q.High
		q.Low, q.High = &low, &high
		*[]*float64{&q.Gap.Size, &low.Gap.Size, &high.Gap.Size}[i] = 77
		if g, err := forecast(j, c.m, c.strip, &q, c.over.Nominal.Block); err != nil || g.Template != 77 {
			t.Errorf("gap %d: got %+v, %v", i, g, err)
		}
	}
	for _, none := range []struct {
		m Metal
		q *Press
	}{{catalogued(j), c.q}, {c.m, nil}} {
		if f, err := forecast(j, none.m, c.strip, none.q, 380); f != nil || err != nil {
			t.Errorf("got %v, %v, want none", f, err)
		}
	}
}

// Every error of the file's counts: a reading or setting twice as unsure leaves
// the metal less sure.
func TestTrialErrors(t *testing.T) {
	travel, melted := made(t, 300)
	byTravel := trialText(400, travel, melted)
	byLoaded := "[[trial]]\nblock = \"400 mm\"\nloaded = \"36 deg\"\nmelted = \"31.5 deg\"\n"
	byRise := fmt.Sprintf("[[trial]]\nblock = \"400 mm\"\ntravel = \"%g mm\"\nchord = \"150 mm\"\nrise = \"6.2 mm\"\n", travel)
	sure := func(text string) float64 {
		j := jobOf(t, `press.supports = "400 mm"`, text)
		m, _, err := learn(j, catalogued(j), stripOf(j))
		if err != nil {
			t.Fatal(err)
		}
		return m.Trial.ProofError
	}
	for _, c := range []struct{ text, errors, key, unit string }{
		{byTravel, "travel_error = \"0.01 mm\"\n", "angle_error", "deg"}, {byTravel, "angle_error = \"0.01 deg\"\n", "travel_error", "mm"},
		{byLoaded, "angle_error = \"0.01 deg\"\n", "loaded_error", "deg"}, {byRise, "travel_error = \"0.01 mm\"\n", "rise_error", "mm"},
	} {
		one, two := sure(c.text+c.errors+c.key+" = \"0.2 "+c.unit+"\"\n"), sure(c.text+c.errors+c.key+" = \"0.4 "+c.unit+"\"\n")
		about(t, c.key+" doubled", two, 2*one, 0.02)
	}
	// As large as they say: an angle off by its error moves the proof stress by
	// that of the fit.
	j := jobOf(t, `press.supports = "400 mm"`, trialText(400, travel, melted-0.2*geom.Degree))
	m, _, err := learn(j, catalogued(j), stripOf(j))
	if err != nil {
		t.Fatal(err)
	}
	about(t, "a reading one error off", math.Abs(m.Spread.Nominal-300), sure(byTravel+"travel_error = \"0.01 mm\"\nangle_error = \"0.2 deg\"\n"), 0.05)
	j = jobOf(t, `press.supports = "400 mm"`, trialText(400, travel+0.5, melted))
	if m, _, err = learn(j, catalogued(j), stripOf(j)); err != nil {
		t.Fatal(err)
	}
	about(t, "a travel one error off", math.Abs(m.Spread.Nominal-300), sure(byTravel+"travel_error = \"0.5 mm\"\nangle_error = \"0.01 deg\"\n"), 0.05)
}

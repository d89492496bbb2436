package bend

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"overbend/geom"
	"overbend/profiles"
)

const (
	startProof    = 287.5 // where every fit starts: the catalogue
	startExponent = 29.63
)

var trialRig = Rig{Supports: 420, Roller: 40}

// trialStack is the davit's stack with the tube's metal at choice.
func trialStack(proof, exponent float64) Stack {
	s := davit()
	s.Tube.Law = profiles.RambergOsgood{Youngs: 70000, Proof: proof, Exponent: exponent}
	return s
}

// unread is a trial of which nothing is known yet but the errors.
func unread(block float64) Trial {
	nan := math.NaN()
	return Trial{
		Block: block, Travel: nan, Loaded: geom.Angle(nan),
		Filled: geom.Angle(nan), Melted: geom.Angle(nan), Chord: nan, Rise: nan,
		AngleError: 0.25 * geom.Degree, RiseError: 0.5,
	}
}

// made bends a tube of known metal to an angle after melt-out and reads what is
// listed: travel, loaded, filled, melted, rise.
func made(t *testing.T, block float64, angle geom.Angle, proof, exponent float64, read string) Trial {
	t.Helper()
	p := press(t, trialStack(proof, exponent), trialRig, block)
	s := state(t)(p.ToMelted(angle))
	tr := unread(block)
	for what := range strings.FieldsSeq(read) {
		switch what {
		case "travel":
			tr.Travel = s.Travel
		case "loaded":
			tr.Loaded = s.Loaded
		case "filled":
			tr.Filled = s.Filled
		case "melted":
			tr.Melted = s.Melted
		case "rise":
			tr.Chord = 200
			tr.Rise, _ = p.Finished(s).RiseOver(200, 40)
		default:
			t.Fatalf("no reading %q", what)
		}
	}
	return tr
}

// TestTrialRecovers: a trial synthesised from a hidden proof stress gives it
// back, whatever was read, with nothing left over.
func TestTrialRecovers(t *testing.T) {
	for _, read := range []string{
		"travel melted", "travel filled", "travel rise", "travel filled melted rise",
		"loaded melted", "loaded filled", "loaded rise", "travel loaded melted",
	} {
		for _, hidden := range []float64{165, 250, 287.5, 410} {
			tr := made(t, 300, 33*geom.Degree, hidden, startExponent, read)
			fit, err := FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent)
			if err != nil {
				t.Errorf("%s at %g MPa: %v", read, hidden, err)
				continue
			}
			near(t, read+": proof", fit.Proof, hidden, 1e-5)
			if fit.Exponent != startExponent || fit.ExponentError != 0 {
				t.Errorf("%s: one trial gives an exponent of %g", read, fit.Exponent)
			}
			if !(fit.ProofError > 0.01*hidden && fit.ProofError < 0.6*hidden) {
				t.Errorf("%s at %g MPa: proof error of %g MPa", read, hidden, fit.ProofError)
			}
			if n := len(strings.Fields(read)) - 1 - strings.Count(read, "travel loaded"); len(fit.Residuals) != n {
				t.Errorf("%s: %d residuals, want %d", read, len(fit.Residuals), n)
			}
			for _, r := range fit.Residuals {
				if r.Trial != 0 || math.Abs(r.Measured-r.Predicted) > 1e-5*r.Error+1e-6 {
					t.Errorf("%s: residual %+v", read, r)
				}
			}
			if fit.Reduced() > 1e-6 {
				t.Errorf("%s: reduced sum of squares %g", read, fit.Reduced())
			}
		}
	}
}

// TestTrialErrorBand: the error band of one trial is the reading's error over
// how fast the angle falls with the proof stress.
func TestTrialErrorBand(t *testing.T) {
	tr := made(t, 300, 33*geom.Degree, 250, startExponent, "travel melted")
	fit, err := FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	at := func(proof float64) float64 {
		s := state(t)(press(t, trialStack(proof, startExponent), trialRig, 300).ToTravel(tr.Travel))
		return float64(s.Melted)
	}
	perMPa := (at(252) - at(248)) / 4
	near(t, "proof error", fit.ProofError, float64(tr.AngleError)/-perMPa, 1e-3)
	// Two equal trials halve the variance.
	twice, err := FitTrials([]Trial{tr, tr}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "proof error of two", twice.ProofError, fit.ProofError/math.Sqrt2, 1e-4)
	// Readings that scatter more than they should widen the band.
	up, down := tr, tr
	up.Melted += geom.Degree
	down.Melted -= geom.Degree
	wide, err := FitTrials([]Trial{up, down}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "reduced sum of squares", wide.Reduced(), 2*16, 0.02)
	near(t, "proof error of two that disagree", wide.ProofError, twice.ProofError*math.Sqrt(32), 0.02)
}

// blocks are radii that differ enough to tell the exponent from the proof
// stress.
var blocks = []float64{160, 300, 560}

// TestTrialExponent: three trials on differing blocks give both numbers back.
func TestTrialExponent(t *testing.T) {
	const proof, exponent = 214.0, 17.0
	var trials []Trial
	for _, b := range blocks {
		tr := made(t, b, 30*geom.Degree, proof, exponent, "travel melted rise")
		tr.AngleError, tr.RiseError = 0.02*geom.Degree, 0.05
		trials = append(trials, tr)
	}
	fit, err := FitTrials(trials, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "proof", fit.Proof, proof, 1e-4)
	near(t, "exponent", fit.Exponent, exponent, 1e-3)
	if !(fit.ExponentError > 0 && fit.ExponentError < 0.3*exponent) || !(fit.ProofError > 0 && fit.ProofError < 0.1*proof) {
		t.Errorf("errors %g MPa and %g", fit.ProofError, fit.ExponentError)
	}
	// With a shop's ordinary errors the exponent can't be told: it stays the
	// table's, and the proof stress is the effective one.
	for i := range trials {
		trials[i].AngleError, trials[i].RiseError = geom.Degree, 2
	}
	if fit, err = FitTrials(trials, trialRig, trialStack, startProof, startExponent); err != nil {
		t.Fatal(err)
	}
	if fit.Exponent != startExponent || fit.ExponentError != 0 {
		t.Errorf("readings good to a degree give an exponent of %g +- %g", fit.Exponent, fit.ExponentError)
	}
	// Three on one block don't differ enough.
	same := []Trial{trials[1], trials[1], trials[1]}
	if fit, err = FitTrials(same, trialRig, trialStack, startProof, startExponent); err != nil || fit.ExponentError != 0 {
		t.Errorf("three on one block: %+v, %v", fit, err)
	}
}

// noisy reads a trial with errors of its stated size.
func noisy(tr Trial, r *rand.Rand) Trial {
	tr.Melted += tr.AngleError * geom.Angle(r.NormFloat64())
	tr.Rise += tr.RiseError * r.NormFloat64()
	return tr
}

// TestTrialMonteCarlo: over many synthetic series with the stated errors, the
// fitted proof stress scatters as its error band says, about the hidden one.
func TestTrialMonteCarlo(t *testing.T) {
	const hidden, series = 235.0, 90
	clean := made(t, 300, 33*geom.Degree, hidden, startExponent, "travel melted rise")
	r := rand.New(rand.NewPCG(2, 7))
	var sum, sq, band float64
	within := 0
	for range series {
		trials := []Trial{noisy(clean, r), noisy(clean, r), noisy(clean, r)}
		fit, err := FitTrials(trials, trialRig, trialStack, startProof, startExponent)
		if err != nil {
			t.Fatal(err)
		}
		d := fit.Proof - hidden
		sum += d
		sq += d * d
		band += fit.ProofError
		if math.Abs(d) < 2*fit.ProofError {
			within++
		}
	}
	mean, sd := sum/series, math.Sqrt(sq/series)
	band /= series
	t.Logf("mean off by %.2f MPa, scatter %.2f MPa, stated %.2f MPa, %d of %d within two", mean, sd, band, within, series)
	if math.Abs(mean) > 3*sd/math.Sqrt(series) {
		t.Errorf("the mean is off by %.2f MPa", mean)
	}
	if math.Abs(band/sd-1) > 0.25 {
		t.Errorf("the fits scatter by %.2f MPa and state %.2f MPa", sd, band)
	}
	if within < series*90/100 {
		t.Errorf("only %d of %d within two standard deviations", within, series)
	}
}

// TestTrialMonteCarloTwo is the same for proof stress and exponent together.
func TestTrialMonteCarloTwo(t *testing.T) {
	const proof, exponent, series = 235.0, 17.0, 20
	var clean []Trial
	for _, b := range blocks {
		tr := made(t, b, 30*geom.Degree, proof, exponent, "travel melted rise")
		tr.AngleError, tr.RiseError = 0.01*geom.Degree, 0.02
		clean = append(clean, tr)
	}
	r := rand.New(rand.NewPCG(3, 1))
	var zp, zn float64
	for range series {
		var trials []Trial
		for _, tr := range clean {
			trials = append(trials, noisy(tr, r))
		}
		fit, err := FitTrials(trials, trialRig, trialStack, startProof, startExponent)
		if err != nil || fit.ExponentError == 0 {
			t.Fatalf("%+v, %v", fit, err)
		}
		zp += math.Pow((fit.Proof-proof)/fit.ProofError, 2)
		zn += math.Pow((fit.Exponent-exponent)/fit.ExponentError, 2)
	}
	zp, zn = math.Sqrt(zp/series), math.Sqrt(zn/series)
	t.Logf("in standard deviations: proof off by %.2f, exponent by %.2f (root mean square)", zp, zn)
	if zp < 0.6 || zp > 1.4 || zn < 0.6 || zn > 1.4 {
		t.Errorf("in standard deviations: proof off by %.2f, exponent by %.2f, want about 1", zp, zn)
	}
}

// TestTrialContradicts: a trial that the model can't explain ends far from the
// catalogue, not in an error, and leaves a residual.
func TestTrialContradicts(t *testing.T) {
	for _, c := range []struct {
		name   string
		melted geom.Angle // of a bend that the catalogue's metal leaves at 33
		soft   bool
	}{
		{"hardly springs back", 37.4 * geom.Degree, true},
		{"springs back far", 26 * geom.Degree, false},
		{"opens more than it was bent", 45 * geom.Degree, true},
	} {
		tr := made(t, 300, 33*geom.Degree, startProof, startExponent, "travel loaded melted")
		tr.Melted = c.melted
		fit, err := FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if ratio := fit.Proof / startProof; c.soft && !(ratio < 0.5) || !c.soft && !(ratio > 2) {
			t.Errorf("%s (loaded %.1f deg): proof %.0f +- %.0f MPa, %.2f times the catalogue", c.name, tr.Loaded.Degrees(), fit.Proof, fit.ProofError, ratio)
		}
		if math.IsNaN(fit.ProofError) || math.IsInf(fit.ProofError, 0) {
			t.Errorf("%s: error %g", c.name, fit.ProofError)
		}
		if c.melted > tr.Loaded {
			if r := fit.Residuals[0]; !(r.Measured-r.Predicted > 5*r.Error) {
				t.Errorf("%s: residual %+v", c.name, r)
			}
		}
	}
}

// TestTrialNoLesson: a tube that sprang back all the way says nothing.
func TestTrialNoLesson(t *testing.T) {
	plastic := func(proof, _ float64) Stack {
		s := davit()
		s.Tube.Law = epp(70000, proof)
		return s
	}
	for name, build := range map[string]func(p, n float64) Stack{"ramberg-osgood": trialStack, "perfectly plastic": plastic} {
		p := press(t, build(startProof, startExponent), trialRig, 5000)
		s := state(t)(p.AtCrown(1e-4))
		for _, melted := range []geom.Angle{0, s.Melted} {
			tr := unread(5000)
			tr.Travel, tr.Melted = s.Travel, melted
			fit, err := FitTrials([]Trial{tr}, trialRig, build, startProof, startExponent)
			if !errors.Is(err, ErrNoLesson) {
				t.Errorf("%s, an elastic trial: %+v, %v", name, fit, err)
			}
		}
	}
	nothing := made(t, 300, 33*geom.Degree, startProof, startExponent, "travel")
	if fit, err := FitTrials([]Trial{nothing}, trialRig, trialStack, startProof, startExponent); !errors.Is(err, ErrNoLesson) {
		t.Errorf("a trial without a measurement: %+v, %v", fit, err)
	}
}

func TestTrialErrors(t *testing.T) {
	good := made(t, 300, 33*geom.Degree, startProof, startExponent, "travel melted")
	for _, c := range []struct {
		name    string
		change  func(*Trial)
		why     Why // "": a caller's mistake
		hasMost bool
	}{
		{"neither travel nor loaded", func(tr *Trial) { tr.Travel = math.NaN() }, "", true},
		{"block of 0", func(tr *Trial) { tr.Block = 0 }, "", false},
		{"travel past the rollers", func(tr *Trial) { tr.Travel = 900 }, TooNarrow, true},
		{"negative travel", func(tr *Trial) { tr.Travel = -3 }, "", true},
	} {
		bad := good
		c.change(&bad)
		_, err := FitTrials([]Trial{good, bad}, trialRig, trialStack, startProof, startExponent)
		var at *TrialError
		if !errors.As(err, &at) || at.Trial != 1 || (at.Most > 0) != c.hasMost {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if c.why != "" {
			wantRefusal(t, c.name, err, c.why)
		}
	}
}

// TestTrialExponentBound: three readings that only a curve of exponent below 1
// could follow, where the moment would fall as the curvature grows. (A made-up
// soft metal of the user's own, 12 x 12 x 3.6, exponent 3.)
func TestTrialExponentBound(t *testing.T) {
	sec := rectangle(12, 12, 3.6, 0)
	strip := profiles.Solid{Width: 12, Depth: 2}
	build := func(proof, exponent float64) Stack {
		if exponent < 1 {
			t.Fatalf("asked for a curve of exponent %g", exponent)
		}
		return Stack{
			Tube:  Hollow(sec, profiles.RambergOsgood{Youngs: 210000, Proof: proof, Exponent: exponent}),
			Strip: Massive(strip, profiles.RambergOsgood{Youngs: 205000, Proof: 370, Exponent: 15}), Depth: 12, StripThickness: 2,
		}
	}
	var trials []Trial
	for _, r := range [][3]float64{{69.69, 14.69, 10.87}, {128.58, 3.12, 2.31}, {137.15, 4.23, 3.43}} {
		tr := unread(r[0])
		tr.Loaded, tr.Melted = geom.Angle(r[1])*geom.Degree, geom.Angle(r[2])*geom.Degree
		trials = append(trials, tr)
	}
	fit, err := FitTrials(trials, Rig{Supports: 130, Roller: 40}, build, 60, 3)
	if err != nil {
		t.Fatal(err)
	}
	if fit.Exponent < 1 {
		t.Errorf("an exponent of %g", fit.Exponent)
	}
}

// Trials that contradict each other are found to do so in about as many looks at
// the model as those that agree, whatever their number: the search neither pushes
// against its bounds nor goes on where nothing is to be gained.
func TestTrialContradictsSoon(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 9))
	for i := range 8 {
		most := []float64{1, 0.9, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55}[i] // rad; the large ones lead to the bound
		var trials []Trial
		for range 12 {
			tr := unread(280 + 160*r.Float64())
			tr.Travel = 25 + 10*r.Float64()
			tr.Filled, tr.Melted = geom.Angle(most*r.Float64()), geom.Angle(most*r.Float64())
			tr.AngleError = 0.25 * geom.Degree
			tr.TravelError = 0.5
			trials = append(trials, tr)
		}
		looks := 0
		fit, err := FitTrials(trials, trialRig, func(proof, exponent float64) Stack {
			looks++
			return trialStack(proof, exponent)
		}, startProof, startExponent)
		if err != nil {
			t.Fatal(err)
		}
		if fit.Reduced() < 100 {
			t.Errorf("they hardly contradict: %g", fit.Reduced())
		}
		if looks > 70 {
			t.Errorf("%d looks at the model", looks)
		}
		t.Logf("%d looks, proof %g, exponent %g, at limit %v", looks, fit.Proof, fit.Exponent, fit.AtLimit)
	}
}

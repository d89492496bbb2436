package bend

import (
	"math"
	"math/rand/v2"
	"testing"

	"overbend/geom"
)

// TestTrialSetBand: the error of the travel counts as the reading's does, over
// how fast the angle falls with the proof stress; and equal errors of several
// readings of one trial do not make its travel surer.
func TestTrialSetBand(t *testing.T) {
	const hidden = 250.0
	at := func(proof, travel float64) float64 {
		return float64(state(t)(press(t, trialStack(proof, startExponent), trialRig, 300).ToTravel(travel)).Melted)
	}
	tr := made(t, 300, 33*geom.Degree, hidden, startExponent, "travel melted")
	tr.TravelError = 0.5
	fit, err := FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	perMPa := (at(hidden+2, tr.Travel) - at(hidden-2, tr.Travel)) / 4
	perMM := (at(hidden, tr.Travel+0.1) - at(hidden, tr.Travel-0.1)) / 0.2
	near(t, "proof error", fit.ProofError, math.Hypot(float64(tr.AngleError), perMM*tr.TravelError)/-perMPa, 2e-3)
	if off := math.Abs(perMM * tr.TravelError); off < float64(tr.AngleError) {
		t.Errorf("half a mm of travel is worth %g rad, less than the reading's error: the test means little", off)
	}

	// Filled and melted read as well as can be: what is left is the travel's.
	tr = made(t, 300, 33*geom.Degree, hidden, startExponent, "travel filled melted")
	tr.TravelError, tr.AngleError = 0.5, 1e-6
	if fit, err = FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent); err != nil {
		t.Fatal(err)
	}
	one := tr
	one.Filled = geom.Angle(math.NaN())
	alone, err := FitTrials([]Trial{one}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	if fit.ProofError > alone.ProofError*(1+1e-6) {
		t.Errorf("a second reading widens the band from %g to %g MPa", alone.ProofError, fit.ProofError)
	}
	// The angle under load, set with an error.
	tr = made(t, 300, 33*geom.Degree, hidden, startExponent, "loaded melted")
	sure, err := FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	tr.LoadedError = tr.AngleError
	unsure, err := FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	if k := unsure.ProofError / sure.ProofError; !(k > 1.2 && k < 1.6) {
		t.Errorf("an angle under load read as badly as the one after widens the band %.2f times, want about the square root of 2", k)
	}
}

// TestTrialSetMonteCarlo: with travels set with their stated error, which all
// readings of a trial share, fits scatter as their bands say.
func TestTrialSetMonteCarlo(t *testing.T) {
	const hidden, series = 235.0, 60
	p := press(t, trialStack(hidden, startExponent), trialRig, 300)
	clean := made(t, 300, 33*geom.Degree, hidden, startExponent, "travel filled melted rise")
	clean.TravelError = 0.7
	r := rand.New(rand.NewPCG(5, 9))
	var sq, band float64
	for range series {
		tr := clean
		s := state(t)(p.ToTravel(clean.Travel + clean.TravelError*r.NormFloat64()))
		tr.Filled = s.Filled + tr.AngleError*geom.Angle(r.NormFloat64())
		tr.Melted = s.Melted + tr.AngleError*geom.Angle(r.NormFloat64())
		rise, _ := p.Finished(s).RiseOver(200, 40)
		tr.Rise = rise + tr.RiseError*r.NormFloat64()
		fit, err := FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent)
		if err != nil {
			t.Fatal(err)
		}
		sq += math.Pow(math.Log(fit.Proof/hidden), 2)
		band += math.Pow(fit.ProofError/fit.Proof, 2)
	}
	scatter, stated := math.Sqrt(sq/series), math.Sqrt(band/series)
	t.Logf("scatter %.1f %%, stated %.1f %%", 100*scatter, 100*stated)
	if k := stated / scatter; k < 0.75 || k > 1.35 {
		t.Errorf("fits scatter by %.3f and state %.3f", scatter, stated)
	}
}

func TestFitVerdict(t *testing.T) {
	// A travel misread by far more than its error ends at the bounds, or far off.
	tr := made(t, 300, 33*geom.Degree, startProof, startExponent, "travel filled melted")
	tr.TravelError = 0.5
	good, err := FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	if good.AtLimit || math.Abs(good.Worst().Off()) > 0.1 {
		t.Errorf("a clean trial: %+v", good)
	}
	bad := tr
	bad.Melted -= 10 * geom.Degree
	fit, err := FitTrials([]Trial{tr, tr, bad}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	if w := fit.Worst(); w.Trial != 2 || math.Abs(w.Off()) < 3 {
		t.Errorf("the misread trial is not the worst: %+v", w)
	}
	bad.Melted = tr.Filled + 8*geom.Degree
	bad.Filled = geom.Angle(math.NaN())
	if fit, err = FitTrials([]Trial{bad}, trialRig, trialStack, startProof, startExponent); err != nil || !fit.AtLimit {
		t.Errorf("a part that opens more than any metal does: %+v, %v", fit, err)
	}
}

// TestNextTrial: no travel teaches more, and what it promises is what a fit with
// it gives.
func TestNextTrial(t *testing.T) {
	tr := made(t, 300, 33*geom.Degree, 250, startExponent, "travel melted")
	tr.TravelError = 0.5
	fit, err := FitTrials([]Trial{tr}, trialRig, trialStack, startProof, startExponent)
	if err != nil {
		t.Fatal(err)
	}
	build := func(proof float64) Stack { return trialStack(proof, fit.Exponent) }
	final := state(t)(press(t, build(fit.Proof), trialRig, 350).ToMelted(33 * geom.Degree))
	next, err := NextTrial(fit, trialRig, 350, final.Travel, tr, build)
	if err != nil {
		t.Fatal(err)
	}
	with := func(travel float64) float64 {
		s := state(t)(press(t, build(fit.Proof), trialRig, 350).ToTravel(travel))
		more := tr
		more.Block, more.Travel, more.Melted = 350, travel, s.Melted
		both, err := FitTrials([]Trial{tr, more}, trialRig, trialStack, fit.Proof, fit.Exponent)
		if err != nil {
			t.Fatal(err)
		}
		return both.ProofError
	}
	if !(next.Travel > 0 && next.Travel <= final.Travel) || !(next.ProofError < fit.ProofError) {
		t.Fatalf("%+v after %g +- %g", next, fit.Proof, fit.ProofError)
	}
	near(t, "promised error", next.ProofError, with(next.Travel), 0.02)
	for _, share := range []float64{0.3, 0.6, 0.9, 1} {
		if got := with(share * final.Travel); got < next.ProofError*(1-0.02) {
			t.Errorf("%.0f %% of the travel teaches more: %g against %g MPa", 100*share, got, next.ProofError)
		}
	}
}

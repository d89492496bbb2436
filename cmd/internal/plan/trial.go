package plan

import (
	"errors"
	"fmt"
	"math"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/profiles"
)

// Trial is what the job's trials taught.
type Trial struct {
	bend.Fit
	Catalogue float64 // nominal proof stress before, MPa
	Suspect   Suspicion
}

// Suspicion says that trials contradict the catalogue.
type Suspicion string

// The suspicions: the fitted proof stress is out of 0.5 to 2 times the
// catalogue's.
const (
	Trusted Suspicion = ""
	TooSoft Suspicion = "soft"
	TooHard Suspicion = "hard"
)

// suspectFactor bounds a fit that is believed, either way of the catalogue.
const suspectFactor = 2

// learn fits the metal to the job's trials and replaces the catalogue's range
// by the fit's. Trials that can't be used leave the metal as it is.
func learn(j job.Job, m Metal, strip Strip) (Metal, []words.Advice, error) {
	var said []words.Advice
	rig := bend.Rig{Supports: j.Press.Supports, Roller: j.Press.Roller}
	trials := make([]bend.Trial, len(j.Trials))
	for i, t := range j.Trials {
		if rig.Supports == 0 && !math.IsNaN(t.Travel) {
			return m, nil, fault(j, fmt.Sprintf("trial[%d].travel", i), words.Reason{Code: words.TrialNeedsSupports})
		}
		trials[i] = bend.Trial{
			Block: t.BlockRadius, Travel: t.Travel, Loaded: t.Loaded,
			Filled: t.Filled, Melted: t.Melted, Chord: t.Chord, Rise: t.Rise,
			AngleError: t.AngleError, RiseError: t.RiseError,
		}
	}
	build := func(proof, exponent float64) bend.Stack { return stack(j, strip, m.with(proof, exponent)) }
	if rig.Supports == 0 {
		over, err := overbend(j, m, m.Spread.Nominal)
		if err != nil {
			return m, nil, err
		}
		model, _, err := pressOn(j, stack(j, strip, m.Curve), over.Block)
		if err != nil {
			return m, []words.Advice{say(words.Warning, words.Trial, "trial", words.TrialsLeftOut, words.Figures{"why": words.Because(err)})}, nil
		}
		rig = model.Rig()
		said = append(said, say(words.Warning, words.Trial, "trial", words.TrialsOnProposed, words.Figures{"supports": quantity.Length.Of(rig.Supports)}))
	}
	fit, err := bend.FitTrials(trials, rig, build, m.Spread.Nominal, m.Curve.Exponent)
	if err != nil {
		return m, nil, trialFault(j, err)
	}
	t := &Trial{Fit: fit, Catalogue: m.Spread.Nominal}
	switch {
	case fit.Proof > suspectFactor*t.Catalogue:
		t.Suspect = TooHard
	case fit.Proof < t.Catalogue/suspectFactor:
		t.Suspect = TooSoft
	}
	count := words.Count(len(j.Trials), "trial")
	// Two standard deviations either way, as for the catalogue's range.
	return Metal{
		Spread: profiles.Spread{
			Low:     max(fit.Proof-2*fit.ProofError, fit.Proof/4),
			Nominal: fit.Proof,
			High:    fit.Proof + 2*fit.ProofError,
		},
		Ranged: true,
		Origin: words.Reason{Code: words.FromTrials, Figures: words.Figures{"trials": count}},
		Curve:  m.with(fit.Proof, fit.Exponent),
		Trial:  t,
	}, append(said, t.verdict(count)...), nil
}

// verdict says that trials are used, or not to be believed.
func (t *Trial) verdict(count string) []words.Advice {
	stress := quantity.Stress.Of
	said := []words.Advice{say(words.Note, words.Trial, "trial", words.TrialsUsed, words.Figures{
		"trials": count, "proof": stress(t.Proof), "error": stress(t.ProofError), "catalogue": stress(t.Catalogue),
	})}
	warn := func(c words.Code, f words.Figures) {
		said = append(said, say(words.Warning, words.Trial, "trial", c, f))
	}
	switch t.Suspect {
	case TooSoft:
		warn(words.TrialsTooSoft, nil)
	case TooHard:
		warn(words.TrialsTooHard, nil)
	}
	if r := t.Reduced(); r > mostScatter*mostScatter {
		warn(words.TrialsDisagree, words.Figures{"times": quantity.Number.Of(math.Sqrt(r))})
	}
	return said
}

// mostScatter is by how many of their stated errors trials may disagree.
const mostScatter = 2

// trialFault places what is wrong with the trials at the trial's own line.
func trialFault(j job.Job, err error) error {
	var e *bend.TrialError
	if !errors.As(err, &e) {
		return fault(j, "trial", words.Because(err))
	}
	t := j.Trials[e.Trial]
	at := func(key string) string { return fmt.Sprintf("trial[%d].%s", e.Trial, key) }
	notReached := func(value, most quantity.Value) words.Reason {
		return words.Reason{Code: words.TrialNotReached, Figures: words.Figures{"value": value, "most": most}}
	}
	switch {
	case e.Most > 0 && !math.IsNaN(t.Travel):
		return fault(j, at("travel"), notReached(quantity.Length.Of(t.Travel), quantity.Length.Of(math.Floor(10*e.Most)/10)))
	case e.Most > 0:
		return fault(j, at("loaded"), notReached(quantity.Degrees(t.Loaded), quantity.Degrees(geom.Angle(e.Most))))
	}
	return fault(j, at("block"), words.Because(e.Err))
}

package plan

import (
	"errors"
	"fmt"
	"math"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/profiles"
)

// Trial is what the job's trials taught.
type Trial struct {
	bend.Fit
	Catalogue float64  // nominal proof stress before, MPa
	Rig       bend.Rig // that the trials were pressed on
	Suspect   Suspicion
}

// Suspicion says why trials are not believed.
type Suspicion string

// The suspicions.
const (
	Trusted       Suspicion = ""
	AtLimit       Suspicion = "limit"    // no metal of this kind behaves so
	TooSoft       Suspicion = "soft"     // the proof stress is less than half the catalogue's
	TooHard       Suspicion = "hard"     // more than twice
	OneOff        Suspicion = "one off"  // a reading lies far from the fit
	Contradictory Suspicion = "disagree" // trials contradict each other
)

const (
	// suspectFactor bounds a fit that is believed, either way of the catalogue.
	suspectFactor = 2
	// mostOff is by how many of its errors a reading may be off.
	mostOff = 3
	// mostScatter is by how many of their errors trials may disagree, together.
	mostScatter = 2
)

// suspect judges a fit against the catalogue's proof stress in MPa.
func suspect(f bend.Fit, catalogue float64) Suspicion {
	switch {
	case f.AtLimit:
		return AtLimit
	case f.Proof > suspectFactor*catalogue:
		return TooHard
	case f.Proof < catalogue/suspectFactor:
		return TooSoft
	case math.Abs(f.Worst().Off()) > mostOff:
		return OneOff
	case f.Reduced() > mostScatter*mostScatter:
		return Contradictory
	}
	return Trusted
}

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
			TravelError: t.TravelError, LoadedError: t.LoadedError,
		}
	}
	build := func(proof, exponent float64) bend.Stack { return stack(j, strip, m.with(proof, exponent).Law()) }
	if rig.Supports == 0 {
		over, err := overbend(j, m, m.Spread.Nominal)
		if err != nil {
			return m, nil, err
		}
		s, err := newSite(j, m, strip, over.Block)
		if err != nil {
			return m, nil, err
		}
		model, _, err := s.on()
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
	t := &Trial{Fit: fit, Catalogue: m.Spread.Nominal, Rig: rig}
	t.Suspect = suspect(fit, t.Catalogue)
	count := words.Count(len(j.Trials), "trial")
	if k := j.Learned; k != nil && j.Lot == shop.SameLot && t.Suspect == Trusted && k.More(j.Digests()) {
		joined := k.With(t.Lesson(), j.Digests())
		known := kept(j, joined)
		known.Trial = t
		stress := quantity.Stress.Of
		return known, append(said, append(t.verdict(j, count), say(words.Note, words.Trial, "shop", words.TrialsJoined, words.Figures{
			"name": k.Name, "proof": stress(joined.Proof), "error": stress(joined.ProofError),
		}))...), nil
	}
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
	}, append(said, t.verdict(j, count)...), nil
}

// Lesson returns what the trials say of the piece that was bent.
func (t *Trial) Lesson() shop.Lesson {
	l := shop.Lesson{Proof: t.Proof, ProofError: t.ProofError}
	if t.ExponentError > 0 {
		l.Exponent, l.ExponentError = t.Exponent, t.ExponentError
	}
	return l
}

// verdict says that trials are used, or why not to believe them and which reading
// to look at again: a block cut from a misread trial is scrap.
func (t *Trial) verdict(j job.Job, count string) []words.Advice {
	stress := quantity.Stress.Of
	said := []words.Advice{say(words.Note, words.Trial, "trial", words.TrialsUsed, words.Figures{
		"trials": count, "proof": stress(t.Proof), "error": stress(t.ProofError), "catalogue": stress(t.Catalogue),
	})}
	code, untrusted := map[Suspicion]words.Code{
		AtLimit: words.TrialsAtLimit, TooSoft: words.TrialsTooSoft, TooHard: words.TrialsTooHard,
		OneOff: words.TrialOneOff, Contradictory: words.TrialsDisagree,
	}[t.Suspect]
	worst := t.Worst()
	if untrusted {
		said = append(said, say(words.Stop, words.Trial, "trial", code, words.Figures{
			"proof": stress(t.Proof), "catalogue": stress(t.Catalogue), "times": quantity.Number.Of(math.Sqrt(t.Reduced())),
			"off": quantity.Number.Of(math.Abs(worst.Off())), "look": look(j, worst),
		}))
	}
	// An angle finder shows what is left of a half turn.
	for i, tr := range j.Trials {
		turned := 180*geom.Degree - j.Bend.Angle
		if a := tr.Melted; a > turned-finderError && a < turned+finderError && (a < j.Bend.Angle-4*finderError || a > j.Bend.Angle+4*finderError) {
			said = append(said, say(words.Warning, words.Trial, "trial", words.AngleFinder, words.Figures{
				"trial": i + 1, "read": quantity.Degrees(a), "angle": quantity.Degrees(j.Bend.Angle), "turned": quantity.Degrees(turned),
			}))
		}
	}
	return said
}

// finderError is how near a reading must be to 180 degrees less the bend to be
// taken for what an angle finder shows.
const finderError = 5 * geom.Degree

// look names the reading to look at again, and what its trial was pushed to.
func look(j job.Job, r bend.Residual) words.Reason {
	t := j.Trials[r.Trial]
	set := quantity.Length.Of(t.Travel)
	code := words.LookAtTravel
	if math.IsNaN(t.Travel) {
		set, code = quantity.Degrees(t.Loaded), words.LookAtLoaded
	}
	of := func(v float64) quantity.Value {
		if r.Reading == bend.ReadRise {
			return quantity.Length.Of(v)
		}
		return quantity.Degrees(geom.Angle(v))
	}
	return words.Reason{Code: code, Figures: words.Figures{
		"trial": r.Trial + 1, "set": set, "reading": words.Reading(r.Reading, j.Filler.Alloy.Name != ""), "measured": of(r.Measured), "predicted": of(r.Predicted),
	}}
}

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
		fine := j.Units().Pick(0.1, 0.01)
		return fault(j, at("travel"), notReached(quantity.Length.Of(t.Travel), quantity.Length.Of(math.Floor(e.Most/fine)*fine)))
	case e.Most > 0:
		return fault(j, at("loaded"), notReached(quantity.Degrees(t.Loaded), quantity.Degrees(geom.Angle(e.Most))))
	}
	return fault(j, at("block"), words.Because(e.Err))
}

// Forecast is how sure the next bend is, and what would make it surer.
type Forecast struct {
	// Angle is how far the angle may be off, two standard deviations either way,
	// of a tube pushed to the travel without measuring.
	Angle geom.Angle
	// Template is the largest distance in mm from the drawing's centreline of a
	// part brought to its angle on the next block, at either end of that band.
	Template float64
	Next     bend.Next // the trial that would teach most
}

// forecast says how sure the next block is; nil without trials or a press.
func forecast(j job.Job, m Metal, strip Strip, q *Press, block float64) (*Forecast, error) {
	if m.Trial == nil || q == nil {
		return nil, nil
	}
	f := &Forecast{Template: q.Gap.Size}
	for _, e := range []*PressEnd{q.Low, q.High} {
		if e != nil {
			f.Angle = max(f.Angle, geom.Angle(math.Abs(float64(e.AtTravel-q.Final.Melted))))
			f.Template = max(f.Template, e.Gap.Size)
		}
	}
	last := j.Trials[len(j.Trials)-1]
	var err error
	f.Next, err = bend.NextTrial(m.Trial.Fit, q.Rig, block, q.Final.Travel,
		bend.Trial{AngleError: last.AngleError, TravelError: last.TravelError},
		func(proof float64) bend.Stack { return stack(j, strip, m.law(proof)) })
	return f, err
}

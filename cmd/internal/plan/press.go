package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/profiles"
)

// Press is the job at the press.
type Press struct {
	Rig      bend.Rig
	Proposed bool // the supports were chosen here
	Final    bend.State
	Schedule []bend.State
	Shape    bend.Finished
	// Loaded is half of the centreline in the final state, under load: crown at
	// the origin, y against the push, to the roller contact.
	Loaded geom.Path
	Gap    bend.Gap
	// Peak is the largest force over the schedule, N: on widely spread supports
	// it can come before the end.
	Peak  float64
	Share float64 // of the press's capacity at the peak; 0 without a capacity
	Gauge float64 // pressure at the peak, MPa; 0 without a ram diameter
	// Wrap and angle at the ends of the metal's range: Low and High reach the
	// drawing's angle at these states; at the nominal travel they come out at
	// these angles. Nil without a range.
	Low, High *PressEnd
	// Strip is what the backing strip keeps.
	Strip StripAfter
}

// finals returns the states that make the angle: at the nominal proof stress and
// at the ends of the range.
func (q *Press) finals() []bend.State {
	out := []bend.State{q.Final}
	for _, e := range []*PressEnd{q.Low, q.High} {
		if e != nil {
			out = append(out, e.Final)
		}
	}
	return out
}

// states returns all states that tools and blank must do for: the schedule's and
// the final ones.
func (q *Press) states() []bend.State { return slices.Concat(q.Schedule, q.finals()) }

// PressEnd is the press at one end of the metal's range, on the block cut for
// the nominal metal.
type PressEnd struct {
	Proof    float64 // MPa
	Final    bend.State
	AtTravel geom.Angle // after melt-out, pushed to the nominal travel
}

// StripAfter is the strip after release.
type StripAfter struct {
	bend.StripAfter
	Reusable bool
}

// Existing is what a block gives that the shop already has.
type Existing struct {
	Block  float64 // radius, mm
	Radius float64 // finished centreline radius, mm
	Angle  geom.Angle
	Final  *bend.State // at the drawing's angle; nil when no state gives it
	// Supports are roller centre to roller centre in that state, mm.
	Supports float64
	Gap      bend.Gap
}

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

// The defaults of the press.
const (
	supportStep     = 10.0 // mm; 1/2 in would be 12.7
	supportStepInch = 12.7
	widestSupports  = 3000.0 // no shop press spreads further, mm
	leastLegDepths  = 2.0    // of tube, between tangent point and roller
	mostShare       = 0.8    // of the capacity that a proposal may use
)

func geomRatio(a, b float64) geom.Angle { return geom.Angle(a / b) }

// stack returns what lies under the block, with the tube's metal at a proof
// stress in MPa and an exponent.
func (p *Plan) stack(proof, exponent float64) bend.Stack {
	j := p.Job
	law := p.Metal.at(proof)
	law.Exponent = exponent
	s := bend.Stack{
		Tube:           bend.Hollow(j.Tube, law),
		Depth:          j.Tube.Depth,
		StripThickness: p.Strip.Thickness,
		Strip:          bend.Massive(profiles.Solid{Width: j.Tube.Width, Depth: p.Strip.Thickness}, p.StripLaw),
	}
	if f := j.Filler.Alloy; f.Name != "" {
		s.Filler = bend.Massive(j.Tube.Bore(), profiles.ElasticPlastic{Youngs: f.Youngs, Yield: f.Yield})
	}
	return s
}

// nominalStack returns the stack at the nominal metal.
func (p *Plan) nominalStack() bend.Stack {
	return p.stack(p.Metal.Spread.Nominal, p.Metal.Law.Exponent)
}

// limits returns what bounds a proposal of supports.
func (p *Plan) limits() bend.Limits {
	step := supportStep
	if p.Job.Inches {
		step = supportStepInch
	}
	return bend.Limits{
		Step:    step,
		LeastL:  leastLegDepths * p.Job.Tube.Depth,
		MostF:   mostShare * p.Job.Press.Capacity,
		Largest: widestSupports,
	}
}

// pressOn returns the model and its final state on the job's supports, or on
// proposed ones.
func (p *Plan) pressOn(s bend.Stack, block float64) (*bend.Press, bend.State, error) {
	j := p.Job
	rig := bend.Rig{Supports: j.Press.Supports, Roller: j.Press.Roller}
	if rig.Supports > 0 {
		m, err := bend.NewPress(s, rig, block)
		if err != nil {
			return nil, bend.State{}, err
		}
		st, err := m.ToMelted(j.Bend.Angle)
		return m, st, err
	}
	// Any rig to start with; the proposal replaces it.
	m, err := bend.NewPress(s, bend.Rig{Supports: widestSupports, Roller: rig.Roller}, block)
	if err != nil {
		return nil, bend.State{}, err
	}
	return m.ProposeSupports(j.Bend.Angle, rig.Roller, p.limits())
}

// press fills Press. A rig that the file states and that can't be is the
// file's error; a press that is too weak or a bend that no rig makes is advice
// that stops the job.
func (p *Plan) press() error {
	j := p.Job
	stack := p.nominalStack()
	model, final, err := p.pressOn(stack, p.Nominal.Block)
	if err != nil {
		if j.Press.Supports > 0 && errors.Is(err, bend.ErrNoSolution) {
			return j.Errorf("press.supports", "%s", why(err))
		}
		p.advise(Stop, "press", "no press set-up makes this bend: "+why(err))
		return nil
	}
	q := &Press{Rig: model.Rig(), Proposed: j.Press.Supports == 0, Final: final}
	if q.Schedule, err = model.Schedule(final); err != nil {
		return fmt.Errorf("schedule: %w", err)
	}
	q.Shape = model.Finished(final)
	q.Loaded = model.LoadedLine(final)
	q.Gap = q.Shape.Gap(j.Bend.Radius)
	for _, s := range q.Schedule {
		q.Peak = max(q.Peak, s.Force)
	}
	if j.Press.Capacity > 0 {
		q.Share = q.Peak / j.Press.Capacity
	}
	if j.Press.Ram > 0 {
		q.Gauge = q.Peak / (math.Pi * j.Press.Ram * j.Press.Ram / 4)
	}
	if p.Metal.Ranged {
		if q.Low, err = p.pressEnd(q, p.Metal.Spread.Low); err != nil {
			return err
		}
		if q.High, err = p.pressEnd(q, p.Metal.Spread.High); err != nil {
			return err
		}
	}
	k := stack.StripCurvature(final.Crown)
	bent := 2 * final.Developed()
	if final.Wrap > 0 {
		bent = 2 * float64(final.Wrap) / k
	}
	after := bend.ReleaseStrip(stack.Strip, k, bent)
	q.Strip = StripAfter{after, after.Rise <= p.Strip.Thickness/2}
	p.Press = q
	return nil
}

// pressEnd returns the press at another proof stress, on the same block and
// rig, or nil with advice when that metal can't be brought to the angle there.
func (p *Plan) pressEnd(q *Press, proof float64) (*PressEnd, error) {
	m, err := bend.NewPress(p.stack(proof, p.Metal.Law.Exponent), q.Rig, p.Nominal.Block)
	if err != nil {
		return nil, err
	}
	at, err := m.ToTravel(q.Final.Travel)
	var final bend.State
	if err == nil {
		final, err = m.ToMelted(p.Job.Bend.Angle)
	}
	if err != nil {
		p.adviseIn(Warning, "press", func(u quantity.Units) string {
			return fmt.Sprintf("metal of %s proof stress can't be brought to the angle on these supports: %s", u.Stress(proof), why(err))
		})
		return nil, nil
	}
	return &PressEnd{Proof: proof, Final: final, AtTravel: at.Melted}, nil
}

// existing fills Existing when the shop has a block.
func (p *Plan) existing() error {
	j := p.Job
	if j.Block.Existing == 0 {
		return nil
	}
	stack := p.nominalStack()
	kp := 1 / (j.Block.Existing + j.Tube.Depth/2)
	kf := bend.Release(stack.Tube, kp).Final
	e := &Existing{Block: j.Block.Existing, Radius: 1 / kf}
	// The drawing's arc length laid on this block, as a plain arc.
	e.Angle = geom.Angle(p.ArcLength() * kf)
	p.Existing = e
	model, final, err := p.existingOn(stack, e.Block)
	if err != nil {
		p.advise(Warning, "block.existing", "the block at hand can't make the angle: "+why(err))
		return nil
	}
	e.Supports = model.Rig().Supports
	e.Final = &final
	e.Gap = model.Finished(final).Gap(j.Bend.Radius)
	return nil
}

// trialError places what is wrong with the trials at the trial's own line.
func (p *Plan) trialError(err error) error {
	j := p.Job
	var e *bend.TrialError
	if !errors.As(err, &e) {
		return j.Errorf("trial", "%s", why(err))
	}
	t, u := j.Trials[e.Trial], p.units()
	at := func(key string) string { return fmt.Sprintf("trial[%d].%s", e.Trial, key) }
	switch {
	case e.Most > 0 && !math.IsNaN(t.Travel):
		return j.Errorf(at("travel"), "%s is not reached with this block on these supports; it must be at most %s", u.Length(t.Travel), u.Length(math.Floor(10*e.Most)/10))
	case e.Most > 0:
		return j.Errorf(at("loaded"), "%s is not reached with this block on these supports; it must be at most %s", u.Angle(t.Loaded), u.Angle(geom.Angle(e.Most)))
	}
	return j.Errorf(at("block"), "%s", why(e.Err))
}

// existingOn returns the model of a block at hand on the supports of the new
// block's press, so that both stand on one page, or where those will not do on
// supports of its own.
func (p *Plan) existingOn(stack bend.Stack, block float64) (*bend.Press, bend.State, error) {
	if q := p.Press; q != nil {
		if m, err := bend.NewPress(stack, q.Rig, block); err == nil {
			if s, err := m.ToMelted(p.Job.Bend.Angle); err == nil {
				return m, s, nil
			}
		}
	}
	return p.pressOn(stack, block)
}

// learn fits the metal to the job's trials and replaces the catalogue's range
// by the fit's.
func (p *Plan) learn() error {
	j := p.Job
	if len(j.Trials) == 0 {
		return nil
	}
	catalogue := p.Metal.Spread.Nominal
	rig := bend.Rig{Supports: j.Press.Supports, Roller: j.Press.Roller}
	trials := make([]bend.Trial, len(j.Trials))
	for i, t := range j.Trials {
		if rig.Supports == 0 && !math.IsNaN(t.Travel) {
			return j.Errorf(fmt.Sprintf("trial[%d].travel", i), "a travel says nothing without the supports it was pressed on; give press.supports, or loaded instead of travel")
		}
		trials[i] = bend.Trial{
			Block: t.BlockRadius, Travel: t.Travel, Loaded: t.Loaded,
			Filled: t.Filled, Melted: t.Melted, Chord: t.Chord, Rise: t.Rise,
			AngleError: t.AngleError, RiseError: t.RiseError,
		}
	}
	if rig.Supports == 0 {
		s, err := bend.Overbend(bend.Hollow(j.Tube, p.Metal.Law), 1/j.Bend.Radius)
		if err != nil {
			return err
		}
		m, _, err := p.pressOn(p.nominalStack(), 1/s.Pressed-j.Tube.Depth/2)
		if err != nil {
			p.advise(Warning, "trial", "the trials are left out: "+why(err))
			return nil
		}
		rig = m.Rig()
		p.adviseIn(Warning, "trial", func(u quantity.Units) string {
			return fmt.Sprintf("the trials are taken as pressed on supports %s apart, the spacing proposed without them: give press.supports as they stood", u.Length(rig.Supports))
		})
	}
	fit, err := bend.FitTrials(trials, rig, p.stack, catalogue, p.Metal.Law.Exponent)
	if err != nil {
		return p.trialError(err)
	}
	t := &Trial{Fit: fit, Catalogue: catalogue}
	switch {
	case fit.Proof > suspectFactor*catalogue:
		t.Suspect = TooHard
	case fit.Proof < catalogue/suspectFactor:
		t.Suspect = TooSoft
	}
	p.Trial = t
	p.adviseTrial()
	// Two standard deviations either way, as for the catalogue's range.
	p.Metal = Metal{
		Spread: profiles.Spread{
			Low:     max(fit.Proof-2*fit.ProofError, fit.Proof/4),
			Nominal: fit.Proof,
			High:    fit.Proof + 2*fit.ProofError,
		},
		Ranged: true,
		Source: "fitted to " + p.trials(),
		Law:    profiles.RambergOsgood{Youngs: p.Metal.Law.Youngs, Proof: fit.Proof, Exponent: fit.Exponent},
	}
	return nil
}

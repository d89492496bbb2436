package plan

import (
	"cmp"
	"math"
	"slices"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/profiles"
)

// Sensitivity is what each uncertain input does to a job that is made as planned: the
// block is cut and the ram pushed for the nominal values, while one input is really
// at an end of its interval.
type Sensitivity struct {
	Site    Site
	Block   float64  // radius of the block that is pushed, mm
	Rig     bend.Rig // that it is pushed on
	Travel  float64  // that it is pushed to, mm
	Pressed bool     // a press state makes the part; without, no outcome has an angle or a force
	Planned Outcome
	Inputs  []Swing // the largest change of the angle first, then of force and radius
	// Down and Up are the root of the sum of the squares of the inputs' changes, those
	// below 0 and those above it each by themselves, as independent inputs of linear
	// effect add up. An end without a number is left out.
	Down, Up Change

	plan *Plan // whose tables the ends are worked out with
}

// Site says which block a sensitivity is about.
type Site string

// The sites.
const (
	NewBlock  Site = "new"
	RackBlock Site = "rack"    // the one of the rack that the job uses
	HandBlock Site = "at hand" // the one that the job names by its radius
)

// Outcome is what comes of inputs. NaN stands for what there is not.
type Outcome struct {
	Right float64    // radius of the new block that would be right for them, mm
	Angle geom.Angle // after melt-out, of the planned block at the planned travel
	Force float64    // largest on the way there, with friction, N
	// Why says what keeps the job from being made so: no press state gives an angle, or
	// a limit is passed that is kept as planned. Nil where nothing does.
	Why *words.Reason
}

// Change is by how much an outcome differs from the planned one.
type Change struct {
	Right float64    // mm
	Angle geom.Angle // radians
	Force float64    // N
}

// Measure is a number of a change.
type Measure struct {
	Name string
	Kind quantity.Kind
	Of   func(Change) float64
}

// Measures returns what inputs move, in the order of their weight.
func (s *Sensitivity) Measures() []Measure {
	right := Measure{words.RightBlock, quantity.Radius, func(c Change) float64 { return c.Right }}
	if !s.Pressed {
		return []Measure{right}
	}
	return []Measure{
		{words.PartAngle, quantity.Angle, func(c Change) float64 { return float64(c.Angle) }},
		right,
		{words.PressForce, quantity.Force, func(c Change) float64 { return c.Force }},
	}
}

// Swing is an input over its interval.
type Swing struct {
	Input              profiles.Input
	Kind               quantity.Kind // of its values
	Low, Nominal, High float64
	Source             words.Reason // of the interval
	AtLow, AtHigh      Outcome
}

// Changes returns an outcome's difference from the planned one.
func (s *Sensitivity) Changes(o Outcome) Change {
	return Change{o.Right - s.Planned.Right, o.Angle - s.Planned.Angle, o.Force - s.Planned.Force}
}

// Sensitivity works out what the inputs do. A block at hand that gives the angle is
// what is pushed, else the one that the kit is made around.
func (p *Plan) Sensitivity() (*Sensitivity, error) {
	s := &Sensitivity{Site: NewBlock, Block: p.Working, plan: p}
	q := p.Press
	switch e := p.Existing; {
	case e != nil && e.Press != nil:
		s.Site, s.Block, q = HandBlock, e.Block, e.Press
	case p.Ready != nil:
		s.Site = RackBlock
	}
	planned := setting{j: p.Job, curve: p.Metal.Curve, strip: p.Strip}
	if s.Pressed = q != nil; s.Pressed {
		s.Rig, s.Travel = q.Rig, q.Final.Travel
		planned.rig, planned.travel = s.Rig, s.Travel
	}
	var err error
	if s.Planned, err = s.outcome(planned, p.Job.Tube.Width); err != nil {
		return nil, err
	}
	if s.Pressed {
		s.Planned.Angle, s.Planned.Force = q.Final.Melted, q.PeakRubbed
	}
	for _, in := range inputs(p, s) {
		for _, end := range []struct {
			value float64
			to    *Outcome
		}{{in.Low, &in.AtLow}, {in.High, &in.AtHigh}} {
			at := planned
			in.set(&at, end.value)
			if *end.to, err = s.outcome(at, p.Job.Tube.Width); err != nil {
				return nil, err
			}
			if o := end.to; o.Why != nil && s.Planned.Why != nil && o.Why.Code == s.Planned.Why.Code {
				o.Why = nil // the plan is no better
			}
		}
		s.Inputs = append(s.Inputs, in.Swing)
		low, high := s.Changes(in.AtLow), s.Changes(in.AtHigh)
		s.Down, s.Up = s.Down.with(low, high, -1), s.Up.with(low, high, 1)
	}
	slices.SortStableFunc(s.Inputs, func(a, b Swing) int { return cmp.Or(s.order(a, b)...) })
	return s, nil
}

// with returns the change with one end of a further input: that which moves each
// outcome further towards sign, if any does.
func (c Change) with(low, high Change, sign float64) Change {
	add := func(sum, a, b float64) float64 {
		most := 0.0
		for _, v := range [2]float64{sign * a, sign * b} {
			if v > most { // and not where it is NaN
				most = v
			}
		}
		return sign*math.Hypot(sum, most) + 0 // no -0
	}
	return Change{
		add(c.Right, low.Right, high.Right),
		geom.Angle(add(float64(c.Angle), float64(low.Angle), float64(high.Angle))),
		add(c.Force, low.Force, high.Force),
	}
}

// order compares two inputs by how much they move angle, force and radius, to what
// is shown of them: the larger first. One without an angle at an end, where the plan
// has one, is larger than any with.
func (s *Sensitivity) order(a, b Swing) []int {
	size := func(w Swing, of func(Change) float64, fine float64) float64 {
		most := 0.0
		for _, o := range [2]Outcome{w.AtLow, w.AtHigh} {
			v := math.Abs(of(s.Changes(o)))
			if math.IsNaN(v) && s.Pressed {
				v = math.Inf(1)
			}
			if v > most {
				most = v
			}
		}
		return math.Round(most / fine)
	}
	by := func(of func(Change) float64, fine float64) int {
		return cmp.Compare(size(b, of, fine), size(a, of, fine))
	}
	return []int{
		by(func(c Change) float64 { return float64(c.Angle) }, geom.Degree.Radians()/100),
		by(func(c Change) float64 { return c.Force }, 1),
		by(func(c Change) float64 { return c.Right }, 0.01),
	}
}

// setting is all that a bend depends on and that may differ from what was planned.
type setting struct {
	j      job.Job
	curve  profiles.Curve // of the tube
	strip  Strip
	rig    bend.Rig
	travel float64 // mm
}

// outcome works a setting out on the planned block, with a strip of a width in mm. An
// error is a bug.
func (s *Sensitivity) outcome(t setting, strip float64) (Outcome, error) {
	o := Outcome{Right: math.NaN(), Angle: geom.Angle(math.NaN()), Force: math.NaN()}
	because := func(err error) (Outcome, error) {
		why := words.Because(err)
		o.Why = &why
		return o, nil
	}
	if err := t.j.Tube.Validate(); err != nil {
		return because(err)
	}
	m := s.metal(t)
	over, err := overbend(t.j, m, t.curve.Proof)
	if err != nil {
		return o, err
	}
	if o.Right = over.Block; !s.Pressed {
		return o, nil
	}
	// Read from the plan's tables, so that what stays as planned stays to the last bit.
	behind := s.plan.Strip.law
	if t.strip.Curve != s.plan.Strip.Curve {
		behind = t.strip.Curve.Law()
	}
	layers := stack(t.j, t.strip, m.law(t.curve.Proof))
	layers.Strip = bend.Massive(profiles.Solid{Width: strip, Depth: t.strip.Thickness}, behind)
	form, err := bend.NewForm(layers, s.Block)
	if err != nil {
		return o, err
	}
	model, err := form.On(t.rig)
	if err != nil {
		return because(err)
	}
	at, err := model.ToTravel(t.travel)
	if err != nil {
		return because(err)
	}
	force, err := model.Peak(at, t.j.Press.Friction)
	if err != nil {
		return because(err)
	}
	o.Angle, o.Force = at.Melted, force
	after, err := deformed(t.j, m, at.Crown)
	o.Why = t.passes(o.Force, after)
	return o, err
}

// metal returns the metal of a setting, with the plan's tables where they are of it.
func (s *Sensitivity) metal(t setting) Metal {
	m := Metal{Curve: t.curve}
	if t.curve == s.plan.Metal.Curve.At(t.curve.Proof) {
		m.laws = s.plan.Metal.laws
	}
	return m
}

// passes says which limit of press and metal a setting passes; nil for none.
func (t setting) passes(force float64, after Section) *words.Reason {
	p := t.j.Press
	switch {
	case after.Used > 1:
		return &words.Reason{Code: words.EndBreaks, Figures: words.Figures{"strain": quantity.Share.Of(after.After.OuterStrain), "elongation": quantity.Share.Of(t.j.Material.Elongation)}}
	case p.Capacity > 0 && force > p.Capacity:
		return &words.Reason{Code: words.EndOverCapacity, Figures: words.Figures{"force": quantity.Force.Of(force), "capacity": p.Rated.Of(p.Capacity)}}
	case p.Stroke > 0 && t.travel > p.Stroke:
		return &words.Reason{Code: words.EndOverStroke, Figures: words.Figures{"travel": quantity.Travel.Of(t.travel), "stroke": quantity.Length.Of(p.Stroke)}}
	}
	return nil
}

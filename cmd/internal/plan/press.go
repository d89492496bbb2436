package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// Press is a block at the press, new or at hand.
type Press struct {
	Block    float64 // radius, mm
	Rig      bend.Rig
	Proposed bool // the supports were chosen here
	Final    bend.State
	Schedule []bend.State // the way from first touch to the final state, as a plot draws it
	// Stops are where to let go and measure, in order of travel; the one that is
	// the final state makes the part.
	Stops []bend.State
	// Creep is how much more angle, let go, a mm more of travel gives at the end,
	// radians; 0 when it is not known.
	Creep geom.Angle
	Shape bend.Finished
	// Loaded is half of the centreline in the final state, under load: crown at
	// the origin, y against the push, to the roller contact.
	Loaded geom.Path
	Gap    bend.Gap
	// Peak is the largest force over the schedule, N: on widely spread supports
	// it can come before the end. FinalRubbed and PeakRubbed are the last and the
	// largest force with any friction at the rollers up to the job's.
	Peak, FinalRubbed, PeakRubbed float64
	Gauge                         float64 // pressure at the peak, MPa; 0 without a ram diameter
	// Needed is the largest force with friction over the metal's range, N, and
	// NeededBy the proof stress of the metal that needs it, MPa. Share is its share
	// of the press's capacity; 0 without one.
	Needed, NeededBy, Share float64
	// Wrap and angle at the ends of the metal's range: Low and High reach the
	// drawing's angle at these states; at the nominal travel they come out at
	// these angles. Nil without a range.
	Low, High *PressEnd
	// LeastLeg is the shortest leg in mm in which the tube is bent and not
	// dented or sheared, over the metal's range.
	LeastLeg float64
	// Strip is what the backing strip keeps.
	Strip StripAfter

	model *bend.Press
}

// LoadedAt returns half of the centreline under load in a state of this press,
// as [Press.Loaded] has the final one.
func (q *Press) LoadedAt(s bend.State) geom.Path { return q.model.LoadedLine(s) }

// PressEnd is the press at one end of the metal's range, on the same block.
type PressEnd struct {
	Proof    float64 // MPa
	Final    bend.State
	AtTravel geom.Angle // after melt-out, pushed to the nominal travel
	Gap      bend.Gap   // off the drawing, at its angle
	peak     float64    // largest force with friction, N
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

// leg returns the shortest leg left at the angle over the metal's range, mm.
func (q *Press) leg() float64 {
	return slices.MinFunc(q.finals(), func(a, b bend.State) int { return int(math.Copysign(1, a.Leg-b.Leg)) }).Leg
}

// travel returns the longest travel to the angle over the metal's range, mm.
func (q *Press) travel() float64 {
	most := 0.0
	for _, s := range q.finals() {
		most = max(most, s.Travel)
	}
	return most
}

// The defaults of the press.
const (
	widestSupports = 3000.0 // no shop press spreads further, mm
	leastLegDepths = 2.0    // of tube, between tangent point and roller
	mostShare      = 0.8    // of the capacity that a proposal may use
	mostGap        = 1.0    // off the drawing, mm, without a word
)

// supportStep is what proposed supports are whole steps of, mm.
func supportStep(j job.Job) float64 { return j.Units().Pick(10, 0.5) }

// A press of which nothing is said pushes so far and spreads so wide without a
// word, mm: common practice, no source.
func usualTravel(j job.Job) float64 { return j.Units().Pick(150, 6) }
func usualBed(j job.Job) float64    { return j.Units().Pick(700, 28) }

// site is where a block is worked out: what all its presses share.
type site struct {
	j     job.Job
	m     Metal
	strip Strip
	form  *bend.Form // the nominal metal on the block
	// strong is the strongest metal of the range on the same block: it decides
	// force, legs and so the supports. Equal to form without a range.
	strong *bend.Form
	lim    bend.Limits
	// proposed is the strong metal on the supports that were proposed for it.
	proposed pushed
}

// pushed is a model at the drawing's angle.
type pushed struct {
	model *bend.Press
	final bend.State
}

// newSite returns the site of a block of a radius in mm.
func newSite(j job.Job, m Metal, strip Strip, block float64) (*site, error) {
	s := &site{j: j, m: m, strip: strip}
	var err error
	if s.form, err = bend.NewForm(stack(j, strip, m.law(m.Curve.Proof)), block); err != nil {
		return nil, err
	}
	s.strong = s.form
	if m.Ranged {
		if s.strong, err = bend.NewForm(stack(j, strip, m.law(m.Spread.High)), block); err != nil {
			return nil, err
		}
	}
	s.lim = bend.Limits{
		Step: supportStep(j), MostF: mostShare * j.Press.Capacity, Mu: j.Press.Friction,
		LeastL:  s.leastLeg(),
		Largest: widestSupports,
	}
	if j.Press.Bed > 0 {
		s.lim.Largest = j.Press.Bed
	}
	return s, nil
}

// leastLeg returns the shortest leg in mm in which the strongest tube is neither
// dented nor sheared on this block.
func (s *site) leastLeg() float64 {
	return max(leastLegDepths*s.j.Tube.Depth, bend.LeastLeg(s.j.Tube, s.m.law(s.m.Spread.High), s.form.Curvature()))
}

// on returns the model of the block on the job's supports, or on proposed ones,
// and its state at the drawing's angle. Supports are proposed for the strongest
// metal of the range or, where there are none for that, for the nominal one.
func (s *site) on() (*bend.Press, bend.State, error) {
	rig := bend.Rig{Supports: s.j.Press.Supports, Roller: s.j.Press.Roller}
	if rig.Supports > 0 {
		return s.push(s.form, rig)
	}
	return s.propose()
}

// propose returns the model on proposed supports and its state at the angle.
func (s *site) propose() (*bend.Press, bend.State, error) {
	angle, roller := s.j.Bend.Angle, s.j.Press.Roller
	if s.strong != s.form {
		if strong, final, err := s.strong.Propose(angle, roller, s.lim); err == nil {
			s.proposed = pushed{strong, final}
			if model, final, err := s.push(s.form, strong.Rig()); err == nil {
				return model, final, nil
			}
		}
	}
	return s.form.Propose(angle, roller, s.lim)
}

// push returns the model of a form on a rig and its state at the drawing's angle.
func (s *site) push(form *bend.Form, rig bend.Rig) (*bend.Press, bend.State, error) {
	if p := s.proposed; p.model != nil && p.model.Form == form && p.model.Rig() == rig {
		return p.model, p.final, nil
	}
	model, err := form.On(rig)
	if err != nil {
		return nil, bend.State{}, err
	}
	final, err := model.ToMelted(s.j.Bend.Angle)
	return model, final, err
}

// press works the block of a radius in mm that the kit is made around out at the
// press. A rig that the file states and that
// can't be is the file's error; a press that is too weak or a bend that no rig
// makes is advice that stops the job.
func press(j job.Job, m Metal, strip Strip, block float64) (*Press, []words.Advice, error) {
	s, err := newSite(j, m, strip, block)
	if err != nil {
		return nil, nil, err
	}
	model, final, err := s.on()
	if err != nil {
		why := words.Because(err)
		if j.Press.Supports > 0 && errors.Is(err, bend.ErrNoSolution) {
			return nil, nil, fault(j, "press.supports", s.instead(why))
		}
		instead := largestAngle(j, func(j job.Job) bool {
			s := *s
			s.j = j
			_, _, err := s.on()
			return err == nil
		})
		return nil, []words.Advice{say(words.Stop, words.SetUp, "press", words.NoSetUp, words.Figures{"why": why, "instead": instead})}, nil
	}
	q, said, err := s.press(model, final)
	if err != nil {
		return nil, nil, err
	}
	q.Proposed = j.Press.Supports == 0
	return q, slices.Concat(said, s.advice(q), []words.Advice{q.Strip.advice()}), nil
}

// instead adds to a reason against the job's supports the least spacing that
// would do, where one does.
func (s *site) instead(why words.Reason) words.Reason {
	model, _, err := s.propose()
	if err != nil {
		return why
	}
	return words.Reason{Code: words.SupportsInstead, Figures: words.Figures{"why": why, "supports": quantity.Length.Of(model.Rig().Supports)}}
}

// press gathers what there is to know of the way to a state at the drawing's
// angle.
func (s *site) press(model *bend.Press, final bend.State) (*Press, []words.Advice, error) {
	mu := s.j.Press.Friction
	course, err := model.Course(final)
	if err != nil {
		return nil, nil, err
	}
	q := &Press{
		Block: model.Block(), Rig: model.Rig(), Final: final, Schedule: course.Steps,
		Peak: course.Peak(0), PeakRubbed: course.Peak(mu), FinalRubbed: final.LargestForce(mu),
		Shape: model.Finished(final), Loaded: model.LoadedLine(final), LeastLeg: s.lim.LeastL,
		model: model,
	}
	q.Gap = q.Shape.Gap(s.j.Bend.Radius)
	if s.j.Press.Ram > 0 {
		q.Gauge = bend.GaugePressure(q.Peak, s.j.Press.Ram)
	}
	q.Needed, q.NeededBy = q.PeakRubbed, s.m.Curve.Proof
	var said []words.Advice
	if s.m.Ranged {
		for _, end := range []struct {
			proof float64
			form  *bend.Form
			to    **PressEnd
		}{{s.m.Spread.Low, nil, &q.Low}, {s.m.Spread.High, s.strong, &q.High}} {
			e, a, err := s.end(end.form, end.proof, q)
			if err != nil {
				return nil, nil, err
			}
			if e != nil && e.peak > q.Needed {
				q.Needed, q.NeededBy = e.peak, e.Proof
			}
			*end.to, said = e, append(said, a...)
		}
	}
	q.Stops, q.Creep = q.stops(model), creep(model, q.Final)
	if s.j.Press.Capacity > 0 {
		q.Share = q.Needed / s.j.Press.Capacity
	}
	q.Strip = s.strip.after(stack(s.j, s.strip, s.m.law(s.m.Curve.Proof)), q.Final)
	return q, said, nil
}

// end returns the press with the metal at another proof stress in MPa, on the same block and rig,
// or nil with advice when that can't be brought to the angle there. The form is
// that metal's, where it is known.
func (s *site) end(form *bend.Form, proof float64, q *Press) (*PressEnd, []words.Advice, error) {
	var err error
	if form == nil {
		if form, err = bend.NewForm(stack(s.j, s.strip, s.m.law(proof)), q.Block); err != nil {
			return nil, nil, fmt.Errorf("end of the metal's range: %w", err)
		}
	}
	model, final, err := s.push(form, q.Rig)
	var at bend.State
	if err == nil {
		at, err = model.ToTravel(q.Final.Travel)
	}
	peak := 0.0
	if err == nil {
		peak, err = model.Peak(final, s.j.Press.Friction)
	}
	if err != nil {
		return nil, []words.Advice{say(words.Warning, words.SetUp, "press", words.MetalNotReached, words.Figures{
			"proof": quantity.Stress.Of(proof), "why": words.Because(err),
		})}, nil
	}
	return &PressEnd{
		Proof: proof, Final: final, AtTravel: at.Melted,
		Gap: model.Finished(final).Gap(s.j.Bend.Radius), peak: peak,
	}, nil, nil
}

// advice says whether the press, the strip and the fit to the drawing are good
// enough: the same for every block.
func (s *site) advice(q *Press) []words.Advice {
	var said []words.Advice
	j, length := s.j, quantity.Length.Of
	add := func(l words.Level, step words.Step, about string, c words.Code, f words.Figures) {
		said = append(said, say(l, step, about, c, f))
	}
	weak := words.Figures{
		"needed": quantity.Force.Of(q.Needed), "capacity": j.Press.Rated.Of(j.Press.Capacity), "proof": quantity.Stress.Of(q.NeededBy),
		"share": quantity.Share.Of(q.Share),
	}
	switch {
	case q.Share > 1:
		weak["instead"] = s.other(q, wider, words.SupportsNeedLess, words.NoSupportsNeedLess, func(o *trialRun) bool { return o.needed <= j.Press.Capacity && s.takes(o) })
		add(words.Stop, words.SetUp, "press.capacity", words.PressTooWeak, weak)
	case q.Share > mostShare:
		weak["instead"] = s.other(q, wider, words.SupportsNeedLess, words.NoSupportsNeedLess, func(o *trialRun) bool { return o.needed <= mostShare*j.Press.Capacity && s.takes(o) })
		add(words.Warning, words.SetUp, "press", words.PressNearCapacity, weak)
	}
	if leg := q.leg(); leg < q.LeastLeg-1e-9 {
		code := words.LegShort
		if q.LeastLeg > leastLegDepths*j.Tube.Depth {
			code = words.LegSheared
		}
		add(words.Warning, words.SetUp, "press.supports", code, words.Figures{
			"leg": length(leg), "least": length(q.LeastLeg),
			"instead": s.other(q, wider, words.SupportsLeaveLeg, words.NoSupportsLeaveLeg, func(o *trialRun) bool { return o.leg >= q.LeastLeg && s.takes(o) }),
		})
	}
	switch travel := q.travel(); {
	case j.Press.Stroke > 0 && travel > j.Press.Stroke:
		add(words.Stop, words.SetUp, "press.stroke", words.StrokeTooShort, words.Figures{
			"travel": length(travel), "stroke": length(j.Press.Stroke),
			"instead": s.other(q, closer, words.SupportsTakeLess, words.NoSupportsTakeLess, func(o *trialRun) bool {
				return o.leg >= q.LeastLeg && s.takes(o)
			}),
		})
	case j.Press.Stroke == 0 && travel > usualTravel(j):
		add(words.Caution, words.SetUp, "press.stroke", words.LongTravel, words.Figures{"travel": quantity.Travel.Of(travel), "usual": length(usualTravel(j))})
	}
	if j.Press.Bed == 0 && q.Rig.Supports > usualBed(j) {
		add(words.Caution, words.SetUp, "press.bed", words.WideSupports, words.Figures{"supports": length(q.Rig.Supports), "usual": length(usualBed(j))})
	}
	if q.Final.HalfWrap == 0 {
		add(words.Warning, words.SetUp, "press", words.OffTheBlock, words.Figures{
			"radius": length(1 / q.Final.Crown), "wanted": length(1 / s.form.Curvature()),
			"instead": s.other(q, closer, words.SupportsLayIt, words.NoSupportsLayIt, func(o *trialRun) bool {
				return o.final.HalfWrap > 0 && o.leg >= q.LeastLeg && s.takes(o)
			}),
		})
	}
	if q.Gap.Size > mostGap {
		add(words.Warning, words.Check, "fit", words.OffTheDrawing, words.Figures{
			"gap": length(q.Gap.Size),
			"instead": s.other(q, closer, words.SupportsFitBetter, words.NoSupportsFitBetter, func(o *trialRun) bool {
				return o.gap() < 0.9*q.Gap.Size && o.leg >= q.LeastLeg && s.takes(o)
			}),
		})
	}
	return said
}

// takes reports whether the press has the force and the stroke for it.
func (s *site) takes(o *trialRun) bool {
	p := s.j.Press
	return (p.Capacity == 0 || o.needed <= p.Capacity) && (p.Stroke == 0 || o.travel <= p.Stroke)
}

// trialRun is the block on other supports: what advice turns on, over the
// metal's range.
type trialRun struct {
	model               *bend.Press
	final               bend.State
	needed, leg, travel float64
	radius              float64 // of the drawing
}

// gap returns how far the finished centreline lies off the drawing's, mm.
func (o *trialRun) gap() float64 { return o.model.Finished(o.final).Gap(o.radius).Size }

// The ways to move supports: by a twentieth at a time.
const (
	wider  = 1.05
	closer = 1 / 1.05
)

// other looks for supports further apart or closer on which something that
// advice would promise holds, and says so, or that there are none: advice is
// tested before it is given.
func (s *site) other(q *Press, way float64, found, none words.Code, good func(*trialRun) bool) words.Reason {
	spacing, last := q.Rig.Supports, q.Rig.Supports
	for range 40 {
		spacing *= way
		n := math.Ceil(spacing/s.lim.Step - 1e-9)
		if way < 1 {
			n = math.Floor(spacing/s.lim.Step + 1e-9)
		}
		at := n * s.lim.Step
		if at > s.lim.Largest || at <= q.Rig.Roller {
			break
		}
		if at == last {
			continue
		}
		last = at
		if o, ok := s.run(bend.Rig{Supports: at, Roller: q.Rig.Roller}); ok && good(o) {
			return words.Reason{Code: found, Figures: words.Figures{"supports": quantity.Length.Of(at)}}
		}
	}
	return words.Reason{Code: none}
}

// run tries a rig.
func (s *site) run(rig bend.Rig) (*trialRun, bool) {
	model, final, err := s.push(s.form, rig)
	if err != nil {
		return nil, false
	}
	o := &trialRun{model: model, final: final, radius: s.j.Bend.Radius, leg: final.Leg, travel: final.Travel}
	if o.needed, err = model.Peak(final, s.j.Press.Friction); err != nil {
		return nil, false
	}
	if s.strong != s.form {
		model, final, err := s.push(s.strong, rig)
		if err != nil {
			return nil, false
		}
		peak, err := model.Peak(final, s.j.Press.Friction)
		if err != nil {
			return nil, false
		}
		o.needed, o.leg, o.travel = max(o.needed, peak), min(o.leg, final.Leg), max(o.travel, final.Travel)
	}
	return o, true
}

// advice says what the strip is good for afterwards.
func (s StripAfter) advice() words.Advice {
	if s.Reusable {
		return say(words.Note, words.Press, "strip", words.StripStaysFlat, nil)
	}
	return say(words.Note, words.Press, "strip", words.StripKeepsSet, words.Figures{"radius": quantity.Radius.Of(s.Radius())})
}

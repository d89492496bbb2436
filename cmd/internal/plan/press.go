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
	"overbend/profiles"
)

// Press is a block at the press.
type Press struct {
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

// PressEnd is the press at one end of the metal's range, on the block cut for
// the nominal metal.
type PressEnd struct {
	Proof    float64 // MPa
	Final    bend.State
	AtTravel geom.Angle // after melt-out, pushed to the nominal travel
	Gap      bend.Gap   // off the drawing, at its angle
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

// The defaults of the press.
const (
	supportStep     = 10.0 // mm; 1/2 in would be 12.7
	supportStepInch = 12.7
	widestSupports  = 3000.0 // no shop press spreads further, mm
	leastLegDepths  = 2.0    // of tube, between tangent point and roller
	mostShare       = 0.8    // of the capacity that a proposal may use
	mostGap         = 1.0    // off the drawing, mm, without a word
)

// limits returns what bounds a proposal of supports.
func limits(j job.Job) bend.Limits {
	step := supportStep
	if j.Inches {
		step = supportStepInch
	}
	return bend.Limits{
		Step:    step,
		LeastL:  leastLegDepths * j.Tube.Depth,
		MostF:   mostShare * j.Press.Capacity,
		Largest: widestSupports,
	}
}

// pressOn returns the model of a block of a radius in mm on the job's supports,
// or on proposed ones, and its course to the drawing's angle.
func pressOn(j job.Job, under bend.Stack, block float64) (*bend.Press, bend.Course, error) {
	form, err := bend.NewForm(under, block)
	if err != nil {
		return nil, bend.Course{}, err
	}
	if j.Press.Supports == 0 {
		return form.Propose(j.Bend.Angle, j.Press.Roller, limits(j))
	}
	return pushOn(j, form, bend.Rig{Supports: j.Press.Supports, Roller: j.Press.Roller})
}

// pushOn returns the model of a form on a rig and its course to the drawing's
// angle.
func pushOn(j job.Job, form *bend.Form, rig bend.Rig) (*bend.Press, bend.Course, error) {
	model, err := form.On(rig)
	if err != nil {
		return nil, bend.Course{}, err
	}
	final, err := model.ToMelted(j.Bend.Angle)
	if err != nil {
		return nil, bend.Course{}, err
	}
	course, err := model.Course(final)
	return model, course, err
}

// press works the new block out at the press. A rig that the file states and that
// can't be is the file's error; a press that is too weak or a bend that no rig
// makes is advice that stops the job.
func press(j job.Job, m Metal, strip Strip, over Overbend) (*Press, []words.Advice, error) {
	model, course, err := pressOn(j, stack(j, strip, m.Curve), over.Block)
	if err != nil {
		why := words.Because(err)
		if j.Press.Supports > 0 && errors.Is(err, bend.ErrNoSolution) {
			return nil, nil, fault(j, "press.supports", why)
		}
		return nil, []words.Advice{say(words.Stop, words.SetUp, "press", words.NoSetUp, words.Figures{"why": why})}, nil
	}
	q, said, err := pressed(j, m, strip, model, course)
	if err != nil {
		return nil, nil, err
	}
	q.Proposed = j.Press.Supports == 0
	return q, append(said, q.advice(j, over)...), nil
}

// pressed gathers what there is to know of a course to the drawing's angle.
func pressed(j job.Job, m Metal, strip Strip, model *bend.Press, course bend.Course) (*Press, []words.Advice, error) {
	q := &Press{Rig: model.Rig(), Final: course.Final(), Schedule: course.Steps, Peak: course.Peak}
	q.Shape = model.Finished(q.Final)
	q.Loaded = model.LoadedLine(q.Final)
	q.Gap = q.Shape.Gap(j.Bend.Radius)
	if j.Press.Capacity > 0 {
		q.Share = q.Peak / j.Press.Capacity
	}
	if j.Press.Ram > 0 {
		q.Gauge = bend.GaugePressure(q.Peak, j.Press.Ram)
	}
	var said []words.Advice
	if m.Ranged {
		for _, end := range []struct {
			proof float64
			to    **PressEnd
		}{{m.Spread.Low, &q.Low}, {m.Spread.High, &q.High}} {
			e, a, err := pressEnd(j, m.Curve.At(end.proof), strip, q, model.Block())
			if err != nil {
				return nil, nil, err
			}
			*end.to, said = e, append(said, a...)
		}
	}
	q.Stops, q.Creep = q.stops(model), creep(model, q.Final)
	q.Strip = strip.after(stack(j, strip, m.Curve), q.Final)
	return q, said, nil
}

// pressEnd returns the press with the metal of another law, on the same block
// and rig, or nil with advice when that can't be brought to the angle there.
func pressEnd(j job.Job, curve profiles.Curve, strip Strip, q *Press, block float64) (*PressEnd, []words.Advice, error) {
	form, err := bend.NewForm(stack(j, strip, curve), block)
	if err != nil {
		return nil, nil, fmt.Errorf("end of the metal's range: %w", err)
	}
	model, err := form.On(q.Rig)
	if err != nil {
		return nil, nil, fmt.Errorf("end of the metal's range: %w", err)
	}
	at, err := model.ToTravel(q.Final.Travel)
	var final bend.State
	if err == nil {
		final, err = model.ToMelted(j.Bend.Angle)
	}
	if err != nil {
		return nil, []words.Advice{say(words.Warning, words.SetUp, "press", words.MetalNotReached, words.Figures{
			"proof": quantity.Stress.Of(curve.Proof), "why": words.Because(err),
		})}, nil
	}
	return &PressEnd{Proof: curve.Proof, Final: final, AtTravel: at.Melted, Gap: model.Finished(final).Gap(j.Bend.Radius)}, nil, nil
}

// advice says whether the press, the strip and the fit to the drawing are good
// enough.
func (q *Press) advice(j job.Job, over Overbend) []words.Advice {
	var said []words.Advice
	length := quantity.Length.Of
	add := func(l words.Level, s words.Step, about string, c words.Code, f words.Figures) {
		said = append(said, say(l, s, about, c, f))
	}
	switch {
	case q.Share > 1:
		add(words.Stop, words.SetUp, "press", words.PressTooWeak, words.Figures{"needed": quantity.Force.Of(q.Peak), "capacity": quantity.Force.Of(j.Press.Capacity)})
	case q.Share > mostShare:
		add(words.Warning, words.SetUp, "press", words.PressNearCapacity, words.Figures{"share": quantity.Share.Of(q.Share)})
	}
	if least := leastLegDepths * j.Tube.Depth; q.Final.Leg < least-1e-9 {
		add(words.Warning, words.SetUp, "press.supports", words.LegShort, words.Figures{"leg": length(q.Final.Leg), "least": length(least)})
	}
	if q.Final.Wrap == 0 {
		add(words.Warning, words.SetUp, "press", words.OffTheBlock, words.Figures{"radius": length(1 / q.Final.Crown), "wanted": length(over.Pressed.Radius)})
	}
	if q.Gap.Size > mostGap {
		add(words.Warning, words.Check, "fit", words.OffTheDrawing, words.Figures{"gap": length(q.Gap.Size)})
	}
	if q.Strip.Reusable {
		add(words.Note, words.Press, "strip", words.StripStaysFlat, nil)
	} else {
		add(words.Note, words.Press, "strip", words.StripKeepsSet, words.Figures{"radius": length(math.Round(q.Strip.Radius()))})
	}
	return said
}

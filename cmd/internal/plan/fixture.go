package plan

import (
	"cmp"
	"errors"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/words"
	"overbend/geom/tooling"
)

// Fixture is the plate on which the bent part's ends are cut.
type Fixture struct {
	tooling.Fixture
	Plate float64 // thickness, mm
	// Gap is how far the finished part, which the pins touch, lies off the drawing's
	// at most, mm.
	Gap float64
}

// finished returns the part as drawn and the fixture for its ends; nil where the
// part leaves no room for one, which is no reason not to bend it.
func finished(j job.Job, q *Press, sec Section, t Tools) (*tooling.Bent, *Fixture, []words.Advice, error) {
	spec := tooling.BentSpec{Radius: j.Bend.Radius, Depth: j.Tube.Depth, Angle: j.Bend.Angle, Legs: j.Bend.Legs, Cuts: j.Ends.Cut}
	part, err := tooling.NewBent(spec)
	if err != nil {
		return nil, nil, nil, err
	}
	f := Fixture{Plate: cmp.Or(j.Fixture.Plate, t.Plate)}
	shape := spec.AsDrawn()
	if q != nil {
		shape, f.Gap = tooling.Finished{Half: q.Shape.Line, Shift: q.Gap.Shift}, q.Gap.Size
	}
	round := 5.0 // mm
	if j.Inches {
		round = j.Units().MM(0.25)
	}
	// The blank's ends: its arc grows as it is bent, its legs do not.
	arc := j.Bend.Length() / 2
	grown := arc - arc/(1+sec.After.ArcGrowth)
	f.Fixture, err = tooling.NewFixture(tooling.FixtureSpec{
		Bent: spec, Shape: shape, Pin: j.Fixture.Pin, Size: j.Fixture.Size, Round: round,
		Rough: [2]float64{t.Blank.Middle + grown, t.Blank.Length - t.Blank.Middle + grown},
	})
	var size *tooling.SizeError
	var sheet *tooling.SheetError
	switch {
	case errors.As(err, &sheet):
		return nil, nil, nil, fault(j, "fixture.size", words.Because(sheet))
	case errors.As(err, &size) && (size.Why == tooling.NoRoomForPins || size.Why == tooling.PlateTooLarge):
		return &part, nil, []words.Advice{{Level: words.Note, Step: words.Cut, About: "fixture", Reason: words.Because(size)}}, nil
	case err != nil:
		return nil, nil, nil, err
	}
	var said []words.Advice
	if f.Pins[len(f.Pins)-1].Touches != tooling.TouchEnd {
		said = append(said, say(words.Note, words.Cut, "fixture", words.FixtureNoStop, nil))
	}
	return &part, &f, said, nil
}

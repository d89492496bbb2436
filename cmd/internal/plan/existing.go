package plan

import (
	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// Existing is what a block gives that the shop already has.
type Existing struct {
	Block float64 // radius, mm
	// Plain is the drawing's arc length laid on this block and let go, as a
	// plain arc.
	Plain geom.Bend
	Final *bend.State // at the drawing's angle; nil when no state gives it
	// Supports are roller centre to roller centre in that state, mm.
	Supports float64
	Gap      bend.Gap
}

// existing works out a block that the shop has; nil without one. It stands on
// the supports of the new block's press, so that both stand on one page, or where
// those will not do on supports of its own.
func existing(j job.Job, m Metal, strip Strip, q *Press) (*Existing, []words.Advice, error) {
	if j.Block.Existing == 0 {
		return nil, nil, nil
	}
	form, err := bend.NewForm(stack(j, strip, m.Curve), j.Block.Existing)
	if err != nil {
		return nil, nil, err
	}
	kf := form.Melted()
	e := &Existing{Block: form.Block(), Plain: geom.Bend{Radius: 1 / kf, Angle: geom.Angle(j.Bend.Length() * kf)}}
	var model *bend.Press
	var course bend.Course
	if q != nil {
		model, course, err = pushOn(j, form, q.Rig)
	}
	if q == nil || err != nil {
		model, course, err = pressOn(j, stack(j, strip, m.Curve), e.Block)
	}
	if err != nil {
		return e, []words.Advice{say(words.Warning, words.SetUp, "block.existing", words.ExistingCannot, words.Figures{"why": words.Because(err)})}, nil
	}
	final := course.Final()
	e.Supports, e.Final = model.Rig().Supports, &final
	e.Gap = model.Finished(final).Gap(j.Bend.Radius)
	length := quantity.Length.Of
	return e, []words.Advice{say(words.Note, words.SetUp, "block.existing", words.ExistingGives, words.Figures{
		"block": length(e.Block), "radius": quantity.Radius.Of(e.Plain.Radius), "travel": quantity.Travel.Of(final.Travel),
		"supports": length(e.Supports), "gap": length(e.Gap.Size),
	})}, nil
}

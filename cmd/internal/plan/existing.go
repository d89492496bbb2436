package plan

import (
	"math"
	"slices"

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
	// plain arc. A radius of 0 says that nothing of the bend stays.
	Plain   geom.Bend
	Section Section // After and Used alone
	Press   *Press  // at the drawing's angle; nil when no state gives it
	Works   bool    // every check that a new block must pass is passed
}

// existing works out a block that the job file names by its radius; nil without
// one. What fails is a warning, for the kit is the new block's.
func existing(j job.Job, m Metal, strip Strip, q *Press) (*Existing, []words.Advice, error) {
	if j.Block.Existing == 0 {
		return nil, nil, nil
	}
	length := quantity.Length.Of
	e, found, why, err := assess(j, m, strip, j.Block.Existing, q)
	if err != nil {
		return nil, nil, err
	}
	if e.Press == nil {
		return e, []words.Advice{say(words.Warning, words.SetUp, "block.existing", words.ExistingCannot, words.Figures{"why": why})}, nil
	}
	var said []words.Advice
	for _, a := range found {
		said = append(said, say(words.Warning, a.Step, "block.existing", words.OnExisting, words.Figures{"what": a.Reason}))
	}
	radius := any(quantity.Radius.Of(e.Plain.Radius))
	if e.Plain.Radius == 0 || math.IsInf(e.Plain.Radius, 0) {
		radius = words.Reason{Code: words.NoRadiusStays}
	}
	f := words.Figures{
		"block": length(e.Block), "radius": radius, "travel": quantity.Travel.Of(e.Press.Final.Travel), "force": quantity.Force.Of(e.Press.FinalRubbed),
		"supports": length(e.Press.Rig.Supports), "gap": length(e.Press.Gap.Size),
	}
	said = append(said, e.Section.left(words.ExistingLeft, "block.existing"))
	code := words.ExistingGives
	if !e.Works {
		code = words.ExistingFails
	}
	return e, append(said, say(words.Note, words.SetUp, "block.existing", code, f)), nil
}

// assess works out a block of a radius in mm that is there already. It stands on
// the supports of the new block's press, so that both stand on one page, or where
// those will not do on supports of its own. It gets every check that a new block
// gets: what stops or warns comes back with it, or where no state gives the
// drawing's angle the reason.
func assess(j job.Job, m Metal, strip Strip, block float64, q *Press) (*Existing, []words.Advice, words.Reason, error) {
	s, err := newSite(j, m, strip, block)
	if err != nil {
		return nil, nil, words.Reason{}, err
	}
	e := &Existing{Block: s.form.Block()}
	// Less than a thousandth of what was pressed is rounding.
	if kf := s.form.Melted(); kf > 1e-3*s.form.Curvature() {
		e.Plain = geom.Bend{Radius: 1 / kf, Angle: geom.Angle(j.Bend.Length() * kf)}
	}
	var model *bend.Press
	var final bend.State
	if q != nil {
		model, final, err = s.push(s.form, q.Rig)
	}
	if q == nil || err != nil {
		model, final, err = s.on()
	}
	if err != nil {
		why := words.Because(err)
		e.Section, err = deformed(j, m, s.form.Curvature())
		return e, nil, why, err
	}
	var found []words.Advice
	if e.Press, found, err = s.press(model, final); err != nil {
		return nil, nil, words.Reason{}, err
	}
	// Where the tube never lies on the block, the crown is bent less than it.
	if e.Section, err = deformed(j, m, e.Press.Final.Crown); err != nil {
		return nil, nil, words.Reason{}, err
	}
	stretch, err := e.Section.stretch(j, func() (words.Reason, error) { return leastBlock(j, m, e.Block) })
	if err != nil {
		return nil, nil, words.Reason{}, err
	}
	found = slices.DeleteFunc(slices.Concat(stretch, found, s.advice(e.Press)), func(a words.Advice) bool {
		return a.Level != words.Stop && a.Level != words.Warning
	})
	e.Works = !stops(found)
	return e, found, words.Reason{}, nil
}

// stops reports whether any advice says stop.
func stops(said []words.Advice) bool {
	return slices.ContainsFunc(said, func(a words.Advice) bool { return a.Level == words.Stop })
}

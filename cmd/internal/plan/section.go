package plan

import (
	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom/bend"
)

// Section is what the bend does to the tube's section.
type Section struct {
	After     bend.After
	Used      float64 // share of the elongation used up at the outer face
	Buckling  float64 // strain at which an empty tube's inner wall buckles
	NeedsFill bool
}

// elongationWarning is the share of the elongation after fracture above which
// a bend is warned of: common practice, no source.
const elongationWarning = 0.7

// section works out what the bend does to the tube at the pressed curvature, and
// whether it must be filled.
func section(j job.Job, m Metal, over Overbend) (Section, []words.Advice, error) {
	s := Section{After: bend.Deform(j.Tube, over.Pressed.Curvature())}
	if j.Material.Elongation > 0 {
		s.Used = s.After.Strain / j.Material.Elongation
	}
	var err error
	if s.Buckling, err = bend.BucklingStrain(j.Tube, m.Curve.Law(), j.Material.Poisson); err != nil {
		return s, nil, err
	}
	s.NeedsFill = s.After.Strain >= s.Buckling
	return s, s.advice(j), nil
}

func (s Section) advice(j job.Job) []words.Advice {
	var said []words.Advice
	share := quantity.Share.Of
	stretch := words.Figures{
		"strain": share(s.After.Strain), "used": share(s.Used),
		"elongation": share(j.Material.Elongation), "metal": j.Material.Name,
	}
	switch {
	case s.Used > 1:
		said = append(said, say(words.Stop, words.Design, "elongation", words.StretchBreaks, stretch))
	case s.Used > elongationWarning:
		said = append(said, say(words.Warning, words.Design, "elongation", words.StretchNear, stretch))
	}
	fill := words.Figures{"buckling": share(s.Buckling), "strain": share(s.After.Strain)}
	switch {
	case s.NeedsFill && j.Filler.Alloy.Name != "":
		said = append(said, say(words.Note, words.Fill, "filling", words.WrinklesButFilled, fill))
	case s.NeedsFill:
		said = append(said, say(words.Warning, words.Fill, "filling", words.WrinklesEmpty, fill))
	default:
		said = append(said, say(words.Note, words.Fill, "filling", words.HoldsEmpty, fill))
	}
	anneal := words.WhyNotAnnealAged
	if j.Material.Family.Ferrous() {
		anneal = words.WhyNotAnnealSteel
	}
	return append(said,
		say(words.Note, words.Fill, "annealing", anneal, nil),
		say(words.Note, words.Fill, "sand", words.WhyNotSand, nil))
}

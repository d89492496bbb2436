package plan

import (
	"slices"
	"strings"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
	"overbend/profiles"
)

// AtHand is what a block on the shop's rack gives, with every check that a new
// block gets.
type AtHand struct {
	shop.Block
	*Existing
	// Found is what stops it or warns of it.
	Found []words.Advice
	Best  bool // of those that do, the one that comes closest to the drawing
}

// rack works out the blocks that the shop has; none without any. One that fails
// says why; the best is named, unless the job uses one already.
func rack(j job.Job, m Metal, strip Strip, q *Press) ([]AtHand, []words.Advice, error) {
	out := make([]AtHand, 0, len(j.Rack))
	best := -1
	for _, b := range j.Rack {
		e, found, why, err := assess(j, m, strip, b.Radius, q)
		if err != nil {
			return nil, nil, err
		}
		if e.Press == nil {
			found = []words.Advice{say(words.Stop, words.SetUp, "press", words.ExistingCannot, words.Figures{"why": why})}
		} else {
			found = append(found, fits(j, b, e)...)
			e.Works = !stops(found)
		}
		out = append(out, AtHand{Block: b, Existing: e, Found: found})
		if i := len(out) - 1; e.Works && (best < 0 || e.Press.Gap.Size < out[best].Press.Gap.Size) {
			best = i
		}
	}
	switch {
	case len(out) == 0:
		return nil, nil, nil
	case best < 0:
		return out, []words.Advice{say(words.Note, words.SetUp, "block.use", words.RackNone, nil)}, nil
	}
	b := &out[best]
	b.Best = true
	if j.Block.Use != "" {
		return out, nil, nil
	}
	return out, []words.Advice{say(words.Note, words.SetUp, "block.use", words.RackBest, words.Figures{
		"name": b.Name, "block": quantity.Length.Of(b.Radius), "travel": quantity.Travel.Of(b.Press.Final.Travel),
		"force": quantity.Force.Of(b.Press.Needed), "gap": quantity.Length.Of(b.Press.Gap.Size),
	})}, nil
}

// fits returns what is wrong with the rest of a block that is there: its arc must
// reach as far as the tube lies on it over the metal's range, and its plates
// under both walls of the tube.
func fits(j job.Job, b shop.Block, e *Existing) []words.Advice {
	var said []words.Advice
	if wrap := 2 * wrapped(e.Press); b.Arc > 0 && b.Arc < wrap {
		said = append(said, say(words.Stop, words.SetUp, "block.use", words.RackArcShort, words.Figures{
			"arc": quantity.Reading.Of(float64(b.Arc)), "wrap": quantity.Reading.Of(float64(wrap)),
		}))
	}
	// The middle of one wall to that of the other.
	least := j.Tube.Width - j.Tube.Wall
	switch {
	case j.Tube.Shape == profiles.Round:
		said = append(said, say(words.Warning, words.SetUp, "block.use", words.RackGroove, words.Figures{"diameter": quantity.Length.Of(j.Tube.Depth)}))
	case b.Width > 0 && b.Width < least:
		said = append(said, say(words.Stop, words.SetUp, "block.use", words.RackNarrow, words.Figures{
			"width": quantity.Length.Of(b.Width), "least": quantity.Length.Of(least),
		}))
	}
	return said
}

// onRack returns the block of a name, whose case does not count; nil when there is none.
func onRack(j job.Job, name string) *shop.Block {
	if i := slices.IndexFunc(j.Rack, func(b shop.Block) bool { return strings.EqualFold(b.Name, name) }); i >= 0 {
		return &j.Rack[i]
	}
	return nil
}

// notOnRack says that the block which a job uses is none of the shop's.
func notOnRack(j job.Job) words.Reason {
	if len(j.Rack) == 0 {
		return words.Reason{Code: words.RackEmpty, Figures: words.Figures{"name": j.Block.Use}}
	}
	list := any(j.Rack[0].Name)
	for _, b := range j.Rack[1:] {
		list = words.Reason{Code: words.ListNext, Figures: words.Figures{"list": list, "next": b.Name}}
	}
	return words.Reason{Code: words.NotOnRack, Figures: words.Figures{"name": j.Block.Use, "all": list}}
}

// Package plan works a job out: a chain of functions, each a step that takes
// the job and what came before and returns its result, what there is to say
// about it, and an error. What terminal, JSON, job sheet and cut files present
// is all here, and nothing is computed after it.
//
// It reads no files, writes no sentence, lays nothing out and writes nothing.
package plan

import (
	"slices"
	"strings"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom/tooling"
)

// Plan is a job worked out. All values are SI-mm.
type Plan struct {
	Job   job.Job
	Metal Metal
	Strip Strip
	Springback
	Section
	Press    *Press // nil when no press state makes the part; Advice says why
	Existing *Existing
	Rack     []AtHand  // in the order of the shop file
	Forecast *Forecast // nil without trials
	Tools    Tools
	Pieces   []Piece       // to cut; none when a part can't be made
	Nest     *Nest         // nil when the job names no plate size
	Part     *tooling.Bent // as drawn, with its coordinates; nil when a part can't be made
	Fixture  *Fixture      // nil where there is no room for one: Advice says so
	Filler   *Filler       // nil without a filler
	Advice   []words.Advice
}

// New works a job out. An error is the job file's fault, or a bug; a job that
// can be worked out but not made comes back with advice that says
// [words.Stop].
//
// Of the rollers in the shop's file it is worked out for the first that makes the
// job, or where none does for the first.
func New(j job.Job) (*Plan, error) { return new(Tables).New(j) }

// New is [New] with the tables of jobs before.
func (t *Tables) New(j job.Job) (*Plan, error) {
	first, err := t.worked(j)
	if err != nil {
		return nil, err
	}
	for _, r := range j.Press.Rollers {
		if first.Feasible() {
			break
		}
		j.Press.Roller = r
		if p, err := t.worked(j); err == nil && p.Feasible() {
			return p, nil
		}
	}
	return first, nil
}

// worked works a job out for its rollers.
func (t *Tables) worked(j job.Job) (*Plan, error) {
	p := &Plan{Job: j, Strip: t.strip(j, stripOf(j))}
	var said [13][]words.Advice
	var err error
	if p.Metal, said[0], err = metal(j, p.Strip); err != nil {
		return nil, err
	}
	p.Metal.laws = t.metal(j, p.Metal)
	if p.Springback, said[1], err = springback(j, p.Metal); err != nil {
		return nil, err
	}
	if p.Section, said[2], err = section(j, p.Metal, p.crown(j.Tube.Depth)); err != nil {
		return nil, err
	}
	if p.Press, said[3], err = press(j, p.Metal, p.Strip, p.Working); err != nil {
		return nil, err
	}
	if p.Existing, said[4], err = existing(j, p.Metal, p.Strip, p.Press); err != nil {
		return nil, err
	}
	if p.Forecast, err = forecast(j, p.Metal, p.Strip, p.Press, p.Working); err != nil {
		return nil, err
	}
	said[5] = append(gauges(j), bath(j)...)
	if p.Tools, said[6], err = tools(j, p.Metal, p.Strip, p.Springback, p.Section, p.Press, p.Existing); err != nil {
		return nil, err
	}
	if p.Tools.Whole {
		if p.Part, p.Fixture, said[12], err = finished(j, p.Press, p.Section, p.Tools); err != nil {
			return nil, err
		}
		if p.Pieces, said[7], err = pieces(j, p.Strip, p.Springback, p.Tools, p.Fixture); err != nil {
			return nil, err
		}
		if p.Nest, err = nest(j, p.Tools.Process, p.Pieces); err != nil {
			return nil, err
		}
		if p.Filler, said[10], err = fill(j, p.Tools.Blank, p.Press, p.Existing); err != nil {
			return nil, err
		}
	}
	if p.Rack, said[8], err = rack(j, p.Metal, p.Strip, p.Press); err != nil {
		return nil, err
	}
	said[9] = safety()
	said[11] = shopGave(j)
	p.Advice = slices.Concat(said[:]...)
	p.Advice = append(p.Advice, letters(j, p.Advice)...)
	return p, nil
}

// Feasible reports whether no advice says stop.
func (p *Plan) Feasible() bool { return !stops(p.Advice) }

// say returns a piece of advice.
func say(l words.Level, s words.Step, about string, c words.Code, f words.Figures) words.Advice {
	return words.Advice{Level: l, Step: s, About: about, Reason: words.Reason{Code: c, Figures: f}}
}

// fault places a reason at a key of the job file, in the file's own units.
func fault(j job.Job, key string, r words.Reason) error {
	return j.Errorf(key, "%s", quantity.Plain(r.Say(j.Units())))
}

// gauges says how thicknesses were read that the job gives by their gauge.
func gauges(j job.Job) []words.Advice {
	var said []words.Advice
	for _, g := range j.Gauges {
		said = append(said, say(words.Note, words.Design, g.Key, words.GaugeRead, words.Figures{
			"number": g.Number, "thickness": quantity.Length.Of(g.Thickness), "list": string(g.List), "source": g.Source,
		}))
	}
	return said
}

// shopGave says what came from the shop's file, so that a kit shows it.
func shopGave(j job.Job) []words.Advice {
	if j.FromShop.File == "" {
		return nil
	}
	var all []string
	for _, u := range j.FromShop.Keys {
		all = append(all, u.Key+" "+u.Value)
	}
	return []words.Advice{say(words.Note, words.Anywhere, "shop", words.ShopGave, words.Figures{"file": j.FromShop.File, "keys": strings.Join(all, ", ")})}
}

// safety returns the cautions that hold for every job.
func safety() []words.Advice {
	return []words.Advice{
		say(words.Caution, words.Press, "press", words.StandAside, nil),
		say(words.Caution, words.SetUp, "block", words.TieTheBlock, nil),
		say(words.Caution, words.Anywhere, "structure", words.EngineerFirst, nil),
	}
}

package plan

import (
	"slices"
	"strings"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/profiles"
)

// racked works the base job's blocks on a rack out.
func racked(t *testing.T, j job.Job, blocks ...shop.Block) (chain, []AtHand, []words.Advice) {
	t.Helper()
	c := chained(t, j)
	c.j.Rack = blocks
	all, said, err := rack(c.j, c.m, c.strip, c.q)
	if err != nil || len(all) != len(blocks) {
		t.Fatalf("got %v, %v", all, err)
	}
	return c, all, said
}

// Each block on the rack gets the answer that it gets as the block at hand, in the
// order of the rack; the best is the one that comes closest to the drawing.
func TestRack(t *testing.T) {
	c, all, said := racked(t, jobOf(t, `press.capacity = "30 t"`),
		shop.Block{Name: "far", Radius: 330}, shop.Block{Name: "tight", Radius: 120},
		shop.Block{Name: "near", Radius: 360}, shop.Block{Name: "flat", Radius: 99000})
	for i, b := range all {
		e, _, err := existing(with(c.j, b.Radius), c.m, c.strip, c.q)
		if err != nil {
			t.Fatal(err)
		}
		if works := i == 0 || i == 2; e.Works != b.Works || b.Works != works || b.Best != (i == 2) {
			t.Errorf("%s: works %v, at hand %v, best %v", b.Name, b.Works, e.Works, b.Best)
		}
		if (b.Press == nil) != (e.Press == nil) || b.Press != nil && b.Press.Gap != e.Press.Gap {
			t.Errorf("%s: another press than at hand", b.Name)
		}
		if b.Works == stops(b.Found) {
			t.Errorf("%s: found %v", b.Name, codes(b.Found))
		}
	}
	has(t, all[1].Found, words.StretchBreaks, words.Stop, words.Design, "bend.radius")
	has(t, all[3].Found, words.ExistingCannot, words.Stop, words.SetUp, "press")
	a := find(said, words.RackBest)
	if len(said) != 1 || a.Figures["name"] != "near" {
		t.Errorf("said %v of %v", codes(said), a.Figures)
	}
	about(t, "gap", figure(t, a.Reason, "gap"), all[2].Press.Gap.Size, 0)
	_, _, said = racked(t, jobOf(t), shop.Block{Name: "tight", Radius: 120})
	has(t, said, words.RackNone, words.Note, words.SetUp, "block.use")
	if _, _, said = racked(t, jobOf(t)); said != nil {
		t.Errorf("an empty rack: said %v", codes(said))
	}
}

func with(j job.Job, existing float64) job.Job {
	j.Block.Existing = existing
	return j
}

// What is known of the arc and the width of a block must do for wrap and walls.
func TestRackFits(t *testing.T) {
	_, all, _ := racked(t, jobOf(t), shop.Block{Radius: 360})
	wrap := 2 * wrapped(all[0].Press)
	for _, b := range []struct {
		block shop.Block
		code  words.Code
		stops bool
	}{
		{shop.Block{Radius: 360, Arc: wrap * 1.001, Width: 37.01}, words.RackArcShort, false},
		{shop.Block{Radius: 360, Arc: wrap * 0.999}, words.RackArcShort, true},
		{shop.Block{Radius: 360, Width: 36.99}, words.RackNarrow, true},
	} {
		_, all, _ := racked(t, jobOf(t), b.block)
		level := words.Level("")
		if b.stops {
			level = words.Stop
		}
		has(t, all[0].Found, b.code, level, words.SetUp, "block.use")
		if all[0].Works == b.stops {
			t.Errorf("%+v: works %v", b.block, all[0].Works)
		}
	}
	round := jobOf(t, `tube.shape = "round"`, `tube.diameter = "40 mm"`, "tube.width =", "tube.depth =", "tube.corner =")
	_, all, _ = racked(t, round, shop.Block{Radius: 360, Width: 20})
	has(t, all[0].Found, words.RackGroove, words.Warning, words.SetUp, "block.use")
	if !all[0].Works || round.Tube.Shape != profiles.Round {
		t.Errorf("works %v", all[0].Works)
	}
}

// A job that uses a block of the rack gets a plan around it: no block or side
// plate is cut, the press is that block's, and every check counts as for a new one.
func TestUse(t *testing.T) {
	j := jobOf(t, `press.capacity = "30 t"`)
	j.Rack = []shop.Block{{Name: "arch", Radius: 360, Arc: 50 * geom.Degree, Width: 41}, {Name: "tight", Radius: 120}}
	j.Block.Use = "arch"
	p, err := New(j)
	if err != nil || !p.Feasible() {
		t.Fatalf("got %v, feasible %v", err, p.Feasible())
	}
	fresh, err := New(jobOf(t, `press.capacity = "30 t"`))
	if err != nil {
		t.Fatal(err)
	}
	if p.Press.Block != 360 || p.Ready == nil || p.Ready.Name != "arch" || p.Nominal != fresh.Nominal {
		t.Errorf("press on %g, ready %+v", p.Press.Block, p.Ready)
	}
	about(t, "arc", float64(p.Tools.BlockArc), float64(50*geom.Degree), 1e-12)
	var names []string
	for _, c := range p.Pieces {
		names = append(names, c.Name)
	}
	if got := strings.Join(names, " "); got != "strip template-inside template-outside fixture" {
		t.Errorf("pieces %s", got)
	}
	if p.Section == fresh.Section || p.Rack[0].Press.Final.Travel != p.Press.Final.Travel {
		t.Error("the section or the press is the new block's")
	}
	if find(p.Advice, words.RackBest) != nil {
		t.Error("the best is named although one is in use")
	}
	j.Block.Use = "tight"
	if p, err = New(j); err != nil || p.Feasible() {
		t.Errorf("a block that cracks the tube: %v, feasible %v", err, p.Feasible())
	}
	j.Block.Use = "arc"
	if _, err = New(j); err == nil || !strings.Contains(err.Error(), `block.use: "arc" is not on the rack: it must be one of arch, tight`) {
		t.Errorf("got %v", err)
	}
	j.Rack = nil
	if _, err = New(j); err == nil || !strings.Contains(err.Error(), "no [[block]]") {
		t.Errorf("got %v", err)
	}
	if i := slices.IndexFunc(fresh.Pieces, func(c Piece) bool { return c.Name == "cheek" }); i < 0 {
		t.Error("a new block has no cheek")
	}
}

package plan

import (
	"fmt"
	"testing"

	"overbend/cmd/internal/words"
	"overbend/geom/bend"
)

// atHand works out the base job's block at hand, of a radius in mm.
func atHand(t *testing.T, block float64, edits ...string) (chain, *Existing, []words.Advice) {
	t.Helper()
	c := chained(t, jobOf(t, append(edits, fmt.Sprintf(`block.existing = "%g mm"`, block))...))
	e, said, err := existing(c.j, c.m, c.strip, c.q)
	if err != nil || e == nil {
		t.Fatalf("got %v, %v", e, err)
	}
	return c, e, said
}

// found returns the code of what is found wrong with a block at hand.
func found(said []words.Advice) []words.Code {
	var out []words.Code
	for _, a := range said {
		if a.Code == words.OnExisting {
			out = append(out, a.Figures["what"].(words.Reason).Code)
		}
	}
	return out
}

func TestNoneAtHand(t *testing.T) {
	c := chained(t, jobOf(t))
	if e, said, err := existing(c.j, c.m, c.strip, c.q); e != nil || said != nil || err != nil {
		t.Errorf("got %v, %v, %v", e, said, err)
	}
}

// A block near the new one's radius works, on the page's supports, and its press
// is that of the block itself.
func TestAtHandWorks(t *testing.T) {
	c, e, said := atHand(t, 375, `press.capacity = "30 t"`)
	if !e.Works || e.Block != 375 || e.Press == nil || e.Press.Rig != c.q.Rig || e.Press.Block != 375 {
		t.Fatalf("works %v, block %g, press %+v", e.Works, e.Block, e.Press)
	}
	has(t, said, words.ExistingGives, words.Note, words.SetUp, "block.existing")
	about(t, "angle", float64(e.Press.Final.Melted), float64(c.j.Bend.Angle), 1e-6)
	kf := bend.Release(hollow(c.j, c.m.Curve.Law()), 1/395.).Final
	// The filler's own springback is no part of the tube's after it has melted
	// out: the tube is let go by what it carried with the filler in.
	if e.Plain.Radius < 0.97/kf || e.Plain.Radius > 1.03/kf {
		t.Errorf("a plain arc of R %g, the empty tube's %g", e.Plain.Radius, 1/kf)
	}
	about(t, "plain length", e.Plain.Length(), c.j.Bend.Length(), 1e-9)
	s, err := deformed(c.j, c.m, e.Press.Final.Crown)
	if err != nil || e.Section != s {
		t.Errorf("section %+v, want %+v, %v", e.Section, s, err)
	}
	a := find(said, words.ExistingGives)
	for name, want := range map[string]float64{
		"block": 375, "radius": e.Plain.Radius, "travel": e.Press.Final.Travel, "force": e.Press.FinalRubbed, "supports": e.Press.Rig.Supports, "gap": e.Press.Gap.Size,
	} {
		about(t, name+", said", figure(t, a.Reason, name), want, 1e-12)
	}
	// Two blocks: the tighter one is the further from its plain arc.
	_, tight, _ := atHand(t, 340, `press.capacity = "30 t"`)
	if !(tight.Plain.Radius < e.Plain.Radius) {
		t.Errorf("plain arcs: R %g on 340, R %g on 375", tight.Plain.Radius, e.Plain.Radius)
	}
}

// A block that breaks the tube does not work, and the least one is named that
// would; a block of that radius is not said to break it.
func TestAtHandBreaks(t *testing.T) {
	_, e, said := atHand(t, 120, `press.supports = "400 mm"`)
	if e.Works || e.Section.Used <= 1 {
		t.Errorf("works %v at %g of the elongation", e.Works, e.Section.Used)
	}
	has(t, said, words.ExistingFails, words.Note, words.SetUp, "block.existing")
	has(t, said, words.OnExisting, words.Warning, words.Design, "block.existing")
	var r words.Reason
	for _, a := range said {
		if w, ok := a.Figures["what"].(words.Reason); ok && w.Code == words.StretchBreaks {
			r = w.Figures["instead"].(words.Reason)
		}
	}
	if r.Code != words.LeastBlock {
		t.Fatalf("found %v, instead %s", found(said), r.Code)
	}
	least := figure(t, r, "radius")
	for add, want := range map[float64]bool{0: false, -1: true} {
		_, _, said := atHand(t, least+add, `press.supports = "400 mm"`)
		breaks := false
		for _, c := range found(said) {
			breaks = breaks || c == words.StretchBreaks
		}
		if breaks != want {
			t.Errorf("block %g: found %v", least+add, found(said))
		}
	}
}

// A press that is too weak for the block at hand alone fails it.
func TestAtHandTooWeak(t *testing.T) {
	_, e, _ := atHand(t, 375, `press.supports = "400 mm"`)
	need := e.Press.Needed
	for share, want := range map[float64]bool{0.999: true, 1.001: false} {
		_, e, said := atHand(t, 375, `press.supports = "400 mm"`, fmt.Sprintf(`press.capacity = "%.9g kN"`, need/share/1000))
		about(t, "share", e.Press.Share, share, 1e-6)
		if e.Works != want {
			t.Errorf("share %g: works %v, found %v", share, e.Works, found(said))
		}
		want := words.PressNearCapacity
		if share > 1 {
			want = words.PressTooWeak
		}
		if f := found(said); len(f) == 0 || f[0] != want && f[len(f)-1] != want {
			t.Errorf("share %g: found %v", share, f)
		}
	}
}

// From a very flat block the tube springs back all the way: no radius is
// printed.
func TestAtHandTooFlat(t *testing.T) {
	_, e, said := atHand(t, 99000)
	if e.Plain.Radius != 0 || e.Plain.Angle != 0 {
		t.Errorf("a plain arc of %+v", e.Plain)
	}
	if e.Press == nil {
		has(t, said, words.ExistingCannot, words.Warning, words.SetUp, "block.existing")
		if e.Works {
			t.Error("works without a press")
		}
		about(t, "bent", e.Section.Bent, 20/99020., 1e-9)
	} else if a := find(said, words.ExistingGives); a != nil && a.Figures["radius"].(words.Reason).Code != words.NoRadiusStays {
		t.Errorf("radius %v", a.Figures["radius"])
	}
}

// Where the page's supports will not do, the block stands on its own; without a
// press of the page as well.
func TestAtHandOnItsOwnSupports(t *testing.T) {
	c, e, _ := atHand(t, 375)
	own, said, err := existing(c.j, c.m, c.strip, nil)
	if err != nil || own == nil || own.Press == nil {
		t.Fatalf("without a page's press: %v, %v, %v", own, codes(said), err)
	}
	if own.Press.leg() < own.Press.LeastLeg {
		t.Errorf("supports at %g mm leave a leg of %g mm", own.Press.Rig.Supports, own.Press.leg())
	}
	q := *c.q
	q.Rig.Supports = 150
	moved, _, err := existing(c.j, c.m, c.strip, &q)
	if err != nil || moved.Press == nil || moved.Press.Rig != own.Press.Rig {
		t.Errorf("page's supports at 150 mm: %+v, %v, want %+v", moved.Press, err, own.Press.Rig)
	}
	if e.Press.Rig != c.q.Rig {
		t.Errorf("page's supports %+v, the block at hand's %+v", c.q.Rig, e.Press.Rig)
	}
}

// A tube that never lies on the block is bent less than it, and the stretch is
// that of the crown. What is wrong with the fit or hold is said as well.
func TestAtHandOffTheBlock(t *testing.T) {
	_, e, said := atHand(t, 340, `bend.angle = "5 deg"`, `press.supports = "800 mm"`)
	if e.Press.Final.HalfWrap != 0 {
		t.Fatalf("wraps %v", e.Press.Final.HalfWrap)
	}
	about(t, "bent", e.Section.Bent, 20*e.Press.Final.Crown, 1e-12)
	if e.Section.Bent >= 20./360 {
		t.Errorf("bent by %g on a block that bends by %g", e.Section.Bent, 20./360)
	}
	if f := found(said); len(f) != 1 || f[0] != words.OffTheBlock {
		t.Errorf("found %v", f)
	}
}

// The strip does for the block at hand too: on a tighter block the tube lies
// steeper on the rollers. So does the blank.
func TestToolsForTheBlockAtHand(t *testing.T) {
	p, err := New(jobOf(t, `press.supports = "600 mm"`, `block.existing = "150 mm"`))
	if err != nil {
		t.Fatal(err)
	}
	both, own := reach(p.Press, p.Existing, 23), reach(p.Press, nil, 23)
	if both <= own {
		t.Fatalf("the block at hand reaches to %g mm, the new one to %g", both, own)
	}
	about(t, "strip", p.Tools.StripLength, 2*(both+40), 1e-12)
	c := chained(t, jobOf(t))
	b, err := blank(c.j, c.sec, c.q, &Existing{Press: &Press{Final: bend.State{Leg: 900}}})
	if err != nil {
		t.Fatal(err)
	}
	about(t, "blank", b.Length, 2*(900+40), 1e-12)
}

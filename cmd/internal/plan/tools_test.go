package plan

import (
	"math"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// tooled works a job's tools out.
func tooled(t testing.TB, edits ...string) (chain, Tools, []words.Advice) {
	t.Helper()
	c := chained(t, jobOf(t, edits...))
	tl, said, err := tools(c.j, c.m, c.strip, c.over, c.sec, c.q, nil)
	if err != nil {
		t.Fatal(err)
	}
	return c, tl, said
}

// The working arc covers, with three degrees to each side, the wrap and the
// plain arc at the strong end, the plain arc as far as a block can.
func TestHalfArc(t *testing.T) {
	const d = geom.Degree
	over := Springback{Nominal: Overbend{Pressed: geom.Bend{Angle: 36 * d}}, High: &Overbend{Pressed: geom.Bend{Angle: 40 * d}}}
	wide := Springback{Nominal: Overbend{Pressed: geom.Bend{Angle: 2*tooling.MostHalfAngle + 20*d}}}
	q := func(low, nominal, high float64) *Press {
		state := func(w float64) bend.State { return bend.State{HalfWrap: geom.Angle(w) * d} }
		return &Press{Final: state(nominal), Low: &PressEnd{Final: state(low)}, High: &PressEnd{Final: state(high)}}
	}
	for _, c := range []struct {
		name string
		s    Springback
		q    *Press
		want geom.Angle
	}{
		{"without a press", over, nil, 23 * d},
		{"plain arc", over, q(14, 15, 16), 23 * d},
		{"strong wrap", over, q(24, 25, 26), 29 * d},
		{"weak wrap", over, q(27, 25, 26), 30 * d},
		{"nominal wrap", over, q(24, 27, 26), 30 * d},
		{"just under the plain arc", over, q(1, 1, 19.9), 23 * d},
		{"just over it", over, q(1, 1, 20.1), 23.1 * d},
		{"a plain arc that no block covers", wide, q(60, 61, 62), tooling.MostHalfAngle},
		{"a plain arc that no block covers, without a press", wide, nil, tooling.MostHalfAngle + 13*d},
	} {
		about(t, c.name, float64(halfArc(c.s, c.q)), float64(c.want), 1e-12)
	}
	for _, edits := range [][]string{{`press.supports = "400 mm"`}, {`bend.angle = "120 deg"`, `bend.radius = "300 mm"`}} {
		c, tl, _ := tooled(t, edits...)
		if wrap := c.q.High.Final.HalfWrap; tl.BlockArc/2 < wrap+3*d-1e-12 || tl.Block.HalfAngle != tl.BlockArc/2 {
			t.Errorf("%v: half arc %v for a wrap of %v at the strong end", edits, tl.BlockArc/2, wrap)
		}
	}
}

// The tangent mark is where the tube stops lying on the block; without a press,
// at the end of the pressed plain arc.
func TestTangentMark(t *testing.T) {
	c, with, _ := tooled(t)
	about(t, "with a press", float64(with.Block.TangentHalfAngle), float64(c.q.Final.HalfWrap), 1e-12)
	c.q = nil
	without, _, err := tools(c.j, c.m, c.strip, c.over, c.sec, nil, nil)
	if err != nil || !without.Whole {
		t.Fatalf("%v, whole %v", err, without.Whole)
	}
	about(t, "without", float64(without.Block.TangentHalfAngle), float64(c.over.Nominal.Pressed.Angle/2), 1e-12)
	// Scribed: the last two marks point that way.
	marks := without.Block.Layers[0].Part.Marks
	p := marks[len(marks)-1].Segments()[0]
	at, _ := p.At(0)
	about(t, "mark's angle", math.Abs(math.Atan2(at.X, at.Y)), float64(c.over.Nominal.Pressed.Angle/2), 1e-9)
}

// The strip reaches to the furthest roller contact and a depth beyond. Without a
// press: the outer arc at the strong end, two depths of leg and one over, on
// both sides.
func TestStripLength(t *testing.T) {
	c, tl, _ := tooled(t)
	about(t, "without a press", stripLength(c.j, c.strip, c.over, nil, nil), float64(c.over.High.Pressed.Angle)*(c.over.Nominal.Pressed.Radius+20)+2*(80+40), 1e-12)
	far := c.q.Rig.Supports / 2
	for _, s := range c.q.states() {
		far = max(far, s.Developed()+23*float64(s.Slope))
	}
	about(t, "with one", tl.StripLength, 2*(far+40), 1e-12)
	if box := tl.Strip.Bounds(); math.Abs(box.Width()-tl.StripLength) > 1e-9 || math.Abs(box.Height()-40) > 1e-9 {
		t.Errorf("strip of %g x %g mm", box.Width(), box.Height())
	}
}

// Blank and strip must do for every step and for the block at hand.
func TestReach(t *testing.T) {
	q := &Press{Rig: bend.Rig{Supports: 400}, Final: bend.State{Leg: 190}}
	about(t, "the supports", reach(q, nil, 0), 200, 0)
	q.Schedule = []bend.State{{Leg: 205, Slope: 0.1}}
	about(t, "a step", reach(q, nil, 0), 205, 0)
	about(t, "a line outside", reach(q, nil, 23), 207.3, 1e-12)
	q.High = &PressEnd{Final: bend.State{Leg: 211}}
	about(t, "the strong end", reach(q, nil, 0), 211, 0)
	e := &Existing{Press: &Press{Final: bend.State{Leg: 213}, High: &PressEnd{Final: bend.State{Leg: 215}}}}
	about(t, "the block at hand", reach(q, e, 0), 215, 0)
	e.Press.High = nil
	about(t, "the block at hand, nominal", reach(q, e, 0), 213, 0)
	about(t, "no press of the block at hand", reach(q, &Existing{}, 0), 211, 0)
	q.Final = bend.State{HalfWrap: 0.3, Crown: 1. / 400, Leg: 100}
	q.High = nil
	about(t, "wrapped", reach(q, nil, 0), 220, 1e-12)
}

// The blank holds the furthest contact and a depth to each side of its middle,
// and the arc is that before it grows.
func TestBlank(t *testing.T) {
	c := chained(t, jobOf(t, `bend.legs = ["50 mm", "50 mm"]`))
	b, err := blank(c.j, c.sec, c.q, nil)
	if err != nil {
		t.Fatal(err)
	}
	about(t, "for the press", b.Length, 2*(reach(c.q, nil, 0)+40), 1e-12)
	rollers := 0
	for _, m := range b.Marks {
		if math.Abs(math.Abs(m.At-b.Middle)-c.q.Rig.Supports/2) < 1e-9 {
			rollers++
		}
	}
	if rollers != 2 {
		t.Errorf("%d marks at the rollers: %+v", rollers, b.Marks)
	}
	c = chained(t, jobOf(t))
	if b, err = blank(c.j, c.sec, nil, nil); err != nil {
		t.Fatal(err)
	}
	about(t, "for the part", b.Length, c.j.Bend.Length()/(1+c.sec.After.ArcGrowth)+2*250+2*20, 1e-9)
	if !(c.sec.After.ArcGrowth > 0) {
		t.Errorf("arc growth %g", c.sec.After.ArcGrowth)
	}
}

// Rollers never come to block or cheeks: the cheeks end 2 mm before the strip,
// and the strip lies between.
func TestRollersStayClear(t *testing.T) {
	deepest := []string{`block.cheek_depth = "38 mm"`, `strip.thickness = "0.3 mm"`}
	for _, w := range []struct {
		edits []string
		least float64
	}{
		{nil, 2 + 6},
		{deepest, 2 + 0.3},
		{append(deepest, `press.roller = "10 mm"`, `press.supports = "280 mm"`), 2 + 0.3},
		{append(deepest, `bend.angle = "120 deg"`, `bend.radius = "300 mm"`), 2 + 0.3},
		{append(deepest, `bend.angle = "5 deg"`, `press.roller = "100 mm"`), 2 + 0.3},
	} {
		c, tl, _ := tooled(t, w.edits...)
		crown := tl.Block.Radius + c.j.Tube.Depth/2
		space := math.Inf(1)
		for _, s := range c.q.states() {
			// From the press's frame, crown's centreline at the origin and tube
			// bending up, to the parts', arc's centre at the origin and crown up.
			at := geom.Pt(s.Roller.X, crown-s.Roller.Y)
			if tl.Cheek.Outline.Contains(at) {
				t.Fatalf("%v: a roller's middle is within a cheek", w.edits)
			}
			space = min(space, tl.Cheek.Outline.Distance(at)-c.q.Rig.Roller/2)
		}
		if space < w.least-1e-6 {
			t.Errorf("%v: a roller %g mm from a cheek", w.edits, space)
		}
	}
}

// Each size that a job can change is placed at the job's key.
func TestKeyOf(t *testing.T) {
	for d, want := range map[tooling.Dimension]string{
		tooling.Height: "block.height", tooling.Hole: "block.hole", tooling.Plate: "block.plate", tooling.Blend: "block.blend",
		tooling.CheekDepth: "block.cheek_depth", tooling.Radius: "bend.radius", tooling.BendAngle: "bend.angle",
		tooling.WorkingArc: "bend.angle", tooling.Leg: "bend.legs", tooling.EndCut: "ends.cut", tooling.Trim: "ends.trim",
		tooling.TangentPoint: "bend.angle", tooling.PressLength: "bend.legs", tooling.Depth: "tube.depth", tooling.Width: "tube.width",
		tooling.Thickness: "strip.thickness", tooling.Supports: "press.supports", tooling.Kerf: "cutting.kerf", tooling.Gap: "block",
	} {
		if got := keyOf(&tooling.SizeError{Part: "block", Dimension: d}); got != want {
			t.Errorf("%s: got %s, want %s", d, got, want)
		}
	}
}

// A part that can't be made stops the job at its key; a process that is not
// known is the file's fault.
func TestToolsRefused(t *testing.T) {
	c := chained(t, jobOf(t))
	c.j.Block.CheekDepth = 41
	tl, said, err := tools(c.j, c.m, c.strip, c.over, c.sec, c.q, nil)
	if err != nil || tl.Whole || len(said) != 1 || said[0].Level != words.Stop || said[0].Step != words.Cut || said[0].About != "block.cheek_depth" {
		t.Errorf("whole %v, said %+v, %v", tl.Whole, said, err)
	}
	c.j.Block.CheekDepth = 0
	c.j.Cutting.Process = "teeth"
	if _, _, err := tools(c.j, c.m, c.strip, c.over, c.sec, c.q, nil); err == nil {
		t.Error("teeth cut plate")
	}
}

// Without a plate in the job the stock plate is taken that leaves the least
// packing. A tube smaller than any plate is carried by flats, which are stock
// too.
func TestPlate(t *testing.T) {
	j := jobOf(t)
	if got := plate(j, 43); got != 10 {
		t.Errorf("the job's own: got %g", got)
	}
	j.Block.Plate = 0
	for _, inch := range []bool{false, true} {
		j.Inches = inch
		var known []float64
		for _, p := range profiles.Plates() {
			if p.Inch == inch {
				known = append(known, p.Thickness)
			}
		}
		thinnest := math.Inf(1)
		for _, p := range known {
			thinnest = min(thinnest, p)
		}
		plates := len(known)
		for _, f := range profiles.Strips() {
			if f.Inch == inch && f.Thickness < thinnest {
				known = append(known, f.Thickness)
			}
		}
		if len(known) == plates {
			t.Fatalf("inch %v: no flat is thinner than plate", inch)
		}
		for _, gap := range []float64{43, 28, 62} {
			got, ours := plate(j, gap), false
			for _, p := range known {
				ours = ours || p == got
			}
			_, rest := tooling.Layers(gap, got)
			if !ours || rest > got {
				t.Errorf("inch %v, %g mm: got %g", inch, gap, got)
			}
		}
		if got := plate(j, 39.2); (math.Abs(got-9.525) < 1e-9) != inch {
			t.Errorf("inch %v: %g for a tube of 1-1/2 in", inch, got)
		}
		small := thinnest * 1.9
		if got := plate(j, small); got >= thinnest {
			t.Errorf("inch %v, %g mm: got plate of %g, thinnest is %g", inch, small, got, thinnest)
		}
		sheet := sheets(job.Job{Inches: inch})
		if len(sheet) == 0 {
			t.Fatalf("inch %v: no sheets", inch)
		}
		for _, s := range profiles.Sheets() {
			in := false
			for _, v := range sheet {
				in = in || v == s.Thickness
			}
			if s.Inch == inch && !in {
				t.Errorf("inch %v: no sheet of %g mm", inch, s.Thickness)
			}
		}
	}
}

// Openings are left out where there is no room and where the process cuts none.
func TestLighten(t *testing.T) {
	big := []string{"block.lighten = true", `block.height = "160 mm"`}
	for _, c := range []struct {
		edits        []string
		uncut, small words.Level
	}{
		{nil, "", ""},
		{[]string{"block.lighten = true", `bend.angle = "8 deg"`}, "", words.Note},
		{append(big, `cutting.process = "saw"`), words.Note, ""},
		{append(big, `cutting.process = "plasma"`), "", ""},
	} {
		_, tl, said := tooled(t, c.edits...)
		has(t, said, words.OpeningsUncut, c.uncut, words.Cut, "block.lighten")
		has(t, said, words.NoRoomForOpenings, c.small, words.Cut, "block.lighten")
		if c.uncut == "" && c.small == "" && len(c.edits) > 0 && len(tl.Block.Openings) == 0 {
			t.Errorf("%v: no openings", c.edits)
		}
	}
}

// The process bounds the block's openings and the plate between cuts: plasma
// wants one and a half times the plate for both, a laser the plate.
func TestProcessBoundsTheBlock(t *testing.T) {
	_, tl, _ := tooled(t, `cutting.process = "plasma"`, `block.plate = "12 mm"`)
	about(t, "opening", tl.Block.Opening, 18, 1e-12)
	about(t, "web", tl.Block.Web, 18, 1e-12)
	if tl.Process.Name != "plasma" {
		t.Errorf("process %q", tl.Process.Name)
	}
	_, tl, _ = tooled(t, `cutting.process = "laser"`, `block.plate = "12 mm"`)
	about(t, "a laser's web", tl.Block.Web, 12, 1e-12)
	_, tl, _ = tooled(t)
	if tl.Process.Name != "" || tl.Block.Opening != 0 {
		t.Errorf("no process: %q, openings from %g mm", tl.Process.Name, tl.Block.Opening)
	}
}

// The cheeks reach half the depth past the arc unless the job says otherwise,
// and stand as far apart as the tube is swollen.
func TestCheeks(t *testing.T) {
	c, tl, _ := tooled(t)
	about(t, "depth", tl.CheekDepth, 20, 0)
	about(t, "gap", tl.CheekGap, tooling.CheekGap(c.sec.After.InnerWidth), 1e-12)
	about(t, "reach", tl.Cheek.Bounds().Max.Y, tl.Block.Radius+20, 1e-6)
	_, tl, _ = tooled(t, `block.cheek_depth = "15 mm"`)
	about(t, "stated depth", tl.CheekDepth, 15, 0)
}

// A tube's size in words.
func TestTubeSize(t *testing.T) {
	j := jobOf(t)
	if got := quantity.Plain(TubeSize(j.Tube, quantity.Millimetres, quantity.Length)); got != "40 x 40 x 3 mm" {
		t.Errorf("got %q", got)
	}
	round := profiles.Section{Shape: profiles.Round, Width: 30, Depth: 30, Wall: 2}
	if got := quantity.Plain(TubeSize(round, quantity.Millimetres, quantity.Length)); got != "dia 30 x 2 mm" {
		t.Errorf("got %q", got)
	}
}

// What the plan rounds and goes by is round in the job's own units: 1/2 in, 6 in, 28
// in, 1/16 in.
func TestRoundInOwnUnits(t *testing.T) {
	j := jobOf(t)
	for _, c := range []struct {
		inch bool
		want [4]float64
	}{{false, [4]float64{10, 150, 700, 62}}, {true, [4]float64{12.7, 152.4, 711.2, 61.9125}}} {
		j.Inches = c.inch
		got := [4]float64{supportStep(j), usualTravel(j), usualBed(j), wholeHeight(j, 61.2)}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("inch %v: %v, want %v", c.inch, got, c.want)
			}
		}
	}
}

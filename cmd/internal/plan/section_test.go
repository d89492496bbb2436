package plan

import (
	"math"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/words"
	"overbend/geom/bend"
)

// Above 70 % of the elongation a bend is warned of, above all of it stopped.
func TestStretch(t *testing.T) {
	j := jobOf(t, ownMetal(200)...)
	m := catalogued(j)
	const k = 1 / 380.
	after, err := bend.Deform(j.Tube, m.Curve.Law(), bend.Member{}, k)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		used         float64
		near, breaks words.Level
	}{{0.699, "", ""}, {0.701, words.Warning, ""}, {0.999, words.Warning, ""}, {1.001, "", words.Stop}} {
		j.Material.Elongation = after.OuterStrain / c.used
		s, said, err := section(j, m, k)
		if err != nil {
			t.Fatal(err)
		}
		about(t, "used", s.Used, c.used, 1e-12)
		about(t, "bent", s.Bent, 20./380, 1e-12)
		has(t, said, words.StretchNear, c.near, words.Design, "elongation")
		has(t, said, words.StretchBreaks, c.breaks, words.Design, "bend.radius")
		for _, code := range []words.Code{words.StretchNear, words.StretchBreaks} {
			if a := find(said, code); a != nil {
				about(t, "used, said", figure(t, a.Reason, "used"), c.used, 1e-12)
				about(t, "strain, said", figure(t, a.Reason, "strain"), after.OuterStrain, 1e-12)
			}
		}
	}
	j.Material.Elongation = 0
	s, said, err := section(j, m, k)
	if err != nil || s.Used != 0 {
		t.Errorf("without an elongation: used %g, %v", s.Used, err)
	}
	has(t, said, words.StretchBreaks, "", "", "")
}

// The least radius that is promised does not break the tube, and one a little
// less does: on the drawing, on a block, and at a stated ratio.
func TestLeastRadius(t *testing.T) {
	broken := func(r float64, edits ...string) (*words.Advice, job.Job, Metal) {
		j := jobOf(t, edits...)
		j.Bend.Radius = r
		m, _, err := metal(j, stripOf(j))
		if err != nil {
			t.Fatal(err)
		}
		s, _, err := springback(j, m)
		if err != nil {
			t.Fatal(err)
		}
		_, said, err := section(j, m, s.Nominal.Pressed.Curvature())
		if err != nil {
			t.Fatal(err)
		}
		return find(said, words.StretchBreaks), j, m
	}
	for _, edits := range [][]string{nil, {`allowance.mode = "ratio"`, "allowance.ratio = 0.9"}} {
		a, j, m := broken(150, edits...)
		if a == nil {
			t.Fatal("R 150 does not break the tube")
		}
		r := instead(t, a)
		if r.Code != words.LeastRadius {
			t.Fatalf("got %s", r.Code)
		}
		least := figure(t, r, "radius")
		if len(edits) == 0 {
			if a, _, _ := broken(least); a != nil {
				t.Errorf("R %g still breaks", least)
			}
			if a, _, _ := broken(least - 0.25); a == nil {
				t.Errorf("R %g does not break either", least-0.25)
			}
			continue
		}
		// The metal stays that of the ratio at the drawing's own radius.
		for add, want := range map[float64]bool{0: true, -0.25: false} {
			s, err := deformed(j, m, 1/(least+add)/0.9)
			if err != nil || (s.Used <= 1) != want {
				t.Errorf("ratio 0.9, R %g: used %g, %v", least+add, s.Used, err)
			}
		}
	}
	j := jobOf(t)
	m := catalogued(j)
	r, err := leastBlock(j, m, 100)
	if err != nil || r.Code != words.LeastBlock {
		t.Fatalf("block: %s, %v", r.Code, err)
	}
	least := figure(t, r, "radius")
	for add, want := range map[float64]bool{0: true, -0.25: false} {
		s, err := deformed(j, m, 1/(least+add+20))
		if err != nil || (s.Used <= 1) != want {
			t.Errorf("block %g: used %g, %v", least+add, s.Used, err)
		}
	}
}

// The radius is rounded up to a tenth; nothing within twenty doublings is said.
func TestLeastOf(t *testing.T) {
	for _, c := range []struct{ from, holds float64 }{{10, 10.01}, {10, 123.42}, {1, math.Pow(2, 20)}} {
		r, err := leastOf(c.from, words.LeastRadius, func(r float64) (bool, error) { return r >= c.holds, nil })
		if err != nil || r.Code != words.LeastRadius {
			t.Fatalf("%v: %s, %v", c, r.Code, err)
		}
		got := figure(t, r, "radius")
		if got < c.holds || got > c.holds+0.2 || math.Abs(got*10-math.Round(got*10)) > 1e-6 {
			t.Errorf("from %g: got %g, want a tenth from %g up", c.from, got, c.holds)
		}
	}
	if r, err := leastOf(1, words.LeastRadius, func(r float64) (bool, error) { return r > math.Pow(2, 20), nil }); err != nil || r.Code != words.NoRadius {
		t.Errorf("beyond twenty doublings: %s, %v", r.Code, err)
	}
	if _, err := leastOf(1, words.LeastRadius, func(r float64) (bool, error) { return false, bend.ErrNoSolution }); err == nil {
		t.Error("an error is lost")
	}
}

// An empty tube must be filled once the bend asks for its buckling strain, and
// may need it from two thirds of that on.
func TestFilling(t *testing.T) {
	for _, c := range []struct {
		over  float64 // the buckling strain over what is asked
		fill  string
		level words.Level
		code  words.Code
		needs bool
	}{
		{0.999, "158", words.Note, words.WrinklesButFilled, true},
		{0.999, "none", words.Warning, words.WrinklesEmpty, true},
		{1.001, "158", words.Note, words.NearWrinklesFilled, false},
		{1.001, "none", words.Warning, words.FillOrTry, false},
		{1.499, "none", words.Warning, words.FillOrTry, false},
		{1.499, "158", words.Note, words.NearWrinklesFilled, false},
		{1.501, "none", words.Note, words.HoldsEmpty, false},
		{1.501, "158", words.Note, words.HoldsEmpty, false},
	} {
		edits := []string{`filler.alloy = "` + c.fill + `"`}
		if c.fill == "none" {
			edits = append(edits, "filler.plugs =")
		}
		j := jobOf(t, edits...)
		m := catalogued(j)
		b, err := bend.BucklingStrain(j.Tube, m.Curve.Law(), j.Material.Poisson)
		if err != nil {
			t.Fatal(err)
		}
		s, said, err := section(j, m, b.Strain/c.over/20)
		if err != nil {
			t.Fatal(err)
		}
		if s.NeedsFill != c.needs {
			t.Errorf("%g: needs fill %v", c.over, s.NeedsFill)
		}
		has(t, said, c.code, c.level, words.Fill, "filling")
		if a := find(said, c.code); a != nil {
			about(t, "margin", figure(t, a.Reason, "margin"), 1.5, 0)
			about(t, "buckling", figure(t, a.Reason, "buckling"), b.Strain, 1e-12)
			about(t, "strain", figure(t, a.Reason, "strain"), b.Strain/c.over, 1e-9)
		}
	}
}

// A deep tube's side walls go before its inner one.
func TestWhichWall(t *testing.T) {
	for _, c := range []struct {
		edits []string
		want  words.Code
		web   bool
	}{
		{nil, words.InnerWall, false},
		{[]string{`tube.width = "20 mm"`, `tube.depth = "80 mm"`, `tube.wall = "2 mm"`, `bend.radius = "2200 mm"`}, words.SideWalls, true},
	} {
		j := jobOf(t, c.edits...)
		s, said, err := section(j, catalogued(j), 1/j.Bend.Radius)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range said {
			if a.About == "filling" && a.Figures["wall"].(words.Reason).Code != c.want {
				t.Errorf("%v: got %v, want %s", c.edits, a.Figures["wall"], c.want)
			}
		}
		if s.Buckling.Web != c.web {
			t.Errorf("%v: web %v", c.edits, s.Buckling.Web)
		}
	}
}

package plan

import (
	"math"
	"strings"
	"testing"

	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/geom/tooling"
)

// The fixture holds the part as the press leaves it: of the demo's tube each inside
// pin stands half a depth and a radius off the predicted centreline, and the end
// stop off the blank's end, which the arc's growth moves.
func TestFixtureStandsOnTheFinishedPart(t *testing.T) {
	for _, edits := range [][]string{nil, {`fixture.pin = "8 mm"`, `fixture.plate = "12 mm"`, `fixture.size = "700x1200 mm"`}} {
		c, tl, _ := tooled(t, edits...)
		part, f, said, err := finished(c.j, c.q, c.sec, tl)
		if err != nil || f == nil || part == nil || len(said) > 0 {
			t.Fatalf("%v, %v, %v, %v", part, f, said, err)
		}
		if edits != nil && (f.Plate != 12 || f.Pin != 8 || f.Width != 1200 || f.Height != 700) || edits == nil && (f.Plate != tl.Plate || f.Pin != 10) {
			t.Errorf("plate %g, pin %g, %g x %g", f.Plate, f.Pin, f.Width, f.Height)
		}
		about(t, "gap", f.Gap, c.q.Gap.Size, 0)
		// The predicted centreline of the right half, carried on straight, in the
		// drawing's frame: crown on top, shifted to its best fit.
		line := c.q.Shape.Line
		line = line.LineTo(line.End().Add(geom.Polar(1000, c.j.Bend.Angle/2)))
		onPlate := func(left bool) geom.Path {
			m := geom.Translate(geom.Pt(0, c.q.Gap.Shift)).Then(geom.MirrorY()).Then(geom.Translate(geom.Pt(0, c.j.Bend.Radius)))
			if left {
				m = m.Then(geom.MirrorX())
			}
			// The part's datum by its own table: the arc's centre and end 1's corner.
			return line.Apply(m.Then(geom.Rotate(-c.j.Bend.Angle / 2)).Then(geom.Translate(part.Centre)).Then(f.Place))
		}
		for _, p := range f.Pins {
			l := onPlate(p.Leg == 1)
			want := (c.j.Tube.Depth + f.Pin) / 2
			if p.Touches == tooling.TouchEnd {
				at := tl.Blank.Middle + c.j.Bend.Length()/2*(1-1/(1+c.sec.After.ArcGrowth))
				if p.Leg == 2 {
					at += tl.Blank.Length - 2*tl.Blank.Middle
				}
				about(t, "stop", p.At.Dist(l.UpTo(at).End()), f.Pin/2, 1e-6)
				continue
			}
			about(t, string(p.Touches), l.Distance(p.At), want, 1e-6)
		}
	}
}

// What can't be made is said: a plate too small is the file's fault and names both
// sizes, a leg too short leaves the fixture out.
func TestFixtureRefusals(t *testing.T) {
	c, tl, _ := tooled(t, `fixture.size = "300x200 mm"`)
	_, _, _, err := finished(c.j, c.q, c.sec, tl)
	if err == nil || !strings.Contains(err.Error(), "fixture.size: fixture of ") || !strings.Contains(err.Error(), " does not fit a sheet of 300 x 200 mm") {
		t.Errorf("a plate too small: %v", err)
	}
	c, tl, _ = tooled(t, `bend.legs = ["5 mm", "5 mm"]`)
	part, f, said, err := finished(c.j, c.q, c.sec, tl)
	if part == nil || f != nil || err != nil || len(said) != 1 || said[0].Code != words.Code(tooling.NoRoomForPins) || said[0].Level != words.Note {
		t.Errorf("short legs: %v, %v, %v, %v", part, f, said, err)
	}
	c, tl, _ = tooled(t, `bend.legs = ["250 mm", "250 mm"]`, `ends.trim = 0`, `ends.cut = 0`)
	// The press may need a longer blank, which leaves room: end it at the part.
	tl.Blank.Middle = c.j.Bend.Length()/2/(1+c.sec.After.ArcGrowth) + 250
	tl.Blank.Length = 2 * tl.Blank.Middle
	if _, f, said, err = finished(c.j, c.q, c.sec, tl); f == nil || err != nil || find(said, words.FixtureNoStop) == nil {
		t.Errorf("nothing spared: %v, %v, %v", f, said, err)
	}
}

// What the bend left is said once for the new block and once for the one at hand,
// which bends another radius.
func TestBendLeft(t *testing.T) {
	p, err := New(jobOf(t, `block.existing = "300 mm"`))
	if err != nil {
		t.Fatal(err)
	}
	if a := find(p.Advice, words.BendLeft); a == nil || a.Step != words.Check || a.Level != words.Note {
		t.Errorf("advice %v", a)
	}
	if find(p.Advice, words.ExistingLeft) == nil {
		t.Error("nothing said of the block at hand")
	}
	if want := bend.Remain(p.Job.Tube, p.Nominal.Pressed.Curvature(), p.After); p.Section.Left != want {
		t.Errorf("left %+v, want %+v", p.Section.Left, want)
	}
	l, e := p.Section.Left, p.Existing.Section.Left
	if !(l.InertiaShare > 0.9 && l.InertiaShare < 1.1) || math.Abs(l.ModulusShare-e.ModulusShare) < 1e-6 {
		t.Errorf("left %+v, on the block at hand %+v", l, e)
	}
}

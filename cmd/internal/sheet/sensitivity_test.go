package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	sentence "overbend/cmd/internal/words"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/profiles"
)

// drawn returns the picture at the least width that has room for it.
func drawnSensitivity(t *testing.T, s *plan.Sensitivity, u quantity.Units) Picture {
	t.Helper()
	for _, w := range []float64{180, 240, 320} {
		if p := DrawSensitivity(s, "name: what decides", "as planned", u, w); len(p.Shapes) > 0 {
			return p
		}
	}
	t.Fatal("no room on 320 mm")
	return Picture{}
}

func sensitive(t *testing.T, p *plan.Plan) *plan.Sensitivity {
	t.Helper()
	s, err := p.Sensitivity()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Every example's chart keeps to its page, its lettering off lines and other lettering,
// and every input is there with its interval and every source once.
func TestSensitivityIsTidy(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		s := sensitive(t, p)
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			pic := drawnSensitivity(t, s, u)
			if err := pic.Check(); err != nil {
				t.Errorf("%s: %v", path, err)
			}
			if !pic.Page.Holds(pic.Bounds(), 1e-6) {
				t.Errorf("%s: %v is not on %v", path, pic.Bounds(), pic.Page)
			}
			if !tidy(pic.Drawing) {
				t.Errorf("%s in %s: lettering collides", path, u)
			}
			all := lettersOf(pic.Drawing)
			sources := map[string]bool{}
			for _, l := range all {
				if number, source, ok := strings.Cut(l, "] "); ok && number[0] == '[' {
					if sources[source] {
						t.Errorf("%s: %q stands twice", path, source)
					}
					sources[source] = true
				}
			}
			for _, w := range s.Inputs {
				name := slices.Index(all, sentence.InputName(w.Input))
				if name < 0 || !strings.HasPrefix(all[name+1], u.Figure(w.Kind.Of(w.Low))+", "+u.Figure(w.Kind.Of(w.Nominal))+", "+u.Figure(w.Kind.Of(w.High))) {
					t.Errorf("%s: %s is not lettered", path, w.Input)
				}
			}
		}
	}
}

func lettersOf(d drawing.Drawing) []string {
	var out []string
	for _, s := range d.Shapes {
		if l, ok := s.(drawing.Text); ok {
			out = append(out, l.Words)
		}
	}
	return out
}

// Bars are as long as what they show, from the line of what is planned to the side of
// their sign, in every field at one scale, which its axis has; their tones say which
// end they are.
func TestSensitivityBars(t *testing.T) {
	p := plantest.Read(t, "../../../testdata/davit-arm.toml")
	s := sensitive(t, p)
	pic := drawnSensitivity(t, s, quantity.Millimetres)
	var zeros []float64
	type box struct {
		geom.Rect
		tone drawing.Tone
	}
	var boxes []box
	for _, sh := range pic.Shapes {
		l, ok := sh.(drawing.Stroke)
		switch {
		case !ok:
		case l.Role == drawing.Visible:
			zeros = append(zeros, l.Path.Bounds().Min.X)
		case l.Path.Closed:
			boxes = append(boxes, box{l.Path.Bounds(), l.Tone})
		}
	}
	boxes = boxes[2:] // of the legend
	if len(zeros) != 3 {
		t.Fatalf("%d fields", len(zeros))
	}
	axes := fieldsOf(pic.Drawing)
	for f, m := range s.Measures() {
		// Bars and figures take all of the field, and no more.
		if a := axes[f]; a.reach.Min.X < a.axis.Min.X-1e-6 || a.reach.Max.X > a.axis.Max.X+1e-6 || a.reach.Width() < a.axis.Width()-1 {
			t.Errorf("%s: %v on %v", m.Name, a.reach, a.axis)
		}
		ticks := map[float64]float64{} // figure to place
		scale := 0.0
		for _, w := range s.Inputs {
			for _, end := range []struct {
				plan.Outcome
				tone drawing.Tone
			}{{w.AtLow, lowTone}, {w.AtHigh, highTone}} {
				v := quantity.Millimetres.Of(m.Kind.Of(m.Of(s.Changes(end.Outcome))))
				at := slices.IndexFunc(boxes, func(b box) bool {
					near := b.Min.X
					if v < 0 {
						near = b.Max.X
					}
					return b.tone == end.tone && math.Abs(near-zeros[f]) < 1e-9 && (scale == 0 || math.Abs(b.Width()-math.Abs(v)*scale) < 1e-6)
				})
				if at < 0 {
					if math.Abs(v)*scale > 0.01 {
						t.Errorf("%s: no bar of %g for %s", m.Name, v, w.Input)
					}
					continue
				}
				if scale == 0 {
					scale = boxes[at].Width() / math.Abs(v)
				}
				boxes = slices.Delete(boxes, at, at+1)
			}
		}
		field := -2 // the name is bold, and then each field's
		for _, sh := range pic.Shapes {
			l, ok := sh.(drawing.Text)
			if ok && l.Bold {
				field++
			}
			if ok && l.Anchor == drawing.Middle && field == f {
				v, err := strconv.ParseFloat(l.Words, 64)
				if err != nil {
					t.Fatal(err)
				}
				ticks[v] = l.At.X
			}
		}
		if len(ticks) < 3 {
			t.Errorf("%s: ticks %v", m.Name, ticks)
		}
		for v, x := range ticks {
			if math.Abs(zeros[f]+v*scale-x) > 1e-6 {
				t.Errorf("%s: %g stands at %g, want %g", m.Name, v, x, zeros[f]+v*scale)
			}
		}
	}
	if n := len(boxes); n != 6 {
		t.Errorf("%d boxes beside the inputs', want all together's 6", n)
	}
}

// onAxis is a field's axis, and what its bars and their figures reach over.
type onAxis struct{ axis, reach geom.Rect }

// fieldsOf returns the fields of a chart: each begins with a bold name and its axis.
func fieldsOf(d drawing.Drawing) []onAxis {
	var out []onAxis
	for i, sh := range d.Shapes {
		l, ok := sh.(drawing.Text)
		switch {
		case ok && l.Bold && i > 0:
			out = append(out, onAxis{d.Shapes[i+1].(drawing.Stroke).Path.Bounds(), geom.EmptyRect()})
		case ok && len(out) > 0 && l.At.Y > out[0].axis.Min.Y && l.Words != "":
			f := &out[len(out)-1]
			f.reach = f.reach.Union(l.Bounds())
		}
	}
	return out
}

// Of two ends on one side the shorter is seen, narrower, on the longer.
func TestSensitivityBarsOnOneSide(t *testing.T) {
	p := plantest.Read(t, "../../../testdata/davit-arm.toml")
	for _, lowLonger := range []bool{false, true} {
		s := sensitive(t, p)
		s.Inputs = s.Inputs[:1]
		w := &s.Inputs[0]
		w.AtLow, w.AtHigh = s.Planned, s.Planned
		w.AtLow.Right += 3
		w.AtHigh.Right += 4
		if lowLonger {
			w.AtLow.Right += 2
		}
		s.Down, s.Up = plan.Change{}, plan.Change{Right: 6}
		var boxes []drawing.Stroke
		for _, sh := range drawnSensitivity(t, s, quantity.Millimetres).Shapes {
			if l, ok := sh.(drawing.Stroke); ok && l.Path.Closed {
				boxes = append(boxes, l)
			}
		}
		if len(boxes) != 5 { // with the legend's and all together's
			t.Fatalf("%d boxes", len(boxes))
		}
		under, over := boxes[2].Path.Bounds(), boxes[3].Path.Bounds()
		if !under.Holds(over, 1e-9) || over.Height() >= 0.6*under.Height() {
			t.Errorf("%v on %v", over, under)
		}
		if low := boxes[2].Tone == lowTone; low != lowLonger || boxes[3].Tone == boxes[2].Tone {
			t.Errorf("tones %v on %v", boxes[3].Tone, boxes[2].Tone)
		}
	}
}

// What stands beside a bar says which end is which by its side, and of two ends on
// one side the low value's first.
func TestBarLetters(t *testing.T) {
	figure := func(v float64) string { return quantity.Millimetres.Change(quantity.Length.Of(v)) }
	nan := math.NaN()
	for _, c := range []struct {
		bar
		left, right string
		lo, hi      float64
	}{
		{bar{-1, 2}, "-1", "+2", -1, 2},
		{bar{1, -2}, "-2", "+1", -2, 1},
		{bar{-1, -2}, "-1, -2", "", -2, 0},
		{bar{3, 2}, "", "+3, +2", 0, 3},
		{bar{-1, 0}, "-1", "0", -1, 0},
		{bar{-1, -1e-9}, "-1", "0", -1, 0},
		{bar{1, 1e-9}, "0", "+1", 0, 1},
		{bar{0, 2}, "0", "+2", 0, 2},
		{bar{1e-9, -1e-9}, "", "0", 0, 0},
		{bar{nan, 2}, "", "low none, high +2", 0, 2},
		{bar{-2, nan}, "", "low -2, high none", -2, 0},
		{bar{nan, nan}, "", "low none, high none", 0, 0},
	} {
		if got := c.letters(figure); got != [2]string{c.left, c.right} {
			t.Errorf("%v: %q", c.bar, got)
		}
		lo, hi := c.ends()
		if math.Abs(lo-c.lo) > 1e-6 || math.Abs(hi-c.hi) > 1e-6 {
			t.Errorf("%v reaches from %g to %g", c.bar, lo, hi)
		}
	}
}

// An end that can't be made says none, and why below; what moves nothing at all has no
// axis; and too little room is said by an empty picture.
func TestSensitivityOddCharts(t *testing.T) {
	p := plantest.Read(t, "../../../testdata/davit-arm.toml")
	s := sensitive(t, p)
	s.Inputs = s.Inputs[:2]
	nan := math.NaN()
	s.Inputs[0].AtHigh = plan.Outcome{Right: nan, Angle: geom.Angle(nan), Force: nan, Why: &sentence.Reason{Code: sentence.StripStaysFlat}}
	s.Inputs[1].AtLow, s.Inputs[1].AtHigh = s.Planned, s.Planned
	s.Inputs[1].Input = profiles.FrictionInput
	pic := drawnSensitivity(t, s, quantity.Millimetres)
	all := strings.Join(lettersOf(pic.Drawing), "|")
	for _, want := range []string{"high none", "can't be made: yield strength of 333.5 MPa: the strip stays flat"} {
		if !strings.Contains(quantity.Plain(all), want) {
			t.Errorf("%q is not in %s", want, all)
		}
	}
	if !tidy(pic.Drawing) {
		t.Error("lettering collides")
	}
	s.Inputs = s.Inputs[1:]
	s.Down, s.Up = plan.Change{}, plan.Change{}
	if pic = drawnSensitivity(t, s, quantity.Millimetres); !tidy(pic.Drawing) || pic.Check() != nil {
		t.Error("a chart of what moves nothing is no chart")
	}
	for _, sh := range pic.Shapes {
		if l, ok := sh.(drawing.Text); ok && l.Anchor == drawing.Middle {
			t.Errorf("an axis of nothing has the figure %s", l.Words)
		}
	}
	if pic := DrawSensitivity(s, "name", "text", quantity.Millimetres, 100); len(pic.Shapes) > 0 {
		t.Error("there is no room on 100 mm")
	}
}

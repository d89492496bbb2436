package sheet

import (
	sentence "overbend/cmd/internal/words"

	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/drawing/drawtest"
	"overbend/export/paper"
	"overbend/geom"
)

var (
	a4       = paper.Size{Name: "A4", Width: 210, Height: 297}
	a3       = paper.Size{Name: "A3", Width: 420, Height: 297}
	usLetter = paper.Size{Name: "letter", Width: 215.9, Height: 279.4}
)

// davit returns the demo job.
func davit(t testing.TB) *plan.Plan {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "testdata", "davit-arm.toml"))
	if err != nil {
		t.Fatal(err)
	}
	return planOf(t, string(text))
}

type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

func planOf(t fataler, text string) *plan.Plan {
	t.Helper()
	j, err := job.Parse("test.toml", []byte(text))
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	p, err := plan.New(j)
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return p
}

// jobOf writes a job; extra is added at the end.
func jobOf(units, shape, material string, radius, angle float64, legs [2]float64, extra string) string {
	return fmt.Sprintf("name = \"test\"\nunits = %q\n[tube]\n%s\nmaterial = %q\n[bend]\nradius = %g\nangle = %g\nlegs = [%g, %g]\n%s\n",
		units, shape, material, radius, angle, legs[0], legs[1], extra)
}

func box(w, d, t float64) string {
	return fmt.Sprintf("shape = \"rectangle\"\nwidth = %g\ndepth = %g\nwall = %g", w, d, t)
}

func round(d, t float64) string {
	return fmt.Sprintf("shape = \"round\"\ndiameter = %g\nwall = %g", d, t)
}

// jobs are what a sheet must cope with.
var jobs = []struct{ name, text string }{
	{"inch", jobOf("in", box(1.5, 1.5, 0.125), "6061-T6", 14.06, 40, [2]float64{12, 9.5}, `
[filler]
alloy = "158"
[press]
capacity = "20 tonf"
ram_diameter = "3 in"
[ends]
cut = [45, -30]
[drawing]
owner = "Harbour Fabrication"
number = "HF-0212"
revision = "A"
date = "2025-06-01"
drawn = "M. Field"
approved = "J. Reed"`)},
	{"round", jobOf("mm", round(33.7, 2.6), "S235", 300, 60, [2]float64{300, 200}, "[press]\ncapacity = \"15 t\"")},
	{"round, many layers", jobOf("mm", round(60.3, 3.2), "S235", 600, 45, [2]float64{200, 200}, "[block]\nplate = 4\n[filler]\nalloy = \"281\"")},
	{"no filler", jobOf("mm", box(30, 30, 4), "6060-T66", 500, 30, [2]float64{200, 300}, "")},
	{"no press", jobOf("mm", box(60, 60, 4), "S355", 400, 150, [2]float64{100, 100}, "[press]\ncapacity = \"2 t\"\n[filler]\nalloy = \"203\"")},
	{"right angle", jobOf("mm", box(30, 30, 2.5), "6060-T66", 250, 90, [2]float64{400, 150}, "[filler]\nalloy = \"281\"\n[ends]\ncut = [30, 45]")},
	{"wide angle", jobOf("mm", box(30, 30, 3), "6060-T66", 400, 120, [2]float64{300, 250}, "[filler]\nalloy = \"174\"")},
	{"half circle", jobOf("in", round(1, 0.065), "1025 tube", 17.5, 180, [2]float64{12.5, 12.5}, "[block]\nplate = \"1/4 in\"")},
	{"small angle", jobOf("mm", box(40, 20, 2), "6082-T6", 1500, 3, [2]float64{600, 600}, "")},
	{"no legs", jobOf("mm", box(40, 40, 3), "6082-T6", 420, 33, [2]float64{0, 0}, "")},
	{"short legs", jobOf("mm", box(40, 40, 3), "6082-T6", 420, 33, [2]float64{30, 1200}, "[ends]\ncut = [10, -10]")},
	{"flat tube", jobOf("mm", box(80, 20, 2), "6060-T66", 300, 45, [2]float64{200, 200}, "[filler]\nalloy = \"158\"")},
	{"tall tube", jobOf("mm", box(20, 60, 2), "6060-T66", 900, 20, [2]float64{200, 200}, "[filler]\nalloy = \"158\"")},
	{"large", jobOf("mm", box(100, 100, 6), "S355", 2500, 40, [2]float64{3000, 2000}, "[press]\ncapacity = \"100 t\"")},
	{"small and steep", jobOf("mm", box(12.1, 13.7, 1), "S235", 126, 142, [2]float64{0, 12.6}, "[press]\ncapacity = \"34.3 t\"")},
	{"tiny", jobOf("mm", box(6, 6, 1), "6060-T66", 60, 30, [2]float64{40, 40}, "[press]\nroller = 8")},
	{"too tight", jobOf("mm", box(40, 40, 3), "6082-T6", 120, 60, [2]float64{100, 100}, "[press]\ncapacity = \"60 t\"\nsupports = 400")},
	{"trials", jobOf("mm", box(40, 40, 3), "6082-T6", 420, 33, [2]float64{250, 250}, `
[filler]
alloy = "158"
[block]
existing = "360 mm"
[press]
capacity = "20 t"
ram_diameter = "60 mm"
[[trial]]
block = 360
loaded = 41
melted = 35.2`)},
	{"long words", strings.Replace(jobOf("mm", box(40, 40, 3), "6082-T6", 420, 33, [2]float64{250, 250}, `
[drawing]
owner = "`+strings.Repeat("Wide Waters ", 5)+`"
number = "`+strings.Repeat("MW", 25)+`"
revision = "`+strings.Repeat("W", 40)+`"
date = "the first of the month after the next"
drawn = "`+strings.Repeat("W", 40)+`"
approved = "`+strings.Repeat("M", 40)+`"`), `"test"`, `"`+strings.Repeat("W", 60)+`"`, 1)},
	{"odd words", strings.Replace(jobOf("mm", box(40, 40, 3), "6082-T6", 420, 33, [2]float64{250, 250}, ""), `"test"`, `"Ölwanne <&> 漢字"`, 1)},
}

// sheets calls f with the sheets of every job: on some papers, in both units.
func sheets(t *testing.T, f func(t *testing.T, p *plan.Plan, u quantity.Units, pages []drawing.Drawing, margin float64)) {
	all := append([]struct{ name, text string }{{name: "davit-arm"}}, jobs...)
	least := paper.Size{Name: "the least", Width: leastWidth + 20, Height: leastHeight + 20}
	for _, c := range all {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			var p *plan.Plan
			if c.text == "" {
				p = davit(t)
			} else {
				p = planOf(t, c.text)
			}
			for _, on := range []struct {
				paper.Size
				margin float64
				u      quantity.Units
			}{
				{a4, 10, quantity.Millimetres}, {a4, 10, quantity.Inches}, {usLetter, 10, quantity.Inches},
				{least, 10, quantity.Millimetres}, {a3, 5, quantity.Inches},
			} {
				d, err := Draw(p, on.u, on.u, on.Size, on.margin)
				if err != nil {
					t.Fatal(err)
				}
				t.Run(fmt.Sprintf("%s, %g mm, %s", on.Name, on.margin, on.u), func(t *testing.T) {
					f(t, p, on.u, d, max(on.margin, 10))
				})
			}
		})
	}
}

// Lettering keeps off lines and other lettering, is not covered, and all stays
// within the margins.
func TestClear(t *testing.T) {
	sheets(t, func(t *testing.T, _ *plan.Plan, _ quantity.Units, pages []drawing.Drawing, margin float64) {
		for _, d := range pages {
			for _, fault := range faults(d, margin) {
				t.Errorf("%s: %s", d.Title, fault)
			}
		}
	})
}

// faults finds what is wrong with the lettering of a page. It looks at points
// along every line and knows nothing of how the sheet was laid out.
func faults(d drawing.Drawing, margin float64) []string {
	var out []string
	fault := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if err := d.Check(); err != nil {
		return []string{err.Error()}
	}
	page := d.Page.Grow(-margin)
	type text struct {
		drawing.Text
		at     int
		box    geom.Rect
		corner geom.Point // lower left
		x, y   geom.Point // unit vectors along the box
		w, h   float64
	}
	var texts []text
	for i, s := range d.Shapes {
		half := 0.0
		switch s := s.(type) {
		case drawing.Stroke:
			half = drawing.PenOf(s.Role).Width / 2
		case drawing.Ring:
			half = drawing.PenOf(s.Role).Width / 2
		case drawing.Text:
			v := s.Box().Vertices
			texts = append(texts, text{
				s, i, s.Bounds(), v[0].Point, v[1].Sub(v[0].Point).Unit(), v[3].Sub(v[0].Point).Unit(),
				v[0].Dist(v[1].Point), v[0].Dist(v[3].Point),
			})
			if s.Height < 2.5-1e-9 {
				fault("%q is only %g mm high", s.Words, s.Height)
			}
			if strings.Contains(s.Words, "…") {
				fault("%q is cut off", s.Words)
			}
			if strings.TrimSpace(s.Words) == "" {
				fault("lettering without a word at %v", s.At)
			}
		}
		one := drawing.Drawing{Shapes: []drawing.Shape{s}}.Bounds().Grow(half)
		if !page.Holds(one, 1e-9) {
			fault("shape %d, %T, reaches out of the margins: %v in %v", i, s, one, page)
		}
	}
	// inside returns how deep q lies in a text's box, negative outside.
	inside := func(t text, q geom.Point) float64 {
		v := q.Sub(t.corner)
		x, y := v.Dot(t.x), v.Dot(t.y)
		if dx, dy := max(0, -x, x-t.w), max(0, -y, y-t.h); dx > 0 || dy > 0 {
			return -math.Hypot(dx, dy)
		}
		return min(x, t.w-x, y, t.h-y)
	}
	// covers reports whether shape s hides the point q.
	covers := func(s drawing.Shape, q geom.Point) bool {
		switch s := s.(type) {
		case drawing.Stroke:
			return s.Tone != drawing.NoTone && s.Path.Closed && s.Path.Bounds().Holds(geom.Rect{Min: q, Max: q}, 0) && s.Path.Contains(q)
		case drawing.Ring:
			return s.Tone != drawing.NoTone && q.Dist(s.Circle.Centre) < s.Circle.Radius
		}
		return false
	}
	for i, a := range texts {
		for _, b := range texts[:i] {
			if !a.box.Overlaps(b.box, 0) {
				continue
			}
			for x := 0.0; x <= a.w; x += a.w / math.Ceil(a.w/0.4) {
				for y := 0.0; y <= a.h; y += a.h / 12 {
					if inside(b, a.corner.Add(a.x.Mul(x)).Add(a.y.Mul(y))) > 0.02 {
						fault("%q lies on %q", a.Words, b.Words)
						x = math.Inf(1)
						break
					}
				}
			}
		}
	}
	const near = 0.15 // between lettering and the edge of a line, mm
	for i, s := range d.Shapes {
		var close []text
		all := drawing.Drawing{Shapes: []drawing.Shape{s}}.Bounds().Grow(1)
		for _, t := range texts {
			if t.box.Overlaps(all, 0) {
				close = append(close, t)
			}
		}
		if len(close) == 0 {
			continue
		}
		look := func(q geom.Point, half float64) bool {
			for _, t := range close {
				if inside(t, q) < -near-half {
					continue
				}
				hidden := false
				for k := i + 1; k < len(d.Shapes) && !hidden; k++ {
					// What is drawn after the lettering hides both.
					hidden = k < t.at && covers(d.Shapes[k], q)
				}
				if !hidden {
					fault("%q lies on a line: shape %d, %T, at %.1f, %.1f", t.Words, i, s, q.X, q.Y)
					return false
				}
			}
			return true
		}
		var about geom.Rect
		switch s := s.(type) {
		case drawing.Stroke:
			about = s.Path.Bounds()
			half := drawing.PenOf(s.Role).Width / 2
			if half == 0 && s.Tone != drawing.Dark {
				break
			}
		segments:
			for _, g := range s.Path.Segments() {
				n := max(1, math.Ceil(g.Length()/0.4))
				for k := 0.0; k <= n; k++ {
					q, _ := g.At(k / n)
					if !look(q, half) {
						break segments
					}
				}
			}
		case drawing.Ring:
			about = s.Circle.Bounds()
			half := drawing.PenOf(s.Role).Width / 2
			for k := range 24 {
				if !look(s.Circle.Centre.Add(geom.Polar(s.Circle.Radius, geom.Angle(k)*15*geom.Degree)), half) {
					break
				}
			}
		default:
			continue
		}
		// Lettering under a later tone.
		for _, t := range close {
			if t.at > i || !about.Overlaps(t.box, 0) {
				continue
			}
			if m := t.box.Centre(); covers(s, m) {
				fault("%q is covered by shape %d", t.Words, i)
			}
		}
	}
	return out
}

// random writes a job within what a shop might bend.
func random(t *rapid.T) string {
	f := func(name string, lo, hi float64) float64 {
		return math.Round(rapid.Float64Range(lo, hi).Draw(t, name)*10) / 10
	}
	width := f("width", 10, 90)
	depth := f("depth", 10, 90)
	shape := box(width, depth, math.Max(0.8, math.Round(min(width, depth)*rapid.Float64Range(0.05, 0.2).Draw(t, "wall"))))
	if rapid.Bool().Draw(t, "round") {
		depth = width
		shape = round(width, math.Max(0.8, math.Round(width*0.08)))
	}
	extra := ""
	if rapid.Bool().Draw(t, "filled") {
		extra += fmt.Sprintf("[filler]\nalloy = %q\n", rapid.SampledFrom([]string{"158", "203", "281", "117"}).Draw(t, "alloy"))
	}
	if rapid.Bool().Draw(t, "press") {
		extra += fmt.Sprintf("[press]\ncapacity = \"%g t\"\n", f("capacity", 5, 100))
	}
	radius := math.Round(depth * rapid.Float64Range(4, 40).Draw(t, "radius"))
	if rapid.Bool().Draw(t, "block at hand") {
		extra += fmt.Sprintf("[block]\nexisting = %.4g\n", radius*rapid.Float64Range(0.75, 1).Draw(t, "of the radius"))
	}
	legs := [2]float64{f("leg", 0, 800), f("other leg", 0, 800)}
	if rapid.Bool().Draw(t, "cuts") && legs[0] > 150 && legs[1] > 150 {
		extra += fmt.Sprintf("[ends]\ncut = [%g, %g]\n", f("cut", -60, 60), f("other cut", -60, 60))
	}
	name := rapid.SampledFrom(drawtest.Names())
	extra += fmt.Sprintf("[drawing]\nowner = %q\nnumber = %q\ndrawn = %q\n", name.Draw(t, "owner"), name.Draw(t, "number"), name.Draw(t, "drawn"))
	text := jobOf("mm", shape, rapid.SampledFrom([]string{"6082-T6", "6060-T66", "S235"}).Draw(t, "material"),
		radius, f("angle", 1, 180), legs, extra)
	return strings.Replace(text, `"test"`, strconv.Quote(name.Draw(t, "name")), 1)
}

func TestClearOnRandomJobs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := random(t)
		j, err := job.Parse("random.toml", []byte(text))
		if err != nil {
			t.Skip(err)
		}
		p, err := plan.New(j)
		if err != nil {
			t.Skip(err)
		}
		u := rapid.SampledFrom([]quantity.Units{quantity.Millimetres, quantity.Inches}).Draw(t, "units of the sheet")
		size := rapid.SampledFrom([]paper.Size{a4, usLetter, a3}).Draw(t, "paper")
		pages, err := Draw(p, u, u, size, 10)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range pages {
			for _, fault := range faults(d, 10) {
				t.Errorf("%s: %s in\n%s", d.Title, fault, text)
			}
		}
		for _, fault := range append(misdrawn(p, pages), missing(p, u, pages)...) {
			t.Errorf("%s in\n%s", fault, text)
		}
	})
}

// allWords returns all lettering of pages as one run of words.
func allWords(pages []drawing.Drawing) string {
	var b strings.Builder
	for _, d := range pages {
		for _, s := range d.Shapes {
			if t, ok := s.(drawing.Text); ok {
				b.WriteString(t.Words + " ")
			}
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// after returns the number behind "1:" in the first lettering after a heading's
// name, 0 when there is none; an enlargement counts below 1.
func after(pages []drawing.Drawing, name string) float64 {
	found := false
	for _, d := range pages {
		for _, s := range d.Shapes {
			t, ok := s.(drawing.Text)
			if !ok {
				continue
			}
			if found {
				for _, w := range strings.FieldsFunc(t.Words, func(r rune) bool { return r == ' ' || r == ',' }) {
					var up, down float64
					if n, _ := fmt.Sscanf(w, "%g:%g", &up, &down); n == 2 {
						return down / up
					}
				}
			}
			// The scale stands in the heading, on its second line at the latest.
			found = t.Words == name && t.Bold || found && !t.Bold && len(t.Words) > 12
		}
	}
	return 0
}

// misdrawn measures set-up and blank on paper against the scales printed beside
// them, rollers and tube: it takes from the sheet only what is drawn and written.
func misdrawn(p *plan.Plan, pages []drawing.Drawing) []string {
	var out []string
	for _, d := range pages {
		one := []drawing.Drawing{d}
		if n := after(one, "SET UP"); n > 0 && p.Press != nil {
			var rollers []geom.Circle
			for _, s := range d.Shapes {
				if r, ok := s.(drawing.Ring); ok && r.Tone == drawing.Steel {
					rollers = append(rollers, r.Circle)
				}
			}
			if len(rollers) != 2 {
				out = append(out, fmt.Sprintf("%d rollers", len(rollers)))
				continue
			}
			q := p.Press
			if strings.Contains(d.Title, "at hand") {
				q = p.Existing.Press
			}
			if got, want := n*2*rollers[0].Radius, q.Rig.Roller; math.Abs(got/want-1) > 1e-3 {
				out = append(out, fmt.Sprintf("at 1:%g a roller measures %.2f mm, it is %.2f", n, got, want))
			}
			if got, want := n*rollers[0].Centre.Dist(rollers[1].Centre), 2*q.Final.Roller.X; math.Abs(got/want-1) > 1e-3 {
				out = append(out, fmt.Sprintf("at 1:%g the rollers stand %.2f mm apart, they are %.2f", n, got, want))
			}
		}
		if n := after(one, "MARK"); n > 0 {
			long := 0.0
			for _, s := range d.Shapes {
				if r, ok := s.(drawing.Stroke); ok && r.Path.Closed && r.Role == drawing.Visible && (r.Tone == drawing.Tube || r.Tone == drawing.Filler) && len(r.Path.Vertices) == 4 {
					if b := r.Path.Bounds(); math.Abs(b.Height()*n/p.Job.Tube.Depth-1) < 1e-3 {
						long = max(long, b.Width()*n)
					}
				}
			}
			if want := p.Tools.Blank.Length; math.Abs(long/want-1) > 1e-3 {
				out = append(out, fmt.Sprintf("at 1:%g the blank measures %.2f mm, it is %.2f", n, long, want))
			}
		}
	}
	return out
}

// missing returns what of the plan is not on the pages, rounded as a shop reads it.
func missing(p *plan.Plan, u quantity.Units, pages []drawing.Drawing) []string {
	got := allWords(pages)
	var want []string
	figure := func(k quantity.Kind, v float64) { want = append(want, u.Figure(k.Of(v))) }
	for _, c := range p.CutList() {
		figure(quantity.Mass, c.MassKg)
	}
	for _, m := range p.Tools.Blank.Marks {
		figure(quantity.Tape, m.At+m.Slant)
		figure(quantity.Tape, m.At-m.Slant)
	}
	figure(quantity.Angle, p.Job.Bend.Angle.Degrees()*math.Pi/180)
	figure(quantity.Angle, math.Pi-float64(p.Job.Bend.Angle))
	presses := []*plan.Press{p.Press}
	if p.Existing != nil && p.Existing.Works {
		presses = append(presses, p.Existing.Press)
	}
	for _, q := range presses {
		if q == nil {
			continue
		}
		figure(quantity.Tape, q.Rig.Supports)
		for _, s := range q.Stops {
			figure(quantity.Travel, s.Travel)
			if u == quantity.Inches {
				want = append(want, u.Fraction(quantity.Travel.Of(s.Travel)))
			}
			figure(quantity.Force, s.Force)
			if s != q.Final {
				figure(quantity.Stop, float64(s.Loaded))
				figure(quantity.Stop, float64(s.Filled))
			}
			if q.Gauge > 0 {
				figure(quantity.Pressure, q.At(s))
			}
		}
		figure(quantity.Reading, float64(q.Final.Loaded))
		figure(quantity.Reading, float64(q.Final.Filled))
	}
	var out []string
	for _, w := range want {
		if !strings.Contains(got, w) {
			out = append(out, fmt.Sprintf("%q is not on the sheet", w))
		}
	}
	for _, a := range p.Advice {
		if a.Level == sentence.Stop || a.Level == sentence.Warning {
			if t := strings.Join(strings.Fields(a.Brief(u)), " "); !strings.Contains(got, t) {
				out = append(out, fmt.Sprintf("%q is not on the sheet", t))
			}
		}
	}
	return out
}

// Every sheet is drawn at the scales that it prints, and says what the plan holds.
func TestTrue(t *testing.T) {
	sheets(t, func(t *testing.T, p *plan.Plan, u quantity.Units, pages []drawing.Drawing, _ float64) {
		for _, fault := range append(misdrawn(p, pages), missing(p, u, pages)...) {
			t.Error(fault)
		}
		if len(p.Tools.Blank.Marks) > 0 && after(pages, "MARK") == 0 {
			t.Error("the blank has no scale")
		}
		if p.Press != nil && after(pages, "SET UP") == 0 {
			t.Error("the set-up has no scale")
		}
	})
}

// The two sides, step by step, in the words of the trade.
func TestContents(t *testing.T) {
	pages, err := Draw(davit(t), quantity.Millimetres, quantity.Millimetres, a4, 10)
	if err != nil || len(pages) != 2 {
		t.Fatal(len(pages), err)
	}
	for side, want := range [][]string{
		{"PART", "R420", "147°", "CUT", "STACK", "end view", "packing", "M12 × 80 mm", "MARK", "cut here after bending", "bend starts", "bend ends", "FILL", "8.13 kg", "70 °C", "room temperature", "lead and cadmium", "licensed engineer", "1/2"},
		{"SET UP", "block R356.6", "side plates", "strip", "roller", "first touch", "angle finder here", "read it here", "PRESS", "under pressure", "let go, alloy in", "read", "MELT OUT", "CHECK", "straightedge of 200 mm", "TRIM", "TRIAL", "filled melted", "Stand aside", "2/2"},
	} {
		got := allWords(pages[side : side+1])
		at := 0
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("page %d: %q is not on it", side+1, w)
			}
			// Steps stand in the order of the work.
			if w == strings.ToUpper(w) && w[0] >= 'A' && len(w) > 2 && !strings.ContainsAny(w, "0123456789") {
				if i := strings.Index(got, w+" "); i < at {
					t.Errorf("page %d: %s is out of order", side+1, w)
				} else {
					at = i
				}
			}
		}
		if t.Failed() {
			t.Log(got)
		}
	}
}

// An empty tube has no columns for alloy, and a drawing's tolerances stand only
// where it states them.
func TestAsked(t *testing.T) {
	for _, c := range []struct {
		extra      string
		want, lack []string
	}{
		{"", []string{"released chord rise", "let go read"}, []string{"filled", "melted", "alloy in", "drawing allows", "ISO 2768", "gauge"}},
		{"[drawing]\nangle_tolerance = \"0.5 deg\"\nradius_tolerance = 3\n", []string{"The drawing allows ±0.5° and ±3 mm of radius"}, nil},
		{"[press]\ncapacity = \"20 t\"\nram_diameter = 60\n", []string{"gauge, bar"}, nil},
		{"[cutting]\nprocess = \"plasma\"\nkerf = \"1.5 mm\"\nsheet = \"1000x500 mm\"\n", []string{"1 plate of 10 × 1000 × 500 mm", "Drill 36 holes Ø13 mm", "plasma can't cut them", "half a kerf of 1.5 mm"}, nil},
	} {
		pages, err := Draw(planOf(t, jobOf("mm", box(40, 40, 3), "6082-T6", 420, 33, [2]float64{250, 250}, c.extra)), quantity.Millimetres, quantity.Millimetres, a4, 10)
		if err != nil {
			t.Fatal(err)
		}
		got := allWords(pages)
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%q: %q is not on the sheet:\n%s", c.extra, w, got)
			}
		}
		for _, w := range c.lack {
			if strings.Contains(got, w) {
				t.Errorf("%q: %q is on the sheet:\n%s", c.extra, w, got)
			}
		}
	}
}

// Other paper: letter and smaller margins do, a larger sheet has larger lettering,
// what leaves no room is refused in a sentence.
func TestPaper(t *testing.T) {
	p := davit(t)
	for _, c := range []struct {
		size   paper.Size
		margin float64
		grow   float64 // 0: refused
	}{
		{a4, 0, 1},
		{a4, 15, 1},
		{usLetter, 15, 1},
		{paper.Size{Name: "A3", Width: 297, Height: 420}, 10, 277. / 190},
		{paper.Size{Name: "A1", Width: 594, Height: 841}, 10, 574. / 190},
		{paper.Size{Name: "300x2000 mm", Width: 300, Height: 2000}, 10, 280. / 190},
		{a4, 20, 0},
		{a4, math.NaN(), 0},
		{paper.Size{Name: "150x200 mm", Width: 150, Height: 200}, 10, 0},
	} {
		pages, err := Draw(p, quantity.Millimetres, quantity.Millimetres, c.size, c.margin)
		if c.grow == 0 {
			if err == nil || strings.Contains(err.Error(), "\n") || !strings.Contains(err.Error(), c.size.Name) {
				t.Errorf("%s, %g mm: got the error %v", c.size.Name, c.margin, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s, %g mm: %v", c.size.Name, c.margin, err)
			continue
		}
		w, h := min(c.size.Width, c.size.Height), max(c.size.Width, c.size.Height)
		for _, d := range pages {
			for _, s := range d.Shapes {
				if s, ok := s.(drawing.Text); ok && s.Height < 2.5*c.grow-1e-9 {
					t.Errorf("%s: %q is %g mm high", c.size.Name, s.Words, s.Height)
				}
			}
			if d.Page.Width() != w || d.Page.Height() != h {
				t.Errorf("%s: the page is %v", c.size.Name, d.Page)
			}
			for _, fault := range faults(d, max(c.margin, 10)) {
				t.Errorf("%s: %s", c.size.Name, fault)
			}
		}
	}
}

// The picture of the set-up is the state: the block lies on the tube, the tube
// on the strip and the strip on the rollers, over the wrap and nowhere else.
func TestSetUpIsTheState(t *testing.T) {
	for _, c := range append(jobs[:0:0], jobs...) {
		p := planOf(t, c.text)
		if p.Press == nil || len(p.Tools.Block.Layers) == 0 {
			continue
		}
		s := &sheet{p: p, pen: pen{sizes[0]}, grow: 1}
		d, _ := s.setUpPicture(s.newForm(), p.Press, 1, geom.Rect{Max: geom.Pt(1e5, 1e5)}, true, false)
		var block, strip geom.Path
		var tube []geom.Path
		var rollers []geom.Circle
		for _, sh := range d.Shapes {
			switch sh := sh.(type) {
			case drawing.Stroke:
				switch {
				case sh.Tone == drawing.Steel && sh.Role == drawing.Visible:
					strip = sh.Path
				case sh.Tone == drawing.Block && sh.Role == drawing.Visible:
					block = sh.Path
				case sh.Tone == drawing.Tube:
					tube = append(tube, sh.Path)
				}
			case drawing.Ring:
				if sh.Tone == drawing.Steel {
					rollers = append(rollers, sh.Circle)
				}
			}
		}
		const slack = 0.02 // of a mm of steel; thinning a line to 0.4 mm leaves less
		for _, r := range rollers {
			if gap := strip.Distance(r.Centre) - r.Radius; math.Abs(gap) > slack {
				t.Errorf("%s: the strip is %.3f mm off a roller", c.name, gap)
			}
		}
		wrap := p.Press.Final.HalfWrap
		radius, middle := p.Tools.Block.Radius, geom.Pt(0, p.Tools.Block.Radius+p.Job.Tube.Depth/2)
		for i := range 11 {
			a := wrap * geom.Angle(i) / 10
			q := middle.Add(geom.Polar(radius, a-90*geom.Degree))
			if gap := tube[0].Distance(q); gap > slack {
				t.Errorf("%s: %.1f deg from the crown the tube is %.3f mm off the block", c.name, a.Degrees(), gap)
			}
			if gap := block.Distance(q); gap > slack {
				t.Errorf("%s: %.1f deg from the crown the block's arc is %.3f mm away", c.name, a.Degrees(), gap)
			}
		}
		// What the picture has no room for is cut off, nothing is added.
		area, want := math.Abs(tube[0].Area()), p.Tools.Blank.Length*p.Job.Tube.Depth
		cut := false
		if top := block.Bounds().Max.Y + p.Press.Final.Travel; tube[0].Bounds().Max.Y > top-1e-6 {
			cut = true
		}
		if area > want*(1+1e-3) || !cut && area < want*(1-1e-3) {
			t.Errorf("%s: the bent tube's side is %.0f mm², the blank's %.0f mm²", c.name, area, want)
		}
	}
}

func TestSameTwice(t *testing.T) {
	p := davit(t)
	a, err := Draw(p, quantity.Inches, quantity.Inches, usLetter, 10)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Draw(p, quantity.Inches, quantity.Inches, usLetter, 10)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(a, b) {
		t.Error("two sheets of one job differ")
	}
}

func BenchmarkDraw(b *testing.B) {
	p := davit(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Draw(p, quantity.Millimetres, quantity.Millimetres, a4, 10); err != nil {
			b.Fatal(err)
		}
	}
}

package sheet

import (
	sentence "overbend/cmd/internal/words"

	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/paper"
	"overbend/geom"
)

var (
	a4       = paper.Size{Name: "A4", Width: 210, Height: 297}
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
func sheets(t *testing.T, f func(t *testing.T, d drawing.Drawing, margin float64)) {
	all := append([]struct{ name, text string }{{name: "davit-arm"}}, jobs...)
	least := paper.Size{Name: "the least", Width: leastWidth + 20, Height: leastHeight + 20}
	a3 := paper.Size{Name: "A3", Width: 420, Height: 297}
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
				d, err := Draw(p, on.u, on.Size, on.margin)
				if err != nil {
					t.Fatal(err)
				}
				t.Run(fmt.Sprintf("%s, %g mm, %s", on.Name, on.margin, on.u), func(t *testing.T) {
					f(t, d, max(on.margin, 10))
				})
			}
		})
	}
}

// Lettering keeps off lines and other lettering, is not covered, and all stays
// within the margins.
func TestClear(t *testing.T) {
	sheets(t, func(t *testing.T, d drawing.Drawing, margin float64) {
		for _, fault := range faults(d, margin) {
			t.Error(fault)
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
			if s.Height < 3.5-1e-9 {
				fault("%q is only %g mm high", s.Words, s.Height)
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
	legs := [2]float64{f("leg", 0, 800), f("other leg", 0, 800)}
	if rapid.Bool().Draw(t, "cuts") && legs[0] > 150 && legs[1] > 150 {
		extra += fmt.Sprintf("[ends]\ncut = [%g, %g]\n", f("cut", -60, 60), f("other cut", -60, 60))
	}
	return jobOf("mm", shape, rapid.SampledFrom([]string{"6082-T6", "6060-T66", "S235"}).Draw(t, "material"),
		math.Round(depth*rapid.Float64Range(4, 40).Draw(t, "radius")), f("angle", 1, 180), legs, extra)
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
		d, err := Draw(p, u, rapid.SampledFrom([]paper.Size{a4, usLetter}).Draw(t, "paper"), 10)
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range faults(d, 10) {
			t.Errorf("%s in\n%s", fault, text)
		}
	})
}

// allWords returns all lettering of a drawing, a line each.
func allWords(d drawing.Drawing) string {
	var b strings.Builder
	for _, s := range d.Shapes {
		if t, ok := s.(drawing.Text); ok {
			b.WriteString(t.Words + "\n")
		}
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

// The sheet says what the plan holds: all ten kinds of thing, and no other
// numbers.
func TestContents(t *testing.T) {
	p := davit(t)
	d, err := Draw(p, quantity.Millimetres, a4, 10)
	if err != nil {
		t.Fatal(err)
	}
	got := allWords(d)
	q, b := p.Press, p.Tools.Blank
	want := []string{
		"davit-arm", "40 × 40 × 3 6082-T6", "1/1", "job sheet", "as noted", // title block
		"R420", "33°", "250", "cut 22.5°", // part
		fmt.Sprintf("supports %g", q.Rig.Supports), fmt.Sprintf("travel %.1f", q.Final.Travel), // set-up
		fmt.Sprintf("block R%.2f", p.Nominal.Block), fmt.Sprintf("cheeks %.2f apart", p.Tools.CheekGap),
		fmt.Sprintf("%.2f", p.After.OuterWidth), fmt.Sprintf("%.2f", p.After.InnerWidth), // section
		fmt.Sprintf("wall %.2f", p.After.OuterWall), fmt.Sprintf("wall %.2f", p.After.InnerWall),
		"force, kN", "loaded", "melted", "travel, mm", // plot
		fmt.Sprintf("PRESS to %.1f", q.Final.Travel), fmt.Sprintf("%g of 196.1 kN", math.Round(q.Final.Force/100)/10),
		"CUT", "MARK", fmt.Sprintf("FILL %.2f kg", p.Filler.Mass), "SET UP", "PRESS", "CHECK", "MELT OUT", "TRIM", // steps
		"block\n4\n", "cheek\n2\n", "strip\n1\n", "templates\n2\n", // cut list
		"±0°10'", "±0.8", "±0.5", fmt.Sprintf("%.1f°", q.Final.Filled.Degrees()), // checks
		"trial\nblock\ntravel\nloaded\nfilled\nmelted\nchord\nrise\n", // trials
		"AT THE PRESS", "ALLOY 158", "lead and cadmium", "STRUCTURE", "licensed engineer", // cautions
	}
	for _, s := range q.Schedule[len(q.Schedule)-10:] {
		want = append(want, fmt.Sprintf("%.1f\n", s.Travel), fmt.Sprintf("%.1f\n", s.Loaded.Degrees()), fmt.Sprintf("%.1f\n", s.Filled.Degrees()))
	}
	for _, m := range b.Marks {
		want = append(want, fmt.Sprintf("%g\n", math.Round(2*(m.At+m.Slant))/2), m.Name)
	}
	for _, w := range want {
		if !strings.Contains(got, w) {
			t.Errorf("%q is not on the sheet", w)
		}
	}
	if t.Failed() {
		t.Log(got)
	}
}

// The sheet says what the plates need: how many, what must be drilled, whether a
// kerf is in the files. A job without a kerf says that in a word.
func TestPlates(t *testing.T) {
	for _, c := range []struct {
		cutting string
		want    []string
	}{
		{"", []string{"kerf 0\n"}},
		{"[cutting]\nprocess = \"plasma\"\nkerf = \"1.5 mm\"\nsheet = \"1000x500 mm\"\n", []string{
			"PLATE\n1 of 10 × 1000 × 500, ", " % used, 39.25 kg", "drill 24 holes Ø13", "plasma can't cut them", "kerf 1.5 is in the files, add none",
		}},
		{"[cutting]\nprocess = \"waterjet\"\n", []string{"kerf 0\n", "PLATE\nfiles are true size, the table allows for its kerf"}},
	} {
		d, err := Draw(planOf(t, jobOf("mm", box(40, 40, 3), "6082-T6", 420, 33, [2]float64{250, 250}, c.cutting)), quantity.Millimetres, a4, 10)
		if err != nil {
			t.Fatal(err)
		}
		got := allWords(d)
		broken := strings.Join(strings.Fields(got), " ")
		for _, w := range c.want {
			if !strings.Contains(got, w) && !strings.Contains(broken, w) {
				t.Errorf("%q: %q is not on the sheet:\n%s", c.cutting, w, got)
			}
		}
	}
}

// What stops a job and what warns of it is on its sheet, in full.
func TestAlerts(t *testing.T) {
	for _, c := range jobs {
		p := planOf(t, c.text)
		d, err := Draw(p, quantity.Millimetres, a4, 10)
		if err != nil {
			t.Fatal(err)
		}
		got := strings.Join(strings.Fields(allWords(d)), " ")
		missing := 0
		for _, a := range p.Advice {
			if a.Level == sentence.Stop || a.Level == sentence.Warning {
				if !strings.Contains(got, a.About+": "+strings.Join(strings.Fields(quantity.Plain(a.Say(quantity.Millimetres))), " ")) {
					missing++
				}
			}
		}
		if more := fmt.Sprintf("%d more in overbend show", missing); missing > 0 && !strings.Contains(got, more) {
			t.Errorf("%s: %d warnings are missing without a word", c.name, missing)
		}
		for _, caution := range []string{"AT THE PRESS", "STRUCTURE"} {
			if !strings.Contains(got, caution) {
				t.Errorf("%s: the cautions %s are missing", c.name, caution)
			}
		}
	}
}

// Other paper: letter and smaller margins do, a larger sheet is the same sheet
// grown, what leaves no room is refused in a sentence.
func TestPaper(t *testing.T) {
	p := davit(t)
	for _, c := range []struct {
		size   paper.Size
		margin float64
		height float64 // of the least lettering; 0: refused
	}{
		{a4, 0, 3.5},
		{a4, 15, 3.5},
		{usLetter, 15, 3.5},
		{paper.Size{Name: "A3", Width: 297, Height: 420}, 10, 3.5 * 277 / 190},
		{paper.Size{Name: "A1", Width: 594, Height: 841}, 10, 3.5 * 574 / 190},
		{paper.Size{Name: "300x2000 mm", Width: 300, Height: 2000}, 10, 3.5 * 280 / 190},
		{a4, 20, 0},
		{a4, math.NaN(), 0},
		{paper.Size{Name: "150x200 mm", Width: 150, Height: 200}, 10, 0},
	} {
		d, err := Draw(p, quantity.Millimetres, c.size, c.margin)
		if c.height == 0 {
			if err == nil || strings.Contains(err.Error(), "\n") || !strings.Contains(err.Error(), c.size.Name) {
				t.Errorf("%s, %g mm: got the error %v", c.size.Name, c.margin, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s, %g mm: %v", c.size.Name, c.margin, err)
			continue
		}
		least := math.Inf(1)
		for _, s := range d.Shapes {
			if s, ok := s.(drawing.Text); ok {
				least = min(least, s.Height)
			}
		}
		if math.Abs(least-c.height) > 1e-9 {
			t.Errorf("%s: lettering is %g mm, want %g mm", c.size.Name, least, c.height)
		}
		w, h := min(c.size.Width, c.size.Height), max(c.size.Width, c.size.Height)
		if d.Page.Width() != w || d.Page.Height() != h {
			t.Errorf("%s: the page is %v", c.size.Name, d.Page)
		}
		for _, fault := range faults(d, max(c.margin, 10)) {
			t.Errorf("%s: %s", c.size.Name, fault)
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
		s := &sheet{p: p, f: figures{finest: p.Press.Final.Travel}}
		d, _ := s.setUpPicture(1, 1e5)
		var block, strip geom.Path
		var tube []geom.Path
		var rollers []geom.Circle
		for _, sh := range d.Shapes {
			switch sh := sh.(type) {
			case drawing.Stroke:
				switch {
				case sh.Tone == drawing.Steel:
					strip = sh.Path
				case sh.Tone == drawing.Block && sh.Role == drawing.Visible:
					block = sh.Path
				case sh.Tone == drawing.Tube:
					tube = append(tube, sh.Path)
				}
			case drawing.Ring:
				rollers = append(rollers, sh.Circle)
			}
		}
		const slack = 0.02 // of a mm of steel; thinning a line to 0.4 mm leaves less
		for _, r := range rollers {
			if gap := strip.Distance(r.Centre) - r.Radius; math.Abs(gap) > slack {
				t.Errorf("%s: the strip is %.3f mm off a roller", c.name, gap)
			}
		}
		wrap := p.Press.Final.Wrap
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
	a, err := Draw(p, quantity.Inches, usLetter, 10)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Draw(p, quantity.Inches, usLetter, 10)
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
		if _, err := Draw(p, quantity.Millimetres, a4, 10); err != nil {
			b.Fatal(err)
		}
	}
}

package paper

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"overbend/export/drawing"
	"overbend/export/svg"
	"overbend/geom"
)

var update = flag.Bool("update", false, "rewrite the golden drawings; then look at each one")

func size(t testing.TB, name string) Size {
	t.Helper()
	s, ok := Named(name)
	if _, err := fmt.Sscanf(name, "%gx%g", &s.Width, &s.Height); err != nil && !ok {
		t.Fatalf("paper %q: %v", name, err)
	}
	return s
}

// The golden tiles protect the look of a page: what is drawn on it, and where.
func TestGolden(t *testing.T) {
	pages, err := Layout{Paper: size(t, "A4"), Margin: 10}.Pages(arcTemplate(500, 60*geom.Degree), "template-outside")
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) != 3 {
		t.Fatalf("%d pages, want 3", len(pages))
	}
	for i, p := range pages {
		var got bytes.Buffer
		if err := svg.Write(&got, p); err != nil {
			t.Fatal(err)
		}
		name := filepath.Join("testdata", fmt.Sprintf("tile-A%d.svg", i+1))
		if *update {
			if err := os.MkdirAll("testdata", 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(name, got.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got.String()); diff != "" {
			t.Errorf("%s has changed (-want +got):\n%s", name, diff)
		}
	}
}

// Every page of every kind: nothing outside the printable area, printed as it
// is or corrected; two bars of 100 mm with their words; no lettering on a line
// of the page's own or on other lettering; every text of the part whole.
func TestPagesKeepTheRules(t *testing.T) {
	for _, row := range []struct {
		paper  string
		margin float64
		sx, sy float64
		radius float64
		angle  geom.Angle
	}{
		{"A4", 10, 0, 0, 500, 60},
		{"A4", 5, 0, 0, 420, 33},
		{"A4", 20, 0.97, 1.02, 500, 120},
		{"letter", 10, 1.013, 0.998, 500, 80},
		{"letter", 6.35, 0, 0, 1900, 50},
		{"A3", 10, 0, 0, 500, 200},
		{"A1", 10, 0, 0, 500, 60},
		{"tabloid", 12, 0.95, 0.95, 300, 90},
		{"200x150", 10, 0, 0, 300, 90},
		{"600x2000", 10, 0, 0, 900, 170},
	} {
		name := fmt.Sprintf("%s margin %g R%g %g°", row.paper, row.margin, row.radius, float64(row.angle))
		l := Layout{Paper: size(t, row.paper), Margin: row.margin, ScaleX: row.sx, ScaleY: row.sy}
		part := arcTemplate(row.radius, row.angle*geom.Degree)
		pages, err := l.Pages(part, "template-outside")
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		seen := map[string]bool{}
		for _, p := range pages {
			where := name + " " + p.Title
			if w, h := p.Page.Width(), p.Page.Height(); !(w == l.Paper.Width && h == l.Paper.Height || h == l.Paper.Width && w == l.Paper.Height) {
				t.Errorf("%s: page of %g x %g mm", where, w, h)
			}
			inside(t, where, p, row.margin)
			bars(t, where, p)
			checkLettering(t, where, p)
			for _, s := range p.Shapes {
				if s, ok := s.(drawing.Text); ok {
					seen[s.Words] = true
				}
			}
			if got := len(crossesOf(p)); (got > 0) != (len(pages) > 1) {
				t.Errorf("%s: %d crosses on one of %d pages", where, got, len(pages))
			}
		}
		for _, s := range part.Shapes {
			if s, ok := s.(drawing.Text); ok && !seen[s.Words] {
				t.Errorf("%s: text %q is on no page", name, s.Words)
			}
		}
	}
}

// inside checks that all ink stays off the margin, as drawn for a good printer
// and as drawn with the correction.
func inside(t *testing.T, where string, p drawing.Drawing, margin float64) {
	t.Helper()
	use := p.Page.Grow(-margin)
	k := p.Placement()
	for _, s := range p.Shapes {
		box := boundsOf(s)
		onPaper := geom.EmptyRect().Add(k.Apply(box.Min)).Add(k.Apply(box.Max))
		if s, ok := s.(drawing.Text); ok {
			s.At, s.Height = k.Apply(s.At), s.Height*k.Factor()
			onPaper = s.Bounds()
		}
		if !use.Holds(box, 1e-9) || !use.Holds(onPaper, 1e-9) {
			t.Errorf("%s: %v at %v leaves the printable %v", where, s, box, use)
			return
		}
	}
}

// boundsOf returns a shape's box, its pen included.
func boundsOf(s drawing.Shape) geom.Rect {
	box := drawing.Drawing{Shapes: []drawing.Shape{s}}.Bounds()
	switch s := s.(type) {
	case drawing.Stroke:
		box = box.Grow(drawing.PenOf(s.Role).Width / 2)
	case drawing.Ring:
		box = box.Grow(drawing.PenOf(s.Role).Width / 2)
	}
	return box
}

// bars checks for one bar of 100 mm each way that prints as 100 mm, and their
// words.
func bars(t *testing.T, where string, p drawing.Drawing) {
	t.Helper()
	across, up, words, me := 0, 0, 0, drawing.Metric.MeasureMe()
	for _, s := range p.Shapes {
		switch s := s.(type) {
		case drawing.Stroke:
			if len(s.Path.Vertices) != 2 || s.Role != drawing.Thin {
				continue
			}
			a, b := s.Path.Vertices[0].Point, s.Path.Vertices[1].Point
			switch d := b.Sub(a); {
			case math.Abs(math.Abs(d.X)-100) < 1e-9 && d.Y == 0:
				across++
			case math.Abs(math.Abs(d.Y)-100) < 1e-9 && d.X == 0:
				up++
			}
		case drawing.Text:
			if slices.Contains(me[:], s.Words) {
				words++
			}
		}
	}
	if across != 1 || up != 1 || words != 4 {
		t.Errorf("%s: %d bars across, %d up, %d lines of words", where, across, up, words)
	}
}

// checkLettering checks the page's own lettering against its own lines, and the
// part's lettering against the lines that the page adds.
func checkLettering(t *testing.T, where string, p drawing.Drawing) {
	t.Helper()
	for i, s := range p.Shapes {
		text, ok := s.(drawing.Text)
		if !ok {
			continue
		}
		if text.Height < 2.5 {
			t.Errorf("%s: %q is %g mm high", where, text.Words, text.Height)
		}
		own := !strings.HasPrefix(text.Words, "R ")
		for j, o := range p.Shapes {
			hit := false
			switch o := o.(type) {
			case drawing.Text:
				hit = i != j && own && text.Bounds().Overlaps(o.Bounds(), 0)
			case drawing.Ring:
				hit = o.Role == drawing.Thin && text.Bounds().Overlaps(boundsOf(o), 0)
			case drawing.Stroke:
				// Of the page's own: bars, map, arrows, crosses, cut lines.
				switch o.Role {
				case drawing.Thin, drawing.Hidden, drawing.Phantom:
				case drawing.Fill:
					if o.Tone != drawing.Dark {
						continue
					}
				default:
					continue
				}
				for _, g := range o.Path.Segments() {
					line := g.Bounds().Grow(drawing.PenOf(o.Role).Width / 2)
					hit = hit || text.Bounds().Overlaps(line, 0) && (own || boxHits(text.Box(), g))
				}
			}
			if hit {
				t.Errorf("%s: %q touches %v", where, text.Words, o)
			}
		}
	}
}

// boxHits reports whether a line meets a text's turned box.
func boxHits(box geom.Path, g geom.Segment) bool {
	for i := range 101 {
		q, _ := g.At(float64(i) / 100)
		if box.Contains(q) {
			return true
		}
	}
	return false
}

func crossesOf(p drawing.Drawing) []geom.Point {
	var out []geom.Point
	for _, s := range p.Shapes {
		if s, ok := s.(drawing.Ring); ok && s.Role == drawing.Thin && s.Circle.Radius == crossRing {
			out = append(out, s.Circle.Centre)
		}
	}
	return out
}

// outline returns the part's cut lines in d.
func outline(d drawing.Drawing) []geom.Path {
	var out []geom.Path
	for _, s := range d.Shapes {
		switch s := s.(type) {
		case drawing.Stroke:
			if s.Role == drawing.CutOuter || s.Role == drawing.CutInner {
				out = append(out, s.Path)
			}
		case drawing.Ring:
			if s.Role == drawing.CutInner {
				out = append(out, s.Circle.Path())
			}
		}
	}
	return out
}

func distanceTo(paths []geom.Path, q geom.Point) float64 {
	best := math.Inf(1)
	for _, p := range paths {
		best = math.Min(best, p.Distance(q))
	}
	return best
}

// assemble puts pages together by nothing but their names and their crosses,
// as a person does, and returns all cut lines in the first page's frame and by
// how much each page was moved. It also returns how far crosses that should
// agree are apart at most.
func assemble(t rapid.TB, pages []drawing.Drawing) (all []geom.Path, offset map[int]geom.Point, gap float64) {
	t.Helper()
	type at struct{ r, c int }
	where := map[at]int{}
	for i, p := range pages {
		f := strings.Fields(p.Title)
		var r, c int
		if _, err := fmt.Sscan(f[2]+" "+f[4], &r, &c); err != nil {
			t.Fatal(err)
		}
		where[at{r, c}] = i
	}
	// pick returns the two crosses that lie furthest in a direction: a seam's.
	pick := func(p drawing.Drawing, dir geom.Point) [2]geom.Point {
		cs := crossesOf(p)
		slices.SortFunc(cs, func(a, b geom.Point) int {
			return int(math.Copysign(1, b.Dot(dir)-a.Dot(dir)))
		})
		if len(cs) < 2 {
			t.Fatalf("%s has %d crosses", p.Title, len(cs))
		}
		a, b := cs[0], cs[1]
		if a.Dot(dir.Left()) > b.Dot(dir.Left()) {
			a, b = b, a
		}
		return [2]geom.Point{a, b}
	}
	offset = map[int]geom.Point{0: {}}
	for len(offset) < len(pages) {
		before := len(offset)
		for a, i := range where {
			if _, ok := offset[i]; !ok {
				continue
			}
			for _, n := range []struct {
				to  at
				dir geom.Point
			}{
				{at{a.r, a.c + 1}, geom.Pt(1, 0)}, {at{a.r, a.c - 1}, geom.Pt(-1, 0)},
				{at{a.r - 1, a.c}, geom.Pt(0, 1)}, {at{a.r + 1, a.c}, geom.Pt(0, -1)},
			} {
				j, ok := where[n.to]
				if !ok {
					continue
				}
				mine, theirs := pick(pages[i], n.dir), pick(pages[j], n.dir.Mul(-1))
				// The other page looks back: its order along the seam is reversed.
				shift := mine[0].Sub(theirs[1])
				gap = math.Max(gap, mine[1].Sub(theirs[0]).Dist(shift))
				if _, done := offset[j]; !done {
					offset[j] = offset[i].Add(shift)
				} else {
					gap = math.Max(gap, offset[j].Dist(offset[i].Add(shift)))
				}
			}
		}
		if len(offset) == before {
			t.Fatal("the pages do not hang together")
		}
	}
	for i, p := range pages {
		for _, q := range outline(p) {
			all = append(all, q.Apply(geom.Translate(offset[i])))
		}
	}
	return all, offset, gap
}

// Tiles put together by their crosses give the untiled outline. The issue
// allows 0.05 mm on paper; in numbers it is exact to rounding.
func TestTilesReassemble(t *testing.T) {
	const tol = 1e-6 // mm
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom([]Size{{"A4", 210, 297}, {"letter", 215.9, 279.4}, {"small", 200, 150}, {"A3", 297, 420}}).Draw(t, "paper")
		l := Layout{Paper: s, Margin: rapid.Float64Range(0, 15).Draw(t, "margin")}
		if rapid.Bool().Draw(t, "corrected") {
			l.ScaleX = rapid.Float64Range(0.9, 1.1).Draw(t, "sx")
			l.ScaleY = rapid.Float64Range(0.9, 1.1).Draw(t, "sy")
		}
		if _, ok := l.frame(true); !ok {
			t.Skip("no room")
		}
		part := arcTemplate(
			rapid.Float64Range(150, 700).Draw(t, "radius"),
			geom.Angle(rapid.Float64Range(20, 200).Draw(t, "angle"))*geom.Degree)
		pages, err := l.Pages(part, "template")
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) == 1 {
			return
		}
		all, offset, gap := assemble(t, pages)
		if gap > tol {
			t.Fatalf("crosses disagree by %g mm", gap)
		}
		want := outline(part.Apply(geom.Translate(tie(t, part, pages, offset))))
		for _, p := range want {
			for _, g := range p.Segments() {
				n := int(g.Length()/13) + 2
				for i := range n + 1 {
					q, _ := g.At(float64(i) / float64(n))
					if d := distanceTo(all, q); d > tol {
						t.Fatalf("outline at %v is %g mm from the nearest tile's line", q, d)
					}
				}
			}
		}
		for _, p := range all {
			for _, g := range p.Segments() {
				for _, u := range []float64{0, 0.37, 1} {
					q, _ := g.At(u)
					if d := distanceTo(want, q); d > tol {
						t.Fatalf("a tile's line at %v is %g mm off the outline", q, d)
					}
				}
			}
		}
	})
}

// tie returns by how much the assembly has moved the part: the place of any
// text tells.
func tie(t rapid.TB, part drawing.Drawing, pages []drawing.Drawing, offset map[int]geom.Point) geom.Point {
	t.Helper()
	for _, s := range part.Shapes {
		s, ok := s.(drawing.Text)
		if !ok {
			continue
		}
		for i, p := range pages {
			for _, o := range p.Shapes {
				if o, ok := o.(drawing.Text); ok && o.Words == s.Words {
					return o.At.Add(offset[i]).Sub(s.At)
				}
			}
		}
	}
	t.Fatal("no page shows a text of the part")
	return geom.Point{}
}

// The way up with fewer pages wins; equal counts stay portrait.
func TestPagesWayUp(t *testing.T) {
	bar := func(w, h float64) drawing.Drawing {
		var d drawing.Drawing
		d.Box(drawing.CutOuter, drawing.NoTone, geom.Rect{Max: geom.Pt(w, h)})
		return d
	}
	for _, row := range []struct {
		w, h  float64
		pages int
		wide  bool
	}{
		// A4 with 10 mm margins: windows of 164.5 x 251.5 and 251.5 x 164.5.
		{100, 100, 1, false},
		{164, 251, 1, false},
		{250, 160, 1, true},
		{400, 160, 2, true},
		{160, 480, 2, false},
		{480, 160, 2, true},
	} {
		pages, err := Layout{Paper: size(t, "A4"), Margin: 10}.Pages(bar(row.w, row.h), "bar")
		if err != nil {
			t.Fatal(err)
		}
		wide := pages[0].Page.Width() > pages[0].Page.Height()
		if len(pages) != row.pages || wide != row.wide {
			t.Errorf("%g x %g: %d pages, landscape %v; want %d, %v", row.w, row.h, len(pages), wide, row.pages, row.wide)
		}
	}
}

// A frame around nothing needs no paper for its middle: tiles that show nothing
// are left out, and the others still hang together.
func TestBlankTilesAreLeftOut(t *testing.T) {
	var d drawing.Drawing
	d.Box(drawing.CutOuter, drawing.NoTone, geom.Rect{Max: geom.Pt(600, 650)})
	pages, err := Layout{Paper: size(t, "A4"), Margin: 10}.Pages(d, "frame")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, p := range pages {
		names = append(names, p.Title)
	}
	if slices.Contains(names, "frame row 2 sheet 2 of 3 x 4") || !slices.Contains(names, "frame row 2 sheet 1 of 3 x 4") || len(names) < 8 {
		t.Errorf("pages %q", names)
	}

	// Two parts far apart hang together by no side: everything is printed.
	d = drawing.Drawing{}
	d.Box(drawing.CutOuter, drawing.NoTone, geom.Rect{Max: geom.Pt(20, 20)})
	d.Box(drawing.CutOuter, drawing.NoTone, geom.Rect{Min: geom.Pt(600, 600), Max: geom.Pt(620, 620)})
	pages, err = Layout{Paper: size(t, "A4"), Margin: 10}.Pages(d, "pair")
	if err != nil {
		t.Fatal(err)
	}
	last := pages[len(pages)-1].Title
	var row, sheet, rows, cols int
	if _, err := fmt.Sscanf(last, "pair row %d sheet %d of %d x %d", &row, &sheet, &rows, &cols); err != nil || row != rows || sheet != cols || rows*cols != len(pages) {
		t.Errorf("%d pages, the last %q", len(pages), last)
	}
}

// A page's name is row and sheet, never a letter and a number, which would read
// like a paper size; the part's name is whole, on two lines if need be.
func TestNames(t *testing.T) {
	paperSize := regexp.MustCompile(`\b[A-Z]\d`)
	for _, l := range []Layout{{Paper: size(t, "A4"), Margin: 10}, {Paper: size(t, "letter"), Margin: 15}, {Paper: size(t, "A3"), Margin: 10}} {
		for _, name := range []string{"cheek, arm", "template-outside, Garden gate hoop, half", "template-outside, Kayak rack J-arm, left and right side"} {
			var tall drawing.Drawing // on upright pages, where room is least
			tall.Box(drawing.CutOuter, drawing.NoTone, geom.Rect{Max: geom.Pt(150, 900)})
			pages, err := l.Pages(tall, name)
			if err != nil {
				t.Fatal(err)
			}
			if p := pages[0]; p.Page.Height() < p.Page.Width() {
				t.Fatalf("%s lies across", p.Title)
			}
			for _, p := range pages {
				checkLettering(t, p.Title, p)
				var all []string
				for _, s := range p.Shapes {
					if s, ok := s.(drawing.Text); ok {
						all = append(all, s.Words)
						// The map of the pages, 22 mm wide, is in the corner.
						if at := s.Bounds(); strings.Contains(name, s.Words) && at.Max.X > p.Page.Width()-l.Margin-22 {
							t.Errorf("%s: %q reaches the map", p.Title, s.Words)
						}
					}
				}
				words := strings.Join(all, " ")
				if strings.Contains(words, "…") || !strings.Contains(words, name) || paperSize.MatchString(words) || paperSize.MatchString(p.Title) {
					t.Errorf("%s: %s", p.Title, words)
				}
			}
		}
	}
}

func TestPagesErrors(t *testing.T) {
	part := arcTemplate(500, 60*geom.Degree)
	a4 := size(t, "A4")
	var long, wild drawing.Drawing
	long.Box(drawing.CutOuter, drawing.NoTone, geom.Rect{Max: geom.Pt(20, 20)})
	long.Add(drawing.Text{Words: strings.Repeat("long words ", 20), Height: 5})
	wild.Line(drawing.CutOuter, geom.Pt(0, 0), geom.Pt(math.NaN(), 1))
	var huge drawing.Drawing
	huge.Box(drawing.CutOuter, drawing.NoTone, geom.Rect{Max: geom.Pt(20, 5000)})
	for _, row := range []struct {
		name string
		l    Layout
		d    drawing.Drawing
		want string
	}{
		{"margin", Layout{Paper: a4, Margin: 60}, part, "a margin of 60 mm leaves 177 x 90 mm of A4; at least 170 x 104 mm is needed"},
		{"margin over all", Layout{Paper: a4, Margin: 300}, part, "leaves 0 x 0 mm"},
		{"negative margin", Layout{Paper: a4, Margin: -1}, part, "0 mm or more is allowed"},
		{"margin nan", Layout{Paper: a4, Margin: math.NaN()}, part, "0 mm or more is allowed"},
		{"no paper", Layout{}, part, "is no paper"},
		{"paper nan", Layout{Paper: Size{"x", math.NaN(), 300}}, part, "is no paper"},
		{"scale", Layout{Paper: a4, ScaleX: 1.2}, part, "from 0.9 to 1.1"},
		{"scale nan", Layout{Paper: a4, ScaleY: math.NaN()}, part, "from 0.9 to 1.1"},
		{"nothing", Layout{Paper: a4, Margin: 10}, drawing.Drawing{}, "no sheet"},
		{"not finite", Layout{Paper: a4, Margin: 10}, wild, "not finite"},
		{"long text", Layout{Paper: a4, Margin: 10}, long, "too large for the"},
		{"too many", Layout{Paper: size(t, "200x150"), Margin: 10}, huge, "at most 26 rows and 99 columns"},
	} {
		_, err := row.l.Pages(row.d, "part")
		if err == nil || !strings.Contains(err.Error(), row.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: error %v, want %q in it", row.name, err, row.want)
		}
	}
}

// The drawing that goes in is not changed, and the same one gives the same
// pages.
func TestPagesRepeat(t *testing.T) {
	part := arcTemplate(500, 60*geom.Degree)
	l := Layout{Paper: size(t, "A4"), Margin: 10}
	a, err := l.Pages(part, "template")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(arcTemplate(500, 60*geom.Degree), part); diff != "" {
		t.Errorf("the drawing has changed: %s", diff)
	}
	b, _ := l.Pages(part, "template")
	if diff := cmp.Diff(a, b); diff != "" {
		t.Errorf("the pages differ: %s", diff)
	}
}

func BenchmarkPages(b *testing.B) {
	part := arcTemplate(500, 60*geom.Degree)
	l := Layout{Paper: size(b, "A4"), Margin: 10}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := l.Pages(part, "template"); err != nil {
			b.Fatal(err)
		}
	}
}

package kit

import (
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/paper"
	"overbend/geom"
	"overbend/geom/tooling"
)

// Lettering on every print of every example, in both units, is at least 3.5 mm
// high and keeps off lines and other lettering; what stands on a part stands
// wholly on it.
func TestPrintsLettering(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			for _, q := range prints(p, Options{Units: u}) {
				where := filepath.Base(path) + " " + q.name + " " + u.String()
				for i, s := range q.d.Shapes {
					text, ok := s.(drawing.Text)
					if !ok {
						continue
					}
					if text.Height < 3.5 {
						t.Errorf("%s: %q is %g mm high", where, text.Words, text.Height)
					}
					for k, other := range q.d.Shapes {
						if k != i && crossedBy(text, other) {
							t.Errorf("%s: %q at %v touches %v", where, text.Words, text.At, other)
						}
					}
				}
			}
		}
	}
}

// crossedBy reports whether a shape's line or lettering comes into a text's box, in
// the frame in which its base line is level.
func crossedBy(t drawing.Text, s drawing.Shape) bool {
	turn := geom.Rotate(-t.Angle)
	box := t.Box().Apply(turn).Bounds()
	if o, ok := s.(drawing.Text); ok {
		s = drawing.Stroke{Path: o.Box(), Role: drawing.Fill}
	}
	return touches(box, (drawing.Drawing{Shapes: []drawing.Shape{s}}).Apply(turn).Shapes[0])
}

// touches reports whether a shape's line or lettering comes into a box, from
// points close to each other.
func touches(box geom.Rect, s drawing.Shape) bool {
	switch s := s.(type) {
	case drawing.Text:
		return box.Overlaps(s.Bounds(), 0)
	case drawing.Ring:
		return ringTouches(box, s.Circle)
	case drawing.Stroke:
		for _, g := range s.Path.Segments() {
			if !g.Bounds().Grow(1).Overlaps(box, 0) {
				continue
			}
			n := math.Ceil(g.Length()/0.2) + 1
			for i := 0.0; i <= n; i++ {
				q, _ := g.At(i / n)
				if box.Holds(geom.Rect{Min: q, Max: q}, drawing.PenOf(s.Role).Width/2) {
					return true
				}
			}
		}
	}
	return false
}

func ringTouches(box geom.Rect, c geom.Circle) bool {
	for a := 0.0; a < 360; a += 0.5 {
		q := c.Centre.Add(geom.Polar(c.Radius, geom.Angle(a)*geom.Degree))
		if box.Holds(geom.Rect{Min: q, Max: q}, 0.25) {
			return true
		}
	}
	return false
}

// The demo on A4 needs two pages a part, none of them cut through lettering or
// along a line: lettering stands where it takes no paper.
func TestPrintsAreFewPages(t *testing.T) {
	p := plantest.Read(t, "../../../testdata/davit-arm.toml")
	size, _ := paper.Named("A4")
	for _, q := range prints(p, Options{}) {
		if !q.paper {
			continue
		}
		pages, err := paper.Layout{Paper: size, Margin: 10}.Pages(q.d, q.title)
		if err != nil {
			t.Fatal(err)
		}
		// What is larger than the block takes more.
		want := 2
		switch q.name {
		case "part":
			want = 8
		case "fixture":
			want = 11
		}
		if len(pages) != want {
			t.Errorf("%s: %d pages, want %d", q.name, len(pages), want)
		}
		if !strings.HasPrefix(pages[0].Title, q.name+", ") {
			t.Errorf("%s: a page titled %q: its own name must come first", q.name, pages[0].Title)
		}
		if q.name == "part" {
			continue // a slanting figure may meet a cut; it is whole on one of the pages
		}
		for _, page := range pages {
			for _, s := range page.Shapes {
				seam, ok := s.(drawing.Stroke)
				if !ok || seam.Role != drawing.Hidden {
					continue
				}
				for _, o := range page.Shapes {
					if text, ok := o.(drawing.Text); ok && crossedBy(text, seam) {
						t.Errorf("%s: the cut runs through %q", page.Title, text.Words)
					}
				}
			}
		}
	}
}

// A hole to be drilled is named on every part that has one, if need be in fewer
// words.
func TestDrillNames(t *testing.T) {
	p := plantest.Read(t, "../../../testdata/jobs/gate-brace.toml")
	holes := 0
	for _, c := range p.Pieces {
		names := 0
		for _, s := range pieceShapes(p, c, quantity.Millimetres) {
			if s, ok := s.(drawing.Text); ok && slices.ContainsFunc([]string{"Ø13", "Ø10"}, func(size string) bool {
				return strings.HasSuffix(strings.TrimSuffix(quantity.Plain(s.Words), " mm"), size)
			}) {
				names++
			}
		}
		if names != len(c.Cut.Drill) {
			t.Errorf("%s: %d names at %d holes", c.Name, names, len(c.Cut.Drill))
		}
		holes += names
	}
	if holes == 0 {
		t.Error("the job has no holes to drill")
	}
}

// What is written on pieces and blank of every example, in both units, is 3 to
// 5 mm high, keeps off lines and other lettering and stands on the part; every
// piece bears its job's name, and the nest's copies are lettered the same.
func TestPiecesLettering(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			where := filepath.Base(path) + " " + u.String() + " "
			check := func(name string, outline geom.Path, shapes []drawing.Shape) (words []string) {
				for i, s := range shapes {
					text, ok := s.(drawing.Text)
					if !ok {
						continue
					}
					words = append(words, text.Words)
					if text.Height < 3 || text.Height > 5 {
						t.Errorf("%s: %q is %g mm high", where+name, text.Words, text.Height)
					}
					for k, other := range shapes {
						if k != i && crossedBy(text, other) {
							t.Errorf("%s: %q at %v touches %v", where+name, text.Words, text.At, other)
						}
					}
					for _, v := range text.Box().Vertices {
						if !outline.Contains(v.Point) {
							t.Errorf("%s: %q stands out at %v", where+name, text.Words, v)
						}
					}
				}
				return words
			}
			for _, c := range p.Pieces {
				words := check(c.Name, c.Part.Outline, pieceShapes(p, c, u))
				all := strings.Join(words, " ")
				for _, l := range labels(p, c, u) {
					if !strings.Contains(all, l) {
						t.Errorf("%s: no %q in %q", where+c.Name, l, all)
					}
				}
			}
			b := p.Tools.Blank
			if got := check("blank", b.Part.Outline, append(cutShapes(b.Part), markNames(b)...)); len(got) < len(b.Part.Marks)-2 {
				t.Errorf("%s: %q at %d marks", where+"blank", got, len(b.Part.Marks))
			}
		}
	}
}

// A mark's name stands upwards, left of its mark and near it, and there is none
// at the end or on a tube too shallow to letter.
func TestMarkNames(t *testing.T) {
	blank := func(depth float64) tooling.Blank {
		b, err := tooling.NewBlank(tooling.BlankSpec{
			Radius: 400, Depth: depth, Angle: 0.6, Legs: [2]float64{250, 200},
			Cuts: [2]geom.Angle{0, 45 * geom.Degree}, Trim: [2]float64{0, 5},
		})
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	b := blank(40)
	var marks []tooling.BlankMark
	for _, m := range b.Marks {
		if len(m.Scribe.Vertices) > 0 {
			marks = append(marks, m)
		}
	}
	got := markNames(b)
	if len(marks) != 4 || len(got) != 4 { // the left trim is the end
		t.Fatalf("%d marks, %d names, want 4 and 4", len(marks), len(got))
	}
	for i, s := range got {
		text := s.(drawing.Text)
		gap := marks[i].Scribe.Bounds().Min.X - text.Bounds().Max.X
		if text.Words != marks[i].Name || text.Height != 5 || text.Angle != 90*geom.Degree || math.Abs(gap-1.5) > 1e-9 {
			t.Errorf("%v, %g mm left of the %s mark", text, gap, marks[i].Name)
		}
	}
	for _, c := range []struct {
		depth  float64
		names  int
		height float64
	}{{32, 4, 4}, {24, 4, 3}, {23.9, 0, 0}, {80, 4, 5}} {
		got := markNames(blank(c.depth))
		if len(got) != c.names || len(got) > 0 && got[0].(drawing.Text).Height != c.height {
			t.Errorf("depth %g mm: %v, want %d names of %g mm", c.depth, got, c.names, c.height)
		}
	}
}

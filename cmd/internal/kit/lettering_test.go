package kit

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/paper"
	"overbend/geom"
)

// Lettering on every print of every example, in both units, is at least 3.5 mm
// high and keeps off lines and other lettering; what stands on a part stands
// wholly on it.
func TestPrintsLettering(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/jobs/*.toml")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d example jobs, %v", len(files), err)
	}
	for _, path := range append(files, "../../../testdata/davit-arm.toml") {
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
						if k != i && touches(text.Bounds(), other) {
							t.Errorf("%s: %q at %v touches %v", where, text.Words, text.At, other)
						}
					}
				}
			}
		}
	}
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
	size, err := paper.Parse("A4")
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range prints(p, Options{}) {
		if !q.paper {
			continue
		}
		pages, err := paper.Layout{Paper: size, Margin: 10}.Pages(q.d, q.title)
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) != 2 {
			t.Errorf("%s: %d pages, want 2", q.name, len(pages))
		}
		if !strings.HasPrefix(pages[0].Title, q.name+", ") {
			t.Errorf("%s: a page titled %q: its own name must come first", q.name, pages[0].Title)
		}
		for _, page := range pages {
			for _, s := range page.Shapes {
				seam, ok := s.(drawing.Stroke)
				if !ok || seam.Role != drawing.Hidden {
					continue
				}
				for _, o := range page.Shapes {
					if text, ok := o.(drawing.Text); ok && touches(text.Bounds(), seam) {
						t.Errorf("%s: the cut runs through %q", page.Title, text.Words)
					}
				}
			}
		}
	}
}

// A hole to be drilled is named on every part that has one, however the part
// lies, if need be in fewer words.
func TestDrillNames(t *testing.T) {
	p := plantest.Read(t, "../../../testdata/jobs/gate-brace.toml")
	for _, c := range p.Pieces {
		for _, turn := range []geom.Angle{0, 90 * geom.Degree} {
			part, names := c.Part.Apply(geom.Rotate(turn)), 0
			for _, s := range cutShapes(part, quantity.Millimetres, nil) {
				if s, ok := s.(drawing.Text); ok && strings.HasSuffix(strings.TrimSuffix(s.Words, " mm"), "Ø13") {
					names++
				}
			}
			if names != len(part.Drill) {
				t.Errorf("%s: %d names at %d holes", c.Name, names, len(part.Drill))
			}
		}
	}
}

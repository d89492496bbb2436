package paper

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/export/drawing"
	"overbend/geom"
)

// A line to compare with that runs out of the paper is broken off short of the
// edge, with a mark across its end; one that a neighbour goes on with, or that
// ends by itself, is not.
func TestBreakOff(t *testing.T) {
	l, err := Layout{Paper: size(t, "A4"), Margin: 10}.checked()
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		var d drawing.Drawing
		wide := rapid.Float64Range(50, 600).Draw(t, "wide")
		d.Box(drawing.CutOuter, drawing.NoTone, geom.Rect{Max: geom.Pt(wide, rapid.Float64Range(60, 600).Draw(t, "high"))})
		ghost := geom.Lines(geom.Pt(wide*rapid.Float64Range(0.1, 0.9).Draw(t, "x"), 30),
			geom.Pt(rapid.Float64Range(-500, 1100).Draw(t, "to x"), rapid.Float64Range(-600, 600).Draw(t, "to y")))
		if ghost.Length() < 20 {
			return
		}
		role := rapid.SampledFrom([]drawing.Role{drawing.Phantom, drawing.Predicted, drawing.Centre}).Draw(t, "role")
		d.Add(drawing.Stroke{Path: ghost, Role: role})
		c := contentOf(d)
		f, _ := l.frame(rapid.Bool().Draw(t, "landscape"))
		p, err := newPlan(f, c, "A4", "ghost")
		if err != nil {
			t.Fatal(err)
		}
		p.cutAll()
		before := p.tiles
		p.tiles = grid(len(p.rows.lo), len(p.cols.lo))
		for r := range p.tiles {
			copy(p.tiles[r], before[r])
		}
		// A neighbour's window goes on beyond this one's edge.
		open := func(q geom.Point, r, c int) bool {
			w := p.windowOf(r, c)
			edge := math.Min(math.Min(q.X-w.Min.X, w.Max.X-q.X), math.Min(q.Y-w.Min.Y, w.Max.Y-q.Y))
			if edge > 1e-9 {
				return false
			}
			for i := range p.tiles {
				for k := range p.tiles[i] {
					beside := i == r && (k == c-1 || k == c+1) || k == c && (i == r-1 || i == r+1)
					if beside && p.printed(i, k) && p.windowOf(i, k).Holds(geom.Rect{Min: q, Max: q}, -1) {
						return false
					}
				}
			}
			return true
		}
		p.breakOff()
		for r := range p.tiles {
			for c := range p.tiles[r] {
				if !p.printed(r, c) {
					continue
				}
				var was, is float64
				ends, marks := 0, 0
				for _, s := range before[r][c].shapes {
					if s := s.(drawing.Stroke); s.Role == role {
						was += s.Path.Length()
						for _, q := range [2]geom.Point{s.Path.Vertices[0].Point, s.Path.End()} {
							if open(q, r, c) {
								ends++
							}
						}
					}
				}
				for _, s := range p.tiles[r][c].shapes {
					switch s := s.(drawing.Stroke); s.Role {
					case role:
						is += s.Path.Length()
						for _, q := range [2]geom.Point{s.Path.Vertices[0].Point, s.Path.End()} {
							if open(q, r, c) {
								t.Fatalf("row %d, sheet %d: %v runs out", r+1, c+1, q)
							}
						}
					case drawing.Thin:
						marks++
						mid := s.Path.Vertices[0].Lerp(s.Path.End(), 0.5)
						if ghost.Distance(mid) > 1e-6 || math.Abs(s.Path.Vertices[0].Dist(s.Path.End())-2*breakHalf) > 1e-9 {
							t.Fatalf("a mark at %v, off the line", mid)
						}
						if !p.windowOf(r, c).Holds(s.Path.Bounds(), 1e-9) && was > 30 {
							// A line that meets the edge at a slant may lean its mark out.
							a := ghost.End().Sub(ghost.Vertices[0].Point).Unit()
							if math.Min(math.Abs(a.X), math.Abs(a.Y)) < 0.1 {
								t.Fatalf("the mark %v leaves the window", s.Path)
							}
						}
					}
				}
				if is > 0 && (marks != ends || math.Abs(was-is-4*float64(ends)) > 1e-6) {
					t.Fatalf("row %d, sheet %d: %d ends run out, %d marks, %g mm of %g left", r+1, c+1, ends, marks, is, was)
				}
				if is == 0 && was > 12 {
					t.Fatalf("a line of %g mm is gone", was)
				}
			}
		}
	})
}

package plan

import (
	"testing"

	"overbend/geom/tooling"
)

// Block and cheeks are laid out, and templates where they are as thick; strip,
// packing and thinner templates are not of the block's plate. What is used is the parts' share of all plates.
func TestNest(t *testing.T) {
	for _, c := range []struct {
		process, sheet, template string
		templates                int
	}{
		{"laser", "1000x500 mm", "10 mm", 1}, {"", "700x300 mm", "10 mm", 1}, {"saw", "1000x500 mm", "", 0}, {"saw", "1000x500 mm", "12 mm", 0},
	} {
		edits := []string{`cutting.kerf = "3 mm"`, `cutting.sheet = "` + c.sheet + `"`}
		if c.template != "" {
			edits = append(edits, `template.plate = "`+c.template+`"`)
		}
		if c.process != "" {
			edits = append(edits, `cutting.process = "`+c.process+`"`)
		}
		ch, tl, all, _ := cut(t, edits...)
		n, err := nest(ch.j, tl.Process, all)
		if err != nil || n == nil {
			t.Fatalf("%v, %v", n, err)
		}
		counts, area := map[string]int{}, 0.0
		for _, i := range n.Pieces {
			counts[all[i].Name]++
			area += all[i].Cut.Area()
		}
		if len(counts) != 2+2*c.templates || counts["block"] != 4 || counts["cheek"] != 2 || counts["template-inside"] != c.templates || counts["template-outside"] != c.templates {
			t.Errorf("laid out %v", counts)
		}
		if len(n.Placements) != len(n.Pieces) || n.Plate != 10 {
			t.Errorf("%d placements of %d pieces, plate %g", len(n.Placements), len(n.Pieces), n.Plate)
		}
		sheet := n.Width * n.Height * float64(n.Sheets)
		about(t, "used", n.UsedShare(), area/sheet, 1e-9)
		about(t, "mass", n.Mass, sheet*10*7850e-9, 1e-12)
		if c.process == "" && n.Sheets < 2 {
			t.Errorf("%d sheets: the mean is not tried", n.Sheets)
		}
		// As far from the edge as from each other: by the process, and without one
		// as wide as plasma wants it.
		gap := map[string]float64{"laser": 10, "saw": 5, "": 15}[c.process]
		if left := leftmost(n.Layout, all, n.Pieces); left < gap-1e-6 || left > gap+1 {
			t.Errorf("%q: the leftmost part is %g mm from the edge, want %g", c.process, left, gap)
		}
	}
}

// leftmost returns how near parts come to the plate's left edge.
func leftmost(l tooling.Layout, all []Piece, pieces []int) float64 {
	left := 1e9
	for i, p := range l.Placements {
		left = min(left, all[pieces[i]].Cut.Outline.Apply(p.Move).Bounds().Min.X)
	}
	return left
}

func TestNestRefused(t *testing.T) {
	c, tl, all, _ := cut(t)
	if n, err := nest(c.j, tl.Process, all); n != nil || err != nil {
		t.Errorf("without a plate size: %v, %v", n, err)
	}
	c.j.Cutting.Sheet = [2]float64{200, 100}
	if _, err := nest(c.j, tl.Process, all); err == nil {
		t.Error("a block fits a plate of 200 x 100 mm")
	}
}

package plan

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"overbend/cmd/internal/job"
)

// The cut list of the demo: the strip and the tube are plain solids, so their
// masses are known by hand; a block or cheek weighs less than its box and more
// than half of it.
func TestCutList(t *testing.T) {
	name := filepath.Join("..", "..", "..", "testdata", "davit-arm.toml")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	p, err := New(j)
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		what  string
		count int
		plate float64
	}{{"tube", 1, 0}, {"block", 4, 10}, {"packing", 1, 1.5}, {"cheek", 2, 10}, {"strip", 1, 6}, {"template-inside", 1, 3}, {"template-outside", 1, 3}}
	list := p.CutList()
	if len(list) != len(want) {
		t.Fatalf("got %d rows, want %d: %v", len(list), len(want), list)
	}
	for i, c := range list {
		w := want[i]
		if c.What != w.what || c.Count != w.count || c.Plate != w.plate {
			t.Errorf("row %d: got %d %s of %g mm, want %d %s of %g mm", i, c.Count, c.What, c.Plate, w.count, w.what, w.plate)
		}
		box := c.Width * c.Height * c.Plate * 7850e-9 * float64(c.Count)
		switch c.What {
		case "tube":
			// 40 x 40 x 3, aluminium of 2700 kg/m³.
			box = (40*40 - 34*34) * c.Width * 2700e-9
			fallthrough
		case "strip":
			if math.Abs(c.MassKg-box) > 1e-9 {
				t.Errorf("%s: %g kg, want %g kg", c.What, c.MassKg, box)
			}
		case "block", "packing", "cheek":
			if c.MassKg > box || c.MassKg < box/2 {
				t.Errorf("%s: %g kg, its box would be %g kg", c.What, c.MassKg, box)
			}
		}
	}
}

package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/tooling"
)

// cut works a job out as far as the pieces.
func cut(t testing.TB, edits ...string) (chain, Tools, []Piece, []words.Advice) {
	t.Helper()
	c, tl, _ := tooled(t, edits...)
	all, said, err := pieces(c.j, c.strip, c.over, tl)
	if err != nil {
		t.Fatal(err)
	}
	return c, tl, all, said
}

func TestPieces(t *testing.T) {
	_, tl, all, said := cut(t)
	want := []struct {
		name     string
		count    int
		plate    float64
		layer    int
		ownStock bool
	}{
		{"block", 4, 10, 1, false}, {"packing", 1, 1.5, 0, true}, {"cheek", 2, 10, 0, false}, {"strip", 1, 6, 0, true},
		{"template-inside", 1, 3, 0, true}, {"template-outside", 1, 3, 0, true},
	}
	if len(all) != len(want) {
		t.Fatalf("got %d pieces", len(all))
	}
	for i, p := range all {
		w := want[i]
		if p.Name != w.name || p.Count != w.count || p.Plate != w.plate || p.Layer != w.layer || p.OwnStock != w.ownStock {
			t.Errorf("got %s, %d of %g mm, layer %d, own stock %v, want %+v", p.Name, p.Count, p.Plate, p.Layer, p.OwnStock, w)
		}
		about(t, p.Name+": mass", p.Mass(), p.Part.Area()*p.Plate*7850e-9, 1e-12)
		if p.Name == "packing" {
			if p.thickest() != slices.Max(tl.Block.Packing.Sheets) {
				t.Errorf("thickest sheet %g of %v", p.thickest(), p.Sheets)
			}
		} else if p.thickest() != p.Plate {
			t.Errorf("%s: thickest %g", p.Name, p.thickest())
		}
	}
	has(t, said, words.KerfAtTable, words.Note, words.Cut, "cutting")
	has(t, said, words.KerfInFiles, "", "", "")
	has(t, said, words.DrillHoles, "", "", "")
	p := Piece{Plate: 3, Sheets: []float64{1, 2}}
	if p.thickest() != 2 {
		t.Errorf("thickest of 1 and 2: %g", p.thickest())
	}
}

// A saddle's layers are files of their own.
func TestLayersArePieces(t *testing.T) {
	_, tl, all, _ := cut(t, `tube.shape = "round"`, "tube.width =", "tube.depth =", "tube.corner =", `tube.diameter = "60 mm"`, `bend.radius = "600 mm"`)
	if len(tl.Block.Layers) < 2 {
		t.Fatalf("%d layers", len(tl.Block.Layers))
	}
	for i, want := range []string{"block", "block-2"} {
		if all[i].Name != want || all[i].Layer != i+1 {
			t.Errorf("piece %d: %s, layer %d", i, all[i].Name, all[i].Layer)
		}
	}
}

// Plasma cuts no hole smaller than one and a half times the plate: 13 mm through
// 8 mm but not through 10 mm. Such holes are marked to drill.
func TestDrill(t *testing.T) {
	for plate, level := range map[string]words.Level{"8 mm": "", "10 mm": words.Note} {
		c, tl, all, said := cut(t, `block.plate = "`+plate+`"`, `cutting.process = "plasma"`, `block.hole = "13 mm"`)
		has(t, said, words.DrillHoles, level, words.Cut, "cutting")
		block := all[0].Part
		if want := 13 < 1.5*c.j.Block.Plate; (len(block.Drill) > 0) != want || (len(block.Holes) == 0) != want {
			t.Errorf("%s: %d holes, %d to drill", plate, len(block.Holes), len(block.Drill))
		}
		if a := find(said, words.DrillHoles); a != nil {
			about(t, "hole", figure(t, a.Reason, "hole"), tl.Block.Hole, 0)
			about(t, "plate", figure(t, a.Reason, "plate"), c.j.Block.Plate, 0)
			if a.Figures["process"] != "plasma" || a.Figures["source"] != tooling.Published.String() {
				t.Errorf("got %v", a.Figures)
			}
		}
	}
	// Packing is cut sheet by sheet, each thinner than all of it: its holes are cut.
	c, tl, _ := tooled(t, `cutting.process = "plasma"`, `block.hole = "13 mm"`)
	tl.Block.Packing.Thickness, tl.Block.Packing.Sheets = 12, []float64{6, 6}
	all, _, err := pieces(c.j, c.strip, c.over, tl)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range all {
		if p.Name == "packing" && len(p.Part.Drill) > 0 {
			t.Errorf("packing of %v mm: %d holes to drill", p.Sheets, len(p.Part.Drill))
		}
	}
}

// A kerf grows outlines and shrinks holes in what goes to the table, and is said
// to; the prints stay true.
func TestKerf(t *testing.T) {
	_, _, all, said := cut(t, `cutting.kerf = "2 mm"`)
	has(t, said, words.KerfInFiles, words.Note, words.Cut, "cutting")
	has(t, said, words.KerfAtTable, "", "", "")
	about(t, "kerf", figure(t, find(said, words.KerfInFiles).Reason, "kerf"), 2, 0)
	for _, p := range all {
		// A sharp end that stands askew reaches further, as its corner does.
		if grown := p.Cut.Bounds().Width() - p.Part.Bounds().Width(); grown < 2-1e-6 || grown > 3 || p.Name == "strip" && grown > 2+1e-6 {
			t.Errorf("%s: %g mm wider", p.Name, grown)
		}
		if len(p.Part.Holes) > 0 && math.Abs(p.Part.Holes[0].Radius-p.Cut.Holes[0].Radius-1) > 1e-9 {
			t.Errorf("%s: hole of radius %g cut as %g", p.Name, p.Part.Holes[0].Radius, p.Cut.Holes[0].Radius)
		}
	}
	// A kerf as wide as the holes is the file's fault.
	for over, want := range map[float64]bool{0.001: true, -0.001: false} {
		c, tl, _ := tooled(t)
		c.j.Cutting.Kerf = tl.Block.Hole + over
		_, _, err := pieces(c.j, c.strip, c.over, tl)
		if (err != nil) != want {
			t.Errorf("kerf %g, holes of %g: %v", c.j.Cutting.Kerf, tl.Block.Hole, err)
		}
	}
	j := jobOf(t)
	for _, err := range []error{&tooling.SizeError{Part: "block", Dimension: tooling.Kerf, Value: 14, Why: tooling.KerfAboveHole, Facts: tooling.Facts{Hole: 13}}, fmt.Errorf("x: %w", geom.ErrOffset)} {
		if got := kerfFault(j, err); got == nil || !strings.Contains(got.Error(), "cutting.kerf") {
			t.Errorf("got %v", got)
		}
	}
	if other := errors.New("other"); kerfFault(j, other) != other {
		t.Error("another error is not handed on")
	}
}

// Templates are thin sheet, by the job's units, or as thick as it says: a tenth
// of a block's plate in mass, not all of it.
func TestTemplateSheet(t *testing.T) {
	for _, c := range []struct {
		edits []string
		want  float64
	}{
		{nil, 3}, {[]string{`template.plate = "4 mm"`}, 4}, {[]string{`template.plate = "1/4 in"`}, 6.35}, {[]string{`units = "in"`}, 3.175},
	} {
		_, tl, all, _ := cut(t, c.edits...)
		about(t, "sheet", tl.Sheet, c.want, 1e-12)
		p, kg := Plan{Pieces: all}, 0.0
		for _, q := range all {
			if q.Layer == 0 && q.Count == 1 && strings.HasPrefix(q.Name, "template") {
				about(t, q.Name, q.Plate, c.want, 1e-12)
				kg += q.Part.Area() * c.want * 7850e-9
			}
		}
		about(t, "mass", p.TemplateMass(), kg, 1e-12)
	}
	if kg := new(Plan).TemplateMass(); kg != 0 {
		t.Errorf("no templates weigh %g kg", kg)
	}
}

// Every hole that the process can't cut is counted in each plate and each sheet;
// openings, which it can cut, are none. A saw cuts no hole, in packing either.
func TestDrilled(t *testing.T) {
	for process, sheets := range map[string]bool{"plasma": false, "saw": true, "laser": false} {
		_, tl, all, _ := cut(t, `cutting.process = "`+process+`"`, `block.hole = "13 mm"`, `block.height = "140 mm"`, "block.lighten = true")
		want := 0
		if process != "laser" {
			want = len(tl.Block.Bolts) * (len(tl.Block.LayerRadii) + 2)
		}
		if sheets {
			want += len(tl.Block.Bolts) * tl.Block.Packing.Count * len(tl.Block.Packing.Sheets)
		}
		p := Plan{Pieces: all, Tools: tl}
		if got := p.Drilled(); got != want {
			t.Errorf("%s: %d holes to drill, want %d", process, got, want)
		}
		if process == "plasma" && len(tl.Block.Openings) == 0 {
			t.Error("no openings: they are not tried")
		}
		p.LeaveOutMarks()
		level := words.Warning
		if want == 0 {
			level = ""
		}
		has(t, p.Advice, words.DrillUnmarked, level, words.Cut, "cut-only")
		if want > 0 && find(p.Advice, words.DrillUnmarked).Figures["holes"] != words.Count(want, "hole") {
			t.Errorf("%v", p.Advice)
		}
	}
}

// Each sheet of packing that is made up of several is drilled.
func TestDrilledSheets(t *testing.T) {
	drill := tooling.Part{Drill: make([]geom.Circle, 3)}
	p := Plan{Pieces: []Piece{{Part: drill, Count: 2, Sheets: []float64{1, 0.5}}, {Part: drill, Count: 4}}}
	if got := p.Drilled(); got != 3*2*2+3*4 {
		t.Errorf("%d holes", got)
	}
}

// A strip is as wide as the tube; where no flat is, that is said, wide and narrow,
// mm and inches.
func TestStripStock(t *testing.T) {
	for width, level := range map[string]words.Level{"40 mm": "", "110 mm": words.Note, "150 mm": "", "160 mm": words.Note, "2 in": words.Note} {
		_, _, _, said := cut(t, `tube.width = "`+width+`"`)
		has(t, said, words.StripFromPlate, level, words.Cut, "strip.width")
	}
	_, _, _, said := cut(t, `units = "in"`, `tube.width = "2 in"`)
	has(t, said, words.StripFromPlate, "", "", "")
	c, _, _, said := cut(t, `tube.width = "110 mm"`)
	r := find(said, words.StripFromPlate).Reason
	about(t, "width", figure(t, r, "width"), 110, 0)
	about(t, "thickness", figure(t, r, "thickness"), c.strip.Thickness, 0)
}

// The bolt is the largest that the holes pass and reaches over both cheeks and
// what is between them, washers and nut: by hand for the demo, 4 plates of 10 mm,
// packing of 1.5 mm and two cheeks of 10 mm: 61.5 mm, and 18 for an M12.
func TestBolt(t *testing.T) {
	_, tl, _, _ := cut(t)
	if b, ok := tl.Bolt(false); !ok || b != (Bolt{"M12", 12, 80, 61.5, 18}) {
		t.Errorf("%+v, %v", b, ok)
	}
	if b, ok := tl.Bolt(true); !ok || b.Name != "1/2" || b.Grip != 61.5 || math.Abs(b.Length-3.25*25.4) > 1e-9 || math.Abs(b.Beyond-0.75*25.4) > 1e-9 {
		t.Errorf("%+v, %v", b, ok)
	}
}

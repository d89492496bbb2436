package kit

import (
	"math"
	"testing"

	"overbend/cmd/internal/plan/plantest"
	"overbend/export/drawing"
	"overbend/export/paper"
	"overbend/geom"
)

// A kerf belongs to the cutting table: what is printed to lay on the tube, or to
// saw round, is true size.
func TestPrintsAreTrueSize(t *testing.T) {
	p := plantest.Read(t, "../../../testdata/jobs/gate-brace.toml")
	if p.Job.Cutting.Kerf == 0 {
		t.Fatal("the job states no kerf")
	}
	want := map[string]float64{
		"block":            p.Tools.Block.Layers[0].Part.Outline.Area(),
		"cheek":            p.Tools.Cheek.Outline.Area(),
		"template-inside":  p.Tools.Inside.Outline.Area(),
		"template-outside": p.Tools.Outside.Outline.Area(),
	}
	seen := 0
	for _, q := range prints(p, Options{}) {
		area, ok := want[q.name]
		if !ok {
			continue
		}
		for _, s := range q.d.Shapes {
			if s, ok := s.(drawing.Stroke); ok && s.Role == drawing.CutOuter {
				seen++
				if got := s.Path.Area(); math.Abs(got-area) > 1e-6*area {
					t.Errorf("%s is printed with %.3f mm², its part has %.3f", q.name, got, area)
				}
			}
		}
	}
	if seen != len(want) {
		t.Errorf("%d outlines printed, want %d", seen, len(want))
	}
}

// A corrected print keeps its ink on its own sheet, and its bars come out as
// long as they should after the printer's error.
func TestFramedIsCorrected(t *testing.T) {
	p := plantest.Read(t, "../../../testdata/davit-arm.toml")
	printer := paper.Layout{ScaleX: 0.985, ScaleY: 1.013}
	for _, q := range prints(p, Options{}) {
		d, _ := framed(q.d, printer)
		at, sheet := d.Placement(), d.Sheet()
		ink := q.d.Bounds()
		for _, c := range []geom.Point{ink.Min, ink.Max} {
			x := at.Apply(c)
			if x.X < border-1e-9 || x.Y < border-1e-9 || x.X > sheet.Width()-border+1e-9 || x.Y > sheet.Height()-border+1e-9 {
				t.Errorf("%s: %v lies at %v on a sheet of %.1f x %.1f mm", q.name, c, x, sheet.Width(), sheet.Height())
			}
		}
		bar := at.Apply(geom.Pt(100, 100)).Sub(at.Apply(geom.Pt(0, 0)))
		if math.Abs(bar.X*printer.ScaleX-100) > 1e-9 || math.Abs(bar.Y*printer.ScaleY-100) > 1e-9 {
			t.Errorf("%s: 100 mm both ways print as %g x %g mm", q.name, bar.X*printer.ScaleX, bar.Y*printer.ScaleY)
		}
	}
}

package kit

import (
	"math"
	"testing"

	"overbend/cmd/internal/plan/plantest"
	"overbend/export/drawing"
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

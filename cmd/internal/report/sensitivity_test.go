package report_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/report"
)

// The keys that the README documents, and their types.
const sensitiveKeys = `
sensitivity.block string
sensitivity.block_radius_mm number
sensitivity.travel_mm number
sensitivity.supports_mm number
sensitivity.planned.right_block_radius_mm number
sensitivity.planned.released_angle_deg number
sensitivity.planned.peak_force_with_friction_N number
sensitivity.planned.why null
sensitivity.inputs[].input string
sensitivity.inputs[].unit string
sensitivity.inputs[].low number
sensitivity.inputs[].nominal number
sensitivity.inputs[].high number
sensitivity.inputs[].source string
sensitivity.inputs[].at_low.right_block_radius_mm number
sensitivity.inputs[].at_low.released_angle_deg number
sensitivity.inputs[].at_low.peak_force_with_friction_N number
sensitivity.inputs[].at_low.why null
sensitivity.inputs[].at_high.right_block_radius_mm number
sensitivity.inputs[].at_high.released_angle_deg number
sensitivity.inputs[].at_high.peak_force_with_friction_N number
sensitivity.inputs[].at_high.why null
sensitivity.together_down.right_block_radius_mm number
sensitivity.together_down.released_angle_deg number
sensitivity.together_down.peak_force_with_friction_N number
sensitivity.together_up.right_block_radius_mm number
sensitivity.together_up.released_angle_deg number
sensitivity.together_up.peak_force_with_friction_N number
`

// The JSON with a sensitivity is that without, and the sensitivity at its end; its
// numbers are the plan's in the units that its keys say.
func TestSensitiveJSON(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		s, err := p.Sensitivity()
		if err != nil {
			t.Fatal(err)
		}
		text, err := report.SensitiveJSON(p, s)
		if err != nil {
			t.Fatal(err)
		}
		plain, err := report.JSON(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		if body := strings.TrimSuffix(string(plain), "\n}\n"); !strings.HasPrefix(string(text), body+",\n  \"sensitivity\": {") {
			t.Errorf("%s: the numbers beside it are not those that show prints", path)
		}
		cleanNumbers(t, text)
		var doc map[string]any
		if err := json.Unmarshal(text, &doc); err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(path, "davit-arm.toml") {
			sameKeys(t, path, map[string]any{"sensitivity": doc["sensitivity"]}, keys(sensitiveKeys))
		}
		d := doc["sensitivity"].(map[string]any)
		near := func(what string, got any, want float64) {
			if v, ok := got.(float64); !ok || math.Abs(v-want) > 1e-9*math.Abs(want) {
				t.Errorf("%s: %s is %v, want %v", path, what, got, want)
			}
		}
		near("travel", d["travel_mm"], s.Travel)
		near("supports", d["supports_mm"], s.Rig.Supports)
		near("block", d["block_radius_mm"], s.Block)
		near("angle", d["planned"].(map[string]any)["released_angle_deg"], p.Job.Bend.Angle.Degrees())
		near("down", d["together_down"].(map[string]any)["released_angle_deg"], s.Down.Angle.Degrees())
		near("up", d["together_up"].(map[string]any)["right_block_radius_mm"], s.Up.Right)
		for i, w := range d["inputs"].([]any) {
			w, in := w.(map[string]any), s.Inputs[i]
			if w["input"] != string(in.Input) {
				t.Errorf("%s: %v is in the place of %s", path, w["input"], in.Input)
			}
			near("low", w["low"], in.Low)
			near("high", w["high"], in.High)
			near("force", w["at_high"].(map[string]any)["peak_force_with_friction_N"], in.AtHigh.Force)
			near("radius", w["at_low"].(map[string]any)["right_block_radius_mm"], in.AtLow.Right)
		}
	}
	units := map[string]string{"proof": "MPa", "exponent": "1", "unloading": "1", "wall": "mm", "friction": "1", "travel": "mm", "youngs_modulus": "MPa"}
	p := plantest.Read(t, demo)
	s, err := p.Sensitivity()
	if err != nil {
		t.Fatal(err)
	}
	text, err := report.SensitiveJSON(p, s)
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Sensitivity struct {
			Inputs []struct{ Input, Unit string }
		}
	}
	if err := json.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	for name, unit := range units {
		if !slices.Contains(doc.Sensitivity.Inputs, struct{ Input, Unit string }{name, unit}) {
			t.Errorf("no %s in %s", name, unit)
		}
	}
	// What is worked out apart is no column of a table.
	if _, err := report.FindColumn("sensitivity.travel_mm"); err == nil {
		t.Error("a column of the sensitivity")
	}
}

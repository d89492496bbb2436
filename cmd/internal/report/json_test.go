package report_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/report"
)

const (
	demo  = "../../../testdata/davit-arm.toml"
	tried = "../../../testdata/jobs/davit-arm-tried.toml"
)

// docOf returns the JSON of a job file of testdata, decoded.
func docOf(t testing.TB, path string) map[string]any {
	t.Helper()
	text, err := report.JSON(plantest.Read(t, path), nil)
	if err != nil {
		t.Fatal(err)
	}
	var v map[string]any
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// The keys of show --json on the demo and their types: "[]" stands for every
// element of a list. They are what the README documents, and none may go or
// change its type from one version to the next; more may come, here too.
const demoKeys = `
program string
name string
feasible bool
section.area_mm2 number
section.inertia_mm4 number
section.elastic_modulus_mm3 number
section.plastic_modulus_mm3 number
section.bore_area_mm2 number
bend.angle_deg number
bend.centreline_radius_mm number
bend.inside_radius_mm number
bend.outside_radius_mm number
bend.arc_length_mm number
overbend.pressed_centreline_radius_mm number
overbend.springback_ratio number
overbend.pressed_arc_angle_deg number
overbend.moment_Nmm number
overbend.range.low.proof_MPa number
overbend.range.low.pressed_centreline_radius_mm number
overbend.range.low.springback_ratio number
overbend.range.low.pressed_arc_angle_deg number
overbend.range.low.moment_Nmm number
overbend.range.low.block_radius_mm number
overbend.range.low.final_centreline_radius_mm number
overbend.range.low.final_angle_deg number
overbend.range.high.proof_MPa number
overbend.range.high.pressed_centreline_radius_mm number
overbend.range.high.springback_ratio number
overbend.range.high.pressed_arc_angle_deg number
overbend.range.high.moment_Nmm number
overbend.range.high.block_radius_mm number
overbend.range.high.final_centreline_radius_mm number
overbend.range.high.final_angle_deg number
block.from_rack null
block.radius_mm number
block.arc_angle_deg number
block.layers number
block.layer_radii_mm[] number
block.plate_mm number
block.shim_mm number
block.packing_mm number
block.packing_sheets_mm[] number
block.order[] string
block.cheek_gap_mm number
block.width_mm number
block.height_mm number
block.crown_change number
block.plate_stress_MPa number
strip.width_mm number
strip.thickness_mm number
strip.length_mm number
strip.released_radius_mm number
strip.reusable bool
tube_after.outer_strain number
tube_after.elongation_used number
tube_after.outer_wall_mm number
tube_after.inner_wall_mm number
tube_after.outer_width_mm number
tube_after.inner_width_mm number
tube_after.buckling_strain number
tube_after.needs_fill bool
tube_after.inner_strain number
tube_after.neutral_axis_mm number
tube_after.arc_growth number
tube_after.side_walls_buckle_first bool
press.supports_mm number
press.supports_proposed bool
press.roller_diameter_mm number
press.wrap_deg number
press.travel_mm number
press.force_N number
press.peak_force_N number
press.capacity_share number
press.force_with_friction_N number
press.peak_force_with_friction_N number
press.needed_force_N number
press.least_leg_mm number
press.gauge_MPa null
press.loaded_angle_deg number
press.released_filled_angle_deg number
press.released_angle_deg number
press.tail_length_mm number
press.leg_length_mm number
press.largest_gap_mm number
press.largest_gap_from_centre_mm number
press.range.low.proof_MPa number
press.range.low.wrap_deg number
press.range.low.travel_mm number
press.range.low.force_N number
press.range.low.loaded_angle_deg number
press.range.low.released_angle_at_nominal_travel_deg number
press.range.high.proof_MPa number
press.range.high.wrap_deg number
press.range.high.travel_mm number
press.range.high.force_N number
press.range.high.loaded_angle_deg number
press.range.high.released_angle_at_nominal_travel_deg number
press.schedule[].travel_mm number
press.schedule[].force_N number
press.schedule[].wrap_deg number
press.schedule[].loaded_angle_deg number
press.schedule[].released_filled_angle_deg number
press.schedule[].released_angle_deg number
press.curve[].travel_mm number
press.curve[].force_N number
press.curve[].wrap_deg number
press.curve[].loaded_angle_deg number
press.curve[].released_filled_angle_deg number
press.curve[].released_angle_deg number
blank.length_mm number
blank.for_press_mm number
blank.marks[].name string
blank.marks[].at_mm number
filler.alloy string
filler.volume_mm3 number
filler.mass_kg number
filler.least.plugs_mm[] number
filler.least.mass_kg number
filler.melts_C number
filler.holds_lead bool
filler.holds_cadmium bool
used.tube.family string
used.tube.youngs_modulus_MPa number
used.tube.proof_MPa number
used.tube.ultimate_MPa number
used.tube.exponent number
used.strip.family string
used.strip.youngs_modulus_MPa number
used.strip.proof_MPa number
used.strip.ultimate_MPa number
used.strip.exponent number
used.filler.youngs_modulus_MPa number
used.filler.yield_MPa number
advice[].level string
advice[].about string
advice[].code string
advice[].step string
advice[].text string
bend.legs_mm[] number
bend.end_cuts_deg[] number
bend.angle_tolerance_deg null
bend.radius_tolerance_mm null
section.shape string
section.width_mm number
section.depth_mm number
section.wall_mm number
section.corner_mm number
tube_after.elongation number
press.friction number
press.capacity_N number
press.needed_proof_MPa number
press.springs_back number
press.creep_deg_per_mm number
press.schedule[].gauge_MPa null
press.curve[].gauge_MPa null
stack.bolts number
stack.hole_mm number
stack.drilled_holes number
stack.openings number
stack.thread string
stack.bolt_mm number
stack.bolt_length_mm number
stack.grip_mm number
stack.nut_allowance_mm number
template.plate_mm number
template.mass_kg number
cut[].part string
cut[].count number
cut[].plate_mm number
cut[].width_mm number
cut[].height_mm number
cut[].mass_kg number
nest null
blank.marks[].outside_mm number
blank.marks[].inside_mm number
blank.finished_outside_mm number
blank.finished_inside_mm number
blank.outside_legs_mm[] number
blank.inside_legs_mm[] number
filler.plugs_mm[] number
filler.melt_out_C number
filler.ceiling_C number
check.finder_deg number
check.angle_error_deg number
check.straightedge_mm number
check.gap_mm number
check.gap_error_mm number
check.least_radius_mm number
check.most_radius_mm number
check.inside[].chord_mm number
check.inside[].rise_mm number
check.outside[].chord_mm number
check.outside[].rise_mm number
`

// The keys that trials, a block at hand and a ram diameter add.
const triedKeys = `
press.gauge_MPa number
press.schedule[].gauge_MPa number
press.curve[].gauge_MPa number
existing.radius_mm number
existing.finished_centreline_radius_mm number
existing.finished_angle_deg number
existing.travel_mm number
existing.supports_mm number
existing.largest_gap_mm number
existing.feasible bool
existing.outer_strain number
existing.elongation_used number
existing.force_N number
existing.peak_force_with_friction_N number
existing.capacity_share number
trial.proof_MPa number
trial.proof_error_MPa number
trial.exponent number
trial.exponent_error number
trial.catalogue_proof_MPa number
trial.suspect bool
trial.next_angle_error_deg number
trial.next_template_error_mm number
trial.next_trial_travel_mm number
trial.next_trial_proof_error_MPa number
trial.residuals[].trial number
trial.residuals[].reading string
trial.residuals[].unit string
trial.residuals[].measured number
trial.residuals[].predicted number
trial.residuals[].residual number
trial.residuals[].error number
`

func TestJSONKeys(t *testing.T) {
	want := keys(demoKeys)
	sameKeys(t, "the demo", docOf(t, demo), want)
	maps.Copy(want, keys(triedKeys))
	sameKeys(t, "the tried demo", docOf(t, tried), want)
}

// keys reads a table of paths and types.
func keys(table string) map[string]string {
	out := map[string]string{}
	for _, line := range strings.Split(strings.TrimSpace(table), "\n") {
		path, kind, _ := strings.Cut(line, " ")
		out[path] = kind
	}
	return out
}

func sameKeys(t *testing.T, name string, doc any, want map[string]string) {
	t.Helper()
	got := map[string]string{}
	paths(t, doc, "", got)
	for _, path := range slices.Sorted(maps.Keys(want)) {
		if got[path] != want[path] {
			t.Errorf("%s: %s is %q, want %s", name, path, got[path], want[path])
		}
	}
	for _, path := range slices.Sorted(maps.Keys(got)) {
		if want[path] == "" {
			t.Errorf("%s: %s is not in the table", name, path)
		}
	}
}

// paths notes the path and type of everything below v that has no keys.
func paths(t *testing.T, v any, path string, into map[string]string) {
	kind := ""
	switch v := v.(type) {
	case map[string]any:
		for key, below := range v {
			paths(t, below, strings.TrimPrefix(path+"."+key, "."), into)
		}
		return
	case []any:
		for _, below := range v {
			paths(t, below, path+"[]", into)
		}
		return
	case nil:
		kind = "null"
	case float64:
		kind = "number"
	default:
		kind = fmt.Sprintf("%T", v)
	}
	if before := into[path]; before != "" && before != kind {
		t.Errorf("%s is both %s and %s", path, before, kind)
	}
	into[path] = kind
}

// What there is no number for is null, not left out and not 0.
func TestJSONNull(t *testing.T) {
	doc := docOf(t, "../../../testdata/jobs/own-metal.toml")
	for _, path := range []string{"filler", "overbend.range", "press.range", "press.capacity_share", "press.gauge_MPa", "used.filler"} {
		v := any(doc)
		for _, key := range strings.Split(path, ".") {
			var ok bool
			if v, ok = v.(map[string]any)[key]; !ok {
				t.Fatalf("%s is left out", path)
			}
		}
		if v != nil {
			t.Errorf("%s is %v", path, v)
		}
	}
	for _, key := range []string{"trial", "existing", "kit"} {
		if _, there := doc[key]; there {
			t.Errorf("%s without one", key)
		}
	}
}

// The ledger is the same text with the kit's files at its end.
func TestJSONLedger(t *testing.T) {
	files := []kit.File{{Name: "a", Data: []byte("1")}, {Name: "b", Data: []byte("2")}}
	p := plantest.Read(t, demo)
	plain, err := report.JSON(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	ledger, err := report.JSON(p, files)
	if err != nil {
		t.Fatal(err)
	}
	if body := strings.TrimSuffix(string(plain), "\n}\n"); !strings.HasPrefix(string(ledger), body+",\n  \"kit\": {") {
		t.Error("the ledger's numbers are not those that show prints")
	}
	// SHA-256 of "1", as sha256sum prints it.
	if want := `"sha256": "6b86b273ff34fce19d6b804eff5a3f5747ada4eaa22f1d49c01e52ddb7875b4b"`; !strings.Contains(string(ledger), want) {
		t.Errorf("the ledger does not hold %s", want)
	}
	if strings.Contains(string(ledger), kit.NoSeal) {
		t.Error("the ledger is not sealed")
	}
}

// Numbers of every example are finite and no -0, and JSON and page agree on
// whether the job can be made.
func TestJSONExamples(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		text, err := report.JSON(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		cleanNumbers(t, text)
		doc := docOf(t, path)
		stop := slices.ContainsFunc(doc["advice"].([]any), func(a any) bool { return a.(map[string]any)["level"] == "stop" })
		if doc["feasible"] != !stop || doc["feasible"] != p.Feasible() {
			t.Errorf("%s: feasible %v, advised to stop %v", path, doc["feasible"], stop)
		}
	}
}

package report_test

import (
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/report"
)

// walk calls each for every single value of a JSON document. A map's keys that have
// dots are walked as well.
func walk(path string, v any, each func(path string, v any)) {
	switch v := v.(type) {
	case map[string]any:
		for k, below := range v {
			walk(strings.TrimPrefix(path+"."+k, "."), below, each)
		}
	case []any:
		for i, below := range v {
			walk(path+"."+strconv.Itoa(i), below, each)
		}
	default:
		each(path, v)
	}
}

// Every single value of a job's JSON is a column, and the column has that value. A
// null may stand for what would hold several.
func TestColumnsAreTheJSON(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		text := plantest.RandomJob(t)
		j, err := job.Parse("random.toml", []byte(text))
		if err != nil {
			return
		}
		p, err := plan.New(j)
		if err != nil {
			return
		}
		whole, err := report.JSON(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		var doc any
		if err := json.Unmarshal(whole, &doc); err != nil {
			t.Fatal(err)
		}
		var columns []report.Column
		var want []any
		walk("", doc, func(path string, v any) {
			c, err := report.FindColumn(path)
			if err != nil {
				if v == nil && strings.Contains(err.Error(), "more than one value") {
					return
				}
				t.Fatalf("%s: %v", path, err)
			}
			_, isNumber := v.(float64)
			if isNumber != c.Numeric() && v != nil {
				t.Errorf("%s is %v; numeric: %v", path, v, c.Numeric())
			}
			columns, want = append(columns, c), append(want, v)
		})
		// What this JSON leaves out, or has null for, is null.
		for path, there := range map[string]bool{"press.travel_mm": p.Press != nil, "existing.force_N": p.Existing != nil && p.Existing.Press != nil, "rack.3.name": false, "press.schedule.99.force_N": false, "block.layer_radii_mm." + strconv.Itoa(len(p.Tools.Block.LayerRadii)): false, "used.shop.tube.wall": false} {
			c, err := report.FindColumn(path)
			if err != nil {
				t.Fatal(err)
			}
			if got := report.Row(p, []report.Column{c})[0]; (got != nil) != there {
				t.Errorf("%s: %v", path, got)
			}
		}
		for i, got := range report.Row(p, columns) {
			if n, ok := got.(int); ok {
				got = float64(n)
			}
			if got != want[i] {
				t.Errorf("%s: %v, in the JSON %v", columns[i].Path, got, want[i])
			}
		}
	})
}

// An unknown path names the nearest, one that leads on what may follow.
func TestFindColumnRefuses(t *testing.T) {
	for path, says := range map[string]string{
		"block.radus_mm":               "the nearest is block.radius_mm",
		"radius_mm":                    "the nearest is block.radius_mm",
		"needed_force_n":               "the nearest is press.needed_force_N",
		"elongation_used":              "the nearest is tube_after.elongation_used",
		"Block.Radius_MM":              "the nearest is block.radius_mm",
		"block.radius":                 "the nearest is block.radius_mm",
		"press.schedule.2.travel":      "the nearest is press.schedule.0.travel_mm",
		"press.schedule.x.travel_mm":   "the nearest is press.schedule.0.travel_mm",
		"press.schedule.-1.travel_mm":  "the nearest is press.schedule.0.travel_mm",
		"bend.legs_mm.2":               "the nearest is bend.legs_mm.0",
		"press":                        "name one, like press.supports_mm",
		"press.schedule":               "name one, like press.schedule.0.travel_mm",
		"used.shop":                    "name one, like used.shop.file",
		"block.radius_mm.x":            "goes on behind a single value",
		"":                             "is no path",
		"kit.seal":                     "is no path",
		"tube_after.outer_strain.more": "the nearest path is tube_after.outer_strain",
	} {
		if c, err := report.FindColumn(path); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, %v; want %s", path, c.Path, err, says)
		}
	}
	for _, path := range []string{"tube_after.area_mm2", "rack.0.radius_mm", "used.shop.tube.wall", "existing.tube_after.area_mm2", "press.range.low.proof_MPa"} {
		if _, err := report.FindColumn(path); err != nil {
			t.Errorf("%q: %v", path, err)
		}
	}
}

package report_test

import (
	"math"
	"path/filepath"
	"testing"

	"overbend/cmd/internal/plan/plantest"
)

// What the bench needs agrees with the rest of the object: closed forms worked
// from other keys of it, on every example.
func TestJSONBench(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		doc, p := docOf(t, path), plantest.Read(t, path)
		j := p.Job
		of := func(object string) map[string]any { return doc[object].(map[string]any) }
		num := func(object, key string) float64 { v, _ := of(object)[key].(float64); return v }
		same := func(what string, got, want float64) {
			t.Helper()
			if math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
				t.Errorf("%s: %s is %g, want %g", filepath.Base(path), what, got, want)
			}
		}
		same("grip", num("stack", "grip_mm"), num("block", "plate_mm")*(num("block", "layers")+2)+num("block", "shim_mm"))
		if left := num("stack", "bolt_length_mm") - num("stack", "grip_mm"); left < num("stack", "nut_allowance_mm") || left > num("stack", "nut_allowance_mm")+6.35 {
			t.Errorf("%s: the bolt reaches %g mm beyond its grip", path, left)
		}
		same("allowance", num("stack", "nut_allowance_mm"), 1.5*num("stack", "bolt_mm"))
		if size, hole := num("stack", "bolt_mm"), num("stack", "hole_mm"); size >= hole || size < hole/2 {
			t.Errorf("%s: bolt %g in holes of %g", path, size, hole)
		}
		same("springs back", num("press", "springs_back"), 1-num("press", "released_angle_deg")/num("press", "loaded_angle_deg"))
		same("finder", num("check", "finder_deg"), 180-num("bend", "angle_deg"))
		same("gap", num("check", "gap_mm"), sagitta(num("bend", "inside_radius_mm"), num("check", "straightedge_mm")))
		for face, key := range map[string]string{"inside": "inside_radius_mm", "outside": "outside_radius_mm"} {
			for _, r := range of("check")[face].([]any) {
				r := r.(map[string]any)
				same(face+" rise", r["rise_mm"].(float64), sagitta(num("bend", key), r["chord_mm"].(float64)))
			}
		}
		// A radius that makes a gap an error away from that of the drawing.
		for key, by := range map[string]float64{"least_radius_mm": 1, "most_radius_mm": -1} {
			if r := num("check", key); r > 0 {
				same(key, sagitta(r-j.Tube.Depth/2, num("check", "straightedge_mm")), num("check", "gap_mm")+by*num("check", "gap_error_mm"))
			}
		}
		// Near the end, so much angle to so much travel.
		at, slope := of("press")["schedule"].([]any), num("press", "creep_deg_per_mm")
		for i := 1; i < len(at); i++ {
			a, b := at[i-1].(map[string]any), at[i].(map[string]any)
			if b["travel_mm"] == of("press")["travel_mm"] {
				mean := (b["released_filled_angle_deg"].(float64) - a["released_filled_angle_deg"].(float64)) / (b["travel_mm"].(float64) - a["travel_mm"].(float64))
				if math.Abs(slope/mean-1) > 0.15 { // the way steepens towards its end
					t.Errorf("%s: %g deg for a mm, %g between the last stops", path, slope, mean)
				}
			}
			if g, ok := b["gauge_MPa"].(float64); ok {
				same("gauge", g, b["force_N"].(float64)/(math.Pi/4*j.Press.Ram*j.Press.Ram))
			} else if j.Press.Ram > 0 {
				t.Errorf("%s: no gauge at a stop", path)
			}
		}
		same("bolts", num("stack", "bolts"), float64(len(p.Tools.Block.Bolts)))
		same("openings", num("stack", "openings"), float64(len(p.Tools.Block.Openings)))
		same("drilled", num("stack", "drilled_holes"), float64(p.Drilled()))
		if of("stack")["thread"].(string)[0] == 'M' == j.Inches {
			t.Errorf("%s: bolts %v", path, of("stack")["thread"])
		}
		if step := map[bool]float64{false: 50, true: 50.8}[j.Inches]; math.Abs(math.Remainder(num("check", "straightedge_mm"), step)) > 1e-9 {
			t.Errorf("%s: a straightedge of %g mm", path, num("check", "straightedge_mm"))
		}
		if needed := num("press", "needed_proof_MPa"); needed < 1 || needed > 2000 {
			t.Errorf("%s: metal of %g MPa needs most", path, needed)
		}
		if f, ok := doc["filler"].(map[string]any); ok && !(f["melts_C"].(float64) < f["melt_out_C"].(float64) && f["melt_out_C"].(float64) <= f["ceiling_C"].(float64)) {
			t.Errorf("%s: %v", path, f)
		}
		kg, drawn := 0.0, 0
		for _, c := range doc["cut"].([]any) {
			c := c.(map[string]any)
			switch c["part"] {
			case "template-inside", "template-outside":
				kg, drawn = kg+c["mass_kg"].(float64), drawn+1
				same("template", c["plate_mm"].(float64), num("template", "plate_mm"))
			case "tube":
				same("tube", c["mass_kg"].(float64), num("section", "area_mm2")*num("blank", "length_mm")*j.Material.Density*1e-9)
			case "strip":
				same("strip", c["mass_kg"].(float64), num("strip", "width_mm")*num("strip", "thickness_mm")*num("strip", "length_mm")*7850e-9)
			}
		}
		same("templates", num("template", "mass_kg"), kg)
		if drawn != 2 || kg <= 0 {
			t.Errorf("%s: %d templates of %g kg", path, drawn, kg)
		}
		if n, ok := doc["nest"].(map[string]any); ok != (j.Cutting.Sheet[0] > 0) {
			t.Errorf("%s: nest %v", path, n)
		} else if ok {
			same("nest", n["mass_kg"].(float64), n["width_mm"].(float64)*n["height_mm"].(float64)*n["plate_mm"].(float64)*n["sheets"].(float64)*7850e-9)
		}
		for i, m := range of("blank")["marks"].([]any) {
			m := m.(map[string]any)
			same("mark", (m["outside_mm"].(float64)+m["inside_mm"].(float64))/2, m["at_mm"].(float64))
			if k := 0; m["name"] == "trim" {
				if i > 0 {
					k = 1
				}
				lean := (m["outside_mm"].(float64) - m["inside_mm"].(float64)) / num("section", "depth_mm")
				side := float64(2*k - 1) // a positive cut makes the outside longer
				same("lean", side*lean, math.Tan(of("bend")["end_cuts_deg"].([]any)[k].(float64)*math.Pi/180))
			}
		}
	}
}

// sagitta returns the rise of a circle's arc over a chord.
func sagitta(radius, chord float64) float64 {
	return radius - math.Sqrt(radius*radius-chord*chord/4)
}

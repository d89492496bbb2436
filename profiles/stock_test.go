package profiles_test

import (
	"math"
	"strings"
	"testing"

	"overbend/profiles"
)

// Every stock tube can exist, and where its standard prints section values the
// shape gives them to the table's rounding (three significant digits).
func TestTubes(t *testing.T) {
	listed := 0
	names := map[string]bool{}
	for _, tube := range profiles.Tubes() {
		s := tube.Section
		if err := s.Validate(); err != nil {
			t.Errorf("%s: %v", tube.Name, err)
		}
		if len(tube.Source) < 10 {
			t.Errorf("%s: source %q", tube.Name, tube.Source)
		}
		key := string(tube.Family) + " " + tube.Name
		if names[key] {
			t.Errorf("%s twice", key)
		}
		names[key] = true
		corner := 0.0
		if tube.Family == profiles.Steel && s.Shape == profiles.Rectangle {
			corner = profiles.ColdFormedCorner(s.Wall)
		}
		if math.Abs(s.Corner-corner) > 1e-9 {
			t.Errorf("%s: corner %g, want %g", tube.Name, s.Corner, corner)
		}
		if strings.HasSuffix(tube.Name, " in") != tube.Inch {
			t.Errorf("%s: inch %v", tube.Name, tube.Inch)
		}
		if tube.Listed == (profiles.Listed{}) {
			continue
		}
		listed++
		for _, v := range []struct {
			name      string
			got, want float64
		}{
			{"area", s.Area() / 1e2, tube.Listed.Area},
			{"inertia", s.Inertia() / 1e4, tube.Listed.Inertia},
			{"elastic modulus", s.ElasticModulus() / 1e3, tube.Listed.Elastic},
			{"plastic modulus", s.PlasticModulus() / 1e3, tube.Listed.Plastic},
		} {
			last := math.Pow(10, math.Floor(math.Log10(v.want))-2)
			if math.Abs(v.got-v.want) > last/2 {
				t.Errorf("%s: %s %.4g, the table prints %g", tube.Name, v.name, v.got, v.want)
			}
		}
	}
	if listed != 5 {
		t.Errorf("%d tubes with listed values, want the 5 of EN 10219-2", listed)
	}
}

func TestTubeSizes(t *testing.T) {
	want := map[string]profiles.Section{
		"40 x 40 x 3":              {Width: 40, Depth: 40, Wall: 3},
		"40 x 60 x 3":              {Width: 40, Depth: 60, Wall: 3},
		"1-1/2 x 1-1/2 x 1/8 in":   {Width: 38.1, Depth: 38.1, Wall: 3.175},
		"dia 30 x 2":               {Shape: profiles.Round, Width: 30, Depth: 30, Wall: 2},
		"dia 1.900 x 0.145 in":     {Shape: profiles.Round, Width: 48.26, Depth: 48.26, Wall: 3.683},
		"1-1/2 x 1-1/2 x 0.120 in": {Width: 38.1, Depth: 38.1, Wall: 3.048, Corner: 6.096},
	}
	for _, tube := range profiles.Tubes() {
		w, ok := want[tube.Name]
		if !ok || tube.Family == profiles.Steel != (w.Corner > 0) {
			continue
		}
		delete(want, tube.Name)
		s := tube.Section
		for _, d := range []float64{s.Width - w.Width, s.Depth - w.Depth, s.Wall - w.Wall, s.Corner - w.Corner} {
			if math.Abs(d) > 1e-9 || s.Shape != w.Shape {
				t.Errorf("%s: %+v, want %+v", tube.Name, s, w)
				break
			}
		}
	}
	for name := range want {
		t.Errorf("no %s", name)
	}
}

// The thicknesses that shops name, common practice.
func TestPlatesAndStrips(t *testing.T) {
	var plates, strips []string
	thickness := map[string]float64{}
	for _, p := range profiles.Plates() {
		plates = append(plates, p.Name)
		thickness[p.Name] = p.Thickness
		if len(p.Source) < 10 || p.Inch != strings.HasSuffix(p.Name, " in") {
			t.Errorf("plate %+v", p)
		}
	}
	for _, s := range profiles.Strips() {
		strips = append(strips, s.Name)
		thickness[s.Name] = s.Thickness
		if len(s.Source) < 10 || s.Inch != strings.HasSuffix(s.Name, " in") {
			t.Errorf("strip %+v", s)
		}
	}
	var sheets []string
	for _, s := range profiles.Sheets() {
		sheets = append(sheets, s.Name)
		thickness[s.Name] = s.Thickness
		if len(s.Source) < 10 || s.Inch != strings.HasSuffix(s.Name, " in") {
			t.Errorf("sheet %+v", s)
		}
	}
	const wantSheets = "0.2 mm, 0.5 mm, 0.8 mm, 1 mm, 1.2 mm, 1.5 mm, 2 mm, 2.5 mm, 3 mm, 4 mm, 5 mm, 6 mm, " +
		"0.010 in, 0.0179 in, 0.0239 in, 0.0299 in, 0.0359 in, 0.0478 in, 0.0598 in, 0.0747 in, 0.1046 in, 0.1196 in, 0.1345 in, 3/16 in, 1/4 in"
	if got := strings.Join(sheets, ", "); got != wantSheets {
		t.Errorf("sheets %s, want %s", got, wantSheets)
	}
	const wantPlates = "6 mm, 8 mm, 10 mm, 12 mm, 15 mm, 20 mm, 25 mm, 30 mm, 40 mm, 1/4 in, 3/8 in, 1/2 in, 3/4 in, 1 in"
	if got := strings.Join(plates, ", "); got != wantPlates {
		t.Errorf("plates %s, want %s", got, wantPlates)
	}
	const wantStrips = "3 mm, 4 mm, 5 mm, 6 mm, 8 mm, 10 mm, 12 mm, 1/8 in, 3/16 in, 1/4 in, 5/16 in, 3/8 in, 1/2 in"
	if got := strings.Join(strips, ", "); got != wantStrips {
		t.Errorf("strips %s, want %s", got, wantStrips)
	}
	for name, mm := range map[string]float64{"10 mm": 10, "1/4 in": 6.35, "3/8 in": 9.525, "5/16 in": 7.9375, "1 in": 25.4, "0.5 mm": 0.5, "0.0598 in": 1.51892} {
		if math.Abs(thickness[name]-mm) > 1e-9 {
			t.Errorf("%s is %g mm, want %g", name, thickness[name], mm)
		}
	}
}

// Widths: EN 10058's preferred ones as far as strips go, and what inch dealers
// list, both from memory.
func TestFlats(t *testing.T) {
	var names []string
	last := 0.0
	for _, f := range profiles.Flats() {
		names = append(names, f.Name)
		if len(f.Source) < 10 || f.Inch != strings.HasSuffix(f.Name, " in") || f.Width <= last && f.Name != "1/2 in" {
			t.Errorf("flat %+v after %g mm", f, last)
		}
		last = f.Width
	}
	const want = "12 mm, 16 mm, 20 mm, 25 mm, 30 mm, 35 mm, 40 mm, 45 mm, 50 mm, 60 mm, 70 mm, 80 mm, 90 mm, 100 mm, 120 mm, 150 mm, " +
		"1/2 in, 5/8 in, 3/4 in, 1 in, 1-1/4 in, 1-1/2 in, 1-3/4 in, 2 in, 2-1/4 in, 2-1/2 in, 3 in, 3-1/2 in, 4 in, 5 in, 6 in"
	if got := strings.Join(names, ", "); got != want {
		t.Errorf("flats %s, want %s", got, want)
	}
	for _, row := range []struct {
		width float64
		inch  bool
		want  bool
	}{
		{40, false, true}, {40.7, false, true}, {40.8, false, false}, {39.2, false, false}, {33.7, false, false}, {150, false, true}, {160, false, false},
		{25.4, false, true}, {38.1, false, false}, {38.1, true, true}, {101.6, true, true}, {110, true, false}, {203.2, true, false}, {40, true, false},
	} {
		if got := profiles.FlatKept(row.width, row.inch); got != row.want {
			t.Errorf("%g mm, inches %v: %v", row.width, row.inch, got)
		}
	}
}

func TestNearestStrip(t *testing.T) {
	for _, row := range []struct {
		thickness float64
		inch      bool
		want      string
		why       string
	}{
		{40.0 / 6, false, "6 mm", "a sixth of 40 mm"},
		{1.5 * 25.4 / 6, true, "1/4 in", "a quarter inch behind a 1-1/2 in tube, common practice"},
		{7, false, "6 mm", "as near to 8, the thinner"},
		{9.01, false, "10 mm", "nearer"},
		{(25.4/4 + 25.4*5/16) / 2, true, "1/4 in", "as near to 5/16, the thinner"},
		{0.1, false, "3 mm", "the thinnest"},
		{500, true, "1/2 in", "the thickest"},
	} {
		if got := profiles.NearestStrip(row.thickness, row.inch); got.Name != row.want {
			t.Errorf("%g mm: %q, want %s: %s", row.thickness, got.Name, row.want, row.why)
		}
	}
}

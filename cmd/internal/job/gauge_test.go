package job

import (
	"strings"
	"testing"

	"overbend/profiles"
)

// A gauge goes by what it is the thickness of: a tube's wall by the Birmingham gauge
// whatever its metal, a strip by its own metal, the block's plate by steel.
func TestGauges(t *testing.T) {
	for _, c := range []struct {
		out, in string
		got     func(Job) float64
		key     string
		list    profiles.GaugeList
		inches  float64
	}{
		{`wall = "3 mm"`, `wall = "11 ga"`, func(j Job) float64 { return j.Tube.Wall }, "tube.wall", profiles.TubeWall, 0.120},
		{"wall = \"3 mm\"\ncorner = \"0 mm\"\nmaterial = \"6082-T6\"", "wall = \"11GA.\"\nmaterial = \"S235\"", func(j Job) float64 { return j.Tube.Wall }, "tube.wall", profiles.TubeWall, 0.120},
		{`thickness = "6 mm"`, `thickness = "11 gauge"`, func(j Job) float64 { return j.Strip.Thickness }, "strip.thickness", profiles.SteelSheet, 0.1196},
		{`thickness = "6 mm"`, "thickness = \"11 gage\"\nmaterial = \"6061-T6\"", func(j Job) float64 { return j.Strip.Thickness }, "strip.thickness", profiles.AluminiumSheet, 0.0907},
		{`thickness = "6 mm"`, "thickness = \"11 ga\"\nmaterial = \"304 annealed\"", func(j Job) float64 { return j.Strip.Thickness }, "strip.thickness", profiles.StainlessSheet, 0.1250},
		{`plate = "10 mm"`, `plate = "3 ga"`, func(j Job) float64 { return j.Block.Plate }, "block.plate", profiles.SteelSheet, 0.2391},
	} {
		j := parse(t, strings.Replace(good, c.out, c.in, 1))
		if got := c.got(j); got < (c.inches-1e-7)*25.4 || got > (c.inches+1e-7)*25.4 {
			t.Errorf("%s: %g mm, want %g in", c.in, got, c.inches)
		}
		if len(j.Gauges) != 1 || j.Gauges[0].Key != c.key || j.Gauges[0].List != c.list {
			t.Errorf("%s: %+v", c.in, j.Gauges)
		}
	}
	if j := parse(t, good); len(j.Gauges) != 0 {
		t.Errorf("no gauge was given: %+v", j.Gauges)
	}
	for _, c := range []struct{ out, in, want string }{
		{`wall = "3 mm"`, `wall = "2 ga"`, "tube.wall: 2 ga of tube wall is not listed: the list goes from 3 to 30"},
		{`wall = "3 mm"`, `wall = "16.5 ga"`, `tube.wall: "16.5 ga" is not allowed; a gauge is a whole number, like 16 ga`},
		{`wall = "3 mm"`, `wall = "-16 ga"`, `tube.wall: "-16 ga" is not allowed; a gauge is a whole number, like 16 ga`},
		{`wall = "3 mm"`, `wall = "ga 16"`, `tube.wall: "ga 16" is not a length; write it like 40 mm`},
		{`plate = "10 mm"`, `plate = "1e9 ga"`, `block.plate: "1e9 ga" is not allowed; a gauge is a whole number, like 16 ga`},
		{`thickness = "6 mm"`, "thickness = \"31 ga\"\nmaterial = \"6061-T6\"", "strip.thickness: 31 ga of aluminium sheet is not listed: the list goes from 3 to 30"},
		{`radius = "420 mm"`, `radius = "16 ga"`, `bend.radius: "16 ga" has the unknown unit "ga"; a length takes mm, cm, m or inch units`},
	} {
		_, err := Parse("j", []byte(strings.Replace(good, c.out, c.in, 1)))
		got := ""
		if err != nil {
			_, got, _ = strings.Cut(err.Error(), ": ")
		}
		if got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.in, got, c.want)
		}
	}
}

// What a file in inches leaves out is of an inch shop, in mm of a metric one.
func TestInchDefaults(t *testing.T) {
	for units, want := range map[string][4]float64{"mm": {40, 60, 20, 13}, "in": {38.1, 63.5, 19.05, 14.2875}} {
		text := map[string]string{"mm": good, "in": inches}[units]
		j := parse(t, strings.NewReplacer(`alloy = "158"`, `alloy = "174"`).Replace(text))
		if got := [4]float64{j.Press.Roller, j.Press.RamWidth, j.Filler.Plugs[0], j.BoltHole()}; got != want {
			t.Errorf("%s: %v, want %v", units, got, want)
		}
		if j.Block.Hole = 11; j.BoltHole() != 11 {
			t.Errorf("%s: a hole that is given is %g", units, j.BoltHole())
		}
	}
}

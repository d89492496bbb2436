package job

import (
	"math"
	"strings"
	"testing"

	"overbend/geom"
)

// Keys about the metal's edges, the press's and a trial's: what each takes, and
// one sentence for each thing it does not.
func TestEdgeKeys(t *testing.T) {
	file := func(units, extra string) string {
		size := func(mm, in string) string { return map[string]string{"mm": mm, "in": in}[units] }
		return "name = \"edge\"\nunits = \"" + units + "\"\n[tube]\nshape = \"rectangle\"\nwidth = " + size("40", "1.5") + "\ndepth = " + size("40", "1.5") +
			"\nwall = " + size("3", "0.125") + "\nmaterial = \"6082-T6\"\n[bend]\nradius = " + size("420", "16") + "\nangle = 33\nlegs = [" + size("250, 250", "10, 10") + "]\n" + extra
	}
	j := parse(t, file("mm", "[allowance]\nproof = \"268 MPa\"\nultimate = \"301 MPa\"\n[press]\nfriction = 0\nstroke = 200\nbed = 700\nram_width = 80\n[[trial]]\nblock = 360\nloaded = 38\nloaded_error = 0.5\nreleased = 32.6\n"))
	if j.Allowance.Ultimate != 301 || j.Press.Friction != 0 || j.Press.Stroke != 200 || j.Press.Bed != 700 || j.Press.RamWidth != 80 {
		t.Errorf("%+v %+v", j.Allowance, j.Press)
	}
	if tr := j.Trials[0]; math.Abs(tr.Melted.Degrees()-32.6) > 1e-12 || tr.LoadedError != 0.5*geom.Degree || tr.TravelError != 0.5 {
		t.Errorf("%+v", tr)
	}
	j = parse(t, file("in", "[press]\nsupports = 20\n[[trial]]\nblock = 14\ntravel = 1.5\nreleased = 32.6\n"))
	if j.Trials[0].TravelError != 25.4/64 || j.Press.Friction != 0.15 || j.Press.RamWidth != 63.5 {
		t.Errorf("%+v %+v", j.Trials[0], j.Press)
	}
	inline := "[material]\nyoungs_modulus = \"200 GPa\"\nproof = \"300 MPa\"\nultimate = \"600 MPa\"\nelongation = \"30 %\"\nfamily = \"stainless\"\nunloading = 0.9\n"
	j = parse(t, strings.Replace(file("mm", inline), "material = \"6082-T6\"\n", "", 1))
	if j.Material.Unloading != 0.9 || j.Material.Family != "stainless" || j.Material.Density != 8000 {
		t.Errorf("%+v", j.Material)
	}

	const trial = "[[trial]]\nblock = 360\n"
	for _, c := range []struct{ extra, want string }{
		{"[allowance]\nultimate = \"300 MPa\"", "allowance.ultimate: not allowed without proof; a certificate gives both"},
		{"[allowance]\nproof = \"268 MPa\"\nultimate = \"268 MPa\"", "allowance.ultimate: 268 MPa is not allowed; it must be at least 268.268 MPa, a little more than the proof stress"},
		{"[allowance]\nmode = \"ratio\"\nratio = 0.9\nproof = \"268 MPa\"", `allowance.proof: not allowed with mode "ratio", which says how the metal springs back; set mode = "computed" or leave proof out`},
		{"[allowance]\nmode = \"degrees\"\ndegrees = 3\nproof = \"268 MPa\"", `allowance.proof: not allowed with mode "degrees", which`},
		{"[press]\nfriction = -0.1", "press.friction: -0.1 is not allowed; it must be from 0 to 1"},
		{"[press]\nfriction = \"15 %\"", "press.friction: "},
		{"[press]\nfriction = nan", "press.friction: "},
		{"[press]\nstroke = 0", "press.stroke: 0 mm is not allowed; it must be more than 0 mm"},
		{"[press]\nbed = \"30 mm\"", "press.bed: 30 mm is not allowed; it must be more than 40 mm, the roller diameter"},
		{"[press]\nbed = 400\nsupports = 420", "press.supports: 420 mm is not allowed; it must be at most 400 mm, the bed"},
		{"[press]\nram_width = \"wide\"", `press.ram_width: "wide" is not a length`},
		{trial + "loaded = 38\nreleased = 33\nmelted = 33", "trial.released: released and melted together are not allowed; of an empty tube they are the same"},
		{"[filler]\nalloy = \"158\"\n" + trial + "loaded = 38\nreleased = 33", "trial.released: not allowed with a filler; give filled for the angle with the alloy in, melted for that after melt-out"},
		{trial + "loaded = 38\nreleased = 40", "trial.released: 40 deg is not allowed; it must be at most the angle under pressure, 38 deg"},
		{trial + "loaded = 38", "trial: a trial without a measurement; give released, or chord and rise"},
		{trial + "loaded = 38\nloaded_error = 0\nreleased = 33", "trial.loaded_error: 0 deg is not allowed"},
		{trial + "loaded = 38\ntravel_error = -1\nreleased = 33", "trial.travel_error: -1 is not allowed"},
	} {
		_, err := Parse("j", []byte(file("mm", c.extra+"\n")))
		if err == nil || !strings.Contains(err.Error(), ": "+c.want) {
			t.Errorf("%q:\n got %v\nwant %s", c.extra, err, c.want)
		}
	}
	// A drawing's angle, and what an angle finder shows of it.
	turned := strings.Replace(file("mm", ""), "radius = 420\nangle = 33", "chord = 238.59\nrise = 17.27\nangle = 147", 1)
	if _, err := Parse("j", []byte(turned)); err == nil || !strings.Contains(err.Error(), "j:12: bend.angle: chord and rise say 32.9") ||
		!strings.Contains(err.Error(), "angle says 147 deg; an angle finder laid on that bend shows 147.0") {
		t.Errorf("got %v", err)
	}
	other := strings.Replace(turned, "angle = 147", "angle = 60", 1)
	if _, err := Parse("j", []byte(other)); err == nil || strings.Contains(err.Error(), "finder") {
		t.Errorf("got %v", err)
	}
}

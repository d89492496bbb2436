package job

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/geom"
	"overbend/profiles"

	"pgregory.net/rapid"
)

const demo = "../../../testdata/davit-arm.toml"

func read(t testing.TB, path string) Job {
	t.Helper()
	j, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func parse(t testing.TB, text string) Job {
	t.Helper()
	j, err := Parse("j", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// same reports whether two jobs differ in no more than their files.
func same(a, b Job) bool {
	a.places, b.places = nil, nil
	a.File, b.File = "", ""
	return reflect.DeepEqual(a, b)
}

func TestDemo(t *testing.T) {
	alloy, err := profiles.FindMaterial("6082-T6", 3, profiles.Rectangle)
	if err != nil {
		t.Fatal(err)
	}
	steel, err := profiles.FindMaterial("1018 cold drawn", 6, profiles.Rectangle)
	if err != nil {
		t.Fatal(err)
	}
	filler, err := profiles.FindFiller("158")
	if err != nil {
		t.Fatal(err)
	}
	want := Job{
		Name:      "davit-arm",
		Tube:      profiles.Section{Width: 40, Depth: 40, Wall: 3},
		Material:  alloy,
		Bend:      Bend{Bend: geom.Bend{Radius: 420, Angle: 33 * geom.Degree}, RadiusAt: Centre, Legs: [2]float64{250, 250}},
		Allowance: Allowance{Mode: Computed},
		Strip:     Strip{Thickness: 6, Material: steel},
		Block:     Block{Plate: 10},
		Filler:    Filler{Alloy: filler, Plugs: [2]float64{20, 20}},
		Press:     Press{Capacity: 196133, Rated: quantity.Tonnes, Roller: 40, RamWidth: 60, Friction: 0.15},
		Ends:      Ends{Cut: [2]geom.Angle{0, 22.5 * geom.Degree}, Trim: [2]float64{-1, -1}},
		Fixture:   Fixture{Pin: 10},
	}
	if got := read(t, demo); !same(got, want) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
}

// A letter and an accent that were typed one after the other are the one letter
// that they look like.
func TestOneLetter(t *testing.T) {
	text, err := os.ReadFile(demo)
	if err != nil {
		t.Fatal(err)
	}
	j := parse(t, strings.Replace(string(text), `"davit-arm"`, "\"e\u0301tai и\u0306\"", 1))
	if j.Name != "étai й" {
		t.Errorf("%+q", j.Name)
	}
}

// What `overbend new` writes describes the demo's job, in inches one like it, and
// names every key.
func TestStarter(t *testing.T) {
	j := parse(t, Starter(quantity.Millimetres))
	if want := read(t, demo); !same(j, want) {
		t.Errorf("got %+v\nwant %+v", j, want)
	}
	in := parse(t, Starter(quantity.Inches))
	if in.Tube != (profiles.Section{Width: 38.1, Depth: 38.1, Wall: 3.175}) || in.Bend.Radius != 16*25.4 || in.Bend.Angle != j.Bend.Angle ||
		in.Bend.Legs != [2]float64{254, 254} || in.Ends != j.Ends || in.Filler.Alloy.Name != "158" || in.Material.Name != "6061-T6" || !in.Inches ||
		in.Press.Rated.Of(in.Press.Capacity) != quantity.ShortTons.Of(in.Press.Capacity) {
		t.Errorf("in inches %+v", in)
	}
	for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
		text := Starter(u)
		for _, table := range append(tables(), "") {
			for _, key := range keysOf(table) {
				if !strings.Contains(text, "\n"+key+" ") && !strings.Contains(text, "\n# "+key+" ") && !strings.Contains(text, "["+key+"]") {
					t.Errorf("%s.%s is not explained in %s", table, key, u)
				}
			}
		}
		for line := range strings.Lines(text) {
			if strings.ContainsAny(line, "<>|") {
				t.Errorf("a choice is left: %s", line)
			}
			// Comments stand in a column; the head names all units.
			_, body, _ := strings.Cut(text, "\nname")
			if at := strings.Index(line, " #"); at > 0 && strings.Contains(body, line) && at != noteColumn-1 && len(strings.TrimRight(line[:at], " ")) < noteColumn-1 {
				t.Errorf("a comment in column %d: %s", at, line)
			}
			value, _, _ := strings.Cut(line, " #")
			if foreign := map[quantity.Units]string{quantity.Millimetres: ` (in|ksi|tonf|lb/in3)"`, quantity.Inches: `([0-9] |")(mm|MPa|GPa|t|kg/m3)"`}[u]; strings.Contains(body, line) && regexp.MustCompile(foreign).MatchString(value) {
				t.Errorf("not in %s: %s", u, line)
			}
		}
	}
}

// With every commented line taken in, one table at a time, it still parses: no
// example in it is wrong. Keys that exclude each other go in alone.
func TestStarterExamples(t *testing.T) {
	for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
		lines := strings.Split(Starter(u), "\n")
		uncomment := func(without string, keys ...string) {
			out := make([]string, 0, len(lines))
			for _, line := range lines {
				if word, _, ok := strings.Cut(line, " "); ok && without != "" && strings.Contains(without, " "+word+" ") {
					line = "#"
				}
				for _, key := range keys {
					if strings.HasPrefix(line, "# "+key) {
						line = line[2:]
					}
				}
				out = append(out, line)
			}
			parse(t, strings.Join(out, "\n"))
		}
		uncomment("", "height", "blend", "hole", "cheek_depth", "existing", "lighten", "supports", "ram_diameter", "ram_width", "friction", "stroke", "bed",
			"trim", "process", "sheet", "pin", "plate =", "size", "owner", "number", "revision", "date", "drawn", "approved", "proof    =", "ultimate = ")
		uncomment(" material ", "[material]", "youngs_modulus", "proof          =", "ultimate       =", "exponent", "elongation", "poisson", "density", "family", "unloading")
		uncomment("", "use")
		uncomment(" radius angle ", "chord =", "rise  =")
		uncomment(" angle ", "arc ")
		uncomment(" radius ", "arc ")
		uncomment(" mode ")
		uncomment("", "[[trial]]", "block  =", "loaded", "filled", "melted", "chord  =", "rise   =", "angle_error", "rise_error", "travel_error", "loaded_error")
	}
}

func TestExamples(t *testing.T) {
	const dir = "../../../testdata/jobs/"

	hoop := read(t, dir+"canopy-hoop.toml")
	if !hoop.Inches || hoop.Tube != (profiles.Section{Shape: profiles.Round, Width: 25.4, Depth: 25.4, Wall: 0.065 * 25.4}) {
		t.Errorf("hoop's tube %+v", hoop.Tube)
	}
	if want := (Bend{Bend: geom.Bend{Radius: 17.5 * 25.4, Angle: 70 * geom.Degree}, RadiusAt: Outside, Legs: [2]float64{317.5, 317.5}}); hoop.Bend != want {
		t.Errorf("hoop's bend %+v, want %+v", hoop.Bend, want)
	}
	if hoop.Strip.Thickness != 4.7625 || hoop.Block.Plate != 6.35 || hoop.Press.Roller != 38.1 ||
		math.Abs(hoop.Press.Capacity-177928.9) > 0.1 { // 40000 lbf of 4.448222 N
		t.Errorf("hoop's strip, block, press: %+v %+v %+v", hoop.Strip, hoop.Block, hoop.Press)
	}
	if hoop.Filler.Alloy.Name != "" || hoop.Filler.Plugs != [2]float64{19.05, 19.05} {
		t.Errorf("hoop's filler %+v", hoop.Filler)
	}

	// 3/8 in for a job in inches.
	if hoop.Fixture != (Fixture{Pin: 9.525}) {
		t.Errorf("hoop's fixture %+v", hoop.Fixture)
	}

	brace := read(t, dir+"gate-brace.toml")
	// EN 10219-2 takes an outside corner of 2t for walls up to 6 mm.
	if brace.Tube != (profiles.Section{Width: 30, Depth: 30, Wall: 3, Corner: 6}) {
		t.Errorf("brace's tube %+v", brace.Tube)
	}
	// A circle through the ends and crown: (75² + 300²) / (2 x 75) = 637.5,
	// and sin of the half angle = 300/637.5.
	want := Bend{Bend: geom.Bend{Radius: 637.5 + 15, Angle: geom.Angle(2 * math.Asin(300/637.5))}, RadiusAt: Inside, Legs: [2]float64{300, 200}}
	if math.Abs(brace.Bend.Radius-want.Radius) > 1e-9 || math.Abs(float64(brace.Bend.Angle-want.Angle)) > 1e-12 || brace.Bend.Legs != want.Legs {
		t.Errorf("brace's bend %+v, want %+v", brace.Bend, want)
	}
	if brace.Allowance != (Allowance{Mode: Degrees, Extra: 5 * geom.Degree}) {
		t.Errorf("brace's allowance %+v", brace.Allowance)
	}
	if brace.Filler.Alloy.Name != "" {
		t.Errorf("brace's filler %+v", brace.Filler)
	}
	if brace.Ends != (Ends{Cut: [2]geom.Angle{math.Pi / 4, math.Pi / 4}, Trim: [2]float64{0, 30}}) {
		t.Errorf("brace's ends %+v", brace.Ends)
	}
	if brace.Cutting != (shop.Cutting{Process: "plasma", Kerf: 1.5, Sheet: [2]float64{1000, 500}}) {
		t.Errorf("brace's cutting %+v", brace.Cutting)
	}

	tried := read(t, dir+"davit-arm-tried.toml")
	if math.Abs(tried.Bend.Radius-242/(33*math.Pi/180)) > 1e-9 {
		t.Errorf("tried radius %v", tried.Bend.Radius)
	}
	if tried.Allowance != (Allowance{Mode: Computed, Proof: 268}) || tried.Inline {
		t.Errorf("tried allowance %+v", tried.Allowance)
	}
	if tried.Filler.Alloy.Name != "158" || tried.Block.Existing != 360 || tried.Press.Ram != 60 {
		t.Errorf("tried %+v", tried)
	}
	if tried.Drawing != (Drawing{Owner: "our shop", Number: "17", Revision: "B", Date: "2025-06-01"}) {
		t.Errorf("tried drawing %+v", tried.Drawing)
	}
	nan := math.NaN()
	for i, want := range []Trial{
		{360, 47, geom.Angle(nan), 32.6 * geom.Degree, 32.4 * geom.Degree, nan, nan, 0.25 * geom.Degree, 0.5, 0.5, 0.25 * geom.Degree},
		{360, nan, 37.5 * geom.Degree, geom.Angle(nan), geom.Angle(nan), 200, 12.6, 0.5 * geom.Degree, 0.5, 0.5, 0.25 * geom.Degree},
	} {
		// Printed, so that NaN equals NaN.
		if got := tried.Trials[i]; fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("trial %d: %v, want %v", i, got, want)
		}
	}

	own := read(t, dir+"own-metal.toml")
	metal := own.Material
	if !own.Inline || metal.Youngs != 115e3 || math.Abs(metal.Proof-206.843) > 1e-3 || metal.Exponent != 12 || metal.Ultimate != 0 ||
		metal.Elongation != 0.2 || metal.Poisson != 0.34 || math.Abs(metal.Density-8700) > 1e-9 || metal.Family != profiles.Aluminium {
		t.Errorf("own metal %+v", metal)
	}
	if own.Allowance != (Allowance{Mode: Ratio, Ratio: 0.93}) {
		t.Errorf("own allowance %+v", own.Allowance)
	}
	if own.Bend.Radius != 300 || own.Bend.Angle != 1 {
		t.Errorf("own bend %+v", own.Bend)
	}
}

// The first line of each bad file is a comment with its own sentence.
func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/jobs/bad/*.toml")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want, _, _ := strings.Cut(string(text), "\n")
		want = file + ":" + strings.TrimPrefix(want, "# ")
		if _, err := Read(file); err == nil || err.Error() != want {
			t.Errorf("got %v\nwant %s", err, want)
		}
	}
}

// What differs in writing only is the same job.
func TestSpellings(t *testing.T) {
	plain := parse(t, good)
	for name, edits := range map[string][2]string{
		"byte order mark":  {"name =", "\ufeffname ="},
		"line ends":        {"\n", "\r\n"},
		"dotted":           {"[tube]\nshape =", "tube.shape ="},
		"quoted key":       {"wall =", `"wall" =`},
		"escaped key":      {"wall =", `"w\u0061ll" =`},
		"literal key":      {"wall =", `'wall' =`},
		"bare number":      {`"3 mm"`, "3"},
		"float":            {`"3 mm"`, "3.0"},
		"inch":             {`"3 mm"`, `"15/127 in"`},
		"long string":      {`"3 mm"`, `"""3 mm"""`},
		"long array":       {`["250 mm", "250 mm"]`, "[ # legs\n 250,\n 250,\n]"},
		"inline trials":    {"[[trial]]\nblock = \"380 mm\"\ntravel = \"38 mm\"\nmelted = \"32 deg\"", ""},
		"spaces in a name": {"[tube]", "[ tube ]"},
	} {
		from, to := edits[0], edits[1]
		text := good
		switch name {
		case "dotted":
			lines := strings.SplitAfter(good, "\n")
			text = ""
			for i, line := range lines {
				switch {
				case line == "[tube]\n":
				case i > 3 && i < 10 && line != "\n":
					text += "tube." + line
				default:
					text += line
				}
			}
		case "inline trials":
			text = "trial = [\n  {block = 380, travel = 38, melted = 32},\n]\n" + strings.Replace(good, from, to, 1)
		case "line ends":
			text = strings.ReplaceAll(good, from, to)
		default:
			text = strings.Replace(good, from, to, 1)
		}
		if text == good {
			t.Fatalf("%s: nothing changed", name)
		}
		j := parse(t, text)
		if line := j.places.Line("trial[0]"); name == "inline trials" && line != 2 {
			t.Errorf("%s: trial at line %d, want 2", name, line)
		}
		// Trials hold NaN, so compare what is printed.
		j.places, plain.places = nil, nil
		if got, want := fmt.Sprintf("%+v", j), fmt.Sprintf("%+v", plain); got != want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, want)
		}
	}
}

func TestInlineMaterial(t *testing.T) {
	const metal = "youngs_modulus = \"70 GPa\"\nproof = \"250 MPa\"\nultimate = \"290 MPa\"\nelongation = \"8 %\"\n"
	noName := strings.Replace(good, "material = \"6082-T6\"\n", "", 1)
	top := parse(t, noName+"[material]\n"+metal)
	below := parse(t, noName+"[tube.material]\n"+metal)
	inline := parse(t, strings.Replace(good, `"6082-T6"`, "{"+strings.ReplaceAll(strings.TrimSpace(metal), "\n", ", ")+"}", 1))
	want := profiles.Material{
		Name: "inline material", Family: profiles.Aluminium, Youngs: 70e3, Poisson: 0.33, Density: 2700,
		Proof: 250, Ultimate: 290, Elongation: 0.08, Source: "the job file",
	}
	for _, j := range []Job{top, below, inline} {
		if !j.Inline || j.Material != want {
			t.Errorf("got %+v, want %+v", j.Material, want)
		}
	}
	steel := parse(t, noName+"[material]\n"+strings.Replace(metal, "70", "206", 1)).Material
	if steel.Family != profiles.Steel || steel.Density != 7850 {
		t.Errorf("got %+v", steel)
	}
	for _, c := range []struct{ out, in, want string }{
		{"youngs_modulus = \"70 GPa\"", "", `j:44: material.youngs_modulus: missing; write it like youngs_modulus = "70 GPa"`},
		{"\"70 GPa\"", "\"0 GPa\"", "j:45: material.youngs_modulus: 0 GPa is not allowed; it must be from 1 GPa to 1000 GPa"},
		{"\"70 GPa\"", "\"2 GPa\"", "j:46: material.proof: 250 MPa is not allowed; it must be at most a twentieth of youngs_modulus, 100 MPa"},
		{"ultimate = \"290 MPa\"", "", `j:44: material.ultimate: missing; write it like ultimate = "290 MPa", or give an exponent`},
		{"290 MPa", "250 MPa", "j:47: material.ultimate: 250 MPa is not allowed; it must be more than the proof stress of 250 MPa"},
		{"290 MPa", "250.01 MPa", "j:47: material.ultimate: 250.01 MPa with a proof stress of 250 MPa gives an exponent of 1.099e+05; it must be from 1 to 10000"},
		{"8 %", "8", "j:48: material.elongation: 8 is not a share of 1; write 8 % or a number up to 1"},
		{"8 %", "0 %", "j:48: material.elongation: 0 % is not allowed; it must be from 0.1 % to 100 %"},
		{"elongation", "family = \"wood\"\nelongation", `j:48: material.family: "wood" is not allowed; it must be "aluminium", "steel" or "stainless"`},
		{"elongation", "poisson = 0.6\nelongation", "j:48: material.poisson: 0.6 is not allowed; it must be from 0 to 0.5"},
		{"elongation", "density = 2700\nelongation", `j:48: material.density: "2700" has no unit; write it like 2700 kg/m3`},
		{"elongation", "exponent = 0.5\nelongation", "j:48: material.exponent: 0.5 is not allowed; it must be from 1 to 10000"},
	} {
		_, err := Parse("j", []byte(noName+"[material]\n"+strings.Replace(metal, c.out, c.in, 1)))
		if err == nil || err.Error() != c.want {
			t.Errorf("%q:\n got %v\nwant %s", c.in, err, c.want)
		}
	}
	coldFormed := strings.NewReplacer("corner = \"0 mm\"\n", "", "6082-T6", "S235").Replace(good)
	if j := parse(t, coldFormed); j.Tube.Corner != 6 { // EN 10219-2: 2t
		t.Errorf("corner %v, want 6", j.Tube.Corner)
	}
	for text, want := range map[string]string{
		good + "[material]\n" + metal: "j:10: tube.material: not allowed together with [material]; keep one of them",
		strings.Replace(noName, "mode =", "proof = \"260 MPa\"\nmode =", 1) + "[material]\n" + metal: "j:17: allowance.proof: not allowed with an inline material; give its own proof instead",
		strings.Replace(noName, "units = \"mm\"", "material = \"6082-T6\"", 1):                       "j:2: material: a text is not allowed; it must be a table, written [material]",
		strings.Replace(good, `"6082-T6"`, "[1]", 1):                                                 "j:10: tube.material: an array is not allowed; it must be a text in quotes",
		strings.Replace(coldFormed, `width = "40 mm"`, `width = "10 mm"`, 1):                         "j:4: tube.corner: the default of 6 mm, by the wall for cold-formed steel, does not fit; give one of at most 5 mm, half the width",
	} {
		if _, err := Parse("j", []byte(text)); err == nil || err.Error() != want {
			t.Errorf("got %v\nwant %s", err, want)
		}
	}
}

func TestRoundTube(t *testing.T) {
	round := strings.NewReplacer(
		`"rectangle"`, `"round"`, `width = "40 mm"`, `diameter = "40 mm"`, "depth = \"40 mm\"\n", "").Replace(good)
	if j := parse(t, round); j.Tube != (profiles.Section{Shape: profiles.Round, Width: 40, Depth: 40, Wall: 3}) {
		t.Errorf("got %+v", j.Tube)
	}
	for _, c := range []struct{ out, in, want string }{
		{`diameter = "40 mm"`, ``, `j:4: tube.diameter: missing; write it like diameter = "40 mm"`},
		{`diameter = "40 mm"`, `width = "40 mm"`, `j:6: tube.width: not allowed for a round tube; give its diameter instead`},
		{`corner = "0 mm"`, `corner = "1 mm"`, `j:8: tube.corner: not allowed for a round tube; leave it out`},
		{`wall = "3 mm"`, `wall = "20 mm"`, `j:7: tube.wall: 20 mm leaves no bore; it must be less than 20 mm, half the diameter`},
		{`"round"`, `"rectangle"`, `j:6: tube.diameter: not allowed for a rectangle; give its width and depth instead`},
	} {
		if _, err := Parse("j", []byte(strings.Replace(round, c.out, c.in, 1))); err == nil || err.Error() != c.want {
			t.Errorf("%q:\n got %v\nwant %s", c.in, err, c.want)
		}
	}
}

// However a bend is given, by which pair and on which face, and in which unit,
// it is the same bend.
func TestSameBend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		radius := rapid.Float64Range(80, 5000).Draw(t, "radius")
		angle := rapid.Float64Range(5, 179).Draw(t, "angle")
		face := rapid.SampledFrom([]string{"centre", "inside", "outside"}).Draw(t, "face")
		inches := rapid.Bool().Draw(t, "inches")
		at := radius + map[string]float64{"centre": 0, "inside": -20, "outside": 20}[face]
		half := angle / 2 * math.Pi / 180
		length := func(v float64) string {
			if inches {
				return fmt.Sprintf("%.12f in", v/25.4)
			}
			return fmt.Sprintf("%.12f", v)
		}
		keys := map[string]string{
			"radius": length(at),
			"angle":  fmt.Sprintf("%.12f deg", angle),
			"arc":    length(2 * half * at),
			"chord":  length(2 * at * math.Sin(half)),
			"rise":   length(at * (1 - math.Cos(half))),
		}
		for _, pair := range []string{"radius+angle", "chord+rise", "radius+arc", "angle+arc"} {
			a, b, _ := strings.Cut(pair, "+")
			text := strings.Replace(good, "radius = \"420 mm\"\nangle = \"33 deg\"",
				fmt.Sprintf("%s = %q\n%s = %q\nradius_at = %q", a, keys[a], b, keys[b], face), 1)
			j, err := Parse("j", []byte(text))
			if err != nil {
				t.Fatalf("%s: %v", pair, err)
			}
			// The rise of a shallow arc loses digits of the radius: up to
			// 1/(1 - cos 2.5 deg) = 1000 times 1e-12 mm.
			if math.Abs(j.Bend.Radius-radius) > 1e-6*radius || math.Abs(j.Bend.Angle.Degrees()-angle) > 1e-6 {
				t.Fatalf("%s at %s: %+v, want %v mm, %v deg", pair, face, j.Bend, radius, angle)
			}
		}
	})
}

// A file in inches is the same job as its like in mm.
func TestUnits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(0.2, 0.5).Draw(t, "wall")
		in := strings.NewReplacer(`units = "mm"`, `units = "in"`, `"3 mm"`, fmt.Sprintf("%.9f", v)).Replace(good)
		mm := strings.NewReplacer(`"3 mm"`, fmt.Sprintf("%.9f", v*25.4)).Replace(good)
		a, err := Parse("j", []byte(in))
		if err != nil {
			t.Fatal(err)
		}
		b, err := Parse("j", []byte(mm))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(a.Tube.Wall-b.Tube.Wall) > 1e-7 {
			t.Fatalf("%v in, %v mm", a.Tube.Wall, b.Tube.Wall)
		}
	})
}

// The widest kerf is half the bolt hole of the block as it will be made: 13 mm
// for M12, whatever the plate.
func TestKerf(t *testing.T) {
	for _, c := range []struct{ block, kerf, most string }{
		{"plate = 10", "6.5 mm", ""},
		{"plate = 10", "6.51 mm", "6.5 mm"},
		{"plate = 13", "6.51 mm", "6.5 mm"},
		{"plate = 20", "6.5 mm", ""},
		{"plate = 20", "6.51 mm", "6.5 mm"},
		{`plate = "1 in"`, "1/4 in", ""},
		{`plate = "1 in"`, "0.256 in", "6.5 mm"},
		{"plate = 20\nhole = 8", "4 mm", ""},
		{"plate = 20\nhole = 8", "4.01 mm", "4 mm"},
		{"hole = 30", "15 mm", ""},
		{"hole = 30", "15.01 mm", "15 mm"},
	} {
		text := strings.NewReplacer(`plate = "10 mm"`, c.block, "kerf = 0", fmt.Sprintf("kerf = %q", c.kerf)).Replace(good)
		j, err := Parse("j", []byte(text))
		switch {
		case c.most == "" && err != nil:
			t.Errorf("%+v: %v", c, err)
		case c.most == "" && j.Cutting.Kerf == 0:
			t.Errorf("%+v: no kerf", c)
		case c.most != "" && (err == nil || !strings.Contains(err.Error(), "it must be at most "+c.most+", half the bolt hole")):
			t.Errorf("%+v: %v", c, err)
		}
	}
}

func TestErrorf(t *testing.T) {
	j := parse(t, good)
	for key, want := range map[string]string{
		"press.capacity":  "j:30: press.capacity: no",
		"press.supports":  "j:29: press.supports: no",
		"press":           "j:29: press: no",
		"trial[0].travel": "j:43: trial.travel: no",
		"trial[0]":        "j:41: trial: no",
		"bend.legs":       "j:15: bend.legs: no",
		"material.proof":  "j:1: material.proof: no",
	} {
		err := j.Errorf(key, "%s", "no")
		var e *keyed.Error
		if !errors.As(err, &e) || err.Error() != want {
			t.Errorf("%s: got %v, want %s", key, err, want)
		}
	}
}

// Files that are none: one sentence each.
func TestReadErrors(t *testing.T) {
	dir := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	big := file("big", "")
	if err := os.Truncate(big, 100<<20); err != nil {
		t.Fatal(err)
	}
	const empty = "the file holds no keys; overbend new writes a job file to start from"
	for path, want := range map[string]string{
		filepath.Join(dir, "missing"):        "no such file",
		dir:                                  "a directory is not a job file; give a TOML file",
		big:                                  "104857600 bytes are not allowed; a job file has at most 1048576",
		file("empty", ""):                    empty,
		file("comment", "# nothing\n\n"):     empty,
		file("mark", "\ufeff"):               empty,
		filepath.Join(file("f", ""), "file"): "not readable; not a directory",
	} {
		_, err := Read(path)
		var e *keyed.Error
		if !errors.As(err, &e) || err.Error() != path+": "+want {
			t.Errorf("got %v\nwant %s: %s", err, path, want)
		}
	}
	if runtime.GOOS != "windows" {
		const want = os.DevNull + ": a device or pipe is not a job file; give a TOML file"
		if _, err := Read(os.DevNull); err == nil || err.Error() != want {
			t.Errorf("got %v\nwant %s", err, want)
		}
	}
	secret := file("secret", good)
	if err := os.Chmod(secret, 0); err != nil {
		t.Fatal(err)
	}
	if _, err := os.ReadFile(secret); err != nil { // a superuser may read it
		want := secret + ": not readable; permission is denied"
		if _, err := Read(secret); err == nil || err.Error() != want {
			t.Errorf("got %v\nwant %s", err, want)
		}
	}
	if _, err := Parse("j", make([]byte, keyed.MaxSize+1)); err == nil || err.Error() != "j: 1048577 bytes are not allowed; a job file has at most 1048576" {
		t.Errorf("got %v", err)
	}
}

func BenchmarkParse(b *testing.B) {
	text, err := os.ReadFile(demo)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse("j", text); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParseStarter(b *testing.B) {
	text := []byte(Starter(quantity.Millimetres))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse("j", text); err != nil {
			b.Fatal(err)
		}
	}
}

// Plainly no job file is TOML without [tube] and [bend]; what is no TOML may be a job
// with a slip.
func TestForeign(t *testing.T) {
	for text, want := range map[string]bool{
		"[stock]\nplates = [\"8 mm\"]": true,
		"":                             true,
		"name = \"a\"":                 true,
		"[tube]\nwall = 3":             false,
		"bend.angle = 30":              false,
		"[bend]":                       false,
		"[stock":                       false,
		"a = 1\na = 2":                 false,
	} {
		if got := Foreign([]byte(text)); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

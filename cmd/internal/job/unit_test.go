package job

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"

	"pgregory.net/rapid"
)

// Limits worked by hand from the definitions of inch, pound and short ton
// (NIST SP 811, appendix B.8), rounded to the side that is allowed.
func TestLimits(t *testing.T) {
	mm, in := &keyed.Reader{}, &keyed.Reader{Units: quantity.Inches}
	for _, c := range []struct{ got, want string }{
		{mm.Lengths().Inward(keyed.LeastLength, 3, 1), "0.01 mm"},
		{in.Lengths().Inward(keyed.LeastLength, 3, 1), "0.000394 in"}, // 0.0003937
		{mm.Distances().Inward(keyed.MostLength, 3, -1), "100 m"},
		{in.Distances().Inward(keyed.MostLength, 3, -1), "328 ft"}, // 328.08
		{mm.Stresses().Between(shop.LeastProof, shop.MostProof), "from 1 MPa to 5000 MPa"},
		{in.Stresses().Between(shop.LeastProof, shop.MostProof), "from 0.146 ksi to 725 ksi"}, // 0.14504, 725.19
		{mm.Moduli().Between(leastYoungs, mostYoungs), "from 1 GPa to 1000 GPa"},
		{in.Moduli().Between(leastYoungs, mostYoungs), "from 146 ksi to 145000 ksi"}, // 145.04, 145038
		{mm.Densities().Between(leastDensity, mostDensity), "from 500 kg/m3 to 25000 kg/m3"},
		{in.Densities().Between(leastDensity, mostDensity), "from 0.0181 lb/in3 to 0.903 lb/in3"}, // 0.018064, 0.90318
		{mm.Lengths().Show(2000), "2000 mm"},
		{in.Lengths().Show(2000), "78.7402 in"},
		{in.Lengths().Most(2000), "78.7401 in"}, // 78.74016
		{in.Lengths().Least(2000), "78.7402 in"},
		{in.Lengths().Least(25.4), "1 in"},
		{mm.Lengths().Most(0), "0 mm"},
	} {
		if c.got != c.want {
			t.Errorf("got %s, want %s", c.got, c.want)
		}
	}
}

// What a limit prints, typed in, is allowed, and not far inside.
func TestLimitsRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := &keyed.Reader{Units: rapid.SampledFrom([]quantity.Units{quantity.Millimetres, quantity.Inches}).Draw(t, "units")}
		v := math.Pow(10, rapid.Float64Range(-2, 6).Draw(t, "exponent"))
		for _, text := range []string{r.Lengths().Least(v), r.Lengths().Most(v)} {
			got, err := quantity.ParseLength(text, r.Units)
			if err != nil || math.Abs(got-v) > 1e-5*v {
				t.Fatalf("%s = %v, %v, want %v", text, got, err, v)
			}
			slack := 2e-9*v + 1e-9 // a length in inches is read to 1e-9 mm
			if out := v - got; text == r.Lengths().Most(v) && out < -slack || text == r.Lengths().Least(v) && out > slack {
				t.Fatalf("%s is outside %v", text, v)
			}
		}
	})
}

// What a sentence of a job in one system may not say. A unit of one letter is
// one behind a figure.
var (
	notInches = regexp.MustCompile(`[0-9] ?(m|N|t)\b|[0-9 ](mm|cm|km|kN|MPa|GPa|N/mm2|kg/m3|g/cm3|kg|kgf)\b|°C`)
	notMetric = regexp.MustCompile(`[0-9] ?(in|ft|F)\b|[0-9 ](lbf|lb|psi|ksi|tonf|short tons?|lb/in3)\b`)
)

// inches is the good job in inches.
var inches = strings.NewReplacer(
	`"mm"`, `"in"`, `"40 mm"`, `"1.5 in"`, `"3 mm"`, `"1/8 in"`, `"0 mm"`, `"0 in"`, `"420 mm"`, `"16 in"`, `"250 mm"`, `"10 in"`,
	`"6 mm"`, `"1/4 in"`, `"10 mm"`, `"3/8 in"`, `"20 t"`, `"20 tonf"`, `"380 mm"`, `"15 in"`, `"38 mm"`, `"1.5 in"`,
).Replace(good)

// A job in one system that is broken in any way is refused in that system's
// units alone, as long as its author used no other.
func TestOwnUnits(t *testing.T) {
	for _, c := range []struct {
		name, good, length, stress, force, density string
		foreign                                    *regexp.Regexp
	}{
		{"in", inches, "in", "ksi", "tonf", "lb/in3", notInches},
		{"mm", good, "mm", "MPa", "t", "kg/m3", notMetric},
	} {
		t.Run(c.name, func(t *testing.T) {
			parse(t, c.good)
			lines := strings.Split(c.good, "\n")
			shapes := map[string]bool{}
			rapid.Check(t, func(t *rapid.T) {
				quantities := func(unit string) *rapid.Generator[string] {
					return rapid.Custom(func(t *rapid.T) string {
						v := math.Pow(10, rapid.Float64Range(-6, 9).Draw(t, "exponent"))
						return `"` + rapid.SampledFrom([]string{"", "", "", "-"}).Draw(t, "sign") + three(v) +
							rapid.SampledFrom([]string{" " + unit, " " + unit, ""}).Draw(t, "unit") + `"`
					})
				}
				value := rapid.OneOf(
					quantities(c.length), quantities(c.length), quantities(c.stress), quantities(c.force), quantities(c.density),
					rapid.SampledFrom([]string{
						``, `""`, `0`, `-1`, `nan`, `1e308`, `true`, `[1]`, `[1, 2, 3]`, `{a = 1}`, `{}`, `1979-05-27`, `12:30:00`, `3 x`, `x`, `"x"`,
						`"1 stone"`, `"1,5"`, `"1x2"`, `"0x5"`, `"8 %"`, `"0 deg"`, `"3`, `"3""`, `[1`, `“3”`, "1\nx = 2", `["1", "2"]`, `["-1", true]`,
					}),
				)
				text := append([]string(nil), lines...)
				for range rapid.IntRange(1, 3).Draw(t, "edits") {
					i := rapid.IntRange(2, len(text)-1).Draw(t, "line")
					key, _, pair := strings.Cut(text[i], " = ")
					switch way := rapid.IntRange(0, 5).Draw(t, "way"); {
					case way == 0:
						text[i] = ""
					case way == 1 && pair:
						text[i] = rapid.SampledFrom(append(keysOf("trial"), append(keysOf("bend"), keysOf("block")...)...)).Draw(t, "key") + " = " + value.Draw(t, "value")
					case pair:
						text[i] = key + " = " + value.Draw(t, "value")
					default:
						table := strings.Trim(text[i], "[]")
						if keys := keysOf(table); table != "" && keys != nil {
							text[i] += "\n" + rapid.SampledFrom(keys).Draw(t, "key") + " = " + value.Draw(t, "value")
						}
					}
				}
				if rapid.Bool().Draw(t, "own metal") {
					own := []string{"[material]"}
					for _, k := range keysOf("material") {
						if rapid.IntRange(0, 9).Draw(t, "there") > 0 {
							v := map[string]string{"exponent": "30", "elongation": `"8 %"`, "poisson": "0.3", "family": `"steel"`, "density": `"9 ` + c.density + `"`}[k]
							if v == "" {
								v = quantities(c.stress).Draw(t, "stress")
							}
							own = append(own, k+" = "+v)
						}
					}
					joined := strings.Replace(strings.Join(text, "\n"), `material = "6082-T6"`, "", 1)
					text = append([]string{joined}, own...)
				}
				_, err := Parse("j", []byte(strings.Join(text, "\n")))
				if err == nil {
					return
				}
				said := err.Error()
				shapes[regexp.MustCompile(`[0-9.]+`).ReplaceAllString(said, "0")] = true
				if found := c.foreign.FindString(said); found != "" {
					t.Fatalf("%q in %s", found, said)
				}
			})
			if len(shapes) < 20 {
				t.Errorf("only %d kinds of error", len(shapes))
			}
		})
	}
}

// The sentences of an inch job, one for each that holds a quantity.
func TestBadInchJobs(t *testing.T) {
	const metal = "\n[material]\nyoungs_modulus = \"10000 ksi\"\nproof = \"36 ksi\"\nultimate = \"42 ksi\"\nelongation = \"8 %\"\n"
	for _, c := range []struct{ out, in, want string }{
		{`width = "1.5 in"`, ``, `tube.width: missing; write it like width = "1-1/2 in"`},
		{`depth = "1.5 in"`, ``, `tube.depth: missing; write it like depth = "1-1/2 in"`},
		{`shape = "rectangle"`, `shape = "round"` + "\n#", `tube.width: not allowed for a round tube; give its diameter instead`},
		{"shape = \"rectangle\"\nwidth = \"1.5 in\"\ndepth = \"1.5 in\"", `shape = "round"`, `tube.diameter: missing; write it like diameter = "1-1/2 in"`},
		{`wall = "1/8 in"`, ``, `tube.wall: missing; write it like wall = "1/8 in"`},
		{`legs = ["10 in", "10 in"]`, ``, `bend.legs: missing; write it like legs = ["10 in", "10 in"]`},
		{`legs = ["10 in", "10 in"]`, `legs = [1]`, `bend.legs: an array of 1 is not allowed; it must be two values, like ["10 in", "10 in"]`},
		{`block = "15 in"`, ``, `trial.block: missing; write it like block = "10 in"`},
		{`travel = "1.5 in"`, ``, `trial: travel or loaded is missing; say how far it was pressed, like travel = "1-1/2 in" or loaded = "36 deg"`},
		{`wall = "1/8 in"`, `wall = [3]`, `tube.wall: an array is not allowed; it must be a length like 1-1/2 in`},
		{`wall = "1/8 in"`, `wall = "0.0001 in"`, `tube.wall: 0.0001 in is not allowed; it must be at least 0.000394 in`},
		{`wall = "1/8 in"`, `wall = "0.001 mm"`, `tube.wall: 0.001 mm is not allowed; it must be at least 0.000394 in`},
		{`wall = "1/8 in"`, `wall = 0`, `tube.wall: 0 in is not allowed; it must be more than 0 in`},
		{`wall = "1/8 in"`, `wall = "3/4 in"`, `tube.wall: 0.75 in leaves no bore; it must be less than 0.75 in, half the depth`},
		{`wall = "1/8 in"`, `wall = 1/8 in`, `not valid TOML: the line goes on where it should end; a value with a unit stands in quotes, like "1/8 in"`},
		{`width = "1.5 in"`, `width = 4000`, `tube.width: 4000 in is not allowed; it must be at most 328 ft`},
		{`corner = "0 in"`, `corner = "1 in"`, `tube.corner: 1 in is not allowed; it must be at most 0.75 in, half the depth`},
		{`radius = "16 in"`, `radius = "1 in"`, `bend.radius: a centreline radius of 1 in is not allowed; it must be at least 1.5 in, the tube's depth`},
		{`angle = "33 deg"`, `arc = "5 m"`, `bend.arc: 196.85 in is not allowed; it must be at most 50.2654 in, half a turn on the radius of 16 in`},
		{"radius = \"16 in\"\nangle = \"33 deg\"", "chord = 10\nrise = 5.1", `bend.rise: 5.1 in is not allowed; it must be at most 5 in, half the chord, for a bend of up to 180 deg`},
		{"radius = \"16 in\"\nangle = \"33 deg\"", "chord = 3900\nrise = 1", `bend.rise: a centreline radius of 1901250 in is not allowed; it must be at most 328 ft`},
		{`mode = "computed"`, `proof = true`, `allowance.proof: true or false is not allowed; it must be a stress like 38 ksi`},
		{`mode = "computed"`, `proof = "1 psi"`, `allowance.proof: 1 psi is not allowed; it must be from 0.146 ksi to 725 ksi`},
		{`capacity = "20 tonf"`, `capacity = "1 lbf"`, `press.capacity: 1 lbf is not allowed; it must be from 221 lbf to 22000000 lbf`},
		{`capacity = "20 tonf"`, `capacity = "0.1 tonf"`, `press.capacity: 0.1 tonf is not allowed; it must be from 0.111 tonf to 11000 tonf`},
		{`capacity = "20 tonf"`, `capacity = "99 kt"`, `press.capacity: "99 kt" has the unknown unit "kt"; a force takes lbf, tonf, short ton or metric units`},
		{`capacity = "20 tonf"`, `capacity = "1e5 t"`, `press.capacity: 1e5 t is not allowed; it must be from 0.1 t to 10000 t`},
		{`capacity = "20 tonf"`, `capacity = "1 N"`, `press.capacity: 1 N is not allowed; it must be from 0.981 kN to 98000 kN`},
		{`capacity = "20 tonf"`, `capacity = true`, `press.capacity: true or false is not allowed; it must be a force like 20 tonf`},
		{`capacity = "20 tonf"`, `roller = 30`, `press.roller: 30 in is not allowed; it must be at most 19.685 in`},
		{`capacity = "20 tonf"`, `supports = 1`, `press.supports: 1 in is not allowed; it must be more than 1.5 in, the roller diameter`},
		{`cut = [0, 22.5]`, `trim = [1, 2, 3]`, `ends.trim: an array of 3 is not allowed; it must be one value or two, like "3/4 in"`},
		{`kerf = 0`, `sheet = "48"`, `cutting.sheet: "48" is not a size; write it like 48x24 in`},
		{`kerf = 0`, `sheet = true`, `cutting.sheet: true or false is not allowed; it must be a size like "48x24 in"`},
		{`kerf = 0`, `sheet = "0x5"`, `cutting.sheet: 0x5 is not allowed; each side must be from 0.0394 in to 328 ft`},
		{`melted = "32 deg"`, "chord = 5\nrise = 3", `trial.rise: 3 in is not allowed; it must be at most 2.5 in, half the chord`},
		{"\"36 ksi\"", `"600 ksi"`, `material.proof: 600 ksi is not allowed; it must be at most a twentieth of youngs_modulus, 500 ksi`},
		{"\"42 ksi\"", `"36 ksi"`, `material.ultimate: 36 ksi is not allowed; it must be more than the proof stress of 36 ksi`},
		{"\"42 ksi\"", `"36.001 ksi"`, `material.ultimate: 36.001 ksi with a proof stress of 36 ksi gives an exponent of 1.585e+05; it must be from 1 to 10000`},
		{"\"10000 ksi\"", `"1 ksi"`, `material.youngs_modulus: 1 ksi is not allowed; it must be from 146 ksi to 145000 ksi`},
		{"\"42 ksi\"", `"2000 ksi"`, `material.ultimate: 2000 ksi is not allowed; it must be from 0.146 ksi to 1450 ksi`},
		{"elongation = ", "density = \"1 lb/in3\"\nelongation = ", `material.density: 1 lb/in3 is not allowed; it must be from 0.0181 lb/in3 to 0.903 lb/in3`},
		{"elongation = ", "density = true\nelongation = ", `material.density: true or false is not allowed; it must be a density like 0.0975 lb/in3`},
		{"youngs_modulus = \"10000 ksi\"", "", `material.youngs_modulus: missing; write it like youngs_modulus = "10000 ksi"`},
		{"proof = \"36 ksi\"", "", `material.proof: missing; write it like proof = "36 ksi"`},
		{"ultimate = \"42 ksi\"", "", `material.ultimate: missing; write it like ultimate = "42 ksi", or give an exponent`},
		{"wall = \"1/8 in\"\ncorner = \"0 in\"\nmaterial = \"6082-T6\"", "wall = \"0.4 in\"\nmaterial = \"S235\"", `tube.corner: the default of 1.2 in, by the wall for cold-formed steel, does not fit; give one of at most 0.75 in, half the depth`},
	} {
		text := inches
		if !strings.Contains(text, c.out) {
			text = strings.Replace(text, "material = \"6082-T6\"\n", "", 1) + metal
		}
		if !strings.Contains(text, c.out) {
			t.Fatalf("no %q", c.out)
		}
		_, err := Parse("j", []byte(strings.Replace(text, c.out, c.in, 1)))
		got := ""
		if err != nil {
			_, got, _ = strings.Cut(err.Error(), ": ")
		}
		if got != c.want && !(strings.HasPrefix(c.want, "not valid") && strings.HasSuffix(got, c.want)) {
			t.Errorf("%q:\n got %s\nwant %s", c.in, got, c.want)
		}
	}
}

// three returns a number with three significant figures and no exponent.
func three(v float64) string {
	return strconv.FormatFloat(v, 'f', max(0, 2-int(math.Floor(math.Log10(v)))), 64)
}

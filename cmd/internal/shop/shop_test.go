package shop

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// odd has every key, with values that no default has.
const odd = `units = "in"
[press]
capacity = "1 tonf"
stroke = 3
bed = "500 mm"
ram_diameter = 2
friction = 0
rollers = [2, "1-1/2 in"]
[stock]
plates = ["1/4 in", "10 mm"]
packing = [0.0625]
strips = [{thickness = 0.25, material = "1018 cold drawn"}, {thickness = "8 mm"}, {thickness = 0.25, material = "S235"}]
[cutting]
process = "saw"
kerf = 0.0625
sheet = "10x20"
[paper]
size = "11x17 in"
margin = 0.5
print_scale = "1.01x0.99"
[[filler]]
alloy = 158
mass = "1 lb"
[[block]]
name = "one"
radius = 10
arc = "0.5 rad"
width = 1.5
[[metal]]
name = "bar 7"
base = "EN AW-6082 T6"
proof = "38 ksi"
proof_error = "0.6 ksi"
exponent = 25
`

func parse(t testing.TB, text string) Shop {
	t.Helper()
	s, err := Parse("s", text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Worked by hand from the definitions of inch, pound and ksi (NIST SP 811).
func TestParse(t *testing.T) {
	s := parse(t, odd)
	if s.Press.Capacity < 8896.44 || s.Press.Capacity > 8896.45 || s.Press.Stroke != 76.2 || s.Press.Bed != 500 || s.Press.Ram != 50.8 || s.Press.Friction != 0 || !reflect.DeepEqual(s.Press.Rollers, []float64{50.8, 38.1}) {
		t.Errorf("%+v", s.Press)
	}
	if st := s.Stock; !reflect.DeepEqual(st.Plates, []float64{6.35, 10}) || !reflect.DeepEqual(st.Packing, []float64{1.5875}) || len(st.Strips) != 3 ||
		st.Strips[0].Thickness != 6.35 || st.Strips[0].Material.Name != "1018 cold drawn" || st.Strips[1].Thickness != 8 || st.Strips[1].Material.Name != "" {
		t.Errorf("%+v", st)
	}
	if s.Cutting != (Cutting{"saw", 1.5875, [2]float64{254, 508}}) {
		t.Errorf("%+v", s.Cutting)
	}
	if p := s.Paper; p.Size.Width != 279.4 || p.Size.Height != 431.8 || p.Margin != 12.7 || p.ScaleX != 1.01 || p.ScaleY != 0.99 {
		t.Errorf("%+v", p)
	}
	if len(s.Fillers) != 1 || s.Fillers[0].Alloy.Name != "158" || s.Fillers[0].Mass != 0.45359237 {
		t.Errorf("%+v", s.Fillers)
	}
	if len(s.Blocks) != 1 || s.Blocks[0] != (Block{"one", 254, geom.Angle(0.5), 38.1}) {
		t.Errorf("%+v", s.Blocks)
	}
	m, ok := s.Metal("BAR 7")
	if !ok || m.Base != "6082-T6" || math.Abs(m.Proof-262.0008) > 1e-3 || math.Abs(m.ProofError-4.13686) > 1e-4 || m.Exponent != 25 || m.Trials != nil {
		t.Errorf("%+v", m)
	}
	if _, ok := s.Metal("bar"); ok {
		t.Error("there is no metal bar")
	}
	if v, ok := s.Written("stock.strips[0].thickness"); !ok || v != "0.25" {
		t.Error(v)
	}
}

// Nothing says nothing, as does the starter until it is edited; edited, every line
// of it is a shop file.
func TestStarter(t *testing.T) {
	s := parse(t, Starter())
	nothing := Nothing()
	if len(s.places) != 0 || nothing.Press.Friction != DefaultFriction || nothing.Paper.Size.Name != "" || nothing.Paper.Margin != 10 || nothing.Paper.ScaleY != 1 {
		t.Errorf("%+v %+v", s, nothing)
	}
	var lines []string
	for _, line := range strings.Split(Starter(), "\n") {
		if rest, ok := strings.CutPrefix(line, "# "); ok && (strings.HasPrefix(rest, "[") || strings.Contains(rest, " = ")) {
			line = rest
		}
		lines = append(lines, line)
	}
	s = parse(t, strings.Join(lines, "\n"))
	for _, table := range append([]string{""}, known().Tables...) {
		for _, key := range known().Keys(table) {
			path := strings.TrimPrefix(table+"."+key, ".")
			if known().Keys(path) != nil || table == "metal.trials" || path == "stock.strips" {
				continue // tables, and what the program writes
			}
			for _, array := range []string{"filler", "block", "metal"} {
				path = strings.Replace(path, array+".", array+"[0].", 1)
			}
			path = strings.Replace(path, "strips.", "strips[0].", 1)
			if _, ok := s.Written(path); !ok {
				t.Errorf("%s is not explained", path)
			}
		}
	}
}

func TestBad(t *testing.T) {
	for _, c := range []struct{ out, in, want string }{
		{`units = "in"`, `units = "ft"`, `s:1: units: "ft" is not allowed; it must be "mm" or "in"`},
		{`stroke = 3`, `strok = 3`, `s:4: press.strok: unknown key; the nearest known key is press.stroke`},
		{`stroke = 3`, `supports = 3`, `s:4: press.supports: unknown key; the nearest known key is press.capacity`},
		{`"1 tonf"`, `1`, `s:3: press.capacity: "1" has no unit; write it like 20 tonf or 40000 lbf`},
		{`friction = 0`, `friction = 2`, `s:7: press.friction: 2 is not allowed; it must be from 0 to 1`},
		{`[2, "1-1/2 in"]`, `2`, `s:8: press.rollers: a number is not allowed; it must be an array, like ["1-1/2 in", "2 in"]`},
		{`[2, "1-1/2 in"]`, `[]`, `s:8: press.rollers: an empty array is not allowed; write it like ["1-1/2 in", "2 in"] or leave the key out`},
		{`[2, "1-1/2 in"]`, `[2, "2 in"]`, `s:8: press.rollers: 2 in stands in it twice; keep one`},
		{`[2, "1-1/2 in"]`, `[20]`, `s:8: press.rollers: 20 in is not allowed; it must be at most 19.685 in`},
		{`[2, "1-1/2 in"]`, `["500 mm"]`, `s:8: press.rollers: 19.685 in is not allowed; it must be less than 19.685 in, the bed`},
		{`[0.0625]`, `[0]`, `s:11: stock.packing: 0 in is not allowed; it must be more than 0 in`},
		{`"1018 cold drawn"`, `"1018 warm"`, `s:12: stock.strips.material: `},
		{`{thickness = "8 mm"}`, `{material = "S235"}`, `s:12: stock.strips.thickness: missing; write it like thickness = "1/4 in"`},
		{`{thickness = "8 mm"}`, `{thickness = 0.25, material = "1018 cold drawn"}`, `s:12: stock.strips.thickness: 0.25 in stands there twice with that material; keep one`},
		{`{thickness = "8 mm"}`, `3`, `s:12: stock.strips: a number is not allowed; each strip is a table that starts with [[stock.strips]]`},
		{`process = "saw"`, `process = "axe"`, `s:14: cutting.process: "axe" is not allowed`},
		{`"10x20"`, `"0.001x3 in"`, `s:16: cutting.sheet: 0.001x3 in is not allowed; each side must be from 0.0394 in to 328 ft`},
		{`"11x17 in"`, `"A9"`, `s:18: paper.size: "A9" is no paper`},
		{`"11x17 in"`, `"5x5 in"`, `s:19: paper.margin: a margin of 12.7 mm leaves 101.6 x 101.6 mm of 5x5 in`},
		{`margin = 0.5`, `margin = 5`, `s:19: paper.margin: a margin of 127 mm leaves 177.8 x 25.4 mm of 11x17 in`},
		{`"11x17 in"` + "\nmargin = 0.5", `"5x5 in"`, `s:18: paper.size: a margin of 10 mm leaves 107 x 107 mm of 5x5 in`},
		{`"1.01x0.99"`, `"2x1"`, `s:20: paper.print_scale: print scale "2x1" is wrong`},
		{`alloy = 158`, `alloy = 150`, `s:22: filler.alloy: `},
		{`mass = "1 lb"`, `mass = 1`, `s:23: filler.mass: "1" has no unit; write it like 25 lb`},
		{`mass = "1 lb"`, `mass = "0 lb"`, `s:23: filler.mass: 0 lb is not allowed; it must be from 0.00221 lb to 22000 lb`},
		{`mass = "1 lb"`, "mass = \"1 lb\"\n[[filler]]\nalloy = \"158\"\nmass = \"2 lb\"", `s:25: filler.alloy: 158 stands there twice; keep one with the whole mass`},
		{`name = "one"`, ``, `s:24: block.name: missing; write it like name = "R15"`},
		{`width = 1.5`, "width = 1.5\n[[block]]\nname = \"ONE\"\nradius = 1\narc = 1\nwidth = 1", `s:30: block.name: ONE stands there twice; each block has a name of its own`},
		{`"0.5 rad"`, `361`, `s:27: block.arc: 361 deg is not allowed; it must be from 0.01 to 360 deg`},
		{`"bar 7"`, `"6061-T6"`, `s:30: metal.name: 6061-T6 is a listed metal; name the bar, like 6061-T6-bar-7`},
		{`"EN AW-6082 T6"`, `"7999"`, `s:31: metal.base: material "7999" is not in the catalogue`},
		{`"38 ksi"`, `38`, `s:32: metal.proof: "38" has no unit`},
		{`"0.6 ksi"`, `"30 ksi"`, `s:33: metal.proof_error: 30 ksi is not allowed; it must be more than 0 and at most 19 ksi, half the proof stress`},
		{`"0.6 ksi"`, `"0 ksi"`, `s:33: metal.proof_error: 0 ksi is not allowed; it must be more than 0`},
		{`exponent = 25`, "exponent = 25\n[[metal]]\nname = \"Bar 7\"\nbase = \"6082-T6\"\nproof = \"1 MPa\"\nproof_error = \"0.1 MPa\"", `s:36: metal.name: Bar 7 stands there twice; each metal has a name of its own`},
		{`exponent = 25`, "[[metal.trials]]\njob = \"a\"\nproof = \"50 ksi\"\nproof_error = \"1 ksi\"", `s:32: metal.proof: 38 ksi is not what the trials below say together, 50 ksi; correct it or take the trials out`},
		{`exponent = 25`, "[[metal.trials]]\nproof = \"38 ksi\"\nproof_error = \"1 ksi\"", `s:34: metal.trials.job: missing; write it like job = "davit-arm"`},
		{`exponent = 25`, "[[metal.trials]]\njob = \"a\"\nproof = \"38 ksi\"\nproof_error = \"1 ksi\"\nexponent = 3", `s:38: metal.trials.exponent: exponent and exponent_error go together; give both or neither`},
		{`exponent = 25`, "[[metal.trials]]\njob = \"a\"\nproof = \"38 ksi\"\nproof_error = \"1 ksi\"\nof = [3]", `s:38: metal.trials.of: a number is not allowed; it must be a text in quotes`},
	} {
		if strings.Count(odd, c.out) != 1 {
			t.Fatalf("%s does not stand once", c.out)
		}
		_, err := Parse("s", strings.Replace(odd, c.out, c.in, 1))
		if err == nil || !strings.HasPrefix(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s:\n got %v\nwant %s", c.in, err, c.want)
		}
	}
}

// The mean of a random-effects model against what it is the mean of: pieces of one
// lot drawn at random and measured with errors of their own. The spread of the mean
// about the lot is what it says, and two in three of the next pieces lie within one
// standard deviation of what is said of them.
func TestJoinIsHonest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		errors := rapid.SliceOfN(rapid.Float64Range(1, 12), 1, 5).Draw(t, "errors")
		const lot, runs = 260.0, 4000
		seed := rapid.Uint64Range(1, 1<<40).Draw(t, "seed")
		normal := normals(seed)
		var off, offNext, said, saidNext float64
		for range runs {
			var parts []Lesson
			for _, e := range errors {
				parts = append(parts, Lesson{Proof: lot + WithinLot*lot*normal() + e*normal(), ProofError: e})
			}
			l := Join(parts)
			off += (l.Proof - lot) * (l.Proof - lot)
			said += l.ProofError * l.ProofError
			next := lot + WithinLot*lot*normal()
			offNext += (l.Proof - next) * (l.Proof - next)
			band := (l.Spread(true, 0).High - l.Proof) / 2
			saidNext += band * band
		}
		// A variance from 4000 runs scatters by sqrt(2/4000), 2.2 %; five of those.
		for _, r := range []float64{off / said, offNext / saidNext} {
			if math.Abs(r-1) > 0.115 {
				t.Fatalf("errors %v: variance is %v of what is said", errors, r)
			}
		}
	})
}

// normals returns a generator of normal deviates (Box and Muller).
func normals(seed uint64) func() float64 {
	uniform := func() float64 {
		seed = seed*6364136223846793005 + 1442695040888963407
		return (float64(seed>>11) + 0.5) / (1 << 53)
	}
	return func() float64 {
		return math.Sqrt(-2*math.Log(uniform())) * math.Cos(2*math.Pi*uniform())
	}
}

func TestSpread(t *testing.T) {
	l := Lesson{Proof: 300, ProofError: 8}
	// By hand: 2 sqrt(8² + 6²) = 20, 2 sqrt(8² + 27²) = 56.32.
	if s := l.Spread(true, 290); s.Low != 280 || s.Nominal != 300 || s.High != 320 {
		t.Errorf("%+v", s)
	}
	if s := l.Spread(false, 250); s.Low != 250 || math.Abs(s.High-356.32) > 0.005 {
		t.Errorf("%+v", s)
	}
	if s := l.Spread(false, 200); math.Abs(s.Low-243.68) > 0.005 {
		t.Errorf("%+v", s)
	}
	if s := l.Spread(false, 320); s.Low != 300 { // softer than its minimum: nothing below what it is
		t.Errorf("%+v", s)
	}
	// More of one lot narrows it, whichever way the exponent was come by.
	two := Join([]Lesson{{Proof: 300, ProofError: 8, Exponent: 20, ExponentError: 2}, {Proof: 300, ProofError: 8}})
	if one := Join([]Lesson{l}); one.ProofError != 10 || math.Abs(two.ProofError-10/math.Sqrt2) > 1e-9 || two.Exponent != 20 || two.ExponentError != 2 || one.Exponent != 0 {
		t.Errorf("%+v %+v", one, two)
	}
	// Weights 1/4 and 1/16 of exponents, 1/100 and 1/(64+36) of equal proofs.
	if j := Join([]Lesson{{300, 8, 20, 2}, {300, 8, 30, 4}}); math.Abs(j.Exponent-22) > 1e-9 {
		t.Errorf("%+v", j)
	}
}

func kept(name, job string, proof, sd float64, of ...string) Kept {
	return Kept{Name: name, Base: "6082-T6", Part: Part{Job: job, Lesson: Lesson{Proof: proof, ProofError: sd}, Of: of}}
}

// What is kept is read back, in a file of either system, and no other byte moves.
func TestKeep(t *testing.T) {
	for _, units := range []string{"mm", "in"} {
		for _, end := range []string{"\n", "\r\n"} {
			before := strings.ReplaceAll("\ufeff# ours\nunits = \""+units+"\"\n[press] # old\ncapacity='20 t'\n\n[[metal]]\nname = \"hand\" # mine\nbase = \"6082-T6\"\nproof = \"270 MPa\"\nproof_error = \"7 MPa\"\nexponent = 28\n\n# last\n", "\n", end)
			path := filepath.Join(t.TempDir(), "shop.toml")
			if err := os.WriteFile(path, []byte(before), 0o640); err != nil {
				t.Fatal(err)
			}
			keep := func(k Kept, want Lesson, jobs ...string) string {
				t.Helper()
				m, err := Keep(path, k)
				if err != nil {
					t.Fatal(err)
				}
				text, err := os.ReadFile(path)
				if err != nil {
					t.Fatal(err)
				}
				again, _ := parse(t, string(text)).Metal(k.Name)
				var of []string
				for _, p := range m.Trials {
					of = append(of, p.Job)
				}
				near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-3*b+1e-12 }
				if !reflect.DeepEqual(m, again) || !reflect.DeepEqual(of, jobs) || !near(m.Proof, want.Proof) || !near(m.ProofError, want.ProofError) || !near(m.Exponent, want.Exponent) {
					t.Fatalf("%+v\n%+v, want %+v of %v\n%s", m, again, want, jobs, text)
				}
				return string(text)
			}
			// By hand: 1/(64 + 0.02² 300²) = 1/100, so 10 for one of 300 +- 8.
			text := keep(kept("bar", "a", 300, 8, "1", "2"), Lesson{300, 10, 0, 0}, "a")
			front, last := strings.CutSuffix(before, "# last"+end)
			if !last || !strings.HasPrefix(text, front+"[[metal]]"+end) || !strings.HasSuffix(text, end+end+"# last"+end) || strings.Contains(strings.ReplaceAll(text, end, ""), "\n") {
				t.Errorf("%q is not before\n%q", before, text)
			}
			if again := keep(kept(" Bar ", "a", 300, 8, "1", "2"), Lesson{300, 10, 0, 0}, "a"); again != text {
				t.Errorf("kept twice: %q, was %q", again, text)
			}
			// Another job with as good a fit: the mean, and the error over sqrt 2.
			keep(kept("bar", "b", 300, 8, "3"), Lesson{300, 10 / math.Sqrt2, 0, 0}, "a", "b")
			// A better fit of one of its trials takes its place: 1/(0+36) and 1/100.
			better := kept("bar", "a", 300, 1e-3, "2", "4")
			better.Exponent, better.ExponentError = 30, 2
			keep(better, Lesson{300, math.Sqrt(1 / (1/36. + 1/100.)), 30, 0}, "a", "b")
			// One that counts the trials of both takes the place of both.
			keep(kept("bar", "c", 300, 8, "3", "4"), Lesson{300, 10, 0, 0}, "c")
			// What stood there by hand counts on: 1/(49 + 0.02² 270²) = 1/78.16.
			text = keep(kept("hand", "d", 300, 8, "9"), Lesson{(270/78.16 + 3) / (1/78.16 + 0.01), math.Sqrt(1 / (1/78.16 + 0.01)), 28, 0}, "by hand", "d")
			if !strings.Contains(text, "name = \"hand\" # mine") || !strings.Contains(text, "[press] # old"+end+"capacity='20 t'"+end) || !strings.Contains(text, "# last") {
				t.Errorf("%q", text)
			}
			if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o640 {
				t.Errorf("%v, %v", info.Mode(), err)
			}
			other := kept("bar", "e", 300, 8, "7")
			other.Base = "6061-T6"
			if _, err := Keep(path, other); err == nil || err.Error() != "bar was kept of 6082-T6, and the job's metal is 6061-T6; keep it under another name" {
				t.Error(err)
			}
			if now, _ := os.ReadFile(path); string(now) != text {
				t.Error("a refused metal changed the file")
			}
			if files, _ := os.ReadDir(filepath.Dir(path)); len(files) != 1 {
				t.Errorf("%v is left over", files)
			}
		}
	}
}

func TestMore(t *testing.T) {
	two := Metal{Trials: []Part{{Of: []string{"1", "2"}}, {Of: []string{"3"}}}}
	for _, c := range []struct {
		m    Metal
		own  []string
		want bool
	}{{Metal{}, []string{"1"}, true}, {two, []string{"1"}, true}, {two, []string{"2", "3"}, false}, {two, []string{"4"}, true}, {two, nil, true}} {
		if got := c.m.More(c.own); got != c.want {
			t.Errorf("%v: %v", c.own, got)
		}
	}
}

// Many that keep metals at once lose none, and whoever reads meanwhile reads a whole
// file.
func TestKeepTogether(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "shop.toml")
	const n = 12
	var all sync.WaitGroup
	done := make(chan struct{})
	failed := make(chan error, 2*n)
	for i := range n {
		all.Go(func() {
			if _, err := Keep(path, kept("bar", fmt.Sprint("job ", i), 250+float64(i), 5, fmt.Sprint(i))); err != nil {
				failed <- err
			}
		})
	}
	var reader sync.WaitGroup
	reader.Go(func() {
		for {
			select {
			case <-done:
				return
			default:
				if _, err := (Place{Path: path}).Read(); err != nil {
					failed <- err
					return
				}
			}
		}
	})
	all.Wait()
	close(done)
	reader.Wait()
	close(failed)
	for err := range failed {
		t.Error(err)
	}
	s, err := Place{path, true}.Read()
	if m, _ := s.Metal("bar"); err != nil || len(m.Trials) != n || math.Abs(m.Proof-(250+(n-1)/2.)) > 0.5 {
		t.Errorf("%v, %+v", err, m)
	}
}

// A file that someone else writes between reading and replacing is left to them.
func TestChangedMeanwhile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.toml")
	write := func(s string) {
		if err := os.WriteFile(path, []byte(s), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("# a\n")
	err := update(path, func(text string) (string, error) { write("# b\n"); return text + "# c\n", nil })
	if got, _ := os.ReadFile(path); err == nil || err.Error() != path+": changed by another program in the meantime, so nothing was written; try again" || string(got) != "# b\n" {
		t.Errorf("%v, %q", err, got)
	}
	if files, _ := os.ReadDir(filepath.Dir(path)); len(files) != 1 {
		t.Errorf("%v is left over", files)
	}
}

func TestFree(t *testing.T) {
	for name, want := range map[string]string{
		strings.Repeat("š", 60): "",
		"bar-7":                 "", "š 7": "", " en aw 6082 t6": "6082-T6 is a listed metal; name the bar, like 6082-T6-bar-7",
		"": "a metal without a name", "a\nb": "a name is one line of at most 60 characters", strings.Repeat("š", 61): "a name is one line",
	} {
		if err := Free(name); (err == nil) != (want == "") || err != nil && !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v, want %s", name, err, want)
		}
	}
}

// Whatever the text, there is a shop or one sentence.
func FuzzParse(f *testing.F) {
	f.Add(odd)
	f.Add(Starter())
	f.Add("[[metal]]\nname='a'\nbase='6082-T6'\nproof='1 MPa'\nproof_error='0.1 MPa'\ntrials=[{job='b', proof='1 MPa', proof_error='0.1 MPa', of=['']}]")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := Parse("s", text)
		if err != nil {
			if m := err.Error(); strings.ContainsFunc(m, func(r rune) bool { return r < ' ' }) || !strings.HasPrefix(m, "s:") {
				t.Errorf("not one sentence: %q", m)
			}
			return
		}
		k := kept("bar-99", "job", 260, 5, "1")
		if out, err := s.keep(text, k); err == nil {
			if after := parse(t, out); len(after.Metals) < len(s.Metals) {
				t.Errorf("%q", out)
			}
		}
	})
}

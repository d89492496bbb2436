package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/shop"
	"overbend/export/dxf/dxfread"
	"overbend/export/dxf/dxftest"
	"overbend/geom"
)

// FuzzProgram is the whole program on random jobs: see wholeRun.
func FuzzProgram(f *testing.F) {
	for seed := range uint64(40) {
		bytes := make([]byte, 8<<10) // as much as a job is drawn from
		for i, r := 0, rand.New(rand.NewPCG(seed, 12)); i < len(bytes); i++ {
			bytes[i] = byte(r.Uint32())
		}
		f.Add(bytes)
	}
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { wholeRun(t, nil) }))
}

// TestProgram is the same for a hundred jobs. With OVERBEND_KITS some of their kits,
// notes and all, are left in that folder for outside readers.
func TestProgram(t *testing.T) {
	t.Parallel()
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) { wholeRun(t, seen) })
	t.Log(seen)
	if seen["kit"] == 0 || seen["exit code 2"] == 0 || seen["exit code 1"] == 0 {
		t.Errorf("not all ways out were seen: %v", seen)
	}
}

// mostKept is how many kits are left for outside readers.
const mostKept = 12

// wholeRun makes the kit of a random job in a random shop. There is one clear error
// and nothing is left, or a kit that hangs together.
func wholeRun(t *rapid.T, seen map[string]int) {
	count := func(what string) {
		if seen != nil {
			seen[what]++
		}
	}
	root, err := os.MkdirTemp("", "program")
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(root)
	in := func(name string) string { return filepath.Join(root, name) }
	text, owns := wildJob(t), wildShop(t)
	for name, s := range map[string]string{"job.toml": text, "shop.toml": owns} {
		if err := os.WriteFile(in(name), []byte(s), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	flags := wildFlags(t)
	t.Logf("%s\n--- shop\n%s\n%q", text, owns, flags)

	var stdout, stderr bytes.Buffer
	code := run(append([]string{"make", in("job.toml"), "--shop", in("shop.toml"), "-o", in("kit")}, flags...), &stdout, &stderr)
	count(fmt.Sprintf("exit code %d", code))
	plainly(t, code, in, stdout.String(), stderr.String())
	_, err = os.Stat(in("kit"))
	made := err == nil
	if made != (code == exitDone || strings.Contains(stderr.String(), "written all the same")) {
		t.Fatalf("exit code %d, a kit: %v\n%s", code, made, stderr.String())
	}
	for _, e := range entries(t, root) {
		if name := e.Name(); name != "job.toml" && name != "shop.toml" && !(made && name == "kit") {
			t.Fatalf("%s was left", name)
		}
	}
	if !made {
		return
	}
	count("kit")
	cutOnly := slices.Contains(flags, "--cut-only")
	whole(t, root, cutOnly)

	// What show says is what make wrote.
	var shown, ignored bytes.Buffer
	if again := run([]string{"show", "--json", in("job.toml"), "--shop", in("shop.toml")}, &shown, &ignored); again != code {
		t.Fatalf("show: exit code %d, make: %d", again, code)
	}
	var a, b map[string]json.RawMessage
	wrote, err := os.ReadFile(in("kit/job.json"))
	if err = errors.Join(err, json.Unmarshal(shown.Bytes(), &a), json.Unmarshal(wrote, &b)); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"section", "bend", "overbend", "block", "strip", "tube_after", "press", "part", "filler", "check", "trial"} {
		if !bytes.Equal(a[key], b[key]) {
			t.Fatalf("%s: show says %.300s, make %.300s", key, a[key], b[key])
		}
	}
	if keep := os.Getenv("OVERBEND_KITS"); keep != "" && !cutOnly && seen["kept"] < mostKept {
		count("kept")
		if err := os.CopyFS(filepath.Join(keep, fmt.Sprint("kit-", seen["kept"])), os.DirFS(in("kit"))); err != nil && !errors.Is(err, fs.ErrExist) {
			t.Fatal(err) // of a run before: kept
		}
	}
}

func entries(t *rapid.T, dir string) []os.DirEntry {
	all, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// plainly fails unless what is said is plain: warnings and notes a line each and, where
// something is wrong, one sentence that says where.
func plainly(t *rapid.T, code int, in func(string) string, stdout, stderr string) {
	lines := strings.Split(strings.TrimSuffix(stderr, "\n"), "\n")
	last := lines[len(lines)-1]
	for _, l := range lines {
		if wrong := strings.HasPrefix(l, "overbend: "); l != "" && !wrong && !strings.HasPrefix(l, "warning: ") && !strings.HasPrefix(l, "note: ") || wrong && (code == exitDone || l != last) {
			t.Fatalf("exit code %d says %q in\n%s", code, l, stderr)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "<nil>", "\x1b", "\x00", "panic", "goroutine"} {
		if strings.Contains(stdout+stderr, bad) {
			t.Fatalf("%q in %s%s", bad, stdout, stderr)
		}
	}
	switch said, is := strings.CutPrefix(last, "overbend: "); {
	case code == exitDone:
	case code != exitCannot && code != exitMisuse || !is:
		t.Fatalf("exit code %d says %q", code, last)
	case strings.HasSuffix(said, ".") && !strings.HasSuffix(said, "..."):
		t.Fatalf("not a plain sentence: %q", said)
	case regexp.MustCompile(`^(` + regexp.QuoteMeta(in("job.toml")) + "|" + regexp.QuoteMeta(in("shop.toml")) + `):\d+: \S+: .{10}`).MatchString(said):
	case code == exitMisuse && regexp.MustCompile(`^--(paper|margin|print-scale): .{10}`).MatchString(said):
	default:
		t.Fatalf("no place: %q", said)
	}
}

// numbers is what job.json says of the drawings.
type numbers struct {
	Bend struct {
		Inside  float64 `json:"inside_radius_mm"`
		Outside float64 `json:"outside_radius_mm"`
	}
	Block struct {
		Ready *string   `json:"from_rack"`
		Radii []float64 `json:"layer_radii_mm"`
	}
	Cut []struct {
		Part   string
		Width  float64 `json:"width_mm"`
		Height float64 `json:"height_mm"`
	}
	Blank struct {
		Length float64 `json:"length_mm"`
		Marks  []struct {
			At      float64 `json:"at_mm"`
			Outside float64 `json:"outside_mm"`
			Inside  float64 `json:"inside_mm"`
		}
	}
	Fixture struct {
		Pins []struct {
			X float64 `json:"x_mm"`
			Y float64 `json:"y_mm"`
		}
	}
	Kit struct {
		Files []struct{ Name, SHA256 string }
	}
}

// whole fails unless the kit in a folder is what its ledger says, every file can be
// read, and the drawings have the ledger's sizes.
func whole(t *rapid.T, root string, cutOnly bool) {
	dir := filepath.Join(root, "kit")
	read := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	var say numbers
	ledger := read("job.json")
	if err := json.Unmarshal(ledger, &say); err != nil {
		t.Fatal(err)
	}
	if m := regexp.MustCompile(`-0\b[^.]|-0\.0*\b[,\s]`).Find(bytes.ReplaceAll(ledger, []byte(`"`), []byte(`""`))); m != nil && bytes.Contains(m, []byte(": ")) {
		t.Fatalf("job.json says %s", m)
	}
	own, err := shop.Find(filepath.Join(root, "shop.toml")).Read()
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.ReadIn(own, filepath.Join(root, "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(entries(t, dir)); n != len(say.Kit.Files)+1 {
		t.Fatalf("%d files in the folder, %d in the ledger", n, len(say.Kit.Files))
	}
	drawn := map[string]dxfread.Drawing{}
	for _, f := range say.Kit.Files {
		data := read(f.Name)
		if got := fmt.Sprintf("%x", sha256.Sum256(data)); got != f.SHA256 {
			t.Fatalf("%s is not what the ledger says", f.Name)
		}
		switch filepath.Ext(f.Name) {
		case ".dxf":
			if err := dxftest.Lint(data); err != nil {
				t.Fatalf("%s: %v", f.Name, err)
			}
			d, err := dxfread.Read(bytes.NewReader(data), dxfread.Limits{})
			if err != nil {
				t.Fatalf("%s: %v", f.Name, err)
			}
			for i := range d.Shapes {
				p := d.Shapes[i].Path.Apply(geom.Scale(d.Unit))
				if d.Shapes[i].Path = p; !finitePath(p) {
					t.Fatalf("%s: line %d: not finite", f.Name, d.Shapes[i].Line)
				}
			}
			drawn[f.Name] = d
		case ".svg":
			sound(t, f.Name, data)
		case ".pdf":
			if !bytes.HasPrefix(data, []byte("%PDF-")) || !bytes.HasSuffix(bytes.TrimSpace(data), []byte("%%EOF")) || bytes.Contains(data, []byte("NaN")) {
				t.Fatalf("%s is no PDF", f.Name)
			}
		default:
			t.Fatalf("what is %s?", f.Name)
		}
	}
	agree(t, say, drawn, j.Cutting.Kerf, cutOnly)
}

func finitePath(p geom.Path) bool {
	for _, v := range p.Vertices {
		if !v.Finite() || math.IsNaN(v.Bulge) || math.IsInf(v.Bulge, 0) {
			return false
		}
	}
	return len(p.Vertices) > 0
}

// sound fails unless an SVG is XML without a number that is none.
func sound(t *rapid.T, name string, data []byte) {
	if i := bytes.Index(data, []byte("NaN")); i >= 0 || bytes.Contains(data, []byte("Inf\"")) || bytes.Contains(data, []byte("%!")) {
		t.Fatalf("%s: no number: %.100q", name, data[max(0, i-50):])
	}
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		switch _, err := d.Token(); {
		case err == io.EOF:
			return
		case err != nil:
			t.Fatalf("%s: %v", name, err)
		}
	}
}

// agree fails unless the drawings have the sizes, arcs, marks and holes that job.json
// says. What is cut is half a kerf larger all round, holes as much smaller.
func agree(t *rapid.T, say numbers, drawn map[string]dxfread.Drawing, kerf float64, cutOnly bool) {
	const coordinate = 1e-3 // mm, more than 6 decimals of an inch round
	cut := func(s dxfread.Shape) bool { return s.Layer == "OUTLINE" || s.Layer == "HOLES" || s.Layer == "0" }
	some := func(file string, ok func(dxfread.Shape) bool) bool {
		return slices.ContainsFunc(drawn[file].Shapes, ok)
	}
	hasArc := func(file string, r float64) bool {
		return some(file, func(s dxfread.Shape) bool {
			return cut(s) && slices.ContainsFunc(s.Path.Segments(), func(g geom.Segment) bool {
				return g.IsArc() && math.Abs(math.Abs(g.Radius()-r)-kerf/2) < coordinate+1e-5*r
			})
		})
	}
	if !hasArc("template-inside.dxf", say.Bend.Inside) || !hasArc("template-outside.dxf", say.Bend.Outside) {
		t.Fatalf("templates without arcs of radius %g and %g mm", say.Bend.Inside, say.Bend.Outside)
	}
	var blocks []string
	for _, c := range say.Cut {
		file := c.Part + ".dxf"
		if c.Part == "tube" {
			file = "blank.dxf"
		}
		if c.Part == "block" || strings.HasPrefix(c.Part, "block-") {
			blocks = append(blocks, file)
		}
		box := geom.EmptyRect()
		for _, s := range drawn[file].Shapes {
			if cut(s) {
				box = box.Union(s.Path.Bounds())
			}
		}
		over := [2]float64{box.Width() - c.Width, box.Height() - c.Height}
		for _, o := range over {
			if o < -coordinate || o > 1.5*kerf+coordinate || box.Empty() { // corners that slant reach further
				t.Fatalf("%s is %g x %g mm, job.json says %g x %g with a kerf of %g", file, box.Width(), box.Height(), c.Width, c.Height, kerf)
			}
		}
	}
	if (len(blocks) == 0) != (say.Block.Ready != nil) {
		t.Fatalf("outlines of blocks to cut %v, at hand: %v", blocks, say.Block.Ready != nil)
	}
	// A round tube's plates differ; every one is cut from some file.
	for _, r := range say.Block.Radii {
		if len(blocks) > 0 && !slices.ContainsFunc(blocks, func(file string) bool { return hasArc(file, r) }) {
			t.Fatalf("no arc of radius %g mm in %v", r, blocks)
		}
	}
	if cutOnly {
		return
	}
	for _, m := range say.Blank.Marks {
		// Marks nearer than a scribed line is wide are one; what is at an end is the
		// end, and a slanting mark stops there.
		const end = 1 // mm
		if min(m.Outside, m.Inside) > end && max(m.Outside, m.Inside) < say.Blank.Length-end && !some("blank.dxf", func(s dxfread.Shape) bool {
			return s.Layer == "SCRIBE" && math.Abs(s.Path.Bounds().Centre().X-m.At) < 0.1+coordinate
		}) {
			t.Fatalf("blank.dxf has no mark at %g mm", m.At)
		}
	}
	for _, p := range say.Fixture.Pins {
		if !some("fixture.dxf", func(s dxfread.Shape) bool {
			return (s.Layer == "SCRIBE" || s.Layer == "HOLES") && s.Path.Bounds().Centre().Dist(geom.Pt(p.X, p.Y)) < coordinate
		}) {
			t.Fatalf("fixture.dxf has no hole or mark at %g, %g mm", p.X, p.Y)
		}
	}
}

// wild draws texts of values: mostly of the right kind and of a size that a shop
// meets, some of any size, a few of another kind.
type wild struct{ t *rapid.T }

func (w wild) one(of ...string) string { return rapid.SampledFrom(of).Draw(w.t, "one of") }

// once reports whether something happens that happens once in n times.
func (w wild) once(n int) bool { return rapid.IntRange(1, n).Draw(w.t, "once in") == n }

// number draws a number of so many decimals, over its decades alike.
func (w wild) number(lo, hi float64) string {
	v := math.Exp(rapid.Float64Range(math.Log(lo), math.Log(hi)).Draw(w.t, "number"))
	return fmt.Sprintf("%.*f", rapid.IntRange(0, 4).Draw(w.t, "decimals"), v)
}

// length draws a length of about so many mm, written in any of the ways.
func (w wild) length(lo, hi float64) string {
	how := w.one("mm", "mm", "mm", "in", "in", "feet", "bare", "cm")
	if hi < 40 && w.once(8) {
		how = "gauge"
	}
	switch how {
	case "in":
		return `"` + w.number(lo/25.4, hi/25.4) + ` in"`
	case "feet":
		return `"1 ft 2-1/2 in"`
	case "bare":
		return w.number(lo, hi)
	case "gauge":
		return `"` + w.one("8", "11", "16", "20") + ` ga"`
	case "cm":
		return `"` + w.number(lo/10, hi/10) + ` cm"`
	}
	return `"` + w.number(lo, hi) + ` mm"`
}

// value draws the TOML text of a key's value.
func (w wild) value(key string) string {
	if w.once(40) {
		return w.one(`""`, "-1", "true", "[1, 2]", `"1e9 mm"`, "0", `"-0 mm"`, "1e-320", "{}", `"x"`, "[]", `"0.0001 mm"`, `"30 km"`, `"ä\u0001\u2028"`)
	}
	quoted := func(s string) string { return `"` + s + `"` }
	_, last, _ := strings.Cut(key, ".")
	switch {
	case key == "units":
		return quoted(w.one("mm", "in"))
	case last == "material":
		return quoted(w.one("6082-T6", "6061-T6", "6063-T6", "1018 cold drawn", "304 annealed", "A500 B", "kept", "7075"))
	case key == "name" || strings.HasPrefix(key, "drawing.") && !strings.Contains(last, "tolerance"):
		return quoted(w.one("a", "Träger 7", "лук", "arch 😀", "x/../y", strings.Repeat("W", 60), "-", "a & <b>", "%s", "2025-06-01"))
	case key == "bend.radius" || key == "bend.chord":
		return w.length(300, 3000)
	case last == "angle" || last == "degrees" || last == "loaded" || last == "filled" || last == "melted" || last == "released" || strings.HasPrefix(last, "angle_") || last == "loaded_error":
		return w.one(w.number(0.1, 180), quoted(w.number(0.1, 180)+" deg"), quoted(w.number(0.01, 3)+" rad"))
	case last == "cut":
		return "[" + w.number(0.1, 70) + ", -" + w.number(0.1, 70) + "]"
	case last == "legs" || key == "filler.plugs":
		return "[" + w.length(1, 3000) + ", " + w.length(1, 3000) + "]"
	case last == "capacity":
		return quoted(w.number(1, 100) + w.one(" t", " tonf", " kN", " short tons"))
	case last == "proof" || last == "ultimate":
		return quoted(w.number(50, 900) + w.one(" MPa", " N/mm2", " ksi"))
	case last == "youngs_modulus":
		return quoted(w.number(50, 220) + " GPa")
	case last == "density":
		return quoted(w.number(1000, 9000) + " kg/m3")
	case last == "exponent":
		return w.number(2, 80)
	case last == "elongation" || last == "friction" || last == "ratio" || last == "poisson" || last == "unloading":
		return w.one(w.number(0.01, 1), quoted(w.number(1, 60)+" %"))
	case last == "shape":
		return quoted(w.one("rectangle", "round"))
	case last == "radius_at":
		return quoted(w.one("centre", "inside", "outside"))
	case last == "mode":
		return quoted(w.one("computed", "ratio", "degrees"))
	case last == "process":
		return quoted(w.one("plasma", "laser", "waterjet", "saw"))
	case last == "family":
		return quoted(w.one("aluminium", "steel", "stainless"))
	case last == "lot":
		return quoted(w.one("same", "new"))
	case last == "alloy":
		return quoted(w.one("none", "117", "158", "255", "281-338"))
	case last == "use":
		return quoted(w.one("R380", "small", "none such"))
	case last == "lighten":
		return w.one("true", "false")
	case last == "sheet" || last == "size":
		return quoted(w.number(100, 3000) + w.one("x", "×", " x ") + w.number(100, 3000) + " mm")
	case last == "wall" || last == "plate" || last == "thickness" || last == "corner" || last == "kerf" || last == "pin" || last == "blend" || last == "hole":
		return w.length(0.3, 30)
	case strings.HasSuffix(last, "_error") || last == "rise" || last == "radius_tolerance":
		return w.length(0.05, 30)
	}
	return w.length(5, 2000)
}

// wildJob draws a job file: one without a fault in itself, then any keys of any
// values. All keys come up, in both systems of units.
func wildJob(t *rapid.T) string {
	w := wild{t}
	var text string
	if w.once(2) {
		text = plantest.RandomJob(t)
	} else { // or one that can be made, with comments and all
		data, err := os.ReadFile(rapid.SampledFrom(exampleFiles(t)).Draw(t, "example"))
		if err != nil {
			t.Fatal(err)
		}
		text = string(data)
	}
	if w.once(3) { // the same in inches
		text = regexp.MustCompile(`"([0-9.]+) mm"`).ReplaceAllStringFunc(text, func(s string) string {
			var v float64
			fmt.Sscanf(s, `"%g mm"`, &v)
			return fmt.Sprintf(`"%.4f in"`, v/25.4)
		})
	}
	var keys []string
	for _, k := range job.Keys() {
		if !strings.HasPrefix(k, "trial.") && (!strings.HasPrefix(k, "material.") || strings.Contains(text, "[material]")) {
			keys = append(keys, k)
		}
	}
	// Keys that go with some others only are seldom put where they are not.
	excludes := regexp.MustCompile(`^(bend\.(radius|angle|chord|rise|arc)|tube\.(shape|width|depth|diameter|corner|lot)|allowance\.(ratio|degrees)|filler\.plugs|block.use)$`)
	for range rapid.SampledFrom([]int{0, 1, 1, 2, 3, 6}).Draw(t, "keys") {
		key := rapid.SampledFrom(keys).Draw(t, "key")
		if _, given := keyed.Value(text, key); !given && excludes.MatchString(key) && !w.once(20) {
			continue
		}
		if changed, err := keyed.Set(text, key, w.value(key)); err == nil {
			text = changed
		}
	}
	for range rapid.SampledFrom([]int{0, 0, 0, 0, 0, 0, 0, 1, 2}).Draw(t, "more trials") {
		text += "\n[[trial]]\nblock = " + w.length(100, 1500) + "\n"
		for _, key := range []string{"travel", "loaded", "filled", "melted", "released", "chord", "rise", "angle_error", "rise_error", "travel_error", "loaded_error"} {
			if w.once(3) {
				text += key + " = " + w.value("trial."+key) + "\n"
			}
		}
	}
	return text
}

// examples returns the paths of the jobs that come with the program.
func exampleFiles(t *rapid.T) []string {
	all, err := filepath.Glob("../../testdata/jobs/*.toml")
	if err != nil || len(all) == 0 {
		t.Fatalf("no example jobs: %v", err)
	}
	return append(all, demo)
}

// wildShop draws a shop file.
func wildShop(t *rapid.T) string {
	w := wild{t}
	if !w.once(3) {
		return ""
	}
	text := "units = " + w.value("units") + "\n"
	for _, s := range []struct {
		table string
		keys  []string
	}{
		{"press", []string{"capacity", "stroke", "bed", "ram_diameter", "friction"}},
		{"cutting", []string{"process", "kerf", "sheet"}},
	} {
		text += "[" + s.table + "]\n"
		for _, k := range s.keys {
			if w.once(3) {
				text += k + " = " + w.value(s.table+"."+k) + "\n"
			}
		}
	}
	if w.once(3) {
		text += `[stock]
plates = ["6 mm", "10 mm", "1/2 in"]
packing = ["0.5 mm", "1 mm"]
strips = [{thickness = "6 mm", material = "1018 cold drawn"}, {thickness = "1/8 in", material = "S235 flat"}]
`
	}
	if w.once(3) {
		text += "[paper]\nsize = \"" + w.one("A4", "letter", "A1", "400x500 mm") + "\"\nmargin = \"" + w.one("5 mm", "12 mm", "1/4 in") + "\"\nprint_scale = \"" + w.one("1x1", "1.01x0.99") + "\"\n"
	}
	if w.once(4) {
		text += "[[filler]]\nalloy = " + w.value("filler.alloy") + "\nmass = \"" + w.number(0.1, 50) + " kg\"\n"
	}
	for _, name := range []string{"R380", "small"} {
		if w.once(3) {
			text += fmt.Sprintf("[[block]]\nname = %q\nradius = %s\narc = %s\nwidth = %s\n", name, w.length(50, 2000), w.number(5, 170), w.length(5, 120))
		}
	}
	if w.once(3) {
		text += "[[metal]]\nname = \"kept\"\nbase = \"6082-T6\"\nproof = \"" + w.number(150, 400) + " MPa\"\nproof_error = \"" + w.number(1, 20) + " MPa\"\n"
	}
	return text
}

// wildFlags draws what make is told of the files.
func wildFlags(t *rapid.T) []string {
	w := wild{t}
	var flags []string
	for _, f := range [][]string{
		{"--force"}, {"--cut-only"},
		{"--dxf=2000", "--dxf=r12", "--dxf=r12-plain"}, {"--dxf-units=mm", "--dxf-units=in"}, {"--units=mm", "--units=in"},
		{"--paper=A4", "--paper=A3", "--paper=letter", "--paper=tabloid", "--paper=190x124 mm", "--paper=200x150", "--paper=36x24 in", "--paper=100x100"},
		{"--margin=5 mm", "--margin=1/2 in", "--margin=0"}, {"--print-scale=1.013x0.998", "--print-scale=0.9x1.1"},
	} {
		if w.once(3) {
			flags = append(flags, w.one(f...))
		}
	}
	return flags
}

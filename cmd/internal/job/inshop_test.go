package job

import (
	"reflect"
	"strings"
	"testing"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
)

func inShop(t *testing.T, file string) shop.Shop {
	t.Helper()
	s, err := shop.Parse("/home/x/shop.toml", file)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// short is a job that leaves out what it may.
const short = `name = "short"
[tube]
shape = "rectangle"
width = 40
depth = 40
wall = 3
material = "6082-T6"
[bend]
radius = 420
angle = 33
legs = [250, 250]
`

// What a job leaves out comes from the shop, in the shop's own units; what it gives
// is its own.
func TestInShop(t *testing.T) {
	s := inShop(t, "units = \"in\"\n[press]\ncapacity = \"20 tonf\"\nstroke = 8\nbed = 30\nram_diameter = 2\nfriction = 0\nrollers = [2, 1]\n[cutting]\nprocess = \"saw\"\nkerf = 0.05\nsheet = \"20x40\"\n[stock]\nplates = [0.25]\npacking = [0.0625]\n")
	j, err := ParseIn(s, "j", []byte(short))
	if err != nil {
		t.Fatal(err)
	}
	want := Press{Capacity: s.Press.Capacity, Rated: quantity.ShortTons, Roller: 50.8, Rollers: []float64{50.8, 25.4}, Ram: 50.8, RamWidth: 60, Stroke: 203.2, Bed: 762}
	if !reflect.DeepEqual(j.Press, want) || j.Cutting != (shop.Cutting{Process: "saw", Kerf: 1.27, Sheet: [2]float64{508, 1016}}) || j.Inches || j.Stock.Plates[0] != 6.35 {
		t.Errorf("%+v %+v %+v", j.Press, j.Cutting, j.Stock)
	}
	if f := j.FromShop; f.File != "shop.toml" || len(f.Keys) != 11 || f.Keys[0] != (Used{"press.capacity", "20 tonf"}) || f.Keys[5] != (Used{"press.rollers", "[2, 1]"}) || f.Keys[10] != (Used{"cutting.sheet", "20x40"}) {
		t.Errorf("%+v", f)
	}
	own, err := ParseIn(s, "j", []byte(short+"[press]\ncapacity = \"10 t\"\nstroke = 1\nbed = 700\nram_diameter = 3\nfriction = 0.2\nroller = 4\n[cutting]\nprocess = \"laser\"\nkerf = 0\nsheet = \"9x8\"\n[block]\nplate = 5\n"))
	want = Press{Capacity: 98066.5, Rated: quantity.Tonnes, Roller: 4, Ram: 3, RamWidth: 60, Friction: 0.2, Stroke: 1, Bed: 700}
	if err != nil || !reflect.DeepEqual(own.Press, want) || own.Cutting != (shop.Cutting{Process: "laser", Sheet: [2]float64{9, 8}}) {
		t.Errorf("%v %+v %+v", err, own.Press, own.Cutting)
	}
	if f := own.FromShop; len(f.Keys) != 1 || f.Keys[0].Key != "stock.packing" {
		t.Errorf("%+v", f)
	}
	if nothing := parse(t, short); nothing.FromShop.File != "" || nothing.Press.Roller != 40 || nothing.Press.Rollers != nil {
		t.Errorf("%+v", nothing)
	}

	// Rollers that stand closer than they are thick are no choice.
	narrow, err := ParseIn(s, "j", []byte(short+"[press]\nsupports = 40\n"))
	if err != nil || !reflect.DeepEqual(narrow.Press.Rollers, []float64{25.4}) || narrow.Press.Roller != 25.4 {
		t.Errorf("%v %+v", err, narrow.Press)
	}
	for extra, want := range map[string]string{
		"[press]\nsupports = 20\n":                                     "j:13: press.supports: 20 mm is not allowed; it must be more than 50.8 mm, the roller diameter",
		"[press]\nsupports = 800\n":                                    "j:13: press.supports: 800 mm is not allowed; it must be at most 762 mm, the bed",
		"[block]\nhole = 3.5\n[cutting]\nprocess = \"saw\"\n[tube2]\n": "j:16: tube2: unknown key",
		"[cutting]\nkerf = 9\n":                                        "j:13: cutting.kerf: 9 mm is not allowed; it must be at most 6.5 mm, half the bolt hole",
	} {
		if _, err := ParseIn(s, "j", []byte(short+extra)); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s: %v, want %s", extra, err, want)
		}
	}
	if _, err := ParseIn(inShop(t, "[press]\nbed = 100\n"), "j", []byte(short+"[press]\nroller = 120\n")); err == nil || err.Error() != "j:13: press.roller: 100 mm is not allowed; it must be more than 120 mm, the roller diameter" {
		t.Error(err)
	}
}

// Flat in stock that suits: of the material and thickness that are asked for, else
// nearest to a sixth of the depth, here 6.67 mm, of two the thinner.
func TestStripAtHand(t *testing.T) {
	stock := "[stock]\nstrips = [{thickness = 10, material = \"S235\"}, {thickness = 8, material = \"S355\"}, {thickness = 5}, {thickness = 3, material = \"S235\"}]\n"
	for _, c := range []struct {
		stock, extra string
		thickness    float64
		material     string
	}{
		{stock, "", 8, "S355"},
		{stock, "[strip]\nthickness = 10\n", 10, "S235"},
		{stock, "[strip]\nthickness = 5\n", 5, "1018 cold drawn"},
		{stock, "[strip]\nthickness = 6\n", 6, "1018 cold drawn"},
		{stock, "[strip]\nmaterial = \"S355\"\n", 8, "S355"},
		{stock, "[strip]\nmaterial = \"S235\"\n", 5, "S235"}, // of no material of its own: it may be that
		{stock, "[strip]\nthickness = 8\nmaterial = \"S235\"\n", 8, "S235"},
		{"[stock]\nstrips = [{thickness = 3, material = \"S235\"}]\n", "[strip]\nmaterial = \"S355\"\n", 0, "S355"},
		{"[stock]\nstrips = [{thickness = \"8.6666666667 mm\"}, {thickness = \"4.6666666667 mm\"}]\n", "", 4.6666666667, "1018 cold drawn"},
		{"", "", 0, "1018 cold drawn"},
	} {
		j, err := ParseIn(inShop(t, c.stock), "j", []byte(short+c.extra))
		if err != nil || j.Strip.Thickness != c.thickness || j.Strip.Material.Name != c.material {
			t.Errorf("%s: %v, %v of %s, want %v of %s", c.extra, err, j.Strip.Thickness, j.Strip.Material.Name, c.thickness, c.material)
		}
	}
}

// A metal that the shop keeps stands for its base, for the wall and shape of the
// tube.
func TestKeptMetal(t *testing.T) {
	s := inShop(t, "[[metal]]\nname = \"bar 7\"\nbase = \"6082-T6\"\nproof = \"262 MPa\"\nproof_error = \"6 MPa\"\n")
	named := func(name string) string { return strings.Replace(short, `"6082-T6"`, name, 1) }
	j, err := ParseIn(s, "j", []byte(named(`"BAR 7"`)))
	if err != nil || j.Material.Name != "6082-T6" || j.Learned.Name != "bar 7" || j.Lot != shop.NewLot || len(j.FromShop.Keys) != 4 || j.FromShop.Keys[2] != (Used{"metal.proof", "262 MPa"}) {
		t.Errorf("%v %+v", err, j)
	}
	if j, err = ParseIn(s, "j", []byte(named("\"bar 7\"\nlot = \"same\""))); err != nil || j.Lot != shop.SameLot {
		t.Errorf("%v %+v", err, j)
	}
	for text, want := range map[string]string{
		named("\"bar 7\"\nlot = \"other\""):                           `j:8: tube.lot: "other" is not allowed; it must be "new" or "same"`,
		named("\"6082-T6\"\nlot = \"same\""):                          "j:8: tube.lot: not allowed with this material; it goes with a metal that the shop file keeps",
		named(`"bar 8"`):                                              `j:7: tube.material: material "bar 8" is not in the catalogue`,
		strings.Replace(named(`"bar 7"`), "wall = 3", "wall = 18", 1): "j:7: tube.material: bar 7 was kept of 6082-T6: ",
		named("\"6082-T6\"") + "[strip]\nmaterial = \"bar 7\"\n":      `j:13: strip.material: material "bar 7" is not in the catalogue`,
	} {
		if _, err := ParseIn(s, "j", []byte(text)); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// A trial's digest hangs on the job's name and on every reading.
func TestDigest(t *testing.T) {
	const trials = "[[trial]]\nblock = 360\nloaded = 38\nreleased = 33\n"
	seen := map[string]bool{}
	for _, text := range []string{
		short + trials, strings.Replace(short, "short", "long", 1) + trials, short + strings.Replace(trials, "360", "361", 1),
		short + strings.Replace(trials, "38", "38.5", 1), short + strings.Replace(trials, "33", "33.1", 1), short + trials + "angle_error = 1\n",
	} {
		d := parse(t, text).Digests()
		if len(d) != 1 || len(d[0]) != 12 || seen[d[0]] {
			t.Errorf("%v of\n%s", d, text)
		}
		seen[d[0]] = true
	}
	// A note in the file, its units or its order change nothing.
	if got := parse(t, "# n\n"+strings.Replace(short, "420", "\"420 mm\"", 1)+strings.Replace(trials, "360", "\"36 cm\"", 1)).Digest(0); !seen[got] {
		t.Error(got)
	}
}

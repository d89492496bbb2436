package page_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"maps"
	"math"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/page"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/shop"
	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/geom"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// withFile posts a form with a drawing.
func withFile(t testing.TB, h http.Handler, path string, f url.Values, data []byte, change ...func(*http.Request)) *httptest.ResponseRecorder {
	t.Helper()
	var body bytes.Buffer
	m := multipart.NewWriter(&body)
	for name := range maps.Keys(f) {
		if err := m.WriteField(name, f.Get(name)); err != nil {
			t.Fatal(err)
		}
	}
	to, err := m.CreateFormFile("drawing", "part.dxf")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := to.Write(data); err != nil {
		t.Fatal(err)
	}
	m.Close()
	return post(h, path, m.FormDataContentType(), &body, change...)
}

// picks returns what the buttons of a page or of a part of it send.
func picks(text string) []string {
	var out []string
	for _, m := range regexp.MustCompile(`name="take" value="([^"]*)"`).FindAllStringSubmatch(text, -1) {
		out = append(out, html.UnescapeString(m[1]))
	}
	return out
}

// foundIn returns what each candidate of an answer fills in.
func foundIn(t testing.TB, w *httptest.ResponseRecorder) []map[string]string {
	t.Helper()
	var got struct{ Parts map[string]string }
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != 200 {
		t.Fatalf("%d %s", w.Code, short(w))
	}
	var out []map[string]string
	for _, text := range picks(got.Parts["p-drawing"]) {
		var p struct{ Read []struct{ N, V, F string } }
		if err := json.Unmarshal([]byte(text), &p); err != nil {
			t.Fatal(err)
		}
		read := map[string]string{}
		for _, r := range p.Read {
			if read[r.N] = r.V; (r.V == "") != (r.F == "") {
				t.Errorf("%s is %q, and from %q", r.N, r.V, r.F)
			}
		}
		out = append(out, read)
	}
	return out
}

// drawingOf returns a DXF of paths.
func drawingOf(t testing.TB, paths ...geom.Path) []byte {
	t.Helper()
	var d drawing.Drawing
	for _, p := range paths {
		d.Add(drawing.Stroke{Path: p, Role: drawing.CutOuter})
	}
	var b bytes.Buffer
	if err := dxf.Write(&b, d, dxf.Options{}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// twoTubes are two bends beside each other: R 420, 33 deg, 40 mm deep, and R 300,
// 60 deg, 50 mm deep.
func twoTubes(t testing.TB) []byte {
	return drawingOf(t,
		tooling.TubeOutline(420, 40, 33*geom.Degree, [2]float64{250, 250}, [2]geom.Angle{}),
		tooling.TubeOutline(300, 50, 60*geom.Degree, [2]float64{200, 150}, [2]geom.Angle{0, 20 * geom.Degree}).Apply(geom.Translate(geom.Pt(1200, 0))))
}

// The part.dxf of every example, in mm and in inches, gives the job's numbers, to
// what a coordinate of six decimals leaves.
func TestDrawingOfEveryExample(t *testing.T) {
	h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	for _, path := range plantest.Examples(t, top) {
		for _, u := range []string{"mm", "in"} {
			p := plantest.Read(t, path)
			o, err := kit.Choices{DXFUnits: u}.For(p, shop.Nothing(), p.Job.Units())
			if err != nil {
				t.Fatal(err)
			}
			files, err := report.Kit(p, o)
			if err != nil {
				t.Fatal(err)
			}
			var part []byte
			for _, f := range files {
				if f.Name == "part.dxf" {
					part = f.Data
				}
			}
			j := p.Job
			form := url.Values{"units": {u}, "tube.shape": {j.Tube.Shape.String()}}
			want := map[string]float64{"bend.radius": j.Bend.Radius, "bend.legs.0": j.Bend.Legs[0], "bend.legs.1": j.Bend.Legs[1], "tube.depth": j.Tube.Depth, "tube.width": j.Tube.Depth}
			if j.Tube.Shape == profiles.Round {
				delete(want, "tube.width")
				delete(want, "tube.depth")
				want["tube.diameter"] = j.Tube.Depth
			}
			found := foundIn(t, withFile(t, h, "/drawing.json", form, part))
			if len(found) != 1 {
				t.Errorf("%s in %s: %d bends", path, u, len(found))
				continue
			}
			for name, mm := range want {
				got, err := quantity.ParseLength(found[0][name], quantity.Millimetres)
				if err != nil || math.Abs(got-mm) > 2e-5 {
					t.Errorf("%s in %s: %s is %q, want %v mm", path, u, name, found[0][name], mm)
				}
			}
			for name, want := range map[string]geom.Angle{"bend.angle": j.Bend.Angle, "ends.cut.0": j.Ends.Cut[0], "ends.cut.1": j.Ends.Cut[1]} {
				got, err := quantity.ParseAngle(found[0][name])
				if err != nil || math.Abs(float64(got-want)) > 1e-6 {
					t.Errorf("%s in %s: %s is %q, want %v", path, u, name, found[0][name], want.Degrees())
				}
			}
			if _, ok := found[0]["tube.shape"]; ok || found[0]["bend.radius_at"] != "centre" {
				t.Errorf("%s: %v", path, found[0])
			}
		}
	}
}

// A width that is not the depth is the user's; that of a square tube goes with its
// depth, and a chord gives way to radius and angle.
func TestDrawingKeepsTheWidth(t *testing.T) {
	h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	for _, row := range []struct {
		width, depth, want string
		set                bool
	}{{"40 mm", "40", "50 mm", true}, {"", "40 mm", "50 mm", true}, {"60 mm", "40 mm", "", false}, {"60 mm", "", "", false}} {
		found := foundIn(t, withFile(t, h, "/drawing.json", url.Values{"tube.width": {row.width}, "tube.depth": {row.depth}, "bend.chord": {"1 m"}}, twoTubes(t)))
		got, set := found[1]["tube.width"]
		if got != row.want || set != row.set {
			t.Errorf("%q by %q: %q, want %q", row.width, row.depth, got, row.want)
		}
		if v, ok := found[1]["bend.chord"]; !ok || v != "" {
			t.Error("the chord stays")
		}
	}
}

// Without a script: a drawing with two bends fills nothing until one is picked; what
// that fills is marked as read until it is changed.
func TestDrawingWithoutScript(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	w := withFile(t, h, "/drawing", demo(), twoTubes(t))
	body := w.Body.String()
	if w.Code != 200 || !strings.Contains(body, "2 bends were found") || !strings.Contains(body, `id="svg-drawing"`) || strings.Contains(body, `">From the drawing`) {
		t.Fatalf("%d, and not the page with two bends", w.Code)
	}
	all := picks(body)
	if len(all) != 2 {
		t.Fatalf("%d to pick from", len(all))
	}
	w = send(h, "/", url.Values{"take": {all[1]}})
	body = w.Body.String()
	for _, want := range []string{`name="bend.radius" value="300 mm"`, `name="bend.angle" value="60 deg"`, `name="tube.depth" value="50 mm"`, `name="tube.width" value="50 mm"`, `name="tube.wall" value="3 mm"`, `name="ends.cut.1" value="20 deg"`, `id="f-bend.angle">From the drawing<`, `id="f-tube.width">Taken as a square tube<`, `id="f-tube.wall"></p>`} {
		if !strings.Contains(body, want) {
			t.Errorf("picked: no %s", want)
		}
	}
	m := regexp.MustCompile(`name="read" value="([^"]*)"`).FindStringSubmatch(body)
	if w.Code != 200 || m == nil {
		t.Fatal(w.Code)
	}
	w = send(h, "/", with(demo(), "read", html.UnescapeString(m[1]), "bend.radius", "301 mm", "bend.angle", "60 deg"))
	if body = w.Body.String(); !strings.Contains(body, `id="f-bend.radius"></p>`) || !strings.Contains(body, `id="f-bend.angle">From`) {
		t.Error("a number that was changed is still marked, or one that was not is not")
	}
	// One bend is taken at once.
	one := drawingOf(t, tooling.TubeOutline(300, 50, 60*geom.Degree, [2]float64{200, 150}, [2]geom.Angle{}))
	if body = withFile(t, h, "/drawing", demo(), one).Body.String(); !strings.Contains(body, `name="bend.radius" value="300 mm"`) || !strings.Contains(body, `id="f-bend.radius">From the drawing<`) {
		t.Error("one bend is not taken")
	}
	for _, bad := range []string{"", "{}", "[", `{"base":"!"}`, `{"base":"YQ==","read":[{"n":"a b","v":"c"}]}`} {
		if w := send(h, "/", with(demo(), "take", bad, "read", bad)); w.Code != 200 && w.Code != 422 {
			t.Errorf("%s: %d", bad, w.Code)
		}
	}
}

// What is no drawing, or shows no bend, gets a sentence beside its field and no
// word of the command line's flags; too large a one 413.
func TestDrawingRefused(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	good := string(twoTubes(t))
	circle := drawingOf(t, geom.Circle{Radius: 50}.Path())
	unitless := regexp.MustCompile(`(?s)(\$INSUNITS\s+70\s+)4`).ReplaceAllString(good, "${1}0")
	if unitless == good {
		t.Fatal("the unit is not where it was")
	}
	const entities = "ENTITIES"
	before, after, _ := strings.Cut(good, entities)
	nan := regexp.MustCompile(`(\n\s*10\r?\n)\s*[-0-9.]+`)
	pad := func(n int) string { return good + strings.Repeat("999\nnothing\n", n/12) }
	for _, row := range []struct {
		name, data, field, says string
		code                    int
		layer, unit             string
	}{
		{name: "nothing", field: "drawing", says: "no drawing was chosen", code: 422},
		{name: "a job file", data: "name = \"a\"\n", field: "drawing", says: "no DXF", code: 422},
		{name: "binary", data: "AutoCAD Binary DXF\r\n\x1a\x00" + strings.Repeat("\x00", 100), field: "drawing", says: "binary", code: 422},
		{name: "cut short", data: good[:len(good)/2], field: "drawing", says: "line", code: 422},
		{name: "not a number", data: before + entities + nan.ReplaceAllString(after, "${1}NaN"), field: "drawing", says: "line", code: 422},
		{name: "no bend", data: string(circle), field: "drawing", says: "there is no bend", code: 422},
		{name: "no unit", data: unitless, field: "drawing_unit", says: "under Unit of the drawing", code: 422},
		{name: "unit stated", data: unitless, code: 200, unit: "mm"},
		{name: "no such unit", data: good, field: "drawing_unit", says: "mile", code: 422, unit: "mile"},
		{name: "no such layer", data: good, field: "drawing_layer", says: "has no lines", code: 422, layer: `"><i>`},
		{name: "7 MB", data: pad(7 << 20), code: 200},
		{name: "8.5 MB", data: pad(17 << 19), field: "drawing", says: "more than 8 MB", code: 413},
		{name: "9 MB and a form", data: pad(9 << 20), says: "more than 8 MB", code: 413},
	} {
		f := with(demo(), "drawing_layer", row.layer, "drawing_unit", row.unit)
		w := withFile(t, h, "/drawing.json", f, []byte(row.data))
		var got page.Fault
		if json.Unmarshal(w.Body.Bytes(), &got) != nil {
			got.Sentence = w.Body.String()
		}
		if w.Code != row.code || row.code != 200 && (got.Field != row.field || !strings.Contains(got.Sentence, row.says) || strings.Contains(got.Sentence, "--") || strings.Count(got.Sentence, "\n") > 1) {
			t.Errorf("%s: %d %q %.200q, want %d %q %q", row.name, w.Code, got.Field, got.Sentence, row.code, row.field, row.says)
		}
		w = withFile(t, h, "/drawing", f, []byte(row.data))
		if w.Code != row.code || row.field != "" && !strings.Contains(w.Body.String(), `id="e-`+row.field+`">`+html.EscapeString(strings.ReplaceAll(got.Sentence, "+", "&#43;"))) && !strings.Contains(html.UnescapeString(w.Body.String()), `id="e-`+row.field+`">`+got.Sentence) {
			t.Errorf("%s: %d, and the sentence is not beside its field", row.name, w.Code)
		}
		if strings.Contains(w.Body.String(), `"><i>`) {
			t.Errorf("%s: not escaped", row.name)
		}
	}
	// The guard is that of every route, and the others keep their limit.
	for _, path := range []string{"/drawing", "/drawing.json"} {
		for name, change := range map[string]func(*http.Request){"origin": header("Origin", "http://evil.example"), "host": host("evil.example")} {
			if w := withFile(t, h, path, demo(), []byte(good), change); w.Code != 403 {
				t.Errorf("%s, %s: %d", path, name, w.Code)
			}
		}
		if w := get(h, path); w.Code != 405 {
			t.Errorf("GET %s: %d", path, w.Code)
		}
		if w := send(h, path, demo()); w.Code != 422 {
			t.Errorf("%s without a file: %d", path, w.Code)
		}
	}
	for _, path := range []string{"/", "/update", "/open"} {
		if w := withFile(t, h, path, demo(), []byte(pad(2<<20))); w.Code != 413 {
			t.Errorf("2 MB to %s: %d", path, w.Code)
		}
	}
	token := page.New(page.Options{Shop: shop.Nothing(), Token: "0123456789abcdef"})
	if w := withFile(t, token, "/0123456789abcdef/drawing.json", demo(), []byte(pad(2<<20))); w.Code != 200 {
		t.Errorf("2 MB behind a token: %d", w.Code)
	}
}

// Names of layers come back escaped.
func TestDrawingEscaped(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	var b bytes.Buffer
	const bad = `<svg onload=x>"'&`
	fmt.Fprintf(&b, "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n")
	fmt.Fprintf(&b, "0\nLINE\n8\n%[1]s\n10\n-200\n20\n100\n11\n0\n21\n100\n0\nARC\n8\n%[1]s\n10\n0\n20\n0\n40\n100\n50\n30\n51\n90\n0\nENDSEC\n0\nEOF\n", bad)
	for _, path := range []string{"/drawing", "/drawing.json"} {
		w := withFile(t, h, path, demo(), b.Bytes())
		if w.Code != 200 || strings.Contains(w.Body.String(), "<svg onload") {
			t.Errorf("%s: %d", path, w.Code)
		}
	}
}

// Drawings that many send at once are turned away beyond few, each answer whole.
func TestDrawingsShedLoad(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	slow, end := io.Pipe()
	defer end.Close()
	done := make(chan int)
	go func() {
		r := httptest.NewRequest("POST", "/drawing.json", slow)
		r.Header.Set("Content-Type", "multipart/form-data; boundary=x")
		r.Host = "localhost"
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		done <- w.Code
	}()
	if _, err := end.Write([]byte("--x\r\n")); err != nil { // it is being read
		t.Fatal(err)
	}
	if w := send(h, "/update", demo()); w.Code != 200 {
		t.Errorf("who has no drawing waits for one: %d", w.Code)
	}
	end.Close()
	if code := <-done; code != 422 {
		t.Errorf("a drawing cut short: %d", code)
	}
}

// The page's parts hold the kit's drawings and the tables beside them: what is in
// the files is in the parts.
func TestKitOnThePage(t *testing.T) {
	for _, path := range plantest.Examples(t, top) {
		p := plantest.Read(t, path)
		h := page.New(page.Options{Shop: shop.Nothing(), Start: read(t, strings.TrimPrefix(path, top+"/")), Local: true})
		for _, view := range []string{"small", "large"} {
			got := update(t, h, with(opened(t, h, []byte(read(t, strings.TrimPrefix(path, top+"/")))), "view", view)).Parts
			for id, there := range map[string]bool{"points": true, "fixture": p.Fixture != nil, "section": p.After.OuterStrain > 0, "outline": len(kit.BlockScreens(p, p.Job.Units())) > 0} {
				if strings.Contains(got["p-"+id], "<svg") != there {
					t.Errorf("%s, %s: %s: drawn %v, want %v", path, view, id, !there, there)
				}
			}
			for i, q := range p.Part.Points {
				row := fmt.Sprintf(`<th scope="row">%c</th><td>%s</td><td>%s</td><td>%s</td>`, 'A'+i, q.Name, p.Job.Units().Figure(quantity.Length.Of(q.At.X)), p.Job.Units().Figure(quantity.Length.Of(q.At.Y)))
				if !strings.Contains(html.UnescapeString(got["p-points"]), row) {
					t.Errorf("%s: no row %s", path, row)
				}
			}
			if p.Fixture != nil && strings.Count(got["p-fixture"], "<tr>") != 1+len(p.Fixture.Part.Holes)+4 {
				t.Errorf("%s: rows of the fixture", path)
			}
			if !strings.Contains(got["p-section"], "of its stiffness") || strings.Contains(got["p-after"], "keeps") {
				t.Errorf("%s: what is left of the section: %.200s", path, got["p-section"])
			}
		}
		if less := update(t, h, with(opened(t, h, []byte(read(t, strings.TrimPrefix(path, top+"/")))), "folded", "p-points p-section")); less.Parts["p-points"] != "" || less.Parts["p-section"] != "" || less.Parts["p-numbers"] == "" {
			t.Errorf("%s: what is folded is sent", path)
		}
	}
}

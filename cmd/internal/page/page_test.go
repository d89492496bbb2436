package page_test

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/page"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/shop"
)

const top = "../../.."

// demo returns the form of the demo as a person fills it in.
func demo() url.Values {
	return form(`
name davit-arm
tube.shape rectangle
tube.width 40 mm
tube.depth 40 mm
tube.wall 3 mm
tube.corner 0 mm
tube.material 6082-T6
bend.radius 420 mm
bend.radius_at centre
bend.angle 33 deg
bend.legs.0 250 mm
bend.legs.1 250 mm
strip.thickness 6 mm
strip.material 1018 cold drawn
block.plate 10 mm
filler.alloy 158
filler.plugs 20 mm
press.capacity 20 t
ends.cut.0 0 deg
ends.cut.1 22.5 deg`)
}

// form reads lines of a name and what stands in the field.
func form(lines string) url.Values {
	f := url.Values{}
	for line := range strings.Lines(strings.TrimSpace(lines)) {
		name, text, _ := strings.Cut(strings.TrimSpace(line), " ")
		f.Set(name, text)
	}
	return f
}

// with returns a form with fields changed: name, text, name, text.
func with(f url.Values, change ...string) url.Values {
	out := url.Values{}
	for k, v := range f {
		out[k] = v
	}
	for i := 0; i < len(change); i += 2 {
		out.Set(change[i], change[i+1])
	}
	return out
}

// handler is the page as serve makes it, opened with the text of a job file.
func handler(t testing.TB, path string) http.Handler {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(top, path))
	if err != nil {
		t.Fatal(err)
	}
	return page.New(page.Options{Shop: shop.Nothing(), Start: string(text), Local: true})
}

// send posts a form and returns the answer.
func send(h http.Handler, path string, f url.Values, change ...func(*http.Request)) *httptest.ResponseRecorder {
	return post(h, path, "application/x-www-form-urlencoded", strings.NewReader(f.Encode()), change...)
}

// post sends a body from this machine.
func post(h http.Handler, path, kind string, body io.Reader, change ...func(*http.Request)) *httptest.ResponseRecorder {
	r := httptest.NewRequest("POST", path, body)
	r.Header.Set("Content-Type", kind)
	r.Host, r.RemoteAddr = "localhost:7340", "127.0.0.1:1"
	for _, c := range change {
		c(r)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func get(h http.Handler, path string, change ...func(*http.Request)) *httptest.ResponseRecorder {
	r := httptest.NewRequest("GET", path, nil)
	r.Host, r.RemoteAddr = "localhost:7340", "127.0.0.1:1"
	for _, c := range change {
		c(r)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// short returns the beginning of an answer, for a message.
func short(w *httptest.ResponseRecorder) string { return fmt.Sprintf("%.300q", w.Body.String()) }

func read(t testing.TB, path string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(top, path))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// The numbers of the form are those of show --json on the file it stands for.
func TestJobJSON(t *testing.T) {
	w := send(handler(t, "testdata/davit-arm.toml"), "/job.json", demo())
	want, err := report.JSON(plantest.Read(t, top+"/testdata/davit-arm.toml"), nil)
	if err != nil {
		t.Fatal(err)
	}
	if w.Code != 200 || w.Header().Get("Content-Type") != "application/json" || w.Body.String() != string(want) {
		t.Errorf("%d %s, and not the demo's numbers", w.Code, w.Header().Get("Content-Type"))
	}
}

// Every example file, opened and sent back as it came, is the same file byte for
// byte, and the same job.
func TestOpenAndSave(t *testing.T) {
	texts := map[string]string{"the starter": job.Starter(quantity.Millimetres), "the starter in inches": job.Starter(quantity.Inches)}
	for _, path := range plantest.Examples(t, top) {
		texts[path] = read(t, strings.TrimPrefix(path, top))
	}
	for path, whole := range texts {
		text := []byte(whole)
		h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
		f := opened(t, h, text)
		w := send(h, "/job.toml", f)
		if w.Code != 200 {
			t.Errorf("%s: %d %s", path, w.Code, short(w))
			continue
		}
		if w.Body.String() != string(text) {
			t.Errorf("%s is changed:\n%s", path, lineDifference(string(text), w.Body.String()))
		}
	}
}

// opened returns the form that the page makes of a job file: what /open answers,
// as the script fills it in, choices that have no empty word at their first.
func opened(t testing.TB, h http.Handler, text []byte) url.Values {
	t.Helper()
	var body bytes.Buffer
	m := multipart.NewWriter(&body)
	part, err := m.CreateFormFile("file", "a.toml")
	if err != nil {
		t.Fatal(err)
	}
	part.Write(text)
	m.Close()
	r := httptest.NewRequest("POST", "/open", &body)
	r.Header.Set("Content-Type", m.FormDataContentType())
	r.Host = "localhost"
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	var got struct {
		Values map[string]string
		Base   string
	}
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != 200 {
		t.Fatalf("/open: %d %s", w.Code, short(w))
	}
	f := url.Values{"base": {got.Base}, "units": {"mm"}, "bend.radius_at": {"centre"}, "allowance.mode": {"computed"}}
	for k, v := range got.Values {
		f.Set(k, v)
	}
	return f
}

// lineDifference returns the lines that two texts do not share.
func lineDifference(a, b string) string {
	var out strings.Builder
	la, lb := strings.Split(a, "\n"), strings.Split(b, "\n")
	for _, l := range la {
		if !slices.Contains(lb, l) {
			out.WriteString("- " + l + "\n")
		}
	}
	for _, l := range lb {
		if !slices.Contains(la, l) {
			out.WriteString("+ " + l + "\n")
		}
	}
	return out.String()
}

// Open, change, save: what changed is the difference, and comments stay.
func TestChangeIsOneLine(t *testing.T) {
	starter := job.Starter(quantity.Millimetres)
	h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	tried := read(t, "testdata/jobs/davit-arm-tried.toml")
	for _, row := range []struct {
		name, text string
		change     []string
		want       string
	}{
		{"a length", starter, []string{"tube.wall", "4 mm"}, "- wall     = \"3 mm\"\n+ wall     = \"4 mm\"\n"},
		{"one leg", starter, []string{"bend.legs.1", "300 mm"},
			"- legs      = [\"250 mm\", \"250 mm\"] # straights, from the arc's end to the trimmed end\n+ legs      = [\"250 mm\", \"300 mm\"] # straights, from the arc's end to the trimmed end\n"},
		{"both legs", starter, []string{"bend.legs.0", "240 mm", "bend.legs.1", "300 mm"},
			"- legs      = [\"250 mm\", \"250 mm\"] # straights, from the arc's end to the trimmed end\n+ legs      = [\"240 mm\", \"300 mm\"] # straights, from the arc's end to the trimmed end\n"},
		{"a tick that was not set", strings.Replace(starter, "[block] ", "[block]\nlighten = false\n#", 1), []string{"block.lighten", "", "tube.wall", "4 mm"}, "- wall     = \"3 mm\"\n+ wall     = \"4 mm\"\n"},
		{"a key more", starter, []string{"press.ram_diameter", "60 mm"}, "+ ram_diameter = \"60 mm\"\n"},
		{"a key less", starter, []string{"strip.thickness", ""}, "- thickness = \"6 mm\"             # left out: the nearest stock thickness to a sixth of the depth\n"},
		{"inches", starter, []string{"units", "in"}, "- units = \"mm\"                   # what a length without a unit means: \"mm\" or \"in\"\n+ units = \"in\"                   # what a length without a unit means: \"mm\" or \"in\"\n"},
		{"a fraction", starter, []string{"tube.wall", `1/8"`}, "- wall     = \"3 mm\"\n+ wall     = '1/8\"'\n"},
		{"a trial's angle", tried, []string{"trial.0.filled", "30.5 deg"}, ""},
	} {
		f := with(opened(t, h, []byte(row.text)), row.change...)
		w := send(h, "/job.toml", f)
		if w.Code != 200 {
			t.Errorf("%s: %d %s", row.name, w.Code, short(w))
			continue
		}
		got := lineDifference(row.text, w.Body.String())
		if row.want == "" && (strings.Count(got, "\n") != 2 || !strings.Contains(got, "filled")) || row.want != "" && got != row.want {
			t.Errorf("%s:\n%swant\n%s", row.name, got, row.want)
		}
	}
}

// A trial that is emptied goes, one that is filled in comes behind the others.
func TestTrialsComeAndGo(t *testing.T) {
	h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	text := read(t, "testdata/jobs/davit-arm-tried.toml")
	j, err := job.Parse("", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	n := len(j.Trials)
	f := opened(t, h, []byte(text))
	next := fmt.Sprintf("trial.%d.", n)
	f.Set(next+"block", "350 mm")
	f.Set(next+"travel", "40 mm")
	f.Set(next+"filled", "20 deg")
	more, err := job.Parse("", send(h, "/job.toml", f).Body.Bytes())
	if err == nil && len(more.Trials) == n+1 {
		if got := more.Trials[n].BlockRadius; got != 350 {
			t.Errorf("the added trial's block is %v", got)
		}
	} else {
		w := send(h, "/job.json", f)
		t.Errorf("one more: %v, %d; %d %s", err, len(more.Trials), w.Code, short(w))
	}
	for k := range f {
		if strings.HasPrefix(k, "trial.0.") || strings.HasPrefix(k, next) {
			f.Set(k, "")
		}
	}
	less, err := job.Parse("", send(h, "/job.toml", f).Body.Bytes())
	if err != nil || len(less.Trials) != n-1 {
		t.Errorf("one less: %v, %d of %d", err, len(less.Trials), n)
	}
}

// A key that the form leaves out stays as the file has it, one that is there and
// empty goes.
func TestKeysLeftOut(t *testing.T) {
	h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	text := read(t, "testdata/jobs/davit-arm-tried.toml")
	f := url.Values{"base": {base64.StdEncoding.EncodeToString([]byte(text))}}
	if w := send(h, "/job.toml", f); w.Body.String() != text {
		t.Errorf("nothing said, and changed:\n%s", lineDifference(text, w.Body.String()))
	}
	f.Set("tube.wall", "3.5 mm")
	if got := lineDifference(text, send(h, "/job.toml", f).Body.String()); strings.Count(got, "\n") != 2 || strings.Count(got, "wall") != 2 {
		t.Errorf("one key said:\n%s", got)
	}
	f.Set("press.capacity", "")
	if w := send(h, "/job.toml", f); strings.Contains(w.Body.String(), "capacity") {
		t.Errorf("capacity stays:\n%s", w.Body)
	}
}

// In a shop the page fills in what the shop file gives, and its kit is the one that
// make writes there.
func TestInAShop(t *testing.T) {
	s, err := shop.Parse("shop.toml", `
[press]
capacity = "12 t"
bed = "700 mm"
[paper]
size = "A3"
[[block]]
name = "R 360"
radius = "360 mm"
arc = "60 deg"
width = "40 mm"
`)
	if err != nil {
		t.Fatal(err)
	}
	h := page.New(page.Options{Shop: s, Local: true})
	f := demo()
	f.Del("press.capacity")
	got := update(t, h, f)
	if d := got.Defaults; d["press.capacity"] != "12\u00a0t" || d["press.bed"] != "700\u00a0mm" || d["press.stroke"] != "not checked" {
		t.Errorf("left out: %v", d)
	}
	if !strings.Contains(got.Parts["p-numbers"], "12\u00a0t") || !strings.Contains(got.Parts["p-numbers"]+got.Parts["p-setup"], "R 360") {
		t.Errorf("neither the press nor the rack: %s", got.Parts["p-numbers"])
	}
	if body := get(h, "/").Body.String(); !strings.Contains(body, `<option value="R 360">`) {
		t.Error("the rack's block is not proposed")
	}
	if w := send(h, "/kit/job.json", f); !strings.Contains(w.Body.String(), `"paper.size": "A3"`) {
		t.Errorf("not the shop's paper: %s", short(w))
	}
	if w := send(h, "/kit/job.json", with(f, "paper", "A4")); strings.Contains(w.Body.String(), `"paper.size"`) {
		t.Error("the shop's paper over the form's")
	}
}

// A bad job gets 422 with the field and the command line's sentence.
func TestFaults(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	for _, row := range []struct {
		name     string
		change   []string
		field    string
		key      string
		sentence string
	}{
		{"no wall", []string{"tube.wall", "0 mm"}, "tube.wall", "tube.wall", "0 mm is not allowed; it must be more than 0 mm"},
		{"no number", []string{"bend.radius", "much"}, "bend.radius", "bend.radius", ""},
		{"no bore", []string{"tube.wall", "20 mm"}, "tube.wall", "tube.wall", "20 mm leaves no bore; it must be less than 20 mm, half the depth"},
		{"no such metal", []string{"tube.material", "6082-T66"}, "tube.material", "tube.material", ""},
		{"missing", []string{"tube.wall", ""}, "tube.wall", "tube.wall", `missing; write it like wall = "3 mm"`},
		{"no bend", []string{"bend.radius", "", "bend.angle", ""}, "bend.radius", "bend", ""},
		{"one leg", []string{"bend.legs.1", ""}, "bend.legs.0", "bend.legs", ""},
		{"a word", []string{"tube.shape", "oval"}, "tube.shape", "tube.shape", `"oval" is not allowed; it must be "rectangle" or "round"`},
		{"a key that is none", []string{"tube.walls", "3 mm"}, "", "tube.walls", "unknown key; the nearest known key is tube.wall"},
		{"a table that is none", []string{"tubes.wall", "3 mm"}, "", "tubes", ""},
		{"a name that is no key", []string{"Tube wall", "3 mm"}, "", "", "a field of the form has a name that is no key of a job file"},
		{"a press too narrow", []string{"press.supports", "60 mm"}, "press.supports", "press.supports", ""},
		{"second trial", []string{"trial.0.block", "357 mm", "trial.0.travel", "47 mm", "trial.0.filled", "32 deg", "trial.4.block", "357 mm", "trial.4.travel", "-1"}, "trial.4.travel", "trial.travel", ""},
		{"a trial without a reading", []string{"trial.2.block", "357 mm", "trial.2.travel", "47 mm"}, "trial.2.block", "trial", ""},
		{"a trial's chord", []string{"trial.0.block", "357 mm", "trial.0.travel", "47 mm", "trial.0.chord", "200 mm"}, "trial.0.chord", "trial.chord", ""},
		{"two metals", []string{"material.proof", "250 MPa"}, "tube.material", "tube.material", "not allowed together with [material]; keep one of them"},
		{"a damaged base", []string{"base", "%%%"}, "base", "", ""},
	} {
		f := with(demo(), row.change...)
		for _, path := range []string{"/update", "/job.json", "/job.toml", "/kit.zip", "/chart", "/files", "/print", "/kit/block.dxf"} {
			w := send(h, path, f)
			var got page.Fault
			if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != 422 {
				t.Fatalf("%s: %s: %d %s", row.name, path, w.Code, short(w))
			}
			if got.Field != row.field || got.Key != row.key || row.sentence != "" && got.Sentence != row.sentence || got.Sentence == "" {
				t.Errorf("%s: %s: %+v", row.name, path, got)
			}
		}
		// Without a script the whole page says it, beside its field, and shows the last
		// job that could be worked out.
		good := base64.StdEncoding.EncodeToString([]byte(read(t, "testdata/davit-arm.toml")))
		w := send(h, "/", with(f, "good", good))
		if w.Code != 422 || !strings.Contains(w.Body.String(), "356.6") || row.field != "" && row.field != "base" && !strings.Contains(w.Body.String(), `aria-invalid="true"`) {
			t.Errorf("%s: the page: %d", row.name, w.Code)
		}
	}
}

// The kit is what make writes: the golden kit, byte for byte.
func TestKitZip(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	w := send(h, "/kit.zip", demo())
	if w.Code != 200 {
		t.Fatalf("%d %s", w.Code, short(w))
	}
	z, err := zip.NewReader(bytes.NewReader(w.Body.Bytes()), int64(w.Body.Len()))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		name, ok := strings.CutPrefix(f.Name, "davit-arm-kit/")
		if !ok || strings.ContainsAny(name, `/\`) {
			t.Fatalf("a file named %q", f.Name)
		}
		one := send(h, "/kit/"+name, demo())
		if one.Code != 200 || !bytes.Equal(one.Body.Bytes(), got) || !strings.Contains(one.Header().Get("Content-Disposition"), "attachment; filename=\""+name+"\"") {
			t.Errorf("%s by itself: %d, and not the same", name, one.Code)
		}
	}
	sameKit(t, z)
	if again := send(h, "/kit.zip", demo()); !bytes.Equal(again.Body.Bytes(), w.Body.Bytes()) {
		t.Error("the same job gives another zip")
	}
	if w := send(h, "/kit/none.dxf", demo()); w.Code != 404 {
		t.Errorf("no such file: %d", w.Code)
	}
}

// sameKit fails unless a zip holds what make writes for the demo, byte for byte
// and nothing else; a script of testdata compares the program's own two ways.
func sameKit(t *testing.T, z *zip.Reader) {
	t.Helper()
	p := plantest.Read(t, top+"/testdata/davit-arm.toml")
	o, err := (kit.Choices{}).Options(shop.Nothing().Paper, false, quantity.Millimetres)
	if err != nil {
		t.Fatal(err)
	}
	want, err := report.Kit(p, o)
	if err != nil || len(want) != len(z.File) {
		t.Fatalf("%v; %d files, want %d", err, len(z.File), len(want))
	}
	for i, f := range want {
		r, err := z.File[i].Open()
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := io.ReadAll(r); !bytes.Equal(got, f.Data) || z.File[i].Name != "davit-arm-kit/"+f.Name {
			t.Errorf("%s is not what make writes", z.File[i].Name)
		}
	}
}

// Choices of the kit's look are make's, and so are their refusals.
func TestKitChoices(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	if w := send(h, "/kit/block.dxf", with(demo(), "dxf", "r12")); !strings.Contains(w.Body.String(), "AC1009") {
		t.Errorf("no R12: %d", w.Code)
	}
	for name, text := range map[string]string{"paper": "A9", "margin": "wide", "print_scale": "2", "dxf": "2013", "dxf_units": "ft"} {
		w := send(h, "/kit.zip", with(demo(), name, text))
		var got page.Fault
		if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != 422 || got.Field != name || strings.HasPrefix(got.Sentence, "--") {
			t.Errorf("%s: %d %s", name, w.Code, short(w))
		}
	}
	if w := send(h, "/kit.zip", with(demo(), "paper", "100x100")); w.Code != 422 {
		t.Errorf("paper too small for a part: %d", w.Code)
	}
}

// A job that can't be made has numbers and a page that says why, and no kit unless
// it is asked for by force.
func TestCannot(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	f := with(demo(), "press.capacity", "2 t", "press.supports", "450 mm")
	if w := send(h, "/job.json", f); w.Code != 200 || !strings.Contains(w.Body.String(), `"feasible": false`) {
		t.Errorf("numbers: %d", w.Code)
	}
	if w := send(h, "/update", f); w.Code != 200 || !strings.Contains(w.Body.String(), "Stop.") {
		t.Errorf("page: %d %s", w.Code, short(w))
	}
	w := send(h, "/kit.zip", f)
	var got page.Fault
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != 422 || !strings.Contains(got.Sentence, "can't be made as asked") {
		t.Errorf("kit: %d %s", w.Code, short(w))
	}
	if w := send(h, "/kit.zip", with(f, "force", "true")); w.Code != 200 {
		t.Errorf("by force: %d %s", w.Code, short(w))
	}
}

// What a reader has is not sent again; what changed is.
func TestUpdateSendsWhatChanged(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	first := update(t, h, demo())
	if len(first.Parts) < 10 {
		t.Fatalf("%d parts", len(first.Parts))
	}
	if again := update(t, h, with(demo(), "have", first.Have)); len(again.Parts) != 0 {
		t.Errorf("the same job sends %d parts again", len(again.Parts))
	}
	next := update(t, h, with(demo(), "have", first.Have, "block.hole", "14 mm"))
	if _, there := next.Parts["p-part"]; there {
		t.Error("another bolt hole sends the part again")
	}
	if _, there := next.Parts["p-cut"]; !there {
		t.Error("another bolt hole does not send the stack again")
	}
	if whole := get(h, "/"); !strings.Contains(whole.Body.String(), first.Parts["p-numbers"]) {
		t.Error("the page and its update do not say the same numbers")
	}
}

type updated struct {
	Parts    map[string]string
	Have     string
	Marks    map[string]string
	Defaults map[string]string
	Good     string
}

func update(t testing.TB, h http.Handler, f url.Values) updated {
	t.Helper()
	w := send(h, "/update", f)
	var got updated
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != 200 {
		t.Fatalf("%d %s", w.Code, short(w))
	}
	return got
}

// Every key of the job file has a field on the page with a line of help.
func TestEveryKeyHasAField(t *testing.T) {
	body := get(handler(t, "testdata/davit-arm.toml"), "/").Body.String()
	for _, key := range job.Keys() {
		name := key
		if rest, ok := strings.CutPrefix(key, "trial."); ok {
			name = "trial.0." + rest
		}
		one, left := strings.Contains(body, ` name="`+name+`"`), strings.Contains(body, ` name="`+name+`.0"`)
		if !one && !left {
			t.Errorf("no field for %s", key)
		}
		_, help, ok := strings.Cut(body, `id="x-`+name+`">`)
		if text, _, _ := strings.Cut(help, "<"); !ok || len(text) < 5 || !strings.ContainsAny(text[len(text)-1:], ".?") {
			t.Errorf("no help for %s", key)
		}
	}
}

// Every example, from inches to a job that can't be made, has a page.
func TestExamples(t *testing.T) {
	for _, path := range plantest.Examples(t, top) {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		h := page.New(page.Options{Shop: shop.Nothing(), Start: string(text), Local: true})
		w := get(h, "/")
		if w.Code != 200 || !strings.Contains(w.Body.String(), "</html>") {
			t.Errorf("%s: %d", path, w.Code)
		}
		for _, over := range []string{"radius", "wall", "yield", "angle"} {
			w := send(h, "/chart", with(opened(t, h, text), "over", over))
			if w.Code != 200 || strings.Count(w.Body.String(), "<svg") < 2 {
				t.Errorf("%s: chart over the %s: %d, %d pictures", path, over, w.Code, strings.Count(w.Body.String(), "<svg"))
			}
		}
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			if w := send(h, "/update", with(opened(t, h, text), "show_units", u.String(), "view", "small")); w.Code != 200 {
				t.Errorf("%s in %s: %d", path, u, w.Code)
			}
		}
	}
}

// A chart's own place agrees with the plan, and what it hatches can't be made.
func TestLookAgrees(t *testing.T) {
	for _, path := range plantest.Examples(t, top) {
		p := plantest.Read(t, path)
		o, err := plan.Look(p.Job)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case o.Block != p.Nominal.Block || o.Stretch != p.After.OuterStrain:
			t.Errorf("%s: block %v and stretch %v, the plan has %v and %v", path, o.Block, o.Stretch, p.Nominal.Block, p.After.OuterStrain)
		case p.Press != nil && o.Force != p.Press.PeakRubbed:
			t.Errorf("%s: force %v, the plan has %v", path, o.Force, p.Press.PeakRubbed)
		case p.Feasible() && !o.Works:
			t.Errorf("%s can be made, and the chart says no", path)
		}
	}
}

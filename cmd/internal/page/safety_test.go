package page_test

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"overbend/cmd/internal/page"
	"overbend/cmd/internal/shop"
)

func host(name string) func(*http.Request) { return func(r *http.Request) { r.Host = name } }

func header(name, text string) func(*http.Request) {
	return func(r *http.Request) { r.Header.Set(name, text) }
}

// Who asks under a name that is not this machine's gets nothing: a name server of
// someone else can bend any name to this address.
func TestHosts(t *testing.T) {
	local := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	open := page.New(page.Options{Shop: shop.Nothing(), Token: "word", Names: []string{"bench.shop"}})
	for _, row := range []struct {
		host        string
		local, open int
	}{
		{"localhost", 200, 200},
		{"LOCALHOST:7340", 200, 200},
		{"127.0.0.1:7340", 200, 200},
		{"127.0.0.2", 200, 200},
		{"[::1]:7340", 200, 200},
		{"192.168.1.7:7340", 403, 200},
		{"bench.shop:7340", 403, 200},
		{"evil.example", 403, 403},
		{"evil.example:7340", 403, 403},
		{"127.0.0.1.evil.example", 403, 403},
		{"localhost.evil.example:7340", 403, 403},
		{"evil.example:7340:1", 403, 403},
		{"", 403, 403},
	} {
		if w := get(local, "/healthz", host(row.host)); w.Code != row.local {
			t.Errorf("%q here: %d, want %d", row.host, w.Code, row.local)
		}
		if w := get(open, "/word/", host(row.host)); w.Code != row.open {
			t.Errorf("%q elsewhere: %d, want %d", row.host, w.Code, row.open)
		}
	}
}

// A page of another site can't use this one.
func TestOrigins(t *testing.T) {
	h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	for _, row := range []struct {
		name, text string
		want       int
	}{
		{"Origin", "http://localhost:7340", 200},
		{"Origin", "http://localhost:7341", 403},
		{"Origin", "http://evil.example", 403},
		{"Origin", "null", 403},
		{"Sec-Fetch-Site", "same-origin", 200},
		{"Sec-Fetch-Site", "none", 200},
		{"Sec-Fetch-Site", "same-site", 403},
		{"Sec-Fetch-Site", "cross-site", 403},
		{"X-None", "", 200}, // a script of one's own
	} {
		for _, path := range []string{"/job.toml", "/", "/update"} {
			if w := send(h, path, demo(), header(row.name, row.text)); w.Code != row.want {
				t.Errorf("%s: %s: %q: %d, want %d", path, row.name, row.text, w.Code, row.want)
			}
		}
	}
}

// Without the whole address nothing is answered but that it lives.
func TestToken(t *testing.T) {
	h := page.New(page.Options{Shop: shop.Nothing(), Token: "0123456789abcdef"})
	for path, want := range map[string]int{
		"/healthz": 200, "/": 403, "/update": 403, "/0123456789abcde/": 403, "/0123456789abcdef0/": 403, "/assets/page.css": 403,
		"//0123456789abcdef/": 403, "/0123456789abcdef/": 200, "/0123456789abcdef/assets/page.css": 200, "/0123456789abcdef/none": 404,
	} {
		if w := get(h, path); w.Code != want {
			t.Errorf("%s: %d, want %d", path, w.Code, want)
		}
	}
	if w := send(h, "/0123456789abcdef/job.json", demo()); w.Code != 200 {
		t.Errorf("with the word: %d", w.Code)
	}
}

// Every answer, also a refusal, carries what keeps a browser from doing more than
// it should.
func TestHeaders(t *testing.T) {
	h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	for _, w := range []*httptest.ResponseRecorder{
		get(h, "/"), get(h, "/none"), get(h, "/assets/page.js"), get(h, "/", host("evil.example")), send(h, "/update", demo()), send(h, "/kit.zip", demo()), send(h, "/update", url.Values{}),
	} {
		head := w.Result().Header
		for name, want := range map[string]string{
			"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cache-Control": "no-store",
			"Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
		} {
			if got := head.Get(name); got != want {
				t.Errorf("%d: %s: %q", w.Code, name, got)
			}
		}
		if head.Get("Content-Type") == "" {
			t.Errorf("%d without a type", w.Code)
		}
	}
}

// No page holds a style or a script of its own, which the policy would not run.
func TestNothingInline(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	for path, w := range map[string]*httptest.ResponseRecorder{"/": get(h, "/"), "/print": send(h, "/print", demo())} {
		body := strings.ToLower(w.Body.String())
		for _, bad := range []string{" style=", "<style", " onload=", " onclick=", "javascript:", "<script>", " src=\"http", " href=\"http"} {
			if strings.Contains(body, bad) {
				t.Errorf("%s holds %s", path, bad)
			}
		}
		if n := strings.Count(body, "<script"); path == "/" && n != 1 || path != "/" && n != 0 {
			t.Errorf("%s: %d scripts", path, n)
		}
	}
}

// No GET changes or computes anything but the page that it opens with.
func TestMethods(t *testing.T) {
	h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	for _, path := range []string{"/update", "/chart", "/open", "/job.json", "/job.toml", "/kit.zip", "/kit/block.dxf", "/files", "/print"} {
		if w := get(h, path); w.Code != 405 {
			t.Errorf("GET %s: %d", path, w.Code)
		}
	}
	for _, path := range []string{"/healthz", "/assets/page.js"} {
		if w := send(h, path, demo()); w.Code != 405 {
			t.Errorf("POST %s: %d", path, w.Code)
		}
	}
	for _, path := range []string{"/assets/", "/assets/page.html", "/assets/../page.go", "/assets/%2e%2e/page.go", "/assets/paper.css?w=1", "/assets/paper.css?w=a&h=b", "/assets/paper.css?w=1;}&h=1"} {
		if w := get(h, path); w.Code < 300 || strings.Contains(w.Body.String(), "package page") {
			t.Errorf("GET %s: %d", path, w.Code)
		}
	}
}

// Large, broken and odd bodies get an answer and no more.
func TestBodies(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	post := func(path, kind string, body io.Reader) int {
		r := httptest.NewRequest("POST", path, body)
		r.Header.Set("Content-Type", kind)
		r.Host = "localhost"
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		return w.Code
	}
	const form, multi = "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"
	many := strings.Builder{}
	for range 10_001 {
		many.WriteString("tube.width=1&")
	}
	trials := url.Values{}
	for k, v := range demo() {
		trials[k] = v
	}
	for n := range 300 {
		trials.Set("trial."+strings.Repeat("1", 1+n%4)+string(rune('0'+n%10))+".block", "1")
	}
	for _, row := range []struct {
		name, kind, body string
		want             []int
	}{
		{"more than a MB", form, "name=" + strings.Repeat("a", 1<<20), []int{413}},
		{"a MB of fields", form, strings.Repeat("a=1&", 1<<18), []int{413, 400}},
		{"10,001 fields", form, many.String(), []int{400, 422}},
		{"a bad escape", form, "tube.width=%zz", []int{400}},
		{"semicolons", form, "a;b=1", []int{400}},
		{"nothing", form, "", []int{422}},
		{"bytes that are no text", form, "name=%ff%fe%00&tube.width=40", []int{422}},
		{"a key with a line feed", form, "tube.width%0a[x]=40", []int{422}},
		{"a key with quotes", form, "tube.%22width=40", []int{422}},
		{"too deep a key", form, strings.Repeat("a.", 400) + "a=1", []int{422}},
		{"a trial beyond counting", form, "trial.99999999999999999999.block=1", []int{422}},
		{"trials beyond number", form, trials.Encode(), []int{422}},
		{"no multipart", multi, "nothing", []int{400}},
		{"a part cut short", multi, "--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a\"\r\n\r\nname", []int{400}},
		{"a large part", multi, "--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a\"\r\n\r\n" + strings.Repeat("#", 1<<20) + "\r\n--x--\r\n", []int{413}},
		{"another kind", "text/plain", "name=a", []int{422}},
		{"a kind that is none", "a/b/c;;", "name=a", []int{400, 422}},
	} {
		for _, path := range []string{"/", "/update", "/open", "/kit.zip"} {
			code := post(path, row.kind, strings.NewReader(row.body))
			ok := code == 422 // the file that none came with, where that is the first thing wrong
			for _, want := range row.want {
				ok = ok || code == want
			}
			if path != "/open" && code == 422 {
				ok = row.want[0] == 422 || row.want[len(row.want)-1] == 422
			}
			if !ok {
				t.Errorf("%s: %s: %d, want %v", row.name, path, code, row.want)
			}
		}
	}
}

// Whatever stands in a field comes back escaped, in the page and in its parts.
func TestEscaped(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	const bad = `"><script>alert(1)</script><svg onload=x>'&`
	for _, name := range []string{"name", "tube.width", "tube.shape", "tube.material", "drawing.owner", "paper", "over", "view", "trial.0.block", "base", "good"} {
		w := send(h, "/", with(demo(), name, bad))
		if body := w.Body.String(); strings.Contains(body, "<script>alert") || strings.Contains(body, "<svg onload") {
			t.Errorf("%s comes back as it was", name)
		}
	}
	w := send(h, "/update", with(demo(), "name", bad))
	if strings.Contains(w.Body.String(), "<script>alert") && !strings.HasPrefix(w.Header().Get("Content-Type"), "application/json") {
		t.Error("an update holds it")
	}
	got := update(t, h, with(demo(), "name", bad))
	for id, html := range got.Parts {
		if strings.Contains(html, "<script>alert") {
			t.Errorf("%s holds it", id)
		}
	}
	if w := send(h, "/kit.zip", with(demo(), "name", `../../"a`+"b")); w.Code != 200 || strings.Contains(w.Header().Get("Content-Disposition"), "..") || strings.Count(w.Header().Get("Content-Disposition"), `"`) != 2 {
		t.Errorf("a name that climbs: %d %s", w.Code, w.Header().Get("Content-Disposition"))
	}
}

// Forms of random names and texts: an answer, never a panic, and what is taken
// reads back the same.
func TestRandomForms(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	names := []string{"name", "units", "tube.width", "tube.wall", "tube.corner", "tube.material", "bend.radius", "bend.legs.0", "bend.legs.1", "bend.legs.2", "ends.cut.0", "ends.trim.1",
		"block.lighten", "press.friction", "trial.0.block", "trial.3.travel", "trial.0.x", "material.proof", "tube", "a.b.c", "trial", "over", "view", "base", "have", "paper"}
	rapid.Check(t, func(t *rapid.T) {
		f := with(demo())
		for range rapid.IntRange(1, 4).Draw(t, "fields") {
			name := rapid.OneOf(rapid.SampledFrom(names), rapid.StringN(0, 12, 40)).Draw(t, "name")
			text := rapid.OneOf(rapid.StringN(0, 20, 60), rapid.SampledFrom([]string{"", "0", "-1", "1e999", "40", "1/8 in", `"`, "'", "\\", "#", "[1,2]", "true", "nan", "\x00", "\xff"})).Draw(t, "text")
			f.Set(name, text)
		}
		for _, path := range []string{"/update", "/job.toml"} {
			w := send(h, path, f)
			if w.Code != 200 && w.Code != 422 {
				t.Fatalf("%s: %d %s", path, w.Code, short(w))
			}
			if path == "/job.toml" && w.Code == 200 {
				// The same form with the saved file for its base saves the same.
				if again := send(h, path, f); again.Body.String() != w.Body.String() {
					t.Fatalf("saved twice, not the same")
				}
			}
		}
	})
}

// More than can be done at once is turned away, and what is done is right.
func TestShedsLoad(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	const clients = 200
	var wait sync.WaitGroup
	codes := make(chan int, clients)
	for range clients {
		wait.Go(func() { codes <- send(h, "/kit.zip", demo()).Code })
	}
	wait.Wait()
	close(codes)
	count := map[int]int{}
	for c := range codes {
		count[c]++
	}
	if count[200] == 0 || count[200]+count[503] != clients || runtime.GOMAXPROCS(0) <= 8 && count[503] == 0 {
		t.Errorf("of %d at once: %v", clients, count)
	}
	if w := send(h, "/kit.zip", demo()); w.Code != 200 {
		t.Errorf("afterwards: %d", w.Code)
	}
}

// No goroutine and no file is left behind by any of it.
func TestLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	t.Setenv("TMPDIR", dir)
	h := page.New(page.Options{Shop: shop.Nothing(), Local: true})
	before := runtime.NumGoroutine()
	get(h, "/")
	for _, path := range []string{"/", "/update", "/chart", "/kit.zip", "/print", "/files", "/job.toml"} {
		send(h, path, demo())
	}
	opened(t, h, append([]byte("name = \"a\"\n"), bytes.Repeat([]byte("# a file that is not small\n"), 25_000)...))
	for range 100 {
		if runtime.NumGoroutine() <= before {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	if n := runtime.NumGoroutine(); n > before {
		t.Errorf("%d goroutines more", n-before)
	}
	left, err := filepath.Glob(filepath.Join(dir, "*"))
	if hidden, _ := filepath.Glob(filepath.Join(dir, ".*")); err != nil || len(left)+len(hidden) != 0 {
		t.Errorf("left behind: %v %v", left, hidden)
	}
	if _, err := os.Stat(dir); err != nil {
		t.Error(err)
	}
}

// Jobs that can't be made, each stopped by another step: every part of the page has
// an answer, the page says stop, and there is no kit.
func TestJobsThatStop(t *testing.T) {
	h := handler(t, "testdata/davit-arm.toml")
	for what, change := range map[string][]string{
		"no leg for the cut":       {"bend.legs.1", "0"},
		"no legs at all":           {"bend.legs.0", "0", "bend.legs.1", "0"},
		"metal breaks":             {"bend.radius", "120 mm"},
		"press too weak":           {"press.capacity", "1 t"},
		"stroke too short":         {"press.stroke", "5 mm"},
		"no room for supports":     {"press.bed", "200 mm"},
		"block at hand is no good": {"block.existing", "2000 mm"},
		"bent too far":             {"bend.angle", "170 deg"},
		"plate too small":          {"cutting.sheet.0", "100 mm", "cutting.sheet.1", "100 mm"},
	} {
		f := with(demo(), change...)
		for _, path := range []string{"/", "/update", "/print", "/job.json", "/job.toml", "/kit.zip", "/kit/part.svg"} {
			if w := send(h, path, f); w.Code != 200 && w.Code != 422 {
				t.Errorf("%s: %s: %d %s", what, path, w.Code, short(w))
			}
		}
	}
	if w := send(h, "/update", with(demo(), "bend.legs.1", "0")); !strings.Contains(w.Body.String(), "There is no part with these legs") {
		t.Errorf("%d %s", w.Code, short(w))
	}
}

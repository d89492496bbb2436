package page_test

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/page"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/shop"
)

// A real browser drives the page where OVERBEND_BROWSER names the script of
// axe-core: .ci/run does, and a browser that is missing then fails. Pictures of
// the states go into the folder OVERBEND_PICTURES, what is printed to the file
// OVERBEND_PRINTED.

// window is one browser on one served page.
type window struct {
	ctx     context.Context
	address string
	axe     string
}

// openWindow starts a browser, or skips the test where none is asked for.
func openWindow(t *testing.T, start string) *window {
	t.Helper()
	path := os.Getenv("OVERBEND_BROWSER")
	if path == "" {
		t.Skip("OVERBEND_BROWSER names no axe-core: the browser is driven by .ci/run")
	}
	axe, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	s := httptest.NewServer(page.New(page.Options{Shop: shop.Nothing(), Start: start, Local: true}))
	t.Cleanup(s.Close)
	o := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox, chromedp.DisableGPU, chromedp.WindowSize(1600, 1000), chromedp.Flag("disable-dev-shm-usage", true))
	o = append(o, chromedp.WSURLReadTimeout(2*time.Minute))
	alloc, end := chromedp.NewExecAllocator(context.Background(), o...)
	t.Cleanup(end)
	ctx, end := chromedp.NewContext(alloc)
	t.Cleanup(end)
	w := &window{ctx: ctx, address: s.URL + "/", axe: string(axe)}
	w.do(t, chromedp.Navigate("about:blank")) // starts it, before there is a time limit
	return w
}

// tab opens another tab of the same browser.
func (w *window) tab(t *testing.T) *window {
	t.Helper()
	ctx, end := chromedp.NewContext(w.ctx)
	t.Cleanup(end)
	return &window{ctx: ctx, address: w.address, axe: w.axe}
}

func (w *window) do(t *testing.T, a ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	ran(t, w, func() (chromedp.Void, error) { return chromedp.Void{}, chromedp.Do(w.ctx, a...) })
}

// ran returns what a step comes to, or ends the test where the browser does not
// answer. The browser's own context must not have the time limit.
func ran[T any](t *testing.T, _ *window, f func() (T, error)) T {
	t.Helper()
	type result struct {
		v   T
		err error
	}
	done := make(chan result, 1)
	go func() {
		v, err := f()
		done <- result{v, err}
	}()
	select {
	case r := <-done:
		if r.err != nil {
			t.Fatal(r.err)
		}
		return r.v
	case <-time.After(2 * time.Minute):
		t.Fatal("the browser does not answer")
	}
	panic("not reached")
}

// got returns what an action gives.
func got[T any](t *testing.T, w *window, a chromedp.Action[T]) T {
	t.Helper()
	return ran(t, w, func() (T, error) { return chromedp.Run(w.ctx, a) })
}

// call sends a command of the browser's protocol.
func call[P, R any](t *testing.T, w *window, c cdp.Command[P, R], p P) R {
	t.Helper()
	return ran(t, w, func() (R, error) { return chromedp.Call(w.ctx, c, p) })
}

// js does something on the page.
func (w *window) js(t *testing.T, code string) {
	t.Helper()
	w.do(t, chromedp.Evaluate[chromedp.Void](code))
}

// visit opens the page and waits until it is worked out for this window's width.
func (w *window) visit(t *testing.T) {
	t.Helper()
	w.do(t, chromedp.Navigate(w.address), chromedp.WaitReady(chromedp.CSS("#p-numbers")))
	w.settled(t)
}

// settled waits until the last change has its answer.
func (w *window) settled(t *testing.T) {
	t.Helper()
	w.wait(t, `document.documentElement.dataset.settled === "true"`)
}

// wait waits until an expression of the page is true.
func (w *window) wait(t *testing.T, js string) {
	t.Helper()
	for range 600 {
		if got(t, w, chromedp.Evaluate[bool]("Boolean("+js+")")) {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("never: %s\nstatus: %s", js, w.text(t, "status"))
}

// text returns the text of an element.
func (w *window) text(t *testing.T, id string) string {
	t.Helper()
	s := got(t, w, chromedp.Evaluate[string](fmt.Sprintf("(document.getElementById(%q) || {}).innerText || ''", id)))
	return strings.ReplaceAll(s, "\u00a0", " ")
}

// number returns the value of an expression.
func (w *window) number(t *testing.T, js string) float64 {
	t.Helper()
	return got(t, w, chromedp.Evaluate[float64](js, chromedp.EvalAwaitPromise))
}

// typeIn puts a text into a field as a person does, key by key.
func (w *window) typeIn(t *testing.T, name, text string) {
	t.Helper()
	w.js(t, fmt.Sprintf(`{const e = document.getElementById(%q); const d = e.closest("details"); if (d) d.open = true; e.focus(); if (e.select) e.select();}`, name))
	if text == "" {
		w.do(t, chromedp.KeyEvent(kb.Delete))
	} else {
		w.do(t, chromedp.KeyEvent(text))
	}
	w.settled(t)
}

// click presses an element as a mouse does.
func (w *window) click(t *testing.T, css string) {
	t.Helper()
	w.do(t, chromedp.ScrollIntoView(chromedp.CSS(css)), chromedp.Click(chromedp.CSS(css)))
}

// choose takes one of a field's words.
func (w *window) choose(t *testing.T, name, word string) {
	t.Helper()
	w.js(t, fmt.Sprintf(`{const e = document.getElementById(%q); e.value = %q; e.dispatchEvent(new Event("input", {bubbles: true}));}`, name, word))
	w.settled(t)
}

// accessible fails where axe-core finds anything, and keeps a picture.
func (w *window) accessible(t *testing.T, state string) {
	t.Helper()
	w.js(t, w.axe+";0")
	found := got(t, w, chromedp.Evaluate[string](`axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then(r => JSON.stringify(r.violations.map(v => v.id + ": " + v.help + " " + v.nodes.map(n => n.target.join(" ") + " " + n.failureSummary).slice(0, 3).join("; "))))`, chromedp.EvalAwaitPromise))
	var list []string
	if err := json.Unmarshal([]byte(found), &list); err != nil {
		t.Fatal(err)
	}
	for _, v := range list {
		t.Errorf("%s: %s", state, v)
	}
	w.picture(t, state)
}

// picture keeps a picture of what is in sight, where a folder for it is named.
func (w *window) picture(t *testing.T, state string) {
	t.Helper()
	dir := os.Getenv("OVERBEND_PICTURES")
	if dir == "" {
		return
	}
	png := got(t, w, chromedp.CaptureScreenshot())
	if err := os.WriteFile(filepath.Join(dir, state+".png"), png, 0o666); err != nil {
		t.Fatal(err)
	}
}

// ten returns the numbers that the page should show for a job file.
func ten(t *testing.T, text string) []report.Figure {
	t.Helper()
	j, err := job.Parse("", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.New(j)
	if err != nil {
		t.Fatal(err)
	}
	return report.Ten(p, p.Job.Units())
}

// shows fails unless the page shows the numbers of a job file.
func (w *window) shows(t *testing.T, text string) {
	t.Helper()
	got := w.text(t, "p-numbers")
	for _, f := range ten(t, text) {
		own, other, _ := strings.Cut(quantity.Plain(f.Value), " (")
		if !strings.Contains(got, "\n"+own+"\n") || !strings.Contains(got, other) {
			t.Errorf("%s: %s is not in %q", f.Name, f.Value, got)
		}
	}
}

// saved returns the job file of the page as it stands.
func (w *window) saved(t *testing.T) string {
	t.Helper()
	return got(t, w, chromedp.Evaluate[string](`fetch("job.toml", {method: "POST", body: new URLSearchParams([...document.getElementById("job").elements].filter(e => e.name && e.type !== "checkbox").map(e => [e.name, e.disabled ? "" : e.value]))}).then(r => r.text())`, chromedp.EvalAwaitPromise))
}

// The demo typed in as a person would, from the starter's page, in mm and then
// another tube in inches.
func TestBrowserTyping(t *testing.T) {
	w := openWindow(t, "")
	w.visit(t)
	for _, f := range [][2]string{{"tube.corner", "0"}, {"filler.alloy", "158"}, {"press.capacity", "20 t"}, {"tube.wall", "3 mm"}, {"bend.angle", "33"}, {"ends.cut.1", "22.5"}} {
		w.typeIn(t, f[0], f[1])
	}
	w.shows(t, read(t, "testdata/davit-arm.toml"))
	w.accessible(t, "demo")

	w.choose(t, "units", "in")
	for _, f := range [][2]string{{"tube.width", "1-1/2"}, {"tube.depth", "1 1/2 in"}, {"tube.wall", `1/8"`}, {"tube.material", "6061-T6 B221"}, {"bend.radius", "20 in"}, {"bend.legs.0", "10"}, {"bend.legs.1", "250 mm"}, {"strip.thickness", "1/4 in"}, {"block.plate", "3/8"}} {
		w.typeIn(t, f[0], f[1])
	}
	text := w.saved(t)
	w.shows(t, text)
	if !strings.Contains(text, `units = "in"`) || !strings.Contains(text, "1 1/2 in") || !strings.Contains(w.text(t, "p-numbers"), " in") {
		t.Errorf("not in inches:\n%s", text)
	}
	w.accessible(t, "inches")
	w.choose(t, "tube.shape", "round")
	w.typeIn(t, "tube.diameter", "1-1/2 in")
	w.shows(t, w.saved(t))
}

// A mistake stands beside its field in the command line's words, the last good
// drawing stays, and putting it right takes it away. So does a job that can't be
// made.
func TestBrowserErrors(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	w.visit(t)
	before := w.text(t, "p-numbers")
	w.typeIn(t, "tube.wall", "0 mm")
	if got := w.text(t, "e-tube.wall"); got != "0 mm is not allowed; it must be more than 0 mm" {
		t.Errorf("beside the field: %q", got)
	}
	if got := w.text(t, "p-numbers"); got != before {
		t.Error("the last good numbers are gone")
	}
	if w.text(t, "stale") == "" || w.number(t, `document.querySelectorAll("[aria-invalid]").length`) != 1 {
		t.Error("not said that it is the last good one")
	}
	w.accessible(t, "mistake")
	w.typeIn(t, "tube.wall", "3 mm")
	if w.text(t, "e-tube.wall")+w.text(t, "stale") != "" || w.number(t, `document.querySelectorAll("[aria-invalid]").length`) != 0 {
		t.Error("put right, and still marked")
	}
	w.typeIn(t, "press.supports", "450 mm")
	w.typeIn(t, "press.capacity", "2 t")
	if !strings.Contains(w.text(t, "p-alerts"), "Stop.") {
		t.Errorf("alerts: %q", w.text(t, "p-alerts"))
	}
	w.accessible(t, "stopped")
	w.click(t, "#list-files")
	w.wait(t, `document.getElementById("take-error").textContent.includes("can't be made as asked")`)
}

// The slider shows the press at any travel, by mouse and by key, and plays.
func TestBrowserSlider(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	w.visit(t)
	p := plantest.Read(t, top+"/testdata/davit-arm.toml")
	u := p.Job.Units()
	last := p.Press.Final
	if got := w.number(t, `+document.getElementById("travel").value`); math.Abs(got-last.Travel) > 1e-6 {
		t.Errorf("at first at %v, want the last position %v", got, last.Travel)
	}
	d := func(id string) string {
		return got(t, w, chromedp.Evaluate[string](fmt.Sprintf(`document.getElementById(%q).getAttribute("d")`, id)))
	}
	end := d("m-tube")
	for _, s := range p.Press.Schedule {
		w.js(t, fmt.Sprintf(`{const e = document.getElementById("travel"); e.value = %v; e.dispatchEvent(new Event("input", {bubbles: true}));}`, s.Travel))
		reads := strings.ReplaceAll(w.textOf(t, ".reads"), "\u00a0", " ")
		for _, v := range []quantity.Value{quantity.Reading.Of(float64(s.Loaded)), quantity.Reading.Of(float64(s.Filled)), quantity.Reading.Of(float64(s.Melted))} {
			if want := quantity.Plain(u.Show(v)); !strings.Contains(reads, want) {
				t.Errorf("at %v: %s is not in %q", s.Travel, want, reads)
			}
		}
		if want := quantity.Plain(u.Show(quantity.Force.Of(s.Force))); s.Force > 1e4 && !strings.Contains(reads, want) {
			t.Errorf("at %v: %s is not in %q", s.Travel, want, reads)
		}
	}
	w.do(t, chromedp.Focus(chromedp.CSS("#travel")), chromedp.KeyEvent(kb.PageDown))
	if got, want := w.number(t, `+document.getElementById("travel").value`), last.Travel-5; math.Abs(got-want) > 0.01 {
		t.Errorf("a page down: %v, want %v", got, want)
	}
	if d("m-tube") == end {
		t.Error("the tube does not move")
	}
	w.accessible(t, "slider")
	w.click(t, ".play")
	time.Sleep(300 * time.Millisecond)
	w.wait(t, `+document.getElementById("travel").value !== `+fmt.Sprint(last.Travel-5))
	w.js(t, `document.querySelector(".play").getAttribute("aria-pressed") === "true" && document.querySelector(".play").click()`)

	// Who wants no motion gets stop after stop.
	call(t, w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: "reduce"}}})
	w.js(t, `{const e = document.getElementById("travel"); e.value = 0; e.dispatchEvent(new Event("input", {bubbles: true}));}`)
	w.click(t, ".play")
	first := w.number(t, `+document.getElementById("travel").value`)
	time.Sleep(300 * time.Millisecond)
	if again := w.number(t, `+document.getElementById("travel").value`); again != first || math.Abs(first-p.Press.Schedule[1].Travel) > 0.01 {
		t.Errorf("moves from %v to %v, want %v", first, again, p.Press.Schedule[1].Travel)
	}
}

func (w *window) textOf(t *testing.T, selector string) string {
	t.Helper()
	return got(t, w, chromedp.Evaluate[string](fmt.Sprintf("document.querySelector(%q).innerText", selector)))
}

// A trial is added and its fit shows with the next block over the old one.
func TestBrowserTrial(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	w.visit(t)
	for _, f := range [][2]string{{"press.supports", "450 mm"}, {"trial.0.block", "357 mm"}, {"trial.0.travel", "47 mm"}} {
		w.typeIn(t, f[0], f[1])
	}
	w.typeIn(t, "trial.0.filled", "29 deg")
	w.shows(t, w.saved(t))
	if got := w.text(t, "p-trials"); !strings.Contains(got, "Next block") || !strings.Contains(got, "29 deg") {
		t.Errorf("trials: %q", got)
	}
	if w.number(t, `document.querySelectorAll("#svg-over").length`) != 1 {
		t.Error("no block over the old one")
	}
	w.click(t, "#add-trial")
	w.typeIn(t, "trial.1.block", "357 mm")
	if got := w.text(t, "e-trial.1.block"); !strings.Contains(got, "travel or loaded is missing") {
		t.Errorf("beside the second trial: %q", got)
	}
	w.accessible(t, "trial")
}

// The kit saved from the page is the kit of make, byte for byte; a file is looked
// at before it is saved.
func TestBrowserTakesTheKit(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	dir := t.TempDir()
	yes := true
	ran(t, w, func() (cdp.Empty, error) {
		return chromedp.CallBrowser(w.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: browser.SetDownloadBehaviorBehaviorAllowAndName, DownloadPath: dir, EventsEnabled: &yes})
	})
	w.visit(t)
	done := make(chan string, 4)
	if err := chromedp.ListenBrowser(w.ctx, func(e any) {
		if e, ok := e.(*browser.EventDownloadProgress); ok && e.State == browser.DownloadProgressStateCompleted {
			done <- e.GUID
		}
	}); err != nil {
		t.Fatal(err)
	}
	w.click(t, `[formaction="kit.zip"]`)
	var name string
	select {
	case name = <-done:
	case <-time.After(time.Minute):
		t.Fatal("no download: " + w.text(t, "take-error"))
	}
	data, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	sameKit(t, z)
	w.click(t, "#list-files")
	w.wait(t, `document.querySelectorAll("#p-files li").length === `+fmt.Sprint(len(z.File)))
	w.click(t, `.look[data-name="block.dxf"]`)
	w.wait(t, `(i => i.complete && i.naturalWidth > 100)(document.querySelector("#preview img"))`)
	w.accessible(t, "files")
}

// Without a script: submit and see, mistake and correction, a chosen file.
func TestBrowserWithoutScript(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	call(t, w, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	w.do(t, chromedp.Navigate(w.address))
	fill := func(name, text string) {
		w.do(t, chromedp.SetValue(chromedp.CSS(`[name="`+name+`"]`), text), chromedp.Click(chromedp.CSS(".go button")))
		time.Sleep(300 * time.Millisecond)
		w.do(t, chromedp.WaitReady(chromedp.CSS(".word")))
	}
	html := func() string {
		return got(t, w, chromedp.OuterHTML(chromedp.CSS("#work")))
	}
	fill("tube.wall", "4 mm")
	if s := html(); strings.Contains(s, "356.6") || !strings.Contains(s, "<svg") {
		t.Error("nothing was worked out anew")
	}
	fill("tube.wall", "0 mm")
	said := got(t, w, chromedp.Text(chromedp.CSS(`[id="e-tube.wall"]`)))
	if s := html(); said != "0 mm is not allowed; it must be more than 0 mm" || !strings.Contains(s, "<svg") || !strings.Contains(s, "the last job that could be worked out") {
		t.Errorf("mistake: %q", said)
	}
	w.picture(t, "no-script")
	fill("tube.wall", "3 mm")
	if s := html(); !strings.Contains(s, "356.6") {
		t.Error("not put right")
	}
}

// Who has no mouse gets everywhere, sees where, and can do the job.
func TestBrowserKeyboard(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	w.visit(t)
	seen := map[string]bool{}
	for range 140 {
		w.do(t, chromedp.KeyEvent(kb.Tab))
		at := got(t, w, chromedp.Evaluate[string](`(e => e === document.body ? "" : (e.id || e.getAttribute("formaction") || e.className || e.tagName) + (getComputedStyle(e).outlineStyle === "none" ? " unseen" : ""))(document.activeElement)`))
		if strings.HasSuffix(at, " unseen") && !strings.HasPrefix(at, "work") {
			t.Errorf("no one sees that %s has the keys", at)
		}
		seen[at] = true
		if at == "list-files" {
			break
		}
	}
	for _, id := range []string{"skip", "file", "tube.width", "bend.legs.1", "SUMMARY", "travel", "play", "over", "kit.zip", "list-files"} {
		if !seen[id] {
			t.Errorf("the keys never get to %s", id)
		}
	}
	w.do(t, chromedp.Focus(chromedp.CSS("#name")), chromedp.KeyEvent(kb.Tab+kb.Tab+kb.Tab), chromedp.KeyEvent("50"))
	w.settled(t)
	if got := w.saved(t); !strings.Contains(got, `"50"`) {
		t.Errorf("typed by key:\n%s", got)
	}
}

// Two tabs are two jobs; reload and back keep each.
func TestBrowserKeepsTheJob(t *testing.T) {
	a := openWindow(t, read(t, "testdata/davit-arm.toml"))
	b := a.tab(t)
	a.visit(t)
	b.visit(t)
	a.typeIn(t, "tube.wall", "4 mm")
	b.typeIn(t, "tube.wall", "5 mm")
	for w, want := range map[*window]string{a: "4 mm", b: "5 mm"} {
		wall := func() string {
			return got(t, w, chromedp.Value(chromedp.CSS(`[id="tube.wall"]`)))
		}
		w.do(t, chromedp.Reload(), chromedp.WaitReady(chromedp.CSS("#p-numbers")))
		w.settled(t)
		if got := wall(); got != want {
			t.Errorf("reloaded: %q, want %q", got, want)
		}
		numbers := w.text(t, "p-numbers")
		w.shows(t, w.saved(t))
		w.do(t, chromedp.Navigate("about:blank"), chromedp.NavigateBack(), chromedp.WaitReady(chromedp.CSS("#p-numbers")))
		w.settled(t)
		if got := wall(); got != want || w.text(t, "p-numbers") != numbers {
			t.Errorf("back: %q, want %q", got, want)
		}
	}
}

// The first load is small and nothing jumps.
func TestBrowserFirstLoad(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	var bytes atomic.Int64
	if err := chromedp.Listen(w.ctx, func(e any) {
		if e, ok := e.(*network.EventLoadingFinished); ok {
			bytes.Add(int64(e.EncodedDataLength))
		}
	}); err != nil {
		t.Fatal(err)
	}
	call(t, w, network.Enable, network.EnableParams{})
	w.visit(t)
	time.Sleep(500 * time.Millisecond)
	shift := w.number(t, `new Promise(done => { let s = 0; new PerformanceObserver(l => { for (const e of l.getEntries()) s += e.value; }).observe({type: "layout-shift", buffered: true}); setTimeout(() => done(s), 300); })`)
	t.Logf("first load %d bytes, layout shift %.4f", bytes.Load(), shift)
	if n := bytes.Load(); n > 150_000 || n < 20_000 {
		t.Errorf("%d bytes", n)
	}
	if shift > 0.001 {
		t.Errorf("layout shift %v", shift)
	}
}

// Every size and light that people have, looked at by axe-core and by whoever
// opens the pictures.
func TestBrowserSizesAndLights(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	for _, size := range []struct{ wide, high int64 }{{360, 2400}, {800, 2000}, {1600, 1400}} {
		for _, light := range []string{"light", "dark", "grey", "forced"} {
			if size.wide == 800 && light != "light" {
				continue
			}
			features := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: map[bool]string{true: "dark", false: "light"}[light == "dark"]}}
			if light == "forced" {
				features = append(features, &emulation.MediaFeature{Name: "forced-colors", Value: "active"})
			}
			w.do(t, chromedp.EmulateViewport(size.wide, size.high))
			call(t, w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: features})
			sight := emulation.SetEmulatedVisionDeficiencyTypeNone
			if light == "grey" {
				sight = emulation.SetEmulatedVisionDeficiencyTypeAchromatopsia
			}
			call(t, w, emulation.SetEmulatedVisionDeficiency, emulation.SetEmulatedVisionDeficiencyParams{Type: sight})
			w.visit(t)
			if got := w.number(t, "document.documentElement.scrollWidth"); got > float64(size.wide) {
				t.Errorf("%d wide: %v needs scrolling", size.wide, got)
			}
			state := fmt.Sprintf("%d-%s", size.wide, light)
			w.accessible(t, state)
			if light == "light" {
				for i, id := range []string{"h-range", "h-setup", "h-press", "h-chart"} {
					w.js(t, fmt.Sprintf(`document.getElementById(%q).scrollIntoView()`, id))
					w.picture(t, fmt.Sprintf("%s-%d", state, i+1))
				}
			}
		}
	}
}

// What is printed from the print view measures what is written beside it.
func TestBrowserPrints(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	body := send(page.New(page.Options{Shop: shop.Nothing(), Local: true}), "/print", demo()).Body.String()
	w.visit(t)
	w.js(t, `{const f = document.getElementById("job"); f.action = "print"; HTMLFormElement.prototype.submit.call(f);}`)
	w.wait(t, `location.pathname === "/print" && document.readyState === "complete"`)
	pdf := got(t, w, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize(), chromedp.PDFPrintBackground()))
	if want := strings.Count(body, `<div class="sheet`); bytes.Count(pdf, []byte("/Type /Page\n"))+bytes.Count(pdf, []byte("/Type /Page/"))+bytes.Count(pdf, []byte("/Type /Page ")) != want {
		t.Errorf("%d pages were to be printed", want)
	}
	if path := os.Getenv("OVERBEND_PRINTED"); path != "" {
		if err := os.WriteFile(path, pdf, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	// The bar of the first part's page: 100 mm are 100 * 96/25.4 pixels of CSS.
	call(t, w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	for i := range strings.Count(body, `<div class="sheet`) {
		got := w.number(t, fmt.Sprintf(`(s => s.getBoundingClientRect().width / s.viewBox.baseVal.width)(document.querySelectorAll(".sheet svg")[%d])`, i))
		if want := 96 / 25.4; math.Abs(got/want-1) > 1e-3 {
			t.Errorf("page %d: %v pixels to the mm, want %v", i+1, got, want)
		}
	}
}

// A file that is chosen fills the form, is saved as it was, and a bad one says
// why.
func TestBrowserOpensAFile(t *testing.T) {
	w := openWindow(t, "")
	w.visit(t)
	path, err := filepath.Abs(top + "/testdata/jobs/davit-arm-tried.toml")
	if err != nil {
		t.Fatal(err)
	}
	w.do(t, chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{path}))
	text := read(t, "testdata/jobs/davit-arm-tried.toml")
	w.wait(t, `document.getElementById("trial.1.block") && document.documentElement.dataset.settled === "true"`)
	w.shows(t, text)
	if got := w.saved(t); got != text {
		t.Errorf("saved otherwise:\n%s", lineDifference(text, got))
	}
	bad := filepath.Join(t.TempDir(), "bad.toml")
	if err := os.WriteFile(bad, []byte("name = \"x\nwall = 3"), 0o666); err != nil {
		t.Fatal(err)
	}
	w.do(t, chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{bad}))
	w.wait(t, `document.getElementById("e-file").textContent.includes("not valid TOML")`)
	w.shows(t, text)
}

// The README's pictures: the page on a desk and on a telephone.
func TestBrowserReadmePictures(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	w.do(t, chromedp.EmulateViewport(1280, 900))
	w.visit(t)
	w.picture(t, "desk")
	w.do(t, chromedp.EmulateViewport(360, 760))
	w.visit(t)
	w.js(t, `{const e = document.getElementById("travel"); e.value = 30; e.dispatchEvent(new Event("input", {bubbles: true})); document.getElementById("h-press").scrollIntoView();}`)
	w.picture(t, "phone")
	if w.number(t, `document.querySelectorAll(".motion svg").length`) != 1 {
		t.Error("no press")
	}
}

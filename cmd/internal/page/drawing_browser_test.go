package page_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// Part, fixture, block and section are folded, and drawn when they are opened.
func TestBrowserFolds(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	w.visit(t)
	if n := w.number(t, `document.querySelectorAll("#work details[open]").length`); n != 0 {
		t.Errorf("%v folds are open at first", n)
	}
	w.typeIn(t, "bend.legs.0", "300 mm")
	for _, id := range []string{"points", "fixture", "outline", "section"} {
		w.js(t, fmt.Sprintf(`document.querySelector("details:has(#p-%s) summary").focus()`, id))
		w.do(t, chromedp.KeyEvent(kb.Enter))
		w.wait(t, fmt.Sprintf(`document.querySelector("details:has(#p-%s)").open`, id))
		w.settled(t)
		if w.number(t, fmt.Sprintf(`(s => s ? s.getBoundingClientRect().width : 0)(document.querySelector("#p-%s svg"))`, id)) < 200 {
			t.Errorf("%s is not to be seen", id)
		}
	}
	w.wait(t, `document.getElementById("p-points").innerText.includes("300")`)
	if s := w.text(t, "p-section"); !strings.Contains(s, "of its stiffness") {
		t.Errorf("section: %q", s)
	}
	w.js(t, `document.getElementById("h-part").scrollIntoView()`)
	w.accessible(t, "folds")
}

// A drawing is dropped, the second bend picked by keyboard: its numbers are in the
// form, marked until they are changed, and kept over a reload.
func TestBrowserDrawing(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	w.visit(t)
	w.js(t, fmt.Sprintf(`{const d = new DataTransfer(); d.items.add(new File([%q], "two.dxf"));
for (const kind of ["dragover", "drop"]) document.querySelector(".ask").dispatchEvent(new DragEvent(kind, {dataTransfer: d, bubbles: true, cancelable: true}));}`, twoTubes(t)))
	w.wait(t, `document.querySelectorAll(".pick").length === 2`)
	w.settled(t)
	value := func(name string) string {
		return got(t, w, chromedp.Evaluate[string](fmt.Sprintf(`document.getElementById(%q).value`, name)))
	}
	if value("bend.radius") != "420 mm" || w.text(t, "f-bend.radius") != "" || !strings.Contains(w.text(t, "found"), "2 bends") {
		t.Errorf("filled before one was picked: %s, %q, %q", value("bend.radius"), w.text(t, "f-bend.radius"), w.text(t, "found"))
	}
	w.accessible(t, "drawing-found")
	w.do(t, chromedp.Focus(chromedp.CSS("#drawing")))
	for range 8 {
		w.do(t, chromedp.KeyEvent(kb.Tab))
		if w.number(t, `+(document.activeElement.dataset.pick || 0)`) == 2 {
			break
		}
	}
	w.do(t, chromedp.KeyEvent(kb.Enter))
	w.wait(t, `document.getElementById("bend.radius").value === "300 mm"`)
	w.settled(t)
	filled := func() {
		t.Helper()
		for name, want := range map[string]string{"bend.radius": "300 mm", "bend.angle": "60 deg", "bend.legs.0": "200 mm", "bend.legs.1": "150 mm", "tube.depth": "50 mm", "tube.width": "50 mm", "ends.cut.1": "20 deg"} {
			if value(name) != want || w.text(t, "f-"+name) == "" {
				t.Errorf("%s: %q, want %q; marked %q", name, value(name), want, w.text(t, "f-"+name))
			}
		}
		if value("tube.wall") != "3 mm" || w.text(t, "f-tube.wall") != "" {
			t.Errorf("the wall is not drawn: %q, %q", value("tube.wall"), w.text(t, "f-tube.wall"))
		}
	}
	filled()
	w.shows(t, w.saved(t))
	if w.number(t, `document.querySelectorAll('.hit.on[data-pick="2"]').length + document.querySelectorAll(".hit.on").length`) != 2 {
		t.Error("the picture does not show which is picked")
	}
	w.accessible(t, "drawing-picked")
	w.do(t, chromedp.Reload(), chromedp.WaitReady(chromedp.CSS("#p-numbers")))
	w.settled(t)
	filled()
	w.typeIn(t, "bend.radius", "310 mm")
	if w.text(t, "f-bend.radius") != "" || w.text(t, "f-bend.angle") == "" {
		t.Error("what was changed is still marked, or what was not is not")
	}

	// By the file's button, and by a click into the picture; then what is no drawing.
	two := filepath.Join(t.TempDir(), "two.dxf")
	bad := filepath.Join(t.TempDir(), "bad.dxf")
	for path, data := range map[string][]byte{two: twoTubes(t), bad: []byte("nothing\n")} {
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	w.do(t, chromedp.SetUploadFiles(chromedp.CSS("#drawing"), []string{two}))
	w.wait(t, `document.querySelectorAll(".hit").length === 2`)
	w.js(t, `document.querySelector('.hit[data-pick="1"]').dispatchEvent(new MouseEvent("click", {bubbles: true}))`)
	w.wait(t, `document.getElementById("bend.radius").value === "420 mm"`)
	w.settled(t)
	w.do(t, chromedp.SetUploadFiles(chromedp.CSS("#drawing"), []string{bad}))
	w.wait(t, `document.getElementById("e-drawing").textContent !== ""`)
	if value("bend.radius") != "420 mm" || w.number(t, `document.querySelectorAll(".pick").length`) != 0 {
		t.Error("what is no drawing changes the job, or leaves the old one in sight")
	}
	w.accessible(t, "drawing-refused")
	large := filepath.Join(t.TempDir(), "large.dxf")
	if err := os.WriteFile(large, make([]byte, 9<<20), 0o666); err != nil {
		t.Fatal(err)
	}
	w.do(t, chromedp.SetUploadFiles(chromedp.CSS("#drawing"), []string{large}))
	w.wait(t, `document.getElementById("e-drawing").textContent.includes("more than 8 MB")`)
}

// What is new, at every size and in every light.
func TestBrowserDrawingSizes(t *testing.T) {
	w := openWindow(t, read(t, "testdata/davit-arm.toml"))
	path, err := filepath.Abs(top + "/testdata/drawings/office.dxf")
	if err != nil {
		t.Fatal(err)
	}
	for _, wide := range []int64{360, 800, 1600} {
		for _, light := range []string{"light", "dark", "grey"} {
			w.do(t, chromedp.EmulateViewport(wide, 1800))
			call(t, w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: map[bool]string{true: "dark", false: "light"}[light == "dark"]}}})
			sight := emulation.SetEmulatedVisionDeficiencyTypeNone
			if light == "grey" {
				sight = emulation.SetEmulatedVisionDeficiencyTypeAchromatopsia
			}
			call(t, w, emulation.SetEmulatedVisionDeficiency, emulation.SetEmulatedVisionDeficiencyParams{Type: sight})
			w.visit(t)
			w.do(t, chromedp.SetUploadFiles(chromedp.CSS("#drawing"), []string{path}))
			w.wait(t, `document.getElementById("f-bend.radius").textContent !== ""`)
			w.settled(t)
			w.js(t, `for (const d of document.querySelectorAll("#work details")) d.open = true`)
			w.settled(t)
			if got := w.number(t, "document.documentElement.scrollWidth"); got > float64(wide) {
				t.Errorf("%d wide: %v needs scrolling", wide, got)
			}
			state := fmt.Sprintf("drawing-%d-%s", wide, light)
			w.accessible(t, state)
			for i, id := range []string{"h-numbers", "h-part", "h-cut", "h-after"} {
				w.js(t, fmt.Sprintf(`document.getElementById(%q).scrollIntoView()`, id))
				w.picture(t, fmt.Sprintf("%s-%d", state, i+1))
			}
		}
	}
}

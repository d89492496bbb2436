package main

import (
	"bytes"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the demo's golden kit; then look at each picture")

const (
	demo   = "../../testdata/davit-arm.toml"
	golden = "../../testdata/davit-arm-kit"

	shopFolder = "../../testdata/shop"
)

// goldens are the files of the demo's kit that are kept: a cut file, the
// numbers, the page that show prints, and the pictures that the README shows.
func goldens() []string {
	return []string{
		"block.dxf", "job.json", "show.txt", "sheet-front.svg", "sheet-back.svg", "block.svg", "blank.svg",
		"template-inside.svg", "template-inside-page-1.svg", "part.svg", "fixture.svg",
	}
}

// What the demo comes out as. The goldens protect what users build upon, above
// all names, layers, keys and sizes: no figure may move unnoticed. Numbers may
// differ by rounding, as they do from one processor to another.
func TestGoldenKit(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "kit")
	if code := run([]string{"make", demo, "-o", dir}, io.Discard, os.Stderr); code != exitDone {
		t.Fatalf("make: exit code %d", code)
	}
	var page bytes.Buffer
	if code := run([]string{"show", demo, "--all"}, &page, os.Stderr); code != exitDone {
		t.Fatalf("show: exit code %d", code)
	}
	if err := os.WriteFile(filepath.Join(dir, "show.txt"), page.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	same(t, dir, golden, goldens())
}

// The example of a shop: a job of five lines, on a block of the rack and of a metal
// that was learned.
func TestGoldenShop(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "kit")
	if code := run([]string{"make", shopFolder + "/second-arm.toml", "--shop", shopFolder + "/shop.toml", "-o", dir}, io.Discard, os.Stderr); code != exitDone {
		t.Fatalf("make: exit code %d", code)
	}
	same(t, dir, shopFolder, []string{"sheet-back.svg"})
}

// same compares files of a kit with those kept, or keeps them.
func same(t *testing.T, dir, golden string, names []string) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(golden, 0o777); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range names {
		got, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if *update {
			if err := os.WriteFile(filepath.Join(golden, name), got, 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(filepath.Join(golden, name))
		if err != nil {
			t.Fatal(err)
		}
		sameText(t, name, string(got), string(want))
	}
}

// sameText compares line by line: words must be equal, numbers within 1e-6 of
// each other or one unit of the last decimal. The ledger's digests hang on the
// last bit of every number and do not count.
func sameText(t *testing.T, name, got, want string) {
	t.Helper()
	digests := regexp.MustCompile(`[0-9a-f]{64}`)
	g := strings.Split(digests.ReplaceAllString(got, "*"), "\n")
	w := strings.Split(digests.ReplaceAllString(want, "*"), "\n")
	numbers := regexp.MustCompile(`-?\d+(\.\d+)?(e[-+]\d+)?`)
	for i := range max(len(g), len(w)) {
		a, b := "no line", "no line"
		if i < len(g) {
			a = g[i]
		}
		if i < len(w) {
			b = w[i]
		}
		if a == b {
			continue
		}
		if squeezed(numbers.ReplaceAllString(a, "#")) != squeezed(numbers.ReplaceAllString(b, "#")) || !near(numbers.FindAllString(a, -1), numbers.FindAllString(b, -1)) {
			t.Errorf("%s:%d:\n got %.200s\nwant %.200s", name, i+1, a, b)
			return
		}
	}
}

// squeezed makes one blank of many: a number with one digit less moves its
// column.
func squeezed(s string) string { return strings.Join(strings.Fields(s), " ") }

func near(got, want []string) bool {
	for i, w := range want {
		a, err := strconv.ParseFloat(got[i], 64)
		if err != nil {
			return false
		}
		b, err := strconv.ParseFloat(w, 64)
		if err != nil {
			return false
		}
		unit := 1.0
		if _, decimals, ok := strings.Cut(w, "."); ok {
			unit = math.Pow(10, -float64(len(decimals)))
		}
		// A whole number counts things: it must be the same. One with a point is a
		// size that came out whole here.
		if unit == 1 && strings.Contains(got[i], ".") {
			unit = 1e-9
		}
		if unit == 1 && a != b || !(math.Abs(a-b) <= max(1e-6*math.Abs(b), 1.01*unit, 1e-12)) {
			return false
		}
	}
	return true
}

// The program's own share of the time of a run, without the process around it.
func BenchmarkShow(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if run([]string{"show", demo, "--all"}, io.Discard, io.Discard) != exitDone {
			b.Fatal("show does not work")
		}
	}
}

func BenchmarkMake(b *testing.B) {
	root := b.TempDir()
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		n++
		// A fresh folder each, as when a job is made for the first time.
		if run([]string{"make", demo, "-o", filepath.Join(root, strconv.Itoa(n))}, io.Discard, io.Discard) != exitDone {
			b.Fatal("make does not work")
		}
	}
}

func BenchmarkMakeAgain(b *testing.B) {
	dir := filepath.Join(b.TempDir(), "kit")
	b.ReportAllocs()
	for b.Loop() {
		if run([]string{"make", demo, "-o", dir}, io.Discard, io.Discard) != exitDone {
			b.Fatal("make does not work")
		}
	}
}

package lettering

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"pgregory.net/rapid"

	"overbend/geom"
)

// Source: fpdf's own copy of the Adobe Core 14 metrics and of the cp1252 map,
// read by code that shares nothing with this package.
func TestMetricsAgreeWithCoreFonts(t *testing.T) {
	for _, bold := range []bool{false, true} {
		pdf := fpdf.New("P", "pt", "A4", "")
		style := ""
		if bold {
			style = "B"
		}
		pdf.SetFont("Helvetica", style, 1000)
		for c := 32; c < 256; c++ {
			want := pdf.GetStringWidth(string([]byte{byte(c)}))
			table := &helvetica
			if bold {
				table = &helveticaBold
			}
			if got := float64(table[c-32]); math.Abs(got-want) > 0.5 {
				t.Errorf("bold %v code %#x: width %g, core font has %g", bold, c, got, want)
			}
		}
	}

	translate := fpdf.New("P", "pt", "A4", "").UnicodeTranslatorFromDescriptor("cp1252")
	for r := rune(0x20); r < 0x2200; r++ {
		if r >= 0x7F && r < 0xA0 {
			continue // control characters: the map sends some of them to unused codes
		}
		want := translate(string(r))
		got, ok := Windows1252(r)
		if ok && (len(want) != 1 || want[0] != got) {
			t.Errorf("%q: code %#x, cp1252 map has %q", r, got, want)
		}
		// The map answers a dot for what it lacks.
		if !ok && want != "." {
			t.Errorf("%q is not known, cp1252 map has %q", r, want)
		}
	}
}

func TestWidth(t *testing.T) {
	// Source: AFM widths of Helvetica by hand: R 722, space 278, digits 556,
	// plusminus 584, degree 400, Oslash 778, multiply 584, endash 556.
	for _, row := range []struct {
		words string
		units float64
	}{
		{"", 0},
		{"R 420", 722 + 278 + 3*556},
		{"33° ±1", 2*556 + 400 + 278 + 584 + 556},
		{"Ø13 × 4", 778 + 3*556 + 2*278 + 584},
		{"5–20", 3*556 + 556},
		{"…", 1000},
	} {
		want := row.units / 1000 * 3.5 / 0.718
		if got := (Face{Height: 3.5}).Width(row.words); math.Abs(got-want) > 1e-9 {
			t.Errorf("%q: width %g mm, want %g", row.words, got, want)
		}
	}
}

// Broken lines hold the same words in the same order and none is too long.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		face := Face{rapid.Float64Range(2, 7).Draw(t, "height"), rapid.Bool().Draw(t, "bold")}
		text := strings.Join(rapid.SliceOfN(rapid.StringMatching("[a-z]{1,9}[;,\u00a0]?[0-9a-z]{0,9}"), 0, 40).Draw(t, "words"), " ")
		most := rapid.Float64Range(10, 200).Draw(t, "width")
		indent := rapid.Float64Range(0, most).Draw(t, "indent")
		lines := face.Wrap(text, most, indent)
		rest := text
		for i, l := range lines {
			room := most
			if i == 0 {
				room -= indent
			}
			if w := face.Width(l); w > room && len([]rune(l)) > 1 {
				t.Fatalf("line %q is %.1f mm, room is %.1f mm", l, w, room)
			}
			broken := rest[:len(l)] == l && len(rest) > len(l) && rest[len(l)] != ' ' && l != ""
			rest = strings.TrimPrefix(rest[len(l):], " ")
			next, _, _ := strings.Cut(rest, " ")
			if broken {
				_, tail := cutLast(l)
				next = tail + next
			}
			switch {
			case next == "" || i == len(lines)-1:
			case broken && face.Width(next) <= most:
				t.Fatalf("%q was broken though it fits a line of %g mm: %q", next, most, lines)
			case !broken && face.Width(next) <= most && face.Width(strings.TrimPrefix(l+" "+next, " ")) <= room:
				t.Fatalf("%q would have had room behind %q", next, l)
			}
		}
		if rest != "" {
			t.Fatalf("%q is left of %q in %q", rest, text, lines)
		}
	})
	face := Face{Height: Ordinary}
	unit := face.Width("a")
	for _, row := range []struct {
		words        string
		most, indent float64
		want         []string
	}{
		{"", 10, 0, []string{""}},
		{"   ", 10, 0, []string{""}},
		{"aa  bb", 100, 0, []string{"aa bb"}},
		{"aaa", 2.5 * unit, 0, []string{"aa", "a"}},
		{"aaa", 0, 0, []string{"a", "a", "a"}},
		{"aa aa", 2.5 * unit, 0, []string{"aa", "aa"}},
		{"aa aa", 2 * unit, 0, []string{"aa", "aa"}},
		{"aa aa", 2.5 * unit, unit, []string{"", "aa", "aa"}},
		{"aaa", 2.5 * unit, 0.3 * unit, []string{"", "aa", "a"}}, // a small indent counts
		{"a aa", 2.5 * unit, unit, []string{"a", "aa"}},
		{"aaaaa", 2.5 * unit, unit, []string{"", "aa", "aa", "a"}},
		{"a aaaaa a", 3.5 * unit, 0, []string{"a", "aaa", "aa a"}},
		{"a 10\u00a0mm", 3.5 * unit, 0, []string{"a", "10\u00a0", "mm"}},
		{"R 10\u00a0mm", face.Width("R 10 mm") - 0.1, 0, []string{"R", "10\u00a0mm"}},
		{"R\u00a010\u00a0mm", face.Width("R 10 mm"), 0, []string{"R\u00a010\u00a0mm"}},
	} {
		if got := face.Wrap(row.words, row.most, row.indent); strings.Join(got, "|") != strings.Join(row.want, "|") {
			t.Errorf("%q in %.1f mm, %.1f less in front: %q, want %q", row.words, row.most, row.indent, got, row.want)
		}
	}
}

// cutLast returns what is before a line's last space and what is after it.
func cutLast(l string) (before, after string) {
	i := strings.LastIndexByte(l, ' ')
	return l[:max(i, 0)], l[i+1:]
}

func TestFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		most := rapid.Float64Range(0, 60).Draw(t, "width")
		face := Face{3.5, rapid.Bool().Draw(t, "bold")}
		got := face.Fit(text, most)
		if w := face.Width(got); w > most {
			t.Errorf("%q is %.1f mm, room is %.1f mm", got, w, most)
		}
		if face.Width(text) <= most {
			if got != text {
				t.Errorf("%q fits and became %q", text, got)
			}
			return
		}
		// One letter more would have been too much.
		kept := []rune(strings.TrimSuffix(got, "…"))
		if r := []rune(text); got != "" && len(kept) < len(r) && !strings.HasSuffix(string(r[:len(kept)+1]), " ") {
			if face.Width(string(r[:len(kept)+1])+"…") <= most {
				t.Errorf("%q became %q, there was room for %q", text, got, string(r[len(kept)]))
			}
		}
		if got == "" && face.Width("…") <= most {
			t.Errorf("%q left nothing in %.1f mm", text, most)
		}
	})
}

// What just has room is kept, the ellipsis alone too.
func TestFitExactly(t *testing.T) {
	face := Face{Height: 3.5}
	for _, row := range []struct {
		words string
		most  float64
		want  string
	}{
		{"davMM", face.Width("davMM"), "davMM"},
		{"davMM", face.Width("davMM") - 1e-9, "dav…"},
		{"davMM", face.Width("dav…"), "dav…"},
		{"davMM", face.Width("dav…") - 1e-9, "da…"},
		{"davMM", face.Width("…"), "…"},
		{"davMM", face.Width("…") - 1e-9, ""},
		{"da MMM", face.Width("da …"), "da…"},
		{"dav@@", face.Width("dav@@") - 1e-9, "dav@…"}, // an @ is wider than an ellipsis
		{"W", face.Width("W") - 1e-9, ""},
		{"WW", face.Width("WW") - 1e-9, "…"},
		{"", 0, ""},
	} {
		if got := face.Fit(row.words, row.most); got != row.want {
			t.Errorf("%q in %g mm: %q, want %q", row.words, row.most, got, row.want)
		}
	}
}

// By hand: an M is 833 thousandths wide, capitals are 718 high, and what hangs
// below takes three tenths of them.
func TestBox(t *testing.T) {
	want := geom.Rect{Min: geom.Pt(0, -1.5), Max: geom.Pt(2*5*833./718, 5)}
	if got := (Face{Height: 5}).Box("MM"); got.Min.Dist(want.Min) > 1e-12 || got.Max.Dist(want.Max) > 1e-12 {
		t.Errorf("box %v, want %v", got, want)
	}
	if l, b := (Face{Height: 3.5}).Width("bold"), (Face{Height: 3.5, Bold: true}).Width("bold"); b <= l {
		t.Errorf("bold is %g mm, light %g", b, l)
	}
}

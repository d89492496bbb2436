package dxf

import (
	"cmp"
	"math"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/encoding/charmap"
	"pgregory.net/rapid"

	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

func TestWords(t *testing.T) {
	for _, c := range []struct{ words, page, want, plain string }{
		{"davit-arm", "", "davit-arm", ""},
		{"33°", "", "33%%d", ""},
		{"33º", "", "33%%d", ""},
		{"⌀13 Ø13 ø9 BJØRN", "", "%%c13 %%c13 %%c9 BJ\xd8RN", "%%c13 %%c13 %%c9 BJORN"},
		{"±0.5", "", "%%p0.5", ""},
		{"40×40×3, R½″ – 2 mm²", "", "40x40x3, R1/2\" - 2 mm2", ""},
		{"Größe, naïve", "", "Gr\xf6\xdfe, na\xefve", "Groesse, naive"},
		{"50 % of 20%", "", "50 % of 20%", ""},
		{"a%%d", "", "a%%%%%%d", ""}, // two percent signs and a d, not a degree sign
		{"5%°", "", "5%%%%%d", ""},
		{"x^Jy", "", "x^ Jy", ""},
		{`\U+00B0`, "", "/U+00B0", ""},
		{"two\r\nlines\tand", "", "two  lines and", ""},
		{"\xff\x80", "", "??", ""},
		{"長い 🛥", "", "?? ?", ""},
		{"€ ™ ∂", "", "\x80 \x99 \\U+2202", `\U+20AC \U+2122 \U+2202`}, // no plain spelling
		// Codes of the Windows code pages from their tables.
		{"Łódź – Žižkov", "ANSI_1250", "\xa3\xf3d\x9f - \x8ei\x9ekov", "Lodz - Zizkov"},
		{"Жж № 3 ЩёЯ ×××××××××", "ANSI_1251", "\xc6\xe6 \xb9 3 \xd9\xb8\xdf xxxxxxxxx", "Zhzh No 3 ShcheIa xxxxxxxxx"},
		{"Άξονας", "ANSI_1253", "\xa2\xee\xef\xed\xe1\xf2", "Axonas"},
		{"İığŞ", "ANSI_1254", "\xdd\xfd\xf0\xde", "IigS"},
		{"Šķēde", "ANSI_1257", "\xd0\xed\xe7de", "Skede"},
		{"Hồng ẞ", "", `H\U+1ED3ng \U+1E9E`, "Hong SS"},
		{"Łódź Ж", "ANSI_1250", "\xa3\xf3d\x9f \\U+0416", "Lodz Zh"},
		{"ЖЩ ó", "ANSI_1251", "\xc6\xd9 \\U+00F3", "ZhShch o"},
	} {
		page := alphabetOf(c.words, false)
		if want := cmp.Or(c.page, "ANSI_1252"); page.name != want {
			t.Errorf("%q: code page %s, want %s", c.words, page.name, want)
		}
		if got, _ := page.encoded(c.words); got != c.want {
			t.Errorf("%q: %q, want %q", c.words, got, c.want)
		}
		if got, _ := alphabetOf(c.words, true).encoded(c.words); got != cmp.Or(c.plain, c.want) {
			t.Errorf("%q in a plain file: %q, want %q", c.words, got, cmp.Or(c.plain, c.want))
		}
	}
}

// Names as passports and maps have them, sources: ICAO Doc 9303-3 section 6 B and
// ISO 843, from memory. A Greek mu may be a micro, and is spelled like one: a μm that
// became a mm would be worse than a wrong letter.
func TestSpelled(t *testing.T) {
	for words, want := range map[string]string{
		"Стрела шлюпбалки Щёкино":       "Strela shliupbalki Shchekino",
		"объём, ЭЦ, хорь, Йод, фы":      "ob'em, ETs, khor', Iod, fy",
		"Київ Їжак Ґанок Єва":           "Kiiv Izhak Ganok Ieva",
		"Ђорђе Љубљана Њ Ћ Ј ѓ ќ ѕ џ ў": "Dorde Ljubljana Nj C J g k dz dz u",
		"Βραχίονας Ὀδυσσεύς":            "Vrachionas Odysseys",
		"ΞΨΘ ωζηκμπφγλ":                 "XPsTh ozikupfgl",
		"ĐđĦħıĸĿŀŁłŊŋØøŦŧÐð":            "DdHhikLlLlNnOoTtDd",
	} {
		if got, _ := alphabetOf("", true).encoded(words); got != want {
			t.Errorf("%q is spelled %q, want %q", words, got, want)
		}
	}
	// A small letter is spelled small, and none with nothing.
	for r := rune('А'); r <= 'я'; r++ {
		s := spelled(r)
		if s == "" || unicode.IsLower(r) && s != strings.ToLower(s) || unicode.IsUpper(r) && s != "'" && !unicode.IsUpper(rune(s[0])) {
			t.Errorf("%c is spelled %q", r, s)
		}
	}
}

// Any words read back as they are lettered, signs of the trade apart, by code
// that shares nothing with the writer; a plain file's are ASCII, and shown no
// wider than the drawing has room for.
func TestWordsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.OneOf(
			rapid.StringOf(rapid.RuneFrom(nil, unicode.Latin, unicode.Greek, unicode.Cyrillic)),
			rapid.StringMatching(`[ a-zŁłЖщΩ木%^°±⌀]*`), rapid.String(),
			rapid.StringOfN(rapid.RuneFrom([]rune("ựếὈẞ Жa ")), 30, 80, -1),
		).Draw(t, "words")
		f := file{Options: Options{Version: rapid.SampledFrom([]Version{R2000, R12, R12Plain}).Draw(t, "version")}}
		f.letter(drawing.Drawing{Shapes: []drawing.Shape{drawing.Text{Words: words}}})
		text := drawing.Text{At: geom.Pt(3, 4), Words: words, Height: 5, Anchor: drawing.Anchor(rapid.IntRange(0, 2).Draw(t, "anchor")), Angle: 0.3}
		lettered := lettering.Lettered(words)
		got, seen, at := "", "", start(text)
		for _, p := range f.pieces(text) {
			out := f.words(p.Words)
			if strings.ContainsFunc(out, func(r rune) bool { return r < ' ' || r > '~' }) && f.face == stickFace || len(out) > longestText {
				t.Fatalf("%q is written %q", words, out)
			}
			k := f.squeeze(p)
			_, shown := f.letters.encoded(p.Words)
			if w := k * p.Face().Width(shown); !(k > 0 && k <= 1) || w > p.Width()+1e-9 || k < 1 && w < p.Width()-1e-9 {
				t.Fatalf("%q is %g mm wide, shown %q %g by %g", p.Words, p.Width(), shown, w, k)
			}
			// What stands between two pieces is a space.
			gap := start(p).Sub(at).Norm() / p.Face().Width(" ")
			if n := math.Round(gap); math.Abs(gap-n) > 1e-6 {
				t.Fatalf("a piece of %q stands %g spaces off", words, gap)
			} else if n > 0 && len(lettered) > len(got) {
				got += strings.Repeat(" ", int(n))
				seen += strings.Repeat(" ", int(n))
			}
			at = start(p).Add(geom.Polar(p.Width(), p.Angle))
			got += decoded(t, out, f.letters.page)
			seen += shown
		}
		if f.Version == R12Plain {
			return
		}
		want := ""
		for _, r := range lettered {
			if s := spelled(r); r >= 0xa0 && !unicode.IsLetter(r) && s != "" && !strings.ContainsRune("°⌀±№", r) {
				want += s
				continue
			}
			want += string(r)
		}
		want = strings.NewReplacer("\u00a0", " ", `\`, "/", "º", "°").Replace(want)
		got, want = strings.TrimRight(got, " "), strings.TrimRight(want, " ")
		for _, d := range "0123456789" {
			want = strings.NewReplacer("Ø"+string(d), "⌀"+string(d), "ø"+string(d), "⌀"+string(d)).Replace(want)
		}
		if seen = strings.TrimRight(seen, " "); got != want || seen != want {
			t.Fatalf("%q reads back as %q, shown as %q, want %q", words, got, seen, want)
		}
	})
}

// A text that takes more than a reader does is broken behind a space, or where it
// has none as late as can be, and stays where it was.
func TestPieces(t *testing.T) {
	word := strings.Repeat("ự", 20) // 7 characters each
	for _, row := range []struct {
		words string
		want  []string
	}{
		{word, []string{word}},
		{word + strings.Repeat("ự", 15), []string{word + strings.Repeat("ự", 15)}}, // 245
		{word + strings.Repeat("ự", 16), []string{word + strings.Repeat("ự", 15), "ự"}},
		{word + " " + word + " " + word, []string{word + " ", word + " ", word}},
		{word + " ab " + word, []string{word + " ab ", word}},
		{word + " " + word + " a b", []string{word + " ", word + " a b"}}, // a rest that fits is not broken
		{word + " ab " + strings.Repeat("ự", 16), []string{word + " ab ", strings.Repeat("ự", 16)}},
		{word + " ab " + strings.Repeat("c", 107), []string{word + " ab ", strings.Repeat("c", 107)}},
		{word + " ab" + strings.Repeat("c", 107), []string{word + " ab" + strings.Repeat("c", 107)}},
		{word + strings.Repeat(" ", 111), []string{word + strings.Repeat(" ", 110)}},
	} {
		for _, anchor := range []drawing.Anchor{drawing.Left, drawing.Middle, drawing.Right} {
			text := drawing.Text{At: geom.Pt(7, 9), Words: row.words, Height: 5, Anchor: anchor}
			f := file{letters: alphabetOf("", false)}
			x := 7 - []float64{0, 0.5, 1}[anchor]*text.Width()
			var got []string
			for _, p := range f.pieces(text) {
				if at := start(p); math.Abs(at.X-x) > 1e-9 || at.Y != 9 {
					t.Errorf("%q, anchor %d: piece %q at %v, want x %g", row.words, anchor, p.Words, at, x)
				}
				x += p.Width()
				got = append(got, p.Words)
			}
			if strings.Join(got, "|") != strings.Join(row.want, "|") {
				t.Errorf("%q in pieces %q, want %q", row.words, got, row.want)
			}
		}
	}
}

// decoded reads a text string as the published reference has it.
func decoded(t *rapid.T, s string, page *charmap.Charmap) string {
	var out []rune
	for s != "" {
		switch {
		case strings.HasPrefix(s, "%%%"):
			out, s = append(out, '%'), s[3:]
		case strings.HasPrefix(s, "%%"):
			r, ok := map[byte]rune{'d': '°', 'c': '⌀', 'p': '±'}[s[2]]
			if !ok {
				t.Fatalf("code in %q", s)
			}
			out, s = append(out, r), s[3:]
		case strings.HasPrefix(s, "^ "):
			out, s = append(out, '^'), s[2:]
		case strings.HasPrefix(s, `\U+`):
			r := rune(0)
			for _, c := range s[3:7] {
				r = r<<4 + rune(strings.IndexRune("0123456789ABCDEF", c))
			}
			out, s = append(out, r), s[7:]
		default:
			out, s = append(out, page.DecodeByte(s[0])), s[1:]
		}
	}
	return string(out)
}

package pdf

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"io"
	"math"
	"reflect"
	"strings"
	"testing"
	"unicode"
	"unicode/utf16"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/encoding/charmap"
	"pgregory.net/rapid"

	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// page of one line of text.
func line(words string, bold bool) Document {
	d := drawing.Drawing{Page: geom.Rect{Max: geom.Pt(210, 297)}}
	d.Add(drawing.Text{At: geom.Pt(20, 50), Words: words, Height: 3.5, Bold: bold, Angle: 20 * geom.Degree})
	return Document{Title: words, Pages: []drawing.Drawing{d}}
}

// letters draws words of the scripts that can be lettered, and others.
func letters() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.StringOf(rapid.RuneFrom(nil, unicode.Latin, unicode.Greek, unicode.Cyrillic)),
		rapid.StringMatching(`[a-z ()\\±÷µ·¯−⌀ЖжŁłΩω№€木]*`),
		rapid.String(),
	)
}

// What stands on a page is what is lettered, each piece where the last one ends,
// in a code page or as UTF-16.
func TestLettersReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words, bold := letters().Draw(t, "words"), rapid.Bool().Draw(t, "bold")
		if words == "" {
			return
		}
		face := lettering.Face{Height: 3.5, Bold: bold}
		_, texts := interpret(t, contents(t, write(t, line(words, bold)))[0])
		var got strings.Builder
		for _, s := range texts {
			at := geom.Pt(20, 50).Add(geom.Polar(face.Width(got.String()), 20*geom.Degree))
			if math.Abs(s.m[4]-at.X) > 1e-4 || math.Abs(s.m[5]-at.Y) > 1e-4 {
				t.Fatalf("a piece of %q stands at %g, %g, want %v", words, s.m[4], s.m[5], at)
			}
			if !s.second {
				out, err := charmap.Windows1252.NewDecoder().Bytes(s.codes)
				if err != nil {
					t.Fatal(err)
				}
				got.Write(out)
				continue
			}
			var u []uint16
			for i := 0; i+1 < len(s.codes); i += 2 {
				u = append(u, binary.BigEndian.Uint16(s.codes[i:]))
			}
			got.WriteString(string(utf16.Decode(u)))
		}
		want := strings.NewReplacer("⌀", "Ø", "−", "-").Replace(lettering.Lettered(words))
		if got.String() != want {
			t.Fatalf("%q reads back as %q, want %q", words, got.String(), want)
		}
	})
}

// Every letter of the second face has the outline that the font has for it, by the
// map from codes to shapes that the file carries; and no font is in a file that
// needs none. Source: x/image reads both fonts, pdfcpu the file.
func TestEmbedded(t *testing.T) {
	api.DisableConfigDir()
	for _, bold := range []bool{false, true} {
		const words = "Łódź Žižkov Iğdır Hồng стрела шлюпбалки Ґґ Ўў ДЖЩЪЫ βραχίονας Ὀδυσσεύς ±0,5 № 3"
		b := write(t, line(words, bold))
		if err := api.Validate(bytes.NewReader(b), model.NewDefaultConfiguration()); err != nil {
			t.Fatalf("not valid: %v", err)
		}
		ttf := liberationsansregular.TTF
		if bold {
			ttf = liberationsansbold.TTF
		}
		original, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		glyphs, file := packed(t, b)
		if len(file) > 60_000 {
			t.Errorf("%d bytes of font for a few letters", len(file))
		}
		cut, err := sfnt.Parse(file)
		if err != nil {
			t.Fatal(err)
		}
		for run, core := range lettering.Runs(words) {
			for _, r := range run {
				var x, y sfnt.Buffer
				g, err := original.GlyphIndex(&x, r)
				if core || err != nil {
					continue
				}
				want, err := original.LoadGlyph(&x, g, fixed.I(2048), nil)
				if err != nil {
					t.Fatal(err)
				}
				got, err := cut.LoadGlyph(&y, sfnt.GlyphIndex(binary.BigEndian.Uint16(glyphs[2*r:])), fixed.I(2048), nil)
				if err != nil || !reflect.DeepEqual(got, want) || len(want) == 0 && r != ' ' {
					t.Errorf("%c: outline %v, the font has %v (%v)", r, got, want, err)
				}
			}
		}
		for range 3 {
			if !bytes.Equal(b, write(t, line(words, bold))) {
				t.Error("two runs differ")
			}
		}
	}
	if b := write(t, line("Größe 40 × 40 ±1° – €", true)); bytes.Contains(b, []byte("FontFile")) {
		t.Error("a font is embedded that no letter needs")
	}
}

// packed returns the map from codes to glyphs and the font of a file with one.
func packed(t *testing.T, pdf []byte) (glyphs, file []byte) {
	t.Helper()
	for _, s := range bytes.Split(pdf, []byte("/FlateDecode"))[1:] {
		_, s, _ = bytes.Cut(s, []byte("stream\n"))
		r, err := zlib.NewReader(bytes.NewReader(s))
		if err != nil {
			t.Fatal(err)
		}
		out, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		glyphs, file = file, out
	}
	return glyphs, file
}

// The fonts stay as they are, whatever a writer does with them.
func TestFontsUnchanged(t *testing.T) {
	before := [2][]byte{bytes.Clone(liberationsansregular.TTF), bytes.Clone(liberationsansbold.TTF)}
	write(t, line("Łódź", false))
	write(t, line("Łódź", true))
	if !bytes.Equal(before[0], liberationsansregular.TTF) || !bytes.Equal(before[1], liberationsansbold.TTF) {
		t.Error("a font has changed")
	}
}

func BenchmarkSecondFace(b *testing.B) {
	for b.Loop() {
		if err := Write(io.Discard, line("стрела", false)); err != nil {
			b.Fatal(err)
		}
	}
}

package dxf_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/dxf/dxftest"
	"overbend/geom"
)

func rect(x0, y0, x1, y1 float64) geom.Path {
	return geom.Rect{Min: geom.Pt(x0, y0), Max: geom.Pt(x1, y1)}.Path()
}

func ring(r drawing.Role, x, y, radius float64) drawing.Shape {
	return drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(x, y), Radius: radius}, Role: r}
}

func TestLint(t *testing.T) {
	outer := drawing.Stroke{Path: rect(0, 0, 100, 50), Role: drawing.CutOuter}
	stroke := func(r drawing.Role, p geom.Path) drawing.Shape { return drawing.Stroke{Path: p, Role: r} }
	text := func(r drawing.Role, words string, height float64) drawing.Shape {
		return drawing.Text{At: geom.Pt(1, 1), Words: words, Height: height, Role: r}
	}
	line := func(pts ...geom.Point) geom.Path {
		p := geom.Start(pts[0])
		for _, q := range pts[1:] {
			p = p.LineTo(q)
		}
		return p
	}
	closed := func(p geom.Path) geom.Path { p.Closed = true; return p }
	// Two semicircles on a short neck: the box test alone would let them pass.
	cup := geom.Start(geom.Pt(20, 10)).LineTo(geom.Pt(40, 10)).BulgeTo(geom.Pt(20, 10), 1).Close()

	for _, c := range []struct {
		name   string
		shapes []drawing.Shape
		want   string // "" accepts
	}{
		{"outline alone", []drawing.Shape{outer}, ""},
		{"disc", []drawing.Shape{ring(drawing.CutOuter, 5, 5, 5)}, ""},
		{"hole", []drawing.Shape{outer, ring(drawing.CutInner, 50, 25, 24.9)}, ""},
		{"hole before outline", []drawing.Shape{ring(drawing.CutInner, 50, 25, 5), outer}, ""},
		{"two parts", []drawing.Shape{outer, stroke(drawing.CutOuter, rect(101, 0, 150, 50)), ring(drawing.CutInner, 125, 25, 5)}, ""},
		{"mark runs over the edge", []drawing.Shape{outer, stroke(drawing.Mark, line(geom.Pt(-5, 25), geom.Pt(105, 25)))}, ""},
		{"note line", []drawing.Shape{outer, stroke(drawing.Note, rect(-5, -5, 105, 55))}, ""},

		{"nothing", nil, "no outline to cut"},
		{"only a hole", []drawing.Shape{ring(drawing.CutInner, 0, 0, 5)}, "no outline to cut"},
		{"paper role", []drawing.Shape{outer, stroke(drawing.Thin, rect(1, 1, 2, 2))}, "shape 2 (paper): its role is for paper"},
		{"pointer", []drawing.Shape{outer, &drawing.Ring{}}, "can't be written"},
		{"nil", []drawing.Shape{outer, nil}, "can't be written"},
		{"open outline", []drawing.Shape{stroke(drawing.CutOuter, line(geom.Pt(0, 0), geom.Pt(9, 0), geom.Pt(0, 9)))}, "shape 1 (outline): the contour is open"},
		{"open hole", []drawing.Shape{outer, stroke(drawing.CutInner, line(geom.Pt(10, 10), geom.Pt(19, 10), geom.Pt(10, 19)))}, "shape 2 (hole): the contour is open"},
		{"one vertex", []drawing.Shape{outer, stroke(drawing.Mark, geom.Start(geom.Pt(1, 1)))}, "1 vertices"},
		{"empty path", []drawing.Shape{outer, stroke(drawing.Mark, geom.Path{})}, "0 vertices"},
		{"vertex repeated", []drawing.Shape{stroke(drawing.CutOuter, closed(line(geom.Pt(0, 0), geom.Pt(9, 0), geom.Pt(9, 0), geom.Pt(0, 9))))}, "vertex 2 at 9.000, 0.000 is repeated"},
		{"first vertex repeated", []drawing.Shape{stroke(drawing.CutOuter, closed(line(geom.Pt(0, 0), geom.Pt(9, 0), geom.Pt(0, 9), geom.Pt(0, 0))))}, "is repeated"},
		{"figure eight", []drawing.Shape{stroke(drawing.CutOuter, closed(line(geom.Pt(0, 0), geom.Pt(9, 0), geom.Pt(5, 5), geom.Pt(9, 9), geom.Pt(0, 9), geom.Pt(5, 5))))}, "vertex at 5.000, 5.000 is repeated"},
		{"there and back", []drawing.Shape{stroke(drawing.CutOuter, closed(line(geom.Pt(0, 0), geom.Pt(9, 0))))}, "encloses 0.0000 mm²"},
		{"short piece", []drawing.Shape{stroke(drawing.CutOuter, closed(line(geom.Pt(0, 0), geom.Pt(9, 0), geom.Pt(9, 0.09), geom.Pt(0, 9))))}, "piece of 0.0900 mm at 9.000, 0.000"},
		{"small circle", []drawing.Shape{outer, ring(drawing.CutInner, 50, 25, 0.04)}, "diameter of 0.08 mm"},
		{"negative radius", []drawing.Shape{outer, ring(drawing.CutInner, 50, 25, -4)}, "diameter of -8 mm"},
		{"NaN", []drawing.Shape{stroke(drawing.CutOuter, rect(0, 0, math.NaN(), 5))}, "must be finite"},
		{"Inf bulge", []drawing.Shape{stroke(drawing.CutOuter, geom.Start(geom.Pt(0, 0)).BulgeTo(geom.Pt(9, 0), math.Inf(1)).Close())}, "must be finite"},
		{"huge bulge", []drawing.Shape{stroke(drawing.CutOuter, geom.Start(geom.Pt(0, 0)).BulgeTo(geom.Pt(9, 0), 1e300).Close())}, "has a radius of"},
		{"NaN radius", []drawing.Shape{outer, ring(drawing.CutInner, 50, 25, math.NaN())}, "must be finite"},
		{"1e308", []drawing.Shape{stroke(drawing.CutOuter, rect(0, 0, 1e308, 5))}, "within 1e+06 mm"},
		{"NaN text", []drawing.Shape{outer, text(drawing.Note, "a", math.NaN())}, "must be finite"},
		{"flat text", []drawing.Shape{outer, text(drawing.Note, "a", 0)}, "0 mm high"},
		{"blank text", []drawing.Shape{outer, text(drawing.Note, " \t", 5)}, "text without words"},
		{"long text", []drawing.Shape{outer, text(drawing.Note, strings.Repeat("ab", 200), 5)}, "has 400 characters; at most 250"},
		{"text twice", []drawing.Shape{outer, text(drawing.Note, "a", 5), text(drawing.Note, "a", 5)}, "same place as shape 2"},
		{"text on the cut", []drawing.Shape{outer, text(drawing.CutOuter, "a", 5)}, `text "a" on what is cut`},
		{"circle twice", []drawing.Shape{outer, ring(drawing.Mark, 50, 25, 5), ring(drawing.Mark, 50.001, 25, 5)}, "is there twice, in shape 2 (mark) and shape 3 (mark)"},
		{"edge twice", []drawing.Shape{outer, stroke(drawing.Mark, line(geom.Pt(100, 0), geom.Pt(0, 0)))}, "is there twice, in shape 1 (outline) and shape 2 (mark)"},
		{"arc twice", []drawing.Shape{outer,
			stroke(drawing.Mark, geom.Start(geom.Pt(10, 10)).BulgeTo(geom.Pt(20, 10), 0.5)),
			stroke(drawing.Mark, geom.Start(geom.Pt(20, 10)).BulgeTo(geom.Pt(10, 10), -0.5))}, "is there twice"},
		{"arc and its mirror image", []drawing.Shape{outer,
			stroke(drawing.Mark, geom.Start(geom.Pt(10, 10)).BulgeTo(geom.Pt(20, 10), 0.5)),
			stroke(drawing.Mark, geom.Start(geom.Pt(10, 10)).BulgeTo(geom.Pt(20, 10), -0.5))}, ""},
		{"hole outside", []drawing.Shape{outer, ring(drawing.CutInner, 150, 25, 5)}, "shape 2 (hole) lies inside no outline"},
		{"hole over the edge", []drawing.Shape{outer, ring(drawing.CutInner, 98, 25, 5)}, "touch or cross"},
		{"hole at the edge", []drawing.Shape{outer, ring(drawing.CutInner, 95, 25, 5)}, "touch or cross"},
		{"hole over a corner", []drawing.Shape{outer, ring(drawing.CutInner, 100, 50, 5)}, "touch or cross"},
		{"hole around the part", []drawing.Shape{outer, ring(drawing.CutInner, 50, 25, 90)}, "shape 1 (outline) lies inside shape 2 (hole)"},
		{"holes cross", []drawing.Shape{outer, ring(drawing.CutInner, 50, 25, 5), ring(drawing.CutInner, 56, 25, 5)}, "touch or cross"},
		{"hole in a hole", []drawing.Shape{outer, ring(drawing.CutInner, 50, 25, 15), ring(drawing.CutInner, 50, 25, 5)}, "shape 3 (hole) lies inside shape 2 (hole)"},
		{"hole in the hollow of an arc", []drawing.Shape{stroke(drawing.CutOuter, cup), ring(drawing.CutInner, 30, 13, 2.5)}, ""},
		{"hole through an arc", []drawing.Shape{stroke(drawing.CutOuter, cup), ring(drawing.CutInner, 37, 18, 2.5)}, "touch or cross"},
		{"outlines cross", []drawing.Shape{outer, stroke(drawing.CutOuter, rect(90, 10, 120, 40))}, "touch or cross"},
		{"outlines share an edge", []drawing.Shape{outer, stroke(drawing.CutOuter, rect(100, 10, 120, 40))}, "touch or cross"},
		{"island", []drawing.Shape{outer, stroke(drawing.CutOuter, rect(40, 10, 60, 40))}, "shape 2 (outline) lies inside shape 1 (outline)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := drawing.Drawing{Title: "part", Shapes: c.shapes}
			err := dxf.Lint(d)
			for _, o := range allOptions() {
				var w bytes.Buffer
				werr := dxf.Write(&w, d, o)
				if (werr == nil) != (err == nil) {
					t.Fatalf("%+v: Write: %v, Lint: %v", o, werr, err)
				}
				if err != nil && w.Len() > 0 {
					t.Errorf("%+v: %d bytes written", o, w.Len())
				}
				if err == nil {
					if err := dxftest.Lint(w.Bytes()); err != nil {
						t.Errorf("%+v: %v", o, err)
					}
				}
			}
			if err == nil {
				if c.want != "" {
					t.Fatalf("accepted; want %q", c.want)
				}
				return
			}
			if c.want == "" || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), `drawing "part": `) {
				t.Errorf("error %q, want %q", err, c.want)
			}
		})
	}
}

// allOptions returns every form of a file.
func allOptions() []dxf.Options {
	var all []dxf.Options
	for _, v := range []dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain} {
		for _, inches := range []bool{false, true} {
			for _, cutOnly := range []bool{false, true} {
				all = append(all, dxf.Options{Version: v, Inches: inches, CutOnly: cutOnly})
			}
		}
	}
	return all
}

// The sample passes in every form.
func TestSampleTags(t *testing.T) {
	for _, o := range allOptions() {
		if err := dxftest.Lint([]byte(file(t, o))); err != nil {
			t.Errorf("%+v: %v", o, err)
		}
	}
}

// file returns the sample in one version.
func file(t testing.TB, o dxf.Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.Write(&b, sample(), o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestTags(t *testing.T) {
	modern := file(t, dxf.Options{})
	old := file(t, dxf.Options{Version: dxf.R12})
	plain := file(t, dxf.Options{Version: dxf.R12Plain})
	const nl = "\r\n"
	for _, c := range []struct {
		name, in, old, new, want string
	}{
		{"LF only", modern, nl, "\n", "no CR LF"},
		{"not ASCII", modern, "SECTION", "S\xcbCTION", "byte 0xCB"},
		{"group code", modern, " 70" + nl, "xx" + nl, "no group code"},
		{"cut off", modern, "  0" + nl + "EOF" + nl, "  0" + nl, "has no value"},
		{"no EOF", modern, "  0" + nl + "EOF" + nl, "", "no EOF"},
		{"exponent", modern, "4.500000" + nl, "4.5e0" + nl, "plain decimal"},
		{"comma", modern, "4.500000" + nl, "4,500000" + nl, "plain decimal"},
		{"minus zero", modern, " 43" + nl + "0.000000", " 43" + nl + "-0.000000", "plain decimal"},
		{"NaN", modern, "4.500000" + nl, "NaN" + nl, "plain decimal"},
		{"units at odds", modern, "$MEASUREMENT" + nl + " 70" + nl + "1", "$MEASUREMENT" + nl + " 70" + nl + "0", "$INSUNITS"},
		{"version", old, "AC1009", "AC1032", "$ACADVER"},
		{"handle twice", modern, "  5" + nl + "105" + nl, "  5" + nl + "106" + nl, "used twice"},
		{"handle of DIMSTYLE twice", modern, "105" + nl + "14" + nl, "105" + nl + "13" + nl, "used twice"},
		{"dangling owner", modern, "330" + nl + "16" + nl, "330" + nl + "99" + nl, "which nothing has"},
		{"dangling dictionary", modern, "350" + nl, "350" + nl + "7F" + nl + "350" + nl, "which nothing has"},
		{"no owner", modern, "330" + nl + "16" + nl, "", "not one owner"},
		{"seed too low", modern, "$HANDSEED" + nl + "  5" + nl + "10E", "$HANDSEED" + nl + "  5" + nl + "10D", "not above handle 10D"},
		{"layer not declared", modern, "  8" + nl + "HOLES", "  8" + nl + "HOLE", `layer "HOLE" is not declared`},
		{"layer declared no more", modern, "  2" + nl + "OUTLINE", "  2" + nl + "OTHER", `layer "OUTLINE" is not declared`},
		{"open outline", modern, " 90" + nl + "6" + nl + " 70" + nl + "1", " 90" + nl + "6" + nl + " 70" + nl + "0", "open on a layer that is cut"},
		{"open outline r12", old, "POLYLINE" + nl + "  8" + nl + "OUTLINE" + nl + " 66" + nl + "1" + nl + " 10" + nl + "0.000000" + nl + " 20" + nl + "0.000000" + nl + " 30" + nl + "0.000000" + nl + " 70" + nl + "1",
			"POLYLINE" + nl + "  8" + nl + "OUTLINE" + nl + " 66" + nl + "1" + nl + " 70" + nl + "0", "open on a layer that is cut"},
		{"open outline plain", plain, " 11" + nl + "140.000000000", " 11" + nl + "140.000003000", "a closed contour has 1"},
		{"count", modern, " 90" + nl + "6", " 90" + nl + "7", "group 90 says"},
		{"vertex repeated", modern, " 10" + nl + "76.000000" + nl + " 20" + nl + "15.000000", " 10" + nl + "64.000000" + nl + " 20" + nl + "15.000000", "is repeated"},
		{"bulge", modern, " 42" + nl + "1.000000000000", " 42" + nl + "1.000000000001", "bulge beyond 1"},
		{"short line", plain, " 11" + nl + "70.000000000" + nl + " 21" + nl + "12.000000000", " 11" + nl + "70.000000000" + nl + " 21" + nl + "2.090000000", "shorter than 0.1"},
		{"text on the cut", modern, "  8" + nl + "NOTES", "  8" + nl + "HOLES", "text on layer HOLES"},
		{"spline", modern, "  0" + nl + "CIRCLE", "  0" + nl + "SPLINE", "not a kind of entity"},
		{"LWPOLYLINE in r12", old, "  0" + nl + "POLYLINE", "  0" + nl + "LWPOLYLINE", "not a kind of entity"},
		{"SEQEND lost", old, "  0" + nl + "SEQEND" + nl + "  8" + nl + "OUTLINE" + nl, "", "have no SEQEND"},
		{"section not ended", modern, "  0" + nl + "ENDSEC" + nl, "", "SECTION"},
	} {
		t.Run(c.name, func(t *testing.T) {
			bad := strings.ReplaceAll(c.in, c.old, c.new)
			if bad == c.in {
				t.Fatal("nothing replaced")
			}
			err := dxftest.Lint([]byte(bad))
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q", err, c.want)
			}
		})
	}
}

func FuzzTags(f *testing.F) {
	for _, v := range []dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain} {
		f.Add([]byte(file(f, dxf.Options{Version: v})))
	}
	f.Add([]byte("  0\r\nSECTION\r\n  2\r\nENTITIES\r\n  0\r\nVERTEX\r\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if err := dxftest.Lint(data); err != nil {
			return
		}
		// What passes must at least be a file that the other reader takes.
		if _, err := readDXF(data); err != nil {
			t.Errorf("passes, but: %v", err)
		}
	})
}

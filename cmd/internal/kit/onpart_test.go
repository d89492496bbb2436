package kit_test

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/plan/plantest"
	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/geom"
)

// What is scribed lies on the part that it is scribed on, in each file of a part
// and on each plate of the nest; on a plate notes do as well. Read from the
// finished files, in mm and inches, for every process, with and without a kerf.
func TestScribedOnPart(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		for i, process := range []string{"", "plasma", "laser", "waterjet", "saw"} {
			j, err := job.Read(path)
			if err != nil {
				t.Fatal(err)
			}
			j.Cutting.Process = process
			j.Cutting.Kerf = 1.5 * float64(i%2)
			j.Cutting.Sheet = [2]float64{2000, 1500}
			p, err := plan.New(j)
			if err != nil {
				t.Fatal(err)
			}
			for _, inches := range []bool{false, true} {
				o := options(t, "A4")
				o.DXF = dxf.Options{Version: dxf.R12Plain, Inches: inches}
				files, err := kit.Build(p, o)
				if err != nil {
					t.Fatal(err)
				}
				where := fmt.Sprintf("%s, %q, inches %v: ", filepath.Base(path), process, inches)
				for _, c := range p.Pieces {
					got := uncut(t, find(t, files, c.Name+".dxf").Data)
					atOrigin := c.Cut.Outline.Apply(geom.Translate(c.Cut.Bounds().Min.Mul(-1)))
					onParts(t, where+c.Name, got["SCRIBE"], atOrigin)
				}
				blank := p.Tools.Blank.Part.Outline
				onParts(t, where+"blank", uncut(t, find(t, files, "blank.dxf").Data)["SCRIBE"], blank.Apply(geom.Translate(blank.Bounds().Min.Mul(-1))))
				for sheet := range p.Nest.Sheets {
					name := "nest.dxf"
					if sheet > 0 {
						name = fmt.Sprintf("nest-%d.dxf", sheet+1)
					}
					var parts []geom.Path
					for i, q := range p.Nest.Placements {
						if q.Sheet == sheet {
							parts = append(parts, p.Pieces[p.Nest.Pieces[i]].Cut.Outline.Apply(q.Move))
						}
					}
					got := uncut(t, find(t, files, name).Data)
					onParts(t, where+name, got["SCRIBE"], parts...)
					onParts(t, where+name, got["NOTES"], geom.Rect{Max: geom.Pt(2000, 1500)}.Path())
					// What is told of the whole plate lies beside the parts.
					told := 0
					for _, q := range got["NOTES"] {
						if strings.Contains(q.words, "KERF") || strings.Contains(q.words, "plate") || strings.Contains(q.words, "UNITS") {
							told++
							for _, part := range parts {
								if part.Bounds().Overlaps(q.box, 0) {
									t.Errorf("%s: %q lies on a part", where+name, q.words)
								}
							}
						}
					}
					if told != 3 {
						t.Errorf("%s: %d notes of the plate", where+name, told)
					}
				}
			}
		}
	}
}

// onParts fails unless each thing lies within one of the outlines.
func onParts(t *testing.T, where string, all []inFile, outlines ...geom.Path) {
	t.Helper()
	const tol = 1e-3 // mm: rounding to 6 decimals of the file's unit, and of arcs as points
	for _, q := range all {
		within := false
		for _, o := range outlines {
			in := true
			for _, v := range q.points {
				in = in && (o.Contains(v) || o.Distance(v) < tol)
			}
			within = within || in
		}
		if !within {
			t.Errorf("%s: %s %q at %v is on no part", where, q.kind, q.words, q.points[0])
		}
	}
}

// inFile is something on a layer that is not cut, in mm.
type inFile struct {
	kind, words string
	points      []geom.Point // that span it
	box         geom.Rect
}

// uncut reads what of a plain R12 file lies on SCRIBE and NOTES, by layer.
func uncut(t *testing.T, data []byte) map[string][]inFile {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(string(bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))), "\n"), "\n")
	unit := 1.0
	out := map[string][]inFile{}
	kind, layer, words := "", "", ""
	num := map[int]float64{}
	flush := func() {
		if layer == "SCRIBE" || layer == "NOTES" {
			at, q := geom.Pt(num[10], num[20]).Mul(unit), inFile{kind: kind, words: words}
			switch kind {
			case "LINE":
				q.points = []geom.Point{at, geom.Pt(num[11], num[21]).Mul(unit)}
			case "ARC":
				from, to := num[50], num[51]
				for to < from {
					to += 360
				}
				for i := range 21 {
					q.points = append(q.points, at.Add(geom.Polar(unit*num[40], geom.Angle(from+(to-from)*float64(i)/20)*geom.Degree)))
				}
			case "TEXT":
				for _, v := range (drawing.Text{At: at, Words: words, Height: unit * num[40], Angle: geom.Angle(num[50]) * geom.Degree}).Box().Vertices {
					q.points = append(q.points, v.Point)
				}
			}
			if q.points != nil {
				q.box = geom.EmptyRect()
				for _, v := range q.points {
					q.box = q.box.Add(v)
				}
				out[layer] = append(out[layer], q)
			} else if kind != "LAYER" {
				t.Fatalf("a %s on %s can't be read", kind, layer)
			}
		}
		kind, layer, words, num = "", "", "", map[int]float64{}
	}
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			t.Fatal(err)
		}
		switch v := lines[i+1]; code {
		case 0:
			flush()
			kind = v
		case 1:
			words = v
		case 8:
			layer = v
		case 9:
			flush()
			kind = v
		default:
			num[code], _ = strconv.ParseFloat(strings.TrimSpace(v), 64)
			if kind == "$INSUNITS" && code == 70 && num[code] == 1 {
				unit = 25.4
			}
		}
	}
	flush()
	return out
}

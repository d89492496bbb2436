package dxf_test

import (
	"bytes"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/dxf/dxftest"
	"overbend/geom"
)

// randomDrawing draws parts side by side, each an outline with holes where
// there is room, and marks and words beside them.
func randomDrawing(t *rapid.T) drawing.Drawing {
	d := drawing.Drawing{Title: "random"}
	number := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	count := func(lo, hi int, name string) int { return rapid.IntRange(lo, hi).Draw(t, name) }
	// Straight, or a radius well under the lint's kilometre.
	bulge := func(lo, hi float64) float64 {
		if b := number(lo, hi, "bulge"); math.Abs(b) > 1e-3 {
			return b
		}
		return 0
	}
	for part := range count(1, 2, "parts") {
		to := geom.Translate(geom.Pt(float64(part)*1000, 0))
		var outline geom.Path
		var shape drawing.Shape
		switch count(0, 2, "outline") {
		case 0: // star-shaped, arcs bent in and out
			n := count(3, 9, "corners")
			outline = geom.Path{Closed: true}
			for i := range n {
				a := (float64(i) + number(-0.3, 0.3, "turn")) * 2 * math.Pi / float64(n)
				v := geom.Vertex{Point: geom.Polar(number(120, 200, "reach"), geom.Angle(a))}
				if rapid.Bool().Draw(t, "arc") {
					v.Bulge = bulge(-0.15, 0.3)
				}
				outline.Vertices = append(outline.Vertices, v)
			}
		case 1: // one arc of more than a half circle and its chord
			outline = geom.Path{Closed: true, Vertices: []geom.Vertex{
				{Point: geom.Pt(-60, -100), Bulge: 0}, {Point: geom.Pt(60, -100), Bulge: number(1.0001, 4, "bulge")},
			}}
		default:
			c := geom.Circle{Centre: geom.Pt(0, 0), Radius: number(100, 200, "radius")}
			shape = drawing.Ring{Circle: to.ApplyCircle(c), Role: drawing.CutOuter}
			outline = geom.Path{Closed: true, Vertices: []geom.Vertex{
				{Point: geom.Pt(-c.Radius, 0), Bulge: 1}, {Point: geom.Pt(c.Radius, 0), Bulge: 1},
			}}
		}
		if shape == nil {
			shape = drawing.Stroke{Path: outline.Apply(to), Role: drawing.CutOuter}
		}
		d.Add(shape)
		for i := range count(0, 6, "holes") {
			at := geom.Pt(float64(i%3-1)*45, float64(i/3)*45-20)
			if !outline.Contains(at) || outline.Distance(at) < 22 {
				continue
			}
			turn := geom.Rotate(geom.Angle(number(0, 6, "turn"))).Then(geom.Translate(at)).Then(to)
			size := number(0.1, 8, "size")
			switch count(0, 2, "hole") {
			case 0:
				d.Add(drawing.Ring{Circle: turn.ApplyCircle(geom.Circle{Radius: size}), Role: drawing.CutInner})
			case 1:
				slot := geom.Start(geom.Pt(-size, -size)).LineTo(geom.Pt(size, -size)).BulgeTo(geom.Pt(size, size), 1).
					LineTo(geom.Pt(-size, size)).BulgeTo(geom.Pt(-size, -size), 1).Close()
				d.Add(drawing.Stroke{Path: slot.Apply(turn), Role: drawing.CutInner})
			default:
				flatted := geom.Start(geom.Pt(-size, 0)).BulgeTo(geom.Pt(size, 0), -number(1, 2, "bulge")).Close()
				d.Add(drawing.Stroke{Path: flatted.Apply(turn), Role: drawing.CutInner})
			}
		}
	}
	for i := range count(0, 4, "marks") {
		at := geom.Pt(-600, float64(i)*100)
		switch count(0, 2, "mark") {
		case 0:
			d.Add(drawing.Ring{Circle: geom.Circle{Centre: at, Radius: number(0.05, 20, "radius")}, Role: drawing.Mark})
		case 1:
			d.Box(drawing.Mark, drawing.NoTone, geom.Rect{Min: at, Max: at.Add(geom.Pt(number(0.1, 30, "w"), number(0.1, 30, "h")))})
		default:
			p := geom.Start(at)
			for range count(1, 4, "steps") {
				p = p.BulgeTo(p.End().Add(geom.Pt(number(1, 10, "dx"), number(-10, 10, "dy"))), bulge(-3, 3))
			}
			d.Add(drawing.Stroke{Path: p, Role: drawing.Mark})
		}
	}
	for i := range count(0, 3, "texts") {
		d.Add(drawing.Text{
			At:     geom.Pt(-600, -50-20*float64(i)),
			Words:  "x" + rapid.StringN(0, 30, 60).Draw(t, "words"),
			Height: number(1, 20, "height"),
			Angle:  geom.Angle(number(-7, 7, "angle")),
			Anchor: drawing.Anchor(count(0, 2, "anchor")),
			Role:   rapid.SampledFrom([]drawing.Role{drawing.Mark, drawing.Note}).Draw(t, "role"),
		})
	}
	move := geom.Rotate(geom.Angle(number(0, 6.2, "turn"))).Then(geom.Translate(geom.Pt(number(-5000, 5000, "x"), number(-5000, 5000, "y"))))
	return d.Apply(move)
}

// readsBack: what is written in any version and unit reads back, by a reader
// that shares no code with the writer, as the drawing's own lengths and areas
// (geom's closed forms) on the right layers, with the lower left corner at 0,0.
func readsBack(t *rapid.T) {
	d := randomDrawing(t)
	o := dxf.Options{
		Version: rapid.SampledFrom([]dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain}).Draw(t, "version"),
		Inches:  rapid.Bool().Draw(t, "inches"),
		CutOnly: rapid.Bool().Draw(t, "cut only"),
	}
	var b bytes.Buffer
	if err := dxf.Write(&b, d, o); err != nil {
		t.Fatal(err)
	}
	if err := dxftest.Lint(b.Bytes()); err != nil {
		t.Fatal(err)
	}
	r, err := readDXF(b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if o.Inches != (r.unit() == 25.4) {
		t.Fatalf("unit %g", r.unit())
	}
	checkNumbers(t, r)

	// By layer: the areas of closed shapes and the length of all.
	type sums struct {
		areas  []float64
		length float64
		texts  int
	}
	want, got := map[string]*sums{}, map[string]*sums{}
	at := func(m map[string]*sums, layer string) *sums {
		if m[layer] == nil {
			m[layer] = &sums{}
		}
		return m[layer]
	}
	names := map[drawing.Role]string{drawing.CutOuter: "OUTLINE", drawing.CutInner: "HOLES", drawing.Mark: "SCRIBE", drawing.Note: "NOTES"}
	if o.CutOnly {
		delete(names, drawing.Mark)
		delete(names, drawing.Note)
	} else {
		at(want, "NOTES").texts++ // unit and size
	}
	add := func(role drawing.Role, closed bool, area, length float64) {
		name, ok := names[role]
		if !ok {
			return
		}
		w := at(want, name)
		w.length += length
		if closed {
			w.areas = append(w.areas, math.Abs(area))
		}
	}
	for _, s := range d.Shapes {
		switch s := s.(type) {
		case drawing.Stroke:
			add(s.Role, s.Path.Closed, s.Path.Area(), s.Path.Length())
		case drawing.Ring:
			add(s.Role, true, s.Circle.Area(), 2*math.Pi*s.Circle.Radius)
		case drawing.Text:
			if name, ok := names[s.Role]; ok {
				at(want, name).texts++
			}
		}
	}

	figs := r.figs
	loose := map[string][]figure{}
	for _, f := range r.figs {
		if f.kind == "LINE" || f.kind == "ARC" {
			loose[f.layer] = append(loose[f.layer], f)
		}
	}
	for layer, pieces := range loose {
		if layer == "SCRIBE" {
			continue // open paths there: only their length is compared
		}
		loops, err := join(pieces, 1e-6/r.unit())
		if err != nil {
			t.Fatal(err)
		}
		figs = append(figs, loops...)
	}
	low := xy{math.Inf(1), math.Inf(1)}
	for _, f := range figs {
		if _, ok := r.layers[f.layer]; !ok {
			t.Fatalf("layer %q is not declared", f.layer)
		}
		g := at(got, f.layer)
		switch {
		case f.kind == "TEXT":
			g.texts++
			continue
		case f.kind == "LINE" || f.kind == "ARC":
			if f.layer == "SCRIBE" {
				g.length += f.length() * r.unit()
			}
			continue
		}
		g.length += f.length() * r.unit()
		if f.closed {
			g.areas = append(g.areas, f.area()*r.unit()*r.unit())
		}
		if f.layer != "SCRIBE" && f.layer != "NOTES" {
			for _, p := range f.points {
				low.x, low.y = min(low.x, p.x*r.unit()), min(low.y, p.y*r.unit())
			}
		}
	}
	// The reader's polygons miss an arc's extreme by up to 2e-3 mm.
	if math.Abs(low.x) > 2e-3 || math.Abs(low.y) > 2e-3 {
		t.Errorf("lower left corner at %g, %g", low.x, low.y)
	}
	for layer, w := range want {
		g := at(got, layer)
		if o.Version == dxf.R12Plain && layer == "SCRIBE" {
			g.areas, w.areas = nil, nil
		}
		if g.texts != w.texts || len(g.areas) != len(w.areas) {
			t.Fatalf("%s: %d texts and %d closed, want %d and %d", layer, g.texts, len(g.areas), w.texts, len(w.areas))
		}
		if !near(g.length, w.length, 1e-5) {
			t.Errorf("%s: length %.6f, want %.6f", layer, g.length, w.length)
		}
		slices.Sort(g.areas)
		slices.Sort(w.areas)
		for i := range w.areas {
			if !near(g.areas[i], w.areas[i], 1e-5) {
				t.Errorf("%s: area %.6f, want %.6f", layer, g.areas[i], w.areas[i])
			}
		}
		delete(got, layer)
	}
	for layer := range got {
		t.Errorf("layer %s holds what nobody drew", layer)
	}
}

// near reports whether got is want but for a share tol; a piece of 0.1 mm may
// also be off by the file's last decimals.
func near(got, want, tol float64) bool { return math.Abs(got-want) <= tol*want+2e-6 }

// checkNumbers: no exponent, no -0, no byte outside ASCII but for a text's
// letters, no bulge beyond 1.
func checkNumbers(t *rapid.T, r reading) {
	section := ""
	for _, p := range r.pairs {
		if p[0] == "2" && p[1] == "ENTITIES" {
			section = p[1]
		}
		for _, c := range []byte(p[1]) {
			if c < ' ' || c > '~' && !(p[0] == "1" && c >= 0x80) {
				t.Fatalf("byte %#x in %q", c, p[1])
			}
		}
		if len(p[0]) == 2 && p[0] >= "10" && p[0] < "60" {
			if strings.ContainsAny(p[1], "eE") || strings.HasPrefix(p[1], "-") && strings.Trim(p[1], "-0.") == "" {
				t.Fatalf("number %q", p[1])
			}
			if v, err := strconv.ParseFloat(p[1], 64); err != nil || p[0] == "42" && section == "ENTITIES" && math.Abs(v) > 1 {
				t.Fatalf("group %s is %q", p[0], p[1])
			}
		}
	}
}

func TestReadsBack(t *testing.T) { rapid.Check(t, readsBack) }

func FuzzReadsBack(f *testing.F) { f.Fuzz(rapid.MakeFuzz(readsBack)) }

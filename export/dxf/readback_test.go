package dxf_test

import (
	"bytes"
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/dxf/dxfread"
	"overbend/geom"
)

// layerOf is where a role goes, as package dxf promises it.
func layerOf(r drawing.Role) string {
	return [...]string{drawing.CutOuter: "OUTLINE", drawing.CutInner: "HOLES", drawing.Mark: "SCRIBE", drawing.Note: "NOTES"}[r]
}

// The program's own reader gives every line back that the writer was given, in order,
// in its place and on its layer, in every form and unit.
func TestReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := randomDrawing(t)
		o := dxf.Options{
			Version: rapid.SampledFrom([]dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain}).Draw(t, "version"),
			Inches:  rapid.Bool().Draw(t, "inches"),
		}
		var b bytes.Buffer
		if err := dxf.Write(&b, d, o); err != nil {
			t.Fatal(err)
		}
		got, err := dxfread.Read(&b, dxfread.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		want := 1.0
		if o.Inches {
			want = 25.4
		}
		if got.Unit != want || got.Version != map[bool]string{true: "AC1015", false: "AC1009"}[o.Version == dxf.R2000] {
			t.Fatalf("unit %g, version %s", got.Unit, got.Version)
		}
		for _, c := range got.Skipped {
			if c.What != "TEXT" {
				t.Fatalf("left out: %v", c)
			}
		}

		cut := geom.EmptyRect()
		for _, s := range d.Shapes {
			if path, role := line(s); role == drawing.CutOuter || role == drawing.CutInner {
				cut = cut.Union(path.Bounds())
			}
		}
		place := geom.Translate(cut.Min.Mul(-1))
		size := geom.Scale(got.Unit)
		next := 0
		for role := drawing.CutOuter; role <= drawing.Note; role++ {
			for _, s := range d.Shapes {
				path, r := line(s)
				if r != role || path.Vertices == nil {
					continue
				}
				path = path.Apply(place)
				// Loose pieces are taken together.
				length, box, n := 0.0, geom.EmptyRect(), 1
				_, ring := s.(drawing.Ring)
				for i := 0; i < n; i++ {
					if next == len(got.Shapes) {
						t.Fatalf("a %v is missing", role)
					}
					g := got.Shapes[next]
					next++
					if g.Layer != layerOf(role) || g.Sampled {
						t.Fatalf("%+v of a %v", g, role)
					}
					p := g.Path.Apply(size)
					length += p.Length()
					box = box.Union(p.Bounds())
					if o.Version == dxf.R12Plain && !ring && length < path.Length()-1e-3 {
						n++
					}
					if n == 1 && (p.Closed != path.Closed || math.Abs(math.Abs(p.Area())-math.Abs(path.Area())) > 1e-5*math.Max(10, path.Length())) {
						t.Fatalf("closed %v, area %g; want %v, %g", p.Closed, p.Area(), path.Closed, path.Area())
					}
				}
				if math.Abs(length-path.Length()) > 2e-5 {
					t.Fatalf("%g mm long, want %g", length, path.Length())
				}
				if want := path.Bounds(); !want.Holds(box, 1e-5) || !box.Holds(want, 1e-5) {
					t.Fatalf("within %v, want %v", box, want)
				}
			}
		}
		if next != len(got.Shapes) {
			t.Fatalf("%d shapes more", len(got.Shapes)-next)
		}
	})
}

// line returns the path of a stroke or ring, none of lettering.
func line(s drawing.Shape) (geom.Path, drawing.Role) {
	switch s := s.(type) {
	case drawing.Stroke:
		return s.Path, s.Role
	case drawing.Ring:
		return s.Circle.Path(), s.Role
	}
	return geom.Path{}, drawing.Note
}

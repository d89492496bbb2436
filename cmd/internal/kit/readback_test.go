package kit_test

import (
	"bytes"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan/plantest"
	"overbend/export/dxf"
	"overbend/export/dxf/dxfread"
	"overbend/geom"
)

// The program reads every DXF that it writes, and finds the same lines on the same
// layers in all three forms and both units.
func TestKitsReadBack(t *testing.T) {
	type lines struct {
		length float64
		box    geom.Rect
	}
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		if !p.Feasible() {
			t.Fatalf("%s has no kit", path)
		}
		var first map[string]lines
		for v := dxf.R2000; v <= dxf.R12Plain; v++ {
			for _, inches := range []bool{false, true} {
				o := options(t, "A4")
				o.DXF = dxf.Options{Version: v, Inches: inches}
				files, err := kit.Build(p, o)
				if err != nil {
					t.Fatal(err)
				}
				now := map[string]lines{}
				for _, f := range files {
					if !strings.HasSuffix(f.Name, ".dxf") {
						continue
					}
					d, err := dxfread.Read(bytes.NewReader(f.Data), dxfread.Limits{})
					if err != nil {
						t.Fatalf("%s: %s: %v", path, f.Name, err)
					}
					for _, s := range d.Shapes {
						key := f.Name + " " + s.Layer
						l, ok := now[key]
						if !ok {
							l.box = geom.EmptyRect()
						}
						q := s.Path.Apply(geom.Scale(d.Unit))
						now[key] = lines{l.length + q.Length(), l.box.Union(q.Bounds())}
					}
				}
				if first == nil {
					if first = now; len(first) < 10 {
						t.Fatalf("%s: %d layers in all", path, len(first))
					}
				}
				if len(now) != len(first) {
					t.Errorf("%s, %v, inches %v: %d layers, want %d", filepath.Base(path), v, inches, len(now), len(first))
				}
				for key, l := range now {
					w := first[key]
					if math.Abs(l.length-w.length) > 1e-6*math.Max(10, w.length) || !w.box.Holds(l.box, 1e-5) || !l.box.Holds(w.box, 1e-5) {
						t.Errorf("%s, %v, inches %v, %s: %+v, want %+v", filepath.Base(path), v, inches, key, l, w)
					}
				}
			}
		}
	}
}

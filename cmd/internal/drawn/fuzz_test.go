package drawn

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/export/dxf/dxfread"
	"overbend/export/svg"
	"overbend/geom"
)

// whole holds everything that a drawing leads to: finite numbers, a job that its own
// reader takes or refuses in a sentence, a picture that can be written.
func whole(t interface{ Fatalf(string, ...any) }, data []byte) {
	f, err := Read(bytes.NewReader(data), Options{Unit: 1, Limits: dxfread.Limits{Vertices: 5000, Inserts: 200}})
	if err != nil {
		if s := err.Error(); strings.ContainsAny(s, "\r\n") || len(s) > 2000 {
			t.Fatalf("not one sentence: %q", s)
		}
		return
	}
	for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
		for _, c := range f.Candidates {
			for _, v := range []float64{c.Bend.Radius, float64(c.Bend.Angle), c.Legs[0], c.Legs[1], float64(c.Cuts[0]), float64(c.Cuts[1]), c.Depth, c.Wall} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%+v", c)
				}
			}
			if c.Bend.Radius <= 0 || c.Legs[0] < 0 || c.Legs[1] < 0 || c.Depth < 0 || c.Wall < 0 {
				t.Fatalf("%+v", c)
			}
			g := filled(u)
			if c.Depth == 0 {
				g.Depth = 1
			}
			text, err := f.Job(c, g)
			if err != nil {
				continue // a wall that is drawn otherwise
			}
			if _, err := job.Parse("", []byte(text)); err != nil && !strings.Contains(err.Error(), "not allowed") && !strings.Contains(err.Error(), "leaves no bore") {
				t.Fatalf("%v\n%s", err, text)
			}
		}
		if err := svg.Write(io.Discard, f.Picture("x", u)); err != nil {
			t.Fatalf("%v", err)
		}
	}
}

func FuzzRead(f *testing.F) {
	// Small ones: the fuzzer stalls on whole files of a library.
	f.Add(plain(map[string][]geom.Segment{"A": arm().outline().Segments()}, 3))
	f.Add(plain(map[string][]geom.Segment{"A": axis().centreline().Segments(), "B": beside(axis(), 9), "C": beside(axis(), -9)}, 3))
	f.Add(file(4, func(p *pen) { p.loose("0", axis().centreline().Segments()) }, func(p *pen) {
		p.tags(0, "INSERT", 8, "L", 2, "B", 10, 1.0, 20, 2.0, 41, 2.0, 42, -2.0, 50, 30.0)
		p.tags(0, "LWPOLYLINE", 8, "L", 10, 0.0, 20, 0.0, 10, 9.0, 20, 0.0, 42, 0.2, 10, 15.0, 20, 3.0, 10, 20.0, 20, 9.0)
		p.tags(0, "SPLINE", 8, "L", 71, 2, 40, 0.0, 40, 0.0, 40, 0.0, 40, 1.0, 40, 1.0, 40, 1.0, 10, 0.0, 20, 0.0, 10, 50.0, 20, 30.0, 10, 90.0, 20, 0.0)
	}))
	f.Fuzz(func(t *testing.T, data []byte) { whole(t, data) })
}

// A tangle of lines, arcs and chords on a coarse grid, where all that can coincide,
// touch, double and run parallel does.
func TestTangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func() geom.Point {
			return geom.Pt(float64(rapid.IntRange(-4, 4).Draw(t, "x"))*10, float64(rapid.IntRange(-4, 4).Draw(t, "y"))*10)
		}
		on := map[string][]geom.Segment{}
		for range rapid.IntRange(1, 30).Draw(t, "lines") {
			s := geom.Segment{From: at(), To: at(), Bulge: rapid.SampledFrom([]float64{0, 0, 0, 1, -1, 0.5, math.Tan(math.Pi / 8), -math.Tan(math.Pi / 8)}).Draw(t, "bulge")}
			if s.From == s.To {
				continue
			}
			layer := rapid.SampledFrom([]string{"A", "B"}).Draw(t, "layer")
			on[layer] = append(on[layer], s)
		}
		whole(t, plain(on, 6))
	})
}

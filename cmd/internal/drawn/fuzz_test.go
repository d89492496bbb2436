package drawn

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
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
	files, err := filepath.Glob("../../../testdata/drawings/*.dxf")
	if err != nil || len(files) == 0 {
		f.Fatal(err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		_, entities, _ := bytes.Cut(data, []byte("ENTITIES"))
		f.Add([]byte("0\nSECTION\n2\nENTITIES" + string(entities)))
	}
	f.Add(plain(map[string][]geom.Segment{"A": arm().outline().Segments()}, 3))
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

package drawn

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/paper"
	"overbend/geom"
	"overbend/geom/tooling"
)

// want is a bend that is drawn.
type want struct {
	radius, depth, wall float64
	angle               geom.Angle
	legs                [2]float64
	cuts                [2]geom.Angle
}

// anyWant draws a bend with sizes of a few decimals, as people draw them.
func anyWant(t *rapid.T) want {
	tenths := func(name string, lo, hi int) float64 { return float64(rapid.IntRange(10*lo, 10*hi).Draw(t, name)) / 10 }
	w := want{depth: tenths("depth", 10, 100), angle: geom.Angle(tenths("angle", 3, 179)) * geom.Degree}
	w.radius = w.depth*1.2 + tenths("radius", 20, 1500)
	w.wall = w.depth * 0.1
	for i := range 2 {
		w.cuts[i] = geom.Angle(rapid.IntRange(-60, 60).Draw(t, "cut")) * geom.Degree
		w.legs[i] = math.Ceil(w.depth/2*math.Abs(w.cuts[i].Tan())) + tenths("leg", 1, 800)
	}
	return w
}

func (w want) outline() geom.Path {
	return tooling.TubeOutline(w.radius, w.depth, w.angle, w.legs, w.cuts)
}

func (w want) centreline() geom.Path { return tooling.Centreline(w.radius, w.angle, w.legs) }

// mirrored is the bend seen from behind: left and right change places.
func (w want) mirrored() want {
	w.legs[0], w.legs[1] = w.legs[1], w.legs[0]
	w.cuts[0], w.cuts[1] = w.cuts[1], w.cuts[0]
	return w
}

// part is the drawing of a bent part as a kit has it: outline, centreline and bend
// lines.
func (w want) part() drawing.Drawing {
	d := drawing.Drawing{Title: "part"}
	d.Add(drawing.Stroke{Path: w.outline(), Role: drawing.CutOuter}, drawing.Stroke{Path: w.centreline(), Role: drawing.Mark})
	half := w.angle / 2
	for i, side := range [2]geom.Angle{1, -1} {
		if w.legs[i] == 0 {
			continue // its end line lies there
		}
		out := geom.Polar(1, 90*geom.Degree+side*half)
		d.Line(drawing.Mark, out.Mul(w.radius-w.depth/2), out.Mul(w.radius+w.depth/2))
	}
	d.Add(drawing.Text{At: geom.Pt(0, w.radius+w.depth), Words: "R", Height: 3.5, Role: drawing.Note})
	return d
}

// read returns the one job that a drawing gives, through the text of its job file.
func read(t interface{ Fatalf(string, ...any) }, data []byte, o Options, g Given) job.Job {
	f, err := Read(bytes.NewReader(data), o)
	if err != nil {
		t.Fatalf("%v", err)
	}
	if len(f.Candidates) != 1 {
		t.Fatalf("%d candidates:\n%s%v", len(f.Candidates), f.List(0), f.Notes)
	}
	text, err := f.Job(f.Candidates[0], g)
	if err != nil {
		t.Fatalf("%v", err)
	}
	j, err := job.Parse("read.toml", []byte(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return j
}

func filled(u quantity.Units) Given {
	return Given{Name: "part", Source: "part.dxf", Units: u, Wall: 1, Material: "6082-T6"}
}

// agrees holds a job to what was drawn, within mm and within as much at the end of
// its longest side.
func (w want) agrees(j job.Job, mm float64) error {
	near := func(what string, got, want, tol float64) error {
		if !(math.Abs(got-want) <= tol) {
			return fmt.Errorf("%s %.9f, want %.9f", what, got, want)
		}
		return nil
	}
	long := w.radius + max(w.legs[0], w.legs[1])
	checks := []error{
		near("radius", j.Bend.Radius, w.radius, mm),
		near("angle", j.Bend.Angle.Degrees(), w.angle.Degrees(), mm/long*57.3+1e-9),
		near("depth", j.Tube.Depth, w.depth, mm),
	}
	for i := range 2 {
		checks = append(checks,
			near(fmt.Sprint("leg ", i), j.Bend.Legs[i], w.legs[i], mm),
			near(fmt.Sprint("cut ", i), j.Ends.Cut[i].Degrees(), w.cuts[i].Degrees(), mm/w.depth*57.3))
	}
	for _, err := range checks {
		if err != nil {
			return err
		}
	}
	return nil
}

// A part's drawing in every form and unit that the program writes gives its job back
// to 1e-6 mm.
func TestPartRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWant(t)
		o := dxf.Options{
			Version: rapid.SampledFrom([]dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain}).Draw(t, "form"),
			Inches:  rapid.Bool().Draw(t, "inches"), CutOnly: rapid.Bool().Draw(t, "cut only"),
		}
		var b bytes.Buffer
		if err := dxf.Write(&b, w.part(), o); err != nil {
			t.Skip(err)
		}
		u := rapid.SampledFrom([]quantity.Units{quantity.Millimetres, quantity.Inches}).Draw(t, "units")
		if err := w.agrees(read(t, b.Bytes(), Options{}, filled(u)), 1e-6); err != nil {
			t.Fatalf("%v", err)
		}
	})
}

// The same of the examples' jobs.
func TestExamplesRoundTrip(t *testing.T) {
	for _, name := range plantest.Examples(t, "../../..") {
		j, err := job.Read(name)
		if err != nil {
			t.Fatal(err)
		}
		w := want{radius: j.Bend.Radius, depth: j.Tube.Depth, angle: j.Bend.Angle, legs: j.Bend.Legs, cuts: j.Ends.Cut}
		for v := dxf.R2000; v <= dxf.R12Plain; v++ {
			for _, inches := range []bool{false, true} {
				var b bytes.Buffer
				if err := dxf.Write(&b, w.part(), dxf.Options{Version: v, Inches: inches}); err != nil {
					t.Fatal(err)
				}
				if err := w.agrees(read(t, b.Bytes(), Options{}, filled(j.Units())), 1e-6); err != nil {
					t.Errorf("%s, %v, inches %v: %v", name, v, inches, err)
				}
			}
		}
	}
}

// A kit's own part.dxf, dimensioned as it is, gives the kit's job back.
func TestKitRoundTrip(t *testing.T) {
	for _, name := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, name)
		j := p.Job
		w := want{radius: j.Bend.Radius, depth: j.Tube.Depth, angle: j.Bend.Angle, legs: j.Bend.Legs, cuts: j.Ends.Cut}
		for v := dxf.R2000; v <= dxf.R12Plain; v++ {
			size, _ := paper.Named("A4")
			files, err := kit.Build(p, kit.Options{
				Units: j.Units(), Paper: paper.Layout{Paper: size, Margin: 10},
				DXF: dxf.Options{Version: v, Inches: j.Inches != (v == dxf.R12)},
			})
			if err != nil {
				t.Fatal(err)
			}
			i := slices.IndexFunc(files, func(f kit.File) bool { return f.Name == "part.dxf" })
			if i < 0 {
				t.Fatalf("%s, %v: no part.dxf", name, v)
			}
			if err := w.agrees(read(t, files[i].Data, Options{}, filled(j.Units())), 1e-6); err != nil {
				t.Errorf("%s, %v: %v", name, v, err)
			}
		}
	}
}

// pen writes the plainest of drawings, to try what no writer of ours would write.
type pen struct {
	strings.Builder
	decimals int
}

func (p *pen) tags(pairs ...any) {
	for i := 0; i < len(pairs); i += 2 {
		switch v := pairs[i+1].(type) {
		case float64:
			fmt.Fprintf(p, "%v\n%.*f\n", pairs[i], p.decimals, v)
		default:
			fmt.Fprintf(p, "%v\n%v\n", pairs[i], v)
		}
	}
}

// loose writes segments as single LINEs and ARCs.
func (p *pen) loose(layer string, segs []geom.Segment) {
	for _, s := range segs {
		if !s.IsArc() {
			p.tags(0, "LINE", 8, layer, 10, s.From.X, 20, s.From.Y, 11, s.To.X, 21, s.To.Y)
			continue
		}
		if s.Bulge < 0 {
			s = s.Reverse()
		}
		c := s.Centre()
		p.tags(0, "ARC", 8, layer, 10, c.X, 20, c.Y, 40, s.Radius(),
			50, s.From.Sub(c).Direction().Degrees(), 51, s.To.Sub(c).Direction().Degrees())
	}
}

// file returns a whole drawing: a block B with what body writes, and INSERTs or
// what it writes itself.
func file(unit int, block, entities func(*pen)) []byte {
	p := &pen{decimals: 12}
	p.tags(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1015", 9, "$INSUNITS", 70, unit, 0, "ENDSEC")
	p.tags(0, "SECTION", 2, "BLOCKS", 0, "BLOCK", 2, "B", 10, 3.0, 20, -7.0)
	block(p)
	p.tags(0, "ENDBLK", 0, "ENDSEC", 0, "SECTION", 2, "ENTITIES")
	entities(p)
	p.tags(0, "ENDSEC", 0, "EOF")
	return []byte(p.String())
}

// However a drawing is put together, it gives the same job: moved, turned, mirrored
// and scaled by an INSERT, its lines in any order and direction, in any unit, whole
// or loose.
func TestAnyDrawing(t *testing.T) {
	units := map[int]float64{1: 25.4, 2: 304.8, 4: 1, 5: 10, 6: 1000, 14: 100}
	rapid.Check(t, func(t *rapid.T) {
		w := anyWant(t)
		code := rapid.SampledFrom([]int{1, 2, 4, 5, 6, 14}).Draw(t, "unit")
		scale := rapid.Float64Range(0.01, 100).Draw(t, "scale")
		mirror := rapid.Bool().Draw(t, "mirror")
		behind := rapid.Bool().Draw(t, "extrusion")
		turn := rapid.Float64Range(-360, 360).Draw(t, "turn")
		at := geom.Pt(rapid.Float64Range(-5000, 5000).Draw(t, "x"), rapid.Float64Range(-5000, 5000).Draw(t, "y")).Mul(1 / units[code])
		segs := w.outline().Apply(geom.Scale(1 / units[code] / scale)).Segments()
		order := rapid.Permutation(segs).Draw(t, "order")
		for i := range order {
			if rapid.Bool().Draw(t, "turned") {
				order[i] = order[i].Reverse()
			}
		}
		data := file(code, func(p *pen) {
			p.loose("0", order)
			p.tags(0, "TEXT", 8, "0", 10, 1.0, 20, 1.0, 1, "words")
		}, func(p *pen) {
			sx, z := scale, 1.0
			if mirror {
				sx = -sx
			}
			if behind {
				z = -1
			}
			p.tags(0, "INSERT", 8, "TUBE", 2, "B", 10, at.X, 20, at.Y, 41, sx, 42, scale, 50, turn, 210, 0.0, 220, 0.0, 230, z)
		})
		if mirror != behind {
			w = w.mirrored()
		}
		f, err := Read(bytes.NewReader(data), Options{})
		if err != nil || len(f.Candidates) != 1 || f.Candidates[0].Layer != "TUBE" {
			t.Fatalf("%v, %+v", err, f.Candidates)
		}
		if err := w.agrees(read(t, data, Options{}, filled(0)), 2e-6*(1+scale/100)); err != nil {
			t.Fatalf("%v", err)
		}
	})
}

package kit

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/drawing/drawtest"
	"overbend/export/dxf"
	"overbend/geom/tooling"
)

// On random jobs of all sizes the part's drawing has every dimension and a letter
// at every point, the fixture's a name at every hole, and no lettering of either
// lies on a line or on other lettering.
func TestPartAndFixtureLettering(t *testing.T) {
	fixtures := 0
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		depth := f("depth", 12, 80)
		shape := fmt.Sprintf("shape = \"round\"\ndiameter = \"%g mm\"", depth)
		if rapid.Bool().Draw(t, "rectangle") {
			shape = fmt.Sprintf("shape = \"rectangle\"\nwidth = \"%g mm\"\ndepth = \"%g mm\"", depth, depth)
		}
		cuts := [2]float64{f("cut", -60, 60), f("cut", -60, 60)}
		legs := [2]float64{f("leg", 0, 400), f("leg", 0, 400)}
		for i := range legs {
			if rapid.Bool().Draw(t, "square") {
				cuts[i] = 0
			} else {
				legs[i] += depth
			}
		}
		text := fmt.Sprintf(`name = %q
units = %q
[tube]
%s
wall = "%g mm"
material = "6061-T4"
[bend]
radius = "%g mm"
radius_at = %q
angle = %g
legs = ["%g mm", "%g mm"]
[ends]
cut = [%g, %g]
[fixture]
pin = "%g mm"
`, rapid.SampledFrom(drawtest.Names()).Draw(t, "name"), rapid.SampledFrom([]string{"mm", "in"}).Draw(t, "units"), shape, depth/10,
			depth*f("radius over depth", 3, 12), rapid.SampledFrom([]string{"centre", "inside", "outside"}).Draw(t, "at"),
			f("angle", 5, 150), legs[0], legs[1], cuts[0], cuts[1], f("pin", 4, 16))
		j, err := job.Parse("random.toml", []byte(text))
		if err != nil {
			t.Skip(err)
		}
		p, err := plan.New(j)
		if err != nil {
			t.Fatal(err)
		}
		if p.Part == nil {
			t.Skip("no part")
		}
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			o := Options{Units: u}
			part := partPrint(p, o)
			words := neat(t, part.d.Shapes)
			checkPart(t, p, u, words)
			d := partCut(p, u)
			neat(t, d.Shapes)
			if err := dxf.Lint(d); err != nil {
				t.Fatal(err)
			}
			if p.Fixture == nil {
				continue
			}
			fixtures++
			i := slices.IndexFunc(p.Pieces, func(c plan.Piece) bool { return c.Name == "fixture" })
			for _, shapes := range [][]drawing.Shape{fixturePrint(p, p.Pieces[i], u).Shapes, pieceShapes(p, p.Pieces[i], u)} {
				words := neat(t, shapes)
				for k := range p.Fixture.Part.Holes {
					if !slices.Contains(words, holeName(p.Fixture, k)) {
						t.Errorf("no name at hole %s", holeName(p.Fixture, k))
					}
				}
			}
		}
	})
	if fixtures == 0 {
		t.Error("no fixture at all")
	}
}

// neat fails when lettering lies on a line or on other lettering, and returns all
// words.
func neat(t *rapid.T, shapes []drawing.Shape) (words []string) {
	for i, s := range shapes {
		text, ok := s.(drawing.Text)
		if !ok {
			continue
		}
		words = append(words, text.Words)
		for k, other := range shapes {
			if k != i && crossedBy(text, other) {
				t.Fatalf("%q at %v touches %v", text.Words, text.At, other)
			}
		}
	}
	return words
}

// checkPart fails when a dimension or a letter is missing.
func checkPart(t *rapid.T, p *plan.Plan, u quantity.Units, words []string) {
	j, box := p.Job, p.Part.Outline.Bounds()
	figure := func(mm float64) string { return u.Figure(quantity.Length.Of(mm)) }
	want := []string{figure(box.Width()), figure(box.Height()), figure(j.Tube.Depth)}
	for i, l := range j.Bend.Legs {
		if l > scribed {
			want = append(want, figure(l))
		}
		if j.Ends.Cut[i] != 0 && !slices.ContainsFunc(words, func(w string) bool { return strings.HasSuffix(w, " longer") }) {
			t.Errorf("end %d is not lettered", i+1)
		}
	}
	radius := "R" + figure(j.Bend.Drawn(j.Tube.Depth))
	if j.Bend.RadiusAt != job.Centre {
		radius += " " + string(j.Bend.RadiusAt)
	}
	if angle := u.Angle(j.Bend.Angle); slices.Contains(words, radius+", "+angle) {
		want = append(want, radius+", "+angle)
	} else {
		want = append(want, radius, angle)
	}
	for i, q := range p.Part.Points {
		if q.Name != tooling.ArcCentre || box.Grow(j.Tube.Depth).Has(q.At) {
			want = append(want, pointLetter(i))
		}
	}
	left := slices.Clone(words)
	for _, w := range want {
		k := slices.Index(left, w)
		if k < 0 {
			t.Errorf("no %q in %q", w, words)
			continue
		}
		left = slices.Delete(left, k, k+1)
	}
}

// Where dimensions lie before the middle of an end cut, it is lettered beside that.
func TestCrowdedEndCut(t *testing.T) {
	j, err := job.Parse("crowded.toml", []byte(`name = "crowded"
units = "in"
[tube]
shape = "round"
diameter = "34 mm"
wall = "3.4 mm"
material = "6061-T4"
[bend]
radius = "388.41 mm"
radius_at = "outside"
angle = 9.767787609139134
legs = ["1 mm", "34.000003525508346 mm"]
[ends]
cut = [0, -60]
`))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.New(j)
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
		if !slices.ContainsFunc(partPrint(p, Options{Units: u}).d.Shapes, func(s drawing.Shape) bool {
			text, ok := s.(drawing.Text)
			return ok && strings.HasSuffix(text.Words, " longer")
		}) {
			t.Errorf("%v: end 2 is not lettered", u)
		}
	}
}

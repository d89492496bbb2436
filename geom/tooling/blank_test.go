package tooling

import (
	"errors"
	"math"
	"testing"

	"overbend/geom"

	"pgregory.net/rapid"
)

// TestBlankByHand takes the davit arm with round numbers: an arc of 240 mm.
func TestBlankByHand(t *testing.T) {
	spec := BlankSpec{
		Radius: 400, Depth: 40, Angle: 0.6, Legs: [2]float64{250, 200},
		Cuts: [2]geom.Angle{0, 45 * geom.Degree}, Trim: [2]float64{-1, 5},
	}
	b, err := NewBlank(spec)
	if err != nil {
		t.Fatal(err)
	}
	// Left: 20 trim by default. Right: 20 tan 45° for the cut, 5 trim.
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"length", b.Length, 20 + 250 + 240 + 200 + 20 + 5},
		{"only for the press", b.ForPress, 0},
		{"outside", b.Outside, 250 + 200 + 20 + 420*0.6},
		{"inside", b.Inside, 250 + 200 - 20 + 380*0.6},
		{"right leg outside", b.OutsideLeg[1], 220},
		{"right leg inside", b.InsideLeg[1], 180},
		{"left leg outside", b.OutsideLeg[0], 250},
	} {
		if !near(row.got, row.want, 1e-9) {
			t.Errorf("%s: %g, want %g", row.name, row.got, row.want)
		}
	}
	want := []BlankMark{{Name: MarkTrim, At: 20}, {Name: MarkTangent, At: 270}, {Name: MarkCentre, At: 390}, {Name: MarkTangent, At: 510}, {Name: MarkTrim, At: 710, Slant: 20}}
	for i, m := range b.Marks {
		if m.Name != want[i].Name || !near(m.At, want[i].At, 1e-9) || !near(m.Slant, want[i].Slant, 1e-9) {
			t.Errorf("mark %d: %v, want %v", i, m, want[i])
		}
	}
	checkOutline(t, b.Part)
	if len(b.Part.Marks) != 5 {
		t.Errorf("%d scribe lines, want 5", len(b.Part.Marks))
	}

	// The press needs 450 on each side of the middle: left has 390, right 345.
	spec.Half, spec.Roller = 450, 175
	b, err = NewBlank(spec)
	if err != nil {
		t.Fatal(err)
	}
	if !near(b.Length, 900, 1e-9) || !near(b.ForPress, 60+105, 1e-9) || !near(b.Middle, 450, 1e-9) {
		t.Errorf("length %g, of which %g for the press, middle at %g: want 900, 165, 450", b.Length, b.ForPress, b.Middle)
	}
	rollers := 0
	for _, m := range b.Marks {
		if m.Name == MarkRoller {
			rollers++
			if !near(math.Abs(m.At-450), 175, 1e-9) {
				t.Errorf("roller at %g", m.At)
			}
		}
	}
	if rollers != 2 {
		t.Errorf("%d rollers marked", rollers)
	}
}

// Scribe lines by hand: a blank without trim or legs of an arc of 240 mm, 40 deep,
// cut at 45°. Across they leave 1 mm at both faces, a roller's is 0.3 of the depth
// without that 1 mm, on the outer face.
func TestBlankScribe(t *testing.T) {
	spec := BlankSpec{
		Radius: 400, Depth: 40, Angle: 0.6, Legs: [2]float64{250, 200},
		Cuts: [2]geom.Angle{0, 45 * geom.Degree}, Trim: [2]float64{0.5, 20}, Roller: 175,
	}
	b, err := NewBlank(spec)
	if err != nil {
		t.Fatal(err)
	}
	// Left end 0.5 before the trim, middle at 0.5 + 250 + 120.
	want := []struct {
		name string
		line geom.Path
	}{
		{MarkTrim, geom.Path{}}, // less than 1 mm from the end
		{MarkRoller, geom.Lines(geom.Pt(195.5, 28), geom.Pt(195.5, 39))},
		{MarkTangent, geom.Lines(geom.Pt(250.5, 1), geom.Pt(250.5, 39))},
		{MarkCentre, geom.Lines(geom.Pt(370.5, 1), geom.Pt(370.5, 39))},
		{MarkTangent, geom.Lines(geom.Pt(490.5, 1), geom.Pt(490.5, 39))},
		{MarkRoller, geom.Lines(geom.Pt(545.5, 28), geom.Pt(545.5, 39))},
		{MarkTrim, geom.Lines(geom.Pt(690.5-19, 1), geom.Pt(690.5+19, 39))},
	}
	if !near(b.Length, 730.5, 1e-9) || len(b.Marks) != len(want) {
		t.Fatalf("%g mm long, marks %v", b.Length, b.Marks)
	}
	drawn := 0
	for i, m := range b.Marks {
		w := want[i]
		if m.Name != w.name || len(m.Scribe.Vertices) != len(w.line.Vertices) {
			t.Errorf("mark %d: %s %v, want %s %v", i, m.Name, m.Scribe, w.name, w.line)
			continue
		}
		for k, v := range m.Scribe.Vertices {
			if v.Dist(w.line.Vertices[k].Point) > 1e-9 || v.Bulge != 0 {
				t.Errorf("%s: %v, want %v", m.Name, m.Scribe, w.line)
			}
		}
		if len(m.Scribe.Vertices) > 0 {
			if drawn >= len(b.Part.Marks) || b.Part.Marks[drawn].Bounds() != m.Scribe.Bounds() {
				t.Errorf("the part's marks are %v", b.Part.Marks)
			}
			drawn++
		}
	}
	if drawn != len(b.Part.Marks) {
		t.Errorf("%d marks on the part, want %d", len(b.Part.Marks), drawn)
	}
	for _, row := range []struct {
		name   string
		change func(*BlankSpec)
		marks  int
		lines  int
	}{
		{"trim 1.01 mm from the left end", func(s *BlankSpec) { s.Trim[0] = 1.01 }, 7, 7},
		{"trim 0.99 mm from the left end", func(s *BlankSpec) { s.Trim[0] = 0.99 }, 7, 6},
		{"saw cut 1.01 mm from the right end", func(s *BlankSpec) { s.Trim[1] = 0.01 }, 7, 6},
		{"trim 1.01 mm from the right end", func(s *BlankSpec) { s.Cuts[1] = 0; s.Trim[1] = 1.01 }, 7, 6},
		{"trim 0.99 mm from the right end", func(s *BlankSpec) { s.Cuts[1] = 0; s.Trim[1] = 0.99 }, 7, 5},
		{"cut the other way, clear of the left end", func(s *BlankSpec) { s.Cuts[0] = -45 * geom.Degree }, 7, 7},
		{"a tube of foil", func(s *BlankSpec) { s.Depth = 4; s.Trim = [2]float64{20, 20} }, 7, 0},
		{"a hair more", func(s *BlankSpec) { s.Depth = 4.01; s.Trim = [2]float64{20, 20} }, 7, 7},
		{"no rollers", func(s *BlankSpec) { s.Roller = 0 }, 5, 4},
		{"rollers off the right end", func(s *BlankSpec) { s.Roller = 365 }, 6, 5},
		{"rollers off both ends", func(s *BlankSpec) { s.Roller = 400 }, 5, 4},
	} {
		s := spec
		row.change(&s)
		b, err := NewBlank(s)
		if err != nil || len(b.Marks) != row.marks || len(b.Part.Marks) != row.lines {
			t.Errorf("%s: %d marks, %d lines, want %d, %d: %v", row.name, len(b.Marks), len(b.Part.Marks), row.marks, row.lines, err)
		}
	}
}

func TestBlankProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := BlankSpec{
			Depth:  rapid.Float64Range(10, 120).Draw(t, "depth"),
			Angle:  geom.Angle(rapid.Float64Range(1, 180).Draw(t, "angle")) * geom.Degree,
			Legs:   [2]float64{rapid.Float64Range(0, 800).Draw(t, "left"), rapid.Float64Range(0, 800).Draw(t, "right")},
			Half:   rapid.Float64Range(0, 900).Draw(t, "half"),
			Roller: rapid.Float64Range(0, 500).Draw(t, "roller"),
		}
		spec.Radius = spec.Depth * rapid.Float64Range(1, 30).Draw(t, "radius/depth")
		for i := range spec.Trim {
			spec.Trim[i] = rapid.Float64Range(-1, 50).Draw(t, "trim")
			spec.Cuts[i] = geom.Angle(rapid.Float64Range(-60, 60).Draw(t, "cut")) * geom.Degree
		}
		b, err := NewBlank(spec)
		if err != nil {
			var size *SizeError
			if !errors.As(err, &size) || size.Dimension != "leg" {
				t.Fatal(err)
			}
			return
		}
		checkOutline(t, b.Part)
		if b.Middle < spec.Half-1e-9 || b.Length-b.Middle < spec.Half-1e-9 {
			t.Fatalf("middle at %g of %g, the press needs %g on each side", b.Middle, b.Length, spec.Half)
		}
		// What is there only for the press goes when the press asks for nothing.
		free := spec
		free.Half = 0
		f, err := NewBlank(free)
		if err != nil || !near(f.Length+b.ForPress, b.Length, 1e-9) || f.ForPress != 0 {
			t.Fatalf("%g with the press, %g of it for the press, %g without: %v", b.Length, b.ForPress, f.Length, err)
		}
		// The finished tube's own faces, from its outline, are the blank's.
		tube := TubeOutline(spec.Radius, spec.Depth, spec.Angle, spec.Legs, spec.Cuts)
		ends := spec.Depth/math.Cos(float64(spec.Cuts[0])) + spec.Depth/math.Cos(float64(spec.Cuts[1]))
		if got, want := b.Outside+b.Inside, tube.Length()-ends; !near(got, want, 1e-8*want+4*geom.Coincident) {
			t.Fatalf("faces %g, from the outline %g", got, want)
		}
		tangent := 0.0
		last := 0.0
		for _, m := range b.Marks {
			if m.At < last || m.At > b.Length {
				t.Fatalf("marks %v are out of order or off the blank", b.Marks)
			}
			last = m.At
			if m.Name == MarkTangent {
				tangent = m.At - tangent
			}
			// Saw cuts stay on the blank.
			if m.Name == MarkTrim && (m.At-math.Abs(m.Slant) < -1e-9 || m.At+math.Abs(m.Slant) > b.Length+1e-9) {
				t.Fatalf("trim %v runs off a blank of %g", m, b.Length)
			}
		}
		if want := spec.Radius * float64(spec.Angle); !near(tangent, want, 1e-9*want) {
			t.Fatalf("tangent points %g apart, want the arc %g", tangent, want)
		}
	})
}

func TestBlankRefuses(t *testing.T) {
	good := BlankSpec{Radius: 400, Depth: 40, Angle: 0.6, Legs: [2]float64{250, 200}}
	for _, row := range []struct {
		name   string
		change func(*BlankSpec)
		dim    string
	}{
		{"no radius", func(s *BlankSpec) { s.Radius = 0 }, "radius"},
		{"endless depth", func(s *BlankSpec) { s.Depth = math.Inf(1) }, "depth"},
		{"no angle", func(s *BlankSpec) { s.Angle = 0 }, "angle"},
		{"negative leg", func(s *BlankSpec) { s.Legs[0] = -1 }, "leg"},
		{"cut into the bend", func(s *BlankSpec) { s.Legs[0] = 5; s.Cuts[0] = 30 * geom.Degree }, "leg"},
		{"steep cut", func(s *BlankSpec) { s.Cuts[1] = 80 * geom.Degree }, "end cut"},
		{"trim not a number", func(s *BlankSpec) { s.Trim[1] = math.NaN() }, "trim"},
		{"press longer than the shop", func(s *BlankSpec) { s.Half = 1e9 }, "length for the press"},
	} {
		spec := good
		row.change(&spec)
		_, err := NewBlank(spec)
		var size *SizeError
		if !errors.As(err, &size) || string(size.Dimension) != row.dim {
			t.Errorf("%s: %v, want an error about %s", row.name, err, row.dim)
		} else if row.dim == "angle" && size.Most != math.Pi {
			t.Errorf("%s: %v, want the limit of 180 deg", row.name, err)
		}
	}
}

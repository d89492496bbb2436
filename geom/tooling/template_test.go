package tooling

import (
	"errors"
	"math"
	"testing"

	"overbend/geom"

	"pgregory.net/rapid"
)

func drawTemplate(t *rapid.T) TemplateSpec {
	maybe := func(low, high float64, name string) float64 {
		if rapid.Bool().Draw(t, name+" left out") {
			return 0
		}
		return rapid.Float64Range(low, high).Draw(t, name)
	}
	s := TemplateSpec{
		Depth:    rapid.Float64Range(10, 120).Draw(t, "depth"),
		Angle:    geom.Angle(rapid.Float64Range(1, 180).Draw(t, "angle")) * geom.Degree,
		Legs:     [2]float64{maybe(0, 300, "left"), maybe(0, 300, "right")},
		Straight: maybe(20, 200, "straight"),
		Below:    maybe(10, 60, "below"),
		Band:     maybe(15, 80, "band"),
	}
	s.Radius = s.Depth * rapid.Float64Range(1, 40).Draw(t, "radius/depth")
	if rapid.Bool().Draw(t, "half turn") {
		s.Angle = 180 * geom.Degree
	}
	return s
}

func TestTemplateProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := drawTemplate(t)
		in, err := InsideTemplate(spec)
		if err != nil {
			var size *SizeError
			// Refused is only what would be narrower than 10 mm without its legs.
			half := (spec.Radius - spec.Depth/2) * (spec.Angle / 2).Sin()
			if !errors.As(err, &size) || size.Dimension != "leg" && size.Dimension != "angle" || half > 5 {
				t.Fatal(err)
			}
			return
		}
		out, err := OutsideTemplate(spec)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []Part{in, out} {
			checkOutline(t, p)
			if spec.Legs[0] == spec.Legs[1] {
				checkSymmetric(t, p)
			}
		}
		// The straights, as asked for.
		straight, below, band := spec.Straight, spec.Below, spec.Band
		if straight == 0 {
			straight = 100
		}
		if below == 0 {
			below = 30
		}
		if band == 0 {
			band = 40
		}
		l, r := min(straight, spec.Legs[0]), min(straight, spec.Legs[1])
		if l < leastPiece {
			l = 0
		}
		if r < leastPiece {
			r = 0
		}
		// Band: width times the middle line's length, whatever its course.
		mid := spec.Radius + spec.Depth/2 + band/2
		want := band * (l + r + mid*float64(spec.Angle))
		if got := out.Outline.Area(); !near(got, want, 1e-9*want) {
			t.Fatalf("outside template: area %.10g, want %.10g", got, want)
		}
		if got, want := out.Outline.Length(), 2*(band+l+r+mid*float64(spec.Angle)); !near(got, want, 1e-9*want) {
			t.Fatalf("outside template: length %.10g, want %.10g", got, want)
		}
		area, length := measure(polygon(out.Outline, 1024))
		if !near(out.Outline.Area(), area, 1e-5*area) || !near(out.Outline.Length(), length, 1e-5*length) {
			t.Fatalf("outside template: %.9g mm2 %.9g mm, polygon %.9g %.9g", out.Outline.Area(), out.Outline.Length(), area, length)
		}

		// Inside: a polygon laid out from the spec by trigonometry alone.
		ri, a := spec.Radius-spec.Depth/2, float64(spec.Angle)/2
		var poly []geom.Point
		end := func(side, s float64) geom.Point {
			return geom.Pt(side*(ri*math.Sin(a)+s*math.Cos(a)), ri*math.Cos(a)-s*math.Sin(a))
		}
		left, right := end(-1, l), end(1, r)
		back := math.Min(left.Y, right.Y) - below
		poly = append(poly, geom.Pt(left.X, back), geom.Pt(right.X, back), right)
		const n = 2000
		for i := range n + 1 {
			th := a - 2*a*float64(i)/n
			poly = append(poly, geom.Pt(ri*math.Sin(th), ri*math.Cos(th)))
		}
		poly = append(poly, left)
		area, length = measure(poly)
		if got := in.Outline.Area(); !near(got, area, 1e-5*area) {
			t.Fatalf("inside template: area %.9g, polygon %.9g", got, area)
		}
		if got := in.Outline.Length(); !near(got, length, 1e-5*length) {
			t.Fatalf("inside template: length %.9g, polygon %.9g", got, length)
		}

		// Both lie on the finished tube: their edges along it are the tube's.
		tube := TubeOutline(spec.Radius, spec.Depth, spec.Angle, [2]float64{straight + 1, straight + 1}, [2]geom.Angle{})
		for _, q := range polygon(in.Outline, 64) {
			if tube.Contains(q) && tube.Distance(q) > 1e-6 {
				t.Fatalf("the inside template reaches %g into the tube at %v", tube.Distance(q), q)
			}
		}
		for _, q := range polygon(out.Outline, 64) {
			if tube.Contains(q) && tube.Distance(q) > 1e-6 {
				t.Fatalf("the outside template reaches %g into the tube at %v", tube.Distance(q), q)
			}
		}
	})
}

func TestTemplateTangency(t *testing.T) {
	spec := TemplateSpec{Radius: 420, Depth: 40, Angle: 33 * geom.Degree, Legs: [2]float64{250, 60}}
	in, err := InsideTemplate(spec)
	if err != nil {
		t.Fatal(err)
	}
	smooth := 0
	for i, turn := range turns(in.Outline) {
		if math.Abs(turn) < 1e-12 {
			smooth++
		} else if turn < 0 {
			t.Errorf("the inside template is hollow at vertex %d", i)
		}
	}
	if smooth != 2 || len(in.Outline.Vertices) != 6 {
		t.Errorf("%d tangent joints of %d vertices, want 2 of 6", smooth, len(in.Outline.Vertices))
	}
	arcs := 0
	for _, s := range in.Outline.Segments() {
		if s.IsArc() {
			arcs++
			if !near(s.Radius(), 400, 1e-9) || !near(s.Sweep().Degrees(), 33, 1e-12) || s.Centre().Norm() > 1e-9 {
				t.Errorf("arc of radius %g over %g degrees about %v", s.Radius(), s.Sweep().Degrees(), s.Centre())
			}
		}
	}
	if arcs != 1 || len(in.Marks) != 3 {
		t.Errorf("%d arcs, %d marks, want 1 and 3", arcs, len(in.Marks))
	}
	// At 180 degrees straights and sides run on in one: no vertex between.
	spec.Angle = 180 * geom.Degree
	if in, err = InsideTemplate(spec); err != nil || len(in.Outline.Vertices) != 4 {
		t.Errorf("a half turn has %d vertices, want 4: %v", len(in.Outline.Vertices), err)
	}
}

func TestTemplateRefuses(t *testing.T) {
	good := TemplateSpec{Radius: 420, Depth: 40, Angle: 33 * geom.Degree, Legs: [2]float64{250, 60}}
	for _, row := range []struct {
		name   string
		change func(*TemplateSpec)
		dim    string
	}{
		{"no hollow", func(s *TemplateSpec) { s.Radius = 20 }, "radius"},
		{"no depth", func(s *TemplateSpec) { s.Depth = 0 }, "depth"},
		{"negative straight", func(s *TemplateSpec) { s.Straight = -1 }, "straight"},
		{"negative leg", func(s *TemplateSpec) { s.Legs[1] = -1 }, "leg"},
		{"leg not a number", func(s *TemplateSpec) { s.Legs[0] = math.NaN() }, "leg"},
		{"no angle", func(s *TemplateSpec) { s.Angle = 0 }, "angle"},
		{"more than a half turn", func(s *TemplateSpec) { s.Angle = 181 * geom.Degree }, "angle"},
		{"angle not a number", func(s *TemplateSpec) { s.Angle = geom.Angle(math.NaN()) }, "angle"},
		{"all but straight, no leg", func(s *TemplateSpec) { s.Angle = geom.Degree; s.Legs[1] = 0 }, "leg"},
		{"angle that shows nothing", func(s *TemplateSpec) { s.Angle = 1e-5 }, "angle"},
	} {
		spec := good
		row.change(&spec)
		for _, f := range []func(TemplateSpec) (Part, error){InsideTemplate, OutsideTemplate} {
			_, err := f(spec)
			var size *SizeError
			if !errors.As(err, &size) || string(size.Dimension) != row.dim {
				t.Errorf("%s: %v, want an error about %s", row.name, err, row.dim)
			} else if row.dim == "angle" && size.Most != math.Pi && size.Least == 0 {
				t.Errorf("%s: %v names no limit", row.name, err)
			}
		}
	}
}

func TestTubeOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		depth := rapid.Float64Range(10, 100).Draw(t, "depth")
		radius := depth * rapid.Float64Range(0.6, 30).Draw(t, "radius/depth")
		angle := geom.Angle(rapid.Float64Range(1, 180).Draw(t, "angle")) * geom.Degree
		legs := [2]float64{rapid.Float64Range(0, 500).Draw(t, "left"), rapid.Float64Range(0, 500).Draw(t, "right")}
		var cuts [2]geom.Angle
		for i := range cuts {
			cuts[i] = geom.Angle(rapid.Float64Range(-60, 60).Draw(t, "cut")) * geom.Degree
		}
		if CheckEnds(depth, legs, cuts) != nil {
			cuts = [2]geom.Angle{}
		}
		p := TubeOutline(radius, depth, angle, legs, cuts)
		line := Centreline(radius, angle, legs)
		length := legs[0] + legs[1] + radius*float64(angle)
		if got := line.Length(); !near(got, length, 1e-9*length+2*geom.Coincident) {
			t.Fatalf("centreline %.10g long, want %.10g", got, length)
		}
		// A cut turns about the centreline: what one face gains the other loses.
		if got := p.Area(); !near(got, depth*length, 1e-8*depth*length+2*depth*geom.Coincident) {
			t.Fatalf("area %.10g, want depth times centreline %.10g", got, depth*length)
		}
		cut := depth/math.Cos(float64(cuts[0])) + depth/math.Cos(float64(cuts[1]))
		if got, want := p.Length(), 2*length+cut; !near(got, want, 1e-8*want+4*geom.Coincident) {
			t.Fatalf("length round %.10g, want %.10g", got, want)
		}
		if q, yes := p.SelfCrossing(); yes {
			t.Fatalf("crosses itself at %v", q)
		}
		for i, s := range line.Segments() {
			if q, _ := s.At(0.5); !near(p.Distance(q), depth/2, 1e-8) && legs[0] > depth*2 && legs[1] > depth*2 && i > 0 && i < len(line.Segments())-1 {
				t.Fatalf("centreline is %g from the faces at %v", p.Distance(q), q)
			}
		}
	})
	// The sign: positive makes the outside longer. Right leg of a quarter turn
	// points straight down... at 45°; measure along it.
	p := TubeOutline(100, 20, 90*geom.Degree, [2]float64{50, 50}, [2]geom.Angle{0, 45 * geom.Degree})
	a := arms(90 * geom.Degree)[1]
	outer, inner := math.Inf(-1), math.Inf(-1)
	for _, v := range p.Vertices {
		along, off := v.Dot(a.along), v.Dot(a.out)
		if near(off, 110, 1e-9) {
			outer = math.Max(outer, along)
		}
		if near(off, 90, 1e-9) {
			inner = math.Max(inner, along)
		}
	}
	if !near(outer, 60, 1e-9) || !near(inner, 40, 1e-9) {
		t.Errorf("a 45° cut on 20 mm: outer face %g, inner %g past the tangent, want 60 and 40", outer, inner)
	}
}

func TestCheckEnds(t *testing.T) {
	for _, row := range []struct {
		legs [2]float64
		cuts [2]geom.Angle
		dim  string
	}{
		{[2]float64{0, 0}, [2]geom.Angle{0, 0}, ""},
		{[2]float64{20, 20}, [2]geom.Angle{45 * geom.Degree, -45 * geom.Degree}, ""},
		{[2]float64{19, 20}, [2]geom.Angle{45 * geom.Degree, 0}, "leg"},
		{[2]float64{20, 19}, [2]geom.Angle{0, -45 * geom.Degree}, "leg"},
		{[2]float64{1000, 1000}, [2]geom.Angle{0, 76 * geom.Degree}, "end cut"},
		{[2]float64{1000, 1000}, [2]geom.Angle{geom.Angle(math.NaN()), 0}, "end cut"},
		{[2]float64{math.NaN(), 1000}, [2]geom.Angle{}, "leg"},
	} {
		err := CheckEnds(40, row.legs, row.cuts)
		var size *SizeError
		if row.dim == "" && err != nil || row.dim != "" && (!errors.As(err, &size) || string(size.Dimension) != row.dim) {
			t.Errorf("legs %v cuts %v: %v, want %q", row.legs, row.cuts, err, row.dim)
		}
	}
}

func TestRiseTable(t *testing.T) {
	got := RiseTable(300, 2*300*math.Sin(30*math.Pi/180), 50)
	want := []ChordRise{
		{100, 300 - math.Sqrt(300*300-50*50)}, {150, 300 - math.Sqrt(300*300-75*75)},
		{200, 17.157}, {250, 300 - math.Sqrt(300*300-125*125)}, {300, 300 - math.Sqrt(300*300-150*150)},
	}
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i := range got {
		if got[i].Chord != want[i].Chord || !near(got[i].Rise, want[i].Rise, 5e-4) {
			t.Errorf("row %d: %v, want %v", i, got[i], want[i])
		}
	}
	for _, row := range []struct{ r, most, chord float64 }{
		{300, 99.9, 90}, {300, 12, 10}, {300, 7, 7}, {4, 100, 8}, {60, 500, 100},
	} {
		got := RiseTable(row.r, row.most, 50)
		if len(got) != 1 || !near(got[0].Chord, row.chord, 1e-9) || !(got[0].Rise >= 0) {
			t.Errorf("RiseTable(%g, %g) = %v, want one row of chord %g", row.r, row.most, got, row.chord)
		}
	}
	if got := RiseTable(300, 0, 50); got != nil {
		t.Errorf("no chord: %v", got)
	}
}

func TestStrip(t *testing.T) {
	// Handbook arithmetic: 250 + 2 (80 + 40).
	if got := StripLength(250, 80, 40); got != 490 {
		t.Errorf("StripLength = %g, want 490", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		spec := StripSpec{
			Width: rapid.Float64Range(5, 150).Draw(t, "width"), Thickness: 6,
			Length: rapid.Float64Range(50, 2000).Draw(t, "length"),
		}
		p, err := NewStrip(spec)
		if err != nil {
			t.Fatal(err)
		}
		checkOutline(t, p)
		if got, want := p.Outline.Area(), spec.Width*spec.Length; !near(got, want, 1e-9*want) {
			t.Fatalf("area %g, want %g", got, want)
		}
		if len(p.Marks) != 1 || p.Marks[0].Vertices[0].X != spec.Length/2 {
			t.Fatalf("marks %v, want the middle", p.Marks)
		}
	})
	for _, s := range []StripSpec{{0, 6, 100}, {40, 0, 100}, {40, 6, -1}, {40, 6, math.NaN()}} {
		if _, err := NewStrip(s); err == nil {
			t.Errorf("%v was accepted", s)
		}
	}
}

// The table's steps are round in the unit it is read in, and never many.
func TestRises(t *testing.T) {
	for _, c := range []struct {
		radius, degrees float64
		inches          bool
		step            float64 // between rows, mm
	}{
		{400, 33, false, 50},
		{400, 33, true, 50.8},
		{9970, 12, false, 150}, // a chord of 2084 mm: 50 and 100 would make over 20 rows
		{9970, 12, true, 152.4},
		{400, 180, false, 50},
	} {
		got := Rises(c.radius, geom.Angle(c.degrees)*geom.Degree, c.inches)
		chord := 2 * c.radius * math.Sin(c.degrees/2*math.Pi/180)
		if len(got) < 2 || len(got) > 20 || got[len(got)-1].Chord > chord+1e-9 {
			t.Errorf("%+v: %d rows to a chord of %g mm", c, len(got), chord)
			continue
		}
		for i, r := range got {
			if want := c.step * float64(i+2); math.Abs(r.Chord-want) > 1e-9 {
				t.Errorf("%+v: row %d at %g mm, want %g", c, i, r.Chord, want)
			}
			// Pythagoras on the half chord.
			if want := c.radius - math.Sqrt(c.radius*c.radius-r.Chord*r.Chord/4); math.Abs(r.Rise-want) > 1e-9 {
				t.Errorf("%+v: rise %g on %g mm, want %g", c, r.Rise, r.Chord, want)
			}
		}
	}
}

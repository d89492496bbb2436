package tooling

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"overbend/geom"

	"pgregory.net/rapid"
)

func TestCompensate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := drawBlock(t)
		b, err := NewBlock(spec)
		if err != nil {
			return
		}
		kerf := rapid.Float64Range(0.1, 4).Draw(t, "kerf")
		for _, l := range b.Layers {
			p := l.Part
			c, err := Compensate(p, kerf)
			if err != nil {
				t.Fatal(err)
			}
			checkOutline(t, c)
			// Two square corners are mitred, all else is convex and tangent:
			// Steiner with (d/2)² each for the corners and π-2·π/4 for the arcs.
			d := kerf / 2
			want := p.Outline.Area() + d*p.Outline.Length() + d*d*(2+math.Pi/2*2/2)
			if got := c.Outline.Area(); !near(got, want, 1e-9*want) {
				t.Fatalf("area %.10g, want %.10g", got, want)
			}
			for i, h := range p.Holes {
				if c.Holes[i].Centre != h.Centre || !near(c.Holes[i].Radius, h.Radius-d, 1e-12) {
					t.Fatalf("hole %v became %v", h, c.Holes[i])
				}
			}
			if len(c.Marks) != len(p.Marks) {
				t.Fatal("marks or labels were lost")
			}
		}
	})
	p := Part{Name: "block", Outline: geom.Rect{Max: geom.Pt(100, 50)}.Path(), Holes: []geom.Circle{{Centre: geom.Pt(50, 25), Radius: 6.5}}}
	if c, err := Compensate(p, 0); err != nil || c.Outline.Area() != 5000 {
		t.Errorf("no kerf: %v, %v", c, err)
	}
	if c, err := Compensate(p, 2); err != nil || !near(c.Area(), 102*52-math.Pi*5.5*5.5, 1e-9) || !near(p.Holes[0].Radius, 6.5, 0) {
		t.Errorf("kerf of 2: area %g, %v; the part itself must not change: %v", c.Area(), err, p.Holes)
	}
	_, err := Compensate(p, 13)
	var size *SizeError
	if !errors.As(err, &size) || size.Part != "block" || size.Why != KerfAboveHole || size.Value != 13 || size.Facts.Hole != 13 {
		t.Errorf("a kerf as wide as the hole: %v, want both named", err)
	}
	for _, kerf := range []float64{-1, math.NaN(), math.Inf(1)} {
		if _, err := Compensate(p, kerf); !errors.As(err, &size) || size.Why != KerfNoWidth || size.Dimension != Kerf {
			t.Errorf("kerf %g was accepted", kerf)
		}
	}
	notch := Part{Name: "plate", Outline: geom.Start(geom.Pt(0, 0)).LineTo(geom.Pt(100, 0)).LineTo(geom.Pt(100, 50)).LineTo(geom.Pt(52, 50)).
		ArcTo(geom.Pt(48, 50), -180*geom.Degree).LineTo(geom.Pt(0, 50)).Close()}
	if _, err := Compensate(notch, 5); !errors.Is(err, geom.ErrOffset) {
		t.Errorf("a notch narrower than the kerf: %v", err)
	}
}

func TestLimitHoles(t *testing.T) {
	part := Part{Outline: geom.Rect{Max: geom.Pt(200, 60)}.Path(), Holes: []geom.Circle{
		{Centre: geom.Pt(30, 30), Radius: 6.5}, {Centre: geom.Pt(100, 30), Radius: 20}, {Centre: geom.Pt(170, 30), Radius: 1.25},
	}, Drill: []geom.Circle{{Centre: geom.Pt(60, 30), Radius: 3}}}
	for _, row := range []struct {
		process string
		plate   float64
		cut     []float64 // radii
		why     string
	}{
		{"plasma", 10, []float64{20}, "plasma cuts 15 mm and more in 10 mm"},
		{"plasma", 8, []float64{6.5, 20}, "12 mm and more in 8 mm"},
		{"laser", 10, []float64{6.5, 20}, "10 mm and more in 10 mm"},
		{"laser", 15, []float64{20}, "15 mm and more"},
		{"waterjet", 10, []float64{6.5, 20}, "3 mm and more, whatever the plate"},
		{"saw", 10, nil, "a saw cuts no hole"},
	} {
		p, err := ProcessNamed(row.process)
		if err != nil {
			t.Fatal(err)
		}
		got := LimitHoles(part, p, row.plate)
		var radii []float64
		for _, h := range got.Holes {
			radii = append(radii, h.Radius)
		}
		if fmt.Sprint(radii) != fmt.Sprint(row.cut) || len(got.Holes)+len(got.Drill) != 4 {
			t.Errorf("%s in %g mm cuts %v and drills %d, want %v (%s)", row.process, row.plate, radii, len(got.Drill), row.cut, row.why)
		}
	}
	if len(part.Holes) != 3 || len(part.Drill) != 1 {
		t.Error("the part itself was changed")
	}
	if _, err := ProcessNamed("teeth"); err == nil || !strings.Contains(err.Error(), `"plasma", "laser", "waterjet", "saw"`) {
		t.Errorf("unknown process: %v", err)
	}
	for _, p := range Processes() {
		for _, l := range []Limit{p.Hole, p.Web, p.Gap} {
			if l.At(20) < l.At(5) || l.At(5) < 0 || l.Source.String() == "" {
				t.Errorf("%s: limit %v shrinks with the plate", p.Name, l)
			}
		}
	}
}

func TestNestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := Sheet{
			Width: rapid.Float64Range(200, 2000).Draw(t, "width"), Height: rapid.Float64Range(200, 2000).Draw(t, "height"),
			Gap: rapid.Float64Range(0, 20).Draw(t, "gap"), Edge: rapid.Float64Range(0, 20).Draw(t, "edge"),
		}
		var parts []Part
		total := 0.0
		for i := range rapid.IntRange(0, 25).Draw(t, "parts") {
			w, h := rapid.Float64Range(5, 160).Draw(t, "w"), rapid.Float64Range(5, 160).Draw(t, "h")
			p := Part{Name: fmt.Sprint("part ", i), Outline: geom.Rect{Max: geom.Pt(w, h)}.Path().Apply(geom.Translate(geom.Pt(-w/3, 400)))}
			if i%3 == 0 {
				p.Holes = []geom.Circle{{Centre: p.Bounds().Centre(), Radius: min(w, h) / 4}}
				p.Marks = []geom.Path{geom.Lines(p.Bounds().Min, p.Bounds().Centre())}
			}
			parts = append(parts, p)
			total += p.Area()
		}
		got, err := Nest(parts, sheet)
		if err != nil {
			t.Fatal(err)
		}
		board := geom.Rect{Max: geom.Pt(sheet.Width, sheet.Height)}
		used := make([]float64, got.Sheets)
		boxes := make([]geom.Rect, len(parts))
		for i, q := range got.Placements {
			b := parts[i].Outline.Apply(q.Move).Bounds()
			boxes[i] = b
			if !board.Grow(-sheet.Edge).Holds(b, 1e-5) {
				t.Fatalf("part %d leaves the sheet: %v of %v", i, b, board)
			}
			if q.Move.Mirrors() || !near(q.Move.Factor(), 1, 1e-12) {
				t.Fatalf("part %d is mirrored or scaled by %v", i, q.Move)
			}
			used[q.Sheet] += parts[i].Area() / (sheet.Width * sheet.Height)
			for k, r := range got.Placements[:i] {
				if r.Sheet == q.Sheet && b.Overlaps(boxes[k], sheet.Gap-1e-5) {
					t.Fatalf("parts %d and %d are too near: %v, %v", k, i, boxes[k], b)
				}
			}
		}
		if len(got.Used) != got.Sheets {
			t.Fatalf("%d shares for %d sheets", len(got.Used), got.Sheets)
		}
		for i, u := range got.Used {
			if !near(u, used[i], 1e-9) || u > 1+1e-9 || u <= 0 {
				t.Fatalf("sheet %d is used %g, counted %g", i, u, used[i])
			}
		}
	})
}

func TestNest(t *testing.T) {
	plank := func(w, h float64) Part { return Part{Name: "plank", Outline: geom.Rect{Max: geom.Pt(w, h)}.Path()} }
	for _, row := range []struct {
		name   string
		parts  []Part
		sheet  Sheet
		sheets int
	}{
		{"nothing", nil, Sheet{100, 100, 5, 5}, 0},
		{"four quarters fill a sheet", []Part{plank(50, 50), plank(50, 50), plank(50, 50), plank(50, 50)}, Sheet{100, 100, 0, 0}, 1},
		{"with a gap they don't", []Part{plank(50, 50), plank(50, 50), plank(50, 50), plank(50, 50)}, Sheet{100, 100, 1, 0}, 4},
		{"gap and edge fit exactly", []Part{plank(40, 40), plank(40, 40), plank(40, 40), plank(40, 40)}, Sheet{100, 100, 10, 5}, 1},
		{"turned to fit", []Part{plank(20, 90), plank(20, 90), plank(20, 90)}, Sheet{100, 70, 5, 0}, 1},
		{"long and short", []Part{plank(100, 20), plank(60, 30), plank(40, 30), plank(100, 50)}, Sheet{100, 100, 0, 0}, 1},
	} {
		got, err := Nest(row.parts, row.sheet)
		if err != nil || got.Sheets != row.sheets {
			t.Errorf("%s: %d sheets, want %d, %v", row.name, got.Sheets, row.sheets, err)
		}
	}
	_, err := Nest([]Part{plank(620, 180)}, Sheet{600, 400, 5, 10})
	var large *SheetError
	if !errors.As(err, &large) || *large != (SheetError{"plank", 620, 180, Sheet{600, 400, 5, 10}}) {
		t.Errorf("too large a part: %v, want both sizes named", err)
	}
	for _, s := range []Sheet{{0, 100, 0, 0}, {100, math.NaN(), 0, 0}, {100, 100, -1, 0}, {100, 100, 0, math.Inf(1)}} {
		if _, err := Nest([]Part{plank(1, 1)}, s); err == nil {
			t.Errorf("sheet %v was accepted", s)
		}
	}
}

// TestNestDavit lays a real kit on a common offcut.
func TestNestDavit(t *testing.T) {
	b, err := NewBlock(davit)
	if err != nil {
		t.Fatal(err)
	}
	c, err := b.Cheek(0)
	if err != nil {
		t.Fatal(err)
	}
	spec := TemplateSpec{Radius: 420, Depth: 40, Angle: 33 * geom.Degree, Legs: [2]float64{250, 250}}
	in, err := InsideTemplate(spec)
	if err != nil {
		t.Fatal(err)
	}
	p := b.Layers[0].Part
	got, err := Nest([]Part{p, p, p, p, c, c, in}, Sheet{1000, 500, 15, 10})
	if err != nil || got.Sheets != 1 {
		t.Errorf("%d sheets of 1000 x 500, want 1, %v", got.Sheets, err)
	}
}

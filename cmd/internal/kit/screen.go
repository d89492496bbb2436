package kit

import (
	"fmt"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/tooling"
)

// Screen is one of the kit's drawings for a screen, which has no room for true
// size: the same lines at another scale, their lettering as large as ever, and
// what stands beside them on paper.
type Screen struct {
	Size geom.Point // of the thing itself, mm
	// Draw draws it at so many mm of the drawing per mm.
	Draw  func(scale float64) drawing.Drawing
	Lines []string // that say what it is
	Table [][]string
}

// PartScreen is what part.svg draws; its table is a row for each point: letter,
// name, x and y. False where the part can't be made.
func PartScreen(p *plan.Plan, u quantity.Units) (Screen, bool) {
	if p.Part == nil {
		return Screen{}, false
	}
	box := p.Part.Outline.Bounds()
	s := Screen{
		Size: geom.Pt(box.Width(), box.Height()),
		Draw: func(scale float64) drawing.Drawing { return partBoard(p, u, scale).d },
	}
	lines := partLines(p, u)
	n := len(p.Part.Points)
	s.Lines = append(append(s.Lines, lines[2:3]...), lines[3+n:]...) // the page says the first two itself
	for i, q := range p.Part.Points {
		s.Table = append(s.Table, row(pointLetter(i), q.Name, u, q.At))
	}
	return s, true
}

// FixtureScreen is what fixture.svg draws, with a row for each hole and each end of
// a cut; false where there is no fixture.
func FixtureScreen(p *plan.Plan, u quantity.Units) (Screen, bool) {
	f := p.Fixture
	c, ok := pieceNamed(p, "fixture")
	if f == nil || !ok {
		return Screen{}, false
	}
	s := pieceScreen(c, u)
	s.Draw = func(scale float64) drawing.Drawing {
		d := drawing.Drawing{Shapes: cutShapes(scaledPart(c.Part, scale))}
		d.Add(fixtureNames(f, c.Part.Drill, d.Shapes, u, scale)...)
		return d
	}
	s.Lines = fixtureLines(p, c, u)
	for i, q := range f.Pins {
		s.Table = append(s.Table, row(holeName(f, i), pinTouches(q), u, q.At))
	}
	for i, q := range f.Datum {
		s.Table = append(s.Table, row(holeName(f, len(f.Pins)+i), "datum hole", u, q))
	}
	for i, l := range f.Cuts {
		name := fmt.Sprintf("cut %d", i+1)
		s.Table = append(s.Table, row(name, "inside", u, l[0]), row(name, "outside", u, l[1]))
	}
	return s, true
}

// BlockScreens are what block.svg and its like draw, an outline each.
func BlockScreens(p *plan.Plan, u quantity.Units) []Screen {
	var out []Screen
	for _, c := range p.Pieces {
		if c.Layer > 0 {
			s := pieceScreen(c, u)
			s.Lines = append([]string{c.Name + ": " + cutOf(c, u)}, labels(p, c, u)...)
			out = append(out, s)
		}
	}
	return out
}

func pieceScreen(c plan.Piece, u quantity.Units) Screen {
	box := c.Part.Bounds()
	return Screen{
		Size: geom.Pt(box.Width(), box.Height()),
		Draw: func(scale float64) drawing.Drawing {
			d := drawing.Drawing{Shapes: cutShapes(scaledPart(c.Part, scale))}
			d.Add(drillNames(c.Part.Drill, d.Shapes, u, scale)...)
			return d
		},
	}
}

func pieceNamed(p *plan.Plan, name string) (plan.Piece, bool) {
	for _, c := range p.Pieces {
		if c.Name == name {
			return c, true
		}
	}
	return plan.Piece{}, false
}

// row is a point of a table.
func row(letter, name string, u quantity.Units, q geom.Point) []string {
	return []string{letter, name, u.Figure(quantity.Length.Of(q.X)), u.Figure(quantity.Length.Of(q.Y))}
}

// scaledPart returns a flat part at another scale.
func scaledPart(p tooling.Part, scale float64) tooling.Part {
	t := geom.Scale(scale)
	circles := func(in []geom.Circle) (out []geom.Circle) {
		for _, c := range in {
			out = append(out, geom.Circle{Centre: t.Apply(c.Centre), Radius: scale * c.Radius})
		}
		return out
	}
	out := tooling.Part{Name: p.Name, Outline: p.Outline.Apply(t), Holes: circles(p.Holes), Drill: circles(p.Drill)}
	for _, m := range p.Marks {
		out.Marks = append(out.Marks, m.Apply(t))
	}
	return out
}

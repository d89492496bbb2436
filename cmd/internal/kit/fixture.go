package kit

import (
	"fmt"
	"slices"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/tooling"
)

// fixtureNames letters the holes of a fixture as its table does: pins by number,
// then the datum holes, each with its size where it is to be drilled, at scale mm of the drawing per mm.
func fixtureNames(f *plan.Fixture, drill []geom.Circle, drawn []drawing.Shape, u quantity.Units, scale float64) []drawing.Shape {
	var b board
	b.add(drawn...)
	n := len(b.d.Shapes)
	for i, h := range f.Part.Holes {
		name := holeName(f, i)
		if slices.ContainsFunc(drill, func(d geom.Circle) bool { return d.Centre == h.Centre }) {
			name += " drill Ø" + u.Length(2*h.Radius)
		}
		b.nameHole(h.Centre.Mul(scale), scale*h.Radius, name)
	}
	return b.d.Shapes[n:]
}

// holeName is a pin's number or a datum hole's letter.
func holeName(f *plan.Fixture, i int) string {
	if k := i - len(f.Pins); k >= 0 {
		return pointLetter(k)
	}
	return fmt.Sprint(i + 1)
}

// pinTouches says what a pin touches.
func pinTouches(p tooling.FixturePin) string {
	switch p.Touches {
	case tooling.TouchOutside:
		return "outside, at the crown; clamp here"
	case tooling.TouchEnd:
		return fmt.Sprintf("stop for end %d before it is cut", p.Leg)
	}
	return fmt.Sprintf("inside of leg %d", p.Leg)
}

// fixtureLines says what a fixture is, and last what its pins touch.
func fixtureLines(p *plan.Plan, c plan.Piece, u quantity.Units) []string {
	f := p.Fixture
	return []string{
		p.Job.Name + ": trim fixture, " + cutOf(c, u),
		fmt.Sprintf("ream %d holes for dowels of %s", len(f.Part.Holes), u.Length(f.Pin)),
		"datum: lower left corner, x along the lower edge, parallel to leg 1; " + u.String(),
		"pins touch the part as bent, at most " + u.Length(f.Gap) + " off the drawing",
	}
}

// fixturePrint is the fixture on paper, with the table of its holes.
func fixturePrint(p *plan.Plan, c plan.Piece, u quantity.Units) drawing.Drawing {
	f := p.Fixture
	lines := fixtureLines(p, c, u)
	touch := lines[len(lines)-1]
	lines = lines[:len(lines)-1]
	for i, q := range f.Pins {
		lines = append(lines, holeName(f, i)+" ("+pinTouches(q)+"): "+place(u, q.At))
	}
	for i, q := range f.Datum {
		lines = append(lines, holeName(f, len(f.Pins)+i)+" (datum hole): "+place(u, q))
	}
	for i, l := range f.Cuts {
		lines = append(lines, fmt.Sprintf("cut %d from %s to %s", i+1, place(u, l[0]), place(u, l[1])))
	}
	lines = append(lines, touch)
	var d drawing.Drawing
	d.Add(cutShapes(c.Part)...)
	d.Add(fixtureNames(f, c.Part.Drill, d.Shapes, u, 1)...)
	letter(&d, c.Part.Outline, lines, labels(p, c, u))
	return d
}

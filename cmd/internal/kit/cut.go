package kit

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/lettering"
	"overbend/geom"
	"overbend/geom/tooling"
)

// pieceShapes returns a piece as it goes to the table, lettered where the part
// itself has room, which a kerf does not move.
func pieceShapes(p *plan.Plan, c plan.Piece, u quantity.Units) []drawing.Shape {
	out := append(cutShapes(c.Cut), lettered(c.Part, labels(p, c, u))...)
	if c.Name == "fixture" {
		return append(out, fixtureNames(p.Fixture, c.Cut.Drill, out, u, 1)...)
	}
	return append(out, drillNames(c.Cut.Drill, out, u, 1)...)
}

// cutShapes returns a flat part as cut and scribe lines.
func cutShapes(p tooling.Part) []drawing.Shape {
	out := []drawing.Shape{drawing.Stroke{Path: p.Outline, Role: drawing.CutOuter}}
	for _, h := range p.Holes {
		out = append(out, drawing.Ring{Circle: h, Role: drawing.CutInner})
	}
	for i, m := range p.Marks {
		// A blank without a leg has its trim at its tangent point, a block with
		// hardly any wrap its tangent points at the crown: one line.
		if !slices.ContainsFunc(p.Marks[:i], func(e geom.Path) bool { return oneLine(e, m) }) {
			out = append(out, drawing.Stroke{Path: m, Role: drawing.Mark})
		}
	}
	for _, h := range p.Drill {
		out = append(out, cross(h.Centre, h.Radius/2)...)
	}
	return out
}

// drillNames names the holes to be drilled where what is drawn leaves room, at
// scale mm of the drawing per mm.
func drillNames(drill []geom.Circle, drawn []drawing.Shape, u quantity.Units, scale float64) []drawing.Shape {
	if len(drill) == 0 {
		return nil
	}
	var out []drawing.Shape
	taken := obstaclesOf(drawn)
	for _, h := range drill {
		if t, ok := drillName(h, taken, u, scale); ok {
			out = append(out, t)
			taken.Box(t.Bounds())
		}
	}
	return out
}

// drillName names a hole to be drilled, beside its mark and above or below the
// mark's arm, in as many words as keep clear of obstacles.
func drillName(h geom.Circle, taken lettering.Obstacles, u quantity.Units, scale float64) (drawing.Text, bool) {
	const gap = 0.5 // mm
	size, arm := "Ø"+u.Figure(quantity.Nominal.Of(2*h.Radius)), scale*h.Radius/2+1
	for _, words := range [...]string{"drill " + size + "\u00a0" + u.String(), "drill " + size, size} {
		wide := width(words)
		for _, at := range [...]geom.Point{{X: arm, Y: arm}, {X: -arm - wide, Y: arm}, {X: arm, Y: -arm - small}, {X: -arm - wide, Y: -arm - small}} {
			t := drawing.Text{At: h.Centre.Mul(scale).Add(at), Words: words, Height: small, Role: drawing.Note}
			if taken.Clear(t.Bounds(), gap) {
				return t, true
			}
		}
	}
	return drawing.Text{}, false
}

// scribed is how wide a scribed line is, mm; common practice, no source.
const scribed = 0.1

// oneLine reports whether two marks would be scribed as one line.
func oneLine(a, b geom.Path) bool {
	return slices.EqualFunc(a.Vertices, b.Vertices, func(v, w geom.Vertex) bool {
		return v.Dist(w.Point) < scribed
	})
}

// cross returns a centre mark with arms of r mm.
func cross(c geom.Point, r float64) []drawing.Shape {
	arm := func(d geom.Point) drawing.Shape {
		return drawing.Stroke{Path: geom.Lines(c.Sub(d), c.Add(d)), Role: drawing.Mark}
	}
	return []drawing.Shape{arm(geom.Pt(r, 0)), arm(geom.Pt(0, r))}
}

// cutTasks returns a DXF file for every piece, the blank and the nest.
func cutTasks(p *plan.Plan, o Options) []task {
	var out []task
	add := func(name string, d drawing.Drawing, size geom.Rect, purpose string) {
		out = append(out, task{name, size.Width(), size.Height(), purpose, func(w io.Writer) error { return dxf.Write(w, d, o.DXF) }})
	}
	u := o.Units
	pieces := make([]drawing.Drawing, len(p.Pieces))
	for i, c := range p.Pieces {
		pieces[i] = drawing.Drawing{Shapes: pieceShapes(p, c, u)}
		box := c.Cut.Bounds()
		d := drawing.Drawing{Title: p.Job.Name + " " + c.Name, Shapes: slices.Clip(pieces[i].Shapes)}
		if c.Name == "fixture" {
			d.Page = c.Part.Bounds() // its coordinates count from the true corner, kerf or not
		}
		d.Add(above(box, forTable(p, u, p.Job.Name+" "+c.Name+": "+cutOf(c, u)))...)
		what := purpose(p, c, u)
		switch {
		case len(c.Sheets) > 0:
			what += ": " + cutOf(c, u)
		case c.Count > 1:
			what = fmt.Sprintf("%s: cut %d", what, c.Count)
		}
		add(c.Name+".dxf", d, box, what)
	}
	blank := p.Tools.Blank
	d := drawing.Drawing{Title: p.Job.Name + " blank", Shapes: append(cutShapes(blank.Part), markNames(blank)...)}
	add("blank.dxf", d, blank.Part.Bounds(), "tube blank with its marks, side view")
	add("part.dxf", partCut(p, u), p.Part.Outline.Bounds(), "the finished part, dimensioned, with its coordinates")
	if p.Nest == nil {
		return out
	}
	plate := geom.Rect{Max: geom.Pt(p.Nest.Width, p.Nest.Height)}
	for sheet := range p.Nest.Sheets {
		name := "nest.dxf"
		if sheet > 0 {
			name = fmt.Sprintf("nest-%d.dxf", sheet+1)
		}
		// The plate's corner is the table's zero.
		d := drawing.Drawing{Title: p.Job.Name + " nest", Page: plate}
		for i, q := range p.Nest.Placements {
			if q.Sheet == sheet {
				d.Add(pieces[p.Nest.Pieces[i]].Apply(q.Move).Shapes...)
			}
		}
		// What is told stays on the plate as well: a table may take the whole file
		// for its job and refuse what is larger.
		margin := plate
		margin.Min.Y = d.Bounds().Max.Y
		d.Add(drawing.Stroke{Path: plate.Path(), Role: drawing.Note})
		d.Add(inMargin(margin, forTable(p, u, fmt.Sprintf("%s: plate %d of %d, %s thick", p.Job.Name, sheet+1, p.Nest.Sheets, given(p.Nest.Plate, u))))...)
		add(name, d, plate, fmt.Sprintf("plate %d of %d laid out, %.0f %% used", sheet+1, p.Nest.Sheets, 100*p.Nest.Used[sheet]))
	}
	return out
}

// tableHeight is that of lettering for whoever runs the table, mm.
const tableHeight = 5.0

// forTable tells whoever runs the table what a file holds and whether a kerf is
// in it. It is not for the part, so it is never on the mark layer.
func forTable(p *plan.Plan, u quantity.Units, what string) []drawing.Text {
	kerf := "TRUE SIZE: THE TABLE ALLOWS FOR ITS KERF"
	if k := p.Job.Cutting.Kerf; k > 0 {
		kerf = "OFFSET BY HALF A KERF OF " + strings.ToUpper(given(k, u))
	}
	return []drawing.Text{
		{Words: kerf, Height: tableHeight, Role: drawing.Note},
		{Words: what, Height: tableHeight, Role: drawing.Note},
	}
}

// above stands lines over a box, so that the part stays in the lower left corner.
func above(box geom.Rect, lines []drawing.Text) []drawing.Shape {
	const step = 8.0
	var out []drawing.Shape
	for i, t := range lines {
		t.At = geom.Pt(box.Min.X, box.Max.Y+tableHeight+step*float64(i))
		out = append(out, t)
	}
	return out
}

// inMargin stands lines beside each other in a margin.
func inMargin(margin geom.Rect, lines []drawing.Text) []drawing.Shape {
	var out []drawing.Shape
	for _, t := range drawing.InMargin(margin, lines...) {
		out = append(out, t)
	}
	return out
}

package kit

import (
	"fmt"
	"io"
	"slices"

	"overbend/cmd/internal/plan"
	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/geom"
	"overbend/geom/tooling"
)

// partShapes returns a flat part as cut lines, scribe lines and notes.
func partShapes(p tooling.Part) []drawing.Shape {
	out := []drawing.Shape{drawing.Stroke{Path: p.Outline, Role: drawing.CutOuter}}
	for _, h := range p.Holes {
		out = append(out, drawing.Ring{Circle: h, Role: drawing.CutInner})
	}
	for _, h := range p.Drill {
		out = append(out, cross(h.Centre, h.Radius/2)...)
		out = append(out, drawing.Text{
			At: h.Centre.Add(geom.Pt(h.Radius/2+1, h.Radius/2)), Words: fmt.Sprintf("drill %g", 2*h.Radius),
			Height: 3, Role: drawing.Note,
		})
	}
	for i, m := range p.Marks {
		// A blank without a leg has its trim at its tangent point, a block with
		// hardly any wrap its tangent points at the crown: one line.
		if !slices.ContainsFunc(p.Marks[:i], func(e geom.Path) bool { return oneLine(e, m) }) {
			out = append(out, drawing.Stroke{Path: m, Role: drawing.Mark})
		}
	}
	for _, l := range p.Labels {
		t := drawing.Text{At: l.At, Words: l.Words, Height: l.Height, Angle: l.Angle, Role: drawing.Note}
		if l.Middle {
			t.Anchor = drawing.Middle
		}
		out = append(out, t)
	}
	return out
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
		return drawing.Stroke{Path: geom.Start(c.Sub(d)).LineTo(c.Add(d)), Role: drawing.Mark}
	}
	return []drawing.Shape{arm(geom.Pt(r, 0)), arm(geom.Pt(0, r))}
}

// cutTasks returns a DXF file for every piece, the blank and the nest.
func cutTasks(p *plan.Plan, o Options) []task {
	var out []task
	add := func(name string, d drawing.Drawing, size geom.Rect, purpose string) {
		out = append(out, task{name, size.Width(), size.Height(), purpose, func(w io.Writer) error { return dxf.Write(w, d, o.DXF) }})
	}
	for _, c := range p.Pieces {
		d := drawing.Drawing{Title: p.Job.Name + " " + c.Name, Shapes: partShapes(c.Cut)}
		d.Shapes = append(d.Shapes, kerfMark(p, c.Cut)...)
		purpose := c.Purpose
		if c.Count > 1 {
			purpose = fmt.Sprintf("%s: cut %d", purpose, c.Count)
		}
		add(c.Name+".dxf", d, c.Cut.Bounds(), purpose)
	}
	blank := p.Tools.Blank.Part
	d := drawing.Drawing{Title: p.Job.Name + " blank", Shapes: partShapes(blank)}
	add("blank.dxf", d, blank.Bounds(), "tube blank with its marks, side view")
	if p.Nest == nil {
		return out
	}
	for sheet := range p.Nest.Sheets {
		name := "nest.dxf"
		if sheet > 0 {
			name = fmt.Sprintf("nest-%d.dxf", sheet+1)
		}
		d := drawing.Drawing{Title: p.Job.Name + " nest"}
		for _, q := range p.Nest.Placements {
			if q.Sheet == sheet {
				d.Shapes = append(d.Shapes, partShapes(q.Part)...)
			}
		}
		plate := geom.Rect{Max: geom.Pt(p.Nest.Width, p.Nest.Height)}
		d.Add(drawing.Stroke{Path: drawing.RectPath(plate), Role: drawing.Note})
		add(name, d, plate, fmt.Sprintf("plate %d of %d laid out, %.0f %% used", sheet+1, p.Nest.Sheets, 100*p.Nest.Used[sheet]))
	}
	return out
}

// kerfMark says on the mark layer that the outline is offset.
func kerfMark(p *plan.Plan, part tooling.Part) []drawing.Shape {
	k := p.Job.Cutting.Kerf
	if k == 0 {
		return nil
	}
	box := part.Bounds()
	return []drawing.Shape{drawing.Text{
		At: geom.Pt(box.Min.X, box.Min.Y-12), Words: fmt.Sprintf("OFFSET BY HALF A KERF OF %.2f MM", k),
		Height: 5, Role: drawing.Mark,
	}}
}

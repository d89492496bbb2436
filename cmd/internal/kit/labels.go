package kit

import (
	"fmt"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
	"overbend/geom/tooling"
)

// given returns a length in mm as it is lettered on parts and prints.
func given(mm float64, u quantity.Units) string { return u.Show(quantity.Nominal.Of(mm)) }

// labels returns what is written on a piece, line by line: the first line says
// whose and what it is.
func labels(p *plan.Plan, c plan.Piece, u quantity.Units) []string {
	j := p.Job
	radius := func(r float64) string { return "R\u00a0" + given(r, u) }
	angle := u.Angle(j.Bend.Angle)
	switch c.Name {
	case "cheek":
		return []string{j.Name + " cheek"}
	case "packing":
		return []string{j.Name + " packing " + given(c.Plate, u)}
	case "strip":
		return []string{j.Name + " backing strip " + given(c.Plate, u) + " thick"}
	case "template-inside":
		return []string{j.Name + " " + radius(j.Bend.Inside(j.Tube.Depth)), angle}
	case "template-outside":
		return []string{j.Name + " " + radius(j.Bend.Outside(j.Tube.Depth)), angle}
	}
	lines := []string{j.Name + " block " + radius(p.Tools.Block.Layers[c.Layer-1].Radius)}
	if n := len(p.Tools.Block.Layers); n > 1 {
		lines = append(lines, fmt.Sprintf("outline %d of %d, cut %d", c.Layer, n, c.Count))
	}
	return append(lines,
		"tube "+plan.TubeSize(p.Job.Tube, u, quantity.Nominal)+" "+j.Material.Name,
		"bend "+radius(j.Bend.Radius)+" "+angle)
}

// cutOf says how many of what to cut: "cut 4 of 10 mm plate", "cut 2 each of 1.2
// mm + 0.2 mm sheet".
func cutOf(c plan.Piece, u quantity.Units) string {
	if len(c.Sheets) == 0 {
		return fmt.Sprintf("cut %d of %s plate", c.Count, given(c.Plate, u))
	}
	each := ""
	if len(c.Sheets) > 1 {
		each = " each"
	}
	return fmt.Sprintf("cut %d%s of %s sheet", c.Count, each, u.Sum(c.Sheets...))
}

// purpose returns what a piece is for.
func purpose(p *plan.Plan, c plan.Piece, u quantity.Units) string {
	switch c.Name {
	case "cheek":
		return "cheek, one each side of the block"
	case "packing":
		return "packing between the plates, lower than they are"
	case "strip":
		return "backing strip behind the outer side"
	case "template-inside":
		return "check template for the hollow of the finished bend"
	case "template-outside":
		return "check template for the outside of the finished bend"
	}
	if layers := p.Tools.Block.Layers; len(layers) > 1 {
		return "form block, layers of radius " + given(layers[c.Layer-1].Radius, u)
	}
	return "form block, one layer"
}

// partHeights are the heights of lettering on parts in mm, tried in turn. The
// least is below ISO 3098's 3.5 for paper, but these lines are scribed or only
// looked at on a screen.
var partHeights = [...]float64{5, 4.5, 4, 3.5, 3}

// lettered returns labels in place on a part, as far as there is room.
func lettered(part tooling.Part, labels []string) []drawing.Shape {
	var out []drawing.Shape
	for _, l := range lettering.Inside(part.Outline, marksOf(part), labels, partHeights[:]...) {
		out = append(out, drawing.Text{At: l.At, Words: l.Words, Height: l.Height, Anchor: drawing.Middle, Role: drawing.Mark})
	}
	return out
}

// marksOf returns what lettering on a part keeps off, but for its edge.
func marksOf(part tooling.Part) lettering.Obstacles {
	var o lettering.Obstacles
	for _, holes := range [...][]geom.Circle{part.Holes, part.Drill} {
		for _, h := range holes {
			o.Box(h.Bounds())
		}
	}
	for _, m := range part.Marks {
		o.Line(m, 0)
	}
	return o
}

// markNames names the blank's marks where there is room: upwards, left of the
// mark, the base line towards it. The names are in the plan's list too.
func markNames(b tooling.Blank) []drawing.Shape {
	const off, gap = 1.5, 1.0 // from its own mark, and least to anything, mm
	face := lettering.Face{Height: min(partHeights[0], b.Part.Bounds().Height()/8)}
	if face.Height < partHeights[len(partHeights)-1] {
		return nil
	}
	taken := marksOf(b.Part)
	taken.Line(b.Part.Outline, 0)
	var out []drawing.Shape
	for _, m := range b.Marks {
		if len(m.Scribe.Vertices) == 0 {
			continue
		}
		t := drawing.Text{
			At:    geom.Pt(m.Scribe.Bounds().Min.X-off+face.Box("").Min.Y, 2*gap),
			Words: m.Name, Height: face.Height, Angle: 90 * geom.Degree, Role: drawing.Mark,
		}
		if taken.Clear(t.Bounds(), gap) {
			out = append(out, t)
			taken.Box(t.Bounds())
		}
	}
	return out
}

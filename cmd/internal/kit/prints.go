package kit

import (
	"fmt"
	"math"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/tooling"
)

// print is a part at true size for paper, without bars or page: those come
// with the sheet or the tile.
type print struct {
	name    string
	title   string
	purpose string
	paper   bool // also goes onto the printer's pages
	d       drawing.Drawing
}

// prints returns the parts that are printed at true size.
func prints(p *plan.Plan, o Options) []print {
	u := o.Units
	name := p.Job.Name
	b, depth := p.Job.Bend, p.Job.Tube.Depth
	inner, outer := face{side: "inside", radius: b.Inside(depth)}, face{side: "outside", radius: b.Outside(depth)}
	for _, f := range []*face{&inner, &outer} {
		f.rises = tooling.Rises(f.radius, b.Angle, u == quantity.Inches)
	}
	bend := fmt.Sprintf("bend R %s, %s", given(p.Job.Bend.Radius, u), u.Angle(p.Job.Bend.Angle))
	var all []print
	for _, c := range p.Pieces {
		q := print{name: c.Name, title: c.Name + ", " + name, purpose: purpose(p, c, u), paper: true}
		switch c.Name {
		case "strip":
			continue // a rectangle: its size says all
		case "template-inside", "template-outside":
			f := inner
			if c.Name == "template-outside" {
				f = outer
			}
			q.d = template(p, c, f, []string{
				fmt.Sprintf("%s: template for %s the bend", name, f.side),
				fmt.Sprintf("%s R %s, centre R %s, %s", f.side, given(f.radius, u), given(p.Job.Bend.Radius, u), u.Angle(p.Job.Bend.Angle)),
			}, o)
		case "fixture":
			q.paper = false // its holes are set by their coordinates, not off taped paper
			q.d = fixturePrint(p, c, u)
		case "cheek":
			q.d = plain(c.Part, u, []string{
				name + ": cheek, " + cutOf(c, u),
				u.Length(p.Tools.CheekGap) + " between the cheeks",
				bend,
			}, labels(p, c, u))
		case "packing":
			q.paper = false // the block's print will do to trace it by
			q.d = plain(c.Part, u, []string{name + ": packing " + given(c.Plate, u) + " thick", cutOf(c, u), bend}, labels(p, c, u))
		default:
			n := len(p.Tools.Block.Layers)
			what, radius := "form block", "block R "+given(p.Tools.Block.Layers[c.Layer-1].Radius, u)
			if n > 1 {
				what += fmt.Sprintf(", outline %d of %d", c.Layer, n)
			}
			q.d = plain(c.Part, u, []string{
				name + ": " + what + ", " + cutOf(c, u),
				radius + ", arc " + u.Angle(p.Tools.BlockArc),
				bend,
				"tube " + plan.TubeSize(p.Job.Tube, u, quantity.Nominal) + " " + p.Job.Material.Name,
			}, labels(p, c, u)[:1])
		}
		q.d.Title = q.title
		all = append(all, q)
	}
	return append(all, blankPrint(p, o), partPrint(p, o))
}

// plain is a part with lines of lettering.
func plain(part tooling.Part, u quantity.Units, lines, label []string) drawing.Drawing {
	var d drawing.Drawing
	d.Add(cutShapes(part)...)
	d.Add(drillNames(part.Drill, d.Shapes, u, 1)...)
	letter(&d, part.Outline, lines, label)
	return d
}

// predictedPiece is the shortest piece of the predicted centreline on paper, mm.
const predictedPiece = 8.0

// mostLeg is how much of a leg stands on a template's print, as much as the template covers.
const mostLeg = 100.0

// face is the inside or the outside of the finished bend.
type face struct {
	side   string
	radius float64 // mm
	rises  []tooling.ChordRise
}

// template is a check template for a face with the finished tube around it, the
// tangent points, the predicted centreline and the table of chord and rise.
func template(p *plan.Plan, c plan.Piece, f face, lines []string, o Options) drawing.Drawing {
	j, u := p.Job, o.Units
	var d drawing.Drawing
	legs := [2]float64{min(j.Bend.Legs[0], mostLeg), min(j.Bend.Legs[1], mostLeg)}
	tube := tooling.TubeOutline(j.Bend.Radius, j.Tube.Depth, j.Bend.Angle, legs, [2]geom.Angle{})
	d.Add(drawing.Stroke{Path: tube, Role: drawing.Phantom})
	q := p.Press
	if q != nil {
		// The predicted centreline, best fitted: from the shape's frame (crown at
		// the origin, bending up) to the template's (centre at the origin, crown
		// on top), as far as the tube is shown.
		half := q.Shape.Line.Coarsen(predictedPiece).Apply(geom.Translate(geom.Pt(0, q.Gap.Shift))).Apply(geom.MirrorY()).Apply(geom.Translate(geom.Pt(0, j.Bend.Radius)))
		for i, side := range [2]geom.Path{half.Apply(geom.MirrorX()), half} {
			d.Add(drawing.Stroke{Path: side.UpTo(j.Bend.Radius*float64(j.Bend.Angle)/2 + legs[i]), Role: drawing.Predicted})
		}
	}
	drawn := q == nil || q.Gap.Size > tellApart
	if drawn {
		d.Add(drawing.Stroke{Path: tooling.Centreline(j.Bend.Radius, j.Bend.Angle, legs), Role: drawing.Centre})
	}
	// Tangent points: across the tube, of which no page is printed for its own sake.
	for _, side := range [2]float64{-1, 1} {
		a := 90*geom.Degree - geom.Angle(side)*j.Bend.Angle/2
		r := j.Bend.Radius
		d.Line(drawing.Centre, geom.Polar(r-j.Tube.Depth/2, a), geom.Polar(r+j.Tube.Depth/2, a))
	}
	d.Add(cutShapes(c.Part)...)
	lines = append(lines, "two dots: tube, across it: tangent points")
	if q != nil {
		// Off the drawn one, which is left out where both would look like one.
		fine := 0.01 // of what is printed, mm
		if u == quantity.Inches {
			fine = u.MM(0.001)
		}
		most := math.Ceil(q.Gap.Size/fine) * fine
		lines = append(lines, "short dashes: predicted, at most "+u.Length(most)+" off")
	}
	for i, r := range f.rises {
		rise := quantity.Rise.Of(r.Rise)
		row := u.Figure(quantity.Nominal.Of(r.Chord)) + ": " + u.Figure(rise)
		if u == quantity.Inches {
			row += "\u00a0=\u00a0" + u.Fraction(rise)
		}
		if i == 0 {
			lines = append(lines, "chord on this face: rise in its middle, "+u.String(), row)
			continue
		}
		last := &lines[len(lines)-1]
		if more := *last + ", " + row; width(more) <= lineLengths[0] {
			*last = more
		} else {
			lines = append(lines, row)
		}
	}
	letter(&d, c.Part.Outline, lines, labels(p, c, u))
	return d
}

// tellApart is how far in mm two thin lines must be apart to be seen as two.
const tellApart = 0.4

// blankPrint is the straight tube with its marks lettered.
func blankPrint(p *plan.Plan, o Options) print {
	b := p.Tools.Blank
	var d drawing.Drawing
	d.Add(cutShapes(b.Part)...)
	box := b.Part.Bounds()
	y := box.Max.Y
	next := math.Inf(-1) // where the next label has room
	for _, m := range b.Marks {
		// From where the mark meets the outside, which is on top.
		x, words := box.Min.X+m.At+m.Slant, o.Units.Tape(m.At)
		if m.Slant != 0 {
			words = o.Units.Tape(m.At+m.Slant) + " outside, " + o.Units.Tape(m.At-m.Slant) + " inside"
		}
		at := max(x, next)
		next = at + lineStep
		d.Line(drawing.Thin, geom.Pt(x, y+1), geom.Pt(x, y+2), geom.Pt(at, y+5))
		d.Add(drawing.Text{At: geom.Pt(at+small/2, y+7), Words: m.Name + " " + words, Height: small, Angle: 90 * geom.Degree, Role: drawing.Note})
	}
	below(&d, []string{
		fmt.Sprintf("%s: blank, cut %s long", p.Job.Name, o.Units.Tape(b.Length)),
		fmt.Sprintf("tube %s %s", plan.TubeSize(p.Job.Tube, o.Units, quantity.Nominal), p.Job.Material.Name),
		"marks from the left end, outside of the bend on top",
	})
	return print{name: "blank", title: "blank, " + p.Job.Name, purpose: "tube blank with its marks, side view", d: d}
}

package kit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"overbend/cmd/internal/plan"
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

const (
	lettering = drawing.Lettering
	lineStep  = 1.7 * lettering // from base line to base line
	space     = 6.0             // between a picture and its lettering, mm
	mostLine  = 140.0           // of lettering, mm: less than the smallest page has room for
)

// prints returns the parts that are printed at true size.
func prints(p *plan.Plan, o Options) []print {
	u := o.Units
	name := p.Job.Name
	in := p.Job.Bend.Radius - p.Job.Tube.Depth/2
	out := p.Job.Bend.Radius + p.Job.Tube.Depth/2
	var all []print
	for _, c := range p.Pieces {
		q := print{name: c.Name, title: name + " " + c.Name, purpose: c.Purpose, paper: true}
		switch c.Name {
		case "strip":
			continue // a rectangle: its size says all
		case "template-inside":
			q.d = template(p, c.Part, p.Tools.InsideRises, []string{
				name + ": inside template, for the hollow of the bend",
				fmt.Sprintf("inside radius %s, angle %s", u.Length(in), u.Angle(p.Job.Bend.Angle)),
				"centreline radius " + u.Length(p.Job.Bend.Radius),
			}, o)
		case "template-outside":
			q.d = template(p, c.Part, p.Tools.OutsideRises, []string{
				name + ": outside template, for the outside of the bend",
				fmt.Sprintf("outside radius %s, angle %s", u.Length(out), u.Angle(p.Job.Bend.Angle)),
				"centreline radius " + u.Length(p.Job.Bend.Radius),
			}, o)
		case "cheek":
			q.d = plain(c.Part, []string{
				name + ": cheek, cut 2 of " + u.Length(c.Plate) + " plate",
				fmt.Sprintf("%s between the cheeks, bolts through all layers", u.Length(p.Tools.CheekGap)),
			})
		default:
			q.d = plain(c.Part, []string{
				fmt.Sprintf("%s: form block, cut %d of %s plate", name, c.Count, u.Length(c.Plate)),
				fmt.Sprintf("block radius %s, arc %s, tube %s %s", u.Length(layerRadius(p, c.Name)), u.Angle(p.Tools.BlockArc), p.TubeSize(u), p.Job.Material.Name),
			})
		}
		q.d.Title = q.title
		all = append(all, q)
	}
	return append(all, blankPrint(p, o))
}

// layerRadius returns the working radius of the block's outline of that name.
func layerRadius(p *plan.Plan, name string) float64 {
	for i, l := range p.Tools.Block.Layers {
		if i > 0 && name == fmt.Sprintf("block-%d", i+1) {
			return l.Radius
		}
	}
	return p.Tools.Block.Radius
}

// plain is a part with lines of lettering below it.
func plain(part tooling.Part, lines []string) drawing.Drawing {
	var d drawing.Drawing
	d.Add(printShapes(part)...)
	below(&d, lines)
	return d
}

// printShapes returns a part as it is printed. Lettering that a printer's page
// is too narrow for stays off: the lines below the part say the same.
func printShapes(p tooling.Part) []drawing.Shape {
	return slices.DeleteFunc(partShapes(p), func(s drawing.Shape) bool {
		t, ok := s.(drawing.Text)
		return ok && drawing.TextWidth(t.Words, t.Height, t.Bold) > mostLine
	})
}

// below adds lines of lettering under all that is drawn, the first one bold,
// broken where they are wider than mostLine.
func below(d *drawing.Drawing, lines []string) {
	box := d.Bounds()
	y := box.Min.Y - space - lettering
	for i, l := range lines {
		for _, words := range broken(l, i == 0) {
			d.Add(drawing.Text{At: geom.Pt(box.Min.X, y), Words: words, Height: lettering, Bold: i == 0, Role: drawing.Note})
			y -= lineStep
		}
	}
}

// broken returns words in lines of at most mostLine mm, broken between words
// and, where a single one is too wide, within it.
func broken(words string, bold bool) []string {
	fits := func(s string) bool { return drawing.TextWidth(s, lettering, bold) <= mostLine }
	var out []string
	line := ""
	for _, w := range strings.Fields(words) {
		if line != "" && fits(line+" "+w) {
			line += " " + w
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		line = ""
		for _, r := range w {
			if !fits(line + string(r)) {
				out = append(out, line)
				line = ""
			}
			line += string(r)
		}
	}
	return append(out, line)
}

// predictedPiece is the shortest piece of the predicted centreline on paper, mm.
const predictedPiece = 8.0

// mostLeg is how much of a leg stands on a template's print, as much as the template covers.
const mostLeg = 100.0

// template is a check template with the finished tube around it, the tangent
// points, the predicted centreline and the table of chord and rise.
func template(p *plan.Plan, part tooling.Part, rises []tooling.ChordRise, lines []string, o Options) drawing.Drawing {
	j := p.Job
	var d drawing.Drawing
	legs := [2]float64{min(j.Bend.Legs[0], mostLeg), min(j.Bend.Legs[1], mostLeg)}
	tube := tooling.TubeOutline(j.Bend.Radius, j.Tube.Depth, j.Bend.Angle, legs, [2]geom.Angle{})
	d.Add(drawing.Stroke{Path: tube, Role: drawing.Phantom})
	d.Add(drawing.Stroke{Path: tooling.Centreline(j.Bend.Radius, j.Bend.Angle, legs), Role: drawing.Centre})
	if q := p.Press; q != nil {
		// The predicted centreline, best fitted: from the shape's frame (crown at
		// the origin, bending up) to the template's (centre at the origin, crown
		// on top).
		half := q.Shape.Line.Coarsen(predictedPiece).Apply(geom.Translate(geom.Pt(0, q.Gap.Shift))).Apply(geom.MirrorY()).Apply(geom.Translate(geom.Pt(0, j.Bend.Radius)))
		d.Add(drawing.Stroke{Path: half, Role: drawing.Predicted},
			drawing.Stroke{Path: half.Apply(geom.MirrorX()), Role: drawing.Predicted})
	}
	// Tangent points: across the tube.
	for _, side := range [2]float64{-1, 1} {
		a := 90*geom.Degree - geom.Angle(side)*j.Bend.Angle/2
		r := j.Bend.Radius
		d.Line(drawing.Thin, geom.Polar(r-j.Tube.Depth/2, a), geom.Polar(r+j.Tube.Depth/2, a))
	}
	d.Add(printShapes(part)...)
	if p.Press != nil {
		lines = append(lines, fmt.Sprintf("short dashes: predicted centreline, at most %s off", o.Units.Length(p.Press.Gap.Size)))
	}
	lines = append(lines, "lines across the tube: tangent points")
	for i, r := range rises {
		row := fmt.Sprintf("%s: %s", o.Units.Length(r.Chord), o.Units.Length(r.Rise))
		switch {
		case i == 0:
			lines = append(lines, "chord laid on this face, and its rise in the middle:", row)
		case i%3 == 0:
			lines = append(lines, row)
		default:
			lines[len(lines)-1] += ",  " + row
		}
	}
	below(&d, lines)
	return d
}

// blankPrint is the straight tube with its marks lettered.
func blankPrint(p *plan.Plan, o Options) print {
	b := p.Tools.Blank
	var d drawing.Drawing
	d.Add(partShapes(b.Part)...)
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
		d.Add(drawing.Text{At: geom.Pt(at+lettering/2, y+7), Words: m.Name + " " + words, Height: lettering, Angle: 90 * geom.Degree, Role: drawing.Note})
	}
	below(&d, []string{
		fmt.Sprintf("%s: blank, cut %s long", p.Job.Name, o.Units.Tape(b.Length)),
		fmt.Sprintf("tube %s %s", p.TubeSize(o.Units), p.Job.Material.Name),
		"marks from the left end; the outside of the bend is on top",
	})
	return print{name: "blank", title: p.Job.Name + " blank", purpose: "tube blank with its marks, side view", d: d}
}

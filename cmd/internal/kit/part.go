package kit

import (
	"fmt"
	"math"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/tooling"
)

// Steps in which dimensions stand off the part and each other, mm.
const (
	firstOff = 9.0
	nextOff  = 7.0
)

// partBoard draws the part as its drawing has it: outline, centreline and bend
// lines, dimensioned, with a letter at every point of its table, at scale mm of
// the drawing per mm.
func partBoard(p *plan.Plan, u quantity.Units, scale float64) *board {
	j, part := p.Job, scaledBent(p.Part, scale)
	depth, half := scale*j.Tube.Depth, j.Bend.Angle/2
	figure := func(mm float64) string { return u.Figure(quantity.Length.Of(mm)) }
	box := part.Outline.Bounds()
	var b board
	b.add(drawing.Stroke{Path: part.Outline, Role: drawing.Visible})
	b.add(drawing.Stroke{Path: part.Centreline, Role: drawing.Centre})
	for i, l := range part.BendLines {
		// A leg of no length ends on its bend line.
		if scale*j.Bend.Legs[i] > scribed || j.Ends.Cut[i] != 0 {
			b.add(drawing.Stroke{Path: geom.Lines(l[:]...), Role: drawing.Mark})
		}
	}
	// Overall first, further out than what comes between: their extension lines
	// can't move, all else can.
	reach := func(at func(geom.Point) float64, most bool) geom.Point { return extreme(part.Outline, at, most) }
	x, y := func(q geom.Point) float64 { return q.X }, func(q geom.Point) float64 { return q.Y }
	l, r := reach(x, false), reach(x, true)
	b.put(func(k int) []drawing.Shape { // below, or above
		o, at := firstOff+2*nextOff+nextOff/2*float64(k/2), box.Min.Y
		up := 1.0
		if k%2 == 1 {
			o, at, up = -o, box.Max.Y, -1
		}
		return dimension(geom.Pt(r.X, at), geom.Pt(l.X, at), o, figure(box.Width()/scale), up*(at-r.Y), up*(at-l.Y))
	})
	lo, hi := reach(y, false), reach(y, true)
	b.put(func(k int) []drawing.Shape { // on the right, or on the left
		o, at := -(firstOff + 2*nextOff + nextOff/2*float64(k/2)), box.Max.X
		up := 1.0
		if k%2 == 1 {
			o, at, up = -o, box.Min.X, -1
		}
		return dimension(geom.Pt(at, lo.Y), geom.Pt(at, hi.Y), o, figure(box.Height()/scale), up*(lo.X-at), up*(hi.X-at))
	})

	// Legs, along the outside.
	for i, l := range part.BendLines {
		leg := j.Bend.Legs[i]
		if scale*leg <= scribed {
			continue
		}
		out := l[1].Sub(l[0]).Unit()
		along := out.Left() // away from the bend
		if i == 1 {
			along = along.Mul(-1)
		}
		a := l[0].Lerp(l[1], 0.5)
		e := a.Add(along.Mul(scale * leg))
		from := [2]float64{depth / 2, depth / 2}
		if j.Ends.Cut[i] != 0 {
			from[1] = 0
		}
		if i == 0 { // from left to right
			a, e, from[0], from[1] = e, a, from[1], from[0]
		}
		b.put(func(k int) []drawing.Shape { // outside, or inside
			o := depth/2 + firstOff + nextOff/2*float64(k/2)
			if k%2 == 1 {
				o = -o
			}
			return dimension(a, e, o, figure(leg), from[0], from[1])
		})
	}
	depthAt := min(0, part.Points[1].At.X)
	b.put(func(k int) []drawing.Shape {
		f := func(x float64) float64 { return depthAt - x }
		return dimension(geom.Pt(depthAt, 0), geom.Pt(depthAt, depth), firstOff+nextOff/2*float64(k), figure(j.Tube.Depth), f(0), f(part.Points[1].At.X))
	})
	// What has a leader can move away from these.
	angle := u.Angle(j.Bend.Angle)
	if b.angle(part, half, angle) {
		angle = ""
	}
	b.radius(p, part, u, angle, scale)
	for i, cut := range j.Ends.Cut {
		if cut != 0 {
			b.endCut(part, i, cut, half, u)
		}
	}

	// The letters last: they find room at their points between the lines.
	for i, q := range part.Points {
		if q.Name != tooling.ArcCentre || box.Grow(depth).Has(q.At) {
			if q.Name == tooling.ArcCentre {
				b.add(cross(q.At, 2)...)
			}
			b.letterAt(q.At, pointLetter(i))
		}
	}
	return &b
}

// dimension returns a dimension's shapes in ordinary lettering.
func dimension(a, b geom.Point, off float64, figure string, fromA, fromB float64) []drawing.Shape {
	return drawing.Dimension{A: a, B: b, Off: off, Figure: figure, Height: small, FromA: fromA, FromB: fromB}.Shapes()
}

// extreme returns the vertex, or the point of an arc, that lies furthest.
func extreme(p geom.Path, at func(geom.Point) float64, most bool) geom.Point {
	best := p.Vertices[0].Point
	for _, s := range p.Segments() {
		box := s.Bounds()
		q := s.From
		for _, c := range [...]geom.Point{s.From, s.To, s.Nearest(geom.Pt(box.Centre().X, box.Max.Y+1e6)), s.Nearest(geom.Pt(box.Centre().X, box.Min.Y-1e6)), s.Nearest(geom.Pt(box.Max.X+1e6, box.Centre().Y)), s.Nearest(geom.Pt(box.Min.X-1e6, box.Centre().Y))} {
			if (at(c) > at(q)) == most {
				q = c
			}
		}
		if (at(q) > at(best)) == most {
			best = q
		}
	}
	return best
}

// radius dimensions the arc by a leader to the face at which the drawing has it, on
// a line with the centre, with the angle where that found no place of its own.
func (b *board) radius(p *plan.Plan, part *tooling.Bent, u quantity.Units, angle string, scale float64) {
	j, c := p.Job, part.Centre
	r := j.Bend.Drawn(j.Tube.Depth)
	words := "R" + u.Figure(quantity.Length.Of(r))
	if j.Bend.RadiusAt != job.Centre {
		words += " " + string(j.Bend.RadiusAt)
	}
	if angle != "" {
		words += ", " + angle
	}
	first := part.BendLines[0][1].Sub(c).Direction()
	inner, outer := scale*j.Bend.Inside(j.Tube.Depth), scale*j.Bend.Outside(j.Tube.Depth)
	b.put(func(k int) []drawing.Shape {
		a := first - j.Bend.Angle*geom.Angle([...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.05, 0.95}[k%8])
		tip, away := c.Add(geom.Polar(scale*r, a)), geom.Polar(1, a)
		lead, reach := 0*geom.Degree, 8+6*float64(k/16)
		knee := c.Add(away.Mul(outer + reach))
		if k/8%2 == 1 { // from the inside
			lead, away = 180*geom.Degree, away.Mul(-1)
			knee = c.Add(geom.Polar(inner-reach, a))
		}
		side, anchor := 1.0, drawing.Left
		if away.X < 0 {
			side, anchor = -1, drawing.Right
		}
		shelf := knee.Add(geom.Pt(side*(width(words)+2), 0))
		return []drawing.Shape{
			drawing.Stroke{Path: geom.Lines(tip, knee, shelf), Role: drawing.Thin},
			drawing.Arrow(tip, a+180*geom.Degree-lead, drawing.ArrowLength),
			drawing.Text{At: knee.Add(geom.Pt(side, drawing.FigureRaise)), Words: words, Height: small, Anchor: anchor, Role: drawing.Note},
		}
	})
}

// angle dimensions the change of direction between leg 1's line carried on and leg
// 2, at the point where the legs' centrelines meet; in a bend near half a turn,
// which has none at hand, it stands at the arc's centre. It reports whether there
// is room for it.
func (b *board) angle(part *tooling.Bent, half geom.Angle, words string) bool {
	a, e := part.BendLines[0], part.BendLines[1]
	t1, t2 := a[0].Lerp(a[1], 0.5), e[0].Lerp(e[1], 0.5)
	apart := t1.Dist(part.Centre) * half.Tan() // from a bend line to where they meet
	if half < 60*geom.Degree {
		v := t1.Add(geom.Pt(apart, 0))
		if b.put(func(k int) []drawing.Shape {
			rho := max(15, 3*drawing.ArrowLength/float64(2*half)) + 5*float64(k)
			lines := []drawing.Shape{drawing.Stroke{Path: geom.Lines(t1, v.Add(geom.Pt(rho+2, 0))), Role: drawing.Thin}}
			if rho < apart {
				lines = append(lines, drawing.Stroke{Path: geom.Lines(t2, v.Add(geom.Polar(max(0, rho-2), -2*half))), Role: drawing.Thin})
			}
			at := v.Add(geom.Pt(rho+1.5, -small-1.5-0.5*small))
			if k < tries/2 && part.Outline.Contains(at) {
				return nil
			}
			return append(append(lines, drawing.AngleLine(v, rho, -2*half, 0)...),
				drawing.Text{At: at, Words: words, Height: small, Role: drawing.Note})
		}) {
			return true
		}
	}
	return b.put(func(k int) []drawing.Shape {
		c := part.Centre
		rho := max(8, 3*drawing.ArrowLength/float64(2*half)) + 4*float64(k)
		from, to := e[0].Sub(c), a[0].Sub(c)
		if rho+6 > from.Norm() {
			return nil
		}
		shapes := drawing.AngleLine(c, rho, to.Direction()-2*half, to.Direction())
		for _, q := range [2]geom.Point{from, to} {
			shapes = append(shapes, drawing.Stroke{Path: geom.Lines(c, c.Add(q.Unit().Mul(q.Norm()-1))), Role: drawing.Thin})
		}
		at := c.Add(geom.Polar(rho+2, to.Direction()-half))
		return append(shapes, drawing.Text{At: at.Sub(geom.Pt(0, small/2)), Words: words, Height: small, Anchor: drawing.Middle, Role: drawing.Note})
	})
}

// endCut letters an end cut by a leader to its middle, or where dimensions are in
// the way to either side of that.
func (b *board) endCut(part *tooling.Bent, i int, cut, half geom.Angle, u quantity.Units) {
	corner := [2]int{0, 6}[i]
	in, out := part.Points[corner].At, part.Points[corner+1].At
	away := out.Sub(in).Unit().Left()
	if i == 1 {
		away = away.Mul(-1)
	}
	longer := "outside"
	if cut < 0 {
		longer = "inside"
	}
	words := u.Angle(geom.Angle(math.Abs(float64(cut)))) + " off square, " + longer + " longer"
	b.put(func(k int) []drawing.Shape {
		dir := away.Direction() + geom.Angle([...]float64{0, 20, -20, 40, -40}[k%5])*geom.Degree
		at := 0.5
		if far := tries / 2; k >= far {
			at = [...]float64{0.25, 0.75}[k/5%2]
			k -= far
		}
		mid := in.Lerp(out, at)
		knee := mid.Add(geom.Polar(12+5*float64(k/5), dir))
		side, anchor := 1.0, drawing.Left
		if knee.X < mid.X {
			side, anchor = -1, drawing.Right
		}
		return []drawing.Shape{
			drawing.Stroke{Path: geom.Lines(mid, knee, knee.Add(geom.Pt(side*(width(words)+2), 0))), Role: drawing.Thin},
			drawing.Arrow(mid, dir+180*geom.Degree, drawing.ArrowLength),
			drawing.Text{At: knee.Add(geom.Pt(side, drawing.FigureRaise)), Words: words, Height: small, Anchor: anchor, Role: drawing.Note},
		}
	})
}

// pointLetter names the points of a table: A, B ...
func pointLetter(i int) string { return string(rune('A' + i)) }

// scaledBent returns a part at another scale.
func scaledBent(b *tooling.Bent, scale float64) *tooling.Bent {
	t := geom.Scale(scale)
	out := tooling.Bent{Outline: b.Outline.Apply(t), Centreline: b.Centreline.Apply(t), Centre: t.Apply(b.Centre)}
	for i, l := range b.BendLines {
		out.BendLines[i] = [2]geom.Point{t.Apply(l[0]), t.Apply(l[1])}
	}
	for _, q := range b.Points {
		out.Points = append(out.Points, tooling.BentPoint{Name: q.Name, At: t.Apply(q.At)})
	}
	return &out
}

// place returns coordinates as a table has them.
func place(u quantity.Units, q geom.Point) string {
	return "x\u00a0" + u.Figure(quantity.Length.Of(q.X)) + ", y\u00a0" + u.Figure(quantity.Length.Of(q.Y))
}

// partLines is what stands beside the part: what it is, and its table.
func partLines(p *plan.Plan, u quantity.Units) []string {
	j := p.Job
	lines := []string{
		j.Name + ": the part as drawn, " + u.String(),
		fmt.Sprintf("tube %s %s, bend R %s at the %s, %s", plan.TubeSize(j.Tube, u, quantity.Nominal), j.Material.Name,
			u.Length(j.Bend.Drawn(j.Tube.Depth)), faceName(j.Bend.RadiusAt), u.Angle(j.Bend.Angle)),
		"datum: A is 0, 0; x along the inside of leg 1, y to the outside",
	}
	for i, q := range p.Part.Points {
		lines = append(lines, pointLetter(i)+" ("+q.Name+"): "+place(u, q.At))
	}
	if q := p.Press; q != nil {
		lines = append(lines, "as bent, the centreline comes out at most "+u.Length(q.Gap.Size)+" off this one, best fitted")
	}
	return lines
}

// faceName says at which face a radius is.
func faceName(f job.Face) string {
	if f == job.Centre {
		return "centreline"
	}
	return string(f)
}

// partPrint is the part on paper.
func partPrint(p *plan.Plan, o Options) print {
	b := partBoard(p, o.Units, 1)
	b.block(partLines(p, o.Units), p.Part.Outline)
	return print{
		name: "part", title: "part, " + p.Job.Name, purpose: "the finished part, dimensioned, with its coordinates",
		paper: max(b.d.Bounds().Width(), b.d.Bounds().Height()) <= mostTiled, d: b.d,
	}
}

// mostTiled is the longest side in mm of what is joined from printer pages: more
// of them than a floor has room for help nobody.
const mostTiled = 3000.0

// partCut is the part as a DXF file: its datum is the file's origin.
func partCut(p *plan.Plan, u quantity.Units) drawing.Drawing {
	b := partBoard(p, u, 1)
	below(&b.d, partLines(p, u))
	box := p.Part.Outline.Bounds()
	d := drawing.Drawing{Title: p.Job.Name + " part", Page: geom.Rect{Max: geom.Pt(box.Width(), box.Height())}}
	for _, s := range b.d.Shapes {
		if s, ok := s.(drawing.Stroke); ok {
			s.Role, s.Tone, s.Path = onFile(s.Role), drawing.NoTone, plainer(s.Path)
			d.Add(s)
			continue
		}
		d.Add(s)
	}
	return d
}

// plainer returns a path without pieces too short for a cut file.
func plainer(p geom.Path) geom.Path {
	out := geom.Path{Closed: p.Closed}
	for i, v := range p.Vertices {
		if i > 0 && v.Dist(out.Vertices[len(out.Vertices)-1].Point) < 2*scribed {
			out.Vertices[len(out.Vertices)-1].Bulge = v.Bulge
			continue
		}
		out.Vertices = append(out.Vertices, v)
	}
	if n := len(out.Vertices); p.Closed && n > 3 && out.Vertices[n-1].Dist(out.Vertices[0].Point) < 2*scribed {
		out.Vertices = out.Vertices[:n-1]
	}
	return out
}

// onFile returns the role in a DXF file of what a print draws in another.
func onFile(r drawing.Role) drawing.Role {
	switch r {
	case drawing.Visible:
		return drawing.CutOuter
	case drawing.Mark, drawing.Centre:
		return drawing.Mark
	}
	return drawing.Note
}

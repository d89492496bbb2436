package sheet

import (
	"overbend/cmd/internal/plan"
	sentence "overbend/cmd/internal/words"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/tooling"
)

// axisPast is how far in mm the axis runs past what it is the axis of.
const axisPast = 1.0

// form is a block as it stands in the press: in the frame of the press, the
// crown of the tube's centreline at the origin, the block above it.
type form struct {
	radius         float64 // mm
	outline, cheek geom.Path
	back           float64 // height of its back, mm
	half           float64 // of its width, mm
}

// newForm returns the block that the kit is made around; without an outline when it
// can't be made.
func (s *sheet) newForm() form {
	t := s.p.Tools
	if s.p.Ready != nil {
		return s.standing(t.AtHand, s.p.Working, geom.Path{})
	}
	return s.standing(t.Block, s.p.Working, t.Cheek.Outline)
}

// formAtHand returns the block at hand, without side plates.
func (s *sheet) formAtHand() form {
	return s.standing(s.p.Tools.AtHand, s.p.Existing.Block, geom.Path{})
}

// standing returns a block of a radius, where it has a body, in the press.
func (s *sheet) standing(b tooling.Block, radius float64, cheek geom.Path) form {
	f := form{radius: radius}
	if len(b.Layers) > 0 {
		crown := b.Radius + s.p.Job.Tube.Depth/2
		up := geom.MirrorY().Then(geom.Translate(geom.Pt(0, crown)))
		f.outline, f.cheek = b.Layers[0].Part.Outline.Apply(up), cheek.Apply(up)
		f.back, f.half = crown-b.Back, b.HalfWidth
	}
	return f
}

// setUp draws a block at the press in its first and its last position, every
// member named.
func (s *sheet) setUp(hd heading, b form, q *plan.Press) cell {
	facts := []para{{text: s.say(sentence.PaperSetUp, nil)}}
	facts = append(facts, s.told(sentence.SetUp)...)
	longest := hd
	longest.rest = widestScale
	// A deep bend needs more height to be as wide.
	least := s.least(58) + 12*max(0, min(1, (b.back+2*q.Final.Travel-0.45*q.Rig.Supports)/(0.5*q.Rig.Supports)))
	return cell{1,
		func(w float64) float64 { return s.headHeight(longest, w) + s.parasHeight(facts, w-2*pad) + least },
		func(f geom.Rect) {
			room := s.under(f, longest)
			room.Min.Y += s.parasHeight(facts, room.Width())
			d, scale := s.setUpIn(b, q, room)
			hd.rest = scale
			s.head(f, hd)
			s.place(d, room)
			s.write(geom.Rect{Min: geom.Pt(room.Min.X, f.Min.Y), Max: geom.Pt(room.Max.X, room.Min.Y)}, facts)
		},
	}
}

// setUpIn draws a block at the press for a room, its middle at the origin: with all
// names or, where they find no room, with few.
func (s *sheet) setUpIn(b form, q *plan.Press, room geom.Rect) (d drawing.Drawing, scale string) {
	for _, few := range [2]bool{false, true} {
		var k float64
		d, k, scale = s.fitted(room.Width(), room.Height(), geom.Pt(q.Rig.Supports+q.Rig.Roller, 0), 2, func(k float64, way int) (drawing.Drawing, bool) {
			return s.setUpPicture(b, q, k, room, way == 0, few)
		})
		if k > 0 {
			break
		}
	}
	return d, scale
}

// setUpPicture draws the press about the crown's centreline in the last position,
// at k mm of paper per mm, with names that stand within a room's size: all, or the
// few without which it can't be used. Tube and strip stand out beyond the rollers
// as long as they are, or are cut off there.
func (s *sheet) setUpPicture(b form, q *plan.Press, k float64, room geom.Rect, whole, few bool) (drawing.Drawing, bool) {
	j, t := s.p.Job, s.p.Tools
	final, travel := q.Final, q.Final.Travel
	deep, strip := j.Tube.Depth, s.p.Strip.Thickness
	var d drawing.Drawing
	size := geom.Scale(k)
	add := func(p geom.Path, r drawing.Role, tone drawing.Tone) {
		d.Add(drawing.Stroke{Path: p.Apply(size), Role: r, Tone: tone})
	}
	reach := (room.Width()/2 - 1.5) / k
	// How much of tube and strip lies to each side of the middle.
	least := final.Developed() + deep
	tube := [2]float64{least, least}
	var cut [2]bool
	for i, long := range [2]float64{t.Blank.Middle, t.Blank.Length - t.Blank.Middle} {
		switch {
		case t.Blank.Length == 0:
		case whole:
			tube[i] = long
		default:
			cut[i] = long > least
		}
	}
	limit := geom.Pt(reach, max(travel+2*deep, final.Roller.Y+2*deep, b.back+travel))

	// First touch: the tube flat, the block above it. What the last position
	// covers is not seen.
	var flat [2]float64
	for i := range flat {
		flat[i] = min(tube[i], reach)
	}
	for _, y := range [2]float64{travel - deep/2, travel + deep/2} {
		add(geom.Lines(geom.Pt(-flat[0], y), geom.Pt(flat[1], y)), drawing.Phantom, drawing.NoTone)
	}
	for i, x := range [2]float64{-flat[0], flat[1]} {
		if tube[i] <= reach && !cut[i] {
			add(geom.Lines(geom.Pt(x, travel-deep/2), geom.Pt(x, travel+deep/2)), drawing.Phantom, drawing.NoTone)
		}
	}
	add(b.outline.Apply(geom.Translate(geom.Pt(0, travel))), drawing.Phantom, drawing.NoTone)

	// Last position: strip, tube, block and side plates, rollers.
	centre := q.Loaded.Coarsen(1 / k)
	under := centre.Beside(-(deep + strip) / 2)
	edge := limit.Sub(geom.Pt(final.Slope.Sin(), final.Slope.Cos()).Mul(deep / 2))
	var line [2]geom.Path
	for i := range line {
		line[i], _ = upTo(under, min(tube[i], max(t.StripLength/2, final.Developed())), final.Slope, edge)
	}
	band := sleeve(joined(line), strip)
	add(band, drawing.Visible, drawing.Steel)
	stripAt := line[1].End()
	for i := range line {
		var short bool
		line[i], short = upTo(centre, tube[i], final.Slope, edge)
		cut[i] = cut[i] || short
	}
	bent(&d, joined(line), deep, k, cut)
	add(b.outline, drawing.Visible, drawing.Block)
	add(b.cheek, drawing.Thin, drawing.NoTone)
	r := k * q.Rig.Roller / 2
	for _, x := range [2]float64{-final.Roller.X, final.Roller.X} {
		c := geom.Pt(x, final.Roller.Y).Mul(k)
		d.Add(drawing.Ring{Circle: geom.Circle{Centre: c, Radius: r}, Role: drawing.Visible, Tone: drawing.Steel})
		d.Line(drawing.Centre, c.Sub(geom.Pt(r+1.2, 0)), c.Add(geom.Pt(r+1.2, 0)))
		d.Line(drawing.Centre, c.Sub(geom.Pt(0, r+1.2)), c.Add(geom.Pt(0, r+1.2)))
	}
	// The arms of the angle finder lie on the straight ends.
	var finder geom.Point
	for i, side := range [2]float64{-1, 1} {
		end := line[i].End().Mul(k)
		along := geom.Polar(1, final.Slope)
		face := end.Add(along.Left().Mul(k*deep/2 + 0.5))
		back := face.Sub(along.Mul(max(3, k*deep*0.9)))
		flip := func(p geom.Point) geom.Point { return geom.Pt(side*p.X, p.Y) }
		bar := geom.Lines(flip(face), flip(face.Add(along.Left().Mul(1.2))), flip(back.Add(along.Left().Mul(1.2))), flip(back)).Close()
		d.Add(drawing.Stroke{Path: bar, Role: drawing.Thin, Tone: drawing.Dark})
		if i == 1 {
			finder = back.Lerp(face, 0.5).Add(along.Left().Mul(1.2))
		}
	}
	foot := -k*(deep/2+strip) - axisPast
	top := travel + deep/2
	if len(b.outline.Vertices) > 0 {
		top = b.back + travel
	}
	d.Line(drawing.Centre, geom.Pt(0, foot), geom.Pt(0, k*top+axisPast))
	travelAt := s.push(&d, b, k, travel)

	// Supports, below everything.
	c := geom.Pt(final.Roller.X, final.Roller.Y).Mul(k)
	y := c.Y - r - 1.2
	low := min(y, foot)
	s.dimension(&d, geom.Pt(-c.X, y), geom.Pt(c.X, y), -(y - low + raise + s.h + 0.5), "supports "+s.f.tape(q.Rig.Supports))

	onTube := line[0].UpTo(0.6 * final.Developed()).End().Mul(k)
	onTube.X = -onTube.X
	labels := []label{}
	if len(b.outline.Vertices) > 0 {
		labels = append(labels, label{lines: []string{"block R" + s.f.radius(b.radius)}, at: geom.Pt(0, k*(b.back-0.3*(b.back-deep/2))), bold: true, on: true})
		if t.CheekGap > 0 && len(b.cheek.Vertices) > 0 {
			labels = append(labels, label{lines: []string{"side plates"}, at: edgeOf(b.cheek, k)})
		}
	}
	labels = append(labels,
		label{lines: []string{"travel " + s.f.travel(travel), "read it here,", "0 at first touch"}, at: travelAt, bold: true, on: true},
		label{lines: []string{"angle finder here,", "on both ends"}, at: finder, bold: true},
	)
	if !few {
		labels = append(labels,
			label{lines: []string{"roller", "Ø" + s.f.stock(q.Rig.Roller)}, at: geom.Pt(c.X, c.Y-0.5*r)},
			label{lines: []string{"strip"}, at: stripAt.Lerp(geom.Pt(0, -(deep+strip)/2), 0.02).Mul(k)},
			label{lines: []string{"tube, last position"}, at: onTube},
			label{lines: []string{sentence.FirstTouch}, at: geom.Pt(-k*flat[0]*0.8, k*(travel+deep/2))},
		)
	}
	// Names only add to it, and finding places for them is what takes long.
	box := d.Bounds()
	if box.Width() > room.Width() || box.Height() > room.Height() {
		return d, false
	}
	var members []geom.Rect
	if len(b.outline.Vertices) > 0 {
		members = append(members, b.outline.Apply(size).Bounds())
	}
	half := geom.Pt(room.Width()/2, room.Height()/2)
	return d, s.name(&d, geom.Rect{Min: box.Centre().Sub(half), Max: box.Centre().Add(half)}, members, labels)
}

// edgeOf returns a point just inside the lower right of a side plate, mm of paper.
func edgeOf(p geom.Path, k float64) geom.Point {
	box := p.Bounds()
	return geom.Pt(box.Max.X-0.04*box.Width(), box.Max.Y-0.25*box.Height()).Mul(k)
}

// push draws the travel from first touch, between the block's backs or where
// there is no block as far as the tube's crown moves, and returns where to name it.
func (s *sheet) push(d *drawing.Drawing, b form, k, travel float64) geom.Point {
	low, x := k*b.back, -0.75*k*b.half
	if len(b.outline.Vertices) == 0 {
		low, x = k*s.p.Job.Tube.Depth/2, 0
	}
	high := low + k*travel
	d.Line(drawing.Thin, geom.Pt(x-4, high), geom.Pt(x+4, high))
	if k*travel > 2.2*arrow {
		d.Line(drawing.Thin, geom.Pt(x, low), geom.Pt(x, high))
		d.Add(drawing.Arrow(geom.Pt(x, low), -90*geom.Degree, arrow), drawing.Arrow(geom.Pt(x, high), 90*geom.Degree, arrow))
	} else {
		d.Line(drawing.Thin, geom.Pt(x, low-outward), geom.Pt(x, high+outward))
		d.Add(drawing.Arrow(geom.Pt(x, low), 90*geom.Degree, arrow), drawing.Arrow(geom.Pt(x, high), -90*geom.Degree, arrow))
	}
	return geom.Pt(x, (low+high)/2)
}

// bent draws the tube about its centreline, at k mm of paper per mm; an end that
// is cut off is a break line, thin and with a zigzag.
func bent(d *drawing.Drawing, centre geom.Path, deep, k float64, cut [2]bool) {
	size := geom.Scale(k)
	d.Add(drawing.Stroke{Path: sleeve(centre, deep).Apply(size), Role: drawing.Fill, Tone: drawing.Tube})
	a, b := centre.Beside(-deep/2).Apply(size), centre.Beside(deep/2).Apply(size)
	d.Add(drawing.Stroke{Path: a, Role: drawing.Visible}, drawing.Stroke{Path: b, Role: drawing.Visible})
	for i, e := range [2][2]geom.Point{{a.Vertices[0].Point, b.Vertices[0].Point}, {a.End(), b.End()}} {
		if !cut[i] {
			d.Line(drawing.Visible, e[0], e[1])
			continue
		}
		along := e[1].Sub(e[0]).Unit()
		side := along.Left().Mul(1.2)
		mid := e[0].Lerp(e[1], 0.5)
		d.Line(drawing.Thin, e[0].Sub(along), mid.Sub(along.Mul(0.8)), mid.Sub(along.Mul(0.4)).Add(side), mid.Add(along.Mul(0.4)).Sub(side), mid.Add(along.Mul(0.8)), e[1].Add(along))
	}
}

// holds reports whether a box lies within a convex outline.
func holds(outline geom.Path, box geom.Rect) bool {
	for _, q := range box.Path().Vertices {
		if !outline.Contains(q.Point) {
			return false
		}
	}
	return true
}

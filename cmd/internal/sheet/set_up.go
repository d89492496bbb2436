package sheet

import (
	"overbend/export/drawing"
	"overbend/geom"
)

// Heights in mm of the field of the set-up and the plot: the least, what most
// jobs need to stand at 1:5, and the most.
const (
	leastSetUp = 46.0
	goodSetUp  = 54.0
	mostSetUp  = 70.0
)

// axisPast is how far in mm the axis runs past what it is the axis of.
const axisPast = 1.0

// setUp draws the press in its first and its last position.
func (s *sheet) setUp(f geom.Rect, n int) {
	q, t := s.p.Press, s.p.Tools
	room := under(f)
	room.Min.Y += pitch - 0.6
	lettered := false
	d, k, scale := fitted(room.Width(), room.Height(), geom.Pt(q.Rig.Supports+q.Rig.Roller, 0), 1, func(k float64, _ int) (d drawing.Drawing, ok bool) {
		d, lettered = s.setUpPicture(k, (room.Width()/2-1.5)/k)
		return d, true
	})
	switch {
	case len(t.Block.Layers) == 0:
	case lettered:
		scale += ", dash-dot: first touch"
	default:
		scale += ", block R" + s.f.given(t.Block.Radius)
	}
	s.heading(f, n, "SET UP", scale)
	if k > 0 {
		s.place(d, room)
	}
	// What can't be read off the picture.
	foot := "rollers Ø" + s.f.given(q.Rig.Roller) + ", strip " + s.f.given(s.p.Strip.Thickness)
	if t.CheekGap > 0 {
		foot += ", cheeks " + s.f.given(t.CheekGap)
		if long := foot + " apart"; width(long) <= room.Width() {
			foot = long
		}
	}
	s.d.Add(words(f.Centre().X, f.Min.Y+1.7, fit(foot, room.Width()), drawing.Middle))
}

// setUpPicture draws the press about the crown's centreline in the last
// position, at k mm of paper per mm, cut off reach mm to both sides. It reports
// whether the block's radius has found room on the block.
func (s *sheet) setUpPicture(k, reach float64) (drawing.Drawing, bool) {
	j, q, t := s.p.Job, s.p.Press, s.p.Tools
	final, travel := q.Final, q.Final.Travel
	deep, strip := j.Tube.Depth, s.p.Strip.Thickness
	var d drawing.Drawing
	size := geom.Scale(k)
	add := func(p geom.Path, r drawing.Role, tone drawing.Tone) {
		d.Add(drawing.Stroke{Path: p.Apply(size), Role: r, Tone: tone})
	}
	// How much of tube and strip lies to each side of the middle. What stands
	// higher than the block at first touch is cut off.
	tube := [2]float64{t.Blank.Middle, t.Blank.Length - t.Blank.Middle}
	if t.Blank.Length == 0 {
		tube = [2]float64{final.Developed() + deep, final.Developed() + deep}
	}
	limit := geom.Pt(reach, max(travel+2*deep, final.Roller.Y+2*deep))
	var block, cheek geom.Path
	if len(t.Block.Layers) > 0 {
		block, cheek = s.pressed(t.Block.Layers[0].Part.Outline), s.pressed(t.Cheek.Outline)
		limit.Y = max(limit.Y, s.back()+travel)
	}

	// First touch: the tube flat, the block above it. What the last position
	// covers is not seen.
	for _, y := range [2]float64{travel - deep/2, travel + deep/2} {
		add(geom.Lines(geom.Pt(-min(tube[0], reach), y), geom.Pt(min(tube[1], reach), y)), drawing.Phantom, drawing.NoTone)
	}
	for i, x := range [2]float64{-tube[0], tube[1]} {
		if tube[i] < reach {
			add(geom.Lines(geom.Pt(x, travel-deep/2), geom.Pt(x, travel+deep/2)), drawing.Phantom, drawing.NoTone)
		}
	}
	add(block.Apply(geom.Translate(geom.Pt(0, travel))), drawing.Phantom, drawing.NoTone)

	// Last position: strip, tube, block and cheeks, rollers.
	centre := q.Loaded.Coarsen(1 / k)
	under := centre.Beside(-(deep + strip) / 2)
	edge := limit.Sub(geom.Pt(final.Slope.Sin(), final.Slope.Cos()).Mul(deep / 2))
	var line [2]geom.Path
	for i := range line {
		line[i], _ = upTo(under, max(t.StripLength/2, final.Developed()), final.Slope, edge)
	}
	add(sleeve(joined(line), strip), drawing.Visible, drawing.Steel)
	var cut [2]bool
	for i := range line {
		line[i], cut[i] = upTo(centre, tube[i], final.Slope, edge)
	}
	bent(&d, joined(line), deep, k, cut)
	add(block, drawing.Visible, drawing.Block)
	add(cheek, drawing.Thin, drawing.NoTone)
	r := k * q.Rig.Roller / 2
	for _, x := range [2]float64{-final.Roller.X, final.Roller.X} {
		c := geom.Pt(x, final.Roller.Y).Mul(k)
		d.Add(drawing.Ring{Circle: geom.Circle{Centre: c, Radius: r}, Role: drawing.Visible, Tone: drawing.Steel})
		d.Line(drawing.Centre, c.Sub(geom.Pt(r+1.2, 0)), c.Add(geom.Pt(r+1.2, 0)))
		d.Line(drawing.Centre, c.Sub(geom.Pt(0, r+1.2)), c.Add(geom.Pt(0, r+1.2)))
	}
	lettered := s.push(&d, block, k)

	// Supports, below everything.
	c := geom.Pt(final.Roller.X, final.Roller.Y).Mul(k)
	y := c.Y - r - 1.2
	low := min(y, -k*(deep/2+strip)-axisPast)
	dimension(&d, geom.Pt(-c.X, y), geom.Pt(c.X, y), -(y - low + raise + small + 0.5), "supports "+s.f.tape(q.Rig.Supports))
	return d, lettered
}

// push draws the axis, the block's radius on the block if it has room there,
// and the travel from first touch between the block's backs.
func (s *sheet) push(d *drawing.Drawing, block geom.Path, k float64) bool {
	deep, strip := s.p.Job.Tube.Depth, s.p.Strip.Thickness
	travel := k * s.p.Press.Final.Travel
	figure := "travel " + s.f.travel(s.p.Press.Final.Travel)
	foot := -k*(deep/2+strip) - axisPast
	if len(block.Vertices) == 0 {
		// Without a block the tube's crown moves.
		d.Line(drawing.Centre, geom.Pt(0, foot), geom.Pt(0, travel+k*deep/2+axisPast))
		return false
	}
	back, half := k*s.back(), k*s.p.Tools.Block.HalfWidth
	d.Line(drawing.Centre, geom.Pt(0, foot), geom.Pt(0, back+axisPast))
	lettered := false
	radius := "R" + s.f.given(s.p.Tools.Block.Radius)
	outline := block.Apply(geom.Scale(k))
	for _, name := range [2]string{"block " + radius, radius} {
		t := words(0, back-small-1.4, name, drawing.Middle)
		box := t.Bounds().Grow(0.4)
		if lettered = holds(outline, box.Grow(0.5)); lettered {
			d.Box(drawing.Fill, drawing.Block, box)
			d.Add(t)
			break
		}
	}

	// The figure stands between the backs where there is room, else above.
	start := back + travel
	x := 4 - half
	text := words(x+1.5, start-small-0.9, figure, drawing.Left)
	tail := start
	if back+below*small+0.8 > text.At.Y || text.Bounds().Max.X > half-2 {
		x = half / 2
		if travel <= 2.2*arrow {
			x = half - 2.5
		}
		tail = start + 2.5
		text = words(x, tail+raise, figure, drawing.Middle)
	} else {
		d.Box(drawing.Fill, drawing.Paper, text.Bounds().Grow(0.4))
	}
	d.Line(drawing.Thin, geom.Pt(x, back), geom.Pt(x, tail))
	if travel > 2.2*arrow {
		d.Add(drawing.Arrow(geom.Pt(x, back), -90*geom.Degree, arrow), drawing.Arrow(geom.Pt(x, start), 90*geom.Degree, arrow))
	} else {
		d.Line(drawing.Thin, geom.Pt(x, back), geom.Pt(x, back-outward))
		d.Add(drawing.Arrow(geom.Pt(x, back), 90*geom.Degree, arrow), drawing.Arrow(geom.Pt(x, start), -90*geom.Degree, arrow))
	}
	d.Add(text)
	return lettered
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

// pressed moves a part from its own frame (arc's centre at the origin, crown
// on top) to the press's: crown of the tube's centreline at the origin, the
// block above it.
func (s *sheet) pressed(p geom.Path) geom.Path {
	crown := s.p.Tools.Block.Radius + s.p.Job.Tube.Depth/2
	return p.Apply(geom.MirrorY()).Apply(geom.Translate(geom.Pt(0, crown)))
}

// back returns the height of the block's back in that frame, mm.
func (s *sheet) back() float64 {
	b := s.p.Tools.Block
	return b.Radius + s.p.Job.Tube.Depth/2 - b.Back
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

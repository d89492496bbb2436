package sheet

import (
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/tooling"
)

// blankHeight is that of the blank's field in mm.
const blankHeight = 32.5

// blank draws the straight tube with its marks and what it is filled with.
func (s *sheet) blank(f geom.Rect, step func() int) {
	j, b := s.p.Job, s.p.Tools.Blank
	head := f
	if s.p.Filler != nil {
		head.Max.X = f.Min.X + 0.52*f.Width()
	}
	room := under(f)
	room.Min.Y++
	const labels = 2*pitch + 4 // names, figures and leaders
	d, k, scale := fitted(room.Width(), room.Height()-labels, geom.Pt(b.Length, j.Tube.Depth), 1, func(k float64, _ int) (drawing.Drawing, bool) {
		return s.blankPicture(k), true
	})
	s.heading(head, step(), "MARK", "from left end, outside up, "+scale)
	if s.p.Filler != nil {
		head.Min.X, head.Max.X = head.Max.X, f.Max.X
		a := j.Filler.Alloy
		s.heading(head, step(), "FILL "+s.f.massWithUnit(s.p.Filler.Mass), "alloy "+a.Name+", plugs "+s.f.given(j.Filler.Plugs))
	}
	if k == 0 {
		return
	}
	box := d.Bounds()
	at := geom.Pt(room.Centre().X, room.Min.Y+box.Height()/2+max(0, room.Height()-labels-box.Height())/2)
	s.d.Add(d.Apply(geom.Translate(at)).Shapes...)
	left, top := at.X-box.Width()/2, at.Y+box.Height()/2
	// Names and figures above their marks, moved apart where they are near.
	type tag struct {
		name, figure string
		top          float64 // where its mark meets the outside
	}
	var tags []tag
	var want, size []float64
	add := func(name string, from, slant float64) {
		// The tube lies outside up: the figure is that of the mark on that face.
		t := tag{name, s.f.tape(from + slant), left + k*(from+slant)}
		tags = append(tags, t)
		want = append(want, t.top)
		size = append(size, max(width(t.name), boldWidth(t.figure)))
	}
	for _, m := range b.Marks {
		add(m.Name, m.At, m.Slant)
	}
	add("end", b.Length, 0)
	xs := spread(want, size, 2, room.Min.X, room.Max.X)
	for i, t := range tags {
		s.d.Line(drawing.Thin, geom.Pt(t.top, top+0.4), geom.Pt(xs[i], top+3.4))
		s.d.Add(bold(xs[i], top+4.9, t.figure, drawing.Middle), words(xs[i], top+4.9+pitch-0.3, t.name, drawing.Middle))
	}
}

// blankPicture draws the blank cut open, from its left end on the centreline,
// at k mm of paper per mm.
func (s *sheet) blankPicture(k float64) drawing.Drawing {
	j, b := s.p.Job, s.p.Tools.Blank
	var d drawing.Drawing
	length, deep, plug := k*b.Length, k*j.Tube.Depth, k*j.Filler.Plugs
	tone := drawing.Tube
	if s.p.Filler != nil {
		tone = drawing.Filler
	}
	d.Box(drawing.Visible, tone, geom.Rect{Min: geom.Pt(0, -deep/2), Max: geom.Pt(length, deep/2)})
	if s.p.Filler != nil && plug > 0 {
		d.Box(drawing.Thin, drawing.Steel, geom.Rect{Min: geom.Pt(0, -deep/2), Max: geom.Pt(plug, deep/2)})
		d.Box(drawing.Thin, drawing.Steel, geom.Rect{Min: geom.Pt(length-plug, -deep/2), Max: geom.Pt(length, deep/2)})
	}
	for _, m := range b.Marks {
		foot, head := geom.Pt(k*(m.At-m.Slant), -deep/2), geom.Pt(k*(m.At+m.Slant), deep/2)
		role := drawing.Thin
		switch m.Name {
		case tooling.MarkTrim:
			role = drawing.Visible
		case tooling.MarkCentre:
			role = drawing.Centre
			foot.Y--
		case tooling.MarkRoller:
			foot = head.Lerp(foot, 0.3)
		}
		d.Line(role, foot, head)
	}
	return d
}

// spread returns the middles of things of the given sizes that should stand at
// want, in rising order, moved as little as keeps them gap apart and from lo
// to hi.
func spread(want, size []float64, gap, lo, hi float64) []float64 {
	// Things that touch move as one: a run about the mean of what its members
	// want.
	type run struct {
		sum, length float64 // of the starts that members want of it; its length
		n           int
	}
	var runs []run
	at := func(r run) float64 {
		return max(lo, min(r.sum/float64(r.n), hi-r.length))
	}
	for i := range want {
		r := run{want[i] - size[i]/2, size[i], 1}
		for len(runs) > 0 {
			p := runs[len(runs)-1]
			if at(p)+p.length+gap <= at(r) {
				break
			}
			// A member's start within the joined run is p.length + gap further on.
			r = run{p.sum + r.sum - float64(r.n)*(p.length+gap), p.length + gap + r.length, p.n + r.n}
			runs = runs[:len(runs)-1]
		}
		runs = append(runs, r)
	}
	out := make([]float64, 0, len(want))
	for _, r := range runs {
		x := at(r)
		for range r.n {
			i := len(out)
			out = append(out, x+size[i]/2)
			x += size[i] + gap
		}
	}
	return out
}

package sheet

import (
	"cmp"
	"math"
	"slices"

	"overbend/export/drawing"
	"overbend/geom"
)

// Chart is a figure over one that is varied.
type Chart struct {
	Name  string    // of the figure, with its unit
	Over  string    // of what is varied, with its unit
	Foot  string    // a line below all; "" for none
	X     []float64 // rising
	Lines []ChartLine
	// At is where this job is, its figure NaN where it is what the first line has
	// there. What is off the chart is left out.
	At geom.Point
	// FromNought keeps the axis from nought, where small steps of the figure mean
	// nothing.
	FromNought bool
}

// ChartLine is a figure at each place of a chart.
type ChartLine struct {
	Name string // written at its end; "" for none
	// Y holds the figures; what is not a number is left out.
	Y []float64
	// Works says at each place whether the job can be made there. Where no line's can
	// the chart is hatched; where this line's can't and another's can it is broken.
	Works []bool
}

// DrawChart draws a chart that belongs to no sheet for a room of w by h mm, capitals
// so many mm high.
func DrawChart(c Chart, capitals, w, h float64) Picture {
	return Pictures{s: &sheet{grow: 1, pen: pen{capitals}}}.Chart(c, w, h)
}

// Chart draws a chart for a room of w by h mm.
func (p Pictures) Chart(c Chart, w, h float64) Picture {
	s := p.s
	room := roomOf(w, h).Grow(-screenEdge)
	s.d = drawing.Drawing{}
	lo, hi := math.Inf(1), math.Inf(-1)
	see := func(y float64) {
		if !math.IsNaN(y) {
			lo, hi = min(lo, y), max(hi, y)
		}
	}
	for _, l := range c.Lines {
		for _, y := range l.Y {
			see(y)
		}
	}
	see(c.At.Y)
	switch {
	case lo > hi || lo == 0 && hi == 0:
		lo, hi = 0, 1
	case hi <= 0:
		hi = 0
	}
	// From nought, unless that would press the line flat.
	base := min(0, lo-0.05*(hi-lo))
	if !c.FromNought && lo > 0 && hi-lo < 0.4*hi {
		base = max(0, lo-0.3*(hi-lo)-0.02*hi)
	} else if lo >= 0 {
		base = 0
	}
	y := axis{end: hi + 0.05*math.Abs(hi) - base}
	foot := room.Min.Y
	if c.Foot != "" {
		foot += s.pitch()
	}
	high := room.Max.Y - foot - 2*s.pitch() - tick - 2*s.h
	y.divide(high, 2.2*s.h)
	first := math.Ceil(base/y.step-1e-9)*y.step + 0 // no -0
	var figures []float64
	wide := 0.0
	for v := first; v <= base+y.end*(1+1e-9); v += y.step {
		if math.Abs(v) < 1e-9*y.step {
			v = 0
		}
		figures = append(figures, v)
		wide = max(wide, s.width(y.figure(v)))
	}
	from, to := c.X[0], c.X[len(c.X)-1]
	named := 0.0
	for _, l := range c.Lines {
		if l.Name != "" {
			named = max(named, s.width(l.Name)+leader)
		}
	}
	field := geom.Rect{
		Min: geom.Pt(room.Min.X+wide+tick+0.8, foot+tick+2*s.pitch()+0.4),
		Max: geom.Pt(room.Max.X-max(3, named), room.Max.Y-1.8*s.h),
	}
	px := func(v float64) float64 { return field.Min.X + (v-from)/(to-from)*field.Width() }
	py := func(v float64) float64 { return field.Min.Y + (v-base)/y.end*field.Height() }

	s.d.Add(s.bold(room.Min.X, room.Max.Y-s.h, c.Name, drawing.Left))
	s.hatch(field, c, px)
	s.d.Line(drawing.Thin, geom.Pt(field.Min.X, field.Max.Y), field.Min, geom.Pt(field.Max.X, field.Min.Y))
	for _, v := range figures {
		s.d.Line(drawing.Thin, geom.Pt(field.Min.X-tick, py(v)), geom.Pt(field.Min.X, py(v)))
		s.d.Add(s.words(field.Min.X-tick-0.6, py(v)-s.h/2, y.figure(v), drawing.Right))
	}
	x := axis{end: to - from}
	x.divide(field.Width(), 3*s.width("0"))
	for s.wideFrom(x, from, to)+2 > x.step/(to-from)*field.Width() && x.step < to-from {
		x.divide(field.Width(), s.wideFrom(x, from, to)+2)
	}
	atFoot := len(figures) > 0 && py(figures[0])-field.Min.Y < 1.5*s.h
	for v := math.Ceil(from/x.step-1e-9)*x.step + 0; v <= to+1e-9*x.step; v += x.step {
		if math.Abs(v) < 1e-9*x.step {
			v = 0
		}
		s.d.Line(drawing.Thin, geom.Pt(px(v), field.Min.Y), geom.Pt(px(v), field.Min.Y-tick))
		if w := s.width(x.figure(v)); atFoot && px(v)-w/2 < field.Min.X-tick || px(v)+w/2 > room.Max.X {
			continue // the other axis's figure is there, or the edge
		}
		s.d.Add(s.words(px(v), field.Min.Y-tick-0.5-s.h, x.figure(v), drawing.Middle))
	}
	s.d.Add(s.words(field.Centre().X, foot+below*s.h, c.Over, drawing.Middle))
	if c.Foot != "" {
		s.d.Add(s.words(room.Min.X, room.Min.Y+below*s.h, c.Foot, drawing.Left))
	}

	for _, l := range c.Lines {
		s.curve(l, c, px, py)
	}
	s.names(c, field, py)
	if !(c.At.X >= from && c.At.X <= to) {
		return paged(s.d, "", roomOf(w, h))
	}
	at := px(c.At.X)
	s.d.Line(drawing.Centre, geom.Pt(at, field.Min.Y), geom.Pt(at, field.Max.Y))
	v := c.At.Y
	if math.IsNaN(v) {
		v = c.between(c.At.X)
	}
	if !math.IsNaN(v) {
		s.d.Add(drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(at, py(v)), Radius: 1.2 * bead}, Role: drawing.Fill, Tone: drawing.Dark})
	}
	return paged(s.d, "", roomOf(w, h))
}

// leader in mm is what leads from a line's end to its name.
const leader = 4.0

// curve draws a line, a stretch with an end that can't be made broken where the
// chart is not hatched.
func (s *sheet) curve(l ChartLine, c Chart, px, py func(float64) float64) {
	path := geom.Path{}
	role := drawing.Visible
	flush := func() {
		if len(path.Vertices) > 1 {
			s.d.Add(drawing.Stroke{Path: path, Role: role})
		}
		path = geom.Path{}
	}
	for i, v := range l.Y {
		if math.IsNaN(v) {
			flush()
			continue
		}
		at := geom.Vertex{Point: geom.Pt(px(c.X[i]), py(v))}
		if n := len(path.Vertices); n > 0 {
			next := drawing.Visible
			if !l.Works[i-1] && c.works(i-1) || !l.Works[i] && c.works(i) {
				next = drawing.Predicted
			}
			if next != role {
				last := path.Vertices[n-1]
				flush()
				path.Vertices = append(path.Vertices, last)
				role = next
			}
		}
		path.Vertices = append(path.Vertices, at)
	}
	flush()
}

// names writes the lines' names beside their ends, from the highest down, each clear
// of the one above it.
func (s *sheet) names(c Chart, field geom.Rect, py func(float64) float64) {
	type end struct {
		name       string
		geom.Point         // of the line's end
		base       float64 // of its name's letters
	}
	var all []end
	for _, l := range c.Lines {
		for i := len(l.Y) - 1; i >= 0 && l.Name != ""; i-- {
			if !math.IsNaN(l.Y[i]) {
				x := field.Min.X + (c.X[i]-c.X[0])/(c.X[len(c.X)-1]-c.X[0])*field.Width()
				all = append(all, end{l.Name, geom.Pt(x, py(l.Y[i])), py(l.Y[i]) - s.h/2})
				break
			}
		}
	}
	slices.SortStableFunc(all, func(a, b end) int { return cmp.Compare(b.Y, a.Y) })
	for i := 1; i < len(all); i++ {
		all[i].base = min(all[i].base, all[i-1].base-s.pitch())
	}
	if n := len(all); n > 0 { // up again what went below the field
		low := field.Min.Y
		for i := n - 1; i >= 0 && all[i].base < low; i-- {
			all[i].base = low
			low += s.pitch()
		}
	}
	for _, e := range all {
		to := geom.Pt(field.Max.X+leader-0.6, e.base+s.h/2)
		s.d.Line(drawing.Thin, e.Point, geom.Pt(max(e.X, field.Max.X+0.6), e.Y), to)
		s.d.Add(s.words(field.Max.X+leader, e.base, e.name, drawing.Left))
	}
}

// works reports whether the job can be made at a place on any line.
func (c Chart) works(i int) bool {
	return slices.ContainsFunc(c.Lines, func(l ChartLine) bool { return l.Works[i] })
}

// between returns the first line's figure at a place between those of the chart.
func (c Chart) between(x float64) float64 {
	y := c.Lines[0].Y
	for i := 1; i < len(c.X); i++ {
		if x <= c.X[i] {
			t := (x - c.X[i-1]) / (c.X[i] - c.X[i-1])
			return y[i-1] + t*(y[i]-y[i-1])
		}
	}
	return math.NaN()
}

// wideFrom returns the width in mm of the widest figure from one to another.
func (s *sheet) wideFrom(a axis, from, to float64) float64 {
	return max(s.width(a.figure(from)), s.width(a.figure(to)))
}

// hatch draws slanting lines over what can't be made.
func (s *sheet) hatch(field geom.Rect, c Chart, px func(float64) float64) {
	const apart = 2.5 // mm
	middle := func(i int) float64 { return px((c.X[i] + c.X[i+1]) / 2) }
	for i := 0; i < len(c.X); {
		if c.works(i) {
			i++
			continue
		}
		left := field.Min.X
		if i > 0 {
			left = middle(i - 1)
		}
		for i < len(c.X) && !c.works(i) {
			i++
		}
		right := field.Max.X
		if i < len(c.X) {
			right = middle(i - 1)
		}
		high := field.Height()
		for x := left - high; x < right; x += apart {
			a, b := geom.Pt(x, field.Min.Y), geom.Pt(x+high, field.Max.Y)
			if a.X < left {
				a = geom.Pt(left, field.Min.Y+left-x)
			}
			if b.X > right {
				b = geom.Pt(right, field.Min.Y+right-x)
			}
			s.d.Line(drawing.Thin, a, b)
		}
		s.d.Line(drawing.Thin, geom.Pt(left, field.Min.Y), geom.Pt(left, field.Max.Y))
	}
}

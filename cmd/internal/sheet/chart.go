package sheet

import (
	"math"

	"overbend/export/drawing"
	"overbend/geom"
)

// Chart is a figure over one that is varied.
type Chart struct {
	Name string // of the figure, with its unit
	Over string // of what is varied, with its unit
	X, Y []float64
	// Works says at each place whether the job can be made there; where it can't
	// the chart is hatched. A figure that is not a number is left out.
	Works []bool
	At    float64 // where this job is
	// FromNought keeps the axis from nought, where small steps of the figure mean
	// nothing.
	FromNought bool
}

// Chart draws a chart for a room of w by h mm.
func (p Pictures) Chart(c Chart, w, h float64) Picture {
	s := p.s
	room := roomOf(w, h).Grow(-screenEdge)
	s.d = drawing.Drawing{}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, y := range c.Y {
		if !math.IsNaN(y) {
			lo, hi = min(lo, y), max(hi, y)
		}
	}
	if !(hi > 0) {
		lo, hi = 0, 1
	}
	// From nought, unless that would press the line flat.
	base := 0.0
	if !c.FromNought && hi-lo < 0.4*hi {
		base = max(0, lo-0.3*(hi-lo)-0.02*hi)
	}
	y := axis{end: 1.05*hi - base}
	high := room.Height() - 2*s.pitch() - tick - 2*s.h
	y.divide(high, 2.2*s.h)
	first := math.Max(0, math.Ceil(base/y.step-1e-9)*y.step) // and no -0
	var figures []float64
	wide := 0.0
	for v := first; v <= base+y.end*(1+1e-9); v += y.step {
		figures = append(figures, v)
		wide = max(wide, s.width(y.figure(v)))
	}
	from, to := c.X[0], c.X[len(c.X)-1]
	field := geom.Rect{
		Min: geom.Pt(room.Min.X+wide+tick+0.8, room.Min.Y+tick+2*s.pitch()+0.4),
		Max: geom.Pt(room.Max.X-3, room.Max.Y-1.8*s.h),
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
	for v := math.Max(0, math.Ceil(from/x.step-1e-9)*x.step); v <= to+1e-9*x.step; v += x.step {
		s.d.Line(drawing.Thin, geom.Pt(px(v), field.Min.Y), geom.Pt(px(v), field.Min.Y-tick))
		if w := s.width(x.figure(v)); atFoot && px(v)-w/2 < field.Min.X-tick || px(v)+w/2 > room.Max.X {
			continue // the other axis's figure is there, or the edge
		}
		s.d.Add(s.words(px(v), field.Min.Y-tick-0.5-s.h, x.figure(v), drawing.Middle))
	}
	s.d.Add(s.words(field.Centre().X, room.Min.Y+below*s.h, c.Over, drawing.Middle))

	line := geom.Path{}
	flush := func() {
		if len(line.Vertices) > 1 {
			s.d.Add(drawing.Stroke{Path: line, Role: drawing.Visible})
		}
		line = geom.Path{}
	}
	for i, v := range c.Y {
		if math.IsNaN(v) {
			flush()
			continue
		}
		line.Vertices = append(line.Vertices, geom.Vertex{Point: geom.Pt(px(c.X[i]), py(v))})
	}
	flush()
	at := px(c.At)
	s.d.Line(drawing.Centre, geom.Pt(at, field.Min.Y), geom.Pt(at, field.Max.Y))
	if v := c.between(c.At); !math.IsNaN(v) {
		s.d.Add(drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(at, py(v)), Radius: 1.2 * bead}, Role: drawing.Fill, Tone: drawing.Dark})
	}
	return paged(s.d, "", roomOf(w, h))
}

// between returns the figure at a place between those of the chart.
func (c Chart) between(x float64) float64 {
	for i := 1; i < len(c.X); i++ {
		if x <= c.X[i] {
			t := (x - c.X[i-1]) / (c.X[i] - c.X[i-1])
			return c.Y[i-1] + t*(c.Y[i]-c.Y[i-1])
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
	for i := 0; i < len(c.Works); {
		if c.Works[i] {
			i++
			continue
		}
		left := field.Min.X
		if i > 0 {
			left = middle(i - 1)
		}
		for i < len(c.Works) && !c.Works[i] {
			i++
		}
		right := field.Max.X
		if i < len(c.Works) {
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

package sheet

import (
	"math"
	"slices"
	"strconv"

	"overbend/cmd/internal/plan"
	sentence "overbend/cmd/internal/words"

	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
	"overbend/geom/bend"
)

// Sizes of the plot in mm.
const (
	tick   = 1.2
	sample = 5.0 // of a line in the legend
	bead   = 0.75
	beyond = 5.0 // of the travel axis beyond the last stop, for its number
)

// plot draws force and angle over the ram's travel with the stops.
func (s *sheet) plot(room geom.Rect, q *plan.Press) {
	last := q.Stops[len(q.Stops)-1]
	if q.Final.Travel > last.Travel {
		last = q.Final
	}
	const broad = 0.3 // no line of the plot's is so wide that more is needed
	force := lineKind{"force, " + s.u.Unit(quantity.Force), drawing.Visible, func(t bend.State) float64 { return s.u.Of(quantity.Force.Of(t.Force)) }}
	loaded := lineKind{"angle " + sentence.UnderPressure, drawing.Thin, func(t bend.State) float64 { return t.Loaded.Degrees() }}
	free := lineKind{sentence.LetGoName(s.p.Job.Filler.Named()), drawing.Predicted, func(t bend.State) float64 { return t.Filled.Degrees() }}
	s.legend(&room, force, loaded, free)

	inch := s.u.MM(1)
	travel := func(t bend.State) float64 { return t.Travel / inch }
	top := func(k lineKind) float64 {
		most := 0.0
		for _, t := range slices.Concat(q.Schedule, q.Stops) {
			most = max(most, k.of(t))
		}
		return most * 1.07
	}
	left := axis{end: top(force)}
	right := axis{end: max(top(loaded), 1.03*s.p.Job.Bend.Angle.Degrees())}
	high := room.Height() - tick - 2*s.pitch() - 3.5
	left.divide(high, s.h*(1+below)+1)
	right.divide(high, s.h*(1+below)+1)

	// The field of the curves: the axes' figures stand outside it, that of the
	// wanted angle, which is bold, with as many decimals as leave room.
	aim := s.f.drawnAngle(s.p.Job.Bend.Angle)
	if s.boldWidth(aim) > s.boldWidth("100.0°") {
		aim = s.f.angle(s.p.Job.Bend.Angle)
	}
	beside := max(s.wide(right)+s.width("°"), s.boldWidth(aim)+0.5)
	field := geom.Rect{
		Min: geom.Pt(room.Min.X+s.wide(left)+tick+0.8, room.Min.Y+tick+2*s.pitch()+0.4),
		Max: geom.Pt(room.Max.X-beside-tick-0.8, room.Max.Y-2.2),
	}
	foot := axis{end: travel(last) * field.Width() / (field.Width() - beyond)}
	foot.divide(field.Width(), s.h)
	// Figures are as wide as the step makes them.
	for s.wide(foot)+2 > foot.step/foot.end*field.Width() {
		foot.divide(field.Width(), s.wide(foot)+2)
	}
	x := func(v float64) float64 { return field.Min.X + v/foot.end*field.Width() }
	y := func(a axis, v float64) float64 { return field.Min.Y + v/a.end*field.Height() }
	s.d.Line(drawing.Thin, geom.Pt(field.Min.X, field.Max.Y), field.Min, geom.Pt(field.Max.X, field.Min.Y), field.Max)

	// Travel's figures, and the axis's name below them.
	s.d.Add(s.words(field.Centre().X, room.Min.Y+below*s.h, "travel, "+s.u.String(), drawing.Middle))
	for _, v := range foot.ticks {
		s.d.Line(drawing.Thin, geom.Pt(x(v), field.Min.Y), geom.Pt(x(v), field.Min.Y-tick))
		if v > 0 { // the other axis has its nought beside it
			s.d.Add(s.words(x(v), field.Min.Y-tick-0.5-s.h, foot.figure(v), drawing.Middle))
		}
	}
	for _, v := range left.ticks {
		s.d.Line(drawing.Thin, geom.Pt(field.Min.X, y(left, v)), geom.Pt(field.Min.X-tick, y(left, v)))
		s.d.Add(s.words(field.Min.X-tick-0.6, y(left, v)-s.h/2, left.figure(v), drawing.Right))
	}
	// The wanted angle is a line across; figures near it make way.
	want := s.p.Job.Bend.Angle.Degrees()
	goal := y(right, want)
	s.d.Line(drawing.Centre, geom.Pt(field.Min.X, goal), geom.Pt(field.Max.X+tick, goal))
	s.d.Add(s.bold(field.Max.X+tick+0.6, goal-s.h/2, aim, drawing.Left))
	for _, v := range right.ticks {
		s.d.Line(drawing.Thin, geom.Pt(field.Max.X, y(right, v)), geom.Pt(field.Max.X+tick, y(right, v)))
		if v > 0 && math.Abs(y(right, v)-goal) > s.h*(1+below)+0.2 {
			s.d.Add(s.words(field.Max.X+tick+0.6, y(right, v)-s.h/2, right.figure(v)+"°", drawing.Left))
		}
	}

	var busy lettering.Obstacles // what numbers must keep off
	busy.Line(geom.Lines(geom.Pt(field.Min.X, goal), geom.Pt(field.Max.X, goal)), broad)
	busy.Line(geom.Lines(field.Min, geom.Pt(field.Max.X, field.Min.Y), field.Max), broad)
	for _, c := range []struct {
		lineKind
		axis
	}{{force, left}, {loaded, right}, {free, right}} {
		p := geom.Path{}
		for _, t := range q.Schedule {
			p.Vertices = append(p.Vertices, geom.Vertex{Point: geom.Pt(x(travel(t)), y(c.axis, c.of(t)))})
		}
		s.d.Add(drawing.Stroke{Path: p, Role: c.role})
		busy.Line(p, broad)
	}
	// Stops: a bead on force and angle, the angle's numbered where there is room,
	// the one that makes the part first.
	at := make([]geom.Point, len(q.Stops))
	for i, t := range q.Stops {
		at[i] = geom.Pt(x(travel(t)), y(right, free.of(t)))
		for _, b := range [2]geom.Point{at[i], {X: at[i].X, Y: y(left, force.of(t))}} {
			s.d.Add(drawing.Ring{Circle: geom.Circle{Centre: b, Radius: bead}, Role: drawing.Fill, Tone: drawing.Dark})
			busy.Box(geom.Rect{Min: b, Max: b}.Grow(bead))
		}
	}
	for i := len(at) - 1; i >= 0; i-- {
		figure := strconv.Itoa(i + 1)
		w := s.width(figure)
		for _, o := range [...]geom.Point{{X: 1.3, Y: -s.h - 0.7}, {X: 0.6, Y: -s.h - 1.6}, {X: 1.3, Y: 1.2}, {X: -w - 1.3, Y: 1.4}} {
			base := at[i].Add(o)
			box := geom.Rect{Min: base.Sub(geom.Pt(0, below*s.h)), Max: base.Add(geom.Pt(w, s.h))}
			if field.Holds(box, -0.3) && busy.Clear(box, 0.25) {
				s.d.Add(s.words(base.X, base.Y, figure, drawing.Left))
				busy.Box(box.Grow(0.55)) // numbers keep further off each other
				break
			}
		}
	}
}

// lineKind is a curve of the plot.
type lineKind struct {
	name string
	role drawing.Role
	of   func(bend.State) float64
}

// legend writes samples and names at the top of the room, as many in a line as
// find room, and takes them off.
func (s *sheet) legend(room *geom.Rect, kinds ...lineKind) {
	x, base := room.Min.X, room.Max.Y-s.h-0.3
	for i, k := range kinds {
		w := sample + 1 + s.width(k.name)
		if i > 0 && x+w > room.Max.X {
			x, base = room.Min.X, base-s.pitch()
		}
		s.d.Line(k.role, geom.Pt(x, base+s.h/2), geom.Pt(x+sample, base+s.h/2))
		s.d.Add(s.words(x+sample+1, base, k.name, drawing.Left))
		x += w + 3
	}
	room.Max.Y = base - 0.4*s.h
}

// axis runs from 0 to its end, in its own unit, with ticks at round figures.
type axis struct {
	end   float64
	step  float64
	ticks []float64
}

// divide sets ticks at a step of 1, 2 or 5 times a power of ten, or of 25, 250 and
// so on, which need no decimals: at least apart mm apart on an axis of length mm,
// ten of them at most.
func (a *axis) divide(length, apart float64) {
	raw := a.end * max(apart/length, 0.1)
	unit := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, m := range [...]float64{1, 2, 2.5, 5, 10} {
		if a.step = m * unit; a.step >= raw && (m != 2.5 || unit >= 10) {
			break
		}
	}
	a.ticks = nil
	for i := 0; float64(i)*a.step <= a.end*(1+1e-9); i++ {
		a.ticks = append(a.ticks, float64(i)*a.step)
	}
}

// figure prints a tick with the decimals its step needs.
func (a axis) figure(v float64) string {
	decimals := max(0, -int(math.Floor(math.Log10(a.step)+1e-9)))
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// wide returns the width in mm of the widest figure.
func (s *sheet) wide(a axis) float64 {
	w := 0.0
	for _, v := range a.ticks {
		w = max(w, s.width(a.figure(v)))
	}
	return w
}

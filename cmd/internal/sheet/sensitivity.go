package sheet

import (
	"fmt"
	"math"
	"slices"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	sentence "overbend/cmd/internal/words"
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// DrawSensitivity draws what each input moves as bars from the planned value, a field
// for each measure, w mm wide and as high as it needs: names with their intervals on
// the left, sources below. Name is bold at the top, text stands below it.
func DrawSensitivity(v *plan.Sensitivity, name, text string, u quantity.Units, w float64) Picture {
	t := &tornado{pen: pen{lettering.Ordinary}, v: v, u: u}
	room := roomOf(w, 10*w) // as high as it needs
	return paged(t.draw(room.Grow(-screenEdge), name, text), "", room)
}

// tornado draws the bars of a sensitivity.
type tornado struct {
	pen
	v       *plan.Sensitivity
	u       quantity.Units
	d       drawing.Drawing
	sources []string // in the order of their numbers
}

// bar is one input's, or all inputs', change of one measure at both ends.
type bar struct{ low, high float64 } // in the reader's unit; NaN: none

// Sizes of a row in mm, and what is free between fields.
const (
	barHigh   = 4.6
	barGap    = 0.8 // from a bar's end to its figure
	fieldGap  = 4.0
	leastBars = 28.0 // that a field has for its bars
)

func (t *tornado) draw(room geom.Rect, name, text string) drawing.Drawing {
	y := room.Max.Y - t.h
	t.d.Add(t.bold(room.Min.X, y, name, drawing.Left))
	y = t.para(room, y, text)
	y = t.legend(room, y-1.4*t.pitch())

	var names, ranges []string
	wide := t.width(allTogether)
	for _, s := range t.v.Inputs {
		names = append(names, sentence.InputName(s.Input))
		ranges = append(ranges, t.interval(s))
		wide = max(wide, t.width(names[len(names)-1]), t.width(ranges[len(ranges)-1]))
	}
	measures := t.v.Measures()
	left := room.Min.X + wide + fieldGap
	each := (room.Max.X-left+fieldGap)/float64(len(measures)) - fieldGap
	if each < 2*t.width("-00.00")+leastBars {
		return drawing.Drawing{}
	}
	row := 2*t.pitch() + 1.6
	top := y - 2*t.pitch()
	foot := top - float64(len(names))*row - 1.3*row
	at := func(i int) float64 { // middle of a row's bar
		if i == len(names) {
			return foot + 0.6*row
		}
		return top - (float64(i)+0.5)*row
	}
	for i := range names {
		t.d.Add(t.words(room.Min.X, at(i)+0.35*t.h, names[i], drawing.Left), t.words(room.Min.X, at(i)+0.35*t.h-t.pitch(), ranges[i], drawing.Left))
	}
	t.d.Add(t.words(room.Min.X, at(len(names))-t.h/2, allTogether, drawing.Left))
	for k, m := range measures {
		x := left + float64(k)*(each+fieldGap)
		t.field(geom.Rect{Min: geom.Pt(x, foot), Max: geom.Pt(x+each, top)}, m, at)
	}
	y = foot - tick - 2.2*t.pitch()
	for i, s := range t.sources {
		y = t.para(room, y, fmt.Sprintf("[%d] %s", i+1, s))
	}
	for _, s := range t.v.Inputs {
		for _, why := range sentence.CannotBe(s.Input, t.u, [2]quantity.Value{s.Kind.Of(s.Low), s.Kind.Of(s.High)}, [2]*sentence.Reason{s.AtLow.Why, s.AtHigh.Why}) {
			y = t.para(room, y, why)
		}
	}
	return t.d
}

// allTogether is the name of the last row.
const allTogether = "all, root of squares"

// interval returns over what an input is varied, with the number of its source.
func (t *tornado) interval(s plan.Swing) string {
	source := s.Source.Say(t.u)
	n := slices.Index(t.sources, source)
	if n < 0 {
		n = len(t.sources)
		t.sources = append(t.sources, source)
	}
	figure := func(v float64) string { return t.u.Figure(s.Kind.Of(v)) }
	unit := t.u.Unit(s.Kind)
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Sprintf("%s, %s, %s%s [%d]", figure(s.Low), figure(s.Nominal), figure(s.High), unit, n+1)
}

// para writes a paragraph below a base line and returns its last base line.
func (t *tornado) para(room geom.Rect, y float64, text string) float64 {
	for _, l := range t.wrap(text, room.Width(), 0) {
		y -= t.pitch()
		t.d.Add(t.words(room.Min.X, y, l, drawing.Left))
	}
	return y
}

// legend says what the bars are, from a base line down, and returns its last one.
func (t *tornado) legend(room geom.Rect, y float64) float64 {
	x := room.Min.X
	for _, l := range []struct {
		tone drawing.Tone
		name string
	}{{lowTone, "at the low value"}, {highTone, "at the high value"}} {
		t.d.Box(drawing.Thin, l.tone, geom.Rect{Min: geom.Pt(x, y-0.2), Max: geom.Pt(x+sample, y+t.h)})
		t.d.Add(t.words(x+sample+1.5, y, l.name, drawing.Left))
		x += sample + 1.5 + t.width(l.name) + 5
	}
	t.d.Add(t.words(x, y, "below a name: low, planned, high [source]", drawing.Left))
	return y
}

// Tones of a bar's ends, far apart in grey.
const (
	lowTone  = drawing.Pale
	highTone = drawing.Steel
)

// field draws the bars of one measure; at gives the middle of each row, all inputs
// together behind the last.
func (t *tornado) field(f geom.Rect, m plan.Measure, at func(int) float64) {
	value := func(c plan.Change) float64 { return t.u.Of(m.Kind.Of(m.Of(c))) }
	var bars []bar
	for _, s := range t.v.Inputs {
		bars = append(bars, bar{value(t.v.Changes(s.AtLow)), value(t.v.Changes(s.AtHigh))})
	}
	all := bar{value(t.v.Down), value(t.v.Up)}
	bars = append(bars, all)
	letters := make([][2]string, len(bars)) // left and right of a bar
	one := t.u.Of(m.Kind.Of(1))
	for i, b := range bars {
		letters[i] = b.letters(func(v float64) string { return t.u.Change(m.Kind.Of(v / one)) })
	}
	// need returns what a scale of k mm a unit takes left and right of the planned value.
	need := func(k float64) (l, r float64) {
		for i, b := range bars {
			lo, hi := b.ends()
			l = max(l, -k*lo+t.beside(letters[i][0]))
			r = max(r, k*hi+t.beside(letters[i][1]))
		}
		return l, r
	}
	lo, hi := 0.0, 1.0
	for fits := func(k float64) bool { l, r := need(k); return l+r <= f.Width() }; hi-lo > 1e-9*hi; {
		if hi < 1e9 && fits(hi) {
			lo, hi = hi, 2*hi
		} else if mid := (lo + hi) / 2; fits(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	k := lo
	l, r := need(k)
	zero := f.Min.X + l + (f.Width()-l-r)/2

	t.d.Add(t.bold(f.Min.X, f.Max.Y+0.5*t.pitch(), m.Name+", "+t.u.Unit(m.Kind), drawing.Left))
	t.d.Line(drawing.Thin, f.Min, geom.Pt(f.Max.X, f.Min.Y))
	for i, b := range bars {
		t.bar(b, letters[i], zero, k, at(i), i == len(bars)-1)
	}
	t.d.Line(drawing.Visible, geom.Pt(zero, f.Min.Y), geom.Pt(zero, f.Max.Y))
	if k > 1e8 {
		return // nothing moves it: no axis
	}
	t.axis(f, zero, k)
}

// axis draws the ticks of a field with their figures, k mm a unit from the planned
// value.
func (t *tornado) axis(f geom.Rect, zero, k float64) {
	x := axis{end: f.Width() / k}
	from, to := (f.Min.X-zero)/k, (f.Max.X-zero)/k
	x.divide(f.Width(), 3*t.width("0"))
	wide := func() float64 { return max(t.width(x.figure(from)), t.width(x.figure(to))) + 2 }
	for wide() > x.step*k && x.step < x.end {
		x.divide(f.Width(), wide())
	}
	for v := math.Ceil(from/x.step-1e-9) * x.step; v <= to+1e-9*x.step; v += x.step {
		if math.Abs(v) < 1e-9*x.step {
			v = 0
		}
		px := zero + k*v
		t.d.Line(drawing.Thin, geom.Pt(px, f.Min.Y), geom.Pt(px, f.Min.Y-tick))
		if w := t.width(x.figure(v)) / 2; px-w >= f.Min.X && px+w <= f.Max.X {
			t.d.Add(t.words(px, f.Min.Y-tick-0.5-t.h, x.figure(v), drawing.Middle))
		}
	}
}

// beside returns the room in mm that letters take at a bar's end.
func (t *tornado) beside(letters string) float64 {
	if letters == "" {
		return 0
	}
	return t.width(letters) + barGap + 0.3
}

// bar draws one: of two ends on one side the shorter lies on the longer, narrower.
func (t *tornado) bar(b bar, letters [2]string, zero, k, y float64, all bool) {
	ends := []struct {
		v    float64
		tone drawing.Tone
	}{{b.low, lowTone}, {b.high, highTone}}
	if math.Abs(b.high) > math.Abs(b.low) {
		slices.Reverse(ends)
	}
	high := barHigh / 2
	for i, e := range ends {
		if math.IsNaN(e.v) || math.Abs(k*e.v) < 0.01 {
			continue
		}
		if i > 0 && b.low*b.high > 0 {
			high /= 2
		}
		tone := e.tone
		if all {
			tone = drawing.Paper
		}
		t.d.Box(drawing.Thin, tone, geom.Rect{Min: geom.Pt(zero+k*min(0, e.v), y-high), Max: geom.Pt(zero+k*max(0, e.v), y+high)})
	}
	lo, hi := b.ends()
	t.d.Add(t.words(zero+k*lo-barGap, y-t.h/2, letters[0], drawing.Right), t.words(zero+k*hi+barGap, y-t.h/2, letters[1], drawing.Left))
}

// ends returns how far a bar reaches to both sides of 0.
func (b bar) ends() (lo, hi float64) {
	for _, v := range [2]float64{b.low, b.high} {
		if v < lo {
			lo = v
		}
		if v > hi {
			hi = v
		}
	}
	return lo, hi
}

// letters returns what stands left and right of a bar: the figure of the end there,
// of two on one side both, the low value's first. What moves nothing has one 0.
func (b bar) letters(figure func(float64) string) (sides [2]string) {
	low, high := none, none
	if !math.IsNaN(b.low) {
		low = figure(b.low)
	}
	if !math.IsNaN(b.high) {
		high = figure(b.high)
	}
	// What is shown as nought lies on either side.
	if low == "0" {
		b.low = 0
	}
	if high == "0" {
		b.high = 0
	}
	switch {
	case low == none || high == none:
		sides[1] = "low " + low + ", high " + high
	case b.low == 0 && b.high == 0:
		sides[1] = "0"
	case b.low <= 0 && b.high >= 0:
		sides = [2]string{low, high}
	case b.high <= 0 && b.low >= 0:
		sides = [2]string{high, low}
	case b.low < 0:
		sides[0] = low + ", " + high
	default:
		sides[1] = low + ", " + high
	}
	return sides
}

// none is what stands for no figure.
const none = "none"

package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Lists: rows at least, and the limits of the distance of their base lines, mm.
const (
	leastRows  = 5
	tightPitch = 4.8
	widePitch  = 5.8
)

// listHeight returns how high a field of so many rows must be.
func listHeight(rows int) float64 { return headHeight + float64(rows)*tightPitch + 0.8 }

// rowsIn returns how many rows a list in a field has room for.
func rowsIn(f geom.Rect) int { return int((f.Height() - headHeight - 0.8 + 1e-9) / tightPitch) }

// list is where rows stand: the base line of the first and the step to the next.
type list struct{ first, step float64 }

// rows returns the places of n rows in a field below its heading.
func rows(f geom.Rect, n int) list {
	step := max(tightPitch, min((f.Height()-headHeight-0.8)/float64(n), widePitch))
	return list{f.Max.Y - headHeight - step/2 - small/2 + 0.3, step}
}

// at returns the base line of a row, from 0.
func (l list) at(i int) float64 { return l.first - float64(i)*l.step }

// cuts writes the cut list.
func (s *sheet) cuts(f geom.Rect, n int) {
	x0, right := f.Min.X+pad, f.Max.X-pad
	cut := condensed(s.p.CutList(), rowsIn(f))
	at := rows(f, max(len(cut), 1))
	if len(cut) == 0 {
		s.heading(f, n, "CUT", "")
		s.d.Add(words(x0, at.at(0), "a part can't be made, see STOP", drawing.Left))
		return
	}
	// Columns from the right, each as wide as what stands in it.
	const columns = 3
	table := [][columns]string{{"no.", "plate × size", s.f.massUnit()}}
	for _, c := range cut {
		r := [columns]string{strconv.Itoa(c.Count), s.f.given(c.Plate) + " × " + s.f.overall(c.Width) + " × " + s.f.overall(c.Height), s.f.mass(c.MassKg)}
		if c.Plate == 0 {
			r[1] = s.f.tape(c.Width) + " long"
		}
		table = append(table, r)
	}
	var edge, widest [columns]float64
	gap := (right - x0 - boldWidth("template out")) / columns
	for k := range widest {
		for _, r := range table {
			widest[k] = max(widest[k], width(r[k]))
		}
		gap -= widest[k] / columns
	}
	gap = max(1.5, min(gap, 4.5))
	for k := columns - 1; k >= 0; k-- {
		edge[k] = right
		right -= widest[k] + gap
	}
	// How much kerf the files hold; none is the table's own affair.
	rest := "kerf " + s.f.given(s.p.Job.Cutting.Kerf)
	if x0+ringWidth+boldWidth("CUT")+2+width(rest)+1.5 > edge[0]-widest[0] {
		rest = ""
	}
	s.heading(geom.Rect{Min: f.Min, Max: geom.Pt(edge[0], f.Max.Y)}, n, "CUT", rest)
	for i, r := range table {
		y := headBase(f)
		if i > 0 {
			y = at.at(i - 1)
			name := strings.TrimSuffix(strings.Replace(cut[i-1].What, "template-", "template ", 1), "side")
			s.d.Add(words(x0, y, fit(name, right-x0), drawing.Left))
		}
		for k, v := range r {
			if v == "" {
				continue
			}
			t := words(edge[k], y, v, drawing.Right)
			t.Bold = i > 0 && k == 0
			s.d.Add(t)
		}
	}
}

// condensed returns a cut list of at most most rows: first the templates, then
// the block's outlines share one, with the larger sizes.
func condensed(list []plan.Cut, most int) []plan.Cut {
	for _, name := range [...]string{"template", "block"} {
		if len(list) <= most {
			break
		}
		var out []plan.Cut
		first := -1
		for _, c := range list {
			switch {
			case !strings.HasPrefix(c.What, name):
				out = append(out, c)
			case first < 0:
				first = len(out)
				out = append(out, c)
			default:
				all := &out[first]
				all.What = name + "s"
				all.Count += c.Count
				all.MassKg += c.MassKg
				all.Width, all.Height = max(all.Width, c.Width), max(all.Height, c.Height)
			}
		}
		list = out
	}
	return list[:min(most, len(list))]
}

// checks writes what to measure, what it should be and how far it may be off.
func (s *sheet) checks(f geom.Rect, n int) {
	j, q := s.p.Job, s.p.Press
	x0 := f.Min.X + pad
	limit := f.Max.X - pad
	want := limit - 17
	s.heading(geom.Rect{Min: f.Min, Max: geom.Pt(want-12, f.Max.Y)}, n, "CHECK", "")
	y := headBase(f)
	s.d.Add(words(want, y, "want", drawing.Right), words(limit, y, "limit *", drawing.Right))
	var todo [][3]string
	add := func(what, want, limit string) { todo = append(todo, [3]string{what, want, limit}) }
	leg := min(j.Bend.Legs[0], j.Bend.Legs[1])
	if s.p.Filler != nil {
		if q != nil {
			add("angle, filled", s.f.angle(q.Final.Filled), "")
		}
		add("angle, melted", s.f.drawnAngle(j.Bend.Angle), plusMinus(geom.Angle(profiles.AngularTolerance(leg))))
	} else {
		add("angle", s.f.drawnAngle(j.Bend.Angle), plusMinus(geom.Angle(profiles.AngularTolerance(leg))))
	}
	dev := func(mm float64) string {
		if t := profiles.LinearTolerance(mm); t > 0 {
			return "±" + s.f.given(t)
		}
		return ""
	}
	add("radius, centreline", s.f.given(j.Bend.Radius), dev(j.Bend.Radius))
	// On a chord that is round in the sheet's unit.
	if r := tooling.Rises(j.Bend.Inside(j.Tube.Depth), j.Bend.Angle, s.u == quantity.Inches); len(r) > 0 {
		last := r[len(r)-1]
		what := "rise on " + s.f.given(last.Chord)
		if long := what + " inside"; width(long)+boldWidth(s.f.given(last.Rise))+2 <= want-x0 {
			what = long
		}
		add(what, s.f.given(last.Rise), "")
	}
	add("wrinkles, cracks", "none", "")
	for i, l := range j.Bend.Legs {
		if l > geom.Coincident && (i == 0 || l != j.Bend.Legs[0]) {
			add("leg", s.f.given(l), dev(l))
		}
	}
	// Without room the legs make way, then the filled angle, which stands at the
	// last stop too.
	note := rowsIn(f) - 1
	for len(todo) > note && todo[len(todo)-1][0] == "leg" {
		todo = todo[:len(todo)-1]
	}
	if len(todo) > note && s.p.Filler != nil && q != nil {
		todo = todo[1:]
	}
	note = min(note, len(todo))
	at := rows(f, note+1)
	s.d.Add(words(x0, at.at(note), fit("* unless the drawing differs", limit-x0), drawing.Left))
	for i, r := range todo[:note] {
		y := at.at(i)
		s.d.Add(bold(want, y, r[1], drawing.Right))
		s.d.Add(words(x0, y, fit(r[0], want-boldWidth(r[1])-2-x0), drawing.Left))
		if r[2] != "" {
			s.d.Add(words(limit, y, r[2], drawing.Right))
		}
	}
}

// plusMinus writes a deviation in degrees and minutes.
func plusMinus(a geom.Angle) string {
	m := int(math.Round(a.Degrees() * 60))
	if m%60 == 0 {
		return fmt.Sprintf("±%d°", m/60)
	}
	return fmt.Sprintf("±0°%d'", m)
}

// after writes the steps that follow the press.
func (s *sheet) after(f geom.Rect, step func() int) {
	j := s.p.Job
	most := f.Width() - 2*pad
	type para struct {
		name        string
		long, short string
	}
	cuts := s.f.drawnAngle(j.Ends.Cut[0]) + " and " + s.f.drawnAngle(j.Ends.Cut[1])
	paras := []para{{"TRIM", "at the trim marks, " + cuts + " from square", "at " + cuts}}
	if j.Ends.Cut == [2]geom.Angle{} {
		paras[0].long, paras[0].short = "square, at the trim marks", "square"
	}
	if s.p.Filler != nil {
		a := j.Filler.Alloy
		bath, _, _ := strings.Cut(a.MeltOutIn, ",")
		bath += ", " + s.f.temperature(a.MeltOut)
		back := s.f.massWithUnit(s.p.Filler.Mass) + " back"
		paras = append([]para{{"MELT OUT", "both ends open, " + bath + "; pull a wad through; " + back, bath + ", " + back}}, paras...)
	}
	// As much of the longer wording as there is room for. What even then does
	// not fit ends in an ellipsis.
	room := int((f.Height() - 0.5 - float64(len(paras))*(headHeight+0.25)) / tightPitch)
	for _, p := range paras {
		room -= len(wrap(p.short, most, 0))
	}
	y := f.Max.Y
	for _, p := range paras {
		text := p.short
		if more := len(wrap(p.long, most, 0)) - len(wrap(p.short, most, 0)); more <= room {
			text, room = p.long, room-more
		}
		s.heading(geom.Rect{Min: geom.Pt(f.Min.X, y-headHeight), Max: geom.Pt(f.Max.X, y)}, step(), p.name, "")
		y -= headHeight + 0.25
		lines := wrap(text, most, 0)
		if n := len(lines) + min(room, 0); n > 0 && n < len(lines) {
			room += len(lines) - n
			lines = append(lines[:n-1], fit(strings.Join(lines[n-1:], " "), most))
		}
		for _, l := range lines {
			y -= tightPitch
			s.d.Add(words(f.Min.X+pad, y+1.2, l, drawing.Left))
		}
	}
}

// stopsHeight is that of the table of stops: four rows.
const stopsHeight = 4*pitch + 1

// mostStops is how many of the last stops the table has: earlier ones leave
// nothing worth measuring.
const mostStops = 10

// stops writes the table of stops, a column each.
func (s *sheet) stops(f geom.Rect) {
	all := s.p.Press.Schedule
	first := max(1, len(all)-mostStops)
	released := "released"
	if s.p.Filler != nil {
		released = "filled"
	}
	names := [...]string{"stop", "travel", "loaded °", released + " °"}
	x0 := f.Min.X + pad
	left := x0 + 22
	column := (f.Max.X - pad - left) / float64(len(all)-first)
	base := func(i int) float64 { return f.Max.Y - 0.5 - float64(i+1)*pitch + (pitch-small)/2 + 0.25 }
	s.shade(geom.Rect{Min: geom.Pt(f.Max.X-pad-column+1, f.Min.Y), Max: f.Max})
	for i, n := range names {
		s.d.Add(bold(x0, base(i), n, drawing.Left))
	}
	for i := first; i < len(all); i++ {
		st := all[i]
		right := left + float64(i-first+1)*column
		for k, v := range [...]string{strconv.Itoa(i + 1), s.f.travel(st.Travel), s.f.tenth(st.Loaded), s.f.tenth(st.Filled)} {
			t := words(right, base(k), v, drawing.Right)
			t.Bold = i == len(all)-1
			s.d.Add(t)
		}
	}
}

// Rows for trials: at least, at most, and the height of one in mm to write in.
const (
	leastTrials = 2
	mostTrials  = 8
	trialRow    = 6.3
)

// trialsHeight is that of the table for so many trials.
func trialsHeight(rows int) float64 { return pitch + 1 + float64(rows)*trialRow }

// trials draws the empty table for trial bends, headed by the job file's keys.
func (s *sheet) trials(f geom.Rect, rows int) {
	names := [...]string{"trial", "block", "travel", "loaded", "filled", "melted", "chord", "rise"}
	w := f.Width() / float64(len(names))
	head := f.Max.Y - pitch - 1
	s.shade(geom.Rect{Min: geom.Pt(f.Min.X, head), Max: f.Max})
	for i, n := range names {
		x := f.Min.X + float64(i)*w
		s.d.Add(bold(x+w/2, head+1.6, n, drawing.Middle))
		if i > 0 {
			s.d.Line(drawing.Thin, geom.Pt(x, f.Min.Y), geom.Pt(x, f.Max.Y))
		}
	}
	for i := range rows {
		y := head - float64(i)*trialRow
		s.d.Line(drawing.Thin, geom.Pt(f.Min.X, y), geom.Pt(f.Max.X, y))
		s.d.Add(words(f.Min.X+w/2, y-trialRow+1.7, strconv.Itoa(len(s.p.Job.Trials)+i+1), drawing.Middle))
	}
}

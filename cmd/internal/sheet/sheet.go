// Package sheet draws the job sheet: one page to pin up beside the press, that
// shows the part, the blank, the set-up in its first and last position and the
// numbers in the order of the work, lettered to be read at arm's length.
//
// It computes no shop number: every figure is the plan's, and only places on
// the paper are worked out here. It writes no file.
package sheet

import (
	"fmt"
	"strconv"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/paper"
	"overbend/geom"
)

// The least area in mm between the margins, upright, on which everything fits
// in lettering of 3.5 mm: letter with margins of 15 mm, A4 with 17.
const (
	leastWidth  = 176.0
	leastHeight = 248.0
)

// mostHeight is where more height in mm only makes empty fields.
const mostHeight = 300.0

// defaultMargin is the least edge in mm round the frame.
const defaultMargin = 10.0

// Draw returns the job sheet of a plan on one upright page of the paper's size,
// all numbers in the units u. Margin is the edge in mm that the printer leaves
// white; the frame keeps 10 mm at least.
//
// On paper larger than letter everything but the pens grows with it: an A3
// sheet has lettering of 5 mm. An error says that the paper between its margins
// is too small for lettering of 3.5 mm.
func Draw(p *plan.Plan, u quantity.Units, size paper.Size, margin float64) (drawing.Drawing, error) {
	m := max(margin, defaultMargin)
	w, h := min(size.Width, size.Height), max(size.Width, size.Height)
	useW, useH := w-2*m, h-2*m
	if !(useW >= leastWidth && useH >= leastHeight) {
		return drawing.Drawing{}, fmt.Errorf("paper %s with margins of %g mm is too small for the job sheet: it leaves %.0f x %.0f mm, and at least %.0f x %.0f mm are needed",
			size.Name, m, max(0, useW), max(0, useH), leastWidth, leastHeight)
	}
	grow := max(1, min(useW/190, useH/(279.4-2*defaultMargin)))
	s := &sheet{p: p, u: u, f: figures{u: u}}
	if p.Press != nil {
		s.f.finest = p.Press.Final.Travel
	}
	high := min(useH/grow, mostHeight)
	s.page(useW/grow, high)
	low := m + (useH-grow*high)/2
	s.d.Shapes = append(s.ground, s.d.Shapes...)
	out := s.d.Apply(geom.Scale(grow).Then(geom.Translate(geom.Pt(m, low))))
	out.Title = p.Job.Name + " job sheet"
	if p.Job.Name == "" {
		out.Title = "job sheet"
	}
	out.Page = geom.Rect{Max: geom.Pt(w, h)}
	return out, nil
}

// sheet is a job sheet being drawn.
type sheet struct {
	p *plan.Plan
	u quantity.Units
	f figures
	d drawing.Drawing
	// ground is what lies below all lines: the tone of heads and of what
	// matters most.
	ground []drawing.Shape
}

// shade lays a pale ground under a field.
func (s *sheet) shade(b geom.Rect) {
	s.ground = append(s.ground, drawing.Stroke{Path: b.Path(), Role: drawing.Fill, Tone: drawing.Pale})
}

// Sizes in mm.
const (
	headHeight = 7.0  // of a field's heading
	inset      = 0.36 // half the frame's line, so that all of it is within the margin
	ring       = 3.2  // round a step's number
	ringWidth  = 2*ring + 1.5
	pad        = 1.8 // from a field's edge to what is in it
)

// How the fields of a band share the width.
const (
	partShare    = 0.5
	setUpShare   = 0.525
	sectionShare = 0.295
	checksShare  = 0.405
)

// bands are the heights in mm of the fields from the top down, 0 for what the
// plan does not hold, and the empty rows for trials.
type bands struct {
	top, blank, setUp, stops, check float64
	said                            saying
	trials                          int
}

// divide shares out a height in mm: first to what must be said, then to the
// pictures and lists that gain most by it. Lines of words are most mm wide.
func (s *sheet) divide(height, most float64) bands {
	b := bands{top: listHeight(leastRows), check: listHeight(leastRows), trials: leastTrials}
	comfort := 3 * (listHeight(leastRows+1) - listHeight(leastRows))
	if s.p.Tools.Blank.Length > 0 {
		b.blank = blankHeight
	}
	if s.p.Press != nil {
		b.setUp, b.stops = leastSetUp, stopsHeight
		comfort += goodSetUp - leastSetUp
	}
	spare := height - (b.top + b.blank + b.setUp + b.stops + b.check + trialsHeight(b.trials))
	b.said = s.cautions(most, spare, comfort)
	spare -= b.said.height
	for ; spare < 0 && b.trials > 0; spare += trialRow {
		b.trials--
	}
	// grow makes a field higher, up to a height.
	grow := func(h *float64, to float64) {
		if *h > 0 && spare > 0 {
			g := max(0, min(spare, to-*h))
			*h += g
			spare -= g
		}
	}
	grow(&b.setUp, goodSetUp)
	grow(&b.top, listHeight(leastRows+1))
	grow(&b.check, listHeight(leastRows+2))
	if spare >= trialRow && b.trials == leastTrials {
		b.trials++
		spare -= trialRow
	}
	grow(&b.top, 40)
	grow(&b.setUp, 60)
	grow(&b.top, 46)
	grow(&b.check, 46)
	grow(&b.setUp, mostSetUp)
	for ; spare >= trialRow && b.trials < mostTrials; spare -= trialRow {
		b.trials++
	}
	grow(&b.top, b.top+spare)
	return b
}

// page lays the fields out, from the top in the order of the work, on a sheet
// of w by h mm.
func (s *sheet) page(w, h float64) {
	frame := geom.Rect{Min: geom.Pt(inset, inset), Max: geom.Pt(w-inset, h-inset)}
	s.d.Box(drawing.Frame, drawing.NoTone, frame)
	s.title(geom.Pt(frame.Max.X, frame.Min.Y))
	b := s.divide(frame.Height()-titleHeight, frame.Width()-2*pad)

	y := frame.Max.Y
	// band takes the next height mm of the page and splits them at shares of
	// the width. A line ends it but for the lowest, which the title block ends.
	band := func(height float64, at ...float64) []geom.Rect {
		var out []geom.Rect
		left := frame.Min.X
		for i, share := range append(at, 1) {
			right := frame.Min.X + share*frame.Width()
			out = append(out, geom.Rect{Min: geom.Pt(left, y-height), Max: geom.Pt(right, y)})
			if i < len(at) {
				s.d.Line(drawing.Thin, geom.Pt(right, y-height), geom.Pt(right, y))
			}
			left = right
		}
		if y -= height; y > frame.Min.Y+titleHeight+0.1 {
			s.d.Line(drawing.Thin, geom.Pt(frame.Min.X, y), geom.Pt(frame.Max.X, y))
		}
		return out
	}
	n := 0
	step := func() int { n++; return n }

	f := band(b.top, partShare)
	s.part(f[0])
	s.cuts(f[1], step())
	if b.blank > 0 {
		s.blank(band(b.blank)[0], step)
	}
	if b.setUp > 0 {
		f = band(b.setUp, setUpShare)
		s.setUp(f[0], step())
		s.plot(f[1], step())
		s.stops(band(b.stops)[0])
	}
	f = band(b.check, sectionShare, sectionShare+checksShare)
	s.section(f[0])
	s.checks(f[1], step())
	s.after(f[2], step)
	s.say(band(b.said.height)[0], b.said)
	s.trials(band(trialsHeight(b.trials))[0], b.trials)
}

// heading writes a step's number in a ring and its name, and behind it what
// belongs to it. Number 0 is no step.
func (s *sheet) heading(f geom.Rect, n int, name, rest string) {
	x, base := f.Min.X+pad, headBase(f)
	if n > 0 {
		s.d.Add(drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(x+ring, base+small/2), Radius: ring}, Role: drawing.Visible, Tone: drawing.Pale})
		// A little high, for the box of the figure has room for a descender.
		s.d.Add(bold(x+ring, base+0.4, strconv.Itoa(n), drawing.Middle))
		x += ringWidth
	}
	s.d.Add(bold(x, base, name, drawing.Left))
	x += boldWidth(name) + 2
	if rest = fit(rest, f.Max.X-pad-x); rest != "" {
		s.d.Add(words(x, base, rest, drawing.Left))
	}
}

// headBase returns the base line of what stands in a field's heading.
func headBase(f geom.Rect) float64 { return f.Max.Y - headHeight/2 - 0.1 - small/2 }

// place puts a picture with its middle at the origin into a field, in the
// middle of the room below its heading.
func (s *sheet) place(d drawing.Drawing, room geom.Rect) {
	s.d.Add(d.Apply(geom.Translate(room.Centre())).Shapes...)
}

// under returns the room below a field's heading.
func under(f geom.Rect) geom.Rect {
	return geom.Rect{Min: f.Min.Add(geom.Pt(pad, 1)), Max: f.Max.Sub(geom.Pt(pad, headHeight))}
}

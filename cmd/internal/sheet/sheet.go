// Package sheet draws the job sheet: two sides of one sheet that take a stranger
// through the work. The front is for the bench (part, cuts, stack, marks, fill),
// the back for the press (set-up, stops, what follows, rows for trials).
//
// It computes no shop number and has no sentence of its own: figures are the
// plan's, sentences those of package words, and only places on the paper are
// worked out here. It writes no file.
package sheet

import (
	"fmt"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	sentence "overbend/cmd/internal/words"
	"overbend/export/drawing"
	"overbend/export/paper"
	"overbend/geom"
)

// The least area in mm between the margins, upright: letter with margins of
// 15 mm, A4 with 17.
const (
	leastWidth  = 176.0
	leastHeight = 248.0
)

// mostHeight is where more height in mm only makes empty fields.
const mostHeight = 300.0

// defaultMargin is the least edge in mm round the frame.
const defaultMargin = 10.0

// Draw returns the job sheet of a plan: its front, its back, a side for a block at
// hand that does, and another page only where they do not hold the job. All numbers
// are in the units u; files are the units of the cut files, which it names. Margin
// is the edge in mm that the printer leaves white; the frame keeps 10 mm at least.
//
// On paper larger than letter lettering and fields grow with it, and the pictures
// take the scale that fills them. An error says that the paper between its margins
// is too small.
func Draw(p *plan.Plan, u, files quantity.Units, size paper.Size, margin float64) ([]drawing.Drawing, error) {
	m := max(margin, defaultMargin)
	w, h := min(size.Width, size.Height), max(size.Width, size.Height)
	useW, useH := w-2*m, h-2*m
	if !(useW >= leastWidth && useH >= leastHeight) {
		return nil, fmt.Errorf("paper %s with margins of %g mm is too small for the job sheet: it leaves %.0f x %.0f mm, and at least %.0f x %.0f mm are needed",
			size.Name, m, max(0, useW), max(0, useH), leastWidth, leastHeight)
	}
	grow := max(1, min(useW/190, useH/(279.4-2*defaultMargin)))
	s := &sheet{p: p, u: u, files: files, f: figures{u}, grow: grow, width_: useW / grow, height: min(useH/grow, mostHeight)}
	s.side("front, at the bench", (*sheet).front)
	before := s.steps
	s.side("back, at the press", (*sheet).back)
	if s.hasAtHand() {
		// Its steps take the place of the back's.
		s.steps = before
		s.side("the block at hand, at the press", (*sheet).atHand)
	}
	out := make([]drawing.Drawing, len(s.pages))
	low := m + (useH-grow*s.height)/2
	for i, pg := range s.pages {
		s.d = drawing.Drawing{Shapes: append(pg.ground, pg.d.Shapes...)}
		s.pen = pen{sizes[0]}
		s.title(fmt.Sprintf("%d/%d", i+1, len(s.pages)), pg.name)
		d := s.d.Apply(geom.Scale(grow).Then(geom.Translate(geom.Pt(m, low))))
		d.Title = p.Job.Name + " job sheet, " + pg.name
		if p.Job.Name == "" {
			d.Title = "job sheet, " + pg.name
		}
		d.Page = geom.Rect{Max: geom.Pt(w, h)}
		out[i] = d
	}
	return out, nil
}

// sheet is a job sheet being drawn. All places are in mm of paper before it grows
// with the paper.
type sheet struct {
	pen
	p              *plan.Plan
	u              quantity.Units
	files          quantity.Units // of the cut files
	f              figures
	grow           float64 // by which everything drawn is enlarged at last
	width_, height float64 // of a page
	steps          int     // that have their number
	small          bool    // pictures take less room than they would like
	about          string  // the key that a side's advice is about; empty: the whole job
	pages          []page
	d              drawing.Drawing // the page being drawn
	// ground is what lies below all lines: the tone of heads and of what
	// matters most.
	ground []drawing.Shape
}

// page is a page that is done.
type page struct {
	name   string
	d      drawing.Drawing
	ground []drawing.Shape
}

// Sizes in mm.
const (
	inset = 0.36 // half the frame's line, so that all of it is within the margin
	pad   = 1.8  // from a field's edge to what is in it
)

// band is a strip of fields across the page.
type band struct {
	cells []cell
	// grow is its share of the height that nothing needs; most the height in mm
	// past which it takes none.
	grow, most float64
	open       bool // without a line below it
}

// cell is a field of a band.
type cell struct {
	share float64                 // of the band's width
	need  func(w float64) float64 // height in mm that it takes, w mm wide
	draw  func(f geom.Rect)       // draws it
}

func (b band) need(w float64) float64 {
	h := 0.0
	for _, c := range b.cells {
		h = max(h, c.need(c.share*w))
	}
	return h
}

// side draws one side of the sheet in the largest lettering in which it has room,
// then with small pictures, or where that does not do on as many pages as it takes.
func (s *sheet) side(name string, build func(*sheet) []band) {
	frame := s.frame()
	first := s.steps
	// fit builds the side in lettering of a height, and reports whether it has room.
	fit := func(h float64, small bool) ([]band, bool) {
		s.pen, s.steps, s.small = pen{h}, first, small
		bands := build(s)
		total := 0.0
		for _, b := range bands {
			total += b.need(frame.Width())
		}
		return bands, total <= frame.Height()
	}
	var bands []band
	ok := false
	for i := 0; i < len(sizes) && !ok; i++ {
		bands, ok = fit(sizes[i], false)
	}
	if !ok {
		bands, ok = fit(smallest, true)
	}
	if !ok {
		bands, _ = fit(smallest, false) // where there must be more pages, pictures have their room
	}
	for len(bands) > 0 {
		n, total := 0, 0.0
		for n < len(bands) {
			need := bands[n].need(frame.Width())
			if n > 0 && total+need > frame.Height() {
				break
			}
			total += need
			n++
		}
		s.lay(name, frame, bands[:n], frame.Height()-total)
		bands = bands[n:]
		name += ", continued"
	}
}

// frame returns what is within a page's frame above its title block.
func (s *sheet) frame() geom.Rect {
	return geom.Rect{Min: geom.Pt(inset, inset+s.titleHeight()), Max: geom.Pt(s.width_-inset, s.height-inset)}
}

// lay draws bands from the top down and shares out what height is to spare.
func (s *sheet) lay(name string, frame geom.Rect, bands []band, spare float64) {
	s.d, s.ground = drawing.Drawing{}, nil
	heights := make([]float64, len(bands))
	for i, b := range bands {
		heights[i] = b.need(frame.Width())
	}
	for range 6 {
		sum := 0.0
		for i, b := range bands {
			if b.most == 0 || heights[i] < b.most {
				sum += b.grow
			}
		}
		if sum == 0 || spare < 0.01 {
			break
		}
		left := spare
		for i, b := range bands {
			if b.most == 0 || heights[i] < b.most {
				more := spare * b.grow / sum
				if b.most > 0 {
					more = min(more, b.most-heights[i])
				}
				heights[i] += more
				left -= more
			}
		}
		spare = left
	}
	y := frame.Max.Y
	for i, b := range bands {
		x := frame.Min.X
		low := y - heights[i]
		for k, c := range b.cells {
			w := c.share * frame.Width()
			c.draw(geom.Rect{Min: geom.Pt(x, low), Max: geom.Pt(x+w, y)})
			if x += w; k < len(b.cells)-1 {
				s.d.Line(drawing.Thin, geom.Pt(x, low), geom.Pt(x, y))
			}
		}
		if y = low; !b.open && (i < len(bands)-1 || y > frame.Min.Y+0.5) {
			s.d.Line(drawing.Thin, geom.Pt(frame.Min.X, y), geom.Pt(frame.Max.X, y))
		}
	}
	s.pages = append(s.pages, page{name, s.d, s.ground})
}

// least returns the least height of a picture in mm: what it would like or, on a side
// with little room, three quarters of that.
func (s *sheet) least(mm float64) float64 {
	if s.small {
		return 0.75 * mm
	}
	return mm
}

// shade lays a pale ground under a field.
func (s *sheet) shade(b geom.Rect) {
	s.ground = append(s.ground, drawing.Stroke{Path: b.Path(), Role: drawing.Fill, Tone: drawing.Pale})
}

// place puts a picture with its middle at the origin into the middle of a room.
func (s *sheet) place(d drawing.Drawing, room geom.Rect) {
	s.d.Add(d.Apply(geom.Translate(room.Centre())).Shapes...)
}

// say returns a sentence of the paper, with a capital.
func (s *sheet) say(c sentence.Code, f sentence.Figures) string {
	return capital(sentence.Reason{Code: c, Figures: f}.Say(s.u))
}

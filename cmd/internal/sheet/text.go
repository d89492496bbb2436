package sheet

import (
	"strconv"
	"unicode"
	"unicode/utf8"

	"overbend/export/drawing"
	"overbend/geom"
)

// heading is what stands over a field: a step's number in a ring, its name, and
// behind it in ordinary lettering what belongs to it. Number 0 is no step.
type heading struct {
	n          int
	name, rest string
}

func (s *sheet) ring() float64 { return 0.98 * s.h }

// behind returns what a heading's ring takes, mm, and the lines of what stands
// behind its name in a field w mm wide; the lines begin right of the ring.
func (s *sheet) behind(hd heading, w float64) (float64, []string) {
	x := 0.0
	if hd.n > 0 {
		x = 2*s.ring() + 1.5
	}
	return x, s.wrap(hd.rest, w-2*pad-x, s.boldWidth(hd.name)+2)
}

// headHeight returns a heading's height in a field w mm wide, mm.
func (s *sheet) headHeight(hd heading, w float64) float64 {
	if hd.name == "" {
		return 1
	}
	_, lines := s.behind(hd, w)
	return 2.1*s.h + float64(len(lines)-1)*s.pitch()
}

// head writes a heading and returns the room below it.
func (s *sheet) head(f geom.Rect, hd heading) geom.Rect {
	high := s.headHeight(hd, f.Width())
	room := geom.Rect{Min: f.Min.Add(geom.Pt(pad, 1)), Max: f.Max.Sub(geom.Pt(pad, high))}
	if hd.name == "" {
		return room
	}
	x, base := f.Min.X+pad, f.Max.Y-1.05*s.h-0.1-s.h/2
	if hd.n > 0 {
		s.d.Add(drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(x+s.ring(), base+s.h/2), Radius: s.ring()}, Role: drawing.Visible, Tone: drawing.Pale})
		s.d.Add(s.bold(x+s.ring(), base+0.15*s.h, strconv.Itoa(hd.n), drawing.Middle))
	}
	ring, lines := s.behind(hd, f.Width())
	x += ring
	s.d.Add(s.bold(x, base, hd.name, drawing.Left))
	for i, l := range lines {
		at := x
		if i == 0 {
			at += s.boldWidth(hd.name) + 2
		}
		if l != "" {
			s.d.Add(s.words(at, base, l, drawing.Left))
		}
		base -= s.pitch()
	}
	return room
}

// step returns the heading of the next step of the work.
func (s *sheet) step(name, rest string) heading {
	s.steps++
	return heading{s.steps, name, rest}
}

// para is a paragraph. A lead is bold and begins it, a sign stands before it.
type para struct {
	lead, text string
	sign       bool
}

// line is one line of it.
type line struct {
	para
	indent float64
}

// Widths of the warning sign in mm for lettering of 1 mm, its place included.
const (
	signWidth = 1.15
	signPlace = 1.55
)

// paragraphs breaks paragraphs into lines of most mm.
func (s *sheet) paragraphs(all []para, most float64) []line {
	var out []line
	for _, p := range all {
		indent := 0.0
		if p.lead != "" {
			indent = s.boldWidth(p.lead) + 0.4*s.h
		}
		if p.sign {
			indent += signPlace * s.h
		}
		for i, l := range s.wrap(p.text, most, indent) {
			if i == 0 {
				out = append(out, line{para{p.lead, l, p.sign}, indent})
			} else {
				out = append(out, line{para: para{text: l}})
			}
		}
	}
	return out
}

// parasHeight returns how high paragraphs stand, most mm wide, a third of a line
// between them.
func (s *sheet) parasHeight(all []para, most float64) float64 {
	if len(all) == 0 {
		return 0
	}
	return float64(len(s.paragraphs(all, most)))*s.pitch() + float64(len(all)-1)*s.pitch()/4 + 0.3*s.h
}

// write writes paragraphs from the top of a room and returns what is left of it.
func (s *sheet) write(room geom.Rect, all []para) geom.Rect {
	y := room.Max.Y
	for i, p := range all {
		if i > 0 {
			y -= s.pitch() / 4
		}
		for _, l := range s.paragraphs([]para{p}, room.Width()) {
			y -= s.pitch()
			x, base := room.Min.X, y+0.32*s.h
			if l.sign {
				s.sign(geom.Pt(x+signWidth*s.h/2, base))
				x += signPlace * s.h
			}
			if l.lead != "" {
				s.d.Add(s.bold(x, base, l.lead, drawing.Left))
				x += s.boldWidth(l.lead) + 0.4*s.h
			}
			if l.text != "" {
				s.d.Add(s.words(x, base, l.text, drawing.Left))
			}
		}
	}
	if len(all) > 0 {
		y -= 0.3 * s.h
	}
	room.Max.Y = y
	return room
}

// sign draws a warning triangle as high as capitals, the middle of its foot at
// foot.
func (s *sheet) sign(foot geom.Point) {
	at := func(x, y float64) geom.Point { return foot.Add(geom.Pt(x, y).Mul(s.h)) }
	s.d.Add(drawing.Stroke{
		Path: geom.Start(at(-signWidth/2, 0)).LineTo(at(signWidth/2, 0)).LineTo(at(0, 0.97)).Close(),
		Role: drawing.Visible, Tone: drawing.Pale,
	})
	s.d.Line(drawing.Visible, at(0, 0.61), at(0, 0.34))
	s.d.Add(drawing.Ring{Circle: geom.Circle{Centre: at(0, 0.17), Radius: 0.077 * s.h}, Role: drawing.Fill, Tone: drawing.Dark})
}

// prose is a field of paragraphs under a heading.
func (s *sheet) prose(share float64, hd heading, all []para) cell {
	return cell{share,
		func(w float64) float64 { return s.headHeight(hd, w) + s.parasHeight(all, w-2*pad) + 1 },
		func(f geom.Rect) { s.write(s.head(f, hd), all) },
	}
}

// capital returns a sentence with a capital.
func capital(t string) string {
	r, n := utf8.DecodeRuneInString(t)
	if n == 0 {
		return t
	}
	return string(unicode.ToUpper(r)) + t[n:]
}

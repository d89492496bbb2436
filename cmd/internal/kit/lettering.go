package kit

import (
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

const (
	small     = lettering.Ordinary
	lineStep  = 1.5 * small // from base line to base line
	space     = 6.0         // between a picture and lettering below it, mm
	apart     = lettering.Apart
	offMiddle = 6.0 // from the middle, where pages are often cut, mm
)

// lineLengths are what lines of lettering are broken to, mm, the first one if
// possible: less than the smallest page has room for, and than the space from
// one cut between pages to the next.
var lineLengths = [...]float64{110, 75}

// labelLengths are the same for the few words that a part bears when its
// lettering stands beside it.
var labelLengths = [...]float64{75, 40}

// width returns the width of ordinary lettering in mm.
func width(words string) float64 { return lettering.Face{Height: small}.Width(words) }

// obstaclesOf returns what of shapes lettering must keep clear of.
func obstaclesOf(shapes []drawing.Shape) lettering.Obstacles {
	var o lettering.Obstacles
	for _, s := range shapes {
		switch s := s.(type) {
		case drawing.Text:
			o.Box(s.Bounds())
		case drawing.Ring:
			// Nothing is written into a hole either.
			o.Box(s.Circle.Bounds())
		case drawing.Stroke:
			o.Line(s.Path, drawing.PenOf(s.Role).Width)
		}
	}
	return o
}

// paragraph is some lines of lettering below each other, the first one bold.
type paragraph struct {
	lines []drawing.Text // in place below and right of the origin
	size  geom.Point
}

// paragraphOf breaks lines where they are wider than most mm.
func paragraphOf(lines []string, most float64, heading bool) paragraph {
	var p paragraph
	for i, l := range lines {
		face := lettering.Face{Height: small, Bold: i == 0 && heading}
		for _, words := range face.Wrap(l, most, 0) {
			t := drawing.Text{At: geom.Pt(0, -small-lineStep*float64(len(p.lines))), Words: words, Height: small, Bold: face.Bold, Role: drawing.Note}
			p.lines = append(p.lines, t)
			box := t.Bounds()
			p.size = geom.Pt(max(p.size.X, box.Max.X), -box.Min.Y)
		}
	}
	return p
}

// at adds the paragraph with its upper left corner at a place.
func (p paragraph) at(d *drawing.Drawing, at geom.Point) {
	for _, t := range p.lines {
		t.At = t.At.Add(at)
		d.Add(t)
	}
}

// room looks for a place for the upper left corner of a paragraph: beside the
// middle of a box or at its sides, from the top down as far as its bottom, clear
// of all obstacles and with its own middle where ok allows. Among those it is
// the first that stays above floor, else the one that reaches least below.
func (p paragraph) room(o lettering.Obstacles, box geom.Rect, floor float64, ok func(geom.Point) bool) (best geom.Point, found bool) {
	const step = 2.5 // mm
	for _, x := range [...]float64{offMiddle, -offMiddle - p.size.X, box.Min.X + apart, box.Max.X - apart - p.size.X} {
		if x < box.Min.X || x+p.size.X > box.Max.X {
			continue
		}
		for y := box.Max.Y; y-p.size.Y >= box.Min.Y; y -= step {
			here := geom.Rect{Min: geom.Pt(x, y-p.size.Y), Max: geom.Pt(x+p.size.X, y)}
			if !ok(here.Centre()) || !o.Clear(here, apart) {
				continue
			}
			if !found || y > best.Y {
				best, found = geom.Pt(x, y), true
			}
			break
		}
		if found && best.Y-p.size.Y >= floor {
			break
		}
	}
	return best, found
}

// letter writes about a part onto its print, where that makes the print no
// larger if possible, for more pages are more to join: on the part, where the
// lettering stays with what is cut out, else beside it, else below. What does
// not fit on the part leaves room there for its label.
func letter(d *drawing.Drawing, outline geom.Path, lines, label []string) {
	o, box := obstaclesOf(d.Shapes), d.Bounds()
	own := outline.Bounds()
	onPart := func(lines []string, heading bool, lengths ...float64) bool {
		for _, most := range lengths {
			p := paragraphOf(lines, most, heading)
			if at, ok := p.room(o, own, own.Min.Y, outline.Contains); ok {
				p.at(d, at)
				o.Box(geom.Rect{Min: at.Sub(geom.Pt(0, p.size.Y)), Max: at.Add(geom.Pt(p.size.X, 0))})
				return true
			}
		}
		return false
	}
	if onPart(lines, true, lineLengths[:]...) {
		return
	}
	onPart(label, false, labelLengths[:]...)
	p := paragraphOf(lines, lineLengths[0], true)
	free := box
	free.Min.Y -= space + p.size.Y
	at, ok := p.room(o, free, box.Min.Y, func(q geom.Point) bool { return !outline.Contains(q) })
	if !ok { // wider than the part
		at = geom.Pt(box.Min.X, box.Min.Y-space)
	}
	p.at(d, at)
}

// below adds lines of lettering under all that is drawn.
func below(d *drawing.Drawing, lines []string) {
	box := d.Bounds()
	paragraphOf(lines, lineLengths[0], true).at(d, geom.Pt(box.Min.X, box.Min.Y-space))
}

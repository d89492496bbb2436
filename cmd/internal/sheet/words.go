package sheet

import (
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// The heights of lettering in mm that a side is tried in: what is read at arm's
// length first, down to the ISO 3098 step (from memory) below it. Nothing is
// smaller than the last.
var sizes = [...]float64{lettering.Ordinary, 3.25, 3, 2.75, smallest}

const smallest = 2.5

// below is what part of its height a letter's box reaches below its base line.
const below = 0.3

// pen writes in one height, mm.
type pen struct{ h float64 }

// pitch is from base line to base line, mm: what lies between keeps [spaceAround] on
// both sides.
func (p pen) pitch() float64 { return (1+below)*p.h + 2*spaceAround + 0.02 }

// words returns a line of ordinary lettering.
func (p pen) words(x, y float64, s string, a drawing.Anchor) drawing.Text {
	return drawing.Text{At: geom.Pt(x, y), Words: s, Height: p.h, Anchor: a, Role: drawing.Note}
}

// bold returns a line of bold lettering.
func (p pen) bold(x, y float64, s string, a drawing.Anchor) drawing.Text {
	t := p.words(x, y, s, a)
	t.Bold = true
	return t
}

func (p pen) face(bold bool) lettering.Face { return lettering.Face{Height: p.h, Bold: bold} }
func (p pen) width(s string) float64        { return p.face(false).Width(s) }
func (p pen) boldWidth(s string) float64    { return p.face(true).Width(s) }

// wrap breaks ordinary lettering into lines of at most most mm, the first shorter
// by indent.
func (p pen) wrap(s string, most, indent float64) []string {
	return p.face(false).Wrap(s, most, indent)
}

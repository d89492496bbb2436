package kit

import (
	"math"
	"slices"
	"strings"

	"overbend/export/drawing"
	"overbend/geom"
)

const (
	lettering = drawing.Lettering
	lineStep  = 1.5 * lettering // from base line to base line
	space     = 6.0             // between a picture and lettering below it, mm
	apart     = 2.0             // between lettering and lines, mm
	offMiddle = 6.0             // from the middle, where pages are often cut, mm
)

// lineLengths are what lines of lettering are broken to, mm, the first one if
// possible: less than the smallest page has room for, and than the space from
// one cut between pages to the next.
var lineLengths = [...]float64{110, 75}

// obstacles are boxes that together hold lines and lettering.
type obstacles []geom.Rect

// obstaclesOf returns boxes round all lines and lettering of shapes, narrow
// enough to leave free what is beside a slanting line.
func obstaclesOf(shapes []drawing.Shape) obstacles {
	const narrow = 1.5 // mm
	var out obstacles
	line := func(p geom.Path, role drawing.Role) {
		pen := drawing.PenOf(role).Width / 2
		for _, g := range p.Segments() {
			box := g.Bounds()
			n := math.Ceil(min(box.Width(), box.Height()) / narrow)
			if n <= 1 {
				out = append(out, box.Grow(pen))
				continue
			}
			// Twice as many for an arc, which runs steep in places.
			if g.IsArc() {
				n *= 2
			}
			from := g.From
			for i := 1.0; i <= n; i++ {
				to, _ := g.At(i / n)
				bow := from.Dist(to) * math.Abs((g.Sweep() / geom.Angle(4*n)).Tan()) / 2
				out = append(out, geom.EmptyRect().Add(from).Add(to).Grow(pen+bow))
				from = to
			}
		}
	}
	for _, s := range shapes {
		switch s := s.(type) {
		case drawing.Text:
			out = append(out, s.Bounds())
		case drawing.Ring:
			// Nothing is written into a hole either.
			out = append(out, s.Circle.Bounds())
		case drawing.Stroke:
			line(s.Path, s.Role)
		}
	}
	return out
}

// clear reports whether a box keeps gap mm off all of them.
func (o obstacles) clear(box geom.Rect, gap float64) bool {
	return !slices.ContainsFunc(o, func(b geom.Rect) bool { return box.Overlaps(b, gap) })
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
		for _, words := range broken(l, i == 0 && heading, most) {
			t := drawing.Text{At: geom.Pt(0, -lettering-lineStep*float64(len(p.lines))), Words: words, Height: lettering, Bold: i == 0 && heading, Role: drawing.Note}
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
func (p paragraph) room(o obstacles, box geom.Rect, floor float64, ok func(geom.Point) bool) (best geom.Point, found bool) {
	const step = 2.5 // mm
	for _, x := range [...]float64{offMiddle, -offMiddle - p.size.X, box.Min.X + apart, box.Max.X - apart - p.size.X} {
		if x < box.Min.X || x+p.size.X > box.Max.X {
			continue
		}
		for y := box.Max.Y; y-p.size.Y >= box.Min.Y; y -= step {
			here := geom.Rect{Min: geom.Pt(x, y-p.size.Y), Max: geom.Pt(x+p.size.X, y)}
			if !ok(here.Centre()) || !o.clear(here, apart) {
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
	onPart := func(lines []string, heading bool) bool {
		for _, most := range lineLengths {
			p := paragraphOf(lines, most, heading)
			if at, ok := p.room(o, own, own.Min.Y, outline.Contains); ok {
				p.at(d, at)
				o = append(o, geom.Rect{Min: at.Sub(geom.Pt(0, p.size.Y)), Max: at.Add(geom.Pt(p.size.X, 0))})
				return true
			}
		}
		return false
	}
	if onPart(lines, true) {
		return
	}
	onPart(label, false)
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

// broken returns words in lines of at most most mm, broken between words and,
// where a single one is too wide, within it.
func broken(words string, bold bool, most float64) []string {
	fits := func(s string) bool { return drawing.TextWidth(s, lettering, bold) <= most }
	var out []string
	line := ""
	for _, w := range strings.Fields(words) {
		if line != "" && fits(line+" "+w) {
			line += " " + w
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		line = ""
		for _, r := range w {
			if !fits(line + string(r)) {
				out = append(out, line)
				line = ""
			}
			line += string(r)
		}
	}
	return append(out, line)
}

package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// Lettering in mm: ordinary, the page's own name, and a long one of the part.
const (
	small = lettering.Ordinary
	large = 5
	tiny  = 2.5 // the least that this project letters paper with
)

// width returns the width in mm of ordinary lettering.
func width(words string) float64 { return lettering.Face{Height: small}.Width(words) }

// pages draws the printed tiles of p.
func (p *plan) pages(l Layout, name string) []drawing.Drawing {
	crosses := p.crosses()
	var out []drawing.Drawing
	for r := range p.tiles {
		for c := range p.tiles[r] {
			if p.printed(r, c) {
				out = append(out, p.draw(l, name, r, c, crosses))
			}
		}
	}
	return out
}

// id returns a tile's name: row and sheet in it, for a letter and a number would
// read like a paper size.
func id(r, c int) string { return row(r) + " " + inRow(c) }

func row(r int) string   { return fmt.Sprintf("row %d", r+1) }
func inRow(c int) string { return fmt.Sprintf("sheet %d", c+1) }

func (p *plan) draw(l Layout, name string, r, c int, crosses map[seamAt][]geom.Point) drawing.Drawing {
	title, caption := name, name
	tiled := p.count() > 1
	if tiled {
		caption = id(r, c)
		title = fmt.Sprintf("%s %s of %d x %d", name, caption, len(p.rows.lo), len(p.cols.lo))
	}
	move := geom.Translate(p.window.Min.Sub(p.windowOf(r, c).Min))
	d := drawing.Drawing{Shapes: p.tiles[r][c].shapes}.Apply(move)
	d.Title, d.Page = title, p.page
	if l.ScaleX != 1 || l.ScaleY != 1 {
		d.ScaleX, d.ScaleY = 1/l.ScaleX, 1/l.ScaleY
	}

	p.seams(&d, r, c)
	for _, s := range seamsOf(r, c) {
		for _, q := range crosses[s] {
			cross(&d, move.Apply(q))
		}
	}
	p.bars(&d, l.Rule)
	p.caption(&d, name, caption, tiled, r, c)
	if d.ScaleX != 0 {
		// Along the lower half of the left gutter, clear of the neighbour's name.
		one := l.Rule.Bar()
		if l.Rule == drawing.Customary {
			one /= 25.4
		}
		words := fmt.Sprintf("corrected: bars were %.5g x %.5g", one*l.ScaleX, one*l.ScaleY)
		if width(words) < p.window.Height()/2-8 {
			d.Add(upward(p.window.Min.X-1.3, p.window.Min.Y, words, drawing.Left))
		}
	}
	return d
}

// level returns horizontal lettering, upward lettering that reads upwards, both
// with their base line at the given place.
func level(x, y float64, words string, a drawing.Anchor) drawing.Text {
	return drawing.Text{At: geom.Pt(x, y), Words: words, Height: small, Anchor: a, Role: drawing.Note}
}

func upward(x, y float64, words string, a drawing.Anchor) drawing.Text {
	t := level(x, y, words, a)
	t.Angle = 90 * geom.Degree
	return t
}

// bars draws the two bars as one set square in the page's lower left
// corner, each with its words on the inside.
func (p *plan) bars(d *drawing.Drawing, rule drawing.Rule) {
	o := p.use.Min.Add(geom.Pt(0.25, 0.25))
	d.Add(rule.Draw(o, geom.Pt(1, 0), false)...)
	d.Add(rule.Draw(o, geom.Pt(0, 1), true)...)
	me := rule.MeasureMe()
	// The words stand clear of the other bar's, and of the ticks.
	const along, first, second = 15, 10.2, 4.6
	d.Add(
		level(o.X+along, o.Y+first, me[0], drawing.Left),
		level(o.X+along, o.Y+second, me[1], drawing.Left),
		upward(o.X+drawing.LongTick+4.2, o.Y+along, me[0], drawing.Left),
		upward(o.X+drawing.LongTick+9.8, o.Y+along, me[1], drawing.Left),
	)
}

// advice says how to join tiles: between the caption, which ends at left, and
// the map if the page is wide enough, else above the upright bar, if it is high
// enough.
func (p *plan) advice(d *drawing.Drawing, left, right float64) {
	const words1, words2 = "cut the dashed edges, lay each on its", "neighbour's line, cross on cross, tape"
	long := math.Max(width(words1), width(words2))
	o := p.use.Min.Add(geom.Pt(0.25, 0.25))
	switch {
	case left+long <= right:
		d.Add(
			level(left, o.Y+6.7, words1, drawing.Left),
			level(left, o.Y+1.1, words2, drawing.Left))
	case o.Y+104+long <= p.use.Max.Y:
		d.Add(
			upward(o.X+drawing.LongTick+4.2, o.Y+104, words1, drawing.Left),
			upward(o.X+drawing.LongTick+9.8, o.Y+104, words2, drawing.Left))
	}
}

// caption writes the page's and the part's name right of the bar, and draws the
// page map in the corner: the printed pages, this one shaded.
func (p *plan) caption(d *drawing.Drawing, name, first string, tiled bool, r, c int) {
	right := p.use.Max.X - 0.25
	left := p.use.Min.X + 104
	base := p.use.Min.Y + 0.25
	if tiled {
		const wide, high = 22, 13.2
		rows, cols := float64(len(p.rows.lo)), float64(len(p.cols.lo))
		k := math.Min(wide/(cols*p.window.Width()), high/(rows*p.window.Height()))
		w, h := k*p.window.Width(), k*p.window.Height()
		for i := range p.tiles {
			for j := range p.tiles[i] {
				if !p.printed(i, j) {
					continue
				}
				min := geom.Pt(right-w*(cols-float64(j)), base+h*(rows-1-float64(i)))
				tone := drawing.NoTone
				if i == r && j == c {
					tone = drawing.Steel
				}
				d.Box(drawing.Thin, tone, geom.Rect{Min: min, Max: min.Add(geom.Pt(w, h))})
			}
		}
		right -= wide + 3
	}
	// The part's own name stands first in name: it must not be cut short, so a
	// long one takes a second line of smaller letters.
	second, size := []string{"1:1"}, float64(small)
	if tiled {
		first, second = first+", 1:1", []string{name}
		if width(name) > right-left {
			face := lettering.Face{Height: tiny}
			if second = face.Wrap(name, right-left, 0); len(second) > 2 {
				second = []string{second[0], strings.Join(second[1:], " ")}
			}
			for i, words := range second {
				second[i] = face.Fit(words, right-left)
			}
			size = tiny
		}
	}
	// Two lines fill the strip to its top, descenders clear of what is below.
	over, foot, pitch := 7.5, 1.3, 0.0
	if len(second) > 1 {
		over, foot, pitch = 8.5, 0.8, 3.5
	}
	head := level(left, base+over, lettering.Face{Height: large}.Fit(first, right-left), drawing.Left)
	head.Height = large
	end := head.Bounds().Max.X
	d.Add(head)
	for i, words := range second {
		line := level(left, base+foot+pitch*float64(len(second)-1-i), words, drawing.Left)
		line.Height = size
		end = math.Max(end, line.Bounds().Max.X)
		d.Add(line)
	}
	if tiled {
		p.advice(d, end+5, right)
	}
}

// seams draws a tile's cut lines, dashed, on the right and above, where the
// tile is cut and laid on its neighbours; on the left and below, with two dots,
// the line where the neighbour's edge comes to lie. The gutter names the
// neighbours, an arrow towards each.
func (p *plan) seams(d *drawing.Drawing, r, c int) {
	w, cell := p.window, p.cellOf(r, c)
	move := w.Min.Sub(p.windowOf(r, c).Min)
	lo, hi := cell.Min.Add(move), cell.Max.Add(move)
	mid := w.Centre()
	const base = 1.3 // of level lettering above the gutter's lower edge
	if p.printed(r, c+1) {
		d.Line(drawing.Hidden, geom.Pt(hi.X, w.Min.Y), geom.Pt(hi.X, w.Max.Y))
		d.Add(level(hi.X, w.Max.Y+base, "cut", drawing.Middle))
		p.point(d, geom.Pt(w.Max.X+gutter/2, mid.Y), 0, inRow(c+1))
	}
	if p.printed(r, c-1) {
		d.Line(drawing.Phantom, geom.Pt(lo.X, w.Min.Y), geom.Pt(lo.X, w.Max.Y))
		d.Add(level(w.Min.X, w.Max.Y+base, "edge of "+inRow(c-1), drawing.Left))
		p.point(d, geom.Pt(w.Min.X-gutter/2, mid.Y), 180*geom.Degree, inRow(c-1))
	}
	if p.printed(r-1, c) {
		d.Line(drawing.Hidden, geom.Pt(w.Min.X, hi.Y), geom.Pt(w.Max.X, hi.Y))
		d.Add(upward(w.Max.X+gutter-base, hi.Y, "cut", drawing.Middle))
		p.point(d, geom.Pt(mid.X, w.Max.Y+gutter/2), 90*geom.Degree, row(r-1))
	}
	if p.printed(r+1, c) {
		d.Line(drawing.Phantom, geom.Pt(w.Min.X, lo.Y), geom.Pt(w.Max.X, lo.Y))
		d.Add(upward(w.Max.X+gutter-base, w.Min.Y, "edge of "+row(r+1), drawing.Left))
		p.point(d, geom.Pt(mid.X, w.Min.Y-gutter/2), -90*geom.Degree, row(r+1))
	}
}

// point puts a neighbour's name and an arrow towards it in the gutter.
func (p *plan) point(d *drawing.Drawing, at geom.Point, dir geom.Angle, words string) {
	const long, half = 3.6, 1.8
	// Lettering along the gutter, middle on at; the arrow after it.
	beyond := width(words)/2 + 3
	var t drawing.Text
	tail := at
	if math.Abs(dir.Cos()) > 0.5 {
		t = upward(at.X+gutter/2-1.3, at.Y, words, drawing.Middle)
		tail.Y += beyond
	} else {
		t = level(at.X, at.Y-gutter/2+1.3, words, drawing.Middle)
		tail.X += beyond
	}
	ahead := geom.Polar(long/2, dir)
	tail = tail.Sub(ahead)
	side := geom.Polar(half, dir).Left()
	tip := tail.Add(ahead.Mul(2))
	d.Add(t, drawing.Stroke{
		Path: geom.Lines(tip, tail.Add(side), tail.Sub(side)).Close(),
		Role: drawing.Fill,
		Tone: drawing.Dark,
	})
}

// Size in mm of an alignment cross: it reaches just short of the overlap's
// edges.
const (
	crossArm  = 4.5
	crossRing = 2
)

// cross draws an alignment cross about q.
func cross(d *drawing.Drawing, q geom.Point) {
	d.Line(drawing.Thin, q.Sub(geom.Pt(crossArm, 0)), q.Add(geom.Pt(crossArm, 0)))
	d.Line(drawing.Thin, q.Sub(geom.Pt(0, crossArm)), q.Add(geom.Pt(0, crossArm)))
	d.Add(drawing.Ring{Circle: geom.Circle{Centre: q, Radius: crossRing}, Role: drawing.Thin})
}

// seamAt names the seam between a tile and the next one to the right, or below.
type seamAt struct {
	r, c  int
	below bool
}

// seamsOf returns the four seams around a tile, whether or not they exist.
func seamsOf(r, c int) [4]seamAt {
	return [4]seamAt{{r, c, false}, {r, c, true}, {r, c - 1, false}, {r - 1, c, true}}
}

// crosses returns two places on each seam between printed tiles, in the
// drawing's own frame, one on each half of the seam, as far from lines and
// lettering as the half allows.
func (p *plan) crosses() map[seamAt][]geom.Point {
	out := map[seamAt][]geom.Point{}
	boxes := make([]geom.Rect, len(p.shapes))
	for i, s := range p.shapes {
		boxes[i] = drawing.Drawing{Shapes: []drawing.Shape{s}}.Bounds()
	}
	for r := range p.tiles {
		for c := range p.tiles[r] {
			if !p.printed(r, c) {
				continue
			}
			cell := p.cellOf(r, c)
			if p.printed(r, c+1) {
				out[seamAt{r, c, false}] = p.onSeam(boxes, geom.Pt(cell.Max.X, cell.Min.Y), cell.Max)
			}
			if p.printed(r+1, c) {
				out[seamAt{r, c, true}] = p.onSeam(boxes, cell.Min, geom.Pt(cell.Max.X, cell.Min.Y))
			}
		}
	}
	return out
}

// onSeam returns the two best places for a cross from a to b.
func (p *plan) onSeam(boxes []geom.Rect, a, b geom.Point) []geom.Point {
	// Beyond this clearance in mm more is of no use.
	const enough = 8
	var near []drawing.Shape
	band := geom.EmptyRect().Add(a).Add(b).Grow(enough)
	for i, box := range boxes {
		if box.Overlaps(band, 0) {
			near = append(near, p.shapes[i])
		}
	}
	// The corners belong to other seams' crosses and to four tiles at once.
	length := a.Dist(b)
	inset := math.Min(12/length, 0.2)
	const places = 10
	var out []geom.Point
	for half := range 2 {
		from := inset + (0.5-inset)*float64(half)
		best, bestClear := geom.Point{}, -1.0
		for _, i := range middleOut(places) {
			// Halves keep a cross's width off the middle.
			t := from + (0.5-inset)*(0.1+0.8*float64(i)/float64(places-1))
			q := a.Lerp(b, t)
			clear := enough + 0.0
			for _, s := range near {
				clear = math.Min(clear, distance(s, q))
			}
			if clear > bestClear {
				best, bestClear = q, clear
			}
		}
		out = append(out, best)
	}
	return out
}

// middleOut returns 0 to n-1, the middle ones first.
func middleOut(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	off := func(i int) int { return max(2*i-n+1, n-1-2*i) }
	slices.SortStableFunc(out, func(a, b int) int { return off(a) - off(b) })
	return out
}

// distance returns how far q is from a shape's line or lettering, in mm.
func distance(s drawing.Shape, q geom.Point) float64 {
	switch s := s.(type) {
	case drawing.Stroke:
		return s.Path.Distance(q)
	case drawing.Ring:
		return math.Abs(q.Dist(s.Circle.Centre) - s.Circle.Radius)
	case drawing.Text:
		box := s.Box()
		if box.Contains(q) {
			return 0
		}
		return box.Distance(q)
	}
	return math.Inf(1)
}

package paper

import (
	"fmt"
	"math"

	"overbend/export/drawing"
	"overbend/geom"
)

// Layout is a printer's paper and manners.
type Layout struct {
	Paper Size
	// Margin is the edge in mm, all round, that the printer leaves white.
	Margin float64
	// ScaleX and ScaleY are what the printer makes of 1 across and up the page,
	// as [ParseScale] reads it from two measured bars; 0 counts as 1. Pages bear
	// the correction for their writer: see [drawing.Drawing.ScaleX].
	ScaleX, ScaleY float64
}

// Widths in mm that a page sets aside. The strips hold the bars, caption and
// page map; the gutter is all round the window and holds what points at its
// edges.
const (
	strip  = 14.5
	gutter = 5.5
)

// Least printable area in mm: the bottom strip takes the bar, a caption and the
// map beside each other, the left one the other bar.
const (
	minWidth  = 170
	minHeight = 104
)

// Limits of a grid of tiles: rows are named by letters.
const (
	maxRows = 26
	maxCols = 99
)

// Pages returns d at 1:1 on one page if its shapes fit, else on tiles, row by
// row from the top left: A1, A2, ... B1. The paper lies portrait or landscape as
// gives fewer pages, portrait if equal. name is the part's name in captions and
// titles. d's own page and print correction are replaced.
//
// Tiles overlap by 10 mm or more and are cut along the middle of the overlap.
// The shapes are clipped exactly to a tile's window, and texts are drawn only
// whole: the windows are shifted, or their overlap grows, until each text is
// whole on some tile, if possible away from the cuts. Tiles that would show
// nothing are left out, unless the rest would then hang together at corners
// only.
//
// It returns an error for a layout out of range, a margin that leaves no room,
// a drawing that fails [drawing.Drawing.Check] or needs over 26 rows or 99
// columns, and a text longer than any window.
func (l Layout) Pages(d drawing.Drawing, name string) ([]drawing.Drawing, error) {
	l, err := l.checked()
	if err != nil {
		return nil, fmt.Errorf("paper: %w", err)
	}
	if err := d.Check(); err != nil {
		return nil, fmt.Errorf("paper: %w", err)
	}

	var best *plan
	var firstErr error
	for _, landscape := range [2]bool{false, true} {
		f, ok := l.frame(landscape)
		if !ok {
			continue
		}
		p, err := newPlan(f, d, l.Paper.Name, name)
		if err != nil {
			if firstErr == nil {
				firstErr = err
			}
			continue
		}
		if best == nil || p.count() < best.count() {
			best = p
		}
		if best.count() == 1 {
			break
		}
	}
	switch {
	case best != nil:
		return best.pages(l, name), nil
	case firstErr != nil:
		return nil, fmt.Errorf("paper: %w", firstErr)
	}
	// Neither way up has room: name the way that comes nearer.
	w, h := math.Max(l.Paper.Width, l.Paper.Height), math.Min(l.Paper.Width, l.Paper.Height)
	return nil, fmt.Errorf("paper: a margin of %.4g mm leaves %.4g x %.4g mm of %s; at least %d x %d mm is needed",
		l.Margin, math.Max(0, w-2*l.Margin), math.Max(0, h-2*l.Margin), l.Paper.Name, minWidth, minHeight)
}

// checked returns l with its defaults filled in.
func (l Layout) checked() (Layout, error) {
	for _, side := range [2]float64{l.Paper.Width, l.Paper.Height} {
		if !(side >= minSide && side <= maxSide) {
			return l, fmt.Errorf("a side of %g mm is no paper; from %d to %d mm is allowed", side, minSide, maxSide)
		}
	}
	if !(l.Margin >= 0 && l.Margin <= maxSide) {
		return l, fmt.Errorf("a margin of %g mm is not possible; 0 mm or more is allowed", l.Margin)
	}
	for _, k := range [2]*float64{&l.ScaleX, &l.ScaleY} {
		if *k == 0 {
			*k = 1
		}
		if !sane(*k) {
			return l, fmt.Errorf("a print scale of %g is not possible; from 0.9 to 1.1 is allowed", *k)
		}
	}
	return l, nil
}

// frame is the division of one page, in mm from its lower left corner.
type frame struct {
	page   geom.Rect // the sheet
	use    geom.Rect // what the printer reaches
	window geom.Rect // where the drawing shows
}

// frame returns the division of the paper one way up, and false if the margin
// leaves no room.
func (l Layout) frame(landscape bool) (frame, bool) {
	w, h := math.Min(l.Paper.Width, l.Paper.Height), math.Max(l.Paper.Width, l.Paper.Height)
	if landscape {
		w, h = h, w
	}
	// A printer that prints small gets a page that is drawn larger about its
	// middle: that, too, must stay off the margin.
	x := (w/2 - l.Margin) * math.Min(1, l.ScaleX)
	y := (h/2 - l.Margin) * math.Min(1, l.ScaleY)
	f := frame{
		page: geom.Rect{Max: geom.Pt(w, h)},
		use:  geom.Rect{Min: geom.Pt(w/2-x, h/2-y), Max: geom.Pt(w/2+x, h/2+y)},
	}
	f.window = geom.Rect{
		Min: f.use.Min.Add(geom.Pt(strip+gutter, strip+gutter)),
		Max: f.use.Max.Sub(geom.Pt(gutter, gutter)),
	}
	return f, f.use.Width() >= minWidth && f.use.Height() >= minHeight
}

// plan says what part of a drawing shows on which tile. Rows and columns count
// from the top left, while cuts count from the bottom left.
type plan struct {
	frame
	cols, rows cuts
	shapes     []drawing.Shape
	tiles      [][]tile // by row and column
}

// tile is one page of a plan.
type tile struct {
	shapes  []drawing.Shape // clipped to the window, in the drawing's own place
	printed bool
}

func newPlan(f frame, d drawing.Drawing, paper, name string) (*plan, error) {
	box := d.Bounds()
	w, h := f.window.Width(), f.window.Height()
	var across, up []span
	var texts []drawing.Text
	for _, s := range d.Shapes {
		s, ok := s.(drawing.Text)
		if !ok {
			continue
		}
		b := s.Bounds()
		if b.Width() > w || b.Height() > h {
			return nil, fmt.Errorf("text %q of %s is %.0f x %.0f mm, too large for the %.0f x %.0f mm window of a page of %s",
				clip(s.Words), name, b.Width(), b.Height(), w, h, paper)
		}
		texts = append(texts, s)
		across = append(across, span{b.Min.X, b.Max.X})
		up = append(up, span{b.Min.Y, b.Max.Y})
	}

	// Count before cutting anything: a wild size must not cost time or memory.
	if box.Width() > maxCols*(w-overlap) || box.Height() > maxRows*(h-overlap) {
		return nil, fmt.Errorf("%s of %.0f x %.0f mm needs too many pages of %s; at most %d rows and %d columns are allowed",
			name, box.Width(), box.Height(), paper, maxRows, maxCols)
	}
	p := &plan{
		frame:  f,
		cols:   windows(box.Min.X, box.Max.X, w, across),
		rows:   windows(box.Min.Y, box.Max.Y, h, up),
		shapes: d.Shapes,
	}
	if len(p.cols.lo) > maxCols || len(p.rows.lo) > maxRows {
		return nil, fmt.Errorf("%s of %.0f x %.0f mm needs %d x %d pages of %s; at most %d rows and %d columns are allowed",
			name, box.Width(), box.Height(), len(p.rows.lo), len(p.cols.lo), paper, maxRows, maxCols)
	}

	p.tiles = make([][]tile, len(p.rows.lo))
	for r := range p.tiles {
		p.tiles[r] = make([]tile, len(p.cols.lo))
		for c := range p.tiles[r] {
			p.tiles[r][c] = p.cut(r, c)
		}
	}
	if !p.connected() || !p.showsAll(texts) {
		for r := range p.tiles {
			for c := range p.tiles[r] {
				p.tiles[r][c].printed = true
			}
		}
	}
	return p, nil
}

// row returns the number of a row in the cuts, which run upwards.
func (p *plan) row(r int) int { return len(p.rows.lo) - 1 - r }

// windowOf returns what a tile shows, in the drawing's own place.
func (p *plan) windowOf(r, c int) geom.Rect {
	min := geom.Pt(p.cols.lo[c], p.rows.lo[p.row(r)])
	return geom.Rect{Min: min, Max: min.Add(geom.Pt(p.window.Width(), p.window.Height()))}
}

// cellOf returns what is left of a tile's window after cutting.
func (p *plan) cellOf(r, c int) geom.Rect {
	x := p.cols.cell(c, p.window.Width())
	y := p.rows.cell(p.row(r), p.window.Height())
	return geom.Rect{Min: geom.Pt(x.lo, y.lo), Max: geom.Pt(x.hi, y.hi)}
}

// cut clips the drawing to one tile, which is worth printing if anything shows
// inside its cuts: the rest of its window is on a neighbour as well.
func (p *plan) cut(r, c int) tile {
	window, cell := p.windowOf(r, c), p.cellOf(r, c)
	var t tile
	for _, s := range p.shapes {
		for _, piece := range clipShape(s, window) {
			t.shapes = append(t.shapes, piece)
			if t.printed {
				continue
			}
			if text, ok := piece.(drawing.Text); ok {
				t.printed = cell.Overlaps(text.Bounds(), 0)
			} else {
				t.printed = len(clipShape(piece, cell)) > 0
			}
		}
	}
	return t
}

// printed reports whether there is a printed tile at a row and column.
func (p *plan) printed(r, c int) bool {
	return r >= 0 && r < len(p.tiles) && c >= 0 && c < len(p.tiles[r]) && p.tiles[r][c].printed
}

func (p *plan) count() int {
	n := 0
	for r := range p.tiles {
		for c := range p.tiles[r] {
			if p.tiles[r][c].printed {
				n++
			}
		}
	}
	return n
}

// connected reports whether the printed tiles hang together by their sides.
func (p *plan) connected() bool {
	type at struct{ r, c int }
	seen := map[at]bool{}
	var walk func(a at)
	walk = func(a at) {
		if seen[a] || !p.printed(a.r, a.c) {
			return
		}
		seen[a] = true
		for _, b := range [4]at{{a.r - 1, a.c}, {a.r + 1, a.c}, {a.r, a.c - 1}, {a.r, a.c + 1}} {
			walk(b)
		}
	}
	for r := range p.tiles {
		for c := range p.tiles[r] {
			if p.printed(r, c) && len(seen) == 0 {
				walk(at{r, c})
			}
		}
	}
	return len(seen) == p.count()
}

// showsAll reports whether each text is whole on a printed tile.
func (p *plan) showsAll(texts []drawing.Text) bool {
	for _, s := range texts {
		shown := false
		for r := range p.tiles {
			for c := range p.tiles[r] {
				shown = shown || p.printed(r, c) && p.windowOf(r, c).Holds(s.Bounds(), geom.Coincident)
			}
		}
		if !shown {
			return false
		}
	}
	return true
}

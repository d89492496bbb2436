package paper

import (
	"fmt"
	"math"
	"slices"

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
	Rule           drawing.Rule // of the bars by which a page is measured
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

// ErrTooMany says that a drawing is too large for the paper's pages.
var ErrTooMany = fmt.Errorf("at most %d rows and %d columns are allowed", maxRows, maxCols)

// Pages returns d at 1:1 on one page if its shapes fit, else on tiles, row by
// row from the top left: A1, A2, ... B1. The paper lies portrait or landscape as
// gives fewer pages, portrait if equal. name is the part's name in captions and
// titles; captions may have room for its beginning only. d's own page and print correction are replaced.
//
// Tiles overlap by 10 mm or more and are cut along the middle of the overlap.
// The shapes are clipped exactly to a tile's window, and texts are drawn only
// whole: the windows are shifted, or their overlap grows, until each text is
// whole on some tile, if possible away from the cuts, where most tiles show
// nothing, and off upright and level lines and bolt holes. Phantom, centre and
// predicted lines are what a part is compared with: no tile is printed for them
// alone. Tiles that would show nothing else are left out, unless the rest would
// then hang together at corners only.
//
// It returns an error for a layout out of range, a margin that leaves no room,
// a drawing that fails [drawing.Drawing.CheckShapes], one that needs over 26 rows or
// 99 columns ([ErrTooMany]), and a text longer than any window.
func (l Layout) Pages(d drawing.Drawing, name string) ([]drawing.Drawing, error) {
	l, err := l.checked()
	if err != nil {
		return nil, fmt.Errorf("paper: %w", err)
	}
	if err := d.CheckShapes(); err != nil { // its tiles may be small where its sheet is not
		return nil, fmt.Errorf("paper: %w", err)
	}

	c := contentOf(d)
	var best *plan
	var firstErr error
	for _, landscape := range [2]bool{false, true} {
		f, ok := l.frame(landscape)
		if !ok {
			continue
		}
		p, err := newPlan(f, c, l.Paper.Name, name)
		if err != nil {
			if firstErr == nil {
				firstErr = err
			}
			continue
		}
		if best == nil || p.cost < best.cost {
			best = p
		}
		if best.cost == 1 {
			break
		}
	}
	switch {
	case best != nil:
		best.cutAll()
		best.breakOff()
		return best.pages(l, name), nil
	case firstErr != nil:
		return nil, fmt.Errorf("paper: %w", firstErr)
	}
	return nil, fmt.Errorf("paper: %w", l.Check())
}

// Check returns an error for a layout out of range, or a margin that leaves no room
// on either way up of the paper.
func (l Layout) Check() error {
	l, err := l.checked()
	if err != nil {
		return err
	}
	for _, landscape := range [2]bool{false, true} {
		if _, ok := l.frame(landscape); ok {
			return nil
		}
	}
	// Name the way that comes nearer.
	w, h := math.Max(l.Paper.Width, l.Paper.Height), math.Min(l.Paper.Width, l.Paper.Height)
	return fmt.Errorf("a margin of %.4g mm leaves %.4g x %.4g mm of %s; at least %d x %d mm is needed",
		l.Margin, math.Max(0, w-2*l.Margin), math.Max(0, h-2*l.Margin), l.Paper.Name, minWidth, minHeight)
}

// checked returns l with its defaults filled in.
func (l Layout) checked() (Layout, error) {
	for _, side := range [2]float64{l.Paper.Width, l.Paper.Height} {
		if !(side >= MinSide && side <= MaxSide) {
			return l, fmt.Errorf("a side of %g mm is no paper; from %d to %d mm is allowed", side, MinSide, MaxSide)
		}
	}
	if !(l.Margin >= 0 && l.Margin <= MaxSide) {
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

// content is a drawing and what its division into tiles should heed.
type content struct {
	shapes []drawing.Shape
	texts  []drawing.Text
	box    geom.Rect // of all shapes but those to compare with
	x, y   axis
	pieces []geom.Rect // boxes that hold all of the same, small enough to tell tiles apart
	all    bool        // nothing but lines to compare with: they count
}

// aside reports whether a role's lines alone are not worth a page.
func (c *content) aside(r drawing.Role) bool {
	return !c.all && (r == drawing.Phantom || r == drawing.Centre || r == drawing.Predicted)
}

// Sizes in mm of what seams keep off: lines along them at least so long, and
// holes at most so large.
const (
	longLine   = 3.0
	smallHole  = 30.0
	besideLine = 2.0 // room that a line along a seam needs
)

// contentOf looks through a drawing.
func contentOf(d drawing.Drawing) *content {
	c := &content{shapes: d.Shapes}
	c.all = !slices.ContainsFunc(d.Shapes, func(s drawing.Shape) bool {
		switch s := s.(type) {
		case drawing.Stroke:
			return !c.aside(s.Role)
		case drawing.Ring:
			return !c.aside(s.Role)
		}
		return true
	})
	need, want := geom.EmptyRect(), geom.EmptyRect()
	for _, s := range d.Shapes {
		box := drawing.Drawing{Shapes: []drawing.Shape{s}}.Bounds()
		want = want.Union(box)
		across, up := span{box.Min.X, box.Max.X}, span{box.Min.Y, box.Max.Y}
		switch s := s.(type) {
		case drawing.Text:
			c.texts = append(c.texts, s)
			c.x.texts, c.y.texts = append(c.x.texts, across), append(c.y.texts, up)
			// The arms of crosses need room beside the seam.
			c.x.lines, c.y.lines = append(c.x.lines, across.grown(crossArm)), append(c.y.lines, up.grown(crossArm))
		case drawing.Ring:
			if c.aside(s.Role) {
				continue
			}
			if 2*s.Circle.Radius <= smallHole {
				c.x.lines, c.y.lines = append(c.x.lines, across), append(c.y.lines, up)
			}
		case drawing.Stroke:
			if c.aside(s.Role) {
				continue
			}
			for _, g := range s.Path.Segments() {
				if g.IsArc() || g.Chord() < longLine {
					continue
				}
				switch run := g.To.Sub(g.From); {
				case math.Abs(run.X) < besideLine:
					c.x.lines = append(c.x.lines, span{g.From.X, g.From.X}.grown(besideLine))
				case math.Abs(run.Y) < besideLine:
					c.y.lines = append(c.y.lines, span{g.From.Y, g.From.Y}.grown(besideLine))
				}
			}
		}
		need = need.Union(box)
	}
	c.box = need
	c.x.need, c.y.need = span{need.Min.X, need.Max.X}, span{need.Min.Y, need.Max.Y}
	c.x.want, c.y.want = span{want.Min.X, want.Max.X}, span{want.Min.Y, want.Max.Y}
	return c
}

// split fills in the pieces.
func (c *content) split() {
	if c.pieces != nil {
		return
	}
	const long = 10.0 // mm
	c.pieces = []geom.Rect{}
	line := func(p geom.Path) {
		for _, g := range p.Segments() {
			n := math.Ceil(g.Length() / long)
			from := g.From
			for i := 1.0; i <= n; i++ {
				to, _ := g.At(i / n)
				// An arc of that length leaves its chord by little.
				c.pieces = append(c.pieces, geom.EmptyRect().Add(from).Add(to))
				from = to
			}
		}
	}
	for _, s := range c.shapes {
		switch s := s.(type) {
		case drawing.Text:
			c.pieces = append(c.pieces, s.Bounds())
		case drawing.Ring:
			if !c.aside(s.Role) {
				line(s.Circle.Path())
			}
		case drawing.Stroke:
			switch {
			case c.aside(s.Role):
			case s.Tone != drawing.NoTone && s.Path.Closed:
				c.pieces = append(c.pieces, s.Path.Bounds())
			default:
				line(s.Path)
			}
		}
	}
}

// plan says what part of a drawing shows on which tile. Rows and columns count
// from the top left, while cuts count from the bottom left.
type plan struct {
	frame
	*content
	cols, rows cuts
	cost       int      // pages, and one more for each text that is cut
	tiles      [][]tile // by row and column
}

// tile is one page of a plan.
type tile struct {
	shapes  []drawing.Shape // clipped to the window, in the drawing's own place
	printed bool
}

// newPlan places the windows of one way up so that the fewest pages show all.
func newPlan(f frame, c *content, paper, name string) (*plan, error) {
	w, h := f.window.Width(), f.window.Height()
	for _, s := range c.texts {
		if b := s.Bounds(); b.Width() > w || b.Height() > h {
			return nil, fmt.Errorf("text %q of %s is %.0f x %.0f mm, too large for the %.0f x %.0f mm window of a page of %s",
				clip(s.Words), name, b.Width(), b.Height(), w, h, paper)
		}
	}

	// Count before cutting anything: a wild size must not cost time or memory.
	if c.box.Width() > maxCols*(w-overlap) || c.box.Height() > maxRows*(h-overlap) {
		return nil, fmt.Errorf("%s of %.0f x %.0f mm needs too many pages of %s; %w",
			name, c.box.Width(), c.box.Height(), paper, ErrTooMany)
	}
	across, up := c.x.ways(w), c.y.ways(h)
	if len(across[0].lo) > maxCols || len(up[0].lo) > maxRows {
		return nil, fmt.Errorf("%s of %.0f x %.0f mm needs %d x %d pages of %s; %w",
			name, c.box.Width(), c.box.Height(), len(up[0].lo), len(across[0].lo), paper, ErrTooMany)
	}
	var best *plan
	for _, x := range across {
		for _, y := range up {
			p := &plan{frame: f, content: c, cols: x, rows: y}
			p.cost = p.guess() + x.texts + y.texts
			if best == nil || p.cost < best.cost || p.cost == best.cost && p.both().better(best.both()) {
				best = p
			}
		}
	}
	return best, nil
}

// both returns what the cuts of both axes cross, and how far they are off.
func (p *plan) both() cuts {
	return cuts{texts: p.cols.texts + p.rows.texts, lines: p.cols.lines + p.rows.lines, shift: p.cols.shift + p.rows.shift}
}

// guess returns how many pages the plan will print, or a little more. A single
// row or column prints them all.
func (p *plan) guess() int {
	rows, cols := len(p.rows.lo), len(p.cols.lo)
	if rows == 1 || cols == 1 {
		return rows * cols
	}
	p.split()
	p.tiles = grid(rows, cols)
	for _, b := range p.pieces {
		left, right := p.cols.cellsOf(b.Min.X, b.Max.X)
		low, high := p.rows.cellsOf(b.Min.Y, b.Max.Y)
		for i := low; i <= high; i++ {
			for c := left; c <= right; c++ {
				p.tiles[rows-1-i][c].printed = true
			}
		}
	}
	if !p.connected() {
		return rows * cols
	}
	return p.count()
}

// grid returns empty tiles.
func grid(rows, cols int) [][]tile {
	all := make([]tile, rows*cols)
	out := make([][]tile, rows)
	for r := range out {
		out[r] = all[r*cols : (r+1)*cols]
	}
	return out
}

// cutAll clips the drawing to the tiles and says which are printed.
func (p *plan) cutAll() {
	p.tiles = grid(len(p.rows.lo), len(p.cols.lo))
	for r := range p.tiles {
		for c := range p.tiles[r] {
			p.tiles[r][c] = p.cut(r, c)
		}
	}
	if !p.connected() || !p.showsAll() {
		for r := range p.tiles {
			for c := range p.tiles[r] {
				p.tiles[r][c].printed = true
			}
		}
	}
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

// cut clips the drawing to one tile, which is worth printing if anything but
// lines to compare with shows inside its cuts: the rest of its window is on a
// neighbour as well.
func (p *plan) cut(r, c int) tile {
	window, cell := p.windowOf(r, c), p.cellOf(r, c)
	var t tile
	for _, s := range p.shapes {
		for _, piece := range clipShape(s, window) {
			t.shapes = append(t.shapes, piece)
			if t.printed {
				continue
			}
			switch piece := piece.(type) {
			case drawing.Text:
				t.printed = cell.Overlaps(piece.Bounds(), 0)
			case drawing.Stroke:
				t.printed = !p.aside(piece.Role) && len(clipShape(piece, cell)) > 0
			case drawing.Ring:
				t.printed = !p.aside(piece.Role) && len(clipShape(piece, cell)) > 0
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
func (p *plan) showsAll() bool {
	for _, s := range p.texts {
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

package tooling

import (
	"math"
	"slices"
	"strings"

	"overbend/geom"
)

// Heights of lettering on parts in mm, tried in turn. The least is below
// ISO 3098's 3.5 for paper, but these lines are scribed or only looked at on a
// screen.
var letterHeights = [...]float64{5, 4.5, 4, 3.5, 3}

const (
	lineSpacing  = 1.6 // base line to base line, in heights
	descent      = 0.3 // below the base line, in heights
	letterMargin = 2.0 // from lettering to any edge, hole or mark, mm
)

// Letter returns p with lines of writing inside it, clear of its edge, holes,
// marks and labels by 2 mm, and the lines for which there was no room. All
// lines have one height, 5 mm or what fits down to 3 mm, and stand under each
// other in one column from the top down: on the part's middle if they fit there
// at all, or beside it. Only then are long lines broken at spaces.
func Letter(p Part, lines []string) (Part, []string) {
	if len(lines) == 0 {
		return p, nil
	}
	l := newLettering(p)
	var best []Label
	fewest := len(lines) + 1
	// Columns in which to write, as shares of the width: the middle in every
	// height before any other.
	for _, try := range [...]struct {
		columns []float64
		wrap    bool
	}{
		{[]float64{0.5}, false},
		{[]float64{0.25, 0.75, 0.375, 0.625, 0.125, 0.875}, false},
		{[]float64{0.5, 0.25, 0.75, 0.375, 0.625, 0.125, 0.875}, true},
	} {
		for _, h := range letterHeights {
			for _, c := range try.columns {
				labels, left := l.place(lines, h, l.box.Min.X+c*l.box.Width(), try.wrap)
				if left < fewest {
					best, fewest = labels, left
				}
				if left == 0 {
					l.settle(best)
					p.Labels = append(slices.Clip(p.Labels), best...)
					return p, nil
				}
			}
		}
	}
	p.Labels = append(slices.Clip(p.Labels), best...)
	return p, lines[len(lines)-fewest:]
}

// lettering holds what writing must keep clear of.
type lettering struct {
	outline geom.Path
	box     geom.Rect
	edges   []edge      // of outline and marks
	blocks  []geom.Rect // holes and labels
}

func newLettering(p Part) *lettering {
	l := &lettering{outline: p.Outline, box: p.Bounds()}
	for _, s := range p.Outline.Segments() {
		l.edges = appendEdges(l.edges, s)
	}
	for _, m := range p.Marks {
		for _, s := range m.Segments() {
			l.edges = appendEdges(l.edges, s)
		}
	}
	for _, set := range [][]geom.Circle{p.Holes, p.Drill} {
		for _, h := range set {
			l.blocks = append(l.blocks, h.Bounds())
		}
	}
	for _, b := range p.Labels {
		l.blocks = append(l.blocks, b.bounds())
	}
	return l
}

// edge is a line or arc that only rises, from low to high. An arc so cut lies
// wholly right (side 1) or left (side -1) of its centre.
type edge struct {
	low, high geom.Point
	centre    geom.Point
	radius    float64 // 0: a line
	side      float64
}

// appendEdges cuts s into edges.
func appendEdges(to []edge, s geom.Segment) []edge {
	for _, m := range s.Monotone() {
		e := edge{low: m.From, high: m.To, side: math.Copysign(1, m.Bulge)}
		if m.IsArc() && m.Radius() < flatEnough {
			e.centre, e.radius = m.Centre(), m.Radius()
		}
		// Counter-clockwise and rising is right of the centre.
		if e.low.Y > e.high.Y {
			e.low, e.high, e.side = e.high, e.low, -e.side
		}
		to = append(to, e)
	}
	return to
}

// flatEnough is the radius in mm from which an arc's chord will do for keeping
// letters clear: a chord of a metre is off by 0.13 mm.
const flatEnough = 1e6

// at returns the edge's x at level y, between its ends.
func (e *edge) at(y float64) float64 {
	if e.radius > 0 {
		h := y - e.centre.Y
		return e.centre.X + e.side*math.Sqrt(max(0, (e.radius-h)*(e.radius+h)))
	}
	if e.high.Y-e.low.Y < geom.Coincident {
		return e.low.X
	}
	return e.low.X + (e.high.X-e.low.X)*(y-e.low.Y)/(e.high.Y-e.low.Y)
}

// between returns the least and the greatest x of the edge in a band of levels.
func (e *edge) between(low, high float64) (least, most float64, ok bool) {
	low, high = max(low, e.low.Y), min(high, e.high.Y)
	if low > high {
		return 0, 0, false
	}
	a, b := e.at(low), e.at(high)
	least, most = min(a, b), max(a, b)
	switch {
	case e.radius > 0 && low < e.centre.Y && e.centre.Y < high:
		least, most = min(least, e.centre.X+e.side*e.radius), max(most, e.centre.X+e.side*e.radius)
	case e.high.Y-e.low.Y < geom.Coincident: // level
		least, most = min(e.low.X, e.high.X), max(e.low.X, e.high.X)
	}
	return least, most, true
}

// place sets lines at height h about column x and returns the labels of those
// that found room whole, and how many did not.
func (l *lettering) place(lines []string, h, x float64, wrap bool) (out []Label, left int) {
	y := l.box.Max.Y - letterMargin - h
	for i, words := range lines {
		whole := len(out)
		for words = strings.TrimSpace(words); words != ""; {
			if y < l.box.Min.Y+letterMargin+descent*h {
				return out[:whole], len(lines) - i
			}
			fits, width := words, letterWidth(words, h)
			if wrap {
				if room := l.room(x, y, h, 0); room < width {
					fits = leading(words, h, room)
				}
			} else if l.room(x, y, h, width) < width {
				fits = ""
			}
			if fits == "" || !l.outline.Contains(geom.Pt(x, y)) {
				y -= h / 2
				continue
			}
			out = append(out, Label{At: geom.Pt(x, y), Words: fits, Height: h, Middle: true})
			y -= lineSpacing * h
			words = strings.TrimSpace(words[len(fits):])
		}
	}
	return out, 0
}

// settle moves labels down together, to the middle of how far they can go.
func (l *lettering) settle(labels []Label) {
	if len(labels) == 0 {
		return
	}
	step := labels[0].Height / 2
	n := 0
	for ; ; n++ {
		for _, b := range labels {
			y := b.At.Y - float64(n+1)*step
			width := letterWidth(b.Words, b.Height)
			if y < l.box.Min.Y || l.room(b.At.X, y, b.Height, width) < width {
				for i := range labels {
					labels[i].At.Y -= float64(n) / 2 * step
				}
				return
			}
		}
	}
}

// room returns how wide a line of height h can be that stands on base line y
// and is centred on x, or 0 as soon as that is less than the width needed. The
// place may lie outside the part: as no piece of the outline comes into it,
// all of it is inside or none.
func (l *lettering) room(x, y, h, needed float64) float64 {
	// What lies just the margin away is clear of the line.
	low, high := y-descent*h-letterMargin+geom.Coincident, y+h+letterMargin-geom.Coincident
	half := min(x-l.box.Min.X, l.box.Max.X-x)
	for i := range l.edges {
		e := &l.edges[i]
		if a, b, ok := e.between(low, high); ok {
			if half = min(half, max(a-x, x-b)); half < needed/2 {
				return 0
			}
		}
	}
	for _, b := range l.blocks {
		if b.Max.Y >= low && b.Min.Y <= high {
			half = min(half, max(b.Min.X-x, x-b.Max.X))
		}
	}
	return max(0, 2*(half-letterMargin))
}

// leading returns as many whole words, parted by plain spaces, from the front of s as fit into room at
// height h, "" when not even the first does.
func leading(s string, h, room float64) string {
	fits := ""
	for i, r := range s + " " {
		if r == ' ' {
			if letterWidth(s[:i], h) > room {
				break
			}
			fits = s[:i]
		}
	}
	return strings.TrimSpace(fits)
}

// letterWidth returns a width in mm that words of height h do not exceed in
// Helvetica (Adobe Core 14 font metrics), the widest of the plain faces that
// drawings are shown in. What isn't ASCII counts as wide as the widest.
func letterWidth(words string, h float64) float64 {
	sum := 0.0
	for _, r := range words {
		switch {
		case r == 0xa0: // a space at which no line is broken
			sum += 0.82
		case r > 126 || r == '@' || r == 'W':
			sum += 1.42
		case r == 'M' || r == 'm' || r == '%':
			sum += 1.24
		case r >= 'A' && r <= 'Z' || r == 'w' || r == '&':
			sum += 1.09
		default:
			sum += 0.82
		}
	}
	return sum * h
}

// bounds returns the box around a label, from its descenders to its capitals.
func (l Label) bounds() geom.Rect {
	w := letterWidth(l.Words, l.Height)
	x := 0.0
	if l.Middle {
		x = -w / 2
	}
	box := geom.Rect{Max: geom.Pt(w, (1+descent)*l.Height)}.Path().Apply(geom.Translate(geom.Pt(x, -descent*l.Height)))
	return box.Apply(geom.Rotate(l.Angle).Then(geom.Translate(l.At))).Bounds()
}

package paper

import (
	"cmp"
	"math"
	"slices"
)

// overlap is the least width in mm that two neighbouring windows share. It must
// exceed a printer's unprintable edge and leave room for a whole alignment
// cross on both tiles.
const overlap = 10

// span is a stretch along one axis, in mm, such as the place of a text.
type span struct{ lo, hi float64 }

// grown returns the span with d mm more on both sides.
func (s span) grown(d float64) span { return span{s.lo - d, s.hi + d} }

// cuts says where tiles lie along one axis: windows of one width starting at
// lo[i], the join between windows i and i+1 at seam[i], at least half the
// overlap inside both.
type cuts struct {
	lo   []float64
	seam []float64
	// How many texts and lines the seams come too near to, and how far in mm the
	// windows stand from where they would cover the stretch evenly.
	texts, lines int
	shift        float64
}

// better reports whether c is to be preferred where the pages are as many.
func (c cuts) better(o cuts) bool {
	return cmp.Or(cmp.Compare(c.texts, o.texts), cmp.Compare(c.lines, o.lines), cmp.Compare(c.shift, o.shift)) < 0
}

// axis is what tiles along one axis must cover and should heed.
type axis struct {
	need  span   // to be covered
	want  span   // holds need; covered where that takes no more windows
	texts []span // each to be whole in a window and, if possible, not cut
	lines []span // not to be cut if possible
}

// fewest returns how many windows cover a length.
func fewest(length, width float64) int {
	if length <= width {
		return 1
	}
	return int(math.Ceil((length - overlap) / (width - overlap)))
}

// mostWays is how many evenly spread places of the windows are tried.
const mostWays = 9

// ways returns places of windows of the given width, at least one, each of
// which covers the axis and holds every text whole in some window:
//
//   - the fewest windows, that overlap by exactly the overlap, centred or
//     shifted, the best of each ninth of the shifts that cover;
//   - as many windows, their overlaps unequal, with no text across a seam;
//   - without any of those windows packed from one end, the next one starting
//     early enough to hold any text that the last cuts off, and more of them if
//     need be.
//
// Every text must be shorter than width; width must exceed 2 overlap.
func (a axis) ways(width float64) []cuts {
	lo, hi := a.need.lo, a.need.hi
	n := fewest(hi-lo, width)
	if fewest(a.want.hi-a.want.lo, width) == n {
		lo, hi = a.want.lo, a.want.hi
	}
	if n == 1 {
		// The middle of what is wanted, as far as what is needed stays in.
		at := (a.want.lo + a.want.hi - width) / 2
		return []cuts{{lo: []float64{math.Max(hi-width, math.Min(at, lo))}}}
	}
	step := width - overlap
	slack := overlap + float64(n)*step - (hi - lo)
	even := func(shift float64) cuts {
		c := cuts{lo: make([]float64, n), seam: make([]float64, n-1)}
		for i := range n {
			c.lo[i] = lo - slack/2 + shift + float64(i)*step
			if i > 0 {
				c.seam[i-1] = c.lo[i] + overlap/2
			}
		}
		return c
	}
	var out []cuts
	add := func(c cuts, shift float64, into int) {
		if !c.whole(a.texts, width) {
			return
		}
		c.shift = math.Abs(shift)
		c.texts, c.lines = c.crossings(a.texts), c.crossings(a.lines)
		switch {
		case into == len(out):
			out = append(out, c)
		case c.better(out[into]):
			out[into] = c
		}
	}
	for i := range mostWays {
		// Shifts in steps of 1 mm, at most half the slack either way.
		half := math.Floor(slack / 2)
		from := math.Ceil(half * (2*float64(i)/mostWays - 1))
		to := half * (2*float64(i+1)/mostWays - 1)
		place := len(out)
		for s := from; s < to || i == mostWays-1 && s <= half; s++ {
			add(even(s), s, place)
		}
	}
	if c, ok := cleanSeams(lo, hi, width, n, a.texts); ok {
		add(c, slack, len(out))
	}
	if len(out) > 0 {
		return out
	}

	c := cuts{lo: []float64{lo}}
	for {
		w := c.lo[len(c.lo)-1]
		if w+width >= hi {
			break
		}
		next := w + step
		for _, s := range a.texts {
			if s.hi > w+width {
				next = math.Min(next, s.lo)
			}
		}
		from := next + overlap/2
		if n := len(c.seam); n > 0 {
			from = math.Max(from, c.seam[n-1])
		}
		c.lo = append(c.lo, next)
		c.seam = append(c.seam, freeSeam(from, w+width-overlap/2, a.texts))
	}
	c.texts, c.lines = c.crossings(a.texts), c.crossings(a.lines)
	return []cuts{c}
}

// cleanSeams puts each seam in turn as far from lo as the width allows without
// coming near a span, and reports whether n windows then reach hi.
func cleanSeams(lo, hi, width float64, n int, spans []span) (cuts, bool) {
	c := cuts{lo: []float64{lo}}
	at := lo - overlap/2
	for range n - 1 {
		from := at
		at += width - overlap
		// Back off before the span in the way, and the next, until none is.
		for moved := true; moved; {
			moved = false
			for _, s := range spans {
				if s.lo-clearance < at && at < s.hi+clearance {
					at, moved = s.lo-clearance, true
				}
			}
		}
		// A cell must stay wider than the overlap on either side of it.
		if at < from+2*overlap {
			return cuts{}, false
		}
		c.seam = append(c.seam, at)
		c.lo = append(c.lo, at-overlap/2)
	}
	return c, c.lo[n-1]+width >= hi
}

// whole reports whether each span lies in a window.
func (c cuts) whole(spans []span, width float64) bool {
	return !slices.ContainsFunc(spans, func(s span) bool {
		return !slices.ContainsFunc(c.lo, func(w float64) bool { return s.lo >= w && s.hi <= w+width })
	})
}

// crossings returns how many seams come too near to spans, counted by span.
func (c cuts) crossings(spans []span) int {
	n := 0
	for _, s := range spans {
		if slices.ContainsFunc(c.seam, s.near) {
			n++
		}
	}
	return n
}

// clearance in mm that keeps lettering off a cut line.
const clearance = 1

// near reports whether a seam at x comes too near to the span.
func (s span) near(x float64) bool { return s.lo-clearance < x && x < s.hi+clearance }

// crosses reports whether a seam at x comes too near to a span.
func crosses(x float64, spans []span) bool {
	return slices.ContainsFunc(spans, func(s span) bool { return s.near(x) })
}

// freeSeam returns the place from lo to hi nearest their middle, in steps of
// 1 mm, that crosses no span; the middle if there is none.
func freeSeam(lo, hi float64, spans []span) float64 {
	mid := (lo + hi) / 2
	for d := 0.0; d <= (hi-lo)/2; d++ {
		for _, x := range [2]float64{mid - d, mid + d} {
			if !crosses(x, spans) {
				return x
			}
		}
	}
	return mid
}

// cell returns the stretch of window i that is left after cutting along the
// seams.
func (c cuts) cell(i int, width float64) span {
	s := span{c.lo[i], c.lo[i] + width}
	if i > 0 {
		s.lo = c.seam[i-1]
	}
	if i < len(c.seam) {
		s.hi = c.seam[i]
	}
	return s
}

// cellsOf returns the first and the last window in whose cell a stretch shows.
func (c cuts) cellsOf(lo, hi float64) (first, last int) {
	for first < len(c.seam) && c.seam[first] < lo {
		first++
	}
	last = first
	for last < len(c.seam) && c.seam[last] < hi {
		last++
	}
	return first, last
}

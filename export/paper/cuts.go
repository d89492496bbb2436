package paper

import (
	"math"
	"slices"
)

// overlap is the least width in mm that two neighbouring windows share. It must
// exceed a printer's unprintable edge and leave room for a whole alignment
// cross on both tiles.
const overlap = 10

// span is a stretch along one axis, in mm, that should stay whole: the place of
// a text.
type span struct{ lo, hi float64 }

// cuts says where tiles lie along one axis: windows of one width starting at
// lo[i], the join between windows i and i+1 at seam[i], at least half the
// overlap inside both.
type cuts struct {
	lo   []float64
	seam []float64
}

// windows covers from lo to hi with as few windows of the given width as the
// spans allow: each span is whole in at least one window. In order of
// preference
//
//   - windows that overlap by exactly the overlap, centred on the stretch, or
//     shifted as little as helps, with no span across a seam;
//   - as many windows, their overlaps unequal, with no span across a seam;
//   - the first again, with spans across a seam, but each whole in one window;
//   - windows packed from lo, the next one starting early enough to hold any
//     span that the last cuts off, and more of them if need be.
//
// Every span must be shorter than width; width must exceed 2 overlap.
func windows(lo, hi, width float64, spans []span) cuts {
	if hi-lo <= width {
		return cuts{lo: []float64{(lo + hi - width) / 2}}
	}
	step := width - overlap
	n := int(math.Ceil((hi - lo - overlap) / step))
	slack := overlap + float64(n)*step - (hi - lo)
	even := func(shift float64) cuts {
		var c cuts
		for i := range n {
			w := lo - slack/2 + shift + float64(i)*step
			c.lo = append(c.lo, w)
			if i > 0 {
				c.seam = append(c.seam, w+overlap/2)
			}
		}
		return c
	}
	shifted := func(good func(cuts) bool) (cuts, bool) {
		// 0, 1, -1, 2, -2, ... mm, at most half the slack either way.
		for d := 0.0; d <= slack/2; d++ {
			for _, shift := range [2]float64{d, -d} {
				if c := even(shift); good(c) {
					return c, true
				}
			}
		}
		return cuts{}, false
	}
	if c, ok := shifted(func(c cuts) bool { return c.clean(spans) }); ok {
		return c
	}
	if c, ok := cleanSeams(lo, hi, width, n, spans); ok {
		return c
	}
	if c, ok := shifted(func(c cuts) bool { return c.whole(spans, width) }); ok {
		return c
	}

	c := cuts{lo: []float64{lo}}
	for {
		w := c.lo[len(c.lo)-1]
		if w+width >= hi {
			break
		}
		next := w + step
		for _, s := range spans {
			if s.hi > w+width {
				next = math.Min(next, s.lo)
			}
		}
		from := next + overlap/2
		if n := len(c.seam); n > 0 {
			from = math.Max(from, c.seam[n-1])
		}
		c.lo = append(c.lo, next)
		c.seam = append(c.seam, freeSeam(from, w+width-overlap/2, spans))
	}
	return c
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

// clean reports whether every span keeps clear of the seams: each is then whole
// in the window of its cell.
func (c cuts) clean(spans []span) bool {
	return !slices.ContainsFunc(c.seam, func(x float64) bool { return crosses(x, spans) })
}

// clearance in mm that keeps lettering off a cut line.
const clearance = 1

// crosses reports whether a seam at x comes too near to a span.
func crosses(x float64, spans []span) bool {
	return slices.ContainsFunc(spans, func(s span) bool { return s.lo-clearance < x && x < s.hi+clearance })
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

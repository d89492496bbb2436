package lettering

import (
	"strings"

	"overbend/geom"
)

// Apart is what lettering keeps off edges, lines and holes, in mm.
const Apart = 2.0

// pitch is from base line to base line, in heights.
const pitch = 1.6

// Line is a line of lettering in place. At is the middle of its base line.
type Line struct {
	At     geom.Point
	Words  string
	Height float64 // of capitals, mm
}

func (l Line) box() geom.Rect {
	b := Face{Height: l.Height}.Box(l.Words)
	return b.Shift(l.At.Sub(geom.Pt(b.Width()/2, 0)))
}

// Inside places lines of words inside a closed outline, [Apart] clear of it and
// of obstacles. All lines have one height, the first of heights (in mm) with
// which all find room, and stand under each other in one column from the top
// down: on the outline's middle if they fit there at all, or beside it. Only
// then are long lines broken at spaces. What found no room is left out, from the
// first such line on.
func Inside(outline geom.Path, o Obstacles, words []string, heights ...float64) []Line {
	in := interior{outline: outline, box: outline.Bounds(), busy: o[:len(o):len(o)]}
	in.busy.Line(outline, 0)
	var best []Line
	fewest := len(words)
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
		for _, h := range heights {
			for _, c := range try.columns {
				placed, left := in.column(words, h, in.box.Min.X+c*in.box.Width(), try.wrap)
				if left == 0 {
					in.settle(placed)
					return placed
				}
				if left < fewest {
					best, fewest = placed, left
				}
			}
		}
	}
	return best
}

// interior is where lettering may stand.
type interior struct {
	outline geom.Path
	box     geom.Rect // around it
	busy    Obstacles // the outline among them
}

// free reports whether a line has room. As no piece of the outline comes into
// its box, all of it is inside or none.
func (in *interior) free(l Line) bool {
	return in.busy.Clear(l.box(), Apart) && in.outline.Contains(l.At)
}

// column places words of height h about x and returns those lines that found
// room whole, and how many did not.
func (in *interior) column(words []string, h, x float64, wrap bool) (out []Line, left int) {
	y := in.box.Max.Y - Apart - h
	for i, rest := range words {
		whole := len(out)
		for rest = strings.TrimSpace(rest); rest != ""; {
			if y < in.box.Min.Y {
				return out[:whole], len(words) - i
			}
			l, ok := in.leading(Line{geom.Pt(x, y), rest, h}, wrap)
			if !ok {
				y -= h / 2
				continue
			}
			out = append(out, l)
			y -= pitch * h
			rest = strings.TrimSpace(rest[len(l.Words):])
		}
	}
	return out, 0
}

// leading returns l if it has room or, where it may be broken, as many whole
// words from its front as have.
func (in *interior) leading(l Line, wrap bool) (Line, bool) {
	for {
		if in.free(l) {
			return l, true
		}
		end := strings.LastIndexByte(l.Words, ' ')
		if !wrap || end < 0 {
			return l, false
		}
		l.Words = strings.TrimRight(l.Words[:end], " ")
	}
}

// settle moves lines down together, to the middle of how far they can go.
func (in *interior) settle(lines []Line) {
	if len(lines) == 0 {
		return
	}
	step := lines[0].Height / 2
	down := func(l Line, n int) Line {
		l.At.Y -= float64(n) / 2 * step
		return l
	}
	n := 0
	for ; ; n++ {
		for _, l := range lines {
			if l = down(l, 2*(n+1)); !in.free(l) {
				for i := range lines {
					lines[i] = down(lines[i], n)
				}
				return
			}
		}
	}
}

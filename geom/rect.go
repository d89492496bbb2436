package geom

import "math"

// Rect is an axis-parallel box from Min to Max, in mm. The zero value is not
// the empty box but the single point at the origin; use [EmptyRect] to start a
// union.
type Rect struct{ Min, Max Point }

// EmptyRect returns the box that holds no point: its union with r is r.
func EmptyRect() Rect {
	return Rect{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
}

// Empty reports whether r holds no point.
func (r Rect) Empty() bool { return !(r.Min.X <= r.Max.X && r.Min.Y <= r.Max.Y) }

// Width returns the extent of r in x, in mm.
func (r Rect) Width() float64 { return r.Max.X - r.Min.X }

// Height returns the extent of r in y, in mm.
func (r Rect) Height() float64 { return r.Max.Y - r.Min.Y }

// Centre returns the middle of r.
func (r Rect) Centre() Point { return r.Min.Lerp(r.Max, 0.5) }

// Add returns the smallest box that holds r and p.
func (r Rect) Add(p Point) Rect {
	return Rect{
		Point{math.Min(r.Min.X, p.X), math.Min(r.Min.Y, p.Y)},
		Point{math.Max(r.Max.X, p.X), math.Max(r.Max.Y, p.Y)},
	}
}

// Union returns the smallest box that holds both r and s.
func (r Rect) Union(s Rect) Rect {
	if s.Empty() {
		return r
	}
	return r.Add(s.Min).Add(s.Max)
}

// Path returns the counter-clockwise outline of r, from Min on.
func (r Rect) Path() Path {
	return Lines(r.Min, Pt(r.Max.X, r.Min.Y), r.Max, Pt(r.Min.X, r.Max.Y)).Close()
}

// Shift returns r moved by d.
func (r Rect) Shift(d Point) Rect { return Rect{r.Min.Add(d), r.Max.Add(d)} }

// Grow returns r with each side moved outwards by d mm (inwards when d < 0).
func (r Rect) Grow(d float64) Rect {
	return Rect{Point{r.Min.X - d, r.Min.Y - d}, Point{r.Max.X + d, r.Max.Y + d}}
}

// Holds reports whether s lies in r, with slack mm allowed on every side.
func (r Rect) Holds(s Rect, slack float64) bool {
	return s.Min.X >= r.Min.X-slack && s.Min.Y >= r.Min.Y-slack &&
		s.Max.X <= r.Max.X+slack && s.Max.Y <= r.Max.Y+slack
}

// Has reports whether p lies in r, its border included.
func (r Rect) Has(p Point) bool {
	return r.Min.X <= p.X && p.X <= r.Max.X && r.Min.Y <= p.Y && p.Y <= r.Max.Y
}

// Overlaps reports whether r and s share more than a border of gap mm:
// boxes that are gap or further apart do not overlap.
func (r Rect) Overlaps(s Rect, gap float64) bool {
	return r.Min.X < s.Max.X+gap && s.Min.X < r.Max.X+gap &&
		r.Min.Y < s.Max.Y+gap && s.Min.Y < r.Max.Y+gap
}

package tooling

// References:
//
//	[skyline] J. Jylänki, A thousand ways to pack the bin (2010), section 6,
//	the bottom-left rule of the skyline algorithms (from memory).

import (
	"cmp"
	"math"
	"slices"

	"overbend/geom"
)

// Sheet is the plate that parts are cut from. Sizes in mm.
type Sheet struct {
	Width, Height float64
	Gap           float64 // between parts
	Edge          float64 // from a part to the sheet's edge
}

// Placement says where a part goes: on which sheet, counted from 0, and the
// shift and quarter turn that bring it there. A sheet's lower left corner is
// the origin.
type Placement struct {
	Sheet int
	Move  geom.Transform
}

// Layout is a nest of parts on sheets.
type Layout struct {
	Placements []Placement // in the order of the parts
	Sheets     int
	Used       []float64 // share of each sheet's area that becomes parts, 0 to 1
}

// Nest places the parts on as few sheets as a plain rule finds: each part is
// the box around it and its gap, largest first, as it is or turned by a
// quarter, on the first sheet that has room, as low there as it goes and then
// as far left ([skyline]). Parts on one sheet keep the gap and the edge.
//
// A part too large for the sheet is a [*SheetError].
func Nest(parts []Part, sheet Sheet) (Layout, error) {
	if err := positive("sheet", named{Width, sheet.Width}, named{Height, sheet.Height}); err != nil {
		return Layout{}, err
	}
	for _, d := range []named{{PartGap, sheet.Gap}, {Edge, sheet.Edge}} {
		if err := within("sheet", d.name, d.value); err != nil {
			return Layout{}, err
		}
	}
	// Every box carries one gap, above and to the right of it; so does the sheet.
	width := sheet.Width - 2*sheet.Edge + sheet.Gap
	height := sheet.Height - 2*sheet.Edge + sheet.Gap

	order := make([]int, len(parts))
	boxes := make([]geom.Rect, len(parts))
	for i, p := range parts {
		order[i], boxes[i] = i, p.Bounds()
		w, h := boxes[i].Width()+sheet.Gap, boxes[i].Height()+sheet.Gap
		if !(fits(w, width) && fits(h, height) || fits(h, width) && fits(w, height)) {
			return Layout{}, &SheetError{p.Name, boxes[i].Width(), boxes[i].Height(), sheet}
		}
	}
	// Tall boxes first: they shape the skyline, small ones fill it.
	slices.SortStableFunc(order, func(a, b int) int {
		long := func(r geom.Rect) float64 { return max(r.Width(), r.Height()) }
		return cmp.Or(cmp.Compare(long(boxes[b]), long(boxes[a])),
			cmp.Compare(boxes[b].Width()*boxes[b].Height(), boxes[a].Width()*boxes[a].Height()))
	})

	var out Layout
	out.Placements = make([]Placement, len(parts))
	var sheets []skyline
	for _, i := range order {
		w, h := boxes[i].Width()+sheet.Gap, boxes[i].Height()+sheet.Gap
		n := 0
		var at geom.Point
		var turned bool
		for ; ; n++ {
			if n == len(sheets) {
				sheets = append(sheets, skyline{width: width, height: height, steps: []step{{0, 0, width}}})
				out.Used = append(out.Used, 0)
			}
			var ok bool
			if at, turned, ok = sheets[n].place(w, h); ok {
				break
			}
		}
		move := geom.Translate(boxes[i].Min.Mul(-1))
		if turned {
			// A quarter turn leaves the box left of the y axis.
			move = move.Then(geom.Transform{B: -1, C: 1}).Then(geom.Translate(geom.Pt(boxes[i].Height(), 0)))
		}
		move = move.Then(geom.Translate(at.Add(geom.Pt(sheet.Edge, sheet.Edge))))
		out.Placements[i] = Placement{n, move}
		out.Used[n] += parts[i].Area() / (sheet.Width * sheet.Height)
	}
	out.Sheets = len(sheets)
	return out, nil
}

// fits reports whether a fits into b, rounding aside.
func fits(a, b float64) bool { return a <= b+geom.Coincident }

// skyline is the upper edge of what has been placed on a sheet: level steps
// from left to right.
type skyline struct {
	width, height float64
	steps         []step
}

// step is a level stretch of a skyline: from x on, width wide, at height y.
type step struct{ x, y, width float64 }

// place puts a box of w by h, or turned by a quarter, as low as it goes and
// then as far left; ok is false when it goes nowhere.
func (s *skyline) place(w, h float64) (at geom.Point, turned, ok bool) {
	best := math.Inf(1) // top of the box
	for _, turn := range [...]bool{false, true} {
		bw, bh := w, h
		if turn {
			bw, bh = h, w
		}
		for i := range s.steps {
			y, fit := s.rest(i, bw, bh)
			// Lower by more than rounding, else the place found first stays.
			if fit && y+bh < best-geom.Coincident {
				best, at, turned, ok = y+bh, geom.Pt(s.steps[i].x, y), turn, true
			}
		}
	}
	if ok {
		if turned {
			w, h = h, w
		}
		s.raise(at, w, h)
	}
	return at, turned, ok
}

// rest returns the height at which a box of w by h comes to rest with its left
// side at step i, and whether it stays on the sheet.
func (s *skyline) rest(i int, w, h float64) (float64, bool) {
	x := s.steps[i].x
	if !fits(x+w, s.width) {
		return 0, false
	}
	y := 0.0
	for _, t := range s.steps[i:] {
		if t.x >= x+w-geom.Coincident {
			break
		}
		y = max(y, t.y)
	}
	return y, fits(y+h, s.height)
}

// raise lifts the skyline to the top of a box.
func (s *skyline) raise(at geom.Point, w, h float64) {
	var out []step
	right := at.X + w
	for _, t := range s.steps {
		end := t.x + t.width
		if t.x < at.X {
			out = append(out, step{t.x, t.y, min(end, at.X) - t.x})
		}
		if t.x <= at.X && at.X < end {
			out = append(out, step{at.X, at.Y + h, w})
		}
		if end > right+geom.Coincident {
			x := max(t.x, right)
			out = append(out, step{x, t.y, end - x})
		}
	}
	// Steps of one height are one.
	merged := out[:0]
	for _, t := range out {
		if k := len(merged); k > 0 && math.Abs(merged[k-1].y-t.y) < geom.Coincident {
			merged[k-1].width = t.x + t.width - merged[k-1].x
			continue
		}
		merged = append(merged, t)
	}
	s.steps = merged
}

package sheet

import (
	"fmt"
	"math"

	"overbend/export/drawing"
	"overbend/geom"
	"overbend/profiles"
)

// Changes of the section are drawn larger than they are, or they would be
// narrower than the lines.
const (
	shown        = 1.4 // the most that a line then moves, mm on paper
	mostMultiple = 20
)

// section draws the tube's section before and after the bend, the changes
// larger than they are.
func (s *sheet) section(f geom.Rect) {
	room := under(f)
	room.Max.Y += 0.5
	t := s.p.Job.Tube
	d, k, scale := fitted(room.Width(), room.Height(), geom.Pt(t.Width, t.Depth), 1, func(k float64, _ int) (drawing.Drawing, bool) {
		return s.sectionPicture(k, s.multiple(k)), true
	})
	if k > 0 {
		s.place(d, room)
		if m := s.multiple(k); m > 1 {
			long := scale + fmt.Sprintf(", change ×%g", m)
			if scale += fmt.Sprintf(", ×%g", m); boldWidth("TUBE")+2+width(long) <= room.Width() {
				scale = long
			}
		}
	}
	s.heading(f, 0, "TUBE", scale)
}

// multiple returns by how much changes are drawn larger, a whole number.
func (s *sheet) multiple(k float64) float64 {
	t, a := s.p.Job.Tube, s.p.After
	most := max(a.InnerWall-t.Wall, t.Wall-a.OuterWall)
	if t.Shape == profiles.Rectangle {
		most = max(most, (a.InnerWidth-t.Width)/2, (t.Width-a.OuterWidth)/2)
	}
	return max(1, min(mostMultiple, math.Floor(shown/(k*most))))
}

// sectionPicture draws the section about its middle, the outside of the bend
// on top, at k mm of paper per mm.
func (s *sheet) sectionPicture(k, multiple float64) drawing.Drawing {
	t, a := s.p.Job.Tube, s.p.After
	var d drawing.Drawing
	more := func(before, after float64) float64 { return k * (before + multiple*(after-before)) }
	outWall, inWall := more(t.Wall, a.OuterWall), more(t.Wall, a.InnerWall)
	deep, wall := k*t.Depth/2, k*t.Wall
	bore := drawing.Paper
	if s.p.Filler != nil {
		bore = drawing.Filler
	}
	top, bottom := k*t.Width/2, k*t.Width/2
	if t.Shape == profiles.Round {
		r := (2*deep - outWall - inWall) / 2
		d.Add(
			drawing.Ring{Circle: geom.Circle{Radius: deep}, Role: drawing.Visible, Tone: drawing.Tube},
			drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(0, (inWall-outWall)/2), Radius: r}, Role: drawing.Visible, Tone: bore},
			drawing.Ring{Circle: geom.Circle{Radius: deep - wall}, Role: drawing.Phantom})
	} else {
		top, bottom = more(t.Width, a.OuterWidth)/2, more(t.Width, a.InnerWidth)/2
		corner := k * t.Corner
		// At height y the sides stand half a width apart that runs from the
		// inner face's to the outer's.
		side := func(y float64) float64 { return bottom + (top-bottom)*(y+deep)/(2*deep) }
		d.Add(drawing.Stroke{Path: geom.Rounded(corner, geom.Pt(-bottom, -deep), geom.Pt(bottom, -deep), geom.Pt(top, deep), geom.Pt(-top, deep)), Role: drawing.Visible, Tone: drawing.Tube})
		lo, hi := -deep+inWall, deep-outWall
		d.Add(drawing.Stroke{Path: geom.Rounded(max(0, corner-wall),
			geom.Pt(-side(lo)+wall, lo), geom.Pt(side(lo)-wall, lo), geom.Pt(side(hi)-wall, hi), geom.Pt(-side(hi)+wall, hi)),
			Role: drawing.Visible, Tone: bore})
		w := k * t.Width / 2
		d.Add(drawing.Stroke{Path: geom.Rounded(corner, geom.Pt(-w, -deep), geom.Pt(w, -deep), geom.Pt(w, deep), geom.Pt(-w, deep)), Role: drawing.Phantom})
		// Widths to be measured: outer above, inner below.
		dimension(&d, geom.Pt(-top, deep), geom.Pt(top, deep), 1.4, s.f.given(a.OuterWidth))
		dimension(&d, geom.Pt(-bottom, -deep), geom.Pt(bottom, -deep), -5.8, s.f.given(a.InnerWidth))
	}
	// Walls, by leaders from the right.
	x := max(top, bottom) + 2.5
	from := min(top, bottom) / 3
	ys := [2]float64{deep - outWall/2, -deep + inWall/2}
	apart := max(0, small*(1+below)+0.6-(ys[0]-ys[1])) / 2
	for i, wall := range [2]float64{a.OuterWall, a.InnerWall} {
		to := ys[i] + apart
		if i == 1 {
			to = ys[i] - apart
		}
		d.Line(drawing.Thin, geom.Pt(from, ys[i]), geom.Pt(x-1, ys[i]), geom.Pt(x, to))
		d.Add(dot(geom.Pt(from, ys[i])), words(x+0.8, to-small/2, "wall "+s.f.given(wall), drawing.Left))
	}
	return d
}

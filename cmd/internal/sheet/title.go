package sheet

import (
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/geom"
)

// titleRow is the least height of the title block's rows in mm.
const titleRow = 6.8

// titleField is a data field of the title block (ISO 7200, from memory).
type titleField struct {
	width       float64
	name, value string
}

// titleRows returns the title block's fields, row by row.
func (s *sheet) titleRows(page, side string) [][]titleField {
	j := s.p.Job
	units := "mm, kN"
	if s.u == quantity.Inches {
		units = "in, lbf"
	}
	return [][]titleField{
		{{82, "owner", j.Drawing.Owner}, {58, "job sheet", side}, {40, "page", page}},
		{{82, "title", j.Name}, {58, "number", j.Drawing.Number}, {40, "rev", j.Drawing.Revision}},
		{{52, "drawn", j.Drawing.Drawn}, {52, "approved", j.Drawing.Approved}, {40, "date", j.Drawing.Date}, {36, "units", units}},
	}
}

// set returns widths of a row's fields, its values broken into lines, the
// lettering in which they stand and the row's height, mm.
func (s *sheet) set(row []titleField, total float64) (widths []float64, lines [][]string, values pen, height float64) {
	name := pen{smallest}
	needs := make([]float64, len(row))
	widths = make([]float64, len(row))
	for k, f := range row {
		widths[k] = f.width * total / 180
		needs[k] = 1.2 + name.width(f.name) + 2 + name.boldWidth(f.value) + 1.6
	}
	shareOut(widths, needs)
	for _, h := range sizes {
		values = pen{h}
		lines, height = nil, titleRow
		for k, f := range row {
			room := widths[k] - 1.2 - name.width(f.name) - 2 - 1
			l := values.face(true).Wrap(f.value, room, 0)
			lines = append(lines, l)
			height = max(height, float64(len(l))*values.pitch()+1.6)
		}
		if height == titleRow {
			break
		}
	}
	return widths, lines, values, height
}

// titleHeight returns the title block's height in mm.
func (s *sheet) titleHeight() float64 {
	h := 0.0
	for _, row := range s.titleRows("8/8", "front, at the bench, continued") {
		_, _, _, height := s.set(row, s.width_-2*inset)
		h += height
	}
	return h
}

// title draws the page's frame and its title block.
func (s *sheet) title(page, side string) {
	frame := geom.Rect{Min: geom.Pt(inset, inset), Max: geom.Pt(s.width_-inset, s.height-inset)}
	s.d.Box(drawing.Frame, drawing.NoTone, frame)
	y := inset + s.titleHeight()
	s.d.Line(drawing.Visible, geom.Pt(frame.Min.X, y), geom.Pt(frame.Max.X, y))
	name := pen{smallest}
	for i, row := range s.titleRows(page, side) {
		widths, lines, values, height := s.set(row, frame.Width())
		if i > 0 {
			s.d.Line(drawing.Thin, geom.Pt(frame.Min.X, y), geom.Pt(frame.Max.X, y))
		}
		x := frame.Min.X
		for k, f := range row {
			if k > 0 {
				s.d.Line(drawing.Thin, geom.Pt(x, y), geom.Pt(x, y-height))
			}
			base := y - height/2
			s.d.Add(name.words(x+1.2, base-name.h/2, f.name, drawing.Left))
			at := base + float64(len(lines[k])-1)*values.pitch()/2 - values.h/2
			for _, l := range lines[k] {
				if l != "" {
					s.d.Add(values.bold(x+1.2+name.width(f.name)+2, at, l, drawing.Left))
				}
				at -= values.pitch()
			}
			x += widths[k]
		}
		y -= height
	}
}

// shareOut moves width from fields that have more than they need to those that
// have less, the least short first, all in mm.
func shareOut(widths, needs []float64) {
	spare := 0.0
	for k, w := range widths {
		spare += max(0, w-needs[k])
	}
	left := spare
	for left > 0 {
		least := -1
		for k, w := range widths {
			if short := needs[k] - w; short > 0 && (least < 0 || short < needs[least]-widths[least]) {
				least = k
			}
		}
		if least < 0 {
			break
		}
		given := min(left, needs[least]-widths[least])
		if left -= given; left <= 0 {
			widths[least] += given
			break
		}
		widths[least] = needs[least]
	}
	for k, w := range widths {
		if d := w - needs[k]; d > 0 {
			widths[k] -= d * (spare - left) / spare
		}
	}
}

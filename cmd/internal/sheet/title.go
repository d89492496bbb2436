package sheet

import (
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// Title block: 180 mm wide, data fields by ISO 7200 (both from memory).
const (
	titleWidth  = 180.0
	titleRow    = 6.1
	titleHeight = 4 * titleRow
)

// title draws the title block with its lower right corner at corner.
func (s *sheet) title(corner geom.Point) {
	j := s.p.Job
	name := j.Name
	if name == "" {
		name = "unnamed job"
	}
	units := "mm, kN"
	if s.u == quantity.Inches {
		units = "in, lbf"
	}
	// Widths of each row's fields add up to the title's.
	type field struct {
		width       float64
		name, value string
	}
	rows := [][]field{
		{{82, "owner", j.Drawing.Owner}, {58, "document", "job sheet"}, {40, "sheet", "1/1"}},
		{{82, "title", name}, {58, "number", j.Drawing.Number}, {40, "rev", j.Drawing.Revision}},
		{{82, "tube", s.f.tube(j.Tube) + " " + j.Material.Name}, {58, "date", j.Drawing.Date}, {40, "units", units}},
		{{38, "drawn", j.Drawing.Drawn}, {44, "approved", j.Drawing.Approved}, {58, "tolerance", "ISO 2768-m *"}, {40, "scale", "as noted"}},
	}
	total := min(titleWidth, corner.X-inset)
	left := corner.X - total
	s.d.Box(drawing.Visible, drawing.NoTone, geom.Rect{Min: geom.Pt(left, corner.Y), Max: corner.Add(geom.Pt(0, titleHeight))})
	for i, row := range rows {
		y := corner.Y + titleHeight - float64(i+1)*titleRow
		if i < len(rows)-1 {
			s.d.Line(drawing.Thin, geom.Pt(left, y), geom.Pt(corner.X, y))
		}
		x := left
		base := y + 1.6
		widths := make([]float64, len(row))
		needs := make([]float64, len(row))
		for k, f := range row {
			widths[k] = f.width * total / titleWidth
			needs[k] = 1.2 + width(f.name) + 2 + boldWidth(f.value) + 1.6
		}
		shareOut(widths, needs)
		for k, f := range row {
			f.width = widths[k]
			if k > 0 {
				s.d.Line(drawing.Thin, geom.Pt(x, y), geom.Pt(x, y+titleRow))
			}
			s.d.Add(words(x+1.2, base, f.name, drawing.Left))
			from := x + 1.2 + width(f.name) + 2
			value := lettering.Face{Height: small, Bold: true}.Fit(f.value, x+f.width-1-from)
			if value != "" {
				s.d.Add(bold(from, base, value, drawing.Left))
			}
			x += f.width
		}
	}
	// What is left of the block on a wider sheet.
	if gap := left - inset; gap > small*(1+below)+1.5 {
		s.d.Line(drawing.Thin, geom.Pt(inset, corner.Y+titleHeight), geom.Pt(left, corner.Y+titleHeight))
		t := bold(inset+gap/2+small/2, corner.Y+titleHeight/2, "overbend", drawing.Middle)
		t.Angle = 90 * geom.Degree
		s.d.Add(t)
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

package kit

import (
	"bytes"
	"fmt"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/sheet"
	"overbend/export/drawing"
	"overbend/export/pdf"
	"overbend/export/svg"
	"overbend/geom"
)

// border is the white edge round a print that has its own sheet size, mm: more
// than any printer leaves unprinted.
const border = 10.0

// framed returns a print on a sheet of its own size, with bars and square to
// check the scale below it.
func framed(d drawing.Drawing) drawing.Drawing {
	box := d.Bounds()
	_, size := drawing.ScaleMarks(geom.Point{})
	marks, area := drawing.ScaleMarks(geom.Pt(box.Min.X, box.Min.Y-space-size.Height()))
	out := drawing.Drawing{Title: d.Title, Shapes: append(append([]drawing.Shape(nil), d.Shapes...), marks...)}
	out.Page = box.Union(area).Grow(border)
	return out
}

// printFiles returns the SVG prints, the printer's pages as SVG and everything
// as one PDF.
func printFiles(p *plan.Plan, o Options) ([]File, error) {
	var out []File
	write := func(name string, d drawing.Drawing, purpose string) error {
		var b bytes.Buffer
		if err := svg.Write(&b, d); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		out = append(out, File{name, b.Bytes(), d.Sheet().Width(), d.Sheet().Height(), purpose})
		return nil
	}
	job, err := sheet.Draw(p, o.Units, o.Paper.Paper, o.Paper.Margin)
	if err != nil {
		return nil, err
	}
	if err := write("sheet.svg", job, "job sheet, to pin up by the press"); err != nil {
		return nil, err
	}
	doc := pdf.Document{Title: p.Job.Name, Pages: []drawing.Drawing{job}}
	for _, q := range prints(p, o) {
		if err := write(q.name+".svg", framed(q.d), q.purpose+", 1:1"); err != nil {
			return nil, err
		}
		if !q.paper {
			continue
		}
		pages, err := o.Paper.Pages(q.d, q.title)
		if err != nil {
			return nil, err
		}
		doc.Pages = append(doc.Pages, pages...)
		for i, page := range pages {
			name := fmt.Sprintf("%s-page-%d.svg", q.name, i+1)
			if err := write(name, page, fmt.Sprintf("%s, printer page %d of %d, 1:1", q.name, i+1, len(pages))); err != nil {
				return nil, err
			}
		}
	}
	var b bytes.Buffer
	if err := pdf.Write(&b, doc); err != nil {
		return nil, fmt.Errorf("print.pdf: %w", err)
	}
	first := doc.Pages[0].Sheet()
	return append(out, File{"print.pdf", b.Bytes(), first.Width(), first.Height(), fmt.Sprintf("job sheet and all prints at 1:1, %d pages", len(doc.Pages))}), nil
}

package kit

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/sheet"
	"overbend/export/drawing"
	"overbend/export/paper"
	"overbend/export/pdf"
	"overbend/export/svg"
	"overbend/geom"
)

// border is the white edge round a print that has its own sheet size, mm: more
// than any printer leaves unprinted.
const border = 10.0

// framed returns a print on a sheet of its own size, with bars and square to
// check the scale below it, corrected for a printer's error, and its scale in
// words. What is larger than any sheet can be, a long blank or hoop, is drawn
// smaller, bars and all.
func framed(d drawing.Drawing, printer paper.Layout) (drawing.Drawing, string) {
	box := d.Bounds()
	_, size := printer.Rule.ScaleMarks(geom.Point{})
	marks, area := printer.Rule.ScaleMarks(geom.Pt(box.Min.X, box.Min.Y-space-size.Height()))
	out := drawing.Drawing{Title: d.Title, Shapes: append(append([]drawing.Shape(nil), d.Shapes...), marks...)}
	ink := box.Union(area)
	out.Page = ink.Grow(border)
	if x, y := printer.ScaleX, printer.ScaleY; x > 0 && y > 0 && (x != 1 || y != 1) {
		// The correction works about the middle of the sheet, which must still
		// hold the ink where it grows.
		out.ScaleX, out.ScaleY = 1/x, 1/y
		more := geom.Pt(max(0, 1/x-1)*ink.Width()/2, max(0, 1/y-1)*ink.Height()/2)
		out.Page = geom.Rect{Min: out.Page.Min.Sub(more), Max: out.Page.Max.Add(more)}
	}
	if max(out.Page.Width(), out.Page.Height()) <= drawing.MaxSheet {
		return out, "1:1"
	}
	// ISO 5455's reductions; a job file's largest lengths fit the last.
	const last = 50
	for _, n := range []float64{2, 5, 10, 20, last} {
		if small := out.Apply(geom.Scale(1 / n)); max(small.Page.Width(), small.Page.Height()) <= drawing.MaxSheet || n == last {
			return small, fmt.Sprintf("1:%g, too large for paper at 1:1", n)
		}
	}
	panic("kit: no last scale")
}

// layout is what a kit has on paper.
type layout struct {
	job   []drawing.Drawing // pages of the job sheet
	parts []print
	pages [][]drawing.Drawing // of each part, on the printer's paper
}

// lay lays the job sheet and every part out at the same time; the sheet, which
// takes longest, first.
func lay(p *plan.Plan, o Options) (layout, error) {
	l := layout{parts: prints(p, o)}
	l.pages = make([][]drawing.Drawing, len(l.parts))
	err := each(len(l.parts)+1, func(i int) (err error) {
		switch {
		case i == 0:
			l.job, err = jobSheet(p, o)
		case l.parts[i-1].paper:
			// What is larger than all pages together still has its drawing as a whole.
			part := &l.parts[i-1]
			if l.pages[i-1], err = o.Paper.Pages(part.d, part.title); errors.Is(err, paper.ErrTooMany) {
				part.purpose += ", too large to tape together from " + o.Paper.Paper.Name + " pages"
				err = nil
			}
		}
		return err
	})
	return l, err
}

// all returns every page in order.
func (l layout) all() []drawing.Drawing {
	return slices.Concat(append([][]drawing.Drawing{l.job}, l.pages...)...)
}

// Pages returns the pages of a kit's PDF: the job sheet and all prints at true
// size. The plan must hold all its parts.
func Pages(p *plan.Plan, o Options) ([]drawing.Drawing, error) {
	l, err := lay(p, o)
	return l.all(), err
}

// printTasks returns the SVG prints, the printer's pages as SVG and everything
// as one PDF.
func printTasks(p *plan.Plan, o Options) ([]task, error) {
	l, err := lay(p, o)
	if err != nil {
		return nil, err
	}
	parts, pages, job := l.parts, l.pages, l.job
	var out []task
	for i, page := range job {
		name, purpose := fmt.Sprintf("sheet-%d.svg", i+1), "job sheet, continued"
		switch i {
		case 0:
			name, purpose = "sheet-front.svg", "job sheet, front: at the bench"
		case 1:
			name, purpose = "sheet-back.svg", "job sheet, back: at the press"
		}
		out = append(out, svgTask(name, page, purpose))
	}
	doc := pdf.Document{Title: p.Job.Name, Pages: l.all()}
	for i, q := range parts {
		whole, scale := framed(q.d, o.Paper)
		out = append(out, svgTask(q.name+".svg", whole, q.purpose+", "+scale))
		for k, page := range pages[i] {
			out = append(out, svgTask(fmt.Sprintf("%s-page-%d.svg", q.name, k+1), page,
				fmt.Sprintf("%s, printer page %d of %d, 1:1", q.name, k+1, len(pages[i]))))
		}
	}
	first, which := job[0].Sheet(), "all prints"
	for i, q := range parts {
		if q.paper && len(pages[i]) == 0 {
			which = "the prints that pages can be taped together for"
		}
	}
	return append(out, task{
		name: "print.pdf", width: first.Width(), height: first.Height(),
		purpose: fmt.Sprintf("job sheet and %s at 1:1, %d pages", which, len(doc.Pages)),
		write:   func(w io.Writer) error { return pdf.Write(w, doc) },
	}), nil
}

// jobSheet returns the job sheet on the printer's paper, or on A4 when that is
// too small for one.
func jobSheet(p *plan.Plan, o Options) ([]drawing.Drawing, error) {
	files := quantity.Millimetres
	if o.DXF.Inches {
		files = quantity.Inches
	}
	d, err := sheet.Draw(p, o.Units, files, o.Paper.Paper, o.Paper.Margin)
	if err == nil {
		return d, nil
	}
	a4, _ := paper.Named("A4")
	if d, fallback := sheet.Draw(p, o.Units, files, a4, border); fallback == nil {
		return d, nil
	}
	return nil, err
}

func svgTask(name string, d drawing.Drawing, purpose string) task {
	return task{
		name: name, width: d.Sheet().Width(), height: d.Sheet().Height(), purpose: purpose,
		write: func(w io.Writer) error { return svg.Write(w, d) },
	}
}

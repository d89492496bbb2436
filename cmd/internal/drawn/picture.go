package drawn

import (
	"fmt"
	"math"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// Sizes on the picture, mm of paper.
const (
	pictureWidth  = 180.0
	pictureHeight = 120.0
	pictureEdge   = 8.0
	numberRing    = 4.0
)

// mostDrawn is how many vertices of the drawing's lines are drawn under what was
// found; more say nothing on a picture of this size.
const mostDrawn = 40000

// Picture draws what was found over the drawing, to fit a page: the drawing's lines
// narrow, each candidate's tube toned, with its centreline, tangent points, number
// and what it is.
func (f Found) Picture(title string, u quantity.Units) drawing.Drawing {
	lines := strings.Split(strings.TrimSuffix(f.List(u), "\n"), "\n")
	if len(f.Candidates) == 0 {
		lines = nil
		for _, n := range f.Notes {
			lines = append(lines, quantity.Plain(n.Say(u)))
		}
	}
	face := lettering.Face{Height: lettering.Ordinary}
	var below []string
	for _, l := range lines {
		below = append(below, face.Wrap(l, pictureWidth-2*pictureEdge, 0)...)
	}
	const step = 5.0
	foot := pictureEdge + step*float64(len(below)) + 3
	d := drawing.Drawing{Title: title, Page: geom.Rect{Max: geom.Pt(pictureWidth, pictureHeight+foot)}}
	d.Add(f.View(pictureWidth, pictureHeight).Apply(geom.Translate(geom.Pt(0, foot))).Shapes...)
	for i, l := range below {
		d.Add(drawing.Text{At: geom.Pt(pictureEdge, foot-3-step*float64(i+1)+1), Words: l, Height: lettering.Ordinary, Role: drawing.Note})
	}
	return d
}

// View is the picture alone, on a page of w by h mm: each candidate has its number,
// and what it is stands elsewhere.
func (f Found) View(w, h float64) drawing.Drawing {
	at, k := f.fit(w, h)
	d := drawing.Drawing{Page: geom.Rect{Max: geom.Pt(w, h)}}
	for _, c := range f.Candidates {
		if o, ok := c.Outline(); ok {
			d.Add(drawing.Stroke{Path: o.Apply(at), Role: drawing.Visible, Tone: drawing.Tube})
		}
	}
	left := mostDrawn
	for _, l := range f.Lines {
		if left -= len(l.Vertices); left < 0 {
			break
		}
		d.Add(drawing.Stroke{Path: l.Apply(at), Role: drawing.Thin})
	}
	for i, c := range f.Candidates {
		role := drawing.Centre
		if c.Kind == Centreline {
			role = drawing.Visible
		}
		d.Add(drawing.Stroke{Path: c.Line().Apply(at), Role: role})
		deep := math.Max(c.Depth/2, 3/k)
		for j := range c.Start {
			across := c.Out[j].Left().Mul(deep)
			d.Line(drawing.Predicted, at.Apply(c.Start[j].Add(across)), at.Apply(c.Start[j].Sub(across)))
		}
		out := c.Crown().Sub(c.Centre).Unit()
		p := at.Apply(c.Crown()).Add(out.Mul(k*c.Depth/2 + numberRing + 2))
		d.Add(
			drawing.Ring{Circle: geom.Circle{Centre: p, Radius: numberRing}, Role: drawing.Thin, Tone: drawing.Paper},
			drawing.Text{At: p.Sub(geom.Pt(0, lettering.Ordinary/2)), Words: fmt.Sprint(i + 1), Height: lettering.Ordinary, Anchor: drawing.Middle, Role: drawing.Note},
		)
	}
	return d
}

// Places returns every candidate's line as it lies on a [Found.View].
func (f Found) Places(w, h float64) []geom.Path {
	at, _ := f.fit(w, h)
	var out []geom.Path
	for _, c := range f.Candidates {
		out = append(out, c.Line().Apply(at))
	}
	return out
}

// fit returns the map from the drawing to a view of w by h mm, and its scale.
func (f Found) fit(w, h float64) (geom.Transform, float64) {
	box := geom.EmptyRect()
	for _, l := range f.Lines {
		box = box.Union(l.Bounds())
	}
	for _, c := range f.Candidates {
		box = box.Union(c.Line().Bounds())
	}
	edge := 4 * math.Min(pictureEdge, w/20)
	k := math.Min((w-edge)/math.Max(box.Width(), 1e-9), (h-edge)/math.Max(box.Height(), 1e-9))
	return geom.Translate(box.Centre().Mul(-1)).Then(geom.Scale(k)).Then(geom.Translate(geom.Pt(w/2, h/2))), k
}

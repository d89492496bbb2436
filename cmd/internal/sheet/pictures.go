package sheet

import (
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/geom"
)

// Pictures draws the pictures of a plan's sheet one by one, each for a room of
// its own, as a screen shows them.
type Pictures struct {
	s *sheet
	q *plan.Press
	b form
}

// Picture is one of them: a drawing on a page of the room's size, and its scale
// in words, "" where it is none of a thing.
type Picture struct {
	drawing.Drawing
	Scale string
}

// NewPictures returns the pictures of a plan, figures in the units u and capitals
// so many mm high.
func NewPictures(p *plan.Plan, u quantity.Units, capitals float64) Pictures {
	s := &sheet{p: p, u: u, f: figures{u}, grow: 1, pen: pen{capitals}}
	return Pictures{s: s, q: p.Press, b: s.newForm()}
}

// roomOf returns a room of w by h mm about the origin.
func roomOf(w, h float64) geom.Rect {
	half := geom.Pt(w/2, h/2)
	return geom.Rect{Min: half.Mul(-1), Max: half}
}

// paged puts a drawing about the origin on a page as wide as its room and as high
// as it needs; none where it is wider.
func paged(d drawing.Drawing, scale string, room geom.Rect) Picture {
	box := d.Bounds()
	if len(d.Shapes) == 0 || !room.Holds(box, 1e-6) {
		return Picture{}
	}
	d.Page = room
	box = box.Grow(screenEdge)
	d.Page.Min.Y, d.Page.Max.Y = max(room.Min.Y, box.Min.Y), min(room.Max.Y, box.Max.Y)
	return Picture{d, scale}
}

// screenEdge in mm is free round a picture.
const screenEdge = 1.0

// Part is the finished part with its dimensions.
func (p Pictures) Part(w, h float64) Picture {
	d, scale := p.s.partIn(roomOf(w, h).Grow(-screenEdge))
	return paged(d, scale, roomOf(w, h))
}

// Stack is the end view of what is bolted together, the tube and the strip; empty
// where there is no block.
func (p Pictures) Stack(w, h float64) Picture {
	room := roomOf(w, h)
	if t := p.s.p.Tools; !t.Whole || len(t.Block.Layers) == 0 {
		return Picture{}
	}
	d, scale := p.s.stackIn(room.Grow(-screenEdge))
	return paged(d, scale, room)
}

// SetUp is the block at the press at first touch and in the last position; empty
// where no press state makes the part.
func (p Pictures) SetUp(w, h float64) Picture {
	room := roomOf(w, h)
	if p.q == nil {
		return Picture{}
	}
	d, scale := p.s.setUpIn(p.b, p.q, room.Grow(-screenEdge))
	return paged(d, scale, room)
}

// Plot is force and angle over the travel with the stops; empty where no press
// state makes the part.
func (p Pictures) Plot(w, h float64) Picture {
	room := roomOf(w, h)
	if p.q == nil {
		return Picture{}
	}
	p.s.d = drawing.Drawing{}
	p.s.plot(room.Grow(-screenEdge), p.q)
	return paged(p.s.d, "", room)
}

// Marks is the blank with its marks; empty where it can't be had.
func (p Pictures) Marks(w, h float64) Picture {
	room := roomOf(w, h)
	if p.s.p.Tools.Blank.Length == 0 {
		return Picture{}
	}
	p.s.d = drawing.Drawing{}
	p.s.blank(1, heading{name: "MARK"}).draw(room)
	return paged(p.s.d, "", room)
}

// Over is the block with another one behind it, crown on crown; empty where either
// can't be made.
func (p Pictures) Over(old Pictures, w, h float64) Picture {
	room := roomOf(w, h)
	if len(p.b.outline.Vertices) == 0 || len(old.b.outline.Vertices) == 0 {
		return Picture{}
	}
	within := room.Grow(-screenEdge)
	box := p.b.outline.Bounds().Union(old.b.outline.Bounds())
	d, _, scale := p.s.fitted(within.Width(), within.Height(), geom.Pt(box.Width(), box.Height()), 1, func(k float64, _ int) (drawing.Drawing, bool) {
		var d drawing.Drawing
		d.Add(drawing.Stroke{Path: p.b.outline.Apply(geom.Scale(k)), Role: drawing.Visible, Tone: drawing.Block},
			drawing.Stroke{Path: old.b.outline.Apply(geom.Scale(k)), Role: drawing.Phantom})
		y := k * (p.b.back + p.s.p.Job.Tube.Depth/2) / 2
		d.Add(p.s.bold(0, y, "R"+p.s.f.radius(p.b.radius), drawing.Middle),
			p.s.words(0, y-p.s.pitch(), "two dots: R"+p.s.f.radius(old.b.radius)+" before", drawing.Middle))
		return d, true
	})
	return paged(d, scale, room)
}

// Fit is a picture of a thing of bare.X by bare.Y mm that build draws at k mm of the
// picture per mm: at the largest scale of use that has room.
func (p Pictures) Fit(bare geom.Point, w, h float64, build func(k float64) drawing.Drawing) Picture {
	room := roomOf(w, h)
	within := room.Grow(-screenEdge)
	d, _, scale := p.s.fitted(within.Width(), within.Height(), bare, 1, func(k float64, _ int) (drawing.Drawing, bool) { return build(k), true })
	return paged(d, scale, room)
}

package sheet

import (
	"math"
	"overbend/cmd/internal/job"

	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/tooling"
)

// A way to dimension the part.
type partWay struct {
	inside bool // legs inside the bend, else outside
	angle  bool // the angle drawn, else written with the radius
	above  bool // end cuts lettered above the ends, else beyond them
	plain  bool // without legs and end cuts, which stand beside the picture
}

// partWays are tried in this order.
var partWays = [...]partWay{
	{inside: true, angle: true, above: true},
	{inside: true, angle: true},
	{inside: true, above: true},
	{inside: true},
	{angle: true},
	{},
}

// mostShrink is how much smaller a part with dimensions may be than one with
// all of them written.
const mostShrink = 2

// part draws the finished part with its dimensions.
func (s *sheet) part(f geom.Rect) {
	room := s.under(f, heading{name: "PART", rest: widestScale})
	d, scale := s.partIn(room)
	s.head(f, heading{name: "PART", rest: scale})
	s.place(d, room)
}

// partIn draws the finished part for a room, its middle at the origin.
func (s *sheet) partIn(room geom.Rect) (drawing.Drawing, string) {
	j := s.p.Job
	outline := tooling.TubeOutline(j.Bend.Radius, j.Tube.Depth, j.Bend.Angle, j.Bend.Legs, j.Ends.Cut)
	box := outline.Bounds()
	bare := geom.Pt(box.Width(), box.Height())
	d, k, scale := s.fitted(room.Width(), room.Height(), bare, len(partWays), func(k float64, way int) (drawing.Drawing, bool) {
		return s.partPicture(outline, k, partWays[way])
	})
	if k < 1/(mostShrink*max(bare.X/room.Width(), bare.Y/room.Height())) {
		e, l, name := s.fitted(room.Width(), room.Height(), bare, 1, func(k float64, _ int) (drawing.Drawing, bool) {
			return s.partPicture(outline, k, partWay{plain: true})
		})
		if k*mostShrink < l {
			d, scale = e, name
		}
	}
	return d, scale
}

// partPicture draws the part about its arc's centre, crown on top, at k mm of
// paper per mm.
func (s *sheet) partPicture(outline geom.Path, k float64, way partWay) (drawing.Drawing, bool) {
	j := s.p.Job
	var d drawing.Drawing
	size := geom.Scale(k)
	r, half, deep := k*j.Bend.Radius, j.Bend.Angle/2, k*j.Tube.Depth/2
	off := deep + raise + s.h + 0.8
	if way.inside && (j.Bend.Angle > 90*geom.Degree || (r-off-past)*half.Sin() < 2) {
		return d, false
	}

	d.Add(drawing.Stroke{Path: outline.Apply(size), Role: drawing.Visible, Tone: drawing.Tube})
	ends := 2.5 / k
	d.Add(drawing.Stroke{
		Path: tooling.Centreline(j.Bend.Radius, j.Bend.Angle, [2]float64{j.Bend.Legs[0] + ends, j.Bend.Legs[1] + ends}).Apply(size),
		Role: drawing.Centre,
	})
	// Unit vectors of a leg: outwards from the bend, and along it.
	type arm struct{ out, along geom.Point }
	var arms [2]arm
	for i, side := range [2]float64{-1, 1} {
		out := geom.Pt(side*half.Sin(), half.Cos())
		arms[i] = arm{out, geom.Pt(out.Y*side, -out.X*side)}
	}
	for i, a := range arms {
		// The tangent point, across the tube, and the leg from it.
		d.Line(drawing.Thin, a.out.Mul(r-deep), a.out.Mul(r+deep))
		leg := k * j.Bend.Legs[i]
		p := a.out.Mul(r)
		q := p.Add(a.along.Mul(leg))
		if !way.plain && j.Bend.Legs[i] > geom.Coincident {
			// The left of the way out along the right leg is the outside.
			o := off
			if (i == 1) == way.inside {
				o = -o
			}
			s.dimension(&d, p, q, o, s.f.given(j.Bend.Legs[i]))
		}
		if cut := j.Ends.Cut[i]; cut != 0 && !way.plain {
			d.Add(s.endCut("cut "+s.f.drawnAngle(cut), q, half, deep, cut, i == 0, way.above))
		}
	}
	if way.angle && way.inside && !s.angleBeside(&d, r, deep, half) || way.angle && !way.inside && !s.angleBetween(&d, r, deep, half) {
		return d, false
	}

	// What is written stands above the crown, on a leader to the arc.
	note := "R" + s.f.given(j.Bend.Drawn(j.Tube.Depth))
	if j.Bend.RadiusAt != job.Centre {
		note += " " + string(j.Bend.RadiusAt)
	}
	if !way.angle {
		note += ", " + s.f.drawnAngle(j.Bend.Angle)
	}
	base := r + max(deep+1, arrow+0.6)
	if !way.inside {
		base = max(base, d.Bounds().Max.Y+1)
	}
	at := r // where the arrow points: the face of the radius
	switch j.Bend.RadiusAt {
	case job.Inside:
		at = r - deep
	case job.Outside:
		at = r + deep
	}
	tip := geom.Polar(at, 90*geom.Degree+min(half/3, 12*geom.Degree))
	dir := tip.Unit()
	bend := dir.Mul(base / dir.Y)
	shelf := bend.X - 1.5 - s.width(note)
	if way.plain {
		shelf = bend.X - 1.5 - s.width(note)/2
	}
	d.Line(drawing.Thin, tip, bend, geom.Pt(shelf, bend.Y))
	d.Add(drawing.Arrow(tip, dir.Mul(-1).Direction(), arrow))
	d.Add(s.words(shelf, bend.Y+raise, note, drawing.Left))
	if way.plain {
		d.Line(drawing.Thin, bend, geom.Pt(shelf+s.width(note), bend.Y))
	}
	return d, true
}

// endCut letters a cut at the leg's end q, above it or beyond it.
func (s *sheet) endCut(figure string, q geom.Point, half geom.Angle, deep float64, cut geom.Angle, left, above bool) drawing.Text {
	if w := s.width(figure); above {
		return s.words(q.X, q.Y+deep/half.Cos()+w/2*half.Tan()+below*s.h+0.8, figure, drawing.Middle)
	}
	along := geom.Pt(half.Cos(), -half.Sin())
	anchor := drawing.Left
	if left {
		along.X, anchor = -along.X, drawing.Right
	}
	at := q.Add(along.Mul(deep*math.Abs(cut.Tan()) + 3.2))
	return s.words(at.X, at.Y-s.h/2, figure, anchor)
}

// angleBeside draws the change of direction between the left leg carried on
// and the right leg, beside the crown of an open bend. It reports false when
// that takes too much room.
func (s *sheet) angleBeside(d *drawing.Drawing, r, deep float64, half geom.Angle) bool {
	v := geom.Pt(0, r/half.Cos())
	// The figure stands right of the arc, between the leg's outer face and the
	// line carried on.
	rho := max(12, (2.9+deep/half.Cos())/half.Tan(), 3*arrow/float64(2*half))
	if rho > 40 {
		return false
	}
	d.Line(drawing.Thin, geom.Polar(r, 90*geom.Degree+half), v.Add(geom.Polar(rho+2, half)))
	d.Add(drawing.AngleLine(v, rho, -half, half)...)
	d.Add(s.words(v.X+rho+1.2, v.Y-s.h/2+0.2, s.f.drawnAngle(2*half), drawing.Left))
	return true
}

// angleBetween draws the change of direction between the radii to the tangent
// points. It reports false when the bend is too small for that.
func (s *sheet) angleBetween(d *drawing.Drawing, r, deep float64, half geom.Angle) bool {
	figure := s.f.drawnAngle(2 * half)
	rho := max(7, 3*arrow/float64(2*half))
	if half < 90*geom.Degree {
		rho = max(rho, (s.width(figure)/2+1)/half.Tan()+2)
	}
	if r-deep < rho+raise+s.h+1.5 {
		return false
	}
	for _, side := range [2]geom.Angle{-1, 1} {
		d.Line(drawing.Thin, geom.Point{}, geom.Polar(r-deep-aside, 90*geom.Degree+side*half))
	}
	d.Add(drawing.AngleLine(geom.Point{}, rho, 90*geom.Degree-half, 90*geom.Degree+half)...)
	d.Add(s.words(0, rho+raise, figure, drawing.Middle))
	return true
}

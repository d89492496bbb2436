package tooling

import (
	"math"

	"overbend/geom"
)

// BentSpec describes the bent and trimmed tube as its drawing does. Sizes in mm;
// arguments are those of [TubeOutline].
type BentSpec struct {
	Radius, Depth float64
	Angle         geom.Angle
	Legs          [2]float64
	Cuts          [2]geom.Angle
}

// Bent is the part as drawn, in its datum: the origin is the corner of end 1 on
// the inside of the bend, x runs along the inside of leg 1 towards the bend, and y
// to the outside of the bend. End 1 is the blank's left one with the outside up.
type Bent struct {
	Outline    geom.Path // closed, counter-clockwise
	Centreline geom.Path // end to end
	BendLines  [2][2]geom.Point
	Points     []BentPoint
	Centre     geom.Point // of the arc
}

// BentPoint is a place that a machine is set by.
type BentPoint struct {
	Name string
	At   geom.Point
}

// The names of a part's points, in the order in which [NewBent] lists them.
const (
	End1Inside   = "end 1, inside"
	End1Outside  = "end 1, outside"
	Bend1Inside  = "bend line 1, inside"
	Bend1Outside = "bend line 1, outside"
	Bend2Inside  = "bend line 2, inside"
	Bend2Outside = "bend line 2, outside"
	End2Inside   = "end 2, inside"
	End2Outside  = "end 2, outside"
	ArcCentre    = "centre of the arc"
)

// frame returns the map from the arc's frame, its centre at the origin and the
// crown on top, to the part's datum.
func (s BentSpec) frame() geom.Transform {
	inner, reach := s.Radius-s.Depth/2, s.Depth/2*s.Cuts[0].Tan()
	return geom.Rotate(-s.Angle / 2).Then(geom.Translate(geom.Pt(s.Legs[0]-reach, -inner)))
}

// NewBent returns the part. An end cut that [CheckEnds] refuses is an error.
func NewBent(s BentSpec) (Bent, error) {
	if err := CheckEnds(s.Depth, s.Legs, s.Cuts); err != nil {
		return Bent{}, err
	}
	f, a := s.frame(), arms(s.Angle)
	b := Bent{
		Outline:    TubeOutline(s.Radius, s.Depth, s.Angle, s.Legs, s.Cuts).Apply(f),
		Centreline: Centreline(s.Radius, s.Angle, s.Legs).Apply(f),
		Centre:     f.Apply(geom.Point{}),
	}
	names := [2][4]string{{End1Inside, End1Outside, Bend1Inside, Bend1Outside}, {Bend2Inside, Bend2Outside, End2Inside, End2Outside}}
	for i := range a {
		end, bend := s.end(i), [2]geom.Point{a[i].at(s.Radius-s.Depth/2, 0), a[i].at(s.Radius+s.Depth/2, 0)}
		b.BendLines[i] = [2]geom.Point{f.Apply(bend[0]), f.Apply(bend[1])}
		at := [4]geom.Point{end[0], end[1], bend[0], bend[1]}
		if i == 1 {
			at = [4]geom.Point{bend[0], bend[1], end[0], end[1]}
		}
		for k, p := range at {
			b.Points = append(b.Points, BentPoint{names[i][k], f.Apply(p)})
		}
	}
	b.Points[0].At = geom.Point{} // whatever the rounding
	b.Points = append(b.Points, BentPoint{ArcCentre, b.Centre})
	return b, nil
}

// end returns the corners of end i on the inside and on the outside of the bend,
// in the arc's frame.
func (s BentSpec) end(i int) [2]geom.Point {
	a, reach := arms(s.Angle)[i], s.Depth/2*s.Cuts[i].Tan()
	return [2]geom.Point{a.at(s.Radius-s.Depth/2, s.Legs[i]-reach), a.at(s.Radius+s.Depth/2, s.Legs[i]+reach)}
}

// Finished is the shape that a part really takes: the drawing's but for the legs'
// tails, which yield beside the block and bend too.
type Finished struct {
	// Half is one half of the centreline: crown at the origin, bending upwards to
	// the right, to where the leg is straight.
	Half geom.Path
	// Shift is how far it is moved along the axis of symmetry, inwards when
	// positive, to lie on the drawing best.
	Shift float64
}

// AsDrawn returns the finished shape of a part without tails.
func (s BentSpec) AsDrawn() Finished {
	return Finished{Half: geom.Start(geom.Point{}).ArcAbout(geom.Pt(0, s.Radius), s.Angle/2)}
}

// finishedTube is a finished tube in the part's datum.
type finishedTube struct {
	s     BentSpec
	halfs [2]geom.Path      // crown to far past the ends, left and right
	segs  [2][]geom.Segment // of them
	long  []float64         // their lengths, the same on both sides
	cuts  [2]cutLine
}

// cutLine is the line of an end cut: it runs from the inside of the bend to the
// outside through the drawn end's corners; ahead points off the part.
type cutLine struct{ inner, outer, ahead geom.Point }

// newFinishedTube lays the shape on the drawing. The legs are carried on to reach
// mm from the crown along the centreline at least.
func newFinishedTube(s BentSpec, shape Finished, reach float64) finishedTube {
	t := finishedTube{s: s}
	reach += s.Depth
	for i := range s.Legs {
		reach = max(reach, s.Radius*float64(s.Angle)/2+s.Legs[i]+s.Depth*(1+math.Abs(s.Cuts[i].Tan())))
	}
	half := shape.Half
	if more := reach - half.Length(); more > 0 {
		half = half.LineTo(half.End().Add(geom.Polar(more, s.Angle/2)))
	}
	onArc := geom.Translate(geom.Pt(0, shape.Shift)).Then(geom.MirrorY()).Then(geom.Translate(geom.Pt(0, s.Radius)))
	for _, g := range half.Segments() {
		t.long = append(t.long, g.Length())
	}
	f := s.frame()
	for i := range t.halfs {
		m := onArc
		if i == 0 {
			m = m.Then(geom.MirrorX())
		}
		t.halfs[i] = half.Apply(m.Then(f))
		t.segs[i] = t.halfs[i].Segments()
		end := s.end(i)
		c := cutLine{inner: f.Apply(end[0]), outer: f.Apply(end[1])}
		c.ahead = c.outer.Sub(c.inner).Unit().Left()
		if i == 1 {
			c.ahead = c.ahead.Mul(-1)
		}
		t.cuts[i] = c
	}
	return t
}

// at returns the place on leg i's half of the centreline, s mm from the crown, the
// direction away from the crown there and the normal to the outside of the bend.
func (t finishedTube) at(i int, s float64) (p, along, out geom.Point) {
	k := 0
	for ; s > t.long[k] && k < len(t.long)-1; k++ {
		s -= t.long[k]
	}
	p, along = t.segs[i][k].At(s / t.long[k])
	// Away from the crown the outside is on the right of leg 1, on the left of 2.
	out = along.Left()
	if i == 0 {
		out = out.Mul(-1)
	}
	return p, along, out
}

// face returns a face of the tube, from end cut to end cut, left to right: the
// inside of the bend (-1) or the outside (1).
func (t finishedTube) face(side float64) geom.Path {
	var halfs [2]geom.Path
	for i := range halfs {
		off := side * t.s.Depth / 2
		if i == 0 {
			off = -off
		}
		halfs[i] = t.cuts[i].trim(t.halfs[i].Beside(off))
	}
	left, right := halfs[0].Reverse(), halfs[1]
	// Both begin at the crown.
	v := append(left.Vertices[:len(left.Vertices)-1:len(left.Vertices)-1], right.Vertices...)
	return geom.Path{Vertices: v}
}

// trim returns the path up to where it meets the cut line next to the drawn end.
// Carried on, the line of a steep cut may meet the tube again.
func (c cutLine) trim(p geom.Path) geom.Path {
	// x is how far ahead of the line a point lies.
	local := geom.Translate(c.inner.Mul(-1)).Then(geom.Rotate(-c.ahead.Direction()))
	end := c.inner.Lerp(c.outer, 0.5)
	segs := p.Segments()
	last, part, off := len(segs)-1, 1.0, math.Inf(1)
	for i, s := range segs {
		l := s.Apply(local)
		if rise := l.Rise() + geom.Coincident; math.Min(l.From.X, l.To.X) > rise || math.Max(l.From.X, l.To.X) < -rise {
			continue // all on one side of the line
		}
		at := l.AtX(0)
		if math.Abs(l.To.X) < geom.Coincident {
			at = append(at, 1)
		}
		for _, t := range at {
			if q, _ := s.At(t); q.Dist(end) < off {
				last, part, off = i, t, q.Dist(end)
			}
		}
	}
	out := geom.Path{Vertices: p.Vertices[: last+1 : last+1]}
	s := segs[last].Part(0, part)
	return out.BulgeTo(s.To, s.Bulge)
}

// shortPiece is the length in mm below which a piece of a scribe line makes a
// table stutter.
const shortPiece = 0.5

// flatRadius is the radius in mm from which an arc is scribed as its chord: over a
// metre it leaves it by a fifth of a mm, over what a tail's last arcs are long by
// nothing, and some readers take no larger one.
const flatRadius = 5e5

// scribable returns a smooth open path without pieces too short to be scribed: the
// pieces beside one meet in its middle, at an end of the path in the end.
func scribable(p geom.Path) geom.Path {
	segs := p.Coarsen(4 * shortPiece).Segments()
	out := geom.Path{Vertices: make([]geom.Vertex, 1, len(segs)+1)}
	out.Vertices[0].Point = segs[0].From
	for i, s := range segs {
		n := len(out.Vertices) - 1
		switch {
		case s.Length() >= shortPiece:
			out.Vertices[n].Bulge = s.Bulge
			out.Vertices = append(out.Vertices, geom.Vertex{Point: s.To})
		case i == len(segs)-1:
			out.Vertices[n].Point = s.To
		case i > 0:
			out.Vertices[n].Point, _ = s.At(0.5)
		}
	}
	for i, s := range out.Segments() {
		if s.Radius() > flatRadius {
			out.Vertices[i].Bulge = 0
		}
	}
	return out
}

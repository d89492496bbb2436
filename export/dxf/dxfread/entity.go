package dxfread

import (
	"math"

	"overbend/geom"
)

// entity adds what a record draws.
func (f *file) entity(r *record, to []item) ([]item, error) {
	n := &numbers{r: r}
	shape := Shape{Kind: r.kind, Layer: r.text(8), Line: r.line}
	if shape.Layer == "" {
		shape.Layer = "0"
	}
	if n.flag(67, 0) == 1 || n.flag(60, 0) == 1 {
		return to, n.err // on paper, or invisible
	}
	pl := upright
	ok := true
	switch r.kind {
	case "LINE":
		shape.Path = geom.Lines(n.point(10), n.point(11))
		if ok = math.Abs(n.or(30, 0)-n.or(31, 0)) <= 1e-6*shape.Path.Length(); !ok {
			f.skip(OffPlane)
		}
	case "ARC":
		pl = n.plane()
		shape.Path = arc(n.point(10), n.must(40), n.must(50), n.must(51))
	case "CIRCLE":
		pl = n.plane()
		shape.Path = geom.Circle{Centre: n.point(10), Radius: n.must(40)}.Path()
	case "ELLIPSE":
		if n.plane() == tilted {
			pl = tilted
			break
		}
		shape.Path, shape.Sampled = n.ellipse()
	case "LWPOLYLINE":
		pl = n.plane()
		shape.Path = n.light()
	case "POLYLINE":
		// A polyline in space has coordinates of the drawing, the rest their own.
		flags := n.flag(70, 0)
		if flags&(16|64) != 0 {
			f.skip("mesh")
			return to, n.err
		}
		if flags&8 == 0 {
			pl = n.plane()
		}
		shape.Path = n.old(flags)
	case "SPLINE":
		shape.Path, shape.Sampled = n.spline(), true
	case "INSERT":
		in := n.insert()
		if f.inserts++; n.err == nil && f.inserts > f.limits.Inserts {
			n.err = f.tooManyInserts(r.line)
		}
		if n.err != nil {
			return to, n.err
		}
		return append(to, item{Shape: shape, insert: in}), nil
	case "VERTEX", "SEQEND", "ATTRIB", "ENDBLK", "VIEWPORT":
		return to, nil
	default:
		f.skip(show(r.kind))
		return to, nil
	}
	if n.err != nil {
		return to, n.err
	}
	switch {
	case pl == tilted:
		f.skip(OffPlane)
		return to, nil
	case pl == mirrored:
		shape.Path = shape.Path.Apply(geom.MirrorX())
	}
	if !ok || len(shape.Path.Vertices) < 2 {
		return to, nil
	}
	if f.vertices += len(shape.Path.Vertices); f.vertices > f.limits.Vertices {
		return to, f.tooMany(r.line)
	}
	return append(to, item{Shape: shape}), nil
}

func (f *file) tooMany(line int) error {
	return faultf(line, "the drawing has more than the %d corners that are allowed; save the part alone", f.limits.Vertices)
}

func (f *file) tooManyInserts(line int) error {
	return faultf(line, "more than %d INSERTs, counting those in blocks, rows and columns, are not allowed", f.limits.Inserts)
}

// arc returns the arc that runs counter-clockwise from one angle in degrees to
// another. One that ends where it starts is a whole circle.
func arc(c geom.Point, r, from, to float64) geom.Path {
	sweep := math.Mod(to-from, 360)
	if sweep <= 0 {
		sweep += 360
	}
	a := geom.Angle(from) * geom.Degree
	start := geom.Start(c.Add(geom.Polar(r, a)))
	if r <= 0 {
		return geom.Path{}
	}
	s := geom.Angle(sweep) * geom.Degree
	if sweep > 180 {
		// In halves: a bulge grows without bound towards a whole turn.
		mid := c.Add(geom.Polar(r, a+s/2))
		return start.ArcTo(mid, s/2).ArcTo(c.Add(geom.Polar(r, a+s)), s/2)
	}
	return start.ArcTo(c.Add(geom.Polar(r, a+s)), s)
}

// Chords that stand for a curve: of a whole ellipse, and of each span of a spline
// as long as they are few.
const (
	ellipseChords = 256
	spanChords    = 64
	fewestChords  = 8
	splineChords  = 8192
)

// ellipse returns an ellipse, true arcs where it is a circle, and whether it is
// short chords instead.
func (n *numbers) ellipse() (geom.Path, bool) {
	c, major, ratio := n.point(10), n.point(11), n.must(40)
	from, to := n.or(41, 0), n.or(42, 2*math.Pi)
	minor := major.Left().Mul(ratio)
	if n.plane() == mirrored {
		minor = minor.Mul(-1)
	}
	sweep := math.Mod(to-from, 2*math.Pi)
	if sweep <= 1e-12 {
		sweep += 2 * math.Pi
	}
	if major.Norm() == 0 || ratio == 0 || n.err != nil {
		return geom.Path{}, false
	}
	at := func(u float64) geom.Point { return c.Add(major.Mul(math.Cos(u))).Add(minor.Mul(math.Sin(u))) }
	if math.Abs(ratio-1) < 1e-9 {
		half := geom.Angle(math.Copysign(sweep/2, major.Cross(minor)))
		return geom.Start(at(from)).ArcTo(at(from+sweep/2), half).ArcTo(at(from+sweep), half), false
	}
	chords := max(fewestChords, int(math.Ceil(ellipseChords*sweep/(2*math.Pi))))
	through := make([]geom.Point, chords+1)
	for i := range through {
		through[i] = at(from + sweep*float64(i)/float64(chords))
	}
	return geom.Lines(through...), true
}

// mostBulge is the largest bulge that is taken: an arc but for a hundredth of a
// degree a whole circle.
const mostBulge = 1e4

func (n *numbers) bulge(t tag) float64 {
	b, err := t.number()
	if err == nil && math.Abs(b) > mostBulge {
		err = faultf(t.line, "a bulge of %s is not allowed; it must be at most %d", show(t.value), int(mostBulge))
	}
	if n.err == nil {
		n.err = err
	}
	return b
}

// light returns an LWPOLYLINE.
func (n *numbers) light() geom.Path {
	var p geom.Path
	flags := n.flag(70, 0)
	for _, t := range n.r.tags {
		k := len(p.Vertices) - 1
		switch t.code {
		case 10, 20, 42:
			v, err := t.number()
			if err == nil && t.code != 10 && k < 0 {
				err = faultf(t.line, "group %d of an LWPOLYLINE stands before its first corner", t.code)
			}
			if err != nil {
				n.err = err
				return p
			}
			switch t.code {
			case 10:
				p.Vertices = append(p.Vertices, geom.Vertex{Point: geom.Pt(v, 0)})
			case 20:
				p.Vertices[k].Y = v
			default:
				p.Vertices[k].Bulge = n.bulge(t)
			}
		}
	}
	return finished(p, flags)
}

// old returns a POLYLINE with its VERTEX records.
func (n *numbers) old(flags int) geom.Path {
	var p geom.Path
	control, inVertex := false, false
	keep := func() {
		// The frame of a smoothed polyline draws nothing.
		if inVertex && control {
			p.Vertices = p.Vertices[:len(p.Vertices)-1]
		}
		control = false
	}
	for _, t := range n.r.tags {
		if t.code == 0 {
			keep()
			if inVertex = t.value == "VERTEX"; inVertex {
				p.Vertices = append(p.Vertices, geom.Vertex{})
			}
			continue
		}
		if !inVertex {
			continue
		}
		k := len(p.Vertices) - 1
		var err error
		switch t.code {
		case 10:
			p.Vertices[k].X, err = t.number()
		case 20:
			p.Vertices[k].Y, err = t.number()
		case 42:
			p.Vertices[k].Bulge = n.bulge(t)
		case 70:
			var f int
			f, err = t.integer()
			control = f&16 != 0
		}
		if err != nil {
			n.err = err
			return p
		}
	}
	keep()
	return finished(p, flags)
}

// finished closes a polyline that says so, and drops corners that repeat the one
// before.
func finished(p geom.Path, flags int) geom.Path {
	out := geom.Path{Closed: flags&1 != 0}
	for i, v := range p.Vertices {
		last := i == len(p.Vertices)-1
		if last && !out.Closed {
			v.Bulge = 0
		} else if next := p.Vertices[(i+1)%len(p.Vertices)]; next.Point == v.Point {
			if last && len(out.Vertices) == 0 {
				return geom.Path{}
			}
			continue
		}
		out.Vertices = append(out.Vertices, v)
	}
	return out
}

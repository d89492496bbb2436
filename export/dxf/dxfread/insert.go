package dxfread

import (
	"math"
	"strings"

	"overbend/geom"
)

// insert is a block put in a place, once or in rows and columns.
type insert struct {
	name       string
	plane      plane
	at         geom.Point
	scale      [2]float64
	turn       geom.Angle
	cols, rows int
	dx, dy     float64
}

func (n *numbers) insert() *insert {
	in := &insert{
		name: n.r.text(2), plane: n.plane(), at: n.point(10),
		scale: [2]float64{n.or(41, 1), n.or(42, 1)},
		turn:  geom.Angle(n.or(50, 0)) * geom.Degree,
		cols:  max(1, n.flag(70, 1)), rows: max(1, n.flag(71, 1)),
		dx: n.or(44, 0), dy: n.or(45, 0),
	}
	return in
}

func identity() geom.Transform { return geom.Scale(1) }

// placing puts items in their places, within bounds.
type placing struct {
	*file
	d      *Drawing
	seen   map[string]bool // layers
	path   []string        // of the blocks that are open
	left   int             // vertices
	follow int             // INSERTs
}

// place adds items under a transform. Layer 0 in a block stands for the layer on
// which the block is put.
func (p *placing) place(items []item, t geom.Transform, layer string, depth int) error {
	for _, it := range items {
		if depth > 0 && it.Layer == "0" {
			it.Layer = layer
		}
		if it.insert != nil {
			if err := p.put(it, t, depth); err != nil {
				return err
			}
			continue
		}
		if p.hidden[strings.ToLower(it.Layer)] {
			p.skip(Hidden)
			continue
		}
		s := it.Shape
		if depth > 0 {
			s = s.under(t)
		}
		if p.left -= len(s.Path.Vertices); p.left < 0 {
			return p.tooMany(s.Line)
		}
		for _, v := range s.Path.Vertices {
			if !v.Finite() || math.Abs(v.X) > mostNumber || math.Abs(v.Y) > mostNumber {
				return faultf(s.Line, "the INSERTs around this %s put it beyond all bounds", s.Kind)
			}
		}
		if !p.seen[s.Layer] {
			p.seen[s.Layer] = true
			p.d.Layers = append(p.d.Layers, s.Layer)
		}
		p.d.Shapes = append(p.d.Shapes, s)
	}
	return nil
}

// put follows an INSERT.
func (p *placing) put(it item, t geom.Transform, depth int) error {
	in := it.insert
	name := strings.ToLower(in.name)
	b := p.blocks[name]
	if b == nil {
		p.skip(Missing)
		return nil
	}
	if in.plane == tilted || in.scale[0] == 0 || in.scale[1] == 0 {
		p.skip(OffPlane)
		return nil
	}
	for _, open := range p.path {
		if open == name {
			return faultf(it.Line, "block %q holds itself", show(in.name))
		}
	}
	if depth == mostDepth {
		return faultf(it.Line, "blocks lie in each other more than %d deep", mostDepth)
	}
	p.path = append(p.path, name)
	defer func() { p.path = p.path[:len(p.path)-1] }()
	size := geom.Transform{A: in.scale[0], D: in.scale[1]}
	turn := geom.Rotate(in.turn)
	for row := range in.rows {
		for col := range in.cols {
			if p.follow--; p.follow < 0 {
				return p.tooManyInserts(it.Line)
			}
			step := turn.Apply(geom.Pt(float64(col)*in.dx, float64(row)*in.dy))
			local := geom.Translate(b.base.Mul(-1)).Then(size).Then(turn).Then(geom.Translate(in.at.Add(step)))
			if in.plane == mirrored {
				local = local.Then(geom.MirrorX())
			}
			if err := p.place(b.items, local.Then(t), it.Layer, depth+1); err != nil {
				return err
			}
		}
	}
	return nil
}

// under returns the shape under a transform that may scale x and y differently:
// then an arc becomes short chords of an ellipse.
func (s Shape) under(t geom.Transform) Shape {
	a, b := geom.Pt(t.A, t.C), geom.Pt(t.B, t.D)
	similar := math.Abs(a.Dot(b)) <= 1e-12*a.Norm()*b.Norm() && math.Abs(a.Norm()-b.Norm()) <= 1e-12*a.Norm()
	if !similar {
		s.Path = faceted(s.Path, &s.Sampled)
	}
	s.Path = s.Path.Apply(t)
	return s
}

// faceted returns the path with its arcs as short chords, and notes if there are
// any.
func faceted(p geom.Path, any *bool) geom.Path {
	out := geom.Path{Closed: p.Closed}
	n := len(p.Vertices)
	for i, v := range p.Vertices {
		if v.Bulge == 0 || i == n-1 && !p.Closed {
			v.Bulge = 0
			out.Vertices = append(out.Vertices, v)
			continue
		}
		*any = true
		g := geom.Segment{From: v.Point, To: p.Vertices[(i+1)%n].Point, Bulge: v.Bulge}
		chords := max(fewestChords, int(math.Ceil(ellipseChords*math.Abs(float64(g.Sweep()))/(2*math.Pi))))
		for k := range chords {
			q, _ := g.At(float64(k) / float64(chords))
			if k == 0 {
				q = v.Point
			}
			out.Vertices = append(out.Vertices, geom.Vertex{Point: q})
		}
	}
	return out
}

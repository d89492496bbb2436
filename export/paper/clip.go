package paper

import (
	"slices"

	"overbend/export/drawing"
	"overbend/geom"
)

// clipShape returns what of s lies in r: arcs stay arcs, a cut circle becomes
// arcs, a filled shape is cut into its area, without a line along r's edge, and
// the lines around it. Lettering is whole or absent.
func clipShape(s drawing.Shape, r geom.Rect) []drawing.Shape {
	switch s := s.(type) {
	case drawing.Text:
		if r.Holds(s.Bounds(), geom.Coincident) {
			return []drawing.Shape{s}
		}
	case drawing.Ring:
		box := s.Circle.Bounds()
		switch {
		case r.Holds(box, 0):
			return []drawing.Shape{s}
		case r.Overlaps(box, 0):
			return clipStroke(drawing.Stroke{Path: s.Circle.Path(), Role: s.Role, Tone: s.Tone}, r)
		}
	case drawing.Stroke:
		return clipStroke(s, r)
	}
	return nil
}

func clipStroke(s drawing.Stroke, r geom.Rect) []drawing.Shape {
	box := s.Path.Bounds()
	if r.Holds(box, 0) {
		return []drawing.Shape{s}
	}
	// A line along the edge has no height: give the box some.
	if !r.Overlaps(box, geom.Coincident) {
		return nil
	}
	var out []drawing.Shape
	if s.Tone != drawing.NoTone && s.Path.Closed {
		if area := clipArea(s.Path, r); len(area.Vertices) > 1 {
			out = append(out, drawing.Stroke{Path: area, Role: drawing.Fill, Tone: s.Tone})
		}
	}
	if drawing.PenOf(s.Role).Width > 0 {
		for _, p := range clipLine(s.Path, r) {
			out = append(out, drawing.Stroke{Path: p, Role: s.Role})
		}
	}
	return out
}

// clipLine returns the runs of p's line that lie in r, its edge included, in
// order. A run through the closing corner of a closed path is in one piece.
func clipLine(p geom.Path, r geom.Rect) []geom.Path {
	var runs []geom.Path
	segments := p.Segments()
	for _, s := range segments {
		for _, piece := range s.Split(slices.Concat(s.AtX(r.Min.X), s.AtX(r.Max.X), s.AtY(r.Min.Y), s.AtY(r.Max.Y))...) {
			mid, _ := piece.At(0.5)
			if !r.Grow(1e-9).Has(mid) {
				continue
			}
			if n := len(runs); n > 0 && runs[n-1].End() == piece.From {
				runs[n-1] = extend(runs[n-1], piece)
			} else {
				runs = append(runs, extend(geom.Start(piece.From), piece))
			}
		}
	}
	if n := len(runs); p.Closed && n > 1 && runs[n-1].End() == runs[0].Vertices[0].Point {
		last, first := runs[n-1], runs[0]
		v := slices.Concat(last.Vertices[:len(last.Vertices)-1], first.Vertices)
		runs[0] = geom.Path{Vertices: v}
		runs = runs[:n-1]
	}
	return runs
}

// extend adds a segment that starts where p ends.
func extend(p geom.Path, s geom.Segment) geom.Path {
	v := p.Vertices
	v[len(v)-1].Bulge = s.Bulge
	return geom.Path{Vertices: append(v, geom.Vertex{Point: s.To})}
}

// clipArea returns the outline of p's area in r. It cuts with r's four sides
// in turn (Sutherland and Hodgman, Communications of the ACM 17, 1974, from
// memory; here with arcs) and joins what is left of the outline by straight
// lines along the side: right for a fill, while a hollow that reaches across r
// leaves joins that cover each other and must not be drawn as lines.
func clipArea(p geom.Path, r geom.Rect) geom.Path {
	for _, c := range [4]side{
		{false, r.Min.X, 1}, {false, r.Max.X, -1}, {true, r.Min.Y, 1}, {true, r.Max.Y, -1},
	} {
		var v []geom.Vertex
		var end geom.Point
		for _, s := range p.Segments() {
			for _, piece := range s.Split(c.crossings(s)...) {
				mid, _ := piece.At(0.5)
				if c.depth(mid) < 0 {
					continue
				}
				if len(v) > 0 && end != piece.From {
					v = append(v, geom.Vertex{Point: end})
				}
				v = append(v, geom.Vertex{Point: piece.From, Bulge: piece.Bulge})
				end = piece.To
			}
		}
		if len(v) > 0 && end != v[0].Point {
			v = append(v, geom.Vertex{Point: end})
		}
		p = geom.Path{Vertices: v, Closed: true}
	}
	return p
}

// side is a half plane: the points whose y (if upright is set, else x) lies
// beyond at, above it for sign 1, below it for sign -1.
type side struct {
	upright  bool
	at, sign float64
}

// depth returns how far q lies inside the half plane, in mm.
func (c side) depth(q geom.Point) float64 {
	if c.upright {
		return c.sign * (q.Y - c.at)
	}
	return c.sign * (q.X - c.at)
}

// crossings returns the fractions of s's length, between 0 and 1, at which it
// meets the half plane's edge.
func (c side) crossings(s geom.Segment) []float64 {
	if c.upright {
		return s.AtY(c.at)
	}
	return s.AtX(c.at)
}

package sheet

import "overbend/geom"

// The lines below are open paths of arcs that are tangent at every vertex, as
// the tube's centreline under load is.

// thinned leaves out vertices of a line that are nearer than gap mm to the one
// before.
func thinned(p geom.Path, gap float64) geom.Path {
	v := p.Vertices
	if len(v) < 3 {
		return p
	}
	out := make([]geom.Vertex, 1, len(v))
	out[0].Point = v[0].Point
	turn := geom.Angle(0)
	for i := 1; i < len(v); i++ {
		turn += geom.Segment{From: v[i-1].Point, To: v[i].Point, Bulge: v[i-1].Bulge}.Sweep()
		last := &out[len(out)-1]
		if i < len(v)-1 && v[i].Dist(last.Point) < gap {
			continue
		}
		last.Bulge = (turn / 4).Tan()
		out = append(out, geom.Vertex{Point: v[i].Point})
		turn = 0
	}
	return geom.Path{Vertices: out}
}

// beside returns the line off mm to the left: the same turns, other radii.
func beside(p geom.Path, off float64) geom.Path {
	out := geom.Path{Vertices: append([]geom.Vertex(nil), p.Vertices...)}
	segments := p.Segments()
	for i := range out.Vertices {
		var dir geom.Point
		if i < len(segments) {
			_, dir = segments[i].At(0)
		} else {
			_, dir = segments[i-1].At(1)
		}
		out.Vertices[i].Point = out.Vertices[i].Add(dir.Left().Mul(off))
	}
	return out
}

// upTo returns the first length mm of a line, carried on straight in direction
// dir where it is shorter, but there no further than the corner at limit. It
// reports whether that cut it short.
func upTo(p geom.Path, length float64, dir geom.Angle, limit geom.Point) (geom.Path, bool) {
	out := geom.Path{Vertices: []geom.Vertex{{Point: p.Vertices[0].Point}}}
	done := 0.0
	for _, g := range p.Segments() {
		l := g.Length()
		t := min(1, (length-done)/l)
		end, _ := g.At(t)
		out.Vertices[len(out.Vertices)-1].Bulge = (g.Sweep() * geom.Angle(t) / 4).Tan()
		out.Vertices = append(out.Vertices, geom.Vertex{Point: end})
		if done += l; done >= length {
			return out, false
		}
	}
	end, rest := out.End(), length-done
	room := rest
	if c := dir.Cos(); c > 0 {
		room = min(room, (limit.X-end.X)/c)
	}
	if s := dir.Sin(); s > 0 {
		room = min(room, (limit.Y-end.Y)/s)
	}
	if room > geom.Coincident {
		out = out.LineTo(end.Add(geom.Polar(room, dir)))
	}
	return out, room < rest
}

// joined returns two halves that leave the middle to the right as one line
// from left to right, the first of them mirrored.
func joined(half [2]geom.Path) geom.Path {
	left := half[0].Apply(geom.MirrorX()).Reverse().Vertices
	return geom.Path{Vertices: append(left[:len(left)-1:len(left)-1], half[1].Vertices...)}
}

// sleeve returns the outline of what lies depth/2 to both sides of a line.
func sleeve(p geom.Path, depth float64) geom.Path {
	a, b := beside(p, -depth/2), beside(p, depth/2).Reverse()
	v := append(a.Vertices[:len(a.Vertices):len(a.Vertices)], b.Vertices...)
	return geom.Path{Vertices: v, Closed: true}
}

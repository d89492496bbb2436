package sheet

import "overbend/geom"

// The lines below are open paths of arcs that are tangent at every vertex, as
// the tube's centreline under load is.

// upTo returns the first length mm of a line, carried on straight in direction
// dir where it is shorter, but there no further than the corner at limit. It
// reports whether that cut it short.
func upTo(p geom.Path, length float64, dir geom.Angle, limit geom.Point) (geom.Path, bool) {
	out := p.UpTo(length)
	end, rest := out.End(), length-p.Length()
	if rest <= 0 {
		return out, false
	}
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
	a, b := p.Beside(-depth/2), p.Beside(depth/2).Reverse()
	v := append(a.Vertices[:len(a.Vertices):len(a.Vertices)], b.Vertices...)
	return geom.Path{Vertices: v, Closed: true}
}

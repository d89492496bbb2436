package geom

// Coarsen returns an open, smooth path with fewer pieces: neighbours are joined
// to one arc through their ends, with their sweeps added up, until it is at
// least least mm long. It is meant for drawing a finely sampled curve; the ends
// stay, and between them the path moves by far less than the pieces' sag.
// Pieces of a quarter turn or more, and any piece that is long enough, are
// kept.
func (p Path) Coarsen(least float64) Path {
	if p.Closed || len(p.Vertices) < 3 {
		return p
	}
	out := Path{Vertices: make([]Vertex, 1, len(p.Vertices))}
	out.Vertices[0].Point = p.Vertices[0].Point
	sweep, length := Angle(0), 0.0
	segs := p.Segments()
	long := make([]float64, len(segs))
	for i, s := range segs {
		long[i] = s.Length()
	}
	for i, s := range segs {
		sweep += s.Sweep()
		length += long[i]
		last := i == len(segs)-1
		if !last && length < least && long[i+1] < least && sweep < 80*Degree && sweep > -80*Degree {
			continue
		}
		out.Vertices[len(out.Vertices)-1].Bulge = (sweep / 4).Tan()
		out.Vertices = append(out.Vertices, Vertex{Point: s.To})
		sweep, length = 0, 0
	}
	return out
}

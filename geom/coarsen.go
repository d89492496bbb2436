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
	out := Start(p.Vertices[0].Point)
	sweep, length := Angle(0), 0.0
	segs := p.Segments()
	for i, s := range segs {
		sweep += s.Sweep()
		length += s.Length()
		last := i == len(segs)-1
		if !last && length < least && segs[i+1].Length() < least && sweep < 80*Degree && sweep > -80*Degree {
			continue
		}
		out = out.ArcTo(s.To, sweep)
		sweep, length = 0, 0
	}
	return out
}

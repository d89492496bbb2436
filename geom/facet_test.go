package geom

import "math"

// facets returns n+1 points along s, n a power of two, by halving: the middle
// of an arc stands off its chord by bulge times half the chord, and half an
// arc has the bulge tan(atan(b)/2) (DXF reference, group 42). It uses neither
// centre nor radius, so it is independent of what it checks.
func facets(s Segment, n int) []Point {
	if n == 1 {
		return []Point{s.From, s.To}
	}
	c := s.To.Sub(s.From)
	right := Point{c.Y, -c.X}
	m := Point{(s.From.X+s.To.X)/2 + right.X*s.Bulge/2, (s.From.Y+s.To.Y)/2 + right.Y*s.Bulge/2}
	half := math.Tan(math.Atan(s.Bulge) / 2)
	first := facets(Segment{s.From, m, half}, n/2)
	return append(first, facets(Segment{m, s.To, half}, n/2)[1:]...)
}

// polygon returns the corners of a fine polygon along p.
func polygon(p Path, n int) []Point {
	var out []Point
	for _, s := range p.Segments() {
		k := n
		if !s.IsArc() {
			k = 1
		}
		f := facets(s, k)
		out = append(out, f[:len(f)-1]...)
	}
	if !p.Closed {
		out = append(out, p.Vertices[len(p.Vertices)-1].Point)
	}
	return out
}

// shoelace returns the signed area of a polygon.
func shoelace(q []Point) float64 {
	sum := 0.0
	for i, a := range q {
		b := q[(i+1)%len(q)]
		sum += (a.X-q[0].X)*(b.Y-q[0].Y) - (b.X-q[0].X)*(a.Y-q[0].Y)
	}
	return sum / 2
}

// winding returns how often a polygon goes round c, by signed crossings of the
// ray to the right (Sunday's count; no angles).
func winding(q []Point, c Point) int {
	w := 0
	for i, a := range q {
		b := q[(i+1)%len(q)]
		left := (b.X-a.X)*(c.Y-a.Y) - (c.X-a.X)*(b.Y-a.Y)
		switch {
		case a.Y <= c.Y && b.Y > c.Y && left > 0:
			w++
		case a.Y > c.Y && b.Y <= c.Y && left < 0:
			w--
		}
	}
	return w
}

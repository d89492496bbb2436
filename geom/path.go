package geom

import "math"

// Vertex is a corner of a path and the shape of the segment that leaves it.
type Vertex struct {
	Point
	// Bulge of the segment to the next vertex: tan(sweep/4), 0 for a line.
	Bulge float64
}

// Path is a run of lines and arcs that share their end points exactly. A
// closed path's last vertex joins back to its first, which is not repeated.
// The zero value is an empty open path.
type Path struct {
	Vertices []Vertex
	Closed   bool
}

// Start returns an open path at p, to be extended with the To methods.
func Start(p Point) Path { return Path{Vertices: []Vertex{{Point: p}}} }

// Lines returns the open run of straight lines through points.
func Lines(through ...Point) Path {
	v := make([]Vertex, len(through))
	for i, p := range through {
		v[i].Point = p
	}
	return Path{Vertices: v}
}

// Rounded returns the counter-clockwise outline through the corners of a convex
// polygon, given counter-clockwise, each rounded with a tangent arc of radius r
// mm. With r below [Coincident] the corners stay sharp; no side may be shorter
// than its two arcs cut off.
func Rounded(r float64, corners ...Point) Path {
	if r < Coincident {
		return Lines(corners...).Close()
	}
	out := Path{Closed: true}
	n := len(corners)
	for i, c := range corners {
		in, on := c.Sub(corners[(i+n-1)%n]).Unit(), corners[(i+1)%n].Sub(c).Unit()
		turn := Angle(math.Atan2(in.Cross(on), in.Dot(on)))
		cut := r * (turn / 2).Tan()
		out.Vertices = append(out.Vertices, Vertex{c.Sub(in.Mul(cut)), (turn / 4).Tan()}, Vertex{Point: c.Add(on.Mul(cut))})
	}
	return out
}

// LineTo returns the path extended by a straight line to q.
func (p Path) LineTo(q Point) Path { return p.BulgeTo(q, 0) }

// BulgeTo returns the path extended by a segment of the given bulge to q. It
// panics on an empty path, as LineTo and ArcTo do: begin with [Start].
func (p Path) BulgeTo(q Point, bulge float64) Path {
	if len(p.Vertices) == 0 {
		panic("geom: BulgeTo on an empty path")
	}
	v := append([]Vertex(nil), p.Vertices...)
	v[len(v)-1].Bulge = bulge
	return Path{append(v, Vertex{Point: q}), p.Closed}
}

// ArcTo returns the path extended by an arc to q that turns through sweep,
// counter-clockwise positive, |sweep| < 2π.
func (p Path) ArcTo(q Point, sweep Angle) Path { return p.BulgeTo(q, (sweep / 4).Tan()) }

// ArcAbout returns the path extended by an arc about centre c that turns
// through sweep; its end point follows.
func (p Path) ArcAbout(c Point, sweep Angle) Path {
	q := RotateAbout(c, sweep).Apply(p.End())
	return p.ArcTo(q, sweep)
}

// Close returns the closed path, its last vertex joined to its first by a
// straight line. A last vertex that coincides with the first is dropped, and
// the segment that led to it leads to the first.
func (p Path) Close() Path {
	v := append([]Vertex(nil), p.Vertices...)
	if n := len(v); n > 1 && v[n-1].Dist(v[0].Point) < Coincident {
		v = v[:n-1]
	}
	return Path{v, true}
}

// End returns the last vertex of an open path. It panics on an empty path.
func (p Path) End() Point {
	if len(p.Vertices) == 0 {
		panic("geom: End of an empty path")
	}
	return p.Vertices[len(p.Vertices)-1].Point
}

// Segments returns the lines and arcs in order.
func (p Path) Segments() []Segment {
	if p.sides() == 0 {
		return nil
	}
	out := make([]Segment, 0, p.sides())
	for s := range p.each {
		out = append(out, s)
	}
	return out
}

// sides returns the number of lines and arcs.
func (p Path) sides() int {
	if p.Closed {
		return len(p.Vertices)
	}
	return max(0, len(p.Vertices)-1)
}

// each yields the lines and arcs in order, without a slice of them.
func (p Path) each(yield func(Segment) bool) {
	n := len(p.Vertices)
	for i := range p.sides() {
		if !yield(Segment{p.Vertices[i].Point, p.Vertices[(i+1)%n].Point, p.Vertices[i].Bulge}) {
			return
		}
	}
}

// Length returns the length along the path in mm.
func (p Path) Length() float64 {
	sum := 0.0
	for s := range p.each {
		sum += s.Length()
	}
	return sum
}

// UpTo returns the first length mm of an open path, all of it where it is no
// longer; a piece of less than [Coincident] at the end is left out. It panics on
// an empty path.
func (p Path) UpTo(length float64) Path {
	out := Path{Vertices: []Vertex{p.Vertices[0]}}
	for s := range p.each {
		l := s.Length()
		if length < l {
			s = s.Part(0, max(0, length/l))
		}
		out.Vertices[len(out.Vertices)-1].Bulge = s.Bulge
		out.Vertices = append(out.Vertices, Vertex{Point: s.To})
		if length -= l; length < Coincident {
			break
		}
	}
	return out
}

// Beside returns the line off mm to the left of an open path whose pieces are
// tangent to each other: a line moves, an arc keeps its centre and its sweep.
// For outlines with corners see [Path.Offset]. An arc to the left with a radius
// below off turns inside out.
func (p Path) Beside(off float64) Path {
	out := Path{Vertices: make([]Vertex, 0, len(p.Vertices))}
	var last Segment
	for s := range p.each {
		dir, _ := s.directions()
		out.Vertices = append(out.Vertices, Vertex{s.From.Add(dir.Left().Mul(off)), s.Bulge})
		last = s
	}
	if len(out.Vertices) > 0 {
		_, dir := last.directions()
		out.Vertices = append(out.Vertices, Vertex{Point: last.To.Add(dir.Left().Mul(off))})
	}
	return out
}

// Area returns the signed area of a closed path in mm², positive when it runs
// counter-clockwise, exact for arcs. An open path has area 0, and so has an
// empty one.
func (p Path) Area() float64 {
	if !p.Closed || len(p.Vertices) == 0 {
		return 0
	}
	// Work from the first vertex rather than the far origin: the products
	// then stay of the size of the part.
	sum := 0.0
	for _, s := range p.Apply(Translate(p.Vertices[0].Point.Mul(-1))).Segments() {
		sum += s.area()
	}
	return sum
}

// Bounds returns the smallest box that holds the path.
func (p Path) Bounds() Rect {
	box := EmptyRect()
	if len(p.Vertices) == 1 {
		return box.Add(p.Vertices[0].Point)
	}
	for s := range p.each {
		box = box.Add(s.From).Add(s.To)
	}
	for s := range p.each {
		if h := s.Hull(); s.IsArc() && box.Union(h) != box {
			box = box.Union(s.Bounds())
		}
	}
	return box
}

// Reverse returns the path travelled the other way.
func (p Path) Reverse() Path {
	n := len(p.Vertices)
	v := make([]Vertex, n)
	for i := range v {
		v[i].Point = p.Vertices[n-1-i].Point
		// The segment leaving the reversed vertex is the one that arrived.
		if from := n - 2 - i; from >= 0 {
			v[i].Bulge = -p.Vertices[from].Bulge
		} else if p.Closed && n > 0 {
			v[i].Bulge = -p.Vertices[n-1].Bulge
		}
	}
	return Path{v, p.Closed}
}

// Apply returns the path under t. A mirror reverses the sense of every arc.
func (p Path) Apply(t Transform) Path {
	v := make([]Vertex, len(p.Vertices))
	sign := 1.0
	if t.Mirrors() {
		sign = -1
	}
	for i, w := range p.Vertices {
		v[i] = Vertex{t.Apply(w.Point), sign * w.Bulge}
	}
	return Path{v, p.Closed}
}

// Contains reports whether q lies inside a closed path. Points within
// rounding of the border may be reported either way.
func (p Path) Contains(q Point) bool {
	if !p.Closed {
		return false
	}
	// Winding number: the chords that cross the level ray to the right of q, up
	// less down, then a whole turn for each arc whose circular segment holds q.
	turns := 0
	for s := range p.each {
		a, b := s.From.Sub(q), s.To.Sub(q)
		// On a chord q counts as a little above it, or left of it.
		side := a.Cross(b)
		left := side > 0 || side == 0 && a.X <= b.X
		switch {
		case a.Y <= 0 && b.Y > 0 && left:
			turns++
		case a.Y > 0 && b.Y <= 0 && !left:
			turns--
		}
		if s.IsArc() && s.segmentHolds(q, left) {
			if s.Bulge > 0 {
				turns++
			} else {
				turns--
			}
		}
	}
	return turns != 0
}

// segmentHolds reports whether q, which lies left of the chord or right of it,
// lies between the arc and its chord.
func (s Segment) segmentHolds(q Point, left bool) bool {
	// A counter-clockwise arc bulges to the right of its chord.
	return left == (s.Bulge < 0) && !s.flat() && q.Dist(s.Centre()) < s.Radius()
}

// Distance returns the least distance in mm from q to the path's line, +Inf
// when the path has no segment.
func (p Path) Distance(q Point) float64 {
	best := math.Inf(1)
	for s := range p.each {
		// No point of an arc is further from its chord than the rise.
		if s.IsArc() && q.Dist(Segment{From: s.From, To: s.To}.Nearest(q))-s.Rise() > best {
			continue
		}
		best = math.Min(best, q.Dist(s.Nearest(q)))
	}
	return best
}

// Near reports whether q is no further than d mm from the path's line: what
// [Path.Distance] says, without measuring what is far off.
func (p Path) Near(q Point, d float64) bool {
	for s := range p.each {
		// The hull, with the chord's length from above.
		reach := d
		if s.IsArc() {
			reach += (math.Abs(s.To.X-s.From.X) + math.Abs(s.To.Y-s.From.Y)) * math.Abs(s.Bulge) / 2
		}
		if q.X < min(s.From.X, s.To.X)-reach || q.X > max(s.From.X, s.To.X)+reach ||
			q.Y < min(s.From.Y, s.To.Y)-reach || q.Y > max(s.From.Y, s.To.Y)+reach {
			continue
		}
		if q.Dist(s.Nearest(q)) <= d {
			return true
		}
	}
	return false
}

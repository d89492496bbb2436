package chain

import (
	"math"

	"overbend/geom"
)

// Line is a run of segments as it was drawn. Only lines of the same group join.
type Line struct {
	Path  geom.Path
	Group int
}

// Tolerance is what is mended.
type Tolerance struct {
	Gap  float64    // widest between two ends that meet, mm
	Kink geom.Angle // largest between two pieces that are to be tangent
	Off  float64    // how far chords may leave the arc or line that they are taken for, mm
}

// Usual returns the tolerances that suit a drawing of a tube; common practice, no
// source. 0.1 mm is less than any saw's, half a degree less than a press's; 0.05 mm
// is a hundredth of what a template shows.
func Usual() Tolerance { return Tolerance{Gap: 0.1, Kink: 0.5 * geom.Degree, Off: 0.05} }

// Chain is a run of pieces, each tangent to the next.
type Chain struct {
	Group  int
	Pieces []Piece
	Closed bool // the last piece is tangent to the first
}

// Piece is one straight line or one arc, and what was mended to have it.
type Piece struct {
	geom.Segment
	Source int     // index of a line that it came from
	Chords int     // how many chords were taken for it; 0: it was drawn as it is
	Off    float64 // how far those leave it at most, mm
	Gap    float64 // to the next piece, mm
	Kink   geom.Angle
}

// hard is the turn from which a corner is one, whatever is drawn with short
// chords.
const hard = 30 * geom.Degree

// blur is how much more than Kink a joint may turn where a piece was taken from
// chords: where one ends and the next begins is known to a chord only.
const blur = 3 * geom.Degree

// Find returns the chains of the lines, in the order of the lines.
func Find(lines []Line, tol Tolerance) []Chain {
	var out []Chain
	for _, r := range join(cut(lines), tol.Gap) {
		pieces := merge(recognise(r.pieces, tol), tol)
		out = append(out, smooth(pieces, r, tol)...)
	}
	return out
}

// direction returns the unit direction of a piece at its start or end.
func direction(s geom.Segment, end bool) geom.Point {
	t := 0.0
	if end {
		t = 1
	}
	_, d := s.At(t)
	return d
}

// turn returns the angle from one direction to another, in (-π, π].
func turn(from, to geom.Point) geom.Angle {
	return geom.Angle(math.Atan2(from.Cross(to), from.Dot(to)))
}

func kink(a, b geom.Segment) geom.Angle {
	return geom.Angle(math.Abs(float64(turn(direction(a, true), direction(b, false)))))
}

// smooth cuts a run at its kinks.
func smooth(p []Piece, r run, tol Tolerance) []Chain {
	n := len(p)
	if n == 0 {
		return nil
	}
	corner := make([]bool, n) // behind piece i
	last := -1
	for i := range p {
		p[i].Gap, p[i].Kink = 0, 0
		if i == n-1 && !r.closed {
			break
		}
		next := p[(i+1)%n]
		p[i].Gap, p[i].Kink = p[i].To.Dist(next.From), kink(p[i].Segment, next.Segment)
		allowed := tol.Kink
		if p[i].Chords+next.Chords > 0 {
			allowed += blur
		}
		if corner[i] = p[i].Kink > allowed; corner[i] {
			p[i].Gap, p[i].Kink = 0, 0
			last = i
		}
	}
	if r.closed && last < 0 {
		return []Chain{{r.group, p, true}}
	}
	if r.closed {
		p = append(p[last+1:len(p):len(p)], p[:last+1]...)
		corner = append(corner[last+1:len(corner):len(corner)], corner[:last+1]...)
	}
	var out []Chain
	from := 0
	for i := range p {
		if corner[i] || i == n-1 {
			out = append(out, Chain{Group: r.group, Pieces: p[from : i+1 : i+1]})
			from = i + 1
		}
	}
	return out
}

// Path returns the chain as one path; gaps in it are closed.
func (c Chain) Path() geom.Path {
	out := geom.Path{Closed: c.Closed}
	for _, p := range c.Pieces {
		out.Vertices = append(out.Vertices, geom.Vertex{Point: p.From, Bulge: p.Bulge})
	}
	if n := len(c.Pieces); n > 0 && !c.Closed {
		out.Vertices = append(out.Vertices, geom.Vertex{Point: c.Pieces[n-1].To})
	}
	return out
}

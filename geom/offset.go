package geom

import (
	"errors"
	"fmt"
	"math"
)

// ErrOffset is wrapped by every error of [Path.Offset] and [Circle.Offset]
// that says that a distance is too large for the shape.
var ErrOffset = errors.New("offset is too large for the outline")

// tangentTurn is the turn in radians below which a joint counts as tangent.
// At a part of one metre it moves a vertex by less than [Coincident], and it
// stays far above the rounding of a bulge (about 1e-12).
const tangentTurn = 1e-7

// Offset returns the circle with its radius grown by d mm (shrunk when d < 0).
// The error wraps [ErrOffset] when nothing would be left.
func (c Circle) Offset(d float64) (Circle, error) {
	if c.Radius+d <= Coincident {
		return Circle{}, fmt.Errorf("%w: %g mm on a circle of radius %g mm", ErrOffset, d, c.Radius)
	}
	return Circle{c.Centre, c.Radius + d}, nil
}

// Offset returns the parallel curve of a closed counter-clockwise path at d mm
// outwards (inwards when d < 0). It is exact: a line moves along its normal, an
// arc keeps its centre and sweep and its radius changes by d, so that what was
// tangent stays tangent.
//
// At a corner that the offset opens (convex outwards, concave inwards) and that
// turns by no more than a right angle, the neighbours are run on, each on its
// own line or circle, to where they meet. A cutter that follows them leaves the
// corner sharp, and no tiny arc of radius d is born that a cutting table would
// drop. Any other opened corner gets an arc of radius |d| about the corner,
// which leaves it just as sharp. At a corner that the offset closes, the
// neighbours are cut back to where they meet.
//
// An error that wraps [ErrOffset] says where the result would vanish, turn
// inside out or cross itself. A path that is open, or runs clockwise, is an
// error too.
func (p Path) Offset(d float64) (Path, error) {
	if !p.Closed || len(p.Vertices) < 2 || p.Area() <= 0 {
		return Path{}, errors.New("only a closed counter-clockwise outline has an offset")
	}
	if math.IsNaN(d) || math.IsInf(d, 0) {
		return Path{}, fmt.Errorf("%w: %g mm", ErrOffset, d)
	}
	if d == 0 {
		return p, nil
	}
	segs := p.Segments()
	n := len(segs)
	for _, s := range segs {
		if s.Chord() < Coincident {
			return Path{}, fmt.Errorf("outline repeats the point %.6g, %.6g", s.From.X, s.From.Y)
		}
		if s.IsArc() && s.grown(d) <= Coincident {
			return Path{}, fmt.Errorf("%w: an arc of radius %.6g mm from %.6g, %.6g vanishes at %.6g mm",
				ErrOffset, s.Radius(), s.From.X, s.From.Y, d)
		}
	}

	// One joint a vertex: where the segment before it ends and where the one
	// after it begins. They differ only when an arc goes between.
	joints := make([]joint, n)
	for i := range segs {
		j, err := corner(segs[(i+n-1)%n], segs[i], d)
		if err != nil {
			return Path{}, err
		}
		joints[i] = j
	}

	out := Path{Closed: true, Vertices: make([]Vertex, 0, n)}
	for i, s := range segs {
		j, k := joints[i], joints[(i+1)%n]
		if j.arc != 0 {
			out.Vertices = append(out.Vertices, Vertex{j.end, j.arc})
		}
		b, ok := s.between(j.begin, k.end, j.cut || k.cut, j.run || k.run)
		if !ok {
			return Path{}, fmt.Errorf("%w: the piece from %.6g, %.6g to %.6g, %.6g vanishes at %.6g mm",
				ErrOffset, s.From.X, s.From.Y, s.To.X, s.To.Y, d)
		}
		out.Vertices = append(out.Vertices, Vertex{j.begin, b})
	}
	if a, b := p.Area(), out.Area(); d > 0 && b <= a || d < 0 && (b >= a || b <= 0) {
		return Path{}, fmt.Errorf("%w: the outline turns inside out at %.6g mm", ErrOffset, d)
	}
	if q, yes := out.SelfCrossing(); yes {
		return Path{}, fmt.Errorf("%w: the outline crosses itself near %.6g, %.6g at %.6g mm", ErrOffset, q.X, q.Y, d)
	}
	return out, nil
}

// joint is what becomes of a vertex: end closes the segment before, begin
// opens the one after. arc is the bulge between the two, 0 when they coincide.
// cut says that the neighbours were cut back or run on, so that their sweeps
// change; run that they were run on, so that their sweeps may grow.
type joint struct {
	end, begin Point
	arc        float64
	cut, run   bool
}

// corner returns the joint of a and b at offset d.
func corner(a, b Segment, d float64) (joint, error) {
	_, u := a.At(1)
	_, w := b.At(0)
	v := b.From
	turn := math.Atan2(u.Cross(w), u.Dot(w))
	if math.Abs(turn) > math.Pi-tangentTurn {
		return joint{}, fmt.Errorf("outline turns back on itself at %.6g, %.6g", v.X, v.Y)
	}
	normal := u.Add(w).Unit().Left().Mul(-1)
	// Where two lines offset by d meet: d/cos(turn/2) out along the bisector.
	mitre := v.Add(normal.Mul(d / math.Cos(turn/2)))
	lines := !a.IsArc() && !b.IsArc()
	switch {
	case math.Abs(turn) <= tangentTurn:
		q := v.Add(normal.Mul(d))
		return joint{end: q, begin: q}, nil
	case turn*d > 0 && lines && math.Abs(turn) <= math.Pi/2+tangentTurn:
		return joint{end: mitre, begin: mitre}, nil
	case turn*d > 0:
		if math.Abs(turn) <= math.Pi/2+tangentTurn {
			// Arcs that curve away from each other may meet far off, or never.
			q, ok := nearest(v, crossings(a.carrier(d), b.carrier(d)))
			if ok && q.Dist(v) <= 2*math.Abs(d) {
				return joint{end: q, begin: q, cut: true, run: true}, nil
			}
		}
		return joint{
			end:   v.Sub(u.Left().Mul(d)),
			begin: v.Sub(w.Left().Mul(d)),
			arc:   math.Tan(turn / 4),
		}, nil
	case lines:
		return joint{end: mitre, begin: mitre, cut: true}, nil
	}
	q, ok := nearest(v, crossings(a.carrier(d), b.carrier(d)))
	if !ok {
		return joint{}, fmt.Errorf("%w: the sides at %.6g, %.6g no longer meet at %.6g mm", ErrOffset, v.X, v.Y, d)
	}
	return joint{end: q, begin: q, cut: true}, nil
}

// grown returns the radius of arc s offset by d to the right of travel: a
// counter-clockwise arc has its centre on the left and grows.
func (s Segment) grown(d float64) float64 {
	if s.Bulge < 0 {
		return s.Radius() - d
	}
	return s.Radius() + d
}

// between returns the bulge of segment s's offset once it runs from p to q on
// the offset's own line or circle, and whether it still runs the same way.
// The bulge is taken from the ends only when they were cut back: an uncut arc
// keeps its own to the last bit.
func (s Segment) between(p, q Point, cut, run bool) (float64, bool) {
	if s.flat() {
		// A cut-back arc's bulge shrinks with its chord.
		return s.Bulge * p.Dist(q) / s.Chord(), q.Sub(p).Dot(s.To.Sub(s.From).Unit()) > Coincident
	}
	if !cut {
		return s.Bulge, true
	}
	c := s.Centre()
	sign := math.Copysign(1, s.Bulge)
	sweep := sign * float64(q.Sub(c).Direction()-p.Sub(c).Direction())
	sweep = math.Mod(sweep+4*math.Pi, 2*math.Pi)
	most := math.Abs(float64(s.Sweep())) + tangentTurn
	if run {
		most += math.Pi / 2
	}
	// A piece that was cut away to nothing and beyond shows as nearly a full turn.
	if sweep > most || p.Dist(q) < Coincident {
		return 0, false
	}
	return sign * math.Tan(sweep/4), true
}

// carrier is the endless line or the full circle that a segment lies on.
type carrier struct {
	at, dir Point   // of a line: a point and the unit direction
	radius  float64 // of a circle about at; 0: a line
}

// carrier returns what s lies on after an offset of d to the right of travel.
func (s Segment) carrier(d float64) carrier {
	if !s.flat() {
		return carrier{at: s.Centre(), radius: s.grown(d)}
	}
	u := s.To.Sub(s.From).Unit()
	return carrier{at: s.From.Sub(u.Left().Mul(d)), dir: u}
}

// crossings returns the points that a and b share: none, one or two. Parallel
// lines and concentric circles share none.
func crossings(a, b carrier) []Point {
	switch {
	case a.radius == 0 && b.radius == 0:
		det := a.dir.Cross(b.dir)
		if math.Abs(det) < 1e-14 {
			return nil
		}
		return []Point{a.at.Add(a.dir.Mul(b.at.Sub(a.at).Cross(b.dir) / det))}
	case a.radius != 0 && b.radius != 0:
		// Measured from the smaller circle, and in products of sums and
		// differences, a shallow arc's large radius costs no digits.
		if a.radius > b.radius {
			a, b = b, a
		}
		d := b.at.Sub(a.at)
		dist := d.Norm()
		if dist < Coincident {
			return nil
		}
		// The common chord stands at x from a's centre along d.
		x := ((dist-b.radius)*(dist+b.radius) + a.radius*a.radius) / (2 * dist)
		return chord(a.at.Add(d.Mul(x/dist)), d.Left().Mul(1/dist), (a.radius-x)*(a.radius+x))
	case a.radius != 0:
		a, b = b, a
	}
	foot := a.at.Add(a.dir.Mul(b.at.Sub(a.at).Dot(a.dir)))
	h := foot.Dist(b.at)
	return chord(foot, a.dir, (b.radius-h)*(b.radius+h))
}

// chord returns the two points at √sq to either side of m along u, one when
// they touch within [Coincident], none when sq says that they miss.
func chord(m, u Point, sq float64) []Point {
	if sq < -Coincident*Coincident {
		return nil
	}
	h := math.Sqrt(max(0, sq))
	if h < Coincident {
		return []Point{m}
	}
	return []Point{m.Add(u.Mul(h)), m.Sub(u.Mul(h))}
}

// nearest returns the point of ps closest to q; false when there is none.
func nearest(q Point, ps []Point) (Point, bool) {
	best, ok := Point{}, false
	for _, p := range ps {
		if !ok || p.Dist(q) < best.Dist(q) {
			best, ok = p, true
		}
	}
	return best, ok
}

// touching is the distance in mm within which the ends of neighbours count as
// their common vertex in [Path.SelfCrossing]: tangent circles cross with an
// error of about the root of rounding times the radius.
const touching = 1e-3

// SelfCrossing returns a point at which two pieces of the path meet other than
// as neighbours at their common vertex, and whether there is one. Pieces that
// lie on one line or circle and overlap are not found.
func (p Path) SelfCrossing() (Point, bool) {
	segs := p.Segments()
	n := len(segs)
	boxes := make([]Rect, n)
	lines := make([]carrier, n)
	for i, s := range segs {
		boxes[i] = s.Bounds().Grow(Coincident)
		lines[i] = s.carrier(0)
	}
	for i := range n {
		for k := i + 1; k < n; k++ {
			if !boxes[i].Overlaps(boxes[k], 0) {
				continue
			}
			for _, q := range crossings(lines[i], lines[k]) {
				if segs[i].Nearest(q).Dist(q) > Coincident || segs[k].Nearest(q).Dist(q) > Coincident {
					continue
				}
				if k == i+1 && q.Dist(segs[i].To) < touching {
					continue
				}
				if p.Closed && i == 0 && k == n-1 && q.Dist(segs[0].From) < touching {
					continue
				}
				return q, true
			}
		}
	}
	return Point{}, false
}

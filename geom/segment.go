package geom

import "math"

// Segment is a straight line or a circular arc from From to To.
//
// Bulge is tan(sweep/4), the open standard's measure of an arc (DXF group 42):
// 0 is a line, positive turns counter-clockwise, ±1 is a half circle. A full
// circle is not a segment; see [Circle].
type Segment struct {
	From, To Point
	Bulge    float64
}

// IsArc reports whether s is an arc.
func (s Segment) IsArc() bool { return s.Bulge != 0 }

// Chord returns the straight distance between the ends, in mm.
func (s Segment) Chord() float64 { return s.From.Dist(s.To) }

// Sweep returns the angle that the arc turns through, counter-clockwise
// positive, in (-2π, 2π); 0 for a line.
func (s Segment) Sweep() Angle { return Angle(4 * math.Atan(s.Bulge)) }

// Radius returns the arc's radius in mm, +Inf for a line:
//
//	R = c (1 + b²) / (4 |b|)
//
// with c the chord and b the bulge.
func (s Segment) Radius() float64 {
	if !s.IsArc() {
		return math.Inf(1)
	}
	return s.Chord() * (1 + s.Bulge*s.Bulge) / (4 * math.Abs(s.Bulge))
}

// Centre returns the arc's centre. A line has none: the result is not finite.
func (s Segment) Centre() Point {
	// The centre lies left of the chord's middle by c (1 - b²) / (4 b).
	half := s.To.Sub(s.From).Mul(0.5)
	k := (1 - s.Bulge*s.Bulge) / (2 * s.Bulge)
	return s.From.Add(half).Add(half.Left().Mul(k))
}

// Length returns the length along the segment in mm.
func (s Segment) Length() float64 {
	if !s.IsArc() {
		return s.Chord()
	}
	return s.Radius() * math.Abs(float64(s.Sweep()))
}

// At returns the point at fraction t of the length, and the unit direction of
// travel there.
func (s Segment) At(t float64) (Point, Point) {
	chord := s.To.Sub(s.From)
	if !s.IsArc() {
		return s.From.Lerp(s.To, t), chord.Unit()
	}
	// The part up to t is itself an arc from From, with sweep t of the whole:
	// its chord leaves at half that sweep from the starting tangent.
	sweep := float64(s.Sweep())
	start := float64(chord.Direction()) - sweep/2
	r := s.Radius()
	part := t * sweep
	p := s.From.Add(Polar(2*r*math.Abs(math.Sin(part/2)), Angle(start+part/2)))
	return p, Polar(1, Angle(start+part))
}

// Reverse returns s travelled the other way.
func (s Segment) Reverse() Segment { return Segment{s.To, s.From, -s.Bulge} }

// Bounds returns the smallest box that holds the segment: an arc's extreme
// points count, not only its ends.
func (s Segment) Bounds() Rect {
	box := EmptyRect().Add(s.From).Add(s.To)
	if !s.IsArc() {
		return box
	}
	c, r := s.Centre(), s.Radius()
	for q := range 4 {
		a := Angle(q) * math.Pi / 2
		if s.spans(a) {
			box = box.Add(c.Add(axes[q].Mul(r)))
		}
	}
	return box
}

// BoundsBetween returns the smallest box that holds what of the segment lies
// in the level band low <= y <= high, the empty box when nothing does.
func (s Segment) BoundsBetween(low, high float64) Rect {
	box := EmptyRect()
	add := func(p Point) {
		if p.Y >= low-Coincident && p.Y <= high+Coincident {
			box = box.Add(p)
		}
	}
	add(s.From)
	add(s.To)
	if !s.IsArc() {
		for _, y := range [2]float64{low, high} {
			if d := s.To.Y - s.From.Y; (y-s.From.Y)*(y-s.To.Y) < 0 && d != 0 {
				add(Point{s.From.Lerp(s.To, (y-s.From.Y)/d).X, y})
			}
		}
		return box
	}
	c, r := s.Centre(), s.Radius()
	for q := range 4 {
		if s.spans(Angle(q) * math.Pi / 2) {
			add(c.Add(axes[q].Mul(r)))
		}
	}
	for _, y := range [2]float64{low, high} {
		h := y - c.Y
		if math.Abs(h) >= r {
			continue
		}
		w := math.Sqrt((r - h) * (r + h))
		for _, v := range [2]Point{{w, h}, {-w, h}} {
			if s.spans(v.Direction()) {
				add(c.Add(v))
			}
		}
	}
	return box
}

// axes are the unit axes, exact: cos(π/2) is not quite 0 in floating point.
var axes = [4]Point{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}

// spans reports whether the arc passes through direction a from its centre.
func (s Segment) spans(a Angle) bool {
	start := s.From.Sub(s.Centre()).Direction()
	turn := math.Mod(float64(a-start), 2*math.Pi)
	sweep := float64(s.Sweep())
	if sweep > 0 {
		if turn < 0 {
			turn += 2 * math.Pi
		}
		return turn <= sweep
	}
	if turn > 0 {
		turn -= 2 * math.Pi
	}
	return turn >= sweep
}

// area returns the signed area in mm² that the segment contributes to a
// closed path by Green's theorem: the triangle to the origin plus, for an
// arc, the circular segment R²(θ - sin θ)/2.
func (s Segment) area() float64 {
	a := s.From.Cross(s.To) / 2
	if s.IsArc() {
		r, th := s.Radius(), float64(s.Sweep())
		a += r * r * (th - math.Sin(th)) / 2
	}
	return a
}

// Nearest returns the point of s closest to p.
func (s Segment) Nearest(p Point) Point {
	if !s.IsArc() {
		d := s.To.Sub(s.From)
		n := d.Dot(d)
		if n == 0 {
			return s.From
		}
		return s.From.Lerp(s.To, min(1, max(0, p.Sub(s.From).Dot(d)/n)))
	}
	c, r := s.Centre(), s.Radius()
	v := p.Sub(c)
	if v.Norm() > 0 && s.spans(v.Direction()) {
		return c.Add(v.Unit().Mul(r))
	}
	if p.Dist(s.From) <= p.Dist(s.To) {
		return s.From
	}
	return s.To
}

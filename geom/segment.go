package geom

import (
	"math"
	"slices"
)

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

// flatRadius is the radius in mm from which an arc counts as its own chord
// where its centre would be needed. A thousand kilometres away the centre is
// only known to some 1e-7 mm, while the arc leaves a chord of 100 mm by 1e-6.
const flatRadius = 1e9

// flat reports whether s is a line or as good as one; see flatRadius.
func (s Segment) flat() bool {
	// Radius squared, without the chord's root: this is asked for every piece.
	d, b2 := s.To.Sub(s.From), s.Bulge*s.Bulge
	return d.Dot(d)*(1+b2)*(1+b2) > 16*b2*flatRadius*flatRadius || b2 == 0
}

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
	if s.flat() {
		return s.Chord()
	}
	return s.Radius() * math.Abs(float64(s.Sweep()))
}

// At returns the point at fraction t of the length, and the unit direction of
// travel there. A fraction outside 0 to 1 runs on along the same line or circle.
func (s Segment) At(t float64) (Point, Point) {
	chord := s.To.Sub(s.From)
	if s.flat() {
		return s.From.Lerp(s.To, t), chord.Unit()
	}
	// The part up to t is itself an arc from From, with sweep t of the whole:
	// its chord leaves at half that sweep from the starting tangent.
	sweep := float64(s.Sweep())
	start := float64(chord.Direction()) - sweep/2
	r := s.Radius()
	part := t * sweep
	p := s.From.Add(Polar(2*r*math.Copysign(1, sweep)*math.Sin(part/2), Angle(start+part/2)))
	return p, Polar(1, Angle(start+part))
}

// directions returns the unit directions of travel at both ends: the chord's, turned
// back and on by half the sweep, whose sine and cosine follow from the bulge.
func (s Segment) directions() (from, to Point) {
	d := s.To.Sub(s.From).Unit()
	b2 := s.Bulge * s.Bulge
	cos, sin := (1-b2)/(1+b2), 2*s.Bulge/(1+b2)
	return Pt(d.X*cos+d.Y*sin, d.Y*cos-d.X*sin), Pt(d.X*cos-d.Y*sin, d.Y*cos+d.X*sin)
}

// Part returns the stretch of s from fraction a of its length to b: a piece of
// the same line or circle. The ends of s itself, at 0 and 1, are kept to the
// last bit.
func (s Segment) Part(a, b float64) Segment {
	if a == 0 && b == 1 {
		return s
	}
	out := s
	if a != 0 {
		out.From, _ = s.At(a)
	}
	if b != 1 {
		out.To, _ = s.At(b)
	}
	if s.IsArc() {
		out.Bulge = (s.Sweep() * Angle((b-a)/4)).Tan()
	}
	return out
}

// Split returns s cut at fractions of its length, in any order. Pieces share
// their ends exactly, and a cut that would leave a piece shorter than
// [Coincident] is not made.
func (s Segment) Split(at ...float64) []Segment {
	slices.Sort(at)
	length := s.Length()
	out := make([]Segment, 0, len(at)+1)
	last := 0.0
	for _, t := range at {
		if (t-last)*length >= Coincident && (1-t)*length >= Coincident {
			out = append(out, s.Part(last, t))
			last = t
		}
	}
	return append(out, s.Part(last, 1))
}

// Halves returns s cut in two of the same length. The bulge of half an arc
// follows from the half-angle tangent, tan(x/2) = tan x / (1 + √(1 + tan² x)),
// which takes neither centre nor angle and is quick.
func (s Segment) Halves() (Segment, Segment) {
	chord := s.To.Sub(s.From)
	// The arc's middle lies right of the chord's middle by c b / 2.
	mid := s.From.Lerp(s.To, 0.5).Sub(chord.Left().Mul(s.Bulge / 2))
	b := s.Bulge / (1 + math.Hypot(1, s.Bulge))
	return Segment{s.From, mid, b}, Segment{mid, s.To, b}
}

// Rise returns the height in mm of the arc over its chord, c |b| / 2; 0 for a
// line.
func (s Segment) Rise() float64 { return s.Chord() * math.Abs(s.Bulge) / 2 }

// Hull returns a box that holds the segment, quickly found and larger than
// [Segment.Bounds] by no more than the rise on each side: no point of an arc is
// further from its chord than that.
func (s Segment) Hull() Rect { return EmptyRect().Add(s.From).Add(s.To).Grow(s.Rise()) }

// Apply returns the segment under t. A mirror reverses the sense of an arc.
func (s Segment) Apply(t Transform) Segment {
	if t.Mirrors() {
		s.Bulge = -s.Bulge
	}
	return Segment{t.Apply(s.From), t.Apply(s.To), s.Bulge}
}

// Reverse returns s travelled the other way.
func (s Segment) Reverse() Segment { return Segment{s.To, s.From, -s.Bulge} }

// Bounds returns the smallest box that holds the segment: an arc's extreme
// points count, not only its ends.
func (s Segment) Bounds() Rect {
	box := EmptyRect().Add(s.From).Add(s.To)
	if s.flat() {
		return box
	}
	c, r := s.Centre(), s.Radius()
	for q := range 4 {
		a := Angle(q) * math.Pi / 2
		if s.spans(a) {
			box = box.Add(c.Add(axis(q).Mul(r)))
		}
	}
	return box
}

// axis returns the unit vector q quarter turns from x, exact: cos(π/2) is not
// quite 0 in floating point.
func axis(q int) Point { return [4]Point{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}[q] }

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
	if s.flat() {
		// A parabola's segment is two thirds of its chord times its rise.
		c := s.Chord()
		return a + c*c*s.Bulge/3
	}
	r := s.Radius()
	return a + r*r*lessSine(float64(s.Sweep()))/2
}

// lessSine returns x - sin x. A shallow arc's would be lost in rounding, so
// there it comes from the series x³/6 (1 - x²/20 (1 - x²/42 (1 - ...))),
// relative error below 1e-13.
func lessSine(x float64) float64 {
	if math.Abs(x) > 0.1 {
		return x - math.Sin(x)
	}
	q := x * x
	return x * q / 6 * (1 - q/20*(1-q/42*(1-q/72)))
}

// Nearest returns the point of s closest to p.
func (s Segment) Nearest(p Point) Point {
	if s.flat() {
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

package tooling

import (
	"math"

	"overbend/geom"
)

// Default sizes of a check template, in mm; common practice.
const (
	DefaultStraight = 100.0
	DefaultBelow    = 30.0
	DefaultBand     = 40.0
	tangentMark     = 8.0
)

// TemplateSpec describes a check template of the finished bend. Sizes in mm.
type TemplateSpec struct {
	Radius   float64    // of the centreline
	Depth    float64    // of the tube
	Angle    geom.Angle // of the bend, to 180°
	Legs     [2]float64 // left, right
	Straight float64    // most that it runs along a leg; 0: 100
	Below    float64    // inside template: vertical sides under its lower end; 0: 30
	Band     float64    // outside template: width of the band; 0: 40
}

// check fills in defaults and returns the straights to both sides.
func (s *TemplateSpec) check(part string) ([2]float64, error) {
	for _, d := range []struct {
		v *float64
		d float64
	}{{&s.Straight, DefaultStraight}, {&s.Below, DefaultBelow}, {&s.Band, DefaultBand}} {
		if *d.v == 0 {
			*d.v = d.d
		}
	}
	if err := positive(part, named{Radius, s.Radius}, named{Depth, s.Depth},
		named{Straight, s.Straight}, named{Below, s.Below}, named{Band, s.Band}); err != nil {
		return [2]float64{}, err
	}
	var out [2]float64
	for i, l := range s.Legs {
		if err := within(part, Leg, l); err != nil {
			return out, err
		}
		// A straight too short to cut is none.
		if out[i] = min(l, s.Straight); out[i] < leastPiece {
			out[i] = 0
		}
	}
	if !(s.Angle > 0) || s.Angle > math.Pi+1e-9 {
		return out, &SizeError{Part: part, Dimension: BendAngle, Angular: true, Value: s.Angle.Radians(), Why: NoAngle, Most: math.Pi}
	}
	// Half of a template narrower than this shows nothing of a bend.
	const leastHalf = 5.0
	r := s.Radius - s.Depth/2
	if r < leastHalf {
		return out, &SizeError{Part: part, Dimension: Radius, Value: s.Radius, Why: NoHollow, Least: s.Depth/2 + leastHalf}
	}
	if arc := r * float64(s.Angle); arc < leastPiece {
		return out, &SizeError{Part: part, Dimension: BendAngle, Angular: true, Value: s.Angle.Radians(), Why: AngleUnseen, Least: leastPiece / r}
	}
	sin, cos := math.Sincos(float64(s.Angle) / 2)
	for _, l := range out {
		if r*sin+l*cos < leastHalf {
			return out, &SizeError{Part: part, Dimension: Leg, Value: l, Why: LegUnseen, Least: (leastHalf - r*sin) / cos}
		}
	}
	return out, nil
}

// leastPiece is the shortest line or arc in mm that goes on an outline: cutting
// software drops or mends what is shorter.
const leastPiece = 0.1

// InsideTemplate returns the template that fits the hollow of the finished
// bend: the arc of the tube's inner face, the legs' straights tangent to it, and
// below their ends vertical sides down to a flat back parallel to the chord.
func InsideTemplate(spec TemplateSpec) (Part, error) {
	straights, err := spec.check("inside template")
	if err != nil {
		return Part{}, err
	}
	r := spec.Radius - spec.Depth/2
	a := arms(spec.Angle)
	left, right := a[0].at(r, straights[0]), a[1].at(r, straights[1])
	back := min(left.Y, right.Y) - spec.Below
	v := []geom.Vertex{
		{Point: geom.Pt(left.X, back)},
		{Point: geom.Pt(right.X, back)},
		{Point: right},
		{Point: a[1].at(r, 0), Bulge: (spec.Angle / 4).Tan()},
		{Point: a[0].at(r, 0)},
		{Point: left},
	}
	p := Part{Name: "template-inside", Outline: distinct(unbroken(v))}
	if length := min(tangentMark, r/2-scribeGap); length > scribeGap {
		p.Marks = tangents(spec.Angle, straights, r-scribeGap, r-scribeGap-length)
	}
	return p, nil
}

// OutsideTemplate returns the template that lies on the outside of the finished
// bend: a band along the tube's outer face and the legs' straights.
func OutsideTemplate(spec TemplateSpec) (Part, error) {
	straights, err := spec.check("outside template")
	if err != nil {
		return Part{}, err
	}
	r := spec.Radius + spec.Depth/2
	p := Part{Name: "template-outside", Outline: TubeOutline(r+spec.Band/2, spec.Band, spec.Angle, straights, [2]geom.Angle{})}
	if length := min(tangentMark, spec.Band-2*scribeGap); length > scribeGap {
		p.Marks = tangents(spec.Angle, straights, r+scribeGap, r+scribeGap+length)
	}
	return p, nil
}

// unbroken leaves out the vertices at which two lines run straight on, as a
// template's straights and sides do at 180°.
func unbroken(v []geom.Vertex) []geom.Vertex {
	var out []geom.Vertex
	n := len(v)
	for i, w := range v {
		before, next := v[(i+n-1)%n], v[(i+1)%n]
		in, on := w.Sub(before.Point).Unit(), next.Sub(w.Point).Unit()
		if before.Bulge == 0 && w.Bulge == 0 && math.Abs(in.Cross(on)) < 1e-9 && in.Dot(on) > 0 {
			continue
		}
		out = append(out, w)
	}
	return out
}

// tangents returns radial scribe lines from radius a to radius b at the crown
// and at the tangent points. One at which the template ends anyway has none.
func tangents(angle geom.Angle, straights [2]float64, a, b float64) []geom.Path {
	out := []geom.Path{geom.Lines(geom.Pt(0, a), geom.Pt(0, b))}
	for i, at := range [...]geom.Angle{-angle / 2, angle / 2} {
		if straights[i] >= scribeGap {
			out = append(out, geom.Lines(toward(at).Mul(a), toward(at).Mul(b)))
		}
	}
	return out
}

// ChordRise is a row of the table that checks a bend without a template.
type ChordRise struct{ Chord, Rise float64 } // mm

// RiseTable returns the rise of an arc of the given radius over chords of 2, 3,
// 4 ... steps, up to maxChord, the arc's own: with a step of 50 mm over 100,
// 150, 200 ... mm. A shorter arc gets one row: its chord rounded down to a fifth
// of a step, or as it is below that. All in mm.
func RiseTable(radius, maxChord, step float64) []ChordRise {
	first, fine := 2*step, step/5
	most := min(maxChord, 2*radius) * (1 + 1e-12)
	if !(most > 0) {
		return nil
	}
	var out []ChordRise
	for i := 0; first+step*float64(i) <= most; i++ {
		c := first + step*float64(i)
		out = append(out, ChordRise{c, geom.Rise(radius, min(c, 2*radius))})
	}
	if out == nil {
		c := most
		if c >= fine {
			c = math.Floor(c/fine) * fine
		}
		out = []ChordRise{{c, geom.Rise(radius, min(c, 2*radius))}}
	}
	return out
}

// Rises returns the [RiseTable] of a bend's face of the given radius in mm and
// angle: in steps of 50 mm or, for inches, 2 in, and in a multiple of that where
// there would be more than twenty.
func Rises(radius float64, angle geom.Angle, inches bool) []ChordRise {
	step := 50.0
	if inches {
		step = 50.8
	}
	chord := 2 * radius * min(angle/2, 90*geom.Degree).Sin()
	return RiseTable(radius, chord, step*max(1, math.Ceil(chord/(20*step))))
}

package tooling

import (
	"math"
	"testing"

	"overbend/geom"

	"pgregory.net/rapid"
)

// failer is what both *testing.T and *rapid.T offer.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

// facets returns n+1 points along s, n a power of two, by halving: the middle
// of an arc stands off its chord by bulge times half the chord, and half an
// arc has the bulge tan(atan(b)/2). It uses neither centre nor radius, so it
// is independent of package geom's measures.
func facets(s geom.Segment, n int) []geom.Point {
	if n == 1 {
		return []geom.Point{s.From, s.To}
	}
	c := s.To.Sub(s.From)
	m := geom.Pt((s.From.X+s.To.X)/2+c.Y*s.Bulge/2, (s.From.Y+s.To.Y)/2-c.X*s.Bulge/2)
	half := math.Tan(math.Atan(s.Bulge) / 2)
	first := facets(geom.Segment{From: s.From, To: m, Bulge: half}, n/2)
	return append(first, facets(geom.Segment{From: m, To: s.To, Bulge: half}, n/2)[1:]...)
}

// polygon returns a fine polygon along a closed path.
func polygon(p geom.Path, n int) []geom.Point {
	var out []geom.Point
	for _, s := range p.Segments() {
		f := facets(s, n)
		out = append(out, f[:n]...)
	}
	return out
}

// measure returns the area and the length round a polygon.
func measure(q []geom.Point) (area, length float64) {
	for i, a := range q {
		b := q[(i+1)%len(q)]
		area += a.Sub(q[0]).Cross(b.Sub(q[0])) / 2
		length += a.Dist(b)
	}
	return area, length
}

// checkOutline holds what every outline to be cut must keep.
func checkOutline(t failer, p Part) {
	t.Helper()
	if !p.Outline.Closed || p.Outline.Area() <= 0 {
		t.Fatalf("%s: closed %v, area %g: want a closed counter-clockwise outline", p.Name, p.Outline.Closed, p.Outline.Area())
	}
	for i, s := range p.Outline.Segments() {
		if !s.From.Finite() || math.IsNaN(s.Bulge) {
			t.Fatalf("%s: piece %d is %v", p.Name, i, s)
		}
		if s.Length() < leastPiece {
			t.Fatalf("%s: piece %d is %g mm long", p.Name, i, s.Length())
		}
	}
	for i, a := range p.Outline.Vertices {
		for _, b := range p.Outline.Vertices[:i] {
			if a.Dist(b.Point) < leastPiece {
				t.Fatalf("%s: vertex %v comes twice", p.Name, a)
			}
		}
	}
	if q, yes := p.Outline.SelfCrossing(); yes {
		t.Fatalf("%s: crosses itself at %v", p.Name, q)
	}
	for _, set := range [][]geom.Circle{p.Holes, p.Drill} {
		for _, h := range set {
			if !p.Outline.Contains(h.Centre) || p.Outline.Distance(h.Centre) <= h.Radius {
				t.Fatalf("%s: hole %v is not inside", p.Name, h)
			}
		}
	}
	for _, m := range p.Marks {
		if m.Length() < scribeGap {
			t.Fatalf("%s: mark %v is too short", p.Name, m)
		}
		for _, s := range m.Segments() {
			for _, q := range facets(s, 8) {
				clear(t, p, q, scribeGap-1e-6, "mark")
			}
		}
	}
}

// clear fails unless q lies inside p, gap from its edge and off its holes.
func clear(t failer, p Part, q geom.Point, gap float64, what string) {
	t.Helper()
	if !p.Outline.Contains(q) || p.Outline.Distance(q) < gap {
		t.Fatalf("%s: %s at %v is %g from the edge, inside %v", p.Name, what, q, p.Outline.Distance(q), p.Outline.Contains(q))
	}
	for _, set := range [][]geom.Circle{p.Holes, p.Drill} {
		for _, h := range set {
			if q.Dist(h.Centre) < h.Radius+gap {
				t.Fatalf("%s: %s at %v is %g from a hole", p.Name, what, q, q.Dist(h.Centre)-h.Radius)
			}
		}
	}
}

// turns returns the change of direction at every vertex, counter-clockwise
// positive.
func turns(p geom.Path) []float64 {
	segs := p.Segments()
	out := make([]float64, len(segs))
	for i, s := range segs {
		_, in := segs[(i+len(segs)-1)%len(segs)].At(1)
		_, on := s.At(0)
		out[i] = math.Atan2(in.Cross(on), in.Dot(on))
	}
	return out
}

// checkSymmetric fails unless the outline is its own mirror image.
func checkSymmetric(t failer, p Part) {
	t.Helper()
	m := p.Outline.Apply(geom.MirrorX()).Reverse()
	for i, v := range m.Vertices {
		found := false
		for k, w := range p.Outline.Vertices {
			if v.Dist(w.Point) < 1e-9 && near(v.Bulge, p.Outline.Vertices[k].Bulge, 1e-12) {
				found = true
			}
		}
		if !found {
			t.Fatalf("%s: the image of vertex %d, %v, is not on the outline", p.Name, i, v)
		}
	}
}

var davit = BlockSpec{
	Radius: 375, HalfAngle: 21 * geom.Degree, TangentHalfAngle: 17.5 * geom.Degree,
	Depth: 40, Gap: 41.4, Plate: 10,
}

func BenchmarkBlockAndCheek(b *testing.B) {
	for b.Loop() {
		block, err := NewBlock(davit)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := block.Cheek(0); err != nil {
			b.Fatal(err)
		}
	}
}

func drawBlock(t *rapid.T) BlockSpec {
	deg := func(low, high float64, name string) geom.Angle {
		return geom.Angle(rapid.Float64Range(low, high).Draw(t, name)) * geom.Degree
	}
	maybe := func(low, high float64, name string) float64 {
		if rapid.Bool().Draw(t, name+" left out") {
			return 0
		}
		return rapid.Float64Range(low, high).Draw(t, name)
	}
	s := BlockSpec{
		Depth:     rapid.Float64Range(10, 150).Draw(t, "depth"),
		HalfAngle: deg(0.5, 87, "half"),
		Plate:     rapid.Float64Range(3, 40).Draw(t, "plate"),
		Blend:     maybe(3, 60, "blend"),
		Height:    maybe(40, 600, "height"),
		Hole:      maybe(5, 40, "hole"),
		Round:     rapid.Bool().Draw(t, "round"),
		Lighten:   rapid.Bool().Draw(t, "lighten"),
	}
	s.Radius = s.Depth * math.Exp(rapid.Float64Range(math.Log(0.5), math.Log(40)).Draw(t, "log radius/depth"))
	if s.Lighten && rapid.Bool().Draw(t, "roomy") { // or openings are seldom
		s.HalfAngle, s.Plate, s.Height, s.Hole = deg(40, 87, "far"), rapid.Float64Range(3, 15).Draw(t, "thin"), 0, 0
		s.Radius = s.Depth * rapid.Float64Range(6, 20).Draw(t, "large")
	}
	s.TangentHalfAngle = s.HalfAngle * geom.Angle(rapid.Float64Range(0.1, 1).Draw(t, "tangent"))
	s.Gap = CheekGap(s.Depth * rapid.Float64Range(0.5, 2).Draw(t, "width/depth"))
	return s
}

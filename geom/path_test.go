package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestShapesAsPaths(t *testing.T) {
	c := Circle{Pt(3, -4), 25}
	p := c.Path()
	if !near(p.Area(), c.Area(), 1e-9) || !near(p.Length(), 2*math.Pi*25, 1e-9) || p.Bounds() != c.Bounds() || !p.Closed {
		t.Errorf("circle: area %g, length %g, bounds %v, closed %v", p.Area(), p.Length(), p.Bounds(), p.Closed)
	}
	r := Rect{Pt(1, 2), Pt(5, 9)}
	p = r.Path()
	if p.Area() != 28 || p.Length() != 22 || p.Bounds() != r || p.Vertices[0].Point != r.Min || !p.Closed {
		t.Errorf("rectangle: %v", p)
	}
	if got := Lines(Pt(0, 0), Pt(3, 0), Pt(3, 4)); got.Length() != 7 || got.Closed || got.End() != Pt(3, 4) {
		t.Errorf("lines: %v", got)
	}
	if got := Lines(); len(got.Vertices) != 0 {
		t.Errorf("no points: %v", got)
	}
	for _, radius := range []float64{0, Coincident / 2, 0.5, 1, 2} {
		// A trapezium with 3-4-5 sides: 8 below, 2 above, 4 high.
		p := Rounded(radius, Pt(0, 0), Pt(8, 0), Pt(5, 4), Pt(3, 4))
		// A corner that turns by a loses r² (tan(a/2) - a/2) and 2 r (tan(a/2) - a/2).
		area, length := 20.0, 8+5+2+5.0
		if radius >= Coincident {
			for _, a := range []float64{math.Pi - math.Atan2(4, 3), math.Pi - math.Atan2(4, 3), math.Atan2(4, 3), math.Atan2(4, 3)} {
				loss := math.Tan(a/2) - a/2
				area -= radius * radius * loss
				length -= 2 * radius * loss
			}
		}
		if !near(p.Area(), area, 1e-9) || !near(p.Length(), length, 1e-9) {
			t.Errorf("rounded to %g: area %g, length %g, want %g, %g", radius, p.Area(), p.Length(), area, length)
		}
	}
}

// drawSmooth draws an open path of lines and arcs tangent to each other, none of
// a radius below 50 mm.
func drawSmooth(t *rapid.T) Path {
	p, dir := Start(drawPoint(t, "start")), Angle(rapid.Float64Range(-3, 3).Draw(t, "direction"))
	for range rapid.IntRange(1, 6).Draw(t, "pieces") {
		length := rapid.Float64Range(1, 200).Draw(t, "length")
		if rapid.Bool().Draw(t, "line") {
			p = p.LineTo(p.End().Add(Polar(length, dir)))
			continue
		}
		r := rapid.Float64Range(50, 2000).Draw(t, "radius")
		if rapid.Bool().Draw(t, "to the right") {
			r = -r
		}
		turn := Angle(length / r)
		p = p.ArcAbout(p.End().Add(Polar(1, dir).Left().Mul(r)), turn)
		dir += turn
	}
	return p
}

func TestUpTo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawSmooth(t)
		length := rapid.Float64Range(0.01, 1.5).Draw(t, "share") * p.Length()
		got := p.UpTo(length)
		if want := min(length, p.Length()); !near(got.Length(), want, 2*Coincident) {
			t.Fatalf("%g mm long, want %g of %g", got.Length(), want, p.Length())
		}
		if got.Vertices[0].Point != p.Vertices[0].Point || got.Closed {
			t.Fatalf("begins at %v, want %v", got.Vertices[0], p.Vertices[0])
		}
		for i, s := range got.Segments() {
			if whole := p.Segments()[i]; i < len(got.Vertices)-2 && s != whole {
				t.Fatalf("piece %d became %v, was %v", i, s, whole)
			}
			if q, _ := s.At(0.5); p.Distance(q) > 1e-6 {
				t.Fatalf("%v lies %g off the path", q, p.Distance(q))
			}
		}
	})
	// Two pieces end exactly where they do.
	p := Lines(Pt(0, 0), Pt(10, 0), Pt(20, 0))
	for _, row := range []struct {
		length float64
		pieces int
		want   float64
	}{{10, 1, 10}, {10 + Coincident/2, 1, 10}, {10.1, 2, 10.1}, {20, 2, 20}, {30, 2, 20}, {0, 1, 0}, {-1, 1, 0}} {
		if got := p.UpTo(row.length); len(got.Segments()) != row.pieces || !near(got.Length(), row.want, 1e-12) {
			t.Errorf("up to %g: %v, want %d pieces, %g mm", row.length, got, row.pieces, row.want)
		}
	}
}

func TestBeside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawSmooth(t)
		off := rapid.Float64Range(-40, 40).Draw(t, "off")
		got := p.Beside(off)
		// A line to the left is shorter by off times the turn to the left.
		turn, want := 0.0, p.Length()
		for i, s := range p.Segments() {
			turn += float64(s.Sweep())
			g := got.Segments()[i]
			if s.IsArc() && !near(g.Radius(), s.Radius()-off*math.Copysign(1, s.Bulge), 1e-6*s.Radius()) {
				t.Fatalf("piece %d has radius %g, was %g", i, g.Radius(), s.Radius())
			}
			m, dir := s.At(0.5)
			if q, _ := g.At(0.5); q.Dist(m.Add(dir.Left().Mul(off))) > 1e-6 {
				t.Fatalf("the middle of piece %d is %v, want %g left of %v", i, q, off, m)
			}
		}
		if want -= off * turn; !near(got.Length(), want, 1e-6*p.Length()) {
			t.Fatalf("%g mm long, want %g", got.Length(), want)
		}
	})
	if got := (Path{}).Beside(3); len(got.Vertices) != 0 {
		t.Errorf("beside nothing: %v", got)
	}
}

// TestNear: what the distance says.
func TestNear(t *testing.T) {
	is := 0
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t)
		q, d := drawPoint(t, "point"), rapid.Float64Range(0, 200).Draw(t, "distance")
		if segs := p.Segments(); len(segs) > 0 && rapid.Bool().Draw(t, "beside it") {
			on, _ := segs[rapid.IntRange(0, len(segs)-1).Draw(t, "piece")].At(rapid.Float64Range(0, 1).Draw(t, "fraction"))
			q, d = on.Add(q.Mul(0.01)), d/20
		}
		if off := p.Distance(q); math.Abs(off-d) > 1e-9 && p.Near(q, d) != (off <= d) {
			t.Fatalf("%v is %g mm from %v: near to %g is %v", q, off, p, d, p.Near(q, d))
		} else if off <= d {
			is++
		}
		// The distance is the least of the pieces', whatever it leaves out.
		least := math.Inf(1)
		for _, s := range p.Segments() {
			least = min(least, q.Dist(s.Nearest(q)))
		}
		if got := p.Distance(q); got != least {
			t.Fatalf("%g mm from %v, its nearest piece %g", got, p, least)
		}
		// And the box that of the pieces.
		box := EmptyRect()
		for _, s := range p.Segments() {
			box = box.Union(s.Bounds())
		}
		if got := p.Bounds(); len(p.Vertices) > 1 && got != box {
			t.Fatalf("a box of %v, its pieces' %v", got, box)
		}
	})
	if is == 0 {
		t.Error("never near")
	}
}

// TestDirections: what At says of the ends, but that At takes an arc of more than
// flatRadius as its chord.
func TestDirections(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSegment(t)
		if s.Chord() < 1e-3 {
			return
		}
		from, to := s.directions()
		_, wantFrom := s.At(0)
		_, wantTo := s.At(1)
		if off := 1e-9 + s.Chord()/flatRadius; from.Dist(wantFrom) > off || to.Dist(wantTo) > off {
			t.Fatalf("%v leaves by %v and comes by %v, At says %v and %v", s, from, to, wantFrom, wantTo)
		}
	})
}

// TestNearArcs: beside half circles, the hull is more than their chord.
func TestNearArcs(t *testing.T) {
	for turn := Angle(0); turn < 360*Degree; turn += 15 * Degree {
		p := Start(Point{}).ArcTo(Polar(100, turn), 180*Degree)
		mid, out := p.Segments()[0].At(0.5)
		top := mid.Sub(out.Left().Mul(3)) // outside of its middle
		if p.Near(top, 2.9) || !p.Near(top, 3.1) {
			t.Errorf("turned by %v: 3 mm from the middle is not 3 mm near", turn.Degrees())
		}
	}
}

package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

func TestChordAndRise(t *testing.T) {
	for _, row := range []struct {
		r, c, want, tol float64
		source          string
	}{
		{5, 8, 2, 1e-15, "3-4-5 triangle: 5 - 3"},
		{13, 24, 8, 1e-15, "5-12-13 triangle: 13 - 5"},
		{300, 200, 17.157, 5e-4, "300 - √80000 = 300 - 282.843"},
		{100, 200, 100, 0, "half circle"},
		{1e6, 1, 1.25e-7, 1e-19, "series c²/(8R), next term 4e-21"},
		{300, 0, 0, 0, "no chord, no rise"},
	} {
		if got := Rise(row.r, row.c); !near(got, row.want, row.tol) {
			t.Errorf("Rise(%g, %g) = %.17g, want %g (%s)", row.r, row.c, got, row.want, row.source)
		}
	}
	if got := Rise(100, 201); !math.IsNaN(got) {
		t.Errorf("Rise(100, 201) = %g, want NaN: no such chord", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(1, 1e5).Draw(t, "r")
		h := Angle(rapid.Float64Range(1e-4, math.Pi/2).Draw(t, "half angle"))
		c := 2 * r * h.Sin()
		rise := Rise(r, c)
		if s := Sagitta(r, h); !near(rise, s, 1e-9*r) {
			t.Fatalf("Rise %g, Sagitta %g", rise, s)
		}
		back, slope := RadiusFromChordRise(c, Sagitta(r, h))
		if !near(back, r, 1e-9*r) {
			t.Fatalf("RadiusFromChordRise = %g, want %g", back, r)
		}
		// The slope against a central difference.
		d := 1e-4 * rise
		up, _ := RadiusFromChordRise(c, Sagitta(r, h)+d)
		down, _ := RadiusFromChordRise(c, Sagitta(r, h)-d)
		if diff := (up - down) / (2 * d); !near(slope, diff, 1e-6*math.Max(1, math.Abs(diff))) {
			t.Fatalf("slope %g, by difference %g", slope, diff)
		}
	})
}

func TestAngle(t *testing.T) {
	if a := 180 * Degree; a.Radians() != math.Pi || a.Degrees() != 180 {
		t.Errorf("180 degrees = %g rad = %g degrees", a.Radians(), a.Degrees())
	}
	a := 33 * Degree
	if !near(a.Tan(), a.Sin()/a.Cos(), 1e-15) || !near(a.Sin()*a.Sin()+a.Cos()*a.Cos(), 1, 1e-15) {
		t.Errorf("sin %g cos %g tan %g", a.Sin(), a.Cos(), a.Tan())
	}
}

func drawPoint(t *rapid.T, name string) Point {
	return Pt(rapid.Float64Range(-500, 500).Draw(t, name+".x"), rapid.Float64Range(-500, 500).Draw(t, name+".y"))
}

// drawPath draws a path of 2 to 8 lines and arcs, crossing itself or not.
func drawPath(t *rapid.T) Path {
	p := Start(drawPoint(t, "start"))
	for range rapid.IntRange(2, 8).Draw(t, "pieces") {
		q := drawPoint(t, "to")
		if q.Dist(p.End()) < 1 || q.Dist(p.Vertices[0].Point) < 1 {
			continue
		}
		if rapid.Bool().Draw(t, "arc") {
			sweep := rapid.Float64Range(0.05, 6).Draw(t, "sweep")
			if rapid.Bool().Draw(t, "clockwise") {
				sweep = -sweep
			}
			p = p.ArcTo(q, Angle(sweep))
			continue
		}
		p = p.LineTo(q)
	}
	return p
}

// chordLoss bounds what n facets an arc lose of the area and of the length:
// R² θ³/(12 n²) and R θ³/(24 n²), the first terms of the series, doubled.
func chordLoss(p Path, n int) (area, length float64) {
	for _, s := range p.Segments() {
		if s.IsArc() {
			th := math.Abs(float64(s.Sweep())) / float64(n)
			area += float64(n) * s.Radius() * s.Radius() * th * th * th / 6
			length += float64(n) * s.Radius() * th * th * th / 12
		}
	}
	return area + 1e-6, length + 1e-8
}

func TestPathAgainstPolygon(t *testing.T) {
	const n = 512
	rapid.Check(t, func(t *rapid.T) {
		open := drawPath(t)
		if len(open.Vertices) < 2 {
			return
		}
		for _, p := range []Path{open, open.Close()} {
			poly := polygon(p, n)
			dArea, dLength := chordLoss(p, n)
			want := 0.0
			if p.Closed {
				want = shoelace(poly)
			}
			if got := p.Area(); !near(got, want, dArea) {
				t.Fatalf("Area = %.9g, polygon %.9g", got, want)
			}
			length, box := 0.0, EmptyRect()
			for i, a := range poly {
				box = box.Add(a)
				if i+1 < len(poly) {
					length += a.Dist(poly[i+1])
				} else if p.Closed {
					length += a.Dist(poly[0])
				}
			}
			if got := p.Length(); !near(got, length, dLength) {
				t.Fatalf("Length = %.9g, polygon %.9g", got, length)
			}
			// The polygon's corners lie on the path, so its box lies inside and
			// falls short by no more than one facet's rise.
			slack := 0.0
			for _, s := range p.Segments() {
				if s.IsArc() {
					slack = math.Max(slack, Sagitta(s.Radius(), s.Sweep()/n))
				}
			}
			got := p.Bounds()
			if !got.Holds(box, 1e-9) || !box.Holds(got, slack+1e-9) {
				t.Fatalf("Bounds = %v, polygon %v", got, box)
			}
			q := drawPoint(t, "probe")
			far := math.Inf(1)
			for i, a := range poly {
				b := poly[(i+1)%len(poly)]
				if i+1 == len(poly) && !p.Closed {
					break
				}
				far = math.Min(far, q.Dist(Segment{From: a, To: b}.Nearest(q)))
			}
			if got := p.Distance(q); !near(got, far, slack+1e-9) {
				t.Fatalf("Distance = %.9g, polygon %.9g", got, far)
			}
			if far > slack+1e-6 {
				if got, want := p.Contains(q), p.Closed && winding(poly, q) != 0; got != want {
					t.Fatalf("Contains(%v) = %v, want %v", q, got, want)
				}
			}
		}
	})
}

// rounding bounds what floating point and the flattening of endless radii cost
// a point on s.
func rounding(s Segment) float64 {
	return 1e-9*(1+s.Length()) + 4e-16*math.Min(s.Radius(), flatRadius) + s.Length()*s.Length()/flatRadius
}

func TestSegmentNearestBySampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Segment{drawPoint(t, "from"), drawPoint(t, "to"), math.Tan(rapid.Float64Range(-1.5, 1.5).Draw(t, "quarter sweep"))}
		if s.Chord() < 1 {
			return
		}
		q := drawPoint(t, "probe")
		got := s.Nearest(q)
		if on := s.Nearest(got); on.Dist(got) > rounding(s) {
			t.Fatalf("Nearest %v is not on the segment, but %v is", got, on)
		}
		for _, p := range facets(s, 256) {
			if p.Dist(q) < got.Dist(q)-rounding(s) {
				t.Fatalf("Nearest(%v) = %v at %g, but %v is at %g", q, got, got.Dist(q), p, p.Dist(q))
			}
		}
	})
}

func TestSegmentAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Segment{drawPoint(t, "from"), drawPoint(t, "to"), math.Tan(rapid.Float64Range(-1.4, 1.4).Draw(t, "quarter sweep"))}
		if s.Chord() < 1 {
			return
		}
		tol := rounding(s)
		for i, want := range facets(s, 8) {
			got, dir := s.At(float64(i) / 8)
			if got.Dist(want) > tol {
				t.Fatalf("At(%d/8) = %v, by halving %v", i, got, want)
			}
			const h = 1e-6
			ahead, _ := s.At(float64(i)/8 + h)
			behind, _ := s.At(float64(i)/8 - h)
			if slope := ahead.Sub(behind).Unit(); slope.Dist(dir) > 1e-5 {
				t.Fatalf("direction at %d/8 = %v, by difference %v", i, dir, slope)
			}
		}
		if s.IsArc() && math.Abs(s.Bulge) > 1e-3 {
			c, r := s.Centre(), s.Radius()
			for _, p := range facets(s, 8) {
				if !near(p.Dist(c), r, 1e-9*r) {
					t.Fatalf("point %v is %g from the centre, radius %g", p, p.Dist(c), r)
				}
			}
		}
	})
}

func drawTransform(t *rapid.T) Transform {
	out := Translate(Point{})
	if rapid.Bool().Draw(t, "mirror") {
		out = MirrorX()
	}
	return out.
		Then(Rotate(Angle(rapid.Float64Range(-7, 7).Draw(t, "turn")))).
		Then(Scale(rapid.Float64Range(0.2, 3).Draw(t, "scale"))).
		Then(Translate(drawPoint(t, "shift")))
}

func TestTransformLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t)
		if len(p.Vertices) < 2 {
			return
		}
		p = p.Close()
		a, b := drawTransform(t), drawTransform(t)
		got, want := p.Apply(a.Then(b)), p.Apply(a).Apply(b)
		for i := range got.Vertices {
			if got.Vertices[i].Dist(want.Vertices[i].Point) > 1e-8 || got.Vertices[i].Bulge != want.Vertices[i].Bulge {
				t.Fatalf("vertex %d: %v by Then, %v one after the other", i, got.Vertices[i], want.Vertices[i])
			}
		}
		k := a.Factor()
		moved := p.Apply(a)
		if !near(moved.Length(), k*p.Length(), 1e-9*k*p.Length()) {
			t.Fatalf("Length %g, want %g times %g", moved.Length(), k, p.Length())
		}
		sign := 1.0
		if a.Mirrors() {
			sign = -1
		}
		scale := k * k * p.Length() * p.Length()
		if !near(moved.Area(), sign*k*k*p.Area(), 1e-9*scale) {
			t.Fatalf("Area %g, want %g", moved.Area(), sign*k*k*p.Area())
		}
		// Arcs stay arcs: points along the image are images of points along it.
		for i, s := range p.Segments() {
			m := moved.Segments()[i]
			for _, f := range []float64{0, 0.3, 0.8, 1} {
				x, _ := s.At(f)
				y, _ := m.At(f)
				if y.Dist(a.Apply(x)) > 1e-8*(1+s.Length()) {
					t.Fatalf("piece %d at %g: %v, want %v", i, f, y, a.Apply(x))
				}
			}
		}
		c := Circle{drawPoint(t, "centre"), rapid.Float64Range(1, 100).Draw(t, "radius")}
		if got := a.ApplyCircle(c); !near(got.Area(), k*k*c.Area(), 1e-9*k*k*c.Area()) {
			t.Fatalf("circle area %g, want %g", got.Area(), k*k*c.Area())
		}
	})
	q := Pt(3, 4)
	for _, row := range []struct {
		name string
		got  Point
		want Point
	}{
		{"MirrorX", MirrorX().Apply(q), Pt(-3, 4)},
		{"MirrorY", MirrorY().Apply(q), Pt(3, -4)},
		{"quarter turn", Rotate(90 * Degree).Apply(q), Pt(-4, 3)},
		{"half turn about (1, 1)", RotateAbout(Pt(1, 1), 180*Degree).Apply(q), Pt(-1, -2)},
		{"shift", Translate(Pt(-3, -4)).Apply(q), Pt(0, 0)},
	} {
		if row.got.Dist(row.want) > 1e-14 {
			t.Errorf("%s of %v = %v, want %v", row.name, q, row.got, row.want)
		}
	}
}

func TestReverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t)
		if rapid.Bool().Draw(t, "closed") && len(p.Vertices) > 1 {
			p = p.Close()
		}
		r := p.Reverse()
		if !near(r.Length(), p.Length(), 1e-9*(1+p.Length())) || !near(r.Area(), -p.Area(), 1e-9*(1+p.Length()*p.Length())) {
			t.Fatalf("length %g area %g, reversed %g %g", p.Length(), p.Area(), r.Length(), r.Area())
		}
		back := r.Reverse()
		for i, v := range p.Vertices {
			if back.Vertices[i] != v {
				t.Fatalf("twice reversed: vertex %d is %v, want %v", i, back.Vertices[i], v)
			}
		}
		// Piece by piece the same arcs, run the other way, in reverse order.
		a, b := p.Segments(), r.Segments()
		shift := 0
		if p.Closed {
			shift = 1 // the closing piece stays last
		}
		for i, s := range a {
			k := len(a) - 1 - i - shift
			if k < 0 {
				k += len(a)
			}
			if b[k] != s.Reverse() {
				t.Fatalf("piece %d is %v, want %v reversed", k, b[k], s)
			}
		}
	})
}

func TestDegenerate(t *testing.T) {
	for _, p := range []Path{{}, {Closed: true}, Start(Pt(3, 4)), Start(Pt(3, 4)).Close()} {
		if p.Length() != 0 || p.Area() != 0 || p.Contains(Pt(0, 0)) || len(p.Reverse().Vertices) != len(p.Vertices) {
			t.Errorf("%v: length %g area %g", p, p.Length(), p.Area())
		}
		if len(p.Vertices) == 0 && !p.Bounds().Empty() {
			t.Errorf("%v: bounds %v, want none", p, p.Bounds())
		}
	}
	if got := Start(Pt(3, 4)).Bounds(); got != (Rect{Pt(3, 4), Pt(3, 4)}) {
		t.Errorf("bounds of one point = %v", got)
	}
	if d := (Path{}).Distance(Pt(0, 0)); !math.IsInf(d, 1) {
		t.Errorf("distance to nothing = %g", d)
	}
	// A circle of two half arcs, closed onto its first vertex.
	c := Start(Pt(10, 0)).ArcAbout(Pt(0, 0), 180*Degree).ArcAbout(Pt(0, 0), 180*Degree).Close()
	if len(c.Vertices) != 2 || !near(c.Area(), 100*math.Pi, 1e-10) || !near(c.Length(), 20*math.Pi, 1e-12) {
		t.Errorf("circle: %d vertices, area %g, length %g", len(c.Vertices), c.Area(), c.Length())
	}
	line := Segment{Pt(0, 0), Pt(1, 0), 0}
	if !math.IsInf(line.Radius(), 1) || line.Sweep() != 0 || line.Centre().Finite() {
		t.Errorf("line: radius %g sweep %g centre %v", line.Radius(), line.Sweep(), line.Centre())
	}
	if (Point{}).Unit() != (Point{}) || (Point{}).Direction() != 0 {
		t.Error("the zero displacement has no direction and stays as it is")
	}
	dot := Segment{Pt(2, 2), Pt(2, 2), 0}
	if dot.Nearest(Pt(9, 9)) != Pt(2, 2) || dot.Length() != 0 {
		t.Errorf("a segment of no length: nearest %v, length %g", dot.Nearest(Pt(9, 9)), dot.Length())
	}
	arc := Segment{Pt(1, 0), Pt(0, 1), math.Tan(math.Pi / 8)}
	if got := arc.Nearest(arc.Centre()).Dist(arc.Centre()); !near(got, 1, 1e-14) {
		t.Errorf("nearest to an arc's centre is at %g, want its radius 1", got)
	}
	for _, f := range []func(){
		func() { Path{}.LineTo(Pt(0, 0)) },
		func() { Path{}.End() },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Error("extending an empty path did not panic")
				}
			}()
			f()
		}()
	}
}

func TestPathsShareNothing(t *testing.T) {
	// Two paths grown from one must not write into each other's vertices.
	a := Start(Pt(0, 0)).LineTo(Pt(1, 0))
	b := a.LineTo(Pt(1, 1))
	c := a.BulgeTo(Pt(5, 5), 1)
	if a.Vertices[1].Bulge != 0 || b.Vertices[1].Bulge != 0 || b.Vertices[2].Point != Pt(1, 1) || c.Vertices[2].Point != Pt(5, 5) {
		t.Errorf("paths share vertices: %v %v %v", a, b, c)
	}
}

func TestRect(t *testing.T) {
	r := Rect{Pt(0, 0), Pt(10, 4)}
	e := EmptyRect()
	if !e.Empty() || r.Empty() || r.Union(e) != r || e.Union(r) != r {
		t.Errorf("the empty box is not neutral: %v", r.Union(e))
	}
	if r.Width() != 10 || r.Height() != 4 || r.Centre() != Pt(5, 2) {
		t.Errorf("width %g height %g centre %v", r.Width(), r.Height(), r.Centre())
	}
	if g := r.Grow(-3); !g.Empty() {
		t.Errorf("4 mm less 3 mm each side is %v, want empty", g)
	}
	if !r.Holds(r, 0) || r.Holds(r.Grow(1), 0.5) || !r.Holds(r.Grow(1), 1) {
		t.Error("Holds and its slack")
	}
	s := Rect{Pt(13, 0), Pt(20, 4)}
	if r.Overlaps(s, 3) || !r.Overlaps(s, 3.001) || r.Overlaps(s, 0) || !r.Overlaps(r, 0) {
		t.Error("Overlaps and its gap")
	}
	if p := Pt(math.NaN(), 0); p.Finite() || Pt(0, math.Inf(1)).Finite() || !Pt(1, 2).Finite() {
		t.Error("Finite")
	}
}

// A point on the chord of an arc, and on the shared chord of two: the side of
// the chord must be the same for the turning and for the circular segment.
func TestContainsOnChord(t *testing.T) {
	disc := Path{[]Vertex{{Pt(35, 25), 1}, {Pt(65, 25), 1}}, true}
	for _, q := range []Point{Pt(45, 25), Pt(50, 25), Pt(50, 20), Pt(64, 25)} {
		if !disc.Contains(q) || !disc.Reverse().Contains(q) {
			t.Errorf("a disc does not hold %v", q)
		}
	}
	for _, q := range []Point{Pt(34, 25), Pt(66, 25), Pt(50, 41)} {
		if disc.Contains(q) || disc.Reverse().Contains(q) {
			t.Errorf("a disc holds %v", q)
		}
	}
}

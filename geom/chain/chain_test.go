package chain

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// lines is one segment a line.
func lines(segs ...geom.Segment) []Line {
	out := make([]Line, len(segs))
	for i, s := range segs {
		out[i].Path = geom.Path{Vertices: []geom.Vertex{{Point: s.From, Bulge: s.Bulge}, {Point: s.To}}}
	}
	return out
}

// zigzag draws a tangent path of lines and arcs that does not come back on itself.
func zigzag(t *rapid.T) geom.Path {
	p := geom.Start(geom.Pt(0, 0))
	dir := geom.Pt(1, 0)
	for i := range rapid.IntRange(1, 7).Draw(t, "pieces") {
		if i%2 == 0 {
			p = p.LineTo(p.End().Add(dir.Mul(rapid.Float64Range(1, 300).Draw(t, "line"))))
			continue
		}
		sweep := geom.Angle(rapid.Float64Range(-1.2, 1.2).Draw(t, "sweep"))
		if math.Abs(float64(sweep)) < 0.02 {
			sweep = 0.02
		}
		r := rapid.Float64Range(20, 2000).Draw(t, "radius")
		side := math.Copysign(1, float64(sweep))
		p = p.ArcAbout(p.End().Add(dir.Left().Mul(side*r)), sweep)
		segs := p.Segments()
		_, dir = segs[len(segs)-1].At(1)
	}
	return p
}

// Pieces in any order and direction become one chain: the path that they were.
func TestJoins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := zigzag(t)
		segs := rapid.Permutation(p.Segments()).Draw(t, "order")
		for i := range segs {
			if rapid.Bool().Draw(t, "turned") {
				segs[i] = segs[i].Reverse()
			}
		}
		got := Find(lines(segs...), Usual())
		if len(got) != 1 || got[0].Closed {
			t.Fatalf("%d chains of %v", len(got), p)
		}
		q := got[0].Path()
		if q.Vertices[0].Dist(p.Vertices[0].Point) > 1e-6 {
			q = q.Reverse()
		}
		if len(q.Vertices) != len(p.Vertices) {
			t.Fatalf("%d corners, want %d", len(q.Vertices), len(p.Vertices))
		}
		for i, v := range q.Vertices {
			if v.Dist(p.Vertices[i].Point) > 1e-6 || math.Abs(v.Bulge-p.Vertices[i].Bulge) > 1e-9 {
				t.Fatalf("corner %d: %v, want %v", i, v, p.Vertices[i])
			}
		}
		// Lines of different groups do not meet.
		apart := lines(segs...)
		for i := range apart {
			apart[i].Group = i
		}
		if got := Find(apart, Usual()); len(got) != len(segs) {
			t.Fatalf("%d chains of %d groups", len(got), len(segs))
		}
	})
}

// How wide a gap is closed, and how large a kink, is the tolerance's word.
func TestTolerance(t *testing.T) {
	tol := Tolerance{Gap: 0.2, Kink: 1 * geom.Degree, Off: 0.05}
	for _, c := range []struct {
		gap    float64
		kink   geom.Angle
		chains int
	}{
		{0, 0, 1}, {0.19, 0, 1}, {0.21, 0, 2}, {0, 0.99, 1}, {0, -0.99, 1}, {0, 1.01, 2}, {0.19, 0.99, 1}, {0, 29, 2}, {0, 90, 2},
	} {
		a := geom.Segment{From: geom.Pt(0, 0), To: geom.Pt(100, 0)}
		b := geom.Segment{From: geom.Pt(100, 0), To: geom.Pt(150, 50), Bulge: math.Tan(math.Pi / 8)}
		b = b.Apply(geom.RotateAbout(b.From, c.kink*geom.Degree)).Apply(geom.Translate(geom.Pt(c.gap, 0)))
		got := Find(lines(a, b), tol)
		if len(got) != c.chains {
			t.Errorf("gap %g, kink %v: %d chains, want %d", c.gap, c.kink, len(got), c.chains)
		}
		if len(got) == 1 {
			if p := got[0].Pieces[0]; math.Abs(p.Gap-c.gap) > 1e-12 || math.Abs(p.Kink.Degrees()-math.Abs(float64(c.kink))) > 1e-9 {
				t.Errorf("gap %g, kink %v: told %g, %v", c.gap, c.kink, p.Gap, p.Kink.Degrees())
			}
		}
	}
}

// At a crossing the straightest way goes on, and an end without a gap before one with.
func TestCrossing(t *testing.T) {
	o := geom.Pt(0, 0)
	west := geom.Segment{From: geom.Pt(-50, 0), To: o}
	east := geom.Segment{From: o, To: geom.Pt(50, 0)}
	bent := geom.Segment{From: o, To: geom.Pt(50, 10)}
	up := geom.Segment{From: o, To: geom.Pt(0, 40)}
	apart := east.Apply(geom.Translate(geom.Pt(0.05, 0)))
	for _, c := range []struct {
		lines []geom.Segment
		on    geom.Point // where the line from the west ends
	}{
		{[]geom.Segment{bent, up, west, east}, east.To},
		{[]geom.Segment{apart, west, east}, east.To},
		{[]geom.Segment{east, west, bent}, east.To},
		{[]geom.Segment{east, bent, west}, east.To},
		{[]geom.Segment{west, up}, west.To},
	} {
		found := false
		for _, ch := range Find(lines(c.lines...), Usual()) {
			p := ch.Path()
			a, b := p.Vertices[0].Point, p.End()
			found = found || a == west.From && b.Dist(c.on) < 1e-9 || b == west.From && a.Dist(c.on) < 1e-9
		}
		if !found {
			t.Errorf("%v does not lead to %v", c.lines, c.on)
		}
	}
}

// A closed line begins where it likes: cut at its corners it gives the same chains;
// without corners it is closed.
func TestClosed(t *testing.T) {
	rect := geom.Rect{Max: geom.Pt(30, 20)}.Path()
	round := geom.Rounded(5, geom.Pt(0, 0), geom.Pt(30, 0), geom.Pt(30, 20), geom.Pt(0, 20))
	// A D: one corner less, as a line runs into its arc.
	d := geom.Start(geom.Pt(0, 0)).LineTo(geom.Pt(20, 0)).ArcTo(geom.Pt(20, 10), math.Pi).LineTo(geom.Pt(0, 10)).Close()
	var polygon geom.Path // its corners are soft, its sides far off their circle
	for i := range 24 {
		polygon.Vertices = append(polygon.Vertices, geom.Vertex{Point: geom.Polar(1000, geom.Angle(i)*15*geom.Degree)})
	}
	polygon.Closed = true
	for name, c := range map[string]struct {
		path   geom.Path
		chains int
		closed bool
	}{"rectangle": {rect, 4, false}, "rounded": {round, 1, true}, "D": {d, 2, false}, "24 corners": {polygon, 24, false}} {
		n := len(c.path.Vertices)
		for turn := range n {
			p := geom.Path{Closed: true, Vertices: append(append([]geom.Vertex(nil), c.path.Vertices[turn:]...), c.path.Vertices[:turn]...)}
			for _, ls := range [][]Line{{{Path: p}}, lines(p.Segments()...)} {
				got := Find(ls, Usual())
				sum := 0.0
				for _, ch := range got {
					sum += ch.Path().Length()
					if ch.Closed != c.closed {
						t.Errorf("%s from corner %d: closed %v", name, turn, ch.Closed)
					}
				}
				if len(got) != c.chains || math.Abs(sum-c.path.Length()) > 1e-9 {
					t.Errorf("%s from corner %d: %d chains, %g mm", name, turn, len(got), sum)
				}
			}
		}
	}
}

// One arc in pieces is one arc, one line in pieces one line; a change of radius is
// none.
func TestMerges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := zigzag(t)
		var all []geom.Segment
		for _, s := range p.Segments() {
			all = append(all, s.Split(rapid.Float64Range(0.2, 0.4).Draw(t, "at"), rapid.Float64Range(0.5, 0.8).Draw(t, "at"))...)
		}
		got := Find(lines(all...), Usual())
		if len(got) != 1 || len(got[0].Pieces) != len(p.Segments()) {
			t.Fatalf("%d chains, %d pieces; want %d", len(got), len(got[0].Pieces), len(p.Segments()))
		}
	})
	a := geom.Start(geom.Pt(0, 0)).ArcAbout(geom.Pt(0, 100), 0.5)
	_, dir := a.Segments()[0].At(1)
	b := a.ArcAbout(a.End().Add(dir.Left().Mul(100.1)), 0.5)
	if got := Find(lines(b.Segments()...), Usual()); len(got) != 1 || len(got[0].Pieces) != 2 {
		t.Errorf("%+v", got)
	}
	// Two halves of a circle and more do not make a piece of a whole turn.
	c := geom.Circle{Radius: 50}.Path()
	if got := Find([]Line{{Path: c}}, Usual()); len(got) != 1 || !got[0].Closed || len(got[0].Pieces) != 2 {
		t.Errorf("%+v", got)
	}
}

// The circle through points with noise of a size is off by no more than that size
// allows: here points over half a turn.
func TestCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(1, 5000).Draw(t, "radius")
		m := geom.Pt(rapid.Float64Range(-1e4, 1e4).Draw(t, "x"), rapid.Float64Range(-1e4, 1e4).Draw(t, "y"))
		sweep := rapid.Float64Range(0.2, 3).Draw(t, "sweep")
		n := rapid.IntRange(5, 600).Draw(t, "points")
		noise := rapid.SampledFrom([]float64{0, 1e-3 * r * sweep * sweep}).Draw(t, "noise")
		pts := make([]geom.Point, n)
		for i := range pts {
			// Of either side in turn: nothing to be drawn to.
			pts[i] = m.Add(geom.Polar(r+noise*float64(i%2*2-1)*float64((i/2)%2*2-1), geom.Angle(sweep*float64(i)/float64(n-1))))
		}
		c, got, ok := circle(pts)
		if n <= 256 {
			// Where the sum of squares is least its slopes are nothing: the distances
			// left over sum to nothing, along x and y too.
			var slope [3]float64
			for _, q := range pts {
				v := q.Sub(c)
				left := v.Norm() - got
				slope[0] += left
				slope[1] += left * v.X / v.Norm()
				slope[2] += left * v.Y / v.Norm()
			}
			for i, s := range slope {
				if math.Abs(s)/float64(n) > 1e-3*noise+1e-8 {
					t.Fatalf("slope %d is %g with noise of %g", i, s/float64(n), noise)
				}
			}
		}
		tol := 1e-6 + 60*noise/(sweep*sweep)
		if !ok || c.Dist(m) > tol || math.Abs(got-r) > tol {
			t.Fatalf("%v, %g; want %v, %g", c, got, m, r)
		}
	})
	for _, pts := range [][]geom.Point{
		{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(2, 0), geom.Pt(3, 0)},
		{geom.Pt(1, 1), geom.Pt(1, 1), geom.Pt(1, 1)},
	} {
		if _, r, ok := circle(pts); ok && r < largest {
			t.Errorf("%v: radius %g", pts, r)
		}
	}
}

// Equations solved against Cramer's rule.
func TestSolve3(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var m [3][4]float64
		for i := range m {
			for k := range m[i] {
				m[i][k] = float64(rapid.IntRange(-9, 9).Draw(t, "m"))
			}
		}
		det := func(c int) float64 {
			at := func(i, k int) float64 {
				if k == c {
					return m[i][3]
				}
				return m[i][k]
			}
			return at(0, 0)*(at(1, 1)*at(2, 2)-at(1, 2)*at(2, 1)) - at(0, 1)*(at(1, 0)*at(2, 2)-at(1, 2)*at(2, 0)) + at(0, 2)*(at(1, 0)*at(2, 1)-at(1, 1)*at(2, 0))
		}
		got, ok := solve3(m)
		d := det(-1)
		if d == 0 {
			return
		}
		if !ok {
			t.Fatalf("no solution of %v", m)
		}
		for k := range 3 {
			if math.Abs(got[k]-det(k)/d) > 1e-9*(1+math.Abs(got[k])) {
				t.Fatalf("x%d is %g, want %g", k, got[k], det(k)/d)
			}
		}
	})
}

// A bend is measured from either side alike, and from its mirror image with its legs
// exchanged.
func TestBend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := geom.Angle(rapid.Float64Range(0.02, 3.1).Draw(t, "angle"))
		r := rapid.Float64Range(10, 2000).Draw(t, "radius")
		legs := [2]float64{rapid.Float64Range(1, 500).Draw(t, "left"), rapid.Float64Range(1, 500).Draw(t, "right")}
		// Clockwise from the west: the crown on top.
		p := geom.Start(geom.Pt(0, 0)).LineTo(geom.Pt(legs[0], 0)).ArcAbout(geom.Pt(legs[0], -r), -angle)
		_, dir := p.Segments()[1].At(1)
		p = p.LineTo(p.End().Add(dir.Mul(legs[1])))
		for turn, path := range []geom.Path{p, p.Reverse(), p.Apply(geom.MirrorY()), p.Apply(geom.MirrorY()).Reverse()} {
			ch := Find([]Line{{Path: path}}, Usual())
			b := ch[0].Bends(0)
			if len(ch) != 1 || len(b) != 1 {
				t.Fatalf("%d chains, %d bends", len(ch), len(b))
			}
			l, k := b[0].Legs, b[0]
			want := legs
			if turn > 1 {
				want[0], want[1] = want[1], want[0]
			}
			if math.Abs(k.Radius-r) > 1e-6*r || math.Abs(float64(k.Angle-angle)) > 1e-9 || math.Abs(l[0].Length-want[0]) > 1e-6 || math.Abs(l[1].Length-want[1]) > 1e-6 || !l[0].Free || !l[1].Free {
				t.Fatalf("turn %d: %+v", turn, k)
			}
			for i := range l {
				if away := l[i].Start.Sub(k.Centre).Unit(); away.Dist(k.Outside(i)) > 1e-6 {
					t.Fatalf("outside of leg %d is %v, want %v", i, k.Outside(i), away)
				}
			}
			if k.Path().Length()-path.Length() > 1e-6 || k.Path().Vertices[0].Dist(l[0].End()) > 1e-9 {
				t.Fatalf("path %v", k.Path())
			}
			// Parallel to what lies beside it, and to nothing else.
			off := rapid.Float64Range(-0.9*r, 500).Draw(t, "off")
			if r+off < 5 {
				continue
			}
			beside := path.Beside(off)
			if turn == 1 || turn == 2 { // turning left the outside is on the right
				beside = path.Beside(-off)
			}
			o := Find([]Line{{Path: beside}}, Usual())[0].Bends(0)[0]
			got, ok := k.Beside(o, Usual())
			if !ok || math.Abs(got-off) > 1e-6 {
				t.Fatalf("turn %d: %g, %v; want %g", turn, got, ok, off)
			}
			for _, by := range []float64{0.3, -0.3} {
				far := o
				far.Legs[0].Start = far.Legs[0].Start.Add(far.Legs[0].Out.Mul(by))
				if _, ok := k.Beside(far, Usual()); ok {
					t.Fatalf("turn %d: parallel to what is moved by %g mm", turn, by)
				}
				far = o
				far.Legs[1].Start = far.Legs[1].Start.Add(far.Outside(1).Mul(by))
				if _, ok := k.Beside(far, Usual()); ok {
					t.Fatalf("turn %d: parallel to what is %g mm further at one end", turn, by)
				}
				far = o
				far.Legs[0].Out = geom.Rotate(geom.Angle(by) * 5 * geom.Degree).Apply(far.Legs[0].Out)
				if _, ok := k.Beside(far, Usual()); ok {
					t.Fatalf("turn %d: parallel to what is turned", turn)
				}
				far = o
				far.Radius += by + math.Copysign(0.003*r, by)
				if _, ok := k.Beside(far, Usual()); ok {
					t.Fatalf("turn %d: parallel to another radius", turn)
				}
			}
		}
	})
}

package geom

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// rounded returns the outline that encloses the circles in order, each turned
// about counter-clockwise: lines tangent to neighbours, an arc on each.
func rounded(cs []Circle) Path {
	n := len(cs)
	var dirs []Angle // of the tangent line from circle i to i+1, both on its left
	for i, a := range cs {
		b := cs[(i+1)%n]
		d := b.Centre.Sub(a.Centre)
		// Outer tangent of two circles: turned by asin of the radii's difference.
		dirs = append(dirs, d.Direction()+Angle(math.Asin((a.Radius-b.Radius)/d.Norm())))
	}
	p := Path{Closed: true}
	for i, c := range cs {
		in, out := dirs[(i+n-1)%n], dirs[i]
		sweep := math.Mod(float64(out-in)+4*math.Pi, 2*math.Pi)
		normal := func(a Angle) Point { return c.Centre.Add(Polar(c.Radius, a-math.Pi/2)) }
		p.Vertices = append(p.Vertices,
			Vertex{normal(in), math.Tan(sweep / 4)},
			Vertex{Point: normal(out)})
	}
	return p
}

// drawRounded draws a convex outline without a corner: circles of different
// size on the corners of a regular polygon.
func drawRounded(t *rapid.T) Path {
	n := rapid.IntRange(3, 7).Draw(t, "corners")
	size := rapid.Float64Range(50, 400).Draw(t, "size")
	var cs []Circle
	for i := range n {
		cs = append(cs, Circle{
			Polar(size, Angle(2*math.Pi*float64(i)/float64(n))),
			rapid.Float64Range(2, size/8).Draw(t, "radius"),
		})
	}
	return rounded(cs)
}

func TestOffsetOfRounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawRounded(t)
		d := rapid.Float64Range(0.05, 60).Draw(t, "d")
		q, err := p.Offset(d)
		if err != nil {
			t.Fatal(err)
		}
		// Steiner's formula for a convex body, exact.
		want := p.Area() + d*p.Length() + math.Pi*d*d
		if got := q.Area(); !near(got, want, 1e-9*want) {
			t.Fatalf("area %.12g, Steiner %.12g", got, want)
		}
		if got, want := q.Length(), p.Length()+2*math.Pi*d; !near(got, want, 1e-9*want) {
			t.Fatalf("length %.12g, Steiner %.12g", got, want)
		}
		for _, s := range q.Segments() {
			for _, x := range facets(s, 8) {
				if got := p.Distance(x); !near(got, d, 1e-9) {
					t.Fatalf("point %v of the offset is %.12g away, want %g", x, got, d)
				}
			}
		}
		a, b := p.Segments(), q.Segments()
		for i := range a {
			if a[i].Bulge != b[i].Bulge {
				t.Fatalf("piece %d: bulge %g became %g", i, a[i].Bulge, b[i].Bulge)
			}
			if a[i].IsArc() && a[i].Centre().Dist(b[i].Centre()) > 1e-9 {
				t.Fatalf("piece %d: centre moved by %g", i, a[i].Centre().Dist(b[i].Centre()))
			}
		}
		back, err := q.Offset(-d)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range back.Vertices {
			if v.Dist(p.Vertices[i].Point) > 1e-9 {
				t.Fatalf("out and back: vertex %d moved by %g", i, v.Dist(p.Vertices[i].Point))
			}
		}
	})
}

// TestOffsetOfSharp takes random stars: convex and concave corners between
// lines and arcs.
func TestOffsetOfSharp(t *testing.T) {
	done := 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 9).Draw(t, "corners")
		p := Path{Closed: true}
		for i := range n {
			r := rapid.Float64Range(40, 200).Draw(t, "r")
			v := Vertex{Point: Polar(r, Angle(2*math.Pi*float64(i)/float64(n)))}
			if rapid.Bool().Draw(t, "arc") {
				v.Bulge = rapid.Float64Range(-0.3, 0.3).Draw(t, "bulge")
			}
			p.Vertices = append(p.Vertices, v)
		}
		if _, crosses := p.SelfCrossing(); crosses || p.Area() <= 0 {
			return
		}
		d := rapid.Float64Range(-8, 8).Draw(t, "d")
		if math.Abs(d) < 0.01 {
			return
		}
		q, err := p.Offset(d)
		if err != nil {
			if !errors.Is(err, ErrOffset) {
				t.Fatal(err)
			}
			return
		}
		done++
		// Rounding is some units in the last place of the largest radius; an
		// endless one counts as its chord.
		tol := 1e-9
		for _, s := range p.Segments() {
			if s.flat() {
				tol = math.Max(tol, s.Length()*s.Length()/flatRadius)
			} else {
				tol = math.Max(tol, 2e-15*s.Radius())
			}
		}
		// Nothing is nearer than d; only a corner that is run on is further: a
		// mitre of lines by no more than a square corner's √2, an arc that
		// curves away by no more than the 2 at which it is not run on.
		for _, s := range q.Segments() {
			for _, x := range facets(s, 16) {
				got := p.Distance(x)
				if got < math.Abs(d)-tol || got > 2*math.Abs(d)+tol {
					t.Fatalf("point %v of the offset is %.12g away, want %g", x, got, d)
				}
				if p.Contains(x) == (d > 0) {
					t.Fatalf("point %v of the offset by %g lies on the wrong side", x, d)
				}
			}
		}
	})
	if done < 20 {
		t.Errorf("only %d outlines had an offset: the test says little", done)
	}
}

func TestOffsetCorners(t *testing.T) {
	square := Start(Pt(0, 0)).LineTo(Pt(100, 0)).LineTo(Pt(100, 50)).LineTo(Pt(0, 50)).Close()
	ell := Start(Pt(0, 0)).LineTo(Pt(100, 0)).LineTo(Pt(100, 20)).LineTo(Pt(30, 20)).LineTo(Pt(30, 80)).LineTo(Pt(0, 80)).Close()
	thin := Start(Pt(0, 0)).LineTo(Pt(100, 0)).LineTo(Pt(0, 50)).Close() // 90, 26.6 and 63.4 degrees
	half := Start(Pt(-50, 0)).LineTo(Pt(50, 0)).ArcTo(Pt(-50, 0), 180*Degree).Close()
	for _, row := range []struct {
		name     string
		p        Path
		d, want  float64
		vertices int
		source   string
	}{
		{"square out", square, 2, 104 * 54, 4, "mitred: sides grow by 2d"},
		{"square in", square, -2, 96 * 46, 4, "sides shrink by 2d"},
		{"ell out", ell, 2, 104*24 + 34*60, 6, "two rectangles"},
		{"ell in", ell, -2, 96*16 + 26*60, 6, "two rectangles"},
		{"thin out", thin, 2, thin.Area() + 2*thin.Length() + 4*(1+(math.Pi-math.Atan2(50, 100))/2+(math.Pi-math.Atan2(100, 50))/2), 5,
			"Steiner, one mitre d² tan 45°, two arcs d² turn/2"},
		{"half disc out", half, 3, 53*53*(math.Pi-math.Acos(3.0/53)) + 3*math.Sqrt(53*53-9), 2,
			"circular segment of a disc of radius 53 above a chord 3 below its centre"},
		{"half disc in", half, -3, 47*47*math.Acos(3.0/47) - 3*math.Sqrt(47*47-9), 2,
			"circular segment of a disc of radius 47 above a chord 3 from its centre"},
	} {
		q, err := row.p.Offset(row.d)
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		if got := q.Area(); !near(got, row.want, 1e-9*row.want) {
			t.Errorf("%s: area %.10g, want %.10g (%s)", row.name, got, row.want, row.source)
		}
		if len(q.Vertices) != row.vertices {
			t.Errorf("%s: %d vertices, want %d", row.name, len(q.Vertices), row.vertices)
		}
	}
}

func TestOffsetRefuses(t *testing.T) {
	square := Start(Pt(0, 0)).LineTo(Pt(100, 0)).LineTo(Pt(100, 50)).LineTo(Pt(0, 50)).Close()
	// A notch with a round bottom of radius 5.
	notch := Start(Pt(0, 0)).LineTo(Pt(100, 0)).LineTo(Pt(100, 50)).LineTo(Pt(55, 50)).LineTo(Pt(55, 20)).
		ArcTo(Pt(45, 20), -180*Degree).LineTo(Pt(45, 50)).LineTo(Pt(0, 50)).Close()
	slot := Start(Pt(0, 0)).LineTo(Pt(100, 0)).LineTo(Pt(100, 50)).LineTo(Pt(51, 50)).LineTo(Pt(51, 30)).LineTo(Pt(70, 20)).LineTo(Pt(30, 20)).
		LineTo(Pt(49, 30)).LineTo(Pt(49, 50)).LineTo(Pt(0, 50)).Close()
	for _, row := range []struct {
		name   string
		p      Path
		d      float64
		offset bool // the error wraps ErrOffset
	}{
		{"half the height inwards", square, -25, true},
		{"more than half the height inwards", square, -26, true},
		{"concave arc smaller than the offset", notch, 5, true},
		{"neck closes", slot, 1.5, true},
		{"not a number", square, math.NaN(), true},
		{"infinite", square, math.Inf(1), true},
		{"open", Start(Pt(0, 0)).LineTo(Pt(1, 0)).LineTo(Pt(0, 1)), 1, false},
		{"clockwise", square.Reverse(), 1, false},
		{"empty", Path{Closed: true}, 1, false},
		{"repeated point", Path{append(append([]Vertex(nil), square.Vertices...), square.Vertices[3]), true}, 1, false},
	} {
		q, err := row.p.Offset(row.d)
		if err == nil {
			t.Errorf("%s: no error, got %v", row.name, q)
			continue
		}
		if errors.Is(err, ErrOffset) != row.offset {
			t.Errorf("%s: %v", row.name, err)
		}
	}
	if q, err := notch.Offset(4.9); err != nil || q.Area() <= notch.Area() {
		t.Errorf("a notch of radius 5 refused an offset of 4.9: %v", err)
	}
	if q, err := square.Offset(0); err != nil || q.Area() != 5000 {
		t.Errorf("offset by 0: %v, %v", q, err)
	}
	if c, err := (Circle{Pt(1, 2), 5}).Offset(-5); !errors.Is(err, ErrOffset) {
		t.Errorf("a circle of radius 5 shrunk by 5: %v, %v", c, err)
	}
	if c, err := (Circle{Pt(1, 2), 5}).Offset(-4); err != nil || c != (Circle{Pt(1, 2), 1}) {
		t.Errorf("a circle of radius 5 shrunk by 4: %v, %v", c, err)
	}
}

func TestSelfCrossing(t *testing.T) {
	bow := Start(Pt(0, 0)).LineTo(Pt(10, 10)).LineTo(Pt(10, 0)).LineTo(Pt(0, 10)).Close()
	if q, yes := bow.SelfCrossing(); !yes || q.Dist(Pt(5, 5)) > 1e-9 {
		t.Errorf("bow tie: %v, %v", q, yes)
	}
	rapid.Check(t, func(t *rapid.T) {
		if q, yes := drawRounded(t).SelfCrossing(); yes {
			t.Fatalf("a convex outline crosses itself at %v", q)
		}
	})
}

func BenchmarkOffset(b *testing.B) {
	p := rounded([]Circle{{Pt(0, 0), 10}, {Pt(200, 0), 20}, {Pt(220, 90), 15}, {Pt(100, 160), 40}, {Pt(-20, 80), 12}})
	for b.Loop() {
		if _, err := p.Offset(3); err != nil {
			b.Fatal(err)
		}
	}
}

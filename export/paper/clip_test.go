package paper

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/export/drawing"
	"overbend/geom"
)

// drawPath returns any path of lines and arcs, crossing itself or not.
func drawPath(t *rapid.T) geom.Path {
	num := rapid.Float64Range(-100, 100)
	p := geom.Start(geom.Pt(num.Draw(t, "x"), num.Draw(t, "y")))
	for range rapid.IntRange(1, 6).Draw(t, "segments") {
		q := geom.Pt(num.Draw(t, "x"), num.Draw(t, "y"))
		if q.Dist(p.End()) < 1 {
			continue
		}
		b := 0.0
		if rapid.Bool().Draw(t, "arc") {
			b = rapid.Float64Range(-3, 3).Draw(t, "bulge")
			if math.Abs(b) < 1e-3 {
				b = 0
			}
		}
		p = p.BulgeTo(q, b)
	}
	if rapid.Bool().Draw(t, "closed") {
		p = p.Close()
	}
	return p
}

func drawRect(t *rapid.T) geom.Rect {
	num := rapid.Float64Range(-120, 120)
	a, b := geom.Pt(num.Draw(t, "x0"), num.Draw(t, "y0")), geom.Pt(num.Draw(t, "x1"), num.Draw(t, "y1"))
	r := geom.EmptyRect().Add(a).Add(b)
	return geom.Rect{Min: r.Min, Max: r.Max.Add(geom.Pt(5, 5))}
}

// What is left of a line is on the line and in the window, and nothing of the
// line in the window is missing.
func TestClipLine(t *testing.T) {
	const tol = 1e-6 // mm: rounding of arcs of a few hundred mm
	rapid.Check(t, func(t *rapid.T) {
		p, r := drawPath(t), drawRect(t)
		runs := clipLine(p, r)
		for _, run := range runs {
			if !r.Holds(run.Bounds(), tol) {
				t.Fatalf("run %v leaves the window %v", run, r)
			}
			for _, s := range run.Segments() {
				for _, u := range []float64{0, 0.3, 0.7, 1} {
					if q, _ := s.At(u); p.Distance(q) > tol {
						t.Fatalf("%v is %g mm off the line", q, p.Distance(q))
					}
				}
			}
		}
		for _, s := range p.Segments() {
			for i := range 41 {
				q, _ := s.At(float64(i) / 40)
				if !r.Holds(geom.Rect{Min: q, Max: q}, -2*tol) {
					continue
				}
				best := math.Inf(1)
				for _, run := range runs {
					best = math.Min(best, run.Distance(q))
				}
				if best > tol {
					t.Fatalf("%v is missing: nearest run %g mm away", q, best)
				}
			}
		}
	})
}

// A point of the window is inside the clipped area if and only if it is inside
// the path; no other point is.
func TestClipArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, r := drawPath(t).Close(), drawRect(t)
		if len(p.Vertices) < 2 {
			return
		}
		area := clipArea(p, r)
		for range 20 {
			q := geom.Pt(rapid.Float64Range(-150, 150).Draw(t, "qx"), rapid.Float64Range(-150, 150).Draw(t, "qy"))
			if p.Distance(q) < 1e-3 || r.Path().Distance(q) < 1e-3 {
				continue
			}
			in := r.Holds(geom.Rect{Min: q, Max: q}, 0)
			want := in && p.Contains(q)
			got := len(area.Vertices) > 1 && area.Contains(q)
			if got != want {
				t.Fatalf("%v inside: %v, want %v (window %v)", q, got, want, in)
			}
		}
	})
}

// Source: the segment of a circle cut off at distance h from its centre has
// area r² acos(h/r) - h sqrt(r² - h²).
func TestClipCircle(t *testing.T) {
	c := geom.Circle{Centre: geom.Pt(3, 4), Radius: 10}
	r := geom.Rect{Min: geom.Pt(8, -50), Max: geom.Pt(50, 50)}
	const h = 5.0
	want := 100*math.Acos(h/10) - h*math.Sqrt(100-h*h)
	out := clipShape(drawing.Ring{Circle: c, Role: drawing.CutInner, Tone: drawing.Paper}, r)
	if len(out) != 2 {
		t.Fatalf("%d shapes, want an area and a line", len(out))
	}
	area, line := out[0].(drawing.Stroke), out[1].(drawing.Stroke)
	if got := area.Path.Area(); math.Abs(got-want) > 1e-9 {
		t.Errorf("area %g, want %g", got, want)
	}
	if area.Role != drawing.Fill || area.Tone != drawing.Paper || line.Tone != drawing.NoTone || line.Role != drawing.CutInner {
		t.Errorf("looks: %v, %v", area, line)
	}
	if line.Path.Closed {
		t.Error("the line along the window's edge is drawn")
	}
	if got, want := line.Path.Length(), 20*math.Acos(h/10); math.Abs(got-want) > 1e-9 {
		t.Errorf("arc %g mm long, want %g", got, want)
	}
}

func TestClipShape(t *testing.T) {
	r := geom.Rect{Max: geom.Pt(100, 100)}
	text := drawing.Text{At: geom.Pt(50, 50), Words: "block", Height: 5}
	if got := clipShape(text, r); len(got) != 1 {
		t.Error("a text inside is dropped")
	}
	text.At.X = 95
	if got := clipShape(text, r); got != nil {
		t.Error("a text is cut")
	}
	ring := drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(50, 50), Radius: 80}, Role: drawing.Visible}
	if got := clipShape(ring, r); len(got) != 0 {
		t.Errorf("a circle around the window shows as %v", got)
	}
	ring.Tone = drawing.Pale
	if got := clipShape(ring, r); len(got) != 1 || math.Abs(got[0].(drawing.Stroke).Path.Area()-10000) > 1e-6 {
		t.Errorf("a disc over the window shows as %v, want all of the window", got)
	}
	edge := drawing.Stroke{Path: geom.Start(geom.Pt(100, -10)).LineTo(geom.Pt(100, 60)), Role: drawing.Thin}
	if got := clipShape(edge, r); len(got) != 1 || got[0].(drawing.Stroke).Path.Length() != 60 {
		t.Errorf("a line along the edge shows as %v", got)
	}
}

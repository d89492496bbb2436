package lettering

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

func TestClear(t *testing.T) {
	box := geom.Rect{Min: geom.Pt(0, 0), Max: geom.Pt(10, 4)}
	line := func(width float64, through ...geom.Point) Obstacles {
		var o Obstacles
		o.Line(geom.Lines(through...), width)
		return o
	}
	solid := func(x0, y0, x1, y1 float64) Obstacles {
		var o Obstacles
		o.Box(geom.Rect{Min: geom.Pt(x0, y0), Max: geom.Pt(x1, y1)})
		return o
	}
	for _, row := range []struct {
		name string
		o    Obstacles
		gap  float64
		want bool
	}{
		{"nothing", nil, 5, true},
		{"level line at the gap", line(0, geom.Pt(-20, 6), geom.Pt(20, 6)), 2, true},
		{"within the gap", line(0, geom.Pt(-20, 6), geom.Pt(20, 6)), 2.01, false},
		{"its pen's edge at the gap", line(1, geom.Pt(-20, 6.5), geom.Pt(20, 6.5)), 2, true},
		{"its pen's edge within", line(1, geom.Pt(-20, 6.4), geom.Pt(20, 6.4)), 2, false},
		{"upright line left of it", line(0, geom.Pt(-2, -9), geom.Pt(-2, 9)), 2, true},
		{"nearer", line(0, geom.Pt(-1.9, -9), geom.Pt(-1.9, 9)), 2, false},
		{"slanting past a corner", line(0, geom.Pt(8, 9), geom.Pt(18, -1)), 1, true},
		{"slanting into the corner's gap", line(0, geom.Pt(8, 9), geom.Pt(18, -1)), 1.51, false},
		{"the second piece is too near", line(0, geom.Pt(30, 30), geom.Pt(30, 1), geom.Pt(9, 1)), 1, false},
		{"box at the gap", solid(12, 0, 20, 4), 2, true},
		{"box within the gap", solid(11.9, 0, 20, 4), 2, false},
		{"box around it", solid(-5, -5, 20, 20), 0, false},
		{"box inside it", solid(4, 1, 5, 2), 0, false},
		{"box corner to corner", solid(12, 6, 20, 20), 2, true},
	} {
		if got := row.o.Clear(box, row.gap); got != row.want {
			t.Errorf("%s: clear %v, want %v", row.name, got, row.want)
		}
		// The same upside down and on its side.
		for _, turn := range []geom.Angle{90 * geom.Degree, 180 * geom.Degree} {
			to := geom.Rotate(turn).Then(geom.Translate(geom.Pt(100, -30)))
			if got := row.o.Apply(to).Clear(box.Path().Apply(to).Bounds(), row.gap); got != row.want {
				t.Errorf("%s, turned %g°: clear %v, want %v", row.name, turn.Degrees(), got, row.want)
			}
		}
	}
	// One of several is enough, wherever it stands.
	o := line(0, geom.Pt(-20, 40), geom.Pt(20, 40))
	o.Box(geom.Rect{Min: geom.Pt(5, 1), Max: geom.Pt(6, 2)})
	o.Line(geom.Lines(geom.Pt(-20, -40), geom.Pt(20, -40)), 0)
	if o.Clear(box, 0) || !o[:1].Clear(box, 0) || !o[2:].Clear(box, 0) {
		t.Error("a box among lines is not seen, or seen where it is not")
	}
}

// What is clear has no point of the line's within the gap, by points close to
// each other on it; what is not has one, but for their distance.
func TestClearByPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) geom.Point {
			return geom.Pt(rapid.Float64Range(-60, 60).Draw(t, name+".x"), rapid.Float64Range(-60, 60).Draw(t, name+".y"))
		}
		s := geom.Segment{From: draw("from"), To: draw("to"), Bulge: rapid.Float64Range(-1, 1).Draw(t, "bulge")}
		width, gap := rapid.Float64Range(0, 3).Draw(t, "width"), rapid.Float64Range(0, 5).Draw(t, "gap")
		at := draw("box")
		box := geom.Rect{Min: at, Max: at.Add(geom.Pt(rapid.Float64Range(1, 50).Draw(t, "w"), rapid.Float64Range(1, 10).Draw(t, "h")))}
		var o Obstacles
		o.Line(geom.Path{Vertices: []geom.Vertex{{Point: s.From, Bulge: s.Bulge}, {Point: s.To}}}, width)
		const n = 1000
		least := math.Inf(1)
		for i := range n + 1 {
			q, _ := s.At(float64(i) / n)
			least = min(least, max(box.Min.X-q.X, q.X-box.Max.X, box.Min.Y-q.Y, q.Y-box.Max.Y))
		}
		need, step := gap+width/2, s.Length()/n
		if got := o.Clear(box, gap); got && least < need-1e-5 || !got && least > need+step+1e-5 {
			t.Fatalf("clear %v, but a point is %g away, want %g", got, least, need)
		}
	})
}

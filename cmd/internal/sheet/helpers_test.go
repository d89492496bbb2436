package sheet

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/geom"
)

func TestFigures(t *testing.T) {
	mm, in := figures{quantity.Millimetres}, figures{quantity.Inches}
	for _, c := range []struct{ got, want string }{
		{mm.given(420), "420"}, {mm.given(356.634), "356.63"}, {in.given(25.4), "1"}, {in.given(9.525), "0.375"},
		{mm.radius(356.634), "356.6"}, {mm.radius(56.634), "56.63"},
		{mm.overall(276.37), "277"}, {mm.overall(60), "60"}, {in.overall(25.4 * 2.3601), "2.37"}, {in.overall(25.4 * 10.81), "10.9"},
		{mm.travel(47.67), "47.5"}, {in.travel(47.67), "1.88\u00a0=\u00a01-7/8"},
		{mm.tape(181.2), "181"}, {in.tapeUnit(25.4 * 10.16), "10-5/32\u00a0in"},
		{mm.angle(33.24 * geom.Degree), "33.2°"}, {mm.drawnAngle(22.5 * geom.Degree), "22.5°"}, {mm.finder(33 * geom.Degree), "147°"},
		{mm.mass(8.134), "8.13\u00a0kg"}, {in.mass(1), "2.20\u00a0lb"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// What is spread keeps its order, its distances and its borders, and does not
// move without need.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "n")
		const lo, hi, gap = 10.0, 190.0, 2.0
		want, size := make([]float64, n), make([]float64, n)
		x := lo
		for i := range want {
			x = min(hi, x+rapid.Float64Range(0, 60).Draw(t, "step"))
			want[i], size[i] = x, rapid.Float64Range(5, 17).Draw(t, "size")
		}
		got := spread(want, size, gap, lo, hi)
		free := want[0]-size[0]/2 >= lo && want[n-1]+size[n-1]/2 <= hi
		for i := range got {
			if got[i]-size[i]/2 < lo-1e-9 || got[i]+size[i]/2 > hi+1e-9 {
				t.Errorf("%d at %g is out of %g to %g", i, got[i], lo, hi)
			}
			if i == 0 {
				continue
			}
			if d := got[i] - size[i]/2 - got[i-1] - size[i-1]/2; d < gap-1e-9 {
				t.Errorf("%d comes within %g of the one before", i, d)
			}
			free = free && want[i]-size[i]/2-want[i-1]-size[i-1]/2 >= gap
		}
		if free {
			for i := range got {
				if math.Abs(got[i]-want[i]) > 1e-9 {
					t.Errorf("%d moved from %g to %g without need", i, want[i], got[i])
				}
			}
		}
	})
}

// Ticks are round, start at 0, stay on the axis and keep their distance.
func TestDivide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := axis{end: math.Pow(10, rapid.Float64Range(-4, 7).Draw(t, "end"))}
		length := rapid.Float64Range(15, 100).Draw(t, "length")
		a.divide(length, 5)
		if len(a.ticks) < 2 || a.ticks[0] != 0 {
			t.Fatalf("ticks %v", a.ticks)
		}
		if last := a.ticks[len(a.ticks)-1]; last > a.end*(1+1e-6) {
			t.Errorf("the last tick %g is past the end %g", last, a.end)
		}
		if d := a.step / a.end * length; d < 5-1e-9 {
			t.Errorf("ticks are %g mm apart", d)
		}
		m := a.step / math.Pow(10, math.Floor(math.Log10(a.step)+1e-9))
		if a.step >= 25-1e-9 && math.Abs(m-2.5) < 1e-6 {
			return
		}
		if r := math.Round(m); math.Abs(m-r) > 1e-6 || r != 1 && r != 2 && r != 5 {
			t.Errorf("a step of %g is not round", a.step)
		}
	})
}

// A line of tangent arcs: lengths and offsets against closed forms.
func TestLines(t *testing.T) {
	const r, sweep = 300.0, 0.4
	arc := geom.Start(geom.Point{}).ArcAbout(geom.Pt(0, r), sweep/2).ArcAbout(geom.Pt(0, r), sweep/2)
	far := geom.Pt(1e6, 1e6)
	for _, length := range []float64{1, 60, 119.9, 120, 300} {
		got, cut := upTo(arc, length, sweep, far)
		if cut || math.Abs(got.Length()-length) > 1e-9 {
			t.Errorf("up to %g mm: %g mm, cut %v", length, got.Length(), cut)
		}
	}
	got, cut := upTo(arc, 1000, sweep, geom.Pt(200, 1e6))
	if !cut || math.Abs(got.End().X-200) > 1e-9 {
		t.Errorf("cut at x 200: ends at %v, cut %v", got.End(), cut)
	}
	if got, want := sleeve(arc, 40).Area(), 40*r*sweep; math.Abs(got-want) > 1e-6 {
		t.Errorf("sleeve: %g mm², want %g mm²", got, want)
	}
	both := joined([2]geom.Path{arc, arc})
	if math.Abs(both.Length()-2*r*sweep) > 1e-9 || both.Vertices[0].X != -both.End().X {
		t.Errorf("joined: %v", both)
	}
}

// tidy finds lettering on a line, on an arc, on other lettering and under
// nothing but a ground.
func TestTidy(t *testing.T) {
	at := geom.Pt(50, 50)
	pen := pen{3.5}
	text := pen.words(at.X, at.Y, "lettering", drawing.Left)
	line := func(y float64) drawing.Stroke {
		return drawing.Stroke{Path: geom.Start(geom.Pt(0, y)).LineTo(geom.Pt(100, y)), Role: drawing.Visible}
	}
	ring := drawing.Ring{Circle: geom.Circle{Centre: at, Radius: 10}, Role: drawing.Thin}
	arc := drawing.Stroke{Path: geom.Start(geom.Pt(40, 40)).BulgeTo(geom.Pt(70, 40), -1), Role: drawing.Thin}
	ground := drawing.Stroke{Path: text.Bounds().Grow(1).Path(), Role: drawing.Fill, Tone: drawing.Paper}
	turned := text
	turned.Angle = 90 * geom.Degree
	for _, c := range []struct {
		name   string
		shapes []drawing.Shape
		want   bool
	}{
		{"alone", []drawing.Shape{text}, true},
		{"line below", []drawing.Shape{line(48.4), text}, true},
		{"line through", []drawing.Shape{line(51), text}, false},
		{"line through, drawn later", []drawing.Shape{text, line(51)}, false},
		{"line too near", []drawing.Shape{line(48.6), text}, false},
		{"line under a ground", []drawing.Shape{line(51), ground, text}, true},
		{"ground under a line", []drawing.Shape{ground, line(51), text}, false},
		{"ring through", []drawing.Shape{ring, text}, false},
		{"ring round it", []drawing.Shape{drawing.Ring{Circle: geom.Circle{Centre: at, Radius: 40}, Role: drawing.Thin}, text}, true},
		{"arc over it", []drawing.Shape{arc, pen.words(52, 45, "low", drawing.Left)}, true},
		{"arc through", []drawing.Shape{arc, pen.words(52, 53, "high", drawing.Left)}, false},
		{"lettering on it", []drawing.Shape{text, turned}, false},
		{"lettering beside it", []drawing.Shape{text, pen.words(at.X, at.Y+pen.pitch(), "more", drawing.Left)}, true},
	} {
		if got := tidy(drawing.Drawing{Shapes: c.shapes}); got != c.want {
			t.Errorf("%s: got %v", c.name, got)
		}
	}
}

// Width moves from fields with room to spare to the least short ones first; none
// is lost.
func TestShareOut(t *testing.T) {
	for _, c := range []struct{ widths, needs, want []float64 }{
		{[]float64{80, 60, 40}, []float64{50, 60, 30}, []float64{80, 60, 40}},
		{[]float64{80, 60, 40}, []float64{90, 60, 10}, []float64{90, 60, 30}},
		{[]float64{80, 60, 40}, []float64{140, 65, 15}, []float64{100, 65, 15}},
		{[]float64{80, 60, 40}, []float64{100, 70, 50}, []float64{80, 60, 40}},
	} {
		got := append([]float64(nil), c.widths...)
		shareOut(got, c.needs)
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("%v needing %v: got %v, want %v", c.widths, c.needs, got, c.want)
				break
			}
		}
	}
}

package sheet

import (
	"math"
	"slices"
	"strings"
	"testing"

	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// Every picture of every example keeps to its page, in both systems and for a small
// screen and a large one.
func TestPicturesKeepToTheirPage(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			for _, w := range []float64{90, 200} {
				d := NewPictures(p, u, 2.75)
				for name, draw := range map[string]func(w, h float64) Picture{"part": d.Part, "stack": d.Stack, "set-up": d.SetUp, "plot": d.Plot, "marks": d.Marks} {
					pic := d.fits(draw, w)
					if len(pic.Shapes) == 0 {
						if p.Tools.Whole && p.Press != nil {
							t.Errorf("%s: no %s at %v mm", path, name, w)
						}
						continue
					}
					if err := pic.Check(); err != nil {
						t.Errorf("%s: %s: %v", path, name, err)
					}
					if box := pic.Bounds(); !pic.Page.Holds(box, 1e-6) {
						t.Errorf("%s: %s at %v mm: %v is not on %v", path, name, w, box, pic.Page)
					}
				}
			}
		}
	}
}

// fits draws a picture for a room or larger ones, as a page does.
func (p Pictures) fits(draw func(w, h float64) Picture, w float64) Picture {
	for _, more := range []float64{1, 1.3, 1.7, 2.3, 3} {
		if pic := draw(w*more, 0.8*w*more); len(pic.Shapes) > 0 {
			return pic
		}
	}
	return Picture{}
}

// In motion the tube keeps its length, lies flat at first touch, is the plan's line
// under load at the end, and never runs into a roller or the block.
func TestMotion(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		if p.Press == nil {
			continue
		}
		d := NewPictures(p, quantity.Millimetres, 3)
		m := d.Motion(200, 120)
		q := p.Press
		if len(m.Frames) != len(q.Schedule) {
			t.Fatalf("%s: %d frames of %d states", path, len(m.Frames), len(q.Schedule))
		}
		k := m.Deep / (p.Job.Tube.Depth / 2) // mm of picture per mm
		length := 0.0
		for n, f := range m.Frames {
			sum := 0.0
			for i := 1; i < len(f.Line); i++ {
				a, b := f.Line[i-1], f.Line[i]
				turn := math.Abs(float64(b.Dir - a.Dir))
				chord := a.At.Dist(b.At)
				if turn > 1e-9 {
					chord *= turn / 2 / math.Sin(turn/2) // as an arc
				}
				sum += chord
			}
			if n == 0 {
				length = sum
				for _, s := range f.Line {
					if math.Abs(s.At.Y-f.Line[0].At.Y) > 1e-9 || s.Dir != 0 {
						t.Errorf("%s: not flat at first touch", path)
						break
					}
				}
			}
			if math.Abs(sum/length-1) > 2e-3 {
				t.Errorf("%s: frame %d: the tube is %v long, was %v", path, n, sum/k, length/k)
			}
			// The crown goes down by the travel.
			if got, want := (m.Frames[0].Line[0].At.Y-f.Line[0].At.Y)/k, f.State.Travel; math.Abs(got-want) > 1e-6*want+1e-9 {
				t.Errorf("%s: frame %d: the crown went %v, the ram %v", path, n, got, want)
			}
			if got, want := f.Up/k, q.Final.Travel-f.State.Travel; math.Abs(got-want) > 1e-9 {
				t.Errorf("%s: frame %d: the block is %v up, want %v", path, n, got, want)
			}
			for i, s := range f.Line {
				side := geom.Polar(1, s.Dir).Left()
				low := s.At.Sub(side.Mul(m.Under))
				for _, shape := range m.Still.Shapes {
					if r, ok := shape.(drawing.Ring); ok && low.Dist(r.Circle.Centre) < r.Circle.Radius*(1-0.02) {
						t.Errorf("%s: frame %d: station %d runs into a roller", path, n, i)
					}
				}
				if high := s.At.Add(side.Mul(m.Deep * 0.98)).Sub(geom.Pt(0, f.Up)); len(m.Block.Vertices) > 0 && m.Block.Contains(high) && m.Block.Distance(high) > 0.02*m.Deep {
					t.Errorf("%s: frame %d: station %d runs into the block", path, n, i)
				}
				if box := (geom.Rect{Min: low, Max: low}); !m.Still.Page.Holds(box, 1e-6) {
					t.Errorf("%s: frame %d: station %d is off the page", path, n, i)
				}
			}
		}
		// The end is the plan's own line.
		last := m.Frames[len(m.Frames)-1].Line
		for i, s := range last {
			at := s.At.Sub(last[0].At).Mul(1 / k)
			if at.X > q.Loaded.End().X { // straight beyond the roller
				break
			}
			if off := q.Loaded.Distance(at); off > 1e-6 {
				t.Errorf("%s: station %d is %v mm off the line under load", path, i, off)
			}
		}
	}
}

// A chart's line goes through its figures, what can't be made is hatched and the
// rest is not, and letters keep clear of each other.
func TestChart(t *testing.T) {
	p := plantest.Read(t, "../../../testdata/davit-arm.toml")
	d := NewPictures(p, quantity.Millimetres, 3)
	nan := math.NaN()
	for _, c := range []Chart{
		{Name: "a, mm", Over: "b, mm", X: []float64{200, 300, 400, 500}, Lines: []ChartLine{{Y: []float64{10, 20, 30, 40}, Works: []bool{false, true, true, true}}}, At: geom.Pt(350, nan)},
		{Name: "a, mm", Over: "b, mm", X: []float64{1, 2, 3, 4}, Lines: []ChartLine{{Y: []float64{1000, 1010, 1020, 1015}, Works: []bool{true, true, true, true}}}, At: geom.Pt(1.5, nan)},
		{Name: "a, %", Over: "b, °", X: []float64{0.5, 1, 1.5, 2}, Lines: []ChartLine{{Y: []float64{nan, 0.02, 0.04, nan}, Works: []bool{false, true, true, false}}}, At: geom.Pt(1, nan)},
		{Name: "a", Over: "b", X: []float64{0, 1}, Lines: []ChartLine{{Y: []float64{nan, nan}, Works: []bool{false, false}}}, At: geom.Pt(0.5, nan)},
		{Name: "a", Over: "b", X: []float64{10000, 17500}, Lines: []ChartLine{{Y: []float64{1e6, 2e6}, Works: []bool{true, true}}}, At: geom.Pt(12000, nan)},
	} {
		pic := d.Chart(c, 90, 60)
		if err := pic.Check(); err != nil {
			t.Fatal(err)
		}
		if box := pic.Bounds(); !pic.Page.Holds(box, 1e-6) {
			t.Errorf("%v: %v is not on %v", c.X, box, pic.Page)
		}
		var written lettering.Obstacles
		slanted, dots := 0, 0
		for _, s := range pic.Shapes {
			switch s := s.(type) {
			case drawing.Text:
				if !written.Clear(s.Bounds(), 0) {
					t.Errorf("%v: %q stands on other letters", c.X, s.Words)
				}
				written.Box(s.Bounds())
				if strings.HasPrefix(s.Words, "-") {
					t.Errorf("%v: a figure is %s", c.X, s.Words)
				}
			case drawing.Ring:
				dots++
			case drawing.Stroke:
				if v := s.Path.Vertices; len(v) == 2 && v[0].X != v[1].X && v[0].Y != v[1].Y && s.Role == drawing.Thin {
					slanted++
				}
			}
		}
		works := true
		for _, ok := range c.Lines[0].Works {
			works = works && ok
		}
		if works != (slanted == 0) {
			t.Errorf("%v: %d lines of hatching", c.X, slanted)
		}
		if want := map[bool]int{true: 0, false: 1}[math.IsNaN(c.between(c.At.X))]; dots != want {
			t.Errorf("%v: %d dots, want %d", c.X, dots, want)
		}
	}
	// Hatching ends half-way between what does and what does not.
	pic := d.Chart(Chart{Name: "a", Over: "b", X: []float64{0, 10, 20, 30}, Lines: []ChartLine{{Y: []float64{1, 2, 3, 4}, Works: []bool{true, true, false, false}}}, At: geom.Pt(5, nan)}, 90, 60)
	var field geom.Rect
	for _, s := range pic.Shapes {
		if s, ok := s.(drawing.Stroke); ok && len(s.Path.Vertices) == 3 {
			field = s.Path.Bounds()
			break
		}
	}
	for _, s := range pic.Shapes {
		if s, ok := s.(drawing.Stroke); ok && len(s.Path.Vertices) == 2 && s.Role == drawing.Thin && s.Path.Vertices[0].X != s.Path.Vertices[1].X && s.Path.Vertices[0].Y != s.Path.Vertices[1].Y {
			if box := s.Path.Bounds(); box.Min.X < field.Centre().X-1e-6 || box.Max.X > field.Max.X+1e-6 {
				t.Errorf("hatching from %v to %v in %v", box.Min.X, box.Max.X, field)
			}
		}
	}
}

// With several lines each has its name at its end, clear of the others', whatever
// ends where; hatched is what no line can make, broken what its own can't.
func TestChartLines(t *testing.T) {
	nan := math.NaN()
	yes, no := []bool{true, true, true, true}, []bool{false, false, false, false}
	for _, c := range []struct {
		chart          Chart
		hatched        bool
		broken, dotted int
	}{
		{Chart{Lines: []ChartLine{{"2 mm", []float64{10, 20, 30, 40}, []bool{false, false, true, true}}, {"3 mm", []float64{10, 20, 30, 40.1}, []bool{false, true, true, true}}, {"4 mm", []float64{11, 21, 31, 41}, yes}}, At: geom.Pt(25, 30)}, false, 2, 1},
		{Chart{Lines: []ChartLine{{"a", []float64{1, 2, 3, 4}, []bool{false, true, true, true}}, {"b", []float64{2, 3, 4, 5}, []bool{false, false, true, true}}}, At: geom.Pt(99, 1)}, true, 1, 0},
		{Chart{Lines: []ChartLine{{"a", []float64{1, 2, nan, nan}, yes}, {"b", []float64{0, 0, 0, 0}, yes}, {"c", []float64{nan, nan, nan, nan}, no}, {"d", []float64{0, 0, 0, 0}, yes}}, At: geom.Pt(nan, nan)}, false, 0, 0},
		{Chart{Lines: []ChartLine{{"a", []float64{-3, -2, -1, -4}, yes}, {"b", []float64{-3, 2, 1, 0.5}, yes}}, At: geom.Pt(15, 3)}, false, 0, 1},
		{Chart{Lines: []ChartLine{{"a", []float64{0, 0, 0, 9}, yes}, {"b", []float64{0, 0, 0, 0}, yes}, {"c", []float64{0, 0, 0, 0}, yes}, {"d", []float64{0, 0, 0, 0}, yes}, {"e", []float64{0, 0, 0, 0}, yes}, {"f", []float64{0, 0, 0, 0}, yes}, {"g", []float64{0, 0, 0, 0}, yes}, {"h", []float64{0, 0, 0, 0}, yes}}, At: geom.Pt(nan, nan)}, false, 0, 0},
		{Chart{Lines: []ChartLine{{"a", []float64{1, 2, 3, 4}, []bool{true, true, false, false}}, {"b", []float64{2, 3, 4, 5}, yes}}, At: geom.Pt(nan, nan)}, false, 1, 0},
		{Chart{Lines: []ChartLine{{"a", []float64{1, 2, 3, 4}, []bool{true, true, true, false}}, {"b", []float64{2, 3, 4, 5}, yes}}, At: geom.Pt(nan, nan)}, false, 1, 0},
		// Steps of a tenth don't sum to nought.
		{Chart{X: []float64{-0.6, -0.2, 0.2, 0.6}, Lines: []ChartLine{{"a", []float64{-0.6, 0.2, 0.1, 0.6}, yes}}, At: geom.Pt(nan, nan)}, false, 0, 0},
		{Chart{Lines: []ChartLine{{"a", []float64{-30, -20, -10, -40}, no}}, Foot: "hatched: no"}, true, 0, 0},
	} {
		c.chart.Name, c.chart.Over = "a, mm", "b, mm"
		if c.chart.X == nil {
			c.chart.X = []float64{-10, 10, 20, 30}
		}
		pic := DrawChart(c.chart, 3, 120, 80)
		if err := pic.Check(); err != nil {
			t.Fatal(err)
		}
		var written lettering.Obstacles
		names := map[string]int{}
		slanted, broken, dots := 0, 0, 0
		for _, s := range pic.Shapes {
			switch s := s.(type) {
			case drawing.Text:
				if !written.Clear(s.Bounds(), 0) {
					t.Errorf("%v: %q stands on other letters", c.chart.Lines, s.Words)
				}
				written.Box(s.Bounds())
				names[s.Words]++
			case drawing.Ring:
				dots++
			case drawing.Stroke:
				if s.Role == drawing.Predicted {
					broken++
				}
				if v := s.Path.Vertices; len(v) == 2 && v[0].X != v[1].X && v[0].Y != v[1].Y && s.Role == drawing.Thin {
					slanted++
				}
			}
		}
		for _, l := range c.chart.Lines {
			drawn := slices.ContainsFunc(l.Y, func(y float64) bool { return !math.IsNaN(y) })
			if want := map[bool]int{true: 1}[drawn]; names[l.Name] != want {
				t.Errorf("%v: %d names %q", c.chart.Lines, names[l.Name], l.Name)
			}
		}
		if c.chart.Foot != "" && names[c.chart.Foot] != 1 {
			t.Errorf("no foot in %v", names)
		}
		if (slanted > 0) != c.hatched || broken != c.broken || dots != c.dotted && c.chart.Foot == "" {
			t.Errorf("%v: %d hatching, %d broken, %d dots", c.chart.Lines, slanted, broken, dots)
		}
		if names["-0"]+names["-0.0"] > 0 {
			t.Errorf("nought has a sign in %v", names)
		}
		if names["0"]+names["0.0"]+names["0.00"] != 2 && !c.hatched { // both axes pass it
			t.Errorf("%v: %d noughts in %v", c.chart.Lines, names["0"], names)
		}
	}
}

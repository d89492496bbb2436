package geom

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// drawSegment draws a line or an arc of up to nearly a full turn.
func drawSegment(t *rapid.T) Segment {
	s := Segment{From: drawPoint(t, "from"), To: drawPoint(t, "to")}
	if rapid.Bool().Draw(t, "arc") {
		s.Bulge = math.Tan(rapid.Float64Range(-1.5, 1.5).Draw(t, "quarter sweep"))
	}
	return s
}

func TestCrossings(t *testing.T) {
	quarter := Segment{Pt(10, 0), Pt(0, 10), math.Tan(math.Pi / 8)} // about the origin
	three := Segment{Pt(0, 10), Pt(10, 0), math.Tan(3 * math.Pi / 8)}
	line := Segment{From: Pt(-5, 2), To: Pt(15, 4)}
	for _, row := range []struct {
		name string
		got  []float64
		want []float64
	}{
		{"line", line.AtX(0), []float64{0.25}},
		{"line, level", line.AtY(3.5), []float64{0.75}},
		{"line ends there", line.AtX(15), nil},
		{"line short of it", line.AtX(15.1), nil},
		{"line along it", Segment{From: Pt(1, 0), To: Pt(1, 9)}.AtX(1), nil},
		{"cos 60° of a quarter: 60 of 90", quarter.AtX(5), []float64{2. / 3}},
		{"sin 30°: 30 of 90", quarter.AtY(5), []float64{1. / 3}},
		{"the circle's other half", quarter.AtX(-5), nil},
		{"beside the circle", quarter.AtX(10.5), nil},
		{"three quarters, the upper left and lower left", three.AtX(-5), []float64{30. / 270, 150. / 270}},
		{"three quarters, the lower right", three.AtX(5), []float64{210. / 270}},
		{"clockwise", three.Reverse().AtY(-5), []float64{30. / 270, 150. / 270}},
		{"an arc of endless radius is a line", Segment{Pt(0, 0), Pt(10, 10), 1e-12}.AtX(3), []float64{0.3}},
	} {
		slices.Sort(row.got)
		if len(row.got) != len(row.want) {
			t.Errorf("%s: %v, want %v", row.name, row.got, row.want)
			continue
		}
		for i := range row.want {
			if !near(row.got[i], row.want[i], 1e-12) {
				t.Errorf("%s: %v, want %v", row.name, row.got, row.want)
			}
		}
	}
	// As many as a fine polygon crosses, and each on the line.
	rapid.Check(t, func(t *rapid.T) {
		s, at := drawSegment(t), rapid.Float64Range(-500, 500).Draw(t, "at")
		if s.Chord() < 1 || s.Radius() < 1 {
			return
		}
		f := facets(s, 2048)
		for _, c := range []struct {
			ts   []float64
			read func(Point) float64
		}{{s.AtX(at), func(p Point) float64 { return p.X }}, {s.AtY(at), func(p Point) float64 { return p.Y }}} {
			count := 0
			for i, p := range f {
				if i > 0 && (c.read(p) > at) != (c.read(f[i-1]) > at) {
					count++
				}
			}
			for _, x := range c.ts {
				if q, _ := s.At(x); !near(c.read(q), at, 1e-7+rounding(s)) {
					t.Fatalf("%v at %g is %v, want it on %g", s, x, q, at)
				}
			}
			if len(c.ts) != count && !nearlyTouches(f, c.read, at) {
				t.Fatalf("%v crosses %g at %v, its polygon %d times", s, at, c.ts, count)
			}
		}
	})
}

// nearlyTouches reports whether an extreme or an end of a polygon comes within a
// hundredth of a mm of a level: there the polygon can't tell.
func nearlyTouches(f []Point, read func(Point) float64, at float64) bool {
	for i, p := range f {
		end := i == 0 || i == len(f)-1
		if (end || (read(p)-read(f[i-1]))*(read(p)-read(f[i+1])) >= 0) && near(read(p), at, 0.01) {
			return true
		}
	}
	return false
}

func TestEnters(t *testing.T) {
	box := Rect{Pt(0, 0), Pt(4, 2)}
	for _, row := range []struct {
		name string
		s    Segment
		want bool
	}{
		{"through", Segment{From: Pt(-1, 1), To: Pt(9, 1)}, true},
		{"across a corner", Segment{From: Pt(3, 3), To: Pt(5, 1.5)}, false},
		{"over a corner", Segment{From: Pt(3, 2.5), To: Pt(5, 1)}, true},
		{"within", Segment{From: Pt(1, 1), To: Pt(2, 1)}, true},
		{"one end within", Segment{From: Pt(1, 1), To: Pt(2, 9)}, true},
		{"stops short", Segment{From: Pt(-3, 1), To: Pt(-0.1, 1)}, false},
		{"level, above", Segment{From: Pt(-3, 2.1), To: Pt(9, 2.1)}, false},
		{"upright, through", Segment{From: Pt(2, -5), To: Pt(2, 5)}, true},
		{"upright, beside", Segment{From: Pt(4.1, -5), To: Pt(4.1, 5)}, false},
		{"arc over it: rise 2 on a chord of 8 stays above the corners' 1.75", Segment{Pt(6, -0.1), Pt(-2, -0.1), 0.25}, true},
		{"arc high over it", Segment{Pt(7, 0), Pt(-3, 0), 1}, false},
		{"arc dips in from above", Segment{Pt(0, 3), Pt(4, 3), 0.6}, true},
		{"arc dips not as far", Segment{Pt(0, 3), Pt(4, 3), 0.4}, false},
		{"arc in from the left", Segment{Pt(-1, 2), Pt(-1, 0), -1.1}, true},
		{"arc not so far", Segment{Pt(-1, 2), Pt(-1, 0), -0.9}, false},
		{"arc in from the right and out", Segment{Pt(5, 0), Pt(5, 2), -1.1}, true},
		{"arc up from below", Segment{Pt(3, -1), Pt(1, -1), 1.1}, true},
		{"nearly a full circle round it", Segment{Pt(2, 4), Pt(2.1, 4), 400}, false},
	} {
		if got := row.s.Enters(box); got != row.want {
			t.Errorf("%s: %v, want %v", row.name, got, row.want)
		}
		if got := row.s.Reverse().Enters(box); got != row.want {
			t.Errorf("%s, the other way: %v, want %v", row.name, got, row.want)
		}
	}
	// Its ends lie under the corners by less than they are known to.
	if !(Segment{Pt(1, 2.8e-17), Pt(-1, 2.8e-17), 0.72}).Enters(Rect{Pt(-1, 5.6e-17), Pt(1, 1)}) {
		t.Error("an arc from corner to corner stays out")
	}
	// By points close to each other: one inside says yes; yes says that one is
	// no further out than they are apart.
	rapid.Check(t, func(t *rapid.T) {
		s := drawSegment(t)
		if s.Chord() < 1 || math.Abs(s.Bulge) > 5 {
			return
		}
		at := drawPoint(t, "box")
		box := Rect{at, at.Add(Pt(rapid.Float64Range(1, 300).Draw(t, "width"), rapid.Float64Range(1, 300).Draw(t, "height")))}
		const n = 2048
		step := s.Length() / n
		inside, near := false, false
		for _, q := range facets(s, n) {
			inside = inside || box.Grow(-1e-6).Has(q)
			near = near || box.Grow(step+1e-6).Has(q)
		}
		if got := s.Enters(box); inside && !got || got && !near {
			t.Fatalf("%v in %v: %v, by points inside %v, near %v", s, box, got, inside, near)
		}
	})
}

func TestParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSegment(t)
		if s.Chord() < 1 {
			return
		}
		if !s.Hull().Holds(s.Bounds(), 1e-6+rounding(s)) || !s.Bounds().Grow(s.Rise()+1e-6+rounding(s)).Holds(s.Hull(), 0) {
			t.Fatalf("%v: hull %v, bounds %v, rise %g", s, s.Hull(), s.Bounds(), s.Rise())
		}
		if m, _ := s.At(0.5); !near(m.Dist(s.From.Lerp(s.To, 0.5)), s.Rise(), 1e-6+rounding(s)) {
			t.Fatalf("%v rises %g over its chord, its middle stands at %v", s, s.Rise(), m)
		}
		cuts := rapid.SliceOfN(rapid.Float64Range(0, 1), 0, 5).Draw(t, "cuts")
		sorted := slices.Clone(cuts)
		slices.Sort(sorted)
		first, second := s.Halves()
		for _, parts := range [][]Segment{s.Split(slices.Clone(cuts)...), {first, second}, {s.Part(0, 0.3), s.Part(0.3, 1)}} {
			if parts[0].From != s.From || parts[len(parts)-1].To != s.To {
				t.Fatalf("%v runs from %v to %v", parts, s.From, s.To)
			}
			length, sweep := 0.0, 0.0
			for i, p := range parts {
				if i > 0 && p.From != parts[i-1].To {
					t.Fatalf("part %d starts at %v, the one before ends at %v", i, p.From, parts[i-1].To)
				}
				length += p.Length()
				sweep += float64(p.Sweep())
				if !s.flat() && p.Chord() > 1 && !near(p.Radius(), s.Radius(), 1e-6*s.Radius()) {
					t.Fatalf("part %d has radius %g, the whole %g", i, p.Radius(), s.Radius())
				}
			}
			if !near(length, s.Length(), 1e-8*(1+s.Length())) || !near(sweep, float64(s.Sweep()), 1e-9) {
				t.Fatalf("parts are %g long and turn %g, the whole %g and %g", length, sweep, s.Length(), s.Sweep())
			}
		}
		if math.Abs(first.Bulge) > 1 {
			t.Fatalf("half of %v has bulge %g, which some readers refuse", s, first.Bulge)
		}
		if !near(first.Length(), second.Length(), 1e-9*s.Length()) {
			t.Fatalf("halves of %g and %g mm", first.Length(), second.Length())
		}
		// Cuts are where they were asked for.
		along := 0.0
		for _, p := range s.Split(slices.Clone(cuts)...) {
			along += p.Length() / s.Length()
			ok := near(along, 1, 1e-9)
			for _, c := range sorted {
				ok = ok || near(along, c, 1e-8)
			}
			if !ok {
				t.Fatalf("a cut at %g, asked for %v", along, sorted)
			}
		}
		a := drawTransform(t)
		x, _ := s.At(0.3)
		if y, _ := s.Apply(a).At(0.3); y.Dist(a.Apply(x)) > 1e-8*(1+s.Length())+rounding(s) {
			t.Fatalf("0.3 along the image is %v, want %v", y, a.Apply(x))
		}
	})
	line := Segment{From: Pt(0, 0), To: Pt(10, 0)}
	for _, row := range []struct {
		at   []float64
		want int
	}{
		{nil, 1}, {[]float64{0.5}, 2}, {[]float64{0.7, 0.2}, 3}, {[]float64{0.5, 0.5}, 2},
		{[]float64{0.5, 0.5 + 0.9e-7}, 2}, {[]float64{0.5, 0.5 + 1.1e-7}, 3}, // 0.9 and 1.1 Coincident apart
		{[]float64{0.9e-7}, 1}, {[]float64{1 - 0.9e-7}, 1}, {[]float64{1.1e-7, 1 - 1.1e-7}, 3}, {[]float64{0, 1}, 1},
	} {
		if got := line.Split(slices.Clone(row.at)...); len(got) != row.want {
			t.Errorf("cut at %v: %d pieces, want %d", row.at, len(got), row.want)
		}
	}
}

package lettering

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// heights are those of the tests, in mm.
var heights = []float64{5, 4.5, 4, 3.5, 3}

// checkInside holds what lettering on a part must keep: inside, clear of edges,
// obstacles and itself, by points along each line's box.
func checkInside(t interface {
	Helper()
	Fatalf(string, ...any)
}, outline geom.Path, lines []geom.Path, holes []geom.Rect, got []Line) {
	t.Helper()
	for i, l := range got {
		w := Face{Height: l.Height}.Width(l.Words)
		box := geom.Rect{Min: l.At.Add(geom.Pt(-w/2, -0.3*l.Height)), Max: l.At.Add(geom.Pt(w/2, l.Height))}
		for _, e := range box.Path().Segments() {
			for k := range 41 {
				q, _ := e.At(float64(k) / 40)
				if !outline.Contains(q) {
					t.Fatalf("%q reaches out at %v", l.Words, q)
				}
				if d := outline.Distance(q); d < 2-1e-5 {
					t.Fatalf("%q is %g mm from the edge", l.Words, d)
				}
				for _, o := range lines {
					if d := o.Distance(q); d < 2-1e-5 {
						t.Fatalf("%q is %g mm from a line", l.Words, d)
					}
				}
			}
		}
		for _, h := range holes {
			if box.Overlaps(h, 2-1e-5) {
				t.Fatalf("%q comes too near to %v", l.Words, h)
			}
		}
		for _, k := range got[:i] {
			if k.Height != l.Height || k.At.X != l.At.X {
				t.Fatalf("%q and %q are no column: %v, %v", k.Words, l.Words, k, l)
			}
			if k.At.Y-l.At.Y < 1.6*l.Height-1e-9 {
				t.Fatalf("%q stands %g mm below %q", l.Words, k.At.Y-l.At.Y, k.Words)
			}
		}
	}
}

func TestInside(t *testing.T) {
	plate := func(w, h float64) geom.Path { return geom.Rect{Max: geom.Pt(w, h)}.Path() }
	word := strings.Repeat("M", 8) // an M is 833 thousandths wide, capitals 718 high
	for _, row := range []struct {
		name    string
		outline geom.Path
		words   []string
		lines   int
		height  float64 // of all lines, 0: any
	}{
		{"nothing to write", plate(100, 30), nil, 0, 0},
		{"blank lines", plate(100, 30), []string{"", "  "}, 0, 0},
		{"one line", plate(100, 30), []string{"davit-arm"}, 1, 5},
		{"four lines shrink", plate(100, 30), []string{"one", "two", "three", "four"}, 4, 4},
		{"long line breaks at a space", plate(100, 30), []string{"a block for the arm of our own davit, pressed cold, and then some more of it"}, 3, 5},
		{"not at a no-break space", plate(34, 40), []string{"R\u00a0356.63\u00a0mm\u00a0and\u00a0R\u00a0356.63\u00a0mm"}, 0, 0},
		{"no room at all", plate(6, 6), []string{"davit"}, 0, 0},
		{"what fits, then no more", plate(40, 12), []string{"one", "two", "three"}, 1, 5},
		{"a word too long for any place", plate(20, 40), []string{"one", "unpronounceable"}, 1, 0},
		{"an exact fit", plate(2*2+8*5*0.833/0.718, 2*2+1.3*5), []string{word}, 1, 5},
		{"a hair narrower", plate(2*2+8*5*0.833/0.718-0.01, 2*2+1.3*5), []string{word}, 1, 4.5},
		{"a hair lower", plate(2*2+8*5*0.833/0.718, 2*2+1.3*5-0.01), []string{word}, 1, 4.5},
		{"the least", plate(2*2+8*3*0.833/0.718, 2*2+1.3*3), []string{word}, 1, 3},
		{"below the least", plate(2*2+8*3*0.833/0.718-0.01, 2*2+1.3*3), []string{word}, 0, 0},
		{"two lines exactly", plate(40, 2*2+(1.6+1.3)*5), []string{"one", "two"}, 2, 5},
		{"two lines a hair too high", plate(40, 2*2+(1.6+1.3)*5-0.01), []string{"one", "two"}, 2, 4.5},
	} {
		got := Inside(row.outline, nil, row.words, heights...)
		if len(got) != row.lines {
			t.Errorf("%s: %v, want %d lines", row.name, got, row.lines)
		}
		checkInside(t, row.outline, nil, nil, got)
		for _, l := range got {
			if row.height > 0 && l.Height != row.height {
				t.Errorf("%s: %q is %g mm high, want %g", row.name, l.Words, l.Height, row.height)
			}
		}
	}
}

// Lettering stands in the middle of its room, aside where a line is in the way,
// and whole rather than broken.
func TestInsidePlaces(t *testing.T) {
	plate := geom.Rect{Max: geom.Pt(200, 40)}.Path()
	got := Inside(plate, nil, []string{"one"}, 4)
	// From 2 mm below the top to 2 mm above the bottom, in steps of 2 mm.
	if len(got) != 1 || got[0].At != geom.Pt(100, 19) { // the middle of 34 and 4
		t.Errorf("alone: %v", got)
	}
	var middle Obstacles
	middle.Line(geom.Lines(geom.Pt(100, 1), geom.Pt(100, 39)), 0)
	got = Inside(plate, middle, []string{"davit-arm block"}, heights...)
	if len(got) != 1 || got[0].At.X != 50 || got[0].Height != 5 {
		t.Errorf("beside a line in the middle: %v", got)
	}
	if len(middle) != 1 {
		t.Errorf("the obstacles themselves became %d", len(middle))
	}
	// Smaller and whole goes before larger and broken.
	words := "block of many words here"
	narrow := geom.Rect{Max: geom.Pt(2*2+Face{Height: 3.5}.Width(words), 40)}.Path()
	got = Inside(narrow, nil, []string{words}, heights...)
	if len(got) != 1 || got[0].Height != 3.5 {
		t.Errorf("smaller before broken: %v", got)
	}
	// A hole in the way parts the column.
	high := geom.Rect{Max: geom.Pt(60, 60)}.Path()
	var hole Obstacles
	hole.Box(geom.Rect{Min: geom.Pt(10, 20), Max: geom.Pt(50, 40)})
	got = Inside(high, hole, []string{"one", "two", "three", "four"}, 5)
	if len(got) != 4 || got[1].At.Y < 42 || got[2].At.Y > 18 {
		t.Errorf("around a hole: %v", got)
	}
}

// Columns stand at eighths of the width, and lines half a height below each other
// are tried: what leaves room just there finds it.
func TestInsideColumns(t *testing.T) {
	const w, h = 800.0, 5.0
	word := Face{Height: h}.Width("one")
	for _, share := range []float64{0.5, 0.25, 0.75, 0.375, 0.625, 0.125, 0.875} {
		for _, words := range []string{"one", "one one"} { // whole, and broken
			outline := geom.Rect{Max: geom.Pt(w, 2*Apart+(1.6+1.3)*h)}.Path()
			half := word/2 + Apart
			var o Obstacles
			o.Box(geom.Rect{Max: geom.Pt(share*w-half, 100)})
			o.Box(geom.Rect{Min: geom.Pt(share*w+half, 0), Max: geom.Pt(w, 100)})
			got := Inside(outline, o, []string{words}, h)
			if len(got) != (len(words)+1)/4 || got[0].At.X != share*w {
				t.Errorf("%q with room at %g: %v", words, share*w, got)
			}
		}
	}
	// A slot on the second step down.
	outline := geom.Rect{Max: geom.Pt(200, 40)}.Path()
	first := 40 - Apart - 4.0
	for _, step := range []struct {
		y     float64
		lines int
	}{{first - 2, 1}, {first - 1, 0}} {
		var o Obstacles
		o.Box(geom.Rect{Min: geom.Pt(0, step.y+4+Apart), Max: geom.Pt(200, 40)})
		o.Box(geom.Rect{Max: geom.Pt(200, step.y-Descent*4-Apart)})
		if got := Inside(outline, o, []string{"one"}, 4); len(got) != step.lines || step.lines > 0 && got[0].At.Y != step.y {
			t.Errorf("a slot for base line %g: %v", step.y, got)
		}
	}
}

func TestInsideProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(5, 200).Draw(t, "width"), rapid.Float64Range(5, 80).Draw(t, "height")
		outline := geom.Rect{Max: geom.Pt(w, h)}.Path()
		switch rapid.IntRange(0, 2).Draw(t, "shape") {
		case 1: // a circle
			outline = geom.Circle{Radius: w / 2}.Path()
		case 2: // a curved band
			half := geom.Angle(rapid.Float64Range(0.2, 1.4).Draw(t, "half"))
			a, b := geom.Polar(w, math90-half), geom.Polar(w+h, math90-half)
			outline = geom.Start(a).LineTo(b).ArcTo(geom.Pt(-b.X, b.Y), 2*half).LineTo(geom.Pt(-a.X, a.Y)).ArcTo(a, -2*half).Close()
		}
		box := outline.Bounds()
		place := func(name string) geom.Point {
			return geom.Pt(rapid.Float64Range(box.Min.X, box.Max.X).Draw(t, name+".x"), rapid.Float64Range(box.Min.Y, box.Max.Y).Draw(t, name+".y"))
		}
		var o Obstacles
		var lines []geom.Path
		var holes []geom.Rect
		for range rapid.IntRange(0, 3).Draw(t, "holes") {
			holes = append(holes, geom.Circle{Centre: place("hole"), Radius: rapid.Float64Range(1, 10).Draw(t, "radius")}.Bounds())
			o.Box(holes[len(holes)-1])
		}
		for range rapid.IntRange(0, 2).Draw(t, "marks") {
			lines = append(lines, geom.Lines(place("a"), place("b")))
			o.Line(lines[len(lines)-1], 0)
		}
		words := rapid.SliceOfN(rapid.SampledFrom([]string{"davit-arm block R\u00a0356.63\u00a0mm", "bend R\u00a0420\u00a0mm 33\u00a0deg", "cheek", ""}), 0, 4).Draw(t, "words")
		got := Inside(outline, o, words, heights...)
		checkInside(t, outline, lines, holes, got)
		// All words of the first lines, in order, and none of a line that has not
		// all of them.
		rest := got
		for _, want := range words {
			line := ""
			for len(rest) > 0 && line != want {
				next := strings.TrimSpace(line + " " + rest[0].Words)
				if !strings.HasPrefix(want, next) {
					break
				}
				line, rest = next, rest[1:]
			}
			if line != want {
				if line != "" {
					t.Fatalf("%q is written as far as %q", want, line)
				}
				break
			}
		}
		if len(rest) > 0 {
			t.Fatalf("%v is left of %v for %q", rest, got, words)
		}
	})
}

const math90 = 90 * geom.Degree

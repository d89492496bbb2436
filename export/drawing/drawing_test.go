package drawing

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// Tones must stay apart in grey: each next one is darker by a step that a
// print shows, 6 % of full range. Weights: ITU-R BT.709 luma.
func TestTonesFallInLightness(t *testing.T) {
	last := 271.0
	for tone := Paper; tone < toneCount; tone++ {
		c, ok := tone.Colour()
		if !ok {
			t.Fatalf("tone %d has no colour", tone)
		}
		grey := 0.2126*float64(c>>16) + 0.7152*float64(c>>8&0xFF) + 0.0722*float64(c&0xFF)
		if grey > last-15 {
			t.Errorf("tone %d has grey %.0f, the one before %.0f", tone, grey, last)
		}
		last = grey
	}
	if _, ok := NoTone.Colour(); ok {
		t.Error("NoTone fills")
	}
}

// Lines must keep their meaning without colour: ISO 128-2 (from memory) has
// wide lines at least twice as wide as narrow ones, in a group.
func TestPens(t *testing.T) {
	for r := CutOuter; r < roleCount; r++ {
		p := PenOf(r)
		if (p.Width > 0) == (r == Fill) {
			t.Errorf("role %d: width %g", r, p.Width)
		}
		if len(p.Dash)%2 != 0 {
			t.Errorf("role %d: dash %v lacks a gap", r, p.Dash)
		}
	}
	if v, n := PenOf(Visible).Width, PenOf(Thin).Width; v < 2*n {
		t.Errorf("wide %g, narrow %g: want 2 to 1", v, n)
	}
}

func TestSheet(t *testing.T) {
	var d Drawing
	if !d.Sheet().Empty() {
		t.Error("a drawing of nothing has a sheet")
	}
	d.Line(Thin, geom.Pt(1, 2), geom.Pt(4, 8))
	if got, want := d.Sheet(), (geom.Rect{Min: geom.Pt(1, 2), Max: geom.Pt(4, 8)}); got != want {
		t.Errorf("sheet %v, want the bounds %v", got, want)
	}
	d.Page = geom.Rect{Max: geom.Pt(210, 297)}
	if d.Sheet() != d.Page {
		t.Error("the page is not the sheet")
	}
}

func TestPlacement(t *testing.T) {
	d := Drawing{Page: geom.Rect{Min: geom.Pt(-10, 20), Max: geom.Pt(190, 120)}}
	p := d.Placement()
	for _, row := range []struct{ at, want geom.Point }{
		{geom.Pt(-10, 20), geom.Pt(0, 0)},
		{geom.Pt(190, 120), geom.Pt(200, 100)},
	} {
		if got := p.Apply(row.at); got.Dist(row.want) > 1e-12 {
			t.Errorf("%v lies at %v, want %v", row.at, got, row.want)
		}
	}

	// A printer that makes 100 mm into 101 and 98: places move from the middle
	// by the inverse, so that the print has the drawing's own distances.
	d.ScaleX, d.ScaleY = 1/1.01, 1/0.98
	p = d.Placement()
	mid := geom.Pt(100, 50)
	if got := p.Apply(geom.Pt(90, 70)); got.Dist(mid) > 1e-12 {
		t.Errorf("the middle moved to %v", got)
	}
	a, b := p.Apply(geom.Pt(0, 30)), p.Apply(geom.Pt(100, 80))
	if got := (b.X - a.X) * 1.01; math.Abs(got-100) > 1e-9 {
		t.Errorf("printed across %g, want 100", got)
	}
	if got := (b.Y - a.Y) * 0.98; math.Abs(got-50) > 1e-9 {
		t.Errorf("printed up %g, want 50", got)
	}
}

func TestCheck(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	page := geom.Rect{Max: geom.Pt(100, 100)}
	line := Stroke{Path: geom.Start(geom.Pt(0, 0)).LineTo(geom.Pt(1, 1))}
	for _, row := range []struct {
		name string
		d    Drawing
		want string // part of the error, empty for none
	}{
		{"good", Drawing{Page: page, Shapes: []Shape{line}}, ""},
		{"nothing", Drawing{}, "no sheet"},
		{"flat", Drawing{Shapes: []Shape{Stroke{Path: geom.Start(geom.Pt(0, 0)).LineTo(geom.Pt(1, 0))}}}, "no sheet"},
		{"vertex", Drawing{Page: page, Shapes: []Shape{Stroke{Path: geom.Start(geom.Pt(nan, 0))}}}, "not finite"},
		{"bulge", Drawing{Page: page, Shapes: []Shape{Stroke{Path: geom.Start(geom.Pt(0, 0)).BulgeTo(geom.Pt(1, 0), inf)}}}, "not finite"},
		{"ring", Drawing{Page: page, Shapes: []Shape{Ring{Circle: geom.Circle{Radius: nan}}}}, "not finite"},
		{"text", Drawing{Page: page, Shapes: []Shape{Text{Height: inf}}}, "not finite"},
		{"turn", Drawing{Page: page, Shapes: []Shape{Text{Height: 1, Angle: geom.Angle(nan)}}}, "not finite"},
		{"page", Drawing{Page: geom.Rect{Max: geom.Pt(inf, 1)}}, "no sheet"},
		{"huge", Drawing{Page: geom.Rect{Max: geom.Pt(6000, 1)}}, "at most 5080 mm"},
		{"scale", Drawing{Page: page, ScaleX: -1}, "print correction"},
		{"scale nan", Drawing{Page: page, ScaleY: nan}, "print correction"},
		{"role", Drawing{Page: page, Shapes: []Shape{Stroke{Role: roleCount}}}, "not known"},
		{"tone", Drawing{Page: page, Shapes: []Shape{Ring{Tone: toneCount}}}, "not known"},
		{"nil", Drawing{Page: page, Shapes: []Shape{nil}}, "allowed"},
	} {
		err := row.d.Check()
		switch {
		case row.want == "" && err != nil:
			t.Errorf("%s: %v", row.name, err)
		case row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)):
			t.Errorf("%s: error %v, want %q in it", row.name, err, row.want)
		}
	}
}

// Under any similarity the drawing's boxes follow its shapes, and lettering
// stays as wide, is never mirrored and fills the mirrored place.
func TestApply(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num := rapid.Float64Range(-500, 500)
		turn := geom.Angle(rapid.Float64Range(-3, 3).Draw(t, "turn"))
		shift := geom.Pt(num.Draw(t, "dx"), num.Draw(t, "dy"))
		k := rapid.Float64Range(0.5, 2).Draw(t, "k")
		m := geom.Rotate(turn).Then(geom.Scale(k)).Then(geom.Translate(shift))
		d := Drawing{Title: "x", ScaleX: 1.01, Page: geom.Rect{Max: geom.Pt(100, 60)}}
		text := Text{At: geom.Pt(num.Draw(t, "x"), num.Draw(t, "y")), Words: "R 420", Height: 5, Angle: 0.3, Anchor: Middle}
		ring := Ring{Circle: geom.Circle{Centre: geom.Pt(3, 4), Radius: 7}}
		d.Add(text, ring)
		d.Box(Visible, Tube, geom.Rect{Max: geom.Pt(30, 20)})
		e := d.Apply(m)
		if e.Title != d.Title || e.ScaleX != d.ScaleX {
			t.Error("title or print correction lost")
		}
		got, want := e.Shapes[0].(Text).Box(), text.Box().Apply(m)
		for i := range want.Vertices {
			if got.Vertices[i].Dist(want.Vertices[i].Point) > 1e-9 {
				t.Fatalf("text box %v, want %v", got, want)
			}
		}
		if r := e.Shapes[1].(Ring).Circle.Radius; math.Abs(r-7*k) > 1e-9 {
			t.Errorf("ring radius %g, want %g", r, 7*k)
		}
		if a := e.Shapes[2].(Stroke).Path.Area(); math.Abs(a-600*k*k) > 1e-6 {
			t.Errorf("box area %g, want %g", a, 600*k*k)
		}
	})
}

func TestMirroredTextIsReadable(t *testing.T) {
	for _, anchor := range []Anchor{Left, Middle, Right} {
		s := Text{At: geom.Pt(10, 5), Words: "block", Height: 5, Anchor: anchor, Angle: 0.2}
		d := Drawing{Shapes: []Shape{s}}
		m := d.Apply(geom.MirrorX()).Shapes[0].(Text)
		if m.Angle.Cos() <= 0 {
			t.Errorf("anchor %d: turned by %g rad, upside down", anchor, m.Angle)
		}
		got, want := m.Bounds(), s.Box().Apply(geom.MirrorX()).Bounds()
		if !got.Holds(want, 1e-9) || !want.Holds(got, 1e-9) {
			t.Errorf("anchor %d: box %v, want the mirrored %v", anchor, got, want)
		}
		if m := d.Apply(geom.MirrorY()).Shapes[0].(Text); m.Angle.Cos() <= 0 || m.Anchor != anchor {
			t.Errorf("anchor %d: mirrored top to bottom it reads from the wrong end", anchor)
		}
	}
}

func TestScaleMarks(t *testing.T) {
	for rule, sizes := range map[Rule][2]float64{Metric: {100, 50}, Customary: {101.6, 50.8}} {
		scaleMarks(t, rule, sizes)
	}
}

// scaleMarks checks for a bar and a square of two sizes.
func scaleMarks(t *testing.T, rule Rule, sizes [2]float64) {
	t.Helper()
	shapes, area := rule.ScaleMarks(geom.Pt(20, 30))
	if area.Min != geom.Pt(20, 30) {
		t.Errorf("area %v does not start where it was asked for", area)
	}
	// The sizes that the marks promise, to rounding.
	found := map[float64]bool{}
	for _, s := range shapes {
		if s, ok := s.(Stroke); ok {
			for _, g := range s.Path.Segments() {
				found[math.Round(g.Length()*1e6)/1e6] = true
			}
		}
		box := s.bounds()
		if _, ok := s.(Stroke); ok {
			box = box.Grow(PenOf(Thin).Width / 2)
		}
		if !area.Holds(box, 0) {
			t.Errorf("%v leaves the area %v", s, area)
		}
		if s, ok := s.(Text); ok && s.Height < 3.5 {
			t.Errorf("%q is %g mm high", s.Words, s.Height)
		}
	}
	for _, want := range sizes {
		if !found[want] {
			t.Errorf("no line of %g mm", want)
		}
	}
	if got := TextOnLine(shapes); got != "" {
		t.Error(got)
	}
}

// TextOnLine returns a sentence about the first text that another text or a
// stroke's pen touches, or nothing.
func TextOnLine(shapes []Shape) string {
	for i, s := range shapes {
		text, ok := s.(Text)
		if !ok {
			continue
		}
		box := text.Bounds()
		for j, o := range shapes {
			switch o := o.(type) {
			case Text:
				if j != i && box.Overlaps(o.Bounds(), 0) {
					return text.Words + " lies on " + o.Words
				}
			case Stroke:
				for _, g := range o.Path.Segments() {
					if box.Overlaps(g.Bounds(), PenOf(o.Role).Width/2) {
						return text.Words + " lies on a line"
					}
				}
			}
		}
	}
	return ""
}

func TestArrow(t *testing.T) {
	a := Arrow(geom.Pt(10, 0), 90*geom.Degree, 4)
	if got, want := a.Path.Area(), 4*4*math.Tan(7.5*math.Pi/180); math.Abs(got-want) > 1e-9 {
		t.Errorf("area %g, want %g", got, want)
	}
	if b := a.Path.Bounds(); math.Abs(b.Max.Y) > 1e-12 || math.Abs(b.Min.Y+4) > 1e-12 {
		t.Errorf("box %v, want from -4 to 0", b)
	}
}

package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/export/drawing"
	"overbend/export/drawing/drawtest"
	"overbend/geom"
)

var update = flag.Bool("update", false, "rewrite the golden drawings; then look at each one")

// sample has a bit of everything, and lettering with all that XML escapes.
func sample() drawing.Drawing { return drawtest.Sample(`<&> "R" '420' Ø13 × 4 ± 2° –`) }

func write(t rapid.TB, d drawing.Drawing) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The golden drawing protects the look of every role, tone and text.
func TestGolden(t *testing.T) {
	got := write(t, sample())
	drawtest.Golden(t, "sample.svg", got, *update)
	if !bytes.Equal(got, write(t, sample())) {
		t.Error("two runs differ")
	}
}

// element is what the test reads of any element of an SVG file.
type element struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Words   string     `xml:",chardata"`
	Inside  []element  `xml:",any"`
}

func (e element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (e element) number(t rapid.TB, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(e.attr(name), 64)
	if err != nil {
		t.Fatalf("%s of %s: %v", name, e.XMLName.Local, err)
	}
	return v
}

func read(t rapid.TB, b []byte) element {
	t.Helper()
	var e element
	if err := xml.Unmarshal(b, &e); err != nil {
		t.Fatalf("not XML: %v", err)
	}
	return e
}

func (e element) all(name string) []element {
	var out []element
	for _, i := range e.Inside {
		if i.XMLName.Local == name {
			out = append(out, i)
		}
	}
	return out
}

// arcPoints reads path data and returns points along it, n on each piece, by
// the standard's own construction of an arc from its ends, radii and flags (SVG
// 1.1, F.6.5), which shares nothing with the writer.
func arcPoints(t rapid.TB, data string, n int) (pts []geom.Point, closed bool) {
	t.Helper()
	var at, start geom.Point
	for data != "" {
		cmd := data[0]
		end := strings.IndexAny(data[1:], "MLAZ") + 1
		if end == 0 {
			end = len(data)
		}
		var v []float64
		for _, f := range strings.FieldsFunc(data[1:end], func(r rune) bool { return r == ' ' || r == ',' }) {
			flag := cmd == 'A' && len(v) >= 2 && len(v) <= 4
			if i := strings.IndexByte(f, '.'); !flag && (i < 0 || len(f)-i-1 < 4) {
				t.Fatalf("%q has under 4 decimals", f)
			}
			x, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatal(err)
			}
			v = append(v, x)
		}
		data = data[end:]
		line := func(q geom.Point) {
			for i := range n + 1 {
				pts = append(pts, at.Lerp(q, float64(i)/float64(n)))
			}
			at = q
		}
		switch cmd {
		case 'M':
			at = geom.Pt(v[0], v[1])
			start = at
		case 'L':
			line(geom.Pt(v[0], v[1]))
		case 'Z':
			line(start)
			closed = true
		case 'A':
			rx, ry, q := v[0], v[1], geom.Pt(v[5], v[6])
			x1, y1 := (at.X-q.X)/2, (at.Y-q.Y)/2
			// F.6.6: radii too small for the chord are enlarged.
			if l := x1*x1/(rx*rx) + y1*y1/(ry*ry); l > 1 {
				rx, ry = rx*math.Sqrt(l), ry*math.Sqrt(l)
			}
			num := math.Max(0, rx*rx*ry*ry-rx*rx*y1*y1-ry*ry*x1*x1)
			k := math.Sqrt(num / (rx*rx*y1*y1 + ry*ry*x1*x1))
			if v[3] == v[4] {
				k = -k
			}
			cx, cy := k*rx*y1/ry, -k*ry*x1/rx
			th := math.Atan2((y1-cy)/ry, (x1-cx)/rx)
			d := math.Atan2((-y1-cy)/ry, (-x1-cx)/rx) - th
			if v[4] == 0 && d > 0 {
				d -= 2 * math.Pi
			} else if v[4] == 1 && d < 0 {
				d += 2 * math.Pi
			}
			mx, my := (at.X+q.X)/2+cx, (at.Y+q.Y)/2+cy
			for i := range n + 1 {
				a := th + d*float64(i)/float64(n)
				pts = append(pts, geom.Pt(mx+rx*math.Cos(a), my+ry*math.Sin(a)))
			}
			at = q
		default:
			t.Fatalf("command %c", cmd)
		}
	}
	return pts, closed
}

// Any path read back from the file, by other code, is the path drawn: no point
// of either is more than the rounding of four decimals off the other, half
// circles and print corrections included.
func TestPathReadsBack(t *testing.T) {
	const tol = 3e-4 // mm
	rapid.Check(t, func(t *rapid.T) {
		num := rapid.Float64Range(-1000, 1000)
		p := geom.Start(geom.Pt(num.Draw(t, "x"), num.Draw(t, "y")))
		for range rapid.IntRange(1, 5).Draw(t, "segments") {
			q := geom.Pt(num.Draw(t, "x"), num.Draw(t, "y"))
			if q.Dist(p.End()) < 1 {
				continue
			}
			b := rapid.OneOf(rapid.Just(0.0), rapid.Just(1.0), rapid.Just(-1.0), rapid.Float64Range(-2, 2)).Draw(t, "bulge")
			if math.Abs(b) < 1e-3 {
				b = 0
			}
			p = p.BulgeTo(q, b)
		}
		if len(p.Vertices) < 2 {
			return
		}
		if rapid.Bool().Draw(t, "closed") {
			p = p.Close()
		}
		d := drawing.Drawing{Page: geom.Rect{Min: geom.Pt(-1100, -1200), Max: geom.Pt(1300, 1400)}}
		if rapid.Bool().Draw(t, "corrected") {
			d.ScaleX = rapid.Float64Range(0.9, 1.1).Draw(t, "sx")
			d.ScaleY = rapid.Float64Range(0.9, 1.1).Draw(t, "sy")
		}
		d.Add(drawing.Stroke{Path: p, Role: drawing.CutOuter})
		paths := read(t, write(t, d)).all("path")
		if len(paths) != 1 {
			t.Fatalf("%d paths", len(paths))
		}
		pts, closed := arcPoints(t, paths[0].attr("d"), 12)
		if closed != p.Closed {
			t.Errorf("closed %v, want %v", closed, p.Closed)
		}
		// Into the drawing's own frame, where distances are known exactly.
		k, h := d.Placement(), d.Page.Height()
		for i, q := range pts {
			pts[i] = geom.Pt((q.X-k.X)/k.SX, (h-q.Y-k.Y)/k.SY)
			if e := p.Distance(pts[i]); e > tol {
				t.Fatalf("%v in the file is %g mm off the path", pts[i], e)
			}
		}
		// Every piece is there, in order: the points walk along the path.
		i := 0
		for _, s := range p.Segments() {
			for _, u := range []float64{0, 0.25, 0.5, 0.75, 1} {
				q, _ := s.At(u)
				for i < len(pts)-1 && q.Dist(pts[i]) > step(pts, i)+tol {
					i++
				}
				if q.Dist(pts[i]) > step(pts, i)+tol {
					t.Fatalf("%v is not in the file, or out of order", q)
				}
			}
		}
	})
}

// step returns the longer of the distances to the points beside i.
func step(pts []geom.Point, i int) float64 {
	d := 0.0
	if i > 0 {
		d = pts[i].Dist(pts[i-1])
	}
	if i < len(pts)-1 {
		d = math.Max(d, pts[i].Dist(pts[i+1]))
	}
	return d
}

func TestDocument(t *testing.T) {
	d := sample()
	b := write(t, d)
	e := read(t, b)
	// 793 and 529 CSS pixels of 25.4/96 mm.
	if e.attr("width") != "209.8146mm" || e.attr("height") != "139.9646mm" || e.attr("viewBox") != "0 0 209.8146 139.9646" {
		t.Errorf("size %s x %s, viewBox %s", e.attr("width"), e.attr("height"), e.attr("viewBox"))
	}
	if s := e.all("style"); len(s) != 1 || s[0].Words != "@page{size:210.0000mm 140.0000mm;margin:0}" {
		t.Errorf("style %v", s)
	}
	if s := e.all("title"); len(s) != 1 || s[0].Words != d.Title {
		t.Errorf("title %v, want %q", s, d.Title)
	}
	var want []drawing.Text
	for _, s := range d.Shapes {
		if s, ok := s.(drawing.Text); ok {
			want = append(want, s)
		}
	}
	got := e.all("text")
	if len(got) != len(want) {
		t.Fatalf("%d texts, want %d", len(got), len(want))
	}
	for i, s := range want {
		g := got[i]
		if g.Words != s.Words {
			t.Errorf("text %q, want %q", g.Words, s.Words)
		}
		if x, y := g.number(t, "x"), g.number(t, "y"); math.Abs(x-(s.At.X+10)) > 1e-4 || math.Abs(y-(120-s.At.Y)) > 1e-4 {
			t.Errorf("%q at %g, %g", s.Words, x, y)
		}
		if h := g.number(t, "font-size") * 0.718; math.Abs(h-s.Height) > 1e-3 {
			t.Errorf("%q: capitals %g mm high, want %g", s.Words, h, s.Height)
		}
		if a := [3]string{"", "middle", "end"}[s.Anchor]; g.attr("text-anchor") != a {
			t.Errorf("%q: anchor %q, want %q", s.Words, g.attr("text-anchor"), a)
		}
		turn := ""
		if s.Angle != 0 {
			turn = fmt.Sprintf("rotate(%.4f %s %s)", -s.Angle.Degrees(), g.attr("x"), g.attr("y"))
		}
		if g.attr("transform") != turn {
			t.Errorf("%q: transform %q, want %q", s.Words, g.attr("transform"), turn)
		}
	}
}

// The element is whole CSS pixels, at most one of them off the sheet: smaller
// than a page, larger than a drawing without one, whose ink is all on it.
func TestPictureIsWholePixels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(1, 2000).Draw(t, "w"), rapid.Float64Range(1, 2000).Draw(t, "h")
		var d drawing.Drawing
		d.Box(drawing.Visible, drawing.NoTone, geom.Rect{Max: geom.Pt(w, h)})
		for _, paged := range []bool{false, true} {
			if paged {
				d.Page = geom.Rect{Max: geom.Pt(w, h)}
			}
			e := read(t, write(t, d))
			view := strings.Fields(e.attr("viewBox"))
			for i, side := range []float64{w, h} {
				name := [2]string{"width", "height"}[i]
				got, err := strconv.ParseFloat(strings.TrimSuffix(e.attr(name), "mm"), 64)
				if err != nil || view[2+i]+"mm" != e.attr(name) {
					t.Fatalf("%s %q, viewBox %v", name, e.attr(name), view)
				}
				if px := got * 96 / 25.4; math.Abs(px-math.Round(px)) > 3e-4 {
					t.Errorf("%s is %g pixels", name, px)
				}
				off := got - side
				if paged {
					off = -off
				}
				if off < -1e-4 || off > 25.4/96+1e-4 {
					t.Errorf("%s %g for a sheet of %g, paged %v", name, got, side, paged)
				}
			}
		}
	})
}

// A corrected ring is an ellipse along the axes with half axes r/1.013 and
// r/0.998; an equal correction leaves a circle.
func TestRing(t *testing.T) {
	d := drawing.Drawing{Page: geom.Rect{Max: geom.Pt(100, 80)}, ScaleX: 1 / 1.013, ScaleY: 1 / 0.998}
	d.Add(drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(70, 20), Radius: 10}, Role: drawing.CutInner})
	e := read(t, write(t, d)).all("ellipse")
	if len(e) != 1 {
		t.Fatalf("%d ellipses", len(e))
	}
	for name, want := range map[string]float64{
		"cx": 50 + 20/1.013, "cy": 40 + 20/0.998, "rx": 10 / 1.013, "ry": 10 / 0.998,
	} {
		if got := e[0].number(t, name); math.Abs(got-want) > 1e-4 {
			t.Errorf("%s %g, want %g", name, got, want)
		}
	}
	d.ScaleX, d.ScaleY = 0, 0
	c := read(t, write(t, d)).all("circle")
	if len(c) != 1 || c[0].number(t, "r") != 10 || c[0].number(t, "cx") != 70 || c[0].number(t, "cy") != 60 {
		t.Errorf("circle %v", c)
	}
}

// Every role's pen and every tone's colour arrive.
func TestLooks(t *testing.T) {
	for r := drawing.CutOuter; r <= drawing.Fill; r++ {
		for tone := drawing.NoTone; tone <= drawing.Dark; tone++ {
			d := drawing.Drawing{Page: geom.Rect{Max: geom.Pt(100, 80)}}
			d.Box(r, tone, geom.Rect{Max: geom.Pt(10, 10)})
			paths := read(t, write(t, d)).all("path")
			pen := drawing.PenOf(r)
			colour, filled := tone.Colour()
			if !filled && pen.Width == 0 {
				if len(paths) != 0 {
					t.Errorf("role %d tone %d: nothing to see, yet drawn", r, tone)
				}
				continue
			}
			if len(paths) != 1 {
				t.Fatalf("role %d tone %d: %d paths", r, tone, len(paths))
			}
			p := paths[0]
			want := ""
			if filled {
				want = fmt.Sprintf("#%06X", colour)
			}
			if p.attr("fill") != want {
				t.Errorf("role %d tone %d: fill %q, want %q", r, tone, p.attr("fill"), want)
			}
			width := ""
			if pen.Width > 0 {
				width = strconv.FormatFloat(pen.Width, 'f', -1, 64)
			} else if p.attr("stroke") != "none" {
				t.Errorf("role %d tone %d: a line is drawn", r, tone)
			}
			if p.attr("stroke-width") != width {
				t.Errorf("role %d tone %d: width %q, want %q", r, tone, p.attr("stroke-width"), width)
			}
			if got := len(strings.Fields(p.attr("stroke-dasharray"))); got != len(pen.Dash) {
				t.Errorf("role %d: %d dashes, want %d", r, got, len(pen.Dash))
			}
		}
	}
}

// Any words come back as they went in, but for letters that can't be lettered.
func TestTextReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringOfN(rapid.RuneFrom([]rune(`<>&"'%]=-Øé×°–R4 ЖщΩŁş№木`)), 1, 20, -1).Draw(t, "words")
		d := drawing.Drawing{Title: words, Page: geom.Rect{Max: geom.Pt(100, 80)}}
		d.Add(drawing.Text{Words: words, Height: 3.5})
		e := read(t, write(t, d))
		if got := e.all("text")[0].Words; got != strings.ReplaceAll(words, "木", "?") {
			t.Errorf("text %q, want %q", got, words)
		}
		if got := e.all("title")[0].Words; got != words {
			t.Errorf("title %q, want %q", got, words)
		}
	})
}

func TestWriteErrors(t *testing.T) {
	for _, n := range []int{0, 1, 100, 4000} {
		if err := Write(&drawtest.Disk{Left: n}, sample()); !errors.Is(err, drawtest.ErrFull) {
			t.Errorf("disk full after %d bytes: %v", n, err)
		}
	}
	var b bytes.Buffer
	d := sample()
	d.Line(drawing.Thin, geom.Pt(0, 0), geom.Pt(math.Inf(1), 0))
	if err := Write(&b, d); err == nil || b.Len() > 0 {
		t.Errorf("infinite line: error %v, %d bytes written", err, b.Len())
	}
}

func BenchmarkWrite(b *testing.B) {
	d := sample()
	b.ReportAllocs()
	for b.Loop() {
		if err := Write(io.Discard, d); err != nil {
			b.Fatal(err)
		}
	}
}

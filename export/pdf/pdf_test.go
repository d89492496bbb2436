package pdf

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"pgregory.net/rapid"

	"overbend/export/drawing"
	"overbend/export/drawing/drawtest"
	"overbend/geom"
)

var update = flag.Bool("update", false, "rewrite the golden document; then look at it")

// sample has a bit of everything, and lettering with all that a PDF string
// escapes; a second page is larger.
func sample() Document {
	d := drawtest.Sample(`(R) \420 Ø13 × 4 ± 2° – ok`)
	d.Add(drawing.Bar(geom.Pt(-5, 100), geom.Pt(-5, 0), 10)...)
	wide := drawing.Drawing{Page: geom.Rect{Max: geom.Pt(420, 297)}}
	marks, _ := drawing.Metric.ScaleMarks(geom.Pt(20, 20))
	wide.Add(marks...)
	return Document{Title: "davit-arm 🛥 \\( – 40 × 40 (6082)", Pages: []drawing.Drawing{d, wide}}
}

func write(t rapid.TB, doc Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, doc); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The golden document protects the look of every role, tone and text.
func TestGolden(t *testing.T) {
	got := write(t, sample())
	drawtest.Golden(t, "sample.pdf", got, *update)
	if !bytes.Equal(got, write(t, sample())) {
		t.Error("two runs differ")
	}
}

// Source: pdfcpu reads the file, by the standard's rules, and finds the update.
func TestOutsideReader(t *testing.T) {
	api.DisableConfigDir()
	doc := sample()
	b := write(t, doc)
	conf := model.NewDefaultConfiguration()
	if err := api.Validate(bytes.NewReader(b), conf); err != nil {
		t.Fatalf("not valid: %v", err)
	}
	prefs, version, err := api.ViewerPreferences(bytes.NewReader(b), conf)
	if err != nil {
		t.Fatal(err)
	}
	if prefs == nil || prefs.PrintScaling == nil || *prefs.PrintScaling != model.PrintScalingNone {
		t.Errorf("viewer preferences %+v, want no print scaling", prefs)
	}
	if *version < model.V16 {
		t.Errorf("version %v does not know print scaling", version)
	}
	dims, err := api.PageDims(bytes.NewReader(b), conf)
	if err != nil {
		t.Fatal(err)
	}
	if len(dims) != len(doc.Pages) {
		t.Fatalf("%d pages, want %d", len(dims), len(doc.Pages))
	}
	for i, p := range doc.Pages {
		// fpdf writes page sizes with two decimals of a point: 0.0018 mm.
		if w, h := dims[i].Width/perMM, dims[i].Height/perMM; math.Abs(w-p.Page.Width()) > 0.0018 || math.Abs(h-p.Page.Height()) > 0.0018 {
			t.Errorf("page %d is %g x %g mm, want %g x %g", i+1, w, h, p.Page.Width(), p.Page.Height())
		}
	}
	ctx, err := api.ReadContext(bytes.NewReader(b), conf)
	if err != nil {
		t.Fatal(err)
	}
	if err := api.ValidateContext(ctx); err != nil {
		t.Fatal(err)
	}
	if ctx.Title != doc.Title {
		t.Errorf("title %q, want %q", ctx.Title, doc.Title)
	}
}

// curve is a line (no control points) or Bézier curve in mm.
type curve struct {
	p      [4]geom.Point
	bezier bool
}

// at returns the point at parameter u.
func (c curve) at(u float64) geom.Point {
	if !c.bezier {
		return c.p[0].Lerp(c.p[3], u)
	}
	a, b, d := c.p[0].Lerp(c.p[1], u), c.p[1].Lerp(c.p[2], u), c.p[2].Lerp(c.p[3], u)
	return a.Lerp(b, u).Lerp(b.Lerp(d, u), u)
}

// painted is a path with the operator that paints it.
type painted struct {
	curves []curve
	paint  string
	closed bool
}

// shown is a piece of text: its matrix in mm, whether that is of a frame of its
// own, and its bytes.
type shown struct {
	m      [6]float64
	second bool
	codes  []byte
}

// contents returns the content streams of the pages, found by the stream and
// length words alone: a font's are compressed, or a character map.
func contents(t rapid.TB, pdf []byte) [][]byte {
	t.Helper()
	var out [][]byte
	for {
		i := bytes.Index(pdf, []byte("<</Length "))
		if i < 0 {
			return out
		}
		pdf = pdf[i+len("<</Length "):]
		n, err := strconv.Atoi(string(pdf[:bytes.IndexByte(pdf, '>')]))
		if err != nil {
			continue
		}
		j := bytes.Index(pdf, []byte("stream\n")) + len("stream\n")
		if !bytes.HasPrefix(pdf[j:], []byte("/CIDInit")) {
			out = append(out, pdf[j:j+n])
		}
		pdf = pdf[j+n:]
	}
}

// interpret reads a content stream.
func interpret(t rapid.TB, stream []byte) (paths []painted, texts []shown) {
	t.Helper()
	const mm = 25.4 / 72
	var stack []float64
	var codes []byte
	var at, start geom.Point
	var now painted
	depth := 0 // of frames
	point := func(i int) geom.Point { return geom.Pt(stack[i]*mm, stack[i+1]*mm) }
	for len(stream) > 0 {
		switch c := stream[0]; {
		case c == ' ' || c == '\n':
			stream = stream[1:]
			continue
		case c == '(':
			i := 1
			codes = nil
			for ; stream[i] != ')'; i++ {
				c := stream[i]
				if c == '\\' {
					i++
					if c = stream[i]; c == 'r' {
						c = '\r'
					}
				}
				codes = append(codes, c)
			}
			stream = stream[i+1:]
			continue
		case c == '[':
			stack = nil
			stream = stream[bytes.IndexByte(stream, ']')+1:]
			continue
		}
		end := bytes.IndexAny(stream, " \n([")
		if end < 0 {
			end = len(stream)
		}
		word := string(stream[:end])
		stream = stream[end:]
		if v, err := strconv.ParseFloat(word, 64); err == nil {
			stack = append(stack, v)
			continue
		}
		switch word {
		case "m":
			at = point(0)
			start = at
			now = painted{}
		case "l":
			now.curves = append(now.curves, curve{p: [4]geom.Point{0: at, 3: point(0)}})
			at = point(0)
		case "c":
			now.curves = append(now.curves, curve{p: [4]geom.Point{at, point(0), point(2), point(4)}, bezier: true})
			at = point(4)
		case "h":
			if at.Dist(start) > 1e-9 {
				now.curves = append(now.curves, curve{p: [4]geom.Point{0: at, 3: start}})
			}
			now.closed = true
		case "S", "f", "B":
			now.paint = word
			paths = append(paths, now)
		case "Tm", "cm":
			s := shown{second: word == "cm"}
			if want := map[string]int{"Tm": 0, "cm": 1}[word]; depth != want {
				t.Fatalf("%s in %d frames", word, depth)
			}
			copy(s.m[:], stack)
			for i := range s.m {
				s.m[i] *= mm
			}
			texts = append(texts, s)
		case "Tj":
			texts[len(texts)-1].codes = codes
		case "q":
			depth++
		case "Q":
			depth--
		case "Td":
			if len(stack) != 2 || stack[0] != 0 || stack[1] != 0 {
				t.Fatalf("text at %v of its own frame", stack)
			}
		case "J", "j", "w", "d", "G", "g", "RG", "rg", "BT", "ET", "Tf":
		default:
			if !strings.HasPrefix(word, "/F") {
				t.Fatalf("operator %q", word)
			}
		}
		stack = nil
	}
	return paths, texts
}

// The issue's own check: the 100 mm bars in the content stream within 0.005 mm.
// They are within the rounding of four decimals of a point.
func TestBars(t *testing.T) {
	across, up := 0, 0
	for _, stream := range contents(t, write(t, sample())) {
		paths, _ := interpret(t, stream)
		for _, p := range paths {
			if len(p.curves) != 1 || p.curves[0].bezier || p.closed {
				continue
			}
			d := p.curves[0].p[3].Sub(p.curves[0].p[0])
			for _, side := range []struct {
				long, off float64
				n         *int
			}{{d.X, d.Y, &across}, {d.Y, d.X, &up}} {
				if math.Abs(side.off) > 1e-9 || math.Abs(math.Abs(side.long)-100) > 0.5 {
					continue
				}
				*side.n++
				if e := math.Abs(math.Abs(side.long) - 100); e > 0.0001 {
					t.Errorf("a bar is %g mm off", e)
				}
			}
		}
	}
	if across != 2 || up != 1 {
		t.Errorf("%d bars across and %d up, want 2 and 1", across, up)
	}
}

// Any path in the file is the path drawn: lines to rounding, arcs of radii to
// 2000 mm within 0.001 mm, both ways.
func TestPathReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num := rapid.Float64Range(-1000, 1000)
		p := geom.Start(geom.Pt(num.Draw(t, "x"), num.Draw(t, "y")))
		for range rapid.IntRange(1, 5).Draw(t, "segments") {
			q := geom.Pt(num.Draw(t, "x"), num.Draw(t, "y"))
			c := q.Dist(p.End())
			if c < 1 {
				continue
			}
			r := rapid.Float64Range(c/2, 2000).Draw(t, "radius")
			b := math.Tan(math.Asin(c/2/r) / 2)
			switch rapid.IntRange(0, 4).Draw(t, "kind") {
			case 0:
				b = 0
			case 1:
				b = -b
			case 2:
				b = 1 / b // the long way round
			case 3:
				b = -1 / b
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
		paths, _ := interpret(t, contents(t, write(t, Document{Pages: []drawing.Drawing{d}}))[0])
		if len(paths) != 1 || paths[0].closed != p.Closed || paths[0].paint != "S" {
			t.Fatalf("paths %v", paths)
		}
		k := d.Placement()
		var pts []geom.Point
		for _, c := range paths[0].curves {
			for i := range 9 {
				q := c.at(float64(i) / 8)
				q = geom.Pt((q.X-k.X)/k.SX, (q.Y-k.Y)/k.SY)
				if e := p.Distance(q); e > 0.001 {
					t.Fatalf("%v is %g mm off the path", q, e)
				}
				pts = append(pts, q)
			}
		}
		for _, v := range p.Vertices {
			best := math.Inf(1)
			for _, q := range pts {
				best = math.Min(best, q.Dist(v.Point))
			}
			if best > 1e-4 {
				t.Fatalf("corner %v is %g mm off", v, best)
			}
		}
		for _, s := range p.Segments() {
			for i := range 9 {
				q, _ := s.At(float64(i) / 8)
				near := false
				for j := range pts {
					near = near || j > 0 && q.Dist(pts[j]) <= pts[j].Dist(pts[j-1])+0.001
				}
				if !near {
					t.Fatalf("%v is not in the file", q)
				}
			}
		}
	})
}

// The formula for the error of one curve, against curves measured densely.
func TestBezierError(t *testing.T) {
	for _, r := range []float64{0.5, 6.5, 50, 420, 2000, 20000} {
		step := maxStep(r)
		if step > math.Pi/6+1e-12 {
			t.Errorf("R %g: step %g rad", r, step)
		}
		k := 4. / 3 * math.Tan(step/4)
		a, b := geom.Pt(r, 0), geom.Polar(r, geom.Angle(step))
		c := curve{p: [4]geom.Point{a, a.Add(a.Left().Mul(k)), b.Sub(b.Left().Mul(k)), b}, bezier: true}
		worst := 0.0
		for i := range 1001 {
			worst = math.Max(worst, math.Abs(c.at(float64(i)/1000).Norm()-r))
		}
		if worst > bezierError*1.02 {
			t.Errorf("R %g: %g mm off, want at most %g", r, worst, bezierError)
		}
	}
}

func TestRing(t *testing.T) {
	d := drawing.Drawing{Page: geom.Rect{Max: geom.Pt(100, 80)}, ScaleX: 1 / 1.013, ScaleY: 1 / 0.998}
	d.Add(drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(70, 20), Radius: 10}, Role: drawing.CutInner, Tone: drawing.Paper})
	paths, _ := interpret(t, contents(t, write(t, Document{Pages: []drawing.Drawing{d}}))[0])
	if len(paths) != 1 || !paths[0].closed || paths[0].paint != "B" {
		t.Fatalf("paths %v", paths)
	}
	turn := 0.0
	for _, c := range paths[0].curves {
		for i := range 9 {
			// On the printer that errs it is a circle of 10 mm about 70, 20.
			q := c.at(float64(i) / 8).Sub(geom.Pt(50, 40))
			q = geom.Pt(50+q.X*1.013, 40+q.Y*0.998).Sub(geom.Pt(70, 20))
			if math.Abs(q.Norm()-10) > 0.001 {
				t.Errorf("radius %g", q.Norm())
			}
		}
		turn += math.Atan2(c.p[0].Sub(geom.Pt(50+20/1.013, 40-20/0.998)).Cross(c.p[3].Sub(c.p[0])), 100)
	}
	if turn <= 0 {
		t.Error("the circle runs clockwise")
	}
}

func TestText(t *testing.T) {
	d := drawing.Drawing{Page: geom.Rect{Min: geom.Pt(5, 5), Max: geom.Pt(205, 105)}}
	turn := 30 * geom.Degree
	for _, a := range []drawing.Anchor{drawing.Left, drawing.Middle, drawing.Right} {
		d.Add(drawing.Text{At: geom.Pt(100, 50), Words: `(Ø13 × 4 ±2°–5) \ 木`, Height: 3.5, Angle: turn, Anchor: a, Bold: a == drawing.Right})
	}
	stream := contents(t, write(t, Document{Pages: []drawing.Drawing{d}}))[0]
	_, texts := interpret(t, stream)
	if len(texts) != 3 {
		t.Fatalf("%d texts", len(texts))
	}
	// Codes of Windows-1252 from its table: Ø D8, × D7, ± B1, ° B0, – 96; what no
	// face has is a question mark.
	want := "(\xD813 \xD7 4 \xB12\xB0\x965) \\ ?"
	size := 3.5 / 0.718
	for i, s := range texts {
		if string(s.codes) != want {
			t.Errorf("codes %q, want %q", s.codes, want)
		}
		words := d.Shapes[i].(drawing.Text)
		back := []float64{0, 0.5, 1}[i] * words.Width()
		at := geom.Pt(95, 45).Sub(geom.Polar(back, turn))
		m := [6]float64{size * turn.Cos(), size * turn.Sin(), -size * turn.Sin(), size * turn.Cos(), at.X, at.Y}
		for j := range m {
			if math.Abs(m[j]-s.m[j]) > 1e-4 {
				t.Errorf("text %d: matrix %v, want %v", i, s.m, m)
				break
			}
		}
	}
	if n := bytes.Count(stream, []byte(" 1.00 Tf")); n != 2 {
		t.Errorf("font set %d times, want 2", n)
	}
}

// Every role's pen and every tone's colour arrive, though pen and fill are only
// written when they change.
func TestLooks(t *testing.T) {
	d := drawing.Drawing{Page: geom.Rect{Max: geom.Pt(100, 80)}}
	var want []string
	// Twice round, so that the first role's pen comes back after the others'.
	for i := range 2 * (drawing.Fill + 1) {
		r := i % (drawing.Fill + 1)
		for tone := drawing.NoTone; tone <= drawing.Dark; tone++ {
			pen := drawing.PenOf(r)
			colour, filled := tone.Colour()
			if pen.Width == 0 && !filled {
				continue
			}
			d.Box(r, tone, geom.Rect{Max: geom.Pt(10, 10)})
			w := ""
			if filled {
				w = fmt.Sprintf("fill %.4f ", float64(colour>>16)/255)
			}
			if pen.Width > 0 {
				w += fmt.Sprintf("pen %.4f dash %d ", pen.Width*perMM, len(pen.Dash))
			}
			switch {
			case pen.Width == 0:
				w += "f"
			case filled:
				w += "B"
			default:
				w += "S"
			}
			want = append(want, w)
		}
	}
	var fill, pen, dash string
	var got []string
	for line := range strings.Lines(string(contents(t, write(t, Document{Pages: []drawing.Drawing{d}}))[0])) {
		f := strings.Fields(line)
		switch op := f[len(f)-1]; op {
		case "rg":
			fill = f[0]
		case "w":
			pen = f[0]
		case "d":
			n := len(f) - 2
			if n == 1 {
				n = 0 // "[]"
			} else {
				n--
			}
			dash = strconv.Itoa(n)
		case "S":
			got = append(got, fmt.Sprintf("pen %s dash %s S", pen, dash))
		case "f":
			got = append(got, fmt.Sprintf("fill %s f", fill))
		case "B":
			got = append(got, fmt.Sprintf("fill %s pen %s dash %s B", fill, pen, dash))
		}
	}
	if len(got) != len(want) {
		t.Fatalf("%d shapes painted, want %d", len(got), len(want))
	}
	for i := range want {
		// Black is the fill that a page starts with.
		if g := strings.Replace(got[i], "fill  ", "fill 0.0000 ", 1); g != want[i] {
			t.Errorf("shape %d: %q, want %q", i, g, want[i])
		}
	}
}

func TestWriteErrors(t *testing.T) {
	for _, n := range []int{0, 1, 100, 4000} {
		if err := Write(&drawtest.Disk{Left: n}, sample()); !errors.Is(err, drawtest.ErrFull) {
			t.Errorf("disk full after %d bytes: %v", n, err)
		}
	}
	var b bytes.Buffer
	if err := Write(&b, Document{}); err == nil || b.Len() > 0 {
		t.Errorf("no pages: error %v, %d bytes", err, b.Len())
	}
	doc := sample()
	doc.Pages[1].Line(drawing.Thin, geom.Pt(0, 0), geom.Pt(math.NaN(), 0))
	if err := Write(&b, doc); err == nil || b.Len() > 0 || !strings.Contains(err.Error(), "page 2") {
		t.Errorf("NaN: error %v, %d bytes", err, b.Len())
	}
}

func BenchmarkWrite(b *testing.B) {
	doc := sample()
	for _, n := range []int{0, 1, 16} {
		var pages []drawing.Drawing
		for range n {
			pages = append(pages, doc.Pages[0])
		}
		if n == 0 {
			// What the library costs by itself.
			pages = []drawing.Drawing{{Page: doc.Pages[0].Page}}
		}
		b.Run(fmt.Sprintf("pages=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := Write(io.Discard, Document{Title: "x", Pages: pages}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

package svg_test

import (
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"

	"overbend/export/drawing"
	"overbend/export/drawing/drawtest"
	"overbend/export/svg"
	"overbend/geom"
)

// Every class of an element in a page has its rule, no style stands in the text,
// and what is written is well formed and named.
func TestInline(t *testing.T) {
	d := drawtest.Sample(`<&> "R" Ø13`)
	text, err := svg.Inline(d, "a<b", "name & <more>", "told")
	if err != nil {
		t.Fatal(err)
	}
	style := svg.Style()
	for _, m := range regexp.MustCompile(`class="([^"]+)"`).FindAllStringSubmatch(text, -1) {
		for _, class := range strings.Fields(m[1]) {
			if !strings.Contains(style, "."+class+"{") {
				t.Errorf("no rule for %s", class)
			}
		}
	}
	for _, bad := range []string{"style", "stroke=", "fill=", "stroke-width=", "<more>", "a<b", "-0,"} {
		if strings.Contains(text, bad) {
			t.Errorf("holds %q", bad)
		}
	}
	read := xml.NewDecoder(strings.NewReader(text))
	for {
		if _, err := read.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	for _, want := range []string{`role="img"`, `aria-labelledby="a&lt;b-t a&lt;b-d"`, `<title id="a&lt;b-t">name &amp; &lt;more&gt;</title>`, `<desc id="a&lt;b-d">told</desc>`} {
		if !strings.Contains(text, want) {
			t.Errorf("without %s", want)
		}
	}
	// A shape of the document is a shape of the element, and no other.
	var whole strings.Builder
	if err := svg.Write(&whole, d); err != nil {
		t.Fatal(err)
	}
	for _, element := range []string{"<path", "<circle", "<text"} {
		if got, want := strings.Count(text, element), strings.Count(whole.String(), element); got != want || want == 0 {
			t.Errorf("%d of %s, want %d", got, element, want)
		}
	}
	if _, err := svg.Inline(drawing.Drawing{}, "a", "b", "c"); err == nil {
		t.Error("an empty drawing is taken")
	}
}

// The rules are the pens and tones of paper: each pen's width and dash, each tone's
// colour, and all of them.
func TestStyle(t *testing.T) {
	style := svg.Style()
	for r := drawing.CutOuter; r <= drawing.Fill; r++ {
		pen := drawing.PenOf(r)
		want := "{stroke:none}"
		if pen.Width > 0 {
			want = fmt.Sprintf("{stroke-width:%g", pen.Width)
		}
		text, err := svg.Inline(line(r), "a", "b", "c")
		if err != nil {
			t.Fatal(err)
		}
		class := regexp.MustCompile(`<path d="[^"]*" class="([a-z]+)`).FindStringSubmatch(text)
		if pen.Width == 0 && class == nil {
			continue // nothing to see
		}
		if class == nil || !strings.Contains(style, ".drawing ."+class[1]+want) {
			t.Errorf("role %d: %v without %s", r, class, want)
		}
		dash := strings.Trim(fmt.Sprint(pen.Dash), "[]")
		if dash != "" && !strings.Contains(style, "."+class[1]+want+";stroke-dasharray:"+dash+"}") {
			t.Errorf("role %d without its dash %s", r, dash)
		}
	}
	for tone := drawing.Paper; tone <= drawing.Dark; tone++ {
		colour, _ := tone.Colour()
		if want := fmt.Sprintf(",#%06X)}", colour); !strings.Contains(style, want) {
			t.Errorf("tone %d without %s", tone, want)
		}
	}
}

// line is a drawing of one closed line with a role.
func line(r drawing.Role) drawing.Drawing {
	var d drawing.Drawing
	d.Add(drawing.Stroke{Path: geom.Rect{Max: geom.Pt(10, 5)}.Path(), Role: r})
	return d
}

// At true size a mm of the drawing is a mm, and places are as exact as in a file.
func TestInlineTrue(t *testing.T) {
	d := line(drawing.Visible)
	d.Page = geom.Rect{Max: geom.Pt(210, 297)}
	d.Shapes[0] = drawing.Stroke{Path: geom.Lines(geom.Pt(1.23456, 2), geom.Pt(3, 4)), Role: drawing.Thin}
	text, err := svg.InlineTrue(d, "a", "b", "c")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(` width="([0-9.]+)mm" height="([0-9.]+)mm" viewBox="0 0 ([0-9.]+) ([0-9.]+)"`).FindStringSubmatch(text)
	if m == nil {
		t.Fatalf("no size in %s", text)
	}
	for i, want := range []float64{210, 297} {
		var size, view float64
		fmt.Sscan(m[1+i], &size)
		fmt.Sscan(m[3+i], &view)
		if size > want || size < want-0.27 || size != view {
			t.Errorf("%v mm for %v of the drawing, want nearly %v", size, view, want)
		}
	}
	if !strings.Contains(text, "1.2346,295") {
		t.Errorf("not to a tenth of a micrometre: %s", text)
	}
}

// A path's data are those that its own drawing has.
func TestData(t *testing.T) {
	p := geom.Start(geom.Pt(1, 1)).LineTo(geom.Pt(9, 1)).ArcTo(geom.Pt(9, 4), 90*geom.Degree).Close()
	d := drawing.Drawing{Page: geom.Rect{Min: geom.Pt(-5, -5), Max: geom.Pt(15, 10)}}
	d.Add(drawing.Stroke{Path: p, Role: drawing.Visible})
	text, err := svg.Inline(d, "a", "b", "c")
	if err != nil {
		t.Fatal(err)
	}
	if got := svg.Data(p, d.Page); !strings.Contains(text, `d="`+got+`"`) || !strings.HasPrefix(got, "M6,9") {
		t.Errorf("%s is not in %s", got, text)
	}
	if got := svg.Data(geom.Path{}, d.Page); got != "" {
		t.Errorf("nothing is %q", got)
	}
}

package svg

import (
	"bytes"
	"fmt"
	"html"
	"strings"

	"overbend/export/drawing"
	"overbend/geom"
)

// screenDecimals of a coordinate on a screen, in mm of the drawing: three of its
// finest lines side by side are still told apart.
const screenDecimals = 2

// Inline returns d as an SVG element that stands in a page of HTML: as wide as
// the page gives it, its looks as classes for the rules of [Style], so that a
// page's own colours hold and no style stands in the text, named by title and
// told in words by desc for whoever does not see it. id is the page's own for
// the element. It returns an error for a drawing that fails
// [drawing.Drawing.Check].
func Inline(d drawing.Drawing, id, title, desc string) (string, error) {
	return inline(d, screenDecimals, "", id, title, desc)
}

// InlineTrue is [Inline] at true size, to be printed: as exact and as large as
// [Write] has it.
func InlineTrue(d drawing.Drawing, id, title, desc string) (string, error) {
	w, h := picture(d)
	return inline(d, decimals, fmt.Sprintf(` width="%.4fmm" height="%.4fmm"`, w, h), id, title, desc)
}

func inline(d drawing.Drawing, decimals int, size, id, title, desc string) (string, error) {
	if err := d.Check(); err != nil {
		return "", fmt.Errorf("svg: %w", err)
	}
	var buf bytes.Buffer
	buf.Grow(512 + 90*len(d.Shapes))
	c := newCanvas(&buf, d, decimals)
	c.classes = true
	w, h := d.Sheet().Width(), d.Sheet().Height()
	if size != "" {
		w, h = picture(d)
	}
	num := func(x float64) string { return string(c.number(nil, x)) }
	fmt.Fprintf(&buf, `<svg class="drawing" id="%s"%s viewBox="0 0 %s %s" role="img" aria-labelledby="%[1]s-t %[1]s-d"><title id="%[1]s-t">%[5]s</title><desc id="%[1]s-d">%[6]s</desc>`,
		html.EscapeString(id), size, num(w), num(h), html.EscapeString(title), html.EscapeString(desc))
	c.shapes(d)
	buf.WriteString("</svg>")
	return buf.String(), nil
}

// roleClass names a role's class in [Style].
func roleClass(r drawing.Role) string {
	return [...]string{"cut", "cut", "mark", "note", "vis", "thin", "hid", "cen", "pha", "pre", "fra", "fil"}[r]
}

// toneClass names a tone's class in [Style], "" for none.
func toneClass(t drawing.Tone) string {
	return [...]string{"", "paper", "pale", "filler", "tube", "block", "steel", "dark"}[t]
}

func classesOf(r drawing.Role, t drawing.Tone, filled bool) string {
	tone := ""
	if filled {
		tone = " " + toneClass(t)
	}
	return `class="` + roleClass(r) + tone + `"`
}

// Style returns the rules of style by which an [Inline] drawing looks as on
// paper: the pens of package drawing, in mm of the drawing, and its tones. Lines
// and letters take the page's property --ink, tones --tube, --block and so on
// with paper's own as what they fall back to.
func Style() string {
	var b strings.Builder
	b.WriteString(".drawing{fill:none;stroke:var(--ink,#000);stroke-linejoin:round;font-family:Helvetica,Arial,'Liberation Sans',sans-serif}\n")
	b.WriteString(".drawing .w{fill:var(--ink,#000);stroke:none}\n")
	for r := drawing.CutOuter; r <= drawing.Fill; r++ {
		pen := drawing.PenOf(r)
		if pen.Width == 0 {
			fmt.Fprintf(&b, ".drawing .%s{stroke:none}\n", roleClass(r))
			continue
		}
		if r == drawing.CutInner {
			continue // one class with the outer
		}
		fmt.Fprintf(&b, ".drawing .%s{stroke-width:%g", roleClass(r), pen.Width)
		if len(pen.Dash) > 0 {
			b.WriteString(";stroke-dasharray:" + strings.Trim(fmt.Sprint(pen.Dash), "[]"))
		}
		b.WriteString("}\n")
	}
	for t := drawing.Paper; t <= drawing.Dark; t++ {
		colour, _ := t.Colour()
		fmt.Fprintf(&b, ".drawing .%s{fill:var(--%[1]s,#%06X)}\n", toneClass(t), colour)
	}
	return b.String()
}

// Data returns a path as the data of an SVG path element in the frame of an
// [Inline] drawing with a page.
func Data(p geom.Path, page geom.Rect) string {
	d := drawing.Drawing{Page: page}
	var buf bytes.Buffer
	c := newCanvas(&buf, d, screenDecimals)
	c.classes = true
	return string(c.data(nil, p))
}

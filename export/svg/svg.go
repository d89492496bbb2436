// Package svg writes a drawing as SVG that prints at its true size: width and
// height in mm, a viewBox of the same numbers, so that one user unit is 1 mm,
// both whole CSS pixels, and an @page rule with the sheet's size, without which
// browsers shrink a drawing to their own paper.
//
// It knows nothing of what is drawn, cuts nothing into tiles (see package
// paper) and measures no text: a reader's own Helvetica, or a face with its
// widths, sets it.
package svg

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"

	svgo "github.com/ajstarks/svgo/float"

	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// decimals of every coordinate, in mm: a tenth of a micrometre.
const decimals = 4

// cssPixel is CSS's 1/96 in, in mm.
const cssPixel = 25.4 / 96

// picture returns the width and height in mm of the SVG element for d. A browser
// stretches a bare SVG file to whole pixels, which makes 100 mm on a page of
// 297 x 210 mm into 100.04 mm and on one of 80 x 40 mm into 99.88 mm (measured
// in Chromium's print), so the element is whole pixels from the start: a little
// smaller than a page, whose edge no printer reaches, a little larger than a
// drawing that has none.
func picture(d drawing.Drawing) (w, h float64) {
	s := d.Sheet()
	n, m := s.Width()/cssPixel, s.Height()/cssPixel
	const rounding = 1e-6
	if d.Page.Width() > 0 {
		return math.Max(1, math.Floor(n+rounding)) * cssPixel, math.Max(1, math.Floor(m+rounding)) * cssPixel
	}
	return math.Ceil(n-rounding) * cssPixel, math.Ceil(m-rounding) * cssPixel
}

// maxSweep is the largest arc that is written as one A command. SVG gives an
// arc by its ends and radius only; towards a half circle, rounding the radius
// by e moves the crown by e/cos(sweep/2), so that four decimals of a half
// circle of 500 mm would leave 0.2 mm. At 120° the factor is 2. It also keeps
// the large-arc flag 0.
const maxSweep = 2 * math.Pi / 3

// Write writes d as one SVG document for a page of the size of d.Sheet(), with
// d's print correction applied; what lies in the last 0.26 mm of a page on the
// right and below may be lost. It returns an error for a drawing that fails
// [drawing.Drawing.Check], before anything is written, or w's own error. The
// same drawing gives the same bytes; d is not changed.
func Write(w io.Writer, d drawing.Drawing) error {
	if err := d.Check(); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	// svgo drops the errors of its writer, so it gets one that has none.
	var buf bytes.Buffer
	buf.Grow(1024 + 160*len(d.Shapes))
	c := newCanvas(&buf, d, decimals)
	c.document(d)
	if _, err := w.Write(buf.Bytes()); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	return nil
}

// canvas turns shapes into elements. SVG's y runs down: every place is
// flipped about the sheet's height as it is written, and nowhere else.
type canvas struct {
	svg      *svgo.SVG
	place    drawing.Placement
	height   float64
	decimals int
	classes  bool   // looks are classes of a style sheet, not attributes
	path     []byte // scratch for path data and attributes
}

func newCanvas(buf *bytes.Buffer, d drawing.Drawing, decimals int) canvas {
	c := canvas{svg: svgo.New(buf), place: d.Placement(), height: d.Sheet().Height(), decimals: decimals}
	c.svg.Decimals = decimals
	return c
}

func (c *canvas) document(d drawing.Drawing) {
	w, h := picture(d)
	pageW, pageH := w, h
	if d.Page.Width() > 0 {
		pageW, pageH = d.Page.Width(), d.Page.Height()
	}
	num := func(x float64) string { return string(c.number(nil, x)) }
	c.svg.Startunit(w, h, "mm",
		`viewBox="0 0 `+num(w)+" "+num(h)+`"`,
		// A viewer with a dark ground would hide black lines.
		`style="background:#FFFFFF" fill="none" stroke="#000000" stroke-linejoin="round"`,
		`font-family="Helvetica, Arial, 'Liberation Sans', sans-serif"`)
	if d.Title != "" {
		c.svg.Title(d.Title)
	}
	fmt.Fprintf(c.svg.Writer, "<style>@page{size:%smm %smm;margin:0}</style>\n", num(pageW), num(pageH))
	c.shapes(d)
	c.svg.End()
}

func (c *canvas) shapes(d drawing.Drawing) {
	for _, s := range d.Shapes {
		switch s := s.(type) {
		case drawing.Stroke:
			c.stroke(s)
		case drawing.Ring:
			c.ring(s)
		case drawing.Text:
			c.text(s)
		}
	}
}

// at returns the place of q in SVG's frame.
func (c *canvas) at(q geom.Point) (x, y float64) {
	p := c.place.Apply(q)
	return unsigned(p.X), unsigned(c.height - p.Y)
}

func (c *canvas) stroke(s drawing.Stroke) {
	look, ok := c.look(s.Role, s.Tone, s.Path.Closed)
	if !ok {
		return
	}
	if c.path = c.data(c.path[:0], s.Path); len(c.path) > 0 {
		c.svg.Path(string(c.path), look)
	}
}

// data appends the commands of a path, none for one without a length.
func (c *canvas) data(b []byte, p geom.Path) []byte {
	segments := p.Segments()
	if len(segments) == 0 {
		return b
	}
	b = append(b, 'M')
	b = c.point(b, segments[0].From)
	for i, g := range segments {
		if !g.IsArc() {
			// Z draws the last line of a closed path.
			if p.Closed && i == len(segments)-1 {
				break
			}
			b = append(b, 'L')
			b = c.point(b, g.To)
			continue
		}
		b = c.arc(b, g)
	}
	if p.Closed {
		b = append(b, 'Z')
	}
	return b
}

// arc appends the A commands of one arc. Under an unequal print correction the
// circle becomes an ellipse along the axes, which the same command draws.
func (c *canvas) arc(b []byte, g geom.Segment) []byte {
	n := int(math.Ceil(math.Abs(g.Sweep().Radians())/maxSweep - 1e-9))
	r := g.Radius()
	for i := range n {
		to := g.To
		if i < n-1 {
			to, _ = g.At(float64(i+1) / float64(n))
		}
		b = append(b, 'A')
		b = c.number(b, r*c.place.SX)
		b = append(b, ',')
		b = c.number(b, r*c.place.SY)
		// Flipping y turns counter-clockwise, SVG's sweep 1, into clockwise.
		if g.Bulge > 0 {
			b = append(b, " 0 0 0 "...)
		} else {
			b = append(b, " 0 0 1 "...)
		}
		b = c.point(b, to)
	}
	return b
}

func (c *canvas) ring(s drawing.Ring) {
	look, ok := c.look(s.Role, s.Tone, true)
	if !ok {
		return
	}
	x, y := c.at(s.Circle.Centre)
	r := s.Circle.Radius
	if c.place.SX == c.place.SY {
		c.svg.Circle(x, y, r*c.place.SX, look)
		return
	}
	c.svg.Ellipse(x, y, r*c.place.SX, r*c.place.SY, look)
}

func (c *canvas) text(s drawing.Text) {
	x, y := c.at(s.At)
	b := append(c.path[:0], `font-size="`...)
	b = c.number(b, s.Height/lettering.CapHeight*c.place.Factor())
	if b = append(b, '"'); c.classes {
		b = append(b, ` class="w"`...)
	} else {
		b = append(b, ` fill="#000000" stroke="none"`...)
	}
	switch s.Anchor {
	case drawing.Middle:
		b = append(b, ` text-anchor="middle"`...)
	case drawing.Right:
		b = append(b, ` text-anchor="end"`...)
	}
	if s.Bold {
		b = append(b, ` font-weight="bold"`...)
	}
	if s.Angle != 0 {
		b = append(b, ` transform="rotate(`...)
		b = c.number(b, -s.Angle.Degrees())
		b = append(b, ' ')
		b = c.number(b, x)
		b = append(b, ' ')
		b = c.number(b, y)
		b = append(b, `)"`...)
	}
	c.path = b
	c.svg.Text(x, y, lettering.Lettered(s.Words), string(b))
}

// look returns the attributes of a shape that differ from the document's own
// (no fill, black line), and false if there is nothing to see.
func (c *canvas) look(r drawing.Role, t drawing.Tone, closed bool) (string, bool) {
	pen := drawing.PenOf(r)
	colour, filled := t.Colour()
	filled = filled && closed
	if c.classes {
		return classesOf(r, t, filled), filled || pen.Width > 0
	}
	var b []byte
	if filled {
		b = append(b, `fill="`...)
		b = hex(b, colour)
		b = append(b, '"')
	}
	if pen.Width == 0 {
		if filled {
			b = append(b, ` stroke="none"`...)
		}
		return string(b), filled
	}
	if filled {
		b = append(b, ' ')
	}
	b = append(b, `stroke-width="`...)
	b = strconv.AppendFloat(b, pen.Width, 'f', -1, 64)
	b = append(b, '"')
	if pen.Ink != 0 {
		b = append(b, ` stroke="`...)
		b = hex(b, pen.Ink)
		b = append(b, '"')
	}
	if len(pen.Dash) > 0 {
		b = append(b, ` stroke-dasharray="`...)
		for i, d := range pen.Dash {
			if i > 0 {
				b = append(b, ' ')
			}
			b = strconv.AppendFloat(b, d, 'f', -1, 64)
		}
		b = append(b, '"')
	}
	return string(b), true
}

func (c *canvas) point(b []byte, q geom.Point) []byte {
	x, y := c.at(q)
	b = c.number(b, x)
	b = append(b, ',')
	return c.number(b, y)
}

// number appends x with fixed decimals, without a sign on zero.
func (c *canvas) number(b []byte, x float64) []byte {
	b = strconv.AppendFloat(b, unsigned(x), 'f', c.decimals, 64)
	if c.classes {
		b = bytes.TrimRight(b, "0")
		b = bytes.TrimSuffix(b, []byte("."))
	}
	return b
}

// unsigned returns 0 for what would be written as minus zero.
func unsigned(x float64) float64 {
	if math.Abs(x) < 0.5e-4 {
		return 0
	}
	return x
}

// hex appends a colour as #RRGGBB.
func hex(b []byte, c uint32) []byte {
	const digits = "0123456789ABCDEF"
	b = append(b, '#')
	for shift := 20; shift >= 0; shift -= 4 {
		b = append(b, digits[c>>shift&15])
	}
	return b
}

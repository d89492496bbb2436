package pdf

import (
	"math"
	"strconv"

	"codeberg.org/go-pdf/fpdf"

	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// perMM is the number of PDF units, points of 1/72 in, in a millimetre.
const perMM = 72 / 25.4

// decimals of every coordinate in points: 0.00004 mm. fpdf's own paths have
// two, which moves a point by up to 0.0018 mm, and its own arcs are up to
// 0.3 % off, so that pages are written as operators here.
const decimals = 4

// page collects one page's operators. PDF's frame is the drawing's own: origin
// in the lower left corner, y up.
type page struct {
	pdf   *fpdf.Fpdf
	added seconds // to the document
	place drawing.Placement
	ops   []byte

	pen   drawing.Role // role whose pen is set
	ready bool         // whether any pen is set
	fill  uint32       // fill colour that is set; a page starts with black
	face  font         // that is set; a page starts with none
}

func drawPage(f *fpdf.Fpdf, added seconds, d drawing.Drawing) {
	p := page{pdf: f, added: added, place: d.Placement(), ops: make([]byte, 0, 256+96*len(d.Shapes))}
	// Butt caps: a bar of 100 mm is 100 mm long. Round joins.
	p.ops = append(p.ops, "0 J 1 j\n"...)
	for _, s := range d.Shapes {
		switch s := s.(type) {
		case drawing.Stroke:
			p.stroke(s)
		case drawing.Ring:
			p.stroke(drawing.Stroke{Path: s.Circle.Path(), Role: s.Role, Tone: s.Tone})
		case drawing.Text:
			p.text(s)
		}
	}
	p.flush()
}

// flush hands the operators so far to fpdf.
func (p *page) flush() {
	if n := len(p.ops); n > 0 {
		p.pdf.RawWriteStr(string(p.ops[:n-1])) // it adds the last line end
		p.ops = p.ops[:0]
	}
}

func (p *page) stroke(s drawing.Stroke) {
	segments := s.Path.Segments()
	paint := p.look(s.Role, s.Tone, s.Path.Closed)
	if len(segments) == 0 || paint == "" {
		return
	}
	p.point(segments[0].From)
	p.op("m")
	for i, g := range segments {
		switch {
		case g.IsArc():
			p.arc(g)
		case s.Path.Closed && i == len(segments)-1:
			// Closing draws it.
		default:
			p.point(g.To)
			p.op("l")
		}
	}
	if s.Path.Closed {
		p.op("h")
	}
	p.op(paint)
}

// arc appends the curves of one arc. Control points lie on the end tangents at
//
//	k = (4/3) tan(d/4)
//
// radii from the ends, d the angle of one curve: the curve then meets the
// circle at its ends and middle (the usual construction; Goldapp, Computer
// Aided Geometric Design 8, 1991, from memory). A print correction maps the
// control points, and with them the curve.
func (p *page) arc(g geom.Segment) {
	c, r := g.Centre(), g.Radius()
	sweep := g.Sweep().Radians()
	n := int(math.Ceil(math.Abs(sweep)/maxStep(r) - 1e-9))
	step := sweep / float64(n)
	k := 4. / 3 * math.Tan(step/4)
	a := g.From.Sub(c)
	start := a.Direction()
	for i := range n {
		b := g.To.Sub(c)
		if i < n-1 {
			b = geom.Polar(r, start+geom.Angle(step*float64(i+1)))
		}
		p.point(c.Add(a).Add(a.Left().Mul(k)))
		p.point(c.Add(b).Sub(b.Left().Mul(k)))
		p.point(c.Add(b))
		p.op("c")
		a = b
	}
}

// maxStep returns the angle in rad of one Bézier curve at radius r mm: at most
// 30°, and small enough that the curve strays by less than bezierError. Its
// greatest radial error is, to leading order,
//
//	e = (2/27) r (d/4)⁶
func maxStep(r float64) float64 {
	return math.Min(math.Pi/6, 4*math.Pow(13.5*bezierError/r, 1./6))
}

// bezierError is the distance in mm that a curve may stray from its arc, a
// thousandth of a wide pen.
const bezierError = 0.0005

func (p *page) text(s drawing.Text) {
	at := p.place.Apply(s.At)
	s.Height *= p.place.Factor()
	switch w := s.Width(); s.Anchor {
	case drawing.Middle:
		at = at.Sub(geom.Polar(w/2, s.Angle))
	case drawing.Right:
		at = at.Sub(geom.Polar(w, s.Angle))
	}
	size := s.Height / lettering.CapHeight * perMM
	for run, core := range lettering.Runs(lettering.Lettered(s.Words)) {
		p.run(run, core, s.Bold, at, s.Angle, size)
		at = at.Add(geom.Polar(s.Face().Width(run), s.Angle))
	}
}

// run appends a piece of a line in one face, of a size in points.
func (p *page) run(words string, core, bold bool, at geom.Point, angle geom.Angle, size float64) {
	face := font{family: coreFamily}
	if !core {
		face.family = secondFamily
	}
	if bold {
		face.style = "B"
	}
	if p.face != face {
		// Let fpdf register the font and name it: size 1, because the matrix
		// carries the size, with all its decimals.
		p.flush()
		if !core {
			p.added.add(p.pdf, face.style)
		}
		p.pdf.SetFont(face.family, face.style, 1)
		p.face = face
	}
	p.ink(0)
	sin, cos := size*angle.Sin(), size*angle.Cos()
	matrix := [...]float64{cos, sin, -sin, cos, at.X * perMM, at.Y * perMM}
	if !core {
		// Only fpdf's own text says which letters the file must have of a font,
		// so that it sets them, at its origin, in a frame of ours.
		p.ops = append(p.ops, "q "...)
		for _, x := range matrix {
			p.number(x)
		}
		p.op("cm")
		p.flush()
		_, h := p.pdf.GetPageSize()
		p.pdf.Text(0, h, words)
		p.op("Q")
		return
	}
	p.ops = append(p.ops, "BT "...)
	for _, x := range matrix {
		p.number(x)
	}
	p.ops = append(p.ops, "Tm ("...)
	for _, r := range words {
		c, _ := lettering.Windows1252(r)
		if c == '(' || c == ')' || c == '\\' {
			p.ops = append(p.ops, '\\')
		}
		p.ops = append(p.ops, c)
	}
	p.op(") Tj ET")
}

// look sets pen and fill and returns the operator that paints the path, empty
// if there is nothing to see.
func (p *page) look(r drawing.Role, t drawing.Tone, closed bool) string {
	pen := drawing.PenOf(r)
	colour, filled := t.Colour()
	filled = filled && closed
	if filled {
		p.ink(colour)
	}
	switch {
	case pen.Width == 0 && filled:
		return "f"
	case pen.Width == 0:
		return ""
	}
	if !p.ready || p.pen != r {
		p.number(pen.Width * perMM)
		p.op("w")
		p.ops = append(p.ops, '[')
		for _, d := range pen.Dash {
			p.number(d * perMM)
		}
		p.op("] 0 d")
		p.colour(pen.Ink)
		p.op("RG")
		p.pen, p.ready = r, true
	}
	if filled {
		return "B"
	}
	return "S"
}

// ink sets the fill colour.
func (p *page) ink(c uint32) {
	if p.fill != c {
		p.colour(c)
		p.op("rg")
		p.fill = c
	}
}

func (p *page) colour(c uint32) {
	for shift := 16; shift >= 0; shift -= 8 {
		p.number(float64(c>>shift&0xFF) / 255)
	}
}

func (p *page) point(q geom.Point) {
	q = p.place.Apply(q)
	p.number(q.X * perMM)
	p.number(q.Y * perMM)
}

// number appends x and a space, without a sign on zero.
func (p *page) number(x float64) {
	if math.Abs(x) < 0.5e-4 {
		x = 0
	}
	p.ops = append(strconv.AppendFloat(p.ops, x, 'f', decimals, 64), ' ')
}

func (p *page) op(s string) {
	p.ops = append(append(p.ops, s...), '\n')
}

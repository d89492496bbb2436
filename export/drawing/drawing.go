// Package drawing is the one description of a drawing that every writer
// understands: a list of styled shapes in millimetres, y up, with true arcs.
//
// It knows lines, text and paper, and nothing of bending, of a file format or
// of where the drawing goes.
package drawing

import (
	"overbend/export/lettering"
	"overbend/geom"
)

// Role says what a shape means. A writer of cut files turns roles into layers;
// a writer of paper turns them into pens.
type Role uint8

// The first four roles go onto a cut file; the rest are for paper only, with
// the line types of ISO 128-2 (from memory).
const (
	CutOuter  Role = iota // outline to cut
	CutInner              // hole or opening to cut
	Mark                  // scribe or centre-punch line, not cut
	Note                  // writing, not cut
	Visible               // visible edge: wide, unbroken
	Thin                  // dimension, leader, hatching: narrow, unbroken
	Hidden                // hidden edge: narrow, dashed
	Centre                // centre line: narrow, long dash and dot
	Phantom               // other position, shape before forming: narrow, long dash and two dots
	Predicted             // computed shape beside the wanted one: narrow, short dashes
	Frame                 // border of a sheet: extra wide
	Fill                  // area tone without a line
	roleCount
)

// Tone is the flat tone that fills a closed shape. Tones differ in lightness
// as well as hue, so they stay apart on a black-and-white print.
type Tone uint8

// The tones, lightest first but for NoTone.
const (
	NoTone Tone = iota
	Paper       // white: covers what lies below
	Pale        // table heads, quiet grounds
	Filler      // filler metal in the bore
	Tube        // the tube being bent
	Block       // form block
	Steel       // strip, rollers, cheeks
	Dark        // small solid marks: arrowheads
	toneCount
)

// Stroke is a path drawn with a role's pen and, if closed, filled with a tone.
type Stroke struct {
	Path geom.Path
	Role Role
	Tone Tone
}

// Ring is a full circle drawn with a role's pen and filled with a tone.
type Ring struct {
	Circle geom.Circle
	Role   Role
	Tone   Tone
}

// Anchor says which point of a line of text lies at its position.
type Anchor uint8

// Anchors along the base line.
const (
	Left Anchor = iota
	Middle
	Right
)

// Text is one line of lettering. At is on the base line; Height is the height
// of capitals in mm (ISO 3098 h); Angle turns the base line counter-clockwise.
type Text struct {
	At     geom.Point
	Words  string
	Height float64
	Angle  geom.Angle
	Anchor Anchor
	Bold   bool
	Role   Role
}

// Shape is a Stroke, a Ring or a Text.
type Shape interface{ bounds() geom.Rect }

// Drawing is a list of shapes, drawn in order: later ones cover earlier ones.
type Drawing struct {
	// Title names the drawing in file metadata.
	Title string
	// Page is the sheet in mm when the drawing is made for one, lower left
	// corner at Min. An empty value (zero width) means: as large as the shapes.
	Page   geom.Rect
	Shapes []Shape
	// ScaleX and ScaleY correct a printer's error: a writer of paper multiplies
	// places on the sheet by them, about its middle (see [Drawing.Placement]).
	// 0 counts as 1. Pens keep their widths; the sheet keeps its size.
	ScaleX, ScaleY float64
}

// Add appends shapes.
func (d *Drawing) Add(s ...Shape) { d.Shapes = append(d.Shapes, s...) }

// Line adds an open run of straight lines.
func (d *Drawing) Line(r Role, pts ...geom.Point) {
	d.Add(Stroke{Path: geom.Lines(pts...), Role: r})
}

// Box adds a closed rectangle.
func (d *Drawing) Box(r Role, t Tone, b geom.Rect) {
	d.Add(Stroke{Path: b.Path(), Role: r, Tone: t})
}

// Bounds returns the box around all shapes; text counts with its estimated
// width (see [lettering.Face]).
func (d Drawing) Bounds() geom.Rect {
	box := geom.EmptyRect()
	for _, s := range d.Shapes {
		box = box.Union(s.bounds())
	}
	return box
}

// Sheet returns Page, or the bounds of the shapes when there is none.
func (d Drawing) Sheet() geom.Rect {
	if d.Page.Width() > 0 {
		return d.Page
	}
	return d.Bounds()
}

// Apply returns the drawing under t: shapes, lettering and page.
func (d Drawing) Apply(t geom.Transform) Drawing {
	out := Drawing{Title: d.Title, Shapes: make([]Shape, len(d.Shapes)), ScaleX: d.ScaleX, ScaleY: d.ScaleY}
	if d.Page.Width() > 0 {
		out.Page = d.Page.Path().Apply(t).Bounds()
	}
	for i, s := range d.Shapes {
		switch s := s.(type) {
		case Stroke:
			s.Path = s.Path.Apply(t)
			out.Shapes[i] = s
		case Ring:
			s.Circle = t.ApplyCircle(s.Circle)
			out.Shapes[i] = s
		case Text:
			// A mirrored drawing keeps its lettering readable: only the
			// position and the direction of the base line follow, and a base
			// line that would run right to left is read from its other end.
			dir := t.Apply(s.At.Add(geom.Polar(1, s.Angle))).Sub(t.Apply(s.At))
			if t.Mirrors() && dir.X < 0 {
				dir = dir.Mul(-1)
				switch s.Anchor {
				case Left:
					s.Anchor = Right
				case Right:
					s.Anchor = Left
				}
			}
			s.At, s.Angle, s.Height = t.Apply(s.At), dir.Direction(), s.Height*t.Factor()
			out.Shapes[i] = s
		}
	}
	return out
}

func (s Stroke) bounds() geom.Rect { return s.Path.Bounds() }
func (s Ring) bounds() geom.Rect   { return s.Circle.Bounds() }
func (s Text) bounds() geom.Rect   { return s.Bounds() }

// Bounds returns the box around the lettering, descenders included.
func (s Text) Bounds() geom.Rect {
	return s.Box().Bounds()
}

// Face returns the lettering's size and weight.
func (s Text) Face() lettering.Face { return lettering.Face{Height: s.Height, Bold: s.Bold} }

// Width returns how wide the lettering is, in mm.
func (s Text) Width() float64 { return s.Face().Width(s.Words) }

// Box returns the turned rectangle that the lettering fills, from descender to
// cap height.
func (s Text) Box() geom.Path {
	b := s.Face().Box(s.Words)
	switch s.Anchor {
	case Middle:
		b = b.Shift(geom.Pt(-b.Max.X/2, 0))
	case Right:
		b = b.Shift(geom.Pt(-b.Max.X, 0))
	}
	return b.Path().Apply(geom.Rotate(s.Angle).Then(geom.Translate(s.At)))
}

package sheet

import (
	"overbend/export/drawing"
	"overbend/geom"
)

// Sizes of dimensions, mm.
const (
	arrow   = drawing.ArrowLength
	past    = drawing.ExtensionPast
	aside   = drawing.ExtensionAside
	raise   = drawing.FigureRaise
	outward = drawing.ArrowTail
)

// dimension draws the distance from a to b on a line off mm to the left of it
// (to the right when negative).
func (l pen) dimension(d *drawing.Drawing, a, b geom.Point, off float64, figure string) {
	d.Add(drawing.Dimension{A: a, B: b, Off: off, Figure: figure, Height: l.h}.Shapes()...)
}

// dot ends a leader within the outline of what it names.
func dot(q geom.Point) drawing.Ring {
	return drawing.Ring{Circle: geom.Circle{Centre: q, Radius: 0.5}, Role: drawing.Fill, Tone: drawing.Dark}
}

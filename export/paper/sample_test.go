package paper

import (
	"fmt"

	"overbend/export/drawing"
	"overbend/geom"
)

// arcTemplate is a part that needs tiles: a bow of the given outer radius and
// angle, 40 mm deep, with straight ends, bolt holes, a hatched tone, a centre
// line and lettering. Its lower left corner is not at the origin, on purpose.
func arcTemplate(radius float64, angle geom.Angle) drawing.Drawing {
	var d drawing.Drawing
	d.Title = "template"
	const depth, leg = 40.0, 80.0
	from := 90*geom.Degree - angle/2
	c := geom.Pt(137, -radius)
	out := func(r float64, a geom.Angle) geom.Point { return c.Add(geom.Polar(r, a)) }
	tail := geom.Polar(leg, from-90*geom.Degree)
	lead := geom.Polar(leg, from+angle+90*geom.Degree)
	p := geom.Start(out(radius, from).Add(tail)).
		LineTo(out(radius, from)).
		ArcAbout(c, angle).
		LineTo(out(radius, from+angle).Add(lead)).
		LineTo(out(radius-depth, from+angle).Add(lead)).
		LineTo(out(radius-depth, from+angle)).
		ArcAbout(c, -angle).
		LineTo(out(radius-depth, from).Add(tail)).
		Close()
	d.Add(drawing.Stroke{Path: p, Role: drawing.CutOuter, Tone: drawing.Block})
	for i := range 5 {
		a := from + angle*geom.Angle(float64(i)+0.5)/5
		d.Add(drawing.Ring{Circle: geom.Circle{Centre: out(radius-depth/2, a), Radius: 6.5}, Role: drawing.CutInner, Tone: drawing.Paper})
	}
	mid := geom.Start(out(radius-depth/4, from)).ArcAbout(c, angle)
	d.Add(drawing.Stroke{Path: mid, Role: drawing.Centre})
	d.Line(drawing.Mark, out(radius-depth, from), out(radius, from))
	d.Line(drawing.Mark, out(radius-depth, from+angle), out(radius, from+angle))
	for i := range 5 {
		a := from + angle*geom.Angle(float64(i)+0.5)/5
		d.Add(drawing.Text{
			At: out(radius+8, a), Words: fmt.Sprintf("R %.0f at %.1f°", radius, a.Degrees()),
			Height: 3.5, Angle: a - 90*geom.Degree, Anchor: drawing.Middle, Role: drawing.Note,
		})
	}
	return d
}

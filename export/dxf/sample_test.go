package dxf_test

import (
	"math"

	"overbend/export/drawing"
	"overbend/geom"
)

// sampleRadius is the working radius of the sample block in mm.
const sampleRadius = 260.123

// sample is a small form block with everything that a file can hold: a working
// arc with tangent fillets, bolt holes, a slot, an opening whose arc exceeds a
// half circle, marks open and closed, lettering with signs outside ASCII. It
// lies off the origin.
func sample() drawing.Drawing {
	const half, crown, blend = 70.0, 60.0, 10.0
	centre := geom.Pt(0, crown-sampleRadius)
	// Internal tangency: the blend's centre lies blend inside the working arc.
	x := half - blend
	bc := geom.Pt(x, centre.Y+math.Sqrt((sampleRadius-blend)*(sampleRadius-blend)-x*x))
	up := bc.Sub(centre).Direction()
	left := geom.Pt(-bc.X, bc.Y)
	outline := geom.Start(geom.Pt(-half, 0)).
		LineTo(geom.Pt(half, 0)).
		LineTo(geom.Pt(half, bc.Y)).
		ArcAbout(bc, up).
		ArcAbout(centre, math.Pi-2*up).
		ArcAbout(left, up).
		Close()
	slot := geom.Start(geom.Pt(-6, 15)).
		LineTo(geom.Pt(6, 15)).
		BulgeTo(geom.Pt(6, 25), 1).
		LineTo(geom.Pt(-6, 25)).
		BulgeTo(geom.Pt(-6, 15), 1).
		Close()
	flatted := geom.Start(geom.Pt(-5, 32)).
		ArcTo(geom.Pt(5, 32), -270*geom.Degree).
		Close()

	d := drawing.Drawing{Title: "sample block"}
	d.Line(drawing.Mark, geom.Pt(0, 2), geom.Pt(0, 12))
	d.Add(drawing.Stroke{Path: geom.Start(geom.Pt(-30, 6)).ArcTo(geom.Pt(-20, 6), 40*geom.Degree).LineTo(geom.Pt(-20, 10)), Role: drawing.Mark})
	d.Box(drawing.Mark, drawing.NoTone, geom.Rect{Min: geom.Pt(20, 4), Max: geom.Pt(30, 10)})
	d.Add(drawing.Text{At: geom.Pt(30, 12), Words: "Ø13 at ±40 × 33°", Height: 3.5, Anchor: drawing.Right, Role: drawing.Mark})
	d.Add(drawing.Text{At: geom.Pt(-60, 44), Words: "R 260.123 für 40×40×3", Height: 3.5, Angle: 5 * geom.Degree, Role: drawing.Note})
	for _, x := range []float64{-45, 45} {
		for _, y := range []float64{20, 38} {
			d.Add(drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(x, y), Radius: 4.5}, Role: drawing.CutInner})
		}
	}
	d.Add(
		drawing.Stroke{Path: slot, Role: drawing.CutInner},
		drawing.Stroke{Path: flatted, Role: drawing.CutInner},
		drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(0, 12), Radius: 1}, Role: drawing.Mark},
		drawing.Stroke{Path: outline, Role: drawing.CutOuter, Tone: drawing.Block},
	)
	return d.Apply(geom.Translate(geom.Pt(-123.4, 56.7)))
}

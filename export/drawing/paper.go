package drawing

import (
	"fmt"
	"math"

	"overbend/geom"
)

// Placement maps a drawing onto its sheet of paper: x' = SX x + X and
// y' = SY y + Y, in mm from the sheet's lower left corner, y up.
//
// SX and SY differ when a printer's error is corrected; a circle is then an
// ellipse with half axes SX r and SY r along x and y.
type Placement struct{ SX, SY, X, Y float64 }

// Apply returns the place of q on the sheet.
func (p Placement) Apply(q geom.Point) geom.Point {
	return geom.Pt(p.SX*q.X+p.X, p.SY*q.Y+p.Y)
}

// Factor returns by how much lettering is scaled, the geometric mean of SX and
// SY.
func (p Placement) Factor() float64 { return math.Sqrt(p.SX * p.SY) }

// Placement returns the map from d to its sheet. The print correction works
// about the middle of the sheet, so that a printer that errs about any point
// moves the picture least against its margins.
func (d Drawing) Placement() Placement {
	sheet := d.Sheet()
	p := Placement{SX: d.ScaleX, SY: d.ScaleY}
	if p.SX == 0 {
		p.SX = 1
	}
	if p.SY == 0 {
		p.SY = 1
	}
	mid := sheet.Centre()
	p.X = sheet.Width()/2 - p.SX*mid.X
	p.Y = sheet.Height()/2 - p.SY*mid.Y
	return p
}

// MaxSheet is the largest sheet side in mm that a writer of paper takes: the
// 14,400 units of 1/72 in that a page of PDF may have.
const MaxSheet = 14400 * 25.4 / 72

// Check returns an error if d can't be put on paper: what [Drawing.CheckShapes] finds,
// a sheet over [MaxSheet] or a print correction that is not positive.
func (d Drawing) Check() error {
	if err := d.CheckShapes(); err != nil {
		return err
	}
	if sheet := d.Sheet(); sheet.Width() > MaxSheet || sheet.Height() > MaxSheet {
		return fmt.Errorf("drawing %q needs a sheet of %.0f x %.0f mm; at most %.0f mm a side is allowed",
			d.Title, sheet.Width(), sheet.Height(), MaxSheet)
	}
	for _, k := range []float64{d.ScaleX, d.ScaleY} {
		if !(k >= 0) || !finite(k) {
			return fmt.Errorf("drawing %q has a print correction of %g; a positive number is allowed", d.Title, k)
		}
	}
	return nil
}

// CheckShapes returns an error if d can't be drawn on paper of whatever size: a number
// that is not finite, no sheet at all, or an unknown role, tone or shape.
func (d Drawing) CheckShapes() error {
	for i, s := range d.Shapes {
		var ok bool
		var role Role
		var tone Tone
		switch s := s.(type) {
		case Stroke:
			ok, role, tone = finitePath(s.Path), s.Role, s.Tone
		case Ring:
			ok, role, tone = s.Circle.Centre.Finite() && finite(s.Circle.Radius), s.Role, s.Tone
		case Text:
			ok, role = s.At.Finite() && finite(s.Height) && finite(float64(s.Angle)), s.Role
		default:
			return fmt.Errorf("shape %d of drawing %q is a %T; a stroke, a ring or a text is allowed", i, d.Title, s)
		}
		if !ok {
			return fmt.Errorf("shape %d of drawing %q has a number that is not finite", i, d.Title)
		}
		if role >= roleCount || tone >= toneCount {
			return fmt.Errorf("shape %d of drawing %q has role %d and tone %d, which are not known", i, d.Title, role, tone)
		}
	}
	sheet := d.Sheet()
	if sheet.Empty() || !sheet.Min.Finite() || !sheet.Max.Finite() || !(sheet.Width() > 0 && sheet.Height() > 0) {
		return fmt.Errorf("drawing %q has no sheet: it needs a page or shapes that cover an area", d.Title)
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func finitePath(p geom.Path) bool {
	for _, v := range p.Vertices {
		if !v.Finite() || !finite(v.Bulge) {
			return false
		}
	}
	return true
}

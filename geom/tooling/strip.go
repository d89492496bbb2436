package tooling

import "overbend/geom"

// StripSpec describes the flat backing strip behind the outer side. Sizes in mm.
type StripSpec struct {
	Width, Thickness, Length float64
}

// StripLength returns how long a backing strip in mm must be to lie behind the
// tube under load: the outer arc, on both sides the leg as far as the support,
// and an overhang beyond each support.
func StripLength(outerArc, leg, overhang float64) float64 { return outerArc + 2*(leg+overhang) }

// NewStrip returns the strip as a rectangle from the origin along x, its middle
// scribed across.
func NewStrip(spec StripSpec) (Part, error) {
	if err := positive("strip", named{Width, spec.Width}, named{Thickness, spec.Thickness}, named{Length, spec.Length}); err != nil {
		return Part{}, err
	}
	p := Part{Name: "strip", Outline: geom.Rect{Max: geom.Pt(spec.Length, spec.Width)}.Path()}
	if spec.Width > 4*scribeGap {
		p.Marks = []geom.Path{geom.Lines(geom.Pt(spec.Length/2, scribeGap), geom.Pt(spec.Length/2, spec.Width-scribeGap))}
	}
	return p, nil
}

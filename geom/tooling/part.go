package tooling

import "overbend/geom"

// Part is one flat piece to be cut, with what is marked on it.
type Part struct {
	Name    string
	Outline geom.Path     // closed, counter-clockwise
	Holes   []geom.Circle // cut
	Drill   []geom.Circle // holes that the process can't cut: mark the centre and drill
	Marks   []geom.Path   // scribe lines, not cut
}

// Bounds returns the box around the outline.
func (p Part) Bounds() geom.Rect { return p.Outline.Bounds() }

// Area returns the area of plate in the part in mm²: the outline without what
// is cut out. A hole still to be drilled counts as plate.
func (p Part) Area() float64 {
	a := p.Outline.Area()
	for _, h := range p.Holes {
		a -= h.Area()
	}
	return a
}

// scribeGap is how far in mm a mark ends from a cut edge, so that no table
// takes it for part of the outline.
const scribeGap = 1.0

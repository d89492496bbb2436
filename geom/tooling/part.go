package tooling

import "overbend/geom"

// Part is one flat piece to be cut, with what is marked on it.
type Part struct {
	Name    string
	Outline geom.Path     // closed, counter-clockwise
	Holes   []geom.Circle // cut
	Drill   []geom.Circle // holes that the process can't cut: mark the centre and drill
	Marks   []geom.Path   // scribe lines, not cut
	Labels  []Label       // writing, not cut
}

// Label is one line of writing on a part. At is on the base line: its left
// end, or its middle if Middle is set.
type Label struct {
	At     geom.Point
	Words  string
	Height float64    // of capitals, mm
	Angle  geom.Angle // of the base line, counter-clockwise
	Middle bool
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

// Apply returns the part moved by t, a shift or a turn: under a mirror the
// outline would run clockwise and the writing backwards.
func (p Part) Apply(t geom.Transform) Part {
	out := Part{Name: p.Name, Outline: p.Outline.Apply(t)}
	for _, h := range p.Holes {
		out.Holes = append(out.Holes, t.ApplyCircle(h))
	}
	for _, h := range p.Drill {
		out.Drill = append(out.Drill, t.ApplyCircle(h))
	}
	for _, m := range p.Marks {
		out.Marks = append(out.Marks, m.Apply(t))
	}
	for _, l := range p.Labels {
		at := t.Apply(l.At)
		l.Angle = t.Apply(l.At.Add(geom.Polar(1, l.Angle))).Sub(at).Direction()
		l.At = at
		out.Labels = append(out.Labels, l)
	}
	return out
}

// scribeGap is how far in mm a mark ends from a cut edge, so that no table
// takes it for part of the outline.
const scribeGap = 1.0

package dxf

import (
	"fmt"

	"overbend/export/drawing"
	"overbend/geom"
)

// contour is a closed path that is cut; no segment exceeds a half circle.
type contour struct {
	label
	path     geom.Path
	segments []geom.Segment
	box      geom.Rect
}

// lintContours checks how contours lie to each other: outlines apart, each
// hole inside exactly one outline, holes apart.
func lintContours(contours []contour) error {
	for i, a := range contours {
		around := 0
		for j, b := range contours {
			if i == j || !a.box.Overlaps(b.box, touching) {
				continue
			}
			if i < j && a.touches(b) {
				return fmt.Errorf("%v and %v touch or cross", a.label, b.label)
			}
			if !b.holds(a) {
				continue
			}
			if a.role == b.role || a.role == drawing.CutOuter {
				return fmt.Errorf("%v lies inside %v", a.label, b.label)
			}
			around++
		}
		if a.role == drawing.CutInner && around != 1 {
			return fmt.Errorf("%v lies inside no outline", a.label)
		}
	}
	return nil
}

// holds reports whether d, which does not touch c, lies inside c: one point of d
// tells for all of it.
func (c contour) holds(d contour) bool {
	p, _ := d.segments[0].At(0.38)
	return c.path.Contains(p)
}

// touches reports whether the contours come closer than touching.
func (c contour) touches(d contour) bool {
	for _, s := range c.segments {
		box := s.Hull()
		if !box.Overlaps(d.box, touching) {
			continue
		}
		for _, t := range d.segments {
			if meet(s, t) {
				return true
			}
		}
	}
	return false
}

// meet reports whether s and t come closer than touching. It cuts the longer
// in half until the boxes part or both pieces are of that size; it thereby
// needs no cases for lines and arcs.
func meet(s, t geom.Segment) bool {
	if !s.Hull().Overlaps(t.Hull(), touching) {
		return false
	}
	cs, ct := s.Chord(), t.Chord()
	if cs < touching && ct < touching {
		return s.From.Lerp(s.To, 0.5).Dist(t.From.Lerp(t.To, 0.5)) < touching
	}
	if cs < ct {
		s, t = t, s
	}
	a, b := s.Halves()
	return meet(a, t) || meet(b, t)
}

package tooling

import (
	"fmt"

	"overbend/geom"
)

// Compensate returns the part's cutter path for a cut kerf mm wide: the outline
// moved outwards by half the kerf and holes inwards, exactly (see
// [geom.Path.Offset]). Marks and holes to drill stay. A part must be
// compensated once, here or at the table.
//
// A [*SizeError] names the hole that is no wider than the kerf. A concave
// corner that the cut can't follow is an error that wraps [geom.ErrOffset].
func Compensate(p Part, kerf float64) (Part, error) {
	if !(kerf >= 0) || kerf > mostSize {
		return Part{}, &SizeError{Part: p.Name, Dimension: Kerf, Value: kerf, Why: KerfNoWidth}
	}
	if kerf == 0 {
		return p, nil
	}
	outline, err := p.Outline.Offset(kerf / 2)
	if err != nil {
		return Part{}, fmt.Errorf("tooling: %s: kerf %g: %w", p.Name, kerf, err)
	}
	p.Outline = outline
	holes := make([]geom.Circle, len(p.Holes))
	for i, h := range p.Holes {
		if holes[i], err = h.Offset(-kerf / 2); err != nil {
			return Part{}, &SizeError{Part: p.Name, Dimension: Kerf, Value: kerf, Why: KerfAboveHole, Facts: Facts{Hole: 2 * h.Radius}}
		}
	}
	p.Holes = holes
	return p, nil
}

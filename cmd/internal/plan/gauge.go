package plan

import (
	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/geom/tooling"
)

// Hollow is how a finished bend's radius is gauged: a straightedge held in its
// hollow, and the gap under its middle.
type Hollow struct {
	Edge float64 // length of the straightedge, mm
	Gap  float64 // mm
	// Least and Most are the centreline radii, mm, between which a gap misread by
	// the default error can't tell; Most is 0 where it can't tell from straight.
	Least, Most float64
}

// Gauge returns how to gauge the finished radius with the longest straightedge
// that fits the hollow and is round in the units; false when none fits.
func (p *Plan) Gauge(u quantity.Units) (Hollow, bool) {
	j := p.Job
	rises := tooling.Rises(j.Bend.Inside(j.Tube.Depth), j.Bend.Angle, u == quantity.Inches)
	if len(rises) == 0 {
		return Hollow{}, false
	}
	last := rises[len(rises)-1]
	h := Hollow{Edge: last.Chord, Gap: last.Rise}
	radius := func(rise float64) float64 {
		r, _ := geom.RadiusFromChordRise(h.Edge, rise)
		return r + j.Tube.Depth/2
	}
	miss := job.RuleError(u)
	h.Least = radius(h.Gap + miss)
	if h.Gap > miss {
		h.Most = radius(h.Gap - miss)
	}
	return h, true
}

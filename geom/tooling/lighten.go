package tooling

import (
	"math"

	"overbend/geom"
)

const (
	leastWeb     = 10.0 // plate left round an opening, mm
	leastOpening = 25.0 // diameter worth piercing for, mm
	mostPairs    = 12
	markRoom     = 2.0 // from an opening to marks, mm
)

// openings returns pairs of round openings, the same in every layer, largest first.
// Each leaves the web to edges, bolt holes and other openings, keeps one depth
// from the working arc, and leaves a column one depth wide (or a web, if that
// is more) solid under the ram.
func (b *Block) openings() []geom.Circle {
	low := b.Layers[0].body
	column := max(b.Depth, b.Web) / 2
	var openings []geom.Circle
	var marks []geom.Segment
	for _, l := range b.Layers {
		for _, m := range b.marks(l.Radius) {
			marks = append(marks, m.Segments()...)
		}
	}
	// room returns the largest radius of an opening about p, right of the middle.
	room := func(p geom.Point) float64 {
		r := min(low.clearance(p)-b.Web, p.Y-low.back-b.Web, p.X-column)
		// The arc's nearest point, or its end for what lies past it.
		arc := low.radius - p.Norm()
		if end := toward(low.half); p.Cross(end) >= 0 {
			arc = p.Dist(end.Mul(low.radius))
		}
		r = min(r, arc-b.Depth)
		for _, set := range [2][]geom.Circle{b.Bolts, openings} {
			for _, h := range set {
				r = min(r, p.Dist(h.Centre)-h.Radius-b.Web)
			}
		}
		for _, m := range marks {
			r = min(r, m.Nearest(p).Dist(p)-markRoom)
		}
		return r
	}
	for range mostPairs {
		at, r := roomiest(room, geom.Rect{Min: geom.Pt(column, low.back), Max: geom.Pt(low.side, low.radius)})
		if r = math.Floor(r*2) / 2; 2*r < max(leastOpening, b.Opening) {
			break
		}
		openings = append(openings, geom.Circle{Centre: at, Radius: r}, geom.Circle{Centre: geom.Pt(-at.X, at.Y), Radius: r})
	}
	return openings
}

// roomiest returns the point of box with the largest room, and that room:
// the best of a grid, then a search in ever smaller steps.
func roomiest(room func(geom.Point) float64, box geom.Rect) (geom.Point, float64) {
	const n = 24
	step := max(box.Width(), box.Height()) / n
	best, most := box.Centre(), math.Inf(-1)
	try := func(p geom.Point) bool {
		r := room(p)
		if r <= most {
			return false
		}
		best, most = p, r
		return true
	}
	for y := box.Min.Y + step/2; y < box.Max.Y; y += step {
		for x := box.Min.X + step/2; x < box.Max.X; x += step {
			try(geom.Pt(x, y))
		}
	}
	for ; step > 0.01; step /= 2 {
		for moved := true; moved; {
			moved = false
			for _, d := range [...]geom.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {X: 1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: -1, Y: -1}} {
				moved = try(best.Add(d.Mul(step))) || moved
			}
		}
	}
	return best, most
}

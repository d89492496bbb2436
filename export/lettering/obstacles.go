package lettering

import "overbend/geom"

// Obstacles are what lettering keeps clear of, in the order in which it was
// added.
type Obstacles []Obstacle

// Obstacle is a line as wide as its pen, or a box with all that is in it.
type Obstacle struct {
	box  geom.Rect // holds it
	line bool
	path geom.Segment // of a line
	half float64      // of a line's width, mm
}

// Line adds a path drawn with a pen width mm wide.
func (o *Obstacles) Line(p geom.Path, width float64) {
	for _, s := range p.Segments() {
		*o = append(*o, Obstacle{s.Hull().Grow(width / 2), true, s, width / 2})
	}
}

// Box adds a box into which nothing may reach.
func (o *Obstacles) Box(b geom.Rect) { *o = append(*o, Obstacle{box: b}) }

// Clear reports whether a box keeps gap mm off all of them, upright and level.
func (o Obstacles) Clear(b geom.Rect, gap float64) bool {
	// What lies just the gap away is clear.
	b = b.Grow(gap - geom.Coincident)
	for _, x := range o {
		if x.box.Overlaps(b, 0) && (!x.line || x.path.Enters(b.Grow(x.half))) {
			return false
		}
	}
	return true
}

// Apply returns the obstacles under a shift or a turn, for lettering with a
// slanting base line. Of a box it is the box around it that turns.
func (o Obstacles) Apply(t geom.Transform) Obstacles {
	out := make(Obstacles, len(o))
	for i, x := range o {
		if x.line {
			x.path = x.path.Apply(t)
			x.box = x.path.Hull().Grow(x.half)
		} else {
			x.box = x.box.Path().Apply(t).Bounds()
		}
		out[i] = x
	}
	return out
}

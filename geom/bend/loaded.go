package bend

import (
	"math"

	"overbend/geom"
)

// LoadedLine returns the centreline under load in a state of this press, one
// half of it: crown at the origin, bending upwards to the right, over the arc
// that lies on the block and down the leg as short arcs to the roller contact.
// Beyond it the tube is straight, in the direction s.Slope.
func (p *Press) LoadedLine(s State) geom.Path {
	if s.Crown == 0 {
		return geom.Start(geom.Point{}).LineTo(geom.Pt(s.Leg, 0))
	}
	c := p.curveOf(s)
	stops := []stop{{}}
	if s.Wrap > 0 {
		stops = append(stops, onArc(c.kp, float64(s.Wrap)/c.kp))
	}
	stops, end := c.walk(stops, s.Leg, 0, func(n *node) float64 { return n.a }, c.slope)
	end.dir = float64(s.Slope)
	return arcs(append(stops, end))
}

// curveOf returns the leg below the crown of a state of this press.
func (p *Press) curveOf(s State) legCurve {
	if s.Wrap == 0 {
		return p.loads.below(s.Crown)
	}
	return p.curve
}

// stop is a place on a half centreline and the direction there in radians.
type stop struct {
	at  geom.Point
	dir float64
}

// onArc returns the stop at a length in mm along an arc of curvature k, 1/mm,
// from the crown. The chord is 2 sin(turn/2)/k at half the turn; the arc itself
// when k is 0.
func onArc(k, length float64) stop {
	turn, chord := length*k, length
	if turn != 0 {
		chord = 2 * math.Sin(turn/2) / k
	}
	return stop{geom.Polar(chord, geom.Angle(turn/2)), turn}
}

// sliver is the length in mm below which a piece of leg is not worth its own
// arc.
const sliver = 0.05

// walk goes down a leg of l mm from the last of the stops, panel by panel, the
// position at every node by the panel's own running integral. turned gives the
// slope gained at a node since the tangent point and whole the same at the
// roller, both per mm of leg. It returns the stops so far, none nearer to the
// one before than a sliver, and where the leg ends: at the roller, or where no
// more than straight radians of turn are left to come.
func (c *legCurve) walk(stops []stop, l, straight float64, turned func(*node) float64, whole float64) ([]stop, stop) {
	start := stops[len(stops)-1]
	last, end := start, start
leg:
	for b := len(c.nodes) - order; b >= 0; b -= order {
		panel := c.nodes[b : b+order]
		var across geom.Point // from the panel's tangent end to its roller end
		var cs [order]geom.Point
		for j := range panel {
			n := &panel[j]
			sin, cos := math.Sincos(start.dir + l*turned(n))
			cs[j] = geom.Pt(cos, sin).Mul(l * n.w / gaussW[j])
			across = across.Add(cs[j].Mul(gaussW[j]))
		}
		top := end.at
		for j := order - 1; j >= 0; j-- {
			var below geom.Point // from the panel's roller end to node j
			for m := range order {
				below = below.Add(cs[m].Mul(cumulative[j][m]))
			}
			end.at = top.Add(across).Sub(below)
			turn := l * turned(&panel[j])
			if l*(whole-turned(&panel[j])) < straight {
				break leg
			}
			if end.at.Dist(last.at) >= sliver {
				last = stop{end.at, start.dir + turn}
				stops = append(stops, last)
			}
		}
		end.at = top.Add(across)
	}
	end.dir = start.dir + l*whole
	if len(stops) > 1 && end.at.Dist(last.at) < sliver {
		stops = stops[:len(stops)-1]
	}
	return stops, end
}

// arcs returns the path of arcs that are tangent at every stop.
func arcs(stops []stop) geom.Path {
	p := geom.Path{Vertices: make([]geom.Vertex, len(stops))}
	for i, t := range stops {
		p.Vertices[i].Point = t.at
		if i > 0 {
			p.Vertices[i-1].Bulge = math.Tan((t.dir - stops[i-1].dir) / 4)
		}
	}
	return p
}

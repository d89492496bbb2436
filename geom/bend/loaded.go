package bend

import (
	"math"
	"slices"

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
	if s.HalfWrap > 0 {
		stops = append(stops, onArc(c.kp, float64(s.HalfWrap)/c.kp))
	}
	stops, end := c.walk(stops, s.Arm, 0, func(n *node) float64 { return n.k })
	end.dir = float64(s.Slope)
	return arcs(append(stops, end))
}

// curveOf returns the leg below the crown of a state of this press.
func (p *Press) curveOf(s State) legCurve {
	if s.HalfWrap == 0 {
		return p.loads.below(s.Crown, nil)
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

// walk goes down a leg with a lever arm in mm from the last of the stops, panel
// by panel, direction and position at every node by the panel's own running
// integrals. bent gives the curvature at a node. It returns the stops so far,
// none nearer to the one before than a sliver, and where the leg ends: at the
// roller, or where no more than straight radians of turn are left to come.
func (c *legCurve) walk(stops []stop, arm, straight float64, bent func(*node) float64) ([]stop, stop) {
	weights := cumulative()
	stops = slices.Grow(stops, len(c.nodes))
	left := 0.0 // turn to come
	for i := range c.nodes {
		left += bent(&c.nodes[i]) * c.nodes[i].pace(arm)
	}
	end := stops[len(stops)-1]
	last := end
leg:
	for b := len(c.nodes) - order; b >= 0; b -= order {
		panel := c.nodes[b : b+order]
		var ds, turn [order]float64 // per unit of weight
		var steps [order]geom.Point // the same
		whole := 0.0
		for j := range panel {
			ds[j] = panel[j].pace(arm) / gaussW[j]
			turn[j] = bent(&panel[j]) * ds[j]
			whole += gaussW[j] * turn[j]
		}
		top := end
		for j := range panel {
			dir := top.dir + whole - running(&weights[j], &turn)
			sin, cos := math.Sincos(dir)
			steps[j] = geom.Pt(cos, sin).Mul(ds[j])
			end.at = end.at.Add(steps[j].Mul(gaussW[j]))
		}
		for j := order - 1; j >= 0; j-- {
			var below geom.Point // from the panel's roller end to node j
			for m := range order {
				below = below.Add(steps[m].Mul(weights[j][m]))
			}
			here := stop{end.at.Sub(below), top.dir + whole - running(&weights[j], &turn)}
			if left-(here.dir-top.dir) < straight {
				end.at = here.at
				break leg
			}
			if here.at.Dist(last.at) >= sliver {
				last = here
				stops = append(stops, last)
			}
		}
		end.dir += whole
		left -= whole
	}
	if len(stops) > 1 && end.at.Dist(last.at) < sliver {
		stops = stops[:len(stops)-1]
	}
	return stops, end
}

// running returns the integral from a panel's lower end to a node of values
// given at its nodes, in units of half the panel, by that node's weights.
func running(weights, values *[order]float64) float64 {
	sum := 0.0
	for m := range order {
		sum += weights[m] * values[m]
	}
	return sum
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

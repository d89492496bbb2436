package tooling

import (
	"math"

	"overbend/geom"
)

// body is the shape that form block layers and cheeks share: a working arc
// about the origin, at each end a tangent fillet, vertical sides and a flat
// back. Where the sides must stand further out than the fillets bring them, a
// straight flank falls away from the fillet at a steeper slope than the tube's
// leg and a second fillet turns it into the side.
//
//	      ___---R---___
//	    /(              )\        fillet b
//	   /                  \       flank, falling at angle f
//	 /b                    \b     second fillet
//	|                        |    side
//	|________________________|    back
//
// Every joint but the two at the back is tangent and the whole is convex: no
// edge can touch the tube, and an offset never closes anything.
type body struct {
	radius float64    // working arc
	half   geom.Angle // from the crown to an end of the arc
	blend  float64    // fillets
	fall   geom.Angle // of the flank below the horizontal; 90° without one
	flank  float64    // length of the flank; 0 without one
	side   float64    // x of the right side
	back   float64    // y of the back

	// Found once, as clearance asks for them often: outward normals at the arc's
	// end and on the flank, centres of the upper and the lower right-hand fillet.
	// Without a flank the two are one.
	end, slope   geom.Point
	upper, lower geom.Point
}

// shortFlank is the length in mm below which a flank isn't worth cutting: the
// fillet is made larger instead.
const shortFlank = 1.0

// newBody returns the body with sides at side, or where the fillets bring them
// if that is further out. When there is no room for a flank between the leg's
// slope and the vertical the sides stay where the fillets bring them.
func newBody(radius float64, half geom.Angle, blend, side, back float64) body {
	b := body{radius: radius, half: half, blend: blend, fall: quarter, back: back}
	b.side = b.natural()
	fall := max(half+leastFall, (half+quarter)/2)
	switch out := side - b.side; {
	case out < 1e-9 || fall > mostFall:
	case out/fall.Cos() < shortFlank:
		b.blend += out / (1 - half.Sin())
		b.side = side
	default:
		b.fall, b.flank, b.side = fall, out/fall.Cos(), side
	}
	b.end, b.slope = toward(half), toward(b.fall)
	b.upper = b.end.Mul(radius - b.blend)
	b.lower = b.upper.Add(geom.Pt(b.slope.Y, -b.slope.X).Mul(b.flank))
	return b
}

const quarter = 90 * geom.Degree

// leastFall is by how much a flank is steeper than the tube's leg, at least:
// the leg's own yielded tail bends it by a few degrees past the arc's end.
// mostFall keeps a flank from running down beside the leg for ever.
const (
	leastFall = 15 * geom.Degree
	mostFall  = 80 * geom.Degree
)

// natural returns the x to which fillets alone bring the sides.
func (b body) natural() float64 { return b.radius*b.half.Sin() + b.blend*(1-b.half.Sin()) }

// toward returns the unit vector at angle a from the y axis, clockwise.
func toward(a geom.Angle) geom.Point { return geom.Pt(a.Sin(), a.Cos()) }

// shoulder returns the y at which the straight side begins.
func (b body) shoulder() float64 { return b.lower.Y }

// outline returns the closed counter-clockwise outline, starting at the back's
// left corner.
func (b body) outline() geom.Path {
	bulge := func(sweep geom.Angle) float64 { return (sweep / 4).Tan() }
	v := make([]geom.Vertex, 0, 12)
	add := func(p geom.Point, bulge float64) { v = append(v, geom.Vertex{Point: p, Bulge: bulge}) }
	first, second := bulge(b.fall-b.half), bulge(quarter-b.fall)
	a, c, d := b.end.Mul(b.radius), b.upper.Add(b.slope.Mul(b.blend)), b.lower.Add(b.slope.Mul(b.blend))
	add(geom.Pt(-b.side, b.back), 0)
	add(geom.Pt(b.side, b.back), 0)
	if b.flank > 0 {
		add(geom.Pt(b.side, b.lower.Y), second)
		add(d, 0)
		add(c, first)
	} else {
		add(geom.Pt(b.side, b.upper.Y), first)
	}
	add(a, bulge(2*b.half))
	add(geom.Pt(-a.X, a.Y), first)
	if b.flank > 0 {
		add(geom.Pt(-c.X, c.Y), 0)
		add(geom.Pt(-d.X, d.Y), second)
		add(geom.Pt(-b.side, b.lower.Y), 0)
	} else {
		add(geom.Pt(-b.side, b.upper.Y), 0)
	}
	return geom.Path{Vertices: v, Closed: true}
}

// offset returns the body grown by d on all but the back. Only radii change:
// centres, slopes and the flank's length stay.
func (b body) offset(d float64) body {
	b.radius += d
	b.blend += d
	b.side += d
	return b
}

// clearance returns how far p lies inside the sides, flanks, fillets and arc,
// the back left out, in mm; negative outside. As the body is convex this is
// the least distance over its supporting lines: those of side and flank, the
// tangent at the arc's end, and of an arc the one that p's own ray meets.
func (b *body) clearance(p geom.Point) float64 {
	p.X = math.Abs(p.X)
	// beyond reports whether v points further from the y axis than u.
	beyond := func(v, u geom.Point) bool { return v.Cross(u) >= 0 }
	c := min(b.side-p.X, b.radius-p.Dot(b.end))
	if !beyond(p, b.end) {
		c = min(c, b.radius-p.Norm())
	}
	q := p.Sub(b.upper)
	if beyond(q, b.end) && !beyond(q, b.slope) {
		c = min(c, b.blend-q.Norm())
	}
	if b.flank > 0 {
		q = p.Sub(b.lower)
		c = min(c, b.blend-q.Dot(b.slope))
		if beyond(q, b.slope) && q.Y >= 0 && q.X >= 0 {
			c = min(c, b.blend-q.Norm())
		}
	}
	return c
}

package bend

import (
	"math"

	"overbend/geom"
	"overbend/profiles"
)

// outlineSteps is how many straight pieces a drawn outline has on either side, its
// corners apart.
const outlineSteps = 48

// Outlines returns the section as a bend left it in state a (see [Deform]), in mm:
// across the bend plane x, from the straight tube's mid-depth y, the outside of the
// bend up. It is the section that [Remain] sums up, as polygons whose sides leave
// it by far less than a line is wide. The bore is empty where the walls fill it. An
// unbent section comes back as it was.
func Outlines(s profiles.Section, a After) (outer, bore geom.Path) {
	o := bentSolid{solid: s.Outer(), top: s.Depth / 2, bottom: -s.Depth / 2}
	// The stretch grows with the height by 1/neutral: its two ends give the radii.
	if turn := a.OuterStrain - a.InnerStrain; turn > 0 {
		o.neutral = s.Depth / turn
		o.mid = o.neutral + a.NeutralAxis
	} else {
		o.mid, o.neutral = math.MaxFloat64/4, math.MaxFloat64/4
	}
	if s.Shape == profiles.Round {
		return o.disc(0), o.disc(s.Wall)
	}
	b := o
	b.solid = s.Bore()
	b.top -= a.OuterWall
	b.bottom += a.InnerWall
	if a.OuterWall == 0 { // unbent
		b.top, b.bottom = o.top-s.Wall, o.bottom+s.Wall
	}
	if b.top <= b.bottom {
		return o.box(), geom.Path{}
	}
	return o.box(), b.box()
}

// disc returns the outline that lies depth mm inside of a round one.
func (d bentSolid) disc(depth float64) geom.Path {
	h := d.solid.Depth / 2
	var half []geom.Point
	for i := range outlineSteps + 1 {
		sin, cos := math.Sincos(math.Pi * (float64(i)/outlineSteps - 0.5))
		k := d.shrink(h * sin)
		half = append(half, geom.Pt(k*(h-depth)*cos, (h-depth*k)*sin))
	}
	return mirrored(half)
}

// box returns the outline of a rectangle with rounded corners.
func (d bentSolid) box() geom.Path {
	corner := min(d.solid.Corner, (d.top-d.bottom)/2)
	at := func(y, in float64) geom.Point { return geom.Pt(d.solid.Width/2*d.shrink(y)-in, y) }
	var half []geom.Point
	const quarter = outlineSteps / 4
	turn := func(i int) (in, up float64) {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / quarter)
		return corner * (1 - sin), corner * (1 - cos)
	}
	if corner == 0 {
		half = append(half, at(d.bottom, 0))
	} else {
		for i := range quarter + 1 {
			in, up := turn(i)
			half = append(half, at(d.bottom+up, in))
		}
	}
	for i := 1; i < outlineSteps/2; i++ {
		half = append(half, at(d.bottom+corner+(d.top-d.bottom-2*corner)*float64(i)/(outlineSteps/2), 0))
	}
	if corner == 0 {
		return mirrored(append(half, at(d.top, 0)))
	}
	for i := quarter; i >= 0; i-- {
		in, up := turn(i)
		half = append(half, at(d.top-up, in))
	}
	return mirrored(half)
}

// mirrored closes a right half, from the bottom up, with its mirror image.
func mirrored(half []geom.Point) geom.Path {
	p := geom.Path{Closed: true}
	for _, q := range half {
		p.Vertices = append(p.Vertices, geom.Vertex{Point: q})
	}
	for i := len(half) - 1; i >= 0; i-- {
		if half[i].X > geom.Coincident {
			p.Vertices = append(p.Vertices, geom.Vertex{Point: geom.Pt(-half[i].X, half[i].Y)})
		}
	}
	return p
}

package geom

import (
	"math"
	"testing"
)

// A spiral of 80 short arcs, as a tail beyond a bend is, coarsened.
func TestCoarsen(t *testing.T) {
	at, dir := Pt(0, 0), 0.0
	fine := Start(at)
	for i := range 80 {
		k := (1 - float64(i)/80) / 400 // curvature falls to nothing
		const step = 1.0
		turn := k * step
		at = at.Add(Polar(step, Angle(dir+turn/2)))
		fine = fine.ArcTo(at, Angle(turn))
		dir += turn
	}
	coarse := fine.Coarsen(8)
	if n := len(coarse.Vertices); n > 12 {
		t.Errorf("%d vertices left of %d", n, len(fine.Vertices))
	}
	if coarse.Vertices[0].Point != fine.Vertices[0].Point || coarse.End() != fine.End() {
		t.Error("the ends moved")
	}
	for _, v := range fine.Vertices {
		if d := coarse.Distance(v.Point); d > 2e-3 {
			t.Errorf("%v lies %g mm off", v.Point, d)
		}
	}
	sum := func(p Path) (a float64) {
		for _, s := range p.Segments() {
			a += float64(s.Sweep())
		}
		return a
	}
	if a, b := sum(fine), sum(coarse); math.Abs(a-b) > 1e-12 {
		t.Errorf("turn %g, want %g", b, a)
	}
	closed := Path{[]Vertex{{Pt(0, 0), 0}, {Pt(1, 0), 0}, {Pt(0, 1), 0}}, true}
	if got := closed.Coarsen(10); len(got.Vertices) != 3 {
		t.Errorf("a closed path came back with %d vertices", len(got.Vertices))
	}
}

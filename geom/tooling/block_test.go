package tooling

import (
	"errors"
	"math"
	"testing"

	"overbend/geom"

	"pgregory.net/rapid"
)

func TestBlockProperties(t *testing.T) {
	var made, widened, flanked, opened, round int
	rapid.Check(t, func(t *rapid.T) {
		spec := drawBlock(t)
		b, err := NewBlock(spec)
		if err != nil {
			var size *SizeError
			if !errors.As(err, &size) || size.Least == 0 && size.Most == 0 {
				t.Fatalf("%v: want a *SizeError with a limit", err)
			}
			return
		}
		made++
		if outer := b.Layers[len(b.Layers)-1].body; outer.side > outer.natural() || outer.blend > b.Blend {
			widened++
		}
		if len(b.Openings) > 0 {
			opened++
		}
		d := b.Hole
		if spec.Hole > 0 && d != spec.Hole || spec.Hole == 0 && d != 13 {
			t.Fatalf("hole %g, asked for %g", d, spec.Hole)
		}
		n := 0
		for i, l := range b.Layers {
			checkOutline(t, l.Part)
			checkSymmetric(t, l.Part)
			n += l.Count
			if spec.Round && i > 0 {
				round++
			}
			if l.body.flank > 0 {
				flanked++
			}
			// All joints tangent but the two at the back, and convex.
			for k, turn := range turns(l.Part.Outline) {
				want := 0.0
				if k < 2 {
					want = math.Pi / 2
				}
				if !near(turn, want, 1e-9) {
					t.Fatalf("layer %d turns by %g at vertex %d, want %g", i, turn, k, want)
				}
			}
			// Bolts: distance to the edge, between each other, the same in all.
			bolts := b.Bolts
			if len(bolts) < 2 || len(l.Part.Holes) != len(bolts)+len(b.Openings) {
				t.Fatalf("%d bolts and %d openings in %d holes", len(bolts), len(b.Openings), len(l.Part.Holes))
			}
			for k, h := range bolts {
				if h != l.Part.Holes[k] || h.Radius != d/2 {
					t.Fatalf("layer %d has bolt %v, the block %v", i, l.Part.Holes[k], h)
				}
				if e := l.Part.Outline.Distance(h.Centre); e < 1.5*d-1e-6 {
					t.Fatalf("bolt %v is %g from the edge of layer %d, want %g", h, e, i, 1.5*d)
				}
				for _, g := range bolts[:k] {
					if e := h.Centre.Dist(g.Centre); e < 3*d-1e-6 {
						t.Fatalf("bolts are %g apart, want %g", e, 3*d)
					}
				}
			}
			// No edge touches the tube: all of it lies under the straight leg, and
			// a widened body's shoulder well under it.
			leg := toward(b.HalfAngle)
			for _, q := range polygon(l.Part.Outline, 16) {
				if q.Norm() > l.Radius+1e-9 && math.Abs(q.X)*leg.Y < q.Y*leg.X {
					t.Fatalf("layer %d stands out of its arc at %v", i, q)
				}
				if over := geom.Pt(math.Abs(q.X), q.Y).Dot(leg) - l.Radius; over > 1e-9 {
					t.Fatalf("layer %d reaches %g into the leg at %v", i, over, q)
				}
			}
			if l.body.flank > 10 {
				shoulder := geom.Pt(l.body.side, l.body.shoulder())
				if under := l.Radius - shoulder.Dot(leg); under < 3 {
					t.Fatalf("the widened side is %g below the leg, want 3", under)
				}
			}
			if s := l.body.shoulder() - b.Back; s < straightSide-1e-6 {
				t.Fatalf("the straight side of layer %d is %g, want %g", i, s, straightSide)
			}
		}
		if want, _ := Layers(spec.Gap, spec.Plate); n != want || len(b.LayerRadii) != want {
			t.Fatalf("%d plates in the layers, %d radii, want %d", n, len(b.LayerRadii), want)
		}

		c, err := b.Cheek(0)
		if err != nil {
			if spec.Depth > 10 {
				t.Fatal(err)
			}
			return
		}
		checkOutline(t, c)
		checkSymmetric(t, c)
		outer := b.Layers[len(b.Layers)-1]
		depth := b.Depth/2 - (outer.Radius - b.Radius)
		full := outer.Part.Outline
		for _, q := range polygon(c.Outline, 8) {
			// The back is flush: below its level there is nothing to offset from.
			if got := full.Distance(q); q.Y > b.Back+1e-9 && math.Abs(q.X) > 0 && !near(got, depth, 1e-8) && q.Y > outer.body.shoulder()-1e-9 {
				t.Fatalf("the cheek's edge at %v is %.12g from the block's, want %g", q, got, depth)
			}
		}
		for _, q := range polygon(full, 8) {
			if q.Y > b.Back+1e-9 && !c.Outline.Contains(q) && depth > 1e-6 {
				t.Fatalf("the block's %v lies outside the cheek", q)
			}
		}
	})
	t.Logf("made %d, widened %d, layers with a flank %d, lightened %d, outer layers %d", made, widened, flanked, opened, round)
	if made < 20 || widened == 0 || flanked == 0 || opened == 0 || round == 0 {
		t.Error("the draws miss a kind of block: the test says too little")
	}
}

// TestBlockArea compares with the integral under the top edge, set up from the
// spec alone, and with a fine polygon.
func TestBlockArea(t *testing.T) {
	for _, row := range []struct {
		name string
		spec BlockSpec
	}{
		{"davit", davit},
		{"wide wrap", BlockSpec{Radius: 250, HalfAngle: 80 * geom.Degree, Depth: 40, Gap: 41, Plate: 10}},
		{"own blend and height", BlockSpec{Radius: 600, HalfAngle: 12 * geom.Degree, Depth: 60, Gap: 61, Plate: 12, Blend: 25, Height: 140}},
	} {
		b, err := NewBlock(row.spec)
		if err != nil {
			t.Fatalf("%s: %v", row.name, err)
		}
		r, h, f := b.Radius, b.HalfAngle, b.Blend
		back := r - b.Height
		// Fillet: a circle of radius f that touches the arc's end from inside.
		centre := geom.Polar(r-f, geom.Angle(math.Pi/2)-h)
		side := centre.X + f
		// Exact areas under circles: ∫√(r²-x²) dx = (x√(r²-x²) + r² asin(x/r))/2.
		under := func(r, x float64) float64 {
			return (x*math.Sqrt(max(0, r*r-x*x)) + r*r*math.Asin(min(1, x/r))) / 2
		}
		end := r * math.Sin(float64(h))
		half := under(r, end) - back*end
		half += under(f, side-centre.X) - under(f, end-centre.X) + (centre.Y-back)*(side-end)
		p := b.Layers[0].Part.Outline
		if got := p.Area(); !near(got, 2*half, 1e-9*half) {
			t.Errorf("%s: area %.9g, by integral %.9g", row.name, got, 2*half)
		}
		area, length := measure(polygon(p, 4096))
		if !near(p.Area(), area, 1e-6*area) || !near(p.Length(), length, 1e-6*length) {
			t.Errorf("%s: area %.9g length %.9g, polygon %.9g %.9g", row.name, p.Area(), p.Length(), area, length)
		}
		want := 2*side + 2*(centre.Y-back) + 2*f*(math.Pi/2-float64(h)) + 2*r*float64(h)
		if !near(p.Length(), want, 1e-9*want) {
			t.Errorf("%s: length %.9g, by pieces %.9g", row.name, p.Length(), want)
		}
	}
}

func TestBlockDefaults(t *testing.T) {
	b, err := NewBlock(davit)
	if err != nil {
		t.Fatal(err)
	}
	// 60 mm beats 1.5 x 40; a quarter of 40 is 10; M12 clearance.
	if b.Height != 60 || b.Blend != 10 || b.Hole != 13 || len(b.Openings) != 0 {
		t.Errorf("height %g blend %g hole %g openings %d", b.Height, b.Blend, b.Hole, len(b.Openings))
	}
	if len(b.Layers) != 1 || b.Layers[0].Count != 4 || !near(b.Shim, 1.4, 1e-12) {
		t.Errorf("%d layers of %d, shim %g: want one of four plates, 1.4 mm", len(b.Layers), b.Layers[0].Count, b.Shim)
	}
	// 1.5 x 100 beats 60, a quarter of 100 beats 10; two rows in a high body.
	deep := davit
	deep.Depth, deep.Gap = 100, 101
	b, err = NewBlock(deep)
	if err != nil {
		t.Fatal(err)
	}
	rows := map[float64]int{}
	for _, h := range b.Layers[0].Part.Holes {
		rows[h.Centre.Y]++
	}
	if b.Height != 150 || b.Blend != 25 || len(rows) != 2 {
		t.Errorf("height %g blend %g rows %v, want 150, 25, two rows", b.Height, b.Blend, rows)
	}
	// A block that wraps 150 degrees is as high as its arc: it grows.
	far := davit
	far.HalfAngle = 75 * geom.Degree
	b, err = NewBlock(far)
	if err != nil {
		t.Fatal(err)
	}
	// Crown to fillet's end, R - (R-b)cos 75°, and 10 mm of side, rounded up.
	if want := math.Ceil(375 - 365*math.Cos(75*math.Pi/180) + 10); b.Height != want {
		t.Errorf("height %g, want %g", b.Height, want)
	}
	// A drill goes through thick plate: the hole stays.
	for _, hole := range []float64{0, 4, 9, 45} {
		thick := davit
		thick.Plate, thick.Hole = 20, hole
		if hole == 0 {
			hole = 13
		}
		if b, err := NewBlock(thick); err != nil || b.Hole != hole || b.Bolts[0].Radius != hole/2 {
			t.Errorf("hole %g in 20 mm plate, want %g: %v", b.Hole, hole, err)
		}
	}
}

// Marks by hand: 10 mm long, 1 mm off arc and back, or as short as hole and
// radius make them.
func TestBlockMarks(t *testing.T) {
	radial := func(deg, from, to float64) geom.Path {
		a := deg * math.Pi / 180
		return geom.Lines(geom.Pt(from*math.Sin(a), from*math.Cos(a)), geom.Pt(to*math.Sin(a), to*math.Cos(a)))
	}
	for _, row := range []struct {
		name   string
		change func(*BlockSpec)
		length float64
		at     []float64 // of the radial ones, degrees
	}{
		{"davit", func(*BlockSpec) {}, 10, []float64{0, -17.5, 17.5}},
		{"no tangent points", func(s *BlockSpec) { s.TangentHalfAngle = 0 }, 10, []float64{0}},
		{"tangent points at the arc's ends", func(s *BlockSpec) { s.TangentHalfAngle = s.HalfAngle }, 10, []float64{0, -21, 21}},
		{"small bolts: a hole less 1 mm at both ends", func(s *BlockSpec) { s.Hole = 10 }, 8, []float64{0, -17.5, 17.5}},
		{"tight: half the radius that is left", func(s *BlockSpec) {
			*s = BlockSpec{Radius: 15, HalfAngle: 60 * geom.Degree, Depth: 10, Gap: 11, Plate: 3, Hole: 10}
		}, 7, []float64{0}},
	} {
		spec := davit
		row.change(&spec)
		b, err := NewBlock(spec)
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		var want []geom.Path
		for i, a := range row.at {
			want = append(want, radial(a, b.Radius-1, b.Radius-1-row.length))
			if i == 0 {
				want = append(want, geom.Lines(geom.Pt(0, b.Back+1), geom.Pt(0, b.Back+1+row.length)))
			}
		}
		got := b.Layers[0].Part.Marks
		if len(got) != len(want) {
			t.Errorf("%s: %v, want %v", row.name, got, want)
			continue
		}
		for i, m := range got {
			for k, v := range m.Vertices {
				if v.Dist(want[i].Vertices[k].Point) > 1e-9 {
					t.Errorf("%s: mark %d is %v, want %v", row.name, i, m, want[i])
				}
			}
		}
	}
}

// Limits from both sides.
func TestBlockLimits(t *testing.T) {
	small := BlockSpec{Radius: 20, HalfAngle: 60 * geom.Degree, Depth: 10, Gap: 11, Plate: 3, Hole: 5}
	for _, row := range []struct {
		name   string
		change func(*BlockSpec)
		dim    Dimension // refused for; "": made
		limit  float64   // that the refusal names, in the dimension's unit
	}{
		{"arc of 1.01 mm", func(s *BlockSpec) { *s = davit; s.TangentHalfAngle = 0; s.HalfAngle = geom.Angle(1.01 / 750) }, "", 0},
		{"arc of 0.99 mm", func(s *BlockSpec) { *s = davit; s.TangentHalfAngle = 0; s.HalfAngle = geom.Angle(0.99 / 750) }, WorkingArc, 1.0 / 375},
		{"radius 5.01", func(s *BlockSpec) { s.Radius = 5.01 }, "", 0},
		{"radius 4.99", func(s *BlockSpec) { s.Radius = 4.99 }, "radius", 5},
		{"87°", func(s *BlockSpec) { *s = davit; s.HalfAngle = 87 * geom.Degree }, "", 0},
		{"87.01°", func(s *BlockSpec) { *s = davit; s.HalfAngle = 87.01 * geom.Degree }, WorkingArc, float64(174 * geom.Degree)},
		{"blend 2.5", func(s *BlockSpec) { s.Blend = 2.5 }, "", 0},
		{"blend 2.49", func(s *BlockSpec) { s.Blend = 2.49 }, "blend", 2.5},
		{"blend as large as the arc", func(s *BlockSpec) { *s = davit; s.Blend = 375; s.Height = 400 }, "", 0},
		{"blend larger", func(s *BlockSpec) { *s = davit; s.Blend = 375.01; s.Height = 400 }, "blend", 375},
		{"hole 4", func(s *BlockSpec) { s.Hole = 4 }, "", 0},
		{"hole 3.99", func(s *BlockSpec) { s.Hole = 3.99 }, "hole", 4},
		{"hole as large as the plate is thick", func(s *BlockSpec) { s.Plate = 5 }, "", 0},
		{"100 plates", func(s *BlockSpec) { *s = davit; s.Plate = 0.414 }, "", 0},
		{"101 plates", func(s *BlockSpec) { *s = davit; s.Plate = 0.4099 }, "plate", 0.414},
		{"plate as thick as the gap", func(s *BlockSpec) { *s = davit; s.Plate = 41.4 }, "", 0},
		{"plate thicker", func(s *BlockSpec) { *s = davit; s.Plate = 41.41 }, "plate", 41.4},
		{"tangent point at the arc's end", func(s *BlockSpec) { s.TangentHalfAngle = s.HalfAngle }, "", 0},
		// A hole, 1.5 from it to the edge and 1.5 to the middle: a half width of 3
		// holes, which a wrap of 80° can't widen. The half width is
		// 20 sin 80° + 10 (1 - sin 80°) = 19.848.
		{"hole 6.61", func(s *BlockSpec) { s.HalfAngle = 80 * geom.Degree; s.Hole = 6.61 }, "", 0},
		{"hole 6.62", func(s *BlockSpec) { s.HalfAngle = 80 * geom.Degree; s.Hole = 6.62 }, "hole", (20*math.Sin(80*math.Pi/180) + 10*(1-math.Sin(80*math.Pi/180))) / 3},
	} {
		spec := small
		row.change(&spec)
		_, err := NewBlock(spec)
		var size *SizeError
		if row.dim == "" && err != nil || row.dim != "" && (!errors.As(err, &size) || size.Dimension != row.dim) {
			t.Errorf("%s: %v, want %q", row.name, err, row.dim)
			continue
		}
		if row.dim != "" && !near(size.Least, row.limit, 1e-9) && !near(size.Most, row.limit, 1e-9) {
			t.Errorf("%s: allowed is %g to %g, want a limit of %g", row.name, size.Least, size.Most, row.limit)
		}
	}
	// A round tube's layers step by its own radius: a 25-15-20 triangle.
	r, err := NewBlock(BlockSpec{Radius: 275, HalfAngle: 20 * geom.Degree, Depth: 50, Round: true, Gap: 60, Plate: 15})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Layers) != 2 || r.Layers[0].Radius != 275 || !near(r.Layers[1].Radius, 280, 1e-9) || r.Layers[0].Count != 2 || r.Layers[1].Count != 2 {
		t.Errorf("layers %v", r.LayerRadii)
	}
	// Its cheek covers the outer layers, which stand 5 mm above the bottom, at least.
	for _, row := range []struct {
		depth float64
		ok    bool
	}{{r.Layers[1].Radius - 275, true}, {4.99, false}, {48, true}, {48.01, false}} {
		var size *SizeError
		if _, err := r.Cheek(row.depth); row.ok && err != nil || !row.ok && (!errors.As(err, &size) || !near(size.Least, 5, 1e-9) || size.Most != 48) {
			t.Errorf("cheek depth %g: %v", row.depth, err)
		}
	}
	// Left to itself a low block is as high as its wrap needs: 10 mm of side.
	b, err := NewBlock(BlockSpec{Radius: 375, HalfAngle: 30 * geom.Degree, Depth: 20, Gap: 21, Plate: 10})
	if err != nil {
		t.Fatal(err)
	}
	if want := math.Ceil(375 - 365*math.Cos(30*math.Pi/180) + 10); b.Height != want || b.Blend != 10 {
		t.Errorf("height %g, blend %g, want %g, 10", b.Height, b.Blend, want)
	}
	if s := b.Layers[0].body.shoulder() - b.Back; s < 10 || s > 11 {
		t.Errorf("a straight side of %g mm, want 10 to 11", s)
	}
	spec := b.BlockSpec
	spec.Height = 375 - 365*math.Cos(30*math.Pi/180) + 10
	if _, err := NewBlock(spec); err != nil {
		t.Errorf("the least height itself: %v", err)
	}
	spec.Height -= 0.01
	if _, err := NewBlock(spec); err == nil {
		t.Error("0.01 mm below the least height was made")
	}
}

func TestNarrowBlockIsWidened(t *testing.T) {
	narrow := BlockSpec{Radius: 120, HalfAngle: 6 * geom.Degree, Depth: 25, Gap: 26, Plate: 10}
	b, err := NewBlock(narrow)
	if err != nil {
		t.Fatal(err)
	}
	// 2 x 1.5 x 13 to the edges and 3 x 13 between.
	if !near(b.HalfWidth, 39, 1e-9) || len(b.Layers[0].Part.Holes) < 2 {
		t.Errorf("half width %g with %d holes, want 39", b.HalfWidth, len(b.Layers[0].Part.Holes))
	}
	// Left alone it would be 2(R sin h + b(1 - sin h)) wide.
	if natural := 120*math.Sin(6*math.Pi/180) + 10*(1-math.Sin(6*math.Pi/180)); natural > 39 {
		t.Fatalf("the example is not narrow: %g", natural)
	}
}

// A flank falls midway between the tube's leg and the vertical, but 15° more than
// the leg at least; where that would be more than 80° there is none. What is too
// short for a flank goes into the fillet.
func TestFlank(t *testing.T) {
	for _, row := range []struct {
		half, fall float64 // degrees; fall 0: no flank
	}{{10, 50}, {40, 65}, {58, 74}, {60, 75}, {62, 77}, {64, 79}, {65, 80}, {66, 0}, {80, 0}} {
		half := geom.Angle(row.half) * geom.Degree
		b := newBody(100, half, 10, 0, 0)
		natural := 100*half.Sin() + 10*(1-half.Sin())
		if !near(b.side, natural, 1e-9) || b.flank != 0 || b.blend != 10 {
			t.Errorf("half %g°: side %g, want %g without a flank", row.half, b.side, natural)
		}
		b = newBody(100, half, 10, natural+20, 0)
		var fall geom.Angle
		if s := b.outline().Segments(); b.flank > 0 && len(s) > 3 {
			d := s[3].To.Sub(s[3].From) // back, side, fillet, flank
			fall = geom.Angle(math.Atan2(d.Y, -d.X))
		}
		if !near(fall.Degrees(), row.fall, 1e-9) || row.fall > 0 && !near(b.side, natural+20, 1e-9) || row.fall == 0 && !near(b.side, natural, 1e-9) {
			t.Errorf("half %g°: a flank at %g°, side %g, want %g°", row.half, fall.Degrees(), b.side, row.fall)
		}
	}
	// At 10° a flank falls at 50°: 1 mm of it reaches 0.6428 mm out.
	half := 10 * geom.Degree
	natural := 100*half.Sin() + 10*(1-half.Sin())
	for _, row := range []struct {
		out   float64
		flank bool
	}{{0.64, false}, {0.65, true}} {
		b := newBody(100, half, 10, natural+row.out, 0)
		// A larger fillet brings the side as far out: blend (1 - sin 10°).
		blend := 10 + row.out/(1-half.Sin())
		if (b.flank > 0) != row.flank || !near(b.side, natural+row.out, 1e-9) || !row.flank && !near(b.blend, blend, 1e-9) || row.flank && b.blend != 10 {
			t.Errorf("%g mm out: flank %g, blend %g, side %g", row.out, b.flank, b.blend, b.side)
		}
	}
}

func TestBlockRefuses(t *testing.T) {
	const deg = math.Pi / 180
	for _, row := range []struct {
		name   string
		change func(*BlockSpec)
		want   SizeError // least and most to 1e-9
	}{
		{"no radius", func(s *BlockSpec) { s.Radius = 0 }, SizeError{Dimension: Radius, Why: NotPositive}},
		{"endless radius", func(s *BlockSpec) { s.Radius = math.Inf(1) }, SizeError{Dimension: Radius, Why: TooLarge, Most: 1e6}},
		{"absurd depth", func(s *BlockSpec) { s.Depth = 1e308 }, SizeError{Dimension: Depth, Why: TooLarge, Most: 1e6}},
		{"a kilometre and more", func(s *BlockSpec) { s.Height = 1e6 + 1 }, SizeError{Dimension: Height, Why: TooLarge, Most: 1e6}},
		{"radius of a pencil", func(s *BlockSpec) { s.Radius = 4 }, SizeError{Dimension: Radius, Why: RadiusTooSmall, Least: 5}},
		{"wraps more than it can", func(s *BlockSpec) { s.HalfAngle = 93 * geom.Degree }, SizeError{Dimension: WorkingArc, Angular: true, Why: NotStraight, Most: 174 * deg}},
		{"no angle", func(s *BlockSpec) { s.HalfAngle = 0 }, SizeError{Dimension: WorkingArc, Angular: true, Why: NotStraight, Most: 174 * deg}},
		{"arc that is no arc", func(s *BlockSpec) { s.HalfAngle = 0.05 * geom.Degree; s.TangentHalfAngle = 0 },
			SizeError{Dimension: WorkingArc, Angular: true, Why: ArcTooShort, Least: 1 / 375.0, Facts: Facts{Arc: 375 * 0.1 * deg}}},
		{"tangent point off the arc", func(s *BlockSpec) { s.TangentHalfAngle = 30 * geom.Degree }, SizeError{Dimension: TangentPoint, Angular: true, Why: OffTheArc, Most: 21 * deg}},
		{"plate thicker than the gap", func(s *BlockSpec) { s.Plate = 50 }, SizeError{Dimension: Plate, Why: PlateThick, Most: 41.4, Facts: Facts{Gap: 41.4}}},
		{"the same under a round tube", func(s *BlockSpec) { s.Plate = 50; s.Round = true }, SizeError{Dimension: Plate, Why: PlateThick, Most: 41.4 / 4, Facts: Facts{Gap: 41.4}}},
		{"one plate between two walls", func(s *BlockSpec) { s.Plate = 25 }, SizeError{Dimension: Plate, Why: WallsUnborne, Most: 41.4 / 2, Facts: Facts{Gap: 41.4, Plates: 1}}},
		{"a round tube on a flat", func(s *BlockSpec) { s.Plate = 20; s.Round = true }, SizeError{Dimension: Plate, Why: SaddleFlat, Most: 41.4 / 4, Facts: Facts{Gap: 41.4, Plates: 2}}},
		{"and on three plates", func(s *BlockSpec) { s.Plate = 13; s.Round = true }, SizeError{Dimension: Plate, Why: SaddleFlat, Most: 41.4 / 4, Facts: Facts{Gap: 41.4, Plates: 3}}},
		{"plate like foil", func(s *BlockSpec) { s.Plate = 0.1 }, SizeError{Dimension: Plate, Why: PlateThin, Least: 0.414, Facts: Facts{Gap: 41.4, Plates: 414}}},
		{"hole of a nail", func(s *BlockSpec) { s.Hole = 3.9 }, SizeError{Dimension: Hole, Why: HoleTooSmall, Least: 4, Most: 45}},
		{"hole of a drum", func(s *BlockSpec) { s.Hole = 46 }, SizeError{Dimension: Hole, Why: HoleTooLarge, Least: 4, Most: 45}},
		{"negative hole", func(s *BlockSpec) { s.Hole = -1 }, SizeError{Dimension: Hole, Why: Negative}},
		{"low", func(s *BlockSpec) { s.Height = 30 }, SizeError{Dimension: Height, Why: HeightTooLow, Least: 375 - 365*math.Cos(21*deg) + 10, Facts: Facts{Wrap: 42 * geom.Degree, Hole: 13}}},
		{"blend larger than the arc", func(s *BlockSpec) { s.Blend = 400 }, SizeError{Dimension: Blend, Why: BlendOffArc, Least: 2.5, Most: 375}},
		// 25 sin 80° + 10 (1 - sin 80°) wide to a side; three holes must fit that.
		{"small and far round", func(s *BlockSpec) { s.Radius = 25; s.HalfAngle = 80 * geom.Degree; s.Depth = 20 },
			SizeError{Dimension: Hole, Why: HoleWide, Least: 4, Most: (10 + 15*math.Sin(80*deg)) / 3, Facts: Facts{Radius: 25, Width: 2 * (10 + 15*math.Sin(80*deg))}}},
		{"as small as a bolt", func(s *BlockSpec) {
			s.Radius = 11
			s.HalfAngle = 80 * geom.Degree
			s.Depth = 10
			s.Gap = 11
			s.Plate = 3
		},
			SizeError{Dimension: Radius, Why: NoRoomForBolts, Least: 12 / math.Sin(80*deg), Facts: Facts{Hole: 4}}},
	} {
		spec := davit
		row.change(&spec)
		_, err := NewBlock(spec)
		var got *SizeError
		if !errors.As(err, &got) {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		f, w := got.Facts, row.want.Facts
		for _, pair := range [][2]float64{
			{got.Least, row.want.Least}, {got.Most, row.want.Most}, {f.Arc, w.Arc}, {f.Gap, w.Gap}, {f.Hole, w.Hole},
			{f.Radius, w.Radius}, {f.Width, w.Width}, {f.Wrap.Radians(), w.Wrap.Radians()},
		} {
			if !near(pair[0], pair[1], 1e-9) {
				t.Errorf("%s: %+v, want %+v", row.name, got, row.want)
			}
		}
		if got.Part != "block" || got.Dimension != row.want.Dimension || got.Why != row.want.Why || got.Angular != row.want.Angular || f.Plates != w.Plates {
			t.Errorf("%s: %+v, want %+v", row.name, got, row.want)
		}
	}
	if b, err := NewBlock(with(davit, func(s *BlockSpec) { s.Plate = 0.414 })); err != nil || len(b.LayerRadii) != 100 {
		t.Errorf("a hundred plates: %d, %v", len(b.LayerRadii), err)
	}
	// What is no number is refused as well.
	for _, change := range []func(*BlockSpec){
		func(s *BlockSpec) { s.Radius = math.NaN() }, func(s *BlockSpec) { s.HalfAngle = geom.Angle(math.NaN()) },
		func(s *BlockSpec) { s.Plate = math.NaN() }, func(s *BlockSpec) { s.Hole = math.NaN() },
	} {
		spec := davit
		change(&spec)
		var got *SizeError
		if _, err := NewBlock(spec); !errors.As(err, &got) || !math.IsNaN(got.Value) {
			t.Errorf("%v, want a refusal of what is no number", err)
		}
	}
}

// TestBlockAdvice follows what an error says and must then succeed.
func TestBlockAdvice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := drawBlock(t)
		var size *SizeError
		_, err := NewBlock(spec)
		for range 6 {
			if err == nil {
				return
			}
			if !errors.As(err, &size) {
				t.Fatal(err)
			}
			v := size.Least
			if v == 0 {
				v = size.Most
			}
			switch size.Dimension {
			case Height:
				spec.Height = v
			case Hole:
				spec.Hole = v
			case Plate:
				spec.Plate = v
			case Blend:
				spec.Blend = v
			case Radius:
				spec.Radius = v
			case WorkingArc:
				spec.HalfAngle = geom.Angle(v/2) + 1e-11
				spec.TangentHalfAngle = 0
			default:
				t.Fatalf("no advice on %s: %v", size.Dimension, err)
			}
			_, err = NewBlock(spec)
		}
		if err != nil {
			t.Fatalf("six changes later: %v", err)
		}
	})
}

func TestCheekRefuses(t *testing.T) {
	b, err := NewBlock(davit)
	if err != nil {
		t.Fatal(err)
	}
	for _, depth := range []float64{-1, 38.5, 40, 100, math.NaN(), math.Inf(1)} {
		_, err := b.Cheek(depth)
		var size *SizeError
		if !errors.As(err, &size) || size.Dimension != CheekDepth || size.Why != CheekOffTube || size.Most != 38 || size.Facts.Depth != 40 {
			t.Errorf("cheek depth %g: %v", depth, err)
		}
	}
	c, err := b.Cheek(38)
	if err != nil || !near(c.Bounds().Max.Y, 375+38, 1e-9) || !near(c.Bounds().Min.Y, b.Back, 1e-9) {
		t.Errorf("cheek to 38 mm: %v, %v", c.Bounds(), err)
	}
	// The cheek's edge is the block's offset of package geom, cut off at the back.
	for _, s := range c.Outline.Segments() {
		if s.IsArc() && !near(s.Radius(), 375+38, 1e-6) && !near(s.Radius(), 10+38, 1e-6) {
			t.Errorf("cheek has an arc of radius %g", s.Radius())
		}
	}
	off, err := b.Layers[0].Part.Outline.Offset(38)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range c.Outline.Vertices[2:] {
		if off.Distance(v.Point) > 1e-9 {
			t.Errorf("cheek's vertex %v is %g off the exact offset", v, off.Distance(v.Point))
		}
	}
}

func TestLayers(t *testing.T) {
	for _, row := range []struct {
		gap, plate float64
		n          int
		shim       float64
		why        string
	}{
		{41.4, 10, 4, 1.4, "4 x 10 and 1.4 left"},
		{40.2, 10, 4, 0, "0.2 mm is no shim"},
		{40.3, 10, 4, 0.3, "0.3 mm is one"},
		{40, 10, 4, 0, "exact"},
		{0.1 + 0.2, 0.1, 3, 0, "0.3 in floating point is a hair more"},
		{3 * 0.7, 0.7, 3, 0, "2.0999999999999996 is a hair less"},
		{39.9, 10, 3, 9.9, "one short"},
		{9, 10, 0, 0, "plate thicker than the gap"},
		{0, 10, 0, 0, "no gap"},
		{40, 0, 0, 0, "no plate"},
		{math.NaN(), 10, 0, 0, "not a number"},
		{math.Inf(1), 10, 0, 0, "endless"},
	} {
		n, shim := Layers(row.gap, row.plate)
		if n != row.n || !near(shim, row.shim, 1e-9) {
			t.Errorf("Layers(%g, %g) = %d, %g, want %d, %g (%s)", row.gap, row.plate, n, shim, row.n, row.shim, row.why)
		}
	}
	if CheekGap(40.9) != 41.4 {
		t.Errorf("gap %g for an inner face of 40.9, want half a millimetre more", CheekGap(40.9))
	}
}

func TestLighten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := BlockSpec{
			Radius: rapid.Float64Range(150, 700).Draw(t, "radius"), HalfAngle: geom.Angle(rapid.Float64Range(10, 85).Draw(t, "half")) * geom.Degree,
			Depth: rapid.Float64Range(20, 60).Draw(t, "depth"), Plate: rapid.Float64Range(5, 20).Draw(t, "plate"),
			Web: rapid.Float64Range(0, 40).Draw(t, "web"), Round: rapid.Bool().Draw(t, "round"), Lighten: true,
		}
		spec.Gap = spec.Depth + 1
		b, err := NewBlock(spec)
		if err != nil {
			return
		}
		web := max(spec.Web, 10)
		if spec.Web == 0 {
			web = max(1.5*spec.Plate, 10)
		}
		for _, l := range b.Layers {
			checkOutline(t, l.Part)
			bolts := len(b.Bolts)
			// The arc alone, as a path.
			h := toward(b.HalfAngle).Mul(l.Radius)
			arc := geom.Start(h).ArcTo(geom.Pt(-h.X, h.Y), 2*b.HalfAngle)
			for k, o := range l.Part.Holes {
				if k < bolts {
					continue
				}
				if o.Radius < 12.5 {
					t.Fatalf("an opening of %g mm", 2*o.Radius)
				}
				if got := l.Part.Outline.Distance(o.Centre) - o.Radius; got < web-1e-6 {
					t.Fatalf("web of %g to the edge, want %g", got, web)
				}
				if got := arc.Distance(o.Centre) - o.Radius; got < spec.Depth-1e-6 {
					t.Fatalf("opening %g from the working arc, want %g", got, spec.Depth)
				}
				if got := math.Abs(o.Centre.X) - o.Radius; got < spec.Depth/2-1e-6 {
					t.Fatalf("opening %g from the middle, want %g", got, spec.Depth/2)
				}
				for _, g := range l.Part.Holes[:k] {
					if got := g.Centre.Dist(o.Centre) - g.Radius - o.Radius; got < web-1e-6 {
						t.Fatalf("web of %g between holes, want %g", got, web)
					}
				}
			}
		}
	})
	low := davit
	low.Lighten = true
	if b, err := NewBlock(low); err != nil || len(b.Openings) != 0 {
		t.Errorf("a block 60 mm high has no room below one depth of 40: %d openings, %v", len(b.Openings), err)
	}
	far := davit
	far.HalfAngle, far.Lighten = 75*geom.Degree, true
	b, err := NewBlock(far)
	if err != nil || len(b.Openings) == 0 {
		t.Fatalf("a block 300 mm high was not lightened: %v", err)
	}
	far.Lighten = false
	solid, _ := NewBlock(far)
	if b.Layers[0].Part.Area() >= solid.Layers[0].Part.Area() {
		t.Error("a lightened block is not lighter")
	}
}

func BenchmarkLighten(b *testing.B) {
	far := davit
	far.HalfAngle, far.Lighten = 75*geom.Degree, true
	for b.Loop() {
		if _, err := NewBlock(far); err != nil {
			b.Fatal(err)
		}
	}
}

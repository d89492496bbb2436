package tooling

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"overbend/geom"

	"pgregory.net/rapid"
)

// Sheets at hand, as shops keep them.
var atHand = []float64{0.2, 0.5, 0.8, 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6}

// The stack carries the tube: whatever plate, gap and tube, the outermost leaves
// are plates, all of them fill the gap as nearly as the bolts take up, the plates
// of a saddle touch the tube and stand under it, packing never touches it, and the
// bolts go through all.
func TestStackProperties(t *testing.T) {
	var packed, round int
	rapid.Check(t, func(t *rapid.T) {
		spec := drawBlock(t)
		spec.Sheets = atHand
		b, err := NewBlock(spec)
		if err != nil {
			return
		}
		first, last := b.Stack[0], b.Stack[len(b.Stack)-1]
		if first.Packing || last.Packing {
			t.Fatalf("packing outside: %+v", b.Stack)
		}
		thick, shim, plates, packings := 0.0, 0.0, 0, 0
		for _, l := range b.Stack {
			thick += l.Thickness
			if l.Packing {
				packings++
				shim += l.Thickness
				if l.Thickness != b.Packing.Thickness {
					t.Fatalf("packing of %g and of %g", l.Thickness, b.Packing.Thickness)
				}
				continue
			}
			if l.Thickness != b.Plate || l.Radius != b.LayerRadii[plates] || !near(l.Radius, b.Layers[l.Layer].Radius, geom.Coincident) {
				t.Fatalf("leaf %+v of %g mm plate, radii %v", l, b.Plate, b.LayerRadii)
			}
			plates++
		}
		if math.Abs(thick-b.Gap) > 0.3+1e-6 || plates != len(b.LayerRadii) || packings != b.Packing.Count || !near(shim, b.Shim, 1e-9) {
			t.Fatalf("a stack of %g in a gap of %g: %d plates, %d packings, shim %g", thick, b.Gap, plates, packings, b.Shim)
		}
		if n := len(b.LayerRadii); n < 2 && thick < b.Gap-0.3-1e-6 {
			t.Fatalf("one plate of %g leaves a wall without one in a gap of %g", thick, b.Gap)
		}

		// A leaf at a lateral place x meets the tube's underside there.
		r, centre := b.Depth/2, b.Radius+b.Depth/2
		under := func(x float64) float64 {
			if !b.Round {
				return b.Radius
			}
			return centre - math.Sqrt(max(0, r*r-x*x))
		}
		x := -thick / 2
		for i, l := range b.Stack {
			nearest := math.Inf(1)
			for k := range 101 {
				at := x + l.Thickness*float64(k)/100
				nearest = min(nearest, under(at))
			}
			// The nearer face, exactly, which no step need hit.
			nearest = min(nearest, under(max(0, x, -x-l.Thickness)))
			if l.Packing {
				if top := b.Packing.Part.Outline.Bounds().Max.Y; top > nearest-1.9 {
					t.Fatalf("packing %d reaches %g, the tube's underside is %g", i, top, nearest)
				}
			} else if !near(l.Radius, nearest, 1e-9) {
				t.Fatalf("leaf %d has radius %g, the tube's underside is %g", i, l.Radius, nearest)
			}
			// The stack is the same from both sides.
			if o := b.Stack[len(b.Stack)-1-i]; b.Round && (o.Packing != l.Packing || !near(o.Radius, l.Radius, 1e-9)) {
				t.Fatalf("leaf %d: %+v, from the other side %+v", i, l, o)
			}
			x += l.Thickness
		}
		if b.Round {
			round++
			side := slices.Compact(slices.Clone(b.LayerRadii[:len(b.LayerRadii)/2]))
			if len(b.LayerRadii) < 4 || len(side) < 2 || b.Layers[0].Radius > b.Radius+1e-9 {
				t.Fatalf("no saddle: %v over %g", b.LayerRadii, b.Radius)
			}
		}
		p := b.Packing
		if p.Count == 0 {
			return
		}
		packed++
		sum := 0.0
		for _, s := range p.Sheets {
			if sum += s; !slices.Contains(atHand, s) {
				t.Fatalf("no sheet of %g at hand", s)
			}
		}
		if !near(sum, p.Thickness, 1e-9) || !slices.IsSortedFunc(p.Sheets, func(a, b float64) int { return cmp.Compare(b, a) }) {
			t.Fatalf("sheets %v make up %g", p.Sheets, p.Thickness)
		}
		checkOutline(t, p.Part)
		checkSymmetric(t, p.Part)
		if !slices.Equal(p.Part.Holes, b.Bolts) {
			t.Fatalf("packing on bolts %v, the block on %v", p.Part.Holes, b.Bolts)
		}
		// Nor does the straight leg ever come near it.
		leg := toward(b.HalfAngle)
		for _, q := range polygon(p.Part.Outline, 8) {
			if under := b.Radius - geom.Pt(math.Abs(q.X), q.Y).Dot(leg); under < 2-1e-6 || b.Radius-q.Norm() < 2-1e-6 && q.Y > 0 && math.Abs(q.X)*leg.Y < q.Y*leg.X {
				t.Fatalf("packing comes within %g of the tube at %v", under, q)
			}
		}
		for _, l := range b.Layers {
			for _, q := range polygon(p.Part.Outline, 8) {
				if q.Y > b.Back+1e-9 && !l.Part.Outline.Contains(q) {
					t.Fatalf("packing stands out of layer of radius %g at %v", l.Radius, q)
				}
			}
		}
	})
	t.Logf("%d packed, %d round", packed, round)
	if packed < 10 || round < 5 {
		t.Error("the draws miss a kind of stack: the test says too little")
	}
}

// The stacks of known jobs, by hand.
func TestStack(t *testing.T) {
	for _, row := range []struct {
		name  string
		spec  BlockSpec
		order string // p: plate, .: packing
		radii []float64
		sheet []float64
	}{
		// 4 x 10 in 41.4 leaves 1.4.
		{"rectangle, even", davit, "pp.pp", []float64{375, 375, 375, 375}, []float64{1.5}},
		{"rectangle, odd", with(davit, func(s *BlockSpec) { s.Gap = 33 }), "p.pp", []float64{375, 375, 375}, []float64{3}},
		{"two plates", with(davit, func(s *BlockSpec) { s.Plate = 20 }), "p.p", []float64{375, 375}, []float64{1.5}},
		{"1-1/2 in on 10 mm", with(davit, func(s *BlockSpec) { s.Gap = 39.65 }), "p.pp", []float64{375, 375, 375}, []float64{6, 2.5, 1.2}},
		{"nothing to pack", with(davit, func(s *BlockSpec) { s.Gap = 40.29 }), "pppp", []float64{375, 375, 375, 375}, nil},
		// Tube of radius 25: 25-24-7 and 25-20-15 triangles. Edges at 0 and 15.
		{"round, even", with(davit, func(s *BlockSpec) { s.Depth, s.Gap, s.Plate, s.Round = 50, 54, 12, true }), "p.pp.p", []float64{380, 375, 375, 380}, []float64{3}},
		// Edges at 0 and, past half a plate and packing, at 7.
		{"round, odd", with(davit, func(s *BlockSpec) { s.Depth, s.Gap, s.Plate, s.Round = 50, 54, 10, true }), "pp.p.pp",
			[]float64{400 - math.Sqrt(625-17*17), 376, 375, 376, 400 - math.Sqrt(625-17*17)}, []float64{2}},
	} {
		row.spec.Sheets = atHand
		b, err := NewBlock(row.spec)
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		order := ""
		for _, l := range b.Stack {
			order += map[bool]string{false: "p", true: "."}[l.Packing]
		}
		if order != row.order || !slices.EqualFunc(b.LayerRadii, row.radii, func(a, b float64) bool { return near(a, b, 1e-9) }) || !slices.Equal(b.Packing.Sheets, row.sheet) {
			t.Errorf("%s: %s radii %v sheets %v, want %s %v %v", row.name, order, b.LayerRadii, b.Packing.Sheets, row.order, row.radii, row.sheet)
		}
	}
	// Without a list of sheets it is one of the very thickness.
	b, err := NewBlock(davit)
	if err != nil || !near(b.Shim, 1.4, 1e-12) || len(b.Packing.Sheets) != 1 || !near(b.Packing.Part.Outline.Bounds().Max.Y, 373, 1e-9) {
		t.Errorf("packing %+v, %v", b.Packing, err)
	}
}

func with(s BlockSpec, change func(*BlockSpec)) BlockSpec {
	change(&s)
	return s
}

func TestBestPlate(t *testing.T) {
	mm := []float64{6, 8, 10, 12, 15, 20, 25, 30, 40, 3, 4, 5}
	in := []float64{6.35, 9.525, 12.7, 19.05, 25.4, 3.175, 4.7625}
	for _, row := range []struct {
		gap   float64
		round bool
		stock []float64
		want  float64
		why   string
	}{
		{41.4, false, mm, 10, "8, 10 and 20 leave 1.4; the thickest up to half an inch"},
		{39.2, false, in, 12.7, "1/4, 3/8 and 1/2 leave 1.1"},
		{31.2, false, mm, 10, "6 and 10 leave 1.2"},
		{36.4, false, mm, 12, "6 and 12 leave 0.4, too thick for the bolts alone"},
		{20.6, false, mm, 10, "two of 10"},
		{10.2, false, mm, 10, "a plate as wide as the gap stands under both walls"},
		{11, false, mm, 5, "a single plate of 6 to 10 would not"},
		{9.2, false, mm, 3, "three flats where plate is too thick"},
		{26.4, true, mm, 5, "five of 5, not two of 12"},
		{26.4, true, in, 6.35, "four of 1/4"},
		{16.4, true, mm, 4, "four of 4"},
		{50.9, true, mm, 10, "five of 10; four of 12 leave more"},
		{41.4, false, []float64{10, 8.05}, 10, "a quarter of a mm is not worth a fifth plate, whatever the order"},
		{41.4, false, []float64{8.05, 10}, 10, "a quarter of a mm is not worth a fifth plate, whatever the order"},
		{2, false, mm, 3, "nothing will do: the thinnest"},
	} {
		if got := BestPlate(row.gap, row.round, row.stock, 0); got != row.want {
			t.Errorf("BestPlate(%g, %v) = %g, want %g: %s", row.gap, row.round, got, row.want, row.why)
		}
	}
	// What a shop has in any case, 3/8 in, is taken unless another packs clearly less.
	const usual = 9.525
	for _, row := range []struct {
		gap   float64
		round bool
		want  float64
		why   string
	}{
		{39.2, false, usual, "1/4, 3/8 and 1/2 leave 1.1"},
		{52.2, false, usual, "3/8 leaves 4.575, 1/2 and 1/4 leave 1.4"},
		{26.4, false, 12.7, "3/8 would leave 7.35, 1/2 and 1/4 1"},
		{28.55, false, 12.7, "3/8 would leave 9.5, 1/2 3.15"},
		{34.925, false, usual, "3/8 leaves 6.35, 1/4 3.175: a little more is no reason"},
		{33.4, false, usual, "3/8 leaves 4.825, 1/4 1.65"},
		{18.2, false, 6.35, "one of 3/8 would not stand under both walls"},
		{26.2, false, 12.7, "3/8 would leave 7.15, 1/2 0.8: 6.35 more"},
		{26.4, true, 6.35, "four of 1/4, three of 3/8 make no saddle"},
		{39.2, true, usual, "four of 3/8"},
		{9.2, false, 3.175, "too thick for the gap"},
	} {
		if got := BestPlate(row.gap, row.round, in, usual); got != row.want {
			_, rest := Layers(row.gap, usual)
			t.Errorf("BestPlate(%g, %v, usual) = %g, want %g: %s (%g)", row.gap, row.round, got, row.want, row.why, rest)
		}
	}
	// What it returns is carried, and nothing else in its range packs less.
	rapid.Check(t, func(t *rapid.T) {
		gap, round := rapid.Float64Range(12, 200).Draw(t, "gap"), rapid.Bool().Draw(t, "round")
		got := BestPlate(gap, round, mm, 0)
		n, rest := Layers(gap, got)
		if why, _ := bears(n, rest, round); why != "" {
			t.Fatalf("%g mm plate in %g: %s", got, gap, why)
		}
		for _, other := range mm {
			m, left := Layers(gap, other)
			if why, _ := bears(m, left, round); why == "" && other >= 5 && other <= 13 && got >= 5 && left < rest-0.3-1e-9 {
				t.Fatalf("%g leaves %g of %g, %g only %g", got, rest, gap, other, left)
			}
		}
	})
}

func TestMakeUp(t *testing.T) {
	for _, row := range []struct {
		thick, fit float64
		want       []float64
	}{
		{1.4, 0.3, []float64{1.5}},
		{0.36, 0.3, []float64{0.5}},
		{0.16, 0.15, []float64{0.2}},
		{0.65, 0.1, []float64{0.5, 0.2}}, // 0.8 is 0.15 off
		{9.65, 0.3, []float64{6, 2.5, 1.2}},
		{24.1, 0.3, []float64{6, 6, 6, 6}},
		{40, 0.3, []float64{6, 6, 6, 6, 6, 5, 5}},
	} {
		if got := makeUp(row.thick, row.fit, atHand); !slices.Equal(got, row.want) {
			t.Errorf("makeUp(%g, %g) = %v, want %v", row.thick, row.fit, got, row.want)
		}
	}
	// No fewer sheets come as near, by trying them all.
	rapid.Check(t, func(t *rapid.T) {
		thick, fit := rapid.Float64Range(0.15, 12).Draw(t, "thickness"), rapid.SampledFrom([]float64{0.15, 0.3}).Draw(t, "fit")
		got := makeUp(thick, fit, atHand)
		off := thick
		for _, s := range got {
			off -= s
		}
		if math.Abs(off) > fit+1e-6 {
			t.Fatalf("%v is %g off %g", got, off, thick)
		}
		for _, a := range atHand {
			if math.Abs(a-thick) < fit && len(got) > 1 {
				t.Fatalf("%v, and %g alone would do for %g", got, a, thick)
			}
			for _, c := range atHand {
				if d := math.Abs(a + c - thick); d < fit && len(got) > 2 || len(got) == 2 && d < math.Abs(off)-1e-6 && a+c-thick <= fit {
					t.Fatalf("%v, and %g + %g would do for %g", got, a, c, thick)
				}
			}
		}
	})
}

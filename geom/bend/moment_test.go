package bend

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/integrate/quad"

	"overbend/profiles"
)

// testSections are the outlines that a moment is computed for in a different
// way: closed form, corners on both sides, an outside corner alone, a corner
// that leaves no flat, a disc, and solids.
func testSections() map[string]Member {
	hollow := func(s profiles.Section) Member { return Hollow(s, nil) }
	return map[string]Member{
		"sharp 40x40x3":     hollow(profiles.Section{Width: 40, Depth: 40, Wall: 3}),
		"flat 60x20x2":      hollow(profiles.Section{Width: 60, Depth: 20, Wall: 2}),
		"cornered 40x40x3":  hollow(profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: 6}),
		"outside only":      hollow(profiles.Section{Width: 50, Depth: 30, Wall: 4, Corner: 4}),
		"small corner":      hollow(profiles.Section{Width: 80, Depth: 40, Wall: 3, Corner: 3.2}),
		"no flat":           hollow(profiles.Section{Width: 20, Depth: 40, Wall: 2, Corner: 10}),
		"round 40x3":        hollow(profiles.Section{Shape: profiles.Round, Width: 40, Depth: 40, Wall: 3}),
		"round thick":       hollow(profiles.Section{Shape: profiles.Round, Width: 25, Depth: 25, Wall: 12}),
		"round thin 100x1":  hollow(profiles.Section{Shape: profiles.Round, Width: 100, Depth: 100, Wall: 1}),
		"solid square 21.5": Massive(profiles.Solid{Width: 21.5, Depth: 21.5}, nil),
		"filler cornered":   Massive(profiles.Solid{Width: 34, Depth: 34, Corner: 3}, nil),
		"disc":              Massive(profiles.Solid{Shape: profiles.Round, Width: 34, Depth: 34}, nil),
	}
}

func testLaws() map[string]profiles.Law {
	ro := func(proof, n float64) profiles.Law {
		return profiles.RambergOsgood{Youngs: 70000, Proof: proof, Exponent: n}
	}
	return map[string]profiles.Law{
		"epp 250":       profiles.ElasticPlastic{Youngs: 70000, Yield: 250},
		"filler":        profiles.ElasticPlastic{Youngs: 12700, Yield: 26.2},
		"ro 110 n 5":    ro(110, 5),
		"ro 120 n 12":   ro(120, 12),
		"ro 250 n 29.6": ro(250, 29.63),
		"ro 280 n 60":   ro(280, 60),
		"steel n 12":    profiles.RambergOsgood{Youngs: 210000, Proof: 355, Exponent: 12},
		"304":           profiles.Curve{Family: profiles.Stainless, Youngs: 193000, Proof: 205, Ultimate: 515, Exponent: 7}.Law(),
		"cold formed":   profiles.Curve{Family: profiles.Steel, Youngs: 210000, Proof: 408, Ultimate: 540, Exponent: 8}.Law(),
	}
}

// byQuadrature integrates s(k y) y w(y) over a solid with gonum's
// Gauss-Legendre rules, far finer than the package does and in other variables:
// y itself, and near a rounded end u = r (1 - v²), which takes the root out of
// the width.
func byQuadrature(s profiles.Solid, law profiles.Law, k float64) float64 {
	h, r := s.Depth/2, s.Corner
	if s.Shape == profiles.Round {
		r = h
	}
	c := h - r
	// Cuts close together about every knee, and three parts between cuts.
	cuts := func(lo, hi float64) []float64 {
		marks := []float64{lo, hi}
		for _, e := range law.Knees() {
			for _, f := range []float64{0.5, 0.8, 0.9, 0.95, 1, 1.05, 1.1, 1.2} {
				if y := f * e / k; y > lo && y < hi {
					marks = append(marks, y)
				}
			}
		}
		slices.Sort(marks)
		var out []float64
		for i := range len(marks) - 1 {
			for j := range 4 {
				out = append(out, marks[i]+(marks[i+1]-marks[i])*float64(j)/4)
			}
		}
		return append(out, hi)
	}
	f := func(y float64) float64 { return law.Stress(k*y) * y * s.WidthAt(y) }
	sum := 0.0
	flat := cuts(0, c)
	for i := range len(flat) - 1 {
		if flat[i+1] > flat[i] {
			sum += quad.Fixed(f, flat[i], flat[i+1], 12, quad.Legendre{}, 0)
		}
	}
	bent := cuts(c, h)
	for i := range len(bent) - 1 {
		if r == 0 || bent[i+1] <= bent[i] {
			continue
		}
		v := func(y float64) float64 { return math.Sqrt(max(0, 1-(y-c)/r)) }
		sum += quad.Fixed(func(v float64) float64 {
			y := c + r*(1-v*v)
			w := s.Width - 2*r + 2*r*v*math.Sqrt(2-v*v)
			return law.Stress(k*y) * y * w * 2 * r * v
		}, v(bent[i+1]), v(bent[i]), 12, quad.Legendre{}, 0)
	}
	return 2 * sum
}

// TestMomentAgainstQuadrature compares the moment with gonum's quadrature from
// wholly elastic to a strain of one half. The package promises 1e-6.
func TestMomentAgainstQuadrature(t *testing.T) {
	worst := 0.0
	for section, m := range testSections() {
		for name, law := range testLaws() {
			m.Law = law
			for k := 1e-7; k < 0.06; k *= 1.8 {
				if k*m.Outer.Depth/2 > 0.5 {
					break
				}
				gross := byQuadrature(m.Outer, law, k)
				want := gross
				if m.Bore.Depth > 0 {
					want -= byQuadrature(m.Bore, law, k)
				}
				// A thin wall is the small difference of two solids.
				tol := 3e-8 * gross / want
				if tol > 1e-6 {
					t.Fatalf("%s: the test is weaker than what was asked", section)
				}
				got := m.Moment(k)
				if got < 0 || !(math.Abs(got/want-1) < tol) {
					t.Errorf("%s, %s, k %.3g: moment %.12g, quadrature %.12g, off by %.1e", section, name, k, got, want, got/want-1)
				}
				worst = max(worst, math.Abs(got/want-1))
				if back := m.Moment(-k); back != -got {
					t.Errorf("%s, %s: moment at -k is %g, not %g", section, name, back, -got)
				}
			}
		}
	}
	t.Logf("largest relative difference %.1e", worst)
}

// TestMomentSlope compares dM/dk with a central difference of the moment.
func TestMomentSlope(t *testing.T) {
	for section, m := range testSections() {
		for name, law := range testLaws() {
			m.Law = law
			if got, want := first(m.momentSlope(0)), 0.0; got != want {
				t.Errorf("%s, %s: moment of a straight member is %g", section, name, got)
			}
			for k := 1e-6; k < 0.06; k *= 2.3 {
				mom, got := m.momentSlope(k)
				want := fd.Derivative(m.Moment, k, &fd.Settings{Formula: fd.Central, Step: 1e-5 * k})
				// The difference itself is good to about 1e-11/1e-5 of M/k.
				if math.Abs(got-want) > 2e-6*mom/k {
					t.Errorf("%s, %s, k %.3g: slope %.9g, difference quotient %.9g (M/k %.3g)", section, name, k, got, want, mom/k)
				}
			}
		}
	}
}

func first(a, _ float64) float64 { return a }

// TestGaussNodes compares the hard-coded rule with gonum's.
func TestGaussNodes(t *testing.T) {
	x, w := make([]float64, order), make([]float64, order)
	quad.Legendre{}.FixedLocations(x, w, -1, 1)
	for i := range order {
		g := order - 1 - i // gonum counts down
		if math.Abs(x[g]-gaussX[i]) > 4e-16 || math.Abs(w[g]-gaussW[i]) > 4e-16 {
			t.Errorf("node %d: %.17g weight %.17g, gonum %.17g %.17g", i, gaussX[i], gaussW[i], x[g], w[g])
		}
	}
	// The running weights integrate x^p exactly from -1 to each node.
	for i := range order {
		for p := range order {
			got := 0.0
			for j := range order {
				got += cumulative()[i][j] * math.Pow(gaussX[j], float64(p))
			}
			want := (math.Pow(gaussX[i], float64(p+1)) - math.Pow(-1, float64(p+1))) / float64(p+1)
			if math.Abs(got-want) > 1e-14 {
				t.Errorf("running integral of x^%d to node %d: %.15g, exactly %.15g", p, i, got, want)
			}
		}
	}
}

// TestMomentAllocatesNothing: what a press asks for ten thousand times.
func TestMomentAllocatesNothing(t *testing.T) {
	for _, c := range benchCases() {
		tube, filler := c.stack.Tube.upTo(1.0/381), c.stack.Filler.upTo(1.0/381)
		if n := testing.AllocsPerRun(20, func() {
			tube.momentSlope(1.0 / 400)
			filler.momentSlope(1.0 / 400)
			c.stack.Strip.momentSlope(1.0 / 400)
		}); n != 0 {
			t.Errorf("%s: %g allocations", c.name, n)
		}
	}
}

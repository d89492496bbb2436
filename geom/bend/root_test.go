package bend

import (
	"errors"
	"math"
	"testing"
)

func TestRoot(t *testing.T) {
	for _, c := range []struct {
		name   string
		lo, hi float64
		f      func(float64) float64
		want   float64
	}{
		{"cosine", 0, 3, math.Cos, math.Pi / 2},
		{"at the lower end", 0, 3, func(x float64) float64 { return x }, 0},
		{"at the upper end", -3, 0, func(x float64) float64 { return x }, 0},
		{"flat", 0, 2, func(x float64) float64 { return math.Pow(x-1, 9) }, 1},
		{"step", 0, 1, func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0.3},
		{"steep", 0, 1, func(x float64) float64 { return math.Tanh(1e6 * (x - 0.7)) }, 0.7},
	} {
		got, err := root(c.name, c.lo, c.hi, c.f)
		if err != nil || math.Abs(got-c.want) > 1e-12 && c.name != "flat" || math.Abs(got-c.want) > 1e-2 {
			t.Errorf("%s: %.17g, want %g (%v)", c.name, got, c.want, err)
		}
	}
	for name, f := range map[string]func(float64) float64{
		"no change of sign": func(x float64) float64 { return 1 + x*x },
		"not a number":      func(x float64) float64 { return math.NaN() },
	} {
		if got, err := root(name, 0, 1, f); !errors.Is(err, ErrNoSolution) {
			t.Errorf("%s: %g, %v", name, got, err)
		}
	}
}

func TestClimb(t *testing.T) {
	parabola := func(top float64) func(float64) (float64, float64) {
		return func(x float64) (float64, float64) { return top - (x-1)*(x-1), -2 * (x - 1) }
	}
	for _, c := range []struct {
		name string
		peak float64
		end  float64
		want float64
		tol  float64
		ok   bool
	}{
		{"rising side", 0.25, 5, 0.5, 1e-14, true},
		{"just touches", 0, 5, 1, 1e-6, true},
		{"just misses", -1e-9, 5, 0, 0, false},
		{"misses", -1, 5, 0, 0, false},
		{"out of reach", 0.25, 0.4, 0, 0, false},
	} {
		got, ok := climb(c.end, parabola(c.peak))
		// At the very top rounding decides; either is right.
		if c.name == "just touches" && !ok {
			ok = math.Abs(got-1) < 1e-6
		}
		if ok != c.ok || ok && math.Abs(got-c.want) > c.tol {
			t.Errorf("%s: %g %v, want %g %v", c.name, got, ok, c.want, c.ok)
		}
	}
	if got, ok := climb(1, func(float64) (float64, float64) { return math.NaN(), math.NaN() }); ok {
		t.Errorf("not a number climbs to %g", got)
	}
}

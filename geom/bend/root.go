package bend

import (
	"errors"
	"fmt"
	"math"
)

// ErrNoSolution is wrapped by every error that says an equation of the model
// has no root in the range where the model holds.
var ErrNoSolution = errors.New("no solution")

// root returns x in [lo, hi] with f(x) = 0 for an f that changes sign once,
// to about 1e-13 of the bracket, by Brent's method (R. P. Brent, Algorithms
// for minimization without derivatives, 1973, ch. 4; from memory).
func root(what string, lo, hi float64, f func(float64) float64) (float64, error) {
	a, b := lo, hi
	fa, fb := f(a), f(b)
	if fa == 0 {
		return a, nil
	}
	if fb == 0 {
		return b, nil
	}
	if !(fa*fb < 0) {
		return 0, fmt.Errorf("%s: %w between %g and %g (residuals %g and %g)", what, ErrNoSolution, lo, hi, fa, fb)
	}
	c, fc := a, fa
	d, e := b-a, b-a
	for range 200 {
		if fb*fc > 0 {
			c, fc = a, fa
			d = b - a
			e = d
		}
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		tol := 2e-16*math.Abs(b) + 1e-14*(hi-lo)
		m := (c - b) / 2
		if math.Abs(m) <= tol || fb == 0 {
			return b, nil
		}
		if math.Abs(e) >= tol && math.Abs(fa) > math.Abs(fb) {
			var p, q float64
			s := fb / fa
			if a == c {
				p, q = 2*m*s, 1-s
			} else {
				q = fa / fc
				r := fb / fc
				p = s * (2*m*q*(q-r) - (b-a)*(r-1))
				q = (q - 1) * (r - 1) * (s - 1)
			}
			if p > 0 {
				q = -q
			}
			p = math.Abs(p)
			if 2*p < math.Min(3*m*q-math.Abs(tol*q), math.Abs(e*q)) {
				e, d = d, p/q
			} else {
				d, e = m, m
			}
		} else {
			d, e = m, m
		}
		a, fa = b, fb
		if math.Abs(d) > tol {
			b += d
		} else {
			b += math.Copysign(tol, m)
		}
		fb = f(b)
	}
	return 0, fmt.Errorf("%s: %w in 200 steps (residual %g)", what, ErrNoSolution, fb)
}

// climb returns the first x in (0, top] at which f reaches 0, and whether it
// does, for a concave f that starts below 0; f returns its value and slope.
// A tangent lies above a concave curve, so Newton's steps from the left come
// up to the root and never pass it; a slope that is gone before the root says
// that there is none.
func climb(top float64, f func(x float64) (value, slope float64)) (x float64, ok bool) {
	return climbFrom(0, top, f)
}

// climbFrom is climb from an x at which f is below 0.
func climbFrom(x, top float64, f func(x float64) (value, slope float64)) (float64, bool) {
	for range 200 {
		v, d := f(x)
		if v >= 0 {
			return x, true
		}
		step := -v / d
		if !(d > 0) || x+step > top {
			return x, false
		}
		x += step
		// The error left is of the order of the step's square.
		if step <= 1e-9*x {
			break
		}
	}
	return x, true
}

package profiles

import "math"

// power is a strain as a straight part and a power of one variable x ≥ 0,
//
//	e = a x + b x^n,  a > 0, b ≥ 0, n ≥ 1,
//
// which is how both laws with hardening are written: x is a stress in a unit
// of its own.
type power struct{ a, b, n float64 }

// at returns e for an x.
func (p power) at(x float64) float64 { return p.a*x + p.b*math.Pow(x, p.n) }

// solve returns x for a strain of 0 or more, to about 1e-14 relative.
func (p power) solve(e float64) float64 {
	if e == 0 {
		return 0
	}
	// With z = ln x, r = power part over straight part = exp(d + (n-1) z), the
	// equation ln((a x + b x^n)/e) = 0 becomes
	//
	//	f(z) = z - ze + ln(1 + r) = 0,  ze = ln(e/a),  d = ln(b/a),
	//
	// increasing and convex, with both branches of the curve straight. The
	// smaller of the two asymptotes bounds z from above, and there f is at
	// most ln 2, from which Halley's steps need no bracket.
	n := p.n
	ze := math.Log(e / p.a)
	d := math.Log(p.b / p.a)
	if d+(n-1)*ze < -40 {
		return e / p.a // no double tells the power part from 0
	}
	z := min(ze, (ze-d)/n)
	for range 60 {
		r := math.Exp(d + (n-1)*z)
		f := z - ze + math.Log1p(r)
		slope := (1 + n*r) / (1 + r)
		half := (n - 1) * (n - 1) * r / (2 * (1 + r) * (1 + r)) // f''/2
		dz := f / (slope - f*half/slope)
		z -= dz
		// The step's own error is of the order of n² dz³.
		if math.Abs(dz)*n < 1e-5 {
			break
		}
	}
	return math.Exp(z)
}

// parts returns x for a strain of 0 or more and the two parts of that strain,
// the second as what is left by the first: another power would cost more.
func (p power) parts(e float64) (x, straight, rest float64) {
	if e == 0 {
		return 0, 0, 0
	}
	x = p.solve(e)
	straight = p.a * x
	return x, straight, max(e-straight, 0)
}

// slope returns dx/de: x over the straight part and n times the rest.
func (p power) slope(e float64) float64 {
	if e == 0 {
		return 1 / (p.a + p.b*p.n*math.Pow(0, p.n-1))
	}
	x, straight, rest := p.parts(e)
	return x / (straight + p.n*rest)
}

// area returns ∫ x de from 0 to the strain of which x, A and B are the parts.
// With x as the variable every term is a power:
//
//	∫ x (a + n b x^(n-1)) dx = x (A/2 + B n/(n+1))
func (p power) area(x, straight, rest float64) float64 {
	return x * (straight/2 + rest*p.n/(p.n+1))
}

// first returns ∫ x e de from 0, likewise:
//
//	x (A²/3 + A B (n+1)/(n+2) + B² n/(2n+1))
func (p power) first(x, straight, rest float64) float64 {
	return x * (straight*straight/3 + straight*rest*(p.n+1)/(p.n+2) + rest*rest*p.n/(2*p.n+1))
}

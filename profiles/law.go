package profiles

import "math"

// Law is a one-dimensional stress-strain curve, the same in tension and
// compression. Strains are pure numbers, stresses MPa.
type Law interface {
	// YoungsModulus returns the slope at zero strain, MPa, by which the
	// material unloads.
	YoungsModulus() float64
	// Stress returns the stress at a strain of either sign.
	Stress(strain float64) float64
	// Tangent returns the slope ds/de at a strain of either sign, MPa.
	Tangent(strain float64) float64
	// StressMoment returns ∫ s(e) e de from 0 to |strain|, MPa. A part of a
	// section with constant width w between heights 0 and y carries the
	// moment w StressMoment(k y) / k² at curvature k.
	StressMoment(strain float64) float64
	// YieldStrain returns the proof or yield stress over E: the elastic strain
	// at which yielding is said to start.
	YieldStrain() float64
	// Knees returns the strains above 0 at which the curve turns fast, lowest
	// first: where a quadrature does well to start a new panel.
	Knees() []float64
}

// RambergOsgood is the curve
//
//	e = s/E + 0.002 (s/s02)^n
//
// with E = Youngs, s02 = Proof (0.2 % proof stress), n = Exponent. Source:
// W. Ramberg and W. R. Osgood, NACA TN 902 (1943); the form with the 0.2 %
// proof stress is that of EN 1999-1-1 Annex E.
type RambergOsgood struct {
	Youngs   float64 // MPa
	Proof    float64 // MPa
	Exponent float64
}

// YoungsModulus returns E in MPa.
func (l RambergOsgood) YoungsModulus() float64 { return l.Youngs }

// Strain returns the strain at a stress of either sign.
func (l RambergOsgood) Strain(stress float64) float64 {
	s := math.Abs(stress)
	return math.Copysign(s/l.Youngs+0.002*math.Pow(s/l.Proof, l.Exponent), stress)
}

// Stress returns the stress in MPa at a strain, to about 1e-14 relative.
func (l RambergOsgood) Stress(strain float64) float64 {
	e := math.Abs(strain)
	if e == 0 {
		return 0
	}
	// With x = ln(s/s02) the elastic part of the strain is a = s02/E exp(x)
	// and r = plastic/elastic = exp(d + (n-1) x). The equation
	// ln((a + plastic)/e) = 0 becomes
	//
	//	f(x) = x - xe + ln(1 + r) = 0,  xe = ln(E e/s02),
	//
	// increasing and convex, with both branches of the curve straight. The
	// smaller of the two asymptotes bounds x from above, and there f is at
	// most ln 2, from which Halley's steps need no bracket.
	n := l.Exponent
	xe := math.Log(l.Youngs * e / l.Proof)
	d := math.Log(0.002 * l.Youngs / l.Proof)
	if d+(n-1)*xe < -40 {
		return l.Youngs * strain // no double tells the plastic part from 0
	}
	x := min(xe, (xe-d)/n)
	for range 60 {
		r := math.Exp(d + (n-1)*x)
		f := x - xe + math.Log1p(r)
		slope := (1 + n*r) / (1 + r)
		half := (n - 1) * (n - 1) * r / (2 * (1 + r) * (1 + r)) // f''/2
		dx := f / (slope - f*half/slope)
		x -= dx
		// The step's own error is of the order of n² dx³.
		if math.Abs(dx)*n < 1e-5 {
			break
		}
	}
	return math.Copysign(l.Proof*math.Exp(x), strain)
}

// Tangent returns ds/de in MPa:
//
//	1/Et = 1/E + 0.002 n/s02 (s/s02)^(n-1)
//
// The second term is n p/s with the plastic strain p = e - s/E.
func (l RambergOsgood) Tangent(strain float64) float64 {
	e := math.Abs(strain)
	if e == 0 {
		return 1 / (1/l.Youngs + 0.002*l.Exponent/l.Proof*math.Pow(0, l.Exponent-1))
	}
	s := l.Stress(e)
	a := s / l.Youngs
	return s / (a + l.Exponent*max(e-a, 0))
}

// StressMoment returns ∫ s e de from 0 to |strain| in MPa. By parts, with the
// stress as the variable, every term is a power:
//
//	s e²/2 - 1/2 ∫ e² ds
//	∫ e² ds = s³/(3E²) + 2 p s²/(E (n+2)) + p² s/(2n+1),  p = 0.002 (s/s02)^n
func (l RambergOsgood) StressMoment(strain float64) float64 {
	e := math.Abs(strain)
	s := l.Stress(e)
	a := s / l.Youngs
	p := max(e-a, 0) // the plastic strain at s, without another power
	n := l.Exponent
	// s e²/2 less half the integral, term by term, so that nothing cancels.
	return s * (a*a/3 + a*p*(n+1)/(n+2) + p*p*n/(2*n+1))
}

// YieldStrain returns s02/E.
func (l RambergOsgood) YieldStrain() float64 { return l.Proof / l.Youngs }

// Knees brackets the bend of the curve: where plastic strain begins to count,
// where it equals the elastic one in kind (the proof stress), and well beyond.
func (l RambergOsgood) Knees() []float64 {
	y := l.Proof / l.Youngs
	return []float64{0.7 * y, y, y + 0.002, 2*y + 0.006}
}

// ElasticPlastic is the elastic, perfectly plastic curve: slope Youngs to the
// stress Yield, flat from there.
type ElasticPlastic struct {
	Youngs float64 // MPa
	Yield  float64 // MPa
}

// YoungsModulus returns E in MPa.
func (l ElasticPlastic) YoungsModulus() float64 { return l.Youngs }

// Stress returns the stress in MPa at a strain.
func (l ElasticPlastic) Stress(strain float64) float64 {
	return max(-l.Yield, min(l.Yield, l.Youngs*strain))
}

// Tangent returns E below yield and 0 at and above it.
func (l ElasticPlastic) Tangent(strain float64) float64 {
	if math.Abs(strain)*l.Youngs < l.Yield {
		return l.Youngs
	}
	return 0
}

// StressMoment returns ∫ s e de from 0 to |strain| in MPa: E e³/3 to yield,
// Y (e²/2 - ey²/6) beyond, ey = Y/E.
func (l ElasticPlastic) StressMoment(strain float64) float64 {
	e, ey := math.Abs(strain), l.Yield/l.Youngs
	if e <= ey {
		return l.Youngs * e * e * e / 3
	}
	return l.Yield * (e*e/2 - ey*ey/6)
}

// YieldStrain returns Y/E.
func (l ElasticPlastic) YieldStrain() float64 { return l.Yield / l.Youngs }

// Knees returns the yield strain.
func (l ElasticPlastic) Knees() []float64 { return []float64{l.Yield / l.Youngs} }

// AnnexEExponent returns the Ramberg-Osgood exponent from the proof stress fo
// and the ultimate stress fu, both MPa, by EN 1999-1-1 Annex E:
//
//	n = ln(eps_u/0.002) / ln(fu/fo)
//	eps_u = 0.30 - 0.22 fo/400 for fo < 400 MPa, 0.08 above
//
// fu must exceed fo; otherwise the result is not finite or negative.
func AnnexEExponent(fo, fu float64) float64 {
	epsU := 0.08
	if fo < 400 {
		epsU = 0.30 - 0.22*fo/400
	}
	return math.Log(epsU/0.002) / math.Log(fu/fo)
}

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
	// StressWithMoment returns Stress and StressMoment at a strain of 0 or
	// more, for the price of one.
	StressWithMoment(strain float64) (stress, moment float64)
	// Work returns ∫ s de from 0 to |strain|, MPa.
	Work(strain float64) float64
	// YieldStrain returns the proof or yield stress over E: the elastic strain
	// at which yielding is said to start.
	YieldStrain() float64
	// Knees returns the strains above 0 at which the curve turns fast, lowest
	// first: where a quadrature does well to start a new panel.
	Knees() []float64
}

// ProofStrain is the plastic strain at the 0.2 % proof stress, by which the laws
// are written.
const ProofStrain = 0.002

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

// power is the curve with the stress in units of the proof stress.
func (l RambergOsgood) power() power { return power{l.Proof / l.Youngs, ProofStrain, l.Exponent} }

// Strain returns the strain at a stress of either sign.
func (l RambergOsgood) Strain(stress float64) float64 {
	return math.Copysign(l.power().at(math.Abs(stress)/l.Proof), stress)
}

// Stress returns the stress in MPa at a strain, to about 1e-14 relative.
func (l RambergOsgood) Stress(strain float64) float64 {
	return math.Copysign(l.Proof*l.power().solve(math.Abs(strain)), strain)
}

// Tangent returns ds/de in MPa:
//
//	1/Et = 1/E + 0.002 n/s02 (s/s02)^(n-1)
func (l RambergOsgood) Tangent(strain float64) float64 {
	return l.Proof * l.power().slope(math.Abs(strain))
}

// StressMoment returns ∫ s e de from 0 to |strain| in MPa, exactly.
func (l RambergOsgood) StressMoment(strain float64) float64 {
	_, m := l.StressWithMoment(math.Abs(strain))
	return m
}

// StressWithMoment returns Stress and StressMoment at a strain of 0 or more.
func (l RambergOsgood) StressWithMoment(strain float64) (stress, moment float64) {
	p := l.power()
	x, straight, rest := p.parts(strain)
	return l.Proof * x, l.Proof * p.first(x, straight, rest)
}

// Work returns ∫ s de from 0 to |strain| in MPa, exactly.
func (l RambergOsgood) Work(strain float64) float64 {
	p := l.power()
	return l.Proof * p.area(p.parts(math.Abs(strain)))
}

// YieldStrain returns s02/E.
func (l RambergOsgood) YieldStrain() float64 { return l.Proof / l.Youngs }

// Knees brackets the bend of the curve: where plastic strain begins to count,
// where it equals the elastic one in kind (the proof stress), and well beyond.
func (l RambergOsgood) Knees() []float64 {
	y := l.Proof / l.Youngs
	return []float64{0.7 * y, y, y + ProofStrain, 2*y + 0.006}
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

// Work returns ∫ s de from 0 to |strain| in MPa: E e²/2 to yield, Y (e - ey/2)
// beyond.
func (l ElasticPlastic) Work(strain float64) float64 {
	e, ey := math.Abs(strain), l.Yield/l.Youngs
	if e <= ey {
		return l.Youngs * e * e / 2
	}
	return l.Yield * (e - ey/2)
}

// StressWithMoment returns Stress and StressMoment at a strain of 0 or more.
func (l ElasticPlastic) StressWithMoment(strain float64) (stress, moment float64) {
	return l.Stress(strain), l.StressMoment(strain)
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
	return math.Log(epsU/ProofStrain) / math.Log(fu/fo)
}

package profiles

import "math"

// TwoStage is a curve in two parts that meet with one slope at the proof
// stress fo = Proof. Up to it, it is RambergOsgood's with the exponent n =
// Exponent; above,
//
//	e = 0.002 + fo/E + (s - fo)/E2 + eu ((s - fo)/(fu - fo))^m
//	E2 = E/(1 + 0.002 n E/fo)
//
// with fu = Ultimate above Proof, eu = Uniform and m = Second ≥ 1. It is for
// metals that harden for long after a low yield, which one power can't follow.
// Above fu the same formula goes on: it rises and says nothing of necking.
// Source: EN 1993-1-4 Annex C, from memory; first put together by E.
// Mirambell and E. Real (2000) and K. J. R. Rasmussen (2003), from memory.
type TwoStage struct {
	Youngs   float64 // MPa
	Proof    float64 // MPa
	Ultimate float64 // MPa
	Exponent float64 // of the first stage
	Uniform  float64 // eu, of the second stage's power part at Ultimate
	Second   float64 // exponent of the second stage
}

// below is the first stage.
func (l TwoStage) below() RambergOsgood { return RambergOsgood{l.Youngs, l.Proof, l.Exponent} }

// above is the second, from the proof stress and its strain on, with the
// stress in units of fu - fo.
func (l TwoStage) above() power {
	return power{(l.Ultimate - l.Proof) * (1/l.Youngs + ProofStrain*l.Exponent/l.Proof), l.Uniform, l.Second}
}

// border is the strain at the proof stress.
func (l TwoStage) border() float64 { return ProofStrain + l.Proof/l.Youngs }

// YoungsModulus returns E in MPa.
func (l TwoStage) YoungsModulus() float64 { return l.Youngs }

// Strain returns the strain at a stress of either sign.
func (l TwoStage) Strain(stress float64) float64 {
	over := math.Abs(stress) - l.Proof
	if over <= 0 {
		return l.below().Strain(stress)
	}
	return math.Copysign(l.border()+l.above().at(over/(l.Ultimate-l.Proof)), stress)
}

// Stress returns the stress in MPa at a strain.
func (l TwoStage) Stress(strain float64) float64 {
	over := math.Abs(strain) - l.border()
	if over <= 0 {
		return l.below().Stress(strain)
	}
	return math.Copysign(l.Proof+(l.Ultimate-l.Proof)*l.above().solve(over), strain)
}

// Tangent returns ds/de in MPa.
func (l TwoStage) Tangent(strain float64) float64 {
	over := math.Abs(strain) - l.border()
	if over <= 0 {
		return l.below().Tangent(strain)
	}
	return (l.Ultimate - l.Proof) * l.above().slope(over)
}

// StressMoment returns ∫ s e de from 0 to |strain| in MPa, exactly. In the
// second stage e = e0 + u and s = fo + (fu - fo) x, so that its part is
//
//	fo (e0 u + u²/2) + (fu - fo) (e0 ∫ x du + ∫ x u du)
func (l TwoStage) StressMoment(strain float64) float64 {
	_, m := l.StressWithMoment(math.Abs(strain))
	return m
}

// StressWithMoment returns Stress and StressMoment at a strain of 0 or more.
func (l TwoStage) StressWithMoment(strain float64) (stress, moment float64) {
	e0 := l.border()
	u := strain - e0
	if u <= 0 {
		return l.below().StressWithMoment(strain)
	}
	first := l.Proof * l.below().power().first(1, l.YieldStrain(), ProofStrain) // at the border the parts are known
	p, over := l.above(), l.Ultimate-l.Proof
	x, straight, rest := p.parts(u)
	return l.Proof + over*x, first + l.Proof*(e0*u+u*u/2) + over*(e0*p.area(x, straight, rest)+p.first(x, straight, rest))
}

// Work returns ∫ s de from 0 to |strain| in MPa, exactly: in the second stage
// fo u + (fu - fo) ∫ x du on top of the first, in StressWithMoment's terms.
func (l TwoStage) Work(strain float64) float64 {
	u := math.Abs(strain) - l.border()
	if u <= 0 {
		return l.below().Work(strain)
	}
	first := l.Proof * l.below().power().area(1, l.YieldStrain(), ProofStrain)
	p := l.above()
	return first + l.Proof*u + (l.Ultimate-l.Proof)*p.area(p.parts(u))
}

// YieldStrain returns fo/E.
func (l TwoStage) YieldStrain() float64 { return l.Proof / l.Youngs }

// Knees returns where the first stage bends, the border of the two, and three
// places about where the second stage's power overtakes its straight part.
func (l TwoStage) Knees() []float64 {
	p, e0 := l.above(), l.border()
	u := 0.0
	if l.Second > 1 {
		u = 2 * p.a * math.Pow(p.a/p.b, 1/(l.Second-1))
	}
	knees := []float64{l.YieldStrain() / 2, l.YieldStrain(), e0}
	for _, f := range [...]float64{1.0 / 8, 1, 4} {
		// Where the power rules from the start, or never does, there is no knee.
		if e := e0 + f*u; e > e0*(1+1e-6) && e < 1 {
			knees = append(knees, e)
		}
	}
	return knees
}

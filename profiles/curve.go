package profiles

// Curve is what a metal's law is made from: the kind of metal and its
// strengths. It is a value to vary: At gives the same metal at another proof
// stress, and a caller may set Exponent.
type Curve struct {
	Family   Family
	Youngs   float64 // MPa
	Proof    float64 // 0.2 % proof stress, MPa
	Ultimate float64 // MPa, above Proof; 0: not known
	Exponent float64 // Ramberg-Osgood exponent; of a two-stage law the first stage's
}

// At returns the curve for another proof stress in MPa. The exponent and the
// ratio of ultimate to proof stress stay: no source gives those of a strong
// sample.
func (c Curve) At(proof float64) Curve {
	c.Ultimate *= proof / c.Proof
	c.Proof = proof
	return c
}

// The first stage's exponents and the coefficients of the second stage's
// exponent, m = 1 + c fo/fu, and strain, eu = k (1 - fo/fu).
const (
	// Austenitic stainless steel: EN 1993-1-4 Annex C, from memory. Checked
	// against measured curves of 304L in geom/bend.
	stainlessExponent = 7.0
	stainlessSecond   = 3.5
	stainlessUniform  = 1.0
	// Cold-formed steel: L. Gardner and X. Yun, Construction and Building
	// Materials 189 (2018), the same form fitted to several hundred tensile
	// curves, from memory; the exponent rounded. No curve was at hand to check
	// it. Hot-rolled steel has a yield plateau, which it rounds off.
	steelExponent = 8.0
	steelSecond   = 3.3
	steelUniform  = 0.6
)

// Law returns the law of the metal: RambergOsgood for aluminium, TwoStage for
// stainless and other steel. Steel of which no ultimate stress is known has the
// RambergOsgood of its exponent.
func (c Curve) Law() Law {
	if !c.Family.Ferrous() || c.Ultimate == 0 {
		return RambergOsgood{c.Youngs, c.Proof, c.Exponent}
	}
	second, uniform := steelSecond, steelUniform
	if c.Family == Stainless {
		second, uniform = stainlessSecond, stainlessUniform
	}
	ratio := c.Proof / c.Ultimate
	return TwoStage{
		Youngs: c.Youngs, Proof: c.Proof, Ultimate: c.Ultimate, Exponent: c.Exponent,
		Uniform: uniform * (1 - ratio), Second: 1 + second*ratio,
	}
}

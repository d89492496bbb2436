package bend

import (
	"math"

	"overbend/profiles"
)

// plateFactor is k of [TN3781] for a long plate, simply supported along both
// edges, in compression.
const plateFactor = 4.0

// BucklingStrain returns the compressive strain at which the inner wall of an
// empty tube buckles, elastic or plastic.
//
// A rectangle's inner wall is a long simply supported plate of width
// b = W - t between wall middles ([TN3781]):
//
//	s = eta 4 π² E / (12 (1 - nu²)) (t/b)²
//	eta = (Es/E) (1 - nu²)/(1 - nu_p²) (1/2 + 1/4 sqrt(1 + 3 Et/Es))
//	nu_p = 1/2 - (Es/E) (1/2 - nu)
//
// with Es, Et the secant and tangent modulus at the strain and nu the elastic
// Poisson ratio. A round tube's wall is taken as an axially compressed
// cylinder of mean radius r ([TN3783]), which is on the safe side in bending:
//
//	s = sqrt(Es Et) / sqrt(3 (1 - nu_p²)) t/r
//
// The result solves s(strain) = the law's stress at it.
func BucklingStrain(s profiles.Section, law profiles.Law, poisson float64) (float64, error) {
	young := law.YoungsModulus()
	critical := func(e float64) float64 {
		es, et := law.Stress(e)/e, law.Tangent(e)
		nup := 0.5 - es/young*(0.5-poisson)
		if s.Shape == profiles.Round {
			r := (s.Depth - s.Wall) / 2
			return math.Sqrt(es*et/(3*(1-nup*nup))) * s.Wall / r
		}
		b := s.Width - s.Wall
		eta := es / young * (1 - poisson*poisson) / (1 - nup*nup) * (0.5 + 0.25*math.Sqrt(1+3*et/es))
		return eta * plateFactor * math.Pi * math.Pi * young / (12 * (1 - poisson*poisson)) * (s.Wall / b) * (s.Wall / b)
	}
	// In ln(strain), from far below any yield to a strain no metal reaches.
	x, err := root("buckling strain", math.Log(1e-9), math.Log(10), func(x float64) float64 {
		e := math.Exp(x)
		// A perfectly plastic law has no tangent: keep the logarithm finite.
		return math.Log(max(critical(e), 1e-12) / law.Stress(e))
	})
	return math.Exp(x), err
}

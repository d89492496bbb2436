package bend

import (
	"math"

	"overbend/profiles"
)

// The factors k of [TN3781] for a long plate, simply supported along both edges.
const (
	flangeFactor = 4.0  // in compression
	webFactor    = 23.9 // bent in its plane
)

// neverBuckles is a strain that no metal reaches. The side walls of a stout tube
// hold to it; its inner wall never does.
const neverBuckles = 10

// Buckling says when an empty tube gives way.
type Buckling struct {
	Strain float64 // compressive, at the inner face, as a fraction
	Web    bool    // a side wall goes first, not the inner one
}

// BucklingStrain returns the compressive strain at the inner face at which the
// first wall of an empty tube buckles, elastic or plastic.
//
// A rectangle's walls are long simply supported plates of width b between wall
// middles ([TN3781]): the inner one in compression, k = 4 and b = W - t, and the
// side walls in bending, k = 23.9 and b = D - t, by their highest stress:
//
//	s = eta k π² E / (12 (1 - nu²)) (t/b)²
//	eta = (Es/E) (1 - nu²)/(1 - nu_p²) (1/2 + 1/4 sqrt(1 + 3 Et/Es))
//	nu_p = 1/2 - (Es/E) (1/2 - nu)
//
// with Es, Et the secant and tangent modulus at the strain and nu the elastic
// Poisson ratio. Eta is that of the plate in compression; that the metal nearer
// the middle of a side wall is stiffer is left out, which is on the safe side. A
// round tube's wall is taken as an axially compressed cylinder of mean radius r
// ([TN3783]), which is on the safe side in bending:
//
//	s = sqrt(Es Et) / sqrt(3 (1 - nu_p²)) t/r
//
// The result solves s(strain) = the law's stress at it.
func BucklingStrain(s profiles.Section, law profiles.Law, poisson float64) (Buckling, error) {
	young := law.YoungsModulus()
	// at returns the strain at which a wall buckles whose critical stress over
	// the law's is given for secant and tangent modulus and nu_p.
	at := func(critical func(es, et, nup float64) float64) (float64, error) {
		spare := func(x float64) float64 {
			e := math.Exp(x)
			stress := law.Stress(e)
			es, et := stress/e, law.Tangent(e)
			// A perfectly plastic law has no tangent: keep the logarithm finite.
			return math.Log(max(critical(es, et, 0.5-es/young*(0.5-poisson)), 1e-12) / stress)
		}
		most := math.Log(neverBuckles)
		if spare(most) >= 0 {
			return neverBuckles, nil
		}
		// In ln(strain), from far below any yield.
		x, err := root("buckling strain", math.Log(1e-9), most, spare)
		return math.Exp(x), err
	}
	if s.Shape == profiles.Round {
		e, err := at(func(es, et, nup float64) float64 {
			return math.Sqrt(es*et/(3*(1-nup*nup))) * s.Wall / ((s.Depth - s.Wall) / 2)
		})
		return Buckling{Strain: e}, err
	}
	plate := func(k, b float64) (float64, error) {
		elastic := k * math.Pi * math.Pi / 12 * (s.Wall / b) * (s.Wall / b)
		return at(func(es, et, nup float64) float64 {
			return elastic * es / (1 - nup*nup) * (0.5 + 0.25*math.Sqrt(1+3*et/es))
		})
	}
	flange, err := plate(flangeFactor, s.Width-s.Wall)
	if err != nil {
		return Buckling{}, err
	}
	web, err := plate(webFactor, s.Depth-s.Wall)
	if err != nil || web >= flange {
		return Buckling{Strain: flange}, err
	}
	return Buckling{Strain: web, Web: true}, nil
}

package bend

import (
	"math"
	"sort"
	"sync"

	"overbend/profiles"
)

// sampled is a law whose stress is read from a table of polynomials instead of
// being solved for at every point. Rounded parts of a section ask for the
// stress a few thousand times a press; inverting a Ramberg-Osgood curve that
// often would cost more than all the rest. Everything else is the law's own.
type sampled struct {
	profiles.Law
	knees   []float64        // the law's, asked for once
	borders []float64        // strains, rising from 0
	coef    [][order]float64 // by panel, in powers of the place from -1 to 1
}

// sampleError is the largest relative error of a sampled stress: what a moment
// may err by is ten times as much.
const sampleError = 1e-9

// sample tabulates a law up to the strain top > 0. Panels are halved until the
// polynomial through the nodes of a panel meets the law at the panel's ends,
// where a polynomial through Gauss nodes errs most.
func sample(law profiles.Law, top float64) sampled {
	powers := toPowers()
	s := sampled{Law: law, knees: law.Knees(), borders: []float64{0}}
	var add func(lo, hi, atLo, atHi float64, depth int)
	add = func(lo, hi, atLo, atHi float64, depth int) {
		mid, half := (lo+hi)/2, (hi-lo)/2
		var value, c [order]float64
		for i, x := range gaussX {
			value[i] = law.Stress(mid + half*x)
		}
		for i := range order {
			for j := range order {
				c[i] += powers[i][j] * value[j]
			}
		}
		even, odd := 0.0, 0.0
		for i := 0; i < order; i += 2 {
			even += c[i]
			odd += c[i+1]
		}
		off := max(math.Abs(even-odd-atLo), math.Abs(even+odd-atHi))
		if off > sampleError*atHi && depth > 0 {
			at := law.Stress(mid)
			add(lo, mid, atLo, at, depth-1)
			add(mid, hi, at, atHi, depth-1)
			return
		}
		s.borders = append(s.borders, hi)
		s.coef = append(s.coef, c)
	}
	lo, at := 0.0, 0.0
	for _, hi := range append(law.Knees(), top) {
		if hi = min(hi, top); hi > lo {
			v := law.Stress(hi)
			add(lo, hi, at, v, 30)
			lo, at = hi, v
		}
	}
	return s
}

// toPowers turns values at the Gauss nodes into the coefficients of the
// polynomial through them. It is worked out when first asked for.
var toPowers = sync.OnceValue(powersOfLagrange)

func powersOfLagrange() *[order][order]float64 {
	var c [order][order]float64
	for j := range order {
		// The Lagrange polynomial of node j, multiplied out.
		p := [order]float64{1}
		scale := 1.0
		for m, x := range gaussX {
			if m == j {
				continue
			}
			for i := order - 1; i > 0; i-- {
				p[i] = p[i-1] - x*p[i]
			}
			p[0] *= -x
			scale *= gaussX[j] - x
		}
		for i := range order {
			c[i][j] = p[i] / scale
		}
	}
	return &c
}

// Stress returns the stress in MPa at a strain of either sign.
func (s sampled) Stress(strain float64) float64 {
	e := math.Abs(strain)
	n := len(s.coef)
	if e > s.borders[n] {
		return s.Law.Stress(strain)
	}
	i := min(sort.SearchFloat64s(s.borders[1:n], e), n-1)
	lo, hi := s.borders[i], s.borders[i+1]
	x := (2*e - lo - hi) / (hi - lo)
	c := &s.coef[i]
	y := c[order-1]
	for j := order - 2; j >= 0; j-- {
		y = y*x + c[j]
	}
	return math.Copysign(y, strain)
}

// Knees returns the law's knees.
func (s sampled) Knees() []float64 { return s.knees }

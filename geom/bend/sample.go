package bend

import (
	"math"
	"sync"

	"overbend/profiles"
)

// sampled is a law whose stress and stress moment are read from tables of
// polynomials instead of being solved for at every point. Rounded parts of a
// section ask for them a few thousand times a press; inverting a Ramberg-Osgood
// curve that often would cost more than all the rest. Everything else is the
// law's own.
type sampled struct {
	profiles.Law
	knees   []float64        // the law's, asked for once
	borders []float64        // strains, rising from 0
	middle  []float64        // of the panels, strains
	per     []float64        // places a strain in a panel: 2 over its width
	coef    [][order]float64 // by panel, in powers of the place from -1 to 1
	// The stress moment likewise: that of the stress's polynomials.
	moment [][order + 2]float64
	// Below this strain the law is asked: the moment, which falls with the strain's
	// cube, would drown in the rounding of the first panel's.
	least float64
	// first is the panel that a strain can lie in first, by its place in even
	// steps, of which there are step a strain.
	first [64]uint8
	step  float64
}

// Sampled returns a law that is read from tables up to the strain top > 0, for a
// metal that many moments are asked of; past it and where the tables would not do
// the law itself is. The stress errs by 1e-9 of that at the end of a stretch in
// which it less than doubles.
func Sampled(law profiles.Law, top float64) profiles.Law { return sample(law, top) }

// tabled is a law with tables.
type tabled interface {
	profiles.Law
	top() float64 // strain up to which they go
}

// top returns the strain up to which the table goes.
func (s *sampled) top() float64 { return s.borders[len(s.coef)] }

// sampledTo returns a law with tables up to a strain: the law itself if it has
// them.
func sampledTo(law profiles.Law, top float64) profiles.Law {
	if t, ok := law.(tabled); ok && t.top() >= top {
		return law
	}
	return sample(law, top)
}

// sampleError is the largest relative error of a sampled stress: what a moment
// may err by is ten times as much.
const sampleError = 1e-9

// sample tabulates a law up to the strain top > 0. Panels are halved until the
// polynomial through the nodes of a panel meets the law at the panel's ends,
// where a polynomial through Gauss nodes errs most.
func sample(law profiles.Law, top float64) *sampled {
	s := &sampled{Law: law, knees: law.Knees(), borders: []float64{0}}
	sum := 0.0 // ∫ s e de up to here
	var add func(lo, hi, atLo, atHi float64, depth int)
	add = func(lo, hi, atLo, atHi float64, depth int) {
		mid, half := (lo+hi)/2, (hi-lo)/2
		var value [order]float64
		for i, x := range gaussX {
			value[i] = law.Stress(mid + half*x)
		}
		c := through(&value)
		off := max(math.Abs(horner(c[:], -1)-atLo), math.Abs(horner(c[:], 1)-atHi))
		if off > sampleError*atHi && depth > 0 {
			at := law.Stress(mid)
			add(lo, mid, atLo, at, depth-1)
			add(mid, hi, at, atHi, depth-1)
			return
		}
		s.borders = append(s.borders, hi)
		s.middle, s.per = append(s.middle, mid), append(s.per, 1/half)
		s.coef = append(s.coef, c)
		// ∫ s e de with e = mid + half x, on from the panel's lower end.
		var g [order + 2]float64
		for i := range c {
			g[i+1] += half * mid * c[i] / float64(i+1)
			g[i+2] += half * half * c[i] / float64(i+2)
		}
		below := 0.0 // the polynomial at -1
		for i := range g {
			below += g[i] * float64(1-i%2*2)
		}
		g[0] = sum - below
		sum = horner(g[:], 1)
		s.moment = append(s.moment, g)
	}
	lo, at := 0.0, 0.0
	for _, hi := range append(law.Knees(), top) {
		if hi = min(hi, top); hi > lo {
			v := law.Stress(hi)
			add(lo, hi, at, v, 30)
			lo, at = hi, v
		}
	}
	s.least = s.borders[1] / 16
	s.step = float64(len(s.first)) / top
	for i, panel := 0, 0; i < len(s.first); i++ {
		for panel < len(s.coef)-1 && s.borders[panel+1]*s.step < float64(i) {
			panel++
		}
		s.first[i] = uint8(min(panel, math.MaxUint8))
	}
	return s
}

// through returns the coefficients of the polynomial through values at the Gauss
// nodes, lowest power first.
func through(values *[order]float64) [order]float64 {
	powers := toPowers()
	var c [order]float64
	for i := range c {
		c[i] = running(&powers[i], values)
	}
	return c
}

// horner returns the value of a polynomial with an even number of coefficients:
// its even and its odd powers apart, which a processor does at once.
func horner(c []float64, x float64) float64 {
	q := x * x
	n := len(c) - 2
	even, odd := c[n], c[n+1]
	for j := n - 2; j >= 0; j -= 2 {
		even, odd = even*q+c[j], odd*q+c[j+1]
	}
	return even + x*odd
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

// panel returns the panel of a strain of 0 or more and the place in it, or false
// where the table does not do.
func (s *sampled) panel(e float64) (i int, x float64, ok bool) {
	n := len(s.coef)
	if e > s.borders[n] || e < s.least {
		return 0, 0, false
	}
	i = int(s.first[min(int(e*s.step), len(s.first)-1)])
	for e > s.borders[i+1] {
		i++
	}
	return i, (e - s.middle[i]) * s.per[i], true
}

// Stress returns the stress in MPa at a strain of either sign.
func (s *sampled) Stress(strain float64) float64 {
	i, x, ok := s.panel(math.Abs(strain))
	if !ok {
		return s.Law.Stress(strain)
	}
	return math.Copysign(horner(s.coef[i][:], x), strain)
}

// StressMoment returns ∫ s e de from 0 to |strain| in MPa.
func (s *sampled) StressMoment(strain float64) float64 {
	_, m := s.StressWithMoment(math.Abs(strain))
	return m
}

// StressWithMoment returns Stress and StressMoment at a strain of 0 or more.
func (s *sampled) StressWithMoment(strain float64) (stress, moment float64) {
	i, x, ok := s.panel(strain)
	if !ok {
		return s.Law.StressWithMoment(strain)
	}
	return horner(s.coef[i][:], x), horner(s.moment[i][:], x)
}

// Knees returns the law's knees.
func (s *sampled) Knees() []float64 { return s.knees }

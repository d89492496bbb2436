package bend

import "math"

// places is how many places of a leg stand for all its nodes in [few].
const places = 12

// fewSine is the sine of a leg's turn up to which the places do: at 45 degrees
// they err by less than 1e-9 of an integral, and less by a factor 10 every 10 degrees
// below (a test).
const fewSine = math.Sqrt2 / 2

// few stands for the nodes of a leg in the integrals that a press asks for over
// and over with other lever arms. They all have the form
//
//	∫ f dM/cos psi,  sin psi = arm lean
//
// in which only psi depends on the arm, and 1/cos psi = 1/sqrt(1 - sin² psi) is a
// smooth function of lean². The polynomial through its values at the Chebyshev
// points of lean² takes its place; the polynomials' coefficients are put into the
// weights of f once. (Interpolation of an analytic function in Chebyshev points
// of the first kind errs by rho to the power -n, rho = z + sqrt(z² - 1) where z
// = 2/sin² - 1 is where it is singular; from memory.)
type few struct {
	most   float64         // arm up to which the places do, mm
	lean2  [places]float64 // lean² at the places
	lean   [places]float64 // weight of f = lean
	shares [places]sums    // weights of what sums hold
}

// newFew returns the places for the nodes of a leg.
func newFew(c *legCurve) *few {
	f := &few{most: fewSine / c.lean}
	top := c.lean * c.lean
	var bary [places]float64
	for j := range places {
		a := math.Pi * (float64(j) + 0.5) / places
		f.lean2[j] = top * (1 + math.Cos(a)) / 2
		bary[j] = math.Sin(a) * float64(1-j%2*2)
	}
	var base [places]float64
	for i := range c.nodes {
		n := &c.nodes[i]
		y, sum := n.lean*n.lean, 0.0
		for j := range places {
			d := y - f.lean2[j]
			if d == 0 {
				d = 1e-300 // the node is the place
			}
			base[j] = bary[j] / d
			sum += base[j]
		}
		per := n.share(c.yield)
		for j := range places {
			w := n.w * base[j] / sum
			f.lean[j] += w * n.lean
			f.shares[j].add(w, per)
		}
	}
	return f
}

// serves reports whether the places stand for the nodes at a lever arm in mm.
func (f *few) serves(arm float64) bool { return f != nil && arm <= f.most }

// across is legCurve's.
func (f *few) across(arm float64) (v, dv float64) {
	for j := range places {
		cos2 := 1 - arm*arm*f.lean2[j]
		tan := f.lean[j] / math.Sqrt(cos2)
		v += tan
		dv += tan + tan/cos2
	}
	return arm * arm * v, arm * dv
}

// along is legCurve's.
func (f *few) along(arm float64) sums {
	var s sums
	for j := range places {
		s.add(arm/math.Sqrt(1-arm*arm*f.lean2[j]), f.shares[j])
	}
	return s
}

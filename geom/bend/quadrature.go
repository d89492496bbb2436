package bend

import (
	"math"
	"sync"
)

// order is the number of Gauss-Legendre points in a panel: exact to degree 15.
const order = 8

// gaussX and gaussW are the 8-point Gauss-Legendre nodes and weights on
// [-1, 1] (Abramowitz and Stegun, table 25.4; checked against gonum in tests).
var (
	gaussX = [order]float64{
		-0.9602898564975362, -0.7966664774136267, -0.5255324099163290, -0.1834346424956498,
		0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975362,
	}
	gaussW = [order]float64{
		0.1012285362903763, 0.2223810344533745, 0.3137066458778873, 0.3626837833783620,
		0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763,
	}
)

// cumulative[i][j] is the weight of node j in the integral from -1 to node i
// of the polynomial through all nodes: what turns values at the nodes into
// their running integral at the same nodes. It is worked out when first asked for.
var cumulative = sync.OnceValue(cumulativeWeights)

func cumulativeWeights() *[order][order]float64 {
	var c [order][order]float64
	for i := range order {
		// The Lagrange polynomials have degree 7, so the same 8-point rule,
		// mapped to [-1, x_i], integrates them exactly.
		half := (gaussX[i] + 1) / 2
		for q := range order {
			x := -1 + half*(gaussX[q]+1)
			for j := range order {
				l := 1.0
				for m := range order {
					if m != j {
						l *= (x - gaussX[m]) / (gaussX[j] - gaussX[m])
					}
				}
				c[i][j] += half * gaussW[q] * l
			}
		}
	}
	return &c
}

// panels returns the borders of panels that cover [0, top]: a border at each
// knee below top, and no panel wider than twice its lower end (or, for the
// first, the lowest knee), so that a curve with power-law parts is smooth in
// every panel. Refine splits each of these evenly.
func panels(top float64, knees []float64, refine int) []float64 {
	out := []float64{0}
	push := func(x float64) {
		last := out[len(out)-1]
		if x <= last*(1+1e-9) {
			return
		}
		n := max(1, refine)
		if last > 0 {
			// Geometric steps of at most a factor 2.
			n *= max(1, int(math.Ceil(math.Log2(x/last)-1e-9)))
			f := math.Pow(x/last, 1/float64(n))
			for range n - 1 {
				last *= f
				out = append(out, last)
			}
		} else {
			for i := 1; i < n; i++ {
				out = append(out, x*float64(i)/float64(n))
			}
		}
		out = append(out, x)
	}
	for _, k := range knees {
		if k < top {
			push(k)
		}
	}
	push(top)
	return out
}

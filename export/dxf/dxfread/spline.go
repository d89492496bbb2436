package dxfread

import "overbend/geom"

// mostDegree is the highest degree of a spline that is taken; CAD writes 3, some
// 5.
const mostDegree = 10

// spline returns a SPLINE as short chords with their ends on the curve; one of
// which only the fit points are known, the chords through those.
func (n *numbers) spline() geom.Path {
	degree := n.flag(71, 3)
	var knots, weights []float64
	var control, fit []geom.Point
	for _, t := range n.r.tags {
		var to *[]geom.Point
		switch t.code {
		case 40, 41, 10, 20, 11, 21:
		default:
			continue
		}
		v, err := t.number()
		if err != nil {
			n.err = err
			return geom.Path{}
		}
		switch t.code {
		case 40:
			knots = append(knots, v)
			continue
		case 41:
			weights = append(weights, v)
			continue
		case 10, 20:
			to = &control
		default:
			to = &fit
		}
		if t.code < 20 {
			*to = append(*to, geom.Pt(v, 0))
		} else if k := len(*to) - 1; k >= 0 {
			(*to)[k].Y = v
		}
	}
	if n.err != nil {
		return geom.Path{}
	}
	if len(control) == 0 {
		return finished(geom.Lines(fit...), 0)
	}
	bad := func(what string) geom.Path {
		n.err = faultf(n.r.line, "a SPLINE %s", what)
		return geom.Path{}
	}
	switch {
	case degree < 1 || degree > mostDegree:
		return bad("has a degree that is not from 1 to 10")
	case len(control) <= degree:
		return bad("has too few control points for its degree")
	case len(knots) != len(control)+degree+1:
		return bad("has not as many knots as its control points and degree ask for")
	case len(weights) != 0 && len(weights) != len(control):
		return bad("has not a weight for each control point")
	}
	for i := range knots {
		if i > 0 && knots[i] < knots[i-1] {
			return bad("has knots that do not ascend")
		}
	}
	for _, w := range weights {
		if w <= 0 {
			return bad("has a weight that is not above 0")
		}
	}
	return finished(geom.Lines(chords(degree, knots, weights, control)...), 0)
}

// chords returns points of a spline, evenly over each of its spans.
func chords(degree int, knots, weights []float64, control []geom.Point) []geom.Point {
	spans := 0
	for k := degree; k < len(control); k++ {
		if knots[k+1] > knots[k] {
			spans++
		}
	}
	if spans == 0 {
		return nil
	}
	each := min(spanChords, max(fewestChords, splineChords/spans))
	out := make([]geom.Point, 0, spans*each+1)
	d := deBoor{degree: degree, knots: knots, weights: weights, control: control}
	for k := degree; k < len(control); k++ {
		a, b := knots[k], knots[k+1]
		if b <= a {
			continue
		}
		if len(out) == 0 {
			out = append(out, d.at(k, a))
		}
		for i := 1; i <= each; i++ {
			out = append(out, d.at(k, a+(b-a)*float64(i)/float64(each)))
		}
	}
	return out
}

// deBoor evaluates a spline by de Boor's recurrence (C. de Boor, A Practical Guide
// to Splines, 1978; from memory) in homogeneous coordinates.
type deBoor struct {
	degree  int
	knots   []float64
	weights []float64
	control []geom.Point
}

// at returns the point at u, which lies in the span from knot k to the next.
func (d deBoor) at(k int, u float64) geom.Point {
	var p [mostDegree + 1]geom.Point
	var w [mostDegree + 1]float64
	for j := 0; j <= d.degree; j++ {
		i := k - d.degree + j
		w[j] = 1
		if len(d.weights) > 0 {
			w[j] = d.weights[i]
		}
		p[j] = d.control[i].Mul(w[j])
	}
	for r := 1; r <= d.degree; r++ {
		for j := d.degree; j >= r; j-- {
			i := k - d.degree + j
			t := (u - d.knots[i]) / (d.knots[i+d.degree-r+1] - d.knots[i])
			p[j] = p[j-1].Lerp(p[j], t)
			w[j] = w[j-1] + (w[j]-w[j-1])*t
		}
	}
	return p[d.degree].Mul(1 / w[d.degree])
}

package geom

import "math"

// AtX returns the fractions of the length, above 0 and below 1, at which s
// crosses the upright line at x: none, one or two, in no order. A line along it
// does not cross it, and where an arc only touches it rounding decides.
func (s Segment) AtX(x float64) []float64 {
	if s.flat() {
		a, b := s.From.X-x, s.To.X-x
		if a*b >= 0 {
			return nil
		}
		return []float64{a / (a - b)}
	}
	c, r := s.Centre(), s.Radius()
	// The line's distance from the centre, as a share of the radius, is the
	// cosine of the angle from the x axis to the two crossings.
	k := (x - c.X) / r
	if math.Abs(k) >= 1 {
		return nil
	}
	sweep := float64(s.Sweep())
	start := float64(s.From.Sub(c).Direction())
	var out []float64
	for _, a := range [2]float64{math.Acos(k), -math.Acos(k)} {
		turn := math.Mod(a-start, 2*math.Pi)
		if turn*sweep < 0 {
			turn += math.Copysign(2*math.Pi, sweep)
		}
		if t := turn / sweep; t > 0 && t < 1 {
			out = append(out, t)
		}
	}
	return out
}

// AtY is [Segment.AtX] for the level line at y.
func (s Segment) AtY(y float64) []float64 {
	// A quarter turn clockwise brings y to x.
	return s.Apply(Transform{B: 1, C: -1}).AtX(y)
}

// Enters reports whether s has a point in r, its border included; where it only
// touches the border rounding decides.
func (s Segment) Enters(r Rect) bool {
	if s.Bulge == 0 {
		return s.lineEnters(r)
	}
	if !s.Hull().Overlaps(r, Coincident) {
		return false
	}
	if s.flat() {
		return s.lineEnters(r)
	}
	// With an end on the border rounding would have to find where it comes in.
	if g := r.Grow(Coincident); g.Has(s.From) || g.Has(s.To) {
		return true
	}
	// Its ends outside, it comes in through a side.
	for _, x := range [2]float64{r.Min.X, r.Max.X} {
		for _, t := range s.AtX(x) {
			if q, _ := s.At(t); r.Min.Y <= q.Y && q.Y <= r.Max.Y {
				return true
			}
		}
	}
	for _, y := range [2]float64{r.Min.Y, r.Max.Y} {
		for _, t := range s.AtY(y) {
			if q, _ := s.At(t); r.Min.X <= q.X && q.X <= r.Max.X {
				return true
			}
		}
	}
	return false
}

// lineEnters is Enters for a straight line: the fractions of it that lie between
// left and right, and between bottom and top, must have one in common.
func (s Segment) lineEnters(r Rect) bool {
	lo, hi := 0.0, 1.0
	d := s.To.Sub(s.From)
	for _, c := range [2]struct{ from, d, min, max float64 }{
		{s.From.X, d.X, r.Min.X, r.Max.X},
		{s.From.Y, d.Y, r.Min.Y, r.Max.Y},
	} {
		if c.d == 0 {
			if c.from < c.min || c.from > c.max {
				return false
			}
			continue
		}
		a, b := (c.min-c.from)/c.d, (c.max-c.from)/c.d
		lo, hi = max(lo, min(a, b)), min(hi, max(a, b))
	}
	return lo <= hi
}

package chain

import (
	"math"

	"overbend/geom"
)

// fewest is how many chords are taken for an arc: any three points lie on one.
const fewest = 4

// largest is the radius in mm from which chords are taken for a straight line.
const largest = 100e3

// recognise takes stretches of straight chords for the lines and arcs that they
// follow within tol.Off.
func recognise(p []Piece, tol Tolerance) []Piece {
	var out []Piece
	for i := 0; i < len(p); {
		j := i
		for j < len(p) && !p[j].IsArc() {
			j++
		}
		switch {
		case j == i:
			out = append(out, p[i])
			i++
		default:
			out = append(out, chords(p[i:j], tol)...)
			i = j
		}
	}
	return out
}

// chords takes straight pieces for lines and arcs.
func chords(p []Piece, tol Tolerance) []Piece {
	if len(p) < fewest {
		return p
	}
	c := newChords(p, tol.Off)
	// What follows a line and an arc exactly is told apart best within little; what
	// is drawn roughly falls to many pieces there, and then the tolerance decides.
	best := c.pieces(tol.Off)
	for _, share := range [...]float64{0.01, 0.1} {
		if fine := c.pieces(share * tol.Off); len(fine) <= 2*len(best)+1 {
			return fine
		}
	}
	return best
}

// run of chords: n pieces through n + 1 points.
type chordRun struct {
	p      []Piece
	at     []geom.Point
	along  []float64 // length up to each point
	sagmax float64
}

func newChords(p []Piece, sag float64) chordRun {
	c := chordRun{p: p, at: make([]geom.Point, len(p)+1), along: make([]float64, len(p)+1), sagmax: sag}
	for i, s := range p {
		// In a gap the middle counts.
		if c.at[i] = s.From; i > 0 {
			c.at[i] = s.From.Lerp(p[i-1].To, 0.5)
		}
	}
	c.at[len(p)] = p[len(p)-1].To
	for i := range p {
		c.along[i+1] = c.along[i] + c.at[i].Dist(c.at[i+1])
	}
	return c
}

// pieces cuts the run into the longest lines and arcs that its points follow
// within off, from its start on. A straight beginning of an arc is as good an arc,
// so a line that makes up half of an arc is what is there.
func (c chordRun) pieces(off float64) []Piece {
	var out []Piece
	n := len(c.p)
	for i := 0; i < n; {
		line := c.reach(i, 1, func(j int) bool { return c.straight(i, j, off) })
		round := c.reach(i, fewest, func(j int) bool { _, ok := c.round(i, j, off); return ok })
		if round > line && c.along[line]-c.along[i] < (c.along[round]-c.along[i])/2 {
			arc, _ := c.round(i, round, off)
			out = append(out, arc)
			i = round
			continue
		}
		one := Piece{Segment: geom.Segment{From: c.at[i], To: c.at[line]}, Source: c.p[i].Source}
		if line == i+1 {
			one = c.p[i]
		} else {
			one.Chords = line - i
			one.Off = c.offLine(i, line)
		}
		out = append(out, one)
		i = line
	}
	return out
}

// reach returns the furthest point from i, at least least on, up to which ok
// holds, found by doubling and halving; i if it does not hold at least.
func (c chordRun) reach(i, least int, ok func(j int) bool) int {
	n := len(c.p)
	if i+least > n || !ok(i+least) {
		return i
	}
	good := i + least
	var bad int
	for step := least; ; step *= 2 {
		j := min(good+step, n)
		if j == good {
			return good
		}
		if !ok(j) {
			bad = j
			break
		}
		good = j
	}
	for bad-good > 1 {
		if mid := (good + bad) / 2; ok(mid) {
			good = mid
		} else {
			bad = mid
		}
	}
	return good
}

// offLine returns how far points between i and j leave the straight line.
func (c chordRun) offLine(i, j int) float64 {
	s := geom.Segment{From: c.at[i], To: c.at[j]}
	off := 0.0
	for k := i + 1; k < j; k++ {
		off = max(off, c.at[k].Dist(s.Nearest(c.at[k])))
	}
	return off
}

// straight reports whether the points from i to j lie on a line, in order.
func (c chordRun) straight(i, j int, off float64) bool {
	return j == i+1 || c.along[j]-c.along[i] <= c.at[i].Dist(c.at[j])+off && c.offLine(i, j) <= off
}

// round returns the arc that the points from i to j lie on within off, the chords
// between them within the tolerance.
func (c chordRun) round(i, j int, off float64) (Piece, bool) {
	pts := c.at[i : j+1]
	m, r, ok := circle(pts)
	if !ok || r > largest {
		return Piece{}, false
	}
	most, sweep := 0.0, 0.0
	for k, q := range pts {
		most = max(most, math.Abs(q.Dist(m)-r))
		if most > off {
			return Piece{}, false
		}
		if k == 0 {
			continue
		}
		step := float64(turn(pts[k-1].Sub(m), q.Sub(m)))
		if step*sweep < 0 || step == 0 || r*(1-math.Cos(step/2)) > c.sagmax {
			return Piece{}, false
		}
		sweep += step
	}
	if math.Abs(sweep) > 2*math.Pi {
		return Piece{}, false
	}
	on := func(q geom.Point) geom.Point { return m.Add(q.Sub(m).Unit().Mul(r)) }
	return Piece{
		Segment: geom.Segment{From: on(pts[0]), To: on(pts[len(pts)-1]), Bulge: math.Tan(sweep / 4)},
		Source:  c.p[i].Source, Chords: j - i, Off: most,
	}, true
}

// circle returns the circle that points lie nearest to: Kåsa's algebraic fit
// (from memory: least squares of x² + y² = 2 a x + 2 b y + d), then Gauss and
// Newton's steps on the distances themselves.
func circle(pts []geom.Point) (geom.Point, float64, bool) {
	if len(pts) > 256 { // as many tell as much as all
		few := make([]geom.Point, 256)
		for i := range few {
			few[i] = pts[i*(len(pts)-1)/255]
		}
		pts = few
	}
	mid := pts[0].Lerp(pts[len(pts)-1], 0.5)
	n := float64(len(pts))
	var sx, sy, sxx, syy, sxy, sz, sxz, syz float64
	for _, q := range pts {
		x, y := q.X-mid.X, q.Y-mid.Y
		z := x*x + y*y
		sx, sy, sz = sx+x, sy+y, sz+z
		sxx, syy, sxy = sxx+x*x, syy+y*y, sxy+x*y
		sxz, syz = sxz+x*z, syz+y*z
	}
	// Less the means.
	a11, a12, a22 := sxx-sx*sx/n, sxy-sx*sy/n, syy-sy*sy/n
	b1, b2 := (sxz-sx*sz/n)/2, (syz-sy*sz/n)/2
	det := a11*a22 - a12*a12
	if !(det > 1e-18*(a11+a22)*(a11+a22)) {
		return geom.Point{}, 0, false
	}
	c := geom.Pt((b1*a22-b2*a12)/det, (b2*a11-b1*a12)/det)
	r := math.Sqrt(sz/n - 2*(c.X*sx+c.Y*sy)/n + c.Dot(c))
	for range 3 {
		var m [3][4]float64 // normal equations for the steps of x, y and r
		for _, q := range pts {
			v := geom.Pt(q.X-mid.X, q.Y-mid.Y).Sub(c)
			d := v.Norm()
			if d == 0 {
				return geom.Point{}, 0, false
			}
			row := [4]float64{v.X / d, v.Y / d, 1, d - r}
			for i := range 3 {
				for k := range 4 {
					m[i][k] += row[i] * row[k]
				}
			}
		}
		step, ok := solve3(m)
		if !ok {
			break
		}
		c, r = c.Add(geom.Pt(step[0], step[1])), r+step[2]
	}
	c = c.Add(mid)
	return c, r, c.Finite() && r > 0 && !math.IsInf(r, 1)
}

// solve3 solves three linear equations by elimination with pivots.
func solve3(m [3][4]float64) ([3]float64, bool) {
	for i := range 3 {
		p := i
		for k := i + 1; k < 3; k++ {
			if math.Abs(m[k][i]) > math.Abs(m[p][i]) {
				p = k
			}
		}
		if m[i], m[p] = m[p], m[i]; math.Abs(m[i][i]) < 1e-14*math.Abs(m[0][0]) || m[i][i] == 0 {
			return [3]float64{}, false
		}
		for k := range 3 {
			if k == i {
				continue
			}
			f := m[k][i] / m[i][i]
			for j := i; j < 4; j++ {
				m[k][j] -= f * m[i][j]
			}
		}
	}
	return [3]float64{m[0][3] / m[0][0], m[1][3] / m[1][1], m[2][3] / m[2][2]}, true
}

// merge makes one piece of neighbours on the same line or the same circle.
func merge(p []Piece, tol Tolerance) []Piece {
	var out []Piece
	for _, next := range p {
		if n := len(out); n > 0 {
			if one, ok := merged(out[n-1], next, tol); ok {
				out[n-1] = one
				continue
			}
		}
		out = append(out, next)
	}
	return out
}

// same is how far two arcs may be off one circle, and a corner off a straight
// line, to be one piece, mm.
const same = 1e-3

func merged(a, b Piece, tol Tolerance) (Piece, bool) {
	if a.IsArc() != b.IsArc() || a.To.Dist(b.From) > tol.Gap || kink(a.Segment, b.Segment) > tol.Kink {
		return a, false
	}
	one := a
	one.To = b.To
	one.Chords, one.Off = 0, max(a.Off, b.Off)
	if a.Chords+b.Chords > 0 {
		one.Chords = max(1, a.Chords) + max(1, b.Chords)
	}
	if !a.IsArc() {
		if q := a.To.Lerp(b.From, 0.5); q.Dist(one.Nearest(q)) > same || a.To.Dist(b.From) > same {
			return a, false
		}
		return one, true
	}
	sweep := a.Sweep() + b.Sweep()
	if a.Bulge*b.Bulge < 0 || math.Abs(float64(sweep)) > 2*math.Pi-0.01 ||
		a.Centre().Dist(b.Centre()) > same || math.Abs(a.Radius()-b.Radius()) > same {
		return a, false
	}
	one.Bulge = (sweep / 4).Tan()
	return one, true
}

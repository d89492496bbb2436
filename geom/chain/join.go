package chain

import (
	"cmp"
	"math"
	"slices"

	"overbend/geom"
)

// part is a stretch of a line without hard corners.
type part struct {
	source, group int
	segs          []geom.Segment
	closed        bool
}

// run is parts whose ends meet, in order.
type run struct {
	group  int
	pieces []Piece
	closed bool
}

// cut cuts lines at their hard corners, and drops segments without a length.
func cut(lines []Line) []part {
	var out []part
	for i, l := range lines {
		segs := slices.DeleteFunc(l.Path.Segments(), func(s geom.Segment) bool { return s.Chord() < 1e-9 })
		n := len(segs)
		if n == 0 {
			continue
		}
		from, first := 0, len(out)
		for k := range n {
			if k == n-1 || kink(segs[k], segs[k+1]) > hard {
				out = append(out, part{source: i, group: l.Group, segs: segs[from : k+1 : k+1]})
				from = k + 1
			}
		}
		// Where a closed line has no corner at its own start, its first part and
		// its last are one.
		if l.Path.Closed && kink(segs[n-1], segs[0]) <= hard {
			if last := len(out) - 1; last == first {
				out[last].closed = true
			} else {
				out[last].segs = append(out[last].segs, out[first].segs...)
				out = slices.Delete(out, first, first+1)
			}
		}
	}
	return out
}

// end is one end of a part: 2 i its start, 2 i + 1 its end.
type end struct {
	at  geom.Point
	dir geom.Point // out of the part
}

// mostMeet is how many ends at one place are looked at.
const mostMeet = 32

// join joins parts whose ends meet within gap, the straightest way on first.
func join(parts []part, gap float64) []run {
	ends := make([]end, 2*len(parts))
	for i, p := range parts {
		first, last := p.segs[0], p.segs[len(p.segs)-1]
		ends[2*i] = end{first.From, direction(first, false).Mul(-1)}
		ends[2*i+1] = end{last.To, direction(last, true)}
	}
	partner := match(parts, ends, gap)

	var out []run
	used := make([]bool, len(parts))
	walk := func(start int) {
		r := run{group: parts[start/2].group}
		for e := start; ; { // e is the end at which a part is entered
			i := e / 2
			used[i] = true
			r.pieces = append(r.pieces, pieces(parts[i], e%2 == 1)...)
			next := partner[e^1]
			if next < 0 {
				break
			}
			if used[next/2] {
				r.closed = true
				break
			}
			e = next
		}
		r.closed = r.closed || parts[start/2].closed
		out = append(out, r)
	}
	for e := range ends {
		if !used[e/2] && partner[e] < 0 {
			walk(e)
		}
	}
	for i := range parts {
		if !used[i] {
			walk(2 * i)
		}
	}
	return out
}

// pieces returns a part's segments, from its end to its start if turned.
func pieces(p part, turned bool) []Piece {
	out := make([]Piece, len(p.segs))
	for k, s := range p.segs {
		if turned {
			out[len(p.segs)-1-k] = Piece{Segment: s.Reverse(), Source: p.source}
		} else {
			out[k] = Piece{Segment: s, Source: p.source}
		}
	}
	return out
}

// match returns the partner of each end, -1 for none. Ends that coincide go
// before ends with a gap, straight ones before bent ones.
func match(parts []part, ends []end, gap float64) []int {
	gap = math.Max(gap, geom.Coincident)
	type cell struct{ x, y, group int64 }
	at := func(e int, dx, dy int64) cell {
		p := ends[e].at
		return cell{int64(math.Floor(p.X/gap)) + dx, int64(math.Floor(p.Y/gap)) + dy, int64(parts[e/2].group)}
	}
	cells := map[cell][]int{}
	for e := range ends {
		if !parts[e/2].closed {
			c := at(e, 0, 0)
			if len(cells[c]) < mostMeet {
				cells[c] = append(cells[c], e)
			}
		}
	}
	type pair struct {
		a, b  int
		apart bool
		kink  geom.Angle
		dist  float64
	}
	var pairs []pair
	for a := range ends {
		if parts[a/2].closed {
			continue
		}
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				for _, b := range cells[at(a, dx, dy)] {
					if b <= a {
						continue
					}
					d := ends[a].at.Dist(ends[b].at)
					k := geom.Angle(math.Abs(float64(turn(ends[a].dir, ends[b].dir.Mul(-1)))))
					if d > gap || k > hard || a/2 == b/2 && length(parts[a/2].segs) < 4*gap {
						continue
					}
					pairs = append(pairs, pair{a, b, d > 2*geom.Coincident, k, d})
				}
			}
		}
	}
	slices.SortFunc(pairs, func(p, q pair) int {
		if p.apart != q.apart {
			if q.apart {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(p.kink, q.kink), cmp.Compare(p.dist, q.dist), cmp.Compare(p.a, q.a), cmp.Compare(p.b, q.b))
	})
	partner := make([]int, len(ends))
	for i := range partner {
		partner[i] = -1
	}
	for _, p := range pairs {
		if partner[p.a] < 0 && partner[p.b] < 0 {
			partner[p.a], partner[p.b] = p.b, p.a
		}
	}
	return partner
}

func length(segs []geom.Segment) float64 {
	sum := 0.0
	for _, s := range segs {
		sum += s.Length()
	}
	return sum
}

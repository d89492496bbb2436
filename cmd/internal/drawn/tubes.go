package drawn

import (
	"cmp"
	"math"
	"slices"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/chain"
)

// member is one of a family of parallel bends.
type member struct {
	bend int
	off  float64 // from the first, to the outside, mm
}

// tubes sorts the bends into tubes. Where there are any with two edges, lone lines
// are no candidates; where there are lines with a straight beside their arc, lone
// arcs are none: those are dimensions and rounded corners as a rule.
func (s *finder) tubes() {
	var pairs, lines, arcs []Candidate
	tight := 0
	used := make([]bool, len(s.bends))
	for i := range s.bends {
		if used[i] {
			continue
		}
		family := s.family(i, used)
		for _, m := range family {
			used[m.bend] = true
		}
		tubes, rest := s.sort(family)
		for _, t := range tubes {
			c := s.tube(t)
			if c.Bend.Radius < c.Depth*(1-1e-9) || c.Bend.Inside(c.Depth) <= 0 {
				tight++
				continue
			}
			pairs = append(pairs, c)
		}
		for _, m := range rest {
			b := s.bends[m.bend]
			if c := s.lone(b); b.Legs[0].Drawn || b.Legs[1].Drawn {
				lines = append(lines, c)
			} else {
				arcs = append(arcs, c)
			}
		}
	}
	if tight > 0 {
		s.note(words.DrawingTight, words.Figures{"n": words.Count(tight, "pair")})
	}
	switch {
	case len(pairs) > 0:
		s.Candidates = pairs
		if n := len(lines) + len(arcs); n > 0 {
			s.note(words.DrawingLonePassed, words.Figures{"n": words.Count(n, "single line")})
		}
	case len(lines) > 0:
		s.Candidates = lines
		if n := len(arcs); n > 0 {
			s.note(words.DrawingArcsPassed, words.Figures{"n": words.Count(n, "lone arc")})
		}
	default:
		s.Candidates = arcs
	}
	for i := range s.Candidates {
		s.corners(&s.Candidates[i])
	}
}

// corners says where a straight meets an arc's end but is no leg, because it is not
// tangent to it.
func (s *finder) corners(c *Candidate) {
	for _, b := range c.lines {
		for _, l := range b.Legs {
			if l.Drawn || !l.Free {
				continue
			}
			for _, ch := range s.chains {
				if ch.Group != s.chains[b.Chain].Group || ch.Closed {
					continue
				}
				first, last := ch.Pieces[0], ch.Pieces[len(ch.Pieces)-1]
				for _, g := range [2]geom.Segment{first.Segment, last.Reverse()} {
					_, d := g.At(0)
					kink := geom.Angle(math.Acos(max(-1, min(1, d.Dot(l.Out)))))
					if g.From.Dist(l.Start) <= s.slack() && kink < 20*geom.Degree {
						c.add(words.DrawingCorner, words.Figures{
							"kink": quantity.Degrees(kink), "allowed": quantity.Degrees(s.tol.Kink), "place": place(l.Start, s.Unit),
						})
					}
				}
			}
		}
	}
}

// family returns bend i and all that run parallel to it, from the inside out, each
// place once.
func (s *finder) family(i int, used []bool) []member {
	out := []member{{i, 0}}
	for j := i + 1; j < len(s.bends); j++ {
		if used[j] {
			continue
		}
		if d, ok := s.bends[i].Beside(s.bends[j], s.tol); ok {
			out = append(out, member{j, d})
		}
	}
	slices.SortStableFunc(out, func(a, b member) int { return cmp.Or(cmp.Compare(a.off, b.off), cmp.Compare(a.bend, b.bend)) })
	// A line that is drawn twice counts once; what has legs beats what has none.
	kept := out[:1]
	for _, m := range out[1:] {
		last := &kept[len(kept)-1]
		if m.off-last.off <= s.slack() {
			used[m.bend], used[last.bend] = true, true
			if s.straights(m.bend) > s.straights(last.bend) {
				*last = m
			}
			continue
		}
		kept = append(kept, m)
	}
	return kept
}

func (s *finder) straights(bend int) int {
	n := 0
	for _, l := range s.bends[bend].Legs {
		if l.Length > 0 {
			n++
		}
	}
	return n
}

// slack is how far parallel lines may be off, mm.
func (s *finder) slack() float64 { return s.tol.Gap }

// tube is two edges and what runs between them.
type tube struct {
	inner, outer chain.Bend
	between      []member
	base         float64 // off of inner
	bars         [2]int  // lines that close the ends, -1: none
}

// sort finds the tubes in a family, and the members that belong to none. Edges, which
// are on one layer, are those that are closed at both ends or at one, the widest
// first; without such ones the outermost two where all lies evenly between them, else
// each two neighbours.
func (s *finder) sort(family []member) (tubes []tube, rest []member) {
	if len(family) < 2 {
		return nil, family
	}
	for ends := 2; ends > 0; ends-- {
		for width := len(family) - 1; width > 0; width-- {
			for i := 0; i+width < len(family); i++ {
				if t := s.edges(family, i, i+width); s.oneLayer(t) && t.closed() == ends {
					below, mine := s.sort(family[:i])
					above, more := s.sort(family[i+width+1:])
					return append(append([]tube{t}, below...), above...), append(mine, more...)
				}
			}
		}
	}
	last := len(family) - 1
	if t := s.edges(family, 0, last); s.oneLayer(t) && even(family, s.slack()) {
		return []tube{t}, nil
	}
	used := make([]bool, len(family))
	for i := range last {
		if t := s.edges(family, i, i+1); s.oneLayer(t) {
			tubes = append(tubes, t)
			used[i], used[i+1] = true, true
		}
	}
	for i, m := range family {
		if !used[i] {
			rest = append(rest, m)
		}
	}
	return tubes, rest
}

// oneLayer reports whether both edges are on the same layer.
func (s *finder) oneLayer(t tube) bool {
	return s.chains[t.inner.Chain].Group == s.chains[t.outer.Chain].Group
}

// even reports whether a family lies the same from both sides.
func even(family []member, slack float64) bool {
	last := len(family) - 1
	sum := family[0].off + family[last].off
	for i := range family {
		if math.Abs(family[i].off+family[last-i].off-sum) > 2*slack {
			return false
		}
	}
	return true
}

func (s *finder) edges(family []member, i, j int) tube {
	t := tube{inner: s.bends[family[i].bend], outer: s.bends[family[j].bend], between: family[i+1 : j], base: family[i].off}
	for k := range t.bars {
		t.bars[k] = s.bar(t.inner.Legs[k], t.outer.Legs[k])
	}
	return t
}

func (t tube) closed() int {
	n := 0
	for _, b := range t.bars {
		if b >= 0 {
			n++
		}
	}
	return n
}

// bar returns the straight line that joins the ends of two legs, -1 for none.
func (s *finder) bar(a, b chain.Leg) int {
	if !a.Free || !b.Free {
		return -1
	}
	p, q, slack := a.End(), b.End(), s.slack()
	for i, g := range s.bars {
		if p.Dist(g.From) <= slack && q.Dist(g.To) <= slack || p.Dist(g.To) <= slack && q.Dist(g.From) <= slack {
			return i
		}
	}
	return -1
}

// mostCut is the steepest end cut from square that a job takes.
const mostCut = 75 * geom.Degree

// tube measures a tube between its edges.
func (s *finder) tube(t tube) Candidate {
	in, out := t.inner, t.outer
	off, _ := in.Beside(out, s.tol)
	c := s.candidate(out)
	c.lines = []chain.Bend{in, out}
	c.Depth = off
	c.Bend = geom.Bend{Radius: (in.Radius + out.Radius) / 2, Angle: (in.Angle + out.Angle) / 2}
	c.Centre = in.Centre.Lerp(out.Centre, 0.5)
	c.Kind = Edges
	c.say(&c.From.Radius, words.FromEdges, words.Figures{
		"inside": quantity.Length.Of(in.Radius), "outside": quantity.Length.Of(out.Radius), "where": s.where(in), "other": s.where(out),
	})
	c.say(&c.From.Depth, words.FromEdgesApart, words.Figures{"where": s.where(in), "other": s.where(out)})
	s.mended(&c, in)
	for i := range 2 {
		a, b := in.Legs[i], out.Legs[i]
		start := a.Start.Lerp(b.Start, 0.5)
		// The longest knows its direction best: a leg, or the way across.
		along := a.Out
		if b.Length > a.Length {
			along = b.Out
		}
		if across := b.Start.Sub(a.Start); max(a.Length, b.Length) < across.Norm() {
			along = across.Unit().Left()
			if along.Dot(a.Out) < 0 {
				along = along.Mul(-1)
			}
		}
		c.Out[i] = along
		c.Start[i] = start
		short, long := a.End().Sub(start).Dot(along), b.End().Sub(start).Dot(along)
		cut := geom.Angle(math.Atan2(long-short, off))
		switch {
		case !a.Free || !b.Free:
			c.Legs[i] = min(short, long)
			c.say(&c.From.Legs[i], words.FromLegToBend, nil)
			c.say(&c.From.Cuts[i], words.FromNoEnd, nil)
		case math.Abs(float64(cut)) > float64(mostCut):
			c.Legs[i] = min(short, long)
			c.say(&c.From.Legs[i], words.FromLegShort, nil)
			c.say(&c.From.Cuts[i], words.FromRagged, nil)
		default:
			c.Legs[i], c.Cuts[i] = (short+long)/2, cut
			c.say(&c.From.Legs[i], words.FromLegEnd, nil)
			if !a.Drawn && !b.Drawn {
				c.say(&c.From.Legs[i], words.FromNoLeg, nil)
			}
			if t.bars[i] >= 0 {
				c.say(&c.From.Cuts[i], words.FromEndLine, words.Figures{"line": s.barAt[t.bars[i]]})
			} else {
				c.say(&c.From.Cuts[i], words.FromEdgeEnds, nil)
			}
		}
		if c.Legs[i] < geom.Coincident {
			c.Legs[i] = 0
		}
	}
	s.between(&c, t)
	return c
}

// between reads the wall off lines between the edges.
func (s *finder) between(c *Candidate, t tube) {
	for i, m := range t.between {
		from := m.off - t.base // of the inner edge
		for _, o := range t.between[i+1:] {
			if math.Abs(from+o.off-t.base-c.Depth) <= 2*s.slack() && from < c.Depth/2-s.slack() {
				c.Wall = (from + c.Depth - (o.off - t.base)) / 2
				c.say(&c.From.Wall, words.FromWallLines, words.Figures{"where": s.where(s.bends[m.bend]), "other": s.where(s.bends[o.bend])})
				return
			}
		}
	}
}

// lone measures a lone line, a centreline.
func (s *finder) lone(b chain.Bend) Candidate {
	c := s.candidate(b)
	c.Kind, c.lines = Centreline, []chain.Bend{b}
	c.Bend, c.Centre = b.Bend, b.Centre
	c.say(&c.From.Radius, words.FromArc, words.Figures{"where": s.where(b)})
	for i, l := range b.Legs {
		c.Legs[i], c.Start[i], c.Out[i] = l.Length, l.Start, l.Out
		code := words.FromLegEnd
		switch {
		case !l.Free:
			code = words.FromLegToBend
		case !l.Drawn:
			code = words.FromNoLeg
		}
		c.say(&c.From.Legs[i], code, nil)
		c.say(&c.From.Cuts[i], words.FromNoEnd, nil)
	}
	return c
}

// candidate begins one with what its line says.
func (s *finder) candidate(b chain.Bend) Candidate {
	ch := s.chains[b.Chain]
	c := Candidate{Layer: s.Lines[ch.Pieces[b.Piece].Source].Layer, Nth: 1, Of: 0}
	for k, p := range ch.Pieces {
		if p.IsArc() {
			c.Of++
			if k < b.Piece {
				c.Nth++
			}
		}
	}
	c.say(&c.From.Angle, words.FromSweep, nil)
	if c.Of > 1 {
		c.add(words.DrawingOneOf, words.Figures{"nth": c.Nth, "of": c.Of})
	}
	s.mended(&c, b)
	return c
}

// mended adds what was mended to have a bend.
func (s *finder) mended(c *Candidate, b chain.Bend) {
	const told = 1e-5 // mm and radians: below lies what a file's decimals leave
	if b.Gap > told || b.Kink > told {
		// Chords end where they end; how they meet the rest is no fault.
		if chords := s.chains[b.Chain].Pieces[b.Piece].Chords; chords == 0 {
			c.say(&c.From.Angle, words.FromLegsTurn, nil)
			if b.Gap > told {
				c.add(words.DrawingGap, words.Figures{"gap": quantity.Length.Of(up(b.Gap)), "allowed": quantity.Length.Of(s.tol.Gap)})
			}
			if b.Kink > told {
				c.add(words.DrawingKink, words.Figures{"kink": quantity.Angle.Of(up(b.Kink.Degrees()) * geom.Degree.Radians()), "allowed": quantity.Degrees(s.tol.Kink)})
			}
		}
	}
	ch := s.chains[b.Chain]
	for k := max(0, b.Piece-1); k <= min(len(ch.Pieces)-1, b.Piece+1); k++ {
		p := ch.Pieces[k]
		if p.Chords == 0 {
			continue
		}
		code := words.DrawingChordsLine
		if p.IsArc() {
			code = words.DrawingChordsArc
		}
		c.add(code, words.Figures{
			"chords": p.Chords, "kind": s.Lines[p.Source].Kind, "line": s.Lines[p.Source].At,
			"off": quantity.Length.Of(s.tol.Off), "radius": quantity.Length.Of(p.Radius()),
		})
	}
}

// up rounds to hundredths, never to nothing.
func up(v float64) float64 { return math.Ceil(v*100) / 100 }

// where names the arc of a bend in the drawing's file.
func (s *finder) where(b chain.Bend) words.Reason {
	l := s.Lines[s.chains[b.Chain].Pieces[b.Piece].Source]
	return words.Reason{Code: words.DrawingWhere, Figures: words.Figures{"kind": l.Kind, "line": l.At, "layer": printable(l.Layer)}}
}

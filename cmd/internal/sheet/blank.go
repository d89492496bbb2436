package sheet

import (
	"slices"
	"strings"

	sentence "overbend/cmd/internal/words"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/tooling"
)

// blank draws the straight tube with its marks: above them what they are called and
// where they stand on the outside face, below where a slanting one stands on the
// inside face.
func (s *sheet) blank(share float64, hd heading) cell {
	j, b := s.p.Job, s.p.Tools.Blank
	slanted := slices.ContainsFunc(b.Marks, func(m tooling.BlankMark) bool { return m.Slant != 0 })
	type tag struct {
		name      []string
		out, in   string
		top, foot float64 // where its mark meets the faces, mm from the left end
	}
	var tags []tag
	lines := 1
	add := func(name string, at, slant float64) {
		t := tag{name: words(name), out: s.f.tape(at + slant), top: at + slant, foot: at - slant}
		if slant != 0 {
			t.in = s.f.tape(at - slant)
		}
		lines = max(lines, len(t.name))
		tags = append(tags, t)
	}
	for i, m := range b.Marks {
		add(sentence.MarkName(b.Marks, i), m.At, m.Slant)
	}
	add(sentence.TubeEnd, b.Length, 0)
	over, under := float64(lines)*s.pitch()+s.pitch()+4.5+below*s.h, 0.5
	if slanted {
		under = s.pitch() + 5
	}
	hd.rest = s.say(sentence.PaperMark, nil)
	if slanted {
		hd.rest += ". " + s.say(sentence.PaperMarkFaces, nil)
	}
	longest := hd
	longest.rest += ". " + widestScale
	return cell{share,
		func(w float64) float64 { return s.headHeight(longest, w) + over + under + 7 },
		func(f geom.Rect) {
			room := s.under(f, longest)
			d, k, scale := s.fitted(room.Width(), room.Height()-over-under, geom.Pt(b.Length, j.Tube.Depth), 1, func(k float64, _ int) (drawing.Drawing, bool) {
				return s.blankPicture(k), true
			})
			hd.rest += ". " + scale
			s.head(f, hd)
			if k == 0 {
				return
			}
			box := d.Bounds()
			at := geom.Pt(room.Centre().X, room.Min.Y+under+(room.Height()-over-under)/2)
			s.d.Add(d.Apply(geom.Translate(at)).Shapes...)
			left := at.X - k*b.Length/2
			var want, size, wantIn, sizeIn []float64
			var in []tag
			for _, t := range tags {
				w := s.boldWidth(t.out)
				for _, n := range t.name {
					w = max(w, s.width(n))
				}
				want, size = append(want, left+k*t.top), append(size, w)
				if t.in != "" {
					in = append(in, t)
					wantIn, sizeIn = append(wantIn, left+k*t.foot), append(sizeIn, s.boldWidth(t.in))
				}
			}
			top, foot := at.Y+box.Height()/2, at.Y-box.Height()/2
			xs := spread(want, size, 1.6, room.Min.X, room.Max.X)
			for i, t := range tags {
				s.d.Line(drawing.Thin, geom.Pt(want[i], top+0.4), geom.Pt(xs[i], top+3.2))
				y := top + 3.9 + below*s.h
				s.d.Add(s.bold(xs[i], y, t.out, drawing.Middle))
				for n, word := range t.name {
					s.d.Add(s.words(xs[i], y+float64(len(t.name)-n)*s.pitch(), word, drawing.Middle))
				}
			}
			xs = spread(wantIn, sizeIn, 1.6, room.Min.X, room.Max.X)
			for i, t := range in {
				s.d.Line(drawing.Thin, geom.Pt(wantIn[i], foot-0.4), geom.Pt(xs[i], foot-3.2))
				s.d.Add(s.bold(xs[i], foot-3.9-s.h, t.in, drawing.Middle))
			}
		},
	}
}

// words breaks a mark's name into lines of about the same length.
func words(name string) []string {
	return strings.Split(strings.Replace(strings.Replace(strings.Replace(name, " after ", "\nafter\n", 1), " of ", "\nof ", 1), "bend ", "bend\n", 1), "\n")
}

// blankPicture draws the blank cut open, from its left end on the centreline,
// at k mm of paper per mm.
func (s *sheet) blankPicture(k float64) drawing.Drawing {
	j, b := s.p.Job, s.p.Tools.Blank
	var d drawing.Drawing
	length, deep, plugs := k*b.Length, k*j.Tube.Depth, j.Filler.Plugs
	tone := drawing.Tube
	if s.p.Filler != nil {
		tone = drawing.Filler
	}
	d.Box(drawing.Visible, tone, geom.Rect{Min: geom.Pt(0, -deep/2), Max: geom.Pt(length, deep/2)})
	for i, plug := range plugs {
		if x := [2]float64{0, length - k*plug}[i]; s.p.Filler != nil && plug > 0 {
			d.Box(drawing.Thin, drawing.Steel, geom.Rect{Min: geom.Pt(x, -deep/2), Max: geom.Pt(x+k*plug, deep/2)})
		}
	}
	for _, m := range b.Marks {
		foot, head := geom.Pt(k*(m.At-m.Slant), -deep/2), geom.Pt(k*(m.At+m.Slant), deep/2)
		role := drawing.Thin
		switch m.Name {
		case tooling.MarkTrim:
			role = drawing.Visible
		case tooling.MarkCentre:
			role = drawing.Centre
			foot.Y--
		case tooling.MarkRoller:
			foot = head.Lerp(foot, 0.3)
		}
		d.Line(role, foot, head)
	}
	return d
}

// spread returns the middles of things of the given sizes that should stand at
// want, in rising order, moved as little as keeps them gap apart and from lo
// to hi.
func spread(want, size []float64, gap, lo, hi float64) []float64 {
	// Things that touch move as one: a run about the mean of what its members
	// want.
	type run struct {
		sum, length float64 // of the starts that members want of it; its length
		n           int
	}
	var runs []run
	at := func(r run) float64 {
		return max(lo, min(r.sum/float64(r.n), hi-r.length))
	}
	for i := range want {
		r := run{want[i] - size[i]/2, size[i], 1}
		for len(runs) > 0 {
			p := runs[len(runs)-1]
			if at(p)+p.length+gap <= at(r) {
				break
			}
			// A member's start within the joined run is p.length + gap further on.
			r = run{p.sum + r.sum - float64(r.n)*(p.length+gap), p.length + gap + r.length, p.n + r.n}
			runs = runs[:len(runs)-1]
		}
		runs = append(runs, r)
	}
	out := make([]float64, 0, len(want))
	for _, r := range runs {
		x := at(r)
		for range r.n {
			i := len(out)
			out = append(out, x+size[i]/2)
			x += size[i] + gap
		}
	}
	return out
}

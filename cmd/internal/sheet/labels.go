package sheet

import (
	"math"

	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// label names a member of a picture: it stands at the member or, where it has no
// room there, apart with a leader to it.
type label struct {
	lines []string
	at    geom.Point // on the member, mm of paper
	bold  bool
	on    bool // may stand on members that others keep off
}

// leadOff is how far in mm labels stand off what they name at least and off lines.
const leadOff = 0.7

// name places labels about a picture, within a room and clear of its lines, of
// members in boxes and of each other; no leader crosses lettering or another
// leader. It reports false when one finds no place.
func (s *sheet) name(d *drawing.Drawing, room geom.Rect, members []geom.Rect, labels []label) bool {
	var busy, written, off lettering.Obstacles
	for _, sh := range d.Shapes {
		switch sh := sh.(type) {
		case drawing.Stroke:
			if pen := drawing.PenOf(sh.Role).Width; pen > 0 || sh.Tone == drawing.Dark {
				busy.Line(sh.Path, pen)
			}
		case drawing.Ring:
			busy.Line(sh.Circle.Path(), drawing.PenOf(sh.Role).Width)
		case drawing.Text:
			busy.Line(sh.Box(), 0)
			written.Line(sh.Box(), 0)
		}
	}
	for _, b := range members {
		off.Box(b)
	}
	for _, l := range labels {
		w := 0.0
		for _, t := range l.lines {
			w = max(w, s.face(l.bold).Width(t))
		}
		h := s.h + float64(len(l.lines)-1)*s.pitch() + below*s.h
		box, ok := geom.Rect{}, false
		var foot geom.Point
		leader := false
	search:
		for ring := 0; ring <= 34; ring++ {
			turns := 1
			if ring > 0 {
				turns = 24
			}
			for turn := range turns {
				a := geom.Angle(float64(turn)*15+7.5) * geom.Degree
				dist := float64(ring) * 2.2
				c := l.at.Add(geom.Pt(dist*a.Cos()+math.Copysign(min(1, float64(ring))*w/2, a.Cos()), dist*a.Sin()))
				b := geom.Rect{Min: c.Sub(geom.Pt(w/2, h/2)), Max: c.Add(geom.Pt(w/2, h/2))}
				if b.Min.X < room.Min.X || b.Max.X > room.Max.X || b.Min.Y < room.Min.Y || b.Max.Y > room.Max.Y || !busy.Clear(b, leadOff) || !l.on && !off.Clear(b, 0) {
					continue
				}
				from := geom.Pt(max(b.Min.X-0.6, min(l.at.X, b.Max.X+0.6)), max(b.Min.Y-0.4, min(l.at.Y, b.Max.Y+0.4)))
				if ring > 0 && (from.Dist(l.at) < 1.2 || crosses(written, from, l.at)) {
					continue
				}
				box, ok, foot, leader = b, true, from, ring > 0
				break search
			}
		}
		if !ok {
			return false
		}
		if leader {
			d.Line(drawing.Thin, foot, l.at)
			d.Add(dot(l.at))
			busy.Line(geom.Lines(foot, l.at), 0.3)
			written.Line(geom.Lines(foot, l.at), 0)
		}
		for i, t := range l.lines {
			word := s.words(box.Centre().X, box.Max.Y-s.h-float64(i)*s.pitch(), t, drawing.Middle)
			word.Bold = l.bold
			d.Add(word)
		}
		busy.Box(box)
		written.Line(box.Path(), 0)
	}
	return true
}

// crosses reports whether a straight line from p to q comes too close to lettering
// or other leaders.
func crosses(o lettering.Obstacles, p, q geom.Point) bool {
	steps := math.Ceil(p.Dist(q) / 0.25)
	for i := range int(steps) + 1 {
		at := p.Lerp(q, float64(i)/max(1, steps))
		if !o.Clear(geom.Rect{Min: at, Max: at}.Grow(0.15), spaceAround) {
			return true
		}
	}
	return false
}

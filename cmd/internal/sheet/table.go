package sheet

import (
	"overbend/export/drawing"
	"overbend/geom"
)

// table is rows of words under a head. A column too wide for the field is broken
// into lines.
type table struct {
	rows  [][]string // the first is the head
	left  int        // how many columns from the left are set flush left; the rest flush right
	blank float64    // least width in mm of a column that is empty, to write in; 0: no lines are drawn
	bold  int        // a row in bold on a ground; 0: none
}

// gap is what a column is wider than its words, mm.
const gap = 2.4

// leastWidth returns the width in mm below which a table's words would touch.
func (s *sheet) leastWidth(t table) float64 {
	total := 0.0
	for k := range t.rows[0] {
		w, empty := 0.0, true
		for i, r := range t.rows {
			w = max(w, s.longest(r[k], i == 0 || i == t.bold)+gap)
			empty = empty && (i == 0 || r[k] == "")
		}
		if empty {
			w = max(w, t.blank)
		}
		total += w
	}
	return total
}

// columns returns the columns' widths in a field w mm wide, and the lines of every
// cell.
func (s *sheet) columns(t table, w float64) ([]float64, [][][]string) {
	n := len(t.rows[0])
	widths, words := make([]float64, n), make([]float64, n)
	for i, r := range t.rows {
		for k, c := range r {
			b := i == 0 || i == t.bold
			widths[k] = max(widths[k], s.face(b).Width(c)+gap)
			words[k] = max(words[k], s.longest(c, b)+gap)
		}
	}
	if t.blank > 0 {
		for k := range widths {
			if widths[k] < t.blank {
				empty := true
				for _, r := range t.rows[1:] {
					empty = empty && r[k] == ""
				}
				if empty {
					widths[k], words[k] = max(widths[k], t.blank), max(words[k], t.blank)
				}
			}
		}
	}
	total := 0.0
	for _, x := range widths {
		total += x
	}
	// What is too much is taken from the columns that can be broken, each by what
	// it has over its longest word; what is left over is shared.
	if over := total - w; over > 0 {
		slack := 0.0
		for k := range widths {
			slack += widths[k] - words[k]
		}
		if slack > 0 {
			for k := range widths {
				widths[k] -= (widths[k] - words[k]) * min(1, over/slack)
			}
		}
	} else {
		for k := range widths {
			widths[k] += -over / float64(n)
		}
	}
	lines := make([][][]string, len(t.rows))
	for i, r := range t.rows {
		for k, c := range r {
			lines[i] = append(lines[i], s.face(i == 0 || i == t.bold).Wrap(c, widths[k]-gap+1e-6, 0))
		}
	}
	return widths, lines
}

// longest returns the width of a text's longest word, mm.
func (s *sheet) longest(text string, bold bool) float64 {
	w := 0.0
	start := 0
	for i := 0; i <= len(text); i++ {
		if i == len(text) || text[i] == ' ' {
			w = max(w, s.face(bold).Width(text[start:i]))
			start = i + 1
		}
	}
	return w
}

func most(cells [][]string) int {
	n := 1
	for _, c := range cells {
		n = max(n, len(c))
	}
	return n
}

// rowHeight returns the height of a row of so many lines, mm.
func (s *sheet) rowHeight(t table, lines int) float64 {
	h := float64(lines)*s.pitch() + 0.25*s.h
	if t.blank > 0 {
		h += 0.35 * s.h
	}
	return h
}

// tableHeight returns a table's height, w mm wide.
func (s *sheet) tableHeight(t table, w float64) float64 {
	_, lines := s.columns(t, w)
	h := 0.0
	for _, r := range lines {
		h += s.rowHeight(t, most(r))
	}
	return h + 0.5
}

// tabulate draws a table at the top of a room and returns what is left of it.
func (s *sheet) tabulate(room geom.Rect, t table) geom.Rect {
	widths, lines := s.columns(t, room.Width())
	y := room.Max.Y
	for i, r := range lines {
		high := s.rowHeight(t, most(r))
		if t.blank > 0 {
			if i == 0 || i == t.bold {
				s.shade(geom.Rect{Min: geom.Pt(room.Min.X, y-high), Max: geom.Pt(room.Max.X, y)})
			}
			s.d.Line(drawing.Thin, geom.Pt(room.Min.X, y-high), geom.Pt(room.Max.X, y-high))
		} else if i == 0 {
			s.d.Line(drawing.Thin, geom.Pt(room.Min.X, y-high), geom.Pt(room.Max.X, y-high))
		}
		x := room.Min.X
		for k, c := range r {
			for l, text := range c {
				if text == "" {
					continue
				}
				at, anchor := x+1.2, drawing.Left
				if k >= t.left {
					at, anchor = x+widths[k]-1.2, drawing.Right
				}
				w := s.words(at, y-float64(l+1)*s.pitch()+0.28*s.h-(high-float64(most(r))*s.pitch())/2+0.1*s.h, text, anchor)
				w.Bold = i == 0 || i == t.bold
				s.d.Add(w)
			}
			x += widths[k]
			if t.blank > 0 && k < len(r)-1 {
				s.d.Line(drawing.Thin, geom.Pt(x, y-high), geom.Pt(x, y))
			}
		}
		y -= high
	}
	room.Max.Y = y - 0.5
	return room
}

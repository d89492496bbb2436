package paper

import (
	"overbend/export/drawing"
	"overbend/geom"
)

// Sizes in mm of where a line to compare with is broken off.
const (
	breakShort = 4.0 // from the window's edge
	breakHalf  = 2.0 // of the mark, across the line
	breakTooth = 1.2 // of the mark, along the line
)

// breakOff ends lines to compare with that run out of the paper, for no page is
// printed for their sake: short of the edge and with the mark of a line that goes
// on, lest they look like lines that the printer lost.
func (p *plan) breakOff() {
	for r := range p.tiles {
		for c := range p.tiles[r] {
			if !p.printed(r, c) {
				continue
			}
			var out []drawing.Shape
			for _, s := range p.tiles[r][c].shapes {
				if line, ok := s.(drawing.Stroke); ok && p.aside(line.Role) {
					out = append(out, p.brokenOff(line, r, c)...)
				} else {
					out = append(out, s)
				}
			}
			p.tiles[r][c].shapes = out
		}
	}
}

// brokenOff returns a line of a tile as it is broken off there.
func (p *plan) brokenOff(s drawing.Stroke, r, c int) []drawing.Shape {
	if s.Path.Closed { // no edge has cut it
		return []drawing.Shape{s}
	}
	var marks []drawing.Shape
	for range 2 {
		s.Path = s.Path.Reverse()
		if !p.runsOut(s.Path.End(), r, c) {
			continue
		}
		left := s.Path.Length() - breakShort
		if left < breakShort {
			return nil // too short to tell anything
		}
		whole := s.Path
		s.Path = whole.UpTo(left)
		end, on := s.Path.End(), whole.UpTo(left+breakTooth/2).End()
		along := on.Sub(end).Unit()
		across := along.Left().Mul(breakHalf)
		tooth := along.Mul(breakTooth)
		marks = append(marks, drawing.Stroke{
			Path: geom.Lines(end.Sub(across), end.Sub(across.Mul(0.3)), end.Sub(across.Mul(0.15)).Add(tooth),
				end.Add(across.Mul(0.15)).Sub(tooth), end.Add(across.Mul(0.3)), end.Add(across)),
			Role: drawing.Thin,
		})
	}
	return append([]drawing.Shape{s}, marks...)
}

// runsOut reports whether q lies on an edge of a tile's window behind which no
// page follows. A line that ends there by itself is one that has been cut as far
// as anyone can see.
func (p *plan) runsOut(q geom.Point, r, c int) bool {
	w := p.windowOf(r, c)
	on := func(a, b float64) bool { return a-b < geom.Coincident && b-a < geom.Coincident }
	return on(q.X, w.Min.X) && !p.printed(r, c-1) || on(q.X, w.Max.X) && !p.printed(r, c+1) ||
		on(q.Y, w.Min.Y) && !p.printed(r+1, c) || on(q.Y, w.Max.Y) && !p.printed(r-1, c)
}

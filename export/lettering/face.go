// Package lettering measures words, breaks and shortens them, and finds places
// for them that are free of lines: the one set of rules by which parts, prints
// and sheets are lettered.
//
// It has no words of its own and draws nothing: what it returns is put on paper
// or into a cut file by whoever asked.
package lettering

import (
	"strings"

	"overbend/geom"
)

// Ordinary is the height in mm of the capitals of ordinary lettering on a
// sheet: the ISO 3098 step (from memory) that is read at arm's length.
const Ordinary = 3.5

// Descent is how far a letter reaches below its base line, in heights.
const Descent = 0.3

// Face is a size and a weight of lettering.
type Face struct {
	Height float64 // of capitals, mm
	Bold   bool
}

// Width returns the width of words in mm as they are lettered (see [Lettered]).
func (f Face) Width(words string) float64 {
	return f.scaled(f.units(words))
}

// units returns the width of words in thousandths of the font's size.
func (f Face) units(words string) int {
	sum := 0
	for _, r := range words {
		if r = lettered(r); r >= 0 {
			sum += advance(r, f.Bold)
		}
	}
	return sum
}

// scaled returns thousandths of the font's size in mm.
func (f Face) scaled(units int) float64 { return float64(units) / 1000 * f.Height / CapHeight }

// Box returns the box around words from descender to cap height, their base
// line beginning at the origin.
func (f Face) Box(words string) geom.Rect {
	return geom.Rect{Min: geom.Pt(0, -Descent*f.Height), Max: geom.Pt(f.Width(words), f.Height)}
}

// Wrap breaks words at plain spaces into lines of at most most mm, the first of
// them indent mm shorter: it comes back empty where not even the first word has
// room beside the indent. A word longer than a line is broken within. There is
// always a line, and a single letter has one whatever the room.
func (f Face) Wrap(words string, most, indent float64) []string {
	var out []string
	line, long, room := "", 0, most-indent // long: the line's width in units
	for _, w := range strings.FieldsFunc(words, func(r rune) bool { return r == ' ' }) {
		next, with := w, f.units(w)
		if line != "" {
			next, with = line+" "+w, long+f.units(" ")+with
		}
		if f.scaled(with) <= room {
			line, long = next, with
			continue
		}
		if line != "" || len(out) == 0 && indent > 0 {
			out, line, long, room = append(out, line), "", 0, most
		}
		for _, r := range w {
			letter := f.units(string(r))
			if line != "" && f.scaled(long+letter) > room {
				out, line, long = append(out, line), "", 0
			}
			line, long = line+string(r), long+letter
		}
	}
	return append(out, line)
}

// Fit shortens words to a width in mm, the last letters replaced by an ellipsis.
// Where not even that has room nothing is left.
func (f Face) Fit(words string, most float64) string {
	if f.Width(words) <= most {
		return words
	}
	if f.Width("…") > most {
		return ""
	}
	r := []rune(words)
	lo, hi := 0, len(r) // of the runes that fit
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if f.Width(string(r[:mid])+"…") <= most {
			lo = mid
		} else {
			hi = mid
		}
	}
	return strings.TrimRight(string(r[:lo]), " ") + "…"
}

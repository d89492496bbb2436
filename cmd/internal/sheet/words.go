package sheet

import (
	"strings"

	"overbend/export/drawing"
	"overbend/geom"
)

// Lettering of the sheet, mm. Nothing is smaller than what is read at arm's
// length (ISO 3098 step, from memory).
const (
	small = drawing.Lettering
	pitch = 5.1 // from base line to base line of small lettering
	below = 0.3 // of the height that a letter's box reaches below its base line
)

// words returns a line of ordinary lettering.
func words(x, y float64, s string, a drawing.Anchor) drawing.Text {
	return drawing.Text{At: geom.Pt(x, y), Words: s, Height: small, Anchor: a, Role: drawing.Note}
}

// bold returns a line of bold lettering.
func bold(x, y float64, s string, a drawing.Anchor) drawing.Text {
	t := words(x, y, s, a)
	t.Bold = true
	return t
}

func width(s string) float64     { return drawing.TextWidth(s, small, false) }
func boldWidth(s string) float64 { return drawing.TextWidth(s, small, true) }

// fit shortens s to a width in mm, the last letters replaced by an ellipsis.
// Where not even that has room nothing is left.
func fit(s string, height, most float64, heavy bool) string {
	if drawing.TextWidth(s, height, heavy) <= most {
		return s
	}
	if drawing.TextWidth("…", height, heavy) > most {
		return ""
	}
	r := []rune(s)
	lo, hi := 0, len(r) // of the runes that fit
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if drawing.TextWidth(string(r[:mid])+"…", height, heavy) <= most {
			lo = mid
		} else {
			hi = mid
		}
	}
	return strings.TrimRight(string(r[:lo]), " ") + "…"
}

// glued returns s with spaces at which no line is broken: a number stays with its
// unit.
func glued(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

// wrap breaks s into lines of small lettering of at most most mm, the first of
// them shorter by indent. A word longer than a line is shortened.
func wrap(s string, most, indent float64) []string {
	var out []string
	line, room := "", most-indent
	for w := range strings.SplitSeq(s, " ") {
		next := w
		if line != "" {
			next = line + " " + w
		}
		if width(next) <= room {
			line = next
			continue
		}
		if line != "" || len(out) == 0 && indent > 0 {
			out, room = append(out, line), most
		}
		line = fit(w, small, room, false)
	}
	return append(out, line)
}

package sheet

import (
	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// Lettering of the sheet, mm. Nothing is smaller than what is read at arm's
// length (ISO 3098 step, from memory).
const (
	small = lettering.Ordinary
	pitch = 5.1 // from base line to base line of small lettering
	below = lettering.Descent
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

func width(s string) float64     { return lettering.Face{Height: small}.Width(s) }
func boldWidth(s string) float64 { return lettering.Face{Height: small, Bold: true}.Width(s) }

// fit shortens ordinary lettering to a width in mm.
func fit(s string, most float64) string { return lettering.Face{Height: small}.Fit(s, most) }

// wrap breaks it into lines of at most most mm, the first shorter by indent.
func wrap(s string, most, indent float64) []string {
	return lettering.Face{Height: small}.Wrap(s, most, indent)
}

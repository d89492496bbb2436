package pdf

import (
	"bytes"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
)

// The families of letters: that which every reader has, and one with Greek,
// Cyrillic and the rest of Latin in the same widths, to be embedded.
const (
	coreFamily   = "Helvetica"
	secondFamily = "Liberation"
)

// font is a family and its style, "" or "B" for bold.
type font struct{ family, style string }

// seconds are the styles of the second family that a document has.
type seconds map[string]bool

// add adds a style, where the document has it not yet. That takes some
// milliseconds, so that only a document that needs it pays.
func (s seconds) add(f *fpdf.Fpdf, style string) {
	if s[style] {
		return
	}
	s[style] = true
	ttf := liberationsansregular.TTF
	if style == "B" {
		ttf = liberationsansbold.TTF
	}
	// A copy: fpdf pads tables where they lie, and documents are written side by
	// side.
	f.AddUTF8FontFromBytes(secondFamily, style, bytes.Clone(ttf))
}

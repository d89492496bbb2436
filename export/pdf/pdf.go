// Package pdf writes drawings as the pages of one PDF document that prints at
// its true size: vector paths in points with four decimals, true arcs as Bézier
// curves, every page as large as its drawing's sheet, and viewer preferences
// that ask for no scaling.
//
// It knows nothing of what is drawn, cuts nothing into tiles (see package
// paper). Lettering is the core font Helvetica in Windows-1252; words with a
// letter that it lacks are set in Liberation Sans, of which a document with such
// words embeds the letters that it has.
package pdf

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"time"
	"unicode/utf16"

	"codeberg.org/go-pdf/fpdf"

	"overbend/export/drawing"
)

// Document is a title for the file's metadata and the pages in order. The
// pages' own titles are not used.
type Document struct {
	Title string
	Pages []drawing.Drawing
}

// Write writes doc. It returns an error for a document without pages or a page
// that fails [drawing.Drawing.Check], before anything is written, or w's own
// error. The same document gives the same bytes: it bears a fixed date.
func Write(w io.Writer, doc Document) error {
	if len(doc.Pages) == 0 {
		return fmt.Errorf("pdf: document %q has no pages; at least one is needed", doc.Title)
	}
	for i, p := range doc.Pages {
		if err := p.Check(); err != nil {
			return fmt.Errorf("pdf: page %d: %w", i+1, err)
		}
	}

	size := func(p drawing.Drawing) fpdf.SizeType {
		return fpdf.SizeType{Wd: p.Sheet().Width(), Ht: p.Sheet().Height()}
	}
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: size(doc.Pages[0])})
	f.SetCatalogSort(true)
	f.SetCreationDate(date())
	f.SetModificationDate(date())
	f.SetProducer("overbend", true)
	f.SetTitle(utf16Text(doc.Title), false)
	// Uncompressed, a page is read by any check and its bytes depend on no
	// version of a compressor; it is some ten kilobytes.
	f.SetCompression(false)
	f.SetAutoPageBreak(false, 0)

	added := seconds{}
	for _, p := range doc.Pages {
		// Portrait takes the size as it is, wide or high.
		f.AddPageFormat("P", size(p))
		drawPage(f, added, p)
	}

	// fpdf writes into memory first, then copies; one copy more is needed here
	// because the catalog is amended at the end of the file.
	var buf bytes.Buffer
	if err := f.Output(&buf); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	out, err := asIs(buf.Bytes())
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	if _, err := w.Write(out); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

// date is the day that every document bears, so that bytes repeat.
func date() time.Time { return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) }

// utf16Text returns a text as PDF 32000-1:2008, 7.9.2.2 has one with any letter:
// UTF-16BE behind its mark. fpdf's own knows no surrogate pairs, so that an emoji
// would garble what follows.
func utf16Text(s string) string {
	out := []byte{0xfe, 0xff}
	for _, u := range utf16.Encode([]rune(s)) {
		out = binary.BigEndian.AppendUint16(out, u)
	}
	return string(out)
}

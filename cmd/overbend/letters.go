package main

import (
	"fmt"
	"io"
	"slices"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/export/drawing"
	"overbend/export/lettering"
)

// warnLetters says which letters of a drawing that was written into a file can't be
// lettered, where there are any.
func warnLetters(stderr io.Writer, file string, d drawing.Drawing) error {
	var lacking []rune
	for _, s := range d.Shapes {
		if t, ok := s.(drawing.Text); ok {
			for _, r := range lettering.Lacking(t.Words) {
				if !slices.Contains(lacking, r) {
					lacking = append(lacking, r)
				}
			}
		}
	}
	if len(lacking) == 0 {
		return nil
	}
	_, err := fmt.Fprintf(stderr, "warning: %s\n", words.Lacks(lacking, file).Say(quantity.Millimetres))
	return err
}

// Package kit turns a plan into the files of a kit and puts them on disk, all
// or none.
//
// It computes no shop number: it only draws and writes what the plan holds.
package kit

import (
	"overbend/cmd/internal/quantity"
	"overbend/export/dxf"
	"overbend/export/paper"
)

// Options are what a kit's files look like.
type Options struct {
	Units quantity.Units // of lettering
	DXF   dxf.Options
	Paper paper.Layout
}

package dxf

import (
	"overbend/export/drawing"
	"overbend/geom"
)

// layer is a row of the layer table. Colour is a DXF colour index.
type layer struct {
	name   string
	colour int
}

// zero is the layer that every file has.
var zero = layer{"0", 7}

// layerOf returns the layer of a role, and false for a role that is for paper
// only.
func layerOf(r drawing.Role) (layer, bool) {
	switch r {
	case drawing.CutOuter:
		return layer{"OUTLINE", 7}, true
	case drawing.CutInner:
		return layer{"HOLES", 1}, true
	case drawing.Mark:
		return layer{"SCRIBE", 3}, true
	case drawing.Note:
		return layer{"NOTES", 8}, true
	default:
		return layer{}, false
	}
}

// isCut reports whether shapes of the role are cut.
func isCut(r drawing.Role) bool { return r == drawing.CutOuter || r == drawing.CutInner }

// shapeRole returns the role of s; a kind of shape that this package does not
// know counts as a note.
func shapeRole(s drawing.Shape) drawing.Role {
	switch s := s.(type) {
	case drawing.Stroke:
		return s.Role
	case drawing.Ring:
		return s.Role
	case drawing.Text:
		return s.Role
	default:
		return drawing.Note
	}
}

// shapeBox returns the bounds of s in mm.
func shapeBox(s drawing.Shape) geom.Rect {
	switch s := s.(type) {
	case drawing.Stroke:
		return s.Path.Bounds()
	case drawing.Ring:
		return s.Circle.Bounds()
	case drawing.Text:
		return s.Bounds()
	default:
		return geom.EmptyRect()
	}
}

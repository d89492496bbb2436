// Package dxf writes drawings as DXF files for cutting tables and CAD: lines
// and true arcs, never facets or splines.
//
// A shape's role becomes its layer:
//
//	drawing.CutOuter  OUTLINE  colour 7 (black or white)
//	drawing.CutInner  HOLES    colour 1 (red)
//	drawing.Mark      SCRIBE   colour 3 (green)
//	drawing.Note      NOTES    colour 8 (grey)
//
// Nothing lies on OUTLINE and HOLES but closed contours, outlines before holes.
// With [Options.CutOnly] only those are left, for tables that cut whatever they
// are given.
//
// The lower left corner of what is cut, or of the drawing's page where it has
// one, lies at 0,0, and a line of text on NOTES, above the drawing or in the
// page's lower margin, states the unit and the overall size of the same.
//
// A reader that accepts a file proves little: the readers tried stay silent on
// open outlines, doubled circles and undeclared layers. The package therefore
// has its own lint of the drawing, [Lint], and [Write] runs it before it writes a
// byte. Tests hold the finished file against package dxftest.
//
// The package reads no DXF, adds no kerf and no lead-in, and knows nothing of
// bending.
//
// References:
//
//	[DXF]  the published DXF reference for AC1009 and AC1015: sections, group
//	       codes, bulge = tan(included angle / 4); from memory, and proved by
//	       reading the files with five independent readers
package dxf

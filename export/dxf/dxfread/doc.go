// Package dxfread reads the lines of a drawing out of a text DXF of any version
// from R12 (AC1009) to 2018 (AC1032): LINE, ARC, CIRCLE, ELLIPSE, LWPOLYLINE,
// POLYLINE and SPLINE in model space, also inside INSERTs, scaled, turned,
// mirrored and in rows, as paths with true arcs.
//
// It reads from a stream, opens no file, and is bounded in memory and time
// whatever the bytes say (see [Limits]). What it can't use is counted, not
// guessed at: [Drawing.Skipped]. A drawing that is no such file is an [*Error]
// of one sentence with its line.
//
// Lengths stay in the drawing's own unit; [Drawing.Unit] is its size in mm. The
// package joins nothing, knows nothing of tubes, and reads no text, dimension or
// hatch.
//
// References:
//
//	[DXF]  the published DXF reference: sections, group codes, $INSUNITS,
//	       the arbitrary axis rule for extrusions, knots of a spline; from
//	       memory, and proved on files that ezdxf writes in every version
package dxfread

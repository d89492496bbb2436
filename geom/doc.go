// Package geom is exact plane geometry for shop drawings: points, angles,
// paths made of straight lines and true circular arcs, rigid transforms,
// and their measures.
//
// Lengths are millimetres, areas square millimetres, angles radians (type
// [Angle]) counter-clockwise positive, x to the right and y up. An arc stays
// an arc through every operation: nothing here is faceted.
//
// The package holds no bending mechanics, no file format and no drawing
// style.
package geom

// Coincident is the distance in mm below which two points count as one. It is
// a hundred times finer than the 1e-4 mm that any cutting table resolves and
// far coarser than float64 rounding on parts of a few metres (about 1e-12 mm).
const Coincident = 1e-6

// Package paper lays a drawing out at its true size on the sheets that a
// printer takes: on one page if it fits, else on tiles that share alignment
// crosses and are cut and taped together. Every page carries bars to measure.
//
// It makes drawings out of a drawing; it writes no file format, scales nothing
// but for a printer's measured error, and turns the paper but never the part.
package paper

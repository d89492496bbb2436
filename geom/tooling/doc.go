// Package tooling draws the shop parts of a cold bend: form block, cheeks,
// backing strip, check templates, the finished tube and its blank, and lays
// them out on plate. It takes plain numbers in spec structs and returns exact
// geometry of lines and true arcs.
//
// Block, cheek, template and tube share one frame: the bend's centre is the
// origin, the crown of the bend is at the top, on the y axis, and the bend is
// symmetric about it. What is outside of the bend is above. Strip and blank
// lie along x from the origin.
//
// Sizes for which no source is named in a comment are common practice.
//
// The package knows no metal and no press (angles and radii under load come in
// as numbers), letters nothing, writes no file and chooses no pen, layer or unit
// but the mm.
package tooling

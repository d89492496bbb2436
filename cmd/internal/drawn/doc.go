// Package drawn finds bent tubes in a drawing and writes a job file for one: a
// lone line that bends is a tube's centreline, two that run parallel are its
// edges, what closes them its end cuts, lines between them its wall.
//
// Bytes go in, candidates with their geometry in mm come out; it opens no file.
// How lines join and what bends are is package chain's, group codes are dxfread's.
package drawn

// Package chain makes sense of loose lines: it joins segments whose ends meet,
// takes short chords for the arc or the straight line that they follow, cuts what
// comes of it at corners into chains of pieces that are tangent to each other, and
// measures the bends in them and which of those run parallel.
//
// What it mends, gaps and kinks within a [Tolerance] and chords taken for an arc,
// stays with the pieces, to be told. It knows no file, no layer but as a group's
// number, and no tube.
package chain

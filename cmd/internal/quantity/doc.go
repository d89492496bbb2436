// Package quantity reads and writes numbers with units: lengths, angles,
// stresses, forces, densities and shares. It is the edge at which units stop.
// Everything it hands on is a plain float64 in mm, MPa, N, kg/m³ or a pure
// number, and a geom.Angle for angles; everything it writes is text for a
// person.
//
// All parsers share one reading of a number: a decimal (40, 1.5, .5, 1e3), a
// fraction (3/8) or a mixed number (1 1/2, 1-1/2), then a unit, with or without
// a space between. The case of letters in a unit does not matter. A decimal
// comma, hexadecimal, NaN and infinities are refused. Errors are sentences to
// be put behind a file, line and key.
//
// The one compound is feet and inches, 6' 2-1/2". It knows no file and no key, and
// sets no limits beyond what makes sense for any value of a kind.
package quantity

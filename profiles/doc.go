// Package profiles is what things are made of: tube sections with their
// integrals, stress-strain laws, and the built-in tables of materials, tubes,
// plates, strips and filler alloys, each row with its source.
//
// Lengths are mm, stresses MPa, densities kg/m³. What is wrong, or to be minded,
// is returned as values: no text here has a unit in it, and sentences are made
// where the reader's units are known. The package imports nothing else of this
// module and bends nothing.
package profiles

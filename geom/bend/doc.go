// Package bend is the mechanics of a cold bend: the moment a section carries
// at a curvature, how far it springs back, what the bend does to the tube,
// what a three-point press must do to make it, and what measured trial bends
// say about the metal.
//
// Curvatures are 1/mm, moments N·mm, forces N, lengths mm, stresses MPa,
// angles [geom.Angle]. Sections stay plane and bend about the centreline
// y = 0; materials follow one curve in tension and compression. What a bend does
// to the tube ([Deform]) is worked out about its neutral line.
//
// References, cited by key in the comments:
//
//	[RO]      W. Ramberg, W. R. Osgood, Description of stress-strain curves by
//	          three parameters, NACA TN 902, 1943.
//	[EC9]     EN 1999-1-1, Annex E (Ramberg-Osgood with the 0.2 % proof stress).
//	[Gardiner] F. J. Gardiner, The springback of metals, Trans. ASME 79 (1957).
//	[TN3781]  G. Gerard, H. Becker, Handbook of structural stability, part I,
//	          NACA TN 3781, 1957 (formula from memory).
//	[TN3783]  the same, part III, curved plates and shells, NACA TN 3783, 1957
//	          (formula from memory).
//
// The package draws nothing, reads no files and knows no catalogue.
package bend

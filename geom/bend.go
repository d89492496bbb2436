package geom

// Bend is a circular bend of a tube's centreline.
type Bend struct {
	Radius float64 // of the centreline, mm
	Angle  Angle   // change of direction
}

// Curvature returns 1/Radius, 1/mm.
func (b Bend) Curvature() float64 { return 1 / b.Radius }

// Length returns the centreline's length in mm.
func (b Bend) Length() float64 { return b.Radius * float64(b.Angle) }

// Inside returns the radius in mm of the inner face of a tube depth mm deep.
func (b Bend) Inside(depth float64) float64 { return b.Radius - depth/2 }

// Outside returns the radius in mm of the outer face of a tube depth mm deep.
func (b Bend) Outside(depth float64) float64 { return b.Radius + depth/2 }

// BendOnFace returns the bend of which a face of radius r mm on the inside has
// a tube depth mm deep, as a block leaves it.
func BendOnFace(r, depth float64, a Angle) Bend { return Bend{r + depth/2, a} }

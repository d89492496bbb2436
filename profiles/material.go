package profiles

// Family is the kind of metal, which decides the defaults that a row leaves
// open.
type Family string

// The families.
const (
	Aluminium Family = "aluminium"
	Steel     Family = "steel"
)

// Material is a metal for tube or strip. A catalogue row gives minimum
// strengths from a standard and, where a source has them, typical ones.
type Material struct {
	Name       string  // as job files spell it, e.g. "6082-T6"
	Family     Family  //
	Temper     string  // of aluminium, e.g. "T6"; "": not known or none
	Form       string  // product form, e.g. "extruded" or "drawn tube"
	Standard   string  // product standard, e.g. "EN 755-2"
	WallOver   float64 // the row is for walls over this, mm
	WallTo     float64 // and up to this, mm; 0: no limit given
	Youngs     float64 // MPa
	Poisson    float64 // elastic Poisson ratio
	Density    float64 // kg/m³
	Proof      float64 // minimum 0.2 % proof stress, MPa
	Ultimate   float64 // minimum ultimate stress, MPa; 0: not given (inline with an exponent)
	Typical    float64 // typical proof stress, MPa; 0: none published
	TypicalUlt float64 // typical ultimate stress, MPa; 0: none published
	Exponent   float64 // Ramberg-Osgood exponent from a source; 0: by Annex E from Proof and Ultimate
	Elongation float64 // after fracture, as a fraction (0.08 is 8 %)
	ColdFormed bool    // hollow sections of it are cold formed: corners by EN 10219-2
	Source     string  // where the row's numbers come from
}

// StrainExponent returns the Ramberg-Osgood exponent: the row's own, or by
// AnnexEExponent from the minimum proof and ultimate stress. Annex E is
// written for aluminium; for steel, which has no such rule, it stands in. The
// result is NaN or below 1 when the material has no exponent and no ultimate
// stress above its proof stress.
func (m Material) StrainExponent() float64 {
	if m.Exponent != 0 {
		return m.Exponent
	}
	return AnnexEExponent(m.Proof, m.Ultimate)
}

// Law returns the stress-strain curve of the material for a proof stress in
// MPa, which may be a typical, a certificate's or a fitted one. A material has
// one exponent, that of its minimum strengths, kept over the whole spread of
// proof: no source gives the exponent of a strong sample, and the ultimate
// stress of one is not known.
func (m Material) Law(proof float64) RambergOsgood {
	return RambergOsgood{Youngs: m.Youngs, Proof: proof, Exponent: m.StrainExponent()}
}

// CoversWall reports whether the row is for a wall (of a bar or flat: the
// thickness) in mm.
func (m Material) CoversWall(wall float64) bool {
	return wall > m.WallOver && (m.WallTo == 0 || wall <= m.WallTo)
}

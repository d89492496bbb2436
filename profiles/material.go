package profiles

// Family is the kind of metal, which decides the defaults that a row leaves
// open.
type Family string

// The families.
const (
	Aluminium Family = "aluminium"
	Steel     Family = "steel"     // carbon and low-alloy
	Stainless Family = "stainless" // austenitic
)

// Ferrous reports whether the metal is a steel of some kind.
func (f Family) Ferrous() bool { return f == Steel || f == Stainless }

// Material is a metal for tube or strip. A catalogue row gives minimum
// strengths from a standard, and how far deliveries lie above them.
type Material struct {
	Name       string  // as job files spell it, e.g. "6082-T6"
	Family     Family  //
	Temper     string  // of aluminium, e.g. "T6"; "": not known or none
	Form       string  // product form, e.g. "extruded" or "drawn tube"
	Standard   string  // product standard, e.g. "EN 755-2"
	Shape      string  // "rectangle" or "round": the row is for tube of that shape; "": any
	WallOver   float64 // the row is for walls over this, mm
	WallTo     float64 // and up to this, mm; 0: no limit given
	Youngs     float64 // MPa
	Poisson    float64 // elastic Poisson ratio
	Density    float64 // kg/m³
	Proof      float64 // minimum 0.2 % proof stress, MPa
	Ultimate   float64 // minimum ultimate stress, MPa; 0: not given (inline with an exponent)
	Typical    float64 // typical over minimum proof stress; 0: no range
	Variation  float64 // coefficient of variation of the proof stress between deliveries, as a fraction
	Exponent   float64 // Ramberg-Osgood exponent from a source; 0: as StrainExponent says
	Elongation float64 // after fracture, as a fraction (0.08 is 8 %)
	Unloading  float64 // share of Youngs by which it unloads after yielding; 0: not given, as 1
	ColdFormed bool    // hollow sections of it are cold formed: corners by EN 10219-2
	SpreadFrom string  // where Typical and Variation come from
	Source     string  // where the row's other numbers come from
}

// StrainExponent returns the exponent of the material's curve for its minimum
// strengths: the row's own; for aluminium by AnnexEExponent; for steel that of
// a two-stage law's first stage. The result is NaN or below 1 when aluminium
// has no exponent and no ultimate stress above its proof stress.
func (m Material) StrainExponent() float64 { return m.exponent(m.Proof, m.Ultimate) }

func (m Material) exponent(proof, ultimate float64) float64 {
	switch {
	case m.Exponent != 0:
		return m.Exponent
	case m.Family == Stainless:
		return stainlessExponent
	case m.Family == Steel:
		return steelExponent
	}
	return AnnexEExponent(proof, ultimate)
}

// Curve returns the material's curve for a proof stress in MPa, which may be a
// typical, a certificate's or a fitted one. With the ultimate stress in MPa
// that was measured beside it, above the proof stress, the exponent follows
// from both; with an ultimate of 0 the row's exponent and its ratio of ultimate
// to proof stress are kept over the whole spread of proof.
func (m Material) Curve(proof, ultimate float64) Curve {
	if ultimate == 0 {
		return Curve{m.Family, m.Youngs, m.Proof, m.Ultimate, m.StrainExponent()}.At(proof)
	}
	return Curve{m.Family, m.Youngs, proof, ultimate, m.exponent(proof, ultimate)}
}

// CoversShape reports whether the row is for tube of a shape; flat and bar go
// with rectangles.
func (m Material) CoversShape(s Shape) bool { return m.Shape == "" || m.Shape == s.String() }

// CoversWall reports whether the row is for a wall (of a bar or flat: the
// thickness) in mm.
func (m Material) CoversWall(wall float64) bool {
	return wall > m.WallOver && (m.WallTo == 0 || wall <= m.WallTo)
}

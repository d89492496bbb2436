package profiles

// Spread is the range of 0.2 % proof stress, MPa, that a delivered piece may
// have.
type Spread struct {
	Low, Nominal, High float64
}

// How far metal lies above its standard's minimum.
const (
	// typicalOverMinimum is typical over minimum proof stress where no typical
	// one is published: 6061-T6 has 276 and 240 MPa, 1.15; common practice.
	typicalOverMinimum = 1.15
	// highOverTypical is two standard deviations above the typical proof
	// stress, at the 8 % (20.5 in 260 MPa, 7.9 %) of six samples cut from one
	// length of 6061-T6 tube; an engineers' report, not verified.
	highOverTypical = 1.16
)

// Spread returns the proof stress to reckon with: low is the standard's
// minimum, nominal the published typical one or 1.15 times the minimum, high
// 1.16 times the nominal. For a proof stress from a certificate there is no
// spread and this is not to be asked.
func (m Material) Spread() Spread {
	nominal := m.Typical
	if nominal == 0 {
		nominal = typicalOverMinimum * m.Proof
	}
	return Spread{Low: m.Proof, Nominal: nominal, High: highOverTypical * nominal}
}

package profiles

// Spread is the range of 0.2 % proof stress, MPa, that a delivered piece may
// have.
type Spread struct {
	Low, Nominal, High float64
}

// Spread returns the proof stress to reckon with: low is the standard's
// minimum, nominal the typical one, high two standard deviations above that.
// Metal below the minimum would be refused. Without Typical and Variation all
// are the minimum.
func (m Material) Spread() Spread {
	nominal := m.Proof
	if m.Typical > 0 {
		nominal *= m.Typical
	}
	return Spread{Low: min(m.Proof, nominal), Nominal: nominal, High: nominal * (1 + 2*m.Variation)}
}

// certified is how far a test of the piece itself may lie from its mill
// certificate, either way. Tests over mill reports have a mean of 1.002 and a
// coefficient of variation of 4.4 % (F. M. Bartlett and others, 2003, A992
// steel; abstract, read): about one standard deviation.
const certified = 0.04

// Certified returns the range of a metal whose certificate gives a proof
// stress, MPa.
func Certified(proof float64) Spread {
	return Spread{Low: (1 - certified) * proof, Nominal: proof, High: (1 + certified) * proof}
}

package bend

import (
	"math"

	"overbend/profiles"
)

// Family holds the table of all Ramberg-Osgood laws of one exponent n. With the
// stress in units of s1 and the strain in units of s1/E they are one curve,
//
//	e = s + s^n,  s1 = s02 (s02/(0.002 E))^(1/(n-1))
//
// so that a metal's range and its neighbours in a table of jobs ask for one table.
type Family struct {
	exponent float64
	table    *sampled
}

// leastFamily is the exponent below which laws have no family: at 1 they have
// no scale.
const leastFamily = 1.5

// NewFamily returns the family of the laws of an exponent, with tables up to the
// strain top > 0 in the family's unit.
func NewFamily(exponent, top float64) Family {
	f := Family{exponent: exponent}
	if exponent >= leastFamily {
		f.table = sample(profiles.RambergOsgood{Youngs: 1, Proof: math.Pow(profiles.ProofStrain, 1/exponent), Exponent: exponent}, top)
	}
	return f
}

// FamilyStrain returns a strain of a law in the unit of its family.
func FamilyStrain(law profiles.RambergOsgood, strain float64) float64 {
	_, e1 := scales(law)
	return strain / e1
}

// scales returns the units of stress in MPa and of strain in which a law is the
// family's curve.
func scales(l profiles.RambergOsgood) (stress, strain float64) {
	s1 := l.Proof * math.Pow(l.Proof/(profiles.ProofStrain*l.Youngs), 1/(l.Exponent-1))
	return s1, s1 / l.Youngs
}

// Law returns a law read from the family's table, or as it is where it is none of
// the family.
func (f Family) Law(law profiles.Law) profiles.Law {
	l, ok := law.(profiles.RambergOsgood)
	if !ok || f.table == nil || l.Exponent != f.exponent {
		return law
	}
	s1, e1 := scales(l)
	return &relative{RambergOsgood: l, table: f.table, stress: s1, strain: e1, knees: l.Knees()}
}

// relative is a law of a family.
type relative struct {
	profiles.RambergOsgood
	table          *sampled
	stress, strain float64 // the units
	knees          []float64
}

func (r *relative) top() float64 { return r.table.top() * r.strain }

// Stress returns the stress in MPa at a strain of either sign.
func (r *relative) Stress(strain float64) float64 {
	return r.stress * r.table.Stress(strain/r.strain)
}

// StressMoment returns ∫ s e de from 0 to |strain| in MPa.
func (r *relative) StressMoment(strain float64) float64 {
	return r.stress * r.strain * r.strain * r.table.StressMoment(strain/r.strain)
}

// StressWithMoment returns Stress and StressMoment at a strain of 0 or more.
func (r *relative) StressWithMoment(strain float64) (stress, moment float64) {
	s, m := r.table.StressWithMoment(strain / r.strain)
	return r.stress * s, r.stress * r.strain * r.strain * m
}

// Knees returns the law's knees.
func (r *relative) Knees() []float64 { return r.knees }

package shop

import (
	"math"
	"slices"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
	"overbend/profiles"
)

// Metal is a metal that trial bends taught: one bar, or several of one lot.
type Metal struct {
	Name   string
	Base   string // the listed metal from which all else is taken
	Lesson        // what all its trials say together
	Trials []Part // none: written by hand
}

// Lesson is what trials say about a metal: of a [Part] about the piece that was
// bent, of a [Metal] about its lot.
type Lesson struct {
	Proof         float64 // MPa
	ProofError    float64 // one standard deviation, MPa
	Exponent      float64 // of the curve; 0: as the base's
	ExponentError float64 // one standard deviation
}

// Part is what the trials of one job say.
type Part struct {
	Job string
	Lesson
	Of []string // digests of the trials; none: a value written by hand
}

// How far a piece's proof stress lies from its lot's, and a lot's from others, as
// shares of it, one standard deviation: 1.7 and 8.7 % of 6061-T651 bar, 19
// specimens of 9 lots (Aakash, Connors and Shields 2019, 10.17632/rd6jm9tyb6.2,
// CC BY 4.0), rounded. Other metals are taken to scatter as much.
const (
	WithinLot   = 0.02
	BetweenLots = 0.09
)

// Spread returns the range of the metal's proof stress, MPa: two standard
// deviations either way for another piece of the same lot, or for one of another
// lot, which is refused below the standard's minimum.
func (l Lesson) Spread(sameLot bool, minimum float64) profiles.Spread {
	scatter := BetweenLots
	if sameLot {
		scatter = WithinLot
	}
	band := 2 * math.Hypot(l.ProofError, scatter*l.Proof)
	s := profiles.Spread{Low: max(l.Proof-band, l.Proof/4), Nominal: l.Proof, High: l.Proof + band}
	if !sameLot {
		s.Low = max(s.Low, min(minimum, l.Proof))
	}
	return s
}

// Join returns what lessons about one lot say together. Each is of a piece of its
// own, which lies somewhere in the lot: so it counts with its own error and the
// lot's scatter together (the mean of a random-effects model). The exponent is the
// mean of those that were fitted, each by its own error alone.
func Join(parts []Lesson) Lesson {
	var one Lesson
	var weights, sum, nWeights, nSum float64
	for _, p := range parts {
		w := 1 / (p.ProofError*p.ProofError + WithinLot*WithinLot*p.Proof*p.Proof)
		weights, sum = weights+w, sum+w*p.Proof
		if p.ExponentError > 0 {
			w := 1 / (p.ExponentError * p.ExponentError)
			nWeights, nSum = nWeights+w, nSum+w*p.Exponent
		}
	}
	one.Proof, one.ProofError = sum/weights, 1/math.Sqrt(weights)
	if nWeights > 0 {
		one.Exponent, one.ExponentError = nSum/nWeights, 1/math.Sqrt(nWeights)
	}
	return one
}

// Others returns the metal's parts that do not count any of the trials.
func (m Metal) Others(digests []string) []Part {
	return slices.DeleteFunc(slices.Clone(m.Trials), func(p Part) bool { return p.counts(digests) })
}

// counts reports whether a part counts any of the trials.
func (p Part) counts(digests []string) bool {
	return slices.ContainsFunc(p.Of, func(d string) bool { return slices.Contains(digests, d) })
}

// More reports whether the metal was learned from anything but these trials.
func (m Metal) More(digests []string) bool { return len(m.Trials) == 0 || len(m.Others(digests)) > 0 }

// lessons returns those of parts.
func lessons(parts []Part) []Lesson {
	var all []Lesson
	for _, p := range parts {
		all = append(all, p.Lesson)
	}
	return all
}

// With returns what the metal's other trials say together with a new lesson from
// trials of these digests.
func (m Metal) With(l Lesson, digests []string) Lesson {
	if len(m.Trials) == 0 {
		return Join([]Lesson{m.Lesson, l})
	}
	return Join(append(lessons(m.Others(digests)), l))
}

// Limits of a kept metal, MPa and pure numbers: as of a job's own.
const (
	LeastProof   = 1.0
	MostProof    = 5e3
	MostExponent = 10e3 // practically elastic, perfectly plastic
)

// ReadProof reads a proof stress in MPa, 0 where the key is left out.
func ReadProof(t keyed.Table) float64 {
	return t.Stress("proof", 0, LeastProof, MostProof, t.Stresses().Between(LeastProof, MostProof))
}

// ReadExponent reads a curve's exponent, 0 where the key is left out.
func ReadExponent(t keyed.Table) float64 {
	return t.Number("exponent", 0, quantity.ParseNumber, 1, MostExponent, "a number like 25", "from 1 to 10000")
}

func readLesson(t keyed.Table) Lesson {
	t.Need("proof", t.Like(`"262 MPa"`, `"38 ksi"`))
	t.Need("proof_error", t.Like(`"4 MPa"`, `"0.6 ksi"`))
	l := Lesson{Proof: ReadProof(t), Exponent: ReadExponent(t)}
	l.ProofError = t.Stress("proof_error", 0, 0, MostProof, t.Stresses().Between(0, MostProof))
	if !t.Failed() && (l.ProofError == 0 || l.ProofError > l.Proof/2) {
		t.Fail("proof_error", "%s is not allowed; it must be more than 0 and at most %s, half the proof stress", t.Stresses().Show(l.ProofError), t.Stresses().Most(l.Proof/2))
	}
	return l
}

// agrees is how far a metal's own values may lie from those of its trials, as a
// share: what writing them in four figures leaves.
const agrees = 0.002

func readMetals(root keyed.Table) []Metal {
	var all []Metal
	for _, t := range root.Elements("metal", most) {
		t.Need("name", `"bar 7"`)
		t.Need("base", `"6082-T6"`)
		m := Metal{Name: t.Text("name"), Base: t.Text("base"), Lesson: readLesson(t)}
		if t.Failed() {
			return nil
		}
		for _, other := range all {
			if same(other.Name, m.Name) {
				t.Fail("name", "%s stands there twice; each metal has a name of its own", m.Name)
			}
		}
		if err := Free(m.Name); err != nil {
			t.Fail("name", "%v", err)
		}
		base, err := listed(m.Base)
		if err != nil {
			t.Fail("base", "%s", t.Because(err))
		}
		m.Base = base
		for _, e := range t.Elements("trials", most) {
			p := Part{Job: e.Text("job"), Lesson: readLesson(e)}
			e.Need("job", `"davit-arm"`)
			p.ExponentError = e.Number("exponent_error", 0, quantity.ParseNumber, 0, MostExponent, "a number like 2", "from 0 to 10000")
			if (p.Exponent > 0) != (p.ExponentError > 0) {
				e.Fail("exponent", "exponent and exponent_error go together; give both or neither")
			}
			e.List("of", `["0123456789ab"]`, func(path string, v any) {
				d, ok := v.(string)
				if !ok {
					e.FailAt(path, "%s is not allowed; it must be a text in quotes", keyed.TypeName(v))
				}
				p.Of = append(p.Of, d)
			})
			m.Trials = append(m.Trials, p)
		}
		if len(m.Trials) > 0 && !t.Failed() {
			joined := Join(lessons(m.Trials))
			if math.Abs(joined.Proof-m.Proof) > agrees*joined.Proof {
				t.Fail("proof", "%s is not what the trials below say together, %s; correct it or take the trials out", t.Stresses().Show(m.Proof), written(joined.Proof, t.Stresses()))
			}
			m.ExponentError = joined.ExponentError
		}
		all = append(all, m)
	}
	return all
}

// listed returns the catalogue's own spelling of a metal, for tube of any kind.
func listed(name string) (string, error) {
	m, err := profiles.FindMaterial(name, 0, profiles.Rectangle)
	if err != nil {
		if round, e := profiles.FindMaterial(name, 0, profiles.Round); e == nil {
			return round.Name, nil
		}
	}
	return m.Name, err
}

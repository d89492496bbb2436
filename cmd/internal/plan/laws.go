package plan

import (
	"overbend/cmd/internal/job"
	"overbend/geom/bend"
	"overbend/profiles"
)

// usualBend is how much further than the drawing has it, in curvature, a tube or
// strip is hardly ever pressed: up to there its law has tables.
const usualBend = 2.0

// laws are the stress-strain curves of a metal's range, with tables.
type laws struct {
	family bend.Family
	of     map[float64]profiles.Law // by proof stress, MPa, where there is no family
}

// newLaws returns the laws of a metal whose range is known.
func newLaws(j job.Job, m Metal) laws {
	top := usualBend * j.Bend.Curvature() * j.Tube.Depth / 2
	weakest := m.Curve.At(m.Spread.Low).Law()
	if l, ok := weakest.(profiles.RambergOsgood); ok {
		return laws{family: bend.NewFamily(l, top)}
	}
	t := laws{of: map[float64]profiles.Law{}}
	for _, proof := range [...]float64{m.Spread.Low, m.Curve.Proof, m.Spread.High} {
		if t.of[proof] == nil {
			t.of[proof] = bend.Sampled(m.Curve.At(proof).Law(), top)
		}
	}
	return t
}

// law returns the metal's law at a proof stress in MPa.
func (m Metal) law(proof float64) profiles.Law {
	if l := m.laws.of[proof]; l != nil {
		return l
	}
	return m.laws.family.Law(m.Curve.At(proof).Law())
}

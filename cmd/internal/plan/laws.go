package plan

import (
	"math"
	"sync"

	"overbend/cmd/internal/job"
	"overbend/geom/bend"
	"overbend/profiles"
)

// Tables keeps what jobs of the same metals have in common, so that a second one
// costs less: the tables of their stress-strain curves. Its zero value is ready, and
// it may be used from several goroutines. A job comes out the same with or without.
type Tables struct {
	mu       sync.Mutex
	families map[family]bend.Family
	laws     map[law]profiles.Law
}

// family names a table of one exponent up to a strain, law one of a curve.
type (
	family struct{ exponent, top float64 }
	law    struct {
		curve profiles.Curve
		top   float64
	}
)

// mostTables is how many tables are kept of either kind: a range of jobs over the
// strength of a steel asks for new ones with every job.
const mostTables = 64

// usualBend is how much further than the drawing has it, in curvature, a tube or
// strip is hardly ever pressed: up to there its law has tables.
const usualBend = 2.0

// stretch returns the end of the tables that are to reach a strain: a power of 2, so
// that jobs share them and none depends on which came first.
func stretch(strain float64) float64 { return math.Exp2(math.Ceil(math.Log2(strain))) }

// shared returns what a map has under a key, or makes it.
func shared[K comparable, V any](t *Tables, in *map[K]V, key K, create func() V) V {
	t.mu.Lock()
	defer t.mu.Unlock()
	if v, ok := (*in)[key]; ok {
		return v
	}
	if *in == nil || len(*in) >= mostTables {
		*in = map[K]V{}
	}
	v := create()
	(*in)[key] = v
	return v
}

// family returns the family of a law with tables up to a strain of that law.
func (t *Tables) family(l profiles.RambergOsgood, strain float64) bend.Family {
	if !(strain > 0) {
		return bend.Family{}
	}
	f := family{l.Exponent, stretch(bend.FamilyStrain(l, strain))}
	return shared(t, &t.families, f, func() bend.Family { return bend.NewFamily(f.exponent, f.top) })
}

// of returns the law of a curve with tables up to a strain.
func (t *Tables) of(c profiles.Curve, strain float64) profiles.Law {
	if l, ok := c.Law().(profiles.RambergOsgood); ok {
		return t.family(l, strain).Law(l)
	}
	if !(strain > 0) {
		return c.Law()
	}
	k := law{c, stretch(strain)}
	return shared(t, &t.laws, k, func() profiles.Law { return bend.Sampled(c.Law(), k.top) })
}

// laws are the stress-strain curves of a metal's range, with tables.
type laws struct {
	family bend.Family              // of aluminium
	of     map[float64]profiles.Law // of steel, by proof stress in MPa
}

// metal returns the laws of a metal whose range is known.
func (t *Tables) metal(j job.Job, m Metal) laws {
	strain := usualBend * j.Bend.Curvature() * j.Tube.Depth / 2
	if l, ok := m.Curve.At(m.Spread.Low).Law().(profiles.RambergOsgood); ok {
		return laws{family: t.family(l, strain)} // the weakest reaches furthest
	}
	l := laws{of: map[float64]profiles.Law{}}
	for _, proof := range [...]float64{m.Spread.Low, m.Curve.Proof, m.Spread.High} {
		l.of[proof] = t.of(m.Curve.At(proof), strain)
	}
	return l
}

// strip returns a strip with its law read from tables.
func (t *Tables) strip(j job.Job, s Strip) Strip {
	s.law = t.of(s.Curve, usualBend*j.Bend.Curvature()*s.Thickness/2)
	return s
}

// law returns the metal's law at a proof stress in MPa.
func (m Metal) law(proof float64) profiles.Law {
	if l := m.laws.of[proof]; l != nil {
		return l
	}
	return m.laws.family.Law(m.Curve.At(proof).Law())
}

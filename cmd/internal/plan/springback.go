package plan

import (
	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// Overbend is the plain arc, pressed, at one proof stress.
type Overbend struct {
	Proof   float64   // MPa
	Pressed geom.Bend // under load
	Block   float64   // block radius, mm
	Ratio   float64   // finished over pressed curvature
	Moment  float64   // of the tube under load, N·mm
	// Final is what the nominal block gives with this metal, pressed over the
	// nominal arc: the bend as drawn at the nominal proof stress.
	Final geom.Bend
}

// Springback is how far the bend must be pressed past the drawing, at the
// nominal proof stress and at the ends of the metal's range.
type Springback struct {
	Nominal   Overbend
	Low, High *Overbend // nil when the metal has no range
	// Working is the radius in mm of the block that the kit is made around: the
	// nominal one's or, of a block on the rack that the job uses, its own.
	Working float64
	Ready   *shop.Block // the block on the rack; nil for a new one
}

// crown returns the curvature in 1/mm of the centreline on the working block.
func (s Springback) crown(depth float64) float64 {
	return geom.BendOnFace(s.Working, depth, 0).Curvature()
}

// most returns the largest angle of a pressed plain arc over the metal's range.
func (s Springback) most() geom.Angle {
	a := s.Nominal.Pressed.Angle
	for _, o := range []*Overbend{s.Low, s.High} {
		if o != nil {
			a = max(a, o.Pressed.Angle)
		}
	}
	return a
}

// springback works out the overbend that leaves the drawing's bend, or that the
// job states.
func springback(j job.Job, m Metal) (Springback, []words.Advice, error) {
	var s Springback
	var err error
	if m.Ratio > 0 {
		k := j.Bend.Curvature() / m.Ratio
		s.Nominal = overbent(j, bend.Springback{Pressed: k, Final: j.Bend.Curvature(), Moment: hollow(j, m.law(m.Curve.Proof)).Moment(k)}, m.Curve.Proof)
	} else if s.Nominal, err = overbend(j, m, m.Spread.Nominal); err != nil {
		return s, nil, err
	}
	if m.Ranged {
		for _, end := range []struct {
			proof float64
			to    **Overbend
		}{{m.Spread.Low, &s.Low}, {m.Spread.High, &s.High}} {
			o, err := overbend(j, m, end.proof)
			if err != nil {
				return s, nil, err
			}
			kp := s.Nominal.Pressed.Curvature()
			kf := bend.Release(hollow(j, m.law(end.proof)), kp).Final
			o.Final = geom.Bend{Radius: 1 / kf, Angle: s.Nominal.Pressed.Angle * geom.Angle(kf/kp)}
			*end.to = &o
		}
	}
	s.Working = s.Nominal.Block
	if j.Block.Use != "" {
		if s.Ready = onRack(j, j.Block.Use); s.Ready == nil {
			return s, nil, fault(j, "block.use", notOnRack(j))
		}
		s.Working = s.Ready.Radius
	}
	if s.Nominal.Ratio < leastRatio {
		return s, []words.Advice{say(words.Warning, words.Design, "springback", words.MostlySpringback, words.Figures{"ratio": quantity.Share.Of(s.Nominal.Ratio)})}, nil
	}
	return s, nil, nil
}

// leastRatio is the share of the pressed curvature below which so little stays
// that the program says so: common practice, no source.
const leastRatio = 0.5

// overbend returns the plain arc that a metal of a proof stress in MPa must be
// pressed to.
func overbend(j job.Job, m Metal, proof float64) (Overbend, error) {
	s, err := bend.Overbend(hollow(j, m.law(proof)), j.Bend.Curvature())
	return overbent(j, s, proof), err
}

func overbent(j job.Job, s bend.Springback, proof float64) Overbend {
	pressed := geom.Bend{Radius: 1 / s.Pressed, Angle: j.Bend.Angle / geom.Angle(s.Ratio())}
	return Overbend{
		Proof: proof, Pressed: pressed, Block: pressed.Inside(j.Tube.Depth),
		Ratio: s.Ratio(), Moment: s.Moment, Final: j.Bend.Bend,
	}
}

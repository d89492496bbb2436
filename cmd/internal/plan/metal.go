package plan

import (
	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
	"overbend/geom/bend"
	"overbend/profiles"
)

// Metal is the tube's material as computed with.
type Metal struct {
	Spread profiles.Spread // MPa; equal values without a range
	Ranged bool
	Origin words.Reason   // where the nominal proof stress comes from
	Curve  profiles.Curve // at the nominal proof stress
	// Ratio is the springback ratio that the job states and that the block
	// follows; 0 when it is computed.
	Ratio float64
	Trial *Trial // what the job's trials taught; nil without
	laws  laws   // once the range is known
}

// with returns the curve at another proof stress in MPa and exponent.
func (m Metal) with(proof, exponent float64) profiles.Curve {
	c := m.Curve.At(proof)
	c.Exponent = exponent
	return c
}

// metal finds the tube's metal: the catalogue's or the certificate's, then what
// trials say of this very piece, which beats the experience with others that a
// stated ratio is.
func metal(j job.Job, strip Strip) (Metal, []words.Advice, error) {
	m := catalogued(j)
	var said []words.Advice
	if len(j.Trials) > 0 {
		learned, a, err := learn(j, m, strip)
		if err != nil {
			return Metal{}, nil, err
		}
		m, said = learned, a
	}
	ratio := askedRatio(j)
	switch {
	case ratio == 0:
		return m, said, nil
	case m.Trial != nil:
		return m, append(said, say(words.Note, words.Design, "allowance", words.TrialsBeatMode, words.Figures{"mode": string(j.Allowance.Mode)})), nil
	}
	m, a, err := stated(j, m, ratio)
	return m, append(said, a...), err
}

// catalogued returns the metal as the catalogue, a certificate, the shop's file or
// the job file gives it.
func catalogued(j job.Job) Metal {
	m := Metal{Spread: j.Material.Spread(), Ranged: true, Origin: words.Reason{
		Code:    words.FromMinimum,
		Figures: words.Figures{"times": quantity.Number.Of(j.Material.Typical), "source": j.Material.SpreadFrom},
	}}
	switch {
	case j.Allowance.Proof > 0:
		m.Spread, m.Origin.Code = profiles.Certified(j.Allowance.Proof), words.FromCertificate
	case j.Learned != nil:
		return kept(j, j.Learned.Lesson)
	case j.Inline:
		m.Ranged, m.Origin.Code = false, words.FromJobFile
		m.Spread = single(j.Material.Proof)
	}
	m.Curve = j.Material.Curve(m.Spread.Nominal, j.Allowance.Ultimate)
	return m
}

// kept returns the metal of the shop's file, for another piece of the lot that it
// was learned from or for one of another lot.
func kept(j job.Job, l shop.Lesson) Metal {
	code := words.FromShopOtherLot
	if j.Lot == shop.SameLot {
		code = words.FromShopSameLot
	}
	m := Metal{
		Spread: l.Spread(j.Lot == shop.SameLot, j.Material.Proof), Ranged: true,
		Origin: words.Reason{Code: code, Figures: words.Figures{"name": j.Learned.Name}},
		Curve:  j.Material.Curve(l.Proof, 0),
	}
	if l.Exponent > 0 {
		m.Curve.Exponent = l.Exponent
	}
	return m
}

func single(proof float64) profiles.Spread {
	return profiles.Spread{Low: proof, Nominal: proof, High: proof}
}

// askedRatio returns the springback ratio that the job states, 0 when it is to
// be computed.
func askedRatio(j job.Job) float64 {
	switch j.Allowance.Mode {
	case job.Ratio:
		return j.Allowance.Ratio
	case job.Degrees:
		// The arc's length is conserved, so the angles are as the curvatures.
		return float64(j.Bend.Angle / (j.Bend.Angle + j.Allowance.Extra))
	}
	return 0
}

// stated returns the metal that springs back by the ratio that the operator
// states from experience: the press is then worked out for it. Where no metal of
// this kind does, the catalogue's is kept.
func stated(j job.Job, m Metal, ratio float64) (Metal, []words.Advice, error) {
	length := quantity.Length.Of
	if pressed, least := j.Bend.Radius*ratio, j.Tube.Depth/2; pressed <= least {
		return m, nil, fault(j, "allowance."+string(j.Allowance.Mode), words.Reason{Code: words.PressedTooTight, Figures: words.Figures{"radius": length(pressed), "least": length(least)}})
	}
	var said []words.Advice
	proof, err := bend.ImpliedProof(func(proof float64) bend.Member { return hollow(j, m.law(proof)) }, m.Curve.Proof, j.Bend.Curvature(), ratio)
	if err != nil {
		proof = m.Spread.Nominal
		said = append(said, say(words.Warning, words.Design, "allowance", words.NoSuchRatio, words.Figures{"metal": j.Material.Name, "ratio": quantity.Share.Of(ratio)}))
	} else {
		m.Origin = words.Reason{Code: words.FromAllowance}
	}
	m.Ranged, m.Ratio = false, ratio
	m.Spread, m.Curve = single(proof), m.Curve.At(proof)
	return m, said, nil
}

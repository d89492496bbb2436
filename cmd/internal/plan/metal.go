package plan

import (
	"errors"
	"fmt"
	"math"

	"overbend/cmd/internal/job"
	"overbend/geom/bend"
	"overbend/profiles"
)

// metalOf returns the metal of a job as the catalogue, a certificate or the
// job file gives it; trials come later.
func metalOf(j job.Job) Metal {
	m := Metal{
		Spread: j.Material.Spread(), Ranged: true,
		Source: fmt.Sprintf("standard's minimum times %.4g (%s)", j.Material.Typical, j.Material.SpreadFrom),
	}
	if j.Inline {
		m.Ranged, m.Source = false, "job file"
		m.Spread = single(j.Material.Proof)
	}
	if j.Allowance.Proof > 0 {
		m.Spread, m.Source = profiles.Certified(j.Allowance.Proof), "certificate"
	}
	m.Law = j.Material.Curve(m.Spread.Nominal, 0)
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

// impliedProof returns the proof stress at which the metal springs back by the
// ratio that the operator states from experience: the press is then worked out
// for the metal that behaves like that. An error says that no metal of this
// kind does.
func impliedProof(j job.Job, law profiles.Curve, ratio float64) (float64, error) {
	final := 1 / j.Bend.Radius
	m := func(proof float64) bend.Member {
		return bend.Hollow(j.Tube, law.At(proof).Law())
	}
	miss := func(x float64) float64 {
		return bend.Release(m(math.Exp(x)), final/ratio).Final - final
	}
	lo, hi := math.Log(law.Proof/5), math.Log(law.Proof*5)
	if !(miss(lo) > 0 && miss(hi) < 0) {
		return 0, errors.New("out of range")
	}
	// More proof stress, more springback: halve. 60 steps exhaust float64.
	for range 60 {
		mid := (lo + hi) / 2
		if miss(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return math.Exp(lo), nil
}

// overbends fills Nominal, Low and High.
func (p *Plan) overbends() error {
	j := p.Job
	final := 1 / j.Bend.Radius
	ratio := askedRatio(j)
	if ratio > 0 && p.Trial != nil {
		// What was measured on this very metal beats experience with others.
		p.advise(Info, "allowance", fmt.Sprintf("the trials decide the overbend; mode = %q is not used as long as they stand in the file", string(j.Allowance.Mode)))
		ratio = 0
	}
	if ratio > 0 {
		p.Metal.Ranged = false
		if pressed, least := j.Bend.Radius*ratio, j.Tube.Depth/2; pressed <= least {
			return j.Errorf("allowance."+string(j.Allowance.Mode), "a pressed centreline radius of %.4g mm is not allowed; it must be more than %g mm, half the tube's depth", pressed, least)
		}
		proof, err := impliedProof(j, p.Metal.Law, ratio)
		if err != nil {
			p.advise(Warning, "allowance", fmt.Sprintf("no %s springs back to %.1f %% of the pressed curvature; the block follows the ratio you gave, force and travel the catalogue's metal", j.Material.Name, 100*ratio))
			proof = p.Metal.Spread.Nominal
		} else {
			p.Metal.Source = "the allowance given in the job"
		}
		p.Metal.Spread = single(proof)
		p.Metal.Law = p.Metal.Law.At(proof)
		m := bend.Hollow(j.Tube, p.Metal.Law.Law())
		kp := final / ratio
		p.Nominal = p.overbend(bend.Springback{Pressed: kp, Final: final, Moment: m.Moment(kp)}, proof)
		return nil
	}
	at := func(proof float64) (Overbend, error) {
		s, err := bend.Overbend(bend.Hollow(j.Tube, p.Metal.at(proof)), final)
		return p.overbend(s, proof), err
	}
	var err error
	if p.Nominal, err = at(p.Metal.Spread.Nominal); err != nil {
		return err
	}
	if !p.Metal.Ranged {
		return nil
	}
	for _, end := range []struct {
		proof float64
		to    **Overbend
	}{{p.Metal.Spread.Low, &p.Low}, {p.Metal.Spread.High, &p.High}} {
		o, err := at(end.proof)
		if err != nil {
			return err
		}
		// What the block cut for the nominal metal gives with this one.
		kp := 1 / p.Nominal.Radius
		kf := bend.Release(bend.Hollow(j.Tube, p.Metal.at(end.proof)), kp).Final
		o.FinalRadius = 1 / kf
		o.FinalAngle = p.Nominal.ArcAngle * geomRatio(kf, kp)
		*end.to = &o
	}
	return nil
}

func (p *Plan) overbend(s bend.Springback, proof float64) Overbend {
	j := p.Job
	return Overbend{
		Proof:       proof,
		Radius:      1 / s.Pressed,
		Block:       1/s.Pressed - j.Tube.Depth/2,
		Ratio:       s.Ratio(),
		ArcAngle:    j.Bend.Angle / geomRatio(s.Final, s.Pressed),
		Moment:      s.Moment,
		FinalRadius: j.Bend.Radius,
		FinalAngle:  j.Bend.Angle,
	}
}

package plan

import (
	"cmp"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/profiles"
)

// input is a swing before its ends are worked out, and how a setting takes a value
// of it.
type input struct {
	Swing
	set func(t *setting, value float64)
}

// inputs returns the inputs that a plan depends on, each with its interval.
func inputs(p *Plan, s *Sensitivity) []input {
	j, c, strip := p.Job, p.Metal.Curve, p.Strip
	var out []input
	add := func(in profiles.Input, k quantity.Kind, low, nominal, high float64, source words.Reason, set func(*setting, float64)) {
		out = append(out, input{Swing{Input: in, Kind: k, Low: low, Nominal: nominal, High: high, Source: source}, set})
	}
	// tabled adds an input whose interval is the table's.
	tabled := func(in profiles.Input, k quantity.Kind, nominal float64, m profiles.Material, set func(*setting, float64)) {
		i, ok := profiles.IntervalOf(in, m, j.Tube.Shape, j.Inches, nominal)
		if !ok {
			panic("plan: intervals.csv has no row for " + string(in))
		}
		add(in, k, nominal-i.Below, nominal, nominal+i.Above, words.Reason{Code: words.IntervalListed, Figures: words.Figures{"source": i.Source}}, set)
	}

	proof := func(t *setting, v float64) { t.curve = t.curve.At(v) }
	if sp := p.Metal.Spread; p.Metal.Ranged {
		add(profiles.ProofInput, quantity.Stress, sp.Low, sp.Nominal, sp.High, proofInterval(p), proof)
	} else {
		tabled(profiles.ProofInput, quantity.Stress, c.Proof, j.Material, proof)
	}
	exponent := func(t *setting, v float64) { t.curve.Exponent = max(1, v) }
	if f := p.Metal.Trial; f != nil && f.ExponentError > 0 && c.Exponent == f.Exponent {
		band := 2 * f.ExponentError
		add(profiles.ExponentInput, quantity.Number, max(1, c.Exponent-band), c.Exponent, c.Exponent+band, words.Reason{Code: words.IntervalTrials}, exponent)
	} else {
		tabled(profiles.ExponentInput, quantity.Number, c.Exponent, j.Material, exponent)
		last := &out[len(out)-1]
		last.Low = max(1, last.Low)
	}
	if j.Material.Family.Ferrous() && c.Ultimate > 0 {
		tabled(profiles.UltimateInput, quantity.Stress, c.Ultimate, j.Material, func(t *setting, v float64) { t.curve.Ultimate = v })
		last := &out[len(out)-1]
		last.Low = min(last.Nominal, max(last.Low, leastOverProof*c.Proof))
	}
	tabled(profiles.YoungsInput, quantity.Stress, c.Youngs, j.Material, func(t *setting, v float64) { t.curve.Youngs = v })
	unload := func(t *setting, v float64) { t.j.Material.Unloading = v }
	if u := j.Material.Unloading; u > 0 {
		add(profiles.UnloadingInput, quantity.Share, u-statedUnloading, u, min(1, u+statedUnloading), words.Reason{Code: words.IntervalStated}, unload)
	} else {
		tabled(profiles.UnloadingInput, quantity.Share, 1, j.Material, unload)
	}

	tabled(profiles.WallInput, quantity.Length, j.Tube.Wall, j.Material, func(t *setting, v float64) { t.j.Tube.Wall = v })
	if j.Tube.Shape == profiles.Round {
		tabled(profiles.DiameterInput, quantity.Length, j.Tube.Depth, j.Material, func(t *setting, v float64) {
			t.j.Tube.Width = v
			t.deeper(v)
		})
	} else {
		tabled(profiles.DepthInput, quantity.Length, j.Tube.Depth, j.Material, (*setting).deeper)
		tabled(profiles.WidthInput, quantity.Length, j.Tube.Width, j.Material, func(t *setting, v float64) { t.sized(v, t.j.Tube.Depth) })
	}
	if !s.Pressed {
		return out
	}

	if f := j.Filler.Alloy; f.Name != "" {
		tabled(profiles.FillerInput, quantity.Stress, f.Yield, j.Material, func(t *setting, v float64) {
			t.j.Filler.Alloy.Yield = v
			if v == 0 {
				t.j.Filler.Alloy = profiles.Filler{}
			}
		})
	}
	m := j.Strip.Material
	tabled(profiles.StripInput, quantity.Length, strip.Thickness, m, func(t *setting, v float64) { t.strip.Thickness = v })
	sp := m.Spread()
	stripProof := func(t *setting, v float64) { t.strip.Curve = t.strip.Curve.At(v) }
	if sp.Low < sp.High {
		add(profiles.StripProofInput, quantity.Stress, sp.Low, sp.Nominal, sp.High, minimumInterval(m), stripProof)
	} else {
		tabled(profiles.ProofInput, quantity.Stress, sp.Nominal, m, stripProof)
		out[len(out)-1].Input = profiles.StripProofInput
	}
	tabled(profiles.SupportsInput, quantity.Length, s.Rig.Supports, j.Material, func(t *setting, v float64) { t.rig.Supports = v })
	read := job.RuleError(j.Units())
	add(profiles.TravelInput, quantity.Length, max(s.Travel-read, s.Travel/10), s.Travel, s.Travel+read, words.Reason{Code: words.IntervalTravel}, func(t *setting, v float64) { t.travel = v })
	tabled(profiles.RollerInput, quantity.Length, s.Rig.Roller, j.Material, func(t *setting, v float64) { t.rig.Roller = v })
	tabled(profiles.FrictionInput, quantity.Number, j.Press.Friction, j.Material, func(t *setting, v float64) { t.j.Press.Friction = v })
	return out
}

const (
	// leastOverProof is the ultimate stress over the proof stress below which a
	// two-stage law has no second stage to speak of: common practice, no source.
	leastOverProof = 1.02
	// statedUnloading is how far an unloading share that the job states may be off:
	// common practice, no source.
	statedUnloading = 0.05
)

// deeper makes the tube so many mm deep. The drawing's radius keeps its face.
func (t *setting) deeper(depth float64) {
	b := &t.j.Bend
	drawn := b.Drawn(t.j.Tube.Depth)
	switch b.RadiusAt {
	case job.Inside:
		b.Radius = drawn + depth/2
	case job.Outside:
		b.Radius = drawn - depth/2
	}
	t.sized(t.j.Tube.Width, depth)
}

// sized makes the tube so wide and deep, mm; corners that leave no straight between
// them stay so.
func (t *setting) sized(width, depth float64) {
	t.j.Tube.Width, t.j.Tube.Depth = width, depth
	t.j.Tube.Corner = min(t.j.Tube.Corner, min(width, depth)/2)
}

// proofInterval says where the range of the tube's proof stress comes from.
func proofInterval(p *Plan) words.Reason {
	switch p.Metal.Origin.Code {
	case words.FromCertificate:
		return words.Reason{Code: words.IntervalCertificate}
	case words.FromTrials:
		return words.Reason{Code: words.IntervalTrials}
	case words.FromShopSameLot, words.FromShopOtherLot:
		return words.Reason{Code: words.IntervalShop, Figures: p.Metal.Origin.Figures}
	}
	return minimumInterval(p.Job.Material)
}

// minimumInterval says where the range of a listed metal comes from.
func minimumInterval(m profiles.Material) words.Reason {
	return words.Reason{Code: words.IntervalMinimum, Figures: words.Figures{"source": cmp.Or(m.SpreadFrom, m.Source)}}
}

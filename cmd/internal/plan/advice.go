package plan

import (
	"fmt"
	"math"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/geom/bend"
	"overbend/profiles"
)

// elongationWarning is the share of the elongation after fracture above which
// a bend is warned of: common practice, no source.
const elongationWarning = 0.7

// leastRatio is the share of the pressed curvature below which so little stays
// that the program says so: common practice, no source.
const leastRatio = 0.5

// Caution marks advice about people's safety.
const Caution Level = "caution"

// adviseTube says what the bend does to the tube and whether it must be filled.
func (p *Plan) adviseTube() {
	pc := 100 * p.Used
	switch {
	case p.Used > 1:
		p.advise(Stop, "elongation", fmt.Sprintf("the outer face is stretched by %.1f %%, %.0f %% of the %.0f %% at which %s breaks: use a larger radius, a shallower tube or a softer temper", 100*p.After.Strain, pc, 100*p.Job.Material.Elongation, p.Job.Material.Name))
	case p.Used > elongationWarning:
		p.advise(Warning, "elongation", fmt.Sprintf("the outer face is stretched by %.1f %%, %.0f %% of the %.0f %% at which %s breaks: make a trial bend and look for cracks", 100*p.After.Strain, pc, 100*p.Job.Material.Elongation, p.Job.Material.Name))
	}
	if p.Nominal.Ratio < leastRatio {
		p.advise(Warning, "springback", fmt.Sprintf("only %.0f %% of the pressed curvature stays: this radius is so large for the tube that the bend is nearly elastic, and small differences in the metal move it a lot", 100*p.Nominal.Ratio))
	}
	filled := p.Job.Filler.Alloy.Name != ""
	switch {
	case p.NeedsFill && filled:
		p.advise(Info, "filling", fmt.Sprintf("an empty tube would wrinkle: its inner wall buckles at %.1f %% strain and the bend needs %.1f %%; the filler holds it", 100*p.Buckling, 100*p.After.Strain))
	case p.NeedsFill:
		p.advise(Warning, "filling", fmt.Sprintf("this tube needs filling: empty, its inner wall buckles at %.1f %% strain and the bend needs %.1f %%; name an alloy under [filler]", 100*p.Buckling, 100*p.After.Strain))
	default:
		p.advise(Info, "filling", fmt.Sprintf("the empty inner wall would hold to %.1f %% strain and the bend needs %.1f %%: it need not be filled to keep from wrinkling, though filling keeps the faces flat", 100*p.Buckling, 100*p.After.Strain))
	}
	why := "the temper's strength is lost, and solution treating and ageing the bent part again distorts it"
	if p.Job.Material.Family.Ferrous() {
		why = "what drawing or cold forming gave the tube in strength is lost, the bore scales, and a flame heats unevenly"
	}
	p.advise(Info, "annealing", "why not anneal instead: "+why+" (common practice, no source)")
	p.advise(Info, "sand", "why not sand instead: the outside lengthens as it bends, the sand loosens and the wall sinks in (common practice, no source)")
}

// advisePress says whether the press, the strip and the fit to the drawing are
// good enough.
func (p *Plan) advisePress() {
	q := p.Press
	if q == nil {
		return
	}
	switch {
	case q.Share > 1:
		p.adviseIn(Stop, "press", func(u quantity.Units) string {
			return fmt.Sprintf("the press is too weak: %s are needed and it has %s; set the supports further apart", u.Force(q.Peak), u.Force(p.Job.Press.Capacity))
		})
	case q.Share > mostShare:
		p.advise(Warning, "press", fmt.Sprintf("the bend takes %.0f %% of the press's capacity; wider supports need less", 100*q.Share))
	}
	if least := leastLegDepths * p.Job.Tube.Depth; q.Final.Leg < least-1e-9 {
		p.adviseIn(Warning, "press.supports", func(u quantity.Units) string {
			return fmt.Sprintf("only %s of tube remain between block and roller at the end, less than two depths (%s): the roller may dent it", u.Length(q.Final.Leg), u.Length(least))
		})
	}
	if q.Final.Wrap == 0 {
		p.adviseIn(Warning, "press", func(u quantity.Units) string {
			return fmt.Sprintf("the tube has its angle before it lies on the block: its tightest radius under load stays %s instead of %s; set the supports closer", u.Length(1/q.Final.Crown), u.Length(p.Nominal.Radius))
		})
	}
	if q.Gap.Size > 1 {
		p.adviseIn(Warning, "fit", func(u quantity.Units) string {
			return fmt.Sprintf("the finished centreline is up to %s off the drawing's arc, best fitted: closer supports make a truer arc", u.Length(q.Gap.Size))
		})
	}
	if q.Strip.Reusable {
		p.advise(Info, "strip", "the strip stays flat enough to be used again as it is")
	} else {
		p.adviseIn(Info, "strip", func(u quantity.Units) string {
			return fmt.Sprintf("the strip keeps a radius of about %s: turn it over for the next bend", u.Length(math.Round(q.Strip.Radius())))
		})
	}
}

// adviseFiller says what the filler's heat does to the temper, and its
// cautions.
func (p *Plan) adviseFiller() {
	f := p.Job.Filler.Alloy
	if f.Name == "" {
		return
	}
	heat := profiles.HeatHarm(p.Job.Material, max(f.Liquidus, f.MeltOut))
	level := Info
	if heat.Harm {
		level = Warning
	}
	p.adviseIn(level, "temper", func(u quantity.Units) string {
		melts := fmt.Sprintf("%.0f °C", f.Liquidus)
		if u == quantity.Inches {
			melts = u.Temperature(f.Liquidus) + ", " + melts
		}
		return fmt.Sprintf("alloy %s melts at %s; in its bath, %s (%s)", f.Name, melts, heatText(p.Job.Material, heat), heat.Source)
	})
	if f.Estimate {
		p.advise(Info, "filler", fmt.Sprintf("stiffness and yield of alloy %s are estimates: force may be off by a few per cent", f.Name))
	}
	for _, c := range f.Cautions() {
		p.adviseIn(Caution, "filler, "+c.About, func(u quantity.Units) string { return c.Say(u.Temperature) })
	}
}

// adviseTrial says that trials are used, or not to be believed.
func (p *Plan) adviseTrial() {
	t := p.Trial
	p.adviseIn(Info, "trial", func(u quantity.Units) string {
		return fmt.Sprintf("worked out with the proof stress fitted to %s: %s +- %s, where %s without", p.trials(), u.Stress(t.Proof), u.Stress(t.ProofError), u.Stress(t.Catalogue))
	})
	switch t.Suspect {
	case TooSoft:
		p.advise(Warning, "trial", "the trials are suspect, less than half the catalogue's proof stress: a softer temper than stated (annealed or T4), or a travel read before first touch; measure again before you cut the block that follows from them")
	case TooHard:
		p.advise(Warning, "trial", "the trials are suspect, more than twice the catalogue's proof stress: a strip that slipped, a tube that flattened, or a harder temper than stated; measure again before you cut the block that follows from them")
	}
	if r := t.Reduced(); r > 4 {
		p.advise(Warning, "trial", fmt.Sprintf("the trials disagree with each other by %.1f times their stated errors: measure again", math.Sqrt(r)))
	}
}

// adviseSafety adds what holds for every job.
func (p *Plan) adviseSafety() {
	p.advise(Caution, "press", "stand to the side, never in line with tube or strip; guard the work; raise in steps and let the pressure fall before you touch anything: tube and strip store energy until the block is clear")
	p.advise(Caution, "block", "tie block, cheeks and strip so that they cannot kick out; dress every cut edge")
	p.advise(Caution, "structure", "a structural part needs a licensed engineer's word and local codes: cold bending uses up ductility, and welding softens an aged temper; no figure here replaces a trial bend that was measured and looked over for cracks")
}

// section fills what the bend does to the tube at the pressed curvature.
func (p *Plan) section() error {
	j := p.Job
	p.After = bend.Deform(j.Tube, 1/p.Nominal.Radius)
	if j.Material.Elongation > 0 {
		p.Used = p.After.Strain / j.Material.Elongation
	}
	var err error
	p.Buckling, err = bend.BucklingStrain(j.Tube, p.Metal.Law.Law(), j.Material.Poisson)
	if err != nil {
		return err
	}
	p.NeedsFill = p.After.Strain >= p.Buckling
	return nil
}

// adviseExisting says what the block at hand does.
func (p *Plan) adviseExisting() {
	e := p.Existing
	if e == nil || e.Final == nil {
		return
	}
	p.adviseIn(Info, "block.existing", func(u quantity.Units) string {
		return fmt.Sprintf("the block at hand of %s leaves a centreline radius of %s; pushed %s on supports %s apart it makes the angle, at most %s off the drawing", u.Length(e.Block), u.Length(e.Radius), u.Length(e.Final.Travel), u.Length(e.Supports), u.Length(e.Gap.Size))
	})
}

// stripOf returns the strip as bought: the job's thickness, or the nearest
// stock thickness to a sixth of the depth (common practice, no source: a
// quarter inch behind a 1-1/2 in tube).
func stripOf(j job.Job) profiles.StockStrip {
	if j.Strip.Thickness > 0 {
		return profiles.StockStrip{Thickness: j.Strip.Thickness, Inch: j.Inches}
	}
	return profiles.NearestStrip(j.Tube.Depth/6, j.Inches)
}

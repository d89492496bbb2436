package plan

import (
	"math"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Filler is the alloy to melt.
type Filler struct {
	Volume float64 // mm³
	Mass   float64 // kg
	// Least is what would do with longer plugs; nil where they save nothing, or
	// where no press says how far the alloy must reach.
	Least *LeastFill
}

// LeastFill is a filling between plugs that reach in from the ends as far as they
// may.
type LeastFill struct {
	Plugs [2]float64 // left and right, mm
	Mass  float64    // kg
}

// Longer plugs are cut to such steps, mm, and only where they save that share of
// the alloy: common practice, no source.
const (
	plugStep     = 5.0
	plugStepInch = 6.35
	worthPlugs   = 0.05
)

// fill computes how much alloy the blank's bore takes between its plugs, and
// whether the shop has as much; nil without a filler.
func fill(j job.Job, blank tooling.Blank, q *Press, e *Existing) (*Filler, []words.Advice, error) {
	if j.Filler.Alloy.Name == "" {
		return nil, nil, nil
	}
	length := blank.Length - j.Filler.Plugs[0] - j.Filler.Plugs[1]
	if length <= 0 {
		return nil, nil, fault(j, "filler.plugs", words.Reason{Code: words.NoPlugRoom, Figures: words.Figures{
			"plug": quantity.Length.Of(j.Filler.Plugs[0] + j.Filler.Plugs[1]), "blank": quantity.Tape.Of(blank.Length),
		}})
	}
	density := j.Tube.BoreArea() * 1e-9 * j.Filler.Alloy.Density // kg/mm
	f := &Filler{Volume: j.Tube.BoreArea() * length, Mass: density * length}
	if q != nil {
		f.Least = leastFill(j, blank, reach(q, e, 0)+j.Tube.Depth, density)
		if f.Least.Mass > (1-worthPlugs)*f.Mass {
			f.Least = nil
		}
	}
	return f, f.enough(j), nil
}

// leastFill returns a filling that reaches half mm to each side of the bend's
// middle at least: one depth past the rollers will do (common practice, no
// source), for beyond them nothing presses on the tube. Density is in kg per mm
// of bore.
func leastFill(j job.Job, blank tooling.Blank, half, density float64) *LeastFill {
	step := plugStep
	if j.Inches {
		step = plugStepInch
	}
	l := &LeastFill{Mass: density * blank.Length}
	for i, side := range [2]float64{blank.Middle, blank.Length - blank.Middle} {
		l.Plugs[i] = max(j.Filler.Plugs[i], step*math.Floor((side-half)/step+1e-9))
		l.Mass -= density * l.Plugs[i]
	}
	return l
}

// enough says what longer plugs save, and whether what the shop has will do.
func (f *Filler) enough(j job.Job) []words.Advice {
	mass, have := quantity.Mass.Of, 0.0
	for _, a := range j.Alloys {
		if a.Alloy.Name == j.Filler.Alloy.Name {
			have += a.Mass
		}
	}
	g := words.Figures{"alloy": j.Filler.Alloy.Name, "have": mass(have), "need": mass(f.Mass)}
	if l := f.Least; l != nil {
		g["left"], g["right"] = quantity.Nominal.Of(l.Plugs[0]), quantity.Nominal.Of(l.Plugs[1])
		g["least"], g["saved"] = mass(l.Mass), mass(f.Mass-l.Mass)
	}
	var said []words.Advice
	if f.Least != nil {
		said = append(said, say(words.Note, words.Fill, "filler.plugs", words.AlloyPlugs, g))
	}
	switch {
	case len(j.Alloys) == 0:
	case have >= f.Mass:
		said = append(said, say(words.Note, words.Fill, "filler.alloy", words.AlloyEnough, g))
	case f.Least != nil && have >= f.Least.Mass:
		said = append(said, say(words.Warning, words.Fill, "filler.alloy", words.AlloyWithPlugs, g))
	case f.Least != nil:
		said = append(said, say(words.Warning, words.Fill, "filler.alloy", words.AlloyShortOfPlugs, g))
	default:
		said = append(said, say(words.Warning, words.Fill, "filler.alloy", words.AlloyShort, g))
	}
	return said
}

// bath says what the filler's heat does to the temper, and its cautions.
func bath(j job.Job) []words.Advice {
	f := j.Filler.Alloy
	if f.Name == "" {
		return nil
	}
	heat := profiles.HeatHarm(j.Material, max(f.Liquidus, f.MeltOut))
	name := j.Material.Name
	if j.Inline {
		name = string(j.Material.Family)
	}
	level := words.Note
	if heat.Harm {
		level = words.Warning
	}
	said := []words.Advice{say(level, words.MeltOut, "temper", words.BathHarmless, words.Figures{
		"alloy": f.Name, "melts": quantity.Temperature.Of(f.Liquidus), "effect": words.Heat(name, heat), "source": heat.Source,
	})}
	if code, bad := map[profiles.Suitability]words.Code{
		profiles.Poor: words.FillerPoor, profiles.ForSmaller: words.FillerForSmaller,
		profiles.ForLarger: words.FillerForLarger, profiles.RollingBoil: words.FillerRollingBoil,
	}[f.Suits(j.Tube.Depth)]; bad {
		length := quantity.Length.Of
		said = append(said, say(words.Warning, words.Fill, "filler.alloy", code, words.Figures{
			"alloy": f.Name, "to": length(f.To), "over": length(f.Over), "depth": length(j.Tube.Depth),
			"melts": quantity.Temperature.Of(f.Liquidus), "bath": quantity.Temperature.Of(f.MeltOut),
		}))
	}
	if f.Estimate {
		said = append(said, say(words.Note, words.Fill, "filler", words.FillerEstimated, words.Figures{"alloy": f.Name}))
	}
	for _, c := range f.Cautions() {
		said = append(said, words.Advice{Level: words.Caution, Step: stepOf(c.About), About: "filler, " + c.About, Reason: words.Handling(c)})
	}
	return said
}

// stepOf returns the step of the work to which a caution of the catalogue
// belongs.
func stepOf(about string) words.Step {
	switch about {
	case "bending":
		return words.Press
	case "melting out", "after":
		return words.MeltOut
	}
	return words.Fill
}

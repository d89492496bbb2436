package plan

import (
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
}

// fill computes how much alloy the blank's bore takes between its plugs; nil
// without a filler.
func fill(j job.Job, blank tooling.Blank) (*Filler, error) {
	if j.Filler.Alloy.Name == "" {
		return nil, nil
	}
	length := blank.Length - 2*j.Filler.Plugs
	if length <= 0 {
		return nil, fault(j, "filler.plugs", words.Reason{Code: words.NoPlugRoom, Figures: words.Figures{
			"plug": quantity.Length.Of(j.Filler.Plugs), "blank": quantity.Tape.Of(blank.Length),
		}})
	}
	v := j.Tube.BoreArea() * length
	return &Filler{Volume: v, Mass: v * 1e-9 * j.Filler.Alloy.Density}, nil
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

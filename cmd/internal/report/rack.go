package report

import (
	"fmt"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
)

// rack lists what each block on the shop's rack gives.
func (p *page) rack(pl *plan.Plan, u quantity.Units) {
	if len(pl.Rack) == 0 {
		return
	}
	p.head("On the rack")
	for _, b := range pl.Rack {
		text := "does: "
		switch {
		case !b.Works:
			text = "will not do: "
		case b.Best:
			text = "the best: "
		}
		text += "radius " + u.Length(b.Radius)
		if q := b.Press; q != nil {
			text += fmt.Sprintf(", travel %s, force to %s, %s off the drawing", u.Show(quantity.Travel.Of(q.Final.Travel)), u.Show(quantity.Force.Of(q.Needed)), u.Length(q.Gap.Size))
		}
		p.row(b.Name, "%s", text)
		for _, a := range b.Found {
			if a.Level == words.Stop || a.Level == words.Warning {
				p.row("", "%s: %s", a.Level, a.Say(u))
			}
		}
	}
}

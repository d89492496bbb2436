package report

import (
	"cmp"
	"math"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
)

// What each uncertain input does to a job, as JSON.

type sensitivityDoc struct {
	Site    string     `json:"block"`           // "new", "rack" or "at hand"
	Block   float64    `json:"block_radius_mm"` // that is pushed
	Travel  *float64   `json:"travel_mm"`       // that it is pushed to; null without a press state, as the next
	Support *float64   `json:"supports_mm"`
	Planned outcomeDoc `json:"planned"`
	Inputs  []swingDoc `json:"inputs"` // the largest change of the angle first
	// The root of the sum of squares of the changes down and up.
	Down changeDoc `json:"together_down"`
	Up   changeDoc `json:"together_up"`
}

type swingDoc struct {
	Input   string     `json:"input"`
	Unit    string     `json:"unit"` // of its values; "1" for a pure number or a share
	Low     float64    `json:"low"`
	Nominal float64    `json:"nominal"`
	High    float64    `json:"high"`
	Source  string     `json:"source"` // of the interval
	AtLow   outcomeDoc `json:"at_low"`
	AtHigh  outcomeDoc `json:"at_high"`
}

type outcomeDoc struct {
	Right *float64 `json:"right_block_radius_mm"` // null where the section can't be
	Angle *float64 `json:"released_angle_deg"`    // null where no press state gives one, as the force
	Force *float64 `json:"peak_force_with_friction_N"`
	Why   *string  `json:"why"` // it can't be made so; null where it can
}

type changeDoc struct {
	Right float64  `json:"right_block_radius_mm"`
	Angle *float64 `json:"released_angle_deg"` // null without a press state, as the force
	Force *float64 `json:"peak_force_with_friction_N"`
}

// SensitiveJSON returns the plan's JSON text with a sensitivity in it.
func SensitiveJSON(p *plan.Plan, s *plan.Sensitivity) ([]byte, error) {
	d := doc(p)
	u := p.Job.Units()
	outcome := func(o plan.Outcome) outcomeDoc {
		d := outcomeDoc{Right: number(o.Right), Angle: number(o.Angle.Degrees()), Force: number(o.Force)}
		if o.Why != nil {
			why := quantity.Plain(o.Why.Say(u))
			d.Why = &why
		}
		return d
	}
	change := func(c plan.Change) changeDoc {
		d := changeDoc{Right: c.Right}
		if s.Pressed {
			d.Angle, d.Force = number(c.Angle.Degrees()), number(c.Force)
		}
		return d
	}
	x := &sensitivityDoc{
		Site: string(s.Site), Block: s.Block, Planned: outcome(s.Planned), Inputs: []swingDoc{},
		Down: change(s.Down), Up: change(s.Up),
	}
	if s.Pressed {
		x.Travel, x.Support = &s.Travel, &s.Rig.Supports
	}
	for _, w := range s.Inputs {
		unit := "1"
		if w.Kind != quantity.Share {
			unit = cmp.Or(quantity.Millimetres.Unit(w.Kind), unit)
		}
		x.Inputs = append(x.Inputs, swingDoc{
			Input: string(w.Input), Unit: unit, Low: w.Low, Nominal: w.Nominal, High: w.High,
			Source: quantity.Plain(w.Source.Say(u)), AtLow: outcome(w.AtLow), AtHigh: outcome(w.AtHigh),
		})
	}
	d.Sensitivity = x
	return d.text()
}

// number returns a pointer to v, or nil where it is not a number.
func number(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}

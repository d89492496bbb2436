package plan

import (
	"fmt"
	"strings"

	"overbend/profiles"
)

// heatText says in °C what a bath does to a metal.
func heatText(m profiles.Material, e profiles.HeatEffect) string {
	name := m.Name
	if name == "" {
		name = string(m.Family)
	}
	if e.Why == profiles.AgedLoses {
		return agedText(name, e)
	}
	why := map[profiles.HeatRule]string{
		profiles.SteelKeeps: "steel keeps its strength",
		profiles.ZincKeeps:  "alloys with zinc keep their strength",
		profiles.AgesItself: "T4 goes on ageing by itself, faster when warm, but takes minutes in hot water",
	}[e.Why]
	verdict := "does %s no harm"
	if e.Harm {
		verdict = "may harm %s"
	}
	return fmt.Sprintf("%.0f °C "+verdict+": %s up to %.0f °C", e.Celsius, name, why, e.Safe)
}

func agedText(name string, e profiles.HeatEffect) string {
	duration := func(l profiles.HeatLimit) string {
		if l.Hours < 1 {
			return fmt.Sprintf("%.0f min at %.0f °C", l.Hours*60, l.Celsius)
		}
		return fmt.Sprintf("%.0f h at %.0f °C", l.Hours, l.Celsius)
	}
	var times []string
	for _, l := range e.Limits {
		times = append(times, duration(l))
	}
	verdict := "does %s no harm"
	if e.Harm {
		verdict = "harms %s"
	}
	last := len(times) - 1
	text := fmt.Sprintf("%.0f °C "+verdict+": 5 %% of the yield stress is lost after %s or %s", e.Celsius, name, strings.Join(times[:last], ", "), times[last])
	// A test that the table would not have allowed is what the verdict rests on.
	for _, l := range e.Measured {
		if e.Hours == l.Hours {
			text += fmt.Sprintf(" by a table on the safe side, but %s cost %.1f %% in a test (%s)", duration(l), 100*(1-l.Keeps), l.Source)
		}
	}
	if e.StandIn {
		text += ", going by 6061 and 6063"
	}
	return text
}

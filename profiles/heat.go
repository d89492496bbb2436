package profiles

import (
	_ "embed"
	"fmt"
	"math"
	"strings"
)

//go:embed heat.csv
var heatCSV string

// HeatLimit is how long artificially aged aluminium may be reheated.
type HeatLimit struct {
	Celsius float64 // at this temperature, °C
	Hours   float64 // for this long
	Keeps   float64 // share of the yield stress that is left; 0: it stayed at or above the published minimum
	Source  string
}

// HeatLimits returns the known limits, those of one source together, coolest
// first.
func HeatLimits() []HeatLimit {
	var all []HeatLimit
	for line := range lines(heatCSV) {
		r := read("heat.csv", line)
		l := HeatLimit{Celsius: r.number(), Hours: r.number()}
		if keeps := r.text(); keeps != "minimum" {
			l.Keeps = r.float(keeps)
		}
		l.Source = r.text()
		r.end()
		all = append(all, l)
	}
	return all
}

// HeatEffect is what a bath of molten filler does to a metal's strength.
type HeatEffect struct {
	Harm    bool    // an hour in the bath costs more than 5 % of the yield stress, or nothing is known that says otherwise
	Hours   float64 // a time that costs at most 5 %; +Inf: any time; 0: not known or none
	StandIn bool    // judged by the limits of another alloy
	Text    string  // one sentence, no full stop
	Source  string
}

// The temperatures in °C up to which nothing happens where no table says more.
const (
	steelSafe = 200.0 // below it steel neither strain-ages fast nor is tempered: common practice, no source
	zincSafe  = 80.0  // 7xxx alloys, in service without loss: EN 1999-1-1 3.2.2, from memory
	agingSafe = 100.0 // T4, minutes in hot water: common practice, no source
)

// HeatHarm says what an hour or so at a temperature in °C does to a material:
// pouring the filler and melting it out again. Aluminium without a known
// temper counts as artificially aged, the state that loses strength.
func HeatHarm(m Material, celsius float64) HeatEffect {
	switch {
	case m.Family == Steel:
		return plainEffect(m, celsius, steelSafe, "steel keeps its strength", "common practice, no source")
	case strings.HasPrefix(m.Name, "7"):
		return plainEffect(m, celsius, zincSafe, "alloys with zinc keep their strength", "EN 1999-1-1 3.2.2, from memory")
	case m.Temper == "T4":
		e := plainEffect(m, celsius, agingSafe, "T4 goes on ageing by itself, faster when warm, but takes minutes in hot water", "common practice, no source")
		e.Hours = 0 // no source for how long
		return e
	}
	return agedEffect(m, celsius)
}

// plainEffect judges by a single temperature.
func plainEffect(m Material, celsius, safe float64, why, source string) HeatEffect {
	if celsius <= safe {
		return HeatEffect{
			Hours:  math.Inf(1),
			Text:   fmt.Sprintf("%.0f °C does %s no harm: %s up to %.0f °C", celsius, m.label(), why, safe),
			Source: source,
		}
	}
	return HeatEffect{
		Harm:   true,
		Text:   fmt.Sprintf("%.0f °C may harm %s: %s up to %.0f °C", celsius, m.label(), why, safe),
		Source: source,
	}
}

// agedEffect judges by the limits that cost 5 % of the yield stress. Between
// two rows the hotter one counts.
func agedEffect(m Material, celsius float64) HeatEffect {
	e := HeatEffect{StandIn: !strings.HasPrefix(m.Name, "6061") && !strings.HasPrefix(m.Name, "6063")}
	var times []string
	for _, l := range HeatLimits() {
		if l.Keeps == 0 {
			continue
		}
		if celsius <= l.Celsius && e.Hours == 0 {
			e.Hours = l.Hours
		}
		times = append(times, fmt.Sprintf("%s at %.0f °C", duration(l.Hours), l.Celsius))
		e.Source = l.Source
	}
	e.Harm = e.Hours < 1
	verdict := "does %s no harm"
	if e.Harm {
		verdict = "harms %s"
	}
	e.Text = fmt.Sprintf("%.0f °C "+verdict+": 5 %% of the yield stress is lost after %s", celsius, m.label(), list(times))
	if e.StandIn {
		e.Text += ", going by 6061 and 6063"
	}
	return e
}

// label is the material's name in a sentence.
func (m Material) label() string {
	switch {
	case m.Name != "":
		return m.Name
	case m.Family != "":
		return string(m.Family)
	}
	return "the tube"
}

func duration(hours float64) string {
	if hours < 1 {
		return fmt.Sprintf("%.0f min", hours*60)
	}
	return fmt.Sprintf("%.0f h", hours)
}

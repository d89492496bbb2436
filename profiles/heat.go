package profiles

import (
	_ "embed"
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
	Why      HeatRule
	Celsius  float64     // of the bath, °C
	Harm     bool        // an hour in the bath costs more than 5 % of the yield stress, or nothing is known that says otherwise
	Hours    float64     // a time that costs at most 5 %; +Inf: any time; 0: not known or none
	Safe     float64     // °C up to which nothing happens; 0 where Limits say more
	Limits   []HeatLimit // of what is aged: the times after which 5 % are lost, coolest first
	Measured []HeatLimit // the same metal found to have lost less than 5 %
	StandIn  bool        // judged by the limits of other alloys, 6061 and 6063
	Source   string      // of Safe or Limits; Measured have their own
}

// HeatRule is what a metal is judged by.
type HeatRule string

// The rules.
const (
	SteelKeeps HeatRule = "steel-keeps" // steel keeps its strength up to Safe
	ZincKeeps  HeatRule = "zinc-keeps"  // alloys with zinc do
	AgesItself HeatRule = "ages-itself" // T4 goes on ageing by itself, faster when warm, but takes minutes in hot water up to Safe
	AgedLoses  HeatRule = "aged-loses"  // artificially aged metal loses strength with time: Limits
)

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
	e := HeatEffect{Celsius: celsius, Source: "common practice, no source"}
	switch {
	case m.Family.Ferrous():
		e.Why, e.Safe = SteelKeeps, steelSafe
	case strings.HasPrefix(m.Name, "7"):
		e.Why, e.Safe, e.Source = ZincKeeps, zincSafe, "EN 1999-1-1 3.2.2, from memory"
	case m.Temper == "T4":
		e.Why, e.Safe = AgesItself, agingSafe
	default:
		return e.aged(m)
	}
	e.Harm = celsius > e.Safe
	if !e.Harm && e.Why != AgesItself { // no source for how long T4 may lie in it
		e.Hours = math.Inf(1)
	}
	return e
}

// loss is the share of the yield stress that counts as harm.
const loss = 0.05

// aged judges by the times that cost no more than that, the longest at this
// temperature or above. A test that cost less counts beside the table, which is
// on the safe side.
func (e HeatEffect) aged(m Material) HeatEffect {
	e.Why = AgedLoses
	e.StandIn = !strings.HasPrefix(m.Name, "6061") && !strings.HasPrefix(m.Name, "6063")
	for _, l := range HeatLimits() {
		switch {
		case l.Keeps == 1-loss:
			e.Limits, e.Source = append(e.Limits, l), l.Source
		case l.Keeps > 1-loss:
			e.Measured = append(e.Measured, l)
		default:
			continue
		}
		if e.Celsius <= l.Celsius {
			e.Hours = max(e.Hours, l.Hours)
		}
	}
	e.Harm = e.Hours < 1
	return e
}

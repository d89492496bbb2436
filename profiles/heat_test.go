package profiles_test

import (
	"math"
	"strings"
	"testing"

	"overbend/profiles"
)

func TestHeatLimits(t *testing.T) {
	hours := map[float64]float64{}
	hottest := map[float64]float64{}
	for _, l := range profiles.HeatLimits() {
		if len(l.Source) < 10 || l.Hours <= 0 || l.Keeps < 0 || l.Keeps > 1 {
			t.Errorf("%+v", l)
		}
		// Hotter is shorter for one loss.
		if h := hours[l.Keeps]; h != 0 && (l.Hours >= h || l.Celsius <= hottest[l.Keeps]) {
			t.Errorf("%+v after %g h at %g °C", l, h, hottest[l.Keeps])
		}
		hours[l.Keeps], hottest[l.Keeps] = l.Hours, l.Celsius
	}
	if len(hours) != 3 || hours[0] != 4 || hours[0.95] != 0.0833 || hours[0.977] != 2 {
		t.Errorf("the last limits: %v", hours)
	}
}

func TestHeatHarm(t *testing.T) {
	inf := math.Inf(1)
	for _, row := range []struct {
		name    string
		celsius float64
		why     profiles.HeatRule
		harm    bool
		hours   float64
		safe    float64
		standIn bool
		source  string // part of it, or of why the row stands here
	}{
		{"6061-T6", 95, profiles.AgedLoses, false, 100, 0, false, "reheat limits for T6, from memory"},
		{"6061-T6", 149, profiles.AgedLoses, false, 100, 0, false, "reheat limits for T6, from memory"},
		{"6061-T6", 149.1, profiles.AgedLoses, false, 8, 0, false, "reheat limits for T6, from memory"},
		// The table gives half an hour, a test 2.3 % after two hours.
		{"6063-T5", 204, profiles.AgedLoses, false, 2, 0, false, "reheat limits for T6, from memory"},
		{"6061-T6", 204.1, profiles.AgedLoses, true, 0.0833, 0, false, "reheat limits for T6, from memory"},
		{"6063-T6", 300, profiles.AgedLoses, true, 0, 0, false, "reheat limits for T6, from memory"},
		{"6082-T6", 95, profiles.AgedLoses, false, 100, 0, true, "reheat limits for T6, from memory"},
		{"6061-T4", 100, profiles.AgesItself, false, 0, 100, false, "common practice"},
		{"6061-T4", 101, profiles.AgesItself, true, 0, 100, false, "common practice"},
		{"7020-T6", 80, profiles.ZincKeeps, false, inf, 80, false, "EN 1999-1-1 3.2.2, from memory"},
		{"7020-T6", 81, profiles.ZincKeeps, true, 0, 80, false, "EN 1999-1-1 3.2.2, from memory"},
		{"S355", 200, profiles.SteelKeeps, false, inf, 200, false, "common practice"},
		{"S355", 201, profiles.SteelKeeps, true, 0, 200, false, "common practice"},
		{"304 annealed", 195, profiles.SteelKeeps, false, inf, 200, false, "common practice"},
	} {
		e := profiles.HeatHarm(mustFind(t, row.name, 3), row.celsius)
		if e.Why != row.why || e.Celsius != row.celsius || e.Harm != row.harm || e.Hours != row.hours || e.Safe != row.safe || e.StandIn != row.standIn || !strings.Contains(e.Source, row.source) {
			t.Errorf("%s at %g °C: %+v, want %+v", row.name, row.celsius, e, row)
		}
		aged := row.why == profiles.AgedLoses
		if (len(e.Limits) == 4) != aged || (len(e.Measured) == 1) != aged {
			t.Errorf("%s: limits %v, measured %v", row.name, e.Limits, e.Measured)
		}
		for _, l := range e.Limits {
			if l.Keeps != 0.95 {
				t.Errorf("%s: a limit of %g", row.name, l.Keeps)
			}
		}
	}
	// A metal that a job file describes itself: judged as aged.
	if own := profiles.HeatHarm(profiles.Material{Family: profiles.Aluminium}, 95); own.Harm || !own.StandIn || own.Why != profiles.AgedLoses {
		t.Errorf("an own aluminium: %+v", own)
	}
}

// No filler does an aged temper harm in its own melt-out bath, in the time that
// this takes: the hottest stays below 204 °C, where two hours cost 6061 2.3 %.
func TestFillersDoNotHarmT6(t *testing.T) {
	m := mustFind(t, "6082-T6", 3)
	for _, f := range profiles.Fillers() {
		if e := profiles.HeatHarm(m, max(f.Liquidus, f.MeltOut)); e.Harm || e.Hours < 2 {
			t.Errorf("%s at %g °C: %+v", f.Name, f.MeltOut, e)
		}
	}
}

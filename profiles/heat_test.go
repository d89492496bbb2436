package profiles_test

import (
	"math"
	"strings"
	"testing"

	"overbend/profiles"
)

func TestHeatLimits(t *testing.T) {
	hours := map[bool]float64{}
	hottest := map[bool]float64{}
	for _, l := range profiles.HeatLimits() {
		minimum := l.Keeps == 0
		if len(l.Source) < 10 || l.Hours <= 0 || l.Keeps < 0 || l.Keeps > 1 {
			t.Errorf("%+v", l)
		}
		// Hotter is shorter within one source.
		if hours[minimum] != 0 && (l.Hours >= hours[minimum] || l.Celsius <= hottest[minimum]) {
			t.Errorf("%+v after %g h at %g °C", l, hours[minimum], hottest[minimum])
		}
		hours[minimum], hottest[minimum] = l.Hours, l.Celsius
	}
	if len(hours) != 2 {
		t.Errorf("limits of %d kinds, want 2", len(hours))
	}
}

func TestHeatHarm(t *testing.T) {
	inf := math.Inf(1)
	for _, row := range []struct {
		name    string
		celsius float64
		harm    bool
		hours   float64
		standIn bool
		text    string // part of it
		source  string
	}{
		{"6061-T6", 95, false, 100, false, "95 °C does 6061-T6 no harm: 5 % of the yield stress is lost after 100 h at 149 °C, 8 h at 177 °C, 30 min at 204 °C or 5 min at 232 °C", "reheat limits, from memory"},
		{"6061-T6", 149, false, 100, false, "no harm", "the row itself"},
		{"6061-T6", 163, false, 8, false, "no harm", "the hotter row counts"},
		{"6063-T5", 204, true, 0.5, false, "harms 6063-T5", "reheat limits"},
		{"6063-T6", 300, true, 0, false, "harms", "hotter than any limit"},
		{"6082-T6", 95, false, 100, true, "going by 6061 and 6063", "no limits of its own"},
		{"6061-T4", 95, false, 0, false, "goes on ageing", "common practice"},
		{"6061-T4", 163, true, 0, false, "may harm", "common practice"},
		{"7020-T6", 75, false, inf, false, "no harm", "EN 1999-1-1 3.2.2, from memory"},
		{"7020-T6", 95, true, 0, false, "may harm", "EN 1999-1-1 3.2.2, from memory"},
		{"S355", 195, false, inf, false, "no harm", "common practice"},
		{"S355", 250, true, 0, false, "may harm", "common practice"},
	} {
		e := profiles.HeatHarm(mustFind(t, row.name, 3), row.celsius)
		if e.Harm != row.harm || math.Abs(e.Hours-row.hours) > 1e-9 && e.Hours != row.hours || e.StandIn != row.standIn || !strings.Contains(e.Text, row.text) {
			t.Errorf("%s at %g °C: %+v, want %+v", row.name, row.celsius, e, row)
		}
		if e.Source == "" || strings.HasSuffix(e.Text, ".") {
			t.Errorf("%s at %g °C: %q, source %q", row.name, row.celsius, e.Text, e.Source)
		}
	}
	// A metal that a job file describes itself: judged as aged.
	own := profiles.HeatHarm(profiles.Material{Family: profiles.Aluminium}, 95)
	if own.Harm || !own.StandIn || !strings.HasPrefix(own.Text, "95 °C does aluminium no harm") {
		t.Errorf("an own aluminium: %+v", own)
	}
	if e := profiles.HeatHarm(profiles.Material{}, 95); !strings.HasPrefix(e.Text, "95 °C does the tube no harm") {
		t.Errorf("an own metal: %+v", e)
	}
}

// The 70 °C filler does an aged temper no harm, nor does any of the
// others in its own melt-out bath in the time that this takes.
func TestFillersDoNotHarmT6(t *testing.T) {
	m := mustFind(t, "6082-T6", 3)
	for _, f := range profiles.Fillers() {
		harm := profiles.HeatHarm(m, f.MeltOut).Harm
		if want := f.MeltOut > 177; harm != want {
			t.Errorf("%s at %g °C: harm %v", f.Name, f.MeltOut, harm)
		}
	}
}

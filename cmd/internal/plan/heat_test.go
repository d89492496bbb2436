package plan

import (
	"testing"

	"overbend/profiles"
)

func TestHeatText(t *testing.T) {
	for _, row := range []struct {
		name    string
		celsius float64
		want    string
	}{
		{"6061-T6", 95, "95 °C does 6061-T6 no harm: 5 % of the yield stress is lost after 100 h at 149 °C, 8 h at 177 °C, 30 min at 204 °C or 5 min at 232 °C"},
		{"6082-T6", 95, "95 °C does 6082-T6 no harm: 5 % of the yield stress is lost after 100 h at 149 °C, 8 h at 177 °C, 30 min at 204 °C or 5 min at 232 °C, going by 6061 and 6063"},
		{"6061-T6", 195, "195 °C does 6061-T6 no harm: 5 % of the yield stress is lost after 100 h at 149 °C, 8 h at 177 °C, 30 min at 204 °C or 5 min at 232 °C by a table on the safe side, but 2 h at 204 °C cost 2.3 % in a test (6061-T6 plate, mean of 5 tests, read; not extrusion)"},
		{"6061-T6", 300, "300 °C harms 6061-T6: 5 % of the yield stress is lost after 100 h at 149 °C, 8 h at 177 °C, 30 min at 204 °C or 5 min at 232 °C"},
		{"S355", 250, "250 °C may harm S355: steel keeps its strength up to 200 °C"},
		{"7020-T6", 75, "75 °C does 7020-T6 no harm: alloys with zinc keep their strength up to 80 °C"},
		{"6061-T4", 95, "95 °C does 6061-T4 no harm: T4 goes on ageing by itself, faster when warm, but takes minutes in hot water up to 100 °C"},
	} {
		m, err := profiles.FindMaterial(row.name, 3, profiles.Rectangle)
		if err != nil {
			t.Fatal(err)
		}
		if got := heatText(m, profiles.HeatHarm(m, row.celsius)); got != row.want {
			t.Errorf("got  %s\nwant %s", got, row.want)
		}
	}
	own := profiles.Material{Family: profiles.Aluminium}
	if got := heatText(own, profiles.HeatHarm(own, 300)); got[:24] != "300 °C harms aluminium:" {
		t.Errorf("%q", got)
	}
}

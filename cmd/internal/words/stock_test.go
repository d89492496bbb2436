package words

import (
	"errors"
	"math"
	"strings"
	"testing"

	"overbend/cmd/internal/quantity"
	"overbend/profiles"
)

func TestBecauseOfStock(t *testing.T) {
	inf := math.Inf(1)
	for _, row := range []struct {
		err  error
		want string
	}{
		{&profiles.UnknownError{Kind: profiles.Metals, Name: "304", Nearest: []string{"304 annealed"}}, `material "304" is not in the catalogue: the nearest is 304 annealed`},
		{&profiles.UnknownError{Kind: profiles.Metals, Name: "S335", Nearest: []string{"S235", "S355", "A"}}, `material "S335" is not in the catalogue: the nearest is S235, S355 or A`},
		{&profiles.UnknownError{Kind: profiles.Metals, Name: "a\nb"}, `material "a?b" is not in the catalogue, nor anything near it: overbend stock materials lists what is`},
		{&profiles.UnknownError{Kind: profiles.Alloys, Name: "159", Nearest: []string{"158"}}, `filler alloy "159" is not in the catalogue: the nearest is 158 of 117, 136, 158, 158-190, 174, 203, 255, 281, 281-338`},
		{&profiles.UnknownError{Kind: profiles.Alloys, Name: "wax"}, `filler alloy "wax" is not in the catalogue: it lists 117, 136, 158, 158-190, 174, 203, 255, 281, 281-338`},
		{&profiles.WallError{Name: "S355", Wall: 17, Most: 16}, "S355 is listed for walls up to 16 mm, not 17 mm"},
		{&profiles.WallError{Wall: -1, Most: inf}, "a wall of -1 mm is no thickness: it must be above 0"},
		{profiles.Section{Width: 40, Depth: 60, Wall: 20}.Validate(), "a wall of 20 mm leaves no bore: it must be under 20 mm, half the width"},
		{profiles.Section{Width: 40, Depth: 30, Wall: 3, Corner: 15.5}.Validate(), "a corner radius of 15.5 mm does not fit: it must be at most 15 mm, half the depth"},
		{profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: -1}.Validate(), "the corner radius must be 0 or more, not -1 mm"},
		{profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: inf}.Validate(), "the corner radius +Inf mm is not a finite number"},
		{profiles.Section{Shape: profiles.Round, Width: 40, Depth: 40, Wall: 3, Corner: 2}.Validate(), "a round tube has no corner radius, not 2 mm"},
		{profiles.Section{Shape: profiles.Round, Width: 30, Depth: 40, Wall: 3}.Validate(), "a round tube has one diameter, not a width of 30 mm and a depth of 40 mm"},
		{profiles.Section{Shape: profiles.Round, Wall: 3}.Validate(), "the diameter must be above 0, not 0 mm"},
		{profiles.Section{Width: 40, Depth: 40, Wall: 1e-9}.Validate(), "the wall must be from 0.01 mm to 10000 mm, not 0 mm"},
		{&profiles.GaugeError{List: profiles.TubeWall, Number: 31, Least: 3, Most: 30}, "31 ga of tube wall is not listed: the list goes from 3 to 30"},
		{errors.New("other"), "the equations of the press have no answer (other)"},
	} {
		if got := quantity.Plain(Because(row.err).Say(quantity.Millimetres)); got != row.want {
			t.Errorf("got  %s\nwant %s", got, row.want)
		}
	}
}

// What a bath does to a metal: the table's times, a test that beats the table,
// the rules of steel, zinc and T4.
func TestHeat(t *testing.T) {
	const times = "5 % of the yield stress is lost after 100 h at 149 °C, 8 h at 177 °C, 30 min at 204 °C or 5 min at 232 °C"
	for _, row := range []struct {
		name    string
		celsius float64
		want    string
	}{
		{"6061-T6", 95, "95 °C does 6061-T6 no harm: " + times},
		{"6082-T6", 95, "95 °C does 6082-T6 no harm: " + times + ", going by 6061 and 6063"},
		{"6061-T6", 195, "195 °C does 6061-T6 no harm: " + times + " by a table on the safe side, but 2 h at 204 °C cost 2.3 % in a test (6061-T6 plate, mean of 5 tests, read; not extrusion)"},
		{"6061-T6", 300, "300 °C harms 6061-T6: " + times},
		{"S355", 250, "250 °C may harm S355: steel keeps its strength up to 200 °C"},
		{"7020-T6", 75, "75 °C does 7020-T6 no harm: alloys with zinc keep their strength up to 80 °C"},
		{"6061-T4", 95, "95 °C does 6061-T4 no harm: T4 goes on ageing by itself, faster when warm, but takes minutes in hot water up to 100 °C"},
	} {
		m, err := profiles.FindMaterial(row.name, 3, profiles.Rectangle)
		if err != nil {
			t.Fatal(err)
		}
		r := Heat(m.Name, profiles.HeatHarm(m, row.celsius))
		if got := quantity.Plain(r.Say(quantity.Millimetres)); got != row.want {
			t.Errorf("got  %s\nwant %s", got, row.want)
		}
		if got := r.Say(quantity.Inches); strings.Contains(strings.Split(got, " (")[0], "°C") {
			t.Errorf("%s in °F", got)
		}
	}
}

// A caution with a temperature has it in the reader's units.
func TestHandling(t *testing.T) {
	f, err := profiles.FindFiller("158")
	if err != nil {
		t.Fatal(err)
	}
	hot := 0
	for _, c := range f.Cautions() {
		r := Handling(c)
		mm, in := r.Say(quantity.Millimetres), r.Say(quantity.Inches)
		if strings.ContainsAny(mm+in, "{}") {
			t.Errorf("%q", mm)
		}
		if strings.Contains(mm, "°C") {
			hot++
			if strings.Contains(in, "°C") || !strings.Contains(in, "°F") {
				t.Errorf("%q", in)
			}
		}
	}
	if hot == 0 {
		t.Error("no caution has a temperature")
	}
}

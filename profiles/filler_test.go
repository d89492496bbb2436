package profiles_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"overbend/profiles"
)

func TestFillerRows(t *testing.T) {
	// kg/m³ of the elements at room temperature, handbook values, from memory.
	element := map[string]float64{"Bi": 9790, "Pb": 11340, "Sn": 7290, "Cd": 8650, "In": 7310}
	near := map[string]bool{"158": true, "203": true, "255": true, "281": true}
	last := 0.0
	for _, f := range profiles.Fillers() {
		sum, volume := 0.0, 0.0
		for e, share := range f.Mass {
			if element[e] == 0 {
				t.Errorf("%s: element %q", f.Name, e)
			}
			sum += share
			volume += share / element[e]
		}
		// A table in circulation prints 136 with 22.6 % lead, another cadmium
		// for tin: both show in the sum.
		if math.Abs(sum-100) > 0.2 {
			t.Errorf("%s: composition adds to %g", f.Name, sum)
		}
		// The rule of mixtures: within about 2 % for these, up to 5 % high else.
		tolerance := 0.055
		if near[f.Name] {
			tolerance = 0.021
		}
		if mix := sum / volume; relative(f.Density, mix) > tolerance {
			t.Errorf("%s: density %g, by mixture %g", f.Name, f.Density, mix)
		}
		switch {
		case !(f.Solidus > 40 && f.Solidus <= f.Liquidus && f.Liquidus <= 183):
			t.Errorf("%s: melts from %g to %g °C, B774 ends at 183", f.Name, f.Solidus, f.Liquidus)
		case f.Solidus < last:
			t.Errorf("%s: out of order", f.Name)
		case !(f.MeltOut > f.Liquidus && f.MeltOut <= f.Ceiling):
			t.Errorf("%s: melts at %g °C, bath %g, ceiling %g", f.Name, f.Liquidus, f.MeltOut, f.Ceiling)
		case f.Cadmium && f.Ceiling > 150:
			t.Errorf("%s: cadmium to %g °C", f.Name, f.Ceiling)
		case strings.Contains(f.MeltOutIn, "water") && f.MeltOut > 100:
			t.Errorf("%s: water at %g °C", f.Name, f.MeltOut)
		case !(f.Youngs > 1000 && f.Youngs < 60_000 && f.Yield > 5 && f.Yield < 60):
			t.Errorf("%s: E %g, yield %g", f.Name, f.Youngs, f.Yield)
		case f.MeltOutIn == "" || f.Use == "" || len(f.Source) < 10:
			t.Errorf("%s: use %q, melt out %q, source %q", f.Name, f.Use, f.MeltOutIn, f.Source)
		case f.Cadmium != (f.Mass["Cd"] > 0) || f.Lead != (f.Mass["Pb"] > 0):
			t.Errorf("%s: cadmium %v, lead %v", f.Name, f.Cadmium, f.Lead)
		}
		last = f.Solidus
		// The name is the melting point in °F.
		name, _, _ := strings.Cut(f.Name, "-")
		if f.Name != "" && math.Abs(fahrenheit(f.Solidus)-atof(name)) > 2 {
			t.Errorf("%s: solidus %.1f °F", f.Name, fahrenheit(f.Solidus))
		}
		// Estimates are marked.
		if f.Youngs != 12_700 {
			t.Errorf("%s: E %g", f.Name, f.Youngs)
		}
		if f.Estimate == (f.Name == "158") {
			t.Errorf("%s: estimate %v, only 158 has sourced values", f.Name, f.Estimate)
		}
	}
}

func fahrenheit(celsius float64) float64 { return celsius*9/5 + 32 }

func atof(s string) float64 {
	v := 0.0
	for _, c := range s {
		v = 10*v + float64(c-'0')
	}
	return v
}

func TestFindFiller(t *testing.T) {
	for _, row := range []struct{ name, want string }{
		{"158", "158"}, {" Alloy 158 ", "158"}, {"158–190", "158-190"}, {"281 338", "281-338"}, {"117", "117"},
	} {
		f, err := profiles.FindFiller(row.name)
		if err != nil || f.Name != row.want {
			t.Errorf("%q: %q, %v", row.name, f.Name, err)
		}
	}
	f, err := profiles.FindFiller("158")
	if err != nil {
		t.Fatal(err)
	}
	if got := f.Composition(); got != "Bi 50, Pb 26.7, Sn 13.3, Cd 10" {
		t.Errorf("composition %q", got)
	}
	for name, want := range map[string]string{"159": "158", "alloy 28": "", "281-383": "281-338", "wax": "", "2811": "281"} {
		_, err := profiles.FindFiller(name)
		var unknown *profiles.UnknownError
		if !errors.As(err, &unknown) || unknown.Kind != profiles.Alloys || unknown.Name != name || strings.Join(unknown.Nearest, ", ") != want {
			t.Errorf("%q: %#v, want %q", name, err, want)
		}
	}
}

// Growth after casting, supplier tables, from memory.
func TestGrowth(t *testing.T) {
	for _, row := range []struct {
		name  string
		hours float64
		want  float64
	}{
		{"158", 500, 0.0057}, {"158", 1, 0.0051}, {"255", 500, 0.0022}, {"255", 5, 0}, {"281", 24, 0.0005}, {"281-338", 24, -0.0001},
	} {
		f, err := profiles.FindFiller(row.name)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for i, g := range f.Growth {
			found = found || g.Hours == row.hours && g.Strain == row.want
			if i > 0 && g.Hours <= f.Growth[i-1].Hours {
				t.Errorf("%s: growth out of order", row.name)
			}
		}
		if !found {
			t.Errorf("%s: growth %v, want %g at %g h", row.name, f.Growth, row.want, row.hours)
		}
	}
	// What was measured of an alloy counts before the rule.
	if still := []profiles.Growth{{Hours: 1, Strain: 0.002}, {Hours: 24, Strain: 0.001}}; (profiles.Filler{Lead: true, Mass: map[string]float64{"Bi": 50}, Growth: still}).Grows() {
		t.Error("an alloy that shrinks is said to grow")
	}
	for name, want := range map[string]bool{"158": true, "255": true, "281": false, "281-338": false, "117": false, "136": true, "174": false} {
		if f, err := profiles.FindFiller(name); err != nil || f.Grows() != want {
			t.Errorf("%s grows: %v, %v", name, f.Grows(), err)
		}
	}
}

func TestCautions(t *testing.T) {
	for _, row := range []struct {
		name          string
		with, without []string
	}{
		{"158", []string{"cadmium", "lead:", "gloves", "oil", "hot water", "food", "bore leaves a void", "goes on growing", "cadmium: never melt by flame, never above <124>,", "never with a flame and never above <124>:", "5.5 % at <100>"}, []string{"flashes to steam", "oven"}},
		{"203", []string{"lead:", "hot water", "food", "hazardous", "gloves and sleeves"}, []string{"cadmium:", "flashes to steam"}},
		{"255", []string{"lead:", "flashes to steam", "oven", "above <110>: water", "never above <164>;"}, []string{"cadmium:", "hot water"}},
		{"281", []string{"flashes to steam", "never with a flame", "oil"}, []string{"cadmium:", "lead:", "food", "hazardous", "goes on growing"}},
		{"174", []string{"hot water"}, []string{"cadmium:", "lead:", "food", "hazardous"}},
	} {
		f, err := profiles.FindFiller(row.name)
		if err != nil {
			t.Fatal(err)
		}
		var all strings.Builder
		for _, c := range f.Cautions() {
			all.WriteString(c.Say(func(celsius float64) string { return fmt.Sprintf("<%g>", celsius) }) + "\n")
			if c.About == "" || c.Text == "" || strings.HasSuffix(c.Text, ".") || strings.Contains(c.Text, "{C}") != (c.Celsius != 0) {
				t.Errorf("%s: %+v", row.name, c)
			}
		}
		for _, w := range row.with {
			if !strings.Contains(all.String(), w) {
				t.Errorf("%s: no caution of %q", row.name, w)
			}
		}
		for _, w := range row.without {
			if strings.Contains(all.String(), w) {
				t.Errorf("%s: a caution of %q", row.name, w)
			}
		}
	}
}

// What the suppliers say the alloys are for: 158 to tube of 1-3/4 in, 255 over
// it, 158-190 for gauging, and 203 melts so near the boil that only a rolling
// one brings it out.
func TestSuits(t *testing.T) {
	const border = 1.75 * 25.4
	for _, row := range []struct {
		name  string
		depth float64
		want  profiles.Suitability
	}{
		{"158", 40, profiles.Suits}, {"158", border, profiles.Suits}, {"158", 44.5, profiles.ForSmaller},
		{"255", 60, profiles.Suits}, {"255", border, profiles.ForLarger}, {"255", 44.5, profiles.Suits},
		{"158-190", 30, profiles.Poor}, {"158-190", 60, profiles.Poor},
		{"203", 30, profiles.RollingBoil}, {"203", 90, profiles.RollingBoil},
		{"117", 90, profiles.Suits}, {"136", 90, profiles.Suits}, {"174", 90, profiles.Suits}, {"281", 20, profiles.Suits}, {"281-338", 20, profiles.Suits},
	} {
		f, err := profiles.FindFiller(row.name)
		if got := f.Suits(row.depth); err != nil || got != row.want {
			t.Errorf("%s at %g mm: %q, %v, want %q", row.name, row.depth, got, err, row.want)
		}
	}
	// The worse comes first.
	if got := (profiles.Filler{To: 40, Liquidus: 95, MeltOut: 100}).Suits(50); got != profiles.ForSmaller {
		t.Errorf("%q", got)
	}
}

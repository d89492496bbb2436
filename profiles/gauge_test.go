package profiles_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"overbend/profiles"
)

// Two lists have a rule: Brown and Sharpe's is geometric, 0.005 in at 36 and 0.46 in
// at 0000 (ASTM B258's formula, from memory); manufacturers' standard gauge is the
// weight that the US standard gauge gives a number, of which 40 lb/ft2 are an inch
// thick, in steel of 41.82 lb/ft2 (from memory). Printed tables round to 0.0001 in.
func TestGaugeRules(t *testing.T) {
	us := map[int]float64{}
	for _, g := range profiles.Gauges() {
		if g.List == profiles.StainlessSheet {
			us[g.Number] = g.Thickness / 25.4
		}
	}
	rows := 0
	for _, g := range profiles.Gauges() {
		got, want := g.Thickness/25.4, 0.0
		switch g.List {
		case profiles.AluminiumSheet:
			want = 0.005 * math.Pow(92, float64(36-g.Number)/39)
		case profiles.SteelSheet:
			want = us[g.Number] * 40 / 41.82
		default:
			continue
		}
		rows++
		if math.Abs(got-want) > 0.0001 {
			t.Errorf("%s %d: %.4f in, by its rule %.5f", g.List, g.Number, got, want)
		}
	}
	if rows != 56 {
		t.Errorf("%d rows were looked at", rows)
	}
}

// The other two as printed in tables, from memory; the US standard gauge is law of
// 1893, in 640ths of an inch for each ounce a square foot.
func TestGauges(t *testing.T) {
	for _, row := range []struct {
		list   profiles.GaugeList
		number int
		in     float64
	}{
		{profiles.StainlessSheet, 7, 120. / 640}, {profiles.StainlessSheet, 10, 90. / 640}, {profiles.StainlessSheet, 11, 80. / 640},
		{profiles.StainlessSheet, 16, 40. / 640}, {profiles.StainlessSheet, 18, 32. / 640}, {profiles.StainlessSheet, 22, 20. / 640},
		{profiles.StainlessSheet, 26, 12. / 640}, {profiles.StainlessSheet, 30, 8. / 640},
		{profiles.TubeWall, 7, 0.180}, {profiles.TubeWall, 10, 0.134}, {profiles.TubeWall, 11, 0.120}, {profiles.TubeWall, 13, 0.095},
		{profiles.TubeWall, 14, 0.083}, {profiles.TubeWall, 16, 0.065}, {profiles.TubeWall, 17, 0.058}, {profiles.TubeWall, 18, 0.049},
		{profiles.TubeWall, 20, 0.035}, {profiles.TubeWall, 22, 0.028},
		{profiles.SteelSheet, 16, 0.0598}, {profiles.AluminiumSheet, 16, 0.0508},
	} {
		g, err := profiles.FindGauge(row.list, row.number)
		if err != nil || math.Abs(g.Thickness/25.4-row.in) > 0.00006 || g.Number != row.number || g.List != row.list {
			t.Errorf("%s %d: %+v, %v, want %g in", row.list, row.number, g, err, row.in)
		}
	}
	// Thinner with the number, all from one end to the other, each with its source.
	last := profiles.Gauge{}
	for _, g := range profiles.Gauges() {
		if g.List == last.List && (g.Number != last.Number+1 || g.Thickness >= last.Thickness) || !strings.Contains(g.Source, "gauge") {
			t.Errorf("%+v after %+v", g, last)
		}
		last = g
	}
	for _, list := range []profiles.GaugeList{profiles.AluminiumSheet, profiles.SteelSheet, profiles.StainlessSheet, profiles.TubeWall} {
		for _, n := range []int{-1, 0, 2, 31} {
			var e *profiles.GaugeError
			if _, err := profiles.FindGauge(list, n); !errors.As(err, &e) || *e != (profiles.GaugeError{List: list, Number: n, Least: 3, Most: 30}) {
				t.Errorf("%s %d: %v", list, n, err)
			}
		}
	}
	for family, want := range map[profiles.Family]profiles.GaugeList{
		profiles.Aluminium: profiles.AluminiumSheet, profiles.Steel: profiles.SteelSheet, profiles.Stainless: profiles.StainlessSheet,
	} {
		if got := profiles.SheetGauge(family); got != want {
			t.Errorf("%s goes by %s", family, got)
		}
	}
}

// The walls of steel tube that dealers keep in decimals are gauges of a tube's wall,
// and the sheet that packing is made from is gauged steel: what the lists are for.
func TestGaugesAreStock(t *testing.T) {
	has := func(list profiles.GaugeList, mm float64) bool {
		for _, g := range profiles.Gauges() {
			if g.List == list && math.Abs(g.Thickness-mm) < 1e-6 {
				return true
			}
		}
		return false
	}
	walls := 0
	for _, s := range profiles.Tubes() {
		if s.Family == profiles.Steel && s.Inch && strings.Contains(s.Name, " x 0.") {
			walls++
			if !has(profiles.TubeWall, s.Section.Wall) {
				t.Errorf("%s is no gauge", s.Name)
			}
		}
	}
	sheets := 0
	for _, s := range profiles.Sheets() {
		if strings.Contains(s.Source, "gauge") {
			sheets++
			if !has(profiles.SteelSheet, s.Thickness) {
				t.Errorf("sheet %s is no gauge", s.Name)
			}
		}
	}
	if walls < 5 || sheets != 10 {
		t.Errorf("%d walls and %d sheets were looked at", walls, sheets)
	}
}

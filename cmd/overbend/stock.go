package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/quantity"
	"overbend/profiles"
)

type stockCommand struct{ units units }

func (*stockCommand) usage() string {
	return `Usage: overbend stock [tubes|materials|plates|sheets|strips|gauges|fillers] [--units mm|in]

Lists the built-in data, every row with its source. Without an argument it
lists everything.

Examples:
  overbend stock materials
  overbend stock tubes --units in
`
}

func (c *stockCommand) flags(f *pflag.FlagSet) { c.units.flag(f) }

// stockLists returns the lists in the order in which they are printed.
func stockLists() []struct {
	name string
	rows func(quantity.Units) [][]string
} {
	return []struct {
		name string
		rows func(quantity.Units) [][]string
	}{
		{"tubes", tubeRows}, {"materials", materialRows}, {"plates", plateRows}, {"sheets", sheetRows}, {"strips", stripRows}, {"gauges", gaugeRows}, {"fillers", fillerRows},
	}
}

func (c *stockCommand) run(args []string, stdout, _ io.Writer) error {
	u, err := c.units.get()
	if err != nil {
		return err
	}
	if len(args) > 1 {
		return fmt.Errorf("stock: %d arguments given; it takes one list at most", len(args))
	}
	known := []string{}
	found := len(args) == 0
	var b strings.Builder
	for _, l := range stockLists() {
		known = append(known, l.name)
		if len(args) == 1 && args[0] != l.name {
			continue
		}
		if found {
			fmt.Fprintf(&b, "\n%s\n", l.name)
		}
		found = true
		table(&b, l.rows(u))
	}
	if !found {
		return fmt.Errorf("stock: %.40q is no list; it must be one of %s", args[0], strings.Join(known, ", "))
	}
	_, err = io.WriteString(stdout, quantity.Plain(strings.TrimPrefix(b.String(), "\n")))
	return err
}

// table writes rows with their columns lined up; the first row is the head.
func table(b *strings.Builder, rows [][]string) {
	widths := make([]int, len(rows[0]))
	for _, r := range rows {
		for i, c := range r {
			widths[i] = max(widths[i], len([]rune(c)))
		}
	}
	for _, r := range rows {
		line := ""
		for i, c := range r {
			line += c + strings.Repeat(" ", widths[i]-len([]rune(c))+2)
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

func tubeRows(u quantity.Units) [][]string {
	rows := [][]string{{"tube", "metal", "area", "inertia", "elastic modulus", "source"}}
	for _, t := range profiles.Tubes() {
		s := t.Section
		rows = append(rows, []string{t.Name, string(t.Family), u.Show(quantity.Area.Of(s.Area())), u.Show(quantity.Inertia.Of(s.Inertia())), u.Show(quantity.Modulus.Of(s.ElasticModulus())), t.Source})
	}
	return rows
}

func materialRows(u quantity.Units) [][]string {
	rows := [][]string{{"material", "form", "wall", "proof min", "typical", "ultimate min", "exponent", "elongation", "source"}}
	for _, m := range profiles.Materials() {
		wall := "any"
		switch {
		case m.WallTo > 0 && m.WallOver > 0:
			wall = u.Length(m.WallOver) + " to " + u.Length(m.WallTo)
		case m.WallTo > 0:
			wall = "to " + u.Length(m.WallTo)
		case m.WallOver > 0:
			wall = "over " + u.Length(m.WallOver)
		}
		rows = append(rows, []string{
			m.Name, m.Form, wall, u.Show(quantity.Stress.Of(m.Proof)), u.Show(quantity.Stress.Of(m.Spread().Nominal)), u.Show(quantity.Stress.Of(m.Ultimate)),
			fmt.Sprintf("%.1f", m.StrainExponent()), quantity.Percent(m.Elongation), m.Standard + "; " + m.Source + "; typical by " + m.SpreadFrom,
		})
	}
	return rows
}

func plateRows(quantity.Units) [][]string { return thicknesses("plate", profiles.Plates()) }

func sheetRows(quantity.Units) [][]string { return thicknesses("sheet", profiles.Sheets()) }

func thicknesses(of string, stock []profiles.StockPlate) [][]string {
	rows := [][]string{{of, "source"}}
	for _, p := range stock {
		rows = append(rows, []string{p.Name, p.Source})
	}
	return rows
}

func stripRows(quantity.Units) [][]string {
	rows := [][]string{{"strip", "source"}}
	for _, s := range profiles.Strips() {
		rows = append(rows, []string{s.Name, s.Source})
	}
	return rows
}

func gaugeRows(u quantity.Units) [][]string {
	rows := [][]string{{"gauge", "of", "thickness", "source"}}
	for _, g := range profiles.Gauges() {
		rows = append(rows, []string{fmt.Sprintf("%d ga", g.Number), string(g.List), u.Length(g.Thickness), g.Source})
	}
	return rows
}

func fillerRows(u quantity.Units) [][]string {
	rows := [][]string{{"alloy", "melts", "density", "E", "yield", "holds", "mass %", "suits", "source"}}
	for _, f := range profiles.Fillers() {
		melts := u.Show(quantity.Temperature.Of(f.Liquidus))
		if math.Abs(f.Solidus-f.Liquidus) > 0.5 {
			melts = u.Show(quantity.Temperature.Of(f.Solidus)) + " to " + melts
		}
		estimate := ""
		if f.Estimate {
			estimate = " (estimate)"
		}
		var holds []string
		if f.Cadmium {
			holds = append(holds, "cadmium")
		}
		if f.Lead {
			holds = append(holds, "lead")
		}
		if len(holds) == 0 {
			holds = []string{"no cadmium or lead"}
		}
		rows = append(rows, []string{
			f.Name, melts, fmt.Sprintf("%.0f kg/m3", f.Density), u.Show(quantity.Stress.Of(f.Youngs)) + estimate, u.Show(quantity.Stress.Of(f.Yield)) + estimate,
			strings.Join(holds, ", "), f.Composition(), suits(f, u), f.Source,
		})
	}
	return rows
}

// suits says what a filler is for, with its limits.
func suits(f profiles.Filler, u quantity.Units) string {
	s := f.Use
	if f.To > 0 {
		s += " to " + u.Length(f.To)
	}
	if f.Over > 0 {
		s += " over " + u.Length(f.Over)
	}
	if f.Poor {
		s += "; a poor filler"
	}
	return s
}

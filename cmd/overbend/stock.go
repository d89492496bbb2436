package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

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
		sourced(&b, l.rows(u))
	}
	if !found {
		return fmt.Errorf("stock: %.40q is no list; it must be one of %s", args[0], strings.Join(known, ", "))
	}
	_, err = io.WriteString(stdout, quantity.Plain(strings.TrimPrefix(b.String(), "\n")))
	return err
}

// tableWidth is the columns of a terminal that a list fits.
const tableWidth = 100

// sourced writes rows with their columns lined up; the first row is the head. The
// last column is the source, which stands once below the rows, under a number.
// Where a line would be too long the widest columns take several lines.
func sourced(b *strings.Builder, rows [][]string) {
	last := len(rows[0]) - 1
	var sources []string
	cells := make([][]string, len(rows))
	for k, r := range rows {
		cells[k] = append(cells[k], r...)
		if k == 0 {
			continue
		}
		i := slices.Index(sources, r[last])
		if i < 0 {
			i = len(sources)
			sources = append(sources, r[last])
		}
		cells[k][last] = fmt.Sprintf("[%d]", i+1)
	}
	widths := make([]int, last+1)
	for _, r := range cells {
		for i, c := range r {
			widths[i] = max(widths[i], utf8.RuneCountInString(c))
		}
	}
	const gap = 2
	for {
		total, widest := gap*last, 1
		for i, w := range widths {
			// A name stays whole, for it is copied.
			if total += w; i > 0 && w > widths[widest] {
				widest = i
			}
		}
		if total <= tableWidth {
			break
		}
		widths[widest]--
	}
	for _, r := range cells {
		broken := make([][]string, len(r))
		lines := 1
		for i, c := range r {
			broken[i] = wrapped(c, widths[i])
			lines = max(lines, len(broken[i]))
		}
		for n := range lines {
			line := ""
			for i, c := range broken {
				words := ""
				if n < len(c) {
					words = c[n]
				}
				line += words + strings.Repeat(" ", max(0, widths[i]-utf8.RuneCountInString(words))+gap)
			}
			b.WriteString(strings.TrimRight(line, " ") + "\n")
		}
	}
	b.WriteString("\n")
	mark := len(fmt.Sprintf("[%d] ", len(sources)))
	for i, source := range sources {
		lead := fmt.Sprintf("%-*s", mark, fmt.Sprintf("[%d]", i+1))
		for _, line := range wrapped(source, tableWidth-mark) {
			b.WriteString(lead + line + "\n")
			lead = strings.Repeat(" ", mark)
		}
	}
}

// wrapped breaks words into lines no wider than a number of columns, but for a
// word that is wider itself.
func wrapped(text string, width int) []string {
	out := []string{""}
	for _, w := range strings.Split(text, " ") {
		line := &out[len(out)-1]
		switch {
		case *line == "":
			*line = w
		case utf8.RuneCountInString(*line)+1+utf8.RuneCountInString(w) <= width:
			*line += " " + w
		default:
			out = append(out, w)
		}
	}
	return out
}

// head returns a column's name with the unit of what is in it.
func head(u quantity.Units, name string, k quantity.Kind) string { return name + ", " + u.Unit(k) }

func tubeRows(u quantity.Units) [][]string {
	rows := [][]string{{"tube", "metal", head(u, "area", quantity.Area), head(u, "inertia", quantity.Inertia), head(u, "elastic modulus", quantity.Modulus), "source"}}
	for _, t := range profiles.Tubes() {
		s := t.Section
		rows = append(rows, []string{t.Name, string(t.Family), u.Figure(quantity.Area.Of(s.Area())), u.Figure(quantity.Inertia.Of(s.Inertia())), u.Figure(quantity.Modulus.Of(s.ElasticModulus())), t.Source})
	}
	return rows
}

func materialRows(u quantity.Units) [][]string {
	rows := [][]string{{
		"material", "form", "wall", head(u, "proof min", quantity.Stress), "typical", head(u, "ultimate min", quantity.Stress), "exponent", "elongation", "source",
	}}
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
			m.Name, m.Form, wall, u.Figure(quantity.Stress.Of(m.Proof)), u.Figure(quantity.Stress.Of(m.Spread().Nominal)), u.Figure(quantity.Stress.Of(m.Ultimate)),
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
		rows = append(rows, []string{s.Name + " thick", s.Source})
	}
	for _, f := range profiles.Flats() {
		rows = append(rows, []string{f.Name + " wide", f.Source})
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
	rows := [][]string{{"alloy", "melts", "kg/m3", head(u, "E", quantity.Stress), head(u, "yield", quantity.Stress), "holds", "mass %", "suits", "source"}}
	for _, f := range profiles.Fillers() {
		melts := u.Show(quantity.Temperature.Of(f.Liquidus))
		if math.Abs(f.Solidus-f.Liquidus) > 0.5 {
			melts = u.Show(quantity.Temperature.Of(f.Solidus)) + " to " + melts
		}
		estimate := ""
		if f.Estimate {
			estimate = " est."
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
			f.Name, melts, fmt.Sprintf("%.0f", f.Density), u.Figure(quantity.Stress.Of(f.Youngs)) + estimate, u.Figure(quantity.Stress.Of(f.Yield)) + estimate,
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

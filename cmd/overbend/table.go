package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/vary"
	"overbend/cmd/internal/words"
)

type tableCommand struct {
	units     units
	shop      shopFile
	vary      []string
	columns   []string
	csv, json bool
	svg       string
}

func (*tableCommand) usage() string {
	return `Usage: overbend table JOB.toml --vary KEY=VALUES [--vary ...] [--columns PATH,...]
                      [--csv | --json] [--svg FILE]

Works the job out for every combination of values, on all processors, and prints
a row each, in order, as soon as it is done. Keys are the job file's; values are a
list, 2,3,4mm, or a range, 200..600/20mm. Columns are paths of the JSON of
overbend show --json, which the README documents. The last column says why a job
can't be made, or in what its file would be wrong; such rows stay, and the exit
code is 0. Ctrl-C ends it with the rows that are done.

Without --csv or --json it is a table for a terminal; --json is one object a line.
--svg draws the first column over the first key, a line for each value of the
second, beside the rows.

Examples:
  overbend table davit.toml --vary bend.radius=200..600/20mm
  overbend table davit.toml --vary bend.radius=200..600/20mm --vary tube.wall=2,3,4mm --csv > sizes.csv
  overbend table davit.toml --vary tube.material=6082-T6,6060-T66 --columns block.radius_mm,press.needed_force_N
  overbend table davit.toml --vary bend.radius=200..600/20mm --vary tube.wall=2,3,4mm --svg sizes.svg
`
}

func (c *tableCommand) flags(f *pflag.FlagSet) {
	f.StringArrayVar(&c.vary, "vary", nil, "a key of the job file and what it is set to: `KEY=VALUES`")
	f.StringSliceVar(&c.columns, "columns", nil, "what to print, as `PATH,...` of the JSON (default: what a person acts on)")
	f.BoolVar(&c.csv, "csv", false, "print comma-separated values (RFC 4180)")
	f.BoolVar(&c.json, "json", false, "print JSON, one object a line")
	f.StringVar(&c.svg, "svg", "", "draw a chart of the first column into `FILE.svg`")
	c.units.flag(f)
	f.Lookup("units").Usage = "what sentences and the chart speak: `mm|in` (default the job file's own)"
	c.shop.flag(f)
}

// usualColumns are the numbers that a person acts on.
func usualColumns() []string {
	return []string{
		"block.radius_mm", "blank.length_mm", "filler.mass_kg", "press.supports_mm", "press.travel_mm", "press.needed_force_N",
		"press.loaded_angle_deg", "press.released_filled_angle_deg", "tube_after.elongation_used", "feasible",
	}
}

// tableRow is one job of a table.
type tableRow struct {
	values []string // of the keys
	cells  []any    // of the columns; nil where the job file is refused
	why    string   // it can't be made; "" where it can
}

// table is what all rows have in common.
type tableOf struct {
	text    string // of the job file
	path    string
	shop    shop.Shop
	units   quantity.Units
	keys    vary.Keys
	columns []report.Column
	tables  plan.Tables // what the rows have in common
}

func (c *tableCommand) run(args []string, stdout, stderr io.Writer) error {
	path, err := oneFile(args, "table", "the job file")
	if err != nil {
		return err
	}
	t, err := c.table(path)
	if err != nil {
		return err
	}
	var chart *tableChart
	if c.svg != "" {
		if chart, err = newTableChart(t, c.svg); err != nil {
			return fmt.Errorf("--svg: %w", err)
		}
	}
	w := c.writer(stdout)
	if err := w.head(t); err != nil {
		return err
	}
	ctx, release := holdSignals()
	defer release()
	n := t.keys.Count()
	seen := newProgress(stderr, n)
	apart := !onTerminal(stdout)
	refused := 0
	done, err := vary.InOrder(ctx, n, t.row, func(i int, r tableRow) error {
		if r.cells == nil {
			refused++
		}
		if !apart {
			seen.clear()
		}
		if err := w.row(t, r); err != nil {
			return err
		}
		if chart != nil {
			chart.add(i, r)
		}
		seen.at(i + 1)
		return nil
	})
	seen.clear()
	if err != nil {
		return err
	}
	if done < n {
		return fmt.Errorf("%d of %d rows are done, and whole: %w", done, n, context.Cause(ctx))
	}
	if chart != nil {
		if err := chart.write(c.svg, stderr); err != nil {
			return err
		}
	}
	if refused == n {
		return fmt.Errorf("%s: no row of the table is a job that can be worked out; the last column says why", path)
	}
	return nil
}

// table reads the job file and the flags. What is wrong with all rows alike is found
// here.
func (c *tableCommand) table(path string) (*tableOf, error) {
	if len(c.vary) == 0 {
		return nil, errors.New("table: nothing varies; give --vary, like --vary bend.radius=200..600/20mm")
	}
	if c.csv && c.json {
		return nil, errors.New("table: --csv and --json both say how to print it; give one of them")
	}
	t := &tableOf{path: path}
	var err error
	if t.keys, err = vary.ParseKeys(c.vary); err != nil {
		return nil, fmt.Errorf("--vary: %w", err)
	}
	if len(c.columns) == 0 {
		c.columns = usualColumns()
	}
	for _, name := range c.columns {
		col, err := report.FindColumn(strings.TrimSpace(name))
		if err != nil {
			return nil, fmt.Errorf("--columns: %w", err)
		}
		// One that is varied stands in the table already.
		if !slices.ContainsFunc(t.keys, func(k vary.Key) bool { return k.Path == col.Path }) {
			t.columns = append(t.columns, col)
		}
	}
	if t.shop, err = c.shop.read(); err != nil {
		return nil, err
	}
	text, err := job.Text(path)
	if err != nil {
		return nil, err
	}
	t.text = string(text)
	if err := job.CheckKeys(path, t.text); err != nil {
		return nil, err
	}
	first, err := t.keys.Set(t.text, t.keys.At(0))
	if err != nil {
		return nil, fmt.Errorf("--vary: %w", err)
	}
	var e *keyed.Error
	if err := job.CheckKeys(path, first); errors.As(err, &e) {
		return nil, fmt.Errorf("--vary: %s: %s", e.Key, e.Sentence())
	}
	own := quantity.Millimetres
	if j, err := job.ParseIn(t.shop, path, text); err == nil {
		own = j.Units()
	}
	t.units, err = c.units.or(own)
	return t, err
}

// row works out one job of the table.
func (t *tableOf) row(i int) tableRow {
	r := tableRow{values: t.keys.At(i)}
	p, err := t.plan(r.values)
	if err != nil {
		var e *keyed.Error
		if r.why = err.Error(); errors.As(err, &e) {
			if r.why = e.Sentence(); e.Key != "" {
				r.why = e.Key + ": " + r.why
			}
		}
		return r
	}
	r.cells = report.Row(p, t.columns)
	var why []string
	for _, a := range p.Advice {
		if a.Level == words.Stop {
			why = append(why, a.About+": "+quantity.Plain(a.Say(t.units)))
		}
	}
	r.why = strings.Join(why, "; ")
	return r
}

// plan works out the job with values at the keys; none leave it as it is.
func (t *tableOf) plan(values []string) (*plan.Plan, error) {
	text, err := t.keys.Set(t.text, values)
	if err != nil {
		return nil, err
	}
	j, err := job.ParseIn(t.shop, t.path, []byte(text))
	if err != nil {
		return nil, err
	}
	return t.tables.New(j)
}

// writer returns what writes the rows.
func (c *tableCommand) writer(to io.Writer) tableWriter {
	switch {
	case c.csv:
		return newCSVTable(to)
	case c.json:
		return &jsonTable{to}
	}
	return &textTable{to: to}
}

// exists reports whether a file is there.
func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

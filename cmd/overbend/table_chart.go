package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/sheet"
	"overbend/export/lettering"
	"overbend/export/svg"
	"overbend/geom"
)

// tableChart gathers the first column of a table for its chart.
type tableChart struct {
	t      *tableOf
	figure report.Column
	kind   quantity.Kind // of the figure
	inside float64       // one of its unit, in the kind's
	x      []float64     // of the first key's values, in their order
	c      sheet.Chart
}

// mostLines is how many lines a chart has at most: more can't be told apart.
const mostLines = 8

// newTableChart returns the chart of a table before any row is known.
func newTableChart(t *tableOf, path string) (*tableChart, error) {
	if err := newChart(path); err != nil {
		return nil, err
	}
	k := &tableChart{t: t}
	if len(t.keys) > 2 {
		return nil, fmt.Errorf("%d keys vary; a chart shows one, or two", len(t.keys))
	}
	i := slices.IndexFunc(t.columns, report.Column.Numeric)
	if i != 0 {
		return nil, errors.New("the first of --columns is no number; put the one to draw first")
	}
	k.figure = t.columns[0]
	first := t.keys[0]
	xKind, from := kindOfKey(first.Path)
	own := t.units
	for v := range first.All() {
		x, err := from(v, own)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", first.Path, err)
		}
		k.x = append(k.x, own.Of(xKind.Of(x)))
	}
	sorted := slices.Compact(slices.Sorted(slices.Values(k.x)))
	if len(sorted) < 2 || len(sorted) < len(k.x) {
		return nil, fmt.Errorf("%s: a chart needs two values or more, and each once", first.Path)
	}
	lines := []string{""}
	by := ""
	if len(t.keys) == 2 {
		if n := t.keys[1].Len(); n > mostLines {
			return nil, fmt.Errorf("%s: %d values are too many lines; a chart has at most %d", t.keys[1].Path, n, mostLines)
		}
		lines = slices.Collect(t.keys[1].All())
		by = ", by " + t.keys[1].Path
	}
	name, unit := "", ""
	name, unit, k.kind, k.inside = unitOfColumn(k.figure.Path, own)
	k.c = sheet.Chart{Name: withUnit(name, unit) + by, Over: withUnit(first.Path, own.Unit(xKind)), X: sorted, At: geom.Pt(math.NaN(), math.NaN()), FromNought: k.kind == quantity.Force}
	for _, l := range lines {
		k.c.Lines = append(k.c.Lines, sheet.ChartLine{Name: l, Y: make([]float64, len(sorted)), Works: make([]bool, len(sorted))})
	}
	if x, y, ok := k.job(first.Path, xKind, from); ok {
		k.c.At = geom.Pt(x, y)
	}
	k.c.Foot = "hatched or broken: can't be made"
	if at := k.c.At.X; at >= sorted[0] && at <= sorted[len(sorted)-1] {
		k.c.Foot += "; dot: the job"
	}
	if _, given := keyed.Value(t.text, "press.supports"); !given && strings.HasPrefix(name, "press.") {
		k.c.Foot += "; steps: proposed supports are round"
	}
	return k, nil
}

// job returns where the job itself is; false where its file leaves the key out or is
// no job.
func (k *tableChart) job(key string, kind quantity.Kind, from func(string, quantity.Units) (float64, error)) (x, y float64, ok bool) {
	p, err := k.t.plan(nil)
	if err != nil {
		return 0, 0, false
	}
	text, ok := keyed.Value(k.t.text, key)
	if !ok {
		return 0, 0, false
	}
	if x, err = from(text, p.Job.Units()); err != nil {
		return 0, 0, false
	}
	y, ok = k.shown(report.Row(p, []report.Column{k.figure})[0])
	return k.t.units.Of(kind.Of(x)), y, ok
}

// shown returns a cell in the chart's unit; false for none.
func (k *tableChart) shown(cell any) (float64, bool) {
	switch v := cell.(type) {
	case float64:
		return k.t.units.Of(k.kind.Of(v * k.inside)), true
	case int:
		return float64(v), true
	}
	return math.NaN(), false
}

// add takes a row, counted from 0.
func (k *tableChart) add(i int, r tableRow) {
	n := len(k.c.Lines)
	at, _ := slices.BinarySearch(k.c.X, k.x[i/n])
	l := k.c.Lines[i%n]
	l.Y[at] = math.NaN()
	if r.cells != nil {
		l.Y[at], _ = k.shown(r.cells[0])
	}
	l.Works[at] = r.why == ""
}

// write draws the chart into a new file, and warns of what can't be lettered.
func (k *tableChart) write(path string, stderr io.Writer) error {
	return writeChart(path, stderr, k.c.Name+" over "+k.c.Over, func(wide float64) sheet.Picture {
		return sheet.DrawChart(k.c, lettering.Ordinary, wide, wide*2/3)
	})
}

// writeChart draws a chart into a new file, at the least width in mm that its names
// leave room for, and warns of what can't be lettered. An empty picture says that
// one is too narrow.
func writeChart(path string, stderr io.Writer, title string, draw func(wide float64) sheet.Picture) error {
	for _, wide := range []float64{180, 240, 320} {
		p := draw(wide)
		if len(p.Shapes) == 0 {
			continue
		}
		p.Drawing.Title = title
		var b bytes.Buffer
		if err := svg.Write(&b, p.Drawing); err != nil {
			return err
		}
		if err := kit.Create(path, b.String()); err != nil {
			return err
		}
		return warnLetters(stderr, path, p.Drawing)
	}
	return fmt.Errorf("--svg: the names in %q leave no room for the chart", title)
}

// newChart returns an error where a chart's file is there already.
func newChart(path string) error {
	if exists(path) {
		return fmt.Errorf("%s: exists already; choose another name", path)
	}
	return nil
}

func withUnit(name, unit string) string {
	if unit == "" {
		return name
	}
	return name + ", " + quantity.Plain(unit)
}

// unitOfColumn returns a column's name without the unit that ends it, the unit in
// which it is shown, its kind, and one of its own unit in the kind's.
func unitOfColumn(path string, u quantity.Units) (name, unit string, k quantity.Kind, inside float64) {
	for _, e := range []struct {
		end  string
		kind quantity.Kind
		of   float64
	}{
		{"_mm", quantity.Length, 1}, {"_mm2", quantity.Area, 1}, {"_mm3", quantity.Modulus, 1}, {"_mm4", quantity.Inertia, 1},
		{"_deg", quantity.Angle, geom.Degree.Radians()}, {"_N", quantity.Force, 1}, {"_Nmm", quantity.Moment, 1},
		{"_MPa", quantity.Stress, 1}, {"_kg", quantity.Mass, 1}, {"_C", quantity.Temperature, 1},
	} {
		if name, ok := strings.CutSuffix(path, e.end); ok {
			return name, u.Unit(e.kind), e.kind, e.of
		}
	}
	return path, "", quantity.Number, 1
}

// kindOfKey returns the kind of a job file's key and how a value of it is read.
func kindOfKey(path string) (quantity.Kind, func(string, quantity.Units) (float64, error)) {
	plain := func(parse func(string) (float64, error)) func(string, quantity.Units) (float64, error) {
		return func(s string, _ quantity.Units) (float64, error) { return parse(s) }
	}
	key := keyed.Unindexed(path)
	switch key[strings.LastIndexByte(key, '.')+1:] {
	case "angle", "degrees", "cut", "angle_tolerance", "angle_error", "loaded", "loaded_error", "filled", "melted", "released":
		return quantity.Angle, plain(func(s string) (float64, error) {
			a, err := quantity.ParseAngle(s)
			return a.Radians(), err
		})
	case "youngs_modulus", "proof", "ultimate":
		return quantity.Stress, quantity.ParseStress
	case "elongation":
		return quantity.Share, plain(quantity.ParseFraction)
	case "ratio", "friction", "exponent", "poisson", "unloading":
		return quantity.Number, plain(quantity.ParseNumber)
	case "density":
		return quantity.Number, quantity.ParseDensity
	case "capacity":
		return quantity.Force, quantity.ParseForce
	}
	return quantity.Length, quantity.ParseLength
}

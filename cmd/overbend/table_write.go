package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// tableWriter writes the rows of a table one by one.
type tableWriter interface {
	head(t *tableOf) error
	row(t *tableOf, r tableRow) error
}

// whyColumn is the name of the last column.
const whyColumn = "why"

// names returns the names of all columns.
func (t *tableOf) names() []string {
	var out []string
	for _, k := range t.keys {
		out = append(out, k.Path)
	}
	for _, c := range t.columns {
		out = append(out, c.Path)
	}
	return append(out, whyColumn)
}

// texts returns a row's cells, numbers as a function has them, empty ones for what
// there is not.
func (t *tableOf) texts(r tableRow, number func(float64) string) []string {
	out := append([]string{}, r.values...)
	for i := range t.columns {
		var v any
		if r.cells != nil {
			v = r.cells[i]
		}
		switch v := v.(type) {
		case nil:
			out = append(out, "")
		case float64:
			out = append(out, number(v))
		default:
			out = append(out, fmt.Sprint(v))
		}
	}
	return append(out, r.why)
}

// csvTable is RFC 4180's.
type csvTable struct{ w *csv.Writer }

func newCSVTable(to io.Writer) csvTable {
	w := csv.NewWriter(to)
	w.UseCRLF = true
	return csvTable{w}
}

func (c csvTable) head(t *tableOf) error { return c.write(t.names()) }

func (c csvTable) row(t *tableOf, r tableRow) error {
	return c.write(t.texts(r, func(v float64) string {
		text, _ := json.Marshal(v) // the digits of the JSON; a plan's numbers are finite
		return string(text)
	}))
}

func (c csvTable) write(record []string) error {
	if err := c.w.Write(record); err != nil {
		return err
	}
	c.w.Flush()
	return c.w.Error()
}

// jsonTable is one object a line.
type jsonTable struct{ to io.Writer }

func (jsonTable) head(*tableOf) error { return nil }

func (j jsonTable) row(t *tableOf, r tableRow) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	sep := byte('{')
	add := func(name string, v any) error {
		b.WriteByte(sep)
		sep = ','
		for _, x := range []any{name, v} {
			if err := e.Encode(x); err != nil {
				return err
			}
			b.Truncate(b.Len() - 1) // its line feed
			b.WriteByte(':')
		}
		b.Truncate(b.Len() - 1)
		return nil
	}
	for i, k := range t.keys {
		if err := add(k.Path, r.values[i]); err != nil {
			return err
		}
	}
	for i, c := range t.columns {
		var v any
		if r.cells != nil {
			v = r.cells[i]
		}
		if err := add(c.Path, v); err != nil {
			return err
		}
	}
	var why any
	if r.why != "" {
		why = r.why
	}
	if err := add(whyColumn, why); err != nil {
		return err
	}
	b.WriteString("}\n")
	_, err := j.to.Write(b.Bytes())
	return err
}

// textTable is for a terminal: numbers to six figures, columns lined up. As a row is
// written before the next is known, a column is as wide as its name broken into lines,
// or the values that it takes.
type textTable struct {
	to     io.Writer
	widths []int
}

// Widths of a column.
const (
	nameWidth   = 10 // at which a name is broken
	numberWidth = 9  // of six figures with sign and point
	unknown     = "-"
)

func (x *textTable) head(t *tableOf) error {
	var names [][]string
	high := 0
	for _, n := range t.names() {
		lines := broken(n, nameWidth)
		names = append(names, lines)
		high = max(high, len(lines))
	}
	x.widths = make([]int, len(names))
	for i, lines := range names {
		x.widths[i] = numberWidth
		if i < len(t.keys) {
			x.widths[i] = 0
			for v := range t.keys[i].All() {
				x.widths[i] = max(x.widths[i], utf8.RuneCountInString(v))
			}
		}
		for _, l := range lines {
			x.widths[i] = max(x.widths[i], utf8.RuneCountInString(l))
		}
	}
	for n := range high {
		line := make([]string, len(names))
		for i, lines := range names {
			if k := n - (high - len(lines)); k >= 0 { // they stand on the rows
				line[i] = lines[k]
			}
		}
		if err := x.write(line); err != nil {
			return err
		}
	}
	return nil
}

func (x *textTable) row(t *tableOf, r tableRow) error {
	cells := t.texts(r, func(v float64) string {
		short, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
		return strconv.FormatFloat(short, 'f', -1, 64)
	})
	for i := range cells[:len(cells)-1] {
		if cells[i] == "" {
			cells[i] = unknown
		}
	}
	return x.write(cells)
}

// write writes a line: numbers and values to the right, the reason as it comes.
func (x *textTable) write(cells []string) error {
	var b strings.Builder
	for i, c := range cells {
		if i == len(cells)-1 {
			b.WriteString(c)
			break
		}
		fmt.Fprintf(&b, "%*s  ", x.widths[i], c)
	}
	_, err := io.WriteString(x.to, strings.TrimRight(b.String(), " ")+"\n")
	return err
}

// broken breaks a path behind dots and underscores into lines of at most so many
// letters, where it can.
func broken(path string, width int) []string {
	var out []string
	line := ""
	for rest := path; rest != ""; {
		n := strings.IndexAny(rest, "._") + 1
		if n == 0 {
			n = len(rest)
		}
		if line != "" && len(line)+n > width {
			out, line = append(out, line), ""
		}
		line, rest = line+rest[:n], rest[n:]
	}
	return append(out, line)
}

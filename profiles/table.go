package profiles

import (
	"fmt"
	"iter"
	"strconv"
	"strings"
)

// The embedded tables are plain CSV: comments start with #, the first other
// line is the header, a field with a comma stands in quotes, no quote stands
// in a field. They are read a line at a time and only when asked for, so that
// a program start costs nothing and a look-up takes microseconds; nothing is
// kept between calls. A csv.Reader for each row would cost overbend show about
// 2 % of its time; a test reads the tables with one and compares.

// lines yields the data rows of a table, without comments and header.
func lines(table string) iter.Seq[string] {
	return func(yield func(string) bool) {
		header := true
		for table != "" {
			var line string
			line, table, _ = strings.Cut(table, "\n")
			if line == "" || line[0] == '#' {
				continue
			}
			if header {
				header = false
				continue
			}
			if !yield(line) {
				return
			}
		}
	}
}

// reader takes the fields of one row from left to right. A malformed table is
// our own bug, so it panics, naming the row.
type reader struct {
	table string // for the panic text
	row   string
	rest  string
	done  bool
}

func read(table, row string) *reader { return &reader{table: table, row: row, rest: row} }

func (r *reader) bug(what string) {
	panic(fmt.Sprintf("profiles: %s: %s in row %s", r.table, what, r.row))
}

// text returns the next field.
func (r *reader) text() string {
	if r.done {
		r.bug("too few fields")
	}
	var field string
	var more bool
	if strings.HasPrefix(r.rest, `"`) {
		end := strings.IndexByte(r.rest[1:], '"')
		if end < 0 {
			r.bug("an open quote")
		}
		field = r.rest[1 : 1+end]
		after := r.rest[2+end:]
		if more = strings.HasPrefix(after, ","); !more && after != "" {
			r.bug("text after a quote")
		}
		r.rest = strings.TrimPrefix(after, ",")
	} else {
		field, r.rest, more = strings.Cut(r.rest, ",")
	}
	r.done = !more
	return field
}

// number returns the next field as a number, 0 when it is empty. Inch
// fractions are taken as shops write them: 1-1/2.
func (r *reader) number() float64 {
	field := r.text()
	if field == "" {
		return 0
	}
	whole := 0.0
	frac := field
	if w, f, ok := strings.Cut(field, "-"); ok && w != "" {
		whole, frac = r.float(w), f
	}
	if n, d, ok := strings.Cut(frac, "/"); ok {
		return whole + r.float(n)/r.float(d)
	}
	return whole + r.float(frac)
}

func (r *reader) float(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		r.bug("no number: " + s)
	}
	return v
}

// yes returns the next field, "yes" or "no", as a bool.
func (r *reader) yes() bool {
	switch r.text() {
	case "yes":
		return true
	case "no":
		return false
	}
	r.bug("neither yes nor no")
	return false
}

// inch returns the next field, "mm" or "in", as whether it is "in".
func (r *reader) inch() bool {
	switch r.text() {
	case "in":
		return true
	case "mm":
		return false
	}
	r.bug("neither mm nor in")
	return false
}

// end checks that the row has no further field.
func (r *reader) end() {
	if !r.done {
		r.bug("too many fields")
	}
}

package job

import (
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/profiles"
)

// reader keeps the first thing found wrong. All later readings go on with
// zeros, so that the code that reads a file is not one check in two.
type reader struct {
	file   string
	units  quantity.Units
	places []place
	gauges []Gauge
	err    *Error
}

// fail records an error at a path, unless there is one already.
func (r *reader) fail(path, format string, args ...any) {
	if r.err == nil {
		r.err = &Error{r.file, lineOf(r.places, path), unindexed(path), fmt.Sprintf(format, args...)}
	}
}

// mm returns a length in mm as a sentence shows it, in the file's own unit.
func (r *reader) mm(v float64) string { return r.lengths().show(v) }

// table is one table of the file, present or not.
type table struct {
	*reader
	path   string
	values map[string]any // nil: not in the file
}

// at returns the path of a key.
func (t table) at(key string) string { return join(t.path, key) }

// has reports whether the file gives a key.
func (t table) has(key string) bool {
	_, ok := t.values[key]
	return ok
}

// fail records an error at a key.
func (t table) fail(key, format string, args ...any) {
	t.reader.fail(t.at(key), format, args...)
}

// need records an error for each key that the file leaves out.
func (t table) need(key, like string) {
	if !t.has(key) {
		t.fail(key, "missing; write it like %s = %s", key, like)
	}
}

// table returns the table of a name, empty if the file has none.
func (t table) table(name string) table {
	sub := table{t.reader, t.at(name), nil}
	v, ok := t.values[name]
	if !ok {
		return sub
	}
	if sub.values, ok = v.(map[string]any); !ok {
		t.fail(name, "%s is not allowed; it must be a table, written [%s]", typeName(v), unindexed(sub.path))
	}
	return sub
}

// typeName says what a TOML value is.
func typeName(v any) string {
	switch v.(type) {
	case string:
		return "a text"
	case int64, float64:
		return "a number"
	case bool:
		return "true or false"
	case time.Time, toml.LocalDate, toml.LocalDateTime:
		return "a date"
	case toml.LocalTime:
		return "a time of day"
	case map[string]any:
		return "a table"
	case []map[string]any:
		return "an array of tables"
	}
	return "an array"
}

// quantity reads a text or number by one of the parsers of package quantity.
// It returns also how to show the value in a sentence, which is as it was
// written, with the unit that a bare number stands for. The like says what is
// wanted where the type is wrong.
func (r *reader) quantity(path string, v any, parse func(string) (float64, error), unit, like string) (value float64, shown string, ok bool) {
	switch v := v.(type) {
	case string:
		shown = v
	case int64:
		shown = strconv.FormatInt(v, 10)
	case float64:
		shown = strconv.FormatFloat(v, 'g', -1, 64)
	default:
		r.fail(path, "%s is not allowed; it must be %s", typeName(v), like)
		return 0, "", false
	}
	value, err := parse(shown)
	if err != nil {
		r.fail(path, "%v", err)
		return 0, "", false
	}
	shown = strings.Join(strings.Fields(shown), " ")
	if last := shown[len(shown)-1]; unit != "" && last >= '0' && last <= '9' {
		shown += " " + unit
	}
	return value, shown, true
}

// Limits of a length in mm. Beyond them a length is surely a slip of the unit
// or the keyboard.
const (
	least = 0.01
	most  = 100e3
)

// measure reads a length in mm. It must be from 0, or with positive from least,
// up to most.
func (r *reader) measure(path string, v any, positive bool) float64 {
	mm, shown, ok := r.quantity(path, v, r.in(quantity.ParseLength), r.units.String(), "a length like "+r.like("40 mm", "1-1/2 in"))
	switch {
	case !ok:
	case positive && mm == 0:
		r.fail(path, "%s is not allowed; it must be more than 0 %s", shown, r.units)
	case positive && mm < least:
		r.fail(path, "%s is not allowed; it must be at least %s", shown, r.lengths().inward(least, 3, 1))
	case mm > most:
		r.fail(path, "%s is not allowed; it must be at most %s", shown, r.distances().inward(most, 3, -1))
	}
	return mm
}

// length reads a length above 0 in mm, def where the key is left out.
func (t table) length(key string, def float64) float64 {
	if v, ok := t.values[key]; ok {
		return t.measure(t.at(key), v, true)
	}
	return def
}

// thickness reads a thickness above 0 in mm, which may be a gauge of a list; 0
// where the key is left out.
func (t table) thickness(key string, list profiles.GaugeList) float64 {
	s, _ := t.values[key].(string)
	n, ok, err := quantity.ParseGauge(s)
	if !ok {
		return t.length(key, 0)
	}
	var g profiles.Gauge
	if err != nil {
		t.fail(key, "%v", err)
	} else if g, err = profiles.FindGauge(list, n); err != nil {
		t.fail(key, "%s", t.because(err))
	}
	t.gauges = append(t.gauges, Gauge{t.at(key), g})
	return g.Thickness
}

// lengthOr0 reads a length from 0 in mm, def where the key is left out.
func (t table) lengthOr0(key string, def float64) float64 {
	if v, ok := t.values[key]; ok {
		return t.measure(t.at(key), v, false)
	}
	return def
}

// Limits of the angle of a bend.
const (
	leastAngle = 0.01 * geom.Degree
	mostAngle  = 180 * geom.Degree
)

// angleIn reads an angle of at least lo and at most hi.
func (r *reader) angleIn(path string, v any, lo, hi geom.Angle) geom.Angle {
	rad, shown, ok := r.quantity(path, v, func(s string) (float64, error) {
		a, err := quantity.ParseAngle(s)
		return a.Radians(), err
	}, "deg", "an angle like 33 deg")
	a := geom.Angle(rad)
	// 180 degrees given in radians to a few digits is still 180 degrees.
	const slack = 1e-6 * geom.Degree
	if ok && (a < lo-slack || a > hi+slack) {
		r.fail(path, "%s is not allowed; it must be from %s to %s deg", shown, degrees(lo), degrees(hi))
	}
	return max(lo, min(hi, a))
}

func degrees(a geom.Angle) string { return strconv.FormatFloat(a.Degrees(), 'g', 6, 64) }

// angle reads an angle of at least lo and at most hi, def where the key is left
// out.
func (t table) angle(key string, def, lo, hi geom.Angle) geom.Angle {
	if v, ok := t.values[key]; ok {
		return t.angleIn(t.at(key), v, lo, hi)
	}
	return def
}

// number reads a value by a parser of package quantity. It must be at least lo
// and at most hi in the parser's unit, which the sentence puts as must says.
// Where the key is left out the value is def.
func (t table) number(key string, def float64, parse func(string) (float64, error), lo, hi float64, like, must string) float64 {
	v, ok := t.values[key]
	if !ok {
		return def
	}
	x, shown, ok := t.quantity(t.at(key), v, parse, "", like)
	if ok && (x < lo || x > hi) {
		t.fail(key, "%s is not allowed; it must be %s", shown, must)
	}
	return x
}

// in returns a parser for the file's own system.
func (r *reader) in(parse func(string, quantity.Units) (float64, error)) func(string) (float64, error) {
	return func(s string) (float64, error) { return parse(s, r.units) }
}

// stress reads a stress in MPa, def where the key is left out.
func (t table) stress(key string, def, lo, hi float64, must string) float64 {
	return t.number(key, def, t.in(quantity.ParseStress), lo, hi, "a stress like "+t.like("260 MPa", "38 ksi"), must)
}

// pair reads an array of two values, and where one is enough a single value,
// which then counts twice.
func (t table) pair(key string, one bool, like string, each func(path string, v any)) {
	v, ok := t.values[key]
	if !ok {
		return
	}
	list, isList := v.([]any)
	switch {
	case isList && len(list) == 2:
		each(t.at(key), list[0])
		each(t.at(key), list[1])
	case isList && one:
		t.fail(key, "an array of %d is not allowed; it must be one value or two, like %s", len(list), like)
	case isList:
		t.fail(key, "an array of %d is not allowed; it must be two values, like %s", len(list), like)
	case one:
		each(t.at(key), v)
		each(t.at(key), v)
	default:
		t.fail(key, "%s is not allowed; it must be two values, like %s", typeName(v), like)
	}
}

// longest is the most runes that a text of the file may have: what a line of a
// title block holds.
const longest = 60

// text reads a text of one line, "" where the key is left out. A whole number
// will do, for what is often one: a drawing's number, an alloy.
func (t table) text(key string) string {
	var s string
	switch v := t.values[key].(type) {
	case nil:
		return ""
	case string:
		s = strings.TrimSpace(v)
	case int64:
		s = strconv.FormatInt(v, 10)
	default:
		t.fail(key, "%s is not allowed; it must be a text in quotes", typeName(v))
		return ""
	}
	switch {
	case s == "":
		t.fail(key, "an empty text is not allowed; write something or leave the key out")
	case utf8.RuneCountInString(s) > longest:
		t.fail(key, "%d characters are not allowed; it must be at most %d", utf8.RuneCountInString(s), longest)
	case strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsPrint(r) }):
		t.fail(key, "a character that can't be printed is not allowed; it must be one line of plain text")
	}
	return s
}

// choice reads one of a few words, def where the key is left out.
func (t table) choice(key, def string, words ...string) string {
	v, ok := t.values[key]
	if !ok {
		return def
	}
	s, ok := v.(string)
	for _, w := range words {
		if ok && s == w {
			return w
		}
	}
	what := typeName(v)
	if ok {
		what = fmt.Sprintf("%.40q", s)
	}
	last := len(words) - 1
	t.fail(key, `%s is not allowed; it must be "%s" or "%s"`, what, strings.Join(words[:last], `", "`), words[last])
	return def
}

// yes reads true or false, false where the key is left out.
func (t table) yes(key string) bool {
	v, ok := t.values[key]
	b, isBool := v.(bool)
	if ok && !isBool {
		t.fail(key, "%s is not allowed; it must be true or false without quotes", typeName(v))
	}
	return b
}

// date reads a date, as a text or as a bare TOML date, "" where the key is left
// out.
func (t table) date(key string) string {
	switch d := t.values[key].(type) {
	case time.Time:
		return d.Format(time.DateOnly)
	case toml.LocalDateTime:
		return d.LocalDate.String()
	case toml.LocalDate:
		return d.String()
	}
	return t.text(key)
}

// because says in the file's own units what the catalogue found wrong.
func (r *reader) because(err error) string {
	return quantity.Plain(words.Because(err).Say(r.units))
}

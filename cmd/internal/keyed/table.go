package keyed

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"golang.org/x/text/unicode/norm"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
)

// Reader keeps the first thing found wrong. All later readings go on with
// zeros, so that the code that reads a file is not one check in two.
type Reader struct {
	File   string
	Units  quantity.Units // of a number without a unit
	Places Places

	err *Error
}

// Err returns what was found wrong, an *Error or nil.
func (r *Reader) Err() error {
	if r.err == nil {
		return nil
	}
	return r.err
}

// Failed reports whether something was found wrong.
func (r *Reader) Failed() bool { return r.err != nil }

// FailAt records an error at a path, unless there is one already.
func (r *Reader) FailAt(path, format string, args ...any) {
	if r.err == nil {
		r.err = r.Places.Errorf(r.File, path, format, args...)
	}
}

// MM returns a length in mm as a sentence shows it, in the file's own unit.
func (r *Reader) MM(v float64) string { return r.Lengths().Show(v) }

// Table is one table of the file, present or not.
type Table struct {
	*Reader
	Path   string
	Values map[string]any // nil: not in the file
}

// At returns the path of a key.
func (t Table) At(key string) string { return join(t.Path, key) }

// Has reports whether the file gives a key.
func (t Table) Has(key string) bool {
	_, ok := t.Values[key]
	return ok
}

// Fail records an error at a key.
func (t Table) Fail(key, format string, args ...any) {
	t.FailAt(t.At(key), format, args...)
}

// Need records an error for each key that the file leaves out.
func (t Table) Need(key, like string) {
	if !t.Has(key) {
		t.Fail(key, "missing; write it like %s = %s", key, like)
	}
}

// Sub returns the table of a name, empty if the file has none.
func (t Table) Sub(name string) Table {
	sub := Table{t.Reader, t.At(name), nil}
	v, ok := t.Values[name]
	if !ok {
		return sub
	}
	if sub.Values, ok = v.(map[string]any); !ok {
		t.Fail(name, "%s is not allowed; it must be a table, written [%s]", TypeName(v), Unindexed(sub.Path))
	}
	return sub
}

// Elements returns the tables of an array of tables, none if the file has none. It
// takes both forms, [[name]] and name = [{...}], and at most so many.
func (t Table) Elements(name string, most int) []Table {
	one, head := strings.TrimSuffix(name, "s"), Unindexed(t.At(name))
	var list []map[string]any
	switch v := t.Values[name].(type) {
	case nil:
	case []map[string]any:
		list = v
	case []any: // name = [{...}, {...}]
		for _, e := range v {
			m, ok := e.(map[string]any)
			if !ok {
				t.Fail(name, "%s is not allowed; each %s is a table that starts with [[%s]]", TypeName(e), one, head)
			}
			list = append(list, m)
		}
	default:
		t.Fail(name, "%s is not allowed; each %s is a table that starts with [[%s]]", TypeName(v), one, head)
	}
	if len(list) > most {
		t.Fail(name, "%d %ss are not allowed; it must be at most %d", len(list), one, most)
		return nil
	}
	all := make([]Table, len(list))
	for i, m := range list {
		all[i] = Table{t.Reader, t.At(name) + "[" + strconv.Itoa(i) + "]", m}
	}
	return all
}

// System reads the key units: what a number without a unit means.
func (t Table) System() quantity.Units {
	if t.Choice("units", "mm", "mm", "in") == "in" {
		return quantity.Inches
	}
	return quantity.Millimetres
}

// TypeName says what a TOML value is.
func TypeName(v any) string {
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

// Quantity reads a text or number by one of the parsers of package quantity.
// It returns also how to show the value in a sentence, which is as it was
// written, with the unit that a bare number stands for. The like says what is
// wanted where the type is wrong.
func (r *Reader) Quantity(path string, v any, parse func(string) (float64, error), unit, like string) (value float64, shown string, ok bool) {
	switch v := v.(type) {
	case string:
		shown = v
	case int64:
		shown = strconv.FormatInt(v, 10)
	case float64:
		shown = strconv.FormatFloat(v, 'g', -1, 64)
	default:
		r.FailAt(path, "%s is not allowed; it must be %s", TypeName(v), like)
		return 0, "", false
	}
	value, err := parse(shown)
	if err != nil {
		r.FailAt(path, "%v", err)
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
	LeastLength = 0.01
	MostLength  = 100e3
)

// Measure reads a length in mm. It must be from 0, or with positive from
// LeastLength, up to MostLength.
func (r *Reader) Measure(path string, v any, positive bool) float64 {
	mm, shown, ok := r.Quantity(path, v, r.In(quantity.ParseLength), r.Units.String(), "a length like "+r.Like("40 mm", "1-1/2 in"))
	switch {
	case !ok:
	case positive && mm == 0:
		r.FailAt(path, "%s is not allowed; it must be more than 0 %s", shown, r.Units)
	case positive && mm < LeastLength:
		r.FailAt(path, "%s is not allowed; it must be at least %s", shown, r.Lengths().Inward(LeastLength, 3, 1))
	case mm > MostLength:
		r.FailAt(path, "%s is not allowed; it must be at most %s", shown, r.Distances().Inward(MostLength, 3, -1))
	}
	return mm
}

// Length reads a length above 0 in mm, def where the key is left out.
func (t Table) Length(key string, def float64) float64 {
	if v, ok := t.Values[key]; ok {
		return t.Measure(t.At(key), v, true)
	}
	return def
}

// List reads an array of one value or more, none where the key is left out. The
// like says what is wanted where it is no such array.
func (t Table) List(key, like string, each func(path string, v any)) {
	v, ok := t.Values[key]
	list, isList := v.([]any)
	switch {
	case !ok:
	case !isList:
		t.Fail(key, "%s is not allowed; it must be an array, like %s", TypeName(v), like)
	case len(list) == 0:
		t.Fail(key, "an empty array is not allowed; write it like %s or leave the key out", like)
	}
	for _, v := range list {
		each(t.At(key), v)
	}
}

// LengthList reads an array of lengths above 0 in mm, none of them twice.
func (t Table) LengthList(key, like string) []float64 {
	var all []float64
	t.List(key, like, func(path string, v any) {
		mm := t.Measure(path, v, true)
		if slices.Contains(all, mm) {
			t.Fail(key, "%s stands in it twice; keep one", t.MM(mm))
		}
		all = append(all, mm)
	})
	return all
}

// LengthOr0 reads a length from 0 in mm, def where the key is left out.
func (t Table) LengthOr0(key string, def float64) float64 {
	if v, ok := t.Values[key]; ok {
		return t.Measure(t.At(key), v, false)
	}
	return def
}

// Limits of the angle of a bend.
const (
	LeastAngle = 0.01 * geom.Degree
	MostAngle  = 180 * geom.Degree
)

// AngleIn reads an angle of at least lo and at most hi.
func (r *Reader) AngleIn(path string, v any, lo, hi geom.Angle) geom.Angle {
	rad, shown, ok := r.Quantity(path, v, func(s string) (float64, error) {
		a, err := quantity.ParseAngle(s)
		return a.Radians(), err
	}, "deg", "an angle like 33 deg")
	a := geom.Angle(rad)
	// 180 degrees given in radians to a few digits is still 180 degrees.
	const slack = 1e-6 * geom.Degree
	if ok && (a < lo-slack || a > hi+slack) {
		r.FailAt(path, "%s is not allowed; it must be from %s to %s deg", shown, Degrees(lo), Degrees(hi))
	}
	return max(lo, min(hi, a))
}

// Degrees returns an angle in degrees with up to six figures.
func Degrees(a geom.Angle) string { return strconv.FormatFloat(a.Degrees(), 'g', 6, 64) }

// Angle reads an angle of at least lo and at most hi, def where the key is left
// out.
func (t Table) Angle(key string, def, lo, hi geom.Angle) geom.Angle {
	if v, ok := t.Values[key]; ok {
		return t.AngleIn(t.At(key), v, lo, hi)
	}
	return def
}

// Number reads a value by a parser of package quantity. It must be at least lo
// and at most hi in the parser's unit, which the sentence puts as must says.
// Where the key is left out the value is def.
func (t Table) Number(key string, def float64, parse func(string) (float64, error), lo, hi float64, like, must string) float64 {
	v, ok := t.Values[key]
	if !ok {
		return def
	}
	x, shown, ok := t.Quantity(t.At(key), v, parse, "", like)
	if ok && (x < lo || x > hi) {
		t.Fail(key, "%s is not allowed; it must be %s", shown, must)
	}
	return x
}

// In returns a parser for the file's own system.
func (r *Reader) In(parse func(string, quantity.Units) (float64, error)) func(string) (float64, error) {
	return func(s string) (float64, error) { return parse(s, r.Units) }
}

// Stress reads a stress in MPa, def where the key is left out.
func (t Table) Stress(key string, def, lo, hi float64, must string) float64 {
	return t.Number(key, def, t.In(quantity.ParseStress), lo, hi, "a stress like "+t.Like("260 MPa", "38 ksi"), must)
}

// PlateSize reads the size of a plate in mm, like 1000x500 mm, def where the key is
// left out.
func (t Table) PlateSize(key string, def [2]float64) [2]float64 {
	switch v := t.Values[key].(type) {
	case nil:
		return def
	case string:
		w, h, err := quantity.ParseSize(v, t.Units)
		switch {
		case err != nil:
			t.Fail(key, "%v", err)
		case min(w, h) < 1 || max(w, h) > MostLength:
			t.Fail(key, "%.40s is not allowed; each side must be from %s to %s", v, t.Lengths().Inward(1, 3, 1), t.Distances().Inward(MostLength, 3, -1))
		}
		return [2]float64{w, h}
	default:
		t.Fail(key, "%s is not allowed; it must be a size like %q", TypeName(v), quantity.SizeLike(t.Units))
	}
	return def
}

// Pair reads an array of two values, and where one is enough a single value,
// which then counts twice.
func (t Table) Pair(key string, one bool, like string, each func(path string, v any)) {
	v, ok := t.Values[key]
	if !ok {
		return
	}
	list, isList := v.([]any)
	switch {
	case isList && len(list) == 2:
		each(t.At(key), list[0])
		each(t.At(key), list[1])
	case isList && one:
		t.Fail(key, "an array of %d is not allowed; it must be one value or two, like %s", len(list), like)
	case isList:
		t.Fail(key, "an array of %d is not allowed; it must be two values, like %s", len(list), like)
	case one:
		each(t.At(key), v)
		each(t.At(key), v)
	default:
		t.Fail(key, "%s is not allowed; it must be two values, like %s", TypeName(v), like)
	}
}

// Longest is the most runes that a text of the file may have: what a line of a
// title block holds.
const Longest = 60

// Text reads a text of one line, "" where the key is left out. A whole number
// will do, for what is often one: a drawing's number, an alloy. A letter and its
// accents are made one (Unicode's form C), however they were typed: it is one
// shape, and equal names are equal.
func (t Table) Text(key string) string {
	var s string
	switch v := t.Values[key].(type) {
	case nil:
		return ""
	case string:
		s = norm.NFC.String(strings.TrimSpace(v))
	case int64:
		s = strconv.FormatInt(v, 10)
	default:
		t.Fail(key, "%s is not allowed; it must be a text in quotes", TypeName(v))
		return ""
	}
	switch {
	case s == "":
		t.Fail(key, "an empty text is not allowed; write something or leave the key out")
	case utf8.RuneCountInString(s) > Longest:
		t.Fail(key, "%d characters are not allowed; it must be at most %d", utf8.RuneCountInString(s), Longest)
	case strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsPrint(r) }):
		t.Fail(key, "a character that can't be printed is not allowed; it must be one line of plain text")
	}
	return s
}

// Choice reads one of a few words, def where the key is left out.
func (t Table) Choice(key, def string, words ...string) string {
	v, ok := t.Values[key]
	if !ok {
		return def
	}
	s, ok := v.(string)
	for _, w := range words {
		if ok && s == w {
			return w
		}
	}
	what := TypeName(v)
	if ok {
		what = fmt.Sprintf("%.40q", s)
	}
	last := len(words) - 1
	t.Fail(key, `%s is not allowed; it must be "%s" or "%s"`, what, strings.Join(words[:last], `", "`), words[last])
	return def
}

// Yes reads true or false, false where the key is left out.
func (t Table) Yes(key string) bool {
	v, ok := t.Values[key]
	b, isBool := v.(bool)
	if ok && !isBool {
		t.Fail(key, "%s is not allowed; it must be true or false without quotes", TypeName(v))
	}
	return b
}

// Date reads a date, as a text or as a bare TOML date, "" where the key is left
// out.
func (t Table) Date(key string) string {
	switch d := t.Values[key].(type) {
	case time.Time:
		return d.Format(time.DateOnly)
	case toml.LocalDateTime:
		return d.LocalDate.String()
	case toml.LocalDate:
		return d.String()
	}
	return t.Text(key)
}

// Because says in the file's own units what the catalogue found wrong.
func (r *Reader) Because(err error) string {
	return quantity.Plain(words.Because(err).Say(r.Units))
}

package vary

import (
	"cmp"
	"fmt"
	"iter"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
)

// Key is a key of a job file with the values that it takes in turn, which are made
// when they are asked for.
type Key struct {
	Path  string // tube.wall, ends.cut[1]
	items []span
	count int
}

// Len returns how many values there are.
func (k Key) Len() int { return k.count }

// Value returns one, counted from 0, as a person writes it: 3 mm, 6082-T6, ["0 deg",
// "10 deg"].
func (k Key) Value(i int) string {
	for _, v := range k.items {
		if n := v.count(); i < n {
			return v.at(i)
		} else {
			i -= n
		}
	}
	panic("vary: no such value")
}

// All returns all values in turn.
func (k Key) All() iter.Seq[string] {
	return func(yield func(string) bool) {
		for _, v := range k.items {
			for i := range v.count() {
				if !yield(v.at(i)) {
					return
				}
			}
		}
	}
}

// most is how many values a key may take, and how many jobs all keys make: more are
// a slip, and would be hours.
const most = 10_000_000

// ParseKey reads KEY=VALUES. Values stand between commas; a range of numbers is
// FROM..TO/STEP, down as well as up. A number without a unit has that of the next
// that has one: 2,3,4mm. What begins with [, { or " is TOML as it stands.
func ParseKey(s string) (Key, error) {
	path, list, ok := strings.Cut(s, "=")
	k := Key{Path: strings.TrimSpace(path)}
	if !ok || k.Path == "" || strings.TrimSpace(list) == "" {
		return k, fmt.Errorf("%.60q names no values; write it like bend.radius=200..600/20mm or tube.wall=2,3,4mm", s)
	}
	if !utf8.ValidString(s) || strings.ContainsFunc(s, unicode.IsControl) {
		return k, fmt.Errorf("%.60q has letters that no text has", s)
	}
	items := split(list)
	k.items = make([]span, len(items))
	unit := ""
	for i := len(items) - 1; i >= 0; i-- {
		v, err := parseSpan(strings.TrimSpace(items[i]))
		if err != nil {
			return k, fmt.Errorf("%s: %w", k.Path, err)
		}
		if v.text == "" {
			v.unit = cmp.Or(v.unit, unit)
			unit = v.unit
		}
		k.items[i] = v
		if k.count += v.count(); k.count > most {
			return k, fmt.Errorf("%s: more than %d values; take a larger step", k.Path, most)
		}
	}
	return k, nil
}

// span is one item of a list: a text, or one number, or numbers in even steps.
type span struct {
	text, one      string // the number without its unit
	from, to, step float64
	unit           string
}

// parseSpan reads one item.
func parseSpan(s string) (span, error) {
	if s == "" {
		return span{}, fmt.Errorf("an empty value is not allowed; leave out the comma before or behind it")
	}
	if first, rest, isRange := strings.Cut(s, ".."); isRange {
		if from, unit, ok := quantity.Split(first); ok {
			return parseRange(s, span{from: from, unit: unit}, rest)
		}
		if _, err := parseRange(s, span{}, rest); err == nil { // a text may have dots, but not all of a range
			return span{}, fmt.Errorf("%.60q does not start at a number; write a range like 200..600/20mm", s)
		}
	}
	// Feet with inches behind them, and mm2, are whole already.
	if _, unit, ok := quantity.Split(s); ok && !strings.ContainsAny(unit, " 0123456789") {
		return span{one: strings.TrimSpace(strings.TrimSuffix(s, unit)), unit: unit}, nil
	}
	return span{text: s}, nil
}

// parseRange reads what stands behind the dots of a range. As numbers may be
// fractions, the step is what stands behind the first stroke with a number on either
// side.
func parseRange(whole string, v span, rest string) (span, error) {
	for i, c := range rest {
		if c != '/' {
			continue
		}
		to, toUnit, ok := quantity.Split(rest[:i])
		step, stepUnit, isStep := quantity.Split(rest[i+1:])
		if !ok || !isStep {
			continue
		}
		units := [3]string{v.unit, toUnit, stepUnit}
		for _, u := range units {
			if u != "" {
				v.unit = u
			}
		}
		for _, u := range units {
			if u != "" && u != v.unit {
				return v, fmt.Errorf("%.60q has the units %s and %s; write a range in one unit", whole, u, v.unit)
			}
		}
		v.to, v.step = to, step
		if !(step > 0) || math.IsInf(v.from, 0) || math.IsInf(to, 0) || math.IsInf(step, 0) {
			return v, fmt.Errorf("%.60q has no step above 0; write a range like 200..600/20mm", whole)
		}
		return v, nil
	}
	return v, fmt.Errorf("%.60q has no step; write a range like 200..600/20mm", whole)
}

// count returns how many values a span has, at most one more than are allowed.
func (v span) count() int {
	if v.step == 0 {
		return 1
	}
	const same = 1e-9 // of a step: what sums of decimals leave
	return int(min(math.Abs(v.to-v.from)/v.step+same, most)) + 1
}

// at returns a value as a text.
func (v span) at(i int) string {
	switch {
	case v.text != "":
		return v.text
	case v.one != "":
		return strings.TrimSpace(v.one + " " + v.unit)
	}
	x := v.from + math.Copysign(float64(i)*v.step, v.to-v.from)
	x = math.Round(x*1e9)/1e9 + 0 // 0.1 thrice is 0.3, and nought has no sign
	return strings.TrimSpace(strconv.FormatFloat(x, 'f', -1, 64) + " " + v.unit)
}

// split cuts a list at the commas that stand in no bracket and no quotes.
func split(s string) []string {
	var out []string
	depth, quote, from := 0, byte(0), 0
	for i := range len(s) {
		switch c := s[i]; {
		case quote != 0:
			if c == quote && (quote == '\'' || s[i-1] != '\\') {
				quote = 0
			}
		case (c == '"' || c == '\'') && strings.TrimSpace(s[from:i]) == "", c == '"' && depth > 0:
			quote = c // elsewhere it is the inch mark
		case c == '[' || c == '{':
			depth++
		case c == ']' || c == '}':
			depth--
		case c == ',' && depth <= 0:
			out = append(out, s[from:i])
			from = i + 1
		}
	}
	return append(out, s[from:])
}

// toml returns a value as the job file has it.
func toml(value string) string {
	switch {
	case value == "true", value == "false", strings.ContainsAny(value[:1], `[{"`):
		return value
	}
	return keyed.Quote(value)
}

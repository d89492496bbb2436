package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// huge bounds every value in its inner unit: no shop quantity comes near it,
// and products of a few such values stay far from overflow.
const huge = 1e12

// tiny bounds the other end: what is less is nought, so that a job with an end cut of
// 1e-310 deg is one with a square end.
const tiny = 1 / huge

// unity names the unit of a pure number. No unit in a file can look like it.
const unity = "1"

// kind is what is being read.
type kind struct {
	name   string // with its article: "a length"
	like   string // how to write one
	units  string // the units it takes, "" for none
	from   func(v float64, unit string) (float64, bool)
	bare   string // unit of a number without one, "": not allowed
	signed bool   // may be negative
}

// parse reads s as a number and a unit, and returns the value in the unit used
// inside.
func (k kind) parse(s string) (float64, error) {
	// Fields also turns line breaks from a multi-line string into spaces, so
	// that a sentence that repeats s stays on one line.
	s = strings.Join(strings.Fields(s), " ")
	if s == "" {
		return 0, fmt.Errorf("an empty text is not %s; write it like %s", k.name, k.like)
	}
	v, rest, ok := number(s)
	unit := strings.TrimSpace(rest)
	switch {
	case strings.HasPrefix(unit, ",") || strings.HasPrefix(s, ","):
		return 0, fmt.Errorf("%.40q has a comma; write the number with a dot and without a thousands mark, like 1.5", s)
	case !ok || !startsUnit(unit):
		return 0, fmt.Errorf("%.40q is not %s; write it like %s", s, k.name, k.like)
	case unit == "" && k.bare == "":
		return 0, fmt.Errorf("%.40q has no unit; write it like %s", s, k.like)
	case unit == "":
		unit = k.bare
	}
	v, known := k.from(v, strings.ToLower(unit))
	switch {
	case !known && k.units == "":
		return 0, fmt.Errorf("%.40q has a unit; %s takes none", s, k.name)
	case !known:
		if _, force := k.from(0, "tonf"); force && (unit == "ton" || unit == "tons") {
			return 0, fmt.Errorf("%.40q could be metric or short tons; write t for metric tons, tonf for short tons", s)
		}
		return 0, fmt.Errorf("%.40q has the unknown unit %.20q; %s takes %s", s, unit, k.name, k.units)
	case math.Abs(v) > huge || math.IsNaN(v):
		return 0, fmt.Errorf("%.40q is too large for %s", s, k.name)
	case v < 0 && !k.signed:
		return 0, fmt.Errorf("%.40s is not allowed; %s can't be negative", s, k.name)
	}
	if math.Abs(v) < tiny {
		return 0, nil // nor a negative zero
	}
	return v, nil
}

// startsUnit reports whether s can be the unit behind a number. It is there to
// tell a misspelt number (1.2.3, 3/, 1_000) from a wrong unit.
func startsUnit(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return s == "" || unicode.IsLetter(r) || strings.ContainsRune(`"″”'′’°%`, r)
}

// number reads the decimal, fraction or mixed number at the start of s and
// returns what follows it. A value beyond float64 comes back as an infinity.
//
//	number   = [ "+" | "-" ] ( decimal | fraction | digits ( " " | "-" ) fraction )
//	decimal  = ( digits [ "." [ digits ] ] | "." digits ) [ "e" [ "+" | "-" ] digits ]
//	fraction = digits "/" digits
//
// A denominator of 0 and a mixed number's fraction of 1 or more are no numbers.
func number(s string) (v float64, rest string, ok bool) {
	sign := 1.0
	body := s
	if s != "" && (s[0] == '-' || s[0] == '+') {
		if s[0] == '-' {
			sign = -1
		}
		body = s[1:]
	}
	n := digits(body)
	if n > 0 && n < len(body) {
		switch body[n] {
		case '/':
			v, rest, ok = fraction(body)
			return sign * v, rest, ok
		case ' ', '-':
			if f, tail, isFraction := fraction(body[n+1:]); isFraction {
				whole, _ := strconv.ParseFloat(body[:n], 64)
				return sign * (whole + f), tail, f < 1
			}
		}
	}
	end := n
	if end < len(body) && body[end] == '.' {
		m := digits(body[end+1:])
		if n+m == 0 {
			return 0, s, false
		}
		end += 1 + m
	}
	if end == 0 {
		return 0, s, false
	}
	if end < len(body) && (body[end] == 'e' || body[end] == 'E') {
		e := end + 1
		if e < len(body) && (body[e] == '+' || body[e] == '-') {
			e++
		}
		if m := digits(body[e:]); m > 0 {
			end = e + m
		}
	}
	// The only error left is a value out of range, and then v is an infinity.
	v, _ = strconv.ParseFloat(body[:end], 64)
	return sign * v, body[end:], true
}

// fraction reads "digits/digits" at the start of s.
func fraction(s string) (v float64, rest string, ok bool) {
	n := digits(s)
	if n == 0 || n == len(s) || s[n] != '/' {
		return 0, s, false
	}
	m := digits(s[n+1:])
	if m == 0 {
		return 0, s, false
	}
	over, _ := strconv.ParseFloat(s[:n], 64)
	under, _ := strconv.ParseFloat(s[n+1:n+1+m], 64)
	if under == 0 || math.IsInf(under, 0) {
		return 0, s, false
	}
	return over / under, s[n+1+m:], true
}

// digits returns how many ASCII digits s starts with.
func digits(s string) int {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

// Split returns the number at the start of a text and the unit behind it, "" for
// none; false where the text is no number with at most a unit.
func Split(s string) (v float64, unit string, ok bool) {
	v, rest, ok := number(strings.TrimSpace(s))
	unit = strings.TrimSpace(rest)
	return v, unit, ok && startsUnit(unit)
}

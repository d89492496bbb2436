package job

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Error is one thing wrong with a job file, in one sentence:
//
//	davit.toml:7: tube.wall: 0 mm is not allowed; it must be more than 0 mm
type Error struct {
	File string // as named by the user
	Line int    // from 1; 0: the file as a whole
	Key  string // dotted, "" for none
	Text string // what is wrong and what is allowed, lower case, no full stop
}

// Error returns the sentence on one line, whatever the file held.
func (e *Error) Error() string {
	return e.at() + printable(e.Text, 500)
}

// at returns the place of what is wrong, up to the colon and space.
func (e *Error) at() string {
	var b strings.Builder
	if e.File != "" {
		b.WriteString(printable(e.File, 4096))
	} else {
		b.WriteString("job")
	}
	if e.Line > 0 {
		b.WriteByte(':')
		b.WriteString(strconv.Itoa(e.Line))
	}
	b.WriteString(": ")
	if e.Key != "" {
		b.WriteString(printable(e.Key, 60))
		b.WriteString(": ")
	}
	return b.String()
}

// printable returns s cut to at most n runes and with a question mark for
// everything that would not show as itself in one line.
func printable(s string, n int) string {
	count := 0
	for i := range s {
		if count == n {
			s = s[:i] + "..."
			break
		}
		count++
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return '?'
	}, s)
}

// Errorf returns an *Error at a key of the file that j was read from, for what
// only shows once the bend is computed. The key is dotted; an element of an
// array is counted from 0: "press.supports", "trial[1].travel". A key that the
// file leaves out is placed at its table.
func (j Job) Errorf(key, format string, args ...any) error {
	return &Error{j.File, lineOf(j.places, key), unindexed(key), fmt.Sprintf(format, args...)}
}

// At returns the place of a key as an error begins with it: "davit.toml:7:
// tube.wall".
func (j Job) At(key string) string {
	e := Error{File: j.File, Line: lineOf(j.places, key), Key: unindexed(key)}
	return strings.TrimSuffix(e.at(), ": ")
}

package keyed

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Error is one thing wrong with a file, in one sentence:
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
	return e.at() + e.Sentence()
}

// at returns the place of what is wrong, up to the colon and space.
func (e *Error) at() string {
	var b strings.Builder
	if e.File != "" {
		b.WriteString(Printable(e.File, 4096))
	} else {
		b.WriteString("file")
	}
	if e.Line > 0 {
		b.WriteByte(':')
		b.WriteString(strconv.Itoa(e.Line))
	}
	b.WriteString(": ")
	if e.Key != "" {
		b.WriteString(Printable(e.Key, 60))
		b.WriteString(": ")
	}
	return b.String()
}

// Sentence returns what is wrong without the place, on one line.
func (e *Error) Sentence() string { return Printable(e.Text, 500) }

// Printable returns s cut to at most n runes and with a question mark for
// everything that would not show as itself in one line.
func Printable(s string, n int) string {
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

// Errorf returns an error at a path of a file with these places.
func (all Places) Errorf(file, path, format string, args ...any) *Error {
	return &Error{file, all.Line(path), Unindexed(path), fmt.Sprintf(format, args...)}
}

// At returns the place of a key as an error begins with it: "davit.toml:7:
// tube.wall".
func (all Places) At(file, path string) string {
	e := Error{File: file, Line: all.Line(path), Key: Unindexed(path)}
	return strings.TrimSuffix(e.at(), ": ")
}

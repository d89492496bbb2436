package keyed

import (
	"strconv"
	"strings"
)

// span is a stretch of the file's bytes, from the first to before the last.
type span struct{ from, to int }

// place is where a key, a table or an element of an array of tables stands.
// Its bytes are there for whoever changes a value and keeps all else.
type place struct {
	path  string // "tube.wall", "trial[1].block"
	line  int    // of its key
	key   span   // without a table's brackets
	value span   // empty for a table that has its own lines
	in    string // path of the table in whose lines or braces a pair stands
	text  string // of the value, as written
}

// heads reports whether the place is the head of a table or an element.
func (p place) heads() bool { return p.value.to == 0 }

// within reports whether a path is another's or below it.
func within(path, other string) bool {
	rest, ok := strings.CutPrefix(path, other)
	return ok && (other == "" || rest == "" || rest[0] == '.' || rest[0] == '[')
}

// Places is where all keys, tables and elements of a file stand, from its first
// line to its last.
type Places []place

// Line returns the line of a path. For one that does not stand in the file
// itself it is that of the first key under it, else that of its parent, else 1.
// An element of an array is counted from 0: "trial[1].travel".
func (all Places) Line(path string) int {
	for path != "" {
		for _, p := range all {
			if p.path == path {
				return p.line
			}
		}
		for _, p := range all {
			if within(p.path, path) {
				return p.line
			}
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return 1
}

// Written returns the value of a key as the file has it, a text without its quotes;
// false for a key that the file leaves out or that holds a table.
func (all Places) Written(path string) (string, bool) {
	for _, p := range all {
		if p.path == path && !p.heads() {
			v, err := literal(p.text)
			if s, ok := v.(string); ok && err == nil {
				return s, true
			}
			return strings.Join(strings.Fields(p.text), " "), true
		}
	}
	return "", false
}

// Unindexed returns a path without the numbers of elements, as shown to users:
// "trial.block".
func Unindexed(path string) string {
	for from := 0; ; {
		i := strings.IndexByte(path[from:], '[')
		if i < 0 {
			return path
		}
		i += from
		n := strings.IndexByte(path[i:], ']')
		if n < 0 {
			return path
		}
		if _, err := strconv.Atoi(path[i+1 : i+n]); err == nil {
			path = path[:i] + path[i+n+1:]
			from = i
		} else {
			from = i + n
		}
	}
}

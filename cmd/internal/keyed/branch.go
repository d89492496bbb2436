package keyed

import (
	"strconv"
	"strings"
)

// making says how a table came about, which decides who may add to it.
type making uint8

const (
	implied making = iota // named only in the heads of tables below it
	header                // has its own head or braces
	dotted                // named only in dotted keys
)

// branch is a table of the file while it is read.
type branch struct {
	path   string
	made   making
	values map[string]any     // for the reader
	below  map[string]*branch // its tables, of an array of tables the last one
}

func newBranch(path string, made making) *branch {
	return &branch{path: path, made: made, values: map[string]any{}}
}

// at returns the path of a key, quoted where it would not be read as one.
func (b *branch) at(name string) string { return join(b.path, shown([]string{name})[0]) }

// enter returns the table of a name for what goes below it, made if need be,
// nil where the name is that of a value. A dotted key makes an implied table
// its own.
func (b *branch) enter(name string, how making) *branch {
	if next := b.below[name]; next != nil {
		return next
	}
	if _, taken := b.values[name]; taken {
		return nil
	}
	next := newBranch(b.at(name), how)
	b.grow(name, next)
	b.values[name] = next.values
	return next
}

// headed returns the table of a name for its own head, nil if it has one or is
// something else.
func (b *branch) headed(name string) *branch {
	next := b.below[name]
	switch {
	case next == nil:
		return b.enter(name, header)
	case next.made != implied:
		return nil
	}
	next.made = header
	return next
}

// element returns a new last table of an array of tables, nil where the name is
// that of something else.
func (b *branch) element(name string) *branch {
	list, ok := b.values[name].([]map[string]any)
	if _, taken := b.values[name]; taken && !ok {
		return nil
	}
	next := newBranch(b.at(name)+"["+strconv.Itoa(len(list))+"]", header)
	b.grow(name, next)
	b.values[name] = append(list, next.values)
	return next
}

func (b *branch) grow(name string, next *branch) {
	if b.below == nil {
		b.below = map[string]*branch{}
	}
	b.below[name] = next
}

// shown returns the parts of a key as they are written so that dots can join
// them.
func shown(parts []string) []string {
	out := make([]string, len(parts))
	for i, p := range parts {
		if out[i] = p; p == "" || strings.ContainsFunc(p, func(r rune) bool { return r > 127 || !isBare(byte(r)) }) {
			out[i] = Quote(p)
		}
	}
	return out
}

func isBare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-'
}

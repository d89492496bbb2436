package keyed

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// Depths and lengths beyond any job file. They keep the work linear in the
// file's size, whatever it holds.
const (
	maxNesting  = 16
	maxKeyParts = 8
	maxPath     = 100 // bytes of a key with all tables around it
)

// byteOrderMark is what some editors write before a text.
const byteOrderMark = "\ufeff"

// Decode returns the values of a TOML text and where its keys stand. Tables
// are
// map[string]any, arrays of tables []map[string]any, other arrays []any,
// dates and times the types of package toml; the rest is string, bool, int64
// and float64. Every error is an *Error.
func Decode(file, text string) (map[string]any, Places, error) {
	d := decoder{file: file, text: text, line: 1, places: make(Places, 0, 64)}
	if strings.HasPrefix(text, byteOrderMark) {
		d.start = len(byteOrderMark)
	}
	if err := checkBytes(file, text[d.start:]); err != nil {
		return nil, nil, err
	}
	d.Reset([]byte(text[d.start:]))
	root := newBranch("", header)
	at := root
	for d.err == nil && d.NextExpression() {
		if n := d.Expression(); n.Kind == unstable.KeyValue {
			d.pair(at, n, 0)
			d.end = d.span(n).to
		} else {
			at = d.header(root, n)
		}
	}
	if d.err == nil && d.Error() != nil {
		d.broken(root, at)
	}
	if d.err != nil {
		return nil, nil, d.err
	}
	return root.values, d.places, nil
}

// checkBytes returns an error for a text that is not UTF-8 or holds a control
// character that TOML does not allow.
func checkBytes(file, text string) error {
	line := 1
	for i, r := range text {
		switch {
		case r == '\n':
			line++
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\ufffd"):
			return &Error{File: file, Line: line, Text: "not valid UTF-8; save the file as UTF-8 text"}
		case r < ' ' && r != '\t' && !strings.HasPrefix(text[i:], "\r\n") || r == 0x7f:
			return &Error{File: file, Line: line, Text: fmt.Sprintf("the control character 0x%02x is not allowed", r)}
		}
	}
	return nil
}

// decoder builds the values up from the parser's expressions, which are one
// pair or one table's head each, and stops at the first fault.
type decoder struct {
	unstable.Parser
	file   string
	text   string
	start  int // of what the parser sees, behind a byte order mark
	end    int // of the last expression
	pos    int // to which lines are counted
	line   int // at pos
	places Places
	err    *Error
}

// fail records an error in a line.
func (d *decoder) fail(line int, path, format string, args ...any) {
	if d.err == nil {
		d.err = &Error{d.file, line, Unindexed(path), fmt.Sprintf(format, args...)}
	}
}

// lineAt returns the line of a byte. It counts on from the last one asked for,
// as the file is read from top to bottom.
func (d *decoder) lineAt(pos int) int {
	if pos < d.pos {
		d.pos, d.line = 0, 1
	}
	d.line += strings.Count(d.text[d.pos:pos], "\n")
	d.pos = pos
	return d.line
}

// span returns the bytes of a node that the parser gives a range for: keys,
// pairs and plain values.
func (d *decoder) span(n *unstable.Node) span {
	from := d.start + int(n.Raw.Offset)
	return span{from, from + int(n.Raw.Length)}
}

// key returns the parts of a key, its bytes and its line, or nil.
func (d *decoder) key(it unstable.Iterator) (parts []string, at span, line int) {
	for it.Next() {
		s := d.span(it.Node())
		if parts == nil {
			at, line = s, d.lineAt(s.from)
		}
		at.to = s.to
		if len(parts) == maxKeyParts {
			d.fail(line, "", "a key of more than %d parts is not allowed", maxKeyParts)
			return nil, at, line
		}
		parts = append(parts, string(it.Node().Data))
	}
	return parts, at, line
}

// keep records where a key stands, unless it is too long for any.
func (d *decoder) keep(p place) {
	if len(p.path) > maxPath {
		d.fail(p.line, "", "a key of more than %d characters is not allowed", maxPath)
		return
	}
	d.places = append(d.places, p)
}

// taken records that a key is there already.
func (d *decoder) taken(line int, path string) { d.fail(line, path, "given twice; keep one") }

// header reads "[table]" or "[[array of tables]]" and returns the table that
// the pairs below it go into, nil after a fault.
func (d *decoder) header(root *branch, n *unstable.Node) *branch {
	parts, at, line := d.key(n.Key())
	d.end = at.to
	if parts == nil {
		return nil
	}
	b := root
	last := len(parts) - 1
	for _, name := range parts[:last] {
		next := b.enter(name, implied)
		if next == nil {
			d.taken(line, b.at(name))
			return nil
		}
		b = next
	}
	open := b.headed
	if n.Kind == unstable.ArrayTable {
		open = b.element
	}
	next := open(parts[last])
	if next == nil {
		d.taken(line, b.at(parts[last]))
		return nil
	}
	d.keep(place{path: next.path, line: line, key: at})
	return next
}

// pair reads "key = value" into a table.
func (d *decoder) pair(b *branch, n *unstable.Node, depth int) {
	parts, at, line := d.key(n.Key())
	if parts == nil {
		return
	}
	in, last := b.path, len(parts)-1
	for _, name := range parts[:last] {
		next := b.enter(name, dotted)
		if next == nil || next.made != dotted {
			d.taken(line, b.at(name))
			return
		}
		b = next
	}
	name := parts[last]
	path := b.at(name)
	if _, ok := b.values[name]; ok {
		d.taken(line, path)
		return
	}
	value := span{at.to, d.span(n).to}
	for strings.IndexByte(" \t=", d.text[value.from]) >= 0 {
		value.from++
	}
	value.to = value.from + len(strings.TrimRight(d.text[value.from:value.to], " \t\r\n"))
	d.keep(place{path, line, at, value, in, d.text[value.from:value.to]})
	b.values[name] = d.value(line, path, n.Value(), depth)
}

// value returns the value of a node, and records the keys in it below a path.
func (d *decoder) value(line int, path string, n *unstable.Node, depth int) any {
	switch n.Kind {
	case unstable.String:
		return string(n.Data)
	case unstable.Array, unstable.InlineTable:
	default:
		return d.scalar(line, path, n)
	}
	if depth++; depth > maxNesting || d.err != nil {
		d.tooDeep(line)
		return nil
	}
	children := n.Children()
	if n.Kind == unstable.InlineTable {
		b := newBranch(path, header)
		for children.Next() {
			d.pair(b, children.Node(), depth)
		}
		return b.values
	}
	list := []any{}
	for children.Next() {
		below := path
		if k := children.Node().Kind; k == unstable.Array || k == unstable.InlineTable {
			below += "[" + strconv.Itoa(len(list)) + "]"
		}
		list = append(list, d.value(line, below, children.Node(), depth))
	}
	return list
}

func (d *decoder) tooDeep(line int) {
	d.fail(line, "", "values nested more than %d deep are not allowed", maxNesting)
}

// scalar returns the value of a number, date or word, by the library's own
// rules for it.
func (d *decoder) scalar(line int, path string, n *unstable.Node) any {
	var v struct{ V any }
	err := toml.Unmarshal(append([]byte("V="), bytes.TrimSpace(n.Data)...), &v)
	switch {
	case err == nil:
	case n.Kind == unstable.Integer || n.Kind == unstable.Float:
		d.fail(line, path, "a number so large is not allowed")
	default:
		d.fail(line, path, "%.40s is no date or time; write a date like 2025-06-01", n.Data)
	}
	return v.V
}

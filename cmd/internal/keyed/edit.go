package keyed

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Set returns a text in which the key at a path has a value, which is written as
// TOML writes it: 3, "40 mm", [1, 2]. All other bytes stay. A key that is missing
// is added at the end of its table, and a table that is missing at the end of the
// one that it belongs in. A key that has the value already is left as it stands.
//
// A path is as sentences show it, with elements of arrays counted from 0:
// tube.wall, trial[1].block, trial[0]."odd name". An element must be there.
func Set(text, path, value string) (string, error) {
	want, err := literal(value)
	if err != nil {
		return "", err
	}
	s, err := open(text, path)
	if err != nil {
		return "", err
	}
	if at, ok := s.value(s.steps); ok {
		if have, _ := s.find(s.steps); reflect.DeepEqual(have, want) {
			return text, nil
		}
		return s.splice(at, value)
	}
	if len(s.steps) == 0 {
		return "", errNoKey
	}
	if _, taken := s.find(s.steps); taken {
		return "", fmt.Errorf("%s is a table of its own; set its keys", path)
	}
	return s.grow(value, func(a, rest []step) (int, []string) {
		last := len(rest) - 1
		line := keyText(rest[last:]) + " = " + value
		if h := s.head(a); last == 0 && (len(a) == 0 || h >= 0) {
			return s.sectionEnd(h), []string{s.indent(h) + line}
		}
		pos := s.regionEnd(a)
		return pos, append(s.gap(pos), "["+keyText(slices.Concat(a, rest[:last]))+"]", line)
	})
}

// Value returns what a text has at a path, a text without its quotes; false for a key
// that is left out or holds more than one value.
func Value(text, path string) (string, bool) {
	s, err := open(text, path)
	if err != nil {
		return "", false
	}
	switch v, _ := s.find(s.steps); v := v.(type) {
	case string:
		return v, true
	case int64, float64, bool:
		return fmt.Sprint(v), true
	}
	return "", false
}

// AddTable returns a text with a table at a path, [path] on a line of its own,
// the text as it is where the table is there in any form.
func AddTable(text, path string) (string, error) {
	s, err := open(text, path)
	if err != nil {
		return "", err
	}
	if v, ok := s.find(s.steps); ok {
		if _, ok := v.(map[string]any); !ok {
			return "", fmt.Errorf("%s is no table", path)
		}
		return text, nil
	}
	return s.grow("{}", func(a, rest []step) (int, []string) {
		pos := s.regionEnd(a)
		return pos, append(s.gap(pos), "["+keyText(s.steps)+"]")
	})
}

// Append returns a text with one more element, without keys, in the array of
// tables at a path, and the path of that element.
func Append(text, path string) (string, string, error) {
	s, err := open(text, path)
	if err != nil {
		return "", "", err
	}
	if len(s.steps) == 0 {
		return "", "", errNoKey
	}
	head := "[[" + keyText(s.steps) + "]]"
	have, ok := s.find(s.steps)
	n := 0
	var out string
	switch list := have.(type) {
	case []map[string]any:
		n = len(list)
		pos := s.regionEnd(s.element(n - 1))
		out, err = s.insert(pos, append(s.gap(pos), head))
	case []any:
		at, _ := s.value(s.steps)
		all := items(text, at)
		n = len(all)
		for _, v := range list {
			if _, ok := v.(map[string]any); !ok {
				return "", "", fmt.Errorf("%s is no array of tables", path)
			}
		}
		out, err = s.item(at, "{}")
	default:
		if ok {
			return "", "", fmt.Errorf("%s is no array of tables", path)
		}
		out, err = s.grow("[{}]", func(a, rest []step) (int, []string) {
			pos := s.regionEnd(a)
			return pos, append(s.gap(pos), head)
		})
	}
	return out, pathOf(s.element(n)), err
}

// Remove returns a text without the key, table or element at a path, the text as
// it is where there is none. Comments above it stay.
func Remove(text, path string) (string, error) {
	s, err := open(text, path)
	if err != nil {
		return "", err
	}
	if _, ok := s.find(s.steps); !ok {
		return text, nil
	}
	if len(s.steps) == 0 {
		return "", errNoKey
	}
	path = pathOf(s.steps)
	var cut, gone []span
	list, inList := s.value(s.steps[:len(s.steps)-1])
	if at, ok := s.value(s.steps); ok && inList {
		gone = append(gone, at)
	}
	for i, p := range s.places {
		switch {
		case !within(p.path, path) || within(p.in, path):
		case p.heads():
			cut = append(cut, s.section(i))
		case p.in == "" || s.head(s.parse(p.in)) >= 0:
			cut = append(cut, span{s.lineStart(p.key.from), s.lineEnd(p.value.to)})
		default: // in braces, of which there is one pair around it at most
			list, _ = s.value(s.parse(p.in))
			gone = append(gone, p.value)
		}
	}
	if gone != nil {
		cut = s.without(list, gone)
	}
	out := text
	for _, c := range slices.Backward(cut) {
		out = out[:c.from] + out[c.to:]
	}
	return s.checked(out)
}

var errNoKey = errors.New("no key given")

// literal returns what a text is as a TOML value.
func literal(value string) (any, error) {
	const key = "v="
	values, places, err := Decode("", key+value)
	if err != nil || len(values) != 1 || places[0].value != (span{len(key), len(key) + len(value)}) {
		return nil, fmt.Errorf("%.40q is not one TOML value", value)
	}
	return values["v"], nil
}

// source is a text to be edited at a path.
type source struct {
	text   string
	start  int // behind a byte order mark
	values map[string]any
	places Places
	steps  []step
}

func open(text, path string) (*source, error) {
	values, places, err := Decode("", text)
	if err != nil {
		return nil, err
	}
	s := &source{text: text, values: values, places: places}
	if strings.HasPrefix(text, byteOrderMark) {
		s.start = len(byteOrderMark)
	}
	var ok bool
	if s.steps, ok = steps(path); !ok {
		return nil, fmt.Errorf("%.40q is no path of a key", path)
	}
	return s, nil
}

// parse returns the steps of a path of our own.
func (s *source) parse(path string) []step {
	all, ok := steps(path)
	if !ok {
		panic("keyed: no path: " + path)
	}
	return all
}

// checked returns an edited text, or what makes it none: a value that may not
// stand where it was put, or one of the reader's own bounds.
func (s *source) checked(out string) (string, error) {
	if _, _, err := Decode("", out); err != nil {
		return "", err
	}
	return out, nil
}

func (s *source) splice(at span, by string) (string, error) {
	return s.checked(s.text[:at.from] + by + s.text[at.to:])
}

// find returns what the file holds at a path.
func (s *source) find(path []step) (any, bool) {
	var v any = s.values
	for _, p := range path {
		switch in := v.(type) {
		case map[string]any:
			var ok bool
			if v, ok = in[p.name]; p.index >= 0 || !ok {
				return nil, false
			}
		case []map[string]any:
			if p.index < 0 || p.index >= len(in) {
				return nil, false
			}
			v = in[p.index]
		case []any:
			if p.index < 0 || p.index >= len(in) {
				return nil, false
			}
			v = in[p.index]
		default:
			return nil, false
		}
	}
	return v, true
}

// value returns the bytes of what is written as one value: behind a key, or as an
// element of such a one.
func (s *source) value(path []step) (span, bool) {
	if len(path) == 0 {
		return span{}, false
	}
	last := path[len(path)-1]
	if last.index < 0 {
		name := pathOf(path)
		i := slices.IndexFunc(s.places, func(p place) bool { return p.path == name && !p.heads() })
		if i < 0 {
			return span{}, false
		}
		return s.places[i].value, true
	}
	array, ok := s.value(path[:len(path)-1])
	if !ok || s.text[array.from] != '[' {
		return span{}, false
	}
	all := items(s.text, array)
	if last.index >= len(all) {
		return span{}, false
	}
	return all[last.index], true
}

// head returns the number of the place that is the head of a table or element,
// -1 for none; so it is of the top level.
func (s *source) head(path []step) int {
	name := pathOf(path)
	return slices.IndexFunc(s.places, func(p place) bool { return p.path == name && p.heads() })
}

// element returns the path of an element of what is edited.
func (s *source) element(n int) []step { return append(slices.Clone(s.steps), step{index: n}) }

// grow adds what is missing of the path that is edited. Where its nearest table is
// in braces, or made of dotted keys, the rest of the key joins it with a value;
// otherwise lines says which lines go where, for that table and the rest.
func (s *source) grow(value string, lines func(a, rest []step) (int, []string)) (string, error) {
	n := len(s.steps) - 1
	for ; n > 0; n-- {
		if _, ok := s.find(s.steps[:n]); ok {
			break
		}
	}
	a, rest := s.steps[:n], s.steps[n:]
	for i, p := range rest {
		if p.index >= 0 {
			return "", fmt.Errorf("%s is no element that is there", pathOf(s.steps[:n+i+1]))
		}
	}
	have, _ := s.find(a)
	if _, ok := have.(map[string]any); !ok {
		return "", fmt.Errorf("%s is no table", pathOf(a))
	}
	if at, ok := s.value(a); ok {
		return s.item(at, keyText(rest)+" = "+value)
	}
	if s.head(a) < 0 {
		path := pathOf(a)
		for _, p := range slices.Backward(s.places) {
			if p.heads() || !within(p.path, path) || within(p.in, path) {
				continue
			}
			in := s.parse(p.in)
			pair := keyText(s.steps[len(in):]) + " = " + value
			if at, ok := s.value(in); ok {
				return s.item(at, pair)
			}
			line := s.lineStart(p.key.from)
			return s.insert(s.lineEnd(p.value.to), []string{s.text[line:p.key.from] + pair})
		}
	}
	pos, add := lines(a, rest)
	return s.insert(pos, add)
}

// item adds an item at the end of an array or inline table.
func (s *source) item(at span, item string) (string, error) {
	pos := at.from + 1
	if all := items(s.text, at); len(all) > 0 {
		pos, item = all[len(all)-1].to, ", "+item
	}
	return s.splice(span{pos, pos}, item)
}

// without returns what is to be cut of a list in brackets so that items, each of
// which ends with one of the values, are gone with a comma each.
func (s *source) without(list span, values []span) []span {
	all := items(s.text, list)
	gone := make([]bool, len(all))
	kept := -1
	for i, at := range all {
		if gone[i] = slices.ContainsFunc(values, func(v span) bool { return v.to == at.to }); !gone[i] {
			kept = i
		}
	}
	_, closed := s.comma(all[len(all)-1].to, list.to)
	var cut []span
	for i, at := range all {
		if !gone[i] {
			continue
		}
		after := i
		if i > kept && !closed {
			after-- // no comma may be left at the end
		}
		var comma span
		if after >= 0 {
			comma, _ = s.comma(all[after].to, list.to)
		}
		if after < i {
			cut = append(cut, comma, at)
		} else {
			cut = append(cut, at, comma)
		}
	}
	return cut
}

// comma returns the comma that follows a value in a list that ends at a byte, with
// the blanks behind it.
func (s *source) comma(pos, end int) (span, bool) {
	for i := pos; i < end; i++ {
		switch s.text[i] {
		case '#':
			i += strings.IndexByte(s.text[i:], '\n')
		case ',':
			rest := s.text[i+1:]
			return span{i, len(s.text) - len(strings.TrimLeft(rest, " \t"))}, true
		}
	}
	return span{}, false
}

// insert adds lines where a line starts, or at the end.
func (s *source) insert(pos int, lines []string) (string, error) {
	end := "\n"
	if i := strings.LastIndexByte(s.text[:pos], '\n'); i > 0 && s.text[i-1] == '\r' || i < 0 && strings.Contains(s.text, "\r\n") {
		end = "\r\n"
	}
	text := strings.Join(lines, end) + end
	if pos > s.start && s.text[pos-1] != '\n' {
		text = end + text
	}
	return s.splice(span{pos, pos}, text)
}

// gap returns an empty line to stand before the head of a table, or none where
// there is one or nothing above.
func (s *source) gap(pos int) []string {
	above := s.text[s.start:pos]
	if above == "" || strings.HasSuffix(above, "\n\n") || strings.HasSuffix(above, "\r\n\r\n") || above == "\n" || above == "\r\n" {
		return nil
	}
	return []string{""}
}

func (s *source) lineStart(pos int) int {
	return max(strings.LastIndexByte(s.text[:pos], '\n')+1, s.start)
}

func (s *source) lineEnd(pos int) int {
	if n := strings.IndexByte(s.text[pos:], '\n'); n >= 0 {
		return pos + n + 1
	}
	return len(s.text)
}

// lastPair returns the number of the last pair in the lines below a head, or in
// those before the first with -1; without one it returns the head.
func (s *source) lastPair(head int) int {
	last, path := head, ""
	if head >= 0 {
		path = s.places[head].path
	}
	for i := head + 1; i < len(s.places) && !s.places[i].heads(); i++ {
		if s.places[i].in == path {
			last = i
		}
	}
	return last
}

// sectionEnd returns where the lines below a head end: behind that of its last
// pair, as blank lines and comments there may belong to the next table. Those of
// the top level without a pair end behind a comment about the whole file.
func (s *source) sectionEnd(head int) int {
	if last := s.lastPair(head); last >= 0 {
		p := s.places[last]
		return s.lineEnd(max(p.key.to, p.value.to))
	}
	pos := s.start
	for strings.HasPrefix(s.text[pos:], "#") {
		pos = s.lineEnd(pos)
	}
	if rest := s.text[pos:]; rest == "" || rest[0] == '\n' || strings.HasPrefix(rest, "\r\n") {
		return pos
	}
	return s.start // the comment belongs to what follows
}

// regionEnd returns where a table ends with all tables below it, the end of the
// text for the top level.
func (s *source) regionEnd(table []step) int {
	if len(table) == 0 {
		return len(s.text)
	}
	path, last := pathOf(table), -1
	for i, p := range s.places {
		if p.heads() && within(p.path, path) {
			last = i
		}
	}
	return s.sectionEnd(last)
}

// section returns the lines of a head and below, with the empty line that would
// be left double.
func (s *source) section(head int) span {
	c := span{s.lineStart(s.places[head].key.from), s.sectionEnd(head)}
	if next := s.lineEnd(c.to); s.gap(c.from) == nil && strings.TrimSpace(s.text[c.to:next]) == "" {
		c.to = next
	}
	return c
}

// indent returns the blanks before the last pair below a head.
func (s *source) indent(head int) string {
	last := s.lastPair(head)
	if last == head {
		return ""
	}
	from := s.places[last].key.from
	return s.text[s.lineStart(from):from]
}

// step is a key's name, or the number of an element.
type step struct {
	name  string
	index int // -1: a name
}

// steps returns the parts of a path; false says that it is none.
func steps(path string) ([]step, bool) {
	var all []step
	for rest := path; rest != ""; {
		if rest[0] == '[' {
			number, after, ok := strings.Cut(rest[1:], "]")
			n, err := strconv.Atoi(number)
			if !ok || err != nil || n < 0 || len(all) == 0 {
				return nil, false
			}
			all, rest = append(all, step{index: n}), after
			continue
		}
		if len(all) > 0 {
			if rest[0] != '.' {
				return nil, false
			}
			rest = rest[1:]
		}
		key := rest[:len(rest)-len(strings.TrimLeftFunc(rest, func(r rune) bool { return r < 128 && isBare(byte(r)) }))]
		if rest != "" && (rest[0] == '"' || rest[0] == '\'') {
			end := strings.IndexByte(rest[1:], rest[0])
			for rest[0] == '"' && end > 0 && escaped(rest[1:end+1]) {
				next := strings.IndexByte(rest[end+2:], '"')
				if next < 0 {
					return nil, false
				}
				end += next + 1
			}
			if end < 0 {
				return nil, false
			}
			key = rest[:end+2]
		}
		values, _, err := Decode("", key+"=0")
		if err != nil || len(values) != 1 {
			return nil, false
		}
		for name := range values {
			all = append(all, step{name, -1})
		}
		rest = rest[len(key):]
	}
	return all, true
}

// escaped reports whether a quote behind s would be the text's own.
func escaped(s string) bool {
	return (len(s)-len(strings.TrimRight(s, `\`)))%2 == 1
}

// pathOf returns a path as places have it.
func pathOf(path []step) string {
	out := ""
	for _, p := range path {
		if p.index >= 0 {
			out += "[" + strconv.Itoa(p.index) + "]"
		} else {
			out = join(out, shown([]string{p.name})[0])
		}
	}
	return out
}

// keyText returns the names of a path as a dotted key of the file.
func keyText(path []step) string {
	var names []string
	for _, p := range path {
		if p.index < 0 {
			names = append(names, p.name)
		}
	}
	return strings.Join(shown(names), ".")
}

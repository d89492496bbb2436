package keyed

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// broken records the parser's error, in our own words where a user can be
// helped with more than the rule.
func (d *decoder) broken(root, at *branch) {
	var fault *unstable.ParserError
	if !errors.As(d.Error(), &fault) {
		panic(fmt.Sprintf("keyed: an error that is not the parser's: %v", d.Error()))
	}
	pos := d.start + int(d.Range(fault.Highlight).Offset)
	line := d.lineAt(pos)
	begin := d.next()
	first := d.lineAt(begin)

	head := strings.HasPrefix(d.text[begin:], "[")
	says := func(parts ...string) bool {
		for _, p := range parts {
			if strings.Contains(fault.Message, p) {
				return true
			}
		}
		return false
	}
	like, path := `"3 mm"`, ""
	if root.values["units"] == "in" {
		like = `"1/8 in"`
	}
	if !head {
		path = d.keyOf(at, begin)
	}
	word := firstWord(d.text[pos:])
	var text string
	switch {
	case says("nested more than"):
		d.tooDeep(line)
		return
	case says("expected newline") && head:
		text = "the line goes on behind the table's name; each key has a line of its own"
	case says("expected newline") && (word[0] == '"' || word[0] == '\''):
		text = "a quote follows the text; write inches as in, or put a text with an inch mark in single quotes"
	case says("expected newline", "strings must be quoted"):
		text = "the line goes on where it should end; a value with a unit stands in quotes, like " + like
	case says("expected value", "at start of value") && (word == "" || word == "," || says("input")):
		text = "the value is missing"
	case says("at start of value", "expected keyword", `expected "`, "expected digit") && strings.ContainsAny(word, "“”„‟‘’«»"):
		text = "a text stands in straight quotes, like " + like
	case says("at start of value", "expected keyword", `expected "`, "expected digit"):
		text = fmt.Sprintf("expected a value but found %.40q; a text stands in quotes", word)
	case says("expected '=' after key"):
		text = "a key is followed by = and its value"
	case says("start of key", "expected key"):
		text = "a line is a key with = and a value, a [table] or a # comment"
	case says("to close"):
		text = "the table's name is not closed; write it like [bend] or [[trial]]"
	case says("cannot have new lines", "unterminated", "not terminated"):
		text = "the closing quote is missing"
		line = first
	case says("is incomplete"):
		text = "the closing bracket is missing"
		line = first
	case says("expected ','"):
		text = "a comma or the closing bracket is missing"
	default:
		text = fault.Message
	}
	if line > first {
		text += fmt.Sprintf("; the value starts in line %d", first)
	}
	d.fail(line, path, "not valid TOML: %s", text)
}

// next returns where the first expression behind the last good one starts.
func (d *decoder) next() int {
	pos := max(d.end, d.start)
	if pos > d.start {
		pos += strings.IndexByte(d.text[pos:], '\n') + 1
	}
	for {
		rest := strings.TrimLeft(d.text[pos:], " \t\r\n")
		pos = len(d.text) - len(rest)
		n := strings.IndexByte(rest, '\n')
		if !strings.HasPrefix(rest, "#") || n < 0 {
			return pos
		}
		pos += n
	}
}

// keyOf returns the path of the key that starts at a byte, "" where none does.
func (d *decoder) keyOf(b *branch, pos int) string {
	line, _, _ := strings.Cut(d.text[pos:], "\n")
	key, _, ok := strings.Cut(line, "=")
	if !ok {
		return ""
	}
	var p unstable.Parser
	p.Reset([]byte(key + "=0"))
	if !p.NextExpression() {
		return ""
	}
	var parts []string
	for it := p.Expression().Key(); it.Next(); {
		parts = append(parts, string(it.Node().Data))
	}
	return join(b.path, strings.Join(shown(parts), "."))
}

// firstWord returns what stands before the first blank or mark of the grammar,
// or the mark itself.
func firstWord(s string) string {
	n := strings.IndexAny(s, " \t\r\n,]}#")
	switch {
	case n < 0:
		return s
	case n == 0 && s[0] > ' ' && s[0] != '#':
		_, n = utf8.DecodeRuneInString(s)
	}
	return s[:n]
}

package keyed

import (
	"fmt"
	"strings"
	"unicode"
)

// Quote returns a text as a TOML value, in double quotes.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r == '\r':
			b.WriteString(`\r`)
		case unicode.IsPrint(r):
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			fmt.Fprintf(&b, `\U%08x`, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// items returns what stands between the commas of an array or inline table, whose
// bytes with both brackets s is.
func items(text string, s span) []span {
	var all []span
	var at span // of the item so far; empty before its first byte
	mark := func(from, to int) {
		if at.to == 0 {
			at.from = from
		}
		at.to = to
	}
	depth := 0
	for i := s.from; i < s.to; {
		n := 1
		switch c := text[i]; c {
		case '"', '\'':
			n = quoted(text[i:])
			mark(i, i+n)
		case '#':
			n = strings.IndexByte(text[i:], '\n')
		case '[', '{':
			if depth > 0 {
				mark(i, i+1)
			}
			depth++
		case ']', '}':
			if depth--; depth > 0 {
				mark(i, i+1)
			}
		case ' ', '\t', '\r', '\n':
		case ',':
			if depth == 1 {
				all, at = append(all, at), span{}
				break
			}
			mark(i, i+1)
		default:
			mark(i, i+1)
		}
		i += n
	}
	if at.to > 0 {
		all = append(all, at)
	}
	return all
}

// quoted returns the length of the text in quotes that s starts with.
func quoted(s string) int {
	mark := s[:1]
	if long := strings.Repeat(mark, 3); strings.HasPrefix(s, long) {
		mark = long
	}
	i := len(mark)
	for !strings.HasPrefix(s[i:], mark) {
		if s[i] == '\\' && mark[0] == '"' {
			i++
		}
		i++
	}
	i += len(mark)
	for len(mark) == 3 && i < len(s) && s[i] == mark[0] { // up to two more are the text's own
		i++
	}
	return i
}

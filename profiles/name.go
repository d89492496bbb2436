package profiles

import (
	"strings"
	"unicode"
)

// squash returns a name as it is compared: letters and digits only, in lower
// case, so that "6061 t6", "6061-T6" and "6061T6" are one name.
func squash(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, name)
}

// named reports whether the squashed form of a table's ASCII name is key. It
// allocates nothing, because a look-up asks it of every row.
func named(name, key string) bool {
	j := 0
	for i := range len(name) {
		c := name[i]
		switch {
		case c >= 'A' && c <= 'Z':
			c += 'a' - 'A'
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
		default:
			continue
		}
		if j == len(key) || key[j] != c {
			return false
		}
		j++
	}
	return j == len(key)
}

// shorten cuts a name that a file gave to at most n runes, so that an error
// stays one readable line.
func shorten(s string, n int) string {
	for i := range s {
		if n == 0 {
			return s[:i] + "..."
		}
		n--
	}
	return s
}

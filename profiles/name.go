package profiles

import (
	"strings"
	"unicode"

	"github.com/hbollon/go-edlib"
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

// nearest returns the known names closest to a name that is not among them,
// at most 4, in the order known. Names that go on where the given one stops
// ("6082" for "6082-T6") come before names at the least edit distance, in which
// a swap of neighbours counts once.
func nearest(name string, known []string) []string {
	const most = 4
	key := shorten(squash(name), 40)
	var found []string
	if len(key) >= 3 {
		for _, k := range known {
			if strings.HasPrefix(squash(k), key) && len(found) < most {
				found = append(found, k)
			}
		}
	}
	if len(found) > 0 {
		return found
	}
	least := -1
	for _, k := range known {
		switch d := edlib.OSADamerauLevenshteinDistance(key, squash(k)); {
		case least < 0 || d < least:
			least, found = d, []string{k}
		case d == least && len(found) < most:
			found = append(found, k)
		}
	}
	return found
}

// list writes names as a sentence does: "a, b or c".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
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

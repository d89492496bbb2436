package profiles

import (
	_ "embed"
	"slices"
	"strings"
	"unicode"

	"github.com/hbollon/go-edlib"
)

//go:embed hints.csv
var hintsCSV string

// mostHints is how many names a hint gives at most.
const mostHints = 4

// near returns the known names that may be meant by one that is not among them,
// in the order known: what it begins, what it contains, a slip of the pen, the
// same alloy number. It is empty where nothing is near: a name of another metal
// is worse than none.
func near(name string, known []string) []string {
	key := shorten(squash(name), 40)
	for _, rule := range [...]func(string, string) int{begins, holds, slips} {
		// Of names that a rule finds, those of the least score are the nearest.
		least, found := 0, []string(nil)
		for _, k := range known {
			score := rule(key, squash(k))
			switch {
			case score == 0 || found != nil && score > least:
			case found == nil || score < least:
				least, found = score, []string{k}
			case len(found) < mostHints && !slices.Contains(found, k):
				found = append(found, k)
			}
		}
		if found != nil {
			return found
		}
	}
	var found []string
	for _, w := range wordsOf(name) {
		number := digits(w)
		for _, k := range known {
			if len(number) >= 3 && leading(squash(k)) == number && len(found) < mostHints {
				found = append(found, k)
			}
		}
	}
	return found
}

// begins scores names that go on where the given one stops: "6082".
func begins(key, known string) int {
	if len(key) >= 3 && strings.HasPrefix(known, key) {
		return 1
	}
	return 0
}

// holds scores names that the given one contains, the longest best: "S355J2H".
// Shorter than 4 letters they would be found by chance.
func holds(key, known string) int {
	if len(known) >= 4 && strings.Contains(key, known) {
		return 100 - len(known)
	}
	return 0
}

// slips scores names that one slip makes of the given one, or two of a long
// one: "6802-T6". More lead to other alloys: 7075 is no 7020.
func slips(key, known string) int {
	most := 1
	if len(key) >= 8 {
		most = 2
	}
	if d := edlib.OSADamerauLevenshteinDistance(key, known); len(key) >= 3 && d <= most {
		return d
	}
	return 0
}

// wordsOf returns a name's runs of letters and digits, in lower case.
func wordsOf(name string) []string {
	return strings.FieldsFunc(strings.ToLower(shorten(name, 40)), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
}

// digits returns the first run of digits of a word: "304" of "ss304l".
func digits(word string) string {
	return leading(strings.TrimLeftFunc(word, func(r rune) bool { return !isDigit(r) }))
}

// leading returns the digits that a word begins with.
func leading(word string) string {
	if end := strings.IndexFunc(word, func(r rune) bool { return !isDigit(r) }); end >= 0 {
		return word[:end]
	}
	return word
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// family returns the rows of what a metal is called in the trade, "mild steel",
// by the first line of the table that applies: a word of up to 4 letters is one
// of the name's words, a longer one stands anywhere in it.
func family(name string) []string {
	key, words := squash(name), wordsOf(name)
	for line := range lines(hintsCSV) {
		r := read("hints.csv", line)
		word, names := r.text(), r.text()
		r.text() // the source
		r.end()
		if slices.Contains(words, word) || len(word) > 4 && strings.Contains(key, word) {
			return strings.Split(names, "; ")
		}
	}
	return nil
}

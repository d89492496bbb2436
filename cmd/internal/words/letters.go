package words

import (
	"fmt"
	"strings"
	"unicode"

	"overbend/export/lettering"
)

// mostLetters is how many letters are listed; a name in another script would be
// listed from end to end.
const mostLetters = 6

// Lacks returns what is to be said of letters that can't be lettered (see
// [lettering.Lacking]), and where they stand: keys of the job file, or a file.
func Lacks(letters []rune, where ...string) Reason {
	list := func(show func(rune) string) string {
		var out []string
		for _, r := range letters {
			if len(out) == mostLetters {
				out = append(out, fmt.Sprintf("%d more", len(letters)-mostLetters))
				break
			}
			out = append(out, show(r))
		}
		return and(out)
	}
	return Reason{LettersLacking, Figures{
		"where": and(where), "sign": string(lettering.Sign),
		"letters": list(func(r rune) string {
			if unicode.Is(unicode.M, r) {
				return fmt.Sprintf("\u25cc%c (%U)", r, r) // an accent needs a letter under it
			}
			return fmt.Sprintf("%c (%[1]U)", r)
		}),
		"codes": list(func(r rune) string { return fmt.Sprintf("%U", r) }),
	}}
}

// and returns "a", "a and b" or "a, b and c".
func and(of []string) string {
	n := len(of) - 1
	if n == 0 {
		return of[0]
	}
	return strings.Join(of[:n], ", ") + " and " + of[n]
}

package plan

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/words"
	"overbend/export/lettering"
)

// mostLetters is how many letters a warning lists; a name in another script would
// be listed from end to end.
const mostLetters = 6

// letters warns of letters that stand in what is drawn and can't be lettered, with
// the keys that they stand under: those of the job's own texts, and what advice
// that has been given is about.
func letters(j job.Job, given []words.Advice) []words.Advice {
	var keys []string
	var lacking []rune
	look := func(key, text string) {
		for _, r := range lettering.Lacking(text) {
			if !slices.Contains(keys, key) {
				keys = append(keys, key)
			}
			if !slices.Contains(lacking, r) {
				lacking = append(lacking, r)
			}
		}
	}
	d := j.Drawing
	for _, t := range [...][2]string{
		{"name", j.Name}, {"tube.material", j.Material.Name},
		{"drawing.owner", d.Owner}, {"drawing.number", d.Number}, {"drawing.revision", d.Revision},
		{"drawing.drawn", d.Drawn}, {"drawing.approved", d.Approved},
	} {
		look(t[0], t[1])
	}
	for _, a := range given {
		for _, name := range slices.Sorted(maps.Keys(a.Figures)) {
			if s, ok := a.Figures[name].(string); ok {
				look(a.About, s)
			}
		}
	}
	if len(keys) == 0 {
		return nil
	}
	return []words.Advice{say(words.Warning, words.Design, keys[0], words.LettersLacking, words.Figures{
		"keys": listed(keys), "sign": string(lettering.Sign),
		"letters": some(lacking, func(r rune) string {
			if unicode.Is(unicode.M, r) {
				return fmt.Sprintf("\u25cc%c (%U)", r, r) // an accent needs a letter under it
			}
			return fmt.Sprintf("%c (%[1]U)", r)
		}),
		"codes": some(lacking, func(r rune) string { return fmt.Sprintf("%U", r) }),
	})}
}

// some lists letters, all of a few.
func some(letters []rune, show func(rune) string) string {
	var out []string
	for _, r := range letters {
		if len(out) == mostLetters && len(letters) > mostLetters {
			return strings.Join(out, ", ") + fmt.Sprintf(" and %d more", len(letters)-mostLetters)
		}
		out = append(out, show(r))
	}
	return listed(out)
}

// listed returns "a, b and c".
func listed(of []string) string {
	n := len(of) - 1
	if n == 0 {
		return of[0]
	}
	return strings.Join(of[:n], ", ") + " and " + of[n]
}

package plan

import (
	"maps"
	"slices"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/words"
	"overbend/export/lettering"
)

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
	return []words.Advice{{Level: words.Warning, Step: words.Design, About: keys[0], Reason: words.Lacks(lacking, keys...)}}
}

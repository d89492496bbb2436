package job

import (
	_ "embed"
	"fmt"
	"strings"

	"overbend/cmd/internal/quantity"
)

// starter is the job file to start from in both systems: what differs stands as
// <metric|inches>.
//
//go:embed starter.toml
var starter string

// noteColumn is where the starter's comments start.
const noteColumn = 31

// Starter returns a job file to start from in a system, with a comment for every
// key. It parses as it stands.
func Starter(u quantity.Units) string {
	var b strings.Builder
	for line := range strings.Lines(starter) {
		var own strings.Builder
		rest, chosen := line, false
		for {
			before, after, found := strings.Cut(rest, "<")
			own.WriteString(before)
			if !found {
				break
			}
			choice, behind, _ := strings.Cut(after, ">")
			mm, in, _ := strings.Cut(choice, "|")
			if u == quantity.Inches {
				mm = in
			}
			own.WriteString(mm)
			rest, chosen = behind, true
		}
		// Choices differ in length, and comments stand in a column.
		if value, note, found := strings.Cut(own.String()[1:], " #"); chosen && found {
			value = strings.TrimRight(own.String()[:1+len(value)], " ")
			fmt.Fprintf(&b, "%-*s #%s", noteColumn-1, value, note)
			continue
		}
		b.WriteString(own.String())
	}
	return b.String()
}

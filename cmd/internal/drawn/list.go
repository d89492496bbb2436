package drawn

import (
	"fmt"
	"strings"

	"overbend/cmd/internal/quantity"
)

// List returns the candidates, a line each: number, layer, radius, angle, legs,
// depth and where the middle of the arc lies, in the drawing's own coordinates.
func (f Found) List(u quantity.Units) string {
	var b strings.Builder
	for i, c := range f.Candidates {
		fmt.Fprintf(&b, "bend %d  %s\n", i+1, f.Describe(c, u))
	}
	return quantity.Plain(b.String())
}

// Describe returns one candidate in a line.
func (f Found) Describe(c Candidate, u quantity.Units) string {
	words := []string{
		"layer " + printable(c.Layer),
		"R " + u.Length(c.Bend.Radius) + ", " + u.Angle(c.Bend.Angle),
		"legs " + u.Figure(quantity.Length.Of(c.Legs[0])) + " and " + u.Length(c.Legs[1]),
	}
	if c.Kind == Edges {
		words = append(words, "two edges "+u.Length(c.Depth)+" apart")
	} else {
		words = append(words, "one line")
	}
	if c.Wall > 0 {
		words = append(words, "wall "+u.Length(c.Wall))
	}
	if c.Of > 1 {
		words = append(words, fmt.Sprintf("%d of %d in its line", c.Nth, c.Of))
	}
	words = append(words, "at "+place(c.Crown(), f.Unit))
	return strings.Join(words, "; ")
}

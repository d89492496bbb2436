package drawn

import (
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/chain"
	"overbend/geom/tooling"
)

// Kind is as what a bend is drawn.
type Kind uint8

// The kinds.
const (
	Centreline Kind = iota // one line
	Edges                  // two, that run parallel
)

// Candidate is a bend of a tube as the drawing has it: what [bend] of a job file
// holds, in mm, with the outside of the bend up.
type Candidate struct {
	Kind  Kind
	Layer string
	Bend  geom.Bend // of the centreline
	Legs  [2]float64
	Cuts  [2]geom.Angle // from square, positive where the outside is longer
	Depth float64       // 0: not drawn
	Wall  float64       // 0: not drawn
	// Nth is which bend of its line it is, Of how many that has.
	Nth, Of int
	// Where it lies in the drawing: the arc's centre, both tangent points and the
	// directions out along the legs.
	Centre geom.Point
	Start  [2]geom.Point
	Out    [2]geom.Point
	From   Origins
	// Notes say what was mended, and what the drawing leaves open.
	Notes []words.Reason

	lines []chain.Bend // that it was measured on
}

// Origins say where each number comes from.
type Origins struct {
	Radius, Angle, Depth, Wall words.Reason
	Legs, Cuts                 [2]words.Reason
}

func (c *Candidate) say(to *words.Reason, code words.Code, f words.Figures) {
	*to = words.Reason{Code: code, Figures: f}
}

// add adds a note, once.
func (c *Candidate) add(code words.Code, f words.Figures) {
	r := words.Reason{Code: code, Figures: f}
	for _, n := range c.Notes {
		if n.Code == code && n.Say(0) == r.Say(0) {
			return
		}
	}
	c.Notes = append(c.Notes, r)
}

// Crown returns the middle of the arc.
func (c Candidate) Crown() geom.Point {
	mid := c.Start[0].Lerp(c.Start[1], 0.5).Sub(c.Centre)
	if mid.Norm() < geom.Coincident { // half a turn
		mid = c.Out[0].Mul(-1)
	}
	return c.Centre.Add(mid.Unit().Mul(c.Bend.Radius))
}

// place returns the map from the frame of package tooling, the arc's centre at the
// origin and the crown on top, to the drawing.
func (c Candidate) place() geom.Transform {
	up := c.Crown().Sub(c.Centre).Direction()
	return geom.Rotate(up - 90*geom.Degree).Then(geom.Translate(c.Centre))
}

// Line returns the centreline in the drawing's place, end to end.
func (c Candidate) Line() geom.Path {
	return tooling.Centreline(c.Bend.Radius, c.Bend.Angle, c.Legs).Apply(c.place())
}

// Outline returns the tube's outline in the drawing's place; false where the
// drawing does not show its depth.
func (c Candidate) Outline() (geom.Path, bool) {
	if c.Kind != Edges {
		return geom.Path{}, false
	}
	return tooling.TubeOutline(c.Bend.Radius, c.Depth, c.Bend.Angle, c.Legs, c.Cuts).Apply(c.place()), true
}

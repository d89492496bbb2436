package plan

import (
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/profiles"
)

// TubeSize returns the tube's size in words: "40 x 40 x 3 mm", "dia 30 x 2 mm".
func (p *Plan) TubeSize(u quantity.Units) string {
	t := p.Job.Tube
	first := strings.TrimSuffix(u.Length(t.Width), " "+u.String())
	if t.Shape == profiles.Round {
		return "dia " + first + " x " + u.Length(t.Wall)
	}
	return first + " x " + u.Size(t.Depth, t.Wall)
}

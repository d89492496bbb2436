package plan

import (
	"fmt"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/geom/bend"
	"overbend/profiles"
)

// TubeSize returns the tube's size in words: "40 x 40 x 3 mm", "dia 30 x 2 mm".
func (p *Plan) TubeSize(u quantity.Units) string {
	t := p.Job.Tube
	first := quantity.Bare(u.Length(t.Width))
	if t.Shape == profiles.Round {
		return "dia " + first + " x " + u.Length(t.Wall)
	}
	return first + " x " + u.Size(t.Depth, t.Wall)
}

// trials returns how many trials the job has: "1 trial", "2 trials".
func (p *Plan) trials() string {
	if n := len(p.Job.Trials); n != 1 {
		return fmt.Sprintf("%d trials", n)
	}
	return "1 trial"
}

// why returns the reason that the press model gives for an error, without the
// words that only name the equation.
func why(err error) string {
	s := strings.ReplaceAll(err.Error(), bend.ErrNoSolution.Error()+": ", "")
	s = strings.Replace(s, "angle after melt-out: ", "", 1)
	return strings.Replace(s, "before it is reached", "before it has the angle", 1)
}

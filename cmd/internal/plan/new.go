package plan

import (
	"errors"

	"overbend/cmd/internal/job"
)

// New works a job out. An error is the job file's fault, or a bug; a job that
// can be worked out but not made comes back with advice that says [Stop].
func New(j job.Job) (*Plan, error) {
	p := &Plan{Job: j, Metal: metalOf(j), Strip: stripOf(j)}
	p.StripLaw = j.Strip.Material.Curve(j.Strip.Material.Spread().Nominal, 0)
	if err := p.learn(); err != nil {
		return nil, err
	}
	if err := p.overbends(); err != nil {
		return nil, err
	}
	if err := p.section(); err != nil {
		return nil, err
	}
	p.adviseTube()
	if err := p.press(); err != nil {
		return nil, err
	}
	p.advisePress()
	if err := p.existing(); err != nil {
		return nil, err
	}
	p.adviseExisting()
	p.adviseFiller()
	if err := p.tools(); err != nil && !errors.Is(err, errStopped) {
		return nil, err
	}
	p.adviseSafety()
	return p, nil
}

package main

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/report"
)

type trialCommand struct{ units units }

func (*trialCommand) usage() string {
	return `Usage: overbend trial JOB.toml [--units mm|in]

Fits the metal's proof stress to the [[trial]] entries of a job file: what was
pressed and what was measured. Prints the fit, its error, every reading beside
the fit's, and block, wrap and travel for the next bend. From then on show and
make use the fit as long as the entries stand in the file.

Example:
  overbend trial davit.toml
`
}

func (c *trialCommand) flags(f *pflag.FlagSet) { c.units.flag(f) }

func (c *trialCommand) run(args []string, stdout, stderr io.Writer) error {
	path, err := oneFile(args, "trial", "the job file")
	if err != nil {
		return err
	}
	p, u, err := workOut(path, &c.units)
	if err != nil {
		return err
	}
	if len(p.Job.Trials) == 0 {
		return fmt.Errorf("%s: no [[trial]] entry; give at least one with block, travel or loaded, and what was measured", path)
	}
	if p.Metal.Trial != nil {
		if err := report.Fit(stdout, p, u); err != nil {
			return err
		}
	}
	if err := report.Alerts(stderr, p, u); err != nil {
		return err
	}
	if err := feasible(p, u); err != nil || p.Metal.Trial != nil {
		return err
	}
	return fmt.Errorf("%s: %w: the trials could not be used; see the warning", path, errCannot)
}

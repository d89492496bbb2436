package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
)

type trialCommand struct {
	units units
	shop  shopFile
	keep  string
	given func(flag string) bool
}

func (*trialCommand) usage() string {
	return `Usage: overbend trial JOB.toml [--keep NAME] [--units mm|in] [--shop FILE]

Fits the metal's proof stress to the [[trial]] entries of a job file: what was
pressed and what was measured. Prints the fit, its error, every reading beside
the fit's, and block, wrap and travel for the next bend. From then on show and
make use the fit as long as the entries stand in the file.

With --keep the fit goes into the shop file as well, as a metal of that name. A
job then says material = "NAME" under [tube], and lot = "same" where its tube is
that bar or came with it. Kept under one name from several jobs, fits of one bar
are joined; trials that count already do not count twice.

Examples:
  overbend trial davit.toml
  overbend trial davit.toml --keep bar-7
`
}

func (c *trialCommand) flags(f *pflag.FlagSet) {
	c.given = f.Changed
	f.StringVar(&c.keep, "keep", "", "keep the fitted metal in the shop file as `NAME`")
	c.units.flag(f)
	c.shop.flag(f)
}

func (c *trialCommand) run(args []string, stdout, stderr io.Writer) error {
	path, err := oneFile(args, "trial", "the job file")
	if err != nil {
		return err
	}
	if c.given("keep") {
		if err := shop.Free(c.keep); err != nil {
			return fmt.Errorf("--keep: %w", err)
		}
		if c.shop.place().Path == "" {
			return errors.New("--keep: there is no shop file to keep it in; name one with --shop FILE")
		}
	}
	s, err := c.shop.read()
	if err != nil {
		return err
	}
	p, u, err := workOut(path, &c.units, s, new(plan.Tables), stderr)
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
	err = feasible(p, u)
	switch {
	case err != nil:
		return err
	case p.Metal.Trial == nil:
	case c.keep == "":
		return nil
	default:
		return c.keepMetal(stdout, p, u)
	}
	return fmt.Errorf("%s: %w: the trials could not be used; see the warning", path, errCannot)
}

// keepMetal writes what the trials taught into the shop file.
func (c *trialCommand) keepMetal(stdout io.Writer, p *plan.Plan, u quantity.Units) error {
	j := p.Job
	base := j.Material.Name
	switch {
	case j.Inline:
		return j.Errorf("material", "a metal that the job itself gives can't be kept; name a listed one with tube.material")
	case j.Learned != nil:
		base = j.Learned.Base
	}
	file := c.shop.place().Path
	m, err := shop.Keep(file, shop.Kept{Name: c.keep, Base: base, Part: shop.Part{Job: j.Name, Lesson: p.Metal.Trial.Lesson(), Of: j.Digests()}})
	if err != nil {
		return err
	}
	show := func(mpa float64) string { return quantity.Plain(u.Show(quantity.Stress.Of(mpa))) }
	_, err = fmt.Fprintf(stdout, "\nkept as %s in %s: %s, give or take %s for its lot, from %s\n",
		m.Name, file, show(m.Proof), show(m.ProofError), words.Count(len(m.Trials), "job"))
	return err
}

package main

import (
	"errors"
	"io"
	"os"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/words"
)

type showCommand struct {
	units     units
	shop      shopFile
	all, json bool
}

func (*showCommand) usage() string {
	return `Usage: overbend show JOB.toml [--all | --json] [--units mm|in] [--shop FILE]

Works the job out and prints on one screen the ten numbers that a person acts on,
and what warns. With --all every number in the order of the work: overbend, what
to cut, blank, filler, press with its stops, what the bend does to the tube,
checks. Writes nothing. Warnings go to standard error too.

Examples:
  overbend show davit.toml
  overbend show davit.toml --all
  overbend show davit.toml --units in
  overbend show davit.toml --json > numbers.json
`
}

func (c *showCommand) flags(f *pflag.FlagSet) {
	f.BoolVar(&c.all, "all", false, "print every number, not the ten that a person acts on")
	f.BoolVar(&c.json, "json", false, "print JSON; the README documents its keys")
	c.units.flag(f)
	c.shop.flag(f)
}

func (c *showCommand) run(args []string, stdout, stderr io.Writer) error {
	path, err := oneFile(args, "show", "the job file")
	if err != nil {
		return err
	}
	if _, err := c.units.get(); err != nil {
		return err
	}
	if c.all && c.json {
		return errors.New("show: --all and --json both print every number; give one of them")
	}
	p, u, err := workOut(path, &c.units, &c.shop)
	if err != nil {
		return err
	}
	switch {
	case c.json:
		var text []byte
		if text, err = report.JSON(p, nil); err == nil {
			_, err = stdout.Write(text)
		}
	case c.all:
		err = report.Text(stdout, p, u)
	default:
		err = report.Page(stdout, p, u, path)
	}
	if err != nil {
		return err
	}
	if err := report.Alerts(stderr, p, u); err != nil {
		return err
	}
	return feasible(p, u)
}

// workOut reads a job file and works it out in the shop. The units are the flag's,
// or the job file's own.
func workOut(path string, flag *units, in *shopFile) (*plan.Plan, quantity.Units, error) {
	s, err := in.read()
	if err != nil {
		return nil, 0, err
	}
	j, err := job.ReadIn(s, path)
	if err != nil {
		return nil, 0, err
	}
	u, err := flag.or(j.Units())
	if err != nil {
		return nil, 0, err
	}
	if n := len(j.Trials); n > 0 && onTerminal(os.Stderr) { // a hundred that disagree take a second or two
		defer waiting(os.Stderr, "fitting the metal to "+words.Count(n, "trial"), 300*time.Millisecond)()
	}
	p, err := plan.New(j)
	if err != nil {
		return nil, 0, err
	}
	return p, u, nil
}

// cannot is an [errCannot] that begins with the place of what stops the job.
type cannot struct{ text string }

func (c *cannot) Error() string        { return c.text }
func (c *cannot) Is(target error) bool { return target == errCannot }

// feasible returns an error that names everything that stops the job.
func feasible(p *plan.Plan, u quantity.Units) error {
	if p.Feasible() {
		return nil
	}
	var why []string
	for _, a := range p.Advice {
		if a.Level == words.Stop {
			why = append(why, p.Job.At(a.About)+": "+quantity.Plain(a.Say(u)))
		}
	}
	return &cannot{strings.Join(append(why, "the job "+errCannot.Error()), "; ")}
}

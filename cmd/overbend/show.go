package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
)

type showCommand struct {
	units     units
	shop      shopFile
	all, json bool
	sensitive bool
	svg       string
	tables    plan.Tables // what several jobs have in common
}

func (*showCommand) usage() string {
	return `Usage: overbend show JOB.toml|DIR/... ... [--all | --json] [--units mm|in] [--shop FILE]
       overbend show JOB.toml --sensitivity [--json] [--svg FILE]

Works the job out and prints on one screen the ten numbers that a person acts on,
and what warns. With --all every number in the order of the work: overbend, what
to cut, blank, filler, press with its stops, what the bend does to the tube,
checks. Writes nothing. Warnings go to standard error too.

Of several jobs, or of all *.toml below a folder, DIR/..., each stands under its
file's name. One that fails says so and the others are done; the exit code is the
worst. --json then prints an object a line: file, job and, where it failed, error.
Names that begin with a dot and TOML files without [tube] and [bend] are left out.

With --sensitivity it prints what decides: metal, tube, filler, strip and press are
set to either end of their tolerance one at a time, and by how much the part's angle,
the block that would have been right and the force move. --svg draws that as a chart
into a new file, --json adds it to the JSON as "sensitivity".

Examples:
  overbend show davit.toml
  overbend show davit.toml --all
  overbend show davit.toml --units in
  overbend show davit.toml --json > numbers.json
  overbend show rails/... --json > rails.jsonl
  overbend show davit.toml --sensitivity --svg decides.svg
`
}

func (c *showCommand) flags(f *pflag.FlagSet) {
	f.BoolVar(&c.all, "all", false, "print every number, not the ten that a person acts on")
	f.BoolVar(&c.json, "json", false, "print JSON; the README documents its keys")
	f.BoolVar(&c.sensitive, "sensitivity", false, "print by how much each uncertain input moves angle, block and force")
	f.StringVar(&c.svg, "svg", "", "with --sensitivity, draw it into `FILE.svg`")
	c.units.flag(f)
	c.shop.flag(f)
}

func (c *showCommand) run(args []string, stdout, stderr io.Writer) error {
	if len(args) == 0 {
		return noFiles("show")
	}
	if _, err := c.units.get(); err != nil {
		return err
	}
	switch {
	case c.all && c.json:
		return errors.New("show: --all and --json both print every number; give one of them")
	case c.all && c.sensitive:
		return errors.New("show: --all and --sensitivity print pages of their own; give one of them")
	case c.svg != "" && !c.sensitive:
		return errors.New("show: --svg draws what --sensitivity works out; give both")
	case c.svg != "" && !onlyOne(args):
		return errors.New("show: --svg draws one job; give one file with it")
	case c.svg != "":
		if err := newChart(c.svg); err != nil {
			return fmt.Errorf("--svg: %w", err)
		}
	}
	s, err := c.shop.read()
	if err != nil {
		return err
	}
	if onlyOne(args) {
		return c.one(args[0], s, stdout, stderr)
	}
	ctx, release := holdSignals()
	defer release()
	files, notes := jobFiles(ctx, args)
	tell(stderr, notes)
	all := several{files: files, put: putText()}
	all.one = func(i int, stdout, stderr io.Writer) error { return c.one(files[i].path, s, stdout, stderr) }
	if c.json {
		all.put = putJSON
	}
	return all.run(ctx, stdout, stderr)
}

// one shows one job.
func (c *showCommand) one(path string, s shop.Shop, stdout, stderr io.Writer) error {
	p, u, err := workOut(path, &c.units, s, &c.tables, stderr)
	if err != nil {
		return err
	}
	switch {
	case c.sensitive:
		err = c.sensitivity(stdout, stderr, p, u)
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

// putJSON writes a job's JSON on one line with its file's name.
func putJSON(w io.Writer, path string, o *outcome) error {
	line := struct {
		File  string          `json:"file"`
		Error string          `json:"error,omitempty"`
		Job   json.RawMessage `json:"job,omitempty"`
	}{File: path, Job: o.stdout.Bytes()}
	if o.err != nil {
		line.Error = quantity.Plain(o.err.Error())
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(line)
}

// sensitivity prints what decides, and draws it where that is asked for.
func (c *showCommand) sensitivity(stdout, stderr io.Writer, p *plan.Plan, u quantity.Units) error {
	s, err := p.Sensitivity()
	if err != nil {
		return err
	}
	if c.json {
		text, err := report.SensitiveJSON(p, s)
		if err != nil {
			return err
		}
		if _, err := stdout.Write(text); err != nil {
			return err
		}
	} else if err := writeSensitivity(stdout, p, s, u); err != nil {
		return err
	}
	if c.svg == "" {
		return nil
	}
	return drawSensitivity(c.svg, stderr, p, s, u)
}

// workOut reads a job file and works it out in a shop, with the tables of the jobs
// before. The units are the flag's, or the job file's own. A long wait is said on
// standard error where that is a terminal.
func workOut(path string, flag *units, s shop.Shop, t *plan.Tables, stderr io.Writer) (*plan.Plan, quantity.Units, error) {
	j, err := job.ReadIn(s, path)
	if err != nil {
		return nil, 0, err
	}
	u, err := flag.or(j.Units())
	if err != nil {
		return nil, 0, err
	}
	if n := len(j.Trials); n > 0 && onTerminal(stderr) { // a hundred that disagree take a second or two
		defer waiting(stderr, "fitting the metal to "+words.Count(n, "trial"), 300*time.Millisecond)()
	}
	p, err := t.New(j)
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

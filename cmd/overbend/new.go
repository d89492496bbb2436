package main

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
)

type newCommand struct{ units units }

func (*newCommand) usage() string {
	return `Usage: overbend new FILE.toml [--units mm|in]

Writes a commented job file to start from: a boat-davit arm, every key
explained. It never overwrites a file.

Examples:
  overbend new davit.toml
  overbend new davit.toml --units in
`
}

func (c *newCommand) flags(f *pflag.FlagSet) {
	f.StringVar(&c.units.text, "units", "", "write the file in `mm|in` (default mm)")
}

func (c *newCommand) run(args []string, stdout, _ io.Writer) error {
	path, err := oneFile(args, "new", "the job file to write")
	if err != nil {
		return err
	}
	u, err := c.units.get()
	if err != nil {
		return err
	}
	if err := kit.Create(path, job.Starter(u)); err != nil {
		return err
	}
	if _, err := fmt.Fprintf(stdout, "wrote %s: edit it, then run overbend show %s\n", path, path); err != nil {
		return fmt.Errorf("%w; %s was written all the same", err, path)
	}
	return nil
}

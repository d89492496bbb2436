package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
)

type newCommand struct{}

func (*newCommand) usage() string {
	return `Usage: overbend new FILE.toml

Writes a commented job file to start from: a boat-davit arm, every key
explained. It never overwrites a file.

Example:
  overbend new davit.toml
`
}

func (*newCommand) flags(*pflag.FlagSet) {}

func (*newCommand) run(args []string, stdout, _ io.Writer) (err error) {
	path, err := oneFile(args, "new", "the job file to write")
	if err != nil {
		return err
	}
	// O_EXCL: a file that appears in the meantime is not overwritten either.
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s: exists already; choose another name", path)
	}
	if err != nil {
		return fmt.Errorf("%s: can't be written: %w", path, cause(err))
	}
	_, err = io.WriteString(f, job.Starter())
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(path) // only what this run made
		return fmt.Errorf("%s: can't be written: %w", path, cause(err))
	}
	_, err = fmt.Fprintf(stdout, "wrote %s: edit it, then run overbend show %s\n", path, path)
	return err
}

// cause strips the operation and path that the operating system's errors
// repeat.
func cause(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

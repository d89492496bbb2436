package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/vary"
	"overbend/cmd/internal/words"
)

// outcome is what one of several jobs gave.
type outcome struct {
	stdout, stderr bytes.Buffer
	err            error
	begun          bool
}

// several does a command for many jobs.
type several struct {
	files []jobFile
	// one does it for the i-th file, as it would for that alone.
	one func(i int, stdout, stderr io.Writer) error
	// put writes what a job gave.
	put func(w io.Writer, path string, o *outcome) error
}

// run does all jobs on all processors and writes what each gave, in order. What goes
// to standard error names the file. The error says how many failed and ends the
// process with the worst code of all; that of a single job is its own.
func (s several) run(ctx context.Context, stdout, stderr io.Writer) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	n := len(s.files)
	work := func(i int) *outcome {
		o := &outcome{err: s.files[i].err, begun: ctx.Err() == nil}
		if o.begun && o.err == nil {
			o.err = s.one(i, &o.stdout, &o.stderr)
		}
		if o.err != nil {
			o.err = named(s.files[i].path, o.err)
		}
		return o
	}
	seen := newProgress(stderr, n)
	apart := !onTerminal(stdout)
	done, failed, cannot := 0, 0, 0
	var last error
	_, err := vary.InOrder(ctx, n, work, func(i int, o *outcome) error {
		if !o.begun {
			return nil
		}
		path := s.files[i].path
		if !apart || o.stderr.Len() > 0 || o.err != nil {
			seen.clear()
		}
		if err := s.put(stdout, path, o); err != nil {
			cancel(err)
			return err
		}
		for line := range strings.Lines(o.stderr.String()) {
			level, rest, _ := strings.Cut(line, ": ")
			fmt.Fprintf(stderr, "%s: %s: %s", level, keyed.Printable(path, longestPath), rest)
		}
		if done++; o.err != nil {
			failed++
			if errors.Is(o.err, errCannot) {
				cannot++
			}
			if last = o.err; n > 1 {
				exitCode(o.err, stderr)
			}
		}
		seen.at(done)
		return nil
	})
	seen.clear()
	switch {
	case err != nil:
		return err
	case ctx.Err() != nil:
		return fmt.Errorf("%d of %s are done, and whole: %w", done, words.Count(n, "job"), context.Cause(ctx))
	case failed == 0 || n == 1:
		return last
	}
	return &tally{n, failed, cannot}
}

// longestPath is how much of a file's name is said, in runes.
const longestPath = 4096

// named returns an error that begins with a file's name.
func named(path string, err error) error {
	path = keyed.Printable(path, longestPath)
	if strings.HasPrefix(err.Error(), path+":") {
		return err
	}
	return fmt.Errorf("%s: %w", path, err)
}

// tally is the error of jobs of which some failed; an [errCannot] where all of these
// only can't be made.
type tally struct{ of, failed, cannot int }

func (t *tally) Error() string {
	some := fmt.Sprintf("%d of %s ", t.failed, words.Count(t.of, "job"))
	switch t.cannot {
	case 0:
		return some + "failed"
	case t.failed:
		return some + errCannot.Error()
	}
	return fmt.Sprintf("%sfailed, %d of which %v", some, t.cannot, errCannot)
}

func (t *tally) Is(target error) bool { return target == errCannot && t.failed == t.cannot }

// putText writes a job's text under its file's name.
func putText() func(w io.Writer, path string, o *outcome) error {
	head := "== "
	return func(w io.Writer, path string, o *outcome) error {
		if o.stdout.Len() == 0 {
			return nil
		}
		_, err := fmt.Fprintf(w, "%s%s\n\n%s", head, keyed.Printable(path, longestPath), &o.stdout)
		head = "\n== "
		return err
	}
}

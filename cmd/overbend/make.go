package main

import (
	"context"
	"fmt"
	"io"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/vary"
)

type makeCommand struct {
	units units
	shop  shopFile
	out   string
	force bool
	kit   kit.Choices
	given func(flag string) bool
	// tables are what several jobs have in common.
	tables plan.Tables
}

func (*makeCommand) usage() string {
	return `Usage: overbend make JOB.toml|DIR/... ... [-o DIR] [--force] [flags]

Writes the kit: cut files (DXF), prints at 1:1 (SVG and one PDF), the job sheet
and job.json with every number. Lists each file with its size and what it is
for. All files appear or none; another job's kit, or a file that overbend did not
write or that was changed since, is replaced only with --force. What a run that
was killed left behind is undone by the next one into that folder, and said.

A job that can't be made as asked gets no files. With --force it gets them, as
far as its parts have a shape at all; the exit code is 1 all the same.

Of several jobs, or of all *.toml below a folder, DIR/..., each gets a folder of its
own in DIR of -o, or here: the job's name with -kit. Two that would share one are
refused before anything is written. One that fails says so and the others are done;
the exit code is the worst. Names that begin with a dot and TOML files without
[tube] and [bend] are left out.

Examples:
  overbend make davit.toml -o kit
  overbend make davit.toml -o kit --paper letter --units in
  overbend make davit.toml -o kit --dxf r12-plain --cut-only
  overbend make davit.toml -o kit --print-scale 1.013x0.998
  overbend make rails/... spare.toml -o kits
`
}

func (c *makeCommand) flags(f *pflag.FlagSet) {
	f.StringVarP(&c.out, "out", "o", "", "write the kit into `DIR` (default: the job's name with -kit, here); of several jobs, the kits")
	f.BoolVar(&c.force, "force", false, "replace files that overbend did not write; make the files of a job that can't be made")
	c.units.flag(f)
	c.shop.flag(f)
	k := &c.kit
	f.StringVar(&k.DXF, "dxf", "2000", "DXF form: `2000|r12|r12-plain`")
	f.StringVar(&k.DXFUnits, "dxf-units", "", "DXF unit: `mm|in` (default the job file's own)")
	f.BoolVar(&k.CutOnly, "cut-only", false, "leave out of the DXF everything that is not cut, centre marks of holes to drill as well")
	f.StringVar(&k.Paper, "paper", "", "the printer's paper, over the shop file's: `A4|A3|A2|A1|letter|tabloid|WxH` (default A4, or letter for a job in inches)")
	f.StringVar(&k.Margin, "margin", "10 mm", "white edge that the printer leaves, over the shop file's, as `LENGTH`")
	f.StringVar(&k.PrintScale, "print-scale", "1x1", "what the two bars of a page measured, over the shop file's, as shares: `XxY`")
	c.given = f.Changed
}

func (c *makeCommand) run(args []string, stdout, stderr io.Writer) error {
	if len(args) == 0 {
		return noFiles("make")
	}
	s, err := c.shop.read()
	if err != nil {
		return err
	}
	u, err := c.units.get()
	if err != nil {
		return err
	}
	choices := c.choices()
	if _, err := choices.Options(s.Paper, false, u); err != nil { // before a job is worked out for nothing
		return err
	}
	if onlyOne(args) {
		return c.one(oneKit{args[0], c.out, s, choices, holdSignals}, stdout, stderr)
	}
	return c.several(args, s, choices, stdout, stderr)
}

// oneKit is a kit to be made.
type oneKit struct {
	path    string // of the job file
	dir     string // of the kit; "": the job's name
	shop    shop.Shop
	choices kit.Choices
	// hold returns the context of the writing and what ends it.
	hold func() (context.Context, func())
}

// one makes one kit.
func (c *makeCommand) one(k oneKit, stdout, stderr io.Writer) error {
	p, u, err := workOut(k.path, &c.units, k.shop, &c.tables, stderr)
	if err != nil {
		return err
	}
	o, err := k.choices.For(p, k.shop, u)
	if err != nil {
		return err
	}
	if err := report.Alerts(stderr, p, u); err != nil {
		return err
	}
	cannot := feasible(p, u)
	if cannot != nil && (!c.force || len(p.Pieces) == 0) { // without shape a part can't be forced either
		return fmt.Errorf("%w; nothing was written", cannot)
	}
	files, err := report.Kit(p, o)
	if err != nil {
		return fmt.Errorf("%s: %w", k.path, err)
	}
	dir := k.dir
	if dir == "" {
		dir = folderName(p.Job)
	}
	if err := write(k.hold, dir, files, c.force, stderr); err != nil {
		return err
	}
	if n := pages(files); n > mostPages {
		fmt.Fprintf(stderr, "note: %d printer pages to tape together; larger --paper takes fewer, and a plotter takes each print whole\n", n)
	}
	if err := list(stdout, dir, files, u); err != nil {
		return fmt.Errorf("%w; the kit in %s is whole all the same", err, dir)
	}
	if cannot != nil {
		return fmt.Errorf("%w; the files were written all the same", cannot)
	}
	return nil
}

// several makes the kits of many jobs, each in a folder of its own.
func (c *makeCommand) several(args []string, s shop.Shop, choices kit.Choices, stdout, stderr io.Writer) error {
	ctx, release := holdSignals()
	defer release()
	// Where nobody reads the list any more, a kit that is just written is finished
	// before the run ends.
	signal.Ignore(syscall.SIGPIPE)
	defer signal.Reset(syscall.SIGPIPE)
	files, notes := jobFiles(ctx, args)
	dirs, err := c.folders(ctx, files, s)
	if err != nil {
		return err
	}
	tell(stderr, notes)
	// What is begun is finished, whatever signal comes: the run ends after it.
	hold := func() (context.Context, func()) { return context.Background(), func() {} }
	text := putText()
	all := several{files: files, put: func(w io.Writer, path string, o *outcome) error {
		if err := text(w, path, o); err != nil {
			return fmt.Errorf("%w; every kit that was begun is whole all the same", err)
		}
		return nil
	}}
	all.one = func(i int, stdout, stderr io.Writer) error {
		return c.one(oneKit{files[i].path, dirs[i], s, choices, hold}, stdout, stderr)
	}
	return all.run(ctx, stdout, stderr)
}

// folders returns the folder of each job's kit, none where the job file is refused.
// Two kits in one are an error.
func (c *makeCommand) folders(ctx context.Context, files []jobFile, s shop.Shop) ([]string, error) {
	dirs := make([]string, len(files))
	owner := map[string]string{}
	folder := func(i int) string {
		if files[i].err != nil || ctx.Err() != nil {
			return ""
		}
		j, err := job.ReadIn(s, files[i].path)
		if err != nil {
			return "" // it says so in its turn
		}
		return filepath.Join(c.out, folderName(j))
	}
	_, err := vary.InOrder(ctx, len(files), folder, func(i int, dir string) error {
		if dirs[i] = dir; dir == "" {
			return nil
		}
		key := strings.ToLower(dir) // some disks tell no letters by their case
		if first, ok := owner[key]; ok {
			return fmt.Errorf("%s and %s: the kits of both would be %s; give the jobs names that differ, or make them apart", first, files[i].path, dir)
		}
		owner[key] = files[i].path
		return nil
	})
	return dirs, err
}

// write puts the files in place. A signal that asks the process to end waits for
// that.
func write(hold func() (context.Context, func()), dir string, files []kit.File, force bool, stderr io.Writer) error {
	ctx, release := hold()
	defer release()
	notes, err := kit.Write(ctx, dir, files, force)
	tell(stderr, notes)
	if stop := context.Cause(ctx); err == nil && stop != nil {
		return fmt.Errorf("%s: %w; the kit there is whole all the same", dir, stop)
	}
	return err
}

// mostPages is how many printer pages nobody is surprised by.
const mostPages = 40

// pages counts the printer's pages among a kit's files.
func pages(files []kit.File) int {
	n := 0
	for _, f := range files {
		if strings.Contains(f.Name, "-page-") {
			n++
		}
	}
	return n
}

// choices returns what the flags choose: those that are not given are left to the
// shop, and one that is given and empty is none.
func (c *makeCommand) choices() kit.Choices {
	k := c.kit
	for flag, text := range map[string]*string{"paper": &k.Paper, "margin": &k.Margin, "print-scale": &k.PrintScale} {
		switch {
		case !c.given(flag):
			*text = ""
		case *text == "":
			*text = " "
		}
	}
	return k
}

// folderName returns a safe folder name from the job's name or, where no Latin
// letter or figure is in that, from its file's, in whatever letters that is.
func folderName(j job.Job) string {
	file := filepath.Base(j.File)
	return kit.FileName(j.Name, strings.TrimSuffix(file, filepath.Ext(file))) + "-kit"
}

// list tells what was written: file, size, purpose.
func list(w io.Writer, dir string, files []kit.File, u quantity.Units) error {
	rows := [][]string{}
	for _, f := range files {
		size := ""
		if f.Width > 0 {
			size = u.Size(f.Width, f.Height)
		}
		rows = append(rows, []string{filepath.Join(dir, f.Name), size, f.Purpose})
	}
	var b strings.Builder
	table(&b, rows)
	_, err := io.WriteString(w, quantity.Plain(b.String()))
	return err
}

// table writes rows with their columns lined up.
func table(b *strings.Builder, rows [][]string) {
	widths := make([]int, len(rows[0]))
	for _, r := range rows {
		for i, c := range r {
			widths[i] = max(widths[i], utf8.RuneCountInString(c))
		}
	}
	for _, r := range rows {
		line := ""
		for i, c := range r {
			line += c + strings.Repeat(" ", widths[i]-utf8.RuneCountInString(c)+2)
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

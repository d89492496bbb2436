package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
	"overbend/profiles"
)

// shopFile is the --shop flag.
type shopFile struct{ text string }

func (s *shopFile) flag(f *pflag.FlagSet) {
	f.StringVar(&s.text, "shop", "", "read the shop file `FILE`, or \"none\" (default $"+shop.Variable+", or overbend/shop.toml in your configuration folder)")
}

func (s *shopFile) place() shop.Place        { return shop.Find(s.text) }
func (s *shopFile) read() (shop.Shop, error) { return s.place().Read() }

type shopCommand struct {
	units units
	shop  shopFile
	fresh bool
}

func (*shopCommand) usage() string {
	return `Usage: overbend shop [JOB.toml] [--shop FILE] [--units mm|in]
       overbend shop --new [FILE]

Prints what holds for every job and where it comes from: the shop file or what is
built in; with a job file, the job too. Writes nothing. With --new it writes a
commented shop file to start from, never over a file; without FILE where overbend
looks for it.

Examples:
  overbend shop --new
  overbend shop davit.toml
  overbend shop --shop /media/shop/shop.toml
`
}

func (c *shopCommand) flags(f *pflag.FlagSet) {
	f.BoolVar(&c.fresh, "new", false, "write a commented shop file to start from")
	c.shop.flag(f)
	c.units.flag(f)
}

func (c *shopCommand) run(args []string, stdout, _ io.Writer) error {
	if len(args) > 1 {
		return fmt.Errorf("shop: %d arguments given; it takes one file at most; see overbend shop --help", len(args))
	}
	if c.fresh {
		return c.write(args, stdout)
	}
	s, err := c.shop.read()
	if err != nil {
		return err
	}
	var j *job.Job
	system := s.Units
	if len(args) == 1 {
		read, err := job.ReadIn(s, args[0])
		if err != nil {
			return err
		}
		j, system = &read, read.Units()
	}
	u, err := c.units.or(system)
	if err != nil {
		return err
	}
	var b strings.Builder
	b.WriteString("shop file: " + c.found(s) + "\n\n")
	table(&b, inForce(s, j, u))
	_, err = io.WriteString(stdout, quantity.Plain(b.String()))
	return err
}

// found says which shop file is in force.
func (c *shopCommand) found(s shop.Shop) string {
	at := c.shop.place()
	switch {
	case s.File != "":
		return s.File
	case at.Path == "":
		return "none"
	}
	return "none at " + at.Path
}

func (c *shopCommand) write(args []string, stdout io.Writer) error {
	file := c.shop.place().Path
	if len(args) == 1 {
		file = args[0]
	}
	if file == "" {
		return errors.New("shop --new: no file to write; name one")
	}
	if len(args) == 0 {
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			return fmt.Errorf("%s: can't be written: %w", file, err)
		}
	}
	if err := kit.Create(file, shop.Starter()); err != nil {
		return err
	}
	_, err := fmt.Fprintf(stdout, "wrote %s: edit it, then run overbend shop\n", file)
	return err
}

// inForce returns a table of all keys of the shop file: what holds, and whether the
// job, the shop file or the program says so.
func inForce(s shop.Shop, j *job.Job, u quantity.Units) [][]string {
	rows := [][]string{{"key", "value", "from"}}
	overrides := map[string]string{}
	for _, k := range job.ShopKeys() {
		overrides[k[0]] = k[1]
	}
	row := func(key, builtIn string) {
		if own := overrides[key]; own != "" && j != nil {
			if v, ok := j.Written(own); ok {
				if own != key {
					v += " (" + own + ")"
				}
				rows = append(rows, []string{key, v, "job"})
				return
			}
		}
		if v, ok := s.Written(key); ok {
			rows = append(rows, []string{key, v, "shop"})
			return
		}
		rows = append(rows, []string{key, builtIn, "built-in"})
	}
	own := u
	if j != nil {
		own = j.Units()
	}
	inch := own == quantity.Inches
	var plates, sheets, strips []string
	for _, p := range profiles.Plates() {
		if p.Inch == inch {
			plates = append(plates, p.Name)
		}
	}
	for _, p := range profiles.Sheets() {
		if p.Inch == inch {
			sheets = append(sheets, p.Name)
		}
	}
	for _, p := range profiles.Strips() {
		if p.Inch == inch {
			strips = append(strips, p.Name)
		}
	}
	const none = "not given"
	row("press.capacity", none)
	row("press.stroke", none)
	row("press.bed", none)
	row("press.ram_diameter", none)
	row("press.friction", strconv.FormatFloat(shop.DefaultFriction, 'g', -1, 64))
	row("press.rollers", u.Show(quantity.Nominal.Of(job.DefaultRoller(own))))
	row("stock.plates", strings.Join(plates, ", "))
	row("stock.packing", strings.Join(sheets, ", "))
	row("stock.strips", strings.Join(strips, ", "))
	row("cutting.process", none)
	row("cutting.kerf", u.Length(0))
	row("cutting.sheet", none)
	row("paper.size", shop.UsualPaper(inch).Name)
	row("paper.margin", u.Length(s.Paper.Margin))
	row("paper.print_scale", "1x1")
	for _, f := range s.Fillers {
		rows = append(rows, []string{"filler " + f.Alloy.Name, u.Show(quantity.Mass.Of(f.Mass)), "shop"})
	}
	for _, b := range s.Blocks {
		rows = append(rows, []string{"block " + b.Name, "radius " + u.Length(b.Radius) + ", arc " + u.Angle(b.Arc) + ", width " + u.Length(b.Width), "shop"})
	}
	stress := quantity.Stress.Of
	for _, m := range s.Metals {
		text := m.Base + ", proof " + u.Show(stress(m.Proof)) + " +- " + u.Show(stress(m.ProofError))
		if m.Exponent > 0 {
			text += ", exponent " + strconv.FormatFloat(math.Round(10*m.Exponent)/10, 'g', -1, 64)
		}
		if len(m.Trials) > 0 {
			text += ", from trials of " + words.Count(len(m.Trials), "job")
		}
		rows = append(rows, []string{"metal " + m.Name, text, "shop"})
	}
	return rows
}

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/drawn"
	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/export/dxf/dxfread"
	"overbend/export/svg"
	"overbend/profiles"
)

type readCommand struct {
	units    units
	out      string
	svg      string
	layer    string
	bend     int
	dxfUnits string
	gap      string
	wall     string
	depth    string
	width    string
	material string
}

func (*readCommand) usage() string {
	return `Usage: overbend read DRAWING.dxf [-o JOB.toml] [flags]

Finds the bent tube in a drawing, a text DXF of any version, and writes a
commented job file in which every number says where it comes from. Two parallel
lines are the tube's edges: its depth and end cuts follow. A single line is its
centreline. What the drawing does not show is left to fill in, or given here: wall,
material, depth and width (one alone: a square tube). It never overwrites a file;
without -o the job goes to standard output.

Where there are several bends, they are listed, and --bend or --layer says which.

Examples:
  overbend read arm.dxf --wall 3mm --material 6082-T6 -o arm.toml
  overbend read arm.dxf --svg found.svg        see what was found
  overbend read rail.dxf --dxf-units in --depth "1-1/2 in" --bend 2
`
}

func (c *readCommand) flags(f *pflag.FlagSet) {
	f.StringVarP(&c.out, "out", "o", "", "write the job into `JOB.toml` (default: standard output)")
	f.StringVar(&c.svg, "svg", "", "draw what was found over the drawing into `FILE.svg`")
	f.StringVar(&c.layer, "layer", "", "look at the lines of the layer `NAME` only")
	f.IntVar(&c.bend, "bend", 0, "take the bend `N` of those listed")
	f.StringVar(&c.wall, "wall", "", "wall of the tube as `LENGTH`")
	f.StringVar(&c.depth, "depth", "", "its depth, in the bend plane, as `LENGTH`, where only a centreline is drawn")
	f.StringVar(&c.width, "width", "", "its width, across the bend plane, as `LENGTH`")
	f.StringVar(&c.material, "material", "", "its material, a `NAME` that overbend stock materials lists")
	f.StringVar(&c.dxfUnits, "dxf-units", "", "unit of the drawing: `mm|cm|m|in|ft` (default: what it says itself)")
	f.StringVar(&c.gap, "gap", "0.1 mm", "widest gap that is closed, as `LENGTH`")
	f.StringVar(&c.units.text, "units", "", "write the job in `mm|in` (default: the drawing's system)")
}

// mostDrawing is the largest drawing in bytes, the reader's own limit.
const mostDrawing = 64 << 20

func (c *readCommand) run(args []string, stdout, stderr io.Writer) error {
	path, err := oneFile(args, "read", "the drawing")
	if err != nil {
		return err
	}
	g := drawn.Given{Material: c.material, Source: filepath.Base(path), Name: stem(path)}
	o := drawn.Options{Layer: c.layer}
	if err := c.parse(&o, &g); err != nil {
		return fmt.Errorf("read: %w", err)
	}
	f, err := c.read(path, o)
	if err != nil {
		return err
	}
	if g.Units, err = c.units.or(systemOf(f.Unit)); err != nil {
		return err
	}
	if c.svg != "" {
		var b bytes.Buffer
		picture := f.Picture(g.Source, g.Units)
		if err := svg.Write(&b, picture); err != nil {
			return err
		}
		if err := kit.Create(c.svg, b.String()); err != nil {
			return err
		}
		if err := warnLetters(stderr, c.svg, picture); err != nil {
			return err
		}
	}
	one, err := c.choose(f, g.Units, stdout)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return c.write(path, f, one, g, stdout, stderr)
}

// parse reads the flags.
func (c *readCommand) parse(o *drawn.Options, g *drawn.Given) error {
	u, err := c.units.get()
	if err != nil {
		return err
	}
	if c.dxfUnits != "" {
		if o.Unit, err = drawn.ParseUnit(c.dxfUnits); err != nil {
			return fmt.Errorf("--dxf-units: %w", err)
		}
		if c.units.text == "" {
			u = systemOf(o.Unit)
		}
	}
	for _, v := range []struct {
		name, text string
		to         *float64
	}{{"--gap", c.gap, &o.Gap}, {"--wall", c.wall, &g.Wall}, {"--depth", c.depth, &g.Depth}, {"--width", c.width, &g.Width}} {
		if v.text == "" {
			continue
		}
		if *v.to, err = quantity.ParseLength(v.text, u); err != nil {
			return fmt.Errorf("%s: %w", v.name, err)
		}
		if *v.to == 0 {
			return fmt.Errorf("%s: %s is not allowed; it must be more than %s", v.name, u.Length(0), u.Length(0))
		}
	}
	const widest = 10 // mm
	if o.Gap > widest {
		return fmt.Errorf("--gap: %s is not allowed; it must be at most %s", u.Length(o.Gap), u.Length(widest))
	}
	if c.bend < 0 {
		return fmt.Errorf("--bend: %d is not allowed; it must be 1 or more", c.bend)
	}
	if c.material != "" {
		if _, err := profiles.FindMaterial(c.material, g.Wall, profiles.Rectangle); err != nil {
			return fmt.Errorf("--material: %s", words.Because(err).Say(u))
		}
	}
	return nil
}

// systemOf returns the system to which a drawing's unit in mm belongs.
func systemOf(unit float64) quantity.Units {
	switch quantity.Inches.MM(1) {
	case unit, unit / 12, unit / 36:
		return quantity.Inches
	}
	return quantity.Millimetres
}

// stem returns a file's name without folder and ending, as the name of a job.
func stem(path string) string {
	s := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	const longest = 60 // runes that a job's name may have
	if r := []rune(strings.ToValidUTF8(s, "?")); len(r) > longest {
		s = string(r[:longest])
	}
	if strings.TrimSpace(s) == "" {
		return "drawing"
	}
	return s
}

// read opens the drawing and looks for bends.
func (c *readCommand) read(path string, o drawn.Options) (drawn.Found, error) {
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		err = errors.New("a directory is not a drawing; give a DXF file")
	} else if err == nil && !info.Mode().IsRegular() {
		err = errors.New("a device or pipe is not a drawing; give a DXF file")
	}
	if err == nil && info.Size() > mostDrawing {
		err = fmt.Errorf("%d MB are not allowed; a drawing has at most %d MB: save the part alone, without pictures and blocks that it does not use", info.Size()>>20, mostDrawing>>20)
	}
	var file *os.File
	if err == nil {
		file, err = os.Open(path)
	}
	if err != nil {
		return drawn.Found{}, fmt.Errorf("%s: %w", path, plainCause(err))
	}
	defer file.Close()
	f, err := drawn.Read(file, o)
	var e *dxfread.Error
	switch {
	case errors.As(err, &e) && e.Line > 0:
		return f, fmt.Errorf("%s:%d: %s", path, e.Line, e.Text)
	case err != nil:
		return f, fmt.Errorf("%s: %w", path, err)
	}
	return f, nil
}

// plainCause returns the system's error without the operation and path before it.
func plainCause(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		if errors.Is(err, os.ErrNotExist) {
			return errors.New("no such file")
		}
		return p.Err
	}
	return err
}

// choose returns the candidate that is meant. Where that is not clear, it lists
// them.
func (c *readCommand) choose(f drawn.Found, u quantity.Units, stdout io.Writer) (drawn.Candidate, error) {
	n := len(f.Candidates)
	say := func(r words.Reason) error { return errors.New(r.Say(u)) }
	switch {
	case n == 0:
		var why []string
		for _, r := range f.Notes {
			why = append(why, r.Say(u))
		}
		return drawn.Candidate{}, errors.New(strings.Join(why, "; "))
	case c.bend > n:
		return drawn.Candidate{}, say(words.Reason{Code: words.DrawingNoSuch, Figures: words.Figures{"nth": c.bend, "n": words.Count(n, "bend")}})
	case c.bend > 0:
		return f.Candidates[c.bend-1], nil
	case n == 1:
		return f.Candidates[0], nil
	}
	if _, err := io.WriteString(stdout, f.List(u)); err != nil {
		return drawn.Candidate{}, err
	}
	return drawn.Candidate{}, say(words.Reason{Code: words.DrawingSeveral, Figures: words.Figures{"n": n}})
}

// write writes the job of a candidate, and says what is left to fill in.
func (c *readCommand) write(path string, f drawn.Found, one drawn.Candidate, g drawn.Given, stdout, stderr io.Writer) error {
	text, err := f.Job(one, g)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	blanks := one.Blanks(g)
	if len(blanks) == 0 {
		if _, err := job.Parse("its job file", []byte(text)); err != nil {
			return fmt.Errorf("%s: the bend that it shows makes no job: %w", path, err)
		}
	}
	name := "the job file"
	if c.out == "" {
		if _, err := io.WriteString(stdout, text); err != nil {
			return err
		}
	} else {
		name = c.out
		if err := kit.Create(c.out, text); err != nil {
			return err
		}
		if _, err := fmt.Fprintf(stdout, "%s\nwrote %s\n", quantity.Plain(f.Describe(one, g.Units)), c.out); err != nil {
			return err
		}
	}
	for _, r := range append(one.Notes, f.Notes...) {
		if _, err := fmt.Fprintf(stderr, "warning: %s\n", quantity.Plain(r.Say(g.Units))); err != nil {
			return err
		}
	}
	if len(blanks) > 0 {
		_, err = fmt.Fprintf(stderr, "warning: %s: fill in %s, which the drawing does not show\n", name, strings.Join(blanks, ", "))
	}
	return err
}

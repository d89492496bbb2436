package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/quantity"
	"overbend/geom"
)

type gaugeCommand struct {
	units units
	err   string
	depth string
}

func (*gaugeCommand) usage() string {
	return `Usage: overbend gauge CHORD RISE

The radius of a curved face from a chord laid across it and the rise at its
middle, R = c^2/(8h) + h/2, and how far the radius moves if the rise was misread.
Use the longest chord that stays on the arc.

Examples:
  overbend gauge 200 18.4
  overbend gauge "8 in" "3/4 in" --units in
  overbend gauge 200 18.4 --depth 40     radius at the tube's centreline too
`
}

func (c *gaugeCommand) flags(f *pflag.FlagSet) {
	c.units.flag(f)
	f.StringVar(&c.err, "error", "0.5 mm", "how far the rise may be misread, as `LENGTH`")
	f.StringVar(&c.depth, "depth", "", "tube depth as `LENGTH`: the chord was laid on the inside of the bend")
}

func (c *gaugeCommand) run(args []string, stdout, _ io.Writer) error {
	if len(args) != 2 {
		return fmt.Errorf("gauge: %d arguments given; it takes two, chord and rise", len(args))
	}
	u, err := c.units.get()
	if err != nil {
		return err
	}
	var chord, rise, miss, depth float64
	for _, v := range []struct {
		name, text string
		to         *float64
	}{{"chord", args[0], &chord}, {"rise", args[1], &rise}, {"--error", c.err, &miss}, {"--depth", c.depth, &depth}} {
		if v.text == "" {
			continue
		}
		if *v.to, err = quantity.ParseLength(v.text, u); err != nil {
			return fmt.Errorf("gauge: %s: %w", v.name, err)
		}
	}
	const leastRise = 0.01 // mm: no rule reads finer
	if !(chord > 0) || rise < leastRise || rise > chord/2 {
		return fmt.Errorf("gauge: a rise of %s over a chord of %s is not allowed; the rise must be at least %s and at most half the chord", u.Length(rise), u.Length(chord), u.Length(leastRise))
	}
	var b strings.Builder
	r, _ := geom.RadiusFromChordRise(chord, rise)
	fmt.Fprintf(&b, "radius           %s\n", u.Length(r))
	if miss > 0 {
		lo, _ := geom.RadiusFromChordRise(chord, rise+miss)
		most := "straight"
		if rise-miss >= leastRise {
			hi, _ := geom.RadiusFromChordRise(chord, rise-miss)
			most = u.Length(math.Max(hi, r))
		}
		fmt.Fprintf(&b, "if misread       %s to %s (rise off by %s)\n", u.Length(lo), most, u.Length(miss))
	}
	if depth > 0 {
		fmt.Fprintf(&b, "centreline       %s\n", u.Length(r+depth/2))
	}
	_, err = io.WriteString(stdout, quantity.Plain(b.String()))
	return err
}

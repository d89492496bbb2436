package main

import (
	"fmt"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/quantity"
)

// units is the --units flag.
type units struct{ text string }

func (u *units) flag(f *pflag.FlagSet) {
	f.StringVar(&u.text, "units", "", "print in `mm|in` (default mm, or the job file's own)")
}

// get returns the units asked for, millimetres by default.
func (u *units) get() (quantity.Units, error) { return u.or(quantity.Millimetres) }

// or returns the units asked for, or a default.
func (u *units) or(d quantity.Units) (quantity.Units, error) {
	if u.text == "" {
		return d, nil
	}
	v, err := quantity.ParseUnits(u.text)
	if err != nil {
		return d, fmt.Errorf("--units: %w", err)
	}
	return v, nil
}

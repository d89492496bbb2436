package kit

import (
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/paper"
)

// Choices are a user's, as text: what the files of a kit look like. Flags and
// form fields have the same names.
type Choices struct {
	DXF, DXFUnits, Paper, Margin, PrintScale string
	CutOnly                                  bool
}

// DefaultChoices returns what holds where nothing is chosen; the unit of DXF files
// is then the job's own, and so is the paper.
func DefaultChoices() Choices {
	return Choices{DXF: "2000", Margin: "10 mm", PrintScale: "1x1"}
}

// ChoiceError is a choice that is none, named as a flag is: "print-scale".
type ChoiceError struct {
	Name string
	Err  error
}

func (e *ChoiceError) Error() string { return "--" + e.Name + ": " + e.Err.Error() }

// Unwrap returns what is wrong with it.
func (e *ChoiceError) Unwrap() error { return e.Err }

// Options reads the choices for a job whose bare lengths are inches or not, to be
// lettered in the units u. Every error is a *ChoiceError.
func (c Choices) Options(inches bool, u quantity.Units) (Options, error) {
	o := Options{Units: u}
	wrong := func(name string, err error) (Options, error) { return o, &ChoiceError{name, err} }
	var err error
	if o.DXF.Version, err = dxf.ParseVersion(c.DXF); err != nil {
		return wrong("dxf", err)
	}
	if o.DXF.Inches = inches; c.DXFUnits != "" {
		d, err := quantity.ParseUnits(c.DXFUnits)
		if err != nil {
			return wrong("dxf-units", err)
		}
		o.DXF.Inches = d == quantity.Inches
	}
	o.DXF.CutOnly = c.CutOnly
	if o.Paper.Paper = usualPaper(inches); c.Paper != "" {
		if o.Paper.Paper, err = paperSize(c.Paper, u); err != nil {
			return wrong("paper", err)
		}
	}
	if o.Paper.Margin, err = quantity.ParseLength(c.Margin, quantity.Millimetres); err != nil {
		return wrong("margin", err)
	}
	if o.Paper.ScaleX, o.Paper.ScaleY, err = paper.ParseScale(c.PrintScale); err != nil {
		return wrong("print-scale", err)
	}
	if u == quantity.Inches {
		o.Paper.Rule = drawing.Customary
	}
	return o, nil
}

// FileName returns a job's name in letters that every file system takes.
func FileName(name string) string {
	safe := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '-'
	}, name)
	if safe = strings.Trim(safe, "-"); safe == "" {
		return "job"
	}
	return safe
}

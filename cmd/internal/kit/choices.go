package kit

import (
	"cmp"
	"strings"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/paper"
)

// Choices are a user's, as text: what the files of a kit look like. Flags and
// form fields have the same names. What is empty is left to the shop, or to what is
// usual.
type Choices struct {
	DXF, DXFUnits, Paper, Margin, PrintScale string
	CutOnly                                  bool
}

// ChoiceError is a choice that is none, named as a flag is: "print-scale".
type ChoiceError struct {
	Name string
	Err  error
}

func (e *ChoiceError) Error() string { return "--" + e.Name + ": " + e.Err.Error() }

// Unwrap returns what is wrong with it.
func (e *ChoiceError) Unwrap() error { return e.Err }

// Options reads the choices over a shop's paper for a job whose bare lengths are
// inches or not, to be lettered in the units u. Every error is a *ChoiceError.
func (c Choices) Options(own shop.Paper, inches bool, u quantity.Units) (Options, error) {
	o := Options{Units: u}
	wrong := func(name string, err error) (Options, error) { return o, &ChoiceError{name, err} }
	var err error
	if o.DXF.Version, err = dxf.ParseVersion(cmp.Or(c.DXF, "2000")); err != nil {
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
	if c.Paper != "" {
		if own.Size, err = shop.PaperSize(c.Paper, u); err != nil {
			return wrong("paper", err)
		}
	}
	if c.Margin != "" {
		if own.Margin, err = quantity.ParseLength(c.Margin, quantity.Millimetres); err != nil {
			return wrong("margin", err)
		}
	}
	if c.PrintScale != "" {
		if own.ScaleX, own.ScaleY, err = paper.ParseScale(c.PrintScale); err != nil {
			return wrong("print-scale", err)
		}
	}
	if own.Size.Width == 0 {
		own.Size = shop.UsualPaper(inches)
	}
	o.Paper = paper.Layout{Paper: own.Size, Margin: own.Margin, ScaleX: own.ScaleX, ScaleY: own.ScaleY}
	if u == quantity.Inches {
		o.Paper.Rule = drawing.Customary
	}
	return o, nil
}

// For is [Choices.Options] for the kit of a plan in a shop. The plan then knows
// what came from the shop, and has no marks where they are to be left out.
func (c Choices) For(p *plan.Plan, s shop.Shop, u quantity.Units) (Options, error) {
	o, err := c.Options(s.Paper, p.Job.Inches, u)
	if err != nil {
		return o, err
	}
	for _, k := range []struct{ text, key string }{{c.Paper, "paper.size"}, {c.Margin, "paper.margin"}, {c.PrintScale, "paper.print_scale"}} {
		if k.text == "" {
			p.Job.FromShop.Take(s, k.key, k.key)
		}
	}
	if c.CutOnly {
		p.LeaveOutMarks()
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

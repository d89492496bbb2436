package kit

import (
	"cmp"
	"strings"
	"unicode"
	"unicode/utf8"

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
	if err := o.Paper.Check(); err != nil {
		name := "paper"
		if c.Margin != "" {
			name = "margin"
		}
		return wrong(name, err)
	}
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

// FileName returns a job's name in Latin letters and figures, which every disk takes
// or, where it has none, another name in whatever letters that is; "job" where
// neither has any.
func FileName(name, other string) string {
	latin := func(r rune) bool { return r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)) }
	any := func(r rune) bool { return unicode.In(r, unicode.Letter, unicode.Mark, unicode.Digit) }
	return cmp.Or(safeName(name, latin), safeName(other, any), "job")
}

// safeName puts dashes in place of what a file's name had better not hold, and
// keeps it shorter than any disk allows.
func safeName(name string, keep func(rune) bool) string {
	const most = 120 // bytes
	safe := strings.Map(func(r rune) rune {
		if r == '-' || r == '_' || r != utf8.RuneError && keep(r) {
			return r
		}
		return '-'
	}, name)
	for len(safe) > most {
		_, n := utf8.DecodeLastRuneInString(safe)
		safe = safe[:len(safe)-n]
	}
	return strings.Trim(safe, "-")
}

package shop

import (
	"fmt"
	"math"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/export/paper"
)

// UsualPaper returns the paper of a shop that works in inches, or in mm.
func UsualPaper(inches bool) paper.Size {
	name := "A4"
	if inches {
		name = "letter"
	}
	size, _ := paper.Named(name)
	return size
}

// PaperSize reads the printer's paper: a name, or width x height as a job file
// writes a size, in mm where neither side has a unit. The error speaks u.
func PaperSize(s string, u quantity.Units) (paper.Size, error) {
	if size, ok := paper.Named(s); ok {
		return size, nil
	}
	s = strings.Join(strings.Fields(s), " ")
	w, h, err := quantity.ParseSize(s, quantity.Millimetres)
	if err != nil {
		like := "300x200 mm"
		if u == quantity.Inches {
			like = "11x17 in"
		}
		return paper.Size{}, fmt.Errorf("%.40q is no paper; allowed are %s or WxH such as %s", s, paper.Names, like)
	}
	for _, side := range []float64{w, h} {
		if !(side >= paper.MinSide && side <= paper.MaxSide) {
			one := u.MM(1) // limits in whole units, both allowed
			return paper.Size{}, fmt.Errorf("%.40q has a side of %s; from %g %s to %g %s is allowed",
				s, quantity.Plain(u.Length(side)), math.Ceil(paper.MinSide/one), u, math.Floor(paper.MaxSide/one), u)
		}
	}
	if last := s[len(s)-1]; last >= '0' && last <= '9' {
		s += " mm" // what a bare number means, for whoever reads it on a print
	}
	return paper.Size{Name: s, Width: w, Height: h}, nil
}

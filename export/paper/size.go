package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Size is a sheet of paper in mm, as its maker names its sides; a [Layout]
// turns it as it needs.
type Size struct {
	Name          string
	Width, Height float64
}

// Limits in mm of a sheet's side.
const (
	MinSide = 100
	MaxSide = 5000
)

// Names lists what [Named] knows, as a sentence does.
const Names = "A4, A3, A2, A1, letter, tabloid"

// Named returns the sheet of a name in any case, and whether there is one: A4,
// A3, A2 or A1 (ISO 216), letter or tabloid (ANSI A and B).
func Named(name string) (Size, bool) {
	switch strings.ToLower(strings.TrimSpace(name)) {
	case "a4":
		return Size{"A4", 210, 297}, true
	case "a3":
		return Size{"A3", 297, 420}, true
	case "a2":
		return Size{"A2", 420, 594}, true
	case "a1":
		return Size{"A1", 594, 841}, true
	case "letter":
		return Size{"letter", 215.9, 279.4}, true
	case "tabloid":
		return Size{"tabloid", 279.4, 431.8}, true
	}
	return Size{}, false
}

// ParseScale reads what was measured on a print's two 100 mm bars, as shares
// of what they should be: 1.013x0.998 says 101.3 mm across and 99.8 mm up.
// Each is from 0.9 to 1.1. The error is one sentence.
func ParseScale(s string) (x, y float64, err error) {
	const allowed = "two numbers from 0.9 to 1.1 are allowed, such as 1.013x0.998 for bars measured as 101.3 mm across and 99.8 mm up"
	a, b, _ := strings.Cut(strings.ReplaceAll(strings.ToLower(s), "×", "x"), "x")
	x, okX := plain(strings.TrimSpace(a))
	y, okY := plain(strings.TrimSpace(b))
	if !okX || !okY || !sane(x) || !sane(y) {
		return 0, 0, fmt.Errorf("print scale %q is wrong; %s", clip(s), allowed)
	}
	return x, y, nil
}

// sane reports whether k can be a printer's error: one beyond a tenth is a
// fitted page, which no correction should hide.
func sane(k float64) bool { return k >= 0.9 && k <= 1.1 }

// plain reads digits with at most one dot: no sign, exponent or name of a
// number that is none.
func plain(s string) (float64, bool) {
	if s == "" || strings.Trim(s, "0123456789.") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && !math.IsInf(v, 0)
}

// clip shortens what a user typed to what a sentence can hold.
func clip(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

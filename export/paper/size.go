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
	minSide = 100
	maxSide = 5000
)

// Parse reads a paper size: A4, A3, A2 or A1 (ISO 216), letter or tabloid (ANSI
// A and B), in any case, or width x height with mm or in behind the second or
// both, mm if neither has one: 300x200, 300x200mm, 8.5x14in, 300 mm x 200 mm.
// Sides from 100 to 5000 mm are allowed. The error is one sentence.
func Parse(s string) (Size, error) {
	const allowed = "allowed are A4, A3, A2, A1, letter, tabloid or WxH in mm or in, such as 300x200mm"
	name := strings.ToLower(strings.TrimSpace(s))
	switch name {
	case "a4":
		return Size{"A4", 210, 297}, nil
	case "a3":
		return Size{"A3", 297, 420}, nil
	case "a2":
		return Size{"A2", 420, 594}, nil
	case "a1":
		return Size{"A1", 594, 841}, nil
	case "letter":
		return Size{"letter", 215.9, 279.4}, nil
	case "tabloid":
		return Size{"tabloid", 279.4, 431.8}, nil
	}

	a, b, ok := pair(name)
	if !ok {
		return Size{}, fmt.Errorf("paper %q is not known; %s", clip(s), allowed)
	}
	h, unitH, okH := length(b)
	w, unitW, okW := length(a)
	if !okW || !okH || unitH == "" && unitW != "" {
		return Size{}, fmt.Errorf("paper %q is not known; %s", clip(s), allowed)
	}
	if unitW == "" {
		unitW = unitH
	}
	w, h = inMM(w, unitW), inMM(h, unitH)
	for _, side := range [2]float64{w, h} {
		if !(side >= minSide && side <= maxSide) {
			return Size{}, fmt.Errorf("paper %q has a side of %.4g mm; from %d to %d mm is allowed", clip(s), side, minSide, maxSide)
		}
	}
	return Size{fmt.Sprintf("%.6gx%.6g mm", w, h), w, h}, nil
}

// ParseScale reads what was measured on a print's two 100 mm bars, as shares
// of what they should be: 1.013x0.998 says 101.3 mm across and 99.8 mm up.
// Each is from 0.9 to 1.1. The error is one sentence.
func ParseScale(s string) (x, y float64, err error) {
	const allowed = "two numbers from 0.9 to 1.1 are allowed, such as 1.013x0.998 for bars measured as 101.3 mm across and 99.8 mm up"
	a, b, ok := pair(strings.ToLower(strings.TrimSpace(s)))
	if ok {
		x, ok = plain(a)
	}
	if ok {
		y, ok = plain(b)
	}
	if !ok || !sane(x) || !sane(y) {
		return 0, 0, fmt.Errorf("print scale %q is wrong; %s", clip(s), allowed)
	}
	return x, y, nil
}

// sane reports whether k can be a printer's error: one beyond a tenth is a
// fitted page, which no correction should hide.
func sane(k float64) bool { return k >= 0.9 && k <= 1.1 }

// pair splits a x b at the x or the times sign.
func pair(s string) (a, b string, ok bool) {
	a, b, ok = strings.Cut(strings.ReplaceAll(s, "×", "x"), "x")
	return strings.TrimSpace(a), strings.TrimSpace(b), ok
}

// length splits a number from its unit, "mm", "in" or none.
func length(s string) (v float64, unit string, ok bool) {
	for _, u := range [2]string{"mm", "in"} {
		if rest, found := strings.CutSuffix(s, u); found {
			s, unit = strings.TrimSpace(rest), u
			break
		}
	}
	v, ok = plain(s)
	return v, unit, ok
}

// plain reads digits with at most one dot: no sign, exponent or name of a
// number that is none.
func plain(s string) (float64, bool) {
	if s == "" || strings.Trim(s, "0123456789.") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && !math.IsInf(v, 0)
}

func inMM(v float64, unit string) float64 {
	if unit == "in" {
		return v * 25.4
	}
	return v
}

// clip shortens what a user typed to what a sentence can hold.
func clip(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

package dxf

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestFixed compares with exact arithmetic of math/big: off by half a unit of
// the last place at most.
func TestFixed(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{0, 6, "0.000000"},
		{math.Copysign(0, -1), 6, "0.000000"},
		{-4e-7, 6, "0.000000"},
		{-6e-7, 6, "-0.000001"},
		{1e6, 9, "1000000.000000000"},
		{-0.414213562373095, 12, "-0.414213562373"},
		{0.9999999, 6, "1.000000"},
		{359.05, 2, "359.05"},
	} {
		if got := string(appendFixed(nil, c.v, c.decimals)); got != c.want {
			t.Errorf("%g with %d decimals is %s, want %s", c.v, c.decimals, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-largest, largest).Draw(t, "v")
		decimals := rapid.IntRange(0, fineDecimals).Draw(t, "decimals")
		s := string(appendFixed(nil, v, decimals))
		got, ok := new(big.Rat).SetString(s)
		if !ok {
			t.Fatalf("%q is no number", s)
		}
		off, _ := got.Sub(got, new(big.Rat).SetFloat64(v)).Float64()
		if math.Abs(off) > 0.5*math.Pow10(-decimals)*(1+1e-9) {
			t.Errorf("%g printed as %s, off by %g", v, s, off)
		}
		if s[0] == '-' && strings.Trim(s, "-0.") == "" {
			t.Errorf("%g printed as %s", v, s)
		}
	})
}

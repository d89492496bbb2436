package vary

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/keyed"
)

func TestParseKey(t *testing.T) {
	for _, c := range []struct {
		in, path string
		values   []string
	}{
		{"bend.radius=200..260/20mm", "bend.radius", []string{"200 mm", "220 mm", "240 mm", "260 mm"}},
		{"bend.radius=200..260/25mm", "bend.radius", []string{"200 mm", "225 mm", "250 mm"}}, // the end is not on a step
		{"bend.radius=10in..8in/1in", "bend.radius", []string{"10 in", "9 in", "8 in"}},
		{"a=3..3/1mm", "a", []string{"3 mm"}},
		{"a=0.1..0.5/0.1", "a", []string{"0.1", "0.2", "0.3", "0.4", "0.5"}},
		{"a=1/8..1/2/1/8in", "a", []string{"0.125 in", "0.25 in", "0.375 in", "0.5 in"}},
		{"ends.cut[1]=-10..10/10deg", "ends.cut[1]", []string{"-10 deg", "0 deg", "10 deg"}},
		{"a=-0..-2/1", "a", []string{"0", "-1", "-2"}},
		{`a=["1]",2],3`, "a", []string{`["1]",2]`, "3"}},
		{"tube.wall=2,3,4mm", "tube.wall", []string{"2 mm", "3 mm", "4 mm"}},
		{"tube.wall=2mm,1/8,3/16 in", "tube.wall", []string{"2 mm", "1/8 in", "3/16 in"}},
		{"tube.wall = 2, 4..6/1 , 8mm", "tube.wall", []string{"2 mm", "4 mm", "5 mm", "6 mm", "8 mm"}},
		{"tube.wall=16 ga", "tube.wall", []string{"16 ga"}},
		{"tube.material=6082-T6,1018 cold drawn", "tube.material", []string{"6082-T6", "1018 cold drawn"}},
		{"filler.alloy=158,none", "filler.alloy", []string{"158", "none"}},
		{`a=6' 2-1/2",3"`, "a", []string{`6' 2-1/2"`, `3 "`}},
		{`ends.cut=["0 deg", "1, deg"],[1,2]`, "ends.cut", []string{`["0 deg", "1, deg"]`, "[1,2]"}},
		{`name="a,b",c`, "name", []string{`"a,b"`, "c"}},
		{"block.lighten=true,false", "block.lighten", []string{"true", "false"}},
	} {
		got, err := ParseKey(c.in)
		if err != nil || got.Path != c.path || !slices.Equal(slices.Collect(got.All()), c.values) {
			t.Errorf("%s: %q %q, %v", c.in, got.Path, slices.Collect(got.All()), err)
		}
	}
	for in, says := range map[string]string{
		"bend.radius":           "names no values",
		"=1":                    "names no values",
		"a= ":                   "names no values",
		"a=\xff":                "no text has",
		"a=1\n":                 "no text has",
		"a=1,,2":                "an empty value",
		"a=200..600mm":          "no step",
		"a=NaN..2/1":            "does not start at a number",
		"a=x..600mm/20mm":       "does not start at a number",
		"a=200..600/0mm":        "no step above 0",
		"a=200mm..600mm/1in":    "the units mm and in",
		"a=0..1e9/1mm":          "more than 10000000 values",
		"a=1..1e999/1mm":        "no step above 0",
		"a=1..5e6/1,1..6e6/1mm": "more than 10000000 values",
	} {
		if k, err := ParseKey(in); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %d values, %v; want %s", in, k.Len(), err, says)
		}
	}
	if _, err := ParseKeys([]string{"a=1", "a=2"}); err == nil || !strings.Contains(err.Error(), "twice") {
		t.Error(err)
	}
	if _, err := ParseKeys([]string{"a=1..4000/1", "b=1..4000/1"}); err == nil || !strings.Contains(err.Error(), "combinations") {
		t.Error(err)
	}
}

// A range has its ends and even steps between, either way.
func TestRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, n := rapid.IntRange(-500, 500).Draw(t, "from"), rapid.IntRange(0, 300).Draw(t, "n")
		step, scale := rapid.IntRange(1, 50).Draw(t, "step"), rapid.SampledFrom([]float64{1, 10, 100, 1000}).Draw(t, "scale")
		up := rapid.SampledFrom([]int{-1, 1}).Draw(t, "up")
		k, err := ParseKey(fmt.Sprintf("a=%v..%v/%vmm", float64(from)/scale, float64(from+up*n*step)/scale, float64(step)/scale))
		if err != nil || k.Len() != n+1 {
			t.Fatal(k.Len(), n+1, err)
		}
		for i, v := range slices.Collect(k.All()) {
			if want := fmt.Sprintf("%v mm", float64(from+up*i*step)/scale); v != want {
				t.Fatalf("%d: %s, want %s", i, v, want)
			}
		}
	})
}

// Every combination comes once, the last key fastest, and stands in the text.
func TestCombinations(t *testing.T) {
	keys, err := ParseKeys([]string{"tube.wall=2,3mm", "name=a,b,c", "ends.cut[1]=1..2/1deg"})
	if err != nil || keys.Count() != 12 {
		t.Fatal(keys, err)
	}
	i := 0
	for _, wall := range []string{"2 mm", "3 mm"} {
		for _, name := range []string{"a", "b", "c"} {
			for _, cut := range []string{"1 deg", "2 deg"} {
				want := []string{wall, name, cut}
				got := keys.At(i)
				text, err := keys.Set("# kept\nname = \"x\"\n[ends]\ncut = [0, 0]\n", got)
				if !slices.Equal(got, want) || err != nil {
					t.Fatal(i, got, want, err)
				}
				for n, k := range keys {
					if v, ok := keyed.Value(text, k.Path); !ok || v != want[n] {
						t.Errorf("%s: %q in\n%s", k.Path, v, text)
					}
				}
				i++
			}
		}
	}
}

// Pieces are taken in order, each once, and few are ever ahead.
func TestInOrder(t *testing.T) {
	const n = 5000
	var begun atomic.Int64
	next := 0
	most := 16*runtime.GOMAXPROCS(0) + 16
	done, err := InOrder(context.Background(), n, func(i int) int {
		if begun.Add(1); i%97 == 0 {
			runtime.Gosched()
		}
		return i * i
	}, func(i, v int) error {
		if i != next || v != i*i {
			t.Fatalf("%d: %d as %d", next, v, i)
		}
		next++
		if ahead := int(begun.Load()) - next; ahead > most {
			t.Errorf("%d pieces ahead", ahead)
		}
		return nil
	})
	if done != n || next != n || err != nil {
		t.Error(done, next, err)
	}
}

// It ends early with its context, taking what was begun, and with the first error.
func TestInOrderEnds(t *testing.T) {
	before := runtime.NumGoroutine()
	ctx, cancel := context.WithCancel(context.Background())
	taken := 0
	done, err := InOrder(ctx, 1_000_000, func(i int) int { return i }, func(i, _ int) error {
		if taken++; i == 99 {
			cancel()
		}
		return nil
	})
	if err != nil || done != taken || done < 100 || done > 100+32*runtime.GOMAXPROCS(0) {
		t.Error(done, taken, err)
	}
	full := errors.New("full")
	taken = 0
	var begun atomic.Int64
	done, err = InOrder(context.Background(), 1_000_000, func(i int) int { return int(begun.Add(1)) }, func(i, _ int) error {
		if taken++; i == 50 {
			return full
		}
		return nil
	})
	if n := begun.Load(); done != 50 || taken != 51 || err != full || n > 51+32*int64(runtime.GOMAXPROCS(0)) {
		t.Error(done, taken, n, err)
	}
	if done, err := InOrder(context.Background(), 0, func(i int) int { return i }, func(int, int) error { return nil }); done != 0 || err != nil {
		t.Error(done, err)
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return
		}
		runtime.Gosched()
	}
	t.Errorf("%d goroutines, %d before", runtime.NumGoroutine(), before)
}

package paper

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestWindows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-500, 500).Draw(t, "lo")
		hi := lo + rapid.Float64Range(1, 2000).Draw(t, "length")
		width := rapid.Float64Range(70, 400).Draw(t, "width")
		var spans []span
		for range rapid.IntRange(0, 12).Draw(t, "spans") {
			a := rapid.Float64Range(lo, hi).Draw(t, "a")
			spans = append(spans, span{a, min(hi, a+rapid.Float64Range(0, width-1).Draw(t, "len"))})
		}
		want := span{lo - rapid.Float64Range(0, 50).Draw(t, "wanted below"), hi + rapid.Float64Range(0, 50).Draw(t, "wanted above")}
		ways := axis{need: span{lo, hi}, want: want, texts: spans}.ways(width)
		if len(ways) == 0 {
			t.Fatal("no way at all")
		}
		for _, c := range ways {
			covers(t, c, lo, hi, width, spans)
		}
	})
}

// covers fails unless windows cover a stretch, overlap as they must and hold all
// spans.
func covers(t *rapid.T, c cuts, lo, hi, width float64, spans []span) {
	n := len(c.lo)
	if len(c.seam) != n-1 {
		t.Fatalf("%d windows, %d seams", n, len(c.seam))
	}
	const tol = 1e-9
	if c.lo[0] > lo+tol || c.lo[n-1]+width < hi-tol {
		t.Fatalf("%v does not cover %g to %g", c.lo, lo, hi)
	}
	for i, x := range c.seam {
		if c.lo[i+1] <= c.lo[i] || c.lo[i]+width-c.lo[i+1] < overlap-tol {
			t.Fatalf("windows %d and %d at %v: overlap", i, i+1, c.lo)
		}
		if x < c.lo[i+1]+overlap/2-tol || x > c.lo[i]+width-overlap/2+tol {
			t.Fatalf("seam %d at %g is not well inside both windows", i, x)
		}
		if i > 0 && x < c.seam[i-1]-tol {
			t.Fatalf("seams %v run back", c.seam)
		}
	}
	if !c.whole(spans, width) {
		t.Fatalf("a text is whole nowhere")
	}
	if len(spans) == 0 {
		// Without texts: the fewest windows that can do.
		if n > 1 && float64(n-1)*width-float64(n-2)*overlap >= hi-lo {
			t.Fatalf("%d windows where %d do", n, n-1)
		}
	}
	for i := range n {
		// What is left of a window after cutting says which cells a stretch is in.
		s := c.cell(i, width)
		if first, last := c.cellsOf(s.lo+tol, s.hi-tol); first != i || last != i {
			t.Fatalf("the middle of cell %d is said to be in %d to %d", i, first, last)
		}
	}
}

// Seams keep off texts and, where that leaves a choice, off lines.
func TestWaysKeepTextsOffSeams(t *testing.T) {
	// The even cut falls at 150; the text and the line there make it move.
	a := axis{need: span{0, 300}, want: span{0, 300}, texts: []span{{140, 160}}, lines: []span{{161, 170}}}
	ways := a.ways(190)
	best := slices.MinFunc(ways, func(a, b cuts) int {
		if a.better(b) {
			return -1
		}
		return 1
	})
	if len(best.lo) != 2 || best.texts != 0 || best.lines != 0 {
		t.Errorf("windows %v, seams %v cross %d texts and %d lines", best.lo, best.seam, best.texts, best.lines)
	}
	if x := best.seam[0]; x > 139 && x < 171 {
		t.Errorf("seam at %g", x)
	}
}

// What is only wanted is shown where that takes no more windows, and costs none.
func TestWaysOfWhatIsWanted(t *testing.T) {
	for _, c := range []struct {
		need, want span
		n          int
		covers     bool
	}{
		{span{0, 100}, span{-20, 100}, 1, true},
		{span{0, 180}, span{-20, 180}, 1, false},
		{span{0, 300}, span{-10, 330}, 2, true},
		{span{0, 360}, span{-10, 370}, 2, false},
	} {
		for _, w := range (axis{need: c.need, want: c.want}).ways(190) {
			first, last := w.lo[0], w.lo[len(w.lo)-1]+190
			if len(w.lo) != c.n || first > c.need.lo || last < c.need.hi || c.covers && (first > c.want.lo || last < c.want.hi) {
				t.Errorf("need %v, want %v: windows from %v", c.need, c.want, w.lo)
			}
		}
	}
}

package paper

import (
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
		c := windows(lo, hi, width, spans)
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
	})
}

func TestWindowsKeepTextsOffSeams(t *testing.T) {
	// The even cut falls at 150; the text there makes it move.
	c := windows(0, 300, 190, []span{{140, 160}})
	if len(c.lo) != 2 || !c.clean([]span{{140, 160}}) {
		t.Errorf("windows %v, seams %v cross the text", c.lo, c.seam)
	}
}

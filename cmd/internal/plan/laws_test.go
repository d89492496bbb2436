package plan

import (
	"math"
	"slices"
	"sync"
	"testing"

	"overbend/profiles"
)

// A job comes out the same to the last bit, whatever jobs were worked out before it
// with the same tables, at once or one after the other.
func TestTablesDoNotMatter(t *testing.T) {
	texts := []string{
		``, `bend.radius = "300 mm"`, `bend.radius = "900 mm"`, `tube.wall = "2 mm"`, `tube.material = "304 annealed"`,
		`tube.material = "S235"`, `tube.material = "6061-T6"`, `tube.corner = "4 mm"`, `strip.thickness = "3 mm"`, `allowance.proof = "310 MPa"`,
	}
	var tables Tables
	var wait sync.WaitGroup
	for _, order := range [][]int{{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, {9, 2, 8, 1, 7, 0, 6, 3, 5, 4}} {
		wait.Go(func() {
			for _, i := range order {
				j := jobOf(t, texts[i])
				got, err := tables.New(j)
				if err != nil {
					t.Errorf("%s: %v", texts[i], err)
					continue
				}
				want, err := New(j)
				if err != nil {
					t.Errorf("%s: %v", texts[i], err)
					continue
				}
				if got.Press == nil || !slices.Equal(got.Press.Schedule, want.Press.Schedule) || got.Nominal != want.Nominal || *got.Low != *want.Low || *got.High != *want.High || got.Section != want.Section {
					t.Errorf("%s: %+v, alone %+v", texts[i], got.Press, want.Press)
				}
			}
		})
	}
	wait.Wait()
}

// What is kept stays within bounds, and a strain of nothing asks for no table.
func TestTablesAreBounded(t *testing.T) {
	var tables Tables
	c := profiles.Curve{Family: profiles.Stainless, Youngs: 200000, Proof: 230, Ultimate: 540, Exponent: 7}
	for i := range 300 {
		if l := tables.of(c.At(230+float64(i)), 0.05); math.Abs(l.Stress(0.02)/c.At(230+float64(i)).Law().Stress(0.02)-1) > 1e-8 {
			t.Fatalf("another law at %d", i)
		}
	}
	if n := len(tables.laws); n == 0 || n > mostTables {
		t.Errorf("%d tables", n)
	}
	al := profiles.Curve{Youngs: 70000, Proof: 250, Ultimate: 300, Exponent: 25}
	for _, c := range []profiles.Curve{c, al} {
		for _, strain := range []float64{0, math.NaN(), -1} {
			if l := tables.of(c, strain); l != c.Law() {
				t.Errorf("a table up to %g", strain)
			}
		}
	}
	if a, b := stretch(0.3), stretch(0.5); a != 0.5 || b != 0.5 {
		t.Errorf("tables up to %g and %g", a, b)
	}
}

package sheet

import (
	"math"
	"strconv"

	"overbend/export/drawing"
	"overbend/geom"
)

// steps of the scales in every decade: 1, 2 and 5 as ISO 5455 recommends (from
// memory) and others between them, for a small field would be half empty.
var steps = [...]float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8}

// fitted returns the largest picture that fits w by h mm, moved so that its
// middle is the origin, its k and its scale as words. build draws the n-th of
// some ways to show the thing, the best first, at k mm of paper per mm; it
// reports false when that way can't be at that scale. A picture that is not
// [tidy] is passed over. The thing is bare.X by
// bare.Y mm itself. A zero k says that no way fits at any scale from 5:1 to
// 1:5000.
func (s *sheet) fitted(w, h float64, bare geom.Point, ways int, build func(k float64, way int) (drawing.Drawing, bool)) (drawing.Drawing, float64, string) {
	for decade := -1; decade <= 3; decade++ {
		for _, step := range steps {
			n := step * math.Pow(10, float64(decade))
			k := 1 / (n * s.grow) // the sheet grows, the scale holds on its paper
			if n < 0.2 || bare.X*k > w || bare.Y*k > h {
				continue
			}
			for way := range ways {
				d, ok := build(k, way)
				if !ok {
					continue
				}
				if box := d.Bounds(); box.Width() <= w && box.Height() <= h && tidy(d) {
					return d.Apply(geom.Translate(box.Centre().Mul(-1))), k, scaleName(n)
				}
			}
		}
	}
	return drawing.Drawing{}, 0, ""
}

// widestScale takes as much room in a heading as any scale's name, "1.667:1" and
// "1:1000" among them.
const widestScale = "00.000:1"

// scaleName returns 1:n, or for n below 1 the enlargement.
func scaleName(n float64) string {
	short := func(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }
	if n < 1 {
		return short(1/n) + ":1"
	}
	return "1:" + short(n)
}

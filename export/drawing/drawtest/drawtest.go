// Package drawtest holds what the tests of all writers of paper share: a
// drawing with a bit of everything, and the comparison with a golden file. It
// writes no format itself.
package drawtest

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"overbend/export/drawing"
	"overbend/geom"
)

// Sample returns a drawing that has every role, tone and anchor, every kind of
// arc, and a line of lettering that reads words.
func Sample(words string) drawing.Drawing {
	d := drawing.Drawing{Title: `<block> & "cheek" 40 × 40`, Page: geom.Rect{Min: geom.Pt(-10, -20), Max: geom.Pt(200, 120)}}
	for i := range drawing.Fill + 1 {
		y := 10 + 9*float64(i)
		d.Line(i, geom.Pt(0, y), geom.Pt(50, y))
		d.Box(i, drawing.Tone(i)%(drawing.Dark+1), geom.Rect{Min: geom.Pt(55, y-3), Max: geom.Pt(65, y+3)})
	}
	for i, sweep := range []geom.Angle{20, 90, 180, 270, -200, -60} {
		c := geom.Pt(85+20*float64(i%3), 90-30*float64(i/3))
		d.Add(drawing.Stroke{Path: geom.Start(c.Add(geom.Pt(8, 0))).ArcAbout(c, sweep*geom.Degree), Role: drawing.Visible})
	}
	d.Add(drawing.Ring{Circle: geom.Circle{Centre: geom.Pt(160, 80), Radius: 12.5}, Role: drawing.CutInner, Tone: drawing.Pale})
	d.Add(drawing.Stroke{Path: geom.Start(geom.Pt(150, 30)).BulgeTo(geom.Pt(190, 30), -0.4).LineTo(geom.Pt(190, 50)).BulgeTo(geom.Pt(150, 50), 0.2).Close(), Role: drawing.CutOuter, Tone: drawing.Block})
	d.Add(
		drawing.Text{At: geom.Pt(80, 20), Words: words, Height: 3.5, Role: drawing.Note},
		drawing.Text{At: geom.Pt(140, 10), Words: "turned", Height: 5, Angle: 30 * geom.Degree, Anchor: drawing.Middle, Role: drawing.Note},
		drawing.Text{At: geom.Pt(190, 10), Words: "bold", Height: 5, Anchor: drawing.Right, Bold: true, Role: drawing.Note},
	)
	d.Add(drawing.Bar(geom.Pt(0, -12), geom.Pt(100, -12), 10)...)
	return d
}

// Golden compares a file's bytes with the one of that name under the package's
// testdata, which update rewrites: then look at it.
func Golden(t *testing.T, name string, got []byte, update bool) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if update {
		if err := os.MkdirAll("testdata", 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(got, want) {
		return
	}
	i := 0
	for i < len(got) && i < len(want) && got[i] == want[i] {
		i++
	}
	t.Errorf("%s has changed at byte %d: %q", name, i, got[max(0, i-40):min(len(got), i+40)])
}

package dxf_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/dxf/dxftest"
	"overbend/geom"
)

var update = flag.Bool("update", false, "rewrite the golden files; then open each in a reader")

// TestGolden guards every byte of the format: tags that no reader of ours
// looks at, but that others want.
func TestGolden(t *testing.T) {
	for name, o := range map[string]dxf.Options{
		"sample-2000.dxf":      {Version: dxf.R2000},
		"sample-r12.dxf":       {Version: dxf.R12},
		"sample-r12-plain.dxf": {Version: dxf.R12Plain},
	} {
		t.Run(name, func(t *testing.T) {
			var got bytes.Buffer
			if err := dxf.Write(&got, sample(), o); err != nil {
				t.Fatal(err)
			}
			file := filepath.Join("testdata", name)
			if *update {
				if err := os.WriteFile(file, got.Bytes(), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got.Bytes(), want) {
				t.Errorf("%s differs; run with -update and look at the change", file)
			}
		})
	}
}

// TestSample checks the sample against what its dimensions say, through the
// test's own reader, in every version and unit.
func TestSample(t *testing.T) {
	for _, v := range []dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain} {
		for _, o := range []dxf.Options{{Version: v}, {Version: v, Inches: true}, {Version: v, CutOnly: true}} {
			t.Run(fmt.Sprintf("%v inches %v cut only %v", v, o.Inches, o.CutOnly), func(t *testing.T) {
				r, err := readDXF([]byte(file(t, o)))
				if err != nil {
					t.Fatal(err)
				}
				insunits, metric, words := "4", "1", "UNITS MM  SIZE 140.00 x 60.00"
				if o.Inches {
					insunits, metric, words = "1", "0", "UNITS INCH  SIZE 5.512 x 2.362"
				}
				if r.header["$INSUNITS"] != insunits || r.header["$MEASUREMENT"] != metric {
					t.Errorf("units %s, %s", r.header["$INSUNITS"], r.header["$MEASUREMENT"])
				}
				wantLayers := map[string]int{"0": 7, "OUTLINE": 7, "HOLES": 1, "SCRIBE": 3, "NOTES": 8}
				if o.CutOnly {
					wantLayers = map[string]int{"0": 7, "OUTLINE": 7, "HOLES": 1}
				}
				if !maps.Equal(r.layers, wantLayers) {
					t.Errorf("layers %v", r.layers)
				}
				radii, noted := 0, 0
				low, high := xy{math.Inf(1), math.Inf(1)}, xy{math.Inf(-1), math.Inf(-1)}
				for _, f := range r.figs {
					for _, radius := range f.radii {
						if math.Abs(radius*r.unit()-sampleRadius) < 1e-5 {
							radii++
						}
					}
					if f.words == words {
						noted++
					}
					if f.layer != "SCRIBE" && f.layer != "NOTES" {
						for _, p := range f.points {
							low.x, low.y = min(low.x, p.x*r.unit()), min(low.y, p.y*r.unit())
							high.x, high.y = max(high.x, p.x*r.unit()), max(high.y, p.y*r.unit())
						}
					}
				}
				if radii != 1 {
					t.Errorf("%d arcs of the block's radius", radii)
				}
				if want := map[bool]int{false: 1, true: 0}[o.CutOnly]; noted != want {
					t.Errorf("%d notes of unit and size, want %d", noted, want)
				}
				// The reader's polygons miss the crown by R(1 - cos(sweep/2n)).
				for _, d := range []float64{low.x, low.y, high.x - 140, high.y - 60} {
					if math.Abs(d) > 1e-5 {
						t.Errorf("what is cut spans %v to %v, want 140 by 60 from 0, 0", low, high)
						break
					}
				}
			})
		}
	}
}

// A plate with parts on it lies with its own corner at the origin, whether or
// not its outline is in the file: the parts keep their distance from its edge.
func TestPage(t *testing.T) {
	for _, o := range allOptions() {
		d := sample() // 140 x 60
		box := d.Shapes[len(d.Shapes)-1].(drawing.Stroke).Path.Bounds()
		d.Page = geom.Rect{Min: box.Min.Sub(geom.Pt(15, 25)), Max: box.Max.Add(geom.Pt(45, 15))}
		var b bytes.Buffer
		if err := dxf.Write(&b, d, o); err != nil {
			t.Fatal(err)
		}
		if err := dxftest.Lint(b.Bytes()); err != nil {
			t.Errorf("%+v: %v", o, err)
		}
		r, err := readDXF(b.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		low, size := xy{math.Inf(1), math.Inf(1)}, false
		for _, f := range r.figs {
			// All is on the plate, the note of its size included.
			for _, p := range f.points {
				if x, y := p.x*r.unit(), p.y*r.unit(); x < -1e-5 || x > 200+1e-5 || y < -1e-5 || y > 100+1e-5 {
					t.Errorf("%+v: %q on %s at %g, %g is off the plate", o, f.words, f.layer, x, y)
				}
			}
			size = size || f.words == "UNITS MM  SIZE 200.00 x 100.00" || f.words == "UNITS INCH  SIZE 7.874 x 3.937"
			if f.layer != "SCRIBE" && f.layer != "NOTES" {
				for _, p := range f.points {
					low.x, low.y = min(low.x, p.x*r.unit()), min(low.y, p.y*r.unit())
				}
			}
		}
		if math.Abs(low.x-15) > 1e-5 || math.Abs(low.y-25) > 1e-5 || size == o.CutOnly {
			t.Errorf("%+v: what is cut begins at %v, size noted %v; want 15, 25", o, low, size)
		}
	}
}

// full is a disk without room.
type full struct{ writes int }

func (f *full) Write([]byte) (int, error) { f.writes++; return 0, errFull }

var errFull = errors.New("no room")

func TestWriteError(t *testing.T) {
	var w full
	if err := dxf.Write(&w, sample(), dxf.Options{}); !errors.Is(err, errFull) || w.writes != 1 {
		t.Errorf("error %v after %d writes", err, w.writes)
	}
}

func TestParseVersion(t *testing.T) {
	for _, v := range []dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain} {
		if got, err := dxf.ParseVersion(v.String()); got != v || err != nil {
			t.Errorf("ParseVersion(%q) = %v, %v", v, got, err)
		}
	}
	for _, s := range []string{"", "R12", "r14", "Version(3)"} {
		if _, err := dxf.ParseVersion(s); err == nil || !strings.Contains(err.Error(), "must be 2000, r12 or r12-plain") {
			t.Errorf("ParseVersion(%q): %v", s, err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	d := sample()
	for _, v := range []dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain} {
		b.Run(v.String(), func(b *testing.B) {
			b.ReportAllocs()
			var w bytes.Buffer
			for b.Loop() {
				w.Reset()
				if err := dxf.Write(&w, d, dxf.Options{Version: v}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

package kit_test

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/dxf/dxftest"
	"overbend/export/paper"
)

const demo = "../../../testdata/davit-arm.toml"

func options(t testing.TB, sheet string) kit.Options {
	t.Helper()
	size, ok := paper.Named(sheet)
	if _, err := fmt.Sscanf(sheet, "%gx%g", &size.Width, &size.Height); err != nil && !ok {
		t.Fatalf("paper %q: %v", sheet, err)
	}
	return kit.Options{Paper: paper.Layout{Paper: size, Margin: 10}}
}

func find(t testing.TB, files []kit.File, name string) kit.File {
	t.Helper()
	i := slices.IndexFunc(files, func(f kit.File) bool { return f.Name == name })
	if i < 0 {
		t.Fatalf("no %s", name)
	}
	return files[i]
}

// Every drawing of every example, in every dialect and unit, passes the lint
// on the finished file (the lint on the drawing is run by the writer), and
// every kit is complete and the same when built again.
func TestBuildExamples(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		for _, version := range []dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain} {
			for _, cutOnly := range []bool{false, true} {
				for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
					t.Run(fmt.Sprint(filepath.Base(path), version, cutOnly, u), func(t *testing.T) {
						o := options(t, map[quantity.Units]string{quantity.Millimetres: "A4", quantity.Inches: "letter"}[u])
						o.Units, o.DXF = u, dxf.Options{Version: version, CutOnly: cutOnly, Inches: u == quantity.Inches}
						files, err := kit.Build(p, o)
						if err != nil {
							t.Fatal(err)
						}
						again, err := kit.Build(p, o)
						if err != nil {
							t.Fatal(err)
						}
						complete(t, p, files)
						for i, f := range files {
							if f.Name != again[i].Name || !bytes.Equal(f.Data, again[i].Data) {
								t.Errorf("%s is not the same again", f.Name)
							}
							if strings.HasSuffix(f.Name, ".dxf") {
								if err := dxftest.Lint(f.Data); err != nil {
									t.Errorf("%s: %v", f.Name, err)
								}
							}
						}
					})
				}
			}
		}
	}
}

// complete fails unless a kit has every part of its plan as files with plain
// names, sizes and purposes, and each printer page in the PDF.
func complete(t *testing.T, p *plan.Plan, files []kit.File) {
	t.Helper()
	pages := 0
	seen := map[string]bool{}
	for _, f := range files {
		if seen[f.Name] || filepath.Base(f.Name) != f.Name || f.Purpose == "" || !(f.Width > 0 && f.Height > 0) || len(f.Data) == 0 {
			t.Errorf("file %q: %g x %g mm, %d bytes, %q", f.Name, f.Width, f.Height, len(f.Data), f.Purpose)
		}
		seen[f.Name] = true
		if strings.Contains(f.Name, "-page-") || strings.HasPrefix(f.Name, "sheet-") {
			pages++
		}
	}
	want := []string{"blank.dxf", "blank.svg", "sheet-front.svg", "sheet-back.svg", "print.pdf", "block.svg", "cheek.svg", "template-inside.svg", "template-outside.svg"}
	for _, c := range p.Pieces {
		want = append(want, c.Name+".dxf")
	}
	if p.Nest != nil {
		want = append(want, "nest.dxf")
	}
	for _, name := range want {
		if !seen[name] {
			t.Errorf("no %s", name)
		}
	}
	pdf := find(t, files, "print.pdf").Data
	if n := len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf, -1)); n != pages {
		t.Errorf("%d pages in the PDF, %d as SVG", n, pages)
	}
}

// Every SVG states the size that the kit lists, in mm with a viewBox of the
// same numbers and an @page rule, so that it prints 1:1.
func TestBuildPrints(t *testing.T) {
	size := regexp.MustCompile(`<svg width="([\d.]+)mm" height="([\d.]+)mm"[^>]*\bviewBox="0(?:\.0+)? 0(?:\.0+)? ([\d.]+) ([\d.]+)"`)
	rule := regexp.MustCompile(`@page ?\{[^}]*size: ?([\d.]+)mm ([\d.]+)mm`)
	for _, path := range plantest.Examples(t, "../../..") {
		files, err := kit.Build(plantest.Read(t, path), options(t, "A4"))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if !strings.HasSuffix(f.Name, ".svg") {
				continue
			}
			text := strings.ReplaceAll(string(f.Data), "\n", " ")
			head, page := size.FindStringSubmatch(text), rule.FindStringSubmatch(text)
			if head == nil || page == nil {
				t.Fatalf("%s: no size or no @page: %.300s", f.Name, text)
			}
			for i, want := range [6]float64{f.Width, f.Height, f.Width, f.Height, f.Width, f.Height} {
				// The last CSS pixel may be cut or filled up: 0.27 mm.
				if got, err := strconv.ParseFloat(append(head[1:5:5], page[1:]...)[i], 64); err != nil || math.Abs(got-want) > 0.27 {
					t.Errorf("%s: size %d is %g mm, want %g", f.Name, i, got, want)
				}
			}
		}
	}
}

// The cut file's working arc is the plan's block radius, half a kerf outside:
// read back from the polyline's bulges by chord and rise.
func TestBuildBlockRadius(t *testing.T) {
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		files, err := kit.Build(p, options(t, "A4"))
		if err != nil {
			t.Fatal(err)
		}
		want := p.Nominal.Block + p.Job.Cutting.Kerf/2
		if got := largestArc(t, find(t, files, "block.dxf").Data); math.Abs(got-want) > 1e-5*want {
			t.Errorf("%s: an arc of radius %g mm, want %g", filepath.Base(path), got, want)
		}
	}
}

// Whoever runs the table reads in each file what it is, how many of which plate
// and whether a kerf is in it, the nest included; each piece bears a name.
func TestBuildTellsTheTable(t *testing.T) {
	for _, c := range []struct {
		path, file string
		want       []string
	}{
		{demo, "cheek.dxf", []string{"davit-arm cheek", "davit-arm cheek: cut 2 of 10 mm plate", "TRUE SIZE: THE TABLE ALLOWS FOR ITS KERF"}},
		// The demo's centreline is drawn with R 420 mm, and the tube is 40 deep.
		{demo, "template-inside.dxf", []string{"davit-arm R 400 mm", "33 deg"}},
		{demo, "template-outside.dxf", []string{"davit-arm R 440 mm", "33 deg"}},
		{demo, "block.dxf", []string{"davit-arm block R 356.63 mm", "tube 40 x 40 x 3 mm 6082-T6", "bend R 420 mm 33 deg"}},
		{demo, "strip.dxf", []string{"davit-arm backing strip 6 mm thick"}},
		{demo, "blank.dxf", []string{"trim", "tangent", "centre", "roller"}},
		{"../../../testdata/jobs/canopy-hoop.toml", "block-2.dxf", []string{"outline 2 of 2, cut 2"}},
		{"../../../testdata/jobs/gate-brace.toml", "block.dxf", []string{"gate-brace block: cut 3 of 10 mm plate", "OFFSET BY HALF A KERF OF 1.5 MM", "drill %%c13 mm"}},
		{"../../../testdata/jobs/gate-brace.toml", "nest-2.dxf", []string{"gate-brace block R 584.14 mm", "gate-brace: plate 2 of 2, 10 mm thick", "OFFSET BY HALF A KERF OF 1.5 MM"}},
	} {
		files, err := kit.Build(plantest.Read(t, c.path), options(t, "A4"))
		if err != nil {
			t.Fatal(err)
		}
		text := string(find(t, files, c.file).Data)
		for _, w := range c.want {
			if !strings.Contains(text, "\r\n"+w+"\r\n") {
				t.Errorf("%s: no %q", c.file, w)
			}
		}
	}
}

// largestArc returns the radius of the longest arc of an LWPOLYLINE.
func largestArc(t *testing.T, data []byte) float64 {
	t.Helper()
	type vertex struct{ x, y, bulge float64 }
	var v []vertex
	in := false
	lines := strings.Split(strings.ReplaceAll(string(data), "\r\n", "\n"), "\n")
	for i := 0; i+1 < len(lines); i += 2 {
		code, text := strings.TrimSpace(lines[i]), strings.TrimSpace(lines[i+1])
		if code == "0" {
			in = text == "LWPOLYLINE"
		}
		n, err := strconv.ParseFloat(text, 64)
		if !in || err != nil {
			continue
		}
		switch code {
		case "10":
			v = append(v, vertex{x: n})
		case "20":
			v[len(v)-1].y = n
		case "42":
			v[len(v)-1].bulge = n
		}
	}
	longest, radius := 0.0, 0.0
	for i, a := range v {
		if a.bulge == 0 {
			continue
		}
		b := v[(i+1)%len(v)]
		// The bulge is rise over half the chord.
		c := math.Hypot(b.x-a.x, b.y-a.y)
		h := math.Abs(a.bulge) * c / 2
		if r := c*c/(8*h) + h/2; c > longest {
			longest, radius = c, r
		}
	}
	return radius
}

// What is too long for one sheet of paper is drawn smaller and says so; the
// cut file stays as it is. Names of any length and script fit any page.
func TestBuildExtremes(t *testing.T) {
	base := `
[tube]
shape = "rectangle"
width = 40
depth = 40
wall = 3
material = "6082-T6"
[bend]
radius = 420
angle = 33
legs = [%s, %s]
`
	for _, c := range []struct{ name, leg, scale string }{
		{"long", "6000", "1:5, too large for paper at 1:1"},
		{"short", "0", "1:1"},
		{strings.Repeat("W", 60), "100", "1:1"},
		{strings.Repeat("W ", 29) + "W", "100", "1:1"},
		{`Bügel & <"Säule"> 弯管`, "100", "1:1"},
	} {
		text := fmt.Sprintf("name = %q\n"+base, c.name, c.leg, c.leg)
		j, err := job.Parse("extreme.toml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		p, err := plan.New(j)
		if err != nil {
			t.Fatal(err)
		}
		for _, sheet := range []string{"A4", "190x124", "A1"} {
			files, err := kit.Build(p, options(t, sheet))
			if err != nil {
				t.Errorf("%q on %s: %v", c.name, sheet, err)
				continue
			}
			for _, f := range files {
				if strings.HasSuffix(f.Name, ".dxf") {
					if err := dxftest.Lint(f.Data); err != nil {
						t.Errorf("%q on %s: %s: %v", c.name, sheet, f.Name, err)
					}
				}
			}
			if f := find(t, files, "blank.svg"); !strings.HasSuffix(f.Purpose, ", "+c.scale) {
				t.Errorf("%q: blank.svg is %q, want %s", c.name, f.Purpose, c.scale)
			}
			if f := find(t, files, "blank.dxf"); math.Abs(f.Width-p.Tools.Blank.Length) > 1e-9 {
				t.Errorf("%q: blank.dxf is %g mm long, want %g", c.name, f.Width, p.Tools.Blank.Length)
			}
		}
	}
}

// A part that is larger than a sheet of paper or PDF may be is drawn smaller as a
// whole and tiled at true size; one that is larger than all pages together is only
// drawn, and its line in the list says so.
func TestBuildHuge(t *testing.T) {
	j, err := job.Parse("huge.toml", []byte(`name = "huge"
[tube]
shape = "rectangle"
width = 80
depth = 80
wall = 3
material = "6082-T6"
[bend]
radius = 8000
angle = 60
legs = [300, 300]
[press]
supports = 8000
`))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.New(j)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		sheet, block, doc string
		tiled             bool
	}{
		{"A4", "form block, one layer, 1:2, too large for paper at 1:1", "job sheet and all prints at 1:1", true},
		{"200x150", "form block, one layer, too large to tape together from  pages, 1:2, too large for paper at 1:1", "job sheet and the prints that pages can be taped together for at 1:1", false},
	} {
		files, err := kit.Build(p, options(t, c.sheet))
		if err != nil {
			t.Fatal(err)
		}
		if f := find(t, files, "block.svg"); f.Purpose != c.block {
			t.Errorf("on %s the block is %q", c.sheet, f.Purpose)
		}
		if f := find(t, files, "print.pdf"); !strings.HasPrefix(f.Purpose, c.doc+", ") {
			t.Errorf("on %s the PDF is %q", c.sheet, f.Purpose)
		}
		if f := find(t, files, "block.dxf"); !(f.Width > drawing.MaxSheet) {
			t.Errorf("block.dxf is %g mm wide", f.Width)
		}
		for _, name := range []string{"block-page-1.svg", "template-inside-page-1.svg"} {
			want := c.tiled || name != "block-page-1.svg"
			if got := slices.ContainsFunc(files, func(f kit.File) bool { return f.Name == name }); got != want {
				t.Errorf("on %s, %s: %v", c.sheet, name, got)
			}
		}
	}
}

func BenchmarkBuild(b *testing.B) {
	p, o := plantest.Read(b, demo), options(b, "A4")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := kit.Build(p, o); err != nil {
			b.Fatal(err)
		}
	}
}

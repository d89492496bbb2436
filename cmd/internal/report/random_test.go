package report_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"io"
	"math"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/words"
	"overbend/export/drawing"
	"overbend/export/dxf"
	"overbend/export/dxf/dxftest"
	"overbend/export/paper"
	"overbend/geom"
	"overbend/geom/tooling"
)

// Whatever the job, there is one sentence that says what is wrong with the
// file, or a plan that hangs together and can be shown and made.
func TestRandomJobs(t *testing.T) {
	t.Parallel()
	counts := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		text := plantest.RandomJob(t)
		t.Log(text)
		j, err := job.Parse("random.toml", []byte(text))
		if err != nil {
			oneSentence(t, err)
			counts["refused when read"]++
			return
		}
		p, err := plan.New(j)
		if err != nil {
			oneSentence(t, err)
			counts["refused when worked out"]++
			return
		}
		consistent(t, p)
		counts[fmt.Sprintf("feasible %v, press %v, pieces %v", p.Feasible(), p.Press != nil, len(p.Pieces) > 0)]++
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			var b, short strings.Builder
			if err := errors.Join(report.Text(&b, p, u), report.Page(&short, p, u, "random.toml")); err != nil {
				t.Fatal(err)
			}
			readable(t, b.String())
			readable(t, short.String())
			oneScreen(t, p, short.String())
			if err := report.Alerts(io.Discard, p, u); err != nil {
				t.Fatal(err)
			}
		}
		doc, err := report.JSON(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		cleanNumbers(t, doc)
		if len(p.Pieces) == 0 {
			if p.Feasible() {
				t.Fatal("feasible, but no pieces to cut")
			}
			return
		}
		a4, _ := paper.Named("A4")
		files, err := kit.Build(p, kit.Options{
			DXF: dxf.Options{
				Version: rapid.SampledFrom([]dxf.Version{dxf.R2000, dxf.R12, dxf.R12Plain}).Draw(t, "dxf"),
				Inches:  rapid.Bool().Draw(t, "inch dxf"),
				CutOnly: rapid.Bool().Draw(t, "cut only"),
			},
			Paper: paper.Layout{Paper: a4, Margin: 10},
		})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if strings.HasSuffix(f.Name, ".dxf") {
				if err := dxftest.Lint(f.Data); err != nil {
					t.Fatalf("%s: %v", f.Name, err)
				}
			}
		}
		ledger, err := report.JSON(p, files)
		if err != nil {
			t.Fatal(err)
		}
		cleanNumbers(t, ledger)
	})
	t.Log(counts)
}

// oneSentence fails unless err blames a line of the job file in one sentence.
func oneSentence(t *rapid.T, err error) {
	var e *keyed.Error
	if !errors.As(err, &e) {
		t.Fatalf("not the job file's fault: %T %v", err, err)
	}
	if s := err.Error(); strings.ContainsAny(s, "\n\r") || strings.HasSuffix(s, ".") || !strings.HasPrefix(s, "random.toml:") || e.Key == "" {
		t.Fatalf("not one sentence: %q", s)
	}
	readable(t, err.Error())
}

// readable fails when a text holds what no fabricator should read.
func readable(t *rapid.T, s string) {
	for _, bad := range []string{"NaN", "Inf", "%!", "-0 ", "<nil>", "e+", "\x1b", "(MISSING)"} {
		if i := strings.Index(s, bad); i >= 0 {
			t.Fatalf("%q in ...%s", bad, s[max(0, i-60):min(len(s), i+60)])
		}
	}
}

// oneScreen fails where the short page does not stand on a terminal's screen of 24
// lines, but for what stops and warns and a line each for a block at hand and
// trials, or has a line that is broken too late.
func oneScreen(t *rapid.T, p *plan.Plan, page string) {
	figures, past := 0, 0
	for i, line := range strings.Split(strings.TrimSuffix(page, "\n"), "\n") {
		if i > 0 && utf8.RuneCountInString(line) > 96 && !strings.HasPrefix(line, "overbend ") {
			t.Fatalf("%q is too long", line)
		}
		if strings.HasPrefix(line, "  WARNING") || strings.HasPrefix(line, "  STOP") {
			past = 1
		}
		if past == 0 {
			figures++
		}
	}
	most := 1 + 1 + 10 + 2 + 4 // what a long name of a metal breaks, and the last lines
	if p.Existing != nil {
		most += 2
	}
	if p.Metal.Trial != nil {
		most += 2
	}
	if figures > most {
		t.Fatalf("%d lines before the first warning, at most %d:\n%s", figures, most, page)
	}
	ten := len(report.Ten(p, quantity.Millimetres))
	if p.Existing == nil && p.Metal.Trial == nil && (ten > 10 || p.Press != nil && p.Tools.Whole && ten != 10) {
		t.Fatalf("%d figures", ten)
	}
}

// cleanNumbers fails when a JSON text holds a number that is not finite or is
// a negative zero.
func cleanNumbers(t rapid.TB, text []byte) {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(string(text)))
	d.UseNumber()
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		n, ok := tok.(json.Number)
		if !ok {
			continue
		}
		v, err := n.Float64()
		if err != nil || math.IsInf(v, 0) || math.IsNaN(v) || v == 0 && math.Signbit(v) {
			t.Fatalf("the number %s", n)
		}
	}
}

// consistent fails when a plan's own numbers contradict each other.
func consistent(t *rapid.T, p *plan.Plan) {
	j := p.Job
	stops := 0
	for _, a := range p.Advice {
		if a.Level == words.Stop {
			stops++
		}
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			if text := a.Say(u); text == "" || a.About == "" || strings.HasSuffix(text, ".") || strings.ContainsAny(text, "\n{}") {
				t.Fatalf("advice %+v says %q", a, text)
			}
		}
	}
	if p.Feasible() != (stops == 0) {
		t.Fatalf("feasible %v with %d stops", p.Feasible(), stops)
	}
	n := p.Nominal
	if n.Block <= 0 && p.Feasible() || math.Abs(n.Block+j.Tube.Depth/2-n.Pressed.Radius) > 1e-9*n.Pressed.Radius {
		t.Fatalf("block %g, pressed centreline %g, depth %g", n.Block, n.Pressed.Radius, j.Tube.Depth)
	}
	// A bend only opens when it is let go.
	if n.Pressed.Radius > j.Bend.Radius*(1+1e-9) || n.Ratio > 1+1e-9 || n.Pressed.Angle < j.Bend.Angle*(1-1e-9) {
		t.Fatalf("pressed to %g mm, %g deg for %g mm, %g deg", n.Pressed.Radius, n.Pressed.Angle.Degrees(), j.Bend.Radius, j.Bend.Angle.Degrees())
	}
	if p.Low != nil && !(p.Low.Block >= n.Block && n.Block >= p.High.Block && p.Low.Final.Angle >= p.High.Final.Angle) {
		t.Fatalf("range %+v, %+v, %+v", p.Low, n, p.High)
	}
	if q := p.Press; q != nil {
		if math.Abs(float64(q.Final.Melted-j.Bend.Angle)) > 1e-6 {
			t.Fatalf("the press ends at %g deg, not at %g", q.Final.Melted.Degrees(), j.Bend.Angle.Degrees())
		}
		if len(q.Schedule) < 12 {
			t.Fatalf("a schedule of %d", len(q.Schedule))
		}
		for i, s := range q.Schedule {
			if i == 0 {
				continue
			}
			if last := q.Schedule[i-1]; s.Travel <= last.Travel || s.Loaded <= last.Loaded || s.Melted < last.Melted-1e-9 || s.Filled < last.Filled-1e-9 {
				t.Fatalf("step %d goes back: %+v then %+v", i, last, s)
			}
			if s.Loaded < s.Filled || s.Loaded < s.Melted {
				t.Fatalf("step %d closes when let go: %+v", i, s)
			}
		}
	}
	if len(p.Pieces) == 0 {
		return
	}
	b := p.Tools.Block
	thick := float64(len(b.LayerRadii))*b.Plate + b.Shim
	if math.Abs(thick-p.Tools.CheekGap) > 0.3+1e-6 || b.Stack[0].Packing || b.Stack[len(b.Stack)-1].Packing {
		t.Fatalf("%d layers of %g and a shim of %g in a gap of %g", len(b.LayerRadii), b.Plate, b.Shim, p.Tools.CheekGap)
	}
	// The arc covers the plain pressed arc and 3 degrees each side; where the
	// press's wrap is known, that and as much of the plain arc as a block can.
	arc, plain := p.Tools.BlockArc, n.Pressed.Angle+6*geom.Degree
	if q := p.Press; q != nil {
		if wrap := 2*q.Final.HalfWrap + 6*geom.Degree; arc < wrap-1e-9 {
			t.Fatalf("the block's arc of %g deg does not cover a wrap of %g", arc.Degrees(), wrap.Degrees())
		}
		plain = min(plain, 2*tooling.MostHalfAngle)
	}
	if arc < plain-1e-9 {
		t.Fatalf("the block's arc of %g deg does not cover %g", arc.Degrees(), plain.Degrees())
	}
	if q := p.Press; q != nil && p.Tools.Blank.Length < q.Rig.Supports+2*j.Tube.Depth-1e-9 {
		t.Fatalf("a blank of %g on supports %g apart", p.Tools.Blank.Length, q.Rig.Supports)
	}
	if p.Filler != nil && !(p.Filler.Mass > 0) {
		t.Fatalf("filler %+v", p.Filler)
	}
}

// foreign are the units of the other system in what a job says: of length, force,
// stress, mass and temperature, behind a number or as a column's head.
var foreign = map[quantity.Units]*regexp.Regexp{
	quantity.Inches:      regexp.MustCompile(`[0-9] (mm|cm|m|kN|N|MPa|GPa|bar|kg|kg/m3|cm3)\b|^(kg|bar)$|, (mm|kN|bar)\b|°C`),
	quantity.Millimetres: regexp.MustCompile(`[0-9] (in|ft|lbf|ksi|psi|tonf|lb|ga|in3)\b|^(lb|psi)$|, (in|lbf|psi)$|°F`),
}

// sources are what the catalogue quotes of where a number comes from, in the words
// of the source: a unit in them is its own.
var sources = regexp.MustCompile(`\([^()]{15,}\)|\([^()]*(memory|source|read|plates?)[^()]*\)`)

// What a job says is in its own units, whoever says it: pages, warnings, refusals,
// JSON, cut files, prints and sheet.
func TestOwnUnits(t *testing.T) {
	t.Parallel()
	said := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		text := plantest.RandomJob(t)
		t.Log(text)
		speaks := func(what, s string, u quantity.Units) {
			s = strings.Join(strings.Fields(quantity.Plain(s)), " ")
			for range 3 { // some stand within others
				s = sources.ReplaceAllString(s, "")
			}
			if at := foreign[u].FindStringIndex(s); at != nil {
				t.Fatalf("%s of a job in %s says ...%s", what, u, s[max(0, at[0]-80):min(len(s), at[1]+20)])
			}
			said[what]++
		}
		own := quantity.Millimetres
		if strings.Contains(text, `units = "in"`) {
			own = quantity.Inches
		}
		// A refusal repeats what the file says as it stands there; here all is in mm,
		// so an inch job's is looked at without that.
		quoted := func(s string) string {
			return regexp.MustCompile(`[0-9.]+(x[0-9.]+)? mm (is not allowed|leaves|does not)`).ReplaceAllString(quantity.Plain(s), "")
		}
		rated := "" // the press's capacity, in whatever unit it has
		speaksOwn := speaks
		speaks = func(what, s string, u quantity.Units) {
			if s = quantity.Plain(s); rated != "" && strings.Contains(s, rated) {
				s = strings.ReplaceAll(s, rated, "")
				said["capacity"]++
			}
			speaksOwn(what, s, u)
		}
		j, err := job.Parse("random.toml", []byte(text))
		if err != nil {
			speaks("refusal", quoted(err.Error()), own)
			return
		}
		p, err := plan.New(j)
		if err != nil {
			speaks("refusal of the plan", quoted(err.Error()), own)
			return
		}
		if c := j.Press.Capacity; c > 0 {
			rated = quantity.Plain(own.Show(j.Press.Rated.Of(c)))
		}
		var page, alerts strings.Builder
		if err := errors.Join(report.Text(&page, p, own), report.Page(&page, p, own, "job.toml"), report.Alerts(&alerts, p, own)); err != nil {
			t.Fatal(err)
		}
		speaks("page", page.String(), own)
		speaks("alerts", alerts.String(), own)
		doc, err := report.JSON(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		speaks("JSON", string(doc), own)
		for _, a := range p.Advice {
			speaks(string(a.Level), a.Say(own), own)
		}
		if len(p.Pieces) == 0 {
			return
		}
		a4, _ := paper.Named("A4")
		o := kit.Options{Units: own, DXF: dxf.Options{Inches: own == quantity.Inches}, Paper: paper.Layout{Paper: a4, Margin: 10}}
		if own == quantity.Inches {
			o.Paper.Rule = drawing.Customary
		}
		files, err := kit.Build(p, o)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			switch filepath.Ext(f.Name) {
			case ".svg":
				for _, m := range svgText.FindAllStringSubmatch(string(f.Data), -1) {
					speaks(f.Name, html.UnescapeString(m[1]), own)
				}
			case ".dxf":
				for _, m := range dxfText.FindAllStringSubmatch(string(f.Data), -1) {
					speaks(f.Name, m[1], own)
				}
			}
			speaks("purpose of a file", f.Purpose, own)
		}
	})
	for _, what := range []string{"page", "alerts", "JSON", "note", "warning", "capacity", "sheet-front.svg", "sheet-back.svg", "block.svg", "block.dxf"} {
		if said[what] == 0 {
			t.Errorf("no %s was looked at: %v", what, said)
		}
	}
}

// Lettering in an SVG, and the text of a DXF entity (group 1 of TEXT).
var (
	svgText = regexp.MustCompile(`<text[^>]*>([^<]*)</text>`)
	dxfText = regexp.MustCompile(`(?m)^ *1\r?\n(.*?)\r?$`)
)

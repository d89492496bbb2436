package report_test

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/sheet"
	"overbend/export/drawing"
	"overbend/export/paper"
)

// shared are figures that page and sheet both print, with how each says them: what
// the groups catch is compared.
var shared = []struct{ name, page, sheet string }{
	{"tube", `tube (?:dia )?(\S.*?) (?:mm|in), `, `Tube Ø?(\S.*?) (?:mm|in), `},
	{"block radius", `form block radius (\S+) `, `block R(\S+) `},
	{"inside radius", `at the centreline, (\S+) \S+ inside`, `: inside ([^,]+),`},
	{"outside radius", `inside, (\S+) \S+ outside`, `centreline \S+, outside (\S+) `},
	{"straights", `straights (\S+) \S+ and (\S+) `, `Straights (\S+) and (\S+) `},
	{"block", `plate, (\S+ x \S+) \S+, working arc`, ` block \d+ \S+ (\S+ × \S+) `},
	{"hole", `\d holes? of (\S+) `, ` in holes of (\S+) `},
	{"gap", `, (\S+) \S+ between them`, `(\S+) \S+ between the side plates`},
	{"strip", ` wide, (\S+) \S+ thick, `, ` strip \d+ (\S+) \S+ × `},
	{"filler", `amount [^,]*, (\S+ \S+), `, `Melt (\S+ \S+) of alloy`},
	{"plug", `between plugs of (\S+ \S+) `, `Plugs are (\S+ \S+) long`},
	{"melts", `melts at (\S+ °.)`, `of alloy \S+ at (\S+ °.)`},
	{"roller", `, rollers (\S+) `, `roller Ø(\S+) `},
	{"angle under pressure", `angle under pressure (\S+) deg: springs`, `press to (\S+)° for`},
	{"let go", ` let go(?:, alloy in)? (\d\S*) deg (?:alloy out|wrap)`, `until it is (\S+)° let go`},
	{"friction", `with friction at the rollers up to (\S+ \S+) `, `with friction at the rollers (\S+ [^ ,.]+)`},
	{"capacity", `of the press's (\S+ [^ ,]+), \d`, `rollers \S+ \S+ of the press's (\S+ [^ ,.]+)`},
	{"yield", ` yield strength (\S+ \S+) \(0\.2 % proof`, `yield strength \(proof stress\) (\S+ \S+) `},
	{"strip's radius", `keeps a radius of (\S+) `, `keeps a radius of about (\S+) `},
	{"widths", `face width outer (\S+) `, `Face in the hollow \S+ wide, outside face (\S+) `},
	{"travel", `travel (\d\S*) \S+ (?:\((\S+) in\) )?from first touch`, `travel (\S+)(?: = (\S+))? read it here`},
	{"soft travel", `travel between (\d\S*) \S+ (?:\((\S+) in\) )?and`, `Soft metal is done at (\S+)(?: = (\S+))? (?:mm|in),`},
	{"hard travel", `travel between [^.]*\S+ \S+ (?:\(\S+ in\) )?and (\d\S*) \S+(?: \((\S+) in\))?`, `hard metal needs (\S+)(?: = (\S+))? (?:mm|in):`},
}

// A figure that page and sheet both print is the same text on both, in mm and in
// inches; so is every row of stops, and the rise that the sheet gauges.
func TestOneRounding(t *testing.T) {
	t.Parallel()
	a4, _ := paper.Named("A4")
	found := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		text := plantest.RandomJob(t)
		t.Log(text)
		j, err := job.Parse("random.toml", []byte(text))
		if err != nil {
			return
		}
		p, err := plan.New(j)
		if err != nil {
			return
		}
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			var b strings.Builder
			if err := report.Text(&b, p, u); err != nil {
				t.Fatal(err)
			}
			page := " " + strings.Join(strings.Fields(b.String()), " ") + " "
			pages, err := sheet.Draw(p, u, u, a4, 10)
			if err != nil {
				t.Fatal(err)
			}
			paper := " "
			for _, d := range pages {
				if strings.Contains(d.Title, "at hand") {
					continue // another block's
				}
				for _, s := range d.Shapes {
					if w, ok := s.(drawing.Text); ok {
						paper += quantity.Plain(w.Words) + " "
					}
				}
			}
			for _, f := range shared {
				on, off := regexp.MustCompile(f.page).FindStringSubmatch(page), regexp.MustCompile(f.sheet).FindStringSubmatch(paper)
				if on == nil || off == nil || f.name == "block" && len(p.Tools.Block.Layers) > 1 {
					continue // of several outlines the page gives the widest's size, the sheet each one's
				}
				found[f.name+" "+u.String()]++
				on, off = on[1:], off[1:]
				for i := range on {
					if got, want := strings.ReplaceAll(off[i], "×", "x"), strings.TrimSuffix(on[i], ","); got != want && got+"," != want {
						t.Fatalf("%s in %s: the page says %q, the sheet %q", f.name, u, want, got)
					}
				}
			}
			if q := p.Press; q != nil {
				_, table, _ := strings.Cut(page, "Stops: ")
				_, rows, _ := strings.Cut(paper, " read ")
				for i, s := range q.Stops {
					travel, force := u.Figure(quantity.Travel.Of(s.Travel)), u.Figure(quantity.Force.Of(s.Force))
					row := regexp.MustCompile(` ` + regexp.QuoteMeta(travel) + ` \S+ (?:\((\S+) in\) )?` + regexp.QuoteMeta(force) + ` \S+ (?:\S+ (?:bar|psi) )?(\S+) deg (\S+) deg`)
					on := row.FindStringSubmatch(table)
					cells := regexp.MustCompile(` ` + regexp.QuoteMeta(travel) + `(?: = (\S+))? ` + regexp.QuoteMeta(force) + ` (?:\S+ )?(\S+)° (\S+)° `)
					off := cells.FindStringSubmatch(rows)
					if on == nil || off == nil || on[1] != off[1] || on[2] != off[2] || on[3] != off[3] {
						t.Fatalf("stop %d in %s: the page says %q, the sheet %q", i+1, u, on, off)
					}
				}
				found["stops "+u.String()]++
			}
			if h, ok := p.Gauge(u); ok {
				_, table, _ := strings.Cut(page, "rise, outside ")
				on := regexp.MustCompile(` ` + regexp.QuoteMeta(quantity.Plain(u.Length(h.Edge))) + ` (\d\S*) \S+(?: \((\S+) in\))?`).FindStringSubmatch(" " + table)
				off := regexp.MustCompile(`held in the hollow: (\S+)(?: = (\S+))? (?:mm|in)`).FindStringSubmatch(paper)
				if on == nil || off == nil || on[1] != off[1] || on[2] != off[2] {
					t.Fatalf("rise in %s: the page says %q, the sheet %q", u, on, off)
				}
				found["rise "+u.String()]++
			}
		}
	})
	for _, f := range shared {
		for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
			if found[f.name+" "+u.String()] == 0 {
				t.Errorf("%s in %s was nowhere on both", f.name, u)
			}
		}
	}
	if found["rise in"] == 0 || found["stops in"] == 0 {
		t.Errorf("only %v", found)
	}
}

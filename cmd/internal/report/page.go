package report

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
)

// The page's columns: labels, what they label, and the last that is written.
const (
	labelWidth = 22
	indent     = 2 + labelWidth + 1
	lineWidth  = 96
)

// page collects lines of a report.
type page struct{ b strings.Builder }

func (p *page) head(words string) { fmt.Fprintf(&p.b, "\n%s\n", words) }

// title says what the part is.
func (p *page) title(pl *plan.Plan, u quantity.Units) {
	j := pl.Job
	fmt.Fprintf(&p.b, "%s: tube %s, %s, %s at %s centreline radius\n",
		j.Name, plan.TubeSize(j.Tube, u, quantity.Nominal), j.Material.Name, u.Angle(j.Bend.Angle), u.Length(j.Bend.Radius))
}

// row adds a label and what it says, broken at the last column.
func (p *page) row(label, format string, args ...any) { p.entry(label, indent, format, args...) }

// entry adds a row whose lines after the first begin at a column.
func (p *page) entry(label string, from int, format string, args ...any) {
	line := fmt.Sprintf("  %-*s ", labelWidth, label)
	at, least := width(line), indent
	for w := range strings.SplitSeq(fmt.Sprintf(format, args...), " ") {
		n := width(w)
		if at+n > lineWidth && at > least {
			p.b.WriteString(strings.TrimRight(line, " ") + "\n")
			line = strings.Repeat(" ", from)
			at, least = from, from
		}
		line += w + " "
		at += n + 1
	}
	p.b.WriteString(strings.TrimRight(line, " ") + "\n")
}

// table adds rows whose columns line up on the right; the first is the head.
func (p *page) table(rows [][]string) {
	widths := make([]int, len(rows[0]))
	for _, r := range rows {
		for i, c := range r {
			widths[i] = max(widths[i], width(c))
		}
	}
	for _, r := range rows {
		for i, c := range r {
			fmt.Fprintf(&p.b, "  %*s", widths[i], c)
		}
		p.b.WriteByte('\n')
	}
}

// width returns the columns that words take.
func width(s string) int { return utf8.RuneCountInString(s) }

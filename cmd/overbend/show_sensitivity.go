package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/sheet"
	"overbend/cmd/internal/words"
)

// writeSensitivity prints what decides a job.
func writeSensitivity(w io.Writer, p *plan.Plan, s *plan.Sensitivity, u quantity.Units) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: what decides\n\n", p.Job.Name)
	for _, line := range wrapped(asPlanned(s, u), tableWidth) {
		b.WriteString(line + "\n")
	}
	b.WriteByte('\n')
	sourced(&b, sensitivityRows(s, u))
	b.WriteByte('\n')
	for _, line := range wrapped(together(s, u), tableWidth) {
		b.WriteString(line + "\n")
	}
	for _, w := range s.Inputs {
		for _, why := range words.CannotBe(w.Input, u, [2]quantity.Value{w.Kind.Of(w.Low), w.Kind.Of(w.High)}, [2]*words.Reason{w.AtLow.Why, w.AtHigh.Why}) {
			b.WriteString(why + "\n")
		}
	}
	_, err := io.WriteString(w, quantity.Plain(b.String()))
	return err
}

// asPlanned says what the inputs' nominal values give, and what the figures are.
func asPlanned(s *plan.Sensitivity, u quantity.Units) string {
	what := map[plan.Site]string{plan.NewBlock: "block", plan.RackBlock: "block of the rack", plan.HandBlock: "block at hand"}[s.Site]
	text := fmt.Sprintf("As planned: %s radius %s", what, u.Show(quantity.Radius.Of(s.Block)))
	if !s.Pressed {
		return text + "; no press state makes the part, so no angle and no force is known. Below, one input at a time lies at the low or the high end of its interval: by how much the block radius that would be right changes."
	}
	return text + fmt.Sprintf(", travel %s on supports %s apart: %s, force up to %s with friction. Below, one input at a time lies at the low or the high end of its interval, while block and travel stay as planned: by how much angle, force and the block radius that would have been right change.",
		u.Show(quantity.Travel.Of(s.Travel)), u.Tape(s.Rig.Supports), u.Angle(s.Planned.Angle), u.Show(quantity.Force.Of(s.Planned.Force)))
}

// sensitivityRows returns the inputs as a table whose last column is the source of the
// interval.
func sensitivityRows(s *plan.Sensitivity, u quantity.Units) [][]string {
	rows := [][]string{{"input", "low", "plan", "high"}}
	for _, m := range s.Measures() {
		name := head(u, m.Name, m.Kind)
		rows[0] = append(rows[0], name+" low", name+" high")
	}
	rows[0] = append(rows[0], "source")
	for _, w := range s.Inputs {
		name := words.InputName(w.Input)
		if unit := u.Unit(w.Kind); unit != "" {
			name += ", " + unit
		}
		row := []string{name, u.Figure(w.Kind.Of(w.Low)), u.Figure(w.Kind.Of(w.Nominal)), u.Figure(w.Kind.Of(w.High))}
		for _, m := range s.Measures() {
			for _, o := range [2]plan.Outcome{w.AtLow, w.AtHigh} {
				cell := "none"
				if v := m.Of(s.Changes(o)); !math.IsNaN(v) {
					cell = u.Change(m.Kind.Of(v))
				}
				row = append(row, cell)
			}
		}
		rows = append(rows, append(row, w.Source.Say(u)))
	}
	return rows
}

// together says how the changes add up.
func together(s *plan.Sensitivity, u quantity.Units) string {
	var parts []string
	for _, m := range s.Measures() {
		change := func(c plan.Change) string { return u.Change(m.Kind.Of(m.Of(c))) }
		parts = append(parts, fmt.Sprintf("%s %s to %s %s", m.Name, change(s.Down), change(s.Up), u.Unit(m.Kind)))
	}
	left := ""
	for _, w := range s.Inputs {
		for _, o := range [2]plan.Outcome{w.AtLow, w.AtHigh} {
			if s.Pressed && math.IsNaN(o.Force) {
				left = "; without the ends that have none"
			}
		}
	}
	return "All together, as the root of the sum of squares (of inputs that know nothing of each other, each taken to act in proportion" + left + "): " + strings.Join(parts, ", ") + "."
}

// drawSensitivity draws what decides a job into a new file.
func drawSensitivity(path string, stderr io.Writer, p *plan.Plan, s *plan.Sensitivity, u quantity.Units) error {
	return writeChart(path, stderr, p.Job.Name+": what decides", func(wide float64) sheet.Picture {
		return sheet.DrawSensitivity(s, p.Job.Name+": what decides", asPlanned(s, u), u, wide)
	})
}

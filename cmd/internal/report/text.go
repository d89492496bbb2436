package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/geom/tooling"
)

// page collects lines of a report: a label, a value, a remark.
type page struct{ b strings.Builder }

func (p *page) head(words string) { fmt.Fprintf(&p.b, "\n%s\n", words) }

func (p *page) row(label, format string, args ...any) {
	fmt.Fprintf(&p.b, "  %-22s %s\n", label, fmt.Sprintf(format, args...))
}

// labelWidth is where text that runs on is indented to.
const lineWidth = 96

// para adds a sentence, broken at lineWidth, hanging from a label.
func (p *page) para(label, words string) {
	const indent = 25
	line := fmt.Sprintf("  %-22s ", label)
	width := len(line)
	for _, w := range strings.Fields(words) {
		if width+len(w) > lineWidth && width > indent {
			p.b.WriteString(strings.TrimRight(line, " ") + "\n")
			line = strings.Repeat(" ", indent)
			width = indent
		}
		line += w + " "
		width += len(w) + 1
	}
	p.b.WriteString(strings.TrimRight(line, " ") + "\n")
}

// Text writes the plan as a page for a terminal, in the order of the work.
// Warnings and what stops the job are not on it: see [Alerts].
func Text(w io.Writer, pl *plan.Plan, u quantity.Units) error {
	var p page
	j := pl.Job
	name := j.Name
	if name == "" {
		name = "unnamed job"
	}
	fmt.Fprintf(&p.b, "%s: tube %s, %s, %s at %s centreline radius\n",
		name, pl.TubeSize(u), j.Material.Name, u.Angle(j.Bend.Angle), u.Length(j.Bend.Radius))
	p.overbend(pl, u)
	p.tools(pl, u)
	p.blank(pl, u)
	p.filler(pl, u)
	p.press(pl, u)
	p.existing(pl, u)
	p.trial(pl, u)
	p.tube(pl, u)
	p.checks(pl, u)
	p.advice(pl)
	_, err := io.WriteString(w, p.b.String())
	return err
}

// Alerts writes the warnings and what stops the job, a line each.
func Alerts(w io.Writer, pl *plan.Plan) error {
	for _, a := range pl.Advice {
		if a.Level == plan.Warning || a.Level == plan.Stop {
			if _, err := fmt.Fprintf(w, "%s: %s: %s\n", a.Level, a.About, a.Text); err != nil {
				return err
			}
		}
	}
	return nil
}

func (p *page) overbend(pl *plan.Plan, u quantity.Units) {
	n := pl.Nominal
	p.head("Overbend")
	p.row("form block radius", "%s%s", u.Length(n.Block), between(pl.Low, pl.High, func(o *plan.Overbend) string { return u.Length(o.Block) }))
	p.row("pressed centreline", "%s radius, %s of plain arc", u.Length(n.Radius), u.Angle(n.ArcAngle))
	p.row("springback", "keeps %s of the pressed curvature%s", quantity.Percent(n.Ratio), between(pl.Low, pl.High, func(o *plan.Overbend) string { return quantity.Percent(o.Ratio) }))
	p.row("proof stress", "%s, %s", u.Stress(n.Proof), pl.Metal.Source)
	if pl.Low != nil {
		p.row("", "range %s to %s: a plain arc on this block comes out", u.Stress(pl.Low.Proof), u.Stress(pl.High.Proof))
		p.row("", "%s at %s to %s at %s", u.Angle(pl.High.FinalAngle), u.Length(pl.High.FinalRadius), u.Angle(pl.Low.FinalAngle), u.Length(pl.Low.FinalRadius))
	}
	p.row("moment on the tube", "%s", u.Moment(n.Moment))
}

// between returns " (range a to b)" or nothing.
func between(lo, hi *plan.Overbend, f func(*plan.Overbend) string) string {
	if lo == nil || hi == nil {
		return ""
	}
	return fmt.Sprintf(" (range %s to %s)", f(lo), f(hi))
}

func (p *page) tools(pl *plan.Plan, u quantity.Units) {
	t := pl.Tools
	j := pl.Job
	p.head("Cut")
	if b := t.Block; len(b.Layers) > 0 {
		p.row("block", "%d layers of %s plate, %s, arc of %s", len(b.LayerRadii), u.Length(b.Plate), u.Size(2*b.HalfWidth, b.Height), u.Angle(t.BlockArc))
		if b.Shim > 0 {
			p.row("", "shim %s makes up the rest of the gap", u.Length(b.Shim))
		}
		if len(b.Layers) > 1 {
			for i, l := range b.Layers {
				p.row("", "%d of outline %d, radius %s", l.Count, i+1, u.Length(l.Radius))
			}
		}
	}
	if cheek := t.Cheek.Outline.Bounds(); !cheek.Empty() {
		p.row("cheeks", "2 of %s, %s between them", u.Size(cheek.Width(), cheek.Height()), u.Length(t.CheekGap))
	}
	p.row("backing strip", "%s wide, %s thick, %s long, %s", u.Length(j.Tube.Width), u.Length(pl.Strip.Thickness), u.Tape(t.StripLength), j.Strip.Material.Name)
}

func (p *page) blank(pl *plan.Plan, u quantity.Units) {
	b := pl.Tools.Blank
	p.head("Blank")
	p.row("length", "%s", u.Tape(b.Length))
	if b.ForPress > 0 {
		p.row("", "of that %s only for the press", u.Tape(b.ForPress))
	}
	for _, m := range b.Marks {
		p.row("mark "+m.Name, "%s", u.Tape(m.At))
	}
	p.row("finished part", "%s along the outside, %s along the inside, end to end", u.Tape(b.Outside), u.Tape(b.Inside))
}

func (p *page) filler(pl *plan.Plan, u quantity.Units) {
	f := pl.Filler
	if f == nil {
		return
	}
	a := pl.Job.Filler.Alloy
	p.head("Fill")
	p.row("alloy", "%s (ASTM B774 grade), melts at %s", a.Name, u.Temperature(a.Liquidus))
	p.row("amount", "%s, %s", u.Volume(f.Volume), u.Mass(f.Mass))
	p.row("holds", "%s", holds(a.Lead, a.Cadmium))
}

func holds(lead, cadmium bool) string {
	switch {
	case lead && cadmium:
		return "lead and cadmium"
	case lead:
		return "lead"
	case cadmium:
		return "cadmium"
	}
	return "neither lead nor cadmium"
}

func (p *page) press(pl *plan.Plan, u quantity.Units) {
	q := pl.Press
	if q == nil {
		return
	}
	s := q.Final
	p.head("Press")
	origin := "as given"
	if q.Proposed {
		origin = "proposed"
	}
	p.row("supports", "%s centre to centre, rollers %s (%s)", u.Tape(q.Rig.Supports), u.Length(q.Rig.Roller), origin)
	p.row("travel from touch", "%s", u.Length(s.Travel))
	force := u.Force(s.Force)
	if q.Share > 0 {
		force += fmt.Sprintf(", %s of the press's %s", quantity.Percent(q.Share), u.Tons(pl.Job.Press.Capacity))
	}
	if q.Gauge > 0 {
		force += ", gauge " + u.Pressure(q.Gauge)
	}
	p.row("force", "%s", force)
	p.row("angle under load", "%s", u.Angle(s.Loaded))
	if pl.Filler != nil {
		p.row("released, filled", "%s", u.Angle(s.Filled))
	}
	p.row("after melt-out", "%s", u.Angle(s.Melted))
	p.row("wrap on the block", "%s each side of the middle", u.Angle(s.Wrap))
	p.row("leg to the roller", "%s, the first %s of it yields", u.Length(s.Leg), u.Length(s.Tail))
	p.row("fit to the drawing", "%s off at most, %s from the middle along the centreline", u.Length(q.Gap.Size), u.Length(q.Gap.At))
	if !math.IsInf(q.Strip.Radius(), 0) {
		p.row("strip afterwards", "keeps a radius of %s", u.Length(q.Strip.Radius()))
	}
	if q.Low != nil && q.High != nil {
		p.row("metal's range", "pushed blind to %s it comes out between %s and %s;", u.Length(s.Travel), u.Angle(q.High.AtTravel), u.Angle(q.Low.AtTravel))
		p.row("", "the angle needs between %s and %s of travel", u.Length(q.Low.Final.Travel), u.Length(q.High.Final.Travel))
	}
	p.head("Stops: push, release, measure, go on")
	fmt.Fprintf(&p.b, "  %14s %12s %12s %14s %12s\n", "travel", "force", "under load", "released full", "melted out")
	for _, s := range q.Schedule {
		fmt.Fprintf(&p.b, "  %14s %12s %12s %14s %12s\n", u.Length(s.Travel), u.Force(s.Force), degrees(s.Loaded), degrees(s.Filled), degrees(s.Melted))
	}
}

func degrees(a geom.Angle) string { return fmt.Sprintf("%.1f deg", math.Abs(a.Degrees())) }

func (p *page) existing(pl *plan.Plan, u quantity.Units) {
	e := pl.Existing
	if e == nil {
		return
	}
	p.head("Block at hand")
	p.row("radius", "%s; leaves a centreline radius of %s", u.Length(e.Block), u.Length(e.Radius))
	p.row("the same arc length", "gives %s as a plain arc", u.Angle(e.Angle))
	if e.Final != nil {
		p.row("for the angle", "travel %s; at most %s off the drawing", u.Length(e.Final.Travel), u.Length(e.Gap.Size))
	}
}

func (p *page) trial(pl *plan.Plan, u quantity.Units) {
	if pl.Trial == nil {
		return
	}
	p.head("Trials")
	p.fit(pl.Trial, u)
}

// Fit writes what the trials taught and what to do next.
func Fit(w io.Writer, pl *plan.Plan, u quantity.Units) error {
	var p page
	t := pl.Trial
	p.fit(t, u)
	p.head("Next")
	p.row("form block radius", "%s", u.Length(pl.Nominal.Block))
	if q := pl.Press; q != nil {
		p.row("wrap on the block", "%s each side of the middle", u.Angle(q.Final.Wrap))
		p.row("travel from touch", "%s on supports %s apart", u.Length(q.Final.Travel), u.Tape(q.Rig.Supports))
		p.row("angle under load", "%s", u.Angle(q.Final.Loaded))
	}
	_, err := io.WriteString(w, strings.TrimPrefix(p.b.String(), "\n"))
	return err
}

func (p *page) fit(t *plan.Trial, u quantity.Units) {
	p.row("proof stress", "%s +- %s, where the catalogue has %s", u.Stress(t.Proof), u.Stress(t.ProofError), u.Stress(t.Catalogue))
	if t.ExponentError > 0 {
		p.row("exponent", "%.1f +- %.1f", t.Exponent, t.ExponentError)
	}
	for _, r := range t.Residuals {
		show := u.Length
		if r.Reading != bend.ReadRise {
			show = func(v float64) string { return u.Angle(geom.Angle(v)) }
		}
		p.row(fmt.Sprintf("trial %d, %s", r.Trial+1, r.Reading), "measured %s, the fit gives %s", show(r.Measured), show(r.Predicted))
	}
	switch t.Suspect {
	case plan.TooSoft, plan.TooHard:
		p.row("", "suspect: see the warning")
	}
}

func (p *page) tube(pl *plan.Plan, u quantity.Units) {
	a := pl.After
	p.head("Tube after the bend")
	p.row("stretch, outer face", "%s, %s of what the metal has", quantity.Percent(a.Strain), quantity.Percent(pl.Used))
	p.row("wall", "outer %s, inner %s", u.Length(a.OuterWall), u.Length(a.InnerWall))
	p.row("face width", "outer %s, inner %s", u.Length(a.OuterWidth), u.Length(a.InnerWidth))
	fill := "an empty tube would hold its shape"
	if pl.NeedsFill {
		fill = "an empty tube would wrinkle: fill it"
	}
	p.row("buckling strain", "%s; %s", quantity.Percent(pl.Buckling), fill)
}

// rises lists chord and rise on one face.
func (p *page) rises(face string, rows []tooling.ChordRise, u quantity.Units) {
	for _, r := range rows {
		p.row(face, "%s over a chord of %s", u.Length(r.Rise), u.Length(r.Chord))
	}
}

func (p *page) checks(pl *plan.Plan, u quantity.Units) {
	p.head("Check without a template: chord and rise")
	p.rises("inside", pl.Tools.InsideRises, u)
	p.rises("outside", pl.Tools.OutsideRises, u)
}

func (p *page) advice(pl *plan.Plan) {
	p.head("Notes")
	for _, level := range []plan.Level{plan.Info, plan.Caution} {
		for _, a := range pl.Advice {
			if a.Level == level {
				p.para(a.About, a.Text)
			}
		}
	}
}

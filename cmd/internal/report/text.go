package report

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/tooling"
)

// Text writes all of a plan for a terminal, in the order of the work.
func Text(w io.Writer, pl *plan.Plan, u quantity.Units) error {
	var p page
	p.title(pl, u)
	p.alerts(pl, u)
	p.drawn(pl, u)
	p.overbend(pl, u)
	p.cut(pl, u)
	p.blank(pl, u)
	p.filler(pl, u)
	p.press(pl, u)
	p.stops(pl, u)
	p.existing(pl, u)
	p.rack(pl, u)
	if pl.Metal.Trial != nil {
		p.head("Trials")
		p.fit(pl, u)
	}
	p.tube(pl, u)
	p.checks(pl, u)
	p.advice("Notes", words.Note, pl, u)
	p.advice("Cautions", words.Caution, pl, u)
	_, err := io.WriteString(w, quantity.Plain(p.b.String()))
	return err
}

// Alerts writes the warnings, a line each. What stops the job is left to the
// caller, whose error it is.
func Alerts(w io.Writer, pl *plan.Plan, u quantity.Units) error {
	for _, a := range pl.Advice {
		if a.Level != words.Warning {
			continue
		}
		if _, err := fmt.Fprintf(w, "%s: %s: %s\n", a.Level, a.About, quantity.Plain(a.Say(u))); err != nil {
			return err
		}
	}
	return nil
}

func (p *page) drawn(pl *plan.Plan, u quantity.Units) {
	b, depth := pl.Job.Bend, pl.Job.Tube.Depth
	p.head("As drawn")
	p.row("radius", "%s at the centreline, %s inside, %s outside", u.Length(b.Radius), u.Length(b.Inside(depth)), u.Length(b.Outside(depth)))
	p.row("arc", "%s, %s long on the centreline", u.Angle(b.Angle), u.Length(b.Length()))
	p.row("straights", "%s and %s, from the bend to the trimmed end", u.Length(b.Legs[0]), u.Length(b.Legs[1]))
}

func (p *page) overbend(pl *plan.Plan, u quantity.Units) {
	n, lo, hi := pl.Nominal, pl.Low, pl.High
	stress := func(mpa float64) string { return u.Show(quantity.Stress.Of(mpa)) }
	p.head("Overbend")
	ranged := ""
	if lo != nil {
		ranged = fmt.Sprintf(" (%s to %s over the metal's range)", u.Show(quantity.Radius.Of(hi.Block)), u.Show(quantity.Radius.Of(lo.Block)))
	}
	p.row("form block radius", "%s%s", u.Show(quantity.Radius.Of(n.Block)), ranged)
	p.row(words.UnderPressure, "%s at the centreline; a plain arc would be pressed to %s", u.Length(n.Pressed.Radius), u.Show(quantity.Reading.Of(float64(n.Pressed.Angle))))
	if lo != nil {
		ranged = fmt.Sprintf(" (%s to %s)", quantity.Percent(hi.Ratio), quantity.Percent(lo.Ratio))
	}
	p.row("springback", "%s of the pressed curvature stays%s", quantity.Percent(n.Ratio), ranged)
	p.row("yield strength", "%s (0.2 %% proof stress): %s", stress(n.Proof), pl.Metal.Origin.Say(u))
	if lo != nil {
		p.row("metal's range", "%s to %s; a plain arc on this block comes out between %s at %s (strongest) and %s at %s (weakest)",
			stress(lo.Proof), stress(hi.Proof), u.Show(quantity.Reading.Of(float64(hi.Final.Angle))), u.Length(hi.Final.Radius), u.Show(quantity.Reading.Of(float64(lo.Final.Angle))), u.Length(lo.Final.Radius))
	}
	p.row("moment", "%s, on the tube alone", u.Show(quantity.Moment.Of(n.Moment)))
}

func (p *page) cut(pl *plan.Plan, u quantity.Units) {
	t, j := pl.Tools, pl.Job
	b := t.Block
	if !t.Whole && len(b.Layers) == 0 {
		return // no part can be made; the alert says why
	}
	nominal := func(mm float64) string { return u.Show(quantity.Nominal.Of(mm)) }
	p.head("Cut")
	if r := pl.Ready; r != nil {
		p.row("block", "%s of the rack, radius %s: none is cut", r.Name, u.Length(r.Radius))
	} else {
		p.stack(pl, u)
	}
	if t.StripLength > 0 {
		p.row("backing strip", "%s wide, %s thick, %s long, %s", nominal(j.Tube.Width), nominal(pl.Strip.Thickness), u.Tape(t.StripLength), j.Strip.Material.Name)
	}
	for _, part := range []struct {
		label string
		part  tooling.Part
		r     float64
	}{{"inside template", t.Inside, j.Bend.Inside(j.Tube.Depth)}, {"outside template", t.Outside, j.Bend.Outside(j.Tube.Depth)}} {
		if box := part.part.Outline.Bounds(); !box.Empty() {
			p.row(part.label, "of %s sheet, %s, radius %s", nominal(t.Sheet), u.SizeAs(quantity.Overall, box.Width(), box.Height()), u.Length(part.r))
		}
	}
	if kg := pl.TemplateMass(); kg > 0 {
		p.row("", "both %s, taken as steel", u.Show(quantity.Mass.Of(kg)))
	}
	if n := pl.Nest; n != nil {
		p.row("plate", "%s of %s, %s used, %s", words.Count(n.Sheets, "sheet"), u.Size(n.Width, n.Height), quantity.Percent(n.UsedShare()), u.Show(quantity.Mass.Of(n.Mass)))
	}
}

// stack lists what the block is bolted together from.
func (p *page) stack(pl *plan.Plan, u quantity.Units) {
	t := pl.Tools
	b := t.Block
	nominal := func(mm float64) string { return u.Show(quantity.Nominal.Of(mm)) }
	p.row("block", "%s of %s plate, %s, working arc of %s", words.Count(len(b.LayerRadii), "layer"), nominal(b.Plate), u.SizeAs(quantity.Overall, 2*b.HalfWidth, b.Height), u.Angle(t.BlockArc))
	if len(b.Layers) > 1 {
		for i, l := range b.Layers {
			p.row("", "%d of outline %d, radius %s", l.Count, i+1, u.Show(quantity.Radius.Of(l.Radius)))
		}
	}
	if k := b.Packing; k.Count > 0 {
		p.row(words.Packing, "%d of %s between the plates, of sheet %s", k.Count, u.Length(k.Thickness), u.Sum(k.Sheets...))
	}
	p.row("stack bolts", "%s of %s", words.Count(len(b.Bolts), "hole"), nominal(b.Hole))
	if n := len(b.Openings); n > 0 {
		p.row("openings", "%d, in each layer and cheek", n)
	}
	if c := t.Cheek.Outline.Bounds(); !c.Empty() {
		p.row("side plates (cheeks)", "2 of %s plate, %s, %s between them", nominal(t.Plate), u.SizeAs(quantity.Overall, c.Width(), c.Height()), u.Length(t.CheekGap))
	}
}

func (p *page) blank(pl *plan.Plan, u quantity.Units) {
	b, j := pl.Tools.Blank, pl.Job
	if b.Length == 0 {
		return // a part before it can't be made
	}
	p.head("Blank: mark from the left end, outside of the bend up")
	p.row("length", "%s", u.Tape(b.Length))
	if b.ForPress > 0 {
		p.row("", "of that %s only for the press", u.Tape(b.ForPress))
	}
	for i, m := range b.Marks {
		name := words.MarkName(b.Marks, i)
		if m.Slant == 0 {
			p.row(name, "%s", u.Tape(m.At))
		} else {
			p.row(name, "%s on the outside, %s on the inside", u.Tape(m.At+m.Slant), u.Tape(m.At-m.Slant))
		}
	}
	p.row("finished part", "%s along the outside, %s along the inside, end to end", u.Tape(b.Outside), u.Tape(b.Inside))
	for i, side := range [2]string{"left", "right"} {
		if j.Ends.Cut[i] != 0 {
			long, short := max(b.OutsideLeg[i], b.InsideLeg[i]), min(b.OutsideLeg[i], b.InsideLeg[i])
			p.row(side+" end, "+u.Angle(j.Ends.Cut[i]), "long point %s, short point %s past the end of the bend", u.Tape(long), u.Tape(short))
		}
	}
}

func (p *page) filler(pl *plan.Plan, u quantity.Units) {
	f := pl.Filler
	if f == nil {
		return
	}
	a := pl.Job.Filler.Alloy
	p.head("Fill")
	p.row("alloy", "%s, melts at %s", a.Name, u.Show(quantity.Temperature.Of(a.Liquidus)))
	p.row("amount", "%s, %s, between plugs of %s", u.Show(quantity.Volume.Of(f.Volume)), u.Show(quantity.Mass.Of(f.Mass)), plugs(pl.Job.Filler.Plugs, u))
	p.row("holds", "%s", holds(a.Lead, a.Cadmium))
}

// plugs says how long the two plugs are.
func plugs(mm [2]float64, u quantity.Units) string {
	if mm[0] == mm[1] {
		return u.Show(quantity.Nominal.Of(mm[0]))
	}
	return u.Show(quantity.Nominal.Of(mm[0])) + " on the left and " + u.Show(quantity.Nominal.Of(mm[1]))
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
	p.row("supports", "%s roller centre to roller centre, rollers %s (%s)", u.Tape(q.Rig.Supports), u.Show(quantity.Nominal.Of(q.Rig.Roller)), origin)
	p.row("travel", "%s from first touch", u.Show(quantity.Travel.Of(s.Travel)))
	p.force(q, pl.Job, u)
	p.row("angle "+words.UnderPressure, "%s: springs back %s, so press to that for %s", u.Show(quantity.Reading.Of(float64(s.Loaded))), quantity.Percent(1-float64(s.Melted/s.Loaded)), u.Angle(pl.Job.Bend.Angle))
	p.row(words.LetGoName(pl.Job.Filler.Named()), "%s", u.Show(quantity.Reading.Of(float64(s.Filled))))
	if pl.Job.Filler.Named() {
		p.row(words.LetGoMelted, "%s", u.Show(quantity.Reading.Of(float64(s.Melted))))
	}
	p.row("wrap on the block", "%s each side of the middle", u.Show(quantity.Reading.Of(float64(s.HalfWrap))))
	p.row("legs", "%s from the block to each roller; the first %s yields and bends too", u.Length(s.Leg), u.Length(s.Tail))
	p.row("fit to the drawing", "at most %s off the drawn centreline, %s along it from the middle", u.Length(q.Gap.Size), u.Length(q.Gap.At))
	after := "stays flat"
	if r := q.Strip.Radius(); !math.IsInf(r, 0) {
		after = fmt.Sprintf("keeps a radius of %s", u.Show(quantity.Radius.Of(r)))
	}
	if q.Strip.Reusable {
		after += ": use it again as it is"
	} else {
		after += ": turn it over for the next bend"
	}
	p.row("strip afterwards", "%s", after)
	if q.Low != nil && q.High != nil {
		p.row("metal's range", "pushed to %s without measuring, it comes out between %s and %s; the angle needs a travel between %s and %s",
			u.Show(quantity.Travel.Of(s.Travel)), u.Show(quantity.Reading.Of(float64(q.High.AtTravel))), u.Show(quantity.Reading.Of(float64(q.Low.AtTravel))), u.Show(quantity.Travel.Of(q.Low.Final.Travel)), u.Show(quantity.Travel.Of(q.High.Final.Travel)))
	}
}

// force says what the press must do.
func (p *page) force(q *plan.Press, j job.Job, u quantity.Units) {
	show := func(n float64) string { return u.Show(quantity.Force.Of(n)) }
	text := show(q.Final.Force)
	if q.Peak > 1.001*q.Final.Force {
		text += ", at most " + show(q.Peak) + " on the way"
	}
	if q.Gauge > 0 {
		text += ", gauge " + u.Show(quantity.Pressure.Of(q.Gauge))
	}
	p.row("force", "%s; with friction at the rollers up to %s", text, show(q.PeakRubbed))
	if q.NeededBy != j.Material.Proof && q.Needed > 1.001*q.PeakRubbed {
		p.row("strongest metal", "up to %s, with friction", show(q.Needed))
	}
	if q.Share > 0 {
		p.row("of the press's", "%s, %s", u.Show(j.Press.Rated.Of(j.Press.Capacity)), quantity.Percent(q.Share))
	}
}

// stops lists where to stop and measure.
func (p *page) stops(pl *plan.Plan, u quantity.Units) {
	q := pl.Press
	if q == nil {
		return
	}
	filled, gauge := pl.Job.Filler.Named(), q.Gauge > 0
	cells := func(travel, force, pressure, loaded, full, released string) []string {
		out := []string{travel, force}
		if gauge {
			out = append(out, pressure)
		}
		out = append(out, loaded)
		if filled {
			out = append(out, full)
		}
		return append(out, released)
	}
	last := words.LetGoName(false)
	if filled {
		last = words.LetGoMelted
	}
	p.head("Stops: push to the travel, let go, measure the angle, go on")
	rows := [][]string{cells("travel", "force", "gauge", words.UnderPressure, words.LetGoFilled, last)}
	for _, s := range q.Stops {
		pressure := u.Show(quantity.Pressure.Of(q.At(s)))
		kind := quantity.Stop
		if s == q.Final {
			kind = quantity.Reading
		}
		angle := func(a geom.Angle) string { return u.Show(kind.Of(float64(a))) }
		rows = append(rows, cells(u.Show(quantity.Travel.Of(s.Travel)), u.Show(quantity.Force.Of(s.Force)), pressure, angle(s.Loaded), angle(s.Filled), angle(s.Melted)))
	}
	p.table(rows)
}

func (p *page) existing(pl *plan.Plan, u quantity.Units) {
	e := pl.Existing
	if e == nil {
		return
	}
	p.head("Block at hand")
	if e.Plain.Radius == 0 {
		p.row("radius", "%s; the tube springs back all the way from it", u.Length(e.Block))
	} else {
		p.row("radius", "%s; leaves a centreline radius of %s", u.Length(e.Block), u.Length(e.Plain.Radius))
		p.row("the drawing's arc", "comes out at %s on it, as a plain arc", u.Show(quantity.Reading.Of(float64(e.Plain.Angle))))
	}
	p.row("stretch, outer face", "%s, %s of the elongation", quantity.Percent(e.Section.After.OuterStrain), quantity.Percent(e.Section.Used))
	if q := e.Press; q != nil {
		p.row("the drawing's angle", "takes a travel of %s on supports %s apart; at most %s off the drawn centreline", u.Show(quantity.Travel.Of(q.Final.Travel)), u.Tape(q.Rig.Supports), u.Length(q.Gap.Size))
		p.force(q, pl.Job, u)
	}
	if !e.Works {
		p.row("verdict", "will not do: see the warnings")
	}
}

func (p *page) tube(pl *plan.Plan, u quantity.Units) {
	a, m := pl.After, pl.Job.Material
	p.head("Tube after the bend")
	p.row("stretch, outer face", "%s, %s of the %s at which %s breaks", quantity.Percent(a.OuterStrain), quantity.Percent(pl.Used), quantity.Percent(m.Elongation), m.Name)
	p.row("wall", "outer %s, inner %s", u.Length(a.OuterWall), u.Length(a.InnerWall))
	p.row("face width", "outer %s, inner %s", u.Length(a.OuterWidth), u.Length(a.InnerWidth))
	label := "inner wall buckles"
	if pl.Buckling.Web {
		label = "side walls buckle"
	}
	p.row(label, "at %s strain: %s", quantity.Percent(pl.Buckling.Strain), emptyHolds(pl.NeedsFill))
	p.row("line at mid-depth", "grows by %s: the line that keeps its length lies %s inside of it", quantity.Percent(a.ArcGrowth), u.Length(a.NeutralAxis))
}

// checks lists chord and rise on both faces.
func (p *page) checks(pl *plan.Plan, u quantity.Units) {
	type rise struct{ chord, in, out float64 }
	var all []rise
	b, depth, inch := pl.Job.Bend, pl.Job.Tube.Depth, u == quantity.Inches
	inside, outside := tooling.Rises(b.Inside(depth), b.Angle, inch), tooling.Rises(b.Outside(depth), b.Angle, inch)
	for face, list := range [2][]tooling.ChordRise{inside, outside} {
		for _, r := range list {
			i := slices.IndexFunc(all, func(a rise) bool { return math.Abs(a.chord-r.Chord) < geom.Coincident })
			if i < 0 {
				i = len(all)
				all = append(all, rise{chord: r.Chord})
			}
			if face == 0 {
				all[i].in = r.Rise
			} else {
				all[i].out = r.Rise
			}
		}
	}
	if len(all) == 0 {
		return
	}
	slices.SortFunc(all, func(a, b rise) int { return cmp.Compare(a.chord, b.chord) })
	cell := func(v float64) string {
		if v == 0 {
			return "-"
		}
		return u.Show(quantity.Rise.Of(v))
	}
	p.head("Check without a template: the gap in the middle of a straightedge held in the hollow,\nand the rise of the outside over a chord")
	rows := [][]string{{"chord", "gap, inside", "rise, outside"}}
	for _, r := range all {
		rows = append(rows, []string{u.Length(r.chord), cell(r.in), cell(r.out)})
	}
	p.table(rows)
}

// advice lists the sentences of a level, but for those that only repeat a
// part of the page. A label is not repeated either.
func (p *page) advice(head string, level words.Level, pl *plan.Plan, u quantity.Units) {
	last := ""
	for _, a := range pl.Advice {
		if a.Level != level || level == words.Note && slices.Contains([]string{"strip", "block.existing", "trial"}, a.About) {
			continue
		}
		if head != "" {
			p.head(head)
			head = ""
		}
		label := a.About
		if label == last {
			label = ""
		}
		last = a.About
		p.row(label, "%s", a.Say(u))
	}
}

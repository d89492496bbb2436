package report

import (
	"fmt"
	"io"
	"strings"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// Figure is one of the numbers that a person acts on: what it is called, the
// number with its unit, and what must be known with it.
type Figure struct{ Name, Value, More string }

// Ten returns the ten numbers that a person acts on, in the order of the work,
// or as many of them as the job has: a part that can't be made has no blank, a
// bend that no press makes no travel. A block at hand and trials, where the job
// has them, follow.
func Ten(pl *plan.Plan, u quantity.Units) []Figure {
	var out []Figure
	add := func(name, value, format string, args ...any) {
		out = append(out, Figure{name, value, fmt.Sprintf(format, args...)})
	}
	radius := quantity.Radius.Of
	ranged := ""
	if pl.Low != nil {
		ranged = between(u, radius(pl.High.Block), radius(pl.Low.Block))
	}
	if b := pl.Ready; b != nil {
		add("form block radius", u.Show(radius(b.Radius)), "%s of the rack; a new one would have %s", b.Name, u.Show(radius(pl.Nominal.Block)))
	} else {
		add("form block radius", u.Show(radius(pl.Nominal.Block)), "%s", ranged)
	}
	t := pl.Tools
	if b := t.Block; len(b.Layers) > 0 {
		pack := "no " + words.Packing
		if k := b.Packing; k.Count > 0 {
			pack = fmt.Sprintf("%s %d of %s", words.Packing, k.Count, u.Length(k.Thickness))
		}
		add("block plates", fmt.Sprintf("%d of %s", len(b.LayerRadii), u.Show(quantity.Nominal.Of(b.Plate))), "%s, side plates %s apart", pack, u.Length(t.CheekGap))
	}
	if b := t.Blank; b.Length > 0 {
		tape := func(mm float64) string {
			return u.Figure(quantity.Tape.Of(mm)) + "\u00a0" + u.Unit(quantity.Tape)
		}
		add("blank", tape(b.Length), "%s %s from the left end", words.BendMiddle, tape(b.Middle))
	}
	if f := pl.Filler; f != nil {
		a := pl.Job.Filler.Alloy
		add("filler", u.Show(quantity.Mass.Of(f.Mass)), "alloy %s, melts at %s, holds %s", a.Name, u.Show(quantity.Temperature.Of(a.Liquidus)), holds(a.Lead, a.Cadmium))
	} else if !pl.Job.Filler.Named() {
		add("filler", "none", "%s", emptyHolds(pl.NeedsFill))
	}
	if q := pl.Press; q != nil {
		out = append(out, atPress(q, pl, u)...)
	}
	m := pl.Job.Material
	add("stretch, outer face", quantity.Percent(pl.After.OuterStrain), "%s of the %s at which %s breaks", quantity.Percent(pl.Used), quantity.Percent(m.Elongation), m.Name)
	if e := pl.Existing; e != nil {
		more := "will not do: see the warnings"
		if q := e.Press; q != nil && e.Works {
			more = fmt.Sprintf("does: travel %s, force up to %s, at most %s off the drawing", u.Show(quantity.Travel.Of(q.Final.Travel)), u.Show(quantity.Force.Of(q.Needed)), u.Length(q.Gap.Size))
		}
		add("block at hand", u.Length(e.Block), "%s", more)
	}
	for _, b := range pl.Rack {
		if b.Best && pl.Ready == nil {
			add("best on the rack", b.Name, "radius %s: travel %s, force up to %s, at most %s off the drawing", u.Length(b.Radius), u.Show(quantity.Travel.Of(b.Press.Final.Travel)), u.Show(quantity.Force.Of(b.Press.Needed)), u.Length(b.Press.Gap.Size))
		}
	}
	if t := pl.Metal.Trial; t != nil {
		show := func(mpa float64) string { return u.Show(quantity.Stress.Of(mpa)) }
		add("trials", show(t.Proof), "yield strength fitted, give or take %s; %s without them", show(t.ProofError), show(t.Catalogue))
	}
	return out
}

// between says from where to where a number goes over the metal's range.
func between(u quantity.Units, low, high quantity.Value) string {
	return fmt.Sprintf("%s to %s %s by the metal", u.Figure(low), u.Figure(high), u.Unit(low.Kind))
}

// atPress returns what a person acts on at the press.
func atPress(q *plan.Press, pl *plan.Plan, u quantity.Units) []Figure {
	s := q.Final
	travel, read := quantity.Travel.Of, func(a geom.Angle) string { return u.Show(quantity.Reading.Of(float64(a))) }
	far := Figure{"travel", u.Show(travel(s.Travel)), "from first touch"}
	if q.Low != nil && q.High != nil {
		far.More += "; " + between(u, travel(q.Low.Final.Travel), travel(q.High.Final.Travel))
	}
	force := Figure{"force", u.Show(quantity.Force.Of(q.Needed)), "at most"}
	if q.Share > 0 {
		force.More += fmt.Sprintf(", %s of the press's %s", quantity.Percent(q.Share), u.Show(pl.Job.Press.Rated.Of(pl.Job.Press.Capacity)))
	}
	if d := pl.Job.Press.Ram; d > 0 {
		force.More += ", gauge " + u.Show(quantity.Pressure.Of(bend.GaugePressure(q.Needed, d)))
	}
	let := Figure{words.LetGoName(pl.Job.Filler.Named()), read(s.Filled), "then stop"}
	if pl.Job.Filler.Named() {
		let.More += "; " + words.LetGoMelted + " it is " + read(s.Melted)
	}
	return []Figure{
		{"supports", u.Figure(quantity.Tape.Of(q.Rig.Supports)) + "\u00a0" + u.Unit(quantity.Tape), "between roller centres, rollers " + u.Show(quantity.Nominal.Of(q.Rig.Roller))},
		far, force,
		{"angle " + words.UnderPressure, read(s.Loaded), "springs back " + quantity.Percent(1-float64(s.Melted/s.Loaded))},
		let,
	}
}

// emptyHolds says whether a tube needs its filler.
func emptyHolds(needs bool) string {
	if needs {
		return "an empty tube would wrinkle"
	}
	return "an empty tube would hold its shape"
}

// Page writes a plan on one screen of a terminal: the ten numbers that a person
// acts on, then what stops it or warns, then where the rest is. The job file is
// named as the reader named it.
func Page(w io.Writer, pl *plan.Plan, u quantity.Units, file string) error {
	var p page
	p.title(pl, u)
	p.b.WriteByte('\n')
	figures := Ten(pl, u)
	wide := 0
	for _, f := range figures {
		wide = max(wide, width(f.Value))
	}
	for _, f := range figures {
		value := f.Value
		if f.More != "" {
			value += strings.Repeat("\u00a0", wide-width(f.Value)+1) + " " + f.More
		}
		p.entry(f.Name, indent+wide+2, "%s", value)
	}
	p.alerts(pl, u)
	fmt.Fprintf(&p.b, "\noverbend show %s --all prints every number,\noverbend make %s writes cut files and the job sheet with its cautions.\n", file, file)
	p.b.WriteString("A structural part needs a licensed engineer's word and local codes.\n")
	_, err := io.WriteString(w, quantity.Plain(p.b.String()))
	return err
}

// alerts lists what stops the job and what warns.
func (p *page) alerts(pl *plan.Plan, u quantity.Units) {
	first := true
	for _, level := range []words.Level{words.Stop, words.Warning} {
		for _, a := range pl.Advice {
			if a.Level != level {
				continue
			}
			if first {
				p.b.WriteByte('\n')
				first = false
			}
			p.entry(strings.ToUpper(string(a.Level)), indent, "%s: %s", a.About, a.Say(u))
		}
	}
}

package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	sentence "overbend/cmd/internal/words"
	"overbend/geom"
)

// under returns the room for a picture below a field's heading, and clear of the ring
// round its number.
func (s *sheet) under(f geom.Rect, hd heading) geom.Rect {
	const clear = 0.6
	return geom.Rect{Min: f.Min.Add(geom.Pt(pad, 1)), Max: f.Max.Sub(geom.Pt(pad, s.headHeight(hd, f.Width())+clear))}
}

// whole is a band of one field.
func whole(c cell, grow, most float64) band {
	c.share = 1
	return band{cells: []cell{c}, grow: grow, most: most}
}

// stacked returns two fields as one, one above the other: what height is not needed
// is between them.
func stacked(a, b cell) cell {
	return cell{a.share,
		func(w float64) float64 { return a.need(w) + b.need(w) },
		func(f geom.Rect) {
			low := f
			low.Max.Y = f.Min.Y + b.need(f.Width()) + 0.3*(f.Height()-a.need(f.Width())-b.need(f.Width()))
			f.Min.Y = low.Max.Y
			a.draw(f)
			b.draw(low)
		},
	}
}

// front returns the bench's side: part, cuts and stack, marks, fill, and what holds
// for the whole job.
func (s *sheet) front() []band {
	const partShare = 0.55
	files := [...]sentence.Code{quantity.Millimetres: sentence.PaperFilesMM, quantity.Inches: sentence.PaperFilesIn}
	out := []band{{cells: []cell{
		{partShare, func(float64) float64 { return s.least(44) }, s.part},
		s.prose(1-partShare, heading{}, s.partFacts()),
	}, grow: 2, most: 84}}
	cut := s.cuts(0.55, s.step("CUT", sentence.Reason{Code: files[s.files]}.Say(s.u)))
	if len(s.p.Tools.Block.Layers) > 0 && s.p.Tools.Whole {
		hd := s.step("STACK", "")
		out = append(out, band{cells: []cell{stacked(cut, s.prose(0.55, hd, s.stackFacts(s.p.Tools.Stack()))), s.stack(0.45, hd)}, grow: 2, most: 100})
	} else {
		out = append(out, whole(cut, 0, 0))
	}
	if s.p.Tools.Blank.Length > 0 {
		out = append(out, whole(s.blank(1, s.step("MARK", "")), 1, 52))
	}
	if s.p.Filler != nil {
		how, mind := s.fill()
		out = append(out, band{cells: []cell{s.prose(0.6, s.step("FILL", ""), how), s.prose(0.4, heading{}, mind)}})
	}
	steps := []sentence.Step{sentence.Anywhere, sentence.Design, sentence.Trial}
	// What belongs to a step that the sheet does not have.
	if s.p.Filler == nil {
		steps = append(steps, sentence.Fill, sentence.MeltOut)
	}
	if s.p.Press == nil {
		steps = append(steps, sentence.SetUp, sentence.Press)
	}
	if all := s.told(steps...); len(all) > 0 {
		out = append(out, whole(s.prose(1, heading{}, all), 0, 0))
	}
	return out
}

// back returns the press's side.
func (s *sheet) back() []band {
	var out []band
	if q := s.p.Press; q != nil {
		out = s.atPress(s.newForm(), q)
	}
	var after []cell
	if s.p.Filler != nil {
		after = append(after, s.prose(0.29, s.step("MELT OUT", ""), s.meltOut()))
	}
	rest := 1.0
	if len(after) > 0 {
		rest = 0.71
	}
	after = append(after, s.prose(rest*0.64, s.step("CHECK", ""), s.checks()), s.prose(rest*0.36, s.step("TRIM", ""), s.trim()))
	return append(out, band{cells: after}, whole(s.trials(), 0.6, 0))
}

// atHand returns the press's side for a block at hand that does: what comes after
// is on the back.
func (s *sheet) atHand() []band {
	s.about = atHandKey
	defer func() { s.about = "" }()
	out := s.atPress(s.formAtHand(), s.p.Existing.Press)
	rest := append([]para{{text: s.say(sentence.PaperAtHand, nil)}}, s.told(sentence.Anywhere, sentence.Design, sentence.Cut, sentence.Fill, sentence.MeltOut, sentence.Check, sentence.Trial)...)
	return append(out, whole(s.prose(1, heading{}, rest), 0, 0))
}

// atHandKey is the job's key that advice on a block at hand is about.
const atHandKey = "block.existing"

// apart reports whether a piece of advice belongs on another side than the one
// being drawn: what a block at hand is warned of stands with its own set-up,
// where it has one.
func (s *sheet) apart(a sentence.Advice) bool {
	if s.about == "" {
		return a.About == atHandKey && s.hasAtHand()
	}
	return a.About != s.about && (a.Level != sentence.Caution || a.Step != sentence.SetUp && a.Step != sentence.Press)
}

// hasAtHand reports whether there is a block at hand that does.
func (s *sheet) hasAtHand() bool { return s.p.Existing != nil && s.p.Existing.Works }

// atPress returns the fields of a block at the press: set-up, stops and plot.
func (s *sheet) atPress(b form, q *plan.Press) []band {
	set := s.setUp(s.step("SET UP", ""), b, q)
	hd := s.step("PRESS", "until it is "+s.f.angle(q.Final.Filled)+" "+sentence.LetGoName(s.p.Job.Filler.Named()))
	table, facts := s.stops(q), s.pressFacts(q)
	// The table takes what its words need, the plot the rest, or where that is too
	// narrow for its legend a strip of its own.
	wide := s.frame().Width()
	tableShare := max(0.6, (s.leastWidth(table)+2*pad+0.1)/wide)
	beside := (1-tableShare)*wide >= s.width("angle "+sentence.UnderPressure)+sample+2*pad+3
	if !beside {
		tableShare = 1
	}
	left := cell{tableShare,
		func(w float64) float64 {
			return s.headHeight(hd, w) + s.tableHeight(table, w-2*pad) + 2
		},
		func(f geom.Rect) { s.tabulate(s.head(f, hd), table) },
	}
	right := cell{1 - tableShare,
		func(w float64) float64 { return s.least(44) },
		func(f geom.Rect) {
			f.Max.Y -= 1
			s.plot(geom.Rect{Min: f.Min.Add(geom.Pt(pad, 1)), Max: f.Max.Sub(geom.Pt(pad, 0))}, q)
		},
	}
	run := []band{{cells: []cell{left, right}, grow: 1, most: 75}}
	if !beside {
		run = []band{whole(left, 0, 0), whole(right, 1, 75)}
	}
	return slices.Concat([]band{whole(set, 4, 130)}, run, []band{whole(s.prose(1, heading{}, facts), 0, 0)})
}

// partFacts says what the part is.
func (s *sheet) partFacts() []para {
	j, b := s.p.Job, s.p.Tools.Blank
	depth := j.Tube.Depth
	face := map[job.Face]string{job.Centre: "centreline", job.Inside: "inside face", job.Outside: "outside face"}[j.Bend.RadiusAt]
	say := func(c sentence.Code, f sentence.Figures) para { return para{text: s.say(c, f)} }
	out := []para{
		say(sentence.PaperTube, sentence.Figures{"size": s.f.tube(j.Tube) + "\u00a0" + s.u.String(), "metal": j.Material.Name}),
		say(sentence.PaperRadius, sentence.Figures{
			"drawn": s.f.length(j.Bend.Drawn(depth)), "face": face,
			"inside": s.f.given(j.Bend.Inside(depth)), "centre": s.f.given(j.Bend.Radius), "outside": s.f.given(j.Bend.Outside(depth)),
		}),
		say(sentence.PaperAngle, sentence.Figures{"angle": s.f.drawnAngle(j.Bend.Angle), "finder": s.f.finder(j.Bend.Angle)}),
		say(sentence.PaperLegs, sentence.Figures{"left": s.f.given(j.Bend.Legs[0]), "right": s.f.length(j.Bend.Legs[1])}),
	}
	out = append(out, para{text: s.ends()})
	if b.Length > 0 {
		out = append(out, say(sentence.PaperFaces, sentence.Figures{"outside": s.f.tape(b.Outside), "inside": s.f.tapeUnit(b.Inside)}))
	}
	if t := j.Drawing; t.AngleTolerance > 0 || t.RadiusTolerance > 0 {
		f := sentence.Figures{"angle": "", "radius": ""}
		if t.AngleTolerance > 0 {
			f["angle"] = "±" + s.f.drawnAngle(t.AngleTolerance)
		}
		if t.RadiusTolerance > 0 {
			f["radius"] = "±" + s.f.length(t.RadiusTolerance) + " of radius"
			if t.AngleTolerance > 0 {
				f["radius"] = " and " + f["radius"].(string)
			}
		}
		out = append(out, say(sentence.PaperTolerance, f))
	}
	return out
}

// ends says how the ends are cut.
func (s *sheet) ends() string {
	var said [2]string
	for i, cut := range s.p.Job.Ends.Cut {
		c := sentence.PaperEndSquare
		switch {
		case cut > 0:
			c = sentence.PaperEndLong
		case cut < 0:
			c = sentence.PaperEndShort
		}
		said[i] = sentence.Reason{Code: c, Figures: sentence.Figures{"side": [2]string{"left", "right"}[i], "cut": s.f.drawnAngle(max(cut, -cut))}}.Say(s.u)
	}
	return capital(said[0] + ", " + said[1])
}

// told returns what the plan says of steps of the work: what stops and warns, and
// cautions in few words.
func (s *sheet) told(steps ...sentence.Step) []para {
	var out []para
	for _, level := range [...]sentence.Level{sentence.Stop, sentence.Warning, sentence.Caution} {
		for _, a := range s.p.Advice {
			if a.Level != level || !slices.Contains(steps, a.Step) || a.Code == sentence.FillerCaution || s.apart(a) {
				continue
			}
			lead := map[sentence.Level]string{sentence.Stop: "STOP", sentence.Warning: "WARNING", sentence.Caution: ""}[level]
			text := a.Brief(s.u)
			if level == sentence.Caution {
				text = capital(text)
			}
			out = append(out, para{lead, text, true})
		}
	}
	return out
}

// noted returns the plan's notes of some codes.
func (s *sheet) noted(codes ...sentence.Code) []para {
	var out []para
	for _, a := range s.p.Advice {
		if a.Level == sentence.Note && slices.Contains(codes, a.Code) && !s.apart(a) {
			out = append(out, para{text: capital(a.Brief(s.u))})
		}
	}
	return out
}

// cuts is the cut list and what the plates need.
func (s *sheet) cuts(share float64, hd heading) cell {
	t := table{left: 1, rows: [][]string{{"part", "no.", "plate", "size, " + s.u.String(), s.u.Unit(quantity.Mass)}}}
	var facts []para
	for _, c := range s.p.CutList() {
		name := sentence.PieceName(c.What)
		row := []string{name, strconv.Itoa(c.Count), s.f.stock(c.Plate), s.f.overall(c.Width) + "\u00a0×\u00a0" + s.f.overall(c.Height), s.u.Figure(quantity.Mass.Of(c.MassKg))}
		if c.Plate == 0 {
			row[2], row[3] = "", s.f.tape(c.Width)+"\u00a0long"
		}
		t.rows = append(t.rows, row)
	}
	if len(t.rows) == 1 {
		facts = append(facts, para{text: s.say(sentence.PaperNoPart, nil)})
	}
	if n := s.p.Nest; n != nil {
		facts = append(facts, para{text: s.say(sentence.PaperNest, sentence.Figures{
			"sheets": sentence.Count(n.Sheets, "plate"), "size": s.f.stock(n.Plate) + "\u00a0×\u00a0" + s.f.given(n.Width) + "\u00a0×\u00a0" + s.f.length(n.Height),
			"used": quantity.Share.Of(n.UsedShare()), "mass": s.f.mass(n.Mass),
		})})
	}
	bolts, pins := s.p.Drilled()
	for _, d := range []struct {
		n      int
		c      sentence.Code
		across float64
	}{{bolts, sentence.PaperDrill, s.p.Tools.Block.Hole}, {pins, sentence.PaperDrillPins, s.p.Job.Fixture.Pin}} {
		if d.n > 0 {
			facts = append(facts, para{text: s.say(d.c, sentence.Figures{
				"holes": sentence.Count(d.n, "hole"), "hole": "Ø" + s.f.stockUnit(d.across), "process": s.p.Tools.Process.Name,
			})})
		}
	}
	if b := s.p.Ready; b != nil {
		facts = append(facts, para{text: s.say(sentence.PaperReady, sentence.Figures{"name": b.Name, "radius": s.f.radius(b.Radius) + "\u00a0" + s.u.String()})})
	}
	facts = append(facts, s.noted(sentence.StripFromPlate, sentence.KerfInFiles, sentence.KerfAtTable, sentence.NoRoomForOpenings, sentence.ShopGave)...)
	facts = append(facts, s.told(sentence.Cut)...)
	return cell{share,
		func(w float64) float64 {
			return s.headHeight(hd, w) + s.tableHeight(t, w-2*pad) + s.parasHeight(facts, w-2*pad) + 2
		},
		func(f geom.Rect) { s.write(s.tabulate(s.head(f, hd), t), facts) },
	}
}

// fill says how to fill the tube, and what to mind.
func (s *sheet) fill() (how, mind []para) {
	j := s.p.Job
	a := j.Filler.Alloy
	celsius := quantity.Temperature.Of
	bath, _, _ := strings.Cut(a.MeltOutIn, ",")
	clean := sentence.PaperClean
	if a.Liquidus >= 100 {
		clean = sentence.PaperCleanBoil
	}
	f := sentence.Figures{
		"plugs": s.plugs(), "dry": celsius(110), "mass": s.f.mass(s.p.Filler.Mass), "alloy": a.Name,
		"melts": celsius(a.Liquidus), "bath": bath, "ceiling": celsius(a.Ceiling),
	}
	for _, c := range [...]sentence.Code{clean, sentence.PaperMelt, sentence.PaperPour, sentence.PaperChill} {
		how = append(how, para{text: s.say(c, f)})
	}
	how = append(how, s.noted(sentence.AlloyPlugs, sentence.AlloyEnough)...)
	code := sentence.PaperAlloy
	var metals []string
	if a.Lead {
		metals = append(metals, "lead")
	}
	if a.Cadmium {
		metals = append(metals, "cadmium")
	}
	if len(metals) > 0 {
		code = sentence.PaperToxic
	}
	f["metals"] = strings.Join(metals, " and ")
	mind = append(mind, para{"", s.say(code, f), true})
	return how, append(mind, s.told(sentence.Fill)...)
}

// plugs says how long the two plugs are.
func (s *sheet) plugs() string {
	p := s.p.Job.Filler.Plugs
	if p[0] == p[1] {
		return s.f.stockUnit(p[0])
	}
	return s.f.stock(p[0]) + " (left) and " + s.f.stockUnit(p[1]) + " (right)"
}

// stops is the table to be ticked off.
func (s *sheet) stops(q *plan.Press) table {
	filled, gauge := s.p.Job.Filler.Named(), q.Gauge > 0
	head := []string{"stop", "travel, " + s.u.String(), "force, " + s.u.Unit(quantity.Force)}
	if gauge {
		head = append(head, "gauge, "+s.u.Unit(quantity.Pressure))
	}
	head = append(head, sentence.UnderPressure, sentence.LetGoName(filled), "read")
	t := table{rows: [][]string{head}, blank: 15}
	for i, st := range q.Stops {
		angle := func(a geom.Angle) string { return s.u.Figure(quantity.Stop.Of(float64(a))) + "°" }
		if st == q.Final {
			t.bold = i + 1
			angle = s.f.angle
		}
		row := []string{strconv.Itoa(i + 1), s.f.travel(st.Travel), s.u.Figure(quantity.Force.Of(st.Force))}
		if gauge {
			row = append(row, s.u.Figure(quantity.Pressure.Of(q.At(st))))
		}
		t.rows = append(t.rows, append(row, angle(st.Loaded), angle(st.Filled), ""))
	}
	return t
}

// pressFacts says how to press.
func (s *sheet) pressFacts(q *plan.Press) []para {
	say := func(c sentence.Code, f sentence.Figures) para { return para{text: s.say(c, f)} }
	travel := func(mm float64) string { return s.f.travel(mm) + "\u00a0" + s.u.String() }
	out := []para{say(sentence.PaperGoOn, nil)}
	var end []string
	if q.Creep > 0 {
		step, name := 1.0, "1\u00a0mm"
		if s.u == quantity.Inches {
			step, name = s.u.MM(1)/32, "1/32\u00a0in"
		}
		end = append(end, s.say(sentence.PaperMore, sentence.Figures{"step": name, "more": s.f.angle(q.Creep * geom.Angle(step))}))
	}
	if q.Low != nil && q.High != nil {
		end = append(end, s.say(sentence.PaperRange, sentence.Figures{"low": travel(q.Low.Final.Travel), "high": travel(q.High.Final.Travel), "aim": s.f.angle(q.Final.Filled)}))
	}
	if len(end) > 0 {
		out = append(out, para{text: strings.Join(end, ". ")})
	}
	springs := s.say(sentence.PaperSprings, sentence.Figures{
		"share": quantity.Share.Of(1 - float64(q.Final.Melted/q.Final.Loaded)), "press": s.f.angle(q.Final.Loaded), "aim": s.f.drawnAngle(s.p.Job.Bend.Angle),
	})
	peak := sentence.Figures{"force": quantity.Force.Of(q.Peak), "rubbed": quantity.Force.Of(q.PeakRubbed), "of": "", "gauge": ""}
	if q.Share > 0 {
		peak["of"] = sentence.Reason{Code: sentence.PaperCapacity, Figures: sentence.Figures{"capacity": s.p.Job.Press.Rated.Of(s.p.Job.Press.Capacity)}}
	}
	if q.Gauge > 0 {
		peak["gauge"] = sentence.Reason{Code: sentence.PaperPeakGauge, Figures: sentence.Figures{"gauge": quantity.Pressure.Of(q.Gauge)}}
	}
	force := s.say(sentence.PaperPeak, peak)
	yield := s.say(sentence.PaperYield, sentence.Figures{"proof": quantity.Stress.Of(s.p.Metal.Spread.Nominal)})
	out = append(out, para{text: springs + ". " + force + ". " + yield})
	strip := sentence.StripStaysFlat
	if !q.Strip.Reusable {
		strip = sentence.StripKeepsSet
	}
	out = append(out, say(strip, sentence.Figures{"radius": quantity.Radius.Of(q.Strip.Radius())}))
	out = append(out, s.noted(sentence.ExistingGives, sentence.ExistingFails, sentence.ExistingCannot)...)
	if s.about == "" && s.hasAtHand() {
		out = append(out, say(sentence.PaperSeeAtHand, sentence.Figures{"block": quantity.Length.Of(s.p.Existing.Block)}))
	}
	return append(out, s.told(sentence.Press)...)
}

// meltOut says how the alloy comes out.
func (s *sheet) meltOut() []para {
	a := s.p.Job.Filler.Alloy
	bath, _, _ := strings.Cut(a.MeltOutIn, ",")
	out := []para{
		{text: s.say(sentence.PaperMeltOut, sentence.Figures{"bath": bath, "hot": quantity.Temperature.Of(a.MeltOut)})},
		{text: s.say(sentence.PaperBack, sentence.Figures{"mass": s.f.mass(s.p.Filler.Mass)})},
	}
	if a.Lead || a.Cadmium {
		out = append(out, para{"", s.say(sentence.PaperWaste, nil), true})
	}
	return append(out, s.told(sentence.MeltOut)...)
}

// checks says what to measure on the finished bend.
func (s *sheet) checks() []para {
	j := s.p.Job
	out := []para{{text: s.say(sentence.PaperCheckAngle, sentence.Figures{
		"angle": s.f.drawnAngle(j.Bend.Angle), "finder": s.f.finder(j.Bend.Angle), "error": "±" + s.f.drawnAngle(job.DefaultAngleError),
	})}}
	if h, ok := s.p.Gauge(s.u); ok {
		radius := func(mm float64) string { return s.f.radius(mm) }
		f := sentence.Figures{
			"edge": s.f.length(h.Edge), "gap": s.f.measured(quantity.Rise.Of(h.Gap)) + "\u00a0" + s.u.String(), "error": quantity.Nominal.Of(job.RuleError(s.u)),
			"least": radius(h.Least), "most": radius(h.Most) + "\u00a0" + s.u.String(),
		}
		code := sentence.PaperCheckRadius
		if h.Most == 0 {
			code = sentence.PaperCheckLeast
		}
		out = append(out, para{text: s.say(code, f)})
	}
	if a := s.p.After; a.InnerWidth != a.OuterWidth {
		out = append(out, para{text: s.say(sentence.PaperCheckFaces, sentence.Figures{"inner": s.f.given(a.InnerWidth), "outer": s.f.length(a.OuterWidth)})})
	}
	out = append(out, para{text: s.say(sentence.PaperCheckLook, nil)})
	out = append(out, s.noted(sentence.BendLeft)...)
	return append(out, s.told(sentence.Check)...)
}

// trim says how the ends are cut.
func (s *sheet) trim() []para {
	out := []para{{text: s.say(sentence.PaperTrim, sentence.Figures{"ends": strings.ToLower(s.ends()[:1]) + s.ends()[1:]})}}
	if s.p.Fixture != nil {
		out = append(out, para{text: s.say(sentence.PaperOnFixture, nil)})
	}
	return out
}

// trialRows are the rows for trial bends, headed by the job file's keys.
const trialRows = 2

// trials is the empty table for trial bends.
func (s *sheet) trials() cell {
	head := []string{"trial", "block", "travel"}
	if s.p.Job.Filler.Named() {
		head = append(head, "filled", "melted")
	} else {
		head = append(head, "released")
	}
	head = append(head, "chord", "rise")
	t := table{blank: 14}
	t.rows = append(t.rows, head)
	for i := range trialRows {
		row := make([]string, len(head))
		row[0] = fmt.Sprint(len(s.p.Job.Trials) + i + 1)
		t.rows = append(t.rows, row)
	}
	hd := heading{name: "TRIAL", rest: s.say(sentence.PaperTrials, nil)}
	return cell{1,
		func(w float64) float64 { return s.headHeight(hd, w) + s.tableHeight(t, w-2*pad) + 2 },
		func(f geom.Rect) {
			room := s.head(f, hd)
			// More rows where there is room.
			for room.Height() > s.tableHeight(t, room.Width())+s.rowHeight(t, 1) && len(t.rows) < 9 {
				row := make([]string, len(head))
				row[0] = fmt.Sprint(len(s.p.Job.Trials) + len(t.rows))
				t.rows = append(t.rows, row)
			}
			s.tabulate(room, t)
		},
	}
}

package report

import (
	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/geom/bend"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// What is cut, bolted together, marked and checked at the bench, as JSON.

type stackDoc struct {
	Bolts    int      `json:"bolts"`
	Hole     float64  `json:"hole_mm"`
	Drilled  int      `json:"drilled_holes"` // that the process can't cut, over all plates and sheets
	Openings int      `json:"openings"`
	Thread   *string  `json:"thread"` // null: the holes pass no bolt
	Bolt     *float64 `json:"bolt_mm"`
	Length   *float64 `json:"bolt_length_mm"`
	Grip     *float64 `json:"grip_mm"`          // over both cheeks and what is between them
	Beyond   *float64 `json:"nut_allowance_mm"` // least beyond the grip
}

type templateDoc struct {
	Plate float64  `json:"plate_mm"`
	Mass  *float64 `json:"mass_kg"` // of both, taken as steel
}

type cutDoc struct {
	Part   string  `json:"part"`
	Count  int     `json:"count"`
	Plate  float64 `json:"plate_mm"` // 0 for the tube
	Width  float64 `json:"width_mm"`
	Height float64 `json:"height_mm"`
	Mass   float64 `json:"mass_kg"` // of all
}

type nestDoc struct {
	Plate  float64 `json:"plate_mm"`
	Width  float64 `json:"width_mm"`
	Height float64 `json:"height_mm"`
	Sheets int     `json:"sheets"`
	Used   float64 `json:"used_share"`
	Mass   float64 `json:"mass_kg"`
}

type checkDoc struct {
	Finder     float64    `json:"finder_deg"` // what an angle finder laid on the bend shows
	AngleError float64    `json:"angle_error_deg"`
	Edge       *float64   `json:"straightedge_mm"` // in the hollow; null where none fits
	Gap        *float64   `json:"gap_mm"`
	GapError   float64    `json:"gap_error_mm"`
	Least      *float64   `json:"least_radius_mm"` // of the centreline, that the error can't tell
	Most       *float64   `json:"most_radius_mm"`
	Inside     []chordDoc `json:"inside"` // of the hollow
	Outside    []chordDoc `json:"outside"`
}

type chordDoc struct {
	Chord float64 `json:"chord_mm"`
	Rise  float64 `json:"rise_mm"` // in the middle of the chord
}

func shape(t profiles.Section) string {
	if t.Shape == profiles.Round {
		return "round"
	}
	return "rectangle"
}

func stack(p *plan.Plan) *stackDoc {
	b := p.Tools.Block
	if len(b.Layers) == 0 {
		return nil
	}
	d := &stackDoc{Bolts: len(b.Bolts), Hole: b.Hole, Drilled: p.Drilled(), Openings: len(b.Openings)}
	if bolt, ok := p.Tools.Bolt(p.Job.Inches); ok {
		d.Thread, d.Bolt, d.Length, d.Grip, d.Beyond = &bolt.Name, &bolt.Size, &bolt.Length, &bolt.Grip, &bolt.Beyond
	}
	return d
}

func template(p *plan.Plan) templateDoc { return templateDoc{p.Tools.Sheet, some(p.TemplateMass())} }

func cuts(p *plan.Plan) []cutDoc {
	out := []cutDoc{}
	for _, c := range p.CutList() {
		out = append(out, cutDoc{c.What, c.Count, c.Plate, c.Width, c.Height, c.MassKg})
	}
	return out
}

func nest(n *plan.Nest) *nestDoc {
	if n == nil {
		return nil
	}
	return &nestDoc{n.Plate, n.Width, n.Height, n.Sheets, n.UsedShare(), n.Mass}
}

func blank(b tooling.Blank) blankDoc {
	d := blankDoc{
		Length: some(b.Length), ForPress: b.ForPress, Marks: []markDoc{},
		Outside: b.Outside, Inside: b.Inside, OutsideLegs: b.OutsideLeg, InsideLegs: b.InsideLeg,
	}
	for _, m := range b.Marks {
		d.Marks = append(d.Marks, markDoc{m.Name, m.At, m.At + m.Slant, m.At - m.Slant})
	}
	return d
}

func check(p *plan.Plan) checkDoc {
	j := p.Job
	d := checkDoc{
		Finder: 180 - j.Bend.Angle.Degrees(), AngleError: job.DefaultAngleError.Degrees(), GapError: job.RuleError(j.Units()),
		Inside: chords(j, j.Bend.Inside(j.Tube.Depth)), Outside: chords(j, j.Bend.Outside(j.Tube.Depth)),
	}
	if h, ok := p.Gauge(j.Units()); ok {
		d.Edge, d.Gap, d.Least, d.Most = some(h.Edge), some(h.Gap), some(h.Least), some(h.Most)
	}
	return d
}

// chords lists the rises of a face of the finished bend, its radius in mm.
func chords(j job.Job, radius float64) []chordDoc {
	out := []chordDoc{}
	for _, r := range tooling.Rises(radius, j.Bend.Angle, j.Inches) {
		out = append(out, chordDoc(r))
	}
	return out
}

func gaugeAt(q *plan.Press, s bend.State) *float64 {
	if q.Gauge == 0 {
		return nil
	}
	v := q.At(s)
	return &v
}

package page

import (
	"fmt"
	"hash/fnv"
	"html/template"
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/sheet"
	"overbend/cmd/internal/words"
	"overbend/export/svg"
	"overbend/geom"
)

// view is a plan as the page shows it.
type view struct {
	P     *plan.Plan
	U     quantity.Units
	wide  float64 // of a picture, mm
	small bool    // the screen is
	draw  sheet.Pictures
	trial *trialView
	marks map[string]string // see [marks]
}

// Widths of a picture in mm, about what a telephone and a desk show at true size.
// They are two and no more, so that the page as it opens is as it stays.
const (
	smallView = 90.0
	largeView = 200.0
)

// newView shows a plan to whoever sent a form: on a small screen where its field
// "view" says so.
func newView(p *plan.Plan, f url.Values) *view {
	u := unitsOf(f, p)
	v := &view{P: p, U: u, wide: largeView, marks: marks(p, u)}
	capitals := 3.0
	if v.small = f.Get("view") == "small"; v.small {
		v.wide, capitals = smallView, 2.75
	}
	v.draw = sheet.NewPictures(p, v.U, capitals)
	v.trial = newTrialView(v)
	return v
}

// part is a piece of the page that changes with the job.
type part struct{ ID, HTML string }

// Hash says whether a part is what a reader has already.
func (p part) Hash() string {
	h := fnv.New64a()
	h.Write([]byte(p.HTML))
	return strconv.FormatUint(h.Sum64(), 36)
}

// partNames returns the parts in the order of the work.
func partNames() []string {
	return []string{"alerts", "numbers", "part", "range", "cut", "mark", "fill", "setup", "press", "after", "trials", "points", "fixture", "outline", "section"}
}

// parts renders the parts of a plan but those left out.
func (h *handler) parts(v *view, without []string) ([]part, error) {
	var out []part
	for _, name := range partNames() {
		if slices.Contains(without, "p-"+name) {
			continue
		}
		var b strings.Builder
		if err := h.pages.ExecuteTemplate(&b, "part-"+name, v); err != nil {
			return nil, err
		}
		out = append(out, part{"p-" + name, strings.TrimSpace(b.String())})
	}
	return out, nil
}

// functions are what the templates call.
func functions() template.FuncMap {
	return template.FuncMap{
		"sides": func() []string { return []string{"left", "right"} },
		"capital": func(s string) string {
			if s == "" {
				return s
			}
			return strings.ToUpper(s[:1]) + s[1:]
		},
	}
}

// Alerts returns what stops the job and what warns.
func (v *view) Alerts() []note {
	var out []note
	for _, level := range []words.Level{words.Stop, words.Warning} {
		for _, a := range v.P.Advice {
			if a.Level == level {
				out = append(out, v.note(a))
			}
		}
	}
	return out
}

// note is a piece of advice.
type note struct{ Level, About, Field, Text string }

func (v *view) note(a words.Advice) note {
	n := note{Level: string(a.Level), About: a.About, Text: a.Say(v.U)}
	for field := range v.marks {
		if field == a.About || strings.HasPrefix(field, a.About+".") {
			n.Field = field
		}
	}
	return n
}

// Told returns what is to be known at steps of the work, the gravest first.
func (v *view) Told(steps ...string) []note {
	return v.told([]words.Level{words.Stop, words.Warning, words.Caution, words.Note}, steps)
}

// Cautions is [view.Told] without what [view.Alerts] has just said.
func (v *view) Cautions(steps ...string) []note {
	return v.told([]words.Level{words.Caution, words.Note}, steps)
}

func (v *view) told(levels []words.Level, steps []string) []note {
	var out []note
	for _, level := range levels {
		for _, a := range v.P.Advice {
			if a.Level == level && slices.Contains(steps, string(a.Step)) && !aboutSection(a) {
				out = append(out, v.note(a))
			}
		}
	}
	return out
}

// Ten returns the numbers that a person acts on. What stands in brackets behind a
// number, the other system's, is not as large.
func (v *view) Ten() []report.Figure {
	out := report.Ten(v.P, v.U)
	for i, f := range out {
		if own, other, ok := strings.Cut(f.Value, " ("); ok {
			out[i].Value, out[i].More = own, strings.TrimSuffix("("+other+", "+f.More, ", ")
		}
	}
	return out
}

// picture is a drawing on the page.
type picture struct{ SVG template.HTML }

// picture returns a drawing of a share of the page's width and so high to that, or
// nil where there is none. What finds no room is drawn for a larger one and shown
// smaller.
func (v *view) picture(id, title, desc string, share, high float64, draw func(w, h float64) sheet.Picture) (*picture, error) {
	if v.small {
		high = min(1, 1.5*high) // names need the room
	}
	for _, more := range []float64{1, 1.3, 1.7, 2.3, 3} {
		w := v.wide * share * more
		p := draw(w, w*high)
		if len(p.Shapes) == 0 {
			continue
		}
		text, err := svg.Inline(p.Drawing, "svg-"+id, title, quantity.Plain(desc))
		// Package svg escapes what it writes.
		return &picture{template.HTML(text)}, err
	}
	return nil, nil
}

// Part is the finished part.
func (v *view) Part() (*picture, error) {
	j := v.P.Job
	return v.picture("part", "The finished part", fmt.Sprintf("Tube %s %s, bent by %s on a centreline radius of %s, straights %s and %s.",
		plan.TubeSize(j.Tube, v.U, quantity.Nominal), j.Material.Name, v.U.Angle(j.Bend.Angle), v.U.Length(j.Bend.Radius), v.U.Length(j.Bend.Legs[0]), v.U.Length(j.Bend.Legs[1])), 1, 0.5, v.draw.Part)
}

// Stack is the end view of block, side plates, tube and strip.
func (v *view) Stack() (*picture, error) {
	return v.picture("stack", "The stack, end view", fmt.Sprintf("From the middle outwards: block plates of %s, packing, side plates %s apart; below them the tube and a strip of %s.",
		v.U.Length(v.P.Tools.Plate), v.U.Length(v.P.Tools.CheekGap), v.U.Length(v.P.Strip.Thickness)), min(1, 110/v.wide), 0.9, v.draw.Stack)
}

// Marks is the blank with its marks.
func (v *view) Marks() (*picture, error) {
	b := v.P.Tools.Blank
	var at []string
	for i, m := range b.Marks {
		at = append(at, words.MarkName(b.Marks, i)+" "+v.U.Tape(m.At+m.Slant))
	}
	return v.picture("mark", "The blank and its marks", fmt.Sprintf("Blank %s long. From the left end, on the outside face: %s.", v.U.Tape(b.Length), strings.Join(at, ", ")), 1, 0.42, v.draw.Marks)
}

// SetUp is the block at the press.
func (v *view) SetUp() (*picture, error) {
	q := v.P.Press
	if q == nil {
		return nil, nil
	}
	return v.picture("setup", "Set-up at the press", fmt.Sprintf("Block of radius %s over the tube, rollers %s apart below it, at first touch and after a travel of %s.",
		v.U.Show(quantity.Radius.Of(q.Block)), v.U.Tape(q.Rig.Supports), v.U.Show(quantity.Travel.Of(q.Final.Travel))), 1, 0.66, v.draw.SetUp)
}

// Plot is force and angle over the travel.
func (v *view) Plot() (*picture, error) {
	q := v.P.Press
	if q == nil {
		return nil, nil
	}
	return v.picture("plot", "Force and angle over the travel", fmt.Sprintf("At a travel of %s the force is %s, the angle under pressure %s and, let go, %s. The table of stops has the way there.",
		v.U.Show(quantity.Travel.Of(q.Final.Travel)), v.U.Show(quantity.Force.Of(q.Final.Force)), v.U.Show(quantity.Reading.Of(float64(q.Final.Loaded))), v.U.Show(quantity.Reading.Of(float64(q.Final.Filled)))), 1, 0.55, v.draw.Plot)
}

// table is rows below a head.
type table struct {
	Head []string
	Rows [][]string
}

// Stops is where to let go and measure.
func (v *view) Stops() *table {
	q := v.P.Press
	if q == nil {
		return nil
	}
	filled, gauge := v.P.Filler != nil, q.Gauge > 0
	t := &table{Head: []string{"stop", "travel", "force"}}
	if gauge {
		t.Head = append(t.Head, "gauge")
	}
	t.Head = append(t.Head, words.UnderPressure, words.LetGoName(filled))
	for i, s := range q.Stops {
		row := []string{strconv.Itoa(i + 1), v.U.Show(quantity.Travel.Of(s.Travel)), v.U.Show(quantity.Force.Of(s.Force))}
		if gauge {
			row = append(row, v.U.Show(quantity.Pressure.Of(q.At(s))))
		}
		angle := func(a geom.Angle) string { return v.U.Show(quantity.Stop.Of(float64(a))) }
		if s == q.Final {
			angle = func(a geom.Angle) string { return v.U.Show(quantity.Reading.Of(float64(a))) }
		}
		t.Rows = append(t.Rows, append(row, angle(s.Loaded), angle(s.Filled)))
	}
	return t
}

// CutList is what is cut.
func (v *view) CutList() *table {
	t := &table{Head: []string{"part", "no.", "plate", "size", "mass"}}
	for _, c := range v.P.CutList() {
		row := []string{words.PieceName(c.What), strconv.Itoa(c.Count), v.U.Length(c.Plate), v.U.Size(c.Width, c.Height), v.U.Figure(quantity.Mass.Of(c.MassKg)) + "\u00a0" + v.U.Unit(quantity.Mass)}
		if c.Plate == 0 {
			row[2], row[3] = "", v.U.Tape(c.Width)+" long"
		}
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t
}

// band is a number over the metal's range, on a line from 0 to 100.
type band struct {
	Name, Low, Mid, High string
	From, Wide, At       float64
}

// Bands shows what the metal's range does to the numbers that follow from it.
func (v *view) Bands() []band {
	var out []band
	add := func(name string, k quantity.Kind, low, mid, high float64) {
		if low > high {
			low, high = high, low
		}
		if high-low <= 0 {
			return
		}
		lo, hi := min(low, mid), max(high, mid)
		edge := 0.12 * (hi - lo)
		at := func(x float64) float64 { return math.Round(1000*(x-lo+edge)/(hi-lo+2*edge)) / 10 }
		show := func(x float64) string { return v.U.Show(k.Of(x)) }
		out = append(out, band{name, show(low), show(mid), show(high), at(low), math.Round(10*(at(high)-at(low))) / 10, at(mid)})
	}
	p := v.P
	if p.Low != nil && p.High != nil {
		add("yield strength", quantity.Stress, p.Low.Proof, p.Nominal.Proof, p.High.Proof)
		add("form block radius", quantity.Radius, p.Low.Block, p.Nominal.Block, p.High.Block)
	}
	if q := p.Press; q != nil && q.Low != nil && q.High != nil {
		add("travel to the angle", quantity.Travel, q.Low.Final.Travel, q.Final.Travel, q.High.Final.Travel)
		add("angle at that travel, unmeasured", quantity.Reading, float64(q.High.AtTravel), float64(q.Final.Melted), float64(q.Low.AtTravel))
	}
	return out
}

// Stranger reports whether a choice holds what is none of its words: it stays, to
// be refused in the command line's own words.
func (f shownField) Stranger() bool {
	return f.Value[0] != "" && !slices.Contains(f.Words, f.Value[0])
}

package drawn

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/export/dxf/dxfread"
	"overbend/geom"
	"overbend/geom/chain"
)

// Options say how a drawing is to be read. The zero value takes it as it is.
type Options struct {
	Layer  string  // the only one to look at; "": all
	Unit   float64 // of the drawing, in mm; 0: what the file says
	Gap    float64 // widest that is closed, mm; 0: the usual
	Limits dxfread.Limits
}

// UnitNames returns the names of units that a drawing may be said to be in.
func UnitNames() []string { return []string{"mm", "cm", "m", "in", "ft"} }

// ParseUnit returns the size in mm of a unit that [UnitNames] lists.
func ParseUnit(name string) (float64, error) {
	if !slices.Contains(UnitNames(), name) {
		return 0, fmt.Errorf("%.40q is not allowed; it must be one of %s", name, strings.Join(UnitNames(), ", "))
	}
	return quantity.ParseLength("1 "+name, quantity.Millimetres)
}

// Found is what a drawing holds. All geometry is in mm, in the drawing's place.
type Found struct {
	Version    string  // of the format, as the file names it
	Unit       float64 // of the drawing, mm
	Lines      []Line  // all that was looked at
	Candidates []Candidate
	// Notes are about the drawing as a whole: what was left out and why.
	Notes []words.Reason
}

// Line is a line of the drawing.
type Line struct {
	geom.Path
	Kind, Layer string
	At          int // line of the file
}

// Refusal says why a drawing gives no job.
type Refusal struct{ words.Reason }

// Error returns the sentence in mm.
func (r *Refusal) Error() string { return quantity.Plain(r.Say(quantity.Millimetres)) }

// mostBends is how many arcs of one drawing are compared with each other.
const mostBends = 2000

// Bounds of a bend that a job file can hold: those of package job.
const (
	leastAngle = 0.01 * geom.Degree
	mostAngle  = 180 * geom.Degree
	mostRadius = 100e3 // mm
)

// Read looks for bends in a DXF. An error is a [*dxfread.Error] about the file or
// a [*Refusal]. A drawing without a bend is no error: it has no candidates, and
// its notes say what there is instead.
func Read(r io.Reader, o Options) (Found, error) {
	d, err := dxfread.Read(r, o.Limits)
	if err != nil {
		return Found{}, err
	}
	f := Found{Version: d.Version, Unit: cmp.Or(o.Unit, d.Unit)}
	if f.Unit == 0 {
		return f, &Refusal{words.Reason{Code: words.DrawingNoUnit, Figures: words.Figures{"code": d.UnitCode, "units": strings.Join(UnitNames(), ", ")}}}
	}
	if err := f.take(d, o.Layer); err != nil {
		return f, err
	}
	tol := chain.Usual()
	if o.Gap > 0 {
		tol.Gap = o.Gap
	}
	if err := f.find(tol); err != nil {
		return f, err
	}
	for _, c := range d.Skipped {
		if slices.Contains(quiet(), c.What) {
			continue
		}
		what := fmt.Sprintf("%d %s", c.N, c.What)
		if c.What == dxfread.Hidden || c.What == dxfread.OffPlane {
			what = words.Count(c.N, "line") + " " + c.What
		}
		f.note(words.DrawingSkipped, words.Figures{"what": what})
	}
	return f, nil
}

// quiet lists what a drawing may hold beside its lines without a word said.
func quiet() []string {
	return []string{"TEXT", "MTEXT", "DIMENSION", "POINT", "LEADER", "MULTILEADER", "ATTDEF", "HATCH", "SOLID", "ARC_DIMENSION", "TOLERANCE", "VIEWPORT"}
}

func (f *Found) note(code words.Code, figures words.Figures) {
	f.Notes = append(f.Notes, words.Reason{Code: code, Figures: figures})
}

// take turns the drawing's shapes to mm.
func (f *Found) take(d dxfread.Drawing, layer string) error {
	if layer != "" && !slices.ContainsFunc(d.Layers, func(l string) bool { return strings.EqualFold(l, layer) }) {
		var all []string
		for _, l := range d.Layers {
			all = append(all, printable(l))
		}
		const most = 12
		if len(all) > most {
			all = append(all[:most], fmt.Sprintf("%d more", len(all)-most))
		}
		return &Refusal{words.Reason{Code: words.DrawingNoLayer, Figures: words.Figures{
			"name": printable(layer), "all": strings.Join(all, ", "),
		}}}
	}
	size := geom.Scale(f.Unit)
	for _, s := range d.Shapes {
		if layer != "" && !strings.EqualFold(s.Layer, layer) {
			continue
		}
		f.Lines = append(f.Lines, Line{s.Path.Apply(size), s.Kind, s.Layer, s.Line})
	}
	if len(f.Lines) == 0 {
		return &Refusal{words.Reason{Code: words.DrawingEmpty}}
	}
	return nil
}

// finder is the search for tubes in one drawing.
type finder struct {
	*Found
	tol    chain.Tolerance
	chains []chain.Chain
	bends  []chain.Bend
	bars   []geom.Segment // straight lines that may close a tube's end
	barAt  []int          // lines of the file
}

func (f *Found) find(tol chain.Tolerance) error {
	s := finder{Found: f, tol: tol}
	layers := map[string]int{}
	lines := make([]chain.Line, len(f.Lines))
	for i, l := range f.Lines {
		key := strings.ToLower(l.Layer)
		if _, ok := layers[key]; !ok {
			layers[key] = len(layers)
		}
		lines[i] = chain.Line{Path: l.Path, Group: layers[key]}
	}
	s.chains = chain.Find(lines, tol)
	closed, straight, wide := 0, 0, 0
	for i, c := range s.chains {
		if c.Closed {
			closed++
			continue
		}
		if len(c.Pieces) == 1 && !c.Pieces[0].IsArc() {
			straight++
			s.bars = append(s.bars, c.Pieces[0].Segment)
			s.barAt = append(s.barAt, f.Lines[c.Pieces[0].Source].At)
		}
		for _, b := range c.Bends(i) {
			switch {
			case b.Angle > mostAngle+1e-6:
				wide++
				continue
			case b.Angle < leastAngle, b.Radius > mostRadius:
				straight++ // as good as
				continue
			case b.Angle > mostAngle:
				b.Angle = mostAngle
			}
			s.bends = append(s.bends, b)
		}
	}
	if len(s.bends) > mostBends {
		return &Refusal{words.Reason{Code: words.DrawingManyArcs, Figures: words.Figures{"n": len(s.bends), "most": mostBends}}}
	}
	s.tubes()
	if len(f.Candidates) == 0 {
		f.note(words.DrawingNoBend, words.Figures{
			"straight": words.Count(straight, "straight line"), "closed": words.Count(closed, "closed loop"), "wide": words.Count(wide, "arc"),
		})
		s.nearMiss()
	}
	return nil
}

// nearMiss says of corners that are nearly an arc's why they are none.
func (s *finder) nearMiss() {
	for _, c := range s.chains {
		if c.Closed || len(c.Pieces) < 6 {
			continue
		}
		turns, all := 0.0, true
		for _, p := range c.Pieces {
			all = all && !p.IsArc()
			turns += p.Kink.Radians()
		}
		if all && turns > float64(s.tol.Kink) {
			s.note(words.DrawingCoarse, words.Figures{
				"chords": len(c.Pieces), "off": quantity.Length.Of(s.tol.Off),
				"place": place(c.Pieces[len(c.Pieces)/2].From, s.Unit),
			})
			return
		}
	}
}

// place returns a point as the drawing's own coordinates, which is how it is found
// there.
func place(p geom.Point, unit float64) string {
	// To a tenth of a mm, a hundredth of an inch, a millimetre of a metre.
	decimals := max(0, int(math.Ceil(math.Log10(unit)))+1)
	return fmt.Sprintf("%.*f, %.*f", decimals, p.X/unit, decimals, p.Y/unit)
}

// printable returns a name from the drawing such that it can stand between quotes
// in one line.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == '"' || r == '\\' {
			return '?'
		}
		return r
	}, s)
}

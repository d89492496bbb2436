package sheet

import (
	"fmt"
	"strings"

	sentence "overbend/cmd/internal/words"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/profiles"
)

// saying is what is said in words, line by line, and how high it stands in mm.
type saying struct {
	lines  []line
	height float64
}

// line is one of them. A lead is bold and begins a paragraph, a sign stands
// before it.
type line struct {
	lead, text string
	sign       bool
}

// Sizes of the warning sign in mm, its place included.
const (
	signWidth = 4.0
	signPlace = 5.4
)

// paragraph breaks a text with a bold lead into lines of most mm.
func paragraph(lead, text string, sign bool, most float64) []line {
	indent := boldWidth(lead) + 1.5
	if sign {
		indent += signPlace
	}
	var out []line
	for i, l := range wrap(text, most, indent) {
		if i == 0 {
			out = append(out, line{lead, l, sign})
		} else {
			out = append(out, line{text: l})
		}
	}
	return out
}

// cautions gathers what must be said in lines of most mm: what stops the job,
// what it warns of and what the plates need, as far as room mm of height allow,
// then the essential cautions, which always find room. What is good to know besides is left out
// where it would take comfort mm off the pictures. The full list is overbend
// show's.
func (s *sheet) cautions(most, room, comfort float64) saying {
	var told []line
	safety := s.safety(most)
	fits := func(p []line, room float64) bool {
		// One line is kept to say that there is more.
		return float64(len(told)+len(p)+len(safety)+1)*pitch+1 <= room
	}
	left := 0
	for _, kind := range [...]struct {
		level sentence.Level
		lead  string
	}{{sentence.Stop, "STOP"}, {sentence.Warning, "WARNING"}} {
		for _, a := range s.p.Advice {
			if a.Level != kind.level {
				continue
			}
			if p := paragraph(kind.lead, a.About+": "+a.Say(s.u), true, most); fits(p, room) {
				told = append(told, p...)
			} else {
				left++
			}
		}
	}
	if left > 0 {
		told = append(told, line{text: fmt.Sprintf("%d more in overbend show", left)})
	}
	if text := s.plates(); text != "" {
		if p := paragraph("PLATE", text, false, most); fits(p, room) {
			told = append(told, p...)
		}
	}
	for _, about := range [...]string{"block.existing", "trial"} {
		for _, a := range s.p.Advice {
			if a.Level != sentence.Note || a.About != about {
				continue
			}
			if p := paragraph("NOTE", a.Say(s.u), false, most); fits(p, room-comfort) {
				told = append(told, p...)
			}
		}
	}
	lines := append(told, safety...)
	return saying{lines, float64(len(lines))*pitch + 1}
}

// plates says in few words what to take to the cutting table, and what it can't
// do. It is empty for a job that says nothing of cutting.
func (s *sheet) plates() string {
	j := s.p.Job
	var out []string
	if n := s.p.Nest; n != nil {
		out = append(out, fmt.Sprintf("%d of %s × %s × %s, %.0f %% used, %s", n.Sheets, s.f.given(n.Plate), s.f.given(n.Width), s.f.given(n.Height), 100*n.UsedShare(), s.f.massWithUnit(n.Mass)))
	}
	drill := 0
	for _, c := range s.p.Pieces {
		drill += c.Count * len(c.Part.Drill)
	}
	if drill > 0 {
		out = append(out, fmt.Sprintf("drill %d holes Ø%s at the centre marks, %s can't cut them", drill, s.f.given(s.p.Tools.Block.Hole), s.p.Tools.Process.Name))
	}
	switch {
	case j.Cutting.Kerf > 0:
		out = append(out, "kerf "+s.f.given(j.Cutting.Kerf)+" is in the files, add none")
	case s.p.Tools.Process.Name != "" || s.p.Nest != nil:
		out = append(out, "files are true size, the table allows for its kerf")
	}
	return strings.Join(out, "; ")
}

// safety returns the cautions of plan and catalogue in few words.
func (s *sheet) safety(most float64) []line {
	out := paragraph("AT THE PRESS", "stand aside, never in line with tube or strip; guard the work; raise in steps, pressure off before you touch; tie block, cheeks, strip; dress cut edges", true, most)
	structure := "a licensed engineer and local codes first; look for wrinkles and cracks; "
	if s.p.Filler != nil {
		a := s.p.Job.Filler.Alloy
		out = append(out, paragraph("ALLOY "+a.Name, s.alloy(a), true, most)...)
		structure += "wash off alloy before welding; "
	}
	return append(out, paragraph("STRUCTURE", structure+"all cautions: overbend show", true, most)...)
}

// alloy says what to mind with a filler.
func (s *sheet) alloy(a profiles.Filler) string {
	text := "gloves, face shield; "
	const toxic = "gloves, face shield, no food, dust, fume or flame; "
	switch {
	case a.Cadmium:
		text = "cadmium: " + toxic + "never over " + s.f.temperature(a.Ceiling) + "; "
		if a.Lead {
			text = "lead and " + text
		}
	case a.Lead:
		text = "lead: " + toxic
	}
	if a.Cadmium || a.Lead {
		text += "waste is hazardous; no parts for food, drinking water or daily handling; "
	}
	text += "clean, dry, oiled bore; "
	if a.Liquidus >= 100 {
		text = text + "dry tube and ladle over " + s.f.temperature(110) + ": steam throws metal; "
	}
	return text + "open both ends to melt out"
}

// say writes it.
func (s *sheet) say(f geom.Rect, said saying) {
	y := f.Max.Y - 0.5
	for _, l := range said.lines {
		y -= pitch
		x, base := f.Min.X+pad, y+(pitch-small)/2+0.25
		if l.sign {
			s.sign(geom.Pt(x+signWidth/2, base))
			x += signPlace
		}
		if l.lead != "" {
			s.d.Add(bold(x, base, l.lead, drawing.Left))
			x += boldWidth(l.lead) + 1.5
		}
		if l.text != "" {
			s.d.Add(words(x, base, l.text, drawing.Left))
		}
	}
}

// sign draws a warning triangle as high as capitals, the middle of its foot at
// foot.
func (s *sheet) sign(foot geom.Point) {
	at := func(x, y float64) geom.Point { return foot.Add(geom.Pt(x, y)) }
	s.d.Add(drawing.Stroke{
		Path: geom.Lines(at(-signWidth/2, 0), at(signWidth/2, 0), at(0, small-0.1)).Close(),
		Role: drawing.Visible, Tone: drawing.Pale,
	})
	s.d.Line(drawing.Visible, at(0, 2.15), at(0, 1.2))
	s.d.Add(drawing.Ring{Circle: geom.Circle{Centre: at(0, 0.6), Radius: 0.27}, Role: drawing.Fill, Tone: drawing.Dark})
}

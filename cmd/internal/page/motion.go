package page

import (
	"encoding/json"
	"fmt"
	"html/template"
	"math"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/sheet"
	"overbend/cmd/internal/words"
	"overbend/export/svg"
	"overbend/geom"
)

// motion is the press as it moves: a picture in the last position, and what the
// script needs to move it.
type motion struct {
	SVG   template.HTML
	Data  string // JSON, see motionData
	Reads []read
	Last  float64 // travel, in the page's units
	Step  float64
	Unit  string
}

// read is a number at the slider's place.
type read struct {
	Name, Value, Unit string
	Decimals          int // -1: three figures
}

// motionData is what the script gets.
type motionData struct {
	Deep  float64     `json:"deep"`
	Under float64     `json:"under"`
	Wide  float64     `json:"wide"`  // of the picture: the middle is at half of it
	Reads [][]float64 `json:"reads"` // by frame: travel, then what Reads shows
	Up    []float64   `json:"up"`
	Line  [][]float64 `json:"line"` // by frame: x, y from the top and direction of every station
}

// Motion returns the press as it moves, nil where there is none.
func (v *view) Motion() (*motion, error) {
	w := v.wide
	m := v.draw.Motion(w, 0.55*w)
	if len(m.Frames) == 0 {
		return nil, nil
	}
	q, u := v.P.Press, v.U
	last := m.Frames[len(m.Frames)-1].State
	out := &motion{Last: u.Of(quantity.Travel.Of(last.Travel)), Step: 0.5, Unit: u.String()}
	if u == quantity.Inches {
		out.Step = 1.0 / 64
	}
	page := m.Still.Page
	d := motionData{Deep: hundredth(m.Deep), Under: hundredth(m.Under), Wide: page.Width()}

	type column struct {
		name     string
		kind     quantity.Kind
		decimals int
		of       func(sheet.Frame) float64
	}
	filled := v.P.Filler != nil
	columns := []column{{"force", quantity.Force, -1, func(f sheet.Frame) float64 { return f.State.Force }}}
	if q.Gauge > 0 {
		columns = append(columns, column{"gauge", quantity.Pressure, -1, func(f sheet.Frame) float64 { return q.At(f.State) }})
	}
	columns = append(columns,
		column{"angle " + words.UnderPressure, quantity.Reading, 1, func(f sheet.Frame) float64 { return float64(f.State.Loaded) }},
		column{words.LetGoName(filled), quantity.Reading, 1, func(f sheet.Frame) float64 { return float64(f.State.Filled) }})
	if filled {
		columns = append(columns, column{words.LetGoMelted, quantity.Reading, 1, func(f sheet.Frame) float64 { return float64(f.State.Melted) }})
	}
	for _, c := range columns {
		end := c.kind.Of(c.of(m.Frames[len(m.Frames)-1]))
		out.Reads = append(out.Reads, read{c.name, u.Figure(end), u.Unit(c.kind), c.decimals})
	}
	for _, f := range m.Frames {
		row := []float64{rounded(u.Of(quantity.Travel.Of(f.State.Travel)), 1e4)}
		for _, c := range columns {
			row = append(row, rounded(u.Of(c.kind.Of(c.of(f))), 1e6))
		}
		d.Reads = append(d.Reads, row)
		d.Up = append(d.Up, hundredth(f.Up))
		var line []float64
		for _, s := range f.Line {
			line = append(line, hundredth(s.At.X), hundredth(page.Max.Y-s.At.Y), rounded(float64(s.Dir), 1e4))
		}
		d.Line = append(d.Line, line)
	}
	text, err := json.Marshal(d)
	if err != nil {
		return nil, err
	}
	out.Data = string(text)

	still, err := svg.Inline(m.Still.Drawing, "svg-motion", "The press from first touch to full travel",
		fmt.Sprintf("The block pushes the tube down between the rollers by %s.", quantity.Plain(u.Show(quantity.Travel.Of(last.Travel)))))
	if err != nil {
		return nil, err
	}
	var b strings.Builder
	b.WriteString(strings.TrimSuffix(still, "</svg>"))
	final := m.Frames[len(m.Frames)-1].Line
	fmt.Fprintf(&b, `<path class="vis steel" id="m-strip" d="%s"/>`, svg.Data(between(final, -m.Under, -m.Deep), page))
	fmt.Fprintf(&b, `<path class="vis tube" id="m-tube" d="%s"/>`, svg.Data(between(final, -m.Deep, m.Deep), page))
	fmt.Fprintf(&b, `<g id="m-block"><path class="vis block" d="%s"/><path class="thin" d="%s"/></g></svg>`, svg.Data(m.Block, page), svg.Data(m.Cheek, page))
	out.SVG = template.HTML(b.String()) // numbers and package svg's text
	return out, nil
}

func hundredth(x float64) float64 { return rounded(x, 100) }

func rounded(x, per float64) float64 { return math.Round(x*per) / per }

// between returns the outline of what lies between two distances to the left of a
// line that leaves the middle to the right, with its mirror image: what the script
// draws too.
func between(half []sheet.Station, low, high float64) geom.Path {
	p := geom.Path{Closed: true}
	put := func(s sheet.Station, off, side float64) {
		at := s.At.Add(geom.Polar(1, s.Dir).Left().Mul(off))
		p.Vertices = append(p.Vertices, geom.Vertex{Point: geom.Pt(side*at.X, at.Y)})
	}
	n := len(half) - 1
	for i := n; i > 0; i-- {
		put(half[i], high, -1)
	}
	for i := 0; i <= n; i++ {
		put(half[i], high, 1)
	}
	for i := n; i > 0; i-- {
		put(half[i], low, 1)
	}
	for i := 0; i <= n; i++ {
		put(half[i], low, -1)
	}
	return p
}

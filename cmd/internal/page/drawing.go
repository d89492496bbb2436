package page

import (
	"cmp"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"overbend/cmd/internal/drawn"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/export/dxf/dxfread"
	"overbend/export/svg"
)

// mostDrawing is the largest drawing in bytes. The form that comes with it has as
// much room as everywhere.
const mostDrawing = 8 << 20

// muchDrawing says so.
func muchDrawing() string {
	return fmt.Sprintf("more than %d MB are not allowed for a drawing: save the part alone, without pictures and blocks that it does not use", mostDrawing>>20)
}

// mostPicks is how many candidates are listed; who has more needs a layer's name.
const mostPicks = 50

// Size of the picture of a drawing, mm.
const drawingWidth, drawingHeight = 100.0, 64.0

// reading is a field that a drawing fills: with what, and the words that say so, ""
// for one that is emptied.
type reading struct {
	Name  string `json:"n"`
	Value string `json:"v"`
	From  string `json:"f"`
}

// pick is a candidate as the page lists it.
type pick struct {
	Number int
	On     bool // its numbers are in the form
	Words  string
	Notes  []string
	Take   string // JSON of a [taken]
	read   []reading
}

// taken is what a candidate's button sends: the job as it becomes, for who has no
// script, and what is read from the drawing.
type taken struct {
	Base string    `json:"base,omitempty"` // text of the job file, in base 64
	Read []reading `json:"read"`
}

// drawingView is a drawing with what was found in it.
type drawingView struct {
	SVG   template.HTML
	Found string
	Picks []pick
	Notes []string
}

// drawing answers a form and a drawing with the whole page: what works without a
// script.
func (h *handler) drawing(w http.ResponseWriter, r *http.Request) {
	h.withDrawing(w, r, func(f url.Values) answer {
		v, fault, code := h.readDrawing(r, f)
		if fault != nil {
			a := h.document(f, nil, fault)
			a.code = code
			return a
		}
		for i, p := range v.Picks {
			full := filledFrom(f, p.read)
			v.Picks[i].Take = string(encode(taken{base64.StdEncoding.EncodeToString([]byte(h.textOf(full).text)), p.read}))
			if p.On {
				f = full
			}
		}
		return h.document(f, v, nil)
	})
}

// drawingJSON answers the same with the part of the page that shows the drawing.
func (h *handler) drawingJSON(w http.ResponseWriter, r *http.Request) {
	h.withDrawing(w, r, func(f url.Values) answer {
		v, fault, code := h.readDrawing(r, f)
		if fault != nil {
			a := refuse(fault)
			a.code = code
			return a
		}
		html, err := h.drawingHTML(v)
		if err != nil {
			return broken(err)
		}
		return answer{code: http.StatusOK, kind: kindJSON, data: encode(map[string]any{"parts": map[string]string{"p-drawing": html}, "found": v.Found})}
	})
}

// withDrawing is [handler.compute] for what brings a drawing: few of those at once,
// for each takes room.
func (h *handler) withDrawing(w http.ResponseWriter, r *http.Request, f func(url.Values) answer) {
	if err := h.drawings.do(r.Context().Done(), func() { h.compute(w, r, f) }); err != nil {
		w.Header().Set("Retry-After", "1")
		http.Error(w, err.Error(), http.StatusServiceUnavailable)
	}
}

func (h *handler) drawingHTML(v *drawingView) (string, error) {
	var b strings.Builder
	err := h.pages.ExecuteTemplate(&b, "part-drawing", v)
	return strings.TrimSpace(b.String()), err
}

// onPage puts the page's own names where a sentence names a flag of the command
// line.
func onPage(s string) string {
	return strings.NewReplacer("with --dxf-units", "under Unit of the drawing", "with --layer", "under Layer", "--dxf-units", "Unit of the drawing", "--layer", "Layer").Replace(quantity.Plain(s))
}

// readDrawing looks for bends in the drawing that came with a form, or says with
// which code why there is none.
func (h *handler) readDrawing(r *http.Request, f url.Values) (*drawingView, *Fault, int) {
	bad := func(field, sentence string) (*drawingView, *Fault, int) {
		return nil, &Fault{Field: field, Sentence: onPage(sentence)}, http.StatusUnprocessableEntity
	}
	if r.MultipartForm == nil || len(r.MultipartForm.File["drawing"]) == 0 || r.MultipartForm.File["drawing"][0].Size == 0 {
		return bad("drawing", "no drawing was chosen")
	}
	head := r.MultipartForm.File["drawing"][0]
	if head.Size > mostDrawing {
		return nil, &Fault{Field: "drawing", Sentence: muchDrawing()}, http.StatusRequestEntityTooLarge
	}
	o := drawn.Options{Layer: strings.TrimSpace(f.Get("drawing_layer")), Limits: dxfread.Limits{Bytes: mostDrawing}}
	if unit := f.Get("drawing_unit"); unit != "" {
		var err error
		if o.Unit, err = drawn.ParseUnit(unit); err != nil {
			return bad("drawing_unit", err.Error())
		}
	}
	u := quantity.Millimetres
	if f.Get("units") == quantity.Inches.String() {
		u = quantity.Inches
	}
	file, err := head.Open()
	if err != nil {
		return bad("drawing", "the drawing can't be read")
	}
	defer file.Close()
	found, err := drawn.Read(file, o)
	var no *drawn.Refusal
	switch {
	case errors.As(err, &no):
		field := map[words.Code]string{words.DrawingNoUnit: "drawing_unit", words.DrawingNoLayer: "drawing_layer"}[no.Code]
		return bad(cmp.Or(field, "drawing"), no.Say(u))
	case err != nil:
		return bad("drawing", err.Error())
	}
	v, err := newDrawingView(found, f, u)
	if err != nil {
		return bad("drawing", err.Error())
	}
	return v, nil, 0
}

// newDrawingView shows what was found. A single bend is taken at once.
func newDrawingView(found drawn.Found, f url.Values, u quantity.Units) (*drawingView, error) {
	var v drawingView
	for _, n := range found.Notes {
		v.Notes = append(v.Notes, onPage(n.Say(u)))
	}
	n := len(found.Candidates)
	switch {
	case n == 0:
		return nil, errors.New(strings.Join(v.Notes, "; "))
	case n == 1:
		v.Found = "One bend was found and its numbers are filled in."
	default:
		v.Found = fmt.Sprintf("%d bends were found: pick the one that is meant.", n)
	}
	if n > mostPicks {
		v.Notes = append(v.Notes, fmt.Sprintf("%d more are not listed: name the tube's layer under Layer", n-mostPicks))
		found.Candidates = found.Candidates[:mostPicks]
	}
	for i, c := range found.Candidates {
		p := pick{Number: i + 1, On: n == 1, Words: quantity.Plain(found.Describe(c, u))}
		for _, n := range c.Notes {
			p.Notes = append(p.Notes, onPage(n.Say(u)))
		}
		var err error
		if p.read, err = readings(found, c, f, u); err != nil {
			return nil, err
		}
		p.Take = string(encode(taken{Read: p.read}))
		v.Picks = append(v.Picks, p)
	}
	d := found.View(drawingWidth, drawingHeight)
	text, err := svg.Inline(d, "svg-drawing", "The drawing with what was found in it", v.Found+" The list has what each is.")
	if err != nil {
		return nil, err
	}
	// Over each bend a broad line to click on: what a list's button does too.
	var b strings.Builder
	b.WriteString(strings.TrimSuffix(text, "</svg>"))
	for i, line := range found.Places(drawingWidth, drawingHeight) {
		fmt.Fprintf(&b, `<path class="hit" data-pick="%d" d="%s"/>`, i+1, svg.Data(line, d.Page))
	}
	b.WriteString("</svg>")
	v.SVG = template.HTML(b.String()) // package svg's text and numbers
	return &v, nil
}

// readings returns what a candidate fills in, by the job file that it makes. What the
// drawing does not show stays as the form has it.
func readings(found drawn.Found, c drawn.Candidate, f url.Values, u quantity.Units) ([]reading, error) {
	text, err := found.Job(c, drawn.Given{Name: "drawing", Units: u})
	if err != nil {
		return nil, err
	}
	v, err := valuesOf(text)
	if err != nil {
		return nil, err
	}
	from := map[string]words.Reason{
		"tube.width": {Code: words.FromSquare}, "tube.depth": c.From.Depth, "tube.wall": c.From.Wall,
		"bend.radius": c.From.Radius, "bend.angle": c.From.Angle,
		"bend.legs.0": c.From.Legs[0], "bend.legs.1": c.From.Legs[1], "ends.cut.0": c.From.Cuts[0], "ends.cut.1": c.From.Cuts[1],
	}
	delete(v, "tube.shape") // not seen from the side
	switch {
	case f.Get("tube.shape") == "round":
		if depth, ok := v["tube.depth"]; ok {
			v["tube.diameter"], from["tube.diameter"] = depth, c.From.Depth
		}
		delete(v, "tube.width")
		delete(v, "tube.depth")
	case !square(f, u):
		delete(v, "tube.width")
	}
	out := []reading{{"bend.radius_at", "centre", "As the radius was read"}}
	for _, name := range slices.Sorted(maps.Keys(v)) {
		why, ok := from[name]
		if !ok {
			continue
		}
		out = append(out, reading{name, v[name], origin(why, u)})
	}
	for _, name := range []string{"bend.chord", "bend.rise", "bend.arc"} { // instead of what is read
		out = append(out, reading{Name: name})
	}
	return out, nil
}

// origin marks a field: in so many words where the number is not simply read.
func origin(why words.Reason, u quantity.Units) string {
	const from = "From the drawing"
	switch why.Code {
	case words.FromNoEnd, words.FromRagged, words.FromSquare:
		return capital(onPage(why.Say(u)))
	case words.FromNoLeg, words.FromLegShort, words.FromLegToBend, words.FromEdgeEnds:
		return from + ": " + onPage(why.Say(u))
	}
	return from
}

// square reports whether the tube of a form is as wide as deep, as far as it says.
func square(f url.Values, u quantity.Units) bool {
	wide, deep := f.Get("tube.width"), f.Get("tube.depth")
	if wide == "" {
		return true
	}
	a, err := quantity.ParseLength(wide, u)
	b, other := quantity.ParseLength(deep, u)
	return err == nil && other == nil && a == b
}

// filledFrom returns a form with what was read in it.
func filledFrom(f url.Values, read []reading) url.Values {
	out := url.Values{}
	for name, x := range f {
		out[name] = x
	}
	for _, r := range read {
		out.Set(r.Name, r.Value)
	}
	out.Set("read", string(encode(read)))
	return out
}

// readIn returns what a form says was read from a drawing and still stands there.
func readIn(f url.Values, v values) map[string]string {
	var read []reading
	if json.Unmarshal([]byte(f.Get("read")), &read) != nil {
		return nil
	}
	out := map[string]string{}
	for _, r := range read {
		if r.Value != "" && v[r.Name] == r.Value {
			out[r.Name] = r.From
		}
	}
	return out
}

// takenForm returns the form that a candidate's button stands for.
func (h *handler) takenForm(text string) (url.Values, bool) {
	var t taken
	if json.Unmarshal([]byte(text), &t) != nil {
		return nil, false
	}
	base, err := base64.StdEncoding.DecodeString(t.Base)
	if err != nil || len(base) == 0 {
		return nil, false
	}
	return filledFrom(h.opened(string(base)), t.Read), true
}

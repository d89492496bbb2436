package page

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"overbend/cmd/internal/drawn"
	"overbend/cmd/internal/shop"
)

// update answers a form with the parts of the page that changed: those that the
// form's field "have" does not name with the same hash, without those that its field
// "folded" says nobody sees.
func (h *handler) update(w http.ResponseWriter, r *http.Request) {
	h.compute(w, r, func(f url.Values) answer {
		k := h.workOut(f)
		if k.fault != nil {
			return refuse(k.fault)
		}
		v := newView(k.plan, f)
		all, err := h.parts(v, strings.Fields(f.Get("folded")))
		if err != nil {
			return broken(err)
		}
		have := strings.Fields(f.Get("have"))
		changed, hashes := map[string]string{}, make([]string, len(all))
		for i, p := range all {
			hashes[i] = p.ID + ":" + p.Hash()
			if !slices.Contains(have, hashes[i]) {
				changed[p.ID] = p.HTML
			}
		}
		return answer{code: http.StatusOK, kind: kindJSON, data: encode(map[string]any{
			"parts": changed, "have": strings.Join(hashes, " "),
			"marks": v.marks, "defaults": defaults(k.plan), "good": base64.StdEncoding.EncodeToString([]byte(k.text)),
			"title": k.plan.Job.Name,
		})}
	})
}

// document is the whole page.
type document struct {
	Groups     []shownGroup
	Trials     []shownTrial
	Lists      []list
	Base, Good string // texts of job files, in base 64
	Have       string
	Parts      map[string]template.HTML
	Inputs     []choiceOf
	Chosen     map[string]string // of the take-away's choices
	Fault      *Fault
	Loose      bool // the fault has no field of the form
	Stale      bool // what is shown is the last job that could be worked out
	Name       string
	Small      bool
	Read       string // JSON of what was read from a drawing
	Drawing    drawingForm
}

// drawingForm is where a drawing is chosen.
type drawingForm struct {
	Unit, Layer string
	Units       []string
	Most        int
	Much        string
	Error       map[string]string
	Found       string
	HTML        template.HTML
}

// shownField is a field with what stands in it.
type shownField struct {
	field
	Value   [2]string
	Error   [2]string
	From    [2]string // says that it was read from a drawing
	Default string
	ListID  string
	Pic     string
	Off     bool // belongs to another shape of tube; hidden where a script can show it
}

// shownGroup is a group with its fields.
type shownGroup struct {
	Name   string
	Open   bool
	Fields []shownField
}

// shownTrial is the fields of one trial.
type shownTrial struct {
	N      int
	Number int // from 1
	Fields []shownField
}

// list is what a field proposes.
type list struct {
	ID    string
	Words []string
}

type choiceOf struct{ Name, Label string }

// first answers with the page as it opens.
func (h *handler) first(w http.ResponseWriter, r *http.Request) {
	var a answer
	f := h.opened(h.start)
	if strings.Contains(r.UserAgent(), "Mobi") { // as every telephone's browser says
		f.Set("view", "small")
	}
	err := h.shed.do(r.Context().Done(), func() { a = h.document(f, nil, nil) })
	if err != nil {
		http.Error(w, err.Error(), http.StatusServiceUnavailable)
		return
	}
	send(w, r, a.code, a.kind, a.data)
}

// opened returns the form that the text of a job file fills.
func (h *handler) opened(text string) url.Values {
	f := url.Values{"base": {base64.StdEncoding.EncodeToString([]byte(text))}}
	v, err := valuesOf(text)
	if err != nil {
		return f
	}
	for name, x := range v {
		f.Set(name, x)
	}
	return f
}

// whole answers a form with the whole page: what works without a script. A file
// that was chosen takes the form's place.
func (h *handler) whole(w http.ResponseWriter, r *http.Request) {
	h.compute(w, r, func(f url.Values) answer {
		if text, ok := fileIn(r); ok {
			good := f.Get("good")
			f = h.opened(text)
			f.Set("good", good)
		} else if full, ok := h.takenForm(f.Get("take")); ok {
			f = full
		}
		return h.document(f, nil, nil)
	})
}

// open answers a chosen file with the values that it holds.
func (h *handler) open(w http.ResponseWriter, r *http.Request) {
	h.compute(w, r, func(url.Values) answer {
		text, ok := fileIn(r)
		if !ok {
			return refuse(&Fault{Field: "file", Sentence: "no file was chosen"})
		}
		v, err := valuesOf(text)
		if err != nil || len(v) == 0 {
			_, fault := h.planOf(text, nil)
			if fault == nil {
				fault = &Fault{Sentence: err.Error()}
			}
			fault.Field = "file"
			return refuse(fault)
		}
		return answer{code: http.StatusOK, kind: kindJSON, data: encode(map[string]any{"values": v, "base": base64.StdEncoding.EncodeToString([]byte(text))})}
	})
}

// fileIn returns the text of the file that came with a form.
func fileIn(r *http.Request) (string, bool) {
	if r.MultipartForm == nil || len(r.MultipartForm.File["file"]) == 0 {
		return "", false
	}
	file, err := r.MultipartForm.File["file"][0].Open()
	if err != nil {
		return "", false
	}
	defer file.Close()
	var b bytes.Buffer
	if _, err := b.ReadFrom(file); err != nil || b.Len() == 0 {
		return "", false
	}
	return b.String(), true
}

// document returns the whole page for a form. A bad job's answer is 422, and it
// shows the last job of the form that could be worked out. With it stands the
// drawing that was read, or why none was.
func (h *handler) document(f url.Values, from *drawingView, bad *Fault) answer {
	k := h.workOut(f)
	code := http.StatusOK
	d := document{Small: f.Get("view") == "small", Fault: k.fault, Parts: map[string]template.HTML{}, Chosen: map[string]string{}}
	if k.fault == nil {
		d.Good = base64.StdEncoding.EncodeToString([]byte(k.text))
	} else {
		code = http.StatusUnprocessableEntity
		if k.values == nil {
			k.values = values{}
		}
		d.Good, d.Stale = f.Get("good"), true
		if good, err := base64.StdEncoding.DecodeString(d.Good); err == nil && len(good) > 0 {
			k.plan, _ = h.planOf(string(good), nil)
		}
	}
	d.Base = f.Get("base") // what was opened, however often the form was sent since
	marked := map[string]string{}
	deft := map[string]string{}
	if k.plan != nil {
		v := newView(k.plan, f)
		d.Name = k.plan.Job.Name
		deft = defaults(k.plan)
		if k.fault == nil {
			marked = v.marks
		}
		all, err := h.parts(v, nil)
		if err != nil {
			return broken(err)
		}
		var have []string
		for _, p := range all {
			d.Parts[p.ID] = template.HTML(p.HTML) // as html/template wrote it
			have = append(have, p.ID+":"+p.Hash())
		}
		d.Have = strings.Join(have, " ")
		chart, err := h.chartHTML(v, f)
		if err != nil {
			return broken(err)
		}
		d.Parts["p-chart"] = template.HTML(chart)
	}
	if k.fault != nil {
		marked = map[string]string{k.fault.Field: k.fault.Sentence}
	}
	d.Read = f.Get("read")
	d.fill(k.values, marked, deft, readIn(f, k.values), h.shop)
	d.Drawing = drawingForm{Unit: f.Get("drawing_unit"), Layer: f.Get("drawing_layer"), Units: drawn.UnitNames(), Most: mostDrawing, Much: muchDrawing()}
	if bad != nil {
		d.Drawing.Error = map[string]string{bad.Field: bad.Sentence}
	}
	if from != nil {
		html, err := h.drawingHTML(from)
		if err != nil {
			return broken(err)
		}
		d.Drawing.Found, d.Drawing.HTML = from.Found, template.HTML(html) // as html/template wrote it
	}
	d.Loose = k.fault != nil && !d.has(k.fault.Field)
	for _, in := range inputs() {
		d.Inputs = append(d.Inputs, choiceOf{in.Name, capital(in.Label)})
	}
	for _, name := range []string{"over", "paper", "margin", "print_scale", "dxf", "dxf_units", "cut_only", "force", "show_units"} {
		d.Chosen[name] = f.Get(name)
	}
	var b bytes.Buffer
	if err := h.pages.ExecuteTemplate(&b, "page.html", d); err != nil {
		return broken(err)
	}
	return answer{code: code, kind: kindHTML, data: b.Bytes()}
}

// fill puts values, errors and defaults into the fields.
func (d *document) fill(v values, marked, deft, from map[string]string, in shop.Shop) {
	seen := map[string]bool{}
	lists := map[string]string{}
	show := func(f field, prefix string) shownField {
		s := shownField{field: f, Default: deft[prefix+f.Key]}
		s.Key = prefix + f.Key
		for side := range 2 {
			name := s.Key
			if f.Form == pair {
				name = s.field.Name(side)
			}
			s.Value[side], s.Error[side], s.From[side] = v[name], marked[name], from[name]
		}
		switch f.Key {
		case "tube.width", "tube.depth", "tube.corner":
			s.Off = v["tube.shape"] == "round"
		case "tube.diameter":
			s.Off = v["tube.shape"] != "round"
		}
		if proposed := f.proposed(in); len(proposed) > 0 {
			words := strings.Join(proposed, "|")
			if lists[words] == "" {
				lists[words] = fmt.Sprintf("l%d", len(lists)+1)
				d.Lists = append(d.Lists, list{lists[words], proposed})
			}
			s.ListID = lists[words]
		}
		if f.Picture != "" && !seen[prefix+f.Picture] {
			seen[prefix+f.Picture] = true
			s.Pic = f.Picture
		}
		return s
	}
	for _, g := range groups() {
		sg := shownGroup{Name: g.Name}
		for _, f := range g.Fields {
			s := show(f, "")
			filled := s.Value[0]+s.Value[1] != "" && !(f.Form == choice && (s.Value[0] == f.Words[0]))
			sg.Open = sg.Open || filled && s.Value[0] != "false" || s.Error[0]+s.Error[1] != ""
			sg.Fields = append(sg.Fields, s)
		}
		d.Groups = append(d.Groups, sg)
	}
	most := 0
	for name := range v {
		if n, _, ok := trialKey(name); ok && n < 100 {
			most = max(most, n+1)
		}
	}
	for n := range most + 1 { // one more, to be filled in
		t := shownTrial{N: n, Number: n + 1}
		for _, f := range trialFields() {
			s := show(f, trialName(n, ""))
			s.Pic = ""
			t.Fields = append(t.Fields, s)
		}
		d.Trials = append(d.Trials, t)
	}
}

// proposed returns what a line proposes: what the shop has first.
func (f field) proposed(in shop.Shop) []string {
	var out []string
	switch f.Key {
	case "tube.material":
		for _, m := range in.Metals {
			out = append(out, m.Name)
		}
	case "block.use":
		for _, b := range in.Blocks {
			out = append(out, b.Name)
		}
	}
	if f.List != nil {
		out = append(out, f.List()...)
	}
	return out
}

// has reports whether the page has a field of a name.
func (d *document) has(name string) bool {
	in := func(fields []shownField) bool {
		return slices.ContainsFunc(fields, func(f shownField) bool {
			return f.Key == name || f.Form == pair && (f.field.Name(0) == name || f.field.Name(1) == name)
		})
	}
	return slices.ContainsFunc(d.Groups, func(g shownGroup) bool { return in(g.Fields) }) ||
		slices.ContainsFunc(d.Trials, func(t shownTrial) bool { return in(t.Fields) })
}

package page

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"path"
	"strings"

	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/report"
	"overbend/export/svg"
)

// optionsOf reads what the files of a kit look like from a form.
func (h *handler) optionsOf(f url.Values, p *plan.Plan) (kit.Options, *Fault) {
	var c kit.Choices
	for name, to := range map[string]*string{"dxf": &c.DXF, "dxf_units": &c.DXFUnits, "paper": &c.Paper, "margin": &c.Margin, "print_scale": &c.PrintScale} {
		if text := strings.TrimSpace(f.Get(name)); text != "" {
			*to = text
		}
	}
	c.CutOnly = f.Get("cut_only") == "true"
	o, err := c.For(p, h.shop, unitsOf(f, p))
	var e *kit.ChoiceError
	if errors.As(err, &e) {
		name := strings.ReplaceAll(e.Name, "-", "_")
		return o, &Fault{Field: name, Key: name, Sentence: e.Err.Error()}
	}
	return o, nil
}

// kitOf returns the files of a form's kit, those that make writes, or an answer
// that says why there are none.
func (h *handler) kitOf(f url.Values) (*plan.Plan, []kit.File, *answer) {
	no := func(a answer) (*plan.Plan, []kit.File, *answer) { return nil, nil, &a }
	k := h.workOut(f)
	if k.fault != nil {
		return no(refuse(k.fault))
	}
	o, fault := h.optionsOf(f, k.plan)
	if fault != nil {
		return no(refuse(fault))
	}
	if why := cannot(k.plan, o.Units); why != nil && (f.Get("force") != "true" || len(k.plan.Pieces) == 0) {
		return no(refuse(why))
	}
	files, err := report.Kit(k.plan, o)
	if err != nil { // the paper is too small for a part
		return no(refuse(&Fault{Field: "paper", Key: "paper", Sentence: err.Error()}))
	}
	return k.plan, files, nil
}

// kitZip answers with the kit as one file.
func (h *handler) kitZip(w http.ResponseWriter, r *http.Request) {
	h.compute(w, r, func(f url.Values) answer {
		p, files, no := h.kitOf(f)
		if no != nil {
			return *no
		}
		var b bytes.Buffer
		z := zip.NewWriter(&b)
		folder := kit.FileName(p.Job.Name, "") + "-kit"
		for _, k := range files {
			to, err := z.Create(folder + "/" + k.Name) // without a time: the same job gives the same bytes
			if err == nil {
				_, err = to.Write(k.Data)
			}
			if err != nil {
				return broken(err)
			}
		}
		if err := z.Close(); err != nil {
			return broken(err)
		}
		return attached("application/zip", folder+".zip", b.Bytes())
	})
}

// kitFile answers with one file of the kit.
func (h *handler) kitFile(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	h.compute(w, r, func(f url.Values) answer {
		_, files, no := h.kitOf(f)
		if no != nil {
			return *no
		}
		for _, k := range files {
			if k.Name == name {
				kind := map[string]string{".svg": "image/svg+xml", ".pdf": "application/pdf", ".json": kindJSON, ".dxf": "image/vnd.dxf"}[path.Ext(name)]
				return attached(kind, k.Name, k.Data)
			}
		}
		return answer{code: http.StatusNotFound, kind: "text/plain; charset=utf-8", data: []byte("this kit has no such file\n")}
	})
}

// takenFile is a file of the kit on the page.
type takenFile struct {
	Name, Size, Purpose string
	Preview             string // the file that shows it, "" for none
}

// filesHTML lists the files of a kit.
func (h *handler) filesHTML(p *plan.Plan, f url.Values, files []kit.File) (string, error) {
	u := unitsOf(f, p)
	var list []takenFile
	has := map[string]bool{}
	for _, k := range files {
		has[k.Name] = true
	}
	for _, k := range files {
		t := takenFile{Name: k.Name, Purpose: k.Purpose}
		if k.Width > 0 {
			t.Size = u.Size(k.Width, k.Height)
		}
		switch stem, ext := strings.TrimSuffix(k.Name, path.Ext(k.Name)), path.Ext(k.Name); {
		case ext == ".svg":
			t.Preview = k.Name
		case ext == ".dxf" && has[stem+".svg"]:
			t.Preview = stem + ".svg"
		}
		list = append(list, t)
	}
	var b strings.Builder
	err := h.pages.ExecuteTemplate(&b, "part-files", list)
	return strings.TrimSpace(b.String()), err
}

// files answers with the list of the kit's files.
func (h *handler) files(w http.ResponseWriter, r *http.Request) {
	h.compute(w, r, func(f url.Values) answer {
		p, files, no := h.kitOf(f)
		if no != nil {
			return *no
		}
		html, err := h.filesHTML(p, f, files)
		if err != nil {
			return broken(err)
		}
		return answer{code: http.StatusOK, kind: kindJSON, data: encode(map[string]any{"parts": map[string]string{"p-files": html}})}
	})
}

// sheetOf is a page of paper on the print view.
type sheetOf struct {
	Class string // names the page's size in the style sheet
	SVG   template.HTML
}

// print answers with everything that is printed, at true size.
func (h *handler) print(w http.ResponseWriter, r *http.Request) {
	h.compute(w, r, func(f url.Values) answer {
		k := h.workOut(f)
		if k.fault != nil {
			return refuse(k.fault)
		}
		o, fault := h.optionsOf(f, k.plan)
		if fault == nil {
			fault = cannot(k.plan, o.Units)
		}
		if fault != nil {
			return refuse(fault)
		}
		pages, err := kit.Pages(k.plan, o)
		if err != nil {
			return refuse(&Fault{Field: "paper", Key: "paper", Sentence: err.Error()})
		}
		data := struct {
			Name, Style string
			Pages       []sheetOf
		}{Name: k.plan.Job.Name}
		for i, d := range pages {
			s := d.Sheet()
			text, err := svg.InlineTrue(d, fmt.Sprintf("page-%d", i+1), d.Title, "A page to be printed at true size: its bars measure what is written beside them.")
			if err != nil {
				return broken(err)
			}
			data.Pages = append(data.Pages, sheetOf{paperClass(s.Width(), s.Height()), template.HTML(text)})
		}
		data.Style = fmt.Sprintf("paper.css?w=%g&h=%g", o.Paper.Paper.Width, o.Paper.Paper.Height)
		var b bytes.Buffer
		if err := h.pages.ExecuteTemplate(&b, "print.html", data); err != nil {
			return broken(err)
		}
		return answer{code: http.StatusOK, kind: kindHTML, data: b.Bytes()}
	})
}

// paperClass says which way a sheet lies.
func paperClass(w, h float64) string {
	if w > h {
		return "across"
	}
	return "upright"
}

// paperCSS answers with the size of the printer's pages, which a style sheet must
// name: no style may stand in the page itself.
func (h *handler) paperCSS(w http.ResponseWriter, r *http.Request) {
	var wide, high float64
	if n, _ := fmt.Sscanf(r.URL.Query().Get("w")+" "+r.URL.Query().Get("h"), "%g %g", &wide, &high); n != 2 || !(wide > 0 && wide < 1e5 && high > 0 && high < 1e5) {
		http.NotFound(w, r)
		return
	}
	if wide > high {
		wide, high = high, wide
	}
	css := fmt.Sprintf(`@page{margin:0;size:%[1]gmm %[2]gmm}
@page upright{margin:0;size:%[1]gmm %[2]gmm}
@page across{margin:0;size:%[2]gmm %[1]gmm}
.sheet.upright{page:upright}.sheet.across{page:across}
`, wide, high)
	send(w, r, http.StatusOK, "text/css; charset=utf-8", []byte(css))
}

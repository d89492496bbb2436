// Package page is the program as a web page: a form of the job file's keys, and
// beside it what the plan, the sheet and the kit make of them.
//
// Its handler is a plain http.Handler without a state but the job in the form, a
// clock or a disk: what it answers follows from the request alone. It computes no
// shop number, draws with package sheet, and says the sentences of the command
// line. It opens no port.
package page

import (
	"bytes"
	"compress/gzip"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"io"
	"net/http"
	"net/url"
	"runtime"
	"strings"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/shop"
	"overbend/export/svg"
)

// Options are what a handler is made for.
type Options struct {
	Shop  shop.Shop
	Start string   // text of the job file that the page opens with; "" for the starter
	Token string   // a folder that every address starts with; "" for none
	Names []string // host names that it answers to, besides localhost and plain addresses
	Local bool     // only addresses of this machine itself
}

//go:embed assets
var assets embed.FS

// handler answers for the page.
type handler struct {
	shop   shop.Shop
	start  string
	pages  *template.Template
	static map[string]asset
	shed   shed
	// drawings has room for few, as large as they are: who sends one slowly keeps
	// only others with drawings waiting.
	drawings shed
}

// asset is a file that belongs to the page.
type asset struct {
	data []byte
	kind string
}

// New returns the handler of the page.
func New(o Options) http.Handler {
	h := &handler{shop: o.Shop, start: o.Start, shed: newShed(max(2, runtime.GOMAXPROCS(0))), drawings: newShed(1), static: map[string]asset{}}
	if h.start == "" {
		h.start = job.Starter(o.Shop.Units)
	}
	h.pages = template.Must(template.New("").Funcs(functions()).ParseFS(assets, "assets/*.html"))
	for name, kind := range map[string]string{"page.css": "text/css; charset=utf-8", "page.js": "text/javascript; charset=utf-8", "icon.svg": "image/svg+xml"} {
		data, err := assets.ReadFile("assets/" + name)
		if err != nil {
			panic("page: " + err.Error())
		}
		if name == "page.css" {
			data = append([]byte(svg.Style()), data...)
		}
		h.static[name] = asset{data, kind}
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", h.first)
	mux.HandleFunc("POST /{$}", h.whole)
	mux.HandleFunc("POST /drawing", h.drawing)
	mux.HandleFunc("POST /drawing.json", h.drawingJSON)
	mux.HandleFunc("POST /update", h.update)
	mux.HandleFunc("POST /chart", h.chart)
	mux.HandleFunc("POST /open", h.open)
	mux.HandleFunc("POST /job.json", h.jobJSON)
	mux.HandleFunc("POST /job.toml", h.jobTOML)
	mux.HandleFunc("POST /kit.zip", h.kitZip)
	mux.HandleFunc("POST /kit/{name}", h.kitFile)
	mux.HandleFunc("POST /files", h.files)
	mux.HandleFunc("POST /print", h.print)
	mux.HandleFunc("GET /assets/paper.css", h.paperCSS)
	mux.HandleFunc("GET /assets/{name}", h.asset)
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		io.WriteString(w, "ok\n")
	})
	return &guard{next: mux, token: o.Token, names: o.Names, local: o.Local, cross: http.NewCrossOriginProtection()}
}

func (h *handler) asset(w http.ResponseWriter, r *http.Request) {
	a, ok := h.static[r.PathValue("name")]
	if !ok {
		http.NotFound(w, r)
		return
	}
	send(w, r, http.StatusOK, a.kind, a.data)
}

// readForm reads a submitted form, or answers why it can't.
func readForm(w http.ResponseWriter, r *http.Request) (url.Values, bool) {
	var err error
	if strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data") {
		// All of the body has room in memory, so none of it goes to the disk.
		err = r.ParseMultipartForm(2 * (mostDrawing + mostBody))
	} else {
		err = r.ParseForm()
	}
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large) && large.Limit > mostBody:
		http.Error(w, muchDrawing(), http.StatusRequestEntityTooLarge)
	case errors.As(err, &large):
		http.Error(w, fmt.Sprintf("more than %d bytes are not allowed", mostBody), http.StatusRequestEntityTooLarge)
	case err != nil:
		http.Error(w, "the form can't be read", http.StatusBadRequest)
	default:
		return r.PostForm, true
	}
	return nil, false
}

// compute reads the form and runs f with it when there is room. f returns the
// answer.
func (h *handler) compute(w http.ResponseWriter, r *http.Request, f func(url.Values) answer) {
	form, ok := readForm(w, r)
	if !ok {
		return
	}
	var a answer
	err := h.shed.do(r.Context().Done(), func() { a = f(form) })
	if err != nil {
		w.Header().Set("Retry-After", "1")
		http.Error(w, err.Error(), http.StatusServiceUnavailable)
		return
	}
	for k, v := range a.head {
		w.Header().Set(k, v)
	}
	send(w, r, a.code, a.kind, a.data)
}

// answer is what a request gets.
type answer struct {
	code int
	kind string
	data []byte
	head map[string]string
}

const (
	kindJSON = "application/json"
	kindHTML = "text/html; charset=utf-8"
)

// refuse answers a bad job.
func refuse(f *Fault) answer {
	return answer{code: http.StatusUnprocessableEntity, kind: kindJSON, data: encode(f)}
}

// broken answers what is our own fault.
func broken(err error) answer {
	return answer{code: http.StatusInternalServerError, kind: "text/plain; charset=utf-8", data: []byte(err.Error() + "\n")}
}

// encode returns v as JSON. What it can't encode is our own mistake.
func encode(v any) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		panic("page: " + err.Error())
	}
	return b.Bytes()
}

// smallest is the least answer worth packing, in bytes.
const smallest = 4 << 10

// send writes an answer. A page and what belongs to it are packed; an answer to
// the script only where the reader is not on this machine's own wire: there,
// packing takes longer than sending.
func send(w http.ResponseWriter, r *http.Request, code int, kind string, data []byte) {
	h := w.Header()
	h.Set("Content-Type", kind)
	near := strings.HasPrefix(r.RemoteAddr, "127.") || strings.HasPrefix(r.RemoteAddr, "[::1]")
	if (!near || kind != kindJSON) && len(data) > smallest && strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") && kind != "application/zip" && kind != "application/pdf" {
		h.Set("Content-Encoding", "gzip")
		w.WriteHeader(code)
		z, _ := gzip.NewWriterLevel(w, gzip.BestSpeed) // the level is one
		z.Write(data)
		z.Close()
		return
	}
	h.Set("Content-Length", fmt.Sprint(len(data)))
	w.WriteHeader(code)
	w.Write(data)
}

func (h *handler) jobJSON(w http.ResponseWriter, r *http.Request) {
	h.compute(w, r, func(f url.Values) answer {
		k := h.workOut(f)
		if k.fault != nil {
			return refuse(k.fault)
		}
		text, err := report.JSON(k.plan, nil)
		if err != nil {
			return broken(err)
		}
		return answer{code: http.StatusOK, kind: kindJSON, data: text}
	})
}

func (h *handler) jobTOML(w http.ResponseWriter, r *http.Request) {
	h.compute(w, r, func(f url.Values) answer {
		k := h.workOut(f)
		if k.fault != nil {
			return refuse(k.fault)
		}
		return attached("application/toml", kit.FileName(k.plan.Job.Name, "")+".toml", []byte(k.text))
	})
}

// attached answers with a file to be saved.
func attached(kind, name string, data []byte) answer {
	return answer{code: http.StatusOK, kind: kind, data: data, head: map[string]string{"Content-Disposition": `attachment; filename="` + name + `"`}}
}

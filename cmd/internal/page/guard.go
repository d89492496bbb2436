package page

import (
	"crypto/subtle"
	"errors"
	"net"
	"net/http"
	"net/netip"
	"strings"
)

// mostBody is the largest body of a request in bytes, as of a job file.
const mostBody = 1 << 20

// mostOf returns the largest body in bytes of a request to a path.
func mostOf(path string) int64 {
	if path == "/drawing" || path == "/drawing.json" {
		return mostDrawing + mostBody
	}
	return mostBody
}

// guard keeps strangers off a handler: pages of other sites, names that were
// bent to this address, bodies beyond all measure.
type guard struct {
	next  http.Handler
	token string   // a folder that every address starts with; "" for none
	names []string // of hosts besides localhost and plain addresses
	local bool     // only this machine is served
	cross *http.CrossOriginProtection
}

func (g *guard) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
	if !g.known(r.Host) {
		http.Error(w, "this address is not served under that name", http.StatusForbidden)
		return
	}
	if err := g.cross.Check(r); err != nil {
		http.Error(w, "a page of another site may not use this one", http.StatusForbidden)
		return
	}
	if r.URL.Path != "/healthz" && g.token != "" {
		folder, rest, _ := strings.Cut(strings.TrimPrefix(r.URL.Path, "/"), "/")
		if subtle.ConstantTimeCompare([]byte(folder), []byte(g.token)) != 1 {
			http.Error(w, "the address is not complete; use the one that the program printed", http.StatusForbidden)
			return
		}
		r = r.Clone(r.Context())
		r.URL.Path, r.URL.RawPath = "/"+rest, ""
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostOf(r.URL.Path))
	g.next.ServeHTTP(w, r)
}

// known reports whether a Host header names this machine. A name that someone
// else's name server gives may be bent to this address, a plain address can't.
func (g *guard) known(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.ToLower(strings.Trim(name, "[]"))
	if name == "localhost" {
		return true
	}
	if a, err := netip.ParseAddr(name); err == nil {
		return !g.local || a.IsLoopback()
	}
	for _, n := range g.names {
		if strings.EqualFold(n, name) {
			return true
		}
	}
	return false
}

// shed lets so many computations run at once and some more wait; it turns away
// those beyond.
type shed struct{ running, waiting chan struct{} }

func newShed(n int) shed {
	return shed{make(chan struct{}, n), make(chan struct{}, 16*n)}
}

// errBusy says that too much is asked at once; errGone that nobody waits.
var (
	errBusy = errors.New("too much is asked at once; try again in a moment")
	errGone = errors.New("nobody waits for the answer")
)

// do runs f when there is room for it.
func (s shed) do(gone <-chan struct{}, f func()) error {
	select {
	case s.waiting <- struct{}{}:
		defer func() { <-s.waiting }()
	default:
		return errBusy
	}
	select {
	case s.running <- struct{}{}:
		defer func() { <-s.running }()
	case <-gone:
		return errGone
	}
	f()
	return nil
}

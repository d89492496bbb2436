package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"golang.org/x/term"
)

// progress is a line on a terminal that says how far a long run is, how fast and for
// how long yet. On anything else it writes nothing.
type progress struct {
	to    io.Writer // nil: no terminal
	of    int
	begun time.Time
	shown time.Time
	line  int // letters on the terminal
}

// newProgress returns the line of a run of so many steps.
func newProgress(to io.Writer, of int) *progress {
	p := &progress{of: of, begun: time.Now()}
	if onTerminal(to) {
		p.to = to
	}
	return p
}

// waiting shows after a while what is being waited for and how long it has taken, ten
// times a second. What it returns ends that and takes the line away.
func waiting(to io.Writer, what string, after time.Duration) (done func()) {
	begun, end, ended := time.Now(), make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		p := &progress{to: to}
		defer p.clear()
		for wait := after; ; wait = 100 * time.Millisecond {
			select {
			case <-end:
				return
			case <-time.After(wait):
				p.write(fmt.Sprintf("%s, %.1f s", what, time.Since(begun).Seconds()))
			}
		}
	}()
	return func() {
		close(end)
		<-ended
	}
}

// onTerminal reports whether somebody sees what is written.
func onTerminal(w io.Writer) bool {
	if o, ok := w.(*output); ok {
		w = o.to
	}
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// at shows that so many steps are done, at most ten times a second.
func (p *progress) at(done int) {
	const often = 100 * time.Millisecond
	now := time.Now()
	if p.to == nil || now.Sub(p.shown) < often {
		return
	}
	p.shown = now
	p.write(bar(done, p.of, now.Sub(p.begun)))
}

// clear takes the line away, for what is written in its place.
func (p *progress) clear() {
	if p.to != nil && p.line > 0 {
		p.write("")
		p.shown = time.Time{}
	}
}

func (p *progress) write(s string) {
	fmt.Fprintf(p.to, "\r%-*s\r%s", p.line, "", s)
	p.line = len(s)
}

// bar returns the line, narrower than any terminal.
func bar(done, of int, since time.Duration) string {
	const wide = 24
	full := wide * done / of
	s := fmt.Sprintf("[%s%s] %d of %d", strings.Repeat("#", full), strings.Repeat(".", wide-full), done, of)
	if done == 0 || since <= 0 {
		return s
	}
	rate := float64(done) / since.Seconds()
	left := time.Duration(float64(of-done) / rate * float64(time.Second))
	decimals := 0
	if rate < 10 {
		decimals = 1
	}
	return s + fmt.Sprintf(", %.*f a second, %s left", decimals, rate, left.Round(time.Second))
}

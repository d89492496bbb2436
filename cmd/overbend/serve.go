package main

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"log"
	"math"
	"net"
	"net/http"
	"net/netip"
	"os"
	"os/exec"
	"os/signal"
	"runtime"
	"strconv"
	"syscall"
	"time"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/page"
)

// defaultAddress is where the page is served: this machine only.
const defaultAddress = "127.0.0.1:7340"

type serveCommand struct {
	shop shopFile
	addr string
	open bool
}

func (*serveCommand) usage() string {
	return `Usage: overbend serve [JOB.toml] [--addr HOST:PORT] [--open] [--shop FILE]

Serves one page to this machine's browser that does the whole job: type tube and
bend, see part, block, press and numbers change, take the kit away. The first
line that it prints is the page's address. It reads the job file and the shop file once
and writes no file; Ctrl-C ends it.

With another address than this machine's own the page can be reached by others:
the address then holds a random word without which nothing is answered.

Examples:
  overbend serve --open
  overbend serve davit.toml --addr 127.0.0.1:8000
`
}

func (c *serveCommand) flags(f *pflag.FlagSet) {
	f.StringVar(&c.addr, "addr", defaultAddress, "serve at `HOST:PORT`; port 0 takes a free one")
	c.shop.flag(f)
	f.BoolVar(&c.open, "open", false, "open the page in the browser")
}

func (c *serveCommand) run(args []string, stdout, stderr io.Writer) error {
	s, err := c.shop.read()
	if err != nil {
		return err
	}
	o := page.Options{Shop: s}
	switch len(args) {
	case 0:
	case 1:
		text, err := job.Text(args[0])
		if err != nil {
			return err
		}
		o.Start = string(text)
	default:
		return fmt.Errorf("serve: %d arguments given; it takes one job file at most; see overbend serve --help", len(args))
	}
	host, port, err := net.SplitHostPort(c.addr)
	if err != nil {
		return fmt.Errorf("--addr: %.60q is not allowed; it must be HOST:PORT, like %s", c.addr, defaultAddress)
	}
	if _, err := strconv.ParseUint(port, 10, 16); err != nil {
		return fmt.Errorf("--addr: %.60q has the port %.20q; a whole number from 0 to %d is allowed", c.addr, port, math.MaxUint16)
	}
	l, err := listen(c.addr)
	if err != nil {
		return err
	}
	at := l.Addr().(*net.TCPAddr).AddrPort()
	o.Local = at.Addr().IsLoopback()
	if !o.Local {
		if o.Token, err = word(); err != nil {
			return err
		}
		if _, err := netip.ParseAddr(host); err != nil && host != "" {
			o.Names = []string{host}
		}
		fmt.Fprintln(stderr, "warning: serve: everyone who can reach this machine and knows the whole address can use the page")
	}
	address := addressOf(host, at, o.Token)
	if _, err := fmt.Fprintln(stdout, address); err != nil {
		return err
	}
	if c.open {
		if err := browse(address); err != nil {
			fmt.Fprintf(stderr, "warning: serve: no browser could be started (%v); open the address above\n", err)
		}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return serve(ctx, l, page.New(o))
}

// serve answers on a listener until ctx ends, then lets what is under way finish.
func serve(ctx context.Context, l net.Listener, h http.Handler) error {
	s := &http.Server{
		Handler:           h,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       15 * time.Second,
		WriteTimeout:      30 * time.Second,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    32 << 10,
		ErrorLog:          log.New(io.Discard, "", 0), // a stranger's broken request is no news
	}
	done := make(chan error, 1)
	go func() { done <- s.Serve(l) }()
	select {
	case err := <-done:
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	end, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	if s.Shutdown(end) != nil {
		s.Close()
	}
	return nil
}

// listen opens an address. The error is one sentence.
func listen(addr string) (net.Listener, error) {
	l, err := net.Listen("tcp", addr)
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fmt.Errorf("--addr: %s is in use; end the program that has it, or choose another port, 0 for any free one", addr)
	case err != nil:
		var op *net.OpError
		if errors.As(err, &op) {
			err = op.Err
		}
		return nil, fmt.Errorf("--addr: %.60q can't be served: %w", addr, err)
	}
	return l, nil
}

// word returns a random word that nobody guesses.
func word() (string, error) {
	var b [16]byte
	_, err := rand.Read(b[:])
	return hex.EncodeToString(b[:]), err
}

// addressOf returns the page's address for a browser: the host as the user named
// it, or where that is none or every one, the address that is listened on.
func addressOf(host string, at netip.AddrPort, token string) string {
	a, err := netip.ParseAddr(host)
	switch {
	case host == "", err == nil && a.IsUnspecified():
		host = "localhost"
		if token != "" {
			host = ownAddress()
		}
	case err == nil:
		host = a.String()
	}
	address := "http://" + net.JoinHostPort(host, fmt.Sprint(at.Port())) + "/"
	if token != "" {
		address += token + "/"
	}
	return address
}

// ownAddress returns an address by which others reach this machine: the first
// plain one of its network cards, or "localhost" where there is none.
func ownAddress() string {
	all, err := net.InterfaceAddrs()
	if err == nil {
		for _, a := range all {
			if n, ok := a.(*net.IPNet); ok && !n.IP.IsLoopback() && n.IP.To4() != nil {
				return n.IP.String()
			}
		}
	}
	return "localhost"
}

// browse opens an address in the user's browser.
func browse(address string) error {
	name, args := opener(runtime.GOOS)
	c := exec.Command(name, append(args, address)...)
	if err := c.Start(); err != nil {
		return err
	}
	go c.Wait() // it is not ours to wait for
	return nil
}

// opener returns the command by which a system opens an address.
func opener(system string) (string, []string) {
	switch system {
	case "windows":
		return "rundll32", []string{"url.dll,FileProtocolHandler"}
	case "darwin":
		return "open", nil
	}
	return "xdg-open", nil
}

// launch says how the program was started.
type launch struct {
	args int
	// out and in say what standard output and input are.
	out, in stream
	system  string // as runtime.GOOS
	desktop bool   // a display is there
	alone   bool   // the console is this program's own: it came with a double click
}

// stream is what a standard stream is.
type stream uint8

const (
	terminal stream = iota
	nothing         // the null device, or none at all
	other           // a file, a pipe, a socket
)

// byDoubleClick reports whether a desktop started the program for somebody who has
// no terminal to read from: without a word, and with nothing that reads it.
// Elsewhere no word is a mistake that deserves its answer.
func (l launch) byDoubleClick() bool {
	if l.args > 0 {
		return false
	}
	if l.system == "windows" {
		return l.alone
	}
	return l.desktop && l.in != terminal && l.out != terminal && (l.in == nothing || l.out == nothing)
}

// started looks at this process.
func started(args []string) launch {
	return launch{
		args: len(args), in: kindOf(os.Stdin), out: kindOf(os.Stdout), system: runtime.GOOS,
		desktop: runtime.GOOS == "darwin" || os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != "",
		alone:   ownConsole(),
	}
}

// kindOf says what a file of this process is.
func kindOf(f *os.File) stream {
	info, err := f.Stat()
	if err != nil {
		return nothing
	}
	if null, err := os.Stat(os.DevNull); err == nil && os.SameFile(info, null) {
		return nothing
	}
	if info.Mode()&os.ModeCharDevice != 0 {
		return terminal
	}
	return other
}

// bare returns the words that a start without any stands for.
func bare(args []string) []string {
	if started(args).byDoubleClick() {
		// Any free port: the page of an earlier double click may still be open.
		return []string{"serve", "--open", "--addr", "127.0.0.1:0"}
	}
	return args
}

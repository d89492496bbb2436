package main

import (
	"archive/zip"
	"bufio"
	"bytes"
	"context"
	"encoding/base64"
	"errors"
	"io"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"overbend/cmd/internal/page"
	"overbend/cmd/internal/shop"
)

// program builds the program, once for a test.
func program(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "overbend")
	if out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return path
}

// served starts the program and returns the first line that it prints.
func served(t *testing.T, c *exec.Cmd) string {
	t.Helper()
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Process.Kill(); c.Wait() })
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSuffix(line, "\n")
}

// The first line is the page's address, Ctrl-C ends it cleanly, a taken port is
// one sentence, and nothing is written.
func TestServe(t *testing.T) {
	bin, dir := program(t), t.TempDir()
	demo, err := filepath.Abs("../../testdata/davit-arm.toml")
	if err != nil {
		t.Fatal(err)
	}
	var stderr strings.Builder
	c := exec.Command(bin, "serve", demo, "--addr", "127.0.0.1:0")
	c.Dir, c.Stderr = dir, &stderr
	address := served(t, c)
	if !strings.HasPrefix(address, "http://127.0.0.1:") || !strings.HasSuffix(address, "/") {
		t.Fatalf("first line %q", address)
	}
	body := fetch(t, address, http.StatusOK)
	if !strings.Contains(body, "davit-arm") || !strings.Contains(body, "356.6") {
		t.Error("not the demo's page")
	}
	fetch(t, address+"healthz", http.StatusOK)

	// The page's zip and make's folder hold the same bytes.
	sameAsMade(t, bin, demo, address)

	port := strings.TrimSuffix(strings.TrimPrefix(address, "http://"), "/")
	second := exec.Command(bin, "serve", "--addr", port)
	out, err := second.CombinedOutput()
	var exit *exec.ExitError
	if !errors.As(err, &exit) || exit.ExitCode() != exitMisuse || strings.Count(string(out), "\n") != 1 || !strings.Contains(string(out), port+" is in use; ") {
		t.Errorf("a port in use: %v %q", err, out)
	}

	if err := c.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	if err := c.Wait(); err != nil {
		t.Errorf("Ctrl-C: %v", err)
	}
	if stderr.Len() != 0 {
		t.Errorf("said %q", stderr.String())
	}
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Errorf("left behind: %v", left)
	}
}

// sameAsMade compares the zip of a served page with the folder that make writes of
// the same job file.
func sameAsMade(t *testing.T, bin, path, address string) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "kit")
	if out, err := exec.Command(bin, "make", path, "-o", dir).CombinedOutput(); err != nil {
		t.Fatalf("%v %s", err, out)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r, err := http.PostForm(address+"kit.zip", url.Values{"base": {base64.StdEncoding.EncodeToString(text)}})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	data, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	made, err := os.ReadDir(dir)
	if err != nil || len(made) != len(z.File) {
		t.Fatalf("%v; %d files made, %d in the zip", err, len(made), len(z.File))
	}
	for _, f := range z.File {
		want, err := os.ReadFile(filepath.Join(dir, filepath.Base(f.Name)))
		if err != nil {
			t.Fatal(err)
		}
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if got, err := io.ReadAll(in); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s is not what make writes", f.Name)
		}
	}
}

// An address that others reach has a warning and a random word, without which
// nothing is answered.
func TestServeToOthers(t *testing.T) {
	bin := program(t)
	var stderr strings.Builder
	c := exec.Command(bin, "serve", "--addr", "0.0.0.0:0")
	c.Stderr = &stderr
	address := served(t, c)
	parts := strings.Split(strings.TrimSuffix(address, "/"), "/")
	if len(parts) != 4 || len(parts[3]) != 32 || strings.Contains(parts[2], "0.0.0.0") {
		t.Fatalf("address %q", address)
	}
	fetch(t, address, http.StatusOK)
	fetch(t, strings.TrimSuffix(address, parts[3]+"/"), http.StatusForbidden)
	c.Process.Signal(syscall.SIGTERM)
	if err := c.Wait(); err != nil {
		t.Error(err)
	}
	if !strings.HasPrefix(stderr.String(), "warning: serve: ") {
		t.Errorf("no warning: %q", stderr.String())
	}
}

func fetch(t *testing.T, address string, want int) string {
	t.Helper()
	r, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != want {
		t.Fatalf("%s: %v %d, want %d", address, err, r.StatusCode, want)
	}
	return string(body)
}

func TestServeMisused(t *testing.T) {
	for _, row := range [][]string{
		{"serve", "a", "b"}, {"serve", "none.toml"}, {"serve", "--addr", "here"}, {"serve", "--addr", "127.0.0.1:99999"}, {"serve", "--addr", "203.0.113.1:1"},
	} {
		var out, err strings.Builder
		if code := run(row, &out, &err); code != exitMisuse || out.Len() != 0 || strings.Count(err.String(), "\n") != 1 {
			t.Errorf("%v: %d %q %q", row, code, out.String(), err.String())
		}
	}
}

// A slow reader or writer is given up, and what is under way may finish.
func TestServeEnds(t *testing.T) {
	l, err := listen("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- serve(ctx, l, page.New(page.Options{Shop: shop.Nothing(), Local: true})) }()
	slow, err := net.Dial("tcp", l.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer slow.Close()
	io.WriteString(slow, "POST /update HTTP/1.1\r\nHost: localhost\r\nContent-Length: 100\r\n\r\nname=")
	fetch(t, "http://"+l.Addr().String()+"/healthz", http.StatusOK)
	stop()
	select {
	case err := <-done:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Error("it does not end")
	}
}

func TestAddressOf(t *testing.T) {
	at := netip.MustParseAddrPort
	for _, row := range []struct{ host, at, token, want string }{
		{"127.0.0.1", "127.0.0.1:80", "", "http://127.0.0.1:80/"},
		{"localhost", "127.0.0.1:7340", "", "http://localhost:7340/"},
		{"::1", "[::1]:7340", "", "http://[::1]:7340/"},
		{"bench.shop", "192.0.2.1:7340", "word", "http://bench.shop:7340/word/"},
	} {
		if got := addressOf(row.host, at(row.at), row.token); got != row.want {
			t.Errorf("%s: %s, want %s", row.host, got, row.want)
		}
	}
}

// Who starts the program with a double click has no terminal to read from. Every
// other start without a word gets the answer that it always had.
func TestByDoubleClick(t *testing.T) {
	for _, row := range []struct {
		name string
		l    launch
		want bool
	}{
		{"a file manager", launch{in: nothing, out: nothing, system: "linux", desktop: true}, true},
		{"a file manager whose output is logged", launch{in: nothing, out: other, system: "linux", desktop: true}, true},
		{"an application of macOS", launch{in: nothing, out: nothing, system: "darwin", desktop: true}, true},
		{"a console of its own", launch{in: terminal, out: terminal, system: "windows", alone: true}, true},
		{"a console of a shell", launch{in: terminal, out: terminal, system: "windows"}, false},
		{"a terminal", launch{in: terminal, out: terminal, system: "linux", desktop: true}, false},
		{"a pipe behind a terminal", launch{in: terminal, out: other, system: "linux", desktop: true}, false},
		{"a pipe before and behind", launch{in: other, out: other, system: "linux", desktop: true}, false},
		{"output thrown away at a terminal", launch{in: terminal, out: nothing, system: "linux", desktop: true}, false},
		{"a job without a desktop", launch{in: nothing, out: nothing, system: "linux"}, false},
		{"a word", launch{args: 1, in: nothing, out: nothing, system: "linux", desktop: true}, false},
		{"a word on its own console", launch{args: 1, system: "windows", alone: true}, false},
	} {
		if got := row.l.byDoubleClick(); got != row.want {
			t.Errorf("%s: %v", row.name, got)
		}
	}
}

// A desktop's start is one for real: without streams and with a display the page
// opens in the browser, here one that notes what it was given.
func TestDoubleClickOpensThePage(t *testing.T) {
	bin, dir := program(t), t.TempDir()
	note := filepath.Join(dir, "note")
	if err := os.WriteFile(filepath.Join(dir, "xdg-open"), []byte("#!/bin/sh\necho \"$1\" > "+note+"\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	c := exec.Command(bin) // its streams are the null device
	c.Env = []string{"PATH=" + dir + ":/bin:/usr/bin", "DISPLAY=:0"}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() { c.Process.Kill(); c.Wait() }()
	for range 200 {
		if text, err := os.ReadFile(note); err == nil && len(text) > 0 {
			fetch(t, strings.TrimSpace(string(text)), http.StatusOK)
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Error("no browser was started")
}

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"pgregory.net/rapid"

	"overbend/cmd/internal/kit"
)

// jobsOf writes n jobs, each of another name and radius, and returns their folder.
func jobsOf(t testing.TB, n int) string {
	text, err := os.ReadFile(demo)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	for i := range n {
		r := strings.NewReplacer(`"davit-arm"`, fmt.Sprintf(`"arm-%05d"`, i), `"420 mm"`, fmt.Sprintf(`"%.2f mm"`, 350+150*float64(i)/float64(n)))
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%05d.toml", i)), []byte(r.Replace(string(text))), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// What show says of one among several is what it says of it alone: good jobs, such
// as can't be made and such as are refused, in any order and unit; and the code is
// the worst of all.
func TestSeveralIsEach(t *testing.T) {
	text, err := os.ReadFile(demo)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	kinds := map[string]func(string) string{
		"good":    func(s string) string { return s },
		"cannot":  func(s string) string { return strings.Replace(s, `"420 mm"`, `"60 mm"`, 1) },
		"refused": func(s string) string { return strings.Replace(s, `"3 mm"`, `"0 mm"`, 1) },
		"slip":    func(s string) string { return "[" + s },
	}
	rapid.Check(t, func(t *rapid.T) {
		var paths []string
		for i := range rapid.IntRange(2, 4).Draw(t, "n") {
			kind := rapid.SampledFrom([]string{"good", "good", "cannot", "refused", "slip"}).Draw(t, "kind")
			path := filepath.Join(dir, fmt.Sprintf("%d.toml", i))
			if err := os.WriteFile(path, []byte(kinds[kind](string(text))), 0o666); err != nil {
				t.Fatal(err)
			}
			paths = append(paths, path)
		}
		paths = rapid.Permutation(paths).Draw(t, "order")
		flags := [][]string{nil, {"--all"}, {"--units", "in"}, {"--json"}}[rapid.IntRange(0, 3).Draw(t, "flags")]
		asJSON := len(flags) == 1 && flags[0] == "--json"
		var want, wantErr []string
		worst := 0
		for _, path := range paths {
			var out, said bytes.Buffer
			worst = max(worst, run(append([]string{"show", path}, flags...), &out, &said))
			if out.Len() > 0 && !asJSON {
				want = append(want, "== "+path+"\n\n"+out.String())
			}
			if asJSON {
				want = append(want, out.String())
			}
			for line := range strings.Lines(said.String()) {
				if rest, ok := strings.CutPrefix(line, "warning: "); ok {
					line = "warning: " + path + ": " + rest
				}
				wantErr = append(wantErr, line)
			}
		}
		var out, said bytes.Buffer
		if code := run(append(append([]string{"show"}, paths...), flags...), &out, &said); code != worst {
			t.Errorf("exit code %d, want %d", code, worst)
		}
		lines := strings.SplitAfter(said.String(), "\n")
		if worst > 0 { // the last line counts them
			lines = lines[:len(lines)-2]
		}
		if got := strings.Join(lines, ""); got != strings.Join(wantErr, "") {
			t.Errorf("%s\nwant\n%s", got, strings.Join(wantErr, ""))
		}
		if !asJSON {
			if got := out.String(); got != strings.Join(want, "\n") {
				t.Errorf("%s\nwant\n%s", got, strings.Join(want, "\n"))
			}
			return
		}
		d := json.NewDecoder(&out)
		for i, path := range paths {
			var doc struct {
				File, Error string
				Job         json.RawMessage
			}
			if err := d.Decode(&doc); err != nil || doc.File != path {
				t.Fatal(doc.File, path, err)
			}
			var got, alone bytes.Buffer
			json.Compact(&got, doc.Job)
			json.Compact(&alone, []byte(want[i]))
			if got.String() != alone.String() {
				t.Errorf("%s: %s, alone %s", path, &got, &alone)
			}
			if doc.Error != "" && !strings.Contains(said.String(), "overbend: "+doc.Error+"\n") || doc.Error == "" && doc.Job == nil {
				t.Errorf("%s: %q is not among %s", path, doc.Error, &said)
			}
		}
		if d.More() {
			t.Error("more lines than jobs")
		}
	})
}

// Ctrl-C leaves whole kits, each listed, and says how many; none that is not listed.
func TestMakeSeveralInterrupted(t *testing.T) {
	jobs, kits := jobsOf(t, 200), filepath.Join(t.TempDir(), "kits")
	out := &interrupter{t: t} // asks at the 20th write, a job each
	var stderr bytes.Buffer
	code := run([]string{"make", filepath.Join(jobs, "..."), "-o", kits}, out, &stderr)
	if code != exitSignal+int(syscall.SIGINT) {
		t.Fatal(code, &stderr)
	}
	made, err := os.ReadDir(kits)
	if err != nil {
		t.Fatal(err)
	}
	if len(made) < 20 || len(made) > 150 {
		t.Errorf("%d kits", len(made))
	}
	for i, d := range made {
		// They are the first, without a gap.
		if want := fmt.Sprintf("arm-%05d-kit", i); d.Name() != want {
			t.Fatalf("%s, want %s", d.Name(), want)
		}
		ledger := filepath.Join(kits, d.Name(), kit.Ledger)
		if !exists(ledger) || !strings.Contains(out.String(), ledger) {
			t.Errorf("%s is not whole, or not listed", d.Name())
		}
	}
	if want := fmt.Sprintf("overbend: %d of 200 jobs are done, and whole: interrupt\n", len(made)); !strings.HasSuffix(stderr.String(), want) {
		t.Errorf("%q does not end in %q", &stderr, want)
	}
}

// Jobs a second, and what lives on the way: the same for few jobs and for many.
func BenchmarkShowSeveral(b *testing.B) {
	for _, n := range []int{100, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			args := []string{"show", filepath.Join(jobsOf(b, n), "...")}
			for b.Loop() {
				if code := run(args, io.Discard, io.Discard); code != exitDone {
					b.Fatal(code)
				}
			}
			b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "jobs/s")
			b.StopTimer()
			var most uint64
			lines := 0
			run(args, writerFunc(func(p []byte) (int, error) {
				if lines++; lines%(n/8) == 0 {
					var m runtime.MemStats
					runtime.GC()
					runtime.ReadMemStats(&m)
					most = max(most, m.HeapAlloc)
				}
				return len(p), nil
			}), io.Discard)
			b.ReportMetric(float64(most)/(1<<20), "MB-live-most")
		})
	}
}

// A run that is to end begins no job more, be it by a signal or because nobody takes
// what it prints; what was begun is done and counted.
func TestSeveralEndsSoon(t *testing.T) {
	workers := runtime.GOMAXPROCS(0)
	files := make([]jobFile, 100*workers)
	for i := range files {
		files[i].path = fmt.Sprint(i)
	}
	stop := errors.New("stop")

	ctx, cancel := context.WithCancelCause(t.Context())
	var calls atomic.Int64
	puts := 0
	asked := several{files: files, put: func(io.Writer, string, *outcome) error { puts++; return nil }}
	asked.one = func(i int, _, _ io.Writer) error {
		calls.Add(1)
		if i == 0 {
			cancel(stop)
		}
		<-ctx.Done()
		return nil
	}
	err := asked.run(ctx, io.Discard, io.Discard)
	if n := int(calls.Load()); !errors.Is(err, stop) || n > workers || puts != n || !strings.HasPrefix(err.Error(), fmt.Sprintf("%d of %d jobs are done", n, len(files))) {
		t.Errorf("%d begun by %d, %d put, %v", n, workers, puts, err)
	}

	calls.Store(0)
	closed := make(chan struct{})
	unread := several{files: files}
	unread.one = func(i int, _, _ io.Writer) error {
		calls.Add(1)
		if i > 0 {
			<-closed
			time.Sleep(20 * time.Millisecond) // until the error has come through
		}
		return nil
	}
	unread.put = func(io.Writer, string, *outcome) error {
		close(closed)
		return stop
	}
	if err := unread.run(t.Context(), io.Discard, io.Discard); err != stop || int(calls.Load()) > 3*workers {
		t.Errorf("%d begun by %d, %v", calls.Load(), workers, err)
	}
}

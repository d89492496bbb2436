package main

import (
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"overbend/cmd/internal/shop"
)

func TestMain(m *testing.M) {
	testscript.Main(withoutShop{m}, map[string]func(){"overbend": main})
}

// withoutShop runs the tests of this process without the developer's own shop file.
type withoutShop struct{ *testing.M }

func (m withoutShop) Run() int {
	os.Setenv(shop.Variable, "")
	return m.M.Run()
}

// The scripts are the program as its users meet it, one behaviour each. $DEMO
// is the demo's job file, $JOBS the folder of the other jobs.
func TestScripts(t *testing.T) {
	data, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: filepath.Join(data, "scripts"),
		Setup: func(e *testscript.Env) error {
			e.Setenv("DEMO", filepath.Join(data, "davit-arm.toml"))
			e.Setenv(shop.Variable, "") // whatever the developer's own says
			e.Setenv("JOBS", filepath.Join(data, "jobs"))
			e.Setenv("DRAWINGS", filepath.Join(data, "drawings"))
			e.Values[treeKey{}] = map[string]string{}
			return nil
		},
		Condition: func(name string) (bool, error) {
			if name == "root" {
				return os.Geteuid() == 0, nil
			}
			return false, fmt.Errorf("unknown condition %q", name)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"digests":   digests,
			"edit":      edit,
			"exits":     exits,
			"number":    number,
			"refused":   refused,
			"sentence":  sentence,
			"snapshot":  snapshot,
			"sparse":    sparse,
			"text":      text,
			"unchanged": unchanged,
		},
	})
}

// exits CODE PROGRAM ARGS... runs a program that must exit with the code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var e *exec.ExitError
		if !errors.As(err, &e) {
			ts.Fatalf("%v", err)
		}
		got = e.ExitCode()
	}
	if got != want || neg {
		ts.Fatalf("exit code %d, want %d\n[stdout]\n%s[stderr]\n%s", got, want, ts.ReadFile("stdout"), ts.ReadFile("stderr"))
	}
}

// sentence TEXT: standard error is one line, a plain sentence of the program
// that holds the text; standard output is empty.
func sentence(ts *testscript.TestScript, neg bool, args []string) {
	s := ts.ReadFile("stderr")
	for strings.HasPrefix(s, "warning: ") { // what the job is warned of besides
		_, s, _ = strings.Cut(s, "\n")
	}
	line, ended := strings.CutSuffix(s, "\n")
	switch {
	case neg || len(args) != 1:
		ts.Fatalf("usage: sentence TEXT")
	case ts.ReadFile("stdout") != "":
		ts.Fatalf("on standard output: %s", ts.ReadFile("stdout"))
	case !ended || strings.Contains(line, "\n") || !strings.HasPrefix(line, "overbend: ") || strings.HasSuffix(line, ".") || strings.Contains(line, "failed to"):
		ts.Fatalf("not one sentence: %q", s)
	case !strings.Contains(line, args[0]):
		ts.Fatalf("%s does not say %q", line, args[0])
	}
}

// refused FILE TEXT: neither show nor make takes the job file. Both say the
// text in one sentence, exit with 2 and leave the folder as it was.
func refused(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: refused FILE TEXT")
	}
	before := tree(ts)
	exits(ts, false, []string{"2", "overbend", "show", args[0]})
	sentence(ts, false, args[1:])
	exits(ts, false, []string{"2", "overbend", "make", args[0], "-o", "refused-kit"})
	sentence(ts, false, args[1:])
	differs(ts, before)
}

// edit FROM TO OLD NEW [OLD NEW]... writes a file with texts replaced that
// must occur once.
func edit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 || len(args)%2 != 0 {
		ts.Fatalf("usage: edit FROM TO [OLD NEW]...")
	}
	s := ts.ReadFile(args[0])
	for r := args[2:]; len(r) > 0; r = r[2:] {
		if n := strings.Count(s, r[0]); n != 1 {
			ts.Fatalf("%q occurs %d times in %s", r[0], n, args[0])
		}
		// Scripts have no line feeds within words.
		s = strings.Replace(s, r[0], strings.ReplaceAll(r[1], `\n`, "\n"), 1)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(s), 0o666))
}

// digests UNDO FILE... writes the undo file of a run that was to put these files
// in place of others.
func digests(ts *testscript.TestScript, neg bool, args []string) {
	var lines []string
	for _, f := range args[1:] {
		lines = append(lines, fmt.Sprintf(`{"name": %q, "existed": true, "new": "%x"}`, filepath.Base(f), sha256.Sum256([]byte(ts.ReadFile(f)))))
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte("["+strings.Join(lines, ",")+"]"), 0o666))
}

// sparse FILE SIZE makes a file of so many bytes that takes no room.
func sparse(ts *testscript.TestScript, neg bool, args []string) {
	n, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), nil, 0o666))
	ts.Check(os.Truncate(ts.MkAbs(args[0]), n))
}

// treeKey is the key of a script's last snapshot.
type treeKey struct{}

// snapshot notes all files below the script's folder, and unchanged fails
// unless they are the same, bytes and times of writing.
func snapshot(ts *testscript.TestScript, neg bool, args []string) {
	m := ts.Value(treeKey{}).(map[string]string)
	clear(m)
	maps.Copy(m, tree(ts))
}

func unchanged(ts *testscript.TestScript, neg bool, args []string) {
	differs(ts, ts.Value(treeKey{}).(map[string]string))
}

func differs(ts *testscript.TestScript, before map[string]string) {
	after := tree(ts)
	for name := range after {
		if _, ok := before[name]; !ok {
			ts.Fatalf("%s is new", name)
		}
	}
	for name, was := range before {
		if after[name] != was {
			ts.Fatalf("%s is changed: %q, was %q", name, after[name], was)
		}
	}
}

func tree(ts *testscript.TestScript) map[string]string {
	out := map[string]string{}
	root := ts.Getenv("WORK")
	ts.Check(filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == root || strings.HasPrefix(path, filepath.Join(root, ".tmp")) {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		what := info.Mode().String()
		if info.Mode().IsRegular() && info.Size() < 1<<20 {
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			what += fmt.Sprintf(" %x %v", sha256.Sum256(data), info.ModTime())
		}
		out[path] = what
		return nil
	}))
	return out
}

// value returns what stands at a path like press.schedule.3.travel_mm in a
// JSON file, or in stdout.
func value(ts *testscript.TestScript, file, path string) any {
	var v any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(file)), &v))
	for _, key := range strings.Split(path, ".") {
		switch in := v.(type) {
		case map[string]any:
			found := false
			if v, found = in[key]; !found {
				ts.Fatalf("no key %s in %s", key, path)
			}
		case []any:
			i, err := strconv.Atoi(key)
			ts.Check(err)
			if i >= len(in) {
				ts.Fatalf("%s: only %d elements", path, len(in))
			}
			v = in[i]
		default:
			ts.Fatalf("%s: %v has no keys", path, v)
		}
	}
	return v
}

// number FILE PATH WANT TOLERANCE checks a number in a JSON file.
func number(ts *testscript.TestScript, neg bool, args []string) {
	got, ok := value(ts, args[0], args[1]).(float64)
	if !ok {
		ts.Fatalf("%s is no number", args[1])
	}
	want, err := strconv.ParseFloat(args[2], 64)
	ts.Check(err)
	within, err := strconv.ParseFloat(args[3], 64)
	ts.Check(err)
	if near := math.Abs(got-want) <= within; near == neg {
		ts.Fatalf("%s is %v, want %v within %v", args[1], got, want, within)
	}
}

// text FILE PATH WANT checks a text, true, false or null in a JSON file.
func text(ts *testscript.TestScript, neg bool, args []string) {
	got := fmt.Sprint(value(ts, args[0], args[1]))
	if (got == args[2]) == neg {
		ts.Fatalf("%s is %s, want %s", args[1], got, args[2])
	}
}

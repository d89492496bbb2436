package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// The same job gives the same bytes, whoever runs it and where: in another time
// zone and language, on one processor or many, from another folder, by either form
// of the file's name, and again, for maps come in another order each time. The
// program is run as its users run it.
func TestSameBytes(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"davit-arm.toml", "jobs/gate-brace.toml", "jobs/canopy-hoop.toml", "jobs/davit-arm-tried.toml"} {
		job, err := filepath.Abs("../../testdata/" + name)
		if err != nil {
			t.Fatal(err)
		}
		first := kitOf(t, "", job)
		if len(first) < 15 {
			t.Fatalf("%s: %d files", name, len(first))
		}
		for _, c := range []struct {
			what, in, path string
			env            []string
		}{
			{"again", "", job, nil},
			{"in Kiritimati and German", "", job, []string{"TZ=Pacific/Kiritimati", "LC_ALL=de_DE.UTF-8", "LANG=de_DE.UTF-8", "LC_NUMERIC=de_DE.UTF-8"}},
			{"in no language", "", job, []string{"TZ=", "LC_ALL=C", "LANG=", "HOME=/"}},
			{"on one processor", "", job, []string{"GOMAXPROCS=1"}},
			{"on many", "", job, []string{"GOMAXPROCS=13", "GOGC=5"}},
			{"from its own folder", filepath.Dir(job), filepath.Base(job), nil},
			{"by a longer way", filepath.Dir(job), "./../" + filepath.Base(filepath.Dir(job)) + "/" + filepath.Base(job), nil},
		} {
			alike(t, name+" "+c.what, kitOf(t, c.in, c.path, c.env...), first)
		}
	}
}

// A nought is a nought: with a minus before it, or less than any number that a
// computer works out in full.
func TestSameNoughts(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile(demo)
	if err != nil {
		t.Fatal(err)
	}
	write := func(cut, kerf, friction string) string {
		path := filepath.Join(t.TempDir(), "job.toml")
		text := string(data)
		for old, now := range map[string]string{
			"[ends]\ncut = [\"0 deg\", \"22.5 deg\"]": "[cutting]\nkerf = " + kerf + "\n[ends]\ncut = [" + cut + ", 22.5]",
			"[press]\n": "[press]\nfriction = " + friction + "\n",
		} {
			if !strings.Contains(text, old) {
				t.Fatalf("the demo has no %q", old)
			}
			text = strings.Replace(text, old, now, 1)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return path
	}
	first := kitOf(t, "", write("0", "0", "0"))
	for _, c := range [][3]string{{`"-0 deg"`, `"-0 mm"`, "-0.0"}, {"-0.0", "-0", "-0"}, {"5e-324", "0", "0"}, {"-1e-310", "0", "1e-320"}, {"0", `"4e-320 in"`, "0"}} {
		alike(t, strings.Join(c[:], " "), kitOf(t, "", write(c[0], c[1], c[2])), first)
	}
}

// kitOf makes a job's kit with the program itself, and returns its files.
func kitOf(t *testing.T, in, path string, env ...string) map[string]string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "kit")
	c := exec.Command("overbend", "make", path, "-o", dir)
	c.Dir, c.Env = in, append(os.Environ(), env...)
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", path, err, out)
	}
	files := map[string]string{}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files[e.Name()] = string(data)
	}
	return files
}

func alike(t *testing.T, what string, got, want map[string]string) {
	t.Helper()
	for name, w := range want {
		g, ok := got[name]
		if g == w && ok {
			continue
		}
		i := 0
		for i < min(len(g), len(w)) && g[i] == w[i] {
			i++
		}
		t.Errorf("%s/%s, %s: %s is another at byte %d: %q, want %q", runtime.GOOS, runtime.GOARCH, what, name, i, g[max(0, i-30):min(len(g), i+30)], w[max(0, i-30):min(len(w), i+30)])
	}
	if len(got) != len(want) {
		t.Errorf("%s: %d files, want %d", what, len(got), len(want))
	}
}

package main

import (
	"bytes"
	"io"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
)

// completed returns what a shell is offered after words, and its directive.
func completed(t *testing.T, words ...string) (offered []string, directive string) {
	t.Helper()
	var out, said bytes.Buffer
	if code := run(append([]string{"__complete"}, words...), &out, &said); code != exitDone || said.Len() > 0 {
		t.Fatal(words, code, &said)
	}
	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	for _, l := range lines[:len(lines)-1] {
		word, _, _ := strings.Cut(l, "\t")
		offered = append(offered, word)
	}
	return offered, lines[len(lines)-1]
}

// flagsOf returns the flags of a command as --help lists them.
func flagsOf(name string, c command) []*pflag.Flag {
	var all []*pflag.Flag
	f, _ := flagSet(name, c)
	f.VisitAll(func(f *pflag.Flag) { all = append(all, f) })
	return all
}

// What the overview and each --help name is offered to a shell, and nothing else.
func TestCompletionHasAll(t *testing.T) {
	want := append(names(), "help")
	got, _ := completed(t, "")
	slices.Sort(want)
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if got, _ := completed(t, "help", ""); !slices.Equal(got, names()) {
		t.Errorf("after help: %q", got)
	}
	for _, c := range commands() {
		var want []string
		for _, f := range flagsOf(c.name, c.make()) {
			want = append(want, "--"+f.Name)
		}
		got, _ := completed(t, c.name, "--")
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(got, want) || len(got) == 0 {
			t.Errorf("%s: %q, want %q", c.name, got, want)
		}
	}
}

// Every name of a value in a usage is one that completion knows, so that a new one
// is not offered as if it were a word itself.
func TestCompletionKnowsNames(t *testing.T) {
	known := []string{
		"JOB.toml", "FILE.toml", "DRAWING.dxf", "FILE.svg", "FILE", "DIR", "DIR/...", "KEY=VALUES", "PATH,...", // completed
		"WxH", "XxY", "LENGTH", "N", "NAME", "HOST:PORT", "CHORD", "RISE", // typed by whoever knows
	}
	literal := regexp.MustCompile(`^([a-z0-9]+(-[a-z0-9]+)*|A[0-9])$`)
	seen := 0
	check := func(where, name string) {
		for w := range strings.SplitSeq(name, "|") {
			if is := literal.MatchString(w); is == slices.Contains(known, w) || is != isLiteral(w) {
				t.Errorf("%s: %q", where, w)
			}
			seen++
		}
	}
	for _, c := range commands() {
		for _, w := range takesOf(c.make().usage()).words {
			check(c.name, w)
		}
		for _, f := range flagsOf(c.name, c.make()) {
			if name, _ := pflag.UnquoteUsage(f); f.NoOptDefVal == "" {
				check(c.name+" --"+f.Name, name)
			}
		}
	}
	if seen < 40 {
		t.Error("only", seen)
	}
}

// What is offered for a flag of few values is what the flag takes, all of it.
func TestCompletedValuesAreTaken(t *testing.T) {
	const other = "no such value"
	checked := 0
	for _, c := range commands() {
		for _, f := range flagsOf(c.name, c.make()) {
			name, _ := pflag.UnquoteUsage(f)
			if !strings.Contains(name, "|") {
				continue
			}
			values, directive := completed(t, c.name, "--"+f.Name, "")
			// A job that is not there comes later than a wrong flag.
			refused := func(v string) bool {
				var said bytes.Buffer
				args := []string{c.name, "missing.toml", "--" + f.Name, v}
				switch c.name {
				case "stock", "serve":
					args = []string{c.name, "--" + f.Name, v, "none"}
				case "new":
					args[1] = "missing/new.toml"
				case "gauge":
					args = []string{c.name, "200", "18.4", "--" + f.Name, v}
				case "table":
					return v == other // read after the job: the same reader as all --units
				case "trial", "shop":
					return v == other
				}
				run(args, io.Discard, &said)
				return strings.Contains(said.String(), "--"+f.Name)
			}
			if directive != ":4" || len(values) < 2 || !refused(other) {
				t.Errorf("%s --%s: %q, %s", c.name, f.Name, values, directive)
			}
			for _, v := range values {
				if checked++; refused(v) {
					t.Errorf("%s --%s %s is offered and not taken", c.name, f.Name, v)
				}
			}
		}
	}
	if checked < 20 {
		t.Error("only", checked)
	}
	for _, l := range stockLists() {
		if got, _ := completed(t, "stock", ""); !slices.Contains(got, l.name) || len(got) != len(stockLists()) {
			t.Errorf("stock: %q without %s", got, l.name)
		}
	}
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		var out bytes.Buffer
		if got, _ := completed(t, "completion", ""); len(got) != 4 || !slices.Contains(got, shell) || run([]string{"completion", shell}, &out, io.Discard) != exitDone || !strings.Contains(out.String(), "__complete") {
			t.Errorf("%s: %q", shell, got)
		}
	}
}

// Files by their ending, folders, keys, columns, metals.
func TestCompletedKinds(t *testing.T) {
	for _, c := range []struct {
		words     []string
		has       string // "" for nothing at all
		directive string
	}{
		{[]string{"show", ""}, "toml", ":8"},
		{[]string{"show", "a.toml", ""}, "toml", ":8"},
		{[]string{"make", "a.toml", "b.toml", ""}, "toml", ":8"},
		{[]string{"trial", "a.toml", ""}, "", ":4"},
		{[]string{"shop", ""}, "toml", ":8"},
		{[]string{"read", ""}, "dxf", ":8"},
		{[]string{"read", "--svg", ""}, "svg", ":8"},
		{[]string{"read", "-o", ""}, "toml", ":8"},
		{[]string{"read", "--material", ""}, "1018 cold drawn", ":4"},
		{[]string{"read", "--layer", ""}, "", ":4"},
		{[]string{"make", "-o", ""}, "", ":16"},
		{[]string{"make", "--shop", ""}, "toml", ":8"},
		{[]string{"make", "--print-scale", ""}, "", ":4"},
		{[]string{"gauge", ""}, "", ":4"},
		{[]string{"version", ""}, "", ":4"},
		{[]string{"table", "a.toml", "--vary", ""}, "trial[0].block=", ":6"},
		{[]string{"table", "a.toml", "--vary", "tube.material=S235,60"}, "tube.material=S235,6082-T6", ":6"},
		{[]string{"table", "a.toml", "--vary", "bend.rise="}, "", ":6"},
		{[]string{"table", "a.toml", "--vary", "filler.alloy="}, "filler.alloy=158", ":6"},
		{[]string{"table", "a.toml", "--columns", "press.travel_mm,press.sch"}, "press.travel_mm,press.schedule.0.travel_mm", ":6"},
	} {
		got, directive := completed(t, c.words...)
		if directive != c.directive || (c.has == "") != (len(got) == 0) || c.has != "" && !slices.Contains(got, c.has) {
			t.Errorf("%q: %.300q, %s", c.words, got, directive)
		}
	}
	keys, _ := completed(t, "table", "--vary", "")
	if len(keys) != len(job.Keys()) {
		t.Errorf("%d keys of %d", len(keys), len(job.Keys()))
	}
}

// The page names every command, every flag with its value, and every example.
func TestManualHasAll(t *testing.T) {
	page := manual(nil, false)
	if got := strings.Count(page, "\n.SS "); got != len(commands()) {
		t.Errorf("%d commands", got)
	}
	plain := strings.NewReplacer(`\-`, "-", `\(aq`, "'", `\(dq`, `"`, `\(ha`, "^", `\(ti`, "~", `\(ga`, "`").Replace
	flat := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	for _, c := range commands() {
		_, part, _ := strings.Cut(page, "\n.SS "+c.name+"\n")
		part, _, _ = strings.Cut(part, "\n.S")
		part = plain(part)
		for _, f := range flagsOf(c.name, c.make()) {
			value, usage := pflag.UnquoteUsage(f)
			want := `\fB--` + f.Name + `\fR`
			if f.NoOptDefVal == "" {
				want += ` \fI` + value + `\fR`
			}
			if !strings.Contains(part, want+"\n") || !strings.Contains(flat(part), flat(usage)) {
				t.Errorf("%s: no %s", c.name, want)
			}
		}
		// Every line of the help, but for how it is broken.
		for l := range strings.SplitSeq(c.make().usage(), "\n") {
			if l = strings.TrimPrefix(l, "Usage: "); !strings.HasPrefix(l, "Example") && !strings.Contains(flat(part), flat(l)) {
				t.Errorf("%s: no %q", c.name, l)
			}
		}
	}
	for _, want := range []string{"\n.B 0\ndone\n", "\n.B 1\nthe job can't be made as asked\n", "\n.B 2\nbad usage or a bad file\n", "OVERBEND_SHOP", "overbend serve --open"} {
		if !strings.Contains(plain(page), want) {
			t.Errorf("no %q", want)
		}
	}
	for l := range strings.Lines(page) {
		if strings.HasPrefix(l, "'") || strings.HasSuffix(l, " \n") || l == "\n" {
			t.Errorf("line %q", l)
		}
	}
	info := &debug.BuildInfo{GoVersion: "go1.26", Main: debug.Module{Version: "v1.2.0"}, Settings: []debug.BuildSetting{{Key: "vcs.time", Value: "2026-05-04T03:02:01Z"}}}
	if head, _, _ := strings.Cut(manual(info, true), "\n"); head != `.TH OVERBEND 1 "2026\-05\-04" "overbend v1.2.0, go1.26"` {
		t.Error(head)
	}
}

// What roff would take for its own stands for itself.
func TestRoff(t *testing.T) {
	for in, want := range map[string]string{
		".TH": `\&.TH`, "'a'": `\(aqa\(aq`, `a\b`: `a\eb`, "a-b": `a\-b`, "R = c^2": `R = c\(ha2`, `"x"`: `\(dqx\(dq`, "~/a": `\(ti/a`, "a.b": "a.b", "": "",
	} {
		if got := roff(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}

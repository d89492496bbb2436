package main

import (
	"bytes"
	"io"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
)

// What a build says of itself, with as much as it knows.
func TestVersion(t *testing.T) {
	build := func(v string, settings ...debug.BuildSetting) *debug.BuildInfo {
		return &debug.BuildInfo{GoVersion: "go1.26.1", Main: debug.Module{Path: "overbend", Version: v}, Settings: settings}
	}
	commit := debug.BuildSetting{Key: "vcs.revision", Value: "0123456789abcdef"}
	for _, c := range []struct {
		info *debug.BuildInfo
		ok   bool
		want string
	}{
		{build("v1.2.0"), true, "v1.2.0, go1.26.1"},
		{build("(devel)", commit), true, "(devel), commit 0123456789ab, go1.26.1"},
		{build("", commit, debug.BuildSetting{Key: "vcs.modified", Value: "true"}), true, "(devel), commit 0123456789ab with changes, go1.26.1"},
		{build("", debug.BuildSetting{Key: "vcs.modified", Value: "false"}, commit), true, "(devel), commit 0123456789ab, go1.26.1"},
		{build("", debug.BuildSetting{Key: "vcs.revision", Value: "r12"}), true, "(devel), commit r12, go1.26.1"},
		{nil, false, "(unknown)"},
	} {
		if got := version(c.info, c.ok); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
}

// The command and the flag print one line, the same.
func TestVersionCommand(t *testing.T) {
	var a, b bytes.Buffer
	if code := run([]string{"version"}, &a, io.Discard); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	if code := run([]string{"--version"}, &b, io.Discard); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	if got := a.String(); got != b.String() || !strings.HasPrefix(got, "overbend ") || !strings.HasSuffix(got, runtime.Version()+"\n") || strings.Count(got, "\n") != 1 {
		t.Errorf("%q and %q", got, b.String())
	}
}

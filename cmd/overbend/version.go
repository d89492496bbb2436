package main

import (
	"fmt"
	"io"
	"runtime/debug"
	"strings"

	"github.com/spf13/pflag"
)

type versionCommand struct{}

func (*versionCommand) usage() string {
	return `Usage: overbend version

Prints which overbend this is: its version, the commit that it was built from,
where that is known, and the Go that built it. So does overbend --version.

Example:
  overbend version
`
}

func (*versionCommand) flags(*pflag.FlagSet) {}

func (*versionCommand) run(args []string, stdout, _ io.Writer) error {
	if len(args) != 0 {
		return fmt.Errorf("version: %d arguments given; it takes none", len(args))
	}
	_, err := fmt.Fprintln(stdout, "overbend "+version(debug.ReadBuildInfo()))
	return err
}

// version returns what a build says of itself: "v1.2.0, commit 0123456789ab, go1.26".
// A build without a version is "(devel)", a commit with changes on top of it is
// marked.
func version(info *debug.BuildInfo, ok bool) string {
	if !ok {
		return "(unknown)"
	}
	set := map[string]string{}
	for _, s := range info.Settings {
		set[s.Key] = s.Value
	}
	out := []string{"(devel)"}
	if v := info.Main.Version; v != "" {
		out[0] = v
	}
	if commit := set["vcs.revision"]; commit != "" {
		const enough = 12 // letters to find it by
		commit = "commit " + commit[:min(len(commit), enough)]
		if set["vcs.modified"] == "true" {
			commit += " with changes"
		}
		out = append(out, commit)
	}
	return strings.Join(append(out, info.GoVersion), ", ")
}

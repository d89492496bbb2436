package main

import (
	"html"
	"io"
	"os"
	"overbend/cmd/internal/plan/plantest"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Whatever units a job is written in, a kit speaks those that were asked for:
// no text of its cut files and prints has a length in the other ones.
func TestKitSpeaksOneUnit(t *testing.T) {
	for _, c := range []struct {
		units string
		other *regexp.Regexp // said of anything but those
		own   *regexp.Regexp // said of most
	}{
		{"in", regexp.MustCompile(`(?i)(^|[^a-z])(mm|kN|kg)\b|°C`), regexp.MustCompile(`(?i)[0-9] in\b`)},
		{"mm", regexp.MustCompile(`(?i)([0-9][ \x{a0}]*|, |/)(in|lbf|lb)\b|[0-9]"|°F`), regexp.MustCompile(`(?i)[0-9] mm\b`)},
	} {
		for _, path := range plantest.Examples(t, "../..") {
			dir := filepath.Join(t.TempDir(), "kit")
			if code := run([]string{"make", path, "--units", c.units, "-o", dir}, io.Discard, os.Stderr); code != exitDone {
				t.Fatalf("make %s: exit code %d", path, code)
			}
			files, err := filepath.Glob(filepath.Join(dir, "*.*"))
			if err != nil {
				t.Fatal(err)
			}
			own := 0
			for _, f := range files {
				name := filepath.Base(f)
				for _, words := range textsOf(t, f) {
					words = strings.ReplaceAll(words, "\u00a0", " ")
					if strings.HasPrefix(words, "UNITS ") /* of the DXF, which has a flag of its own */ {
						continue
					}
					if c.other.MatchString(words) {
						t.Errorf("%s --units %s: %s says %q", filepath.Base(path), c.units, name, words)
					}
					if c.own.MatchString(words) {
						own++
					}
				}
			}
			if own < 10 {
				t.Errorf("%s --units %s: only %d texts with a length", filepath.Base(path), c.units, own)
			}
		}
	}
}

// textsOf returns the lettering of a cut file or a print.
func textsOf(t *testing.T, path string) (out []string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	switch filepath.Ext(path) {
	case ".svg":
		for _, m := range regexp.MustCompile(`(?s)<text[^>]*>(.*?)</text>`).FindAllSubmatch(data, -1) {
			out = append(out, html.UnescapeString(string(m[1])))
		}
	case ".dxf":
		lines := strings.Split(strings.ReplaceAll(string(data), "\r\n", "\n"), "\n")
		for i := 0; i+1 < len(lines); i += 2 {
			if strings.TrimSpace(lines[i]) == "1" {
				out = append(out, lines[i+1])
			}
		}
	}
	return out
}

package keyed

import (
	"strings"
	"testing"
)

func TestErrorString(t *testing.T) {
	for want, e := range map[string]Error{
		"davit.toml:7: tube.wall: no": {"davit.toml", 7, "tube.wall", "no"},
		"davit.toml: no":              {"davit.toml", 0, "", "no"},
		"file:3: no":                  {"", 3, "", "no"},
		"a?b:1: c?d: e?f":             {"a\nb", 1, "c\u202ed", "e\x00f"},
		"f:1: " + strings.Repeat("k", 60) + "...: no": {"f", 1, strings.Repeat("k", 61), "no"},
	} {
		if e.Error() != want {
			t.Errorf("got %q, want %q", e.Error(), want)
		}
	}
}

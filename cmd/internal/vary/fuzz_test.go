package vary

import (
	"strings"
	"testing"

	"overbend/cmd/internal/keyed"
)

// Whatever is to be varied, there is one sentence, or values of which each is set as
// it reads, or refused.
func FuzzParseKey(f *testing.F) {
	for _, s := range []string{"bend.radius=200..600/20mm", "tube.wall=2,3,4mm", `a=6' 2-1/2",3"`, `ends.cut=["0 deg", "1, deg"],[1,2]`, "a=1/8..1/2/1/8in", "a=1..2", "name=true", `name="a,\"b"`, "=", "a=,", "a=1e999..2/1", "a=-1..1e300/1e-9", "a={b=1}", "a=9..-9/2.5\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		k, err := ParseKey(s)
		if err != nil {
			if text := err.Error(); text == "" || strings.ContainsAny(text, "\n\r\x1b\x00") {
				t.Fatal(text)
			}
			return
		}
		if k.Len() < 1 || k.Len() > most {
			t.Fatalf("%d values", k.Len())
		}
		last := ""
		for i, v := range []string{k.Value(0), k.Value(k.Len() / 2), k.Value(k.Len() - 1)} {
			if v == "" || strings.TrimSpace(v) != v {
				t.Fatalf("%d: %q", i, v)
			}
			text, err := Keys{k}.Set("x = 1\n[ends]\ncut = [0, 0]\n", []string{v})
			if err != nil {
				continue
			}
			got, ok := keyed.Value(text, k.Path)
			if ok && !strings.ContainsAny(v[:1], `"[{`) && got != v {
				t.Fatalf("%q is set as %q", v, got)
			}
			last = text
		}
		if _, _, err := keyed.Decode("", last); err != nil && last != "" {
			t.Fatal(err)
		}
	})
}

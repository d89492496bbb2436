package keyed

import (
	"fmt"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
)

// seeds are texts that tried the reader in one way or another.
func seeds() []string {
	return []string{
		"", "=", "[", "[[", "[a", "[[a]]\n[a.b]\nc=1\n[[a]]\n[[a.d]]\n[[a.d]]\ne=1", "a.b.c = 1\na.d = {e = [1, {f = 2}]}",
		"a = [{b = 1}, {b = 2},\n {b = 3}]", "a = '''\nx\n''' # c\nb = \"\"\"y\"\"\"\"\"\nc = ''", `a = "\"" # "`, "a = \"\"\"\\\n  \\\"\"\"\"\"\"\nb=1",
		"name = 1979-05-27 07:32:00Z\nunits = 0x1F", "\"a.b\" = 1\n'c[0]'.d = 2\n\"\" = 3\n\"\\u0061\" = 4", "a={b={c={},d=1},e=[]}",
		"[[trial]]\n[[trial]]\nchord=1\n[trial.x]", "a = [[1, 2], [\"]\", '}'], # ]\n]", "\ufeffname='x'", "a = 1\r\nb = 2\r\n",
		"x = [[[[[[[[[[[[[[[[[", "a.a.a.a.a.a.a.a.a = 1", "tube = 3\n[tube.x]", "a = {b = 1, c.d = 2,}", "trial = [1]", "bend = []",
	}
}

// A text is read as the library reads it whole, which has rules of its own for
// who may add to a table; and the bytes of every pair are the pair's.
func FuzzDecode(f *testing.F) {
	for _, s := range append(seeds(),
		"[a]\nb.c=1\n[a.b]", "[a]\nb.c=1\n[a.b.d]\n[a.b.e]", "[a.b.c]\n[a]\nb.d=1", "[a.b]\n[a]\nb.d=1", "[a.b]\n[a]\n[a.b]",
		"a=[]\n[[a]]", "[[a]]\n[a]", "[a]\n[[a]]", "[[a.b]]\n[a]\nc=1", "[[a]]\n[a.b]\n[[a]]\n[a.b]", "a={b=1}\n[a.c]", "a={b=1}\na.c=1",
		"a={b.c=1,b.d=2}", "a={b={c=1},b.d=2}", "a=1\na.b=2", "a=2025-13-01", "a=12:00\nb=2025-06-01T12:00\nc=0x_1", "a = 1 # b\r\nb = '''\nx'''  # c",
	) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 4096 {
			return
		}
		values, places, err := Decode("", text)
		if err != nil && (strings.Contains(err.Error(), "values nested") || strings.Contains(err.Error(), "a key of more")) {
			return // our own bounds
		}
		var want map[string]any
		theirs := toml.Unmarshal([]byte(strings.TrimPrefix(text, byteOrderMark)), &want)
		if (err == nil) != (theirs == nil) {
			t.Fatalf("%v, the library says %v", err, theirs)
		}
		if err != nil {
			return
		}
		if got, want := fmt.Sprint(values), fmt.Sprint(want); got != want && len(values)+len(want) > 0 {
			t.Fatalf("got %s, want %s", got, want)
		}
		checkPlaces(t, text, places)
	})
}

// checkPlaces fails unless every place is that of its key and value.
func checkPlaces(t *testing.T, text string, places Places) {
	t.Helper()
	for _, p := range places {
		key, value := text[p.key.from:p.key.to], text[p.value.from:p.value.to]
		if line := 1 + strings.Count(text[:p.key.from], "\n"); line != p.line {
			t.Errorf("%s: line %d, want %d", p.path, p.line, line)
		}
		pair := key + "=" + value
		if value == "" {
			pair = "[" + key + "]"
		}
		_, alone, err := Decode("", pair)
		if err != nil || len(alone) == 0 || !strings.HasSuffix(Unindexed("."+p.path), Unindexed("."+alone[0].path)) {
			t.Errorf("%s: %q is no pair of it: %v, %v", p.path, pair, alone, err)
		}
	}
}

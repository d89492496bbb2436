package keyed

import (
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Every key of the demo and the examples lies where its place says.
func TestPlaces(t *testing.T) {
	keys := 0
	err := filepath.WalkDir("../../../testdata", func(path string, e fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".toml" {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		for _, text := range []string{
			string(text),
			byteOrderMark + string(text),
			strings.ReplaceAll(string(text), "\n", "\r\n"),
		} {
			if _, places, err := Decode(path, text); err == nil { // some are bad on purpose
				keys += len(places)
				checkPlaces(t, text, places)
			}
		}
		return nil
	})
	if err != nil || keys < 3*200 {
		t.Errorf("%d keys, %v", keys, err)
	}
}

func TestPlacesOf(t *testing.T) {
	const text = "a = 1\n[t]\nb.\"c d\" = [ {e = 1},\n  {f = '''\n2'''} ] # g\n[[h]]\n[[h]]\n[h.i.j]\nk = {}\nl = [0, [1, {m = 2}]]\n"
	_, places, err := Decode("", text)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct {
		path       string
		line       int
		key, value string
	}{
		{"a", 1, "a", "1"},
		{"t", 2, "t", ""},
		{`t.b."c d"`, 3, `b."c d"`, "[ {e = 1},\n  {f = '''\n2'''} ]"},
		{`t.b."c d"[0].e`, 3, "e", "1"},
		{`t.b."c d"[1].f`, 4, "f", "'''\n2'''"},
		{"h[0]", 6, "h", ""},
		{"h[1]", 7, "h", ""},
		{"h[1].i.j", 8, "h.i.j", ""},
		{"h[1].i.j.k", 9, "k", "{}"},
		{"h[1].i.j.l", 10, "l", "[0, [1, {m = 2}]]"},
		{"h[1].i.j.l[1][1].m", 10, "m", "2"},
	} {
		p := places[i]
		key, value := text[p.key.from:p.key.to], text[p.value.from:p.value.to]
		if p.path != want.path || p.line != want.line || key != want.key || value != want.value {
			t.Errorf("%s at line %d: %q = %q, want %+v", p.path, p.line, key, value, want)
		}
	}
}

// A large file takes no longer than a good one of its size, whatever it is full
// of: none of these would come to an end in quadratic time.
func TestLargeFiles(t *testing.T) {
	// An @ in a part is its number.
	full := func(head, part, tail string) string {
		var b strings.Builder
		b.WriteString(head)
		for i := 0; b.Len() < MaxSize/2-len(part)-len(tail)-8; i++ {
			b.WriteString(strings.Replace(part, "@", strconv.Itoa(i), 1))
		}
		return b.String() + tail
	}
	long := strings.Repeat("a", maxPath-20)
	none := Known{[]string{"a"}, func(table string) []string { return map[string][]string{"": {"b"}}[table] }}
	for name, text := range map[string]string{
		"keys under a long table": full("["+long+"]\n", "b@=1\n", ""),
		"dotted keys":             full("", "a.b.c.d.e@=1\n", ""),
		"tables":                  full("", "[a.@]\n", ""),
		"elements":                full("", "[[a]]\n", ""),
		"elements in elements":    full("[[a]]\n", "[[a.b]]\n", ""),
		"numbers":                 full("a=[", "1,", "]"),
		"dates":                   full("a=[", "2025-06-01,", "]"),
		"arrays":                  full(long+"=[", "[],", "]"),
		"inline tables":           full(long+"=[", "{b=1},", "]"),
		"deep":                    full("a="+strings.Repeat("{b=", maxNesting-1)+"{", "c@.d=1,", strings.Repeat("}", maxNesting)),
		"open arrays":             full("a=", "[", ""),
		"open tables":             full("a=", "{b=", ""),
		"dots":                    full("a", ".a", ""),
		"comments":                full("a=1\n", "#\n", "="),
		"open text":               full(`a="""`, "b\n", ""),
	} {
		_, places, err := Decode("j", text)
		if err == nil {
			err = none.Check("j", places)
		}
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// A key is shown bare where TOML lets it be.
func TestShown(t *testing.T) {
	for key, want := range map[string]string{
		"azAZ09_-": "azAZ09_-", "": `""`, "a b": `"a b"`, "a.b": `"a.b"`, "š": `"š"`, // whose low byte is that of an a
		"`": "\"`\"", "{": `"{"`, "@": `"@"`, "[": `"["`, "/": `"/"`, ":": `":"`, "\u0080": `"\u0080"`,
	} {
		if got := shown([]string{key, "k"}); got[0] != want || got[1] != "k" {
			t.Errorf("%q: %v, want %s", key, got, want)
		}
	}
}

// The deepest and longest that is allowed is read.
func TestBounds(t *testing.T) {
	for _, text := range []string{
		"a = " + strings.Repeat("[", maxNesting) + strings.Repeat("]", maxNesting),
		"a = " + strings.Repeat("{b = ", maxNesting) + "1" + strings.Repeat("}", maxNesting),
		"a = " + strings.Repeat("[{b = ", maxNesting/2) + "1" + strings.Repeat("}]", maxNesting/2),
		strings.Repeat("a.", maxKeyParts-1) + "a = 1",
		"[" + strings.Repeat("a.", maxKeyParts-1) + "a]",
		strings.Repeat("a", maxPath) + " = 1",
	} {
		if _, _, err := Decode("j", text); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, text := range []string{
		"a = " + strings.Repeat("[{b = ", maxNesting/2) + "[]" + strings.Repeat("}]", maxNesting/2),
		strings.Repeat("a.", maxKeyParts) + "a = 1",
		"[" + strings.Repeat("a.", maxKeyParts) + "a]",
		strings.Repeat("a", maxPath+1) + " = 1",
	} {
		if _, _, err := Decode("j", text); err == nil {
			t.Errorf("%s: no error", text)
		}
	}
}

package keyed

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const edited = `# A job of ours.
name = "arm" # stays

# The tube
[tube]
wall     = "3 mm"   # thin
corner.at = 1
material = {proof = 250, "odd name".x = [1, 2]}
# depth = 40

# The bend
[bend]
legs = [250, # left
  250]

[[trial]]
block = 380

  [trial.by]
  hand = true

# The second
[[trial]]
block = 360
# no more
[a.b]
`

// What each edit makes of a text: the lines that it takes out, and those that it
// puts in their place.
func TestEdits(t *testing.T) {
	set := func(path, value string) func(string) (string, error) {
		return func(text string) (string, error) { return Set(text, path, value) }
	}
	remove := func(path string) func(string) (string, error) {
		return func(text string) (string, error) { return Remove(text, path) }
	}
	add := func(path string) func(string) (string, error) {
		return func(text string) (string, error) { return AddTable(text, path) }
	}
	grow := func(path string) func(string) (string, error) {
		return func(text string) (string, error) { out, _, err := Append(text, path); return out, err }
	}
	for name, c := range map[string]struct {
		edit    func(string) (string, error)
		out, in string
	}{
		"set":                  {set("tube.wall", `"4 mm"`), `"3 mm"   # thin`, `"4 mm"   # thin`},
		"set a name":           {set("name", `'x'`), `"arm"`, `'x'`},
		"set a list":           {set("bend.legs", `[1, 2]`), "[250, # left\n  250]", `[1, 2]`},
		"set one of a list":    {set("bend.legs[1]", `2`), "  250]", `  2]`},
		"set in braces":        {set(`tube.material."odd name".x[0]`, `7`), `[1, 2]`, `[7, 2]`},
		"set dotted":           {set("tube.corner.at", `2`), `at = 1`, `at = 2`},
		"set in an element":    {set("trial[1].block", `1`), `360`, `1`},
		"set the same":         {set("name", `'arm'`), ``, ``},
		"set the same list":    {set("bend.legs", `[250,250]`), ``, ``},
		"new at the top":       {set("units", `"mm"`), "stays\n", "stays\nunits = \"mm\"\n"},
		"new in a table":       {set("tube.depth", `40`), "[1, 2]}\n", "[1, 2]}\ndepth = 40\n"},
		"new in braces":        {set("tube.material.n", `1`), "[1, 2]}\n", "[1, 2], n = 1}\n"},
		"new deep in braces":   {set(`tube.material.a.b`, `1`), "[1, 2]}\n", "[1, 2], a.b = 1}\n"},
		"new dotted in braces": {set(`tube.material."odd name".y`, `1`), "[1, 2]}\n", "[1, 2], \"odd name\".y = 1}\n"},
		"new dotted":           {set("tube.corner.to", `1`), "at = 1\n", "at = 1\ncorner.to = 1\n"},
		"new in an element":    {set("trial[0].filled", `1`), "block = 380\n", "block = 380\nfilled = 1\n"},
		"new below an element": {set("trial[0].by.eye", `1`), "true\n", "true\n  eye = 1\n"},
		"new in an empty one":  {set("a.b.c", `1`), "[a.b]\n", "[a.b]\nc = 1\n"},
		"new table":            {set("press.bed", `1`), "[a.b]\n", "[a.b]\n\n[press]\nbed = 1\n"},
		"new implied table":    {set("a.c", `1`), "[a.b]\n", "[a.b]\n\n[a]\nc = 1\n"},
		"new table in one":     {set("tube.x.y.z", `1`), "[1, 2]}\n", "[1, 2]}\n\n[tube.x.y]\nz = 1\n"},
		"new table in element": {set("trial[0].on.x", `1`), "true\n", "true\n\n[trial.on]\nx = 1\n"},
		"odd names":            {set(`press."a b".'c"d'`, `1`), "[a.b]\n", "[a.b]\n\n[press.\"a b\"]\n\"c\\\"d\" = 1\n"},
		"add":                  {add("press"), "[a.b]\n", "[a.b]\n\n[press]\n"},
		"add in braces":        {add("tube.material.x"), "[1, 2]}\n", "[1, 2], x = {}}\n"},
		"add what is there":    {add("a"), "", ""},
		"append":               {grow("trial"), "block = 360\n", "block = 360\n\n[[trial]]\n"},
		"append the first":     {grow("metal"), "[a.b]\n", "[a.b]\n\n[[metal]]\n"},
		"append to an element": {grow("trial[0].x"), "true\n", "true\n\n[[trial.x]]\n"},
		"remove":               {remove("tube.wall"), "wall     = \"3 mm\"   # thin\n", ""},
		"remove a list":        {remove("bend.legs"), "legs = [250, # left\n  250]\n", ""},
		"remove of a list":     {remove("bend.legs[0]"), "250, # left", "# left"},
		"remove the last":      {remove("bend.legs[1]"), "250, # left\n  250]", "250# left\n  ]"},
		"remove in braces":     {remove(`tube.material."odd name"`), ", \"odd name\".x = [1, 2]}", "}"},
		"remove first of two":  {remove(`tube.material.proof`), "proof = 250, ", ""},
		"remove dotted":        {remove("tube.corner"), "corner.at = 1\n", ""},
		"remove an element":    {remove("trial[0]"), "[[trial]]\nblock = 380\n\n  [trial.by]\n  hand = true\n\n", ""},
		"remove the second":    {remove("trial[1]"), "[[trial]]\nblock = 360\n", ""},
		"remove a table":       {remove("bend"), "[bend]\nlegs = [250, # left\n  250]\n", ""},
		"remove what is not":   {remove("bend.x"), "", ""},
	} {
		for _, end := range []string{"\n", "\r\n"} {
			for _, mark := range []string{"", byteOrderMark} {
				lines := func(s string) string { return strings.ReplaceAll(s, "\n", end) }
				text := mark + lines(edited)
				if n := strings.Count(text, lines(c.out)); c.out != "" && n != 1 && name != "remove the last" {
					t.Fatalf("%s: %d times", name, n)
				}
				want := strings.Replace(text, lines(c.out), lines(c.in), 1)
				got, err := c.edit(text)
				if err != nil || got != want {
					t.Errorf("%s: %v\n got %q\nwant %q", name, err, got, want)
				}
			}
		}
	}
}

// Texts that have no table, no end of line, or only a comment.
func TestEditsOfLittle(t *testing.T) {
	for _, c := range []struct{ text, path, want string }{
		{"", "a", "a = 1\n"},
		{"", "a.b", "[a]\nb = 1\n"},
		{"# c", "a", "# c\na = 1\n"},
		{"# c\n\n[b]\n", "a", "# c\na = 1\n\n[b]\n"},
		{"# of b\n[b]\n", "a", "a = 1\n# of b\n[b]\n"},
		{"b = 2", "a", "b = 2\na = 1\n"},
		{"[b]", "a.c", "[b]\n\n[a]\nc = 1\n"},
		{"b = {}", "b.a", "b = {a = 1}"},
		{"b = [{}]\n", "b[0].a", "b = [{a = 1}]\n"},
		{"b.c = 2", "b.d.e", "b.c = 2\nb.d.e = 1\n"},
		{"[t]\nb.c = 2\n[u]\n", "t.b.d", "[t]\nb.c = 2\nb.d = 1\n[u]\n"},
	} {
		if got, err := Set(c.text, c.path, "1"); err != nil || got != c.want {
			t.Errorf("%q %s: %q, %v, want %q", c.text, c.path, got, err, c.want)
		}
	}
	for _, c := range []struct{ text, path, want, element string }{
		{"a = []", "a", "a = [{}]", "a[0]"},
		{"a = [{b = 1}, # c\n]", "a", "a = [{b = 1}, {}, # c\n]", "a[1]"},
		{"b = {}", "b.a", "b = {a = [{}]}", "b.a[0]"},
		{"", "a", "[[a]]\n", "a[0]"},
	} {
		if got, element, err := Append(c.text, c.path); err != nil || got != c.want || element != c.element {
			t.Errorf("%q: %q, %s, %v, want %q, %s", c.text, got, element, err, c.want, c.element)
		}
	}
	for _, c := range []struct{ text, path, want string }{
		{"a = [1, 2, 3]", "a[1]", "a = [1, 3]"},
		{"a = [1, 2,]", "a[1]", "a = [1, ]"},
		{"a = [1,]", "a[0]", "a = []"},
		{"a = [1 # x\n, 2]", "a[0]", "a = [ # x\n2]"},
		{"a = [[1, 2], '3,]']", "a[0][0]", "a = [[2], '3,]']"},
		{"a = {b.c = 1, d = 2, b.e = 3}", "a.b", "a = {d = 2}"},
		{"a = {d = 2, b.c = 1, b.e = 3}", "a.b", "a = {d = 2}"},
		{"a = {b.c = 1, b.e = 3}", "a.b", "a = {}"},
		{"a = [{b = 1}, {b = 2}]", "a[1]", "a = [{b = 1}]"},
		{"[a]\nb = 1\n\n[c]\n", "a", "[c]\n"},
		{"[c]\n\n[a]\nb = 1\n\n# d\n[d]\n", "a", "[c]\n\n# d\n[d]\n"},
		{"x = 1\na.b = 1\na.c = 2", "a", "x = 1\n"},
	} {
		if got, err := Remove(c.text, c.path); err != nil || got != c.want {
			t.Errorf("%q %s: %q, %v, want %q", c.text, c.path, got, err, c.want)
		}
	}
}

func TestEditErrors(t *testing.T) {
	for _, c := range []struct{ path, value, want string }{
		{"tube.wall", `3 mm`, `"3 mm" is not one TOML value`},
		{"tube.wall", "3\nx = 1", "\"3\\nx = 1\" is not one TOML value"},
		{"tube.wall", "3 # c", `"3 # c" is not one TOML value`},
		{"tube.wall", ``, `"" is not one TOML value`},
		{"tube", `3`, `tube is a table of its own; set its keys`},
		{"a", `3`, `a is a table of its own; set its keys`},
		{"trial", `3`, `trial is a table of its own; set its keys`},
		{"trial[2].block", `3`, `trial[2] is no element that is there`},
		{"trial.block", `3`, `trial is no table`},
		{"name.x", `3`, `name is no table`},
		{"bend.legs[2]", `3`, `bend.legs[2] is no element that is there`},
		{"", `3`, `no key given`},
		{"a..b", `3`, `"a..b" is no path of a key`},
		{"[0]", `3`, `"[0]" is no path of a key`},
		{"a[-1]", `3`, `"a[-1]" is no path of a key`},
		{"a[0", `3`, `"a[0" is no path of a key`},
		{`a."b`, `3`, `"a.\"b" is no path of a key`},
		{`a."b\"`, `3`, `"a.\"b\\\"" is no path of a key`},
		{"a b", `3`, `"a b" is no path of a key`},
		{"a.", `3`, `"a." is no path of a key`},
		{"š", `3`, `"š" is no path of a key`},
		{"tube." + strings.Repeat("x", maxPath), `3`, "file:9: a key of more than 100 characters is not allowed"},
	} {
		if got, err := Set(edited, c.path, c.value); err == nil || err.Error() != c.want || got != "" {
			t.Errorf("%s: %q, %v, want %s", c.path, got, err, c.want)
		}
	}
	for path, want := range map[string]string{"name": "name is no array of tables", "tube": "tube is no array of tables", "bend.legs": "bend.legs is no array of tables", "": "no key given", "trial[0]": "trial[0] is no array of tables"} {
		if _, _, err := Append(edited, path); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", path, err, want)
		}
	}
	if _, err := AddTable(edited, "name"); err == nil || err.Error() != "name is no table" {
		t.Error(err)
	}
	if _, err := Remove(edited, ""); err == nil || err.Error() != "no key given" {
		t.Error(err)
	}
	if _, err := Remove("a = ", "a"); err == nil || err.Error() != "file:1: a: not valid TOML: the value is missing" {
		t.Error(err)
	}
}

// leaves returns every value below a path with the path of its key, tables and
// arrays only where they are empty.
func leaves(path string, v any, out map[string]string) {
	below := func(n int, of func(i int) any) {
		for i := range n {
			leaves(fmt.Sprintf("%s[%d]", path, i), of(i), out)
		}
		if n == 0 {
			out[path] = "empty"
		}
	}
	switch v := v.(type) {
	case map[string]any:
		for name, value := range v {
			leaves(join(path, shown([]string{name})[0]), value, out)
		}
		if len(v) == 0 && path != "" {
			out[path] = "empty"
		}
	case []map[string]any:
		below(len(v), func(i int) any { return v[i] })
	case []any:
		below(len(v), func(i int) any { return v[i] })
	default:
		out[path] = fmt.Sprintf("%T %v", v, v)
	}
}

func leavesOf(t rapid.TB, text string) map[string]string {
	values, _, err := Decode("", text)
	if err != nil {
		t.Fatalf("%v:\n%s", err, text)
	}
	out := map[string]string{}
	leaves("", values, out)
	return out
}

// checkSet fails unless a text after a set has the value, and all that is not at
// the path as it was, byte by byte where it was not set.
func checkSet(t rapid.TB, text, path, value, out string) {
	t.Helper()
	before, after := leavesOf(t, text), leavesOf(t, out)
	v, err := literal(value)
	if err != nil {
		t.Fatal(err)
	}
	there, _ := steps(path)
	path = pathOf(there)
	want := map[string]string{}
	for p, v := range before {
		if !within(p, path) && !(v == "empty" && within(path, p)) {
			want[p] = v
		}
	}
	leaves(path, v, want)
	if !maps.Equal(after, want) {
		t.Fatalf("set %s = %s in\n%q\n%q\n got %v\nwant %v", path, value, text, out, after, want)
	}
	kept(t, text, path, out)
	again, err := Set(out, path, value)
	if again != out && !strings.Contains(value, "nan") || err != nil {
		t.Fatalf("%v: %q is not left alone: %q", err, out, again)
	}
}

// kept fails unless all bytes of a text are there after a set, but for those of the
// value that was set.
func kept(t rapid.TB, text, path, out string) {
	t.Helper()
	s, err := open(text, path)
	if err != nil {
		t.Fatal(err)
	}
	at, replaced := s.value(s.steps)
	front := 0
	for front < min(len(text), len(out)) && text[front] == out[front] {
		front++
	}
	if replaced {
		front = min(front, at.from)
	}
	back := 0
	for back < min(len(text), len(out))-front && text[len(text)-1-back] == out[len(out)-1-back] {
		back++
	}
	if gone := text[front : len(text)-back]; gone != "" && (!replaced || front < at.from || len(text)-back > at.to) {
		t.Fatalf("%q is gone from\n%q\n%q", gone, text, out)
	}
}

// A text made up of all forms of tables, keys and values.
func texts() *rapid.Generator[string] {
	names := rapid.SampledFrom([]string{"a", "b", "c", `"a b"`, `'d"'`, `"x.y"`})
	scalar := rapid.SampledFrom([]string{"1", "-2.5", `"x"`, `'y # ]'`, "true", "2025-06-01", `"a\"}"`, "nan", "\"\"\"\nm, ]\"\"\"", "''''q'''", `"""q""""`, "'''q''''"})
	return rapid.Custom(func(t *rapid.T) string {
		var value func(depth int) string
		pair := func(depth int) string {
			key := names.Draw(t, "key")
			if rapid.IntRange(0, 3).Draw(t, "dotted") == 0 {
				key += "." + names.Draw(t, "below")
			}
			return key + rapid.SampledFrom([]string{" = ", "=", "\t=  "}).Draw(t, "is") + value(depth)
		}
		list := func(depth int, open, end, sep string, one func(int) string) string {
			var all []string
			for range rapid.IntRange(0, 3).Draw(t, "items") {
				all = append(all, one(depth+1))
			}
			return open + strings.Join(all, sep) + end
		}
		value = func(depth int) string {
			switch kind := rapid.IntRange(0, 5).Draw(t, "kind"); {
			case kind == 0 && depth < 2:
				return list(depth, "{", "}", rapid.SampledFrom([]string{", ", ","}).Draw(t, "comma"), pair)
			case kind == 1 && depth < 2:
				return list(depth, "[", rapid.SampledFrom([]string{"]", " # e, ]\n]"}).Draw(t, "end"), rapid.SampledFrom([]string{", ", ",", ", # }\n  ", " # ,\n,"}).Draw(t, "comma"), value)
			}
			return scalar.Draw(t, "scalar")
		}
		text := rapid.SampledFrom([]string{"", "", byteOrderMark}).Draw(t, "mark")
		lines := []string{}
		add := func(line string) {
			try := text + strings.Join(append(slices.Clone(lines), line), "\n")
			if _, _, err := Decode("", try); err == nil {
				lines = append(lines, line)
			}
		}
		for range rapid.IntRange(0, 12).Draw(t, "lines") {
			switch rapid.IntRange(0, 9).Draw(t, "line") {
			case 0:
				add("")
			case 1:
				add("# [c] = 1")
			case 2:
				add("[" + names.Draw(t, "table") + "]")
			case 3:
				add("[" + names.Draw(t, "table") + "." + names.Draw(t, "below") + "] # t")
			case 4:
				add("[[" + names.Draw(t, "array") + "]]")
			case 5:
				add(" [[" + names.Draw(t, "array") + "." + names.Draw(t, "below") + "]]")
			default:
				add(rapid.SampledFrom([]string{"", "", "  "}).Draw(t, "indent") + pair(0) + rapid.SampledFrom([]string{"", "", " # = 2"}).Draw(t, "comment"))
			}
		}
		text += strings.Join(lines, "\n") + rapid.SampledFrom([]string{"\n", "", "\n\n# end\n"}).Draw(t, "end")
		if rapid.IntRange(0, 3).Draw(t, "ends") == 0 {
			text = strings.ReplaceAll(text, "\n", "\r\n")
		}
		return text
	})
}

// paths are those of a text's tables and values, and some that it may lack.
func paths(text string) *rapid.Generator[string] {
	values, _, _ := Decode("", text)
	all := map[string]string{}
	leaves("", values, all)
	known := []string{"a", "b.c", `c."a b".b`, "a[0].c", "b[1].a", "c.a[0]", "zz", "zz.y.x"}
	for p := range all {
		known = append(known, p)
		s, ok := steps(p)
		if !ok {
			panic(p)
		}
		for n := range s {
			known = append(known, pathOf(s[:n+1]), pathOf(s[:n+1])+".new", pathOf(s[:n+1])+".new.er")
		}
	}
	slices.Sort(known)
	return rapid.SampledFrom(slices.Compact(known))
}

func TestSetRandom(t *testing.T) {
	done := 0
	rapid.Check(t, func(t *rapid.T) {
		text := texts().Draw(t, "text")
		path := paths(text).Draw(t, "path")
		value := rapid.SampledFrom([]string{"7", `"seven"`, "[7, 8]", "{s = 7}", "{}", "[]", `'''7'''`}).Draw(t, "value")
		out, err := Set(text, path, value)
		if err != nil {
			if !strings.Contains(err.Error(), " is ") {
				t.Fatalf("%s: %v in %q", path, err, text)
			}
			return
		}
		done++
		checkSet(t, text, path, value, out)
	})
	if done == 0 {
		t.Error("nothing was set")
	}
}

// What is there can be set to what is written there, which changes nothing; a line
// that is set is the only one that changes.
func TestSetLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := texts().Draw(t, "text")
		_, places, _ := Decode("", text)
		for _, p := range places {
			if p.heads() {
				continue
			}
			value := text[p.value.from:p.value.to]
			if out, err := Set(text, p.path, value); err != nil || out != text {
				t.Fatalf("%s: %v, %q is not %q", p.path, err, out, text)
			}
			if strings.Contains(value, "\n") {
				continue
			}
			out, err := Set(text, p.path, "77")
			a, b := strings.Split(text, "\n"), strings.Split(out, "\n")
			if err != nil || len(a) != len(b) {
				t.Fatalf("%s: %v", p.path, err)
			}
			for i := range a {
				if (a[i] != b[i]) != (i == p.line-1) {
					t.Fatalf("%s, line %d: %q, was %q", p.path, i+1, b[i], a[i])
				}
			}
		}
	})
}

// What is removed is gone, and only that: elements behind it move up.
func TestRemoveRandom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := texts().Draw(t, "text")
		path := paths(text).Draw(t, "path")
		out, err := Remove(text, path)
		if err != nil {
			t.Fatalf("%s: %v in %q", path, err, text)
		}
		checkRemoved(t, text, path, out)
	})
}

func checkRemoved(t rapid.TB, text, path, out string) {
	t.Helper()
	gone, ok := steps(path)
	if !ok {
		t.Fatal(path)
	}
	path = pathOf(gone)
	before, after := leavesOf(t, text), leavesOf(t, out)
	last := len(gone) - 1
	want := map[string]string{}
	for p, v := range before {
		s, _ := steps(p)
		switch {
		case within(p, path):
			continue
		case gone[last].index >= 0 && len(s) > last && within(p, pathOf(gone[:last])) && s[last].index > gone[last].index:
			s[last].index--
		}
		want[pathOf(s)] = v
	}
	empty := func(_, v string) bool { return v == "empty" } // a table may go with its last key, or stay
	maps.DeleteFunc(want, empty)
	maps.DeleteFunc(after, empty)
	if !maps.Equal(after, want) {
		t.Fatalf("removed %s from\n%q\n%q\n got %v\nwant %v", path, text, out, after, want)
	}
	for i, rest := 0, text; i < len(out); i++ { // nothing is new
		n := strings.IndexByte(rest, out[i])
		if n < 0 {
			t.Fatalf("%q is not part of %q", out, text)
		}
		rest = rest[n+1:]
	}
}

// A new element is the last, and empty.
func TestAppendRandom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := texts().Draw(t, "text")
		path := paths(text).Draw(t, "path")
		out, element, err := Append(text, path)
		if err != nil {
			if !strings.Contains(err.Error(), " is no ") {
				t.Fatalf("%s: %v in %q", path, err, text)
			}
			return
		}
		after, want := leavesOf(t, out), leavesOf(t, text)
		there, _ := steps(element)
		maps.DeleteFunc(want, func(p, v string) bool { return v == "empty" && within(element, p) })
		want[pathOf(there)] = "empty"
		if !maps.Equal(after, want) {
			t.Fatalf("appended to %s in\n%q\n%q\n got %v\nwant %v", path, text, out, after, want)
		}
		set, err := Set(out, element+".block", "7")
		if err != nil {
			t.Fatal(err)
		}
		checkSet(t, out, element+".block", "7", set)
	})
}

// Whatever the text and the path: an edit is right or refused.
func FuzzEdit(f *testing.F) {
	for _, s := range append(seeds(), edited) {
		for _, path := range []string{"a", "a.b", "a[0].b", "tube.wall", "trial[0]", `"a.b"`} {
			f.Add(s, path, "1")
		}
	}
	f.Fuzz(func(t *testing.T, text, path, value string) {
		if len(text) > 4096 || strings.Contains(text+value, "nan") {
			return
		}
		if out, err := Set(text, path, value); err == nil {
			checkSet(t, text, path, value, out)
		}
		if out, err := Remove(text, path); err == nil {
			checkRemoved(t, text, path, out)
		}
		if out, element, err := Append(text, path); err == nil {
			if _, err := Set(out, element+".x", "1"); err != nil {
				t.Fatalf("%s in %q: %v", element, out, err)
			}
		}
	})
}

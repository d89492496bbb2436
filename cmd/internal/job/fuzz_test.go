package job

import (
	"errors"
	"strings"
	"testing"

	"overbend/cmd/internal/keyed"
)

func seeds(f *testing.F) {
	f.Add(good)
	f.Add(Starter())
	for _, s := range []string{
		"", "=", "[", "[[", "[a", "[[a]]\n[a.b]\nc=1\n[[a]]\n[[a.d]]\n[[a.d]]\ne=1", "a.b.c = 1\na.d = {e = [1, {f = 2}]}",
		"a = [{b = 1}, {b = 2},\n {b = 3}]", "a = '''\nx\n''' # c\nb = \"\"\"y\"\"\"\"\"\nc = ''", `a = "\"" # "`, "a = \"\"\"\\\n  \\\"\"\"\"\"\"\nb=1",
		"name = 1979-05-27 07:32:00Z\nunits = 0x1F", "\"a.b\" = 1\n'c[0]'.d = 2\n\"\" = 3\n\"\\u0061\" = 4", "a={b={c={},d=1},e=[]}",
		"[[trial]]\n[[trial]]\nchord=1\n[trial.x]", "a = [[1, 2], [\"]\", '}'], # ]\n]", "\ufeffname='x'", "a = 1\r\nb = 2\r\n",
		"x = [[[[[[[[[[[[[[[[[", "a.a.a.a.a.a.a.a.a = 1", "tube = 3\n[tube.x]", "a = {b = 1, c.d = 2,}", "trial = [1]", "bend = []",
	} {
		f.Add(s)
	}
}

// Whatever the text, there is a job or one sentence.
func FuzzParse(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		j, err := Parse("j", []byte(text))
		if err == nil {
			if j.Name == "" || !(j.Bend.Radius >= j.Tube.Depth*(1-1e-9)) || j.Tube.Validate() != nil || len(j.places) == 0 {
				t.Errorf("not a job: %+v", j)
			}
			return
		}
		var e *keyed.Error
		if !errors.As(err, &e) {
			t.Fatalf("%T: %v", err, err)
		}
		s := err.Error()
		if strings.ContainsFunc(s, func(r rune) bool { return r < ' ' }) || !strings.HasPrefix(s, "j:") || len(e.Text) == 0 ||
			strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "...") {
			t.Errorf("not one sentence: %q", s)
		}
		if lines := strings.Count(text, "\n") + 1; e.Line < 0 || e.Line > lines {
			t.Errorf("line %d of %d: %q", e.Line, lines, s)
		}
	})
}

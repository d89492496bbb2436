package job

import (
	"errors"
	"strings"
	"testing"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
)

func seeds(f *testing.F) {
	f.Add(good)
	f.Add(Starter(quantity.Millimetres))
	f.Add(Starter(quantity.Inches))
	for _, s := range []string{"", "[[trial]]\n[[trial]]\nchord=1\n[trial.x]", "\ufeffname='x'", "tube = 3\n[tube.x]", "trial = [1]", "bend = []"} {
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

package words

import (
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"

	"overbend/cmd/internal/quantity"
	"overbend/geom/bend"
)

// units are what no sentence may hold by itself: figures bring them, in the
// reader's own.
var units = regexp.MustCompile(`(^|[ 0-9])(mm|cm|kN|MPa|GPa|lbf|psi|ksi|bar|kg|lb|°C|°F)([ ,;:.)]|$)`)

// Every sentence stands once, is one line in lower case without a full stop, and
// names no unit.
func TestCatalogue(t *testing.T) {
	seen := map[Code]bool{}
	for _, e := range slices.Concat(catalogue[:], paper[:], drawn[:]) {
		if seen[e.code] {
			t.Errorf("%s stands twice", e.code)
		}
		seen[e.code] = true
		for _, s := range []string{e.long, e.short} {
			if units.MatchString(s) || strings.HasSuffix(s, ".") || strings.Contains(s, "\n") {
				t.Errorf("%s: %q", e.code, s)
			}
			if strings.Count(s, "{") != strings.Count(s, "}") {
				t.Errorf("%s: a gap is not closed", e.code)
			}
		}
		if e.long == "" || len(e.short) > len(e.long) {
			t.Errorf("%s: %q is no shorter form of %q", e.code, e.short, e.long)
		}
	}
}

func TestSay(t *testing.T) {
	length := quantity.Length.Of
	tooNarrow := Reason{TooNarrow, Figures{"at": length(200), "value": length(356.63)}}
	for _, c := range []struct {
		r      Reason
		mm, in string
	}{
		{tooNarrow, "supports 200 mm apart are too narrow for a block radius of 356.63 mm", "supports 7.874 in apart are too narrow for a block radius of 14.041 in"},
		{Reason{NoSetUp, Figures{"why": tooNarrow, "instead": Reason{Code: NoAngleWorks}}}, "no press set-up makes this bend: supports 200 mm apart are too narrow for a block radius of 356.63 mm; no angle works here", "no press set-up makes this bend: supports 7.874 in apart are too narrow for a block radius of 14.041 in; no angle works here"},
		{Reason{Code: StripStaysFlat}, "the strip stays flat enough to be used again as it is", "the strip stays flat enough to be used again as it is"},
	} {
		if got := quantity.Plain(c.r.Say(quantity.Millimetres)); got != c.mm {
			t.Errorf("got %q, want %q", got, c.mm)
		}
		if got := quantity.Plain(c.r.Say(quantity.Inches)); got != c.in {
			t.Errorf("got %q, want %q", got, c.in)
		}
	}
	if got := (Reason{Code: StandAside}).Brief(0); len(got) >= len((Reason{Code: StandAside}).Say(0)) {
		t.Errorf("%q is not brief", got)
	}
	if got := (Reason{Code: StripStaysFlat}).Brief(0); got == "" {
		t.Error("a sentence without a short form says nothing")
	}
}

// A gap without its figure, or a code without a sentence, is our own mistake.
func TestSayMistakes(t *testing.T) {
	for name, r := range map[string]Reason{
		"no figure":     {TooNarrow, Figures{"at": quantity.Length.Of(1)}},
		"no sentence":   {Code: "nonsense"},
		"a plain float": {TooNarrow, Figures{"at": 1.0, "value": 2.0}},
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: no panic", name)
				}
			}()
			r.Say(0)
		}()
	}
}

// Every reason of the mechanics has its sentence, on given supports and as the
// outcome of a proposal.
func TestBecause(t *testing.T) {
	reasons := []bend.Why{bend.SlipsFlat, bend.SlipsWrapped, bend.TooNarrow, bend.NoLeg, bend.NoSpacing, bend.RollerTooWide, bend.TooMuchForce, bend.LegTooShort, bend.BlockGivesWay}
	for _, why := range reasons {
		for _, spacing := range []float64{0, 3000} {
			r := Because(&bend.Refusal{Why: why, At: 420, Value: 360, Least: 80, Most: 90, Spacing: spacing})
			if r.Code == NoAnswer {
				t.Errorf("%s has no sentence", why)
			}
			for _, u := range []quantity.Units{quantity.Millimetres, quantity.Inches} {
				s := quantity.Plain(r.Say(u))
				if other := (quantity.Inches - u).String(); regexp.MustCompile(`[0-9] ` + other).MatchString(s) {
					t.Errorf("%s in %s: %q", why, u, s)
				}
				if force := strings.Contains(s, u.Unit(quantity.Force)); force != (why == bend.TooMuchForce) {
					t.Errorf("%s in %s: %q", why, u, s)
				}
				proposed := spacing > 0 && !slices.Contains([]bend.Why{bend.NoSpacing, bend.RollerTooWide, bend.BlockGivesWay}, why)
				if widest := strings.Contains(s, u.Figure(quantity.Length.Of(3000))); widest != proposed {
					t.Errorf("%s, up to %g: %q", why, spacing, s)
				}
			}
		}
	}
	if r := Because(errors.New("bug")); r.Code != NoAnswer || !strings.Contains(r.Say(0), "bug") {
		t.Errorf("%+v", r)
	}
	if r := Because(bend.ErrNoLesson); r.Code != TrialsNoLesson {
		t.Errorf("%+v", r)
	}
}

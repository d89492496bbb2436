package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/profiles"
)

// baseJob is the job that tests edit: the demo's tube and bend.
const baseJob = `name = "t"
tube.shape = "rectangle"
tube.width = "40 mm"
tube.depth = "40 mm"
tube.wall = "3 mm"
tube.corner = "0 mm"
tube.material = "6082-T6"
bend.radius = "420 mm"
bend.angle = "33 deg"
bend.legs = ["250 mm", "250 mm"]
strip.thickness = "6 mm"
block.plate = "10 mm"
filler.alloy = "158"
filler.plugs = "20 mm"`

// jobOf returns the base job with edits: "table.key = value" sets a key, "key ="
// takes it out, and what begins with "[" is put at the end.
func jobOf(t testing.TB, edits ...string) job.Job {
	t.Helper()
	j, err := jobErr(edits...)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func jobErr(edits ...string) (job.Job, error) {
	lines := strings.Split(baseJob, "\n")
	var tail []string
	for _, e := range edits {
		if strings.HasPrefix(e, "[") {
			tail = append(tail, e)
			continue
		}
		key, value, _ := strings.Cut(e, "=")
		key = strings.TrimSpace(key)
		lines = slices.DeleteFunc(lines, func(l string) bool { k, _, _ := strings.Cut(l, " "); return k == key })
		if strings.TrimSpace(value) != "" {
			lines = append(lines, e)
		}
	}
	return job.Parse("", []byte(strings.Join(append(lines, tail...), "\n")+"\n"))
}

// ownMetal is the base job's tube of a metal of the file's own.
func ownMetal(proof float64) []string {
	return []string{
		"tube.material =", `material.youngs_modulus = "70 GPa"`, fmt.Sprintf(`material.proof = "%g MPa"`, proof),
		"material.exponent = 25", `material.elongation = "8 %"`, "material.poisson = 0.33", `material.density = "2700 kg/m3"`,
	}
}

// chain is a job worked out as far as the press.
type chain struct {
	j     job.Job
	m     Metal
	strip Strip
	over  Springback
	sec   Section
	q     *Press
	said  []words.Advice
}

// chained works a job out as far as the press.
func chained(t testing.TB, j job.Job) chain {
	t.Helper()
	tables := new(Tables)
	c := chain{j: j, strip: tables.strip(j, stripOf(j))}
	var said [4][]words.Advice
	var err error
	if c.m, said[0], err = metal(j, c.strip); err != nil {
		t.Fatal(err)
	}
	c.m.laws = tables.metal(j, c.m)
	if c.over, said[1], err = springback(j, c.m); err != nil {
		t.Fatal(err)
	}
	if c.sec, said[2], err = section(j, c.m, c.over.crown(j.Tube.Depth)); err != nil {
		t.Fatal(err)
	}
	if c.q, said[3], err = press(j, c.m, c.strip, c.over.Working); err != nil {
		t.Fatal(err)
	}
	c.said = slices.Concat(said[:]...)
	return c
}

// find returns the advice of a code, nil without one.
func find(said []words.Advice, code words.Code) *words.Advice {
	for i := range said {
		if said[i].Code == code {
			return &said[i]
		}
	}
	return nil
}

// has fails the test unless a piece of advice is there as it is, or, without a
// level, is not there.
func has(t testing.TB, said []words.Advice, code words.Code, level words.Level, step words.Step, about string) {
	t.Helper()
	a := find(said, code)
	switch {
	case a == nil && level != "":
		t.Errorf("%s: not said, only %v", code, codes(said))
	case a != nil && level == "":
		t.Errorf("%s: said", code)
	case a != nil && (a.Level != level || a.Step != step || a.About != about):
		t.Errorf("%s: got %s, %q, %q, want %s, %q, %q", code, a.Level, a.Step, a.About, level, step, about)
	}
}

func codes(said []words.Advice) []words.Code {
	var out []words.Code
	for _, a := range said {
		out = append(out, a.Code)
	}
	return out
}

// figure returns a number of a reason.
func figure(t testing.TB, r words.Reason, name string) float64 {
	t.Helper()
	if limit, ok := r.Figures[name].(words.Limit); ok {
		return limit.V
	}
	v, ok := r.Figures[name].(quantity.Value)
	if !ok {
		t.Fatalf("%s: {%s} is %v", r.Code, name, r.Figures[name])
	}
	return v.V
}

// instead returns what advice names as the way out.
func instead(t testing.TB, a *words.Advice) words.Reason {
	t.Helper()
	r, ok := a.Figures["instead"].(words.Reason)
	if !ok {
		t.Fatalf("%s: no way out in %v", a.Code, a.Figures)
	}
	return r
}

// about fails the test where got is not want to a relative tolerance.
func about(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		t.Errorf("%s: got %.9g, want %.9g", what, got, want)
	}
}

func spread(low, nominal, high float64) profiles.Spread {
	return profiles.Spread{Low: low, Nominal: nominal, High: high}
}

// New hands on what every step says, and stops where a step says stop.
func TestNewGathersAdvice(t *testing.T) {
	p, err := New(jobOf(t, `press.capacity = "20 t"`))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []words.Code{words.WrinklesButFilled, words.StripKeepsSet, words.BathHarmless, words.KerfAtTable, words.StandAside, words.TieTheBlock, words.EngineerFirst} {
		if find(p.Advice, w) == nil && w != words.WrinklesButFilled {
			t.Errorf("%s: not said, only %v", w, codes(p.Advice))
		}
	}
	for _, w := range []words.Code{words.StandAside, words.TieTheBlock, words.EngineerFirst} {
		if a := find(p.Advice, w); a != nil && a.Level != words.Caution {
			t.Errorf("%s: %s, want a caution", w, a.Level)
		}
	}
	if !p.Feasible() || p.Filler == nil || len(p.Pieces) == 0 || p.Nest != nil || p.Existing != nil || p.Forecast != nil {
		t.Errorf("feasible %v, filler %v, %d pieces, nest %v, existing %v, forecast %v", p.Feasible(), p.Filler, len(p.Pieces), p.Nest, p.Existing, p.Forecast)
	}
	if c := chained(t, p.Job); p.Section != c.sec || p.Nominal != c.over.Nominal || p.Press.Rig != c.q.Rig {
		t.Errorf("section %+v, want %+v", p.Section, c.sec)
	}
	if p.Advice = append(p.Advice, words.Advice{Level: words.Stop}); p.Feasible() {
		t.Error("feasible in spite of a stop")
	}
	// A cheek that can't be made leaves nothing to cut.
	p, err = New(jobOf(t, `block.cheek_depth = "40 mm"`))
	if err != nil {
		t.Fatal(err)
	}
	if p.Feasible() || p.Tools.Whole || p.Pieces != nil || p.Filler != nil || p.CutList() != nil {
		t.Errorf("cheeks as deep as the tube: feasible %v, whole %v, %d pieces", p.Feasible(), p.Tools.Whole, len(p.Pieces))
	}
}

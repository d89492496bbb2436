package page

import (
	"encoding/base64"
	"errors"
	"net/url"
	"slices"
	"strings"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
)

// Fault is why a form gives no plan: a sentence and the field to put it beside.
type Fault struct {
	Field    string `json:"field"` // of the form; "" where it is none's
	Key      string `json:"key"`   // of the job file, as the command line names it
	Sentence string `json:"sentence"`
}

// work is a form worked out.
type work struct {
	values values
	trials []int  // their numbers in the form
	text   string // of the job file
	plan   *plan.Plan
	fault  *Fault // nil with a plan
}

// workOut turns a submitted form into the text of a job file and works that out,
// by the code that reads and works out any job file.
func (h *handler) workOut(f url.Values) work {
	w := h.textOf(f)
	if w.fault == nil {
		w.plan, w.fault = h.planOf(w.text, w.trials)
	}
	return w
}

// textOf is the first half of [handler.workOut].
func (h *handler) textOf(f url.Values) work {
	base, err := base64.StdEncoding.DecodeString(f.Get("base"))
	damaged := err != nil
	v, trials, stray := valuesFrom(kept(f, string(base)))
	w := work{values: v, trials: trials}
	switch {
	case stray != "":
		return work{fault: &Fault{Sentence: "a field of the form has a name that is no key of a job file"}}
	case damaged:
		w.fault = &Fault{Field: "base", Sentence: "the job file in the form is damaged; open it again"}
		return w
	}
	if w.text, err = v.into(string(base), trials); err != nil {
		w.fault = &Fault{Sentence: "the job file can't take what the form says: " + err.Error()}
	}
	return w
}

// kept returns a form with what its job file says of the keys that the form leaves
// out. A field that is there and empty takes its key away.
func kept(f url.Values, base string) url.Values {
	old, err := valuesOf(base)
	if err != nil || len(old) == 0 {
		return f
	}
	out := url.Values{}
	for name, text := range f {
		out[name] = text
	}
	for name, text := range old {
		whole := strings.TrimSuffix(strings.TrimSuffix(name, ".0"), ".1")
		if _, _, ok := trialKey(name); (ok || known(name)) && !f.Has(name) && !f.Has(whole) {
			out.Set(name, text)
		}
	}
	return out
}

// planOf works out the text of a job file.
func (h *handler) planOf(text string, trials []int) (*plan.Plan, *Fault) {
	j, err := job.ParseIn(h.shop, "", []byte(text))
	if err == nil {
		var p *plan.Plan
		if p, err = plan.New(j); err == nil {
			return p, nil
		}
	}
	var e *keyed.Error
	if !errors.As(err, &e) {
		return nil, &Fault{Sentence: err.Error()}
	}
	return nil, &Fault{Field: fieldOf(e, text, trials), Key: e.Key, Sentence: e.Sentence()}
}

// fieldOf returns the form's field for an error's key: of a table as a whole its
// first field, of a pair the left side, of a trial the one in whose lines it is.
func fieldOf(e *keyed.Error, text string, trials []int) string {
	if e.Key == "trial" || strings.HasPrefix(e.Key, "trial.") {
		key := strings.TrimPrefix(strings.TrimPrefix(e.Key, "trial"), ".")
		if key == "" {
			key = "block"
		}
		n := 0
		lines := strings.SplitAfter(text, "\n")
		for _, l := range lines[:min(max(e.Line, 0), len(lines))] {
			if strings.HasPrefix(strings.TrimSpace(l), "[[trial]]") {
				n++
			}
		}
		if n = max(0, n-1); n < len(trials) {
			n = trials[n]
		}
		return trialName(n, key)
	}
	for _, f := range inOrder() {
		switch {
		case f.Key == e.Key && f.Form == pair:
			return f.Name(0)
		case f.Key == e.Key, e.Key == "tube.material."+strings.TrimPrefix(f.Key, "material."):
			return f.Key
		}
	}
	for _, f := range inOrder() {
		if table, _, ok := strings.Cut(f.Key, "."); ok && e.Key == table {
			if table == "tube" {
				return "tube.wall" // what does not go together there is wall and corner
			}
			return f.Key
		}
	}
	return ""
}

// marks returns what the plan's advice says of the form's fields: what stops and
// warns, each at its first field.
func marks(p *plan.Plan, u quantity.Units) map[string]string {
	out, fields := map[string]string{}, inOrder()
	for _, level := range []words.Level{words.Stop, words.Warning} {
		for _, a := range p.Advice {
			if a.Level != level {
				continue
			}
			about := a.About
			i := slices.IndexFunc(fields, func(f field) bool { return f.Key == about })
			if i < 0 {
				continue
			}
			if fields[i].Form == pair {
				about = fields[i].Name(0)
			}
			if out[about] == "" {
				out[about] = quantity.Plain(a.Say(u))
			}
		}
	}
	return out
}

// cannot returns the fault of a job that is worked out and can't be made.
func cannot(p *plan.Plan, u quantity.Units) *Fault {
	var f *Fault
	for _, a := range p.Advice {
		if a.Level != words.Stop {
			continue
		}
		text := a.About + ": " + quantity.Plain(a.Say(u))
		if f == nil {
			f = &Fault{Key: a.About, Sentence: "can't be made as asked: " + text}
			for field := range marks(p, u) {
				if field == a.About || strings.HasPrefix(field, a.About+".") {
					f.Field = field
				}
			}
			continue
		}
		f.Sentence += "; " + text
	}
	return f
}

// unitsOf returns the units in which a job is shown: the form's choice, or the
// job's own.
func unitsOf(f url.Values, p *plan.Plan) quantity.Units {
	if u, err := quantity.ParseUnits(f.Get("show_units")); err == nil {
		return u
	}
	return p.Job.Units()
}

package page

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"overbend/cmd/internal/keyed"
)

// editor changes the text of a job file key by key and stops at the first fault.
type editor struct {
	text string
	err  error
}

func (e *editor) set(path, value string) {
	if e.err == nil {
		e.text, e.err = keyed.Set(e.text, path, value)
	}
}

func (e *editor) remove(path string) {
	if e.err == nil {
		e.text, e.err = keyed.Remove(e.text, path)
	}
}

// into returns the text of a job file with the form's values in it. What did not
// change stays as it stands, comments and order too. Trials are the form's
// numbers for them, those of the file first.
func (v values) into(base string, trials []int) (string, error) {
	old, err := valuesOf(base)
	if len(v) == 0 && strings.TrimSpace(base) != "" {
		return base, nil
	}
	if err != nil || len(old) == 0 {
		return v.write(trials)
	}
	tree, _, err := keyed.Decode("", base)
	if err != nil { // what this reader is stricter about; it says so when the job is read
		return base, nil
	}
	e := &editor{text: base}
	tube, _ := tree["tube"].(map[string]any)
	_, metalInTube := tube["material"].(map[string]any)
	for _, f := range inOrder() {
		path := f.Key
		if metalInTube && strings.HasPrefix(path, "material.") {
			path = "tube." + path
		}
		if f.Form == pair {
			e.pair(path, old, v)
			continue
		}
		was, is := old[f.Key], v[f.Key]
		switch {
		case was == is, f.Form == tick && is == "" && was == "false":
		case f.Form == choice && was == "" && is == f.Words[0] && f.Key != "tube.shape": // the same, not said
		case is == "":
			e.remove(path)
		default:
			e.set(path, likewise(at(tree, path), f.Key, is))
		}
	}
	// What is no key of ours is for package job to refuse.
	for key, text := range v {
		if _, _, ok := trialKey(key); !ok && !known(key) && old[key] != text {
			e.set(key, keyed.Quote(text))
		}
	}
	e.trials(tree, old, v, trials)
	return e.text, e.err
}

// known reports whether a form's name is that of a field other than a trial's.
func known(name string) bool {
	return slices.ContainsFunc(inOrder(), func(f field) bool {
		return f.Key == name || f.Form == pair && (f.Name(0) == name || f.Name(1) == name)
	})
}

// at returns what stands at a path of tables, nil for nothing.
func at(tree map[string]any, path string) any {
	var x any = tree
	for key := range strings.SplitSeq(path, ".") {
		m, _ := x.(map[string]any)
		x = m[key]
	}
	return x
}

// likewise returns a text as TOML, a number without quotes where one stood so.
func likewise(was any, key, text string) string {
	switch was.(type) {
	case int64, float64:
		if decimal(text) {
			return text
		}
	}
	return written(key, text)
}

// pair changes what has a side for each end: only the side that changed, where the
// file has both.
func (e *editor) pair(path string, old, v values) {
	was, is := old.sides(path), v.sides(path)
	both := func(s [2]string) bool { return s[0] != "" && s[1] != "" }
	switch {
	case was == is:
	case both(was) && both(is):
		if one, err := keyed.Set(e.text, path+"[0]", keyed.Quote(is[0])); err == nil && was[0] != is[0] && was[1] == is[1] {
			e.text = one
			return
		}
		if one, err := keyed.Set(e.text, path+"[1]", keyed.Quote(is[1])); err == nil && was[0] == is[0] {
			e.text = one
			return
		}
		fallthrough
	default:
		// A copy: what is taken is removed.
		text, ok := values{path + ".0": is[0], path + ".1": is[1]}.filled().takePair(path)
		if ok {
			e.set(path, text)
		} else {
			e.remove(path)
		}
	}
}

// sides returns both sides of a pair.
func (v values) sides(path string) [2]string { return [2]string{v[path+".0"], v[path+".1"]} }

// filled removes what is empty.
func (v values) filled() values {
	for k, x := range v {
		if x == "" {
			delete(v, k)
		}
	}
	return v
}

// trials changes, removes and adds trials.
func (e *editor) trials(tree map[string]any, old, v values, trials []int) {
	there := 0
	switch list := tree["trial"].(type) {
	case []map[string]any:
		there = len(list)
	case []any:
		there = len(list)
	}
	for _, n := range trials {
		if n >= there {
			break
		}
		for _, key := range below(merged(old, v), trialName(n, "")) {
			was, is := old[trialName(n, key)], v[trialName(n, key)]
			path := fmt.Sprintf("trial[%d].%s", n, key)
			switch {
			case was == is:
			case is == "":
				e.remove(path)
			default:
				e.set(path, keyed.Quote(is))
			}
		}
	}
	for n := there - 1; n >= 0; n-- {
		if !slices.Contains(trials, n) {
			e.remove(fmt.Sprintf("trial[%d]", n))
		}
	}
	for _, n := range trials {
		if n < there || e.err != nil {
			continue
		}
		var path string
		if e.text, path, e.err = keyed.Append(e.text, "trial"); e.err != nil {
			return
		}
		for _, key := range below(v, trialName(n, "")) {
			e.set(path+"."+key, keyed.Quote(v[trialName(n, key)]))
		}
	}
}

// merged returns the keys of two.
func merged(a, b values) values {
	out := values{}
	for _, v := range []values{a, b} {
		for k, x := range v {
			out[k] = x
		}
	}
	return out
}

// decimal reports whether TOML takes a text as a number, without a sign or an
// exponent.
func decimal(text string) bool {
	_, err := strconv.ParseFloat(text, 64)
	return err == nil && strings.Trim(text, "0123456789.") == "" && text[0] != '.' && !strings.HasSuffix(text, ".") &&
		!(len(text) > 1 && text[0] == '0' && text[1] != '.')
}

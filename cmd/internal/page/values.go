package page

import (
	"fmt"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

// values are a job file's keys as the form names them, "bend.legs.0", with what
// stands there as a person typed it.
type values map[string]string

// valuesOf returns the values of a job file's text. What a form can't hold, a
// table where a text belongs, is shown as TOML prints it, and an error says that
// the text is no TOML: package job says why in its own words.
func valuesOf(text string) (values, error) {
	var tree map[string]any
	if err := toml.Unmarshal([]byte(strings.TrimPrefix(text, "\ufeff")), &tree); err != nil {
		return nil, err
	}
	v := values{}
	v.add("", tree)
	for _, key := range pairs() { // one value counts for both ends
		if one, ok := v[key]; ok {
			v[key+".0"], v[key+".1"] = one, one
			delete(v, key)
		}
	}
	for _, key := range inTube() {
		if one, ok := v["tube.material."+key]; ok {
			v["material."+key] = one
			delete(v, "tube.material."+key)
		}
	}
	return v, nil
}

// pairs returns the keys that hold a value for each end.
func pairs() []string {
	var out []string
	for _, g := range groups() {
		for _, f := range g.Fields {
			if f.Form == pair {
				out = append(out, f.Key)
			}
		}
	}
	return out
}

// inTube returns the keys of a metal, which may stand in the tube's table too.
func inTube() []string {
	var out []string
	for _, g := range groups() {
		for _, f := range g.Fields {
			if key, ok := strings.CutPrefix(f.Key, "material."); ok {
				out = append(out, key)
			}
		}
	}
	return out
}

func (v values) add(path string, x any) {
	below := func(key string) string {
		if path == "" {
			return key
		}
		return path + "." + key
	}
	switch x := x.(type) {
	case map[string]any:
		for key, y := range x {
			v.add(below(key), y)
		}
	case []any:
		for i, y := range x {
			v.add(below(strconv.Itoa(i)), y)
		}
	case string:
		v[path] = x
	case float64:
		v[path] = strconv.FormatFloat(x, 'g', -1, 64)
	default:
		v[path] = fmt.Sprint(x)
	}
}

// aKey is what a key of a form may look like; anything else is none of ours and
// never gets into a text.
var aKey = regexp.MustCompile(`^[a-z][a-z_]*(\.[a-z0-9_]+)*$`)

// control returns the names of a form that are no keys of the job file.
func control() []string {
	return []string{"base", "good", "have", "folded", "view", "over", "paper", "margin", "print_scale", "dxf", "dxf_units", "cut_only", "force", "show_units", "file", "read", "take", "drawing", "drawing_unit", "drawing_layer"}
}

// valuesFrom returns the keys of a submitted form that are filled in, and the
// numbers of the trials that have any. A name that can't be a key comes back as
// stray.
func valuesFrom(f url.Values) (v values, trials []int, stray string) {
	v = values{}
	seen := map[int]bool{}
	names := make([]string, 0, len(f))
	for name := range f {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		text := strings.TrimSpace(f.Get(name))
		if text == "" || slices.Contains(control(), name) {
			continue
		}
		if !aKey.MatchString(name) {
			return nil, nil, name
		}
		v[name] = text
		if n, _, ok := trialKey(name); ok && !seen[n] {
			seen[n] = true
			trials = append(trials, n)
		}
	}
	slices.Sort(trials)
	return v, trials, ""
}

// trialKey returns the number and the key of a name like trial.0.block.
func trialKey(name string) (int, string, bool) {
	rest, ok := strings.CutPrefix(name, "trial.")
	if !ok {
		return 0, "", false
	}
	number, key, ok := strings.Cut(rest, ".")
	n, err := strconv.Atoi(number)
	if !ok || err != nil || n < 0 || n > 1e6 {
		return 0, "", false
	}
	return n, key, true
}

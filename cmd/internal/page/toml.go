package page

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"overbend/cmd/internal/keyed"
)

// trialName returns the form's name of a key of the n-th trial.
func trialName(n int, key string) string { return fmt.Sprintf("trial.%d.%s", n, key) }

// write returns the values as the text of a job file, keys in the order in which
// the page asks for them, others behind.
func (v values) write(trials []int) (string, error) {
	var b strings.Builder
	left := maps.Clone(v)
	table := ""
	put := func(key, value string) {
		head, name := "", key
		if i := strings.LastIndexByte(key, '.'); i >= 0 {
			head, name = key[:i], key[i+1:]
		}
		if head != table {
			table = head
			fmt.Fprintf(&b, "\n[%s]\n", head)
		}
		fmt.Fprintf(&b, "%s = %s\n", name, value)
	}
	for _, f := range inOrder() {
		if f.Form == pair {
			if text, ok := left.takePair(f.Key); ok {
				put(f.Key, text)
				continue
			} // else a script may have given one value for both
		}
		if text, ok := left[f.Key]; ok {
			delete(left, f.Key)
			put(f.Key, written(f.Key, text))
		}
	}
	for _, n := range trials {
		prefix := trialName(n, "")
		b.WriteString("\n[[trial]]\n")
		for _, key := range below(left, prefix) {
			fmt.Fprintf(&b, "%s = %s\n", key, quoted(left[prefix+key]))
			delete(left, prefix+key)
		}
		table = "trial"
	}
	// What is none of ours stands in its table too, for package job to refuse.
	e := &editor{text: strings.TrimLeft(b.String(), "\n")}
	for _, key := range slices.Sorted(maps.Keys(left)) {
		e.set(key, quoted(left[key]))
	}
	return e.text, e.err
}

// below returns the keys under a prefix: those of a trial in their own order,
// then others.
func below(v values, prefix string) []string {
	var out []string
	for _, f := range trialFields() {
		if _, ok := v[prefix+f.Key]; ok {
			out = append(out, f.Key)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(v)) {
		if key, ok := strings.CutPrefix(name, prefix); ok && !slices.Contains(out, key) {
			out = append(out, key)
		}
	}
	return out
}

// inOrder returns all fields but those of trials, tables kept together.
func inOrder() []field {
	var out []field
	for _, g := range groups() {
		out = append(out, g.Fields...)
	}
	var order []string
	table := func(f field) string { return f.Key[:max(0, strings.IndexByte(f.Key, '.'))] }
	for _, f := range out {
		if t := table(f); !slices.Contains(order, t) {
			order = append(order, t)
		}
	}
	slices.SortStableFunc(out, func(a, b field) int {
		return slices.Index(order, table(a)) - slices.Index(order, table(b))
	})
	return out
}

// takePair removes both sides of a pair and returns them as TOML. A cut that is
// left out is square; a spare length counts for both ends.
func (v values) takePair(key string) (string, bool) {
	left, a := v[key+".0"]
	right, b := v[key+".1"]
	delete(v, key+".0")
	delete(v, key+".1")
	switch {
	case !a && !b:
		return "", false
	case left == right && key != "bend.legs" && key != "ends.cut":
		return quoted(left), true
	case a && b:
		return "[" + quoted(left) + ", " + quoted(right) + "]", true
	case key == "ends.cut":
		if !a {
			left = "0 deg"
		} else {
			right = "0 deg"
		}
		return "[" + quoted(left) + ", " + quoted(right) + "]", true
	case key == "ends.trim", key == "filler.plugs":
		return quoted(left + right), true
	}
	return "[" + quoted(left+right) + "]", true
}

// bare returns the keys whose value is a number or true, and stands without
// quotes where it looks like one.
func bare() []string {
	return []string{"block.lighten", "allowance.ratio", "press.friction", "material.exponent", "material.poisson", "material.unloading"}
}

// written returns a key's value as TOML.
func written(key, text string) string {
	if slices.Contains(bare(), key) {
		if key == "block.lighten" && (text == "true" || text == "false") {
			return text
		}
		if decimal(text) {
			return text
		}
	}
	return quoted(text)
}

// quoted returns a text as a TOML string: a literal one where that saves the
// inch mark its backslash.
func quoted(s string) string {
	plain := !strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r == 0x7f })
	if plain && strings.Contains(s, `"`) && !strings.Contains(s, "'") {
		return "'" + s + "'"
	}
	return keyed.Quote(s)
}

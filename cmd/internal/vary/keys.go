package vary

import (
	"fmt"

	"overbend/cmd/internal/keyed"
)

// Keys are what is varied together: every value of each with every one of the
// others, the last key's in turn fastest.
type Keys []Key

// ParseKeys reads some, each like [ParseKey].
func ParseKeys(all []string) (Keys, error) {
	var out Keys
	n := 1
	for _, s := range all {
		k, err := ParseKey(s)
		if err != nil {
			return nil, err
		}
		for _, other := range out {
			if other.Path == k.Path {
				return nil, fmt.Errorf("%s is varied twice; give all its values at once", k.Path)
			}
		}
		if n > most/k.Len() {
			return nil, fmt.Errorf("more than %d combinations; take larger steps or fewer keys", most)
		}
		n *= k.Len()
		out = append(out, k)
	}
	return out, nil
}

// Count returns how many combinations there are.
func (keys Keys) Count() int {
	n := 1
	for _, k := range keys {
		n *= k.Len()
	}
	return n
}

// At returns the values of a combination, counted from 0, in the order of the keys.
func (keys Keys) At(i int) []string {
	out := make([]string, len(keys))
	for k := len(keys) - 1; k >= 0; k-- {
		n := keys[k].Len()
		out[k] = keys[k].Value(i % n)
		i /= n
	}
	return out
}

// Set returns a job file's text with values at the keys.
func (keys Keys) Set(text string, values []string) (string, error) {
	var err error
	for k, v := range values {
		if text, err = keyed.Set(text, keys[k].Path, toml(v)); err != nil {
			return "", fmt.Errorf("%s: %w", keys[k].Path, err)
		}
	}
	return text, nil
}

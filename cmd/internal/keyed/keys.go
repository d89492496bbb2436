package keyed

import (
	"slices"
	"strings"

	"github.com/hbollon/go-edlib"
)

// Known is what a kind of file may hold.
type Known struct {
	Tables []string // their names, arrays of tables among them
	// Keys returns the keys of a table ("" for the top level), or nil for what is
	// no table.
	Keys func(table string) []string
}

// Check returns an error for the first key in a file that is not known. What lies below a key that holds no table is left to the reading of
// that key, which will not find what it wants.
func (k Known) Check(file string, places Places) error {
	top := k.Keys("")
	for _, p := range places {
		table, keys, rest := "", top, Unindexed(p.path)
		for keys != nil {
			key, below, more := strings.Cut(rest, ".")
			if key[0] == '"' { // the dot may be its own, and it is none of ours
				key = rest
			}
			if !slices.Contains(keys, key) {
				return &Error{file, p.line, join(table, key), "unknown key; the nearest known key is " + k.nearest(table, key)}
			}
			if !more {
				break
			}
			table, rest = join(table, key), below
			keys = k.Keys(table)
		}
	}
	return nil
}

// join returns the path of a key in a table, "" for the top level.
func join(table, key string) string {
	if table == "" {
		return key
	}
	return table + "." + key
}

// nearest returns the known key nearest to an unknown one by edit distance, in
// which a swap of neighbours counts once. To stand in another table counts as
// two edits.
func (k Known) nearest(table, key string) string {
	key = strings.ToLower(key)
	const elsewhere = 2
	best, least := "", -1
	for _, t := range append([]string{table, ""}, k.Tables...) {
		for _, name := range k.Keys(t) {
			d := edlib.OSADamerauLevenshteinDistance(key, name)
			if t != table {
				d += elsewhere
			}
			if least < 0 || d < least {
				best, least = join(t, name), d
			}
		}
	}
	return best
}

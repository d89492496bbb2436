package job

import (
	"slices"
	"strings"

	"github.com/hbollon/go-edlib"
)

// tables returns the names of the tables of a job file.
func tables() []string {
	return []string{
		"tube", "material", "bend", "allowance", "strip", "block", "filler",
		"press", "ends", "cutting", "fixture", "drawing", "trial",
	}
}

// keysOf returns the keys of a table ("" for the top level), or nil for what is
// no table.
func keysOf(table string) []string {
	switch table {
	case "":
		return append([]string{"name", "units"}, tables()...)
	case "tube":
		return []string{"shape", "width", "depth", "diameter", "wall", "corner", "material"}
	case "material", "tube.material":
		return []string{
			"youngs_modulus", "proof", "ultimate", "exponent", "elongation",
			"poisson", "density", "family", "unloading",
		}
	case "bend":
		return []string{"radius", "radius_at", "angle", "chord", "rise", "arc", "legs"}
	case "allowance":
		return []string{"mode", "ratio", "degrees", "proof", "ultimate"}
	case "strip":
		return []string{"thickness", "material"}
	case "block":
		return []string{"plate", "height", "blend", "hole", "cheek_depth", "existing", "lighten"}
	case "filler":
		return []string{"alloy", "plugs"}
	case "press":
		return []string{"capacity", "supports", "roller", "ram_diameter", "ram_width", "friction", "stroke", "bed"}
	case "ends":
		return []string{"cut", "trim"}
	case "cutting":
		return []string{"process", "kerf", "sheet"}
	case "fixture":
		return []string{"pin", "plate", "size"}
	case "drawing":
		return []string{"owner", "number", "revision", "date", "drawn", "approved", "angle_tolerance", "radius_tolerance"}
	case "trial":
		return []string{
			"block", "travel", "loaded", "filled", "melted", "released", "chord", "rise",
			"angle_error", "rise_error", "travel_error", "loaded_error",
		}
	}
	return nil
}

// checkKeys returns an error for the first key in the file that is none of
// ours. What lies below a key that holds no table is left to the reading of
// that key, which will not find what it wants.
func checkKeys(file string, places []place) error {
	top := keysOf("")
	for _, p := range places {
		table, keys, rest := "", top, unindexed(p.path)
		for keys != nil {
			key, below, more := strings.Cut(rest, ".")
			if key[0] == '"' { // the dot may be its own, and it is none of ours
				key = rest
			}
			if !slices.Contains(keys, key) {
				return &Error{file, p.line, join(table, key), "unknown key; the nearest known key is " + nearest(table, key)}
			}
			if !more {
				break
			}
			table, rest = join(table, key), below
			keys = keysOf(table)
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
func nearest(table, key string) string {
	key = strings.ToLower(key)
	const elsewhere = 2
	best, least := "", -1
	for _, t := range append([]string{table, ""}, tables()...) {
		for _, k := range keysOf(t) {
			d := edlib.OSADamerauLevenshteinDistance(key, k)
			if t != table {
				d += elsewhere
			}
			if least < 0 || d < least {
				best, least = join(t, k), d
			}
		}
	}
	return best
}

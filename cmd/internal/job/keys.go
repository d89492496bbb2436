package job

import "overbend/cmd/internal/keyed"

// known is what a job file may hold.
func known() keyed.Known { return keyed.Known{Tables: tables(), Keys: keysOf} }

// tables returns the names of the tables of a job file.
func tables() []string {
	return []string{
		"tube", "material", "bend", "allowance", "strip", "block", "template", "filler",
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
		return []string{"shape", "width", "depth", "diameter", "wall", "corner", "material", "lot"}
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
		return []string{"plate", "height", "blend", "hole", "cheek_depth", "existing", "use", "lighten"}
	case "template":
		return []string{"plate"}
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

// Keys returns every key that a job file may hold, dotted; those of one trial as
// "trial.block". A metal's are named in their own table.
func Keys() []string {
	out := []string{"name", "units"}
	for _, t := range tables() {
		for _, k := range keysOf(t) {
			out = append(out, t+"."+k)
		}
	}
	return out
}

// CheckKeys returns the first key of a job file's text that no job file may hold, as
// a *keyed.Error that names the nearest, or that the text is no TOML.
func CheckKeys(name, text string) error {
	_, places, err := keyed.Decode(name, text)
	if err != nil {
		return err
	}
	return known().Check(name, places)
}

package profiles

import "math"

// General tolerances of ISO 2768-1, class m: what holds where a drawing states
// none. Linear sizes are its table 1 (read), angles its table 3 by the shorter
// leg (from memory).

// step is what is permitted from the end of the step before up to a size in mm,
// that size included.
type step struct{ upTo, permitted float64 }

// LinearTolerance returns the permitted deviation either way, in mm, of a
// length in mm, 0 where the standard gives none.
func LinearTolerance(mm float64) float64 {
	const least = 0.5
	if mm < least {
		return 0
	}
	return permitted(mm, []step{{6, 0.1}, {30, 0.2}, {120, 0.3}, {400, 0.5}, {1000, 0.8}, {2000, 1.2}, {4000, 2}})
}

// AngularTolerance returns the permitted deviation either way, in radians, of
// an angle whose shorter leg is so many mm long.
func AngularTolerance(leg float64) float64 {
	minutes := permitted(leg, []step{{10, 60}, {50, 30}, {120, 20}, {400, 10}, {math.Inf(1), 5}})
	return minutes / 60 * math.Pi / 180
}

// permitted returns what the first step that reaches a size permits, 0 where
// none does.
func permitted(mm float64, steps []step) float64 {
	for _, s := range steps {
		if mm <= s.upTo {
			return s.permitted
		}
	}
	return 0
}

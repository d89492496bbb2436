package sheet

import "overbend/geom"

// General tolerances of ISO 2768-1, class m: what holds where a drawing states
// none. Linear sizes are its table 1 (read), angles its table 3 by the shorter
// leg (from memory).

// linear returns the permitted deviation either way of a length in mm, 0 where
// the standard gives none.
func linear(mm float64) float64 {
	switch {
	case mm < 0.5:
		return 0
	case mm <= 6:
		return 0.1
	case mm <= 30:
		return 0.2
	case mm <= 120:
		return 0.3
	case mm <= 400:
		return 0.5
	case mm <= 1000:
		return 0.8
	case mm <= 2000:
		return 1.2
	case mm <= 4000:
		return 2
	}
	return 0
}

// angular returns the permitted deviation either way of an angle whose shorter
// leg is so many mm long.
func angular(leg float64) geom.Angle {
	minutes := 5.0
	switch {
	case leg <= 10:
		minutes = 60
	case leg <= 50:
		minutes = 30
	case leg <= 120:
		minutes = 20
	case leg <= 400:
		minutes = 10
	}
	return geom.Angle(minutes/60) * geom.Degree
}

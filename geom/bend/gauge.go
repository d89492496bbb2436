package bend

import "math"

// GaugePressure returns the pressure in MPa that a force in N makes under a ram
// (piston) of diameter ram mm: force over area. Seals and gauge add 2 to 5 %
// (common practice, no source).
func GaugePressure(force, ram float64) float64 { return force / (math.Pi * ram * ram / 4) }

package bend

import (
	"math"
	"testing"

	"overbend/profiles"
)

// TestLeastLeg: far beyond yield M = Y Z, so the leg is 2 sqrt(3) Z/Av, worked
// by hand for a square, a wide, a deep and a round tube.
func TestLeastLeg(t *testing.T) {
	for _, c := range []struct {
		name   string
		s      profiles.Section
		av     float64 // mm²
		z      float64 // mm³
		depths float64 // least leg, about, in depths
	}{
		{"40x40x3", rectangle(40, 40, 3, 0), 222, (40*1600 - 34*1156) / 4.0, 2.4},
		{"60x20x2", rectangle(60, 20, 2, 0), 304 * 20 / 80.0, (60*400 - 56*256) / 4.0, 5.5},
		{"80x40x3", rectangle(80, 40, 3, 0), 684 * 40 / 120.0, (80*1600 - 74*1156) / 4.0, 4.0},
		{"20x60x2", rectangle(20, 60, 2, 0), 304 * 60 / 80.0, (20*3600 - 16*3136) / 4.0, 1.4},
		{"round 40x3", roundTube(40, 3), 2 * (400 - 289), (64000 - 39304) / 6.0, 1.6},
	} {
		near(t, c.name+": shear area", ShearArea(c.s), c.av, 1e-12)
		got := LeastLeg(c.s, epp(70000, 250), 1)
		near(t, c.name+": leg", got, 2*math.Sqrt(3)*c.z/c.av, 1e-5)
		near(t, c.name+": depths", got/c.s.Depth, c.depths, 0.03)
	}
	// By the stress that the outer face has hardened to: the section's own
	// moment is below that stress times its plastic modulus.
	law := profiles.RambergOsgood{Youngs: 70000, Proof: 110, Exponent: 5}
	sec := rectangle(40, 40, 3, 0)
	k := 1.0 / 300
	if got, most := LeastLeg(sec, law, k), 2*math.Sqrt(3)*sec.PlasticModulus()/222; !(got < most && got > 0.85*most) {
		t.Errorf("a hardening tube needs %g mm, a plastic one %g", got, most)
	}
	near(t, "hardened", LeastLeg(sec, law, k)*0.5*222*law.Stress(20*k)/math.Sqrt(3), Hollow(sec, law).Moment(k), 1e-12)
}

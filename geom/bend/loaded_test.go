package bend

import (
	"testing"

	"overbend/geom"
)

// The line under load ends where the model's own state has the roller touch,
// with the state's slope and developed length: two ways to the same place.
func TestLoadedLine(t *testing.T) {
	p, err := onRig(davit(), Rig{Supports: 420, Roller: 40}, 356.6)
	if err != nil {
		t.Fatal(err)
	}
	final, err := p.ToMelted(33 * geom.Degree)
	if err != nil {
		t.Fatal(err)
	}
	states, err := p.Schedule(final)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range states {
		line := p.LoadedLine(s)
		// From the roller's centre back along the normal to the centreline.
		contact := s.Roller.Add(geom.Polar(p.offset(), s.Slope).Left())
		if d := line.End().Dist(contact); d > 1e-6 {
			t.Errorf("step %d: the line ends %g mm from the roller contact", i, d)
		}
		if d := line.Length() - s.Developed(); d > 1e-3 || d < -1e-3 {
			t.Errorf("step %d: the line is %g mm longer than the tube between crown and roller", i, d)
		}
		turn := geom.Angle(0)
		for _, g := range line.Segments() {
			turn += g.Sweep()
			if g.Length() < sliver {
				t.Errorf("step %d: a piece of %.3g mm", i, g.Length())
			}
		}
		if d := float64(turn - s.Slope); d > 1e-9 || d < -1e-9 {
			t.Errorf("step %d: the line turns %g rad more than the slope at the roller", i, d)
		}
	}
}

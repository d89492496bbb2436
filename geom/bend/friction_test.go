package bend

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
	"overbend/profiles"
)

// TestFrictionBalance: forces and moments on the piece of tube from the tangent
// point to its end balance. Where the tube lies comes from the line under load,
// and what it carries from the section: the formula's lever arms are not used.
func TestFrictionBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		p := press(t, j.stack, j.rig, j.block)
		s, err := p.ToLoaded(j.angle)
		if err != nil {
			return
		}
		mu := rapid.Float64Range(0, 0.4).Draw(t, "mu")
		tangent := onArc(s.Crown, float64(s.HalfWrap)/s.Crown).at
		line := p.LoadedLine(s)
		last := line.Segments()
		_, along := last[len(last)-1].At(1)
		along = along.Mul(1 / along.Norm())
		square := along.Left()
		// The roller touches the underside of the stack.
		contact := line.End().Sub(square.Mul(j.stack.Depth/2 + j.stack.StripThickness))
		arm := contact.Sub(tangent)
		// One roller's push from the balance of moments about the tangent point.
		push := j.stack.Moment(s.Crown) / (arm.Cross(square) + mu*arm.Cross(along))
		want := 2 * push * (square.Y + mu*along.Y)
		near(t, "force", s.ForceWithFriction(mu), want, 1e-4)
		near(t, "without friction", s.ForceWithFriction(0), s.Force, 1e-15)
		if more := s.ForceWithFriction(mu + 0.01); s.Slope > 10*geom.Degree && s.Arm > j.stack.Depth && s.Across*s.Slope.Cos() < s.Arm*s.Slope.Sin() && !(more > s.ForceWithFriction(mu)) {
			t.Fatalf("more friction needs %g N, less %g N", more, s.ForceWithFriction(mu))
		}
	})
}

// TestFrictionShare: by how much rollers that do not turn (0.15) raise the force
// on the example canopy hoop, and on the same block at angles that all but
// close: the figures by which a press must be judged. A flat tube has no force
// either way.
func TestFrictionShare(t *testing.T) {
	hoop := Stack{
		Tube:           Hollow(roundTube(25.4, 1.651), profiles.RambergOsgood{Youngs: 200000, Proof: 285.2, Exponent: 10.38}),
		Strip:          Massive(profiles.Solid{Width: 25.4, Depth: 4.7625}, profiles.RambergOsgood{Youngs: 205000, Proof: 425.5, Exponent: 22.4}),
		Depth:          25.4,
		StripThickness: 4.7625,
	}
	for _, c := range []struct{ angle, supports, want, tol float64 }{
		{70, 622.3, 1.07, 0.01}, {120, 850.9, 1.3, 0.03}, {145, 901.7, 1.8, 0.06},
	} {
		p := press(t, hoop, Rig{Supports: c.supports, Roller: 38.1}, 397.2)
		s := state(t)(p.ToMelted(geom.Angle(c.angle) * geom.Degree))
		share := s.ForceWithFriction(0.15) / s.Force
		t.Logf("%g deg: slope %.1f deg, arm %.0f mm, across %.0f mm: %.3f of the force without friction", c.angle, s.Slope.Degrees(), s.Arm, s.Across, share)
		near(t, "share", share, c.want, c.tol)
		if got := p.touch().ForceWithFriction(0.15); got != 0 {
			t.Errorf("a flat tube needs %g N", got)
		}
	}
}

// TestLargestForce: no friction up to the stated one asks for more, and on close
// supports that is less friction, not more.
func TestLargestForce(t *testing.T) {
	fell, rose := false, false
	rapid.Check(t, func(t *rapid.T) {
		s := State{
			Push: 1e4, Force: 2e4,
			Arm:    rapid.Float64Range(1, 500).Draw(t, "arm"),
			Across: rapid.Float64Range(1, 100).Draw(t, "across"),
			Slope:  geom.Angle(rapid.Float64Range(0, 1.5).Draw(t, "slope")),
		}
		mu := rapid.Float64Range(0.01, 0.5).Draw(t, "mu")
		most := s.LargestForce(mu)
		reached := false
		for i := range 21 {
			f := s.ForceWithFriction(mu * float64(i) / 20)
			reached = reached || math.Abs(f-most) <= 1e-12*most
			if f > most*(1+1e-12) {
				t.Fatalf("%g N at %g of the friction, largest %g", f, float64(i)/20, most)
			}
		}
		if !reached {
			t.Fatalf("%g N is reached by none", most)
		}
		fell = fell || s.ForceWithFriction(mu) < s.ForceWithFriction(0)
		rose = rose || s.ForceWithFriction(mu) > s.ForceWithFriction(0)
	})
	if !fell || !rose {
		t.Errorf("the force fell: %v, rose: %v", fell, rose)
	}
}

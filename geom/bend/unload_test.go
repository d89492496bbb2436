package bend

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
	"overbend/profiles"
)

// TestUnload: a metal that unloads on a softer line springs back further, in a
// plain bend by the same share more, so its block is tighter: on the demo by
// 0.6 % at 0.95 of Young's modulus. Nothing said counts as 1.
func TestUnload(t *testing.T) {
	tube := davit().Tube
	tube.Law = profiles.RambergOsgood{Youngs: 70000, Proof: 287.5, Exponent: 29.63}
	radius := func(share float64) float64 {
		m := tube
		m.Unload = share
		s, err := Overbend(m, 1.0/420)
		if err != nil {
			t.Fatal(err)
		}
		return 1/s.Pressed - 20
	}
	hard := radius(1)
	if got := radius(0); got != hard {
		t.Errorf("nothing said gives %g, a share of 1 %g", got, hard)
	}
	if off := 100 * (radius(0.95)/hard - 1); math.Abs(off+0.6) > 0.05 {
		t.Errorf("the block moves by %.3f %%, want -0.6", off)
	}
	m := tube
	m.Unload = 0.8
	a, b := Release(tube, 1.0/380), Release(m, 1.0/380)
	near(t, "springback", b.Pressed-b.Final, (a.Pressed-a.Final)/0.8, 1e-12)
	if b.Moment != a.Moment {
		t.Errorf("the moment is %g, was %g: loading does not change", b.Moment, a.Moment)
	}
	// What never yielded comes back straight, and no further.
	if s := Release(m, 1e-5); s.Final != 0 {
		t.Errorf("an elastic bend is left at %g/mm", s.Final)
	}
	if s := Release(m, -1e-5); s.Final != 0 {
		t.Errorf("an elastic bend the other way is left at %g/mm", s.Final)
	}
}

// TestUnloadPress: at the press the softer line is released by too, and nothing
// else changes. A share for tube and filler alike is one for both together.
func TestUnloadPress(t *testing.T) {
	hard, soft, filler := davit(), davit(), davit()
	soft.Tube.Unload = 0.9
	filler.Filler.Unload = 0.9
	rig := Rig{Supports: 420, Roller: 40}
	at := func(s Stack) State { return state(t)(press(t, s, rig, 361).AtWrap(16 * geom.Degree)) }
	a, b, c := at(hard), at(soft), at(filler)
	if b.Force != a.Force || b.Travel != a.Travel || b.Work != a.Work || b.Loaded != a.Loaded || c.Melted != a.Melted {
		t.Errorf("loading changes: %+v, was %+v", b, a)
	}
	if !(b.Melted < a.Melted && b.Filled < a.Filled && c.Filled < a.Filled && c.Filled > b.Filled) {
		t.Errorf("springs back to %g and %g of %g, with a soft filler to %g", b.Melted, b.Filled, a.Filled, c.Filled)
	}
	// The wrap's share of it in closed form; the legs add to it.
	k := press(t, hard, rig, 361).Curvature()
	wrap := 2 * float64(a.HalfWrap) / k * hard.Tube.Moment(k) / hard.Tube.Stiffness() * (1/0.9 - 1)
	if lost := float64(a.Melted - b.Melted); !(lost > wrap && lost < 1.3*wrap) {
		t.Errorf("springs back by %g more, the wrap alone by %g", lost, wrap)
	}
	h := newByHand(soft, k, 400)
	_, _, kept := h.walk(h.stays, 0, b.Arm)
	near(t, "melted", float64(b.Melted), 2*(float64(b.HalfWrap)*Release(soft.Tube, k).Ratio()+kept), 1e-5)
}

// TestUnloadOverbend: what is asked for is what is left, at any share.
func TestUnloadOverbend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Hollow(drawTube(t), drawLaw(t))
		m.Unload = rapid.Float64Range(0.5, 1).Draw(t, "share")
		final := rapid.Float64Range(0.01, 0.5).Draw(t, "depths per radius") / m.Outer.Depth
		s, err := Overbend(m, final)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "left", s.Final, final, 1e-6)
	})
}

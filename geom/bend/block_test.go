package bend

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// TestBlockAsSimpleBeam: a block so flat that its arc hardly rises, below a
// narrow ram, is a beam on two supports with a load in the middle: M = F L/4 and
// a stress of 6 M/(t h²), with L from tangent point to tangent point.
func TestBlockAsSimpleBeam(t *testing.T) {
	const radius, half, force = 1e6, 200.0, 60e3
	b := BlockBeam{Radius: radius, Height: 60, Thickness: 40, Ram: 1e-3, Young: 205000}
	l := BlockLoad{force, geom.Angle(math.Asin(half / radius))}
	got := b.Under(l)
	m := force * 2 * half / 4
	near(t, "stress", got.Stress, 6*m/(40*60*60), 1e-3)
	// What shear adds is the narrow ram's own: take it off, in closed form with
	// G = E/2.6 and five sixths of the area.
	shear := force / 1e-3 / (5.0 / 6 * 205000 / 2.6 * 2400)
	near(t, "curvature", got.Closes/radius-shear, m/(205000*40*60*60*60/12), 2e-3)
	// A wide ram relieves the middle: M = F/2 (L/2 - w/4).
	b.Ram = 120
	got = b.Under(l)
	m = force / 2 * (half - 30)
	near(t, "stress below a wide ram", got.Stress, 6*m/(40*60*60), 1e-3)
	near(t, "curvature below a wide ram", got.Closes/radius, m/(205000*720000)+force/120/(5.0/6*205000/2.6*2400), 1e-3)
	// Tube and ram on each other: the ram's edges bend the block away.
	if got := b.Under(BlockLoad{force, 0}); !(got.Closes*205000*720000/radius < 0) {
		t.Errorf("below a ram and above a tube's crown the arc closes by %g", got.Closes)
	}
}

// TestBlockByForces: curvature and stress against a sum over every force beyond
// a section: the ram's in thin strips, the tangent point's as a vector. And a
// block of 524 x 60 such as shops cut gives by some three hundredths.
func TestBlockByForces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := BlockBeam{
			Radius:    rapid.Float64Range(60, 3000).Draw(t, "radius"),
			Thickness: rapid.Float64Range(10, 120).Draw(t, "thickness"),
			Ram:       rapid.Float64Range(10, 200).Draw(t, "ram"),
			Young:     205000,
		}
		l := BlockLoad{rapid.Float64Range(1e3, 3e5).Draw(t, "force"), geom.Angle(rapid.Float64Range(0.5, 75).Draw(t, "wrap")) * geom.Degree}
		sin, cos := math.Sincos(float64(l.HalfWrap))
		at := geom.Pt(b.Radius*sin, b.Radius*(1-cos))
		b.Height = at.Y + rapid.Float64Range(10, 200).Draw(t, "height")
		push := geom.Pt(-sin, cos).Mul(l.Force / 2 / cos)
		const strips = 400
		beyond := func(x, rise float64) (moment, thrust float64) {
			mid := geom.Pt(x, (rise+b.Height)/2)
			if at.X >= x {
				moment, thrust = at.Sub(mid).Cross(push), -push.X
			}
			for i := range strips {
				q := geom.Pt((float64(i)+0.5)*b.Ram/2/strips, b.Height)
				if q.X >= x {
					moment += q.Sub(mid).Cross(geom.Pt(0, -l.Force/2/strips))
				}
			}
			return moment, thrust
		}
		got := b.Under(l)
		m, _ := beyond(0, 0)
		section := b.Thickness * math.Pow(b.Height, 3) / 12
		want := b.Radius * (m/(b.Young*section) + l.Force/b.Ram*2.6/(5.0/6*b.Young*b.Thickness*b.Height))
		if scale := b.Radius * l.Force * at.X / (b.Young * section); math.Abs(got.Closes-want) > 1e-5*math.Abs(want)+1e-6*scale {
			t.Fatalf("closes by %g, by forces %g", got.Closes, want)
		}
		worst := 0.0
		for i := range 201 {
			a := float64(l.HalfWrap) * float64(i) / 200 * (1 - 1e-12)
			x, rise := b.Radius*math.Sin(a), b.Radius*(1-math.Cos(a))
			m, n := beyond(x, rise)
			h := b.Height - rise
			for _, y := range []float64{-h / 2, h / 2} {
				worst = max(worst, math.Abs(m*y/(b.Thickness*h*h*h/12)+n/(b.Thickness*h)))
			}
		}
		if math.Abs(got.Stress-worst) > 0.03*worst {
			t.Fatalf("stress %g MPa, by forces %g", got.Stress, worst)
		}
	})
	shop := BlockBeam{Radius: 800, Height: 60, Thickness: 40, Ram: 60, Young: 205000}
	if r := shop.Under(BlockLoad{60e3, 14.5 * geom.Degree}); !(r.Closes > 0.025 && r.Closes < 0.04) {
		t.Errorf("closes by %g", r.Closes)
	}
}

// TestLeastHeight: as high as needed, for every load, and a little less will not
// do.
func TestLeastHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := BlockBeam{Radius: rapid.Float64Range(100, 2000).Draw(t, "radius"), Thickness: rapid.Float64Range(20, 80).Draw(t, "thickness"), Ram: 60, Young: 205000}
		loads := []BlockLoad{
			{rapid.Float64Range(1e3, 2e5).Draw(t, "force"), geom.Angle(rapid.Float64Range(0, 40).Draw(t, "wrap")) * geom.Degree},
			{rapid.Float64Range(1e3, 2e5).Draw(t, "force"), geom.Angle(rapid.Float64Range(0, 40).Draw(t, "wrap")) * geom.Degree},
		}
		share, stress := 0.003, rapid.Float64Range(80, 300).Draw(t, "stress")
		h, err := b.LeastHeight(loads, share, stress)
		if err != nil {
			if !errors.Is(err, ErrNoSolution) {
				t.Fatal(err)
			}
			wantRefusal(t, "no height", err, BlockGivesWay)
			h = 1.9 * b.Radius
		}
		worst := func(h float64) bool {
			b.Height = h
			for _, l := range loads {
				if r := b.Under(l); math.Abs(r.Closes) > share || r.Stress > stress {
					return true
				}
			}
			return false
		}
		if err != nil {
			if !worst(h) {
				t.Fatalf("%g mm would do, but: %v", h, err)
			}
			return
		}
		if worst(h) || !worst(h-0.11) {
			t.Fatalf("%g mm will not do: %v; %g mm will not: %v", h, worst(h), h-0.11, worst(h-0.11))
		}
	})
	weak := BlockBeam{Radius: 100, Thickness: 1, Ram: 60, Young: 205000}
	if h, err := weak.LeastHeight([]BlockLoad{{1e9, 0.3}}, 0.003, 100); !errors.Is(err, ErrNoSolution) {
		t.Errorf("a block of 1 mm holds a meganewton at %g mm (%v)", h, err)
	}
}

func BenchmarkLeastHeight(b *testing.B) {
	block := BlockBeam{Radius: 356.6, Thickness: 40, Ram: 60, Young: 205000}
	var loads []BlockLoad
	for i := range 14 {
		loads = append(loads, BlockLoad{53e3, geom.Angle(i) * geom.Degree * 18 / 13})
	}
	for b.Loop() {
		if _, err := block.LeastHeight(loads, 0.003, 120); err != nil {
			b.Fatal(err)
		}
	}
}

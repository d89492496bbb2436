package tooling

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"overbend/geom"
)

// fixtureSpec draws a job for a fixture: any bend, legs, cuts and pin, with tails
// beside the arc or none.
func fixtureSpec(t *rapid.T) FixtureSpec {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	depth := f("depth", 10, 100)
	s := FixtureSpec{Pin: f("pin", 3, 16), Round: rapid.SampledFrom([]float64{0, 5, 6.35}).Draw(t, "round")}
	s.Bent = BentSpec{
		Radius: depth * f("radius over depth", 0.8, 12), Depth: depth,
		Angle: geom.Angle(f("angle", 2, 175)) * geom.Degree,
	}
	for i := range s.Bent.Legs {
		s.Bent.Cuts[i] = geom.Angle(f("cut", -60, 60)) * geom.Degree
		s.Bent.Legs[i] = depth/2*math.Abs(s.Bent.Cuts[i].Tan()) + f("leg", 0, 1)*rapid.SampledFrom([]float64{60, 500}).Draw(t, "most leg") + rapid.SampledFrom([]float64{0, 80, 120, 200}).Draw(t, "least leg")
		s.Rough[i] = s.Bent.Radius*float64(s.Bent.Angle)/2 + s.Bent.Legs[i] + depth/2*math.Abs(s.Bent.Cuts[i].Tan()) + f("trim", 0, 60)
	}
	s.Shape = s.Bent.AsDrawn()
	if rapid.Bool().Draw(t, "tails") {
		// A tighter arc, then ever flatter ones, of the same turn in all.
		share := f("share", 0.6, 0.95)
		half := float64(s.Bent.Angle) / 2
		p := geom.Start(geom.Point{}).ArcAbout(geom.Pt(0, 0.97*s.Bent.Radius), geom.Angle(half*share))
		dir, left := half*share, half*(1-share)
		for i := range 12 {
			turn := left * []float64{0.3, 0.2, 0.14, 0.1, 0.08, 0.06, 0.04, 0.03, 0.02, 0.015, 0.01, 0.005}[i]
			r := 0.97 * s.Bent.Radius * (1.2 + float64(i))
			centre := p.End().Add(geom.Polar(r, geom.Angle(dir)).Left())
			p = p.ArcAbout(centre, geom.Angle(turn))
			dir += turn
		}
		s.Shape = Finished{p, f("shift", -1, 1)}
	}
	return s
}

// walked returns the centreline of one half by walking it in small straight steps
// from the crown, with its own bookkeeping of angles: x to the right, y up towards
// the centre, in the shape's own frame. It goes on straight.
func walked(p geom.Path, to float64) (pts [][2]float64, dirs []float64) {
	x, y, dir, at := 0.0, 0.0, 0.0, 0.0
	for i := range len(p.Vertices) - 1 {
		a, b := p.Vertices[i], p.Vertices[i+1]
		turn := 4 * math.Atan(a.Bulge)
		chord := math.Hypot(b.X-a.X, b.Y-a.Y)
		length := chord
		if turn != 0 {
			length = chord * (turn / 2) / math.Sin(turn/2)
		}
		n := int(math.Ceil(length/0.5)) + 1
		for k := range n {
			pts, dirs = append(pts, [2]float64{x, y}), append(dirs, dir)
			// The chord of one step of an arc.
			d, c := turn/float64(n), length/float64(n)
			if d != 0 {
				c *= math.Sin(d/2) / (d / 2)
			}
			x, y = x+c*math.Cos(dir+d/2), y+c*math.Sin(dir+d/2)
			dir += d
			_ = k
		}
		at += length
	}
	for ; at < to; at += 0.5 {
		pts, dirs = append(pts, [2]float64{x, y}), append(dirs, dir)
		x, y = x+0.5*math.Cos(dir), y+0.5*math.Sin(dir)
	}
	return append(pts, [2]float64{x, y}), append(dirs, dir)
}

// nearestTo returns the least distance from q to a curve through points with
// directions: the nearest point's tangent is followed to the foot, which is exact
// to the step's curvature squared.
func nearestTo(q [2]float64, pts [][2]float64, dirs []float64, face float64) float64 {
	best := math.Inf(1)
	for i := range pts {
		// On the face, the same direction and face mm to the left.
		x, y := pts[i][0]-face*math.Sin(dirs[i]), pts[i][1]+face*math.Cos(dirs[i])
		best = min(best, math.Hypot(q[0]-x, q[1]-y))
	}
	return best
}

// Every pin stands where the spec asks: it touches the finished face by a
// minimisation over the face walked in small steps, its coordinates follow from
// the station by rotation algebra, and it keeps off saw, edges and other holes.
func TestFixtureRandom(t *testing.T) {
	made := 0
	rapid.Check(t, func(t *rapid.T) {
		s := fixtureSpec(t)
		f, err := NewFixture(s)
		var size *SizeError
		if errors.As(err, &size) && (size.Why == NoRoomForPins || size.Why == PlateTooLarge) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		made++
		checkFixture(t, s, f)
	})
	if made < 20 {
		t.Errorf("only %d fixtures of all could be made", made)
	}
}

type fataler interface {
	Errorf(string, ...any)
	Fatalf(string, ...any)
}

func checkFixture(t fataler, s FixtureSpec, f Fixture) {
	// Which frame: the part's datum from the shape's, by hand. Crown up, centre of
	// the arc at (0, 0), turned by half the angle, the inside corner of end 1 at
	// the origin.
	h := float64(s.Bent.Angle) / 2
	cos, sin := math.Cos(h), math.Sin(h)
	corner := func(x, y float64) (float64, float64) { return x*cos + y*sin, -x*sin + y*cos }
	inner := s.Bent.Radius - s.Bent.Depth/2
	reach := s.Bent.Depth / 2 * math.Tan(float64(s.Bent.Cuts[0]))
	// End 1's inside corner about the arc's centre: along the leg from its tangent.
	x0, y0 := corner(-inner*sin-(s.Bent.Legs[0]-reach)*cos, inner*cos-(s.Bent.Legs[0]-reach)*sin)
	shift := f.Place.Apply(geom.Point{})
	// back returns a point of the plate in the shape's frame, mirrored to the right
	// for leg 1.
	back := func(p geom.Point, leg int) [2]float64 {
		x, y := p.X-shift.X+x0, p.Y-shift.Y+y0
		x, y = x*cos-y*sin, x*sin+y*cos
		y = s.Bent.Radius - y - s.Shape.Shift
		if leg == 1 {
			x = -x
		}
		return [2]float64{x, y}
	}
	pts, dirs := walked(s.Shape.Half, max(s.Rough[0], s.Rough[1])+100)
	inside := map[int]int{}
	for _, p := range f.Pins {
		q := back(p.At, p.Leg)
		switch p.Touches {
		case TouchInside, TouchOutside:
			face := s.Bent.Depth / 2
			if p.Touches == TouchOutside {
				face = -face
			}
			inside[p.Leg]++
			// The walk's points are 0.5 mm apart: beside the foot by 0.25 mm at most,
			// which lengthens the distance by 0.25²/(2 r).
			if got, r := nearestTo(q, pts, dirs, face), f.Pin/2; got < r-1e-6 || got > r+0.04 {
				t.Errorf("pin %+v is %g mm from its face, radius %g", p, got, r)
			}
			if off := footOff(q, pts, dirs, face, f.Pin/2); math.Abs(off) > 1e-6 {
				t.Errorf("pin %+v: %g mm off its face", p, off)
			}
		case TouchEnd:
			// On the centreline of a leg that is straight there, a radius past the end.
			d := math.Hypot(q[0]-endOf(s, p.Leg)[0], q[1]-endOf(s, p.Leg)[1])
			if math.Abs(d-f.Pin/2) > 1e-6 {
				t.Errorf("stop %+v is %g mm from the end", p, d)
			}
		}
		for i, c := range f.Cuts {
			if d := segmentDistance(p.At, c[0], c[1]); d < f.Pin/2+sawRoom-1e-6 {
				t.Errorf("pin %+v is %g mm from cut %d", p, d, i+1)
			}
		}
	}
	if inside[1]+inside[2] != 3 || inside[1] == 0 || inside[2] == 0 || inside[0] != 1 {
		t.Errorf("pins %+v", f.Pins)
	}
	// Tails bring two pins nearer to each other than their stations by a little.
	if base := f.Pins[0].At.Dist(f.Pins[1].At); base < 0.9*max(s.Bent.Depth/2, 2.5*s.Pin) || f.Width < 6*s.Pin-1e-6 {
		t.Errorf("pins 1 and 2 are %g mm apart, the plate %g wide", base, f.Width)
	}
	for i, a := range f.Part.Holes {
		if a.Radius != s.Pin/2 {
			t.Errorf("hole %d has radius %g", i, a.Radius)
		}
		for _, b := range f.Part.Holes[:i] {
			if a.Centre.Dist(b.Centre) < 2*s.Pin-1e-6 {
				t.Errorf("holes at %v and %v", a.Centre, b.Centre)
			}
		}
		c := a.Centre
		if e := min(c.X, c.Y, f.Width-c.X, f.Height-c.Y); e < 1.5*s.Pin-1e-6 {
			t.Errorf("hole at %v is %g mm from the edge", c, e)
		}
	}
	if n := len(f.Part.Holes); n != len(f.Pins)+2 || f.Part.Holes[n-2].Centre != f.Datum[0] || f.Part.Holes[n-1].Centre != f.Datum[1] || f.Datum[0].Y != f.Datum[1].Y {
		t.Errorf("%d holes, datum %v", n, f.Datum)
	}
	for _, d := range f.Datum {
		if f.Tube.Contains(d) || f.Tube.Distance(d) < 1.5*s.Pin {
			t.Errorf("datum hole %v under the tube", d)
		}
	}
	// The tube rests on its pins and stands on no other; below it lies the strip of
	// the datum holes.
	for _, p := range f.Pins {
		if f.Tube.Contains(p.At) || f.Tube.Distance(p.At) < f.Pin/2-1e-6 {
			t.Errorf("pin %+v under the tube", p)
		}
		if p.Touches != TouchEnd && f.Tube.Distance(p.At) > f.Pin/2+1e-6 {
			t.Errorf("pin %+v holds what is cut off", p)
		}
	}
	if y := f.Tube.Bounds().Min.Y; y < 3*f.Pin+plateRoom-1e-6 {
		t.Errorf("the tube lies %g mm above the edge", y)
	}
	// The scribed faces lie on the tube's within half of what a line is wide, in
	// pieces that a table takes.
	for _, m := range f.Part.Marks[:2] {
		for _, g := range m.Segments() {
			for k := range 5 {
				if q, _ := g.At(float64(k) / 4); f.Tube.Distance(q) > 0.05 {
					t.Errorf("scribed %g mm off the tube at %v", f.Tube.Distance(q), q)
				}
			}
			if g.Length() < 0.1 {
				t.Errorf("a piece of %g mm", g.Length())
			}
		}
	}
	// The cut lines: through the drawn corners, a depth past them.
	plate := geom.Rect{Max: geom.Pt(f.Width, f.Height)}.Grow(-plateRoom + 1e-6)
	for i, c := range f.Cuts {
		want := 2*s.Bent.Depth + s.Bent.Depth/math.Cos(float64(s.Bent.Cuts[i]))
		if got := c[0].Dist(c[1]); math.Abs(got-want) > 1e-6 {
			t.Errorf("cut %d is %g mm long, want %g", i+1, got, want)
		}
		if !plate.Has(c[0]) || !plate.Has(c[1]) {
			t.Errorf("cut %d leaves the plate", i+1)
		}
	}
	if d := f.Cuts[0][1].Sub(f.Cuts[0][0]).Unit(); math.Abs(d.X+math.Sin(float64(s.Bent.Cuts[0]))) > 1e-9 {
		t.Errorf("cut 1 runs along %v", d)
	}
	if !plate.Holds(f.Tube.Bounds(), 0) {
		t.Errorf("the tube leaves the plate")
	}
}

// footOff returns by how much the distance from q to a walked face, at the foot of
// the perpendicular, differs from r: the foot is found where the direction to q
// stands square on the face, by interpolation between the two points that it lies
// between.
func footOff(q [2]float64, pts [][2]float64, dirs []float64, face, r float64) float64 {
	best := math.Inf(1)
	for i := range len(pts) - 1 {
		along := func(k int) (float64, float64) {
			x, y := pts[k][0]-face*math.Sin(dirs[k]), pts[k][1]+face*math.Cos(dirs[k])
			c, s := math.Cos(dirs[k]), math.Sin(dirs[k])
			return (q[0]-x)*c + (q[1]-y)*s, (q[1]-y)*c - (q[0]-x)*s
		}
		a, da := along(i)
		b, db := along(i + 1)
		if a*b > 0 {
			continue
		}
		// Between them the face is an arc of the two directions: the distance from q
		// square to it follows at either end from a, the way along, and the arc's
		// radius; for a short step a parabola does.
		turn := dirs[i+1] - dirs[i]
		d := math.Abs(da)
		if turn != 0 {
			// Exact: q's distance from the arc's centre, less the arc's radius.
			step := math.Hypot(pts[i+1][0]-pts[i][0], pts[i+1][1]-pts[i][1])
			rad := step/2/math.Sin(turn/2) - face
			cx := pts[i][0] - (rad+face)*math.Sin(dirs[i])
			cy := pts[i][1] + (rad+face)*math.Cos(dirs[i])
			d = math.Abs(math.Hypot(q[0]-cx, q[1]-cy) - math.Abs(rad))
		}
		_ = db
		if math.Abs(d-r) < math.Abs(best) {
			best = d - r
		}
	}
	if q[0] < 1e-6 && math.IsInf(best, 1) || math.Abs(q[0]) < 1e-9 {
		best = math.Abs(q[1]-face) - r // at the crown, where the face is level
	}
	return best
}

// endOf returns the rough end of a leg in the shape's frame, by walking there.
func endOf(s FixtureSpec, leg int) [2]float64 {
	to := s.Rough[leg-1]
	p := s.Shape.Half
	e := p.End()
	over := to - p.Length()
	if over < 0 {
		q := p.UpTo(to).End()
		return [2]float64{q.X, q.Y}
	}
	h := float64(s.Bent.Angle) / 2
	return [2]float64{e.X + over*math.Cos(h), e.Y + over*math.Sin(h)}
}

func segmentDistance(p, a, b geom.Point) float64 {
	u := b.Sub(a)
	t := min(1, max(0, p.Sub(a).Dot(u)/u.Dot(u)))
	return p.Dist(a.Add(u.Mul(t)))
}

// plainFixture is a plain job for a fixture.
func plainFixture() FixtureSpec {
	s := FixtureSpec{Pin: 10, Round: 5, Rough: [2]float64{390, 390}, Bent: BentSpec{Radius: 420, Depth: 40, Angle: 33 * geom.Degree, Legs: [2]float64{250, 250}, Cuts: [2]geom.Angle{0, 22.5 * geom.Degree}}}
	s.Shape = s.Bent.AsDrawn()
	return s
}

// A plate at hand does either way up, down to the very size that is needed; one
// that is too small is refused by both sizes.
func TestFixturePlateAtHand(t *testing.T) {
	s := plainFixture()
	s.Round = 0
	least, err := NewFixture(s)
	if err != nil {
		t.Fatal(err)
	}
	w, h := least.Width, least.Height
	for _, c := range []struct {
		size [2]float64
		ok   bool
	}{{[2]float64{w, h}, true}, {[2]float64{h, w}, true}, {[2]float64{w + 100, h + 50}, true}, {[2]float64{w - 0.01, h}, false}, {[2]float64{w, h - 0.01}, false}} {
		s.Size = c.size
		f, err := NewFixture(s)
		var sheet *SheetError
		switch {
		case !c.ok && (!errors.As(err, &sheet) || sheet.Part != "fixture" || math.Abs(sheet.Width-w) > 1e-9 || math.Abs(sheet.Height-h) > 1e-9 || sheet.Sheet.Width != c.size[0]):
			t.Errorf("%v: %v", c.size, err)
		case c.ok && err != nil:
			t.Errorf("%v: %v", c.size, err)
		case c.ok:
			if max(f.Width, f.Height) != max(c.size[0], c.size[1]) || f.Width < f.Height {
				t.Errorf("%v: a plate of %g x %g", c.size, f.Width, f.Height)
			}
			checkFixture(t, s, f)
		}
	}
	s.Size, s.Round = [2]float64{}, 5
	if f, _ := NewFixture(s); math.Mod(f.Width, 5) != 0 || math.Mod(f.Height, 5) != 0 || f.Width < w || f.Width >= w+5 {
		t.Errorf("proposed %g x %g", f.Width, f.Height)
	}
}

// Pushed at the crown the part rests on all three inside pins without friction:
// the three reactions that balance the push are pushes too (statics, solved as
// three linear equations).
func TestFixtureHolds(t *testing.T) {
	for _, legs := range [][2]float64{{250, 250}, {250, 180}, {150, 300}} {
		for _, angle := range []geom.Angle{5, 33, 90, 120} {
			s := plainFixture()
			s.Bent.Radius, s.Bent.Angle, s.Bent.Legs = 150, angle*geom.Degree, legs
			s.Shape = s.Bent.AsDrawn()
			for i := range s.Rough {
				s.Rough[i] = s.Bent.Radius*float64(s.Bent.Angle)/2 + legs[i] + 30
			}
			f, err := NewFixture(s)
			if err != nil {
				t.Fatal(err)
			}
			// The force of a pin on the tube runs from its middle to the face: leg 1's up,
			// leg 2's turned by the angle, the crown's inwards by half of it.
			force := func(p FixturePin) geom.Point {
				switch p.Leg {
				case 1:
					return geom.Pt(0, 1)
				case 2:
					return geom.Polar(1, 90*geom.Degree-s.Bent.Angle)
				}
				return geom.Polar(-1, 90*geom.Degree-s.Bent.Angle/2)
			}
			var m [3][4]float64
			for k, p := range f.Pins[:4] {
				u, col, sign := force(p), k, 1.0
				if k == 3 {
					sign = -1
				}
				m[0][col], m[1][col], m[2][col] = sign*u.X, sign*u.Y, sign*p.At.Cross(u)
			}
			for k, r := range solve3(m) {
				if !(r > 0) {
					t.Errorf("legs %v, %g deg: pin %d takes %g of the push", legs, float64(angle), k+1, r)
				}
			}
		}
	}
}

// solve3 solves three equations by Cramer's rule; the last column is the right side.
func solve3(m [3][4]float64) (x [3]float64) {
	det := func(c [3]int) float64 {
		a := func(i, k int) float64 { return m[i][c[k]] }
		return a(0, 0)*(a(1, 1)*a(2, 2)-a(1, 2)*a(2, 1)) - a(0, 1)*(a(1, 0)*a(2, 2)-a(1, 2)*a(2, 0)) + a(0, 2)*(a(1, 0)*a(2, 1)-a(1, 1)*a(2, 0))
	}
	d := det([3]int{0, 1, 2})
	for k := range x {
		c := [3]int{0, 1, 2}
		c[k] = 3
		x[k] = det(c) / d
	}
	return x
}

// Without spare past the cuts there is no stop, with spare at one end it stands
// there; two pins need a leg, and a plate may be larger than any sheet.
func TestFixtureEdges(t *testing.T) {
	s := plainFixture()
	end := s.Bent.Radius*float64(s.Bent.Angle)/2 + 250
	last := func() FixturePin {
		f, err := NewFixture(s)
		if err != nil {
			t.Fatal(err)
		}
		return f.Pins[len(f.Pins)-1]
	}
	s.Bent.Cuts = [2]geom.Angle{}
	s.Rough = [2]float64{end, end}
	if p := last(); p.Touches != TouchOutside {
		t.Errorf("without spare: %+v", p)
	}
	s.Rough = [2]float64{end, end + 20}
	if p := last(); p.Touches != TouchEnd || p.Leg != 2 {
		t.Errorf("spare at end 2: %+v", p)
	}
	s.Rough = [2]float64{end + 30, end + 20}
	if p := last(); p.Leg != 2 {
		t.Errorf("less spare at end 2: %+v", p)
	}
	s.Rough = [2]float64{end + 20, end + 20}
	if p := last(); p.Leg != 1 {
		t.Errorf("equal spare: %+v", p)
	}
	// Two pins go on the leg with more room, the third as far from the crown as their
	// middle.
	s.Bent.Legs[1], s.Rough[1] = 262, end+32
	f, err := NewFixture(s)
	if err != nil || f.Pins[0].Leg != 2 || f.Pins[2].Leg != 1 {
		t.Fatalf("%+v, %v", f.Pins, err)
	}
	fromCrown := func(i int) float64 { return f.Pins[i].At.Dist(f.Pins[3].At) }
	if m := f.Pins[0].At.Lerp(f.Pins[1].At, 0.5).Dist(f.Pins[3].At); math.Abs(fromCrown(2)-m) > 2*pinStep {
		t.Errorf("pin 3 is %g mm from pin 4, the middle of 1 and 2 is %g", fromCrown(2), m)
	}
	s.Bent.Angle, s.Bent.Legs = 90*geom.Degree, [2]float64{1400, 1400}
	s.Shape, s.Rough = s.Bent.AsDrawn(), [2]float64{2100, 2100}
	var wide *SizeError
	if _, err := NewFixture(s); !errors.As(err, &wide) || wide.Dimension != Width || wide.Most != widestPlate || !(wide.Value > widestPlate && wide.Value < 3000) {
		t.Errorf("a wide plate: %v", err)
	}
	s = plainFixture()
	s.Bent.Cuts = [2]geom.Angle{}
	for _, c := range []struct {
		legs  [2]float64
		why   Why
		value float64
	}{{[2]float64{30, 20}, NoRoomForPins, 30}, {[2]float64{400, 0}, NoRoomForPins, 0}, {[2]float64{5, 400}, NoRoomForPins, 5}, {[2]float64{2000, 2000}, PlateTooLarge, 0}, {[2]float64{250, 2999}, PlateTooLarge, 0}} {
		s.Bent.Legs = c.legs
		for i := range s.Rough {
			s.Rough[i] = end - 250 + c.legs[i] + 20
		}
		_, err := NewFixture(s)
		var size *SizeError
		if !errors.As(err, &size) || size.Why != c.why || c.why == NoRoomForPins && (size.Value != c.value || size.Facts.Hole != 10) {
			t.Errorf("legs %v: %v", c.legs, err)
		}
	}
}

func BenchmarkFixture(b *testing.B) {
	s := plainFixture()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := NewFixture(s); err != nil {
			b.Fatal(err)
		}
	}
}

// Two pins stand half a depth apart at least, and two and a half of their
// diameters: a leg must be longer by what the saw needs, 5 mm and a radius.
func TestFixtureLeastBase(t *testing.T) {
	for _, c := range []struct {
		depth, leg float64
		ok         bool
	}{{40, 34, false}, {40, 36, true}, {80, 49, false}, {80, 51, true}} {
		s := plainFixture()
		s.Bent.Depth, s.Bent.Cuts, s.Bent.Legs = c.depth, [2]geom.Angle{}, [2]float64{c.leg, c.leg}
		if _, err := NewFixture(s); (err == nil) != c.ok {
			t.Errorf("%+v: %v", c, err)
		}
	}
}

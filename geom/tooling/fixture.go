package tooling

import (
	"math"

	"overbend/geom"
)

// FixtureSpec describes a plate that holds the bent part flat while its ends are
// cut. Sizes in mm.
type FixtureSpec struct {
	Bent  BentSpec // as drawn: the cuts lie where the drawing has them
	Shape Finished // as bent: the pins touch it
	// Rough is how far the tube's ends lie from the crown before they are cut,
	// along the centreline.
	Rough [2]float64
	Pin   float64    // diameter of a dowel
	Size  [2]float64 // of a plate at hand; 0: propose
	Round float64    // what a proposed plate's sides are multiples of
}

// Fixture is the plate. Its datum is its lower left corner, x along the lower edge,
// which is parallel to leg 1; the bend's outside is on top.
type Fixture struct {
	Part  Part // pin holes, then datum holes; faces of the tube and cut lines as marks
	Pins  []FixturePin
	Datum [2]geom.Point    // holes to find the plate by again, on a line parallel to leg 1
	Cuts  [2][2]geom.Point // ends of the cut lines, from the inside of the bend outwards
	Tube  geom.Path        // outline of the finished, trimmed tube
	Place geom.Transform   // from the part's datum to the plate's
	Pin   float64          // diameter, mm
	Width float64          // mm
	// Height is the plate's other side, mm.
	Height float64
}

// FixturePin is a dowel hole.
type FixturePin struct {
	Touches Touch
	Leg     int // 1 or 2; 0: the crown
	At      geom.Point
}

// Touch is what a pin touches.
type Touch string

// What pins touch.
const (
	TouchInside  Touch = "inside"  // the inside of a leg
	TouchOutside Touch = "outside" // the outside of the bend, where a clamp pushes
	TouchEnd     Touch = "end"     // the end of a leg before it is cut
)

// Room on a fixture; common practice, no source.
const (
	// sawRoom is what holes keep off a cut line on either side, mm: half of a
	// thick blade and its guide.
	sawRoom = 5.0
	// plateRoom is from the tube and the cut lines to the plate's edge, mm.
	plateRoom = 5.0
	// Largest plate that is proposed, a stock sheet, mm.
	longestPlate, widestPlate = 3000.0, 1500.0
)

// NewFixture returns the plate. Where the longer leg has no room for two pins
// clear of the saw, or the other for one, the error is a [*SizeError], as it is
// where a plate would be larger than any stock sheet; a plate at hand that is too
// small is a [*SheetError].
//
// Two pins stand as far apart on the inside of one leg as it allows, the third on
// the inside of the other where, pushed at the crown, the part rests on all three:
// the push's line and the third pin's meet in a point that the others' resultant
// passes through, which lies between them if the third is as far from the crown as
// some point between them (statics of three forces). The fourth touches the crown,
// the fifth the end that reaches less far past its cut.
func NewFixture(s FixtureSpec) (Fixture, error) {
	if err := positive("fixture", named{Hole, s.Pin}, named{Radius, s.Bent.Radius}, named{Depth, s.Bent.Depth}); err != nil {
		return Fixture{}, err
	}
	if err := CheckEnds(s.Bent.Depth, s.Bent.Legs, s.Bent.Cuts); err != nil {
		return Fixture{}, err
	}
	d := pinning{FixtureSpec: s, tube: newFinishedTube(s.Bent, s.Shape, max(s.Rough[0], s.Rough[1])+s.Pin)}
	inner, outer := d.tube.face(-1), d.tube.face(1)
	d.outline = geom.Path{Vertices: append(inner.Vertices[:len(inner.Vertices):len(inner.Vertices)], outer.Reverse().Vertices...), Closed: true}
	for i, c := range d.tube.cuts {
		u := c.outer.Sub(c.inner).Unit().Mul(s.Bent.Depth)
		d.cuts[i] = [2]geom.Point{c.inner.Sub(u), c.outer.Add(u)}
	}
	pins, short := d.pins()
	if pins == nil {
		return Fixture{}, &SizeError{Part: "fixture", Dimension: Leg, Value: s.Bent.Legs[short], Why: NoRoomForPins, Facts: Facts{Hole: s.Pin}}
	}
	return d.plate(pins, [2]geom.Path{inner, outer})
}

// pinning is a fixture being laid out, in the part's datum.
type pinning struct {
	FixtureSpec
	tube    finishedTube
	outline geom.Path
	cuts    [2][2]geom.Point
}

// free reports whether a pin may stand at c: clear of the saw, and of the tube but
// where it touches it.
func (d *pinning) free(c geom.Point) bool {
	for _, l := range d.cuts {
		if (geom.Segment{From: l[0], To: l[1]}).Nearest(c).Dist(c) < d.Pin/2+sawRoom {
			return false
		}
	}
	return !d.outline.Near(c, d.Pin/2-geom.Coincident) && !d.outline.Contains(c)
}

// clear reports whether pins stand a diameter apart at least.
func (d *pinning) clear(c geom.Point, pins []FixturePin) bool {
	for _, p := range pins {
		if p.At.Dist(c) < 2*d.Pin {
			return false
		}
	}
	return true
}

// touching returns where a pin stands that touches the tube at a station of leg i,
// mm from the crown along the centreline: inside (-1) or outside (1).
func (d *pinning) touching(i int, station, side float64) geom.Point {
	p, _, out := d.tube.at(i, station)
	return p.Add(out.Mul(side * (d.Bent.Depth + d.Pin) / 2))
}

// find returns the first of a leg's stations at which a pin may stand on its
// inside, a diameter from others, trying them from one station to another; false
// where there is none.
func (d *pinning) find(i int, from, to float64, others []FixturePin) (float64, bool) {
	n := math.Ceil(math.Abs(to-from)/pinStep) + 1
	for k := range int(n) + 1 {
		s := from + (to-from)*float64(k)/n
		if c := d.touching(i, s, -1); d.kept(i, s) && d.clear(c, others) && d.free(c) {
			return s, true
		}
	}
	return 0, false
}

// kept reports whether the inside of leg i at a station is part of what is kept,
// not of what is cut off.
func (d *pinning) kept(i int, station float64) bool {
	p, _, out := d.tube.at(i, station)
	c := d.tube.cuts[i]
	return p.Sub(out.Mul(d.Bent.Depth/2)).Sub(c.inner).Dot(c.ahead) < 0
}

// pinStep is how finely places for pins are tried, mm.
const pinStep = 0.5

// leastBase is how far apart the two pins on one leg stand at least, in mm: half
// a depth, and with a web of a diameter and a half between their holes. Common
// practice, no source.
func (d *pinning) leastBase() float64 { return max(d.Bent.Depth/2, 2.5*d.Pin) }

// pins returns the pins; none, and which leg is too short, where there is no room
// for them.
func (d *pinning) pins() ([]FixturePin, int) {
	bend := d.Bent.Radius * float64(d.Bent.Angle) / 2 // to a bend line
	var near, far [2]float64
	var room [2]bool
	for i, leg := range d.Bent.Legs {
		if near[i], room[i] = d.find(i, bend, bend+leg, nil); room[i] {
			far[i], _ = d.find(i, bend+leg, bend, nil)
		}
	}
	main := 0
	if far[1]-near[1] > far[0]-near[0]+geom.Coincident {
		main = 1
	}
	other := 1 - main
	switch {
	case !room[main] || far[main]-near[main] < d.leastBase():
		if !room[main] && room[other] {
			main = other
		}
		return nil, main
	case !room[other]:
		return nil, other
	}
	pins := []FixturePin{
		{TouchInside, main + 1, d.touching(main, far[main], -1)},
		{TouchInside, main + 1, d.touching(main, near[main], -1)},
	}
	// As near as it can be to as far from the crown as the middle between them.
	middle := max(near[other], min(far[other], (far[main]+near[main])/2))
	out, above := d.find(other, middle, far[other], pins)
	in, under := d.find(other, middle, near[other], pins)
	best := out
	if !above || under && middle-in < out-middle {
		best = in
	}
	crown := d.touching(0, 0, 1)
	if !above && !under || !d.free(crown) || !d.clear(crown, pins) {
		return nil, other
	}
	pins = append(pins, FixturePin{TouchInside, other + 1, d.touching(other, best, -1)}, FixturePin{TouchOutside, 0, crown})

	ends := [2]int{0, 1}
	if d.Rough[1]-d.Bent.Legs[1] < d.Rough[0]-d.Bent.Legs[0]-geom.Coincident {
		ends = [2]int{1, 0}
	}
	for _, i := range ends {
		p, along, _ := d.tube.at(i, d.Rough[i])
		if c := p.Add(along.Mul(d.Pin / 2)); d.free(c) && d.clear(c, pins) {
			return append(pins, FixturePin{TouchEnd, i + 1, c}), 0
		}
	}
	return pins, 0 // nothing to spare at either end: the saw would meet the stop
}

// plate lays the plate under the pins.
func (d *pinning) plate(pins []FixturePin, faces [2]geom.Path) (Fixture, error) {
	need := d.outline.Bounds()
	for _, l := range d.cuts {
		need = need.Add(l[0]).Add(l[1])
	}
	need = need.Grow(plateRoom)
	for _, p := range pins {
		need = need.Union(geom.Rect{Min: p.At, Max: p.At}.Grow(1.5 * d.Pin))
	}
	// A strip below everything for the datum holes, a diameter from all edges.
	strip := 3 * d.Pin
	width, height := max(need.Width(), 6*d.Pin), need.Height()+strip
	f := Fixture{Pin: d.Pin}
	switch w, h := d.Size[0], d.Size[1]; {
	case w == 0:
		f.Width, f.Height = roundUp(width, d.Round), roundUp(height, d.Round)
		if long, short := max(f.Width, f.Height), min(f.Width, f.Height); long > longestPlate || short > widestPlate {
			e := &SizeError{Part: "fixture", Dimension: Length, Value: long, Why: PlateTooLarge, Most: longestPlate}
			if long <= longestPlate {
				e.Dimension, e.Value, e.Most = Width, short, widestPlate
			}
			return Fixture{}, e
		}
	case fits(width, w) && fits(height, h):
		f.Width, f.Height = w, h
	case fits(width, h) && fits(height, w):
		f.Width, f.Height = h, w
	default:
		return Fixture{}, &SheetError{"fixture", width, height, Sheet{Width: w, Height: h}}
	}
	f.Place = geom.Translate(geom.Pt(-need.Min.X, strip-need.Min.Y))
	f.Part = Part{Name: "fixture", Outline: geom.Rect{Max: geom.Pt(f.Width, f.Height)}.Path()}
	hole := func(at geom.Point) {
		f.Part.Holes = append(f.Part.Holes, geom.Circle{Centre: at, Radius: d.Pin / 2})
	}
	for _, p := range pins {
		p.At = f.Place.Apply(p.At)
		f.Pins = append(f.Pins, p)
		hole(p.At)
	}
	for i, x := range [2]float64{1.5 * d.Pin, f.Width - 1.5*d.Pin} {
		f.Datum[i] = geom.Pt(x, 1.5*d.Pin)
		hole(f.Datum[i])
	}
	f.Tube = d.outline.Apply(f.Place)
	for _, p := range faces {
		f.Part.Marks = append(f.Part.Marks, scribable(p).Apply(f.Place))
	}
	for i, l := range d.cuts {
		f.Cuts[i] = [2]geom.Point{f.Place.Apply(l[0]), f.Place.Apply(l[1])}
		f.Part.Marks = append(f.Part.Marks, geom.Lines(f.Cuts[i][:]...))
	}
	return f, nil
}

// roundUp returns the least multiple of step mm from v on.
func roundUp(v, step float64) float64 {
	if step == 0 {
		return v
	}
	return step * math.Ceil(v/step-1e-9)
}

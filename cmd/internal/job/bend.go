package job

import (
	"math"
	"slices"
	"strings"

	"overbend/cmd/internal/keyed"
	"overbend/geom"
)

// bend reads [bend] for a tube of a depth in mm.
func (t table) bend(depth float64) Bend {
	b := t.arc(depth)
	like := t.Like(`["250 mm", "250 mm"]`, `["10 in", "10 in"]`)
	t.Need("legs", like)
	i := 0
	t.Pair("legs", false, like, func(path string, v any) {
		b.Legs[i] = t.Measure(path, v, false)
		i++
	})
	return b
}

// arc reads what fixes the bend: one of four pairs of keys.
func (t table) arc(depth float64) Bend {
	if !t.fixed() || t.Failed() {
		return Bend{}
	}
	// The radius, the chord and rise and the arc length lie on one face.
	var toCentre float64
	b := Bend{RadiusAt: Face(t.Choice("radius_at", string(Centre), string(Centre), string(Inside), string(Outside)))}
	switch b.RadiusAt {
	case Inside:
		toCentre = depth / 2
	case Outside:
		toCentre = -depth / 2
	}
	var key string // to blame for a bad radius
	switch {
	case t.Has("chord"):
		key = "rise"
		chord, rise := t.Length("chord", 1), t.Length("rise", 1)
		if rise > chord/2 {
			t.Fail("rise", "%s is not allowed; it must be at most %s, half the chord, for a bend of up to 180 deg", t.MM(rise), t.Lengths().Most(chord/2))
		}
		radius, _ := geom.RadiusFromChordRise(chord, rise)
		b.Bend = geom.Bend{Radius: radius, Angle: geom.Angle(4 * math.Atan(2*rise/chord))}
	case !t.Has("radius"):
		key = "arc"
		b.Angle = t.Angle("angle", 1, keyed.LeastAngle, keyed.MostAngle)
		b.Radius = t.Length("arc", 1) / b.Angle.Radians()
	case t.Has("arc"):
		key = "radius"
		b.Radius = t.Length("radius", 1)
		arc := t.Length("arc", 1)
		b.Angle = geom.Angle(arc / b.Radius)
		if b.Angle > keyed.MostAngle*(1+1e-9) {
			t.Fail("arc", "%s is not allowed; it must be at most %s, half a turn on the radius of %s", t.MM(arc), t.Lengths().Most(math.Pi*b.Radius), t.MM(b.Radius))
		}
	default:
		key = "radius"
		b.Radius = t.Length("radius", 1)
		b.Angle = t.Angle("angle", 1, keyed.LeastAngle, keyed.MostAngle)
	}
	b.Angle = min(b.Angle, keyed.MostAngle)
	b.Radius += toCentre
	switch {
	case t.Failed():
	case b.Angle < keyed.LeastAngle:
		t.Fail(key, "a bend of %s deg is not allowed; it must be at least %s deg", keyed.Degrees(b.Angle), keyed.Degrees(keyed.LeastAngle))
	case b.Radius < depth*(1-1e-9):
		t.Fail(key, "a centreline radius of %s is not allowed; it must be at least %s, the tube's depth", t.MM(b.Radius), t.Lengths().Least(depth))
	case b.Radius > keyed.MostLength:
		t.Fail(key, "a centreline radius of %s is not allowed; it must be at most %s", t.MM(b.Radius), t.Distances().Inward(keyed.MostLength, 3, -1))
	}
	return b
}

// fixed reports whether [bend] has one of the pairs of keys that fix it, and no
// other of these keys.
func (t table) fixed() bool {
	const allowed = "allowed are radius + angle, chord + rise, radius + arc or angle + arc"
	var given []string
	for _, key := range []string{"radius", "angle", "chord", "rise", "arc"} {
		if t.Has(key) {
			given = append(given, key)
		}
	}
	switch strings.Join(given, "+") {
	case "radius+angle", "chord+rise", "radius+arc", "angle+arc":
		return true
	case "":
		t.FailAt(t.Path, "missing; %s", allowed)
	case "chord":
		t.Fail("chord", "chord without rise; %s", allowed)
	case "rise":
		t.Fail("rise", "rise without chord; %s", allowed)
	case "radius", "angle", "arc":
		t.Fail(given[0], "%s alone does not fix the bend; %s", given[0], allowed)
	case "angle+chord+rise":
		// Both may be right: an angle finder laid on a bend shows what is left of
		// a half turn.
		chord, rise, angle := t.Length("chord", 1), t.Length("rise", 1), t.Angle("angle", 1, keyed.LeastAngle, keyed.MostAngle)
		says := geom.Angle(4 * math.Atan(2*rise/chord))
		finder := ""
		if math.Abs(float64(says+angle-math.Pi)) < 0.1 {
			finder = "; an angle finder laid on that bend shows " + keyed.Degrees(keyed.MostAngle-says) + " deg, the drawing's angle is the change of direction"
		}
		t.Fail("angle", "chord and rise say %s deg, angle says %s deg%s; %s", keyed.Degrees(says), keyed.Degrees(angle), finder, allowed)
	default:
		last := slices.MaxFunc(given, func(a, b string) int {
			return t.Places.Line(t.At(a)) - t.Places.Line(t.At(b))
		})
		n := len(given) - 1
		t.Fail(last, "%s and %s together are not allowed; %s", strings.Join(given[:n], ", "), given[n], allowed)
	}
	return false
}

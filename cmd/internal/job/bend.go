package job

import (
	"math"
	"slices"
	"strings"

	"overbend/geom"
)

// bend reads [bend] for a tube of a depth in mm.
func (t table) bend(depth float64) Bend {
	b := t.arc(depth)
	like := t.like(`["250 mm", "250 mm"]`, `["10 in", "10 in"]`)
	t.need("legs", like)
	i := 0
	t.pair("legs", false, like, func(path string, v any) {
		b.Legs[i] = t.measure(path, v, false)
		i++
	})
	return b
}

// arc reads what fixes the bend: one of four pairs of keys.
func (t table) arc(depth float64) Bend {
	if !t.fixed() || t.err != nil {
		return Bend{}
	}
	// The radius, the chord and rise and the arc length lie on one face.
	var toCentre float64
	b := Bend{RadiusAt: Face(t.choice("radius_at", string(Centre), string(Centre), string(Inside), string(Outside)))}
	switch b.RadiusAt {
	case Inside:
		toCentre = depth / 2
	case Outside:
		toCentre = -depth / 2
	}
	var key string // to blame for a bad radius
	switch {
	case t.has("chord"):
		key = "rise"
		chord, rise := t.length("chord", 1), t.length("rise", 1)
		if rise > chord/2 {
			t.fail("rise", "%s is not allowed; it must be at most %s, half the chord, for a bend of up to 180 deg", t.mm(rise), t.lengths().most(chord/2))
		}
		radius, _ := geom.RadiusFromChordRise(chord, rise)
		b.Bend = geom.Bend{Radius: radius, Angle: geom.Angle(4 * math.Atan(2*rise/chord))}
	case !t.has("radius"):
		key = "arc"
		b.Angle = t.angle("angle", 1, leastAngle, mostAngle)
		b.Radius = t.length("arc", 1) / b.Angle.Radians()
	case t.has("arc"):
		key = "radius"
		b.Radius = t.length("radius", 1)
		arc := t.length("arc", 1)
		b.Angle = geom.Angle(arc / b.Radius)
		if b.Angle > mostAngle*(1+1e-9) {
			t.fail("arc", "%s is not allowed; it must be at most %s, half a turn on the radius of %s", t.mm(arc), t.lengths().most(math.Pi*b.Radius), t.mm(b.Radius))
		}
	default:
		key = "radius"
		b.Radius = t.length("radius", 1)
		b.Angle = t.angle("angle", 1, leastAngle, mostAngle)
	}
	b.Angle = min(b.Angle, mostAngle)
	b.Radius += toCentre
	switch {
	case t.err != nil:
	case b.Angle < leastAngle:
		t.fail(key, "a bend of %s deg is not allowed; it must be at least %s deg", degrees(b.Angle), degrees(leastAngle))
	case b.Radius < depth*(1-1e-9):
		t.fail(key, "a centreline radius of %s is not allowed; it must be at least %s, the tube's depth", t.mm(b.Radius), t.lengths().least(depth))
	case b.Radius > most:
		t.fail(key, "a centreline radius of %s is not allowed; it must be at most %s", t.mm(b.Radius), t.distances().inward(most, 3, -1))
	}
	return b
}

// fixed reports whether [bend] has one of the pairs of keys that fix it, and no
// other of these keys.
func (t table) fixed() bool {
	const allowed = "allowed are radius + angle, chord + rise, radius + arc or angle + arc"
	var given []string
	for _, key := range []string{"radius", "angle", "chord", "rise", "arc"} {
		if t.has(key) {
			given = append(given, key)
		}
	}
	switch strings.Join(given, "+") {
	case "radius+angle", "chord+rise", "radius+arc", "angle+arc":
		return true
	case "":
		t.reader.fail(t.path, "missing; %s", allowed)
	case "chord":
		t.fail("chord", "chord without rise; %s", allowed)
	case "rise":
		t.fail("rise", "rise without chord; %s", allowed)
	case "radius", "angle", "arc":
		t.fail(given[0], "%s alone does not fix the bend; %s", given[0], allowed)
	case "angle+chord+rise":
		// Both may be right: an angle finder laid on a bend shows what is left of
		// a half turn.
		chord, rise, angle := t.length("chord", 1), t.length("rise", 1), t.angle("angle", 1, leastAngle, mostAngle)
		says := geom.Angle(4 * math.Atan(2*rise/chord))
		finder := ""
		if math.Abs(float64(says+angle-math.Pi)) < 0.1 {
			finder = "; an angle finder laid on that bend shows " + degrees(mostAngle-says) + " deg, the drawing's angle is the change of direction"
		}
		t.fail("angle", "chord and rise say %s deg, angle says %s deg%s; %s", degrees(says), degrees(angle), finder, allowed)
	default:
		last := slices.MaxFunc(given, func(a, b string) int {
			return lineOf(t.places, t.at(a)) - lineOf(t.places, t.at(b))
		})
		n := len(given) - 1
		t.fail(last, "%s and %s together are not allowed; %s", strings.Join(given[:n], ", "), given[n], allowed)
	}
	return false
}

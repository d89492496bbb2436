package job

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Defaults of the keys that a file leaves out, and that no mechanics decide.
const (
	defaultStrip  = "1018 cold drawn"
	defaultPlugs  = 20.0  // mm
	defaultRoller = 40.0  // mm
	mostRoller    = 500.0 // mm, more than a shop press has room for

	// What can be read off a shop protractor, and off a rule at the middle of
	// a chord; common practice, no source.
	DefaultAngleError = 0.25 * geom.Degree
	DefaultRiseError  = 0.5 // mm

	defaultRamWidth = 60.0 // mm; common practice, no source
	defaultFriction = 0.15 // steel on steel, greased; common practice, no source
)

// allowance reads [allowance].
func (t table) allowance(inline bool) Allowance {
	a := Allowance{Mode: Mode(t.choice("mode", string(Computed), string(Computed), string(Ratio), string(Degrees)))}
	for _, m := range []Mode{Ratio, Degrees} {
		key := string(m)
		switch {
		case m == a.Mode:
			t.need(key, map[Mode]string{Ratio: "0.92", Degrees: `"3 deg"`}[m])
		case t.has(key):
			t.fail(key, "not allowed with mode %q; set mode = %q or leave %s out", a.Mode, m, key)
		}
	}
	for _, key := range []string{"proof", "ultimate"} {
		switch {
		case t.has(key) && inline:
			t.fail(key, "not allowed with an inline material; give its own %s instead", key)
		case t.has(key) && a.Mode != Computed:
			t.fail(key, "not allowed with mode %q, which says how the metal springs back; set mode = %q or leave %s out", a.Mode, Computed, key)
		}
	}
	if t.has("ultimate") && !t.has("proof") {
		t.fail("ultimate", "not allowed without proof; a certificate gives both")
	}
	a.Ratio = t.number("ratio", 0, quantity.ParseNumber, 0.01, 1, "a number like 0.92", "from 0.01 to 1")
	a.Extra = t.angle("degrees", 0, 0, 90*geom.Degree)
	a.Proof = t.proof()
	a.Ultimate = t.stress("ultimate", 0, leastProof, 2*mostProof, t.stresses().between(leastProof, 2*mostProof))
	if mpa := t.stresses(); a.Ultimate != 0 && a.Ultimate < leastHardening*a.Proof {
		t.fail("ultimate", "%s is not allowed; it must be at least %s, a little more than the proof stress", mpa.show(a.Ultimate), mpa.least(leastHardening*a.Proof))
	}
	return a
}

// leastHardening is the least ratio of ultimate to proof stress of a
// certificate: closer, the exponent is beyond any metal's.
const leastHardening = 1.001

// travelError is how well a ram's travel is read: half a mm, or 1/64 in; common
// practice, no source.
func (t table) travelError() float64 {
	if t.units == quantity.Inches {
		return t.units.MM(1.0 / 64)
	}
	return 0.5
}

// strip reads [strip] for a tube of a depth in mm.
func (t table) strip(depth float64) Strip {
	s := Strip{Thickness: t.length("thickness", 0)}
	thickness := s.Thickness
	if thickness == 0 {
		// About what the default will be, to find the row by.
		thickness = depth / 6
	}
	if t.has("material") {
		s.Material = t.metalNamed("material", thickness, profiles.Rectangle)
		return s
	}
	m, err := profiles.FindMaterial(defaultStrip, thickness, profiles.Rectangle)
	if err != nil {
		t.fail("material", "missing, and the default does not do: %s", t.because(err))
	}
	s.Material = m
	return s
}

// block reads [block].
func (t table) block() Block {
	b := Block{
		Plate:      t.length("plate", 0),
		Height:     t.length("height", 0),
		Blend:      t.length("blend", 0),
		Hole:       t.length("hole", 0),
		CheekDepth: t.length("cheek_depth", 0),
		Existing:   t.length("existing", 0),
		Lighten:    t.yes("lighten"),
	}
	if b.Hole != 0 && (b.Hole < tooling.LeastHole || b.Hole > tooling.MostHole) {
		t.fail("hole", "%s is not allowed; it must be %s", t.mm(b.Hole), t.lengths().between(tooling.LeastHole, tooling.MostHole))
	}
	return b
}

// filler reads [filler].
func (t table) filler() Filler {
	f := Filler{Plugs: t.lengthOr0("plugs", defaultPlugs)}
	name := t.text("alloy")
	if t.err != nil || name == "" || strings.EqualFold(name, "none") {
		return f
	}
	alloy, err := profiles.FindFiller(name)
	if err != nil {
		t.fail("alloy", `%s, or "none"`, t.because(err))
	}
	f.Alloy = alloy
	return f
}

// Limits of a press's capacity in N: 0.1 t and 10000 t.
const (
	leastCapacity = 980.665
	mostCapacity  = 98_066_500
)

// press reads [press].
func (t table) press() Press {
	p := Press{
		Capacity: t.number("capacity", 0, t.in(quantity.ParseForce), leastCapacity, mostCapacity,
			"a force like "+t.like("20 t", "20 tonf"), t.forces().between(leastCapacity, mostCapacity)),
		Supports: t.length("supports", 0),
		Roller:   t.length("roller", defaultRoller),
		Ram:      t.length("ram_diameter", 0),
		RamWidth: t.length("ram_width", defaultRamWidth),
		Friction: t.number("friction", defaultFriction, quantity.ParseNumber, 0, 1, "a number like 0.15", "from 0 to 1"),
		Stroke:   t.length("stroke", 0),
		Bed:      t.length("bed", 0),
	}
	if p.Roller > mostRoller {
		t.fail("roller", "%s is not allowed; it must be at most %s", t.mm(p.Roller), t.lengths().most(mostRoller))
	}
	if p.Supports != 0 && p.Supports <= p.Roller {
		t.fail("supports", "%s is not allowed; it must be more than %s, the roller diameter", t.mm(p.Supports), t.mm(p.Roller))
	}
	if p.Bed != 0 && p.Bed <= p.Roller {
		t.fail("bed", "%s is not allowed; it must be more than %s, the roller diameter", t.mm(p.Bed), t.mm(p.Roller))
	}
	if p.Bed != 0 && p.Supports > p.Bed {
		t.fail("supports", "%s is not allowed; it must be at most %s, the bed", t.mm(p.Supports), t.mm(p.Bed))
	}
	return p
}

// ends reads [ends].
func (t table) ends() Ends {
	e := Ends{Trim: [2]float64{-1, -1}}
	i := 0
	t.pair("cut", true, `["0 deg", "22.5 deg"]`, func(path string, v any) {
		e.Cut[i] = t.angleIn(path, v, -75*geom.Degree, 75*geom.Degree) // as tooling.CheckEnds
		i++
	})
	i = 0
	t.pair("trim", true, t.like(`"20 mm"`, `"3/4 in"`), func(path string, v any) {
		e.Trim[i] = t.measure(path, v, false)
		i++
	})
	return e
}

// cutting reads [cutting] for the holes of a block.
func (t table) cutting(b Block) Cutting {
	c := Cutting{
		Process: t.choice("process", "", "plasma", "laser", "waterjet", "saw"),
		Kerf:    t.lengthOr0("kerf", 0),
	}
	hole := cmp.Or(b.Hole, tooling.DefaultHole)
	// Half the hole, and the cut would leave less than that to lead in from.
	if c.Kerf > hole/2 {
		t.fail("kerf", "%s is not allowed; it must be at most %s, half the bolt hole", t.mm(c.Kerf), t.lengths().most(hole/2))
	}
	switch v := t.values["sheet"].(type) {
	case nil:
	case string:
		w, h, err := quantity.ParseSize(v, t.units)
		switch {
		case err != nil:
			t.fail("sheet", "%v", err)
		case min(w, h) < 1 || max(w, h) > most:
			t.fail("sheet", "%.40s is not allowed; each side must be from %s to %s", v, t.lengths().inward(1, 3, 1), t.distances().inward(most, 3, -1))
		}
		c.Sheet = [2]float64{w, h}
	default:
		t.fail("sheet", "%s is not allowed; it must be a size like %q", typeName(v), quantity.SizeLike(t.units))
	}
	return c
}

// mostTrials is more than one bend ever needs.
const mostTrials = 100

// trials reads the [[trial]] tables.
func (t table) trials(f Filler) []Trial {
	var list []map[string]any
	switch v := t.values["trial"].(type) {
	case nil:
	case []map[string]any:
		list = v
	case []any: // trial = [{...}, {...}]
		for _, e := range v {
			m, ok := e.(map[string]any)
			if !ok {
				t.fail("trial", "%s is not allowed; each trial is a table that starts with [[trial]]", typeName(e))
			}
			list = append(list, m)
		}
	default:
		t.fail("trial", "%s is not allowed; each trial is a table that starts with [[trial]]", typeName(v))
	}
	if len(list) > mostTrials {
		t.fail("trial", "%d trials are not allowed; it must be at most %d", len(list), mostTrials)
		return nil
	}
	var all []Trial
	for i, m := range list {
		path := "trial[" + strconv.Itoa(i) + "]"
		all = append(all, table{t.reader, path, m}.trial(f))
	}
	return all
}

// trial reads one [[trial]] of a tube with a filler, or without.
func (t table) trial(f Filler) Trial {
	t.need("block", t.like(`"260 mm"`, `"10 in"`))
	none := math.NaN()
	angle := func(key string) geom.Angle { return t.angle(key, geom.Angle(none), leastAngle, mostAngle) }
	got := Trial{
		BlockRadius: t.length("block", 0),
		Travel:      t.length("travel", none),
		Loaded:      angle("loaded"),
		Filled:      angle("filled"),
		Melted:      angle("melted"),
		Chord:       t.length("chord", none),
		Rise:        t.length("rise", none),
		AngleError:  t.angle("angle_error", DefaultAngleError, leastAngle, 45*geom.Degree),
		RiseError:   t.length("rise_error", DefaultRiseError),
		TravelError: t.length("travel_error", t.travelError()),
		LoadedError: t.angle("loaded_error", DefaultAngleError, leastAngle, 45*geom.Degree),
	}
	if t.has("released") {
		switch {
		case f.Alloy.Name != "":
			t.fail("released", "not allowed with a filler; give filled for the angle with the alloy in, melted for that after melt-out")
		case t.has("melted"):
			t.fail("released", "released and melted together are not allowed; of an empty tube they are the same")
		}
		got.Melted = angle("released")
	}
	switch {
	case t.has("travel") && t.has("loaded"):
		t.fail("loaded", "travel and loaded together are not allowed; keep the one that was measured better")
	case !t.has("travel") && !t.has("loaded"):
		t.reader.fail(t.path, `travel or loaded is missing; say how far it was pressed, like travel = %s or loaded = "36 deg"`, t.like(`"38 mm"`, `"1-1/2 in"`))
	case t.has("chord") && !t.has("rise"):
		t.fail("chord", "chord without rise; give both or neither")
	case t.has("rise") && !t.has("chord"):
		t.fail("rise", "rise without chord; give both or neither")
	case !t.has("filled") && !t.has("melted") && !t.has("released") && !t.has("chord"):
		t.reader.fail(t.path, "a trial without a measurement; give %s, or chord and rise", map[bool]string{true: "filled, melted", false: "released"}[f.Alloy.Name != ""])
	case got.Rise > got.Chord/2: // false without them
		t.fail("rise", "%s is not allowed; it must be at most %s, half the chord", t.mm(got.Rise), t.lengths().most(got.Chord/2))
	}
	t.opens("filled", got.Filled, got)
	key := "melted"
	if t.has("released") {
		key = "released"
	}
	t.opens(key, got.Melted, got)
	return got
}

// opens checks that an angle measured after release is no larger than the one
// under load, for a bend opens when it is let go. Equal readings are possible;
// one larger by more than reading errors explain is a mix-up.
func (t table) opens(key string, a geom.Angle, trial Trial) {
	if a > trial.Loaded+3*trial.AngleError { // false where either is NaN
		t.fail(key, "%s deg is not allowed; it must be at most the angle under pressure, %s deg, as a bend opens when let go",
			degrees(a), degrees(trial.Loaded))
	}
}

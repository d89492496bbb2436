package job

import (
	"math"
	"strconv"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/profiles"
)

// Defaults of the keys that a file leaves out, and that no mechanics decide.
const (
	defaultStrip  = "1018 cold drawn"
	defaultPlate  = 10.0  // mm
	defaultHole   = 13.0  // mm, clearance for M12
	defaultPlugs  = 20.0  // mm
	defaultRoller = 40.0  // mm
	mostRoller    = 500.0 // mm, more than a shop press has room for

	// What can be read off a shop protractor, and off a rule at the middle of
	// a chord; common practice, no source.
	defaultAngleError = 0.25 * geom.Degree
	defaultRiseError  = 0.5 // mm
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
	if t.has("proof") && inline {
		t.fail("proof", "not allowed with an inline material; give its own proof instead")
	}
	a.Ratio = t.number("ratio", 0, quantity.ParseNumber, 0.01, 1, "a number like 0.92", "from 0.01 to 1")
	a.Extra = t.angle("degrees", 0, 0, 90*geom.Degree)
	a.Proof = t.proof()
	return a
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
		t.fail("material", "missing, and the default does not do: %s", sentence(err))
	}
	s.Material = m
	return s
}

// block reads [block].
func (t table) block() Block {
	return Block{
		Plate:      t.length("plate", defaultPlate),
		Height:     t.length("height", 0),
		Blend:      t.length("blend", 0),
		Hole:       t.length("hole", 0),
		CheekDepth: t.length("cheek_depth", 0),
		Existing:   t.length("existing", 0),
		Lighten:    t.yes("lighten"),
	}
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
		t.fail("alloy", `%s, or "none"`, sentence(err))
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
		Capacity: t.number("capacity", 0, quantity.ParseForce, leastCapacity, mostCapacity,
			"a force like 20 t", "from 0.1 t to 10000 t"),
		Supports: t.length("supports", 0),
		Roller:   t.length("roller", defaultRoller),
		Ram:      t.length("ram_diameter", 0),
	}
	if p.Roller > mostRoller {
		t.fail("roller", "%s is not allowed; it must be at most %s", t.mm(p.Roller), t.mm(mostRoller))
	}
	if p.Supports != 0 && p.Supports <= p.Roller {
		t.fail("supports", "%s is not allowed; it must be more than %s, the roller diameter", t.mm(p.Supports), t.mm(p.Roller))
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
	t.pair("trim", true, `"20 mm"`, func(path string, v any) {
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
	hole := b.Hole
	if hole == 0 {
		hole = defaultHole
	}
	// Half the hole, and the cut would leave less than that to lead in from.
	if c.Kerf > hole/2 {
		t.fail("kerf", "%s is not allowed; it must be at most %s, half the bolt hole", t.mm(c.Kerf), t.mm(hole/2))
	}
	switch v := t.values["sheet"].(type) {
	case nil:
	case string:
		w, h, err := quantity.ParseSize(v, t.units)
		switch {
		case err != nil:
			t.fail("sheet", "%v", err)
		case min(w, h) < 1 || max(w, h) > most:
			t.fail("sheet", "%.40s is not allowed; each side must be from 1 mm to %v m", v, most/1000)
		}
		c.Sheet = [2]float64{w, h}
	default:
		t.fail("sheet", "%s is not allowed; it must be a size like %q", typeName(v), "1000x500 mm")
	}
	return c
}

// mostTrials is more than one bend ever needs.
const mostTrials = 100

// trials reads the [[trial]] tables.
func (t table) trials() []Trial {
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
		all = append(all, table{t.reader, path, m}.trial())
	}
	return all
}

// trial reads one [[trial]].
func (t table) trial() Trial {
	t.need("block", `"260 mm"`)
	none := math.NaN()
	angle := func(key string) geom.Angle { return t.angle(key, geom.Angle(none), leastAngle, mostAngle) }
	got := Trial{
		Line:        lineOf(t.places, t.path),
		BlockRadius: t.length("block", 0),
		Travel:      t.length("travel", none),
		Loaded:      angle("loaded"),
		Filled:      angle("filled"),
		Melted:      angle("melted"),
		Chord:       t.length("chord", none),
		Rise:        t.length("rise", none),
		AngleError:  t.angle("angle_error", defaultAngleError, leastAngle, 45*geom.Degree),
		RiseError:   t.length("rise_error", defaultRiseError),
	}
	switch {
	case t.has("travel") && t.has("loaded"):
		t.fail("loaded", "travel and loaded together are not allowed; keep the one that was measured better")
	case !t.has("travel") && !t.has("loaded"):
		t.reader.fail(t.path, `travel or loaded is missing; say how far it was pressed, like travel = "38 mm" or loaded = "36 deg"`)
	case t.has("chord") && !t.has("rise"):
		t.fail("chord", "chord without rise; give both or neither")
	case t.has("rise") && !t.has("chord"):
		t.fail("rise", "rise without chord; give both or neither")
	case !t.has("filled") && !t.has("melted") && !t.has("chord"):
		t.reader.fail(t.path, "a trial without a measurement; give filled, melted, or chord and rise")
	case got.Rise > got.Chord/2: // false without them
		t.fail("rise", "%s is not allowed; it must be at most %s, half the chord", t.mm(got.Rise), t.mm(got.Chord/2))
	}
	t.opens("filled", got.Filled, got)
	t.opens("melted", got.Melted, got)
	return got
}

// opens checks that an angle measured after release is no larger than the one
// under load, for a bend opens when it is let go. Equal readings are possible;
// one larger by more than reading errors explain is a mix-up.
func (t table) opens(key string, a geom.Angle, trial Trial) {
	if a > trial.Loaded+3*trial.AngleError { // false where either is NaN
		t.fail(key, "%s deg is not allowed; it must be at most the angle under load, %s deg, as a bend opens when let go",
			degrees(a), degrees(trial.Loaded))
	}
}

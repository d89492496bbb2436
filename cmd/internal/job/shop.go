package job

import (
	"cmp"
	"math"
	"strings"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/geom"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Defaults of the keys that a file leaves out, and that no mechanics decide.
const (
	defaultStrip = "1018 cold drawn"

	// What can be read off a shop protractor; common practice, no source.
	DefaultAngleError = 0.25 * geom.Degree
)

// DefaultRoller returns a roller's diameter in mm where nobody says.
func DefaultRoller(u quantity.Units) float64 { return u.Pick(40, 1.5) }

// The same of other sizes, in mm. The ram's foot is common practice, no source.
func defaultPlugs(u quantity.Units) float64    { return u.Pick(20, 3.0/4) }
func defaultRamWidth(u quantity.Units) float64 { return u.Pick(60, 2.5) }

// RuleError returns in mm how well a rise or a travel is read off a rule: to half
// a mm or 1/64 in; common practice, no source.
func RuleError(u quantity.Units) float64 { return u.Pick(0.5, 1.0/64) }

// allowance reads [allowance].
func (t table) allowance(inline bool) Allowance {
	a := Allowance{Mode: Mode(t.Choice("mode", string(Computed), string(Computed), string(Ratio), string(Degrees)))}
	for _, m := range []Mode{Ratio, Degrees} {
		key := string(m)
		switch {
		case m == a.Mode:
			t.Need(key, map[Mode]string{Ratio: "0.92", Degrees: `"3 deg"`}[m])
		case t.Has(key):
			t.Fail(key, "not allowed with mode %q; set mode = %q or leave %s out", a.Mode, m, key)
		}
	}
	for _, key := range []string{"proof", "ultimate"} {
		switch {
		case t.Has(key) && inline:
			t.Fail(key, "not allowed with an inline material; give its own %s instead", key)
		case t.Has(key) && a.Mode != Computed:
			t.Fail(key, "not allowed with mode %q, which says how the metal springs back; set mode = %q or leave %s out", a.Mode, Computed, key)
		}
	}
	if t.Has("ultimate") && !t.Has("proof") {
		t.Fail("ultimate", "not allowed without proof; a certificate gives both")
	}
	a.Ratio = t.Number("ratio", 0, quantity.ParseNumber, 0.01, 1, "a number like 0.92", "from 0.01 to 1")
	a.Extra = t.Angle("degrees", 0, 0, 90*geom.Degree)
	a.Proof = shop.ReadProof(t.Table)
	a.Ultimate = t.Stress("ultimate", 0, shop.LeastProof, 2*shop.MostProof, t.Stresses().Between(shop.LeastProof, 2*shop.MostProof))
	if mpa := t.Stresses(); a.Ultimate != 0 && a.Ultimate < leastHardening*a.Proof {
		t.Fail("ultimate", "%s is not allowed; it must be at least %s, a little more than the proof stress", mpa.Show(a.Ultimate), mpa.Least(leastHardening*a.Proof))
	}
	return a
}

// leastHardening is the least ratio of ultimate to proof stress of a
// certificate: closer, the exponent is beyond any metal's.
const leastHardening = 1.001

// strip reads [strip] for a tube of a depth in mm. What is left out comes from the
// shop's stock, if it keeps flat that suits.
func (t table) strip(depth float64) Strip {
	metal := profiles.Steel
	if f, ok := profiles.FamilyOf(t.Text("material")); ok {
		metal = f
	}
	s := Strip{Thickness: t.thickness("thickness", profiles.SheetGauge(metal))}
	thickness := s.Thickness
	if thickness == 0 {
		// About what the default will be, to find the row by.
		thickness = depth / 6
	}
	if t.Has("material") {
		s.Material = t.metalNamed("material", thickness, profiles.Rectangle)
	}
	if kept, ok := atHand(t.shop.Stock.Strips, thickness, s); ok {
		s.Thickness = kept.Thickness
		if s.Material.Name == "" {
			s.Material = kept.Material
		}
	}
	if s.Material.Name != "" || t.Failed() {
		return s
	}
	m, err := profiles.FindMaterial(defaultStrip, cmp.Or(s.Thickness, thickness), profiles.Rectangle)
	if err != nil {
		t.Fail("material", "missing, and the default does not do: %s", t.Because(err))
	}
	s.Material = m
	return s
}

// atHand returns the flat in stock that is nearest to a thickness in mm, of the
// material asked for and just as thick as asked for. Of two as near it is the
// thinner, which springs back flatter.
func atHand(stock []shop.Strip, thickness float64, asked Strip) (shop.Strip, bool) {
	var best shop.Strip
	for _, f := range stock {
		off, least := math.Abs(f.Thickness-thickness), math.Abs(best.Thickness-thickness)
		switch {
		case asked.Material.Name != "" && f.Material.Name != "" && f.Material.Name != asked.Material.Name:
		case asked.Thickness > 0 && off > geom.Coincident:
		case best.Thickness == 0 || off < least-geom.Coincident || off < least+geom.Coincident && f.Thickness < best.Thickness:
			best = f
		}
	}
	return best, best.Thickness > 0
}

// block reads [block].
func (t table) block() Block {
	b := Block{
		Plate:      t.thickness("plate", profiles.SteelSheet), // as the plan takes it
		Height:     t.Length("height", 0),
		Blend:      t.Length("blend", 0),
		Hole:       t.Length("hole", 0),
		CheekDepth: t.Length("cheek_depth", 0),
		Existing:   t.Length("existing", 0),
		Use:        t.Text("use"),
		Lighten:    t.Yes("lighten"),
	}
	if b.Use != "" && b.Existing != 0 {
		t.Fail("existing", "not allowed with use, which makes the kit around a block of the rack; leave one of them out")
	}
	if b.Hole != 0 && (b.Hole < tooling.LeastHole || b.Hole > tooling.MostHole) {
		t.Fail("hole", "%s is not allowed; it must be %s", t.MM(b.Hole), t.Lengths().Between(tooling.LeastHole, tooling.MostHole))
	}
	return b
}

// filler reads [filler].
func (t table) filler() Filler {
	f := Filler{Plugs: [2]float64{defaultPlugs(t.Units), defaultPlugs(t.Units)}}
	i := 0
	t.Pair("plugs", true, t.Like(`"20 mm"`, `"3/4 in"`), func(path string, v any) {
		f.Plugs[i] = t.Measure(path, v, false)
		i++
	})
	name := t.Text("alloy")
	if t.Failed() || name == "" || strings.EqualFold(name, "none") {
		return f
	}
	alloy, err := profiles.FindFiller(name)
	if err != nil {
		t.Fail("alloy", `%s, or "none"`, t.Because(err))
	}
	f.Alloy = alloy
	return f
}

// press reads [press].
func (t table) press() Press {
	own := shop.ReadPress(t.Table, t.shop.Press)
	p := Press{
		Capacity: own.Capacity,
		Rated:    own.Rated,
		Supports: t.Length("supports", 0),
		Roller:   t.Length("roller", 0),
		Ram:      own.Ram,
		RamWidth: t.Length("ram_width", defaultRamWidth(t.Units)),
		Friction: own.Friction,
		Stroke:   own.Stroke,
		Bed:      own.Bed,
	}
	if !t.Has("roller") {
		p.Roller = DefaultRoller(t.Units)
		for _, r := range own.Rollers {
			if r < cmp.Or(p.Supports, r+1) && r < cmp.Or(p.Bed, r+1) {
				p.Rollers = append(p.Rollers, r)
			}
		}
		if len(own.Rollers) > 0 {
			p.Roller = own.Rollers[0]
		}
		if len(p.Rollers) > 0 {
			p.Roller = p.Rollers[0]
		}
	}
	if p.Roller > shop.MostRoller {
		t.Fail("roller", "%s is not allowed; it must be at most %s", t.MM(p.Roller), t.Lengths().Most(shop.MostRoller))
	}
	if p.Supports != 0 && p.Supports <= p.Roller {
		t.Fail("supports", "%s is not allowed; it must be more than %s, the roller diameter", t.MM(p.Supports), t.MM(p.Roller))
	}
	if p.Bed != 0 && p.Bed <= p.Roller {
		key := "bed"
		if !t.Has(key) { // the shop file's: its own rollers fit
			key = "roller"
		}
		t.Fail(key, "%s is not allowed; it must be more than %s, the roller diameter", t.MM(p.Bed), t.MM(p.Roller))
	}
	if p.Bed != 0 && p.Supports > p.Bed {
		t.Fail("supports", "%s is not allowed; it must be at most %s, the bed", t.MM(p.Supports), t.MM(p.Bed))
	}
	return p
}

// ends reads [ends].
func (t table) ends() Ends {
	e := Ends{Trim: [2]float64{-1, -1}}
	i := 0
	t.Pair("cut", true, `["0 deg", "22.5 deg"]`, func(path string, v any) {
		e.Cut[i] = t.AngleIn(path, v, -75*geom.Degree, 75*geom.Degree) // as tooling.CheckEnds
		i++
	})
	i = 0
	t.Pair("trim", true, t.Like(`"20 mm"`, `"3/4 in"`), func(path string, v any) {
		e.Trim[i] = t.Measure(path, v, false)
		i++
	})
	return e
}

// cutting reads [cutting] for a block with bolt holes of a diameter in mm.
func (t table) cutting(hole float64) shop.Cutting {
	c := shop.ReadCutting(t.Table, t.shop.Cutting)
	// Half the hole, and the cut would leave less than that to lead in from.
	if c.Kerf > hole/2 {
		t.Fail("kerf", "%s is not allowed; it must be at most %s, half the bolt hole", t.MM(c.Kerf), t.Lengths().Most(hole/2))
	}
	return c
}

// mostTrials is more than one bend ever needs.
const mostTrials = 100

// trials reads the [[trial]] tables.
func (t table) trials(f Filler) []Trial {
	var all []Trial
	for _, e := range t.Elements("trial", mostTrials) {
		all = append(all, table{e, t.shop, t.gauges}.trial(f))
	}
	return all
}

// trial reads one [[trial]] of a tube with a filler, or without.
func (t table) trial(f Filler) Trial {
	t.Need("block", t.Like(`"260 mm"`, `"10 in"`))
	none := math.NaN()
	angle := func(key string) geom.Angle { return t.Angle(key, geom.Angle(none), keyed.LeastAngle, keyed.MostAngle) }
	got := Trial{
		BlockRadius: t.Length("block", 0),
		Travel:      t.Length("travel", none),
		Loaded:      angle("loaded"),
		Filled:      angle("filled"),
		Melted:      angle("melted"),
		Chord:       t.Length("chord", none),
		Rise:        t.Length("rise", none),
		AngleError:  t.Angle("angle_error", DefaultAngleError, keyed.LeastAngle, 45*geom.Degree),
		RiseError:   t.Length("rise_error", RuleError(t.Units)),
		TravelError: t.Length("travel_error", RuleError(t.Units)),
		LoadedError: t.Angle("loaded_error", DefaultAngleError, keyed.LeastAngle, 45*geom.Degree),
	}
	if t.Has("released") {
		switch {
		case f.Alloy.Name != "":
			t.Fail("released", "not allowed with a filler; give filled for the angle with the alloy in, melted for that after melt-out")
		case t.Has("melted"):
			t.Fail("released", "released and melted together are not allowed; of an empty tube they are the same")
		}
		got.Melted = angle("released")
	}
	switch {
	case t.Has("travel") && t.Has("loaded"):
		t.Fail("loaded", "travel and loaded together are not allowed; keep the one that was measured better")
	case !t.Has("travel") && !t.Has("loaded"):
		t.FailAt(t.Path, `travel or loaded is missing; say how far it was pressed, like travel = %s or loaded = "36 deg"`, t.Like(`"38 mm"`, `"1-1/2 in"`))
	case t.Has("chord") && !t.Has("rise"):
		t.Fail("chord", "chord without rise; give both or neither")
	case t.Has("rise") && !t.Has("chord"):
		t.Fail("rise", "rise without chord; give both or neither")
	case !t.Has("filled") && !t.Has("melted") && !t.Has("released") && !t.Has("chord"):
		t.FailAt(t.Path, "a trial without a measurement; give %s, or chord and rise", map[bool]string{true: "filled, melted", false: "released"}[f.Alloy.Name != ""])
	case got.Rise > got.Chord/2: // false without them
		t.Fail("rise", "%s is not allowed; it must be at most %s, half the chord", t.MM(got.Rise), t.Lengths().Most(got.Chord/2))
	}
	t.opens("filled", got.Filled, got)
	key := "melted"
	if t.Has("released") {
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
		t.Fail(key, "%s deg is not allowed; it must be at most the angle under pressure, %s deg, as a bend opens when let go",
			keyed.Degrees(a), keyed.Degrees(trial.Loaded))
	}
}

package job

import (
	"math"

	"overbend/cmd/internal/quantity"
	"overbend/profiles"
)

// section reads the shape and sizes of [tube], all but the corner.
func (t table) section(j *Job) {
	t.need("shape", `"rectangle"`)
	s := &j.Tube
	if t.choice("shape", "rectangle", "rectangle", "round") == "round" {
		s.Shape = profiles.Round
		for _, key := range []string{"width", "depth"} {
			if t.has(key) {
				t.fail(key, "not allowed for a round tube; give its diameter instead")
			}
		}
		t.need("diameter", t.like(`"40 mm"`, `"1-1/2 in"`))
		s.Depth = t.length("diameter", 0)
		s.Width = s.Depth
	} else {
		if t.has("diameter") {
			t.fail("diameter", "not allowed for a rectangle; give its width and depth instead")
		}
		t.need("width", t.like(`"40 mm"`, `"1-1/2 in"`))
		t.need("depth", t.like(`"40 mm"`, `"1-1/2 in"`))
		s.Width, s.Depth = t.length("width", 0), t.length("depth", 0)
	}
	t.need("wall", t.like(`"3 mm"`, `"1/8 in"`))
	s.Wall = t.thickness("wall", profiles.TubeWall)
	if least, side := t.lesserSide(*s); t.err == nil && 2*s.Wall >= least {
		t.fail("wall", "%s leaves no bore; it must be less than %s, half the %s", t.mm(s.Wall), t.lengths().most(least/2), side)
	}
}

// lesserSide returns the lesser outside size of a section, and its key.
func (t table) lesserSide(s profiles.Section) (float64, string) {
	switch {
	case s.Shape == profiles.Round:
		return s.Depth, "diameter"
	case s.Width < s.Depth:
		return s.Width, "width"
	}
	return s.Depth, "depth"
}

// material reads the material of [tube] and, as its default depends on it, the
// corner. The material is a name, or a table of its own, which may stand in
// [tube] or at the top level.
func (t table) material(j *Job, root table) {
	own := root.table("material")
	_, inTube := t.values["material"].(map[string]any)
	switch {
	case own.values != nil && t.has("material"):
		t.fail("material", "not allowed together with [material]; keep one of them")
	case own.values != nil:
		j.Material, j.Inline = own.metal(), true
	case inTube:
		j.Material, j.Inline = t.table("material").metal(), true
	default:
		t.need("material", `"6082-T6", or add a table [material]`)
		j.Material = t.metalNamed("material", j.Tube.Wall, j.Tube.Shape)
	}

	if j.Material.ColdFormed && j.Tube.Shape == profiles.Rectangle {
		j.Tube.Corner = profiles.ColdFormedCorner(j.Tube.Wall)
	}
	j.Tube.Corner = t.lengthOr0("corner", j.Tube.Corner)
	least, side := t.lesserSide(j.Tube)
	switch {
	case t.err != nil:
	case j.Tube.Shape == profiles.Round && j.Tube.Corner != 0:
		t.fail("corner", "not allowed for a round tube; leave it out")
	case 2*j.Tube.Corner > least && !t.has("corner"):
		t.fail("corner", "the default of %s, by the wall for cold-formed steel, does not fit; give one of at most %s, half the %s",
			t.mm(j.Tube.Corner), t.lengths().most(least/2), side)
	case 2*j.Tube.Corner > least:
		t.fail("corner", "%s is not allowed; it must be at most %s, half the %s", t.mm(j.Tube.Corner), t.lengths().most(least/2), side)
	default:
		if err := j.Tube.Validate(); err != nil {
			t.reader.fail(t.path, "%s", t.because(err))
		}
	}
}

// metalNamed reads the name of a material in the catalogue, for a wall or
// thickness in mm and a shape of tube.
func (t table) metalNamed(key string, wall float64, shape profiles.Shape) profiles.Material {
	name := t.text(key)
	if t.err != nil {
		return profiles.Material{}
	}
	m, err := profiles.FindMaterial(name, wall, shape)
	if err != nil {
		t.fail(key, "%s", t.because(err))
	}
	return m
}

// Bounds of an inline material. They let through every metal and little else.
const (
	leastYoungs    = 1e3  // MPa
	mostYoungs     = 1e6  // MPa
	leastProof     = 1.0  // MPa
	mostProof      = 5e3  // MPa
	mostExponent   = 10e3 // practically elastic, perfectly plastic
	leastDensity   = 500.0
	mostDensity    = 25e3
	leastElongate  = 0.001
	leastUnloading = 0.5 // of E; no metal unloads on half of it
)

// metal reads a material given in the file.
func (t table) metal() profiles.Material {
	t.need("youngs_modulus", t.like(`"70 GPa"`, `"10000 ksi"`))
	t.need("proof", t.like(`"250 MPa"`, `"36 ksi"`))
	t.need("elongation", `"8 %"`)
	if !t.has("ultimate") && !t.has("exponent") {
		t.fail("ultimate", "missing; write it like ultimate = %s, or give an exponent", t.like(`"290 MPa"`, `"42 ksi"`))
	}
	m := profiles.Material{
		Name:     "inline material",
		Source:   "the job file",
		Youngs:   t.stress("youngs_modulus", 0, leastYoungs, mostYoungs, t.moduli().between(leastYoungs, mostYoungs)),
		Proof:    t.proof(),
		Ultimate: t.stress("ultimate", 0, leastProof, 2*mostProof, t.stresses().between(leastProof, 2*mostProof)),
		Exponent: t.number("exponent", 0, quantity.ParseNumber, 1, mostExponent,
			"a number like 25", "from 1 to 10000"),
		Elongation: t.number("elongation", 0, quantity.ParseFraction, leastElongate, 1,
			"a share like 8 %", "from 0.1 % to 100 %"),
		Poisson: t.number("poisson", 0.33, quantity.ParseNumber, 0, 0.5,
			"a number like 0.33", "from 0 to 0.5"),
		Unloading: t.number("unloading", 0, quantity.ParseNumber, leastUnloading, 1,
			"a number like 0.95", "from 0.5 to 1"),
	}
	// Steel is about three times as stiff as aluminium, and no metal that a
	// shop bends lies between copper's 120 GPa and steel's 190.
	m.Family = profiles.Aluminium
	if m.Youngs > 150e3 {
		m.Family = profiles.Steel
	}
	m.Family = profiles.Family(t.choice("family", string(m.Family), string(profiles.Aluminium), string(profiles.Steel), string(profiles.Stainless)))
	m.Density = 2700
	switch m.Family {
	case profiles.Steel:
		m.Density = 7850
	case profiles.Stainless:
		m.Density = 8000
	}
	m.Density = t.number("density", m.Density, t.in(quantity.ParseDensity), leastDensity, mostDensity,
		"a density like "+t.like("2700 kg/m3", "0.0975 lb/in3"), t.densities().between(leastDensity, mostDensity))

	mpa := t.stresses()
	switch n := m.StrainExponent(); {
	case t.err != nil:
	case m.Proof > m.Youngs/20:
		t.fail("proof", "%s is not allowed; it must be at most a twentieth of youngs_modulus, %s", mpa.show(m.Proof), mpa.most(m.Youngs/20))
	case m.Ultimate != 0 && m.Ultimate <= m.Proof:
		t.fail("ultimate", "%s is not allowed; it must be more than the proof stress of %s", mpa.show(m.Ultimate), mpa.show(m.Proof))
	case m.Exponent == 0 && (n < 1 || n > mostExponent || math.IsNaN(n)):
		t.fail("ultimate", "%s with a proof stress of %s gives an exponent of %.4g; it must be from 1 to %v", mpa.show(m.Ultimate), mpa.show(m.Proof), n, mostExponent)
	}
	return m
}

// proof reads a proof stress in MPa, 0 where the key is left out.
func (t table) proof() float64 {
	return t.stress("proof", 0, leastProof, mostProof, t.stresses().between(leastProof, mostProof))
}

package job

import (
	"math"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/profiles"
)

// section reads the shape and sizes of [tube], all but the corner.
func (t table) section(j *Job) {
	t.Need("shape", `"rectangle"`)
	s := &j.Tube
	if t.Choice("shape", "rectangle", "rectangle", "round") == "round" {
		s.Shape = profiles.Round
		for _, key := range []string{"width", "depth"} {
			if t.Has(key) {
				t.Fail(key, "not allowed for a round tube; give its diameter instead")
			}
		}
		t.Need("diameter", t.Like(`"40 mm"`, `"1-1/2 in"`))
		s.Depth = t.Length("diameter", 0)
		s.Width = s.Depth
	} else {
		if t.Has("diameter") {
			t.Fail("diameter", "not allowed for a rectangle; give its width and depth instead")
		}
		t.Need("width", t.Like(`"40 mm"`, `"1-1/2 in"`))
		t.Need("depth", t.Like(`"40 mm"`, `"1-1/2 in"`))
		s.Width, s.Depth = t.Length("width", 0), t.Length("depth", 0)
	}
	t.Need("wall", t.Like(`"3 mm"`, `"1/8 in"`))
	s.Wall = t.thickness("wall", profiles.TubeWall)
	if least, side := t.lesserSide(*s); !t.Failed() && 2*s.Wall >= least {
		t.Fail("wall", "%s leaves no bore; it must be less than %s, half the %s", t.MM(s.Wall), t.Lengths().Most(least/2), side)
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
	_, inTube := t.Values["material"].(map[string]any)
	switch {
	case own.Values != nil && t.Has("material"):
		t.Fail("material", "not allowed together with [material]; keep one of them")
	case own.Values != nil:
		j.Material, j.Inline = own.metal(), true
	case inTube:
		j.Material, j.Inline = t.table("material").metal(), true
	default:
		t.Need("material", `"6082-T6", or add a table [material]`)
		j.Material = t.tubeMetal(j)
	}
	switch {
	case j.Learned != nil:
		j.Lot = shop.Lot(t.Choice("lot", string(shop.NewLot), string(shop.NewLot), string(shop.SameLot)))
	case t.Has("lot"):
		t.Fail("lot", "not allowed with this material; it goes with a metal that the shop file keeps")
	}

	if j.Material.ColdFormed && j.Tube.Shape == profiles.Rectangle {
		j.Tube.Corner = profiles.ColdFormedCorner(j.Tube.Wall)
	}
	j.Tube.Corner = t.LengthOr0("corner", j.Tube.Corner)
	least, side := t.lesserSide(j.Tube)
	switch {
	case t.Failed():
	case j.Tube.Shape == profiles.Round && j.Tube.Corner != 0:
		t.Fail("corner", "not allowed for a round tube; leave it out")
	case 2*j.Tube.Corner > least && !t.Has("corner"):
		t.Fail("corner", "the default of %s, by the wall for cold-formed steel, does not fit; give one of at most %s, half the %s",
			t.MM(j.Tube.Corner), t.Lengths().Most(least/2), side)
	case 2*j.Tube.Corner > least:
		t.Fail("corner", "%s is not allowed; it must be at most %s, half the %s", t.MM(j.Tube.Corner), t.Lengths().Most(least/2), side)
	default:
		if err := j.Tube.Validate(); err != nil {
			t.FailAt(t.Path, "%s", t.Because(err))
		}
	}
}

// tubeMetal reads the name of a metal that the shop file keeps, or of one in the
// catalogue.
func (t table) tubeMetal(j *Job) profiles.Material {
	const key = "material"
	kept, ok := t.shop.Metal(t.Text(key))
	if !ok || t.Failed() {
		return t.metalNamed(key, j.Tube.Wall, j.Tube.Shape)
	}
	m, err := kept.Material(j.Tube.Wall, j.Tube.Shape)
	if err != nil {
		t.Fail(key, "%s was kept of %s: %s", kept.Name, kept.Base, t.Because(err))
	}
	j.Learned = &kept
	return m
}

// metalNamed reads the name of a material in the catalogue, for a wall or
// thickness in mm and a shape of tube.
func (t table) metalNamed(key string, wall float64, shape profiles.Shape) profiles.Material {
	name := t.Text(key)
	if t.Failed() {
		return profiles.Material{}
	}
	m, err := profiles.FindMaterial(name, wall, shape)
	if err != nil {
		t.Fail(key, "%s", t.Because(err))
	}
	return m
}

// Bounds of an inline material. They let through every metal and little else.
const (
	leastYoungs    = 1e3 // MPa
	mostYoungs     = 1e6 // MPa
	leastDensity   = 500.0
	mostDensity    = 25e3
	leastElongate  = 0.001
	leastUnloading = 0.5 // of E; no metal unloads on half of it
)

// metal reads a material given in the file.
func (t table) metal() profiles.Material {
	t.Need("youngs_modulus", t.Like(`"70 GPa"`, `"10000 ksi"`))
	t.Need("proof", t.Like(`"250 MPa"`, `"36 ksi"`))
	t.Need("elongation", `"8 %"`)
	if !t.Has("ultimate") && !t.Has("exponent") {
		t.Fail("ultimate", "missing; write it like ultimate = %s, or give an exponent", t.Like(`"290 MPa"`, `"42 ksi"`))
	}
	m := profiles.Material{
		Name:     "inline material",
		Source:   "the job file",
		Youngs:   t.Stress("youngs_modulus", 0, leastYoungs, mostYoungs, t.Moduli().Between(leastYoungs, mostYoungs)),
		Proof:    shop.ReadProof(t.Table),
		Ultimate: t.Stress("ultimate", 0, shop.LeastProof, 2*shop.MostProof, t.Stresses().Between(shop.LeastProof, 2*shop.MostProof)),
		Exponent: shop.ReadExponent(t.Table),
		Elongation: t.Number("elongation", 0, quantity.ParseFraction, leastElongate, 1,
			"a share like 8 %", "from 0.1 % to 100 %"),
		Poisson: t.Number("poisson", 0.33, quantity.ParseNumber, 0, 0.5,
			"a number like 0.33", "from 0 to 0.5"),
		Unloading: t.Number("unloading", 0, quantity.ParseNumber, leastUnloading, 1,
			"a number like 0.95", "from 0.5 to 1"),
	}
	// Steel is about three times as stiff as aluminium, and no metal that a
	// shop bends lies between copper's 120 GPa and steel's 190.
	m.Family = profiles.Aluminium
	if m.Youngs > 150e3 {
		m.Family = profiles.Steel
	}
	m.Family = profiles.Family(t.Choice("family", string(m.Family), string(profiles.Aluminium), string(profiles.Steel), string(profiles.Stainless)))
	m.Density = 2700
	switch m.Family {
	case profiles.Steel:
		m.Density = 7850
	case profiles.Stainless:
		m.Density = 8000
	}
	m.Density = t.Number("density", m.Density, t.In(quantity.ParseDensity), leastDensity, mostDensity,
		"a density like "+t.Like("2700 kg/m3", "0.0975 lb/in3"), t.Densities().Between(leastDensity, mostDensity))

	mpa := t.Stresses()
	switch n := m.StrainExponent(); {
	case t.Failed():
	case m.Proof > m.Youngs/20:
		t.Fail("proof", "%s is not allowed; it must be at most a twentieth of youngs_modulus, %s", mpa.Show(m.Proof), mpa.Most(m.Youngs/20))
	case m.Ultimate != 0 && m.Ultimate <= m.Proof:
		t.Fail("ultimate", "%s is not allowed; it must be more than the proof stress of %s", mpa.Show(m.Ultimate), mpa.Show(m.Proof))
	case m.Exponent == 0 && (n < 1 || n > shop.MostExponent || math.IsNaN(n)):
		t.Fail("ultimate", "%s with a proof stress of %s gives an exponent of %.4g; it must be from 1 to %v", mpa.Show(m.Ultimate), mpa.Show(m.Proof), n, shop.MostExponent)
	}
	return m
}

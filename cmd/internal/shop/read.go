package shop

import (
	_ "embed"
	"strings"

	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
	"overbend/export/paper"
	"overbend/geom"
	"overbend/profiles"
)

// aShop is what a sentence calls the file.
const aShop = "a shop file"

//go:embed starter.toml
var starter string

// Starter returns a shop file to start from, with a comment for every key. It
// parses as it stands and says nothing.
func Starter() string { return starter }

// known is what a shop file may hold.
func known() keyed.Known {
	return keyed.Known{
		Tables: []string{"press", "stock", "stock.strips", "cutting", "paper", "filler", "block", "metal", "metal.trials"},
		Keys: func(table string) []string {
			switch table {
			case "":
				return []string{"units", "press", "stock", "cutting", "paper", "filler", "block", "metal"}
			case "press":
				return []string{"capacity", "stroke", "bed", "ram_diameter", "friction", "rollers"}
			case "stock":
				return []string{"plates", "packing", "strips"}
			case "stock.strips":
				return []string{"thickness", "material"}
			case "cutting":
				return []string{"process", "kerf", "sheet"}
			case "paper":
				return []string{"size", "margin", "print_scale"}
			case "filler":
				return []string{"alloy", "mass"}
			case "block":
				return []string{"name", "radius", "arc", "width"}
			case "metal":
				return []string{"name", "base", "proof", "proof_error", "exponent", "trials"}
			case "metal.trials":
				return []string{"job", "proof", "proof_error", "exponent", "exponent_error", "of"}
			}
			return nil
		},
	}
}

// Parse reads the text of a shop file of a name. Every error is a *keyed.Error.
func Parse(name, text string) (Shop, error) {
	values, places, err := keyed.Decode(name, text)
	if err != nil {
		return Shop{}, err
	}
	if err := known().Check(name, places); err != nil {
		return Shop{}, err
	}
	r := &keyed.Reader{File: name, Places: places}
	root := keyed.Table{Reader: r, Values: values}
	r.Units = root.System()
	s := Shop{File: name, Units: r.Units, places: places}
	s.Press = readPress(root.Sub("press"))
	s.Stock = readStock(root.Sub("stock"))
	s.Cutting = ReadCutting(root.Sub("cutting"), Cutting{})
	s.Paper = readPaper(root.Sub("paper"))
	s.Fillers = readFillers(root)
	s.Blocks = readBlocks(root)
	s.Metals = readMetals(root)
	if r.Failed() {
		return Shop{}, r.Err()
	}
	return s, nil
}

// Nothing is the shop of which no file says anything.
func Nothing() Shop {
	s, err := Parse("", "")
	if err != nil {
		panic("shop: " + err.Error())
	}
	return s
}

// most is more than a shop has of anything.
const most = 200

// DefaultFriction is that of steel on steel, greased; common practice, no source.
const DefaultFriction = 0.15

// ReadPress reads the keys of a press that job and shop file share, for those left
// out what is under them.
func ReadPress(t keyed.Table, under Press) Press {
	p := Press{
		Capacity: under.Capacity,
		Rated:    under.Rated,
		Stroke:   t.Length("stroke", under.Stroke),
		Bed:      t.Length("bed", under.Bed),
		Ram:      t.Length("ram_diameter", under.Ram),
		Friction: t.Number("friction", under.Friction, quantity.ParseNumber, 0, 1, "a number like 0.15", "from 0 to 1"),
		Rollers:  under.Rollers,
	}
	if v, ok := t.Values["capacity"]; ok {
		p.Capacity, p.Rated = capacity(t, v)
	}
	return p
}

// capacity reads a press's capacity in N, and of which kind it is. Its limits are
// said in its own unit.
func capacity(t keyed.Table, v any) (float64, quantity.Kind) {
	const least, largest = 980.665, 98_066_500 // N: 0.1 t and 10000 t
	var rated quantity.Value
	n, shown, ok := t.Quantity(t.At("capacity"), v, func(s string) (float64, error) {
		var err error
		rated, err = quantity.ParseCapacity(s, t.Units)
		return rated.V, err
	}, "", "a force like "+t.Like("20 t", "20 tonf"))
	if ok && (n < least || n > largest) {
		t.Fail("capacity", "%s is not allowed; it must be %s", shown, keyed.UnitOf(rated.Kind, t.Units).Between(least, largest))
	}
	return n, rated.Kind
}

// MostRoller is the largest roller's diameter in mm, more than a shop press has
// room for.
const MostRoller = 500.0

func readPress(t keyed.Table) Press {
	p := ReadPress(t, Press{Friction: DefaultFriction})
	p.Rollers = t.LengthList("rollers", t.Like(`["40 mm", "32 mm"]`, `["1-1/2 in", "2 in"]`))
	for _, r := range p.Rollers {
		switch {
		case r > MostRoller:
			t.Fail("rollers", "%s is not allowed; it must be at most %s", t.MM(r), t.Lengths().Most(MostRoller))
		case p.Bed > 0 && r >= p.Bed:
			t.Fail("rollers", "%s is not allowed; it must be less than %s, the bed", t.MM(r), t.MM(p.Bed))
		}
	}
	return p
}

func readStock(t keyed.Table) Stock {
	s := Stock{
		Plates:  t.LengthList("plates", t.Like(`["6 mm", "10 mm"]`, `["1/4 in", "3/8 in"]`)),
		Packing: t.LengthList("packing", t.Like(`["0.5 mm", "1 mm"]`, `["1/32 in", "1/16 in"]`)),
	}
	for _, e := range t.Elements("strips", most) {
		e.Need("thickness", e.Like(`"6 mm"`, `"1/4 in"`))
		f := Strip{Thickness: e.Length("thickness", 0)}
		if name := e.Text("material"); name != "" && !e.Failed() {
			m, err := profiles.FindMaterial(name, f.Thickness, profiles.Rectangle)
			if err != nil {
				e.Fail("material", "%s", e.Because(err))
			}
			f.Material = m
		}
		for _, other := range s.Strips {
			if other.Thickness == f.Thickness && other.Material.Name == f.Material.Name {
				e.Fail("thickness", "%s stands there twice with that material; keep one", e.MM(f.Thickness))
			}
		}
		s.Strips = append(s.Strips, f)
	}
	return s
}

// ReadCutting reads [cutting] of a job or shop file, for keys left out what is
// under them.
func ReadCutting(t keyed.Table, under Cutting) Cutting {
	return Cutting{
		Process: t.Choice("process", under.Process, "plasma", "laser", "waterjet", "saw"),
		Kerf:    t.LengthOr0("kerf", under.Kerf),
		Sheet:   t.PlateSize("sheet", under.Sheet),
	}
}

// usualMargin is the white edge that a printer leaves, mm; common practice, no source.
const usualMargin = 10

func readPaper(t keyed.Table) Paper {
	p := Paper{Margin: t.LengthOr0("margin", usualMargin), ScaleX: 1, ScaleY: 1}
	var err error
	if name := t.Text("size"); name != "" && !t.Failed() {
		if p.Size, err = PaperSize(name, t.Units); err != nil {
			t.Fail("size", "%v", err)
		}
	}
	if scale := t.Text("print_scale"); scale != "" && !t.Failed() {
		if p.ScaleX, p.ScaleY, err = paper.ParseScale(scale); err != nil {
			t.Fail("print_scale", "%v", err)
		}
	}
	size := p.Size
	if size.Width == 0 {
		size = UsualPaper(t.Units == quantity.Inches)
	}
	l := paper.Layout{Paper: size, Margin: p.Margin, ScaleX: p.ScaleX, ScaleY: p.ScaleY}
	if err := l.Check(); err != nil && !t.Failed() {
		key := "size"
		if p.Margin > usualMargin {
			key = "margin"
		}
		t.Fail(key, "%v", err)
	}
	return p
}

func readFillers(root keyed.Table) []Filler {
	var all []Filler
	for _, t := range root.Elements("filler", most) {
		t.Need("alloy", `"158"`)
		t.Need("mass", t.Like(`"12 kg"`, `"25 lb"`))
		const least, largest = 0.001, 10e3 // kg
		var f Filler
		f.Mass = t.Number("mass", 0, t.In(quantity.ParseMass), least, largest, "a mass like "+t.Like("12 kg", "25 lb"), t.Masses().Between(least, largest))
		if name := t.Text("alloy"); !t.Failed() {
			var err error
			if f.Alloy, err = profiles.FindFiller(name); err != nil {
				t.Fail("alloy", "%s", t.Because(err))
			}
		}
		for _, other := range all {
			if other.Alloy.Name == f.Alloy.Name {
				t.Fail("alloy", "%s stands there twice; keep one with the whole mass", f.Alloy.Name)
			}
		}
		all = append(all, f)
	}
	return all
}

func readBlocks(root keyed.Table) []Block {
	var all []Block
	for _, t := range root.Elements("block", most) {
		t.Need("name", t.Like(`"R380"`, `"R15"`))
		t.Need("radius", t.Like(`"380 mm"`, `"15 in"`))
		t.Need("arc", `"40 deg"`)
		t.Need("width", t.Like(`"34 mm"`, `"1-3/8 in"`))
		b := Block{
			Name:   t.Text("name"),
			Radius: t.Length("radius", 0),
			Arc:    t.Angle("arc", 0, keyed.LeastAngle, 360*geom.Degree),
			Width:  t.Length("width", 0),
		}
		for _, other := range all {
			if same(other.Name, b.Name) {
				t.Fail("name", "%s stands there twice; each block has a name of its own", b.Name)
			}
		}
		all = append(all, b)
	}
	return all
}

// same reports whether two names are one: case and space at the ends do not count.
func same(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

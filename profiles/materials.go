package profiles

import (
	_ "embed"
	"math"
	"slices"
	"strings"
)

//go:embed materials.csv
var materialsCSV string

// Materials returns the catalogue of materials in its own order: aluminium by
// alloy and temper, then steel. A name may have several rows, one a range of
// wall.
func Materials() []Material {
	var all []Material
	for line := range lines(materialsCSV) {
		all = append(all, readMaterial(line))
	}
	return all
}

// FindMaterial returns the catalogue's row for a name, a wall in mm (of a bar
// or flat: its thickness) and the shape of the tube (of a bar or flat:
// Rectangle). A wall of 0 stands for not known and takes the row for the
// thinnest wall. Case, spaces and hyphens in the name do not count, nor does EN
// AW or AA in front of it.
//
// The error is an *UnknownError with the names that may be meant, or a
// *WallError for a wall outside the name's rows, below 0 or not finite.
func FindMaterial(name string, wall float64, shape Shape) (Material, error) {
	if !(wall >= 0) || math.IsInf(wall, 1) {
		return Material{}, &WallError{Wall: wall, Most: math.Inf(1)}
	}
	key := squash(name)
	for _, prefix := range [...]string{"en", "aw", "aa"} {
		key = strings.TrimPrefix(key, prefix)
	}
	var rows []Material
	for line := range lines(materialsCSV) {
		first, _, _ := strings.Cut(line, ",")
		if !named(first, key) {
			continue
		}
		m := readMaterial(line)
		if !m.CoversShape(shape) {
			continue
		}
		if wall == 0 || m.CoversWall(wall) {
			return m, nil
		}
		rows = append(rows, m)
	}
	if len(rows) == 0 {
		hints := near(name, materialNames())
		if hints == nil {
			hints = family(name)
		}
		return Material{}, &UnknownError{Metals, shorten(name, 40), hints}
	}
	return Material{}, &WallError{rows[0].Name, wall, rows[0].WallOver, rows[len(rows)-1].WallTo}
}

// FamilyOf returns the family of the metals of a name in the catalogue, false where
// it lists none.
func FamilyOf(name string) (Family, bool) {
	m, err := FindMaterial(name, 0, Rectangle)
	if err != nil {
		m, err = FindMaterial(name, 0, Round)
	}
	return m.Family, err == nil
}

// materialNames returns every name once, in the catalogue's order.
func materialNames() []string {
	var names []string
	for line := range lines(materialsCSV) {
		name, _, _ := strings.Cut(line, ",")
		names = append(names, name)
	}
	return slices.Compact(names)
}

func readMaterial(line string) Material {
	r := read("materials.csv", line)
	m := Material{
		Name:       r.text(),
		Family:     Family(r.text()),
		Temper:     r.text(),
		Form:       r.text(),
		Standard:   r.text(),
		Shape:      r.text(),
		WallOver:   r.number(),
		WallTo:     r.number(),
		Youngs:     r.number(),
		Poisson:    r.number(),
		Density:    r.number(),
		Proof:      r.number(),
		Ultimate:   r.number(),
		Typical:    r.number(),
		Variation:  r.number() / 100,
		Exponent:   r.number(),
		Elongation: r.number() / 100,
		Unloading:  r.number(),
		ColdFormed: r.yes(),
		SpreadFrom: r.text(),
		Source:     r.text(),
	}
	r.end()
	return m
}

package plantest

import (
	"fmt"
	"math"
	"strings"

	"pgregory.net/rapid"

	"overbend/export/drawing/drawtest"
)

// draft is a job file in the making: lines of one key each.
type draft struct {
	t *rapid.T
	b strings.Builder
}

func (d *draft) line(format string, args ...any) { fmt.Fprintf(&d.b, format+"\n", args...) }

// between draws a number to two decimals.
func (d *draft) between(name string, lo, hi float64) float64 {
	return math.Round(rapid.Float64Range(lo, hi).Draw(d.t, name)*100) / 100
}

// maybe reports whether a key is to be given.
func (d *draft) maybe(name string) bool { return rapid.Bool().Draw(d.t, name) }

func (d *draft) one(name string, of ...string) string { return rapid.SampledFrom(of).Draw(d.t, name) }

// RandomJob draws the text of a job file that has no fault in itself: sizes of
// tube that a shop meets, bends from barely to half a turn.
func RandomJob(t *rapid.T) string {
	d := &draft{t: t}
	d.line("name = %q", d.one("name", drawtest.Names()...))
	d.line(`units = %q`, d.one("units", "mm", "in"))
	d.line("[tube]")
	depth := d.between("depth", 12, 100)
	least := depth
	if d.maybe("round") {
		d.line("shape = \"round\"\ndiameter = \"%g mm\"", depth)
	} else {
		width := d.between("width", 12, 100)
		least = min(least, width)
		d.line("shape = \"rectangle\"\nwidth = \"%g mm\"\ndepth = \"%g mm\"", width, depth)
	}
	wall := d.between("wall", 0.8, min(0.3*least, 14))
	d.line(`wall = "%g mm"`, wall)
	inline := d.maybe("inline")
	if !inline {
		d.line("material = %q", d.one("material", "6082-T6", "6061-T6 B221", "6061-T4", "1025 tube", "304 annealed", "A500 C"))
		if d.maybe("sharp") {
			d.line(`corner = "0 mm"`)
		}
	} else {
		d.line("[material]\nyoungs_modulus = \"%g GPa\"\nproof = \"%g MPa\"\nexponent = %g\nelongation = \"%g %%\"",
			d.between("youngs", 60, 210), d.between("proof", 60, 600), d.between("exponent", 3, 60), d.between("elongation", 3, 40))
	}

	d.line("[bend]")
	d.line("radius_at = %q", d.one("radius at", "centre", "inside"))
	radius := depth * d.between("radius over depth", 1.5, 30)
	angle := d.between("angle", 0.5, 180)
	switch d.one("fixed by", "radius and angle", "radius and arc", "angle and arc", "chord and rise") {
	case "radius and angle":
		d.line("radius = \"%.2f mm\"\nangle = %.2f", radius, angle)
	case "radius and arc":
		d.line("radius = \"%.2f mm\"\narc = \"%.2f mm\"", radius, radius*angle*math.Pi/180)
	case "angle and arc":
		d.line("angle = %.2f\narc = \"%.2f mm\"", angle, radius*angle*math.Pi/180)
	case "chord and rise":
		half := angle / 2 * math.Pi / 180
		d.line("chord = \"%.2f mm\"\nrise = \"%.4f mm\"", 2*radius*math.Sin(half), math.Floor(radius*(1-math.Cos(half))*1e4)/1e4)
	}
	legs := d.maybe("legs")
	if legs {
		d.line(`legs = ["%g mm", "%g mm"]`, d.between("leg", 1, 600), d.between("leg", 1, 600))
	} else {
		d.line("legs = [0, 0]")
	}

	switch d.one("allowance", "none", "ratio", "degrees", "proof") {
	case "ratio":
		d.line("[allowance]\nmode = \"ratio\"\nratio = %g", d.between("ratio", 0.5, 1))
	case "degrees":
		d.line("[allowance]\nmode = \"degrees\"\ndegrees = %g", d.between("degrees", 0, 20))
	case "proof":
		if !inline {
			d.line("[allowance]\nproof = \"%g MPa\"", d.between("certificate", 80, 500))
		}
	}
	d.line("[strip]")
	if d.maybe("strip given") {
		d.line(`thickness = "%g mm"`, d.between("strip", 1, 12))
	}
	if d.maybe("mild strip") {
		d.line(`material = "S235 flat"`)
	}
	d.line("[block]")
	if d.maybe("plate given") {
		d.line(`plate = "%g mm"`, d.between("plate", 3, 20))
	}
	for _, k := range []struct {
		key  string
		most float64
	}{{"height", 300}, {"blend", 40}, {"hole", 30}, {"cheek_depth", 60}, {"existing", 1500}} {
		if rapid.IntRange(0, 9).Draw(t, k.key+" given") == 9 {
			d.line(`%s = "%g mm"`, k.key, d.between(k.key, 1, k.most))
		}
	}
	d.line("lighten = %v", d.maybe("lighten"))
	d.line("[filler]\nalloy = %q", d.one("alloy", "none", "117", "158", "158-190", "255", "281-338"))
	d.line(`plugs = "%g mm"`, d.between("plugs", 0, 40))
	d.line("[press]")
	if d.maybe("capacity given") {
		d.line(`capacity = "%s"`, d.one("rated", "20 t", "20 tonf", "12.5 short tons", "5 t", "200 kN", "40000 lbf", "1 tonf"))
	}
	if rapid.IntRange(0, 3).Draw(t, "supports given") == 3 {
		d.line(`supports = "%g mm"`, d.between("supports", 100, 1500))
	}
	d.line(`roller = "%g mm"`, d.between("roller", 10, 80))
	if d.maybe("ram given") {
		d.line(`ram_diameter = "%g mm"`, d.between("ram", 20, 120))
	}
	d.line("[ends]\ncut = [%g, %g]", d.between("cut", -60, 60), d.between("cut", -60, 60))
	if d.maybe("trim given") {
		d.line(`trim = "%g mm"`, d.between("trim", 0, 60))
	}
	d.line("[cutting]")
	if process := d.one("process", "", "plasma", "laser", "waterjet", "saw"); process != "" {
		d.line("process = %q", process)
	}
	if d.maybe("kerf given") {
		d.line(`kerf = "%g mm"`, d.between("kerf", 0, 3))
	}
	if d.maybe("sheet given") {
		d.line(`sheet = "%gx%g mm"`, d.between("sheet", 300, 3000), d.between("sheet", 300, 2000))
	}
	d.line("[fixture]")
	if d.maybe("pin given") {
		d.line(`pin = "%g mm"`, d.between("pin", 2, 30))
	}
	if rapid.IntRange(0, 3).Draw(t, "fixture size given") == 3 {
		d.line(`size = "%gx%g mm"`, d.between("fixture size", 300, 3000), d.between("fixture size", 300, 3000))
	}
	for range rapid.SampledFrom([]int{0, 0, 0, 0, 0, 0, 0, 1, 2, 3}).Draw(t, "trials") {
		loaded := d.between("loaded", 2, 90)
		d.line("[[trial]]\nblock = \"%g mm\"\nloaded = %g\nmelted = %g", d.between("trial block", 50, 1500), loaded,
			math.Round(100*loaded*d.between("keeps", 0.7, 0.98))/100)
	}
	return d.b.String()
}

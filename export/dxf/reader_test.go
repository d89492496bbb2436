package dxf_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// The reader below is written from the structure of the format alone and uses
// neither this package's code nor geom's arcs: it turns every curve into a
// polygon of many sides by its own formulas. It is for tests.

type xy struct{ x, y float64 }

// figure is one entity: a run of points, a circle or a text.
type figure struct {
	kind, layer string
	closed      bool
	points      []xy      // curves as many short chords
	corners     []xy      // vertices as the file has them
	radii       []float64 // of arcs and circles
	words       string
	height      float64
}

type reading struct {
	header map[string]string // variable to its first value
	layers map[string]int    // name to colour
	figs   []figure
	pairs  [][2]string
}

// unit returns the size of the file's unit in mm.
func (r reading) unit() float64 {
	if r.header["$INSUNITS"] == "1" {
		return 25.4
	}
	return 1
}

const chords = 1200 // for an arc: relative error of area below 5e-6, a full circle

func readDXF(data []byte) (reading, error) {
	r := reading{header: map[string]string{}, layers: map[string]int{}}
	lines := strings.Split(strings.TrimSuffix(string(data), "\r\n"), "\r\n")
	if len(lines)%2 != 0 {
		return r, fmt.Errorf("odd number of lines")
	}
	for i := 0; i < len(lines); i += 2 {
		r.pairs = append(r.pairs, [2]string{strings.TrimSpace(lines[i]), lines[i+1]})
	}
	var records [][][2]string
	for _, p := range r.pairs {
		if p[0] == "0" {
			records = append(records, nil)
		}
		records[len(records)-1] = append(records[len(records)-1], p)
	}
	section := ""
	var poly *figure
	var bulges []float64
	for _, rec := range records {
		kind := rec[0][1]
		get := func(code string) string {
			for _, p := range rec[1:] {
				if p[0] == code {
					return p[1]
				}
			}
			return ""
		}
		num := func(code string) float64 {
			v, err := strconv.ParseFloat(get(code), 64)
			if err != nil && get(code) != "" {
				return math.NaN()
			}
			return v
		}
		if kind == "SECTION" {
			section = get("2")
			if section == "HEADER" {
				for i := 2; i+1 < len(rec); i++ {
					if rec[i][0] == "9" {
						r.header[rec[i][1]] = rec[i+1][1]
					}
				}
			}
			continue
		}
		if section == "TABLES" && kind == "LAYER" {
			r.layers[get("2")] = int(num("62"))
		}
		if kind == "ENDSEC" {
			section = ""
		}
		if section != "ENTITIES" {
			continue
		}
		f := figure{kind: kind, layer: get("8")}
		switch kind {
		case "LWPOLYLINE":
			f.closed = get("70") == "1"
			var b []float64
			for _, p := range rec {
				v, _ := strconv.ParseFloat(p[1], 64)
				switch p[0] {
				case "10":
					f.corners = append(f.corners, xy{x: v})
					b = append(b, 0)
				case "20":
					f.corners[len(f.corners)-1].y = v
				case "42":
					b[len(b)-1] = v
				}
			}
			f.flatten(b)
		case "POLYLINE":
			f.closed = get("70") == "1"
			poly, bulges = &f, nil
			continue
		case "VERTEX":
			poly.corners = append(poly.corners, xy{num("10"), num("20")})
			bulges = append(bulges, num("42"))
			continue
		case "SEQEND":
			poly.flatten(bulges)
			f = *poly
		case "LINE":
			f.points = []xy{{num("10"), num("20")}, {num("11"), num("21")}}
		case "ARC":
			from, to := num("50")*math.Pi/180, num("51")*math.Pi/180
			if to <= from {
				to += 2 * math.Pi
			}
			f.radii = []float64{num("40")}
			f.points = sweep(xy{num("10"), num("20")}, num("40"), from, to)
		case "CIRCLE":
			f.closed = true
			f.radii = []float64{num("40")}
			f.points = sweep(xy{num("10"), num("20")}, num("40"), 0, 2*math.Pi)
		case "TEXT":
			f.words, f.height = get("1"), num("40")
			f.points = []xy{{num("10"), num("20")}}
		default:
			return r, fmt.Errorf("entity %s", kind)
		}
		r.figs = append(r.figs, f)
	}
	return r, nil
}

func sweep(c xy, r, from, to float64) []xy {
	out := make([]xy, chords+1)
	for i := range out {
		a := from + (to-from)*float64(i)/chords
		out[i] = xy{c.x + r*math.Cos(a), c.y + r*math.Sin(a)}
	}
	return out
}

// flatten fills points from corners and bulges. The arc's circle comes from
// chord and rise: r = c²/(8h) + h/2.
func (f *figure) flatten(bulges []float64) {
	n := len(f.corners)
	for i, a := range f.corners {
		f.points = append(f.points, a)
		if i == n-1 && !f.closed || bulges[i] == 0 {
			continue
		}
		b := f.corners[(i+1)%n]
		dx, dy := b.x-a.x, b.y-a.y
		c := math.Sqrt(dx*dx + dy*dy)
		h := math.Abs(bulges[i]) * c / 2
		r := c*c/(8*h) + h/2
		side := 1.0 // of the chord on which the centre lies, left positive
		if bulges[i] < 0 {
			side = -1
		}
		centre := xy{(a.x+b.x)/2 - side*(r-h)*dy/c, (a.y+b.y)/2 + side*(r-h)*dx/c}
		from := math.Atan2(a.y-centre.y, a.x-centre.x)
		f.radii = append(f.radii, r)
		all := sweep(centre, r, from, from+4*math.Atan(bulges[i]))
		f.points = append(f.points, all[1:len(all)-1]...)
	}
}

func (f figure) length() float64 {
	sum := 0.0
	for i := 1; i < len(f.points); i++ {
		sum += math.Hypot(f.points[i].x-f.points[i-1].x, f.points[i].y-f.points[i-1].y)
	}
	if n := len(f.points); f.closed && n > 0 {
		sum += math.Hypot(f.points[0].x-f.points[n-1].x, f.points[0].y-f.points[n-1].y)
	}
	return sum
}

// area is the shoelace sum about the first point, without its sign.
func (f figure) area() float64 {
	sum := 0.0
	for i := 1; i+1 < len(f.points); i++ {
		a, b, o := f.points[i], f.points[i+1], f.points[0]
		sum += (a.x-o.x)*(b.y-o.y) - (a.y-o.y)*(b.x-o.x)
	}
	return math.Abs(sum) / 2
}

// join links lines and arcs of one layer that share end points into closed
// figures; an end without a partner within gap is an error.
func join(figs []figure, gap float64) ([]figure, error) {
	near := func(a, b xy) bool { return math.Hypot(a.x-b.x, a.y-b.y) <= gap }
	var out []figure
	used := make([]bool, len(figs))
	for i := range figs {
		if used[i] {
			continue
		}
		used[i] = true
		loop := figure{kind: "JOINED", layer: figs[i].layer, closed: true, points: append([]xy(nil), figs[i].points...)}
		for !near(loop.points[0], loop.points[len(loop.points)-1]) {
			end := loop.points[len(loop.points)-1]
			found := false
			for j, g := range figs {
				if used[j] {
					continue
				}
				p := append([]xy(nil), g.points...)
				if near(end, p[len(p)-1]) {
					for a, b := 0, len(p)-1; a < b; a, b = a+1, b-1 {
						p[a], p[b] = p[b], p[a]
					}
				}
				if near(end, p[0]) {
					loop.points = append(loop.points, p[1:]...)
					used[j], found = true, true
					break
				}
			}
			if !found {
				return nil, fmt.Errorf("end %g, %g meets nothing", end.x, end.y)
			}
		}
		out = append(out, loop)
	}
	return out, nil
}

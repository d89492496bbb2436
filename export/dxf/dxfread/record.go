package dxfread

import (
	"io"
	"math"

	"overbend/geom"
)

// record is an entity or a row of a table: what stands between two groups 0.
type record struct {
	kind string
	line int
	tags []tag
}

// records hands on every record of a section up to its ENDSEC.
func (f *file) records(section string, each func(*record) error) error {
	var r record
	section = show(section)
	started := false
	most := 4 * f.limits.Vertices
	for {
		t, err := f.tag()
		if err == io.EOF {
			return f.brokenOff(section)
		}
		if err != nil {
			return err
		}
		if t.code != 0 {
			if started && wanted(t.code) {
				if len(r.tags) == most {
					return f.tooMany(t.line)
				}
				r.tags = append(r.tags, t)
			}
			continue
		}
		if started && r.continues(t.value) {
			// A polyline is one record with its vertices.
			if len(r.tags) == most {
				return f.tooMany(t.line)
			}
			r.tags = append(r.tags, tag{0, t.value, t.line})
			continue
		}
		if started {
			if r.open() {
				return faultf(t.line, "%q stands in a POLYLINE, whose SEQEND is missing", show(t.value))
			}
			if err := each(&r); err != nil {
				return err
			}
		}
		switch t.value {
		case "ENDSEC":
			return nil
		case "SECTION", "EOF":
			return faultf(t.line, "%s stands in %s, which is not ended", t.value, section)
		}
		started = true
		r = record{kind: t.value, line: t.line, tags: r.tags[:0]}
	}
}

// continues reports whether a record belongs to the one before it.
func (r *record) continues(kind string) bool {
	return r.open() && (kind == "VERTEX" || kind == "SEQEND")
}

// open reports whether a polyline's vertices go on.
func (r *record) open() bool {
	if r.kind != "POLYLINE" {
		return false
	}
	for i := len(r.tags) - 1; i >= 0; i-- {
		if r.tags[i].code == 0 {
			return r.tags[i].value != "SEQEND"
		}
	}
	return true
}

// wanted reports whether a group is one that an entity read here may use.
func wanted(code int) bool {
	switch code {
	case 2, 8, 60, 62, 67, 10, 11, 20, 21, 30, 31, 40, 41, 42, 44, 45, 50, 51, 70, 71, 210, 220, 230:
		return true
	}
	return false
}

// find returns the first group of a code in the entity's own tags.
func (r *record) find(code int) (tag, bool) {
	for _, t := range r.tags {
		if t.code == 0 {
			break // a vertex
		}
		if t.code == code {
			return t, true
		}
	}
	return tag{}, false
}

func (r *record) text(code int) string {
	t, _ := r.find(code)
	return unescape(t.value)
}

func (r *record) number(code int, without float64) (float64, error) {
	if t, ok := r.find(code); ok {
		return t.number()
	}
	return without, nil
}

func (r *record) integer(code, without int) (int, error) {
	if t, ok := r.find(code); ok {
		return t.integer()
	}
	return without, nil
}

// must returns a number without which the entity has no shape.
func (r *record) must(code int) (float64, error) {
	t, ok := r.find(code)
	if !ok {
		return 0, faultf(r.line, "%s lacks group %d", show(r.kind), code)
	}
	return t.number()
}

// point returns the point that starts with a group, and its height.
func (r *record) point(code int) (geom.Point, float64, error) {
	var v [3]float64
	for i := range v {
		var err error
		if v[i], err = r.number(code+10*i, 0); err != nil {
			return geom.Point{}, 0, err
		}
	}
	return geom.Pt(v[0], v[1]), v[2], nil
}

// numbers hands out numbers until the first error, so that an entity is read
// without a test after each.
type numbers struct {
	r   *record
	err error
}

func (n *numbers) must(code int) float64 {
	if n.err != nil {
		return 0
	}
	v, err := n.r.must(code)
	n.err = err
	return v
}

func (n *numbers) or(code int, without float64) float64 {
	if n.err != nil {
		return 0
	}
	v, err := n.r.number(code, without)
	n.err = err
	return v
}

func (n *numbers) flag(code, without int) int {
	if n.err != nil {
		return 0
	}
	v, err := n.r.integer(code, without)
	n.err = err
	return v
}

func (n *numbers) point(code int) geom.Point { return geom.Pt(n.must(code), n.must(code+10)) }

// plane says where an entity's own coordinates lie.
type plane uint8

const (
	upright  plane = iota // as they are
	mirrored              // seen from behind, x turned round
	tilted
)

// plane returns it by the extrusion direction: a direction of 0, 0, -1 gives an x
// axis of -1, 0, 0 by the arbitrary axis rule [DXF].
func (n *numbers) plane() plane {
	x, y, z := n.or(210, 0), n.or(220, 0), n.or(230, 1)
	if math.Hypot(x, y) > 1e-9*math.Abs(z) || z == 0 {
		return tilted
	}
	if z < 0 {
		return mirrored
	}
	return upright
}

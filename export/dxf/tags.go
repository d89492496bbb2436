package dxf

import (
	"bytes"
	"math"
	"strconv"

	"overbend/geom"
)

// Decimals of printed numbers. A bulge needs 12: with 6, the radius of a
// shallow arc reads back wrong (R 2000 mm over a 50 mm chord by 0.08 mm).
// Angles of an ARC need 12 for its ends to meet their neighbours within 1e-8 mm
// at a radius of 1 km.
const (
	millimetreDecimals = 6
	fineDecimals       = 9 // inches, and the end points of separate pieces
	bulgeDecimals      = 12
	angleDecimals      = 12
)

// tags builds a file: pairs of a group code and a value, each on its own line.
type tags struct {
	b        []byte
	decimals int // of coordinates
	handle   uint
}

// line ends every line; CR LF is what the format's home system writes.
const line = "\r\n"

// code starts a pair. Group codes are set flush right in three columns.
func (t *tags) code(c int) {
	switch {
	case c < 10:
		t.b = append(t.b, "  "...)
	case c < 100:
		t.b = append(t.b, ' ')
	}
	t.b = strconv.AppendInt(t.b, int64(c), 10)
	t.b = append(t.b, line...)
}

func (t *tags) str(c int, s string) {
	t.code(c)
	t.b = append(t.b, s...)
	t.b = append(t.b, line...)
}

func (t *tags) int(c, v int) {
	t.code(c)
	t.b = strconv.AppendInt(t.b, int64(v), 10)
	t.b = append(t.b, line...)
}

func (t *tags) fixed(c int, v float64, decimals int) {
	t.code(c)
	t.b = appendFixed(t.b, v, decimals)
	t.b = append(t.b, line...)
}

// num writes a length or another plain number.
func (t *tags) num(c int, v float64) { t.fixed(c, v, t.decimals) }

// degrees returns a direction in degrees, in [0, 360).
func degrees(a geom.Angle) float64 {
	d := math.Mod(a.Degrees(), 360)
	if d < 0 {
		d += 360
	}
	return d
}

func (t *tags) hex(c int, h uint) {
	t.code(c)
	n := len(t.b)
	t.b = strconv.AppendUint(t.b, uint64(h), 16)
	for i := n; i < len(t.b); i++ {
		if t.b[i] >= 'a' {
			t.b[i] -= 'a' - 'A'
		}
	}
	t.b = append(t.b, line...)
}

// xy writes a point of the plane, x under group c and y under c + 10.
func (t *tags) xy(c int, p geom.Point) {
	t.num(c, p.X)
	t.num(c+10, p.Y)
}

// xyz writes a point with z = 0.
func (t *tags) xyz(c int, p geom.Point) {
	t.xy(c, p)
	t.num(c+20, 0)
}

// variable writes the name of a header variable; its value follows.
func (t *tags) variable(name string) { t.str(9, name) }

func (t *tags) section(name string) { t.str(0, "SECTION"); t.str(2, name) }
func (t *tags) endSection()         { t.str(0, "ENDSEC") }

// appendFixed appends v with the given number of decimals: a dot, no exponent,
// and no minus before a zero.
func appendFixed(b []byte, v float64, decimals int) []byte {
	n := len(b)
	b = strconv.AppendFloat(b, v, 'f', decimals, 64)
	if b[n] == '-' && len(bytes.Trim(b[n+1:], "0.")) == 0 {
		b = append(b[:n], b[n+1:]...)
	}
	return b
}

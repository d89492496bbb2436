// Package dxftest looks a finished DXF file through, for the tests of whoever
// writes one: dxf itself, and the kits. It shares no code with the writer.
package dxftest

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"overbend/geom"
)

// The file's line ends, and what a cutting table needs, as package dxf promises
// it.
const (
	line      = "\r\n"
	shortest  = 0.1  // mm, of a piece
	mmPerInch = 25.4 // by definition
)

// Lint returns the first fault of a file as package dxf writes it: a
// broken pair, a byte outside ASCII but for a text's letters, a number with an exponent or a -0, units
// that contradict each other, a handle used twice, a pointer to no handle, a
// seed at or below a handle, a layer or kind of entity that is not declared,
// an open contour, a repeated vertex, a piece shorter than 0.1 mm, a bulge
// beyond 1, text on what is cut. It takes any bytes and does not panic.
func Lint(data []byte) error {
	pairs, err := readPairs(string(data))
	if err != nil {
		return err
	}
	l := tagLint{handles: map[string]bool{}, layers: map[string]bool{}}
	if err := l.records(pairs); err != nil {
		return err
	}
	return l.finish()
}

// pair is a group code and its value; n is the line of the code, from 1.
type pair struct {
	code  int
	value string
	n     int
}

// readPairs cuts a file into pairs and checks each by itself.
func readPairs(s string) ([]pair, error) {
	pairs := make([]pair, 0, len(s)/12)
	n := 1
	next := func(text bool) (string, error) {
		end := strings.Index(s, line)
		if end < 0 {
			return "", fmt.Errorf("line %d: no CR LF at its end", n)
		}
		v := s[:end]
		s = s[end+len(line):]
		for i := range len(v) {
			if v[i] < ' ' || v[i] > '~' && !(text && v[i] >= 0x80) {
				return "", fmt.Errorf("line %d: byte 0x%02X is not printable ASCII", n, v[i])
			}
		}
		n++
		return v, nil
	}
	for s != "" {
		at := n
		head, err := next(false)
		if err != nil {
			return nil, err
		}
		code, err := strconv.Atoi(strings.TrimLeft(head, " "))
		if err != nil || code < 0 || code > 1071 {
			return nil, fmt.Errorf("line %d: %q is no group code", at, head)
		}
		if s == "" {
			return nil, fmt.Errorf("line %d: group %d has no value", at, code)
		}
		value, err := next(code == 1)
		if err != nil {
			return nil, err
		}
		if realCode(code) && !decimal(value) {
			return nil, fmt.Errorf("line %d: %q is no plain decimal number", at+1, value)
		}
		pairs = append(pairs, pair{code, value, at})
	}
	return pairs, nil
}

// realCode reports whether a group holds a real number [DXF].
func realCode(c int) bool { return c >= 10 && c < 60 || c >= 140 && c < 148 || c >= 210 && c < 240 }

// decimal reports whether s is digits, a dot and digits, with a minus only
// before a number that is not zero.
func decimal(s string) bool {
	digits, minus := strings.CutPrefix(s, "-")
	whole, part, dot := strings.Cut(digits, ".")
	if !dot || whole == "" || part == "" || len(s) > 40 {
		return false
	}
	zero := true
	for _, half := range [2]string{whole, part} {
		for _, c := range []byte(half) {
			if c < '0' || c > '9' {
				return false
			}
			zero = zero && c == '0'
		}
	}
	return !(minus && zero)
}

// tagLint gathers what is checked across records.
type tagLint struct {
	version, section, table string
	sections                []string
	variables               map[string]string
	handles, layers         map[string]bool
	highest                 uint64 // handle
	pointers                []pair
	polyline                *outline // POLYLINE whose vertices are being read
	ends                    []geom.Point
	ended                   bool
}

// records walks the file a record at a time; a record starts with group 0.
func (l *tagLint) records(pairs []pair) error {
	for i := 0; i < len(pairs); {
		if pairs[i].code != 0 {
			return fmt.Errorf("line %d: group %d outside a record", pairs[i].n, pairs[i].code)
		}
		if l.ended {
			return fmt.Errorf("line %d: %s after EOF", pairs[i].n, pairs[i].value)
		}
		j := i + 1
		for j < len(pairs) && pairs[j].code != 0 {
			j++
		}
		if err := l.record(pairs[i].value, pairs[i+1:j]); err != nil {
			return fmt.Errorf("%s at line %d: %w", pairs[i].value, pairs[i].n, err)
		}
		i = j
	}
	return nil
}

func (l *tagLint) record(kind string, body []pair) error {
	if l.polyline != nil && kind != "VERTEX" && kind != "SEQEND" {
		return fmt.Errorf("vertices before it have no SEQEND")
	}
	switch kind {
	case "EOF":
		l.ended = true
		if l.section != "" {
			return fmt.Errorf("section %s is not ended", l.section)
		}
		return nil
	case "SECTION":
		name := value(body, 2)
		if l.section != "" || name == "" || slices.Contains(l.sections, name) {
			return fmt.Errorf("section %q inside %q, without a name or there twice", name, l.section)
		}
		l.section = name
		l.sections = append(l.sections, name)
		if name == "HEADER" {
			return l.header(body)
		}
		return nil
	case "ENDSEC":
		if l.section == "" || l.table != "" {
			return fmt.Errorf("nothing to end, or table %q is not ended", l.table)
		}
		l.section = ""
		return nil
	}
	switch l.section {
	case "":
		return fmt.Errorf("outside a section")
	case "HEADER":
		return fmt.Errorf("a record in the header")
	case "TABLES":
		switch kind {
		case "TABLE":
			if l.table != "" {
				return fmt.Errorf("table %s is not ended", l.table)
			}
			l.table = value(body, 2)
		case "ENDTAB":
			l.table = ""
			return nil
		case "LAYER":
			l.layers[value(body, 2)] = true
		}
		if l.table == "" || kind != "TABLE" && kind != l.table {
			return fmt.Errorf("not a record of table %q", l.table)
		}
	}
	if err := l.identity(kind, body); err != nil {
		return err
	}
	if l.section == "ENTITIES" {
		return l.entity(kind, body)
	}
	return nil
}

// value returns the first value of a group, "" when there is none.
func value(body []pair, code int) string {
	for _, p := range body {
		if p.code == code {
			return p.value
		}
	}
	return ""
}

func (l *tagLint) header(body []pair) error {
	l.variables = map[string]string{}
	name := ""
	for _, p := range body[1:] {
		if p.code == 9 {
			name = p.value
			if _, twice := l.variables[name]; twice {
				return fmt.Errorf("line %d: %s is there twice", p.n, name)
			}
		} else if _, more := l.variables[name]; !more {
			l.variables[name] = p.value
		}
	}
	l.version = l.variables["$ACADVER"]
	if l.version != "AC1009" && l.version != "AC1015" {
		return fmt.Errorf("$ACADVER is %q; it must be AC1009 or AC1015", l.version)
	}
	switch l.variables["$INSUNITS"] + " " + l.variables["$MEASUREMENT"] {
	case "4 1", "1 0":
	default:
		return fmt.Errorf("$INSUNITS %q with $MEASUREMENT %q; it must be 4 with 1 (mm) or 1 with 0 (inch)", l.variables["$INSUNITS"], l.variables["$MEASUREMENT"])
	}
	return nil
}

// identity checks a record's handle and notes its pointers.
func (l *tagLint) identity(kind string, body []pair) error {
	code := 5
	if kind == "DIMSTYLE" {
		code = 105
	}
	own, owners := "", 0
	for _, p := range body {
		switch p.code {
		case code:
			if own != "" {
				return fmt.Errorf("line %d: a second handle", p.n)
			}
			own = p.value
			h, err := handle(own)
			if err != nil {
				return err
			}
			l.highest = max(l.highest, h)
			if l.handles[own] {
				return fmt.Errorf("line %d: handle %s is used twice", p.n, own)
			}
			l.handles[own] = true
		case 330, 340, 350, 360:
			l.pointers = append(l.pointers, p)
			if p.code == 330 {
				owners++
			}
		}
	}
	if l.version == "AC1015" && (own == "" || owners != 1) {
		return fmt.Errorf("no handle, or not one owner")
	}
	return nil
}

// handle reads a handle: up to 16 upper-case hexadecimal digits, no leading
// zero, so that two spellings can't hide one handle.
func handle(s string) (uint64, error) {
	h, err := strconv.ParseUint(s, 16, 64)
	if err != nil || h == 0 || s[0] == '0' || s[0] == '+' || s != strings.ToUpper(s) {
		return 0, fmt.Errorf("%q is no handle", s)
	}
	return h, nil
}

// outline is a polyline as read.
type outline struct {
	closed, cut bool
	vertices    []geom.Vertex
}

func (l *tagLint) entity(kind string, body []pair) error {
	name := value(body, 8)
	cut := name == "OUTLINE" || name == "HOLES" || name == "0"
	allowed := []string{"LWPOLYLINE", "CIRCLE", "TEXT"}
	if l.version == "AC1009" {
		allowed = []string{"POLYLINE", "VERTEX", "SEQEND", "LINE", "ARC", "CIRCLE", "TEXT"}
	}
	if !slices.Contains(allowed, kind) {
		return fmt.Errorf("not a kind of entity for %s", l.version)
	}
	if !l.layers[name] {
		return fmt.Errorf("layer %q is not declared", name)
	}
	switch kind {
	case "TEXT":
		if cut {
			return fmt.Errorf("text on layer %s", name)
		}
		if value(body, 1) == "" || !(numberOf(body, 40) > 0) {
			return fmt.Errorf("no words or no height")
		}
	case "CIRCLE":
		if !(2*numberOf(body, 40) >= l.mm(shortest)) {
			return fmt.Errorf("diameter under %g mm", shortest)
		}
	case "LWPOLYLINE":
		o := outline{closed: value(body, 70) == "1", cut: cut}
		for _, p := range body {
			switch n := len(o.vertices); p.code {
			case 10:
				o.vertices = append(o.vertices, geom.Vertex{Point: geom.Pt(number(p.value), math.NaN())})
			case 20, 42:
				if n == 0 {
					return fmt.Errorf("line %d: group %d before a vertex", p.n, p.code)
				}
				if p.code == 20 {
					o.vertices[n-1].Y = number(p.value)
				} else {
					o.vertices[n-1].Bulge = number(p.value)
				}
			}
		}
		if value(body, 90) != strconv.Itoa(len(o.vertices)) {
			return fmt.Errorf("%d vertices; group 90 says %q", len(o.vertices), value(body, 90))
		}
		return l.outline(o)
	case "POLYLINE":
		l.polyline = &outline{closed: value(body, 70) == "1", cut: cut}
	case "VERTEX":
		if l.polyline == nil {
			return fmt.Errorf("no POLYLINE before it")
		}
		v := geom.Vertex{Point: geom.Pt(numberOf(body, 10), numberOf(body, 20))}
		if value(body, 42) != "" {
			v.Bulge = numberOf(body, 42)
		}
		l.polyline.vertices = append(l.polyline.vertices, v)
	case "SEQEND":
		if l.polyline == nil {
			return fmt.Errorf("no POLYLINE before it")
		}
		o := *l.polyline
		l.polyline = nil
		return l.outline(o)
	case "LINE":
		a, b := geom.Pt(numberOf(body, 10), numberOf(body, 20)), geom.Pt(numberOf(body, 11), numberOf(body, 21))
		if !(a.Dist(b) >= l.mm(shortest)) {
			return fmt.Errorf("shorter than %g mm", shortest)
		}
		if cut {
			l.ends = append(l.ends, a, b)
		}
	case "ARC":
		c, r := geom.Pt(numberOf(body, 10), numberOf(body, 20)), numberOf(body, 40)
		from, to := geom.Angle(numberOf(body, 50))*geom.Degree, geom.Angle(numberOf(body, 51))*geom.Degree
		sweep := math.Mod(float64(to-from), 2*math.Pi)
		if sweep < 0 {
			sweep += 2 * math.Pi
		}
		if !(r*sweep >= l.mm(shortest)) {
			return fmt.Errorf("shorter than %g mm", shortest)
		}
		if cut {
			l.ends = append(l.ends, c.Add(geom.Polar(r, from)), c.Add(geom.Polar(r, to)))
		}
	}
	return nil
}

// number returns a value as a number, NaN where it is none.
func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// numberOf returns the first value of a group as a number, NaN where there is none.
func numberOf(body []pair, code int) float64 { return number(value(body, code)) }

// mm returns v mm in the file's unit, less what rounding to its decimals may
// take off.
func (l *tagLint) mm(v float64) float64 {
	if l.variables["$INSUNITS"] == "1" {
		v /= mmPerInch
	}
	return v - 4*geom.Coincident
}

func (l *tagLint) outline(o outline) error {
	if o.cut && !o.closed {
		return fmt.Errorf("open on a layer that is cut")
	}
	if len(o.vertices) < 2 {
		return fmt.Errorf("%d vertices; at least two", len(o.vertices))
	}
	for _, s := range (geom.Path{Vertices: o.vertices, Closed: o.closed}).Segments() {
		if !s.From.Finite() || !s.To.Finite() || !(math.Abs(s.Bulge) <= 1) {
			return fmt.Errorf("a vertex without x or y, or a bulge beyond 1")
		}
		if !(s.Chord() >= geom.Coincident) {
			return fmt.Errorf("vertex %g, %g is repeated", s.From.X, s.From.Y)
		}
		if !(s.Length() >= l.mm(shortest)) {
			return fmt.Errorf("piece shorter than %g mm at %g, %g", shortest, s.From.X, s.From.Y)
		}
	}
	return nil
}

// finish checks what only the whole file tells.
func (l *tagLint) finish() error {
	if !l.ended || !slices.Contains(l.sections, "ENTITIES") || l.version == "" {
		return fmt.Errorf("no HEADER, no ENTITIES or no EOF")
	}
	for _, p := range l.pointers {
		if p.value != "0" && !l.handles[p.value] {
			return fmt.Errorf("line %d: group %d points to handle %s, which nothing has", p.n, p.code, p.value)
		}
	}
	if l.version == "AC1015" {
		seed, err := handle(l.variables["$HANDSEED"])
		if err != nil {
			return fmt.Errorf("$HANDSEED: %w", err)
		}
		if seed <= l.highest {
			return fmt.Errorf("$HANDSEED %X is not above handle %X", seed, l.highest)
		}
	}
	return l.joined()
}

// joined checks that separate pieces close up: every end meets exactly one
// other.
func (l *tagLint) joined() error {
	gap := geom.Coincident
	if l.variables["$INSUNITS"] == "1" {
		gap /= mmPerInch
	}
	for _, p := range l.ends {
		if !p.Finite() {
			return fmt.Errorf("a line or arc lacks a coordinate")
		}
	}
	slices.SortFunc(l.ends, func(p, q geom.Point) int {
		if p.X < q.X {
			return -1
		}
		if p.X > q.X {
			return 1
		}
		return 0
	})
	met := make([]int, len(l.ends))
	for i, p := range l.ends {
		for j := i + 1; j < len(l.ends) && l.ends[j].X-p.X <= gap; j++ {
			if p.Dist(l.ends[j]) <= gap {
				met[i]++
				met[j]++
			}
		}
	}
	for i, m := range met {
		if m != 1 {
			return fmt.Errorf("%d ends meet the one at %g, %g; a closed contour has 1", m, l.ends[i].X, l.ends[i].Y)
		}
	}
	return nil
}

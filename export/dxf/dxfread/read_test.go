package dxfread

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"

	"overbend/geom"
)

// bars writes groups with bars between for a file.
func bars(s string) string { return strings.ReplaceAll(s, "|", "\n") + "\n" }

func entities(body string) string {
	return bars("0|SECTION|2|ENTITIES|" + body + "|0|ENDSEC|0|EOF")
}

func read(t *testing.T, s string) Drawing {
	t.Helper()
	d, err := Read(strings.NewReader(s), Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Where a line starts, where its middle is and where it ends, by the format's own
// rules, worked out by hand.
func TestEntities(t *testing.T) {
	h := math.Sqrt2 / 2
	for name, c := range map[string]struct {
		body             string
		start, half, end geom.Point
		sampled          bool
	}{
		"line":                    {"0|LINE|8|A|10|1|20|2|30|9|11|3|21|4|31|9", geom.Pt(1, 2), geom.Pt(2, 3), geom.Pt(3, 4), false},
		"arc":                     {"0|ARC|8|A|10|1|20|0|40|2|50|0|51|90", geom.Pt(3, 0), geom.Pt(1+2*h, 2*h), geom.Pt(1, 2), false},
		"arc over 0":              {"0|ARC|8|A|10|0|20|0|40|2|50|270|51|90", geom.Pt(0, -2), geom.Pt(2, 0), geom.Pt(0, 2), false},
		"long arc":                {"0|ARC|8|A|10|0|20|0|40|2|50|90|51|360", geom.Pt(0, 2), geom.Pt(-2*h, -2*h), geom.Pt(2, 0), false},
		"arc from behind":         {"0|ARC|8|A|10|1|20|0|40|2|50|0|51|90|210|0|220|0|230|-1", geom.Pt(-3, 0), geom.Pt(-1-2*h, 2*h), geom.Pt(-1, 2), false},
		"circle":                  {"0|CIRCLE|8|A|10|1|20|1|40|2", geom.Pt(3, 1), geom.Pt(-1, 1), geom.Pt(3, 1), false},
		"round ellipse":           {"0|ELLIPSE|8|A|10|0|20|0|11|0|21|2|40|1|41|0|42|1.5707963267948966", geom.Pt(0, 2), geom.Pt(-2*h, 2*h), geom.Pt(-2, 0), false},
		"ellipse":                 {"0|ELLIPSE|8|A|10|0|20|0|11|4|21|0|40|0.5|41|0|42|3.141592653589793", geom.Pt(4, 0), geom.Pt(0, 2), geom.Pt(-4, 0), true},
		"ellipse from behind":     {"0|ELLIPSE|8|A|10|0|20|0|11|4|21|0|40|0.5|41|0|42|3.141592653589793|230|-1", geom.Pt(4, 0), geom.Pt(0, -2), geom.Pt(-4, 0), true},
		"ellipse over 0":          {"0|ELLIPSE|8|A|10|0|20|0|11|4|21|0|40|0.5|41|4.7123889803846897|42|1.5707963267948966", geom.Pt(0, -2), geom.Pt(4, 0), geom.Pt(0, 2), true},
		"light polyline":          {"0|LWPOLYLINE|8|A|90|2|70|0|10|0|20|0|42|-1|10|4|20|0|42|7", geom.Pt(0, 0), geom.Pt(2, 2), geom.Pt(4, 0), false},
		"its thickness and width": {"0|LWPOLYLINE|8|A|90|2|70|0|43|1|39|2|38|5|10|0|20|0|40|3|41|3|42|-1|10|4|20|0", geom.Pt(0, 0), geom.Pt(2, 2), geom.Pt(4, 0), false},
		"repeated corners":        {"0|LWPOLYLINE|8|A|90|4|70|0|10|0|20|0|10|0|20|0|42|1|10|4|20|0|10|4|20|0", geom.Pt(0, 0), geom.Pt(2, -2), geom.Pt(4, 0), false},
		"polyline":                {"0|POLYLINE|8|A|66|1|70|0|0|VERTEX|8|A|10|0|20|0|42|1|0|VERTEX|8|A|10|4|20|0|0|SEQEND|8|A", geom.Pt(0, 0), geom.Pt(2, -2), geom.Pt(4, 0), false},
		"polyline from behind":    {"0|POLYLINE|8|A|66|1|70|0|230|-1|0|VERTEX|10|0|20|0|42|1|0|VERTEX|10|4|20|0|0|SEQEND", geom.Pt(0, 0), geom.Pt(-2, -2), geom.Pt(-4, 0), false},
		"polyline's frame":        {"0|POLYLINE|8|A|66|1|70|4|0|VERTEX|10|9|20|9|70|16|0|VERTEX|10|0|20|0|70|8|0|VERTEX|10|2|20|0|70|8|0|SEQEND", geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(2, 0), false},
		"spline, degree 1":        {"0|SPLINE|8|A|70|8|71|1|40|0|40|0|40|1|40|1|10|0|20|0|10|4|20|2", geom.Pt(0, 0), geom.Pt(2, 1), geom.Pt(4, 2), true},
		// A parabola through its control polygon: the middle at a quarter, half, quarter.
		"spline, degree 2": {"0|SPLINE|8|A|70|8|71|2|40|0|40|0|40|0|40|1|40|1|40|1|10|0|20|0|10|2|20|4|10|4|20|0", geom.Pt(0, 0), geom.Pt(2, 2), geom.Pt(4, 0), true},
		// A quarter circle as a rational spline, the weight of its corner cos 45 deg.
		"rational spline":   {"0|SPLINE|8|A|70|12|71|2|40|0|40|0|40|0|40|1|40|1|40|1|41|1|41|0.70710678118654752|41|1|10|2|20|0|10|2|20|2|10|0|20|2", geom.Pt(2, 0), geom.Pt(2*h, 2*h), geom.Pt(0, 2), true},
		"spline's fit":      {"0|SPLINE|8|A|70|8|71|3|74|3|11|0|21|0|11|1|21|5|11|2|21|0", geom.Pt(0, 0), geom.Pt(1, 5), geom.Pt(2, 0), true},
		"spaces and spaces": {" 0 | LINE |  8| A | 10 | 1.0e0 | 20| 2|11|3|21|4", geom.Pt(1, 2), geom.Pt(2, 3), geom.Pt(3, 4), false},
	} {
		d := read(t, entities(c.body))
		if len(d.Shapes) != 1 {
			t.Errorf("%s: %d shapes, %v", name, len(d.Shapes), d.Skipped)
			continue
		}
		s := d.Shapes[0]
		segs := s.Path.Segments()
		start, end := segs[0].From, segs[len(segs)-1].To
		half := s.Path.Reverse().UpTo(s.Path.Length() / 2).End()
		if s.Path.Closed {
			half = segs[len(segs)/2].From
		}
		for i, p := range [][2]geom.Point{{start, c.start}, {half, c.half}, {end, c.end}} {
			// The middle of a curve by length is that by parameter only for what is
			// the same from both sides, as all of these are.
			if p[0].Dist(p[1]) > 1e-3 || i != 1 && p[0].Dist(p[1]) > 1e-12 {
				t.Errorf("%s: point %d at %v, want %v", name, i, p[0], p[1])
			}
		}
		if r := segs[0].Radius(); strings.Contains(name, "round ellipse") && math.Abs(r-2) > 1e-12 {
			t.Errorf("%s: radius %g", name, r)
		}
		if s.Sampled != c.sampled || s.Layer != "A" {
			t.Errorf("%s: %+v", name, s)
		}
	}
}

// What has no line in the plane is counted, not drawn.
func TestSkipped(t *testing.T) {
	for body, want := range map[string]string{
		"0|LINE|10|0|20|0|11|1|21|1|31|1":                                            OffPlane,
		"0|ARC|10|0|20|0|40|1|50|0|51|90|210|1|220|0|230|0":                          OffPlane,
		"0|CIRCLE|10|0|20|0|40|1|230|0":                                              OffPlane,
		"0|INSERT|2|X|10|0|20|0":                                                     Missing,
		"0|3DFACE|10|0|20|0":                                                         "3DFACE",
		"0|POLYLINE|66|1|70|64|0|VERTEX|10|0|20|0|0|SEQEND":                          "mesh",
		"0|LWPOLYLINE|90|1|10|0|20|0":                                                "",
		"0|LWPOLYLINE|90|0":                                                          "",
		"0|LWPOLYLINE|90|2|70|1|10|0|20|0|10|0|20|0":                                 "",
		"0|LINE|67|1|10|0|20|0|11|1|21|1":                                            "",
		"0|LINE|60|1|10|0|20|0|11|1|21|1":                                            "",
		"0|ARC|10|0|20|0|40|0|50|0|51|90":                                            "",
		"0|SPLINE|71|1|40|0|40|0|40|0|40|0|10|0|20|0|10|4|20|2":                      "",
		"0|ELLIPSE|10|0|20|0|11|0|21|0|40|1":                                         "",
		"0|TEXT|1|0|0|MTEXT|3|a|1|b|101|Embedded Object|10|1|20|1":                   "MTEXT",
		"0|VIEWPORT|10|0|20|0|0|ATTRIB|10|0|20|0|0|SEQEND":                           "",
		"0|POLYLINE|66|1|0|SEQEND":                                                   "",
		"0|POLYLINE|66|1|0|VERTEX|10|0|20|0|70|16|0|VERTEX|10|1|20|1|70|16|0|SEQEND": "",
	} {
		d := read(t, entities(body))
		if len(d.Shapes) != 0 {
			t.Errorf("%s: %+v", body, d.Shapes)
		}
		got := ""
		if len(d.Skipped) > 0 {
			got = d.Skipped[0].What
		}
		if got != want {
			t.Errorf("%s: left out %q, want %q", body, got, want)
		}
	}
}

// A block's line lands where the INSERTs, from the inside out, put it: less the
// block's base point, scaled, turned, moved.
func TestInserts(t *testing.T) {
	blocks := func(s string) string { return "0|SECTION|2|BLOCKS|" + s + "|0|ENDSEC" }
	one := "0|BLOCK|8|0|2|One|10|1|20|1|0|LINE|8|0|10|2|20|1|11|4|21|1|0|LINE|8|K|10|1|20|1|11|1|21|2|0|ENDBLK"
	two := "0|BLOCK|2|TWO|10|0|20|0|0|INSERT|8|0|2|one|10|10|20|0|50|90|0|ENDBLK"
	for name, c := range map[string]struct {
		blocks, body string
		from, to     geom.Point // of the first line
		layer        string
		n            int
	}{
		"plain":        {one, "0|INSERT|8|L|2|ONE|10|0|20|0", geom.Pt(1, 0), geom.Pt(3, 0), "L", 2},
		"scaled":       {one, "0|INSERT|8|L|2|ONE|10|5|20|6|41|2|42|3", geom.Pt(7, 6), geom.Pt(11, 6), "L", 2},
		"turned":       {one, "0|INSERT|8|L|2|ONE|10|5|20|6|50|90", geom.Pt(5, 7), geom.Pt(5, 9), "L", 2},
		"mirrored":     {one, "0|INSERT|8|L|2|ONE|10|5|20|6|41|-1|50|90", geom.Pt(5, 5), geom.Pt(5, 3), "L", 2},
		"from behind":  {one, "0|INSERT|8|L|2|ONE|10|5|20|6|50|90|230|-1", geom.Pt(-5, 7), geom.Pt(-5, 9), "L", 2},
		"in a block":   {one + "|" + two, "0|INSERT|8|M|2|two|10|100|20|0|41|2|42|2", geom.Pt(120, 2), geom.Pt(120, 6), "M", 2},
		"in rows":      {one, "0|INSERT|8|L|2|ONE|10|0|20|0|70|3|71|2|44|10|45|20|50|90", geom.Pt(0, 1), geom.Pt(0, 3), "L", 12},
		"attributes":   {one, "0|INSERT|8|L|2|ONE|66|1|10|0|20|0|0|ATTRIB|8|L|10|1|20|1|0|SEQEND|8|L", geom.Pt(1, 0), geom.Pt(3, 0), "L", 2},
		"no scale":     {one, "0|INSERT|8|L|2|ONE|10|0|20|0|41|0|0|LINE|8|Q|10|0|20|0|11|1|21|0", geom.Pt(0, 0), geom.Pt(1, 0), "Q", 1},
		"before block": {one, "0|INSERT|2|ONE|10|0|20|0", geom.Pt(1, 0), geom.Pt(3, 0), "0", 2},
	} {
		d := read(t, bars(blocks(c.blocks))+entities(c.body))
		if len(d.Shapes) != c.n {
			t.Errorf("%s: %d shapes", name, len(d.Shapes))
			continue
		}
		s := d.Shapes[0].Path.Segments()[0]
		if s.From.Dist(c.from) > 1e-12 || s.To.Dist(c.to) > 1e-12 || d.Shapes[0].Layer != c.layer {
			t.Errorf("%s: %v on %s", name, s, d.Shapes[0].Layer)
		}
		if c.n == 12 {
			// Columns run along the turned x, rows along the turned y.
			if last := d.Shapes[10].Path.Segments()[0].From; last.Dist(geom.Pt(-20, 21)) > 1e-12 {
				t.Errorf("%s: the last at %v", name, last)
			}
		}
		if c.n == 2 && d.Shapes[1].Layer != "K" {
			t.Errorf("%s: layer %s", name, d.Shapes[1].Layer)
		}
	}

	// A spline with double knots is its parts: line, quarter circle, line.
	d := read(t, entities("0|SPLINE|71|2|40|0|40|0|40|0|40|1|40|1|40|2|40|2|40|3|40|3|40|3|41|1|41|1|41|1|41|0.70710678118654752|41|1|41|1|41|1|"+
		"10|2|20|-8|10|2|20|-4|10|2|20|0|10|2|20|2|10|0|20|2|10|-3|20|2|10|-6|20|2"))
	for _, v := range d.Shapes[0].Path.Vertices {
		off := v.Norm() - 2
		switch {
		case v.Y < 0:
			off = v.X - 2
		case v.X < 0:
			off = v.Y - 2
		}
		if !(math.Abs(off) < 1e-12) {
			t.Fatalf("%v is off its curve", v)
		}
	}

	// Lines stay lines where arcs beside them become chords.
	d = read(t, bars(blocks("0|BLOCK|2|B|0|LWPOLYLINE|70|1|10|1|20|0|42|0.41421356237309503|10|0|20|1|10|-1|20|0|42|0.41421356237309503|10|0|20|-1|0|ENDBLK"))+entities("0|INSERT|2|B|10|0|20|0|41|3|42|2"))
	if p := d.Shapes[0].Path; math.Abs(p.Area()-6*(1+math.Pi/2)) > 0.02 || p.Vertices[len(p.Vertices)-1].Point != geom.Pt(0, -2) {
		t.Errorf("area %g, %v", p.Area(), p.Vertices[len(p.Vertices)-1])
	}

	// An arc under unequal scales is an ellipse, in chords on the curve.
	d = read(t, bars(blocks("0|BLOCK|2|B|0|ARC|10|0|20|0|40|1|50|0|51|180|0|ENDBLK"))+entities("0|INSERT|2|B|10|0|20|0|41|3|42|2"))
	s := d.Shapes[0]
	if !s.Sampled || len(s.Path.Vertices) < 100 {
		t.Errorf("%d corners, sampled %v", len(s.Path.Vertices), s.Sampled)
	}
	for _, v := range s.Path.Vertices {
		if math.Abs(v.X*v.X/9+v.Y*v.Y/4-1) > 1e-9 || v.Bulge != 0 {
			t.Fatalf("%v is not on the ellipse", v)
		}
	}
}

// Names come out of the file's own characters; layers that are not shown hide what is
// on them.
func TestLayers(t *testing.T) {
	head := func(version, page string) string {
		return bars("0|SECTION|2|HEADER|9|$ACADVER|1|" + version + "|9|$DWGCODEPAGE|3|" + page + "|0|ENDSEC")
	}
	for _, c := range []struct{ version, page, name, want string }{
		{"AC1009", "ANSI_1252", "Kante-\xc4", "Kante-Ä"},
		{"AC1015", "ANSI_1251", "\xcb\xe8\xed\xe8\xff", "Линия"},
		{"AC1018", "ansi_932", "\x90\xfc", "線"},
		{"AC1015", "ANSI_936", "\xcf\xdf", "线"},
		{"AC1021", "ANSI_1252", "Kante-Ä", "Kante-Ä"},
		{"AC1015", "ANSI_1252", `Kante-\U+00C4\U+12`, `Kante-Ä\U+12`},
		{"AC1032", "ANSI_1252", "a\xff", "a?"},
		{"AC1009", "dos850", "A", "A"},
	} {
		d := read(t, head(c.version, c.page)+entities("0|LINE|8|"+c.name+"|10|0|20|0|11|1|21|1"))
		if d.Layers[0] != c.want || d.Version != c.version {
			t.Errorf("%s, %s: %q, want %q", c.version, c.page, d.Layers[0], c.want)
		}
	}
	tables := bars("0|SECTION|2|TABLES|0|TABLE|2|LAYER|70|4|0|LAYER|2|On|70|0|62|3|0|LAYER|2|Off|70|0|62|-3|0|LAYER|2|Frozen|70|1|62|3|0|LAYER|2|Locked|70|4|62|0|0|ENDTAB|0|ENDSEC")
	var body []string
	for _, l := range []string{"on", "OFF", "frozen", "locked", "undeclared"} {
		body = append(body, "0|LINE|8|"+l+"|10|0|20|0|11|1|21|1")
	}
	d := read(t, tables+entities(strings.Join(body, "|")))
	if fmt.Sprint(d.Layers) != "[on locked undeclared]" || fmt.Sprint(d.Skipped) != "[{"+Hidden+" 2}]" {
		t.Errorf("%v, %v", d.Layers, d.Skipped)
	}
}

// Sizes of $INSUNITS' units in mm, by their definitions: the inch is 25.4 mm, the
// US survey foot 1200/3937 m.
func TestUnits(t *testing.T) {
	for code, want := range map[int]float64{
		0: 0, 1: 25.4, 2: 304.8, 3: 1609344, 4: 1, 5: 10, 6: 1000, 7: 1e6, 8: 25.4e-6, 9: 0.0254, 10: 914.4,
		11: 1e-7, 12: 1e-6, 13: 1e-3, 14: 100, 15: 1e4, 16: 1e5, 17: 0, 20: 0, 21: 304.80060960121919,
		22: 25.400050800101603, 23: 914.4018288036576, -1: 0, 99: 0,
	} {
		d := read(t, bars(fmt.Sprintf("0|SECTION|2|HEADER|9|$INSUNITS|70|%d|0|ENDSEC", code))+entities("0|LINE|10|0|20|0|11|1|21|1"))
		if math.Abs(d.Unit-want) > 1e-12*want || d.UnitCode != code {
			t.Errorf("$INSUNITS %d: %g mm, want %g", code, d.Unit, want)
		}
	}
}

// Hostile and broken files: one sentence each, with its line.
func TestRefuses(t *testing.T) {
	block := func(name, body string) string {
		return "0|SECTION|2|BLOCKS|0|BLOCK|2|" + name + "|" + body + "|0|ENDBLK|0|ENDSEC|0|SECTION|2|ENTITIES|0|INSERT|2|" + name + "|10|0|20|0|0|ENDSEC|0|EOF"
	}
	var deep strings.Builder
	deep.WriteString("0|SECTION|2|BLOCKS")
	for i := range 40 {
		fmt.Fprintf(&deep, "|0|BLOCK|2|B%d|0|INSERT|2|B%d|10|0|20|0|0|ENDBLK", i, i+1)
	}
	deep.WriteString("|0|BLOCK|2|B40|0|LINE|10|0|20|0|11|1|21|1|0|ENDBLK|0|ENDSEC|0|SECTION|2|ENTITIES|0|INSERT|2|B0|10|0|20|0|0|ENDSEC|0|EOF")
	var wide strings.Builder // each block holds the next one ten times: 10^12 lines
	wide.WriteString("0|SECTION|2|BLOCKS")
	for i := range 12 {
		fmt.Fprintf(&wide, "|0|BLOCK|2|B%d|0|INSERT|2|B%d|10|0|20|0|70|10|44|1|0|ENDBLK", i, i+1)
	}
	wide.WriteString("|0|BLOCK|2|B12|0|LINE|10|0|20|0|11|1|21|1|0|ENDBLK|0|ENDSEC|0|SECTION|2|ENTITIES|0|INSERT|2|B0|10|0|20|0|0|ENDSEC|0|EOF")
	for name, c := range map[string]struct{ text, want string }{
		"empty":            {"", "the file is empty"},
		"binary":           {"AutoCAD Binary DXF\r\n\x1a\x00\x00\x00SECTION", "a binary DXF can't be read; save it as a text (ASCII) DXF"},
		"dwg":              {"AC1032\x00\x00\x00\x00", "a DWG can't be read; save it as a text (ASCII) DXF"},
		"utf-16":           {"\xff\xfe0\x00\n\x00", "the file is no text in 8-bit characters or UTF-8; save it as a text (ASCII) DXF"},
		"svg":              {"<svg/>", "the file is no DXF; save the drawing as a text (ASCII) DXF"},
		"words":            {"hello\nworld\n", "the file is no DXF; save the drawing as a text (ASCII) DXF"},
		"far code":         {bars("0|SECTION|2|ENTITIES|1072|x"), `line 5: "1072" is no group code, a whole number from -5 to 1071`},
		"fraction":         {bars("0.5|SECTION"), "the file is no DXF; save the drawing as a text (ASCII) DXF"},
		"odd":              {"0\nSECTION\n2", "line 3: the file breaks off: group 2 has no value"},
		"outside":          {bars("5|x"), "line 2: group 5 stands outside of a section; this is no DXF, or one with lines missing"},
		"no section":       {bars("0|LINE|8|A"), `line 2: "LINE" stands where a SECTION must begin`},
		"no name":          {bars("0|SECTION|0|LINE"), "line 4: a section has no name; group 2 must follow it"},
		"name missing":     {bars("0|SECTION"), "line 3: the file breaks off in a section's name"},
		"only EOF":         {bars("0|EOF"), "the file has no ENTITIES section, so it draws nothing"},
		"no entities":      {bars("0|SECTION|2|HEADER|0|ENDSEC|0|EOF"), "the file has no ENTITIES section, so it draws nothing"},
		"header open":      {bars("0|SECTION|2|HEADER|9|$A|1|x|0|SECTION"), `line 10: "SECTION" stands in HEADER, which is not ended`},
		"header breaks":    {bars("0|SECTION|2|HEADER|9|$A"), "line 7: the file breaks off in HEADER"},
		"entities break":   {bars("0|SECTION|2|ENTITIES|0|LINE|8|A"), "line 9: the file breaks off in ENTITIES"},
		"entities open":    {bars("0|SECTION|2|ENTITIES|0|LINE|10|0|20|0|11|1|21|1|0|EOF"), "line 16: EOF stands in ENTITIES, which is not ended"},
		"entities twice":   {bars("0|SECTION|2|ENTITIES|0|ENDSEC|0|SECTION|2|ENTITIES|0|ENDSEC|0|EOF"), "line 10: a second ENTITIES section"},
		"NaN":              {entities("0|LINE|10|nan|20|0|11|1|21|1"), `line 8: "nan" in group 10 is no number that a drawing can hold`},
		"infinite":         {entities("0|CIRCLE|10|0|20|0|40|1e999"), `line 12: "1e999" in group 40 is no number that a drawing can hold`},
		"far":              {entities("0|CIRCLE|10|-1e13|20|0|40|1"), `line 8: "-1e13" in group 10 is no number that a drawing can hold`},
		"comma":            {entities("0|CIRCLE|10|1,5|20|0|40|1"), `line 8: "1,5" in group 10 is no number that a drawing can hold`},
		"no centre":        {entities("0|CIRCLE|8|A|40|1"), "line 6: CIRCLE lacks group 10"},
		"no end":           {entities("0|LINE|8|A|10|1|20|1"), "line 6: LINE lacks group 11"},
		"half flag":        {entities("0|LWPOLYLINE|70|1.5|10|0|20|0"), `line 8: "1.5" in group 70 is no whole number`},
		"y first":          {entities("0|LWPOLYLINE|20|0|10|0"), "line 8: group 20 of an LWPOLYLINE stands before its first corner"},
		"bulge":            {entities("0|LWPOLYLINE|10|0|20|0|42|1e5|10|1|20|1"), `line 12: a bulge of 1e5 is not allowed; it must be at most 10000`},
		"no seqend":        {entities("0|POLYLINE|66|1|0|VERTEX|10|0|20|0"), `line 16: "ENDSEC" stands in a POLYLINE, whose SEQEND is missing`},
		"line in polyline": {entities("0|POLYLINE|66|1|0|VERTEX|10|0|20|0|0|LINE"), `line 16: "LINE" stands in a POLYLINE, whose SEQEND is missing`},
		"degree":           {entities("0|SPLINE|71|11|10|0|20|0"), "line 6: a SPLINE has a degree that is not from 1 to 10"},
		"few":              {entities("0|SPLINE|71|3|10|0|20|0"), "line 6: a SPLINE has too few control points for its degree"},
		"as many":          {entities("0|SPLINE|71|2|10|0|20|0|10|1|20|0"), "line 6: a SPLINE has too few control points for its degree"},
		"quotes":           {"0\nSECTION\na\"\\\x01b\nx\n", `line 3: "a???b" is no group code, a whole number from -5 to 1071`},
		"after blanks":     {bars("0|SECTION|2|ENTITIES|0|ENDSEC") + "\n0\nEOF\n", `line 7: "" is no group code, a whole number from -5 to 1071`},
		"low code":         {bars("0|SECTION|2|ENTITIES|-6|x"), `line 5: "-6" is no group code, a whole number from -5 to 1071`},
		"minus":            {bars("0|SECTION|2|ENTITIES|-|x"), `line 5: "-" is no group code, a whole number from -5 to 1071`},
		"knots":            {entities("0|SPLINE|71|1|10|0|20|0|10|1|20|0|40|0"), "line 6: a SPLINE has not as many knots as its control points and degree ask for"},
		"falling knots":    {entities("0|SPLINE|71|1|10|0|20|0|10|1|20|0|40|0|40|1|40|0|40|1"), "line 6: a SPLINE has knots that do not ascend"},
		"weights":          {entities("0|SPLINE|71|1|10|0|20|0|10|1|20|0|40|0|40|0|40|1|40|1|41|1"), "line 6: a SPLINE has not a weight for each control point"},
		"no weight":        {entities("0|SPLINE|71|1|10|0|20|0|10|1|20|0|40|0|40|0|40|1|40|1|41|1|41|0"), "line 6: a SPLINE has a weight that is not above 0"},
		"cycle":            {bars(block("A", "0|INSERT|2|a|10|0|20|0")), `line 10: block "a" holds itself`},
		"deep":             {bars(deep.String()), "line 444: blocks lie in each other more than 32 deep"},
		"wide":             {bars(wide.String()), "line 208: more than 100000 INSERTs, counting those in blocks, rows and columns, are not allowed"},
		"long words":       {bars("0|SECTION|" + strings.Repeat("a", 200)), `line 3: "` + strings.Repeat("a", 40) + `..." is no group code, a whole number from -5 to 1071`},
	} {
		_, err := Read(strings.NewReader(c.text), Limits{})
		if got := fmt.Sprint(err); got != c.want {
			t.Errorf("%s: %s\nwant %s", name, got, c.want)
		}
	}
	for _, scale := range []string{"41|1e9|42|1e9", "41|-1e9|42|1e9", "41|1|42|1e9", "41|1|42|-1e9"} {
		_, err := Read(strings.NewReader(bars("0|SECTION|2|BLOCKS|0|BLOCK|2|A|0|LINE|10|0|20|0|11|1e9|21|1e9|0|ENDBLK|0|ENDSEC")+entities("0|INSERT|2|A|10|0|20|0|"+scale)), Limits{})
		if err == nil || !strings.Contains(err.Error(), "put it beyond all bounds") {
			t.Errorf("%s: %v", scale, err)
		}
	}
}

// What is odd but harmless is read.
func TestTolerates(t *testing.T) {
	line := "0|LINE|8|A|10|0|20|0|11|1|21|1"
	for name, s := range map[string]string{
		"CR LF":           strings.ReplaceAll(entities(line), "\n", "\r\n"),
		"CR":              strings.ReplaceAll(entities(line), "\n", "\r"),
		"byte order mark": "\xef\xbb\xbf" + entities(line),
		"comment":         bars("999|words") + entities(line),
		"no EOF":          bars("0|SECTION|2|ENTITIES|" + line + "|0|ENDSEC"),
		"no last newline": strings.TrimSuffix(entities(line), "\n"),
		"blank end":       entities(line) + "\n\n\n",
		"blank, no EOF":   bars("0|SECTION|2|ENTITIES|"+line+"|0|ENDSEC") + "\n\n\n",
		"unknown section": bars("0|SECTION|2|THUMBNAILIMAGE|90|4|310|FFFF|0|ENDSEC") + entities(line),
		"long value":      entities("0|TEXT|1|" + strings.Repeat("x", 1<<20) + "|" + line),
		"negative code":   entities("0|TEXT|-5|x|1071|y|" + line),
		"after EOF":       entities(line) + "rubbish",
	} {
		if d := read(t, s); len(d.Shapes) != 1 {
			t.Errorf("%s: %d shapes", name, len(d.Shapes))
		}
	}
}

// endless gives a drawing of a chosen size without having it.
type endless struct {
	head, body []byte
	left       int64
}

func (e *endless) Read(p []byte) (int, error) {
	if len(e.head) > 0 {
		n := copy(p, e.head)
		e.head = e.head[n:]
		return n, nil
	}
	if e.left <= 0 {
		return 0, io.EOF
	}
	n := 0
	for n+len(e.body) <= len(p) && e.left > 0 {
		n += copy(p[n:], e.body)
		e.left -= int64(len(e.body))
	}
	return n, nil
}

// 200 MB of anything end in one sentence, without memory that grows with them: of
// text that is passed over, of one line, of corners, of names.
func TestBounded(t *testing.T) {
	head := bars("0|SECTION|2|ENTITIES")
	for name, c := range map[string]struct{ head, body, want string }{
		"texts":    {head, "0\nTEXT\n1\nwords\n", "more than the 4 MB"},
		"one line": {head + "0\n", "words", "more than the 4 MB"},
		"lines":    {head, "0\nLINE\n10\n0\n20\n0\n11\n1\n21\n1\n", "more than the 5000 corners"},
		"corners":  {head + bars("0|LWPOLYLINE"), "10\n0\n20\n1\n10\n1\n20\n0\n", "more than the 5000 corners"},
		"vertices": {head + bars("0|POLYLINE"), "0\nVERTEX\n10\n0\n20\n1\n", "more than the 5000 corners"},
		"blocks":   {bars("0|SECTION|2|BLOCKS|0|BLOCK|2|A"), "0\nLINE\n10\n0\n20\n0\n11\n1\n21\n1\n", "more than the 5000 corners"},
		"tags":     {head + bars("0|TEXT"), "40\n1\n", "more than the 5000 corners"},
		"inserts":  {head, "0\nINSERT\n2\nA\n10\n0\n20\n0\n", "more than 2000 INSERTs"},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Read(&endless{[]byte(c.head), []byte(c.body), 200 << 20}, Limits{Bytes: 4 << 20, Vertices: 5000, Inserts: 2000})
		runtime.ReadMemStats(&after)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
		// All that was ever taken, not only what was held.
		if took := after.TotalAlloc - before.TotalAlloc; took > 24<<20 {
			t.Errorf("%s: took %d MB", name, took>>20)
		}
	}
	var names strings.Builder
	names.WriteString(bars("0|SECTION|2|BLOCKS"))
	for i := range mostNames + 2 {
		fmt.Fprintf(&names, "0\nBLOCK\n2\nB%d\n", i)
	}
	if _, err := Read(strings.NewReader(names.String()), Limits{}); err == nil || !strings.Contains(err.Error(), "more than 50000 blocks") {
		t.Errorf("%v", err)
	}
	names.Reset()
	for i := range 1000 {
		fmt.Fprintf(&names, "0|K%d|", i)
	}
	if d := read(t, entities(strings.TrimSuffix(names.String(), "|"))); len(d.Skipped) > 102 {
		t.Errorf("%d kinds", len(d.Skipped))
	}
}

// However a stream comes in pieces, its lines are the same.
func TestPieces(t *testing.T) {
	line := entities("0|LINE|8|" + strings.Repeat("name", 50) + "|10|0|20|0|11|1|21|1")
	for _, end := range []string{"\n", "\r\n", "\r"} {
		s := strings.ReplaceAll(line, "\n", end)
		for _, r := range []io.Reader{iotest.OneByteReader(strings.NewReader(s)), iotest.HalfReader(strings.NewReader(s)), iotest.DataErrReader(strings.NewReader(s))} {
			d, err := Read(r, Limits{})
			if err != nil || len(d.Shapes) != 1 || len(d.Layers[0]) != 200 || d.Shapes[0].Line != 6 {
				t.Errorf("%q: %v, %+v", end, err, d)
			}
		}
	}
	_, err := Read(io.MultiReader(strings.NewReader(line[:20]), iotest.ErrReader(io.ErrClosedPipe)), Limits{})
	if err == nil || err.Error() != "line 4: not readable; io: read/write on closed pipe" {
		t.Errorf("%v", err)
	}
}

// Reading holds no more than its bounds, whatever the stream.
func BenchmarkRead(b *testing.B) {
	var s bytes.Buffer
	s.WriteString(bars("0|SECTION|2|ENTITIES"))
	for i := range 20000 {
		s.WriteString(bars(fmt.Sprintf("0|LINE|8|A|10|%d.5|20|0.25|11|1|21|%d", i, i)))
	}
	s.WriteString(bars("0|ENDSEC|0|EOF"))
	b.SetBytes(int64(s.Len()))
	for b.Loop() {
		if _, err := Read(bytes.NewReader(s.Bytes()), Limits{}); err != nil {
			b.Fatal(err)
		}
	}
}

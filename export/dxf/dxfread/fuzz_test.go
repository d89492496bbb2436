package dxfread

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// Any bytes give a drawing of finite paths, or an error of one sentence.
func FuzzRead(f *testing.F) {
	for _, s := range samples() {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Read(bytes.NewReader(data), Limits{Vertices: 20000, Inserts: 200})
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || strings.ContainsAny(err.Error(), "\r\n") || len(err.Error()) > 400 {
				t.Fatalf("not one sentence: %q", err)
			}
			return
		}
		for _, s := range d.Shapes {
			if len(s.Path.Vertices) < 2 {
				t.Fatalf("%s of %d corners", s.Kind, len(s.Path.Vertices))
			}
			for _, v := range s.Path.Vertices {
				if !v.Finite() {
					t.Fatalf("%s at %v", s.Kind, v)
				}
			}
		}
	})
}

// samples are small drawings, each with another entity.
func samples() []string {
	entity := func(body string) string {
		return strings.ReplaceAll("0|SECTION|2|HEADER|9|$ACADVER|1|AC1015|9|$INSUNITS|70|4|0|ENDSEC|0|SECTION|2|ENTITIES|"+body+"|0|ENDSEC|0|EOF|", "|", "\n")
	}
	block := strings.ReplaceAll("0|SECTION|2|BLOCKS|0|BLOCK|2|B|10|1|20|2|0|ARC|8|0|10|0|20|0|40|5|50|0|51|90|0|ENDBLK|0|ENDSEC|0|SECTION|2|ENTITIES|0|INSERT|8|L|2|B|10|1|20|1|41|2|42|-1|50|30|0|ENDSEC|0|EOF|", "|", "\n")
	return []string{
		entity("0|LINE|8|A|10|0|20|0|11|1|21|1"),
		entity("0|ARC|8|A|10|0|20|0|40|5|50|350|51|10|210|0|220|0|230|-1"),
		entity("0|CIRCLE|8|A|10|0|20|0|40|5"),
		entity("0|LWPOLYLINE|8|A|90|2|70|1|10|0|20|0|42|1|10|5|20|0|42|1"),
		entity("0|POLYLINE|8|A|66|1|70|0|0|VERTEX|10|0|20|0|42|0.5|0|VERTEX|10|5|20|0|0|SEQEND"),
		entity("0|SPLINE|8|A|70|8|71|2|72|6|73|3|40|0|40|0|40|0|40|1|40|1|40|1|10|0|20|0|10|1|20|1|10|2|20|0"),
		entity("0|ELLIPSE|8|A|10|0|20|0|11|5|21|0|40|0.5|41|0|42|2"),
		block,
		"AutoCAD Binary DXF\r\n\x1a\x00",
		"",
	}
}

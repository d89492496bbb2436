package dxf

import (
	"overbend/export/drawing"
	"overbend/geom"
)

// r12 writes the whole file as AC1009, which has no handles and no owners. The
// format asks for ENTITIES only; the header keeps readers from taking the file
// for metres, and without the empty model space block one reader finds nothing.
func (f *file) r12() {
	f.header("AC1009", 0)

	f.section("TABLES")
	table := func(name string, records int) {
		f.str(0, "TABLE")
		f.str(2, name)
		f.int(70, records)
	}
	table("LTYPE", 1)
	f.str(0, "LTYPE")
	f.str(2, "CONTINUOUS")
	f.solid()
	f.str(0, "ENDTAB")
	table("LAYER", len(f.layers))
	for _, l := range f.layers {
		f.str(0, "LAYER")
		f.str(2, l.name)
		f.int(70, 0)
		f.int(62, l.colour)
		f.str(6, "CONTINUOUS")
	}
	f.str(0, "ENDTAB")
	table("STYLE", 1)
	f.str(0, "STYLE")
	f.str(2, "STANDARD")
	f.font()
	f.str(0, "ENDTAB")
	f.endSection()

	f.section("BLOCKS")
	for _, name := range []string{"$MODEL_SPACE", "$PAPER_SPACE"} {
		f.str(0, "BLOCK")
		f.str(8, zero.name)
		f.str(2, name)
		f.int(70, 0)
		f.xyz(10, geom.Point{})
		f.str(3, name)
		f.str(0, "ENDBLK")
		f.str(8, zero.name)
	}
	f.endSection()

	f.section("ENTITIES")
	for _, e := range f.entities {
		f.entity12(e)
	}
	f.endSection()
	f.str(0, "EOF")
}

func (f *file) entity12(e entity) {
	start := func(kind string) {
		f.str(0, kind)
		f.str(8, e.layer)
	}
	switch s := e.shape.(type) {
	case drawing.Stroke:
		if f.Version == R12Plain {
			for _, piece := range s.Path.Segments() {
				f.piece(piece, start)
			}
			return
		}
		start("POLYLINE")
		f.int(66, 1) // vertices follow
		f.xyz(10, geom.Point{})
		f.int(70, closedFlag(s.Path))
		for _, v := range s.Path.Vertices {
			start("VERTEX")
			f.xyz(10, v.Point)
			if v.Bulge != 0 {
				f.fixed(42, v.Bulge, bulgeDecimals)
			}
		}
		start("SEQEND")
	case drawing.Ring:
		start("CIRCLE")
		f.xyz(10, s.Circle.Centre)
		f.num(40, s.Circle.Radius)
	case drawing.Text:
		start("TEXT")
		f.textTags(s)
	}
}

// piece writes one segment as a LINE or an ARC. An ARC always runs
// counter-clockwise, so one that turns the other way is written backwards.
func (f *file) piece(s geom.Segment, start func(string)) {
	if !s.IsArc() {
		start("LINE")
		f.xyz(10, s.From)
		f.xyz(11, s.To)
		return
	}
	if s.Bulge < 0 {
		s = s.Reverse()
	}
	c := s.Centre()
	start("ARC")
	f.xyz(10, c)
	f.num(40, s.Radius())
	f.fixed(50, degrees(s.From.Sub(c).Direction()), angleDecimals)
	f.fixed(51, degrees(s.To.Sub(c).Direction()), angleDecimals)
}

package dxf

import (
	"overbend/export/drawing"
	"overbend/geom"
)

// firstEntity is the handle of the first entity. Tables, blocks and objects
// take a few dozen handles below it, so the seed is known before they are
// written.
const firstEntity = 0x100

// owner writes the handle of a new record and that of its owner, and returns
// the new one.
func (f *file) owner(of uint) uint { return f.ownerAs(5, of) }

func (f *file) ownerAs(code int, of uint) uint {
	f.handle++
	f.hex(code, f.handle)
	f.hex(330, of)
	return f.handle
}

// r2000 writes the whole file as AC1015: the tables, blocks and dictionaries
// that strict readers want, and no LAYOUT objects, which one reader can't take.
func (f *file) r2000() {
	f.header("AC1015", firstEntity+uint(len(f.entities)))
	f.section("CLASSES")
	f.endSection()
	model, paper := f.tables2000()
	f.blocks2000(model, paper)

	f.section("ENTITIES")
	f.handle = firstEntity - 1
	for _, e := range f.entities {
		f.entity2000(e, model)
	}
	f.endSection()

	f.handle = firstEntity / 2 // clear of the tables, below the entities
	f.section("OBJECTS")
	f.str(0, "DICTIONARY")
	root := f.owner(0)
	f.str(100, "AcDbDictionary")
	f.str(3, "ACAD_GROUP")
	f.hex(350, root+1)
	f.str(0, "DICTIONARY")
	f.owner(root)
	f.str(100, "AcDbDictionary")
	f.endSection()
	f.str(0, "EOF")
}

// table2000 writes a table's head and returns its handle.
func (f *file) table2000(name string, records int) uint {
	f.str(0, "TABLE")
	f.str(2, name)
	h := f.owner(0)
	f.str(100, "AcDbSymbolTable")
	f.int(70, records)
	return h
}

// record2000 starts a record of a table and returns its handle.
func (f *file) record2000(kind, class, name string, table uint) uint {
	f.str(0, kind)
	code := 5
	if kind == "DIMSTYLE" {
		code = 105 // its group 5 means something else
	}
	h := f.ownerAs(code, table)
	f.str(100, "AcDbSymbolTableRecord")
	f.str(100, class)
	f.str(2, name)
	return h
}

// tables2000 writes the TABLES section and returns the handles of the block
// records of model and paper space.
func (f *file) tables2000() (model, paper uint) {
	end := func() { f.str(0, "ENDTAB") }
	f.section("TABLES")

	t := f.table2000("VPORT", 1)
	f.record2000("VPORT", "AcDbViewportTableRecord", "*ACTIVE", t)
	f.int(70, 0)
	f.xy(10, geom.Pt(0, 0))
	f.xy(11, geom.Pt(1, 1))
	f.view()
	end()

	t = f.table2000("LTYPE", 3)
	for _, name := range []string{"ByBlock", "ByLayer", "Continuous"} {
		f.record2000("LTYPE", "AcDbLinetypeTableRecord", name, t)
		f.solid()
	}
	end()

	t = f.table2000("LAYER", len(f.layers))
	for _, l := range f.layers {
		f.record2000("LAYER", "AcDbLayerTableRecord", l.name, t)
		f.int(70, 0)
		f.int(62, l.colour)
		f.str(6, "Continuous")
	}
	end()

	t = f.table2000("STYLE", 1)
	f.record2000("STYLE", "AcDbTextStyleTableRecord", "Standard", t)
	f.font()
	end()

	f.table2000("VIEW", 0)
	end()
	f.table2000("UCS", 0)
	end()

	t = f.table2000("APPID", 1)
	f.record2000("APPID", "AcDbRegAppTableRecord", "ACAD", t)
	f.int(70, 0)
	end()

	t = f.table2000("DIMSTYLE", 1)
	f.str(100, "AcDbDimStyleTable")
	f.record2000("DIMSTYLE", "AcDbDimStyleTableRecord", "Standard", t)
	f.int(70, 0)
	end()

	t = f.table2000("BLOCK_RECORD", 2)
	model = f.record2000("BLOCK_RECORD", "AcDbBlockTableRecord", "*Model_Space", t)
	paper = f.record2000("BLOCK_RECORD", "AcDbBlockTableRecord", "*Paper_Space", t)
	end()

	f.endSection()
	return model, paper
}

// view writes the part of a viewport that shows the whole drawing on opening.
func (f *file) view() {
	const aspect = 1.5
	f.xy(12, f.box.Centre())
	f.xy(16, geom.Point{})
	f.num(36, 1) // seen from straight above
	f.xyz(17, geom.Point{})
	f.num(40, 1.1*max(f.box.Height(), f.box.Width()/aspect))
	f.num(41, aspect)
}

// solid writes the body of an unbroken line type.
func (f *file) solid() {
	f.int(70, 0)
	f.str(3, "")
	f.int(72, 65)
	f.int(73, 0)
	f.num(40, 0)
}

// font writes the body of the one text style.
func (f *file) font() {
	f.int(70, 0)
	f.num(40, 0)
	f.num(41, 1)
	f.num(50, 0)
	f.int(71, 0)
	f.num(42, noteHeight)
	f.str(3, f.face)
	f.str(4, "")
}

func (f *file) blocks2000(model, paper uint) {
	f.section("BLOCKS")
	for _, b := range []struct {
		name    string
		record  uint
		isPaper bool
	}{{"*Model_Space", model, false}, {"*Paper_Space", paper, true}} {
		part := func(kind, class string) {
			f.str(0, kind)
			f.owner(b.record)
			f.str(100, "AcDbEntity")
			if b.isPaper {
				f.int(67, 1)
			}
			f.str(8, zero.name)
			f.str(100, class)
		}
		part("BLOCK", "AcDbBlockBegin")
		f.str(2, b.name)
		f.int(70, 0)
		f.xyz(10, geom.Point{})
		f.str(3, b.name)
		f.str(1, "")
		part("ENDBLK", "AcDbBlockEnd")
	}
	f.endSection()
}

// entity2000 writes one shape as one entity.
func (f *file) entity2000(e entity, model uint) {
	start := func(kind, class string) {
		f.str(0, kind)
		f.owner(model)
		f.str(100, "AcDbEntity")
		f.str(8, e.layer)
		f.str(100, class)
	}
	switch s := e.shape.(type) {
	case drawing.Stroke:
		start("LWPOLYLINE", "AcDbPolyline")
		f.int(90, len(s.Path.Vertices))
		f.int(70, closedFlag(s.Path))
		f.num(43, 0)
		for _, v := range s.Path.Vertices {
			f.xy(10, v.Point)
			if v.Bulge != 0 {
				f.fixed(42, v.Bulge, bulgeDecimals)
			}
		}
	case drawing.Ring:
		start("CIRCLE", "AcDbCircle")
		f.xyz(10, s.Circle.Centre)
		f.num(40, s.Circle.Radius)
	case drawing.Text:
		start("TEXT", "AcDbText")
		f.textTags(s)
		f.str(100, "AcDbText")
	}
}

func closedFlag(p geom.Path) int {
	if p.Closed {
		return 1
	}
	return 0
}

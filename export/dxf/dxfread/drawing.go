package dxfread

import (
	"io"
	"slices"
	"strings"

	"overbend/geom"
)

// Drawing is what was read.
type Drawing struct {
	Version string // $ACADVER, "" where the file does not say
	// Unit is the size of the drawing's unit in mm by $INSUNITS; 0: the file does
	// not say, or says that it has none.
	Unit     float64
	UnitCode int // of $INSUNITS
	Shapes   []Shape
	Layers   []string // that have shapes, each once, in order of appearance
	Skipped  []Count  // what was left out, most first
}

// Shape is one line of the drawing.
type Shape struct {
	Path  geom.Path // in the drawing's unit
	Kind  string    // of the entity: "LINE", "ARC" ...
	Layer string
	Line  int // of the file, where the entity starts
	// Sampled says that the path is short chords of a curve that is no line and
	// no arc.
	Sampled bool
}

// Count is how many entities were left out for a reason: their kind, [Hidden] or
// [OffPlane] or [Missing].
type Count struct {
	What string
	N    int
}

// Reasons of a [Count] besides a kind of entity.
const (
	Hidden   = "on a layer that is off or frozen"
	OffPlane = "not in the xy plane"
	Missing  = "INSERT of a block that is not there"
)

// Read reads a drawing. Every error is an [*Error].
func Read(r io.Reader, l Limits) (Drawing, error) {
	l = l.filled()
	f := &file{
		scanner: newScanner(r, l.Bytes), limits: l,
		blocks: map[string]*block{}, hidden: map[string]bool{}, skipped: map[string]int{},
	}
	if err := f.look(); err != nil {
		return Drawing{}, err
	}
	if err := f.sections(); err != nil {
		return Drawing{}, err
	}
	return f.drawing()
}

// file is a drawing as it is read.
type file struct {
	*scanner
	limits   Limits
	version  string
	page     string
	units    int
	blocks   map[string]*block // by name in lower case
	hidden   map[string]bool   // layers, by name in lower case
	items    []item
	vertices int // kept
	inserts  int // kept
	skipped  map[string]int
	entities bool // the section was there
}

// block is a named list of items about a base point.
type block struct {
	base  geom.Point
	items []item
}

// item is a shape, or a block put in a place.
type item struct {
	Shape
	insert *insert
}

// mostNames is how many names of one sort are kept: of blocks, of layers that are not
// shown, of kinds that are left out. Large drawings have some thousands.
const mostNames = 50_000

func (f *file) skip(what string) {
	if _, known := f.skipped[what]; !known && len(f.skipped) > 100 {
		what = "of other kinds"
	}
	f.skipped[what]++
}

// named checks that there is room for another name.
func named[T any](names map[string]T, line int, what string) error {
	if len(names) >= mostNames {
		return faultf(line, "more than %d %s are not allowed; save the part alone", mostNames, what)
	}
	return nil
}

// sections reads the file section by section.
func (f *file) sections() error {
	for {
		t, err := f.tag()
		if err == io.EOF {
			break
		}
		if err != nil {
			return err
		}
		switch {
		case t.code == 999: // a comment
		case t.code != 0:
			return faultf(t.line, "group %d stands outside of a section; this is no DXF, or one with lines missing", t.code)
		case t.value == "EOF":
			return f.complete()
		case t.value != "SECTION":
			return faultf(t.line, "%q stands where a SECTION must begin", show(t.value))
		default:
			if err := f.section(); err != nil {
				return err
			}
		}
	}
	return f.complete()
}

func (f *file) complete() error {
	if !f.entities {
		return faultf(0, "the file has no ENTITIES section, so it draws nothing")
	}
	return nil
}

func (f *file) section() error {
	name, err := f.tag()
	if err == io.EOF {
		return f.brokenOff("a section's name")
	}
	if err != nil {
		return err
	}
	if name.code != 2 {
		return faultf(name.line, "a section has no name; group 2 must follow it")
	}
	switch name.value {
	case "HEADER":
		return f.header()
	case "ENTITIES":
		if f.entities {
			return faultf(name.line, "a second ENTITIES section")
		}
		f.entities = true
		return f.records(name.value, func(r *record) error {
			var err error
			f.items, err = f.entity(r, f.items)
			return err
		})
	case "TABLES":
		return f.records(name.value, f.layer)
	case "BLOCKS":
		var b *block
		return f.records(name.value, func(r *record) error { return f.inBlocks(r, &b) })
	}
	return f.records(name.value, func(*record) error { return nil })
}

func (f *file) brokenOff(where string) error {
	return faultf(f.line, "the file breaks off in %s", where)
}

// header reads the variables of the file.
func (f *file) header() error {
	name := ""
	for {
		t, err := f.tag()
		if err == io.EOF {
			return f.brokenOff("HEADER")
		}
		if err != nil {
			return err
		}
		switch {
		case t.code == 0 && t.value == "ENDSEC":
			f.text = decoder(f.version, f.page)
			return nil
		case t.code == 0:
			return faultf(t.line, "%q stands in HEADER, which is not ended", show(t.value))
		case t.code == 9:
			name = t.value
		case name == "$ACADVER":
			f.version, name = t.value, ""
		case name == "$DWGCODEPAGE":
			f.page, name = t.value, ""
		case name == "$INSUNITS":
			if f.units, err = t.integer(); err != nil {
				return err
			}
			name = ""
		}
	}
}

// layer notes whether a layer is shown.
func (f *file) layer(r *record) error {
	if r.kind != "LAYER" {
		return nil
	}
	flags, err := r.integer(70, 0)
	if err != nil {
		return err
	}
	colour, err := r.integer(62, 7)
	if err != nil {
		return err
	}
	if flags&1 != 0 || colour < 0 {
		if err := named(f.hidden, r.line, "layers"); err != nil {
			return err
		}
		f.hidden[strings.ToLower(r.text(2))] = true
	}
	return nil
}

func (f *file) inBlocks(r *record, b **block) error {
	switch r.kind {
	case "BLOCK":
		base, _, err := r.point(10)
		if err != nil {
			return err
		}
		if err := named(f.blocks, r.line, "blocks"); err != nil {
			return err
		}
		*b = &block{base: base}
		f.blocks[strings.ToLower(r.text(2))] = *b
		return nil
	case "ENDBLK":
		*b = nil
		return nil
	}
	if *b == nil {
		return nil
	}
	items, err := f.entity(r, (*b).items)
	(*b).items = items
	return err
}

// drawing puts the blocks in their places.
func (f *file) drawing() (Drawing, error) {
	d := Drawing{Version: f.version, UnitCode: f.units, Unit: unitOf(f.units)}
	p := placing{file: f, d: &d, seen: map[string]bool{}, left: f.limits.Vertices, follow: f.limits.Inserts}
	if err := p.place(f.items, identity(), "", 0); err != nil {
		return Drawing{}, err
	}
	for what, n := range f.skipped {
		d.Skipped = append(d.Skipped, Count{what, n})
	}
	slices.SortFunc(d.Skipped, func(a, b Count) int {
		if a.N != b.N {
			return b.N - a.N
		}
		return strings.Compare(a.What, b.What)
	})
	return d, nil
}

// unitOf returns the size in mm of a unit by its code in $INSUNITS [DXF]; 0 for
// none, and for astronomers' ones.
func unitOf(code int) float64 {
	const inch = 25.4
	switch code {
	case 1:
		return inch
	case 2:
		return 12 * inch
	case 3:
		return 63360 * inch // mile
	case 4:
		return 1
	case 5:
		return 10
	case 6:
		return 1000
	case 7:
		return 1e6 // kilometre
	case 8:
		return inch / 1e6 // microinch
	case 9:
		return inch / 1000 // mil
	case 10:
		return 36 * inch // yard
	case 11:
		return 1e-7 // angstrom
	case 12:
		return 1e-6 // nanometre
	case 13:
		return 1e-3 // micrometre
	case 14:
		return 100 // decimetre
	case 15:
		return 1e4 // decametre
	case 16:
		return 1e5 // hectometre
	case 21:
		return 1200.0 / 3937 * 1000 // US survey foot
	case 22:
		return 100.0 / 3937 * 1000 // US survey inch
	case 23:
		return 3600.0 / 3937 * 1000 // US survey yard
	}
	return 0
}

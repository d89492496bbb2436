package dxf

import (
	"fmt"
	"io"
	"math"
	"strings"

	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// Options chooses the dialect and what goes into the file. The zero value is
// AC1015 in millimetres with marks and notes.
type Options struct {
	Version Version
	// Inches writes all lengths in inches and says so in the header.
	Inches bool
	// CutOnly leaves out marks and notes.
	CutOnly bool
}

// mmPerInch is exact by definition.
const mmPerInch = 25.4

// Write writes d as a DXF file to w, in one call. A drawing that [Lint]
// refuses is an error, and nothing is written; so is an error from w. It
// panics on a Version that is none of the constants.
func Write(w io.Writer, d drawing.Drawing, o Options) error {
	if err := Lint(d); err != nil {
		return err
	}
	if _, err := w.Write(encode(d, o)); err != nil {
		return fmt.Errorf("drawing %q: %w", d.Title, err)
	}
	return nil
}

// file is a drawing made ready for writing: in the file's unit, moved to the
// origin, in the order of writing.
type file struct {
	Options
	tags
	entities []entity
	layers   []layer
	box      geom.Rect // of everything
	letters  alphabet
	face     string // of all lettering
}

// entity is one shape and its layer.
type entity struct {
	shape drawing.Shape
	layer string
}

// encode returns the bytes of the file. d has passed the lint.
func encode(d drawing.Drawing, o Options) []byte {
	f := file{Options: o}
	f.decimals = millimetreDecimals
	if o.Inches || o.Version == R12Plain {
		f.decimals = fineDecimals
	}
	f.arrange(d)
	f.b = make([]byte, 0, 8192+256*len(f.entities))
	switch o.Version {
	case R2000:
		f.r2000()
	case R12, R12Plain:
		f.r12()
	default:
		panic("dxf: unknown " + o.Version.String())
	}
	return f.b
}

// The faces of lettering: the format's own, which every reader has and which is
// Latin, and for a file with other letters one of TrueType.
const (
	stickFace  = "txt"
	letterFace = "arial.ttf"
)

// letter fills in how the drawing is lettered.
func (f *file) letter(d drawing.Drawing) {
	var all strings.Builder
	for _, s := range d.Shapes {
		if t, ok := s.(drawing.Text); ok {
			all.WriteString(lettering.Lettered(t.Words))
		}
	}
	f.letters, f.face = alphabetOf(all.String(), f.Version == R12Plain), stickFace
	if !f.letters.plain && strings.ContainsFunc(all.String(), byLetter) {
		f.face = letterFace
	}
}

// arrange fills in entities, layers and box.
func (f *file) arrange(d drawing.Drawing) {
	f.letter(d)
	cut, all := geom.EmptyRect(), geom.EmptyRect()
	kept := drawing.Drawing{}
	for role := drawing.CutOuter; role <= drawing.Note; role++ {
		if f.CutOnly && !isCut(role) {
			continue
		}
		for _, s := range d.Shapes {
			if shapeRole(s) != role {
				continue
			}
			box := shapeBox(s)
			switch t := s.(type) {
			case drawing.Stroke:
				t.Path.Vertices = ready(t.Path)
				kept.Add(t)
			case drawing.Text:
				for _, piece := range f.pieces(t) {
					kept.Add(piece)
				}
			default:
				kept.Add(s)
			}
			all = all.Union(box)
			if isCut(role) {
				cut = cut.Union(box)
			}
		}
	}
	// A drawing of a plate lies with the plate's corner at the origin, and its
	// size is noted on the plate, below what is cut.
	page, below := cut, 0.0
	if d.Page.Width() > 0 {
		page, below = d.Page, cut.Min.Y-d.Page.Min.Y
	}
	if !f.CutOnly {
		note := sizeNote(page, below, all, f.Inches)
		kept.Add(note)
		all = all.Union(note.Bounds())
	}

	place := geom.Translate(page.Min.Mul(-1))
	if f.Inches {
		place = place.Then(geom.Scale(1 / mmPerInch))
	}
	f.box = geom.Rect{Min: place.Apply(all.Min), Max: place.Apply(all.Max)}
	f.layers = []layer{zero}
	for _, s := range kept.Apply(place).Shapes {
		l, _ := layerOf(shapeRole(s))
		if f.layers[len(f.layers)-1] != l {
			f.layers = append(f.layers, l)
		}
		f.entities = append(f.entities, entity{s, l.name})
	}
}

// noteHeight is the height of the unit note in mm, the least lettering of
// ISO 3098 that this project uses.
const noteHeight = 3.5

// noteMargin is the least margin in mm in which the unit note can be read.
const noteMargin = 2

// sizeNote returns the line that states the unit and the size of what is cut or
// of its plate, in mm: in a plate's margin, so many mm below what is cut, or
// without one above everything else. There it can't lie on a line.
func sizeNote(page geom.Rect, margin float64, all geom.Rect, inches bool) drawing.Text {
	words := fmt.Sprintf("UNITS MM  SIZE %.2f x %.2f", page.Width(), page.Height())
	if inches {
		words = fmt.Sprintf("UNITS INCH  SIZE %.3f x %.3f", page.Width()/mmPerInch, page.Height()/mmPerInch)
	}
	note := drawing.Text{Words: words, Height: noteHeight, Role: drawing.Note}
	if margin >= noteMargin {
		return drawing.InMargin(geom.Rect{Min: page.Min, Max: geom.Pt(page.Max.X, page.Min.Y+margin)}, note)[0]
	}
	note.At = geom.Pt(page.Min.X, all.Max.Y+noteHeight)
	return note
}

// header writes the HEADER section. seed is the first free handle, 0 where
// the version has none.
func (f *file) header(version string, seed uint) {
	f.section("HEADER")
	f.variable("$ACADVER")
	f.str(1, version)
	if seed > 0 || f.face == letterFace {
		f.variable("$DWGCODEPAGE")
		f.str(3, f.letters.name)
	}
	f.variable("$INSBASE")
	f.xyz(10, geom.Point{})
	f.variable("$EXTMIN")
	f.xyz(10, f.box.Min)
	f.variable("$EXTMAX")
	f.xyz(10, f.box.Max)
	// Both unit variables, and never one against the other: a reader that
	// heeds only one must not scale by 25.4.
	units, metric := 4, 1
	if f.Inches {
		units, metric = 1, 0
	}
	f.variable("$INSUNITS")
	f.int(70, units)
	f.variable("$MEASUREMENT")
	f.int(70, metric)
	f.variable("$LUNITS")
	f.int(70, 2)
	if seed > 0 {
		f.variable("$HANDSEED")
		f.hex(5, seed)
	}
	f.endSection()
}

// textTags writes what is the same in both versions of a TEXT.
func (f *file) textTags(s drawing.Text) {
	// Group 10 is where the lettering starts whatever the anchor: a reader
	// that ignores the alignment point then still places it about right.
	f.xyz(10, start(s))
	f.num(40, s.Height)
	f.str(1, f.words(s.Words))
	f.num(50, degrees(s.Angle))
	if k := f.squeeze(s); k < 1 {
		f.num(41, k)
	}
	if s.Anchor != drawing.Left {
		f.int(72, int(s.Anchor)) // 1: the middle is at group 11, 2: the right end
		f.xyz(11, s.At)
	}
}

// ready returns the vertices of p as a file holds them: an arc of more than a
// half circle in two halves (some readers refuse |bulge| > 1), an arc that
// leaves its chord by less than [geom.Coincident] as the line it is.
func ready(p geom.Path) []geom.Vertex {
	out := make([]geom.Vertex, 0, len(p.Vertices)+2)
	n := len(p.Vertices)
	for i, v := range p.Vertices {
		s := geom.Segment{From: v.Point, To: p.Vertices[(i+1)%n].Point, Bulge: v.Bulge}
		last := i == n-1 && !p.Closed
		switch {
		case last || flat(s):
			out = append(out, geom.Vertex{Point: v.Point})
		case math.Abs(v.Bulge) > 1:
			a, b := s.Halves()
			out = append(out, geom.Vertex{Point: a.From, Bulge: a.Bulge}, geom.Vertex{Point: b.From, Bulge: b.Bulge})
		default:
			out = append(out, v)
		}
	}
	return out
}

// flat reports whether s is a line, or an arc too shallow to tell from one.
func flat(s geom.Segment) bool { return s.Rise() < geom.Coincident }

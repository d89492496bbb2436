package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Piece is a flat part to be cut; holes that the process can't cut are centre
// marks.
type Piece struct {
	Name  string       // of its file: "block", "cheek", "template-inside" ...
	Part  tooling.Part // true size, as it is printed
	Cut   tooling.Part // as it goes to the table: offset for a kerf that the job states
	Count int
	Plate float64 // thickness, mm
	Layer int     // of the block's outlines, from 1; 0: not a layer of the block
	// Sheets make up the thickness of packing, mm, each cut as the piece; nil:
	// one plate.
	Sheets []float64
	// OwnStock says that it is not cut from the block's plate: a strip is bar of
	// its own metal, packing and templates are sheet, unless a template's is as
	// thick as the plate.
	OwnStock bool
}

// plateDensity is that of steel, kg/m³ (EN 1991-1-1 table A.4 has 77.0 to 78.5
// kN/m³; from memory): the plates' metal is the shop's choice and not in the
// job file.
const plateDensity = 7850

// Mass returns one piece's mass in kg, taken as steel.
func (c Piece) Mass() float64 { return c.Part.Area() * c.Plate * plateDensity * 1e-9 }

// thickest returns the thickness in mm of what the piece is cut from, of packing
// that of its thickest sheet.
func (c Piece) thickest() float64 {
	if len(c.Sheets) > 0 {
		return slices.Max(c.Sheets)
	}
	return c.Plate
}

// pieces lists the parts to be cut, as the process cuts them.
func pieces(j job.Job, strip Strip, over Springback, t Tools) ([]Piece, []words.Advice, error) {
	plate := t.Plate
	thin := math.Abs(t.Sheet-plate) > geom.Coincident
	var all []Piece
	if over.Ready == nil {
		all = stackPieces(t)
	}
	all = append(all,
		Piece{Name: "strip", Part: t.Strip, Count: 1, Plate: strip.Thickness, OwnStock: true},
		Piece{Name: "template-inside", Part: t.Inside, Count: 1, Plate: t.Sheet, OwnStock: thin},
		Piece{Name: "template-outside", Part: t.Outside, Count: 1, Plate: t.Sheet, OwnStock: thin},
	)
	drilled := 0
	for i := range all {
		c := &all[i]
		if t.Process.Name != "" {
			c.Part = tooling.LimitHoles(c.Part, t.Process, c.thickest())
			drilled += len(c.Part.Drill)
		}
		var err error
		if c.Cut, err = tooling.Compensate(c.Part, j.Cutting.Kerf); err != nil {
			return nil, nil, kerfFault(j, err)
		}
	}
	var said []words.Advice
	if drilled > 0 {
		said = append(said, say(words.Note, words.Cut, "cutting", words.DrillHoles, words.Figures{
			"process": t.Process.Name, "hole": quantity.Nominal.Of(t.Block.Hole), "plate": quantity.Nominal.Of(plate), "source": t.Process.Hole.Source.String(),
		}))
	}
	if width := j.Tube.Width; !profiles.FlatKept(width, j.Inches) {
		said = append(said, say(words.Note, words.Cut, "strip.width", words.StripFromPlate, words.Figures{
			"width": quantity.Nominal.Of(width), "thickness": quantity.Nominal.Of(strip.Thickness),
		}))
	}
	if k := j.Cutting.Kerf; k > 0 {
		return all, append(said, say(words.Note, words.Cut, "cutting", words.KerfInFiles, words.Figures{"kerf": quantity.Nominal.Of(k)})), nil
	}
	return all, append(said, say(words.Note, words.Cut, "cutting", words.KerfAtTable, nil)), nil
}

// stackPieces lists the parts of the block's stack.
func stackPieces(t Tools) []Piece {
	var all []Piece
	for i, l := range t.Block.Layers {
		name := "block"
		if i > 0 {
			name = fmt.Sprintf("block-%d", i+1)
		}
		all = append(all, Piece{Name: name, Part: l.Part, Count: l.Count, Plate: t.Plate, Layer: i + 1})
	}
	if k := t.Block.Packing; k.Count > 0 {
		all = append(all, Piece{Name: "packing", Part: k.Part, Count: k.Count, Plate: k.Thickness, Sheets: k.Sheets, OwnStock: true})
	}
	return append(all, Piece{Name: "cheek", Part: t.Cheek, Count: 2, Plate: t.Plate})
}

// kerfFault says which part a kerf is too wide for.
func kerfFault(j job.Job, err error) error {
	var size *tooling.SizeError
	if errors.As(err, &size) {
		return fault(j, "cutting.kerf", words.Because(size))
	}
	if errors.Is(err, geom.ErrOffset) {
		return fault(j, "cutting.kerf", words.Reason{Code: words.KerfTooWide, Figures: words.Figures{"kerf": quantity.Length.Of(j.Cutting.Kerf)}})
	}
	return err
}

// TemplateMass returns the mass of both check templates in kg, taken as steel; 0
// when a part can't be made.
func (p *Plan) TemplateMass() float64 {
	kg := 0.0
	for _, c := range p.Pieces {
		if c.Name == "template-inside" || c.Name == "template-outside" {
			kg += float64(c.Count) * c.Mass()
		}
	}
	return kg
}

// Drilled returns how many holes the process can't cut, over all plates and
// sheets.
func (p *Plan) Drilled() int {
	n := 0
	for _, c := range p.Pieces {
		n += len(c.Part.Drill) * c.Count * max(1, len(c.Sheets))
	}
	return n
}

// LeaveOutMarks warns of the holes that are to be drilled, if any, for cut files
// without their centre marks.
func (p *Plan) LeaveOutMarks() {
	if n := p.Drilled(); n > 0 {
		p.Advice = append(p.Advice, say(words.Warning, words.Cut, "cut-only", words.DrillUnmarked, words.Figures{
			"holes": words.Count(n, "hole"), "hole": quantity.Length.Of(p.Tools.Block.Hole),
		}))
	}
}

// Cut is a line of the cut list.
type Cut struct {
	What          string // "tube", or the name of a piece: "block", "cheek", "strip" ...
	Count         int
	Plate         float64 // thickness, mm; 0 for the tube
	Width, Height float64 // overall, mm; of the tube: blank length and depth
	MassKg        float64 // of all Count; plate taken as steel
}

// CutList returns what is to be cut, in the order of the work: the tube first,
// then every piece of plate. It is empty when a part can't be made.
func (p *Plan) CutList() []Cut {
	if len(p.Pieces) == 0 {
		return nil
	}
	j, length := p.Job, p.Tools.Blank.Length
	out := make([]Cut, 0, len(p.Pieces)+1)
	out = append(out, Cut{
		What: "tube", Count: 1, Width: length, Height: j.Tube.Depth,
		MassKg: j.Tube.Area() * length * j.Material.Density * 1e-9,
	})
	for _, c := range p.Pieces {
		box := c.Part.Bounds()
		out = append(out, Cut{c.Name, c.Count, c.Plate, box.Width(), box.Height(), float64(c.Count) * c.Mass()})
	}
	return out
}

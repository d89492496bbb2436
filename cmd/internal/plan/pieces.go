package plan

import (
	"fmt"

	"overbend/cmd/internal/quantity"
	"overbend/geom/tooling"
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
}

// plateDensity is that of steel, kg/m³ (EN 1991-1-1 table A.4 has 77.0 to 78.5
// kN/m³; from memory): the plates' metal is the shop's choice and not in the
// job file.
const plateDensity = 7850

// Mass returns one piece's mass in kg, taken as steel.
func (c Piece) Mass() float64 { return c.Part.Area() * c.Plate * plateDensity * 1e-9 }

// pieces fills Pieces from the tools.
func (p *Plan) pieces() error {
	j, t := p.Job, p.Tools
	plate := j.Block.Plate
	var all []Piece
	for i, l := range t.Block.Layers {
		name := "block"
		if i > 0 {
			name = fmt.Sprintf("block-%d", i+1)
		}
		all = append(all, Piece{Name: name, Part: l.Part, Count: l.Count, Plate: plate, Layer: i + 1})
	}
	all = append(all,
		Piece{Name: "cheek", Part: t.Cheek, Count: 2, Plate: plate},
		Piece{Name: "strip", Part: t.Strip, Count: 1, Plate: p.Strip.Thickness},
		Piece{Name: "template-inside", Part: t.Inside, Count: 1, Plate: plate},
		Piece{Name: "template-outside", Part: t.Outside, Count: 1, Plate: plate},
	)
	drilled := 0
	for i := range all {
		c := &all[i]
		if t.Process.Name != "" {
			c.Part = tooling.LimitHoles(c.Part, t.Process, c.Plate)
			drilled += len(c.Part.Drill)
		}
		cut, err := tooling.Compensate(c.Part, j.Cutting.Kerf)
		if err != nil {
			return j.Errorf("cutting.kerf", "%v", err)
		}
		c.Cut = cut
	}
	if drilled > 0 {
		p.adviseIn(Info, "cutting", func(u quantity.Units) string {
			return fmt.Sprintf("%s can't cut holes of %s in plate of %s: they are centre marks, to be drilled (%s)", t.Process.Name, u.Length(t.Block.Hole), u.Length(plate), t.Process.Hole.Source)
		})
	}
	if k := j.Cutting.Kerf; k > 0 {
		p.adviseIn(Info, "cutting", func(u quantity.Units) string {
			return fmt.Sprintf("outlines are offset by half a kerf of %s: switch the table's own compensation off", u.Length(k))
		})
	} else {
		p.advise(Info, "cutting", "outlines are true size: the table's software compensates for its kerf")
	}
	p.Pieces = all
	return p.nest()
}

// Nest is the plates to cut from.
type Nest struct {
	tooling.Layout
	Pieces        []int   // number in Plan.Pieces of what each placement places
	Width, Height float64 // of one plate, mm
	Mass          float64 // of the plates, kg, taken as steel
}

// nest lays out all pieces of the block's plate on the job's plate size, as far
// from its edge as from each other.
func (p *Plan) nest() error {
	j := p.Job
	w, h := j.Cutting.Sheet[0], j.Cutting.Sheet[1]
	if w == 0 {
		return nil
	}
	by := p.Tools.Process
	if by.Name == "" {
		by = tooling.Processes()[0] // plasma's gap is the widest
	}
	gap := by.Gap.At(j.Block.Plate)
	n := Nest{Width: w, Height: h}
	var parts []tooling.Part
	for i, c := range p.Pieces {
		if c.Plate != j.Block.Plate {
			continue
		}
		for range c.Count {
			c.Cut.Name = c.Name
			parts, n.Pieces = append(parts, c.Cut), append(n.Pieces, i)
		}
	}
	var err error
	if n.Layout, err = tooling.Nest(parts, tooling.Sheet{Width: w, Height: h, Gap: gap, Edge: gap}); err != nil {
		return j.Errorf("cutting.sheet", "%v", err)
	}
	n.Mass = float64(n.Sheets) * w * h * j.Block.Plate * plateDensity * 1e-9
	p.Nest = &n
	return nil
}

package plan

import (
	"overbend/cmd/internal/job"
	"overbend/cmd/internal/words"
	"overbend/geom/tooling"
)

// Nest is the plates to cut from.
type Nest struct {
	tooling.Layout
	Pieces        []int   // number in Plan.Pieces of what each placement places
	Width, Height float64 // of one plate, mm
	Plate         float64 // its thickness, mm
	Mass          float64 // of the plates, kg, taken as steel
}

// UsedShare returns the share of all plates that becomes parts.
func (n *Nest) UsedShare() float64 {
	used := 0.0
	for _, share := range n.Used {
		used += share / float64(len(n.Used))
	}
	return used
}

// nest lays out all pieces of the block's plate on the job's plate size, as far
// from its edge as from each other; nil when the job names no size.
func nest(j job.Job, by tooling.Process, all []Piece) (*Nest, error) {
	w, h := j.Cutting.Sheet[0], j.Cutting.Sheet[1]
	if w == 0 {
		return nil, nil
	}
	if by.Name == "" {
		by = tooling.Processes()[0] // plasma's gap is the widest
	}
	n := Nest{Width: w, Height: h}
	var parts []tooling.Part
	for i, c := range all {
		if c.OwnStock {
			continue
		}
		n.Plate = c.Plate
		for range c.Count {
			c.Cut.Name = c.Name
			parts, n.Pieces = append(parts, c.Cut), append(n.Pieces, i)
		}
	}
	var err error
	gap := by.Gap.At(n.Plate)
	if n.Layout, err = tooling.Nest(parts, tooling.Sheet{Width: w, Height: h, Gap: gap, Edge: gap}); err != nil {
		return nil, fault(j, "cutting.sheet", words.Because(err))
	}
	n.Mass = float64(n.Sheets) * w * h * n.Plate * plateDensity * 1e-9
	return &n, nil
}

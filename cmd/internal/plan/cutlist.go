package plan

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

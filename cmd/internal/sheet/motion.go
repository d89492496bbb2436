package sheet

import (
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/bend"
)

// Motion is a block at the press on its way from first touch to the last
// position, in mm of a picture whose page is Still's.
type Motion struct {
	Still        Picture   // what does not move: rollers and the tube at first touch
	Block, Cheek geom.Path // in the last position
	// Deep is half the tube's depth, Under how far the strip's far face lies from
	// the centreline.
	Deep, Under float64
	Frames      []Frame
}

// Frame is the press in one state.
type Frame struct {
	State bend.State
	Up    float64 // of block and cheek over the last position
	// Line is half of the tube's centreline from the crown to the right, at equal
	// steps of its length, the same pieces of tube in every frame.
	Line []Station
}

// Station is a place on a line and the direction there.
type Station struct {
	At  geom.Point
	Dir geom.Angle
}

// stations is into how many steps half of the tube is divided: at 16 a bend of
// half a turn lies within a hundredth of its radius of the true arc.
const stations = 16

// Motion is the way of the press as the stops' plot has it; no frames where no
// press state makes the part.
func (p Pictures) Motion(w, h float64) Motion {
	q, t := p.q, p.s.p.Tools
	if q == nil {
		return Motion{}
	}
	deep, strip := p.s.p.Job.Tube.Depth/2, p.s.p.Strip.Thickness
	half := q.Final.Developed() + 2*deep
	if b := t.Blank; b.Length > 0 {
		half = max(half, min(b.Middle, b.Length-b.Middle, 1.25*half))
	}
	travel, r := q.Final.Travel, q.Rig.Roller/2

	// The press's frame: the crown's last place at the origin.
	m := Motion{Block: p.b.outline, Cheek: p.b.cheek, Deep: deep, Under: deep + strip}
	box := geom.EmptyRect()
	for _, st := range q.Schedule {
		f := Frame{State: st, Up: travel - st.Travel}
		up := geom.Pt(0, f.Up)
		for _, s := range along(q.LoadedAt(st), half, st.Slope) {
			s.At = s.At.Add(up)
			side := geom.Polar(1, s.Dir).Left()
			box = box.Add(s.At.Add(side.Mul(deep))).Add(s.At.Sub(side.Mul(m.Under)))
			f.Line = append(f.Line, s)
		}
		m.Frames = append(m.Frames, f)
	}
	box = box.Add(geom.Pt(q.Final.Roller.X+r, q.Final.Roller.Y-r))
	if len(m.Block.Vertices) > 0 {
		box = box.Union(m.Block.Bounds()).Add(geom.Pt(0, p.b.back+travel)).Union(m.Cheek.Bounds())
	}
	box = box.Add(geom.Pt(-box.Max.X, box.Max.Y))

	// The picture's: the largest that fits the room.
	k := min((w-2*screenEdge)/box.Width(), (h-2*screenEdge)/box.Height())
	move := geom.Translate(box.Centre().Mul(-1)).Then(geom.Scale(k))
	m.Block, m.Cheek = m.Block.Apply(move), m.Cheek.Apply(move)
	m.Deep, m.Under = k*m.Deep, k*m.Under
	for i := range m.Frames {
		f := &m.Frames[i]
		f.Up *= k
		for n := range f.Line {
			f.Line[n].At = move.Apply(f.Line[n].At)
		}
	}
	var d drawing.Drawing
	for _, side := range [2]float64{-1, 1} {
		y := travel + side*deep
		d.Add(drawing.Stroke{Path: geom.Lines(geom.Pt(-half, y), geom.Pt(half, y)).Apply(move), Role: drawing.Phantom})
		c := move.Apply(geom.Pt(side*q.Final.Roller.X, q.Final.Roller.Y))
		d.Add(drawing.Ring{Circle: geom.Circle{Centre: c, Radius: k * r}, Role: drawing.Visible, Tone: drawing.Steel})
	}
	d.Page = roomOf(w, k*box.Height()+2*screenEdge)
	m.Still = Picture{Drawing: d}
	return m
}

// along returns the stations of a line of length mm that goes on straight in a
// direction beyond its end.
func along(p geom.Path, length float64, dir geom.Angle) []Station {
	segments := p.Segments()
	out := make([]Station, 0, stations+1)
	i, from := 0, 0.0
	for n := range stations + 1 {
		at := length * float64(n) / stations
		for i < len(segments) && at > from+segments[i].Length() {
			from += segments[i].Length()
			i++
		}
		if i == len(segments) {
			out = append(out, Station{p.End().Add(geom.Polar(at-from, dir)), dir})
			continue
		}
		where, towards := segments[i].At((at - from) / segments[i].Length())
		out = append(out, Station{where, towards.Direction()})
	}
	return out
}

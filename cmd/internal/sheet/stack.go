package sheet

import (
	"fmt"
	"slices"
	"strings"

	"overbend/cmd/internal/plan"
	sentence "overbend/cmd/internal/words"
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/profiles"
)

// stack draws what is bolted together, seen along the tube at the crown, to scale.
func (s *sheet) stack(share float64, hd heading) cell {
	longest := hd
	longest.rest = "end view " + widestScale + ", lower part"
	if slabs, wide := s.slabs(); s.shown(wide) >= s.p.Tools.Block.Height || len(slabs) == 0 {
		longest.rest = "end view " + widestScale
	}
	return cell{share,
		func(w float64) float64 { return s.headHeight(longest, w) + s.least(50) },
		func(f geom.Rect) {
			room := s.under(f, longest)
			d, scale := s.stackIn(room)
			hd.rest = "end view " + scale
			s.head(f, hd)
			s.place(d, room)
		},
	}
}

// slabs returns what is bolted together and how thick it is, mm.
func (s *sheet) slabs() (slabs []plan.Slab, wide float64) {
	slabs = s.p.Tools.Stack()
	for _, sl := range slabs {
		wide += sl.Thickness
	}
	return slabs, wide
}

// stackIn draws the end view for a room, its middle at the origin. Its scale says
// also whether it is the lower part only.
func (s *sheet) stackIn(room geom.Rect) (drawing.Drawing, string) {
	slabs, wide := s.slabs()
	shown := s.shown(wide)
	bare := geom.Pt(wide, shown+s.p.Job.Tube.Depth+s.p.Strip.Thickness)
	d, _, scale := s.fitted(room.Width(), room.Height(), bare, 1, func(k float64, _ int) (drawing.Drawing, bool) {
		return s.stackPicture(slabs, wide, k, room)
	})
	if shown < s.p.Tools.Block.Height {
		scale += ", lower part"
	}
	return d, scale
}

// shown returns how much of the block's height the end view shows, mm: of a high one
// as much as its lowest bolts take.
func (s *sheet) shown(wide float64) float64 {
	b := s.p.Tools.Block
	low := b.Height
	for _, h := range b.Bolts {
		low = min(low, b.Radius-h.Centre.Y)
	}
	if most := max(2*wide, low+2*b.Hole); b.Height > 1.5*most {
		return most
	}
	return b.Height
}

// stackFacts says what the picture can't.
func (s *sheet) stackFacts(slabs []plan.Slab) []para {
	t, j := s.p.Tools, s.p.Job
	var order []string
	for i := 0; i < len(slabs); {
		sl, n := slabs[i], 1
		for i+n < len(slabs) && slabs[i+n] == sl {
			n++
		}
		i += n
		name := map[plan.SlabKind]string{plan.CheekSlab: sentence.SidePlate, plan.PackingSlab: sentence.Packing, plan.PlateSlab: sentence.BlockPlate}[sl.What]
		if sl.What == plan.PlateSlab && len(t.Block.Layers) > 1 {
			k := slices.IndexFunc(s.p.Pieces, func(c plan.Piece) bool {
				return c.Layer > 0 && t.Block.Layers[c.Layer-1].Radius > sl.Radius-1e-6
			})
			if k >= 0 {
				name = s.p.Pieces[k].Name
			}
		}
		if n > 1 {
			name = fmt.Sprintf("%d\u00a0×\u00a0%s", n, name)
		}
		order = append(order, name)
	}
	out := []para{{text: s.say(sentence.PaperOrder, sentence.Figures{"order": strings.Join(order, ", ")})}}
	pack := sentence.PaperNoPack
	f := sentence.Figures{}
	if p := t.Block.Packing; p.Count > 0 {
		pack, f["thick"] = sentence.PaperPack, s.f.stockUnit(p.Thickness)
	}
	out = append(out, para{text: s.say(pack, f)}, para{text: s.say(sentence.PaperGap, sentence.Figures{"gap": s.f.length(t.CheekGap)})})
	if b, ok := t.Bolt(j.Inches); ok {
		out = append(out, para{text: s.say(sentence.PaperBolts, sentence.Figures{
			"bolts": sentence.Count(len(t.Block.Bolts), "bolt"), "thread": b.Name, "length": s.f.tapeUnit(b.Length), "hole": s.f.stockUnit(t.Block.Hole),
		})})
	}
	return out
}

// stackPicture draws the stack about the middle of the tube's inside face, the
// block above it, at k mm of paper per mm.
func (s *sheet) stackPicture(slabs []plan.Slab, wide, k float64, room geom.Rect) (drawing.Drawing, bool) {
	t, j := s.p.Tools, s.p.Job
	b := t.Block
	shown := s.shown(wide)
	var d drawing.Drawing
	box := func(tone drawing.Tone, x0, y0, x1, y1 float64) {
		d.Box(drawing.Visible, tone, geom.Rect{Min: geom.Pt(x0, y0).Mul(k), Max: geom.Pt(x1, y1).Mul(k)})
	}
	bolt, ok := t.Bolt(j.Inches)
	var ys []float64 // of the bolts above the tube's face
	for _, h := range b.Bolts {
		if y := b.Radius - h.Centre.Y; y < shown && !slices.ContainsFunc(ys, func(v float64) bool { return v-y < 1e-6 && y-v < 1e-6 }) {
			ys = append(ys, y)
		}
	}
	if ok {
		nut := 0.85 * bolt.Size
		for _, y := range ys {
			box(drawing.Steel, -wide/2-0.7*bolt.Size, y-bolt.Size*0.8, -wide/2, y+bolt.Size*0.8)
			box(drawing.Steel, wide/2, y-bolt.Size/2, -wide/2+bolt.Length, y+bolt.Size/2)
			box(drawing.Steel, wide/2, y-bolt.Size*0.8, wide/2+nut, y+bolt.Size*0.8)
		}
	}
	x := -wide / 2
	var at []label
	seen := map[plan.SlabKind]bool{}
	for _, sl := range slabs {
		lo, tone := 0.0, drawing.Block
		mid := x + sl.Thickness/2
		target := geom.Pt(mid, shown*0.8).Mul(k)
		var text []string
		switch sl.What {
		case plan.CheekSlab:
			lo, tone, text = -t.CheekDepth, drawing.Steel, []string{"side plate", s.f.stock(sl.Thickness)}
			target.Y = k * shown * 0.3
		case plan.PackingSlab:
			tone, text = drawing.Dark, []string{sentence.Packing, s.f.stock(sl.Thickness)}
			target.Y = k * shown * 0.95
		default:
			lo = sl.Radius - b.Radius
			text = []string{"block", s.f.stock(sl.Thickness) + " plates"}
		}
		box(tone, x, lo, x+sl.Thickness, shown)
		if !seen[sl.What] {
			seen[sl.What] = true
			at = append(at, label{lines: text, at: target})
		}
		x += sl.Thickness
	}
	for _, y := range ys {
		d.Line(drawing.Hidden, geom.Pt(-wide/2, y-bolt.Size/2).Mul(k), geom.Pt(wide/2, y-bolt.Size/2).Mul(k))
		d.Line(drawing.Hidden, geom.Pt(-wide/2, y+bolt.Size/2).Mul(k), geom.Pt(wide/2, y+bolt.Size/2).Mul(k))
	}
	if shown < b.Height {
		// Cut off by a break line.
		y := k * shown
		d.Add(drawing.Stroke{Path: geom.Rect{Min: geom.Pt(-k*wide/2-0.3, y-0.8), Max: geom.Pt(k*wide/2+0.3, y+0.3)}.Path(), Role: drawing.Fill, Tone: drawing.Paper})
		d.Line(drawing.Thin, geom.Pt(-k*wide/2-2, y-0.8), geom.Pt(-1, y-0.8), geom.Pt(-0.5, y+0.4), geom.Pt(0.5, y-2), geom.Pt(1, y-0.8), geom.Pt(k*wide/2+2, y-0.8))
	}
	// Tube and strip below the block.
	tone := drawing.Paper
	if s.p.Job.Filler.Named() {
		tone = drawing.Filler
	}
	w, deep := j.Tube.Width, j.Tube.Depth
	if j.Tube.Shape == profiles.Round {
		c := geom.Pt(0, -deep/2).Mul(k)
		d.Add(drawing.Ring{Circle: geom.Circle{Centre: c, Radius: k * deep / 2}, Role: drawing.Visible, Tone: drawing.Tube},
			drawing.Ring{Circle: geom.Circle{Centre: c, Radius: k * (deep/2 - j.Tube.Wall)}, Role: drawing.Visible, Tone: tone})
	} else {
		box(drawing.Tube, -w/2, -deep, w/2, 0)
		box(tone, -w/2+j.Tube.Wall, -deep+j.Tube.Wall, w/2-j.Tube.Wall, -j.Tube.Wall)
	}
	strip := s.p.Strip.Thickness
	box(drawing.Steel, -w/2, -deep-strip, w/2, -deep)
	at = append(at,
		label{lines: []string{"tube"}, at: geom.Pt(0, -deep*0.55).Mul(k), on: true},
		label{lines: []string{sentence.BackStrip + " " + s.f.stock(strip)}, at: geom.Pt(w/3, -deep-strip/2).Mul(k)})
	if ok {
		at = append(at, label{lines: []string{bolt.Name}, at: geom.Pt(wide/2+0.4*bolt.Size, ys[0]).Mul(k)})
	}
	c := d.Bounds().Centre()
	half := geom.Pt(room.Width()/2, room.Height()/2)
	return d, s.name(&d, geom.Rect{Min: c.Sub(half), Max: c.Add(half)}, []geom.Rect{d.Bounds()}, at)
}

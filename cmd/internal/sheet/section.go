package sheet

import (
	"overbend/export/drawing"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/profiles"
)

// Section is the tube's section at the crown as bent, over the straight one, the
// outside of the bend up, with walls and widths of both faces.
func (p Pictures) Section(w, h float64) Picture {
	s, t, a := p.s, p.s.p.Job.Tube, p.s.p.After
	if !(a.OuterStrain > 0) {
		return Picture{}
	}
	outer, bore := bend.Outlines(t, a)
	was, within := bend.Outlines(t, bend.After{})
	return p.Fit(geom.Pt(max(t.Width, a.InnerWidth), t.Depth), w, h, func(k float64) drawing.Drawing {
		var d drawing.Drawing
		draw := func(path geom.Path, r drawing.Role, tone drawing.Tone) {
			if len(path.Vertices) > 0 {
				d.Add(drawing.Stroke{Path: path.Apply(geom.Scale(k)), Role: r, Tone: tone})
			}
		}
		draw(outer, drawing.Visible, drawing.Tube)
		draw(bore, drawing.Visible, drawing.Paper)
		draw(was, drawing.Phantom, drawing.NoTone)
		draw(within, drawing.Phantom, drawing.NoTone)
		face := func(name string, wall, wide float64) string {
			text := name + ": wall " + s.f.length(wall)
			if t.Shape == profiles.Rectangle {
				text += ", width " + s.f.length(wide)
			}
			return text
		}
		top, gap := k*t.Depth/2, s.h
		d.Add(
			s.bold(0, top+gap, face("outside", a.OuterWall, a.OuterWidth), drawing.Middle),
			s.bold(0, -top-gap-s.h, face("inside", a.InnerWall, a.InnerWidth), drawing.Middle),
			s.words(0, -top-gap-s.h-s.pitch(), "two dots: straight, wall "+s.f.length(t.Wall), drawing.Middle),
		)
		return d
	})
}

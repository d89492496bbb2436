package drawing

import (
	"overbend/export/lettering"
	"overbend/geom"
)

// Rule is the kind of rule that a person checks a print with: it decides how
// long bars and squares are, and what is written beside them.
type Rule uint8

// The rules.
const (
	Metric    Rule = iota // a bar of 100 mm, a square of 50 mm
	Customary             // 4 in and 2 in
)

// Bar returns the length of the rule's bar in mm.
func (r Rule) Bar() float64 {
	if r == Customary {
		return 101.6
	}
	return 100
}

// Written returns what is measured, with its unit: the bar and the square.
func (r Rule) Written() (bar, square string) {
	if r == Customary {
		return "4 in", "2 in"
	}
	return "100 mm", "50 mm"
}

// divisions returns into how many parts the bar is divided.
func (r Rule) divisions() int {
	if r == Customary {
		return 8
	}
	return 10
}

// MeasureMe returns what stands beside every bar, in two lines that are shorter
// than the bar.
func (r Rule) MeasureMe() [2]string {
	bar, _ := r.Written()
	return [2]string{"measure me: if this is not " + bar + ",", "set your printer to 100 %, no fitting"}
}

// Draw returns the rule's bar from a in the direction of the unit vector dir, as
// [Bar] draws one, its ticks to the left, or right with right.
func (r Rule) Draw(a, dir geom.Point, right bool) []Shape {
	b := a.Add(dir.Mul(r.Bar()))
	if right {
		a, b = b, a
	}
	return Bar(a, b, r.divisions())
}

// Tick lengths of a bar in mm: at its ends and middle, and between.
const (
	LongTick  = 3.0
	shortTick = 1.8
)

// Bar returns a graduated bar to measure with a rule: a base line from a to b
// and divisions+1 ticks that stand to the left of it as seen from a, the end
// ones [LongTick] mm long. What to measure is the distance between the middles
// of the end ticks, |b - a| exactly.
//
// The base line is a stroke of its own with those two points and the end ticks
// start from them, so that a check can find the bar in any written file.
func Bar(a, b geom.Point, divisions int) []Shape {
	up := b.Sub(a).Unit().Left()
	out := make([]Shape, 0, divisions+2)
	line := func(p, q geom.Point) {
		out = append(out, Stroke{Path: geom.Lines(p, q), Role: Thin})
	}
	line(a, b)
	for i := range divisions + 1 {
		tick := shortTick
		if i == 0 || i == divisions || 2*i == divisions {
			tick = LongTick
		}
		p := a.Lerp(b, float64(i)/float64(divisions))
		line(p, p.Add(up.Mul(tick)))
	}
	return out
}

// ScaleMarks returns the marks that let a person check a 1:1 print with a rule,
// a bar and a square, and the area that they fill, pen and lettering included.
// Its lower left corner lies at at.
func (r Rule) ScaleMarks(at geom.Point) ([]Shape, geom.Rect) {
	// The corner of the pens' middle: a quarter of a millimetre keeps the pens
	// of 0.25 mm well inside the area.
	o := at.Add(geom.Pt(0.25, 0.25))
	pt := func(x, y float64) geom.Point { return o.Add(geom.Pt(x, y)) }
	note := func(p geom.Point, words string, anchor Anchor, turn geom.Angle) Text {
		return Text{At: p, Words: words, Height: lettering.Ordinary, Anchor: anchor, Angle: turn, Role: Note}
	}
	bar, side := r.Written()
	me := r.MeasureMe()
	left, half := r.Bar()+7, r.Bar()/2
	out := r.Draw(pt(0, 34), geom.Pt(1, 0), false)
	out = append(out,
		note(pt(half, 38.2), bar, Middle, 0),
		note(pt(0, 21), me[0], Left, 0),
		note(pt(0, 15), me[1], Left, 0))
	square := geom.Rect{Min: pt(left, 0), Max: pt(left+half, half)}
	out = append(out,
		Stroke{Path: square.Path(), Role: Thin},
		note(pt(left+half/2, 2.5), side, Middle, 0),
		note(pt(left+6, half/2), side, Middle, 90*geom.Degree))
	return out, geom.Rect{Min: at, Max: at.Add(geom.Pt(left+half+0.5, half+0.5))}
}

// Arrow returns a filled arrowhead of ISO 129-1's slender form (from memory: a
// closed triangle of 15°) with its tip at tip, pointing in direction dir,
// length mm long.
func Arrow(tip geom.Point, dir geom.Angle, length float64) Stroke {
	back := tip.Sub(geom.Polar(length, dir))
	half := geom.Polar(length*(7.5*geom.Degree).Tan(), dir).Left()
	return Stroke{
		Path: geom.Lines(tip, back.Add(half), back.Sub(half)).Close(),
		Role: Fill,
		Tone: Dark,
	}
}

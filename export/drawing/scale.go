package drawing

import (
	"overbend/export/lettering"
	"overbend/geom"
)

// MeasureMe is what stands beside every 100 mm bar, in two lines that are
// shorter than the bar.
const (
	MeasureMe1 = "measure me: if this is not 100 mm,"
	MeasureMe2 = "set your printer to 100 %, no fitting"
)

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

// Sizes in mm of the area of the scale marks.
const (
	scaleWidth  = 157.5
	scaleHeight = 50.5
)

// ScaleMarks returns the marks that let a person check a 1:1 print with a rule,
// a 100 mm bar, a 4 in bar and a 50 mm square, and the area that they fill, pen
// and lettering included. Its lower left corner lies at at.
func ScaleMarks(at geom.Point) ([]Shape, geom.Rect) {
	// The corner of the pens' middle: a quarter of a millimetre keeps the pens
	// of 0.25 mm well inside the area.
	o := at.Add(geom.Pt(0.25, 0.25))
	pt := func(x, y float64) geom.Point { return o.Add(geom.Pt(x, y)) }
	note := func(p geom.Point, words string, anchor Anchor, turn geom.Angle) Text {
		return Text{At: p, Words: words, Height: lettering.Ordinary, Anchor: anchor, Angle: turn, Role: Note}
	}

	out := Bar(pt(0, 42), pt(100, 42), 10)
	out = append(out, note(pt(50, 46.2), "100 mm", Middle, 0))
	out = append(out, Bar(pt(0, 25), pt(101.6, 25), 4)...)
	out = append(out, note(pt(50.8, 29.2), "4 in", Middle, 0))
	out = append(out,
		note(pt(0, 12), MeasureMe1, Left, 0),
		note(pt(0, 6), MeasureMe2, Left, 0))

	square := geom.Rect{Min: pt(107, 0), Max: pt(157, 50)}
	out = append(out,
		Stroke{Path: square.Path(), Role: Thin},
		note(pt(132, 2.5), "50 mm", Middle, 0),
		note(pt(113, 25), "50 mm", Middle, 90*geom.Degree))

	return out, geom.Rect{Min: at, Max: at.Add(geom.Pt(scaleWidth, scaleHeight))}
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

package drawing

import "overbend/geom"

// InMargin stands lines of lettering beside each other along a margin, from its
// left end, as high as they are or as much lower, all alike, as fits it.
func InMargin(margin geom.Rect, lines ...Text) []Text {
	// In shares of the tallest line: of air to the margin's sides, and from one line
	// to the next.
	const air, apart = 0.3, 1.5
	var tall, high, wide float64
	for _, t := range lines {
		box := t.Face().Box(t.Words)
		tall, high, wide = max(tall, t.Height), max(high, box.Height()), wide+box.Width()
	}
	high += 2 * air * tall
	wide += (2*air + apart*float64(len(lines)-1)) * tall
	k := min(1, margin.Height()/high, margin.Width()/wide)
	at := margin.Min.Add(geom.Pt(k*air*tall, k*air*tall))
	out := make([]Text, len(lines))
	for i, t := range lines {
		t.Height *= k
		box := t.Face().Box(t.Words)
		t.At = at.Sub(box.Min)
		at.X += box.Width() + k*apart*tall
		out[i] = t
	}
	return out
}

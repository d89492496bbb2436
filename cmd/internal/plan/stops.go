package plan

import (
	"math"

	"overbend/geom"
	"overbend/geom/bend"
)

// shares of an angle at which to stop on the way to it, closer together towards
// the end: common practice, no source.
var shares = [...]float64{0.25, 0.5, 0.75, 0.9}

// endShares are those where nothing is known of the metal's range and the end
// must be crept up to all the same.
var endShares = [...]float64{0.3, 0.6, 0.8, 0.9, 0.95}

const (
	// nearStops is the travel in mm that a ram can be told apart by, 1/64 in, below
	// which two stops are one; of a short travel it is a fiftieth.
	nearStops = 0.39
	// leastSet is the angle let go that can be read off a part at a stop.
	leastSet = 0.25 * geom.Degree
)

// stops returns where to stop, let go and measure, in order of travel: on the way
// to the travel at which the softest metal of the range is done, at that travel,
// between it and the nominal metal's, at the nominal metal's, which makes the
// part, and between that and the hardest's. Without a range they close up on the
// nominal metal's. A stop that leaves nothing to measure, or is one with the stop
// before it, is left out.
func (q *Press) stops(model *bend.Press) []bend.State {
	near := min(nearStops, q.Final.Travel/50)
	first, way := q.Final.Melted, endShares[:]
	var at []float64 // travels past those of the way
	soft := q.Low != nil && q.Low.Final.Travel < q.Final.Travel-near
	if soft {
		way = shares[:]
		travel := q.Low.Final.Travel
		if s, err := model.ToTravel(travel); err == nil {
			first = s.Melted
		}
		at = append(at, travel, (travel+q.Final.Travel)/2)
	}
	var out []bend.State
	add := func(s bend.State, err error) {
		if err != nil || s.Melted < leastSet || len(out) > 0 && s.Travel < out[len(out)-1].Travel+near {
			return
		}
		out = append(out, s)
	}
	for _, share := range way {
		add(model.ToMelted(first * geom.Angle(share)))
	}
	for _, t := range at {
		add(model.ToTravel(t))
	}
	// The last before it makes way for the one that makes the part.
	for len(out) > 0 && out[len(out)-1].Travel > q.Final.Travel-near {
		out = out[:len(out)-1]
	}
	out = append(out, q.Final)
	if q.High != nil {
		add(model.ToTravel((q.Final.Travel + q.High.Final.Travel) / 2))
	}
	return out
}

// creep returns how much more angle, let go, a mm more of travel gives at a state
// that makes the part, in radians: from half a mm or a hundredth of the travel
// before it to as much past it, or to it where the model goes no further.
func creep(model *bend.Press, final bend.State) geom.Angle {
	step := min(0.5, final.Travel/100)
	before, err := model.ToTravel(final.Travel - step)
	if err != nil {
		return 0
	}
	past, err := model.ToTravel(final.Travel + step)
	if err != nil {
		past = final
	}
	return (past.Filled - before.Filled) / geom.Angle(past.Travel-before.Travel)
}

// At returns the gauge's pressure in MPa at a state; 0 without a ram diameter.
func (q *Press) At(s bend.State) float64 { return q.Gauge * s.Force / math.Max(q.Peak, 1e-9) }

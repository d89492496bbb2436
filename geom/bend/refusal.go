package bend

import (
	"fmt"
	"math"
)

// Why is the reason for which the model has no bend as asked.
type Why string

// The reasons of a [Refusal], as the catalogue of sentences names them. Each
// tells the figures of the refusal that it turns on; the others are 0.
const (
	// The legs bend so far that the tube slips through between the rollers:
	// before it lies on the block (At), or before what was asked for is reached.
	SlipsFlat    Why = "slips-flat"
	SlipsWrapped Why = "slips-wrapped"
	// Rollers At apart are too near each other for a block of radius Value.
	TooNarrow Why = "too-narrow"
	// Rollers At apart leave no leg, of Least mm, beside the block.
	NoLeg Why = "no-leg"
	// No spacing up to Most will do: on close ones no leg is left beside the
	// block, on wide ones the tube slips through.
	NoSpacing Why = "no-spacing"
	// No spacing up to Most is wider than a roller of Value.
	RollerTooWide Why = "roller-too-wide"
	// Even at At the force is Value N and may be Most.
	TooMuchForce Why = "too-much-force"
	// Even at At the leg is Value mm and must be Least.
	LegTooShort Why = "leg-too-short"
	// A block of radius Value gives way under the ram at any height up to Most.
	BlockGivesWay Why = "block-soft"
)

// Refusal says why the model has no bend as asked, with the numbers that the
// reason turns on, in mm or N. It wraps [ErrNoSolution].
type Refusal struct {
	Why         Why
	At          float64 // distance between supports looked at
	Value       float64
	Least, Most float64
	Spacing     float64 // widest spacing that was tried for a proposal; 0: the supports were given
}

// Error returns the reason and its numbers, for a log: what a person reads is
// written by whoever knows his units.
func (r *Refusal) Error() string {
	return fmt.Sprintf("bend: %s (at %g, value %g, least %g, most %g)", string(r.Why), r.At, r.Value, r.Least, r.Most)
}

// Unwrap returns [ErrNoSolution].
func (r *Refusal) Unwrap() error { return ErrNoSolution }

// slips reports whether a refusal says that the supports are too wide.
func (r *Refusal) slips() bool { return r.Why == SlipsFlat || r.Why == SlipsWrapped }

// positive reports whether every value is above 0 and finite.
func positive(values ...float64) bool {
	for _, v := range values {
		if !(v > 0) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// Package plan works a job out: it calls the mechanics and the tooling once
// each and holds every number and every part that the terminal, the JSON, the
// job sheet and the cut files then only present.
//
// It reads no files, lays nothing out and writes nothing.
package plan

import (
	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/profiles"
)

// Plan is a job worked out. All values are SI-mm.
type Plan struct {
	Job   job.Job
	Metal Metal
	Strip profiles.StockStrip // the strip's thickness as bought
	// StripLaw is the strip's curve at its nominal proof stress.
	StripLaw profiles.Curve

	Nominal Overbend
	Low     *Overbend // nil when the metal has no range
	High    *Overbend

	After     bend.After
	Used      float64 // share of the elongation used up at the outer face
	Buckling  float64 // strain at which an empty tube's inner wall buckles
	NeedsFill bool

	Press    *Press // nil when no press state makes the part; Advice says why
	Existing *Existing
	Trial    *Trial

	Tools  Tools
	Pieces []Piece // to cut; none when a part can't be made
	Nest   *Nest   // nil when the job names no plate size
	Filler *Filler // nil without a filler
	Advice []Advice
}

// Level grades a piece of advice.
type Level string

// The levels.
const (
	Info    Level = "note"
	Warning Level = "warning"
	Stop    Level = "stop" // the job can't be made as asked
)

// Advice is one sentence to the operator.
type Advice struct {
	Level Level
	About string
	Text  string // with lengths in mm, forces in kN
	inch  string // the same in customary units, where it differs
}

// In returns the sentence with its numbers in u.
func (a Advice) In(u quantity.Units) string {
	if u == quantity.Inches && a.inch != "" {
		return a.inch
	}
	return a.Text
}

// Metal is the tube's material as computed with.
type Metal struct {
	Spread profiles.Spread // MPa; equal values without a range
	Ranged bool
	Source string // where the nominal proof stress comes from
	// Law is the curve at the nominal proof stress.
	Law profiles.Curve
}

// at returns the law of the same metal at another proof stress in MPa.
func (m Metal) at(proof float64) profiles.Law { return m.Law.At(proof).Law() }

// Overbend is the plain arc, pressed, at one proof stress.
type Overbend struct {
	Proof    float64    // MPa
	Radius   float64    // pressed centreline radius, mm
	Block    float64    // block radius, mm
	Ratio    float64    // finished over pressed curvature
	ArcAngle geom.Angle // of the pressed plain arc
	Moment   float64    // of the tube under load, N·mm
	// What the nominal block gives with this metal, pressed over the nominal
	// arc: the same as drawn at the nominal proof stress.
	FinalRadius float64    // centreline, mm
	FinalAngle  geom.Angle //
}

// Feasible reports whether no advice says stop.
func (p *Plan) Feasible() bool {
	for _, a := range p.Advice {
		if a.Level == Stop {
			return false
		}
	}
	return true
}

func (p *Plan) advise(l Level, about, text string) {
	p.Advice = append(p.Advice, Advice{Level: l, About: about, Text: text})
}

// adviseIn is advise for a sentence with quantities.
func (p *Plan) adviseIn(l Level, about string, say func(quantity.Units) string) {
	p.Advice = append(p.Advice, Advice{l, about, say(quantity.Millimetres), say(quantity.Inches)})
}

// ArcLength returns the finished bend's centreline length in mm.
func (p *Plan) ArcLength() float64 { return p.Job.Bend.Radius * float64(p.Job.Bend.Angle) }

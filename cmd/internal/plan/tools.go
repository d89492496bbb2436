package plan

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Tools are the parts to cut and the blank to bend.
type Tools struct {
	Block         tooling.Block
	Cheek         tooling.Part
	Strip         tooling.Part
	Inside        tooling.Part // template for the hollow
	Outside       tooling.Part
	Blank         tooling.Blank
	BlockArc      geom.Angle      // of the working arc, crown to both sides
	CheekGap      float64         // mm
	CheekDepth    float64         // past the working arc, mm
	StripLength   float64         // mm
	RollerSpace   float64         // least distance between a roller and a cheek, mm; +Inf without a press
	RollerAtBlock float64         // the same between a roller and the block
	Process       tooling.Process // zero when the job names none
}

// Filler is the alloy to melt.
type Filler struct {
	Volume float64 // mm³
	Mass   float64 // kg
}

// cover is what the block's arc reaches beyond the largest wrap on each side.
const cover = 3 * geom.Degree

// halfArc returns the half angle of the working arc: it covers the pressed
// plain arc and the press's wrap, each at the strong end of the metal's range.
// The plain arc is generous, for it knows no tails: where the wrap is known, a
// block need not cover more than a block can.
func (p *Plan) halfArc() geom.Angle {
	plain := p.Nominal.ArcAngle / 2
	for _, o := range []*Overbend{p.Low, p.High} {
		if o != nil {
			plain = max(plain, o.ArcAngle/2)
		}
	}
	q := p.Press
	if q == nil {
		return plain + cover
	}
	wrap := geom.Angle(0)
	for _, s := range q.finals() {
		wrap = max(wrap, s.Wrap)
	}
	return max(wrap+cover, min(plain+cover, tooling.MostHalfAngle))
}

// tools designs every part. A part that can't be made stops the job.
func (p *Plan) tools() error {
	j := p.Job
	t := &p.Tools
	t.CheekGap = tooling.CheekGap(p.After.InnerWidth)
	t.BlockArc = 2 * p.halfArc()
	t.CheekDepth = j.Block.CheekDepth
	if t.CheekDepth == 0 {
		t.CheekDepth = j.Tube.Depth / 2
	}
	tangent := p.Nominal.ArcAngle / 2
	if p.Press != nil {
		tangent = p.Press.Final.Wrap
	}
	spec := tooling.BlockSpec{
		Radius: p.Nominal.Block, HalfAngle: t.BlockArc / 2, TangentHalfAngle: tangent,
		Depth: j.Tube.Depth, Round: j.Tube.Shape == profiles.Round, Gap: t.CheekGap,
		Plate: j.Block.Plate, Blend: j.Block.Blend, Height: j.Block.Height, Hole: j.Block.Hole,
		Lighten: j.Block.Lighten,
	}
	var err error
	if j.Cutting.Process != "" {
		by, err := tooling.ProcessNamed(j.Cutting.Process)
		if err != nil {
			return j.Errorf("cutting.process", "%v", err)
		}
		t.Process = by
		spec.Web = by.Web.At(j.Block.Plate)
	}
	if t.Block, err = tooling.NewBlock(spec); err != nil {
		return p.partError(err)
	}
	if j.Block.Lighten && t.Block.Openings == 0 {
		p.advise(Info, "block.lighten", "the block has no room for openings: none may come within one depth of the working arc or of the middle, and webs must stay")
	}
	if t.Cheek, err = t.Block.Cheek(t.CheekDepth); err != nil {
		return p.partError(err)
	}
	t.StripLength = p.stripLength()
	if t.Strip, err = tooling.NewStrip(tooling.StripSpec{
		Width: j.Tube.Width, Thickness: p.Strip.Thickness, Length: t.StripLength,
	}); err != nil {
		return p.partError(err)
	}
	template := tooling.TemplateSpec{
		Radius: j.Bend.Radius, Depth: j.Tube.Depth, Angle: j.Bend.Angle, Legs: j.Bend.Legs,
	}
	if t.Inside, err = tooling.InsideTemplate(template); err != nil {
		return p.partError(err)
	}
	if t.Outside, err = tooling.OutsideTemplate(template); err != nil {
		return p.partError(err)
	}
	if err := p.blank(); err != nil {
		return err
	}
	p.clearances()
	if err := p.pieces(); err != nil {
		return err
	}
	return p.fill()
}

// Rises returns the tables of chord and rise on the inner and the outer face,
// over chords that are round in the units they are printed in.
func (p *Plan) Rises(u quantity.Units) (inside, outside []tooling.ChordRise) {
	b, d := p.Job.Bend, p.Job.Tube.Depth
	inches := u == quantity.Inches
	return tooling.Rises(b.Radius-d/2, b.Angle, inches), tooling.Rises(b.Radius+d/2, b.Angle, inches)
}

// units returns the system in which parts are lettered: the job file's own.
func (p *Plan) units() quantity.Units {
	if p.Job.Inches {
		return quantity.Inches
	}
	return quantity.Millimetres
}

// partError turns a part that can't be made into advice that stops the job.
func (p *Plan) partError(err error) error {
	var size *tooling.SizeError
	if !errors.As(err, &size) {
		return err
	}
	p.advise(Stop, size.Part, strings.TrimPrefix(size.Error(), size.Part+": "))
	return errStopped
}

// errStopped says that a part can't be made; the advice holds the sentence.
var errStopped = errors.New("a part can't be made")

// reach returns the longest developed half length, along a line off mm outside
// the tube's centreline, from the crown to a roller contact over all steps.
func (p *Plan) reach(off float64) float64 {
	q := p.Press
	far := q.Rig.Supports / 2
	states := q.states()
	if e := p.Existing; e != nil && e.Final != nil {
		states = append(states, *e.Final) // the same blank and strip must do for the block at hand
	}
	for _, s := range states {
		far = max(far, s.Developed()+off*float64(s.Slope))
	}
	return far
}

// stripLength covers the outer arc under load, both legs to the supports and
// an overhang of one depth on each side. Without a press model the legs are
// two depths.
func (p *Plan) stripLength() float64 {
	d := p.Job.Tube.Depth
	if p.Press == nil {
		arc := p.Nominal.ArcAngle
		if p.High != nil {
			arc = max(arc, p.High.ArcAngle)
		}
		return tooling.StripLength(float64(arc)*(p.Nominal.Radius+d/2), leastLegDepths*d, d)
	}
	return tooling.StripLength(0, p.reach(d/2+p.Strip.Thickness/2), d)
}

// blank designs the blank: long enough for the part, its trim and the press at
// every step.
func (p *Plan) blank() error {
	j := p.Job
	spec := tooling.BlankSpec{
		Radius: j.Bend.Radius, Depth: j.Tube.Depth, Angle: j.Bend.Angle,
		Legs: j.Bend.Legs, Cuts: j.Ends.Cut, Trim: j.Ends.Trim,
	}
	if q := p.Press; q != nil {
		spec.Half = p.reach(0) + j.Tube.Depth
		spec.Roller = q.Rig.Supports / 2
	}
	b, err := tooling.NewBlank(spec)
	if err != nil {
		return p.partError(err)
	}
	p.Tools.Blank = b
	return nil
}

// fill computes how much alloy the blank's bore takes between its plugs.
func (p *Plan) fill() error {
	j := p.Job
	if j.Filler.Alloy.Name == "" {
		return nil
	}
	length := p.Tools.Blank.Length - 2*j.Filler.Plugs
	if length <= 0 {
		return j.Errorf("filler.plugs", "two plugs of %g mm leave no room in a blank of %.0f mm; they must be shorter", j.Filler.Plugs, p.Tools.Blank.Length)
	}
	v := j.Tube.BoreArea() * length
	p.Filler = &Filler{Volume: v, Mass: v * 1e-9 * j.Filler.Alloy.Density}
	return nil
}

// rollerSpace is how near a roller may come to block or cheeks, mm: common
// practice, no source.
const rollerSpace = 2.0

// clearances finds how near the rollers come to block and cheeks over all
// steps, and speaks up when that is too near.
func (p *Plan) clearances() {
	t := &p.Tools
	t.RollerSpace, t.RollerAtBlock = math.Inf(1), math.Inf(1)
	q := p.Press
	if q == nil {
		return
	}
	crown := t.Block.Radius + p.Job.Tube.Depth/2
	for _, s := range q.states() {
		// From the press's frame (crown's centreline at the origin, tube bending
		// up) to the parts' frame (arc's centre at the origin, crown on top).
		c := geom.Pt(s.Roller.X, crown-s.Roller.Y)
		r := q.Rig.Roller / 2
		t.RollerAtBlock = min(t.RollerAtBlock, away(t.Block.Layers[len(t.Block.Layers)-1].Part.Outline, c)-r)
		t.RollerSpace = min(t.RollerSpace, away(t.Cheek.Outline, c)-r)
	}
	switch {
	case t.RollerAtBlock < rollerSpace:
		p.adviseIn(Stop, "press.supports", func(u quantity.Units) string {
			return fmt.Sprintf("the block's ends %s: set the supports further apart", near(u, t.RollerAtBlock))
		})
	case t.RollerSpace < rollerSpace:
		p.adviseIn(Warning, "block.cheek_depth", func(u quantity.Units) string {
			return fmt.Sprintf("the cheeks %s: use rollers no wider than the tube, a smaller cheek_depth or wider supports", near(u, t.RollerSpace))
		})
	}
}

// near says how near something comes to the rollers, negative when they would
// overlap.
func near(u quantity.Units, distance float64) string {
	if distance < 0 {
		return "run into the rollers"
	}
	return "come within " + u.Length(distance) + " of the rollers"
}

// away returns the distance from q to a closed path, negative inside.
func away(p geom.Path, q geom.Point) float64 {
	d := p.Distance(q)
	if p.Contains(q) {
		return -d
	}
	return d
}

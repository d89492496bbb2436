package plan

import (
	"errors"
	"math"
	"slices"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Tools are the parts to cut and the blank to bend.
type Tools struct {
	Whole       bool          // every part can be made
	Plate       float64       // that block and cheeks are cut from, mm
	Sheet       float64       // that the templates are cut from, mm
	Block       tooling.Block // none where one of the rack is used
	Cheek       tooling.Part
	Strip       tooling.Part
	Inside      tooling.Part // template for the hollow
	Outside     tooling.Part
	Blank       tooling.Blank
	BlockArc    geom.Angle      // of the working arc, crown to both sides
	Bent        bend.BlockBent  // the most that the ram does to the block
	CheekGap    float64         // mm
	CheekDepth  float64         // past the working arc, mm
	StripLength float64         // mm
	Process     tooling.Process // zero when the job names none
	// AtHand is the body that a block at hand is drawn with, the job file's or the
	// one of the rack that is used: of it only the arc is known, the rest is as a
	// new one's would be. None without.
	AtHand tooling.Block
}

// cover is what the block's arc reaches beyond the largest wrap on each side.
const cover = 3 * geom.Degree

// halfArc returns the half angle of the working arc: it covers the pressed
// plain arc and the press's wrap, each at the strong end of the metal's range.
// The plain arc is generous, for it knows no tails: where the wrap is known, a
// block need not cover more than a block can.
func halfArc(s Springback, q *Press) geom.Angle {
	if s.Ready != nil && s.Ready.Arc > 0 {
		return s.Ready.Arc / 2
	}
	plain := s.most()/2 + cover
	if q == nil {
		return plain
	}
	return max(wrapped(q)+cover, min(plain, tooling.MostHalfAngle))
}

// wrapped returns the largest wrap at the angle over the metal's range.
func wrapped(q *Press) geom.Angle {
	wrap := geom.Angle(0)
	for _, s := range q.finals() {
		wrap = max(wrap, s.HalfWrap)
	}
	return wrap
}

// tools designs every part. A part that can't be made is advice that stops the
// job, and those after it are left out.
func tools(j job.Job, m Metal, strip Strip, s Springback, sec Section, q *Press, e *Existing) (Tools, []words.Advice, error) {
	var t Tools
	said, err := t.design(j, strip, s, sec, q, e)
	var size *tooling.SizeError
	if errors.As(err, &size) {
		why := words.Because(size)
		if size.Why == tooling.NotStraight {
			why = words.Reason{Code: words.WithInstead, Figures: words.Figures{"what": why, "instead": largestAngle(j, func(j job.Job) bool { return pushedStraight(j, m, strip) })}}
		}
		return t, append(said, words.Advice{Level: words.Stop, Step: words.Cut, About: keyOf(size), Reason: why}), nil
	}
	t.Whole = err == nil
	return t, said, err
}

// keyOf returns the job's key that changes a dimension, or the part where no key
// does.
func keyOf(e *tooling.SizeError) string {
	switch e.Dimension {
	case tooling.Height:
		return "block.height"
	case tooling.Hole:
		return "block.hole"
	case tooling.Plate:
		return "block.plate"
	case tooling.Blend:
		return "block.blend"
	case tooling.CheekDepth:
		return "block.cheek_depth"
	case tooling.Radius:
		return "bend.radius"
	case tooling.BendAngle, tooling.WorkingArc, tooling.TangentPoint:
		return "bend.angle"
	case tooling.Leg, tooling.Straight, tooling.PressLength:
		return "bend.legs"
	case tooling.EndCut:
		return "ends.cut"
	case tooling.Trim:
		return "ends.trim"
	case tooling.Depth:
		return "tube.depth"
	case tooling.Width:
		return "tube.width"
	case tooling.Thickness:
		return "strip.thickness"
	case tooling.Supports:
		return "press.supports"
	case tooling.Kerf:
		return "cutting.kerf"
	}
	return e.Part
}

// usualInchPlate is what an inch shop has in any case; common practice, no source.
const usualInchPlate = "3/8 in"

// plate returns what block and cheeks are cut from, mm: the job's own or the plate in
// stock that suits the gap; with dealers' stock a flat for a small tube, and in
// inches 3/8 in unless another is clearly better.
func plate(j job.Job, gap float64) float64 {
	if j.Block.Plate > 0 {
		return j.Block.Plate
	}
	if len(j.Stock.Plates) > 0 {
		return tooling.BestPlate(gap, j.Tube.Shape == profiles.Round, j.Stock.Plates, 0)
	}
	var stock []float64
	usual := 0.0 // of metric plate no thickness is in every shop
	thinnest := math.Inf(1)
	for _, p := range profiles.Plates() {
		if p.Inch == j.Inches {
			stock, thinnest = append(stock, p.Thickness), min(thinnest, p.Thickness)
			if p.Name == usualInchPlate {
				usual = p.Thickness
			}
		}
	}
	for _, f := range profiles.Strips() {
		if f.Inch == j.Inches && f.Thickness < thinnest {
			stock = append(stock, f.Thickness)
		}
	}
	return tooling.BestPlate(gap, j.Tube.Shape == profiles.Round, stock, usual)
}

// templateSheet returns what templates are cut from, mm: they carry nothing and
// are lifted to the bend by hand. Common practice, no source.
func templateSheet(j job.Job) float64 {
	switch {
	case j.Template.Plate > 0:
		return j.Template.Plate
	case j.Inches:
		return j.Units().MM(0.125)
	}
	return 3
}

// sheets returns the thicknesses that packing is made from, mm.
func sheets(j job.Job) []float64 {
	if len(j.Stock.Packing) > 0 {
		return slices.Sorted(slices.Values(j.Stock.Packing))
	}
	var out []float64
	for _, s := range profiles.Sheets() {
		if s.Inch == j.Inches {
			out = append(out, s.Thickness)
		}
	}
	return out
}

// design fills in the tools one after the other.
func (t *Tools) design(j job.Job, strip Strip, s Springback, sec Section, q *Press, e *Existing) ([]words.Advice, error) {
	var said []words.Advice
	t.CheekGap = tooling.CheekGap(sec.After.InnerWidth)
	t.Plate, t.Sheet = plate(j, t.CheekGap), templateSheet(j)
	t.BlockArc = 2 * halfArc(s, q)
	t.CheekDepth = j.Block.CheekDepth
	if t.CheekDepth == 0 {
		t.CheekDepth = j.Tube.Depth / 2
	}
	tangent := s.Nominal.Pressed.Angle / 2
	if q != nil {
		tangent = q.Final.HalfWrap
	}
	spec := tooling.BlockSpec{
		Radius: s.Working, HalfAngle: t.BlockArc / 2, TangentHalfAngle: tangent,
		Depth: j.Tube.Depth, Round: j.Tube.Shape == profiles.Round, Gap: t.CheekGap,
		Plate: t.Plate, Sheets: sheets(j), Blend: j.Block.Blend, Height: j.Block.Height, Hole: j.BoltHole(),
		Lighten: j.Block.Lighten,
	}
	var err error
	if j.Cutting.Process != "" {
		if t.Process, err = tooling.ProcessNamed(j.Cutting.Process); err != nil {
			return nil, j.Errorf("cutting.process", "%v", err)
		}
		spec.Web, spec.Opening = t.Process.Web.At(t.Plate), t.Process.Hole.At(t.Plate)
	}
	if s.Ready != nil {
		t.AtHand, _ = tooling.NewBlock(spec) // it is there, whether it could be cut so or not
	} else if said, err = t.stack(j, spec, q, e); err != nil {
		return said, err
	}
	t.StripLength = stripLength(j, strip, s, q, e)
	if t.Strip, err = tooling.NewStrip(tooling.StripSpec{Width: j.Tube.Width, Thickness: strip.Thickness, Length: t.StripLength}); err != nil {
		return said, err
	}
	template := tooling.TemplateSpec{Radius: j.Bend.Radius, Depth: j.Tube.Depth, Angle: j.Bend.Angle, Legs: j.Bend.Legs}
	if t.Inside, err = tooling.InsideTemplate(template); err != nil {
		return said, err
	}
	if t.Outside, err = tooling.OutsideTemplate(template); err != nil {
		return said, err
	}
	if t.Blank, err = blank(j, sec, q, e); err != nil {
		return said, err
	}
	return said, nil
}

// stack designs a new block, made high enough for what the ram does to it, and its
// side plates.
func (t *Tools) stack(j job.Job, spec tooling.BlockSpec, q *Press, e *Existing) ([]words.Advice, error) {
	var said []words.Advice
	var err error
	if t.Block, err = tooling.NewBlock(spec); err != nil {
		return said, err
	}
	least, err := t.bear(j, q)
	switch {
	case err != nil:
		said = append(said, say(words.Warning, words.Cut, "block.plate", words.BlockGivesWay, words.Figures{"why": words.Because(err)}))
	case j.Block.Height == 0 && least > t.Block.Height:
		spec.Height = wholeHeight(j, least)
		if t.Block, err = tooling.NewBlock(spec); err != nil {
			return said, err
		}
		t.bear(j, q)
	case least > t.Block.Height:
		said = append(said, say(words.Warning, words.Cut, "block.height", words.BlockBends, words.Figures{
			"height": quantity.Length.Of(t.Block.Height), "least": quantity.Length.Of(wholeHeight(j, least)),
			"change": quantity.Share.Of(math.Abs(t.Bent.Closes)), "stress": quantity.Stress.Of(t.Bent.Stress),
		}))
	}
	switch {
	case !j.Block.Lighten || len(t.Block.Openings) > 0:
	case math.IsInf(spec.Opening, 1):
		said = append(said, say(words.Note, words.Cut, "block.lighten", words.OpeningsUncut, words.Figures{"process": t.Process.Name, "plate": quantity.Nominal.Of(t.Plate)}))
	default:
		said = append(said, say(words.Note, words.Cut, "block.lighten", words.NoRoomForOpenings, nil))
	}
	if e != nil && e.Press != nil {
		spec.Radius, spec.HalfAngle, spec.TangentHalfAngle, spec.Lighten = e.Block, wrapped(e.Press)+cover, 0, false
		// It is there already: one that can't be cut so is drawn without a body.
		t.AtHand, _ = tooling.NewBlock(spec)
	}
	if t.Cheek, err = t.Block.Cheek(t.CheekDepth); err != nil {
		return said, err
	}
	return said, nil
}

// wholeHeight rounds a block's height in mm up to a whole millimetre or 1/16 in.
func wholeHeight(j job.Job, mm float64) float64 {
	step := j.Units().Pick(1, 1.0/16)
	return math.Ceil(mm/step) * step
}

// The block's plates are taken as mild steel, S235: Young's modulus and yield
// stress in MPa, EN 1993-1-1 and EN 10025-2, from memory.
const (
	plateYoung = 210e3
	plateYield = 235.0
)

// What a block may do under the ram: its crown's curvature may change by so
// much, a third of what a shop can measure on a template, and its plates may be
// stressed to that share of their yield; common practice, no source.
const (
	mostOpening = 0.003
	mostStress  = 0.5
)

// bear works out what the ram does to the block, over all steps and the metal's
// range, and returns the height in mm at which it does no more than it may.
// Without a press there is nothing to bear.
func (t *Tools) bear(j job.Job, q *Press) (float64, error) {
	t.Bent = bend.BlockBent{}
	if q == nil {
		return 0, nil
	}
	b := bend.BlockBeam{
		Radius: t.Block.Radius, Height: t.Block.Height, Thickness: float64(len(t.Block.LayerRadii)) * t.Plate,
		Ram: j.Press.RamWidth, Young: plateYoung,
	}
	var loads []bend.BlockLoad
	for _, s := range q.states() {
		if s.HalfWrap > 0 {
			loads = append(loads, bend.BlockLoad{Force: s.LargestForce(j.Press.Friction), HalfWrap: s.HalfWrap})
		}
	}
	for _, l := range loads {
		u := b.Under(l)
		if math.Abs(u.Closes) > math.Abs(t.Bent.Closes) {
			t.Bent.Closes = u.Closes
		}
		t.Bent.Stress = max(t.Bent.Stress, u.Stress)
	}
	return b.LeastHeight(loads, mostOpening, mostStress*plateYield)
}

// pushedStraight reports whether a job's block can be pushed straight.
func pushedStraight(j job.Job, m Metal, strip Strip) bool {
	s, _, err := springback(j, m)
	if err != nil {
		return false
	}
	q, _, err := press(j, m, strip, s.Working)
	return err == nil && q != nil && halfArc(s, q) <= tooling.MostHalfAngle
}

// largestAngle names the largest angle, in whole degrees, below the drawing's for
// which something works.
func largestAngle(j job.Job, works func(job.Job) bool) words.Reason {
	lo, hi := 0.0, math.Ceil(j.Bend.Angle.Degrees())
	for hi-lo > 1 {
		mid := math.Floor((lo + hi) / 2)
		j.Bend.Angle = geom.Angle(mid) * geom.Degree
		if works(j) {
			lo = mid
		} else {
			hi = mid
		}
	}
	if lo == 0 {
		return words.Reason{Code: words.NoAngleWorks}
	}
	return words.Reason{Code: words.LargestAngle, Figures: words.Figures{"angle": quantity.Degrees(geom.Angle(lo) * geom.Degree)}}
}

// reach returns the longest developed half length, along a line off mm outside
// the tube's centreline, from the crown to a roller contact over all steps, the
// block at hand's last one included: the same blank and strip must do for it.
func reach(q *Press, e *Existing, off float64) float64 {
	far := q.Rig.Supports / 2
	states := q.states()
	if e != nil && e.Press != nil {
		states = append(states, e.Press.finals()...)
	}
	for _, s := range states {
		far = max(far, s.Developed()+off*float64(s.Slope))
	}
	return far
}

// stripLength covers the outer arc under load, both legs to the supports and
// an overhang of one depth on each side. Without a press model the legs are
// two depths.
func stripLength(j job.Job, strip Strip, s Springback, q *Press, e *Existing) float64 {
	d := j.Tube.Depth
	if q == nil {
		return tooling.StripLength(float64(s.most())*s.Nominal.Pressed.Outside(d), leastLegDepths*d, d)
	}
	return tooling.StripLength(0, reach(q, e, d/2+strip.Thickness/2), d)
}

// blank designs the blank: long enough for the part, its trim and the press at
// every step.
func blank(j job.Job, sec Section, q *Press, e *Existing) (tooling.Blank, error) {
	spec := tooling.BlankSpec{
		Radius: j.Bend.Radius, Depth: j.Tube.Depth, Angle: j.Bend.Angle,
		Legs: j.Bend.Legs, Cuts: j.Ends.Cut, Trim: j.Ends.Trim, Growth: sec.After.ArcGrowth,
	}
	if q != nil {
		spec.Half = reach(q, e, 0) + j.Tube.Depth
		spec.Roller = q.Rig.Supports / 2
	}
	return tooling.NewBlank(spec)
}

// TubeSize returns a tube's size in words, its lengths of a kind: "40 x 40 x 3 mm",
// "dia 30 x 2 mm".
func TubeSize(t profiles.Section, u quantity.Units, k quantity.Kind) string {
	if t.Shape == profiles.Round {
		return "dia\u00a0" + u.SizeAs(k, t.Depth, t.Wall)
	}
	return u.SizeAs(k, t.Width, t.Depth, t.Wall)
}

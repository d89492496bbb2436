// Package report presents a plan: as text for a terminal and as JSON. It
// computes nothing that the plan does not hold.
package report

import (
	"bytes"
	"encoding/json"
	"math"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/geom"
	"overbend/geom/bend"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Doc is the JSON form of a plan. Keys carry their unit and stay as they are
// from one version to the next; the README documents them.
type Doc struct {
	Program  string       `json:"program"`
	Name     string       `json:"name"`
	Feasible bool         `json:"feasible"`
	Section  sectionDoc   `json:"section"`
	Bend     bendDoc      `json:"bend"`
	Overbend overbendDoc  `json:"overbend"`
	Block    blockDoc     `json:"block"`
	Strip    stripDoc     `json:"strip"`
	After    afterDoc     `json:"tube_after"`
	Press    *pressDoc    `json:"press"`
	Stack    *stackDoc    `json:"stack"`
	Template templateDoc  `json:"template"`
	Cut      []cutDoc     `json:"cut"`
	Nest     *nestDoc     `json:"nest"`
	Blank    blankDoc     `json:"blank"`
	Part     *partDoc     `json:"part"`
	Fixture  *fixtureDoc  `json:"fixture"`
	Filler   *fillerDoc   `json:"filler"`
	Check    checkDoc     `json:"check"`
	Existing *existingDoc `json:"existing,omitempty"`
	Rack     []rackDoc    `json:"rack,omitempty"`
	Trial    *trialDoc    `json:"trial,omitempty"`
	Used     usedDoc      `json:"used"`
	Advice   []adviceDoc  `json:"advice"`
	Kit      *kitDoc      `json:"kit,omitempty"`

	Sensitivity *sensitivityDoc `json:"sensitivity,omitempty"`
}

type sectionDoc struct {
	Area    float64 `json:"area_mm2"`
	Inertia float64 `json:"inertia_mm4"`
	Elastic float64 `json:"elastic_modulus_mm3"`
	Plastic float64 `json:"plastic_modulus_mm3"`
	Bore    float64 `json:"bore_area_mm2"`
	Shape   string  `json:"shape"`
	Width   float64 `json:"width_mm"`
	Depth   float64 `json:"depth_mm"`
	Wall    float64 `json:"wall_mm"`
	Corner  float64 `json:"corner_mm"`
}

type bendDoc struct {
	Angle   float64 `json:"angle_deg"`
	Centre  float64 `json:"centreline_radius_mm"`
	Inside  float64 `json:"inside_radius_mm"`
	Outside float64 `json:"outside_radius_mm"`
	Arc     float64 `json:"arc_length_mm"`

	Legs      [2]float64 `json:"legs_mm"`
	Cuts      [2]float64 `json:"end_cuts_deg"`
	AngleTol  *float64   `json:"angle_tolerance_deg"` // null where the drawing states none
	RadiusTol *float64   `json:"radius_tolerance_mm"`
}

type overbendDoc struct {
	Radius float64   `json:"pressed_centreline_radius_mm"`
	Ratio  float64   `json:"springback_ratio"`
	Arc    float64   `json:"pressed_arc_angle_deg"`
	Moment float64   `json:"moment_Nmm"`
	Range  *rangeDoc `json:"range"`
}

type rangeDoc struct {
	Low  endDoc `json:"low"`
	High endDoc `json:"high"`
}

type endDoc struct {
	Proof       float64 `json:"proof_MPa"`
	Radius      float64 `json:"pressed_centreline_radius_mm"`
	Ratio       float64 `json:"springback_ratio"`
	Arc         float64 `json:"pressed_arc_angle_deg"`
	Moment      float64 `json:"moment_Nmm"`
	Block       float64 `json:"block_radius_mm"`
	FinalRadius float64 `json:"final_centreline_radius_mm"`
	FinalAngle  float64 `json:"final_angle_deg"`
}

type blockDoc struct {
	Ready  *string   `json:"from_rack"` // its name there; null: a new block
	Radius float64   `json:"radius_mm"`
	Arc    float64   `json:"arc_angle_deg"`
	Layers int       `json:"layers"`
	Radii  []float64 `json:"layer_radii_mm"`
	Plate  float64   `json:"plate_mm"`
	Shim   float64   `json:"shim_mm"`    // of all packing
	Pack   float64   `json:"packing_mm"` // of one
	Sheets []float64 `json:"packing_sheets_mm"`
	Order  []string  `json:"order"` // "plate" or "packing", from cheek to cheek
	Gap    float64   `json:"cheek_gap_mm"`
	Width  *float64  `json:"width_mm"` // null when no block can be made, as all sizes of parts
	Height *float64  `json:"height_mm"`
	Opens  *float64  `json:"crown_change"` // share of the curvature, under the ram; below 0 it opens
	Stress *float64  `json:"plate_stress_MPa"`
}

type stripDoc struct {
	Width     float64  `json:"width_mm"`
	Thickness float64  `json:"thickness_mm"`
	Length    *float64 `json:"length_mm"`
	Released  *float64 `json:"released_radius_mm"` // null: stays flat, or no press state
	Reusable  *bool    `json:"reusable"`
}

type afterDoc struct {
	Strain     float64 `json:"outer_strain"`
	Used       float64 `json:"elongation_used"`
	OuterWall  float64 `json:"outer_wall_mm"`
	InnerWall  float64 `json:"inner_wall_mm"`
	OuterWidth float64 `json:"outer_width_mm"`
	InnerWidth float64 `json:"inner_width_mm"`
	Buckling   float64 `json:"buckling_strain"`
	NeedsFill  bool    `json:"needs_fill"`
	Inner      float64 `json:"inner_strain"`
	Neutral    float64 `json:"neutral_axis_mm"` // from mid-depth towards the inside
	Growth     float64 `json:"arc_growth"`
	Web        bool    `json:"side_walls_buckle_first"`
	Elongation float64 `json:"elongation"` // at which the metal breaks
	leftDoc
}

// leftDoc is what a bend left of the section, and its shares of the straight
// tube's.
type leftDoc struct {
	Area         float64 `json:"area_mm2"`
	Inertia      float64 `json:"inertia_mm4"`
	Elastic      float64 `json:"elastic_modulus_mm3"`
	AreaShare    float64 `json:"area_share"`
	InertiaShare float64 `json:"inertia_share"`
	ElasticShare float64 `json:"elastic_modulus_share"`
}

func left(r bend.Remains) leftDoc {
	return leftDoc{r.Area, r.Inertia, r.Modulus, r.AreaShare, r.InertiaShare, r.ModulusShare}
}

type pressDoc struct {
	Supports float64       `json:"supports_mm"`
	Proposed bool          `json:"supports_proposed"`
	Roller   float64       `json:"roller_diameter_mm"`
	HalfWrap float64       `json:"wrap_deg"`
	Travel   float64       `json:"travel_mm"`
	Force    float64       `json:"force_N"`
	Peak     float64       `json:"peak_force_N"`
	Rubbed   float64       `json:"force_with_friction_N"`
	PeakRub  float64       `json:"peak_force_with_friction_N"`
	Needed   float64       `json:"needed_force_N"` // with friction, over the metal's range
	LeastLeg float64       `json:"least_leg_mm"`
	Share    *float64      `json:"capacity_share"` // of the needed force; null without a capacity
	Gauge    *float64      `json:"gauge_MPa"`      // at the peak; null without a ram diameter
	Loaded   float64       `json:"loaded_angle_deg"`
	Filled   float64       `json:"released_filled_angle_deg"`
	Released float64       `json:"released_angle_deg"`
	Tail     float64       `json:"tail_length_mm"`
	Leg      float64       `json:"leg_length_mm"`
	Gap      float64       `json:"largest_gap_mm"`
	GapAt    float64       `json:"largest_gap_from_centre_mm"`
	Range    *pressEndsDoc `json:"range"`
	Friction float64       `json:"friction"`
	Capacity *float64      `json:"capacity_N"`
	NeededBy float64       `json:"needed_proof_MPa"` // of the metal that needs the needed force
	Springs  float64       `json:"springs_back"`     // share of the angle under load
	Creep    *float64      `json:"creep_deg_per_mm"` // more angle, let go, for a mm more of travel at the end
	Schedule []stepDoc     `json:"schedule"`
	Curve    []stepDoc     `json:"curve"`
}

type pressEndsDoc struct {
	Low  *pressEndDoc `json:"low"`
	High *pressEndDoc `json:"high"`
}

type pressEndDoc struct {
	Proof    float64 `json:"proof_MPa"`
	HalfWrap float64 `json:"wrap_deg"`
	Travel   float64 `json:"travel_mm"`
	Force    float64 `json:"force_N"`
	Loaded   float64 `json:"loaded_angle_deg"`
	AtTravel float64 `json:"released_angle_at_nominal_travel_deg"`
}

type stepDoc struct {
	Travel   float64 `json:"travel_mm"`
	Force    float64 `json:"force_N"`
	HalfWrap float64 `json:"wrap_deg"`
	Loaded   float64 `json:"loaded_angle_deg"`
	Filled   float64 `json:"released_filled_angle_deg"`
	Released float64 `json:"released_angle_deg"`

	Gauge *float64 `json:"gauge_MPa"` // null without a ram diameter
}

type blankDoc struct {
	Length   *float64  `json:"length_mm"`
	ForPress float64   `json:"for_press_mm"`
	Marks    []markDoc `json:"marks"`

	Outside     float64    `json:"finished_outside_mm"`
	Inside      float64    `json:"finished_inside_mm"`
	OutsideLegs [2]float64 `json:"outside_legs_mm"`
	InsideLegs  [2]float64 `json:"inside_legs_mm"`
}

type markDoc struct {
	Name string  `json:"name"`
	At   float64 `json:"at_mm"`

	Outside float64 `json:"outside_mm"` // on the outer face; a slanting mark's is another
	Inside  float64 `json:"inside_mm"`
}

// partDoc is the part as drawn. Its datum is the corner of end 1 on the inside of
// the bend, x along the inside of leg 1, y to the outside.
type partDoc struct {
	Width  float64    `json:"width_mm"`
	Height float64    `json:"height_mm"`
	Points []pointDoc `json:"points"`
}

type pointDoc struct {
	Name string  `json:"name"`
	X    float64 `json:"x_mm"`
	Y    float64 `json:"y_mm"`
}

// fixtureDoc is the trim fixture. Its datum is the plate's lower left corner, x
// along the lower edge, which is parallel to leg 1.
type fixtureDoc struct {
	Plate  float64      `json:"plate_mm"`
	Width  float64      `json:"width_mm"`
	Height float64      `json:"height_mm"`
	Pin    float64      `json:"pin_mm"`
	Pins   []pinDoc     `json:"pins"`
	Datum  []pointDoc   `json:"datum_holes"`
	Cuts   []cutLineDoc `json:"cut_lines"`
	Origin pointDoc     `json:"part_datum"` // where the part's datum lies on the plate
	Gap    float64      `json:"largest_gap_mm"`
}

type pinDoc struct {
	Touches string  `json:"touches"`
	Leg     int     `json:"leg"` // 0: the crown
	X       float64 `json:"x_mm"`
	Y       float64 `json:"y_mm"`
}

type cutLineDoc struct {
	End   int     `json:"end"`
	FromX float64 `json:"from_x_mm"` // inside of the bend
	FromY float64 `json:"from_y_mm"`
	ToX   float64 `json:"to_x_mm"`
	ToY   float64 `json:"to_y_mm"`
}

// point returns a named place, without negative zeros.
func point(name string, p geom.Point) pointDoc { return pointDoc{name, place(p.X), place(p.Y)} }

// place returns a coordinate in mm, and nought for what differences of others leave,
// which is another on every kind of processor.
func place(x float64) float64 {
	if math.Abs(x) < 1e-9 {
		return 0
	}
	return x
}

func part(b *tooling.Bent) *partDoc {
	if b == nil {
		return nil
	}
	box := b.Outline.Bounds()
	d := &partDoc{Width: box.Width(), Height: box.Height()}
	for _, q := range b.Points {
		d.Points = append(d.Points, point(q.Name, q.At))
	}
	return d
}

func fixture(f *plan.Fixture) *fixtureDoc {
	if f == nil {
		return nil
	}
	d := &fixtureDoc{Plate: f.Plate, Width: f.Width, Height: f.Height, Pin: f.Pin, Gap: f.Gap, Origin: point("part's datum", f.Place.Apply(geom.Point{}))}
	for _, q := range f.Pins {
		d.Pins = append(d.Pins, pinDoc{string(q.Touches), q.Leg, q.At.X, q.At.Y})
	}
	for i, q := range f.Datum {
		d.Datum = append(d.Datum, point(string(rune('A'+i)), q))
	}
	for i, l := range f.Cuts {
		d.Cuts = append(d.Cuts, cutLineDoc{i + 1, l[0].X, l[0].Y, l[1].X, l[1].Y})
	}
	return d
}

type fillerDoc struct {
	Alloy  string  `json:"alloy"`
	Volume float64 `json:"volume_mm3"`
	Mass   float64 `json:"mass_kg"`
	// With plugs that reach in as far as they may; null: nothing to save.
	Least   *leastFillDoc `json:"least"`
	Melts   float64       `json:"melts_C"`
	Lead    bool          `json:"holds_lead"`
	Cadm    bool          `json:"holds_cadmium"`
	Plugs   [2]float64    `json:"plugs_mm"`
	MeltOut float64       `json:"melt_out_C"`
	Ceiling float64       `json:"ceiling_C"`
}

type leastFillDoc struct {
	Plugs [2]float64 `json:"plugs_mm"`
	Mass  float64    `json:"mass_kg"`
}

type existingDoc struct {
	Block    float64  `json:"radius_mm"`
	Final    *float64 `json:"finished_centreline_radius_mm"` // null: nothing of the bend stays
	Angle    float64  `json:"finished_angle_deg"`
	Travel   *float64 `json:"travel_mm"` // null: no state makes the angle
	Supports *float64 `json:"supports_mm"`
	Gap      *float64 `json:"largest_gap_mm"`
	Works    bool     `json:"feasible"`
	Strain   float64  `json:"outer_strain"`
	Used     float64  `json:"elongation_used"`
	Force    *float64 `json:"force_N"`
	PeakRub  *float64 `json:"peak_force_with_friction_N"`
	Share    *float64 `json:"capacity_share"`
	After    leftDoc  `json:"tube_after"`
}

type rackDoc struct {
	Name string `json:"name"`
	existingDoc
	Needed *float64 `json:"needed_force_N"`
	Best   bool     `json:"best"`
	Why    []string `json:"why"` // what stops it or warns of it, in the job file's units
}

type trialDoc struct {
	Proof         float64       `json:"proof_MPa"`
	ProofError    float64       `json:"proof_error_MPa"`
	Exponent      float64       `json:"exponent"`
	ExponentError float64       `json:"exponent_error"`
	Catalogue     float64       `json:"catalogue_proof_MPa"`
	Suspect       bool          `json:"suspect"`
	Residuals     []residualDoc `json:"residuals"`
	Angle         *float64      `json:"next_angle_error_deg"` // null without a press
	Template      *float64      `json:"next_template_error_mm"`
	NextTravel    *float64      `json:"next_trial_travel_mm"`
	NextError     *float64      `json:"next_trial_proof_error_MPa"`
}

type residualDoc struct {
	Trial     int     `json:"trial"` // from 1
	Reading   string  `json:"reading"`
	Unit      string  `json:"unit"`
	Measured  float64 `json:"measured"`
	Predicted float64 `json:"predicted"`
	Residual  float64 `json:"residual"`
	Error     float64 `json:"error"`
}

type usedDoc struct {
	Tube   lawDoc         `json:"tube"`
	Strip  lawDoc         `json:"strip"`
	Filler *fillerUsedDoc `json:"filler"`
	// Keys of the shop file that the job did not override, as they are written there,
	// and "file", its name.
	Shop map[string]string `json:"shop,omitempty"`
}

type lawDoc struct {
	Family   string  `json:"family"`
	Youngs   float64 `json:"youngs_modulus_MPa"`
	Proof    float64 `json:"proof_MPa"`
	Ultimate float64 `json:"ultimate_MPa"`
	Exponent float64 `json:"exponent"`
}

type fillerUsedDoc struct {
	Youngs float64 `json:"youngs_modulus_MPa"`
	Yield  float64 `json:"yield_MPa"`
}

type adviceDoc struct {
	Level string `json:"level"`
	About string `json:"about"`
	Code  string `json:"code"`
	Step  string `json:"step"` // of the work; "": the whole job
	Text  string `json:"text"`
}

type kitDoc struct {
	Files []kit.Entry `json:"files"`
	Seal  string      `json:"seal"`
}

// JSON returns the plan's JSON text, ending in a line feed; its sentences speak
// in the job file's own units. With files it is the kit's ledger: it names each
// file's digest and is sealed.
func JSON(p *plan.Plan, files []kit.File) ([]byte, error) {
	d := doc(p)
	if files == nil {
		return d.text()
	}
	d.Kit = &kitDoc{kit.Entries(files), kit.NoSeal}
	text, err := d.text()
	if err != nil {
		return nil, err
	}
	return kit.Seal(text), nil
}

func (d Doc) text() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(d)
	return b.Bytes(), err
}

// some returns a pointer to v, or nil when v is 0, NaN or infinite: JSON's
// null says that there is no such number.
func some(v float64) *float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// order names the leaves of a block's stack.
func order(stack []tooling.Leaf) []string {
	out := make([]string, len(stack))
	for i, l := range stack {
		if out[i] = "plate"; l.Packing {
			out[i] = "packing"
		}
	}
	return out
}

func doc(p *plan.Plan) Doc {
	j := p.Job
	n := p.Nominal
	t := j.Tube
	d := Doc{
		Program:  "overbend",
		Name:     j.Name,
		Feasible: p.Feasible(),
		Section:  sectionDoc{t.Area(), t.Inertia(), t.ElasticModulus(), t.PlasticModulus(), t.BoreArea(), shape(t), t.Width, t.Depth, t.Wall, t.Corner},
		Bend: bendDoc{
			Angle: j.Bend.Angle.Degrees(), Centre: j.Bend.Radius,
			Inside: j.Bend.Inside(t.Depth), Outside: j.Bend.Outside(t.Depth),
			Arc: j.Bend.Length(), Legs: j.Bend.Legs, Cuts: [2]float64{j.Ends.Cut[0].Degrees(), j.Ends.Cut[1].Degrees()},
			AngleTol: some(j.Drawing.AngleTolerance.Degrees()), RadiusTol: some(j.Drawing.RadiusTolerance),
		},
		Overbend: overbendDoc{n.Pressed.Radius, n.Ratio, n.Pressed.Angle.Degrees(), n.Moment, nil},
		Block: blockDoc{
			Radius: p.Working, Arc: p.Tools.BlockArc.Degrees(), Layers: len(p.Tools.Block.LayerRadii),
			Radii: append([]float64{}, p.Tools.Block.LayerRadii...), Plate: p.Tools.Plate,
			Shim: p.Tools.Block.Shim, Pack: p.Tools.Block.Packing.Thickness,
			Sheets: append([]float64{}, p.Tools.Block.Packing.Sheets...), Order: order(p.Tools.Block.Stack), Gap: p.Tools.CheekGap,
			Width: some(2 * p.Tools.Block.HalfWidth), Height: some(p.Tools.Block.Height),
			Opens: some(p.Tools.Bent.Closes), Stress: some(p.Tools.Bent.Stress),
		},
		Strip: stripDoc{Width: t.Width, Thickness: p.Strip.Thickness, Length: some(p.Tools.StripLength)},
		After: afterDoc{
			p.After.OuterStrain, p.Used, p.After.OuterWall, p.After.InnerWall,
			p.After.OuterWidth, p.After.InnerWidth, p.Buckling.Strain, p.NeedsFill, p.After.InnerStrain, p.After.NeutralAxis, p.After.ArcGrowth, p.Buckling.Web, j.Material.Elongation,
			left(p.Section.Left),
		},
		Stack: stack(p), Template: template(p), Cut: cuts(p), Nest: nest(p.Nest), Check: check(p),
		Blank: blank(p.Tools.Blank),
		Used: usedDoc{
			Tube:  law(p.Metal.Curve),
			Strip: law(p.Strip.Curve),
		},
		Advice: []adviceDoc{},
	}
	if from := j.FromShop; from.File != "" {
		d.Used.Shop = map[string]string{"file": from.File}
		for _, u := range from.Keys {
			d.Used.Shop[u.Key] = u.Value
		}
	}
	d.Part, d.Fixture = part(p.Part), fixture(p.Fixture)
	if p.Low != nil && p.High != nil {
		d.Overbend.Range = &rangeDoc{end(p.Low), end(p.High)}
	}
	if q := p.Press; q != nil {
		d.Press = press(q, j.Press)
		d.Strip.Released = some(q.Strip.Radius())
		d.Strip.Reusable = &q.Strip.Reusable
	}
	if f := p.Filler; f != nil {
		a := j.Filler.Alloy
		d.Filler = &fillerDoc{Alloy: a.Name, Volume: f.Volume, Mass: f.Mass, Melts: a.Liquidus, Lead: a.Lead, Cadm: a.Cadmium, Plugs: j.Filler.Plugs, MeltOut: a.MeltOut, Ceiling: a.Ceiling}
		if l := f.Least; l != nil {
			d.Filler.Least = &leastFillDoc{l.Plugs, l.Mass}
		}
	}
	if a := j.Filler.Alloy; a.Name != "" {
		d.Used.Filler = &fillerUsedDoc{a.Youngs, a.Yield}
	}
	if e := p.Existing; e != nil {
		at := existing(e)
		d.Existing = &at
	}
	for _, b := range p.Rack {
		r := rackDoc{Name: b.Name, existingDoc: existing(b.Existing), Best: b.Best, Why: []string{}}
		if b.Press != nil {
			r.Needed = &b.Press.Needed
		}
		for _, a := range b.Found {
			r.Why = append(r.Why, quantity.Plain(a.Say(j.Units())))
		}
		d.Rack = append(d.Rack, r)
	}
	if b := p.Ready; b != nil {
		d.Block.Ready = &b.Name
	}
	if t := p.Metal.Trial; t != nil {
		d.Trial = trial(t, p.Forecast)
	}
	for _, a := range p.Advice {
		d.Advice = append(d.Advice, adviceDoc{string(a.Level), a.About, string(a.Code), string(a.Step), quantity.Plain(a.Say(j.Units()))})
	}
	return d
}

func existing(e *plan.Existing) existingDoc {
	d := existingDoc{Block: e.Block, Final: some(e.Plain.Radius), Angle: e.Plain.Angle.Degrees(), Works: e.Works, Strain: e.Section.After.OuterStrain, Used: e.Section.Used, After: left(e.Section.Left)}
	if q := e.Press; q != nil {
		d.Travel, d.Supports, d.Gap = &q.Final.Travel, &q.Rig.Supports, &q.Gap.Size
		d.Force, d.PeakRub, d.Share = &q.Final.Force, &q.PeakRubbed, some(q.Share)
	}
	return d
}

func law(c profiles.Curve) lawDoc {
	return lawDoc{string(c.Family), c.Youngs, c.Proof, c.Ultimate, c.Exponent}
}

func end(o *plan.Overbend) endDoc {
	return endDoc{o.Proof, o.Pressed.Radius, o.Ratio, o.Pressed.Angle.Degrees(), o.Moment, o.Block, o.Final.Radius, o.Final.Angle.Degrees()}
}

func press(q *plan.Press, at job.Press) *pressDoc {
	s := q.Final
	d := &pressDoc{
		Supports: q.Rig.Supports, Proposed: q.Proposed, Roller: q.Rig.Roller,
		HalfWrap: s.HalfWrap.Degrees(), Travel: s.Travel, Force: s.Force,
		Peak: q.Peak, Rubbed: q.FinalRubbed, PeakRub: q.PeakRubbed, Needed: q.Needed, LeastLeg: q.LeastLeg, Share: some(q.Share), Gauge: some(q.Gauge),
		Loaded: s.Loaded.Degrees(), Filled: s.Filled.Degrees(), Released: s.Melted.Degrees(),
		Tail: s.Tail, Leg: s.Leg, Gap: q.Gap.Size, GapAt: q.Gap.At,
		Friction: at.Friction, Capacity: some(at.Capacity), NeededBy: q.NeededBy,
		Springs: 1 - float64(s.Melted/s.Loaded), Creep: some(q.Creep.Degrees()),
	}
	d.Schedule, d.Curve = steps(q, q.Stops), steps(q, q.Schedule)
	if q.Low != nil || q.High != nil {
		d.Range = &pressEndsDoc{pressEnd(q.Low), pressEnd(q.High)}
	}
	return d
}

func steps(q *plan.Press, states []bend.State) []stepDoc {
	out := make([]stepDoc, len(states))
	for i, s := range states {
		out[i] = stepDoc{s.Travel, s.Force, s.HalfWrap.Degrees(), s.Loaded.Degrees(), s.Filled.Degrees(), s.Melted.Degrees(), gaugeAt(q, s)}
	}
	return out
}

func pressEnd(e *plan.PressEnd) *pressEndDoc {
	if e == nil {
		return nil
	}
	s := e.Final
	return &pressEndDoc{e.Proof, s.HalfWrap.Degrees(), s.Travel, s.Force, s.Loaded.Degrees(), e.AtTravel.Degrees()}
}

func trial(t *plan.Trial, f *plan.Forecast) *trialDoc {
	d := &trialDoc{
		Proof: t.Proof, ProofError: t.ProofError, Exponent: t.Exponent, ExponentError: t.ExponentError,
		Catalogue: t.Catalogue, Suspect: t.Suspect != plan.Trusted,
	}
	if f != nil {
		d.Angle, d.Template = some(f.Angle.Degrees()), some(f.Template)
		d.NextTravel, d.NextError = some(f.Next.Travel), some(f.Next.ProofError)
	}
	for _, r := range t.Residuals {
		unit, k := "mm", 1.0
		if r.Reading != bend.ReadRise {
			unit, k = "deg", geom.Angle(1).Degrees()
		}
		d.Residuals = append(d.Residuals, residualDoc{
			r.Trial + 1, string(r.Reading), unit, k * r.Measured, k * r.Predicted, k * (r.Measured - r.Predicted), k * r.Error,
		})
	}
	return d
}

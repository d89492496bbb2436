package words

// The sentences about a job, by the step of the work. Names in braces are
// figures. What is common practice without a source says so where it decides
// something.

// Design: the metal and the bend.
const (
	TrialsBeatMode     Code = "trials-beat-mode"
	NoSuchRatio        Code = "no-such-ratio"
	StretchBreaks      Code = "stretch-breaks"
	StretchNear        Code = "stretch-near"
	MostlySpringback   Code = "mostly-springback"
	WhyNotAnnealAged   Code = "why-not-anneal-aged"
	WhyNotAnnealSteel  Code = "why-not-anneal-steel"
	WhyNotSand         Code = "why-not-sand"
	EngineerFirst      Code = "engineer-first"
	FromMinimum        Code = "from-minimum"
	FromJobFile        Code = "from-job-file"
	FromCertificate    Code = "from-certificate"
	FromAllowance      Code = "from-allowance"
	FromTrials         Code = "from-trials"
	PressedTooTight    Code = "pressed-too-tight"
	NoPlugRoom         Code = "no-plug-room"
	WrinklesButFilled  Code = "wrinkles-but-filled"
	WrinklesEmpty      Code = "wrinkles-empty"
	HoldsEmpty         Code = "holds-empty"
	BathHarmless       Code = "bath-harmless"
	FillerEstimated    Code = "filler-estimated"
	FillerCaution      Code = "filler-caution"
	NoRoomForOpenings  Code = "no-room-for-openings"
	DrillHoles         Code = "drill-holes"
	KerfInFiles        Code = "kerf-in-files"
	KerfAtTable        Code = "kerf-at-table"
	PartTooLarge       Code = "part-too-large-for-sheet"
	PartCannot         Code = "part-cannot"
	KerfTooWide        Code = "kerf-too-wide-for-corner"
	BlockAtRollers     Code = "block-at-rollers"
	CheeksAtRollers    Code = "cheeks-at-rollers"
	RunsIntoRollers    Code = "runs-into-rollers"
	ComesNearRollers   Code = "comes-near-rollers"
	NoSetUp            Code = "no-set-up"
	PressTooWeak       Code = "press-too-weak"
	PressNearCapacity  Code = "press-near-capacity"
	LegShort           Code = "leg-short"
	OffTheBlock        Code = "off-the-block"
	OffTheDrawing      Code = "off-the-drawing"
	StripStaysFlat     Code = "strip-stays-flat"
	StripKeepsSet      Code = "strip-keeps-set"
	MetalNotReached    Code = "metal-not-reached"
	StandAside         Code = "stand-aside"
	TieTheBlock        Code = "tie-the-block"
	ExistingGives      Code = "existing-gives"
	ExistingCannot     Code = "existing-cannot"
	TrialsUsed         Code = "trials-used"
	TrialsTooSoft      Code = "trials-too-soft"
	TrialsTooHard      Code = "trials-too-hard"
	TrialsDisagree     Code = "trials-disagree"
	TrialsAtLimit      Code = "trials-at-limit"
	TrialOneOff        Code = "trial-one-off"
	LookAtTravel       Code = "look-at-travel"
	LookAtLoaded       Code = "look-at-loaded"
	AngleFinder        Code = "angle-finder"
	TrialsLeftOut      Code = "trials-left-out"
	TrialsOnProposed   Code = "trials-on-proposed"
	TrialNeedsSupports Code = "trial-needs-supports"
	TrialNotReached    Code = "trial-not-reached"
	TrialsNoLesson     Code = "trials-no-lesson"
)

// Reasons of the mechanics for which there is no bend.
const (
	SlipsFlat     Code = "slips-flat"
	SlipsWrapped  Code = "slips-wrapped"
	TooNarrow     Code = "too-narrow"
	NoLeg         Code = "no-leg"
	NoSpacing     Code = "no-spacing"
	RollerTooWide Code = "roller-too-wide"
	TooMuchForce  Code = "too-much-force"
	LegTooShort   Code = "leg-too-short"
	NoSupportsFor Code = "no-supports-for"
	NoAnswer      Code = "no-answer"
)

// What is wrong with a name or a size that the catalogue was asked for.
const (
	MetalNear       Code = "metal-near"
	MetalUnknown    Code = "metal-unknown"
	AlloyNear       Code = "alloy-near"
	AlloyUnknown    Code = "alloy-unknown"
	NoThickness     Code = "no-thickness"
	WallUnlisted    Code = "wall-unlisted"
	SizeNotFinite   Code = "size-not-finite"
	SizeNotPositive Code = "size-not-positive"
	SizeOutOfRange  Code = "size-out-of-range"
	RoundTwoSizes   Code = "round-two-sizes"
	NoBore          Code = "no-bore"
	CornerNegative  Code = "corner-negative"
	RoundCorner     Code = "round-corner"
	CornerNoRoom    Code = "corner-no-room"
)

// What heat does to a metal.
const (
	HeatHarmless Code = "heat-harmless"
	HeatMayHarm  Code = "heat-may-harm"
	HeatHarms    Code = "heat-harms"
	SteelKeeps   Code = "steel-keeps"
	ZincKeeps    Code = "zinc-keeps"
	AgesItself   Code = "ages-itself"
	AgedLoses    Code = "aged-loses"
	HeatTested   Code = "heat-tested"
	HeatStandIn  Code = "heat-stand-in"
	ReheatTime   Code = "reheat-time"
	ListNext     Code = "list-next"
	ListLast     Code = "list-last"
)

// catalogue holds every sentence once.
var catalogue = [...]entry{
	{code: TrialsBeatMode, long: `the trials decide the overbend; mode = "{mode}" is not used as long as they stand in the file`},
	{code: NoSuchRatio, long: "no {metal} springs back to {ratio} of the pressed curvature; the block follows the ratio you gave, force and travel the catalogue's metal"},
	{code: PressedTooTight, long: "a pressed centreline radius of {radius} is not allowed; it must be more than {least}, half the tube's depth"},
	{code: StretchBreaks, long: "the outer face is stretched by {strain}, {used} of the {elongation} at which {metal} breaks: use a larger radius, a shallower tube or a softer temper"},
	{code: StretchNear, long: "the outer face is stretched by {strain}, {used} of the {elongation} at which {metal} breaks: make a trial bend and look for cracks"},
	{code: MostlySpringback, long: "only {ratio} of the pressed curvature stays: this radius is so large for the tube that the bend is nearly elastic, and small differences in the metal move it a lot"},

	{code: FromMinimum, long: "standard's minimum times {times} ({source})"},
	{code: FromJobFile, long: "job file"},
	{code: FromCertificate, long: "certificate"},
	{code: FromAllowance, long: "the allowance given in the job"},
	{code: FromTrials, long: "fitted to {trials}"},

	{code: WrinklesButFilled, long: "an empty tube would wrinkle: its inner wall buckles at {buckling} strain and the bend needs {strain}; the filler holds it"},
	{code: WrinklesEmpty, long: "this tube needs filling: empty, its inner wall buckles at {buckling} strain and the bend needs {strain}; name an alloy under [filler]"},
	{code: HoldsEmpty, long: "the empty inner wall would hold to {buckling} strain and the bend needs {strain}: it need not be filled to keep from wrinkling, though filling keeps the faces flat"},
	{code: WhyNotAnnealAged, long: "why not anneal instead: the temper's strength is lost, and solution treating and ageing the bent part again distorts it (common practice, no source)"},
	{code: WhyNotAnnealSteel, long: "why not anneal instead: what drawing or cold forming gave the tube in strength is lost, the bore scales, and a flame heats unevenly (common practice, no source)"},
	{code: WhyNotSand, long: "why not sand instead: the outside lengthens as it bends, the sand loosens and the wall sinks in (common practice, no source)"},
	{code: BathHarmless, long: "alloy {alloy} melts at {melts}; in its bath, {effect} ({source})"},
	{code: FillerEstimated, long: "stiffness and yield of alloy {alloy} are estimates: force may be off by a few per cent"},
	{code: FillerCaution, long: "{text}"},
	{code: NoPlugRoom, long: "two plugs of {plug} leave no room in a blank of {blank}; they must be shorter"},

	{code: NoRoomForOpenings, long: "the block has no room for openings: none may come within one depth of the working arc or of the middle, and webs must stay"},
	{code: DrillHoles, long: "{process} can't cut holes of {hole} in plate of {plate}: they are centre marks, to be drilled ({source})"},
	{code: KerfInFiles, long: "outlines are offset by half a kerf of {kerf}: switch the table's own compensation off"},
	{code: KerfAtTable, long: "outlines are true size: the table's software compensates for its kerf"},
	{code: PartTooLarge, long: "{part} of {size} does not fit a sheet of {sheet} with an edge of {edge}"},
	{code: PartCannot, long: "{text}"},
	{code: KerfTooWide, long: "a kerf of {kerf} is too wide for a concave corner of a part"},

	{code: BlockAtRollers, long: "the block's ends {near}: set the supports further apart"},
	{code: CheeksAtRollers, long: "the cheeks {near}: use rollers no wider than the tube, a smaller cheek_depth or wider supports"},
	{code: RunsIntoRollers, long: "run into the rollers"},
	{code: ComesNearRollers, long: "come within {distance} of the rollers"},

	{code: NoSetUp, long: "no press set-up makes this bend: {why}"},
	{code: PressTooWeak, long: "the press is too weak: {needed} are needed and it has {capacity}; set the supports further apart"},
	{code: PressNearCapacity, long: "the bend takes {share} of the press's capacity; wider supports need less"},
	{code: LegShort, long: "only {leg} of tube remain between block and roller at the end, less than two depths ({least}): the roller may dent it"},
	{code: OffTheBlock, long: "the tube has its angle before it lies on the block: its tightest radius under load stays {radius} instead of {wanted}; set the supports closer"},
	{code: OffTheDrawing, long: "the finished centreline is up to {gap} off the drawing's arc, best fitted: closer supports make a truer arc"},
	{code: StripStaysFlat, long: "the strip stays flat enough to be used again as it is"},
	{code: StripKeepsSet, long: "the strip keeps a radius of about {radius}: turn it over for the next bend"},
	{code: MetalNotReached, long: "metal of {proof} proof stress can't be brought to the angle on these supports: {why}"},

	{code: ExistingGives, long: "the block at hand of {block} leaves a centreline radius of {radius}; pushed {travel} on supports {supports} apart it makes the angle, at most {gap} off the drawing"},
	{code: ExistingCannot, long: "the block at hand can't make the angle: {why}"},

	{code: TrialsUsed, long: "worked out with the proof stress fitted to {trials}: {proof} +- {error}, where {catalogue} without"},
	{code: TrialsAtLimit, long: "no metal of this kind behaves as the trials say, not even one of {proof} where the catalogue has {catalogue}: {look}; or the strip slipped, the tube flattened, or the travel was read before first touch"},
	{code: TrialsTooSoft, long: "the trials make the metal {proof}, less than half the catalogue's {catalogue}: {look}; or the temper is softer than stated (annealed or T4), or the travel was read before first touch"},
	{code: TrialsTooHard, long: "the trials make the metal {proof}, more than twice the catalogue's {catalogue}: {look}; or the strip slipped, the tube flattened, or the temper is harder than stated"},
	{code: TrialOneOff, long: "a reading is {off} times its error off: {look}"},
	{code: TrialsDisagree, long: "the trials disagree with each other by {times} times their stated errors: {look}"},
	{code: LookAtTravel, long: "look again at trial {trial}, which says {reading} {measured} at a travel of {set}, where the fit gives {predicted}"},
	{code: LookAtLoaded, long: "look again at trial {trial}, which says {reading} {measured} from {set} under load, where the fit gives {predicted}"},
	{code: AngleFinder, long: "trial {trial} reads {read}, which is what is left of {turned} from a half turn: an angle finder shows that of a bend of {turned}, and bend.angle is the change of direction, given here as {angle}"},
	{code: TrialsLeftOut, long: "the trials are left out: {why}"},
	{code: TrialsOnProposed, long: "the trials are taken as pressed on supports {supports} apart, the spacing proposed without them: give press.supports as they stood"},
	{code: TrialNeedsSupports, long: "a travel says nothing without the supports it was pressed on; give press.supports, or loaded instead of travel"},
	{code: TrialNotReached, long: "{value} is not reached with this block on these supports; it must be at most {most}"},
	{code: TrialsNoLesson, long: "the trials say nothing about the metal: the tube hardly yielded in them, so the readings hardly depend on its proof stress"},

	{
		code:  StandAside,
		long:  "stand to the side, never in line with tube or strip; guard the work; raise in steps and let the pressure fall before you touch anything: tube and strip store energy until the block is clear",
		short: "stand aside, never in line with tube or strip; guard the work; raise in steps, pressure off before you touch",
	},
	{
		code:  TieTheBlock,
		long:  "tie block, side plates and strip so that they cannot kick out; dress every cut edge",
		short: "tie block, side plates, strip; dress cut edges",
	},
	{
		code:  EngineerFirst,
		long:  "a structural part needs a licensed engineer's word and local codes: cold bending uses up ductility, and welding softens an aged temper; no figure here replaces a trial bend that was measured and looked over for cracks",
		short: "a licensed engineer and local codes first; look for wrinkles and cracks",
	},

	{code: MetalNear, long: `{kind} "{name}" is not in the catalogue: the nearest is {near}`},
	{code: MetalUnknown, long: `{kind} "{name}" is not in the catalogue, nor anything near it: overbend stock materials lists what is`},
	{code: AlloyNear, long: `{kind} "{name}" is not in the catalogue: the nearest is {near} of {all}`},
	{code: AlloyUnknown, long: `{kind} "{name}" is not in the catalogue: it lists {all}`},
	{code: NoThickness, long: "a wall of {wall} is no thickness: it must be above 0"},
	{code: WallUnlisted, long: "{metal} is listed for walls up to {most}, not {wall}"},
	{code: SizeNotFinite, long: "the {what} {value} is not a finite number"},
	{code: SizeNotPositive, long: "the {what} must be above 0, not {value}"},
	{code: SizeOutOfRange, long: "the {what} must be from {least} to {most}, not {value}"},
	{code: RoundTwoSizes, long: "a round tube has one diameter, not a width of {value} and a depth of {most}"},
	{code: NoBore, long: "a wall of {value} leaves no bore: it must be under {most}, half the {side}"},
	{code: CornerNegative, long: "the corner radius must be 0 or more, not {value}"},
	{code: RoundCorner, long: "a round tube has no corner radius, not {value}"},
	{code: CornerNoRoom, long: "a corner radius of {value} does not fit: it must be at most {most}, half the {side}"},

	{code: HeatHarmless, long: "{bath} does {metal} no harm"},
	{code: HeatMayHarm, long: "{bath} may harm {metal}"},
	{code: HeatHarms, long: "{bath} harms {metal}"},
	{code: SteelKeeps, long: "{verdict}: steel keeps its strength up to {safe}"},
	{code: ZincKeeps, long: "{verdict}: alloys with zinc keep their strength up to {safe}"},
	{code: AgesItself, long: "{verdict}: T4 goes on ageing by itself, faster when warm, but takes minutes in hot water up to {safe}"},
	{code: AgedLoses, long: "{verdict}: {loss} of the yield stress is lost after {times}{tested}{stand-in}"},
	{code: HeatTested, long: " by a table on the safe side, but {time} cost {lost} in a test ({source})"},
	{code: HeatStandIn, long: ", going by 6061 and 6063"},
	{code: ReheatTime, long: "{time} at {bath}"},
	{code: ListNext, long: "{list}, {next}"},
	{code: ListLast, long: "{list} or {next}"},

	{code: SlipsFlat, long: "the tube slips through between rollers {at} apart before it lies on the block"},
	{code: SlipsWrapped, long: "the tube slips through between rollers {at} apart before it has the angle"},
	{code: TooNarrow, long: "supports {at} apart are too narrow for a block radius of {value}"},
	{code: NoLeg, long: "supports {at} apart are too narrow; no leg of {least} remains beside the block"},
	{code: NoSpacing, long: "no supports up to {most} apart will do; on close ones no leg is left beside the block, on wide ones the tube slips through before it has the angle"},
	{code: RollerTooWide, long: "no supports up to {most} apart are further apart than a roller of {value}"},
	{code: TooMuchForce, long: "no supports up to {spacing} apart will do: at {at} the force is still {value} and may be {most}"},
	{code: LegTooShort, long: "no supports up to {spacing} apart will do: at {at} the leg is only {value} and must be {least}"},
	{code: NoSupportsFor, long: "no supports up to {spacing} apart will do: {why}"},
	{code: NoAnswer, long: "the equations of the press have no answer ({detail})"},
}

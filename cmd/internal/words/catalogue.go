package words

import "overbend/geom/tooling"

// The sentences about a job, by the step of the work. Names in braces are
// figures. What is common practice without a source says so where it decides
// something.

// Design: the metal and the bend.
const (
	TrialsBeatMode      Code = "trials-beat-mode"
	NoSuchRatio         Code = "no-such-ratio"
	GaugeRead           Code = "gauge-read"
	StretchBreaks       Code = "stretch-breaks"
	StretchNear         Code = "stretch-near"
	BendLeft            Code = "bend-left"
	ExistingLeft        Code = "existing-left"
	MostlySpringback    Code = "mostly-springback"
	EngineerFirst       Code = "engineer-first"
	FromMinimum         Code = "from-minimum"
	FromJobFile         Code = "from-job-file"
	FromCertificate     Code = "from-certificate"
	FromAllowance       Code = "from-allowance"
	FromTrials          Code = "from-trials"
	FromShopSameLot     Code = "from-shop-same-lot"
	FromShopOtherLot    Code = "from-shop-other-lot"
	TrialsJoined        Code = "trials-joined"
	ShopGave            Code = "shop-gave"
	PressedTooTight     Code = "pressed-too-tight"
	NoPlugRoom          Code = "no-plug-room"
	WrinklesButFilled   Code = "wrinkles-but-filled"
	WrinklesEmpty       Code = "wrinkles-empty"
	HoldsEmpty          Code = "holds-empty"
	FillerPoor          Code = "filler-poor"
	FillerForSmaller    Code = "filler-for-smaller"
	FillerForLarger     Code = "filler-for-larger"
	FillerRollingBoil   Code = "filler-rolling-boil"
	NearWrinklesFilled  Code = "near-wrinkles-filled"
	FillOrTry           Code = "fill-or-try"
	InnerWall           Code = "inner-wall"
	SideWalls           Code = "side-walls"
	LeastBlock          Code = "least-block"
	WithInstead         Code = "with-instead"
	LargestAngle        Code = "largest-angle"
	NoAngleWorks        Code = "no-angle-works"
	BlockBends          Code = "block-bends"
	BlockGivesWay       Code = "block-gives-way"
	BlockSoft           Code = "block-soft"
	LeastRadius         Code = "least-radius"
	NoRadius            Code = "no-radius"
	LegSheared          Code = "leg-sheared"
	StrokeTooShort      Code = "stroke-too-short"
	LongTravel          Code = "long-travel"
	WideSupports        Code = "wide-supports"
	SupportsInstead     Code = "supports-instead"
	SupportsNeedLess    Code = "supports-need-less"
	NoSupportsNeedLess  Code = "no-supports-need-less"
	SupportsLeaveLeg    Code = "supports-leave-leg"
	NoSupportsLeaveLeg  Code = "no-supports-leave-leg"
	SupportsTakeLess    Code = "supports-take-less"
	NoSupportsTakeLess  Code = "no-supports-take-less"
	SupportsLayIt       Code = "supports-lay-it"
	NoSupportsLayIt     Code = "no-supports-lay-it"
	SupportsFitBetter   Code = "supports-fit-better"
	NoSupportsFitBetter Code = "no-supports-fit-better"
	ExistingFails       Code = "existing-fails"
	OnExisting          Code = "on-existing"
	NoRadiusStays       Code = "no-radius-stays"
	BathHarmless        Code = "bath-harmless"
	FillerEstimated     Code = "filler-estimated"
	FillerCaution       Code = "filler-caution"
	NoRoomForOpenings   Code = "no-room-for-openings"
	DrillHoles          Code = "drill-holes"
	DrillUnmarked       Code = "drill-unmarked"
	StripFromPlate      Code = "strip-from-plate"
	KerfInFiles         Code = "kerf-in-files"
	KerfAtTable         Code = "kerf-at-table"
	PartTooLarge        Code = "part-too-large-for-sheet"
	FixtureNoStop       Code = "fixture-no-stop"
	KerfTooWide         Code = "kerf-too-wide-for-corner"
	NoSetUp             Code = "no-set-up"
	PressTooWeak        Code = "press-too-weak"
	PressNearCapacity   Code = "press-near-capacity"
	LegShort            Code = "leg-short"
	OffTheBlock         Code = "off-the-block"
	OffTheDrawing       Code = "off-the-drawing"
	StripStaysFlat      Code = "strip-stays-flat"
	StripKeepsSet       Code = "strip-keeps-set"
	MetalNotReached     Code = "metal-not-reached"
	StandAside          Code = "stand-aside"
	TieTheBlock         Code = "tie-the-block"
	ExistingGives       Code = "existing-gives"
	ExistingCannot      Code = "existing-cannot"
	AlloyPlugs          Code = "alloy-plugs"
	AlloyEnough         Code = "alloy-enough"
	AlloyWithPlugs      Code = "alloy-with-plugs"
	AlloyShortOfPlugs   Code = "alloy-short-of-plugs"
	AlloyShort          Code = "alloy-short"
	RackBest            Code = "rack-best"
	RackNone            Code = "rack-none"
	RackEmpty           Code = "rack-empty"
	NotOnRack           Code = "not-on-rack"
	RackArcShort        Code = "rack-arc-short"
	RackNarrow          Code = "rack-narrow"
	RackGroove          Code = "rack-groove"
	TrialsUsed          Code = "trials-used"
	TrialsTooSoft       Code = "trials-too-soft"
	TrialsTooHard       Code = "trials-too-hard"
	TrialsDisagree      Code = "trials-disagree"
	TrialsAtLimit       Code = "trials-at-limit"
	TrialOneOff         Code = "trial-one-off"
	LookAtTravel        Code = "look-at-travel"
	LookAtLoaded        Code = "look-at-loaded"
	AngleFinder         Code = "angle-finder"
	TrialsLeftOut       Code = "trials-left-out"
	TrialsOnProposed    Code = "trials-on-proposed"
	TrialNeedsSupports  Code = "trial-needs-supports"
	TrialNotReached     Code = "trial-not-reached"
	TrialsNoLesson      Code = "trials-no-lesson"
	PartTooLargeBare    Code = "part-too-large-for-bare-sheet"
	OpeningsUncut       Code = "openings-uncut"
	LettersLacking      Code = "letters-lacking"
	AllowedLeast        Code = "allowed-least"
	AllowedMost         Code = "allowed-most"
	AllowedBetween      Code = "allowed-between"
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
	GaugeUnlisted   Code = "gauge-unlisted"
)

// How far an input may be off, and what comes of it.
const (
	IntervalListed      Code = "interval-listed"
	IntervalMinimum     Code = "interval-minimum"
	IntervalCertificate Code = "interval-certificate"
	IntervalTrials      Code = "interval-trials"
	IntervalShop        Code = "interval-shop"
	IntervalStated      Code = "interval-stated"
	IntervalTravel      Code = "interval-travel"
	EndOverCapacity     Code = "end-over-capacity"
	EndOverStroke       Code = "end-over-stroke"
	EndBreaks           Code = "end-breaks"
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
	{code: GaugeRead, long: "{number} ga is taken as {thickness}, the gauge of {list} ({source})"},
	{code: PressedTooTight, long: "a pressed centreline radius of {radius} is not allowed; it must be more than {least}, half the tube's depth"},
	{code: StretchBreaks, long: "the outer face is stretched by {strain}, {used} of the {elongation} at which {metal} breaks: {instead}, or use a shallower tube or a softer temper"},
	{code: StretchNear, long: "the outer face is stretched by {strain}, {used} of the {elongation} at which {metal} breaks: make a trial bend and look for cracks"},
	{
		code:  BendLeft,
		long:  "the bent section keeps {stiffness} of its stiffness in the plane of the bend, {modulus} of its section modulus and {area} of its area; that says nothing of residual stress, spent ductility, welds or fatigue, on which an engineer must have the word",
		short: "keeps {stiffness} of its stiffness in the plane of the bend; residual stress, spent ductility, welds and fatigue are for an engineer",
	},
	{code: ExistingLeft, long: "on the block at hand the bent section keeps {stiffness} of its stiffness in the plane of the bend, {modulus} of its section modulus and {area} of its area"},
	{code: MostlySpringback, long: "only {ratio} of the pressed curvature stays: this radius is so large for the tube that the bend is nearly elastic, and small differences in the metal move it a lot"},

	{code: FromMinimum, long: "standard's minimum times {times} ({source})"},
	{code: FromJobFile, long: "job file"},
	{code: FromCertificate, long: "certificate"},
	{code: FromAllowance, long: "the allowance given in the job"},
	{code: FromTrials, long: "fitted to {trials}"},
	{code: FromShopSameLot, long: "{name} of the shop file, for the same lot"},
	{code: FromShopOtherLot, long: "{name} of the shop file, for another lot"},

	{code: IntervalListed, long: "{source}"},
	{code: IntervalMinimum, long: "from the standard's minimum to two standard deviations over the typical one ({source})"},
	{code: IntervalCertificate, long: "how far a test of the piece lies from its mill certificate (F. M. Bartlett and others 2003)"},
	{code: IntervalTrials, long: "two standard deviations of the fit to the trials"},
	{code: IntervalShop, long: "two standard deviations of what the shop file keeps of {name}, with the scatter in or between lots"},
	{code: IntervalStated, long: "about the value that the job file states; common practice, no source"},
	{code: IntervalTravel, long: "how well a travel is read off a rule; common practice, no source"},
	{code: EndOverCapacity, long: "needs {force}, more than the press's {capacity}"},
	{code: EndOverStroke, long: "needs a travel of {travel}, more than the stroke of {stroke}"},
	{code: EndBreaks, long: "stretches the outer face by {strain}, more than the {elongation} at which the metal breaks"},

	{code: TrialsJoined, long: "joined with the other trials of {name} in the shop file: {proof} +- {error}, the mean of the lot"},
	{
		code:  LettersLacking,
		long:  `{letters} of {where} can't be lettered: "{sign}" is drawn for each; Latin, Greek and Cyrillic letters can be`,
		short: `{codes} of {where} can't be lettered: "{sign}" is drawn for each`,
	},
	{code: ShopGave, long: "from the shop file {file}: {keys}"},

	{code: WrinklesButFilled, long: "an empty tube would wrinkle: {wall} at {buckling} strain and the bend needs {strain}; the filler holds it"},
	{code: WrinklesEmpty, long: "this tube needs filling: empty, {wall} at {buckling} strain and the bend needs {strain}; name an alloy under [filler]"},
	{code: NearWrinklesFilled, long: "an empty tube would be near wrinkling: {wall} at {buckling} strain and the bend needs {strain}; the filler holds it"},
	{code: FillOrTry, long: "fill it, or try one empty: {wall} at {buckling} strain and the bend needs {strain}, a margin of less than {margin} (common practice, no source)"},
	{code: HoldsEmpty, long: "an empty tube would hold: {wall} at {buckling} strain and the bend needs {strain}; it need not be filled to keep from wrinkling, though filling keeps the faces flat"},
	{code: InnerWall, long: "its inner wall buckles"},
	{code: SideWalls, long: "its side walls buckle"},
	{code: LeastRadius, long: "the least centreline radius that does not is {radius}"},
	{code: LeastBlock, long: "the least block radius that does not is {radius}"},
	{code: NoRadius, long: "no radius keeps it from breaking"},
	{code: BathHarmless, long: "alloy {alloy} melts at {melts}; in its bath, {effect} ({source})"},
	{code: FillerEstimated, long: "stiffness and yield of alloy {alloy} are estimates: force may be off by a few per cent"},
	{code: FillerPoor, long: "alloy {alloy} is a poor filler, it is made for something else: see overbend stock fillers"},
	{code: FillerForSmaller, long: "alloy {alloy} is for tube to {to}, and this is {depth} deep: see overbend stock fillers"},
	{code: FillerForLarger, long: "alloy {alloy} is for tube over {over}, and this is {depth} deep: see overbend stock fillers"},
	{code: FillerRollingBoil, long: "alloy {alloy} melts at {melts}, so near the boil that only water at a rolling boil ({bath}) melts it out, and at altitude not even that"},
	{code: FillerCaution, long: "{text}"},
	{code: AlloyPlugs, long: "the alloy need reach only one depth past the rollers (common practice, no source): with plugs of {left} at the left end and {right} at the right {least} will do, {saved} less"},
	{code: AlloyEnough, long: "{have} of alloy {alloy} at hand is enough"},
	{code: AlloyWithPlugs, long: "{have} of alloy {alloy} at hand is less than {need}, but enough with plugs of {left} and {right}, which take {least}"},
	{code: AlloyShortOfPlugs, long: "{have} of alloy {alloy} at hand is not enough: {need}, or {least} with plugs of {left} and {right}"},
	{code: AlloyShort, long: "{have} of alloy {alloy} at hand is not enough: {need}"},
	{code: NoPlugRoom, long: "plugs of {plug} together leave no room in a blank of {blank}; they must be shorter"},

	{code: NoRoomForOpenings, long: "the block has no room for openings: none may come within one depth of the working arc or of the middle, and webs must stay"},
	{code: DrillHoles, long: "{process} can't cut holes of {hole} in plate of {plate}: they are centre marks, to be drilled ({source})"},
	{code: DrillUnmarked, long: "only what is cut is in the cut files: mark the centres of {holes} of {hole} to be drilled from the prints"},
	{code: StripFromPlate, long: "no flat {width} wide is kept (stock strips): cut the strip from sheet or plate {thickness} thick"},
	{code: KerfInFiles, long: "outlines are offset by half a kerf of {kerf}: switch the table's own compensation off"},
	{code: KerfAtTable, long: "outlines are true size: the table's software compensates for its kerf"},
	{code: OpeningsUncut, long: "{process} can't cut openings in plate of {plate}: the block stays solid"},
	{code: PartTooLarge, long: "{part} of {size} does not fit a sheet of {sheet} with an edge of {edge}"},
	{code: PartTooLargeBare, long: "{part} of {size} does not fit a sheet of {sheet}"},
	{code: Code(tooling.NoRoomForPins), long: "no trim fixture: {what} {value} leaves no room for its pins of {hole} clear of the saw; cut the ends at the scribed marks"},
	{code: Code(tooling.PlateTooLarge), long: "no trim fixture: with a {what} {value} its plate would be larger than a stock sheet, which has {most}; cut the ends at the scribed marks"},
	{code: FixtureNoStop, long: "the trim fixture has no end stop: nothing is spared past the cuts, and a stop would stand in the saw's way; set the part by its marks along the leg"},
	{code: KerfTooWide, long: "a kerf of {kerf} is too wide for a concave corner of a part"},

	{code: Code(tooling.NotPositive), long: "{what} {value} is not allowed, it must be more than 0"},
	{code: Code(tooling.Negative), long: "{what} {value} is not allowed, it must be 0 or more"},
	{code: Code(tooling.TooLarge), long: "{what} {value} is too large{allowed}"},
	{code: Code(tooling.NoAngle), long: "{what} {value} is not allowed, it must be more than 0{allowed}"},
	{code: Code(tooling.RadiusTooSmall), long: "{what} {value} is too small to be cut from plate{allowed}"},
	{code: Code(tooling.NotStraight), long: "{what} {value} can't be covered by a block that is pushed straight{allowed}"},
	{code: Code(tooling.ArcTooShort), long: "{what} {value} makes an arc of only {arc}{allowed}"},
	{code: Code(tooling.OffTheArc), long: "{what} {value} lies off the working arc{allowed}"},
	{code: Code(tooling.BlendOffArc), long: "{what} {value} does not fit the working arc{allowed}"},
	{code: Code(tooling.HoleTooSmall), long: "{what} {value} is too small for a stack bolt{allowed}"},
	{code: Code(tooling.HoleTooLarge), long: "{what} {value} is too large for a stack bolt{allowed}"},
	{code: Code(tooling.HoleWide), long: "{what} {value} is too large for a block of radius {radius}, {width} wide{allowed}"},
	{code: Code(tooling.NoRoomForBolts), long: "{what} {value} is too small for a stack with two holes of {hole}{allowed}"},
	{code: Code(tooling.HeightTooLow), long: "{what} {value} is too low for a wrap of {wrap} with two holes of {hole}{allowed}"},
	{code: Code(tooling.PlateThick), long: "{what} {value} is thicker than the gap of {gap} between the cheeks{allowed}"},
	{code: Code(tooling.PlateThin), long: "{what} {value} would take {plates} plates{allowed}"},
	{code: Code(tooling.WallsUnborne), long: "{what} {value} leaves a wall of the tube without plate under it: one such plate stands in the gap of {gap} between the cheeks{allowed}"},
	{code: Code(tooling.SaddleFlat), long: "{what} {value} makes no saddle for a round tube: {plates} of them between cheeks {gap} apart leave it on a flat{allowed}"},
	{code: Code(tooling.CheekOffTube), long: "{what} {value} does not fit a tube {depth} deep{allowed}"},
	{code: Code(tooling.NoHollow), long: "{what} {value} leaves no hollow inside the bend{allowed}"},
	{code: Code(tooling.AngleUnseen), long: "{what} {value} is too small to be seen on a template{allowed}"},
	{code: Code(tooling.LegUnseen), long: "{what} {value} is too short for a template of so small a bend{allowed}"},
	{code: Code(tooling.CutTooSteep), long: "{what} {value} is too far from square{allowed}"},
	{code: Code(tooling.CutIntoBend), long: "{what} {value} is too short for an end cut of {cut}, which would reach into the bend{allowed}"},
	{code: Code(tooling.KerfNoWidth), long: "{what} {value} is not the width of a cut, it must be 0 or more"},
	{code: Code(tooling.KerfAboveHole), long: "{part}: {what} {value} is not less than a hole of {hole} is wide"},
	{code: AllowedLeast, long: ": allowed is {least} or more"},
	{code: AllowedMost, long: ": allowed is {most} or less"},
	{code: AllowedBetween, long: ": allowed is {least} to {most}"},

	{code: NoSetUp, long: "no press set-up makes this bend: {why}; {instead}"},
	{code: WithInstead, long: "{what}; {instead}"},
	{code: LargestAngle, long: "the largest angle that works here is {angle}"},
	{code: NoAngleWorks, long: "no angle works here"},
	{code: BlockBends, long: "a block {height} high gives way under the ram: its crown's curvature changes by {change} and its plates, taken as S235, are stressed to {stress}; make it {least} high"},
	{code: BlockGivesWay, long: "{why}"},
	{code: BlockSoft, long: "a block of radius {value} gives way under the ram at any height up to {most}: use more or thicker plates"},
	{code: PressTooWeak, long: "the press is too weak: with friction at the rollers, metal of {proof} yield strength needs {needed}, {share} of its capacity of {capacity}; {instead}"},
	{code: PressNearCapacity, long: "with friction at the rollers, metal of {proof} yield strength takes {share} of the press's capacity of {capacity}; {instead}"},
	{code: LegShort, long: "only {leg} of tube remain between block and roller at the end, less than two depths ({least}): the roller may dent it; {instead}"},
	{code: OffTheBlock, long: "the tube has its angle before it lies on the block: its tightest radius under pressure stays {radius} instead of {wanted}; {instead}"},
	{code: OffTheDrawing, long: "the finished centreline is up to {gap} off the drawing's arc, best fitted; {instead}"},
	{code: LegSheared, long: "only {leg} of tube remain between block and roller at the end, and {least} are needed for the tube to be bent there and not sheared (EN 1993-1-1 6.2.6); {instead}"},
	{code: StrokeTooShort, long: "the angle takes a travel of up to {travel} over the metal's range and the ram's stroke is {stroke}; {instead}"},
	{code: LongTravel, long: "the angle takes a travel of up to {travel}, more than {usual}: see that the ram reaches so far, and give it as press.stroke"},
	{code: WideSupports, long: "the supports stand {supports} apart, more than {usual}: see that they fit the press, and give the widest that does as press.bed"},
	{code: SupportsInstead, long: "{why}; {supports} apart would do"},
	{code: SupportsNeedLess, long: "on supports {supports} apart it would do"},
	{code: NoSupportsNeedLess, long: "no wider supports need little enough, take a larger press, a larger radius or a softer temper"},
	{code: SupportsLeaveLeg, long: "supports {supports} apart would leave enough"},
	{code: NoSupportsLeaveLeg, long: "no wider supports would do"},
	{code: SupportsTakeLess, long: "supports {supports} apart would take less"},
	{code: NoSupportsTakeLess, long: "no closer supports would do"},
	{code: SupportsLayIt, long: "supports {supports} apart would lay it on the block"},
	{code: NoSupportsLayIt, long: "no closer supports would lay it on the block"},
	{code: SupportsFitBetter, long: "supports {supports} apart would make a truer arc"},
	{code: NoSupportsFitBetter, long: "no closer supports would do better"},
	{code: StripStaysFlat, long: "the strip stays flat enough to be used again as it is"},
	{code: StripKeepsSet, long: "the strip keeps a radius of about {radius}: turn it over for the next bend"},
	{code: MetalNotReached, long: "metal of {proof} yield strength can't be brought to the angle on these supports: {why}"},

	{code: ExistingGives, long: "the block at hand of {block} leaves a centreline radius of {radius}; pushed {travel} on supports {supports} apart with up to {force} it makes the angle, at most {gap} off the drawing"},
	{code: ExistingFails, long: "the block at hand of {block} will not do, see the warnings; it would leave a centreline radius of {radius}, and take a travel of {travel} on supports {supports} apart with up to {force}, at most {gap} off the drawing"},
	{code: OnExisting, long: "on the block at hand: {what}"},
	{code: NoRadiusStays, long: "none at all (it springs back all the way)"},
	{code: ExistingCannot, long: "the block at hand can't make the angle: {why}"},

	{code: RackBest, long: `of the blocks on the rack "{name}" ({block}) does best: a travel of {travel} with up to {force} makes the angle, at most {gap} off the drawing; [block] use = "{name}" makes the kit around it`},
	{code: RackNone, long: "no block on the rack makes this bend"},
	{code: RackEmpty, long: `"{name}" is on no rack: the shop file lists no [[block]]`},
	{code: NotOnRack, long: `"{name}" is not on the rack: it must be one of {all}`},
	{code: RackArcShort, long: "its arc of {arc} is less than the {wrap} over which the tube lies on it"},
	{code: RackNarrow, long: "{width} wide it does not bear both walls of the tube, which are {least} apart"},
	{code: RackGroove, long: "it must have the groove of a round tube of {diameter}, of which the shop file says nothing"},

	{code: TrialsUsed, long: "worked out with the yield strength (proof stress) fitted to {trials}: {proof} +- {error}, where {catalogue} without"},
	{code: TrialsAtLimit, long: "no metal of this kind behaves as the trials say, not even one of {proof} where the catalogue has {catalogue}: {look}; or the strip slipped, the tube flattened, or the travel was read before first touch"},
	{code: TrialsTooSoft, long: "the trials make the metal {proof}, less than half the catalogue's {catalogue}: {look}; or the temper is softer than stated (annealed or T4), or the travel was read before first touch"},
	{code: TrialsTooHard, long: "the trials make the metal {proof}, more than twice the catalogue's {catalogue}: {look}; or the strip slipped, the tube flattened, or the temper is harder than stated"},
	{code: TrialOneOff, long: "a reading is {off} times its error off: {look}"},
	{code: TrialsDisagree, long: "the trials disagree with each other by {times} times their stated errors: {look}"},
	{code: LookAtTravel, long: "look again at trial {trial}, which says {reading} {measured} at a travel of {set}, where the fit gives {predicted}"},
	{code: LookAtLoaded, long: "look again at trial {trial}, which says {reading} {measured} from {set} under pressure, where the fit gives {predicted}"},
	{code: AngleFinder, long: "trial {trial} reads {read}, which is what is left of {turned} from a half turn: an angle finder shows that of a bend of {turned}, and bend.angle is the change of direction, given here as {angle}"},
	{code: TrialsLeftOut, long: "the trials are left out: {why}"},
	{code: TrialsOnProposed, long: "the trials are taken as pressed on supports {supports} apart, the spacing proposed without them: give press.supports as they stood"},
	{code: TrialNeedsSupports, long: "a travel says nothing without the supports it was pressed on; give press.supports, or loaded instead of travel"},
	{code: TrialNotReached, long: "{value} is not reached with this block on these supports; it must be at most {most}"},
	{code: TrialsNoLesson, long: "the trials say nothing about the metal: the tube hardly yielded in them, or by the readings it hardly sprang back, so that they hardly depend on its yield strength"},

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

	{code: GaugeUnlisted, long: "{number} ga of {list} is not listed: the list goes from {least} to {most}"},

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

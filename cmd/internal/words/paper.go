package words

// What the job sheet says beside its pictures and tables, in the order of the
// work. Procedure with the filler is a supplier's printed sheet for 158; the rest
// is common practice without a source.
const (
	PaperTube        Code = "paper-tube"
	PaperRadius      Code = "paper-radius"
	PaperAngle       Code = "paper-angle"
	PaperLegs        Code = "paper-legs"
	PaperEndSquare   Code = "paper-end-square"
	PaperEndLong     Code = "paper-end-long"
	PaperEndShort    Code = "paper-end-short"
	PaperFaces       Code = "paper-faces"
	PaperTolerance   Code = "paper-tolerance"
	PaperFilesMM     Code = "paper-files-mm"
	PaperFilesIn     Code = "paper-files-in"
	PaperNest        Code = "paper-nest"
	PaperDrill       Code = "paper-drill"
	PaperOrder       Code = "paper-order"
	PaperPack        Code = "paper-pack"
	PaperNoPack      Code = "paper-no-pack"
	PaperBolts       Code = "paper-bolts"
	PaperGap         Code = "paper-gap"
	PaperMark        Code = "paper-mark"
	PaperMarkFaces   Code = "paper-mark-faces"
	PaperClean       Code = "paper-clean"
	PaperCleanBoil   Code = "paper-clean-boil"
	PaperMelt        Code = "paper-melt"
	PaperPour        Code = "paper-pour"
	PaperChill       Code = "paper-chill"
	PaperAlloy       Code = "paper-alloy"
	PaperToxic       Code = "paper-toxic"
	PaperWaste       Code = "paper-waste"
	PaperSetUp       Code = "paper-set-up"
	PaperTravel      Code = "paper-travel"
	PaperFinder      Code = "paper-finder"
	PaperGoOn        Code = "paper-go-on"
	PaperMore        Code = "paper-more"
	PaperRange       Code = "paper-range"
	PaperSprings     Code = "paper-springs"
	PaperPeak        Code = "paper-peak"
	PaperPeakGauge   Code = "paper-peak-gauge"
	PaperCapacity    Code = "paper-capacity"
	PaperYield       Code = "paper-yield"
	PaperMeltOut     Code = "paper-melt-out"
	PaperBack        Code = "paper-back"
	PaperCheckAngle  Code = "paper-check-angle"
	PaperCheckRadius Code = "paper-check-radius"
	PaperCheckLeast  Code = "paper-check-least"
	PaperCheckFaces  Code = "paper-check-faces"
	PaperCheckLook   Code = "paper-check-look"
	PaperTrim        Code = "paper-trim"
	PaperTrials      Code = "paper-trials"
	PaperNoPart      Code = "paper-no-part"
	PaperAtHand      Code = "paper-at-hand"
	PaperReady       Code = "paper-ready"
	PaperSeeAtHand   Code = "paper-see-at-hand"
)

var paper = [...]entry{
	{code: PaperTube, long: "tube {size}, {metal}"},
	{code: PaperRadius, long: "radius {drawn} to the {face}: inside {inside}, centreline {centre}, outside {outside}"},
	{code: PaperAngle, long: "bent by {angle}; an angle finder laid on it shows {finder}"},
	{code: PaperLegs, long: "straights {left} and {right}"},
	{code: PaperEndSquare, long: "{side} end cut square"},
	{code: PaperEndLong, long: "{side} end cut {cut} off square, the outside of the bend longer"},
	{code: PaperEndShort, long: "{side} end cut {cut} off square, the outside of the bend shorter"},
	{code: PaperFaces, long: "end to end {outside} along the outside, {inside} along the inside"},
	{code: PaperTolerance, long: "the drawing allows {angle}{radius}"},

	{code: PaperFilesMM, long: "DXF files in millimetres"},
	{code: PaperFilesIn, long: "DXF files in inches"},
	{code: PaperNest, long: "{sheets} of {size}, {used} used, {mass}"},
	{code: PaperDrill, long: "drill {holes} {hole} at the centre marks: the {process} can't cut them"},
	{code: PaperOrder, long: "from side to side: {order}"},
	{code: PaperPack, long: "packing {thick} thick where the list says, lower than the plates"},
	{code: PaperNoPack, long: "no packing"},
	{code: PaperBolts, long: "{bolts} {thread} × {length} in holes of {hole}, nuts and washers"},
	{code: PaperGap, long: "{gap} between the side plates: the tube must slide in and, bent, come out"},

	{code: PaperMark, long: "from the left end, the outside of the bend up"},
	{code: PaperMarkFaces, long: "an angled cut has two figures: above for the outside face, below for the inside face"},

	{code: PaperClean, long: "plugs are {plugs} long; plug one end; coat the clean bore with plain mineral oil, drain it, and leave no water in it"},
	{code: PaperCleanBoil, long: "plugs are {plugs} long; plug one end; coat the clean bore with plain mineral oil and drain it; dry tube and ladle over {dry}: water under the melt throws metal"},
	{code: PaperMelt, long: "melt {mass} of alloy {alloy} at {melts}, by {bath}, never over {ceiling}, never with a flame"},
	{code: PaperPour, long: "hold the warm tube at 30 degrees, open end up; pour slowly without splashing; plug the other end"},
	{code: PaperChill, long: "chill at once in running water from the plugged end, 15 to 30 min; then wait until the tube is at room temperature, for hot alloy is soft"},
	{code: PaperAlloy, long: "face shield, gloves and sleeves, a tray below"},
	{code: PaperToxic, long: "alloy {alloy} holds {metals}: face shield, gloves, sleeves, a tray below; no food, no dust, no fume; wash hands; not for parts that carry food or water or are handled daily"},
	{code: PaperWaste, long: "water and scrap are hazardous waste"},

	{code: PaperSetUp, long: "middle marks of tube and block in line under the ram; strip under the tube"},
	{code: PaperTravel, long: "read travel here, from 0 at first touch"},
	{code: PaperFinder, long: "angle finder on both straight ends"},
	{code: PaperGoOn, long: "at each stop: read the angle, let go until the tube is free, read again, write it down, go on. Angles are how far it is bent: an angle finder shows 180 degrees less that"},
	{code: PaperMore, long: "at the end {step} more travel is {more} more"},
	{code: PaperRange, long: "soft metal is done at {low}, hard metal needs {high}: stop when the angle let go is {aim}, not at a travel"},
	{code: PaperSprings, long: "springs back {share}, so press to {press} for {aim}"},
	{code: PaperPeak, long: "largest force {force}, with friction at the rollers {rubbed}{of}{gauge}"},
	{code: PaperPeakGauge, long: ", gauge {gauge}"},
	{code: PaperCapacity, long: " of the press's {capacity}"},
	{code: PaperYield, long: "worked out for yield strength (proof stress) {proof}"},

	{code: PaperMeltOut, long: "open both ends first; {bath}, {hot}, from one end, no flame; pull a wad through"},
	{code: PaperBack, long: "{mass} must come back: what is missing is in the tube"},
	{code: PaperCheckAngle, long: "angle {angle} (finder {finder}); a protractor tells {error}"},
	{code: PaperCheckRadius, long: "gap under a straightedge of {edge} held in the hollow: {gap}; ±{error} of gap is a centreline radius of {least} to {most}"},
	{code: PaperCheckLeast, long: "gap under a straightedge of {edge} held in the hollow: {gap}; too small to tell the radius"},
	{code: PaperCheckFaces, long: "face in the hollow {inner} wide, outside face {outer}"},
	{code: PaperCheckLook, long: "no wrinkle in the hollow, no crack outside"},
	{code: PaperTrim, long: "at the cut marks: {ends}"},
	{code: PaperTrials, long: "write it down here, then into the job file as a [[trial]]"},
	{code: PaperAtHand, long: "instead of the new block: cut, mark and fill as on the front; melt out, check and trim as on the back. Of this block only the radius is known: its body is drawn as a new one's would be. Tie side plates to it as to the new one"},
	{code: PaperReady, long: "the block is {name} of the rack, radius {radius}: no block and no side plate is cut. Tie side plates to it"},
	{code: PaperSeeAtHand, long: "the block at hand of {block} does too: its set-up and stops have a page of their own"},
	{code: PaperNoPart, long: "a part can't be made as asked: see STOP"},
}

package words

// What is said of a drawing that was read.
const (
	DrawingNoUnit     Code = "drawing-no-unit"
	DrawingNoLayer    Code = "drawing-no-layer"
	DrawingEmpty      Code = "drawing-empty"
	DrawingManyArcs   Code = "drawing-many-arcs"
	DrawingNoBend     Code = "drawing-no-bend"
	DrawingCoarse     Code = "drawing-coarse"
	DrawingTight      Code = "drawing-tight"
	DrawingSkipped    Code = "drawing-skipped"
	DrawingLonePassed Code = "drawing-lone-passed"
	DrawingArcsPassed Code = "drawing-arcs-passed"
	DrawingOneOf      Code = "drawing-one-of"
	DrawingGap        Code = "drawing-gap"
	DrawingKink       Code = "drawing-kink"
	DrawingCorner     Code = "drawing-corner"
	DrawingChordsArc  Code = "drawing-chords-arc"
	DrawingChordsLine Code = "drawing-chords-line"
	DrawingWhere      Code = "drawing-where"
	DrawingSeveral    Code = "drawing-several"
	DrawingNoSuch     Code = "drawing-no-such"
	DrawingDiffers    Code = "drawing-differs"
)

// Where a number of a job file that was read from a drawing comes from.
const (
	FromArc        Code = "from-arc"
	FromEdges      Code = "from-edges"
	FromEdgesApart Code = "from-edges-apart"
	FromWallLines  Code = "from-wall-lines"
	FromSweep      Code = "from-sweep"
	FromLegsTurn   Code = "from-legs-turn"
	FromLegEnd     Code = "from-leg-end"
	FromLegToBend  Code = "from-leg-to-bend"
	FromLegShort   Code = "from-leg-short"
	FromNoLeg      Code = "from-no-leg"
	FromEndLine    Code = "from-end-line"
	FromEdgeEnds   Code = "from-edge-ends"
	FromNoEnd      Code = "from-no-end"
	FromRagged     Code = "from-ragged"
	FromFlag       Code = "from-flag"
	FromSquare     Code = "from-square"
)

// drawn holds every sentence about a drawing once.
var drawn = [...]entry{
	{code: DrawingNoUnit, long: "the drawing does not say its unit ($INSUNITS is {code}); state it with --dxf-units, one of {units}"},
	{code: DrawingNoLayer, long: `layer "{name}" has no lines; there are {all}`},
	{code: DrawingEmpty, long: "the drawing has no lines, arcs or polylines in model space"},
	{code: DrawingManyArcs, long: "{n} arcs are too many to tell which is the tube, at most {most} are; name the tube's layer with --layer"},
	{code: DrawingNoBend, long: "there is no bend: a bend is an arc of up to half a turn in a line with ends; the drawing has {straight}, {closed} and {wide} of more than half a turn"},
	{code: DrawingCoarse, long: "{chords} straight lines around {place} turn like an arc, but leave every arc by more than {off}: draw an arc there"},
	{code: DrawingTight, long: "{n} of parallel arcs bent tighter than a tube as deep as they are apart can be were left out"},
	{code: DrawingSkipped, long: "{what} left out"},
	{code: DrawingLonePassed, long: "{n} with an arc left out beside the tubes with two edges; if one is a centreline, name its layer with --layer"},
	{code: DrawingArcsPassed, long: "{n} without a straight on either side left out; if one is the tube, name its layer with --layer"},
	{code: DrawingOneOf, long: "bend {nth} of the {of} of its line: a job is one bend, the others need jobs of their own"},
	{code: DrawingGap, long: "gaps of up to {gap} were closed; up to {allowed} are"},
	{code: DrawingKink, long: "kinks of up to {kink} where the arc should run straight on were smoothed; up to {allowed} are"},
	{code: DrawingCorner, long: "a line meets the arc at {place} with a kink of {kink}, so it is no leg; up to {allowed} are smoothed"},
	{code: DrawingChordsArc, long: "{chords} short lines of the {kind} at line {line} of the drawing's file follow an arc of {radius} within {off} and were taken for it"},
	{code: DrawingChordsLine, long: "{chords} short lines of the {kind} at line {line} of the drawing's file follow a straight line within {off} and were taken for it"},
	{code: DrawingWhere, long: "{kind} at line {line}, layer {layer}"},
	{code: DrawingSeveral, long: "{n} bends found; name the one that is meant with --bend N, or its layer with --layer"},
	{code: DrawingNoSuch, long: "--bend {nth}: there is no such bend; the drawing has {n}"},
	{code: DrawingDiffers, long: "{flag} says {given}, the drawing {drawn}; leave {flag} out, or correct the drawing"},

	{code: FromArc, long: "{where}"},
	{code: FromEdges, long: "midway between the edges, {inside} ({where}) and {outside} ({other})"},
	{code: FromEdgesApart, long: "from edge to edge: {where}; {other}"},
	{code: FromWallLines, long: "from the edges to the lines between them: {where}; {other}"},
	{code: FromSweep, long: "the arc's"},
	{code: FromLegsTurn, long: "between the legs"},
	{code: FromLegEnd, long: "tangent point to end"},
	{code: FromLegToBend, long: "tangent point to the next bend"},
	{code: FromLegShort, long: "tangent point to the shorter edge's end"},
	{code: FromNoLeg, long: "none is drawn"},
	{code: FromEndLine, long: "end line at line {line}"},
	{code: FromEdgeEnds, long: "the edges' ends; no line closes them"},
	{code: FromNoEnd, long: "not drawn, taken as square"},
	{code: FromRagged, long: "the edges end too far apart for a cut, taken as square"},
	{code: FromFlag, long: "given with {flag}"},
	{code: FromSquare, long: "taken as a square tube"},
}

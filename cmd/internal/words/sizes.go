package words

import (
	"overbend/cmd/internal/quantity"
	"overbend/geom/tooling"
)

// Limit is a figure that is shown rounded such that what is printed is allowed.
type Limit struct {
	quantity.Value
	Upper bool // a largest value, else a smallest
}

// badSize says why a part can't be made as asked.
func badSize(e *tooling.SizeError) Reason {
	length := quantity.Length.Of
	size := length
	if e.Angular {
		size = quantity.Angle.Of
	}
	f := Figures{
		"part": e.Part, "what": string(e.Dimension), "value": size(e.Value),
		"least": Limit{size(e.Least), false}, "most": Limit{size(e.Most), true},
		"arc": length(e.Facts.Arc), "gap": length(e.Facts.Gap), "hole": length(e.Facts.Hole), "depth": length(e.Facts.Depth),
		"radius": length(e.Facts.Radius), "width": length(e.Facts.Width), "plates": e.Facts.Plates,
		"wrap": quantity.Degrees(e.Facts.Wrap), "cut": quantity.Degrees(e.Facts.Cut), "allowed": "",
	}
	switch {
	case e.Least > 0 && e.Most > 0:
		f["allowed"] = Reason{AllowedBetween, f}
	case e.Least > 0:
		f["allowed"] = Reason{AllowedLeast, f}
	case e.Most > 0:
		f["allowed"] = Reason{AllowedMost, f}
	}
	return Reason{Code(e.Why), f}
}

// offSheet says that a part is larger than the sheet.
func offSheet(e *tooling.SheetError) Reason {
	f := Figures{"part": e.Part, "size": Size{e.Width, e.Height}, "sheet": Size{e.Sheet.Width, e.Sheet.Height}, "edge": quantity.Length.Of(e.Sheet.Edge)}
	if e.Sheet.Edge > 0 {
		return Reason{PartTooLarge, f}
	}
	return Reason{PartTooLargeBare, f}
}

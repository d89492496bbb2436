package words

import (
	"errors"

	"overbend/cmd/internal/quantity"
	"overbend/geom/bend"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// Because returns what an error of the mechanics, of the tools or of the
// catalogue says. An error that is no refusal is named as it is.
func Because(err error) Reason {
	var r *bend.Refusal
	if errors.As(err, &r) {
		return refusal(*r)
	}
	var unknown *profiles.UnknownError
	var wall *profiles.WallError
	var section *profiles.SectionError
	var gauge *profiles.GaugeError
	var size *tooling.SizeError
	var sheet *tooling.SheetError
	switch {
	case errors.As(err, &size):
		return badSize(size)
	case errors.As(err, &sheet):
		return offSheet(sheet)
	case errors.As(err, &unknown):
		return unlisted(unknown)
	case errors.As(err, &wall):
		return badWall(wall)
	case errors.As(err, &section):
		return badSection(section)
	case errors.As(err, &gauge):
		return Reason{GaugeUnlisted, Figures{"number": gauge.Number, "list": string(gauge.List), "least": gauge.Least, "most": gauge.Most}}
	}
	if errors.Is(err, bend.ErrNoLesson) {
		return Reason{Code: TrialsNoLesson}
	}
	return Reason{NoAnswer, Figures{"detail": err.Error()}}
}

// refusal says why the model has no bend as asked.
func refusal(r bend.Refusal) Reason {
	length := quantity.Length.Of
	f := Figures{"at": length(r.At), "value": length(r.Value), "least": length(r.Least), "most": length(r.Most), "spacing": length(r.Spacing)}
	if r.Why == bend.TooMuchForce {
		f["value"], f["most"] = quantity.Force.Of(r.Value), quantity.Force.Of(r.Most)
	}
	why := Reason{Code(r.Why), f}
	switch r.Why {
	case bend.SlipsFlat, bend.SlipsWrapped, bend.TooNarrow, bend.NoLeg:
		if r.Spacing > 0 {
			// Of the widest spacing that a proposal may take.
			return Reason{NoSupportsFor, Figures{"spacing": f["spacing"], "why": why}}
		}
	}
	return why
}

// Reading returns what a job file calls a reading of a tube that is filled or
// empty.
func Reading(r bend.Reading, filled bool) string {
	if r == bend.ReadMelted && !filled {
		return "released"
	}
	return string(r)
}

package job

import (
	"errors"
	"fmt"
	"strings"

	"overbend/profiles"
)

// sentence says in mm what profiles found wrong.
func sentence(err error) string {
	var unknown *profiles.UnknownError
	var wall *profiles.WallError
	var section *profiles.SectionError
	switch {
	case errors.As(err, &unknown):
		return unknownName(unknown)
	case errors.As(err, &wall) && wall.Name == "":
		return fmt.Sprintf("a wall of %g mm is no thickness: it must be above 0", wall.Wall)
	case errors.As(err, &wall):
		return fmt.Sprintf("%s is listed for walls up to %g mm, not %g mm", wall.Name, wall.Most, wall.Wall)
	case errors.As(err, &section):
		return badSection(section)
	}
	return err.Error()
}

func unknownName(e *profiles.UnknownError) string {
	s := fmt.Sprintf("%s %q is not in the catalogue", e.Kind, e.Name)
	switch {
	case e.Kind == profiles.Alloys:
		var all []string
		for _, f := range profiles.Fillers() {
			all = append(all, f.Name)
		}
		known := strings.Join(all, ", ")
		if len(e.Nearest) > 0 {
			return s + ": the nearest is " + orList(e.Nearest) + " of " + known
		}
		return s + ": it lists " + known
	case len(e.Nearest) > 0:
		return s + ": the nearest is " + orList(e.Nearest)
	}
	return s + ", nor anything near it: overbend stock materials lists what is"
}

// orList writes names as a sentence does: "a, b or c".
func orList(names []string) string {
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

func badSection(e *profiles.SectionError) string {
	switch e.Why {
	case profiles.NotFinite:
		return fmt.Sprintf("the %s %g is not a finite number", e.What, e.Value)
	case profiles.NotPositive:
		return fmt.Sprintf("the %s must be above 0, not %g mm", e.What, e.Value)
	case profiles.OutOfRange:
		return fmt.Sprintf("the %s must be from %g to %g mm, not %g mm", e.What, e.Least, e.Most, e.Value)
	case profiles.TwoSizes:
		return fmt.Sprintf("a round tube has one diameter, not a width of %g mm and a depth of %g mm", e.Value, e.Most)
	case profiles.NoBore:
		return fmt.Sprintf("a wall of %g mm leaves no bore: it must be under %g mm, half the %s", e.Value, e.Most, e.Side)
	case profiles.Negative:
		return fmt.Sprintf("the corner radius must be 0 or more, not %g mm", e.Value)
	case profiles.RoundCorner:
		return fmt.Sprintf("a round tube has no corner radius, not %g mm", e.Value)
	}
	return fmt.Sprintf("a corner radius of %g mm does not fit: it must be at most %g mm, half the %s", e.Value, e.Most, e.Side)
}

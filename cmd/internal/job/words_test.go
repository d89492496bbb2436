package job

import (
	"errors"
	"math"
	"testing"

	"overbend/profiles"
)

func TestSentence(t *testing.T) {
	inf := math.Inf(1)
	for _, row := range []struct {
		err  error
		want string
	}{
		{&profiles.UnknownError{Kind: profiles.Metals, Name: "304", Nearest: []string{"304 annealed"}}, `material "304" is not in the catalogue: the nearest is 304 annealed`},
		{&profiles.UnknownError{Kind: profiles.Metals, Name: "S335", Nearest: []string{"S235", "S355", "A"}}, `material "S335" is not in the catalogue: the nearest is S235, S355 or A`},
		{&profiles.UnknownError{Kind: profiles.Metals, Name: "a\nb"}, `material "a\nb" is not in the catalogue, nor anything near it: overbend stock materials lists what is`},
		{&profiles.UnknownError{Kind: profiles.Alloys, Name: "159", Nearest: []string{"158"}}, `filler alloy "159" is not in the catalogue: the nearest is 158 of 117, 136, 158, 158-190, 174, 203, 255, 281, 281-338`},
		{&profiles.UnknownError{Kind: profiles.Alloys, Name: "wax"}, `filler alloy "wax" is not in the catalogue: it lists 117, 136, 158, 158-190, 174, 203, 255, 281, 281-338`},
		{&profiles.WallError{Name: "S355", Wall: 17, Most: 16}, "S355 is listed for walls up to 16 mm, not 17 mm"},
		{&profiles.WallError{Wall: -1, Most: inf}, "a wall of -1 mm is no thickness: it must be above 0"},
		{profiles.Section{Width: 40, Depth: 60, Wall: 20}.Validate(), "a wall of 20 mm leaves no bore: it must be under 20 mm, half the width"},
		{profiles.Section{Width: 40, Depth: 30, Wall: 3, Corner: 15.5}.Validate(), "a corner radius of 15.5 mm does not fit: it must be at most 15 mm, half the depth"},
		{profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: -1}.Validate(), "the corner radius must be 0 or more, not -1 mm"},
		{profiles.Section{Width: 40, Depth: 40, Wall: 3, Corner: inf}.Validate(), "the corner radius +Inf is not a finite number"},
		{profiles.Section{Shape: profiles.Round, Width: 40, Depth: 40, Wall: 3, Corner: 2}.Validate(), "a round tube has no corner radius, not 2 mm"},
		{profiles.Section{Shape: profiles.Round, Width: 30, Depth: 40, Wall: 3}.Validate(), "a round tube has one diameter, not a width of 30 mm and a depth of 40 mm"},
		{profiles.Section{Shape: profiles.Round, Wall: 3}.Validate(), "the diameter must be above 0, not 0 mm"},
		{profiles.Section{Width: 40, Depth: 40, Wall: 1e-9}.Validate(), "the wall must be from 0.01 to 10000 mm, not 1e-09 mm"},
		{errors.New("other"), "other"},
	} {
		if got := sentence(row.err); got != row.want {
			t.Errorf("got  %s\nwant %s", got, row.want)
		}
	}
}

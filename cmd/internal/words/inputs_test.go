package words

import (
	"slices"
	"testing"

	"overbend/cmd/internal/quantity"
	"overbend/profiles"
)

// Every input has a name of its own, and one that is none is our own mistake.
func TestInputName(t *testing.T) {
	seen := map[string]bool{}
	for _, in := range []profiles.Input{
		profiles.ProofInput, profiles.ExponentInput, profiles.UltimateInput, profiles.YoungsInput, profiles.UnloadingInput, profiles.WallInput,
		profiles.DepthInput, profiles.WidthInput, profiles.DiameterInput, profiles.FillerInput, profiles.StripInput, profiles.StripProofInput,
		profiles.SupportsInput, profiles.TravelInput, profiles.RollerInput, profiles.FrictionInput,
	} {
		if n := InputName(in); n == "" || seen[n] {
			t.Errorf("%s is called %q", in, n)
		} else {
			seen[n] = true
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	InputName("moon")
}

func TestCannotBe(t *testing.T) {
	ends := [2]quantity.Value{quantity.Length.Of(25.4), quantity.Length.Of(50.8)}
	why := &Reason{Code: EndOverStroke, Figures: Figures{"travel": quantity.Travel.Of(50.8), "stroke": quantity.Length.Of(38.1)}}
	for _, c := range []struct {
		why  [2]*Reason
		u    quantity.Units
		want []string
	}{
		{[2]*Reason{}, quantity.Millimetres, nil},
		{[2]*Reason{1: why}, quantity.Millimetres, []string{"can't be made: travel of 50.8 mm: needs a travel of 51.0 mm, more than the stroke of 38.1 mm"}},
		{[2]*Reason{why, nil}, quantity.Inches, []string{"can't be made: travel of 1 in: needs a travel of 2.00 in (2 in), more than the stroke of 1.5 in"}},
	} {
		got := CannotBe(profiles.TravelInput, c.u, ends, c.why)
		for i := range got {
			got[i] = quantity.Plain(got[i])
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

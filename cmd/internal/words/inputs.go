package words

import (
	"overbend/cmd/internal/quantity"
	"overbend/profiles"
)

// What an input's error moves.
const (
	PartAngle  = "angle"
	RightBlock = "block radius"
	PressForce = "force"
)

// InputName returns what an input is called whose error moves a bend.
func InputName(in profiles.Input) string {
	switch in {
	case profiles.ProofInput:
		return "yield strength"
	case profiles.ExponentInput:
		return "hardening exponent"
	case profiles.UltimateInput:
		return "ultimate strength"
	case profiles.YoungsInput:
		return "Young's modulus"
	case profiles.UnloadingInput:
		return "unloading, of Young's"
	case profiles.WallInput:
		return "wall"
	case profiles.DepthInput:
		return "tube's depth"
	case profiles.WidthInput:
		return "tube's width"
	case profiles.DiameterInput:
		return "tube's diameter"
	case profiles.FillerInput:
		return "filler's yield"
	case profiles.StripInput:
		return "strip's thickness"
	case profiles.StripProofInput:
		return "strip's yield"
	case profiles.SupportsInput:
		return "supports apart"
	case profiles.TravelInput:
		return "travel"
	case profiles.RollerInput:
		return "roller diameter"
	case profiles.FrictionInput:
		return "friction at rollers"
	}
	panic("words: no name for the input " + string(in))
}

// CannotBe says, a sentence for each end of an input's interval that has a reason,
// what keeps the job from being made there.
func CannotBe(in profiles.Input, u quantity.Units, ends [2]quantity.Value, why [2]*Reason) []string {
	var out []string
	for i, w := range why {
		if w != nil {
			out = append(out, "can't be made: "+InputName(in)+" of "+u.Show(ends[i])+": "+w.Say(u))
		}
	}
	return out
}

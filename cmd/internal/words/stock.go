package words

import (
	"strings"

	"overbend/cmd/internal/quantity"
	"overbend/profiles"
)

// Quoted is a sentence that stands in a table of package profiles, and its
// figures.
type Quoted struct {
	Text    string
	Figures Figures
}

// Handling returns a caution of the catalogue of fillers.
func Handling(c profiles.Caution) Reason {
	return Reason{FillerCaution, Figures{"text": Quoted{c.Text, Figures{"C": quantity.Temperature.Of(c.Celsius)}}}}
}

// unlisted says that a table has no row of a name.
func unlisted(e *profiles.UnknownError) Reason {
	f := Figures{"kind": string(e.Kind), "name": printable(e.Name), "near": orList(e.Nearest)}
	if e.Kind == profiles.Alloys {
		var all []string
		for _, a := range profiles.Fillers() {
			all = append(all, a.Name)
		}
		f["all"] = strings.Join(all, ", ")
		if len(e.Nearest) > 0 {
			return Reason{AlloyNear, f}
		}
		return Reason{AlloyUnknown, f}
	}
	if len(e.Nearest) > 0 {
		return Reason{MetalNear, f}
	}
	return Reason{MetalUnknown, f}
}

// printable returns a name from a file such that it can stand between quotes in
// one line.
func printable(name string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == '"' {
			return '?'
		}
		return r
	}, name)
}

// orList writes names as a sentence does: "a, b or c".
func orList(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// badWall says that a material has no row for a wall.
func badWall(e *profiles.WallError) Reason {
	f := Figures{"metal": e.Name, "wall": quantity.Length.Of(e.Wall), "most": quantity.Length.Of(e.Most)}
	if e.Name == "" {
		return Reason{NoThickness, f}
	}
	return Reason{WallUnlisted, f}
}

// badSection says what is wrong with a section.
func badSection(e *profiles.SectionError) Reason {
	f := Figures{
		"what": string(e.What), "side": string(e.Side), "value": quantity.Length.Of(e.Value),
		"least": quantity.Length.Of(e.Least), "most": quantity.Length.Of(e.Most),
	}
	switch e.Why {
	case profiles.NotFinite:
		return Reason{SizeNotFinite, f}
	case profiles.NotPositive:
		return Reason{SizeNotPositive, f}
	case profiles.OutOfRange:
		return Reason{SizeOutOfRange, f}
	case profiles.TwoSizes:
		return Reason{RoundTwoSizes, f}
	case profiles.NoBore:
		return Reason{NoBore, f}
	case profiles.Negative:
		return Reason{CornerNegative, f}
	case profiles.RoundCorner:
		return Reason{RoundCorner, f}
	}
	return Reason{CornerNoRoom, f}
}

// Heat says what a bath does to a metal's strength.
func Heat(metal string, e profiles.HeatEffect) Reason {
	celsius := quantity.Temperature.Of
	f := Figures{"bath": celsius(e.Celsius), "metal": metal, "safe": celsius(e.Safe)}
	f["verdict"] = Reason{HeatHarmless, f}
	if e.Harm {
		f["verdict"] = Reason{HeatMayHarm, f}
	}
	if e.Why != profiles.AgedLoses {
		return Reason{Code(e.Why), f}
	}
	if e.Harm {
		f["verdict"] = Reason{HeatHarms, f}
	}
	f["times"] = reheats(e.Limits)
	for _, l := range e.Limits {
		f["loss"] = quantity.Share.Of(1 - l.Keeps) // the same of all
	}
	f["tested"], f["stand-in"] = "", ""
	// A test that the table would not have allowed is what the verdict rests on.
	for _, l := range e.Measured {
		if e.Hours == l.Hours {
			f["tested"] = Reason{HeatTested, Figures{"time": reheat(l), "lost": quantity.Share.Of(1 - l.Keeps), "source": l.Source}}
		}
	}
	if e.StandIn {
		f["stand-in"] = Reason{Code: HeatStandIn}
	}
	return Reason{AgedLoses, f}
}

// reheats lists how long at which temperatures.
func reheats(limits []profiles.HeatLimit) any {
	out := any("")
	for i, l := range limits {
		code := ListNext
		switch i {
		case 0:
			out = reheat(l)
			continue
		case len(limits) - 1:
			code = ListLast
		}
		out = Reason{code, Figures{"list": out, "next": reheat(l)}}
	}
	return out
}

func reheat(l profiles.HeatLimit) Reason {
	return Reason{ReheatTime, Figures{"time": quantity.Hours.Of(l.Hours), "bath": quantity.Temperature.Of(l.Celsius)}}
}

package plan

import (
	"testing"

	"overbend/cmd/internal/shop"
	"overbend/cmd/internal/words"
	"overbend/geom/tooling"
	"overbend/profiles"
)

// The bore of 34 x 34 mm between two plugs of 20 mm, and 158's 9380 kg/m³.
func TestFill(t *testing.T) {
	j := jobOf(t)
	f, _, err := fill(j, tooling.Blank{Length: 900}, nil, nil)
	if err != nil || f == nil {
		t.Fatalf("got %v, %v", f, err)
	}
	about(t, "volume", f.Volume, 34*34*860, 1e-12)
	about(t, "mass", f.Mass, 34*34*860*9380e-9, 1e-12)
	for length, want := range map[float64]bool{40: true, 40.001: false, 30: true} {
		_, _, err := fill(j, tooling.Blank{Length: length}, nil, nil)
		if (err != nil) != want {
			t.Errorf("blank of %g mm between plugs of 20 mm: got %v", length, err)
		}
	}
	j.Filler.Alloy = profiles.Filler{}
	if f, _, err := fill(j, tooling.Blank{Length: 900}, nil, nil); f != nil || err != nil {
		t.Errorf("without a filler: %v, %v", f, err)
	}
	if said := bath(j); said != nil {
		t.Errorf("without a filler: said %v", codes(said))
	}
}

// Longer plugs leave the alloy one depth past where the rollers touch at last, and
// what the tin holds is held against both fillings.
func TestEnoughAlloy(t *testing.T) {
	for _, inch := range []bool{false, true} {
		c, tl, _ := tooled(t)
		c.j.Inches = inch
		far := 0.0 // along the centreline under load, from the crown to the contact
		for _, s := range append(c.q.finals(), c.q.Schedule...) {
			far = max(far, s.Developed())
		}
		f, said, err := fill(c.j, tl.Blank, c.q, nil)
		if err != nil || f.Least == nil {
			t.Fatalf("got %+v, %v", f, err)
		}
		step, left := 5.0, tl.Blank.Middle-far-40
		if inch {
			step = 6.35
		}
		if gap := left - f.Least.Plugs[0]; gap < 0 || gap >= step {
			t.Errorf("a left plug of %g mm leaves %g mm past the rollers' depth", f.Least.Plugs[0], gap)
		}
		if gap := tl.Blank.Length - tl.Blank.Middle - far - 40 - f.Least.Plugs[1]; gap < 0 || gap >= step {
			t.Errorf("a right plug of %g mm leaves %g mm", f.Least.Plugs[1], gap)
		}
		about(t, "mass", f.Least.Mass, 34*34*(tl.Blank.Length-f.Least.Plugs[0]-f.Least.Plugs[1])*9380e-9, 1e-12)
		has(t, said, words.AlloyPlugs, words.Note, words.Fill, "filler.plugs")
		if len(said) != 1 {
			t.Errorf("without a shop: said %v", codes(said))
		}
		of := func(alloy string, kg float64) shop.Filler {
			return shop.Filler{Alloy: profiles.Filler{Name: alloy}, Mass: kg}
		}
		for _, h := range []struct {
			have  float64
			code  words.Code
			level words.Level
		}{
			{f.Mass, words.AlloyEnough, words.Note}, {f.Mass - 0.01, words.AlloyWithPlugs, words.Warning},
			{f.Least.Mass, words.AlloyWithPlugs, words.Warning}, {f.Least.Mass - 0.01, words.AlloyShortOfPlugs, words.Warning},
			{0, words.AlloyShortOfPlugs, words.Warning},
		} {
			// Two tins of one alloy add up, those of another do not count.
			c.j.Alloys = []shop.Filler{of("281", 50), of("158", h.have/4), of("158", h.have*3/4)}
			_, said, _ := fill(c.j, tl.Blank, c.q, nil)
			has(t, said, h.code, h.level, words.Fill, "filler.alloy")
		}
		// Where the rollers stand at the ends there is nothing to save.
		c.j.Filler.Plugs = [2]float64{140, 135}
		f, said, err = fill(c.j, tl.Blank, c.q, nil)
		if err != nil || f.Least != nil {
			t.Errorf("got %+v, %v", f.Least, err)
		}
		has(t, said, words.AlloyShort, words.Warning, words.Fill, "filler.alloy")
	}
}

// 158 is for tube up to 1-3/4 in, 255 for tube over it, 203 wants a rolling
// boil, 158-190 is none.
func TestBath(t *testing.T) {
	for _, c := range []struct {
		alloy, depth string
		code         words.Code
		level        words.Level
	}{
		{"158", "44.4 mm", words.FillerForSmaller, ""},
		{"158", "44.5 mm", words.FillerForSmaller, words.Warning},
		{"255", "44.5 mm", words.FillerForLarger, ""},
		{"255", "44.4 mm", words.FillerForLarger, words.Warning},
		{"203", "40 mm", words.FillerRollingBoil, words.Warning},
		{"174", "40 mm", words.FillerRollingBoil, ""},
		{"158-190", "40 mm", words.FillerPoor, words.Warning},
	} {
		j := jobOf(t, `filler.alloy = "`+c.alloy+`"`, `tube.depth = "`+c.depth+`"`)
		has(t, bath(j), c.code, c.level, words.Fill, "filler.alloy")
	}
	for alloy, level := range map[string]words.Level{"158": "", "255": words.Note} {
		has(t, bath(jobOf(t, `filler.alloy = "`+alloy+`"`)), words.FillerEstimated, level, words.Fill, "filler")
	}
	said := bath(jobOf(t))
	has(t, said, words.BathHarmless, words.Note, words.MeltOut, "temper")
	about(t, "melts", figure(t, find(said, words.BathHarmless).Reason, "melts"), 70, 0)
	// The bath counts where it is hotter than the melt, and harm is a warning.
	j := jobOf(t)
	j.Filler.Alloy.MeltOut = 400
	has(t, bath(j), words.BathHarmless, words.Warning, words.MeltOut, "temper")
	j = jobOf(t)
	j.Filler.Alloy.Liquidus = 400
	has(t, bath(j), words.BathHarmless, words.Warning, words.MeltOut, "temper")
	steps := map[words.Step]int{}
	for _, a := range said {
		if a.Level == words.Caution {
			steps[a.Step]++
		}
	}
	if steps[words.Press] == 0 || steps[words.MeltOut] == 0 || steps[words.Fill] == 0 || len(steps) != 3 {
		t.Errorf("cautions by step: %v", steps)
	}
	for where, want := range map[string]words.Step{"bending": words.Press, "melting out": words.MeltOut, "after": words.MeltOut, "pouring": words.Fill, "health": words.Fill} {
		if got := stepOf(where); got != want {
			t.Errorf("%s: got %q, want %q", where, got, want)
		}
	}
}

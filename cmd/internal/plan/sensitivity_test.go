package plan_test

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/plan/plantest"
	"overbend/cmd/internal/words"
	"overbend/profiles"
)

// The jobs below state every input, so that each can be rewritten.
const (
	filledSquare = `name = "square"
material = {youngs_modulus = "70 GPa", proof = "250 MPa", exponent = 25, elongation = "20 %", unloading = 0.95}
tube = {shape = "rectangle", width = "40 mm", depth = "40 mm", wall = "3 mm"}
bend = {radius = "420 mm", angle = "33 deg", legs = ["300 mm", "300 mm"]}
strip = {thickness = "6 mm", material = "1018 cold drawn"}
filler = {alloy = "158"}
press = {supports = "450 mm", roller = "40 mm", friction = 0.2}
`
	emptyDeep = `name = "deep"
units = "in"
material = {youngs_modulus = "200 GPa", proof = "300 MPa", ultimate = "400 MPa", elongation = "25 %", family = "steel", unloading = 0.9}
tube = {shape = "rectangle", width = "1 in", depth = "2 in", wall = "1/8 in", corner = "1/4 in"}
bend = {radius = "25 in", radius_at = "inside", angle = "60 deg", legs = ["12 in", "12 in"]}
strip = {thickness = "1/4 in", material = "S355 flat"}
filler = {alloy = "none"}
press = {supports = "30 in", roller = "1.5 in", friction = 0}
`
	emptyRound = `name = "round"
material = {youngs_modulus = "195 GPa", proof = "300 MPa", ultimate = "600 MPa", exponent = 7, elongation = "40 %", family = "stainless", unloading = 0.9}
tube = {shape = "round", diameter = "40 mm", wall = "3 mm"}
bend = {radius = "260 mm", radius_at = "outside", angle = "100 deg", legs = ["300 mm", "300 mm"]}
strip = {thickness = "5 mm", material = "S355 flat"}
filler = {alloy = "none"}
press = {supports = "600 mm", roller = "50 mm", friction = 0.1}
`
)

// worked works out a job file with keys set to values, as TOML writes them.
func worked(t testing.TB, text string, set ...string) *plan.Plan {
	t.Helper()
	for i := 0; i < len(set); i += 2 {
		var err error
		if text, err = keyed.Set(text, set[i], set[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	j, err := job.Parse("job.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.New(j)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func sensitivity(t testing.TB, p *plan.Plan) *plan.Sensitivity {
	t.Helper()
	s, err := p.Sensitivity()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// swing returns an input of a sensitivity.
func swing(t testing.TB, s *plan.Sensitivity, in profiles.Input) plan.Swing {
	t.Helper()
	i := slices.IndexFunc(s.Inputs, func(w plan.Swing) bool { return w.Input == in })
	if i < 0 {
		t.Fatalf("no %s among %v", in, s.Inputs)
	}
	return s.Inputs[i]
}

func within(t rapid.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

// Each end is what the whole program says of a job file with that value in it: its
// block is the one that would be right, and on the planned block, as one at hand, the
// part's angle takes the planned travel. Rewritten files go through
// everything that sensitivity passes by: reading, range, proposals, advice.
func TestSensitivityIsTheRewrittenJob(t *testing.T) {
	mm := func(v float64) string { return fmt.Sprintf(`"%.17g mm"`, v) }
	mpa := func(v float64) string { return fmt.Sprintf(`"%.17g MPa"`, v) }
	number := func(v float64) string { return fmt.Sprintf("%.17g", v) }
	keys := map[profiles.Input]struct {
		key   string
		write func(float64) string
	}{
		profiles.ProofInput: {"material.proof", mpa}, profiles.ExponentInput: {"material.exponent", number}, profiles.UltimateInput: {"material.ultimate", mpa},
		profiles.YoungsInput: {"material.youngs_modulus", mpa}, profiles.UnloadingInput: {"material.unloading", number},
		profiles.WallInput: {"tube.wall", mm}, profiles.DepthInput: {"tube.depth", mm}, profiles.WidthInput: {"tube.width", mm}, profiles.DiameterInput: {"tube.diameter", mm},
		profiles.StripInput: {"strip.thickness", mm}, profiles.SupportsInput: {"press.supports", mm}, profiles.RollerInput: {"press.roller", mm}, profiles.FrictionInput: {"press.friction", number},
	}
	for text, want := range map[string]int{filledSquare: 13, emptyDeep: 13, emptyRound: 12} {
		p := worked(t, text)
		s := sensitivity(t, p)
		tried := 0
		for _, w := range s.Inputs {
			k, ok := keys[w.Input]
			if !ok && w.Input != profiles.TravelInput && w.Input != profiles.FillerInput {
				continue // the catalogue's
			}
			tried++
			for _, end := range []struct {
				value float64
				plan.Outcome
			}{{w.Low, w.AtLow}, {w.High, w.AtHigh}} {
				name := fmt.Sprintf("%s: %s of %g", p.Job.Name, w.Input, end.value)
				travel := s.Travel
				var set []string
				switch {
				case ok:
					set = []string{k.key, k.write(end.value)}
				case w.Input == profiles.TravelInput:
					travel = end.value
				case end.value > 0:
					continue // no alloy is as strong as that
				default:
					set = []string{"filler.alloy", `"none"`}
				}
				if w.Input == profiles.ProofInput && p.Job.Material.Ultimate > 0 {
					// The ratio of the strengths stays.
					set = append(set, "material.ultimate", mpa(p.Job.Material.Ultimate*end.value/w.Nominal))
				}
				q := worked(t, text, append(set, "block.existing", mm(s.Block), "bend.angle", fmt.Sprintf(`"%.17g rad"`, float64(end.Angle)))...)
				within(t, name+": block", end.Right, q.Nominal.Block, 1e-8)
				if w.Input == profiles.WidthInput || w.Input == profiles.DiameterInput {
					// The strip is cut to what is planned, in the rewritten job to this.
					if more := (q.Existing.Press.PeakRubbed - end.Force) * (end.value - w.Nominal); !(more > 0) {
						t.Errorf("%s: force %g, with a strip as wide %g", name, end.Force, q.Existing.Press.PeakRubbed)
					}
					continue
				}
				within(t, name+": travel", q.Existing.Press.Final.Travel, travel, 1e-8*travel)
				within(t, name+": force", end.Force, q.Existing.Press.PeakRubbed, 1e-5*end.Force)
			}
		}
		if tried != want {
			t.Errorf("%s: %d inputs, want %d", p.Job.Name, tried, want)
		}
	}
}

// What is planned, and what the ends of the metal's range give, are the plan's own
// numbers, which are worked out elsewhere.
func TestSensitivityIsThePlan(t *testing.T) {
	sites := map[plan.Site]int{}
	for _, path := range plantest.Examples(t, "../../..") {
		p := plantest.Read(t, path)
		s := sensitivity(t, p)
		sites[s.Site]++
		q, block := p.Press, p.Working
		if p.Existing != nil {
			q, block = p.Existing.Press, p.Existing.Block
		}
		within(t, path+": right block", s.Planned.Right, p.Nominal.Block, 1e-8)
		within(t, path+": block", s.Block, block, 0)
		within(t, path+": angle", float64(s.Planned.Angle), float64(p.Job.Bend.Angle), 1e-9)
		within(t, path+": force", s.Planned.Force, q.PeakRubbed, 0)
		within(t, path+": travel", s.Travel, q.Final.Travel, 0)
		if q.Low == nil {
			continue
		}
		w := swing(t, s, profiles.ProofInput)
		for _, end := range []struct {
			plan.Outcome
			over  *plan.Overbend
			press *plan.PressEnd
			proof float64
		}{{w.AtLow, p.Low, q.Low, w.Low}, {w.AtHigh, p.High, q.High, w.High}} {
			within(t, path+": proof", end.proof, end.over.Proof, 0)
			within(t, path+": right block for a metal", end.Right, end.over.Block, 1e-8)
			within(t, path+": angle of a metal", float64(end.Angle), float64(end.press.AtTravel), 1e-9)
		}
	}
	if sites[plan.NewBlock] == 0 || sites[plan.HandBlock] == 0 {
		t.Error("not all is tried:", sites)
	}
}

// plastic returns the block's radius for a sharp-cornered square tube of a metal that
// is elastic, then perfectly plastic, which is left at a centreline radius: the
// moment in closed form, the solution of kp - M(kp)/(u E I) = kf by halving. While
// the elastic core, ±yY about mid-depth with yY = fo/(E k), ends within the side walls,
//
//	M = fo ((W d² - w h²)/4 - (W - w) yY²/3)
//
// with W, d outside and w, h inside (plastic moment less the core's share; see
// Gardiner for the rectangle).
func plastic(wide, depth, wall, young, proof, unload, radius float64) float64 {
	w, h := wide-2*wall, depth-2*wall
	inertia := (wide*depth*depth*depth - w*h*h*h) / 12
	left := func(k float64) float64 {
		core := proof / (young * k)
		if core > h/2 {
			panic("the core is in the flanges")
		}
		m := proof * ((wide*depth*depth-w*h*h)/4 - (wide-w)*core*core/3)
		return k - m/(unload*young*inertia) - 1/radius
	}
	lo, hi := 1/radius, 2/radius
	for range 60 {
		if mid := (lo + hi) / 2; left(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return 1/lo - depth/2
}

// With an exponent of 10,000 the metal is as good as perfectly plastic: every input of
// the section moves the block as the closed form says. Tolerance: the law's last
// rounding at the yield point, a hundredth of what moves.
func TestSensitivityClosedForm(t *testing.T) {
	p := worked(t, filledSquare, "material.exponent", "10000")
	s := sensitivity(t, p)
	const r = 420
	nominal := plastic(40, 40, 3, 70000, 250, 0.95, r)
	within(t, "planned", s.Planned.Right, nominal, 0.02)
	for in, form := range map[profiles.Input]func(v float64) float64{
		profiles.ProofInput:     func(v float64) float64 { return plastic(40, 40, 3, 70000, v, 0.95, r) },
		profiles.YoungsInput:    func(v float64) float64 { return plastic(40, 40, 3, v, 250, 0.95, r) },
		profiles.UnloadingInput: func(v float64) float64 { return plastic(40, 40, 3, 70000, 250, v, r) },
		profiles.WallInput:      func(v float64) float64 { return plastic(40, 40, v, 70000, 250, 0.95, r) },
		profiles.WidthInput:     func(v float64) float64 { return plastic(v, 40, 3, 70000, 250, 0.95, r) },
		profiles.DepthInput:     func(v float64) float64 { return plastic(40, v, 3, 70000, 250, 0.95, r) },
	} {
		w := swing(t, s, in)
		for _, end := range []struct {
			value float64
			plan.Outcome
		}{{w.Low, w.AtLow}, {w.High, w.AtHigh}} {
			want := form(end.value) - nominal
			if math.Abs(want) < 0.02 {
				t.Errorf("%s moves the closed form by %g only", in, want)
			}
			within(t, fmt.Sprintf("%s of %g", in, end.value), s.Changes(end.Outcome).Right, want, 0.01*math.Abs(want)+1e-4)
		}
	}
}

// What must hold for any job: stronger metal and softer unloading need a tighter
// block and leave less angle, more travel leaves more; what the block does not know
// of leaves it; the inputs are in order; and what they do together is the root of
// the sum of the squares.
func TestSensitivityProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, lo, hi float64) string {
			return fmt.Sprintf(`"%.4g mm"`, rapid.Float64Range(lo, hi).Draw(t, name))
		}
		text := rapid.SampledFrom([]string{filledSquare, emptyDeep, emptyRound}).Draw(t, "job")
		j, err := keyed.Set(text, "bend.radius", length("radius", 350, 2000))
		if err == nil {
			j, err = keyed.Set(j, "bend.angle", fmt.Sprintf(`"%.4g deg"`, rapid.Float64Range(3, 60).Draw(t, "angle")))
		}
		if err == nil {
			j, err = keyed.Set(j, "tube.wall", length("wall", 1, 5))
		}
		if err == nil {
			j, err = keyed.Set(j, "press.supports", length("supports", 500, 900))
		}
		if err != nil {
			t.Fatal(err)
		}
		parsed, err := job.Parse("job.toml", []byte(j))
		if err != nil {
			t.Skip(err)
		}
		p, err := plan.New(parsed)
		if err != nil || p.Press == nil {
			t.Skip(err)
		}
		s, err := p.Sensitivity()
		if err != nil {
			t.Fatal(err)
		}
		index := func(in profiles.Input) plan.Swing {
			return s.Inputs[slices.IndexFunc(s.Inputs, func(w plan.Swing) bool { return w.Input == in })]
		}
		const hair = 1e-9
		if w := index(profiles.ProofInput); !(w.AtLow.Right > s.Planned.Right && s.Planned.Right > w.AtHigh.Right) {
			t.Errorf("%+v of %+v", w, s.Planned)
		} else if w.AtLow.Angle < s.Planned.Angle-hair || s.Planned.Angle < w.AtHigh.Angle-hair {
			t.Errorf("%+v of %+v", w, s.Planned)
		}
		if w := index(profiles.UnloadingInput); !(w.AtLow.Right < s.Planned.Right && s.Planned.Right < w.AtHigh.Right) || !(w.AtLow.Angle < s.Planned.Angle && s.Planned.Angle < w.AtHigh.Angle) {
			t.Errorf("%+v of %+v", w, s.Planned)
		}
		if w := index(profiles.TravelInput); !(w.AtLow.Angle < s.Planned.Angle) || w.AtHigh.Angle <= s.Planned.Angle {
			t.Errorf("%+v of %+v", w, s.Planned)
		}
		if w := index(profiles.FrictionInput); w.AtLow.Force > s.Planned.Force+1e-6 || w.AtHigh.Force < s.Planned.Force-1e-6 {
			t.Errorf("%+v of %+v", w, s.Planned)
		}
		for _, in := range []profiles.Input{profiles.TravelInput, profiles.SupportsInput, profiles.RollerInput, profiles.FrictionInput, profiles.StripInput, profiles.StripProofInput} {
			w := index(in)
			within(t, string(in), w.AtLow.Right, s.Planned.Right, 0)
			within(t, string(in), w.AtHigh.Right, s.Planned.Right, 0)
		}
		for _, m := range s.Measures() {
			var down, up float64
			for _, w := range s.Inputs {
				if !(w.Low <= w.Nominal && w.Nominal <= w.High && w.Low < w.High) {
					t.Errorf("%s from %g over %g to %g", w.Input, w.Low, w.Nominal, w.High)
				}
				low, high := m.Of(s.Changes(w.AtLow)), m.Of(s.Changes(w.AtHigh))
				if math.IsNaN(low) || math.IsNaN(high) {
					t.Skip("an end can't be made")
				}
				down += square(min(0, low, high))
				up += square(max(0, low, high))
			}
			within(t, m.Name, m.Of(s.Down), -math.Sqrt(down), 1e-9*math.Sqrt(down))
			within(t, m.Name, m.Of(s.Up), math.Sqrt(up), 1e-9*math.Sqrt(up))
		}
		if !slices.IsSortedFunc(s.Inputs, func(a, b plan.Swing) int {
			size := func(w plan.Swing) float64 {
				return math.Round(100 * max(math.Abs(s.Changes(w.AtLow).Angle.Degrees()), math.Abs(s.Changes(w.AtHigh).Angle.Degrees())))
			}
			force := func(w plan.Swing) float64 {
				return math.Round(max(math.Abs(s.Changes(w.AtLow).Force), math.Abs(s.Changes(w.AtHigh).Force)))
			}
			return cmp.Or(cmp.Compare(size(b), size(a)), cmp.Compare(force(b), force(a)))
		}) {
			t.Error("the inputs are out of order")
		}
	})
}

func square(v float64) float64 { return v * v }

// An end at which the job can't be made has the reason, and what numbers there are.
func TestSensitivityEndsThatFail(t *testing.T) {
	for _, c := range []struct {
		name string
		set  []string
		in   profiles.Input
		low  words.Code // "" where nothing is wrong
		high words.Code
		none bool // of angle and force at that end
	}{
		{"weak press", []string{"press.capacity", `"42 kN"`}, profiles.ProofInput, "", words.EndOverCapacity, false},
		{"short stroke", []string{"press.stroke", `"52.7 mm"`}, profiles.TravelInput, "", words.EndOverStroke, false},
		{"little elongation", []string{"material.elongation", `"5.73 %"`}, profiles.DepthInput, "", words.EndBreaks, false},
		{"thick", []string{"tube.wall", `"19.9 mm"`, "filler.alloy", `"none"`}, profiles.WallInput, "", words.NoBore, true},
		{"slips", []string{
			"bend.radius", `"230 mm"`, "bend.angle", `"120 deg"`, "press.supports", `"1200 mm"`,
			"material.proof", `"145 MPa"`, "material.exponent", "9.72",
		}, profiles.ExponentInput, bendSlips, "", true},
	} {
		p := worked(t, filledSquare, c.set...)
		s := sensitivity(t, p)
		w := swing(t, s, c.in)
		for _, end := range []struct {
			plan.Outcome
			want words.Code
		}{{w.AtLow, c.low}, {w.AtHigh, c.high}} {
			got := words.Code("")
			if end.Why != nil {
				got = end.Why.Code
			}
			if got != end.want {
				t.Errorf("%s: %q, want %q", c.name, got, end.want)
			}
			if none := math.IsNaN(end.Force); none != (c.none && end.want != "") || none != math.IsNaN(float64(end.Angle)) {
				t.Errorf("%s: %+v", c.name, end.Outcome)
			}
		}
		if c.none && s.Inputs[0].Input != c.in {
			t.Errorf("%s: %s stands before what has no angle", c.name, s.Inputs[0].Input)
		}
		for _, m := range s.Measures() {
			if v := m.Of(s.Up); math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: %s together %g", c.name, m.Name, v)
			}
		}
	}
}

const bendSlips = words.SlipsWrapped

// A plan that passes a limit itself does not blame its inputs for it.
func TestSensitivityBlamesNoInput(t *testing.T) {
	p := worked(t, filledSquare, "press.capacity", `"20 kN"`)
	s := sensitivity(t, p)
	if p.Feasible() || s.Planned.Why == nil || s.Planned.Why.Code != words.EndOverCapacity {
		t.Fatalf("%+v", s.Planned.Why)
	}
	for _, w := range s.Inputs {
		if w.AtLow.Why != nil || w.AtHigh.Why != nil {
			t.Errorf("%s is blamed", w.Input)
		}
	}
}

// Without a press state there is the block alone.
func TestSensitivityWithoutPress(t *testing.T) {
	text, err := keyed.Set(filledSquare, "press", `{bed = "200 mm"}`)
	if err != nil {
		t.Fatal(err)
	}
	p := worked(t, text)
	s := sensitivity(t, p)
	if p.Press != nil || s.Pressed || len(s.Measures()) != 1 || len(s.Inputs) != 7 {
		t.Fatalf("%+v", s)
	}
	if w := s.Inputs[0]; w.Input != profiles.ProofInput || !(w.AtLow.Right > w.AtHigh.Right) || !math.IsNaN(w.AtLow.Force) || w.AtLow.Why != nil {
		t.Errorf("%+v", w)
	}
	if s.Down.Right >= 0 || s.Up.Right <= 0 || s.Down.Force != 0 {
		t.Errorf("%+v %+v", s.Down, s.Up)
	}
}

// Where an interval comes from, by where its metal does, and its ends.
func TestSensitivityIntervals(t *testing.T) {
	const top = "../../../testdata/"
	demo := plantest.Read(t, top+"davit-arm.toml")
	listed := words.IntervalListed
	for _, c := range []struct {
		name   string
		p      *plan.Plan
		in     profiles.Input
		low    float64
		high   float64
		source words.Code
	}{
		// EN 755-9 group II, hollow, over 1.5 to 3 mm and 25 to 50 mm.
		{"demo", demo, profiles.WallInput, 2.65, 3.35, listed},
		{"demo", demo, profiles.WidthInput, 39.2, 40.8, listed},
		// The minimum of 6082-T6, and two deviations of 8 % over 1.15 of it.
		{"demo", demo, profiles.ProofInput, 250, 333.5, words.IntervalMinimum},
		{"demo", demo, profiles.UnloadingInput, 0.9, 1, listed},
		{"demo", demo, profiles.FillerInput, 0, 26.2 * 1.56, listed},
		{"demo", demo, profiles.SupportsInput, demo.Press.Rig.Supports - 1, demo.Press.Rig.Supports + 1, listed},
		{"demo", demo, profiles.TravelInput, demo.Press.Final.Travel - 0.5, demo.Press.Final.Travel + 0.5, words.IntervalTravel},
		{"demo", demo, profiles.FrictionInput, 0.0495, 0.3, listed},
		{"inline", worked(t, filledSquare), profiles.ProofInput, 210, 290, listed},
		{"inline", worked(t, filledSquare), profiles.UnloadingInput, 0.9, 1, words.IntervalStated},
		{"no softer than all", worked(t, filledSquare, "material.unloading", "0.97"), profiles.UnloadingInput, 0.92, 1, words.IntervalStated},
		{"inline", worked(t, filledSquare), profiles.ExponentInput, 16.75, 40.25, listed},
		{"no exponent is below 1", worked(t, filledSquare, "material.exponent", "1.2"), profiles.ExponentInput, 1, 1.2 * 1.61, listed},
		{"deep", worked(t, emptyDeep), profiles.SupportsInput, 29.96875 * 25.4, 30.03125 * 25.4, listed},
		{"deep", worked(t, emptyDeep), profiles.FrictionInput, 0, 0.05, listed},
		{"deep", worked(t, emptyDeep), profiles.UltimateInput, 332, 448, listed},
		{"never below the proof stress", worked(t, emptyDeep, "material.ultimate", `"310 MPa"`), profiles.UltimateInput, 306, 347.2, listed},
		{"round", worked(t, emptyRound), profiles.UnloadingInput, 0.85, 0.95, words.IntervalStated},
		{"round", worked(t, emptyRound), profiles.StripProofInput, 355, 468.6, words.IntervalMinimum},
		{"certificate", plantest.Read(t, top+"jobs/gate-brace.toml"), profiles.TravelInput, 120.94, 121.94, words.IntervalTravel},
	} {
		w := swing(t, sensitivity(t, c.p), c.in)
		within(t, c.name+", low "+string(c.in), w.Low, c.low, 0.006)
		within(t, c.name+", high "+string(c.in), w.High, c.high, 0.006)
		if w.Source.Code != c.source || w.Source.Say(0) == "" {
			t.Errorf("%s: %s by %+v, want %s", c.name, c.in, w.Source, c.source)
		}
	}
	tried := plantest.Read(t, top+"jobs/davit-arm-tried.toml")
	w := swing(t, sensitivity(t, tried), profiles.ProofInput)
	within(t, "trials", w.High-w.Low, 4*tried.Metal.Trial.ProofError, 1e-9)
	if w.Source.Code != words.IntervalTrials {
		t.Errorf("trials: %+v", w.Source)
	}
	tried.Metal.Trial.Exponent, tried.Metal.Trial.ExponentError = tried.Metal.Curve.Exponent, 3
	w = swing(t, sensitivity(t, tried), profiles.ExponentInput)
	within(t, "exponent of trials", w.High-w.Low, 12, 1e-9)
	// Corners that meet still meet when the tube is narrower.
	w = swing(t, sensitivity(t, worked(t, emptyDeep, "tube.corner", `"1/2 in"`)), profiles.WidthInput)
	if w.AtLow.Why != nil {
		t.Errorf("narrower: %+v", w.AtLow.Why)
	}
	certified := worked(t, demoText, "allowance", `{proof = "300 MPa"}`)
	w = swing(t, sensitivity(t, certified), profiles.ProofInput)
	within(t, "certificate", w.High, 312, 1e-9)
	if w.Source.Code != words.IntervalCertificate {
		t.Errorf("certificate: %+v", w.Source)
	}
}

const demoText = `name = "listed"
tube = {shape = "rectangle", width = "40 mm", depth = "40 mm", wall = "3 mm", material = "6082-T6"}
bend = {radius = "420 mm", angle = "33 deg", legs = ["300 mm", "300 mm"]}
filler = {alloy = "158"}
`

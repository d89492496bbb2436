package bend

import (
	"errors"
	"math"
	"slices"

	"pgregory.net/rapid"

	"overbend/geom"
	"overbend/profiles"
)

// powerLaw is s = K e^n in total strain: for checks against closed forms only,
// as its slope at zero strain is not Young's modulus.
type powerLaw struct{ young, k, n float64 }

func (l powerLaw) YoungsModulus() float64 { return l.young }
func (l powerLaw) Stress(e float64) float64 {
	return math.Copysign(l.k*math.Pow(math.Abs(e), l.n), e)
}
func (l powerLaw) Tangent(e float64) float64 { return l.k * l.n * math.Pow(math.Abs(e), l.n-1) }
func (l powerLaw) StressMoment(e float64) float64 {
	return l.k * math.Pow(math.Abs(e), l.n+2) / (l.n + 2)
}
func (l powerLaw) StressWithMoment(e float64) (float64, float64) {
	return l.Stress(e), l.StressMoment(e)
}
func (l powerLaw) Work(e float64) float64 { return l.k * math.Pow(math.Abs(e), l.n+1) / (l.n + 1) }
func (l powerLaw) YieldStrain() float64   { return 0 }
func (l powerLaw) Knees() []float64       { return nil }

func epp(young, yield float64) profiles.Law {
	return profiles.ElasticPlastic{Youngs: young, Yield: yield}
}

func rectangle(w, d, t, r float64) profiles.Section {
	return profiles.Section{Width: w, Depth: d, Wall: t, Corner: r}
}

func roundTube(d, t float64) profiles.Section {
	return profiles.Section{Shape: profiles.Round, Width: d, Depth: d, Wall: t}
}

// tester is what the functions here need of a test, a benchmark or a property.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// near fails unless got is within rel of want.
func near(t tester, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s: %.9g, want %.9g within %g", what, got, want, rel)
	}
}

// davit is the stack of our own davit arm: 40 x 40 x 3 6082-T6, filled, on a
// 6 mm strip. Change what a test is about.
func davit() Stack {
	sec := rectangle(40, 40, 3, 0)
	return Stack{
		Tube:           Hollow(sec, profiles.RambergOsgood{Youngs: 70000, Proof: 287.5, Exponent: 29.63}),
		Filler:         Massive(sec.Bore(), epp(12700, 26.2)),
		Strip:          Massive(profiles.Solid{Width: 40, Depth: 6}, profiles.RambergOsgood{Youngs: 205000, Proof: 370, Exponent: 15}),
		Depth:          40,
		StripThickness: 6,
	}
}

func press(t tester, s Stack, r Rig, block float64) *Press {
	t.Helper()
	p, err := onRig(s, r, block)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// onRig is a block of a radius on a stack and a rig.
func onRig(s Stack, r Rig, block float64) (*Press, error) {
	f, err := NewForm(s, block)
	if err != nil {
		return nil, err
	}
	return f.On(r)
}

// wantRefusal fails unless an error is a refusal for one of the reasons, and
// returns it.
func wantRefusal(t tester, name string, err error, reasons ...Why) *Refusal {
	t.Helper()
	var r *Refusal
	if !errors.As(err, &r) || !errors.Is(err, ErrNoSolution) {
		t.Fatalf("%s: %v is no refusal", name, err)
	}
	if !slices.Contains(reasons, r.Why) {
		t.Fatalf("%s: refused with %v, want %v", name, err, reasons)
	}
	return r
}

// state unwraps a state that must exist: state(t)(p.AtWrap(w)).
func state(t tester) func(State, error) State {
	return func(s State, err error) State {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
}

// values returns every number of a state, by name.
func (s State) values() map[string]float64 {
	return map[string]float64{
		"wrap": float64(s.HalfWrap), "crown": s.Crown, "leg": s.Leg, "travel": s.Travel,
		"force": s.Force, "slope": float64(s.Slope), "loaded": float64(s.Loaded),
		"filled": float64(s.Filled), "melted": float64(s.Melted), "tail": s.Tail,
		"work": s.Work, "roller x": s.Roller.X, "roller y": s.Roller.Y,
		"push": s.Push, "arm": s.Arm, "across": s.Across,
	}
}

// aJob is a random press job in the range the program is for.
type aJob struct {
	stack Stack
	rig   Rig
	block float64
	angle geom.Angle
}

// drawTube draws a section 10 to 150 mm deep.
func drawTube(t *rapid.T) profiles.Section {
	d := rapid.Float64Range(10, 150).Draw(t, "depth")
	w := rapid.Float64Range(10, 150).Draw(t, "width")
	share := rapid.Float64Range(0.02, 0.3)
	switch rapid.IntRange(0, 2).Draw(t, "shape") {
	case 0:
		return rectangle(w, d, share.Draw(t, "wall")*min(w, d), 0)
	case 1:
		wall := share.Draw(t, "wall") * min(w, d)
		return rectangle(w, d, wall, min(min(w, d)/2, rapid.Float64Range(0.2, 3).Draw(t, "corner")*wall))
	default:
		return roundTube(d, share.Draw(t, "wall")*d)
	}
}

func drawLaw(t *rapid.T) profiles.Law {
	young := rapid.SampledFrom([]float64{70000, 210000}).Draw(t, "young")
	proof := rapid.Float64Range(60, 600).Draw(t, "proof")
	if rapid.Bool().Draw(t, "perfectly plastic") {
		return epp(young, proof)
	}
	return profiles.RambergOsgood{Youngs: young, Proof: proof, Exponent: rapid.Float64Range(5, 60).Draw(t, "exponent")}
}

// drawJob draws a job whose supports are about as wide as it needs; some jobs
// can't be made.
func drawJob(t *rapid.T) aJob {
	sec := drawTube(t)
	j := aJob{stack: Stack{Tube: Hollow(sec, drawLaw(t)), Depth: sec.Depth}}
	if rapid.Bool().Draw(t, "filled") {
		j.stack.Filler = Massive(sec.Bore(), epp(12700, 26.2))
	}
	if rapid.Bool().Draw(t, "strip") {
		th := rapid.Float64Range(0.05, 0.25).Draw(t, "thickness") * sec.Depth
		j.stack.StripThickness = th
		j.stack.Strip = Massive(profiles.Solid{Width: sec.Width, Depth: th},
			profiles.RambergOsgood{Youngs: 205000, Proof: rapid.Float64Range(200, 900).Draw(t, "strip proof"), Exponent: 15})
	}
	d := sec.Depth
	j.block = d * math.Exp(rapid.Float64Range(math.Log(1.5), math.Log(60)).Draw(t, "ln block/depth"))
	j.angle = geom.Angle(rapid.Float64Range(1, 150).Draw(t, "angle")) * geom.Degree
	j.rig.Roller = d * rapid.Float64Range(0.3, 1.5).Draw(t, "roller/depth")
	reach := min(1, (j.angle*0.55).Sin()) * (j.block + d)
	j.rig.Supports = 2*reach + j.rig.Roller + d*rapid.Float64Range(1, 10).Draw(t, "legs/depth")
	return j
}

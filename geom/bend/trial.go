package bend

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"overbend/geom"
)

// Trial is one bend that was pressed and measured. How deep it was pushed is
// Travel or Loaded; the rest was measured. What was not read is NaN.
type Trial struct {
	Block      float64    // radius of the block used, mm
	Travel     float64    // ram travel from first touch, mm
	Loaded     geom.Angle // angle under load
	Filled     geom.Angle // angle after release, filler in
	Melted     geom.Angle // angle after melt-out
	Chord      float64    // mm, across the inside of the bend after melt-out, about its middle
	Rise       float64    // mm, over Chord
	AngleError geom.Angle // one standard deviation of a measured angle
	RiseError  float64    // one standard deviation of the rise, mm
	// What was set was read too: one standard deviation of Travel in mm, or of
	// Loaded. All readings of the trial share that one error.
	TravelError float64
	LoadedError geom.Angle
}

// set returns what the trial was pushed to and its error, mm or radians.
func (t Trial) set() (value, sd float64) {
	if !math.IsNaN(t.Travel) {
		return t.Travel, t.TravelError
	}
	return float64(t.Loaded), float64(t.LoadedError)
}

// Reading names a measured quantity.
type Reading string

// The readings of a trial.
const (
	ReadFilled Reading = "filled"
	ReadMelted Reading = "melted"
	ReadRise   Reading = "rise"
)

// Residual is one reading of one trial beside the fitted model's value: both
// radians, or mm for a rise.
type Residual struct {
	Trial     int // index in the list of trials
	Reading   Reading
	Measured  float64
	Predicted float64
	Error     float64 // one standard deviation of the reading
	// Set is how far the predicted value moves with one standard deviation of
	// what the trial was pushed to.
	Set float64
}

// Off returns how many of its standard deviations, reading and setting together,
// the reading lies above the predicted value.
func (r Residual) Off() float64 { return (r.Measured - r.Predicted) / math.Hypot(r.Error, r.Set) }

// Fit is what trials say about the metal.
type Fit struct {
	Proof         float64 // effective proof stress, MPa
	ProofError    float64 // one standard deviation, MPa
	Exponent      float64 // Ramberg-Osgood exponent
	ExponentError float64 // one standard deviation; 0 when it was not fitted
	Residuals     []Residual
	AtLimit       bool // the proof stress was stopped by the bounds of the search
}

// Worst returns the residual that is furthest off in its own standard
// deviations. A fit has at least one.
func (f Fit) Worst() Residual {
	return slices.MaxFunc(f.Residuals, func(a, b Residual) int { return cmp.Compare(math.Abs(a.Off()), math.Abs(b.Off())) })
}

// Reduced returns the sum of squared residuals in standard deviations over
// the degrees of freedom, 1 on average for a model that holds; 0 without any.
func (f Fit) Reduced() float64 {
	free := len(f.Residuals) - 1
	if f.ExponentError > 0 {
		free--
	}
	if free <= 0 {
		return 0
	}
	return chi2(f.Residuals) / float64(free)
}

// chi2 returns the squares of residuals, weighted by their covariances.
func chi2(rs []Residual) float64 {
	d := offs(rs)
	return product(rs, d, d)
}

// offs returns the residuals in standard deviations of their readings.
func offs(rs []Residual) []float64 {
	out := make([]float64, len(rs))
	for i, r := range rs {
		out[i] = (r.Measured - r.Predicted) / r.Error
	}
	return out
}

// product returns aᵀ C⁻¹ b of two vectors over the residuals, in standard
// deviations of their readings. C is the covariance of the readings: in each
// trial the identity and the outer product of h, the readings' common share of
// the error of what was set (Sherman and Morrison's formula):
//
//	C⁻¹ = 1 - h hᵀ/(1 + h·h)
func product(rs []Residual, a, b []float64) float64 {
	sum := 0.0
	for from := 0; from < len(rs); {
		var ab, ah, bh, hh float64
		to := from
		for ; to < len(rs) && rs[to].Trial == rs[from].Trial; to++ {
			h := rs[to].Set / rs[to].Error
			ab += a[to] * b[to]
			ah += a[to] * h
			bh += b[to] * h
			hh += h * h
		}
		sum += ab - ah*bh/(1+hh)
		from = to
	}
	return sum
}

// TrialError says that one of the trials can't have happened as it is written.
type TrialError struct {
	Trial int     // index in the list of trials
	Most  float64 // largest value of the travel in mm, or angle under load in radians, that the trial's block reaches; 0 when that is not what is wrong
	Err   error
}

// Error returns the sentence with the trial's number, from 1.
func (e *TrialError) Error() string { return fmt.Sprintf("trial %d: %v", e.Trial+1, e.Err) }

// Unwrap returns the model's error.
func (e *TrialError) Unwrap() error { return e.Err }

// ErrNoLesson is wrapped when the trials hold nothing about the proof stress.
var ErrNoLesson = errors.New("the trials say nothing about the metal")

// fitSpan bounds the fitted proof stress to a factor either way of the start:
// far beyond the factor 2 at which a result is called suspect.
const fitSpan = 6

// leastExponent is the smallest exponent that a fit may try: below 1 the curve
// would turn upwards and the moment fall.
const leastExponent = 1.0

// leastSpread is the ratio of the largest to the smallest block radius among
// the trials from which the exponent can be told apart from the proof stress.
const leastSpread = 1.25

// FitTrials finds the effective proof stress, and with three or more trials on
// blocks that differ enough the exponent as well, by least squares over all
// readings, each weighed by its own error and by that of what was set, in the
// logarithms of both.
// Build returns the stack for a proof stress in MPa and an exponent; proof and
// exponent are where to start.
func FitTrials(trials []Trial, rig Rig, build func(proof, exponent float64) Stack, proof, exponent float64) (Fit, error) {
	span := math.Log(fitSpan)
	at := func(x []float64) Stack {
		n := exponent
		if len(x) > 1 {
			n *= math.Exp(x[1])
		}
		return build(proof*math.Exp(x[0]), n)
	}
	// How far a reading moves with what was set depends a little on the metal:
	// taken at the start, and once more at the answer.
	solve := func(x []float64, lo, hi [2]float64) (best, sd []float64, res []Residual, err error) {
		best = x
		for range 2 {
			moves, err := setMoves(trials, rig, at(best))
			if err != nil {
				return nil, nil, nil, err
			}
			best, sd, res, err = leastSquares(func(x []float64) ([]Residual, error) {
				return readings(trials, rig, at(x), moves)
			}, best, lo, hi)
			if err != nil {
				return nil, nil, nil, err
			}
		}
		return best, sd, res, nil
	}
	fit := func(x, sd []float64, res []Residual) Fit {
		p := proof * math.Exp(x[0])
		f := Fit{Proof: p, ProofError: p * sd[0], Exponent: exponent, Residuals: res, AtLimit: math.Abs(x[0]) >= span}
		if len(x) > 1 {
			f.Exponent *= math.Exp(x[1])
			f.ExponentError = f.Exponent * sd[1]
		}
		return f
	}
	x, sd, res, err := solve([]float64{0}, [2]float64{-span, 0}, [2]float64{span, 0})
	if err != nil {
		return Fit{}, err
	}
	one := fit(x, sd, res)
	if len(trials) < 3 || !spread(trials) {
		return one, nil
	}
	low := max(-span, math.Log(leastExponent/exponent))
	x, sd, res, err = solve([]float64{x[0], 0}, [2]float64{-span, low}, [2]float64{span, span})
	// The exponent is kept only where the readings pin it down; a value that
	// could be half or double as well, or that was stopped by a bound, is worse
	// than the table's.
	if err != nil || sd[1] > 0.3 || math.Abs(x[1]) > math.Log(4) || x[1] <= low {
		return one, nil
	}
	return fit(x, sd, res), nil
}

// spread reports whether the trials' blocks differ by leastSpread.
func spread(trials []Trial) bool {
	lo, hi := math.Inf(1), 0.0
	for _, t := range trials {
		lo, hi = math.Min(lo, t.Block), math.Max(hi, t.Block)
	}
	return hi >= leastSpread*lo
}

// onForms calls f with the press of every trial and the state that it was pushed
// to. Trials on one block share its form.
func onForms(trials []Trial, rig Rig, s Stack, f func(i int, p *Press, st State) error) error {
	forms := map[float64]*Form{}
	for i, t := range trials {
		form := forms[t.Block]
		var err error
		if form == nil {
			if form, err = NewForm(s, t.Block); err != nil {
				return &TrialError{Trial: i, Err: err}
			}
			forms[t.Block] = form
		}
		p, err := form.On(rig)
		if err != nil {
			return &TrialError{Trial: i, Err: err}
		}
		st, err := p.pushed(t, 0)
		if err != nil {
			most := 0.0
			if last, e := p.deepest(); e == nil {
				most = last.Travel
				if math.IsNaN(t.Travel) {
					most = float64(last.Loaded)
				}
			}
			return &TrialError{Trial: i, Most: most, Err: err}
		}
		if err := f(i, p, st); err != nil {
			return &TrialError{Trial: i, Err: err}
		}
	}
	return nil
}

// predicted returns the model's values of the readings that a trial has, in the
// order of [Trial.measured].
func (p *Press) predicted(t Trial, st State) []float64 {
	var out []float64
	for _, m := range t.measured() {
		switch m.reading {
		case ReadFilled:
			out = append(out, float64(st.Filled))
		case ReadMelted:
			out = append(out, float64(st.Melted))
		case ReadRise:
			rise, _ := p.Finished(st).RiseOver(t.Chord, p.stack.Depth)
			out = append(out, rise)
		}
	}
	return out
}

// reading is a measured value and its error.
type reading struct {
	reading Reading
	value   float64
	sd      float64
}

// measured returns the readings that were taken.
func (t Trial) measured() []reading {
	var out []reading
	for _, r := range [...]reading{
		{ReadFilled, float64(t.Filled), float64(t.AngleError)},
		{ReadMelted, float64(t.Melted), float64(t.AngleError)},
		{ReadRise, t.Rise, t.RiseError},
	} {
		if !math.IsNaN(r.value) {
			out = append(out, r)
		}
	}
	return out
}

// readings returns every reading of every trial beside the model's value. Moves
// are those of [setMoves].
func readings(trials []Trial, rig Rig, s Stack, moves [][]float64) ([]Residual, error) {
	var out []Residual
	err := onForms(trials, rig, s, func(i int, p *Press, st State) error {
		want := p.predicted(trials[i], st)
		for k, m := range trials[i].measured() {
			out = append(out, Residual{i, m.reading, m.value, want[k], m.sd, moves[i][k]})
		}
		return nil
	})
	return out, err
}

// setMoves returns, for every reading of every trial, how far it moves with one
// standard deviation of what the trial was pushed to.
func setMoves(trials []Trial, rig Rig, s Stack) ([][]float64, error) {
	const step = 1e-4 // of what was set
	out := make([][]float64, len(trials))
	err := onForms(trials, rig, s, func(i int, p *Press, st State) error {
		t := trials[i]
		value, sd := t.set()
		at := p.predicted(t, st)
		out[i] = make([]float64, len(at))
		if sd == 0 {
			return nil
		}
		// A little less, for a little more may be out of reach.
		less, err := p.pushed(t, -step)
		if err != nil {
			return err
		}
		for k, v := range p.predicted(t, less) {
			out[i][k] = (at[k] - v) / (step * value) * sd
		}
		return nil
	})
	return out, err
}

// leastLesson is the standard deviation of ln(proof), by the stated errors
// alone, above which trials say nothing: a band of a factor e either way.
const leastLesson = 1.0

// leastSquares minimises the weighted squares of f's residuals over one or two
// parameters within bounds, and returns them with their standard deviations (Levenberg and
// Marquardt's method). The deviations are widened where the readings scatter
// more than their stated errors.
func leastSquares(f func([]float64) ([]Residual, error), x []float64, lo, hi [2]float64) (best, sd []float64, res []Residual, err error) {
	n := len(x)
	if res, err = f(x); err != nil {
		return nil, nil, nil, err
	}
	const (
		longest  = 0.5  // step, in logarithms: readings are far from linear beyond
		shortest = 1e-6 // step, far below any band
		stuck    = 1e6  // damping at which no step helps
		worth    = 1e-9 // share of the sum of squares: less is some 1e-4 of a deviation
	)
	damping := 1e-4
	var normal [2][2]float64
	for range 40 {
		var grad [2]float64
		normal = [2][2]float64{}
		jac := make([][]float64, n)
		for j := range n {
			if jac[j], err = slopeOf(f, x, j, res); err != nil {
				return nil, nil, nil, err
			}
		}
		d := offs(res)
		for j := range n {
			grad[j] = product(res, jac[j], d)
			for k := range n {
				normal[j][k] = product(res, jac[j], jac[k])
			}
		}
		size, old, moved := 0.0, chi2(res), false
		// A parameter that its bound holds back stays there, and the other one's
		// step is that for it alone.
		held := normal
		for j := range n {
			if x[j] <= lo[j] && grad[j] < 0 || x[j] >= hi[j] && grad[j] > 0 {
				grad[j], held[0][1], held[1][0] = 0, 0, 0
			}
		}
		for ; damping < stuck; damping *= 10 {
			damped := held
			for j := range n {
				damped[j][j] *= 1 + damping
			}
			step, ok := solve2(damped, grad, n)
			if !ok {
				return nil, nil, nil, errElastic
			}
			size = max(math.Abs(step[0]), math.Abs(step[1]))
			if size < shortest {
				break
			}
			y := make([]float64, n)
			for j := range n {
				y[j] = max(lo[j], min(hi[j], x[j]+step[j]*min(1, longest/size)))
			}
			r, e := f(y)
			if e == nil && chi2(r) < old {
				x, res, moved = y, r, old-chi2(r) > worth*old
				damping = max(damping/10, 1e-9)
				break
			}
		}
		if !moved || size < shortest {
			break
		}
	}
	if n == 1 && normal[0][0] < 1/(leastLesson*leastLesson) && x[0] > lo[0] && x[0] < hi[0] {
		return nil, nil, nil, errElastic
	}
	sd = make([]float64, n)
	scale := 1.0
	if free := len(res) - n; free > 0 {
		scale = math.Max(1, math.Sqrt(chi2(res)/float64(free)))
	}
	for j := range n {
		unit := [2]float64{}
		unit[j] = 1
		col, ok := solve2(normal, unit, n)
		if !ok {
			return nil, nil, nil, errElastic
		}
		sd[j] = scale * math.Sqrt(col[j])
	}
	return x, sd, res, nil
}

// errElastic is what trials within the elastic range come to, and readings with
// hardly any springback in them: both hang on no proof stress.
var errElastic = fmt.Errorf("%w: the tube hardly yielded in them, or hardly sprang back by the readings, which then hardly depend on its proof stress", ErrNoLesson)

// slopeOf returns the derivative of every predicted reading, in standard
// deviations, by parameter j, given the readings at x.
func slopeOf(f func([]float64) ([]Residual, error), x []float64, j int, at []Residual) ([]float64, error) {
	const h = 1e-4 // of a logarithm: readings are good to 1e-9
	y := append([]float64(nil), x...)
	y[j] += h
	next, err := f(y)
	if err != nil {
		return nil, err
	}
	out := make([]float64, len(next))
	for i := range next {
		out[i] = (next[i].Predicted - at[i].Predicted) / h / next[i].Error
	}
	return out, nil
}

// solve2 solves the n x n (n 1 or 2) symmetric system a x = b; false when it is
// as good as singular.
func solve2(a [2][2]float64, b [2]float64, n int) ([2]float64, bool) {
	if n == 1 {
		if a[0][0] < 1e-9 {
			return [2]float64{}, false
		}
		return [2]float64{b[0] / a[0][0]}, true
	}
	det := a[0][0]*a[1][1] - a[0][1]*a[1][0]
	if !(det > 1e-9*a[0][0]*a[1][1]) || a[0][0] < 1e-9 {
		return [2]float64{}, false
	}
	return [2]float64{(b[0]*a[1][1] - b[1]*a[0][1]) / det, (a[0][0]*b[1] - a[1][0]*b[0]) / det}, true
}

// pushed returns the state that a trial was pushed to, or that at so much more of
// it, as a share.
func (p *Press) pushed(t Trial, more float64) (State, error) {
	if !math.IsNaN(t.Travel) {
		return p.ToTravel(t.Travel * (1 + more))
	}
	return p.ToLoaded(t.Loaded * geom.Angle(1+more))
}

// deepest returns the state of the deepest push that the model knows.
func (p *Press) deepest() (State, error) {
	_, s, err := p.mostCrown()
	if err != nil || s.Crown < p.curve.kp {
		return s, err
	}
	_, s, err = p.mostWrap()
	return s, err
}

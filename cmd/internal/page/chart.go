package page

import (
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strings"
	"sync"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/sheet"
	"overbend/geom"
)

// points is how many jobs a chart works out.
const points = 21

// input is one of the job's inputs that a chart varies.
type input struct {
	Name, Label string
	kind        quantity.Kind
	low, high   float64 // shares of the job's own value
	most        float64 // 0: none
	of          func(*plan.Plan) float64
	set         func(*job.Job, float64)
}

// inputs returns what can be varied; the first is shown unless another is asked
// for.
func inputs() []input {
	return []input{
		{"radius", "centreline radius", quantity.Length, 0.5, 1.75, 0,
			func(p *plan.Plan) float64 { return p.Job.Bend.Radius },
			func(j *job.Job, v float64) { j.Bend.Radius = v }},
		{"wall", "wall", quantity.Length, 0.5, 2, 0,
			func(p *plan.Plan) float64 { return p.Job.Tube.Wall },
			func(j *job.Job, v float64) {
				j.Tube.Corner *= v / j.Tube.Wall // a corner goes with the wall
				j.Tube.Wall = v
			}},
		{"yield", "yield strength", quantity.Stress, 0.5, 1.75, 0,
			func(p *plan.Plan) float64 { return p.Metal.Spread.Nominal },
			func(j *job.Job, v float64) {
				j.Trials = nil
				if j.Inline {
					j.Material.Ultimate *= v / j.Material.Proof
					j.Material.Proof = v
				} else {
					j.Allowance = job.Allowance{Mode: job.Computed, Proof: v}
				}
			}},
		{"angle", "angle", quantity.Angle, 0.25, 2, math.Pi,
			func(p *plan.Plan) float64 { return float64(p.Job.Bend.Angle) },
			func(j *job.Job, v float64) { j.Bend.Angle = geom.Angle(v) }},
	}
}

// inputOf returns the input that a form asks for.
func inputOf(f url.Values) input {
	all := inputs()
	for _, in := range all {
		if in.Name == f.Get("over") {
			return in
		}
	}
	return all[0]
}

// chartView is the chart of one input.
type chartView struct {
	Over     input
	Pictures []*picture
	Hatched  bool
	Yield    bool
	Proposed bool // supports
}

// chartOf works a chart out: so many jobs that differ in one input.
func chartOf(v *view, in input) (*chartView, error) {
	own := in.of(v.P)
	high := own * in.high
	if in.most > 0 {
		high = min(high, in.most)
	}
	low := own * in.low
	x := make([]float64, points)
	looks := make([]plan.Outlook, points)
	var tables plan.Tables
	var wait sync.WaitGroup
	const workers = 2
	for n := range workers {
		wait.Go(func() {
			for i := n; i < points; i += workers {
				at := low + (high-low)*float64(i)/(points-1)
				x[i] = v.U.Of(in.kind.Of(at))
				j := v.P.Job
				in.set(&j, at)
				if j.Bend.Radius < j.Tube.Depth || j.Tube.Validate() != nil {
					looks[i] = plan.Outlook{Block: math.NaN(), Stretch: math.NaN()}
					continue
				}
				o, err := tables.Look(j)
				if err != nil {
					o = plan.Outlook{Block: math.NaN(), Stretch: math.NaN()}
				}
				looks[i] = o
			}
		})
	}
	wait.Wait()
	out := &chartView{Over: in, Yield: in.Name == "yield"}
	out.Proposed = v.P.Job.Press.Supports == 0
	works := make([]bool, points)
	for i, o := range looks {
		works[i] = o.Works
		out.Hatched = out.Hatched || !o.Works
	}
	unit := func(k quantity.Kind) string {
		if k == quantity.Angle {
			return "°"
		}
		return v.U.Unit(k)
	}
	for _, c := range []struct {
		name string
		kind quantity.Kind
		of   func(plan.Outlook) float64
	}{
		{"block radius", quantity.Radius, func(o plan.Outlook) float64 { return o.Block }},
		{"force with friction", quantity.Force, func(o plan.Outlook) float64 {
			if o.Force == 0 {
				return math.NaN()
			}
			return o.Force
		}},
		{"stretch of the outer face", quantity.Share, func(o plan.Outlook) float64 { return o.Stretch }},
	} {
		y := make([]float64, points)
		for i, o := range looks {
			y[i] = v.U.Of(c.kind.Of(c.of(o)))
		}
		share := 0.5
		if v.small {
			share = 1
		}
		chart := sheet.Chart{Name: c.name + ", " + unit(c.kind), Over: in.Label + ", " + unit(in.kind), X: x, Lines: []sheet.ChartLine{{Y: y, Works: works}}, At: geom.Pt(v.U.Of(in.kind.Of(own)), math.NaN()), FromNought: c.kind == quantity.Force}
		p, err := v.picture("chart-"+strings.Fields(c.name)[0], capital(c.name)+" over the "+in.Label, chartWords(c.name, v.U.Unit(c.kind), in, x, y, works, v.U), share, 0.72, func(w, h float64) sheet.Picture {
			return v.draw.Chart(chart, w, h)
		})
		if err != nil {
			return nil, err
		}
		if p != nil {
			out.Pictures = append(out.Pictures, p)
		}
	}
	return out, nil
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// chartWords tells a chart to whoever does not see it.
func chartWords(name, unit string, in input, x, y []float64, works []bool, u quantity.Units) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s at a %s of", capital(name), in.Label)
	for _, i := range []int{0, (points - 1) / 4, (points - 1) / 2, 3 * (points - 1) / 4, points - 1} {
		what := "none"
		if !math.IsNaN(y[i]) {
			what = fmt.Sprintf("%.3g %s", y[i], unit)
		}
		if !works[i] {
			what += " (can't be made)"
		}
		fmt.Fprintf(&b, " %.4g %s: %s;", x[i], u.Unit(in.kind), what)
	}
	return strings.TrimSuffix(b.String(), ";") + "."
}

// chart answers with the chart of a form's job.
func (h *handler) chart(w http.ResponseWriter, r *http.Request) {
	h.compute(w, r, func(f url.Values) answer {
		k := h.workOut(f)
		if k.fault != nil {
			return refuse(k.fault)
		}
		html, err := h.chartHTML(newView(k.plan, f), f)
		if err != nil {
			return broken(err)
		}
		return answer{code: http.StatusOK, kind: kindJSON, data: encode(map[string]any{"parts": map[string]string{"p-chart": html}})}
	})
}

func (h *handler) chartHTML(v *view, f url.Values) (string, error) {
	c, err := chartOf(v, inputOf(f))
	if err != nil {
		return "", err
	}
	var b strings.Builder
	err = h.pages.ExecuteTemplate(&b, "part-chart", c)
	return strings.TrimSpace(b.String()), err
}

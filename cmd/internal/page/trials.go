package page

import (
	"fmt"
	"math"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/report"
	"overbend/cmd/internal/sheet"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// trialView is what trials taught.
type trialView struct {
	Fit       []report.Figure
	Residuals *table
	Suspect   bool
	Over      *picture // the next block over the one without trials
}

// newTrialView shows what the trials of a job taught, nil without any that could
// be used.
func newTrialView(v *view) *trialView {
	t := v.P.Metal.Trial
	if t == nil {
		return nil
	}
	u := v.U
	stress := func(mpa float64) string { return u.Show(quantity.Stress.Of(mpa)) }
	out := &trialView{Suspect: t.Suspect != plan.Trusted}
	out.Fit = append(out.Fit, report.Figure{Name: "yield strength", Value: stress(t.Proof), More: fmt.Sprintf("give or take %s (one standard deviation); %s without the trials", stress(t.ProofError), stress(t.Catalogue))})
	if t.ExponentError > 0 {
		out.Fit = append(out.Fit, report.Figure{Name: "exponent of the curve", Value: fmt.Sprintf("%.1f", t.Exponent), More: fmt.Sprintf("give or take %.1f", t.ExponentError)})
	}
	if !out.Suspect {
		out.Fit = append(out.Fit, report.Figure{Name: "next block", Value: u.Show(quantity.Radius.Of(v.P.Nominal.Block)), More: "form block radius"})
		if f := v.P.Forecast; f != nil {
			out.Fit = append(out.Fit, report.Figure{Name: "how sure", Value: "±" + u.Angle(f.Angle), More: fmt.Sprintf("pushed to the travel without measuring; brought to the angle, at most %s off the drawing (two standard deviations of the fit)", u.Length(f.Template))})
			if f.Next.Travel > 0 {
				out.Fit = append(out.Fit, report.Figure{Name: "learn most by", Value: u.Show(quantity.Travel.Of(f.Next.Travel)), More: fmt.Sprintf("stop there on this block and measure: the yield strength would then be known to %s", stress(f.Next.ProofError))})
			}
		}
	}
	out.Residuals = &table{Head: []string{"trial", "reading", "measured", "the fit", "off", "reads to"}}
	for _, r := range t.Residuals {
		show := u.Length
		if r.Reading != bend.ReadRise {
			show = func(x float64) string { return u.Angle(geom.Angle(x)) }
		}
		out.Residuals.Rows = append(out.Residuals.Rows, []string{
			fmt.Sprint(r.Trial + 1), words.Reading(r.Reading, v.P.Job.Filler.Alloy.Name != ""), show(r.Measured), show(r.Predicted), show(math.Abs(r.Measured - r.Predicted)), show(r.Error),
		})
	}
	before := v.P.Job
	before.Trials = nil
	if old, err := plan.New(before); err == nil {
		out.Over, _ = v.picture("over", "The next block over the one before the trials", fmt.Sprintf("Block of radius %s over that of %s before the trials.",
			u.Show(quantity.Radius.Of(v.P.Nominal.Block)), u.Show(quantity.Radius.Of(old.Nominal.Block))), 1, 0.4, func(w, h float64) sheet.Picture {
			return v.draw.Over(sheet.NewPictures(old, u, 3), w, h)
		})
	}
	return out
}

// Trials returns what trials taught, nil without any.
func (v *view) Trials() *trialView { return v.trial }

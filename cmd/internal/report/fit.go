package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// Fit writes what the trials taught and, where they are believed, what to do
// next.
func Fit(w io.Writer, pl *plan.Plan, u quantity.Units) error {
	var p page
	p.head("Trials")
	p.fit(pl, u)
	if pl.Metal.Trial.Suspect == plan.Trusted {
		p.next(pl, u)
	}
	_, err := io.WriteString(w, quantity.Plain(strings.TrimPrefix(p.b.String(), "\n")))
	return err
}

// next says what to do after trials that are believed, and how sure it is.
func (p *page) next(pl *plan.Plan, u quantity.Units) {
	p.head("Next")
	p.row("form block radius", "%s", u.Show(quantity.Radius.Of(pl.Nominal.Block)))
	if q := pl.Press; q != nil {
		p.row("wrap on the block", "%s each side of the middle", u.Show(quantity.Reading.Of(float64(q.Final.HalfWrap))))
		p.row("travel", "%s from first touch, on supports %s apart", u.Show(quantity.Travel.Of(q.Final.Travel)), u.Tape(q.Rig.Supports))
		p.row("angle "+words.UnderPressure, "%s", u.Show(quantity.Reading.Of(float64(q.Final.Loaded))))
	}
	if f := pl.Forecast; f != nil {
		p.row("how sure", "pushed to that travel without measuring, within %s of the angle; brought to the angle, at most %s off the drawn centreline (two standard deviations of the fit)", u.Angle(f.Angle), u.Length(f.Template))
		if f.Next.Travel > 0 {
			p.row("learn most by", "stopping at %s on this block and measuring, before going on: the yield strength would then be known to %s", u.Show(quantity.Travel.Of(f.Next.Travel)), u.Show(quantity.Stress.Of(f.Next.ProofError)))
		}
	}
}

func (p *page) fit(pl *plan.Plan, u quantity.Units) {
	t := pl.Metal.Trial
	p.row("yield strength", "%s, give or take %s (one standard deviation); %s without the trials", u.Show(quantity.Stress.Of(t.Proof)), u.Show(quantity.Stress.Of(t.ProofError)), u.Show(quantity.Stress.Of(t.Catalogue)))
	if t.ExponentError > 0 {
		p.row("exponent of the curve", "%.1f, give or take %.1f", t.Exponent, t.ExponentError)
	}
	for _, r := range t.Residuals {
		show := u.Length
		if r.Reading != bend.ReadRise {
			show = func(v float64) string { return u.Angle(geom.Angle(v)) }
		}
		p.row(fmt.Sprintf("trial %d, %s", r.Trial+1, words.Reading(r.Reading, pl.Job.Filler.Alloy.Name != "")), "measured %s, the fit gives %s (%s off, reads to %s)",
			show(r.Measured), show(r.Predicted), show(math.Abs(r.Measured-r.Predicted)), show(r.Error))
	}
	if t.Suspect != plan.Trusted {
		p.row("verdict", "not to be believed: see why it stops")
	}
}

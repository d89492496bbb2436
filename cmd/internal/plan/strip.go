package plan

import (
	"overbend/cmd/internal/job"
	"overbend/geom/bend"
	"overbend/profiles"
)

// Strip is the backing strip as bought: the job's thickness, or the nearest
// stock thickness to a sixth of the depth (common practice, no source: a
// quarter inch behind a 1-1/2 in tube).
type Strip struct {
	profiles.StockStrip
	Curve profiles.Curve // at its nominal proof stress
	law   profiles.Law   // the curve's
}

// StripAfter is the strip after release.
type StripAfter struct {
	bend.StripAfter
	Reusable bool
}

func stripOf(j job.Job) Strip {
	m := j.Strip.Material
	s := Strip{Curve: m.Curve(m.Spread().Nominal, 0)}
	if j.Strip.Thickness > 0 {
		s.StockStrip = profiles.StockStrip{Thickness: j.Strip.Thickness, Inch: j.Inches}
	} else {
		s.StockStrip = profiles.NearestStrip(j.Tube.Depth/6, j.Inches)
	}
	s.law = s.Curve.Law()
	return s
}

// hollow returns the tube of a metal of a law, as it unloads.
func hollow(j job.Job, law profiles.Law) bend.Member {
	m := bend.Hollow(j.Tube, law)
	m.Unload = j.Material.Unloading
	return m
}

// stack returns what lies under the block, with the tube's metal of a law.
func stack(j job.Job, strip Strip, tube profiles.Law) bend.Stack {
	s := bend.Stack{
		Tube:           hollow(j, tube),
		Depth:          j.Tube.Depth,
		StripThickness: strip.Thickness,
		Strip:          bend.Massive(profiles.Solid{Width: j.Tube.Width, Depth: strip.Thickness}, strip.law),
	}
	s.Filler = filling(j)
	return s
}

// filling returns the filler in the tube's bore; none without one.
func filling(j job.Job) bend.Member {
	f := j.Filler.Alloy
	if f.Name == "" {
		return bend.Member{}
	}
	return bend.Massive(j.Tube.Bore(), profiles.ElasticPlastic{Youngs: f.Youngs, Yield: f.Yield})
}

// after returns what the strip keeps of a state: it was bent over what lay on
// the block, or where nothing did over all that yields.
func (s Strip) after(under bend.Stack, final bend.State) StripAfter {
	k := under.StripCurvature(final.Crown)
	bent := 2 * final.Developed()
	if final.HalfWrap > 0 {
		bent = 2 * float64(final.HalfWrap) / k
	}
	a := bend.ReleaseStrip(under.Strip, k, bent)
	return StripAfter{a, a.Rise <= s.Thickness/2}
}

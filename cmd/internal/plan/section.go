package plan

import (
	"math"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
	"overbend/geom/bend"
)

// Section is what the bend does to the tube's section.
type Section struct {
	After bend.After
	Left  bend.Remains // of the section's stiffness and strength
	Used  float64      // share of the elongation used up at the outer face
	// Bent is the strain at the faces about mid-depth, by which buckling is
	// judged: the inner face, nearer the neutral line, has a little less.
	Bent      float64
	Buckling  bend.Buckling // of an empty tube
	NeedsFill bool
}

const (
	// elongationWarning is the share of the elongation after fracture above which
	// a bend is warned of: common practice, no source.
	elongationWarning = 0.7
	// fillMargin is by how much an empty tube's walls must hold more than the
	// bend asks of them: common practice, no source.
	fillMargin = 1.5
)

// section works out what pressing the tube to curvature k, 1/mm, does to it, and
// whether it must be filled.
func section(j job.Job, m Metal, k float64) (Section, []words.Advice, error) {
	s, err := deformed(j, m, k)
	if err != nil {
		return s, nil, err
	}
	if s.Buckling, err = bend.BucklingStrain(j.Tube, m.law(m.Curve.Proof), j.Material.Poisson); err != nil {
		return s, nil, err
	}
	s.NeedsFill = s.Bent >= s.Buckling.Strain
	said, err := s.stretch(j, func() (words.Reason, error) { return leastRadius(j, m) })
	return s, append(append(said, s.filling(j)...), s.left(words.BendLeft, "stiffness")), err
}

// left says what the bend left of the section.
func (s Section) left(c words.Code, about string) words.Advice {
	share := quantity.Share.Of
	return say(words.Note, words.Check, about, c, words.Figures{
		"stiffness": share(s.Left.InertiaShare), "modulus": share(s.Left.ModulusShare), "area": share(s.Left.AreaShare),
	})
}

// deformed works out the stretch alone. As everywhere else tube and filler slide
// on each other, so the filler has no part in where the tube's neutral line lies:
// that is on the safe side for the outer face.
func deformed(j job.Job, m Metal, k float64) (Section, error) {
	s := Section{Bent: k * j.Tube.Depth / 2}
	var err error
	if s.After, err = bend.Deform(j.Tube, m.law(m.Curve.Proof), bend.Member{}, k); err != nil {
		return s, err
	}
	s.Left = bend.Remain(j.Tube, k, s.After)
	if j.Material.Elongation > 0 {
		s.Used = s.After.OuterStrain / j.Material.Elongation
	}
	return s, nil
}

// stretch says whether the outer face may break, and what would not break it: a
// radius on the drawing, or on the shelf.
func (s Section) stretch(j job.Job, instead func() (words.Reason, error)) ([]words.Advice, error) {
	share := quantity.Share.Of
	f := words.Figures{
		"strain": share(s.After.OuterStrain), "used": share(s.Used),
		"elongation": share(j.Material.Elongation), "metal": j.Material.Name,
	}
	switch {
	case s.Used > 1:
		var err error
		f["instead"], err = instead()
		return []words.Advice{say(words.Stop, words.Design, "bend.radius", words.StretchBreaks, f)}, err
	case s.Used > elongationWarning:
		return []words.Advice{say(words.Warning, words.Design, "elongation", words.StretchNear, f)}, nil
	}
	return nil, nil
}

// leastRadius names the least centreline radius of a drawing that does not
// stretch the tube to breaking.
func leastRadius(j job.Job, m Metal) (words.Reason, error) {
	return leastOf(j.Bend.Radius, words.LeastRadius, func(r float64) (bool, error) {
		j.Bend.Radius = r
		k := j.Bend.Curvature()
		if m.Ratio > 0 {
			k /= m.Ratio
		} else {
			o, err := overbend(j, m, m.Spread.Nominal)
			if err != nil {
				return false, err
			}
			k = o.Pressed.Curvature()
		}
		s, err := deformed(j, m, k)
		return s.Used <= 1, err
	})
}

// leastBlock names the least radius of a block that does not, from one that does.
func leastBlock(j job.Job, m Metal, block float64) (words.Reason, error) {
	return leastOf(block, words.LeastBlock, func(r float64) (bool, error) {
		s, err := deformed(j, m, geom.BendOnFace(r, j.Tube.Depth, 0).Curvature())
		return s.Used <= 1, err
	})
}

// leastOf names the least radius in mm, to a tenth of a mm upwards, from which on
// something holds that does not at bad; [words.NoRadius] where none is found up
// to a million times that.
func leastOf(bad float64, code words.Code, holds func(float64) (bool, error)) (words.Reason, error) {
	lo, hi := bad, 2*bad
	for range 20 {
		ok, err := holds(hi)
		if err != nil {
			return words.Reason{}, err
		}
		if !ok {
			lo, hi = hi, 2*hi
			continue
		}
		for hi-lo > 0.1 {
			mid := (lo + hi) / 2
			if ok, err = holds(mid); err != nil {
				return words.Reason{}, err
			}
			if ok {
				hi = mid
			} else {
				lo = mid
			}
		}
		return words.Reason{Code: code, Figures: words.Figures{"radius": words.Limit{Value: quantity.Length.Of(math.Ceil(10*hi) / 10)}}}, nil
	}
	return words.Reason{Code: words.NoRadius}, nil
}

// filling says whether the tube must be filled.
func (s Section) filling(j job.Job) []words.Advice {
	wall := words.InnerWall
	if s.Buckling.Web {
		wall = words.SideWalls
	}
	f := words.Figures{
		"wall": words.Reason{Code: wall}, "buckling": quantity.Share.Of(s.Buckling.Strain),
		"strain": quantity.Share.Of(s.Bent), "margin": quantity.Number.Of(fillMargin),
	}
	filled, near := j.Filler.Alloy.Name != "", s.Buckling.Strain < fillMargin*s.Bent
	level, code := words.Note, words.HoldsEmpty
	switch {
	case s.NeedsFill && filled:
		code = words.WrinklesButFilled
	case s.NeedsFill:
		level, code = words.Warning, words.WrinklesEmpty
	case near && filled:
		code = words.NearWrinklesFilled
	case near:
		level, code = words.Warning, words.FillOrTry
	}
	return []words.Advice{say(level, words.Fill, "filling", code, f)}
}

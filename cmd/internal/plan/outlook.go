package plan

import "overbend/cmd/internal/job"

// Outlook is what a bend would ask for, without the parts and the advice that a
// [Plan] works out: a point of a chart.
type Outlook struct {
	Block float64 // radius, mm
	// Force is the largest on the way with friction, N, as [Press.PeakRubbed], on
	// the job's supports or those that would be proposed; 0 where no press state
	// makes the part.
	Force   float64
	Stretch float64 // of the outer face
	// Works reports whether the metal stretches so far and the press pushes so
	// hard and so far, over the metal's range. Whether every part can be cut it does
	// not ask.
	Works bool
}

// Look works out an outlook. An error is the job's fault, or a bug.
func Look(j job.Job) (Outlook, error) { return new(Tables).Look(j) }

// Look is [Look] with the tables of jobs before.
func (t *Tables) Look(j job.Job) (Outlook, error) {
	var o Outlook
	strip := t.strip(j, stripOf(j))
	m, _, err := metal(j, strip)
	if err != nil {
		return o, err
	}
	m.laws = t.metal(j, m)
	over, _, err := springback(j, m)
	if err != nil {
		return o, err
	}
	o.Block = over.Nominal.Block
	sec, err := deformed(j, m, over.Nominal.Pressed.Curvature())
	if err != nil {
		return o, err
	}
	o.Stretch = sec.After.OuterStrain
	s, err := newSite(j, m, strip, o.Block)
	if err != nil {
		return o, err
	}
	model, final, err := s.on()
	if err != nil {
		return o, nil // no state of this press makes the angle
	}
	if o.Force, err = model.Peak(final, j.Press.Friction); err != nil {
		return o, nil
	}
	run, ok := s.run(model.Rig())
	if !ok {
		return o, nil
	}
	o.Works = sec.Used <= 1 && s.takes(run)
	return o, nil
}

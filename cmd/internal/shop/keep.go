package shop

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"overbend/cmd/internal/keyed"
	"overbend/profiles"
)

// Kept is what is to be kept of a job's trials.
type Kept struct {
	Name string // for the metal
	Base string // the listed metal that the job was of
	Part
}

// Keep writes what trials taught into the shop file at path, under a name of the
// user's, and returns the metal as it is from now on. Trials that count already
// are replaced, those of other jobs joined.
func Keep(path string, k Kept) (Metal, error) {
	if err := Free(k.Name); err != nil {
		return Metal{}, err
	}
	var after Metal
	err := update(path, func(text string) (string, error) {
		s, err := Parse(path, text)
		if err != nil {
			return "", err
		}
		out, err := s.keep(text, k)
		if err != nil {
			return "", err
		}
		if s, err = Parse(path, out); err != nil {
			return "", err
		}
		after, _ = s.Metal(k.Name)
		return out, nil
	})
	return after, err
}

// Free returns an error for the name of a listed metal, which none that is kept may
// have, and for one that a job file could not hold.
func Free(name string) error {
	name = strings.TrimSpace(name)
	switch base, err := listed(name); {
	case name == "":
		return fmt.Errorf("a metal without a name can't be kept; name the bar, like bar-7")
	case err == nil:
		return fmt.Errorf("%s is a listed metal; name the bar, like %s-bar-7", base, base)
	case strings.ContainsFunc(name, func(r rune) bool { return r < ' ' }) || len([]rune(name)) > keyed.Longest:
		return fmt.Errorf("a name is one line of at most %d characters", keyed.Longest)
	}
	return nil
}

// keep returns the text of the shop file with what is kept in it.
func (s Shop) keep(text string, k Kept) (string, error) {
	name := strings.TrimSpace(k.Name)
	i := slices.IndexFunc(s.Metals, func(m Metal) bool { return same(m.Name, name) })
	unit := (&keyed.Reader{Units: s.Units}).Stresses()
	var err error
	set := func(path, value string) {
		if err == nil {
			text, err = keyed.Set(text, path, value)
		}
	}
	grow := func(path string) string {
		var element string
		if err == nil {
			text, element, err = keyed.Append(text, path)
		}
		return element
	}
	remove := func(path string) {
		if err == nil {
			text, err = keyed.Remove(text, path)
		}
	}
	number := func(path string, v float64) {
		if v > 0 {
			set(path, strconv.FormatFloat(v, 'g', 4, 64))
		} else {
			remove(path)
		}
	}
	lesson := func(path string, l Lesson) {
		set(path+".proof", keyed.Quote(written(l.Proof, unit)))
		set(path+".proof_error", keyed.Quote(written(l.ProofError, unit)))
	}
	part := func(path string, p Part) {
		set(path+".job", keyed.Quote(p.Job))
		lesson(path, p.Lesson)
		number(path+".exponent", p.Exponent)
		number(path+".exponent_error", p.ExponentError)
		var all []string
		for _, d := range p.Of {
			all = append(all, keyed.Quote(d))
		}
		if all != nil {
			set(path+".of", "["+strings.Join(all, ", ")+"]")
		}
	}
	if i < 0 {
		metal := grow("metal")
		set(metal+".name", keyed.Quote(name))
		set(metal+".base", keyed.Quote(k.Base))
		joined := Join([]Lesson{k.Lesson})
		lesson(metal, joined)
		number(metal+".exponent", joined.Exponent)
		part(grow(metal+".trials"), k.Part)
		return text, err
	}
	m, metal := s.Metals[i], "metal["+strconv.Itoa(i)+"]"
	if m.Base != k.Base {
		return "", fmt.Errorf("%s was kept of %s, and the job's metal is %s; keep it under another name", m.Name, m.Base, k.Base)
	}
	joined := m.With(k.Lesson, k.Of)
	lesson(metal, joined)
	if joined.Exponent > 0 || m.ExponentError > 0 { // one written by hand stays
		number(metal+".exponent", joined.Exponent)
	}
	if len(m.Trials) == 0 { // what was written by hand counts on
		part(grow(metal+".trials"), Part{Job: byHand, Lesson: Lesson{Proof: m.Proof, ProofError: m.ProofError}})
	}
	// The job's own trials take the place of those that count already.
	var again []int
	for n, p := range m.Trials {
		if p.counts(k.Of) {
			again = append(again, n)
		}
	}
	trials := metal + ".trials"
	if again == nil {
		part(grow(trials), k.Part)
		return text, err
	}
	part(trials+"["+strconv.Itoa(again[0])+"]", k.Part)
	for _, n := range slices.Backward(again[1:]) {
		remove(trials + "[" + strconv.Itoa(n) + "]")
	}
	return text, err
}

// byHand stands for a job where a metal was written into the file by a person.
const byHand = "by hand"

// written returns a stress in the file's unit, in as many figures as it is worth.
func written(mpa float64, unit keyed.Unit) string { return unit.Rounded(mpa, 4) }

// Lot says whether a job's bar is of the lot that a kept metal was learned from.
type Lot string

// The lots.
const (
	NewLot  Lot = "new"  // another delivery of the metal
	SameLot Lot = "same" // the bar itself, or one delivered with it
)

// Material returns the row of the catalogue under a kept metal, for a wall in mm and
// a shape of tube.
func (m Metal) Material(wall float64, shape profiles.Shape) (profiles.Material, error) {
	return profiles.FindMaterial(m.Base, wall, shape)
}

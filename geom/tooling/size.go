package tooling

import (
	"fmt"
	"math"
	"strconv"
)

// SizeError says that a part can't be made as asked, and which dimension to
// change.
type SizeError struct {
	Part      string  // "block", "cheek", "inside template" ...
	Dimension string  // the one to change: "height", "hole", "plate", "angle" ...
	Unit      string  // "mm" or "deg"
	Value     float64 // as asked, in Unit
	Least     float64 // smallest that is allowed, in Unit; 0: no lower limit
	Most      float64 // largest that is allowed, in Unit; 0: no upper limit
	Why       string  // what stands against it
}

// Error returns one sentence: part, dimension, value, reason, what is allowed.
func (e *SizeError) Error() string {
	s := fmt.Sprintf("%s: %s %s %s", e.Part, e.Dimension, e.figure(math.Round(e.Value*100)), e.Why)
	// A limit is rounded to its safe side, so that what is printed is allowed.
	least, most := e.figure(math.Ceil(e.Least*100-1e-6)), e.figure(math.Floor(e.Most*100+1e-6))
	switch {
	case e.Least > 0 && e.Most > 0:
		s += ": allowed is " + least + " to " + most
	case e.Least > 0:
		s += ": allowed is " + least + " or more"
	case e.Most > 0:
		s += ": allowed is " + most + " or less"
	}
	return s
}

// figure prints hundredths of the unit.
func (e *SizeError) figure(hundredths float64) string {
	return strconv.FormatFloat(hundredths/100, 'f', -1, 64) + " " + e.Unit
}

// named is a dimension in mm and what the job file calls it.
type named struct {
	name  string
	value float64
}

// positive returns an error unless every dimension is a number above 0 and
// below a kilometre.
func positive(part string, dims ...named) error {
	for _, d := range dims {
		if !(d.value > 0) {
			return &SizeError{Part: part, Dimension: d.name, Unit: "mm", Value: d.value, Why: "is not allowed, it must be more than 0 mm"}
		}
		if d.value > 1e6 {
			return &SizeError{Part: part, Dimension: d.name, Unit: "mm", Value: d.value, Why: "is too large", Most: 1e6}
		}
	}
	return nil
}

// within returns an error unless v is a number from 0 to most.
func within(part, name string, v, most float64) error {
	if !(v >= 0) {
		return &SizeError{Part: part, Dimension: name, Unit: "mm", Value: v, Why: "is not allowed, it must be 0 mm or more"}
	}
	if v > most {
		return &SizeError{Part: part, Dimension: name, Unit: "mm", Value: v, Why: "is too large", Most: most}
	}
	return nil
}

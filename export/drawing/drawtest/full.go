package drawtest

import "errors"

// ErrFull is what a full [Disk] says.
var ErrFull = errors.New("disk full")

// Disk is a writer that takes Left bytes, then fails.
type Disk struct{ Left int }

// Write takes what there is room for; short of all of b it returns [ErrFull].
func (d *Disk) Write(b []byte) (int, error) {
	n := min(len(b), d.Left)
	d.Left -= n
	if n < len(b) {
		return n, ErrFull
	}
	return n, nil
}

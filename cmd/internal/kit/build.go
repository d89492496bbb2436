package kit

import (
	"bytes"
	"fmt"
	"io"

	"overbend/cmd/internal/plan"
)

// task is a file that is still to be written into memory.
type task struct {
	name          string
	width, height float64 // mm
	purpose       string
	write         func(io.Writer) error
}

// Build returns the files of a plan's kit but for its ledger, cut files first.
// The plan must hold all its parts.
func Build(p *plan.Plan, o Options) ([]File, error) {
	paper, err := printTasks(p, o)
	if err != nil {
		return nil, err
	}
	// The PDF is by far the largest: start it first, list it last.
	tasks := append(cutTasks(p, o), paper...)
	files := make([]File, len(tasks))
	err = each(len(tasks), func(k int) error {
		i := len(tasks) - 1 - k
		t := tasks[i]
		var b bytes.Buffer
		b.Grow(8 << 10)
		if err := t.write(&b); err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
		files[i] = File{t.name, b.Bytes(), t.width, t.height, t.purpose}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return files, nil
}

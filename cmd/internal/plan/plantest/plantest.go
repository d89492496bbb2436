// Package plantest works out job files for tests: what a plan's readers all
// need. It checks nothing itself.
package plantest

import (
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
)

// Read works out the job file at path, or ends the test.
func Read(t testing.TB, path string) *plan.Plan {
	t.Helper()
	j, err := job.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.New(j)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

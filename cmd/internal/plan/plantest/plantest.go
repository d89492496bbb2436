// Package plantest works out job files for tests: what a plan's readers all
// need. It checks nothing itself.
package plantest

import (
	"path/filepath"
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

// Examples returns the paths of all example jobs and the demo, given the way to
// the top of the module, or ends the test.
func Examples(t testing.TB, top string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(top, "testdata/jobs/*.toml"))
	if err != nil || len(files) < 6 {
		t.Fatalf("%d example jobs, %v", len(files), err)
	}
	return append(files, filepath.Join(top, "testdata/davit-arm.toml"))
}

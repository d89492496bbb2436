package plan_test

import (
	"os"
	"testing"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
)

// BenchmarkNew is a whole job worked out: what a row of a table costs.
func BenchmarkNew(b *testing.B) {
	for _, name := range []string{"davit-arm", "jobs/canopy-hoop", "jobs/mudguard-stay", "jobs/deck-beam", "jobs/gate-arch"} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			data, err := os.ReadFile("../../../testdata/" + name + ".toml")
			if err != nil {
				b.Fatal(err)
			}
			j, err := job.Parse(name, data)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, err := plan.New(j); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

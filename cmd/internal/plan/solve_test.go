package plan

import (
	"os"
	"testing"

	"overbend/cmd/internal/job"
)

// BenchmarkSolve is the mechanics of a job alone: springback, the metal's range,
// supports and the way at the press; how many a second on all cores.
func BenchmarkSolve(b *testing.B) {
	for _, name := range []string{"davit-arm", "jobs/deck-beam", "jobs/canopy-hoop", "jobs/gate-arch"} {
		b.Run(name, func(b *testing.B) {
			data, err := os.ReadFile("../../../testdata/" + name + ".toml")
			if err != nil {
				b.Fatal(err)
			}
			j, err := job.Parse(name, data)
			if err != nil {
				b.Fatal(err)
			}
			var tables Tables
			b.RunParallel(func(each *testing.PB) {
				for each.Next() {
					strip := tables.strip(j, stripOf(j))
					m, _, err := metal(j, strip)
					if err != nil {
						b.Error(err)
						return
					}
					m.laws = tables.metal(j, m)
					s, _, err := springback(j, m)
					if err != nil {
						b.Error(err)
						return
					}
					if _, _, err := press(j, m, strip, s.Working); err != nil {
						b.Error(err)
						return
					}
				}
			})
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "solves/s")
		})
	}
}

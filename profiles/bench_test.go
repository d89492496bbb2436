package profiles_test

import (
	"testing"

	"overbend/profiles"
)

// sink keeps the compiler from dropping what a benchmark computes.
var sink float64

// strains are the demo's: elastic, at the knee and well past it.
var strains = [...]float64{1e-4, 2e-3, 3.4e-3, 5e-3, 0.02, 0.05, 0.08}

func BenchmarkStress(b *testing.B) {
	l := profiles.RambergOsgood{Youngs: 70000, Proof: 287.5, Exponent: 29.63}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sink += l.Stress(strains[i%len(strains)])
	}
}

func BenchmarkStressMoment(b *testing.B) {
	l := profiles.RambergOsgood{Youngs: 70000, Proof: 287.5, Exponent: 29.63}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sink += l.StressMoment(strains[i%len(strains)])
	}
}

func BenchmarkTwoStageMoment(b *testing.B) {
	l := profiles.TwoStage{Youngs: 205000, Proof: 425, Ultimate: 506, Exponent: 8, Uniform: 0.1, Second: 3.8}
	for i := 0; b.Loop(); i++ {
		sink += l.StressMoment(strains[i%len(strains)])
	}
}

func BenchmarkTangent(b *testing.B) {
	l := profiles.RambergOsgood{Youngs: 70000, Proof: 287.5, Exponent: 29.63}
	for i := 0; b.Loop(); i++ {
		sink += l.Tangent(strains[i%len(strains)])
	}
}

func BenchmarkFindMaterial(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		m, err := profiles.FindMaterial("spring strip", 1.5, profiles.Rectangle) // the last row
		if err != nil {
			b.Fatal(err)
		}
		sink += m.Proof
	}
}

func BenchmarkFindMaterialUnknown(b *testing.B) {
	for b.Loop() {
		if _, err := profiles.FindMaterial("6802-T6", 3, profiles.Rectangle); err == nil {
			b.Fatal("found")
		}
	}
}

func BenchmarkFindFiller(b *testing.B) {
	for b.Loop() {
		f, err := profiles.FindFiller("158")
		if err != nil {
			b.Fatal(err)
		}
		sink += f.Density
	}
}

func BenchmarkMaterials(b *testing.B) {
	for b.Loop() {
		sink += float64(len(profiles.Materials()))
	}
}

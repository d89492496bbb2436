package plan

import "math"

// Slab is one thing in the stack between the outer faces of the cheeks.
type Slab struct {
	What      SlabKind
	Thickness float64 // mm
	Radius    float64 // of a block plate's working arc, mm
}

// SlabKind says what a slab is.
type SlabKind string

// The kinds.
const (
	CheekSlab   SlabKind = "cheek"
	PlateSlab   SlabKind = "plate"
	PackingSlab SlabKind = "packing"
)

// Stack returns what is bolted together, from one side of the tube to the other.
func (t Tools) Stack() []Slab {
	if len(t.Block.Stack) == 0 {
		return nil
	}
	out := []Slab{{What: CheekSlab, Thickness: t.Plate}}
	for _, l := range t.Block.Stack {
		s := Slab{PlateSlab, l.Thickness, l.Radius}
		if l.Packing {
			s.What = PackingSlab
		}
		out = append(out, s)
	}
	return append(out, Slab{What: CheekSlab, Thickness: t.Plate})
}

// Bolt is what the stack is bolted together with.
type Bolt struct {
	Name   string  // of its thread: "M12", "1/2"
	Size   float64 // of the thread, mm
	Length float64 // under the head, mm
	Grip   float64 // over both cheeks and what is between them, mm
	Beyond float64 // least that it must reach beyond the grip, for washers, nut and threads, mm
}

// thread is a bolt's thread and its size, mm.
type thread struct {
	name string
	size float64
}

// clearance is the least in mm that a hole must be larger than a bolt: common
// practice, no source.
const clearance = 0.25

// threads returns the sizes of coarse bolts that a shop has, smallest first.
func threads(inch bool) []thread {
	if inch {
		return []thread{{"1/8", 3.175}, {"1/4", 6.35}, {"5/16", 7.9375}, {"3/8", 9.525}, {"1/2", 12.7}, {"5/8", 15.875}, {"3/4", 19.05}, {"1", 25.4}, {"1-1/4", 31.75}}
	}
	return []thread{{"M3", 3}, {"M4", 4}, {"M5", 5}, {"M6", 6}, {"M8", 8}, {"M10", 10}, {"M12", 12}, {"M16", 16}, {"M20", 20}, {"M24", 24}, {"M30", 30}, {"M36", 36}}
}

// Bolt returns the stack's bolts, by inch threads or metric ones: the largest that
// its holes pass, long enough for both cheeks and what is between them, two
// washers, a nut and two threads, in steps of 5 mm or 1/4 in (common practice, no
// source: one and a half diameters beyond the grip). False says that the holes
// pass none.
func (t Tools) Bolt(inch bool) (Bolt, bool) {
	step := 5.0
	if inch {
		step = 6.35
	}
	grip := 0.0
	for _, s := range t.Stack() {
		grip += s.Thickness
	}
	var b Bolt
	for _, th := range threads(inch) {
		if th.size+clearance <= t.Block.Hole {
			beyond := 1.5 * th.size
			b = Bolt{th.name, th.size, math.Ceil((grip+beyond)/step) * step, grip, beyond}
		}
	}
	return b, b.Size > 0 && grip > 0
}

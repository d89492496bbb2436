package drawn

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
)

// The davit arm and the centreline that .ci/make_drawings.py draws.
func arm() want {
	return want{radius: 420, depth: 40, angle: 33 * geom.Degree, legs: [2]float64{250, 250}, cuts: [2]geom.Angle{0, 22.5 * geom.Degree}}
}

func axis() want {
	return want{radius: 300, depth: 40, angle: 45 * geom.Degree, legs: [2]float64{120, 180}}
}

// What a general library writes gives the same jobs in every version. $DRAWINGS is
// another folder of such files, made afresh.
func TestVersions(t *testing.T) {
	dir := os.Getenv("DRAWINGS")
	if dir == "" {
		dir = "../../../testdata/drawings"
	}
	files, err := filepath.Glob(filepath.Join(dir, "r*.dxf"))
	if err != nil || len(files) != 7 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		o := Options{}
		if filepath.Base(path) == "r12.dxf" {
			// The library writes no unit into an R12.
			var no *Refusal
			if _, err := Read(bytes.NewReader(data), o); !errors.As(err, &no) || no.Code != words.DrawingNoUnit {
				t.Errorf("%s: %v", path, err)
			}
			o.Unit = 1
		}
		for _, c := range []struct {
			layer string
			want  want
			mm    float64
			notes int // besides the layer that is off
		}{
			{"EDGES", arm(), 1e-6, 0},
			{"Mirror", arm().mirrored(), 1e-6, 0}, // names of layers have no case
			{"AXIS-Ä", axis(), 1e-6, 0},
			{"FACETS", axis(), 1e-4, 1},
			{"CURVE", axis(), 0.05, 2},
		} {
			o.Layer = c.layer
			g := filled(0)
			g.Depth = 40
			if err := c.want.agrees(read(t, data, o, g), c.mm); err != nil {
				t.Errorf("%s, %s: %v", path, c.layer, err)
			}
			f, _ := Read(bytes.NewReader(data), o)
			if n := len(f.Candidates[0].Notes); n < min(c.notes, 1) || n > c.notes {
				t.Errorf("%s, %s: %d notes: %v", path, c.layer, n, f.Candidates[0].Notes)
			}
			if len(f.Notes) == 0 || f.Notes[len(f.Notes)-1].Code != words.DrawingSkipped {
				t.Errorf("%s, %s: nothing said of the layer that is off: %v", path, c.layer, f.Notes)
			}
		}
		o.Layer = ""
		f, err := Read(bytes.NewReader(data), o)
		if err != nil || len(f.Candidates) != 2 || f.Candidates[0].Layer != "EDGES" || f.Candidates[1].Layer != "MIRROR" {
			t.Errorf("%s: %v, %+v", path, err, f.Candidates)
		}
	}
}

// plain is a drawing in mm of loose lines, each on a layer.
func plain(on map[string][]geom.Segment, decimals int) []byte {
	return file(4, func(*pen) {}, func(p *pen) {
		p.decimals = decimals
		for _, layer := range []string{"A", "B", "C"} {
			p.loose(layer, on[layer])
		}
	})
}

func find(t interface{ Fatalf(string, ...any) }, data []byte) Found {
	f, err := Read(bytes.NewReader(data), Options{})
	if err != nil {
		t.Fatalf("%v", err)
	}
	return f
}

func has(notes []words.Reason, code words.Code) bool {
	for _, n := range notes {
		if n.Code == code {
			return true
		}
	}
	return false
}

// Small gaps and kinks are mended and told; the job is off by no more than they are,
// as a lever makes it.
func TestMended(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWant(t)
		w.angle = geom.Angle(rapid.Float64Range(15, 150).Draw(t, "sweep")) * geom.Degree
		w.radius += 100
		for i := range w.legs {
			w.legs[i] += 50
		}
		segs := w.centreline().Segments()
		gap := rapid.Float64Range(0.02, 0.09).Draw(t, "gap")
		dir := geom.Angle(rapid.Float64Range(0, 6.28).Draw(t, "dir"))
		at := rapid.IntRange(0, 2).Draw(t, "piece")
		move := geom.Translate(geom.Polar(gap, dir))
		segs[at] = segs[at].Apply(move)
		f := find(t, plain(map[string][]geom.Segment{"A": segs}, 9))
		if len(f.Candidates) != 1 {
			t.Fatalf("%d candidates, %v", len(f.Candidates), f.Notes)
		}
		c := f.Candidates[0]
		if !has(c.Notes, words.DrawingGap) || has(c.Notes, words.DrawingKink) {
			t.Fatalf("notes %v", c.Notes)
		}
		// A leg moved by gap moves the corner by gap over the sine of the angle.
		allowed := 3 * gap / math.Abs(w.angle.Sin()) * (1 + (w.angle / 2).Tan())
		if math.Abs(c.Bend.Radius-w.radius) > 1e-6 || math.Abs(c.Legs[0]-w.legs[0]) > allowed || math.Abs(c.Legs[1]-w.legs[1]) > allowed || math.Abs((c.Bend.Angle-w.angle).Degrees()) > 1e-6 {
			t.Fatalf("%+v of %+v", c, w)
		}
		for i := range 2 {
			if math.Abs(c.Centre.Dist(c.Start[i])-w.radius) > 1e-6 || math.Abs(c.Start[i].Sub(c.Centre).Dot(c.Out[i])) > 1e-6 {
				t.Fatalf("centre %v, tangent point %v", c.Centre, c.Start[i])
			}
		}
	})
}

// A kink within the tolerance turns the leg: the angle is that between the legs. One
// beyond it is a corner.
func TestKink(t *testing.T) {
	for _, c := range []struct {
		kink geom.Angle
		legs int
	}{{0.3, 2}, {-0.3, 2}, {0.7, 1}, {-0.7, 1}} {
		w := axis()
		segs := w.centreline().Segments()
		segs[2] = segs[2].Apply(geom.RotateAbout(segs[2].From, c.kink*geom.Degree))
		f := find(t, plain(map[string][]geom.Segment{"A": segs}, 9))
		if len(f.Candidates) != 1 {
			t.Fatalf("%v: %d candidates", c.kink, len(f.Candidates))
		}
		got := f.Candidates[0]
		if got.Legs[0] == 0 || (got.Legs[1] > 0) != (c.legs == 2) {
			t.Errorf("kink of %v: legs %v", c.kink, got.Legs)
		}
		want := 45.0
		if c.legs == 2 {
			want -= float64(c.kink) // clockwise is the way of the bend
		}
		if math.Abs(got.Bend.Angle.Degrees()-want) > 1e-6 || has(got.Notes, words.DrawingKink) != (c.legs == 2) || has(got.Notes, words.DrawingCorner) != (c.legs == 1) {
			t.Errorf("kink of %v: %v, %v", c.kink, got.Bend.Angle.Degrees(), got.Notes)
		}
	}
}

// Chords that follow the arc within 0.05 mm are taken for it, coarser ones are not.
func TestChords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWant(t)
		w.angle = geom.Angle(rapid.Float64Range(10, 175).Draw(t, "sweep")) * geom.Degree
		w.radius += 50
		for i := range w.legs {
			w.legs[i] += 60
		}
		// r (1 - cos (step / 2)) is what a chord leaves the arc by.
		step := 2 * math.Acos(1-0.045/w.radius)
		n := int(math.Ceil(float64(w.angle) / step))
		if rapid.Bool().Draw(t, "coarse") {
			n = int(float64(w.angle) / (2 * math.Acos(1-0.06/w.radius)))
		}
		if n < 5 {
			t.Skip()
		}
		sag := w.radius * (1 - math.Cos(float64(w.angle)/float64(n)/2))
		segs := w.centreline().Segments()
		arc := segs[1]
		var all []geom.Segment
		all = append(all, segs[0])
		for i := range n {
			a, _ := arc.At(float64(i) / float64(n))
			b, _ := arc.At(float64(i+1) / float64(n))
			all = append(all, geom.Segment{From: a, To: b})
		}
		all = append(all, segs[2])
		f := find(t, plain(map[string][]geom.Segment{"A": rapid.Permutation(all).Draw(t, "order")}, 6))
		if sag > 0.05 {
			if len(f.Candidates) > 0 || !has(f.Notes, words.DrawingNoBend) {
				t.Fatalf("chords %g mm off the arc were taken: %+v", sag, f.Candidates)
			}
			return
		}
		if len(f.Candidates) != 1 || !has(f.Candidates[0].Notes, words.DrawingChordsArc) {
			t.Fatalf("%d chords %g mm off: %+v, %v", n, sag, f.Candidates, f.Notes)
		}
		c := f.Candidates[0]
		if math.Abs(c.Bend.Radius-w.radius) > 0.05+1e-4*w.radius || math.Abs((c.Bend.Angle-w.angle).Degrees()) > 0.05 ||
			math.Abs(c.Legs[0]-w.legs[0]) > 0.3 || math.Abs(c.Legs[1]-w.legs[1]) > 0.3 {
			t.Fatalf("%+v of %+v", c, w)
		}
	})
}

// Lines between the edges are the wall's; one midway is the centreline.
func TestWall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWant(t)
		w.cuts = [2]geom.Angle{}
		on := map[string][]geom.Segment{}
		face := func(layer string, off float64) {
			on[layer] = append(on[layer], beside(w, off)...)
		}
		face("A", w.depth/2)
		face("A", -w.depth/2)
		bore := rapid.SampledFrom([]string{"A", "B"}).Draw(t, "bore's layer")
		face(bore, w.depth/2-w.wall)
		face(bore, w.wall-w.depth/2)
		if rapid.Bool().Draw(t, "centreline") {
			face("C", 0)
		}
		closed := rapid.Bool().Draw(t, "closed")
		if closed {
			o := w.outline().Segments()
			on["A"] = append(on["A"], o[1], o[5])
		}
		f := find(t, plain(on, 9))
		if len(f.Candidates) != 1 {
			t.Fatalf("%s", f.List(0))
		}
		c := f.Candidates[0]
		if math.Abs(c.Depth-w.depth) > 1e-6 || math.Abs(c.Wall-w.wall) > 1e-6 || math.Abs(c.Bend.Radius-w.radius) > 1e-5 {
			t.Fatalf("%+v of %+v", c, w)
		}
		if (c.From.Cuts[0].Code == words.FromEndLine) != closed {
			t.Fatalf("end lines: %v", c.From.Cuts[0].Code)
		}
	})
}

// beside is one line along the tube, off mm outside its centreline.
func beside(w want, off float64) []geom.Segment {
	w.radius += off
	return w.centreline().Segments()
}

// Two tubes about one centre are two tubes, where their ends are closed.
func TestNested(t *testing.T) {
	a, b := axis(), axis()
	b.radius += 100
	f := find(t, plain(map[string][]geom.Segment{"A": append(a.outline().Segments(), b.outline().Segments()...)}, 9))
	if len(f.Candidates) != 2 || math.Abs(f.Candidates[0].Depth-40) > 1e-6 || math.Abs(f.Candidates[1].Depth-40) > 1e-6 || math.Abs(f.Candidates[0].Bend.Radius+100-f.Candidates[1].Bend.Radius) > 1e-6 {
		t.Fatalf("%s", f.List(0))
	}
}

// A line with several bends gives each of them.
func TestSeveralBends(t *testing.T) {
	p := geom.Start(geom.Pt(0, 0)).LineTo(geom.Pt(100, 0)).
		ArcAbout(geom.Pt(100, 200), 60*geom.Degree)
	_, d := p.Segments()[1].At(1)
	p = p.LineTo(p.End().Add(d.Mul(150)))
	p = p.ArcAbout(p.End().Add(d.Left().Mul(-300)), -30*geom.Degree)
	_, d = p.Segments()[3].At(1)
	p = p.LineTo(p.End().Add(d.Mul(80)))
	f := find(t, plain(map[string][]geom.Segment{"B": p.Segments()}, 9))
	if len(f.Candidates) != 2 {
		t.Fatalf("%s", f.List(0))
	}
	for i, w := range []want{
		{radius: 200, angle: 60 * geom.Degree, legs: [2]float64{150, 100}}, // turns left: seen with its crown up from the other end
		{radius: 300, angle: 30 * geom.Degree, legs: [2]float64{150, 80}},
	} {
		c := f.Candidates[i]
		if c.Nth != i+1 || c.Of != 2 || !has(c.Notes, words.DrawingOneOf) {
			t.Errorf("bend %d: %d of %d, %v", i, c.Nth, c.Of, c.Notes)
		}
		if math.Abs(c.Bend.Radius-w.radius) > 1e-6 || math.Abs(float64(c.Bend.Angle-w.angle)) > 1e-8 || math.Abs(c.Legs[0]-w.legs[0]) > 1e-6 || math.Abs(c.Legs[1]-w.legs[1]) > 1e-6 {
			t.Errorf("bend %d: %+v", i, c)
		}
	}
	for _, want := range []string{
		"bend 1  layer B; R 200 mm, 60 deg; legs 150 and 100 mm; one line; 1 of 2 in its line; at 200.0, 26.8\n",
		"bend 2  layer B; R 300 mm, 30 deg; legs 150 and 80 mm; one line; 2 of 2 in its line; at ",
	} {
		if got := f.List(quantity.Millimetres); !strings.Contains(got, want) {
			t.Errorf("%s lacks %q", got, want)
		}
	}
}

// What is no bend is said.
func TestNoBend(t *testing.T) {
	long := geom.Start(geom.Pt(100, 0)).ArcTo(geom.Pt(-100, 0), 180*geom.Degree).ArcTo(geom.Pt(0, -100), 90*geom.Degree)
	for name, c := range map[string]struct {
		segs []geom.Segment
		say  string
	}{
		"straight": {geom.Lines(geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(10, 10)).Segments(), "2 straight lines, 0 closed loops and 0 arcs"},
		"circle":   {geom.Circle{Radius: 50}.Path().Segments(), "0 straight lines, 1 closed loop and 0 arcs"},
		"slot":     {geom.Rounded(5, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50)).Segments(), "0 straight lines, 1 closed loop"},
		"flat":     {[]geom.Segment{{From: geom.Pt(0, 0), To: geom.Pt(1, 0), Bulge: 1e-6}}, "1 straight line, 0 closed loops and 0 arcs"},
		"too far":  {long.Segments(), "1 arc of more than half a turn"},
	} {
		f := find(t, plain(map[string][]geom.Segment{"A": c.segs}, 9))
		if len(f.Candidates) > 0 || len(f.Notes) == 0 || !strings.Contains(f.Notes[0].Say(0), c.say) {
			t.Errorf("%s: %d candidates, %v", name, len(f.Candidates), f.Notes)
		}
	}
}

// A given size that the drawing contradicts is refused; one that it does not show is
// taken, and one size makes a square tube.
func TestGiven(t *testing.T) {
	f := find(t, plain(map[string][]geom.Segment{"A": arm().outline().Segments()}, 9))
	g := filled(0)
	g.Depth = 50
	var no *Refusal
	if _, err := f.Job(f.Candidates[0], g); !errors.As(err, &no) || no.Error() != "--depth says 50 mm, the drawing 40 mm; leave --depth out, or correct the drawing" {
		t.Errorf("%v", err)
	}
	line := plain(map[string][]geom.Segment{"A": axis().centreline().Segments()}, 9)
	for _, c := range []struct{ depth, width, wantDepth, wantWidth float64 }{
		{40, 0, 40, 40}, {0, 30, 30, 30}, {40, 30, 40, 30},
	} {
		g := filled(0)
		g.Depth, g.Width = c.depth, c.width
		if j := read(t, line, Options{}, g); j.Tube.Depth != c.wantDepth || j.Tube.Width != c.wantWidth {
			t.Errorf("%+v: %+v", c, j.Tube)
		}
	}
	f = find(t, line)
	if got := f.Candidates[0].Blanks(Given{}); strings.Join(got, " ") != "tube.width tube.depth tube.wall tube.material" {
		t.Errorf("blanks %v", got)
	}
}

// A gap is closed when it is asked for.
func TestGap(t *testing.T) {
	segs := axis().centreline().Segments()
	segs[2] = segs[2].Apply(geom.Translate(geom.Pt(0.3, 0.3)))
	data := plain(map[string][]geom.Segment{"A": segs}, 9)
	for _, c := range []struct {
		gap  float64
		legs bool
	}{{0, false}, {0.4, false}, {0.5, true}} {
		f, err := Read(bytes.NewReader(data), Options{Gap: c.gap})
		if err != nil || len(f.Candidates) != 1 || (f.Candidates[0].Legs[1] > 0) != c.legs {
			t.Errorf("gap %g: %v, %+v", c.gap, err, f.Candidates)
		}
	}
}

// Edges whose straights run on with a kink have no legs, and it is said why; nor have
// edges that end with their arcs.
func TestNoLegs(t *testing.T) {
	w := axis()
	w.legs = [2]float64{}
	f := find(t, plain(map[string][]geom.Segment{"A": w.outline().Segments()}, 9))
	c := f.Candidates[0]
	if len(f.Candidates) != 1 || c.Legs != w.legs || c.From.Legs[0].Code != words.FromNoLeg || c.From.Cuts[1].Code != words.FromEndLine || len(c.Notes) > 0 {
		t.Errorf("%+v", c)
	}
	w = axis()
	var segs []geom.Segment
	for _, off := range []float64{-20, 20} {
		s := beside(w, off)
		s[0] = s[0].Apply(geom.RotateAbout(s[0].To, 2*geom.Degree))
		segs = append(segs, s...)
	}
	f = find(t, plain(map[string][]geom.Segment{"A": segs}, 9))
	c = f.Candidates[0]
	if len(f.Candidates) != 1 || c.Legs[0] != 0 || math.Abs(c.Legs[1]-180) > 1e-6 || !has(c.Notes, words.DrawingCorner) {
		t.Errorf("%+v", c)
	}
	if got := c.Notes[len(c.Notes)-1].Say(0); !strings.Contains(got, "2\u00a0deg, so it is no leg; up to 0.5\u00a0deg are smoothed") {
		t.Errorf("%q", got)
	}
}

// Edges that end too far apart for a cut are taken as square at the shorter one.
func TestRagged(t *testing.T) {
	w := axis()
	in, out := beside(w, -20), beside(w, 20)
	out[2] = out[2].Part(0, 0.05) // 9 mm of 180: 171 mm over 40 mm is no cut
	f := find(t, plain(map[string][]geom.Segment{"A": append(in, out...)}, 9))
	c := f.Candidates[0]
	if len(f.Candidates) != 1 || math.Abs(c.Legs[1]-9) > 1e-6 || c.Cuts[1] != 0 || c.From.Cuts[1].Code != words.FromRagged || c.From.Cuts[0].Code != words.FromEdgeEnds {
		t.Errorf("%+v", c)
	}
}

// A tube that bends tighter than its depth is none: the job could not be made.
func TestTight(t *testing.T) {
	w := axis()
	w.radius = 39
	f := find(t, plain(map[string][]geom.Segment{"A": append(beside(w, -20), beside(w, 20)...)}, 9))
	if len(f.Candidates) > 0 || !has(f.Notes, words.DrawingTight) || !has(f.Notes, words.DrawingNoBend) {
		t.Errorf("%s, %v", f.List(0), f.Notes)
	}
	w.radius = 40
	f = find(t, plain(map[string][]geom.Segment{"A": append(beside(w, -20), beside(w, 20)...)}, 9))
	if len(f.Candidates) != 1 {
		t.Errorf("%s, %v", f.List(0), f.Notes)
	}
}

// Edges are on one layer; a line that is drawn twice counts once.
func TestEdgesOfOneLayer(t *testing.T) {
	w := axis()
	on := map[string][]geom.Segment{"A": beside(w, -20), "B": beside(w, 20)}
	if f := find(t, plain(on, 9)); len(f.Candidates) != 2 || f.Candidates[0].Kind != Centreline {
		t.Errorf("%s", f.List(0))
	}
	on = map[string][]geom.Segment{"A": append(beside(w, -20), beside(w, 20)...)}
	on["A"] = append(on["A"], on["A"]...)
	on["B"] = on["A"]
	f := find(t, plain(on, 9))
	if len(f.Candidates) != 1 || math.Abs(f.Candidates[0].Depth-40) > 1e-6 || f.Candidates[0].Wall != 0 {
		t.Errorf("%s", f.List(0))
	}
	// Three uneven lines: each two neighbours may be a tube.
	on = map[string][]geom.Segment{"A": append(append(beside(w, -20), beside(w, 20)...), beside(w, 50)...)}
	f = find(t, plain(on, 9))
	if len(f.Candidates) != 2 || math.Abs(f.Candidates[0].Depth-40) > 1e-6 || math.Abs(f.Candidates[1].Depth-30) > 1e-6 {
		t.Errorf("%s", f.List(0))
	}
}

// Where a candidate says that it lies is where it was drawn.
func TestPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWant(t)
		to := geom.Rotate(geom.Angle(rapid.Float64Range(-4, 4).Draw(t, "turn"))).Then(geom.Translate(geom.Pt(rapid.Float64Range(-900, 900).Draw(t, "x"), 70)))
		o := w.outline().Apply(to)
		f := find(t, plain(map[string][]geom.Segment{"A": o.Segments()}, 9))
		c := f.Candidates[0]
		got, ok := c.Outline()
		if !ok || len(got.Vertices) != len(o.Vertices) {
			t.Fatalf("%v, %v", ok, got)
		}
		for i, v := range got.Vertices {
			if v.Dist(o.Vertices[i].Point) > 1e-4 {
				t.Fatalf("corner %d at %v, want %v", i, v, o.Vertices[i])
			}
		}
		if line := w.centreline().Apply(to); c.Line().Vertices[0].Dist(line.Vertices[0].Point) > 1e-4 || c.Crown().Dist(to.Apply(geom.Pt(0, w.radius))) > 1e-4 {
			t.Fatalf("centreline from %v, crown at %v", c.Line().Vertices[0], c.Crown())
		}
	})
}

package drawn

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
	"overbend/geom"
)

// Given is what a drawing of a bend does not say. Lengths in mm, 0: not given.
type Given struct {
	Name               string // of the job
	Source             string // name of the drawing
	Units              quantity.Units
	Wall, Depth, Width float64
	Material           string
}

// Blanks returns the keys that the job of a candidate lacks: what neither the
// drawing shows nor the user gave.
func (c Candidate) Blanks(g Given) []string {
	var out []string
	depth, width := c.size(g)
	for _, k := range []struct {
		key string
		has bool
	}{
		{"tube.width", width > 0}, {"tube.depth", depth > 0},
		{"tube.wall", c.Wall > 0 || g.Wall > 0}, {"tube.material", g.Material != ""},
	} {
		if !k.has {
			out = append(out, k.key)
		}
	}
	return out
}

// size returns the tube's depth and width; a tube of which one is known is taken
// as square.
func (c Candidate) size(g Given) (depth, width float64) {
	if depth = c.Depth; depth == 0 {
		depth = g.Depth
	}
	if width = g.Width; width == 0 {
		width = depth
	}
	if depth == 0 {
		depth = width
	}
	return depth, width
}

// differs is how far a given size may be off the drawn one, mm: what writing it
// with few figures leaves.
const differs = 0.05

// Job returns the text of a job file for a candidate, each number with where it
// comes from. What is not known stands there as a comment to be filled in. A size
// that is given and drawn otherwise is a [*Refusal].
func (f Found) Job(c Candidate, g Given) (string, error) {
	for _, s := range []struct {
		flag         string
		given, drawn float64
	}{{"--depth", g.Depth, c.Depth}, {"--wall", g.Wall, c.Wall}} {
		if s.given > 0 && s.drawn > 0 && math.Abs(s.given-s.drawn) > differs {
			return "", &Refusal{words.Reason{Code: words.DrawingDiffers, Figures: words.Figures{
				"flag": s.flag, "given": quantity.Length.Of(s.given), "drawn": quantity.Length.Of(s.drawn),
			}}}
		}
	}
	w := writer{u: g.Units}
	w.line("# A job file for overbend, read from %s.", comment(g.Source))
	w.line("# Each number says where it comes from. Check them against the drawing.")
	for _, n := range append(c.Notes, f.Notes...) {
		w.line("# - %s", w.say(n))
	}
	w.line("")
	w.line("name  = %s", quoted(g.Name))
	w.line("units = %q", g.Units.String())

	flag := func(name string) words.Reason {
		return words.Reason{Code: words.FromFlag, Figures: words.Figures{"flag": name}}
	}
	square := words.Reason{Code: words.FromSquare}
	depth, width := c.size(g)
	from := struct{ depth, width, wall words.Reason }{c.From.Depth, flag("--width"), c.From.Wall}
	switch {
	case c.Depth > 0:
	case g.Depth > 0:
		from.depth = flag("--depth")
	default:
		from.depth = square
	}
	if g.Width == 0 {
		from.width = square
	}
	wall := c.Wall
	if wall == 0 {
		wall, from.wall = g.Wall, flag("--wall")
	}
	w.table("tube")
	w.key("shape", `"rectangle"`, "or \"round\", which a drawing from the side does not say, with diameter for width and depth")
	w.length("width", width, from.width, "40 mm", "1-1/2 in")
	w.length("depth", depth, from.depth, "40 mm", "1-1/2 in")
	w.length("wall", wall, from.wall, "3 mm", "1/8 in")
	if g.Material != "" {
		w.key("material", quoted(g.Material), w.say(flag("--material")))
	} else {
		w.key("# material", `"6082-T6"`, "not drawn: fill in; overbend stock materials lists the names")
	}

	w.table("bend")
	w.key("radius", w.quote(c.Bend.Radius, span(c)), w.say(c.From.Radius))
	w.key("radius_at", `"centre"`, "")
	w.key("angle", `"`+degrees(c.Bend.Angle, 1e-8)+` deg"`, w.say(c.From.Angle))
	w.key("legs", "["+w.quote(c.Legs[0], 1)+", "+w.quote(c.Legs[1], 1)+"]", w.both(c.From.Legs))

	w.table("ends")
	near := 3 * meant / math.Max(1, c.Depth) // of the corners of an end
	w.key("cut", `["`+degrees(c.Cuts[0], near)+` deg", "`+degrees(c.Cuts[1], near)+` deg"]`, w.both(c.From.Cuts))

	w.line("")
	w.line("# overbend new writes a job file that explains these and every other key:")
	w.line("# [filler]")
	w.line(`# alloy = "158"`)
	w.line("# [press]")
	w.line(`# capacity = "20 t"`)
	return w.b.String(), nil
}

// span returns how many times the error of a chord's ends goes into a radius.
func span(c Candidate) float64 {
	half := c.Bend.Angle / 2
	return 1 + 1/(2*half.Sin())
}

// writer builds the text.
type writer struct {
	b strings.Builder
	u quantity.Units
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(&w.b, format+"\n", args...) }

func (w *writer) table(name string) { w.line("\n[%s]", name) }

func (w *writer) say(r words.Reason) string { return comment(quantity.Plain(r.Say(w.u))) }

// both says where two numbers come from, once where it is the same.
func (w *writer) both(r [2]words.Reason) string {
	a, b := w.say(r[0]), w.say(r[1])
	if a == b {
		return a
	}
	return a + "; " + b
}

func (w *writer) key(name, value, from string) {
	s := fmt.Sprintf("%-9s = %s", name, value)
	if from != "" {
		s = fmt.Sprintf("%-32s # %s", s, from)
	}
	w.line("%s", s)
}

// length writes a length, or one like what is to be filled in.
func (w *writer) length(name string, mm float64, from words.Reason, like, inches string) {
	if mm == 0 {
		if w.u == quantity.Inches {
			like = inches
		}
		w.key("# "+name, strconv.Quote(like), "not drawn: fill in")
		return
	}
	w.key(name, w.quote(mm, 1), w.say(from))
}

// quote returns a length in the job's unit between quotes.
func (w *writer) quote(mm, error float64) string {
	return `"` + figure(round(mm, error), w.u) + " " + w.u.String() + `"`
}

// meant is what a drawing's coordinates, which have six decimals of a mm as a rule,
// leave of a length, mm: one that is, to so much, a number of few decimals was meant
// to be that number.
const meant = 1.5e-6

// round returns the length that was meant, in mm: the number of fewest decimals, of
// mm or of inches, within error times what coordinates leave; else the length itself.
func round(mm, error float64) float64 {
	near := meant * math.Max(1, error)
	for d := 0; d <= 4; d++ {
		k := math.Pow(10, float64(d))
		if r := math.Round(mm*k) / k; d <= 3 && math.Abs(r-mm) <= near {
			return r
		}
		inch := quantity.Inches.MM(1)
		if r := quantity.Inches.MM(math.Round(mm/inch*k) / k); math.Abs(r-mm) <= near {
			return r
		}
	}
	return mm
}

// figure returns a length in a unit with as many decimals as it needs, at most eight.
func figure(mm float64, u quantity.Units) string {
	return decimal(mm/u.MM(1), 8)
}

// degrees returns an angle in degrees, that of few decimals that it is within near
// radians.
func degrees(a geom.Angle, near float64) string {
	v := a.Degrees()
	for d := 0; d <= 3; d++ {
		k := math.Pow(10, float64(d))
		if r := math.Round(v*k) / k; math.Abs(r-v) <= geom.Angle(near).Degrees() {
			return decimal(r, d)
		}
	}
	return decimal(v, 9)
}

// decimal returns a number with at most so many decimals, without zeros behind.
func decimal(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// comment returns a text such that it stays on its line of a comment.
func comment(s string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return '?'
		}
		return r
	}, s)
}

// quoted returns a text as a TOML string.
func quoted(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(comment(s)) + `"`
}

package dxf

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// Limits of what is worth sending to a table, in mm.
const (
	// shortest is the least length of a piece: shorter ones make tables
	// stutter, and some readers drop them.
	shortest = 0.1
	// touching is the distance below which two contours count as one line to
	// the cut, and two pieces as the same piece: far below any kerf.
	touching = 0.01
	// largest bounds coordinates and radii: beyond a kilometre it is a mistake,
	// and the printed decimals would be noise.
	largest = 1e6
	// longestText is what AC1009 readers take in one value.
	longestText = 250
)

// Lint returns the first fault of d that a reader would let pass and a table
// would not: a role that is for paper, nothing to cut, an open contour, a
// repeated vertex, a piece shorter than 0.1 mm or laid down twice, a number
// that is not finite, text on what is cut, contours that touch, an outline
// inside another, a hole that does not lie inside exactly one outline.
func Lint(d drawing.Drawing) error {
	if err := lint(d); err != nil {
		return fmt.Errorf("drawing %q: %w", d.Title, err)
	}
	return nil
}

func lint(d drawing.Drawing) error {
	var (
		contours []contour
		pieces   []piece
		texts    = map[drawing.Text]int{}
	)
	for i, s := range d.Shapes {
		name := label{i, shapeRole(s)}
		if _, ok := layerOf(name.role); !ok {
			return fmt.Errorf("%v: its role is for paper; a cut file takes outlines, holes, marks and notes", name)
		}
		var path geom.Path
		switch s := s.(type) {
		case drawing.Stroke:
			if err := lintPath(s.Path, isCut(s.Role)); err != nil {
				return fmt.Errorf("%v: %w", name, err)
			}
			path = geom.Path{Vertices: ready(s.Path), Closed: s.Path.Closed}
		case drawing.Ring:
			if err := lintCircle(s.Circle); err != nil {
				return fmt.Errorf("%v: %w", name, err)
			}
			path = s.Circle.Path()
		case drawing.Text:
			if err := lintText(s); err != nil {
				return fmt.Errorf("%v: %w", name, err)
			}
			key := s
			key.Bold = false // the file does not tell it apart
			if j, ok := texts[key]; ok {
				return fmt.Errorf("%v: same words in the same place as shape %d", name, j+1)
			}
			texts[key] = i
			continue
		default:
			return fmt.Errorf("%v: a %T can't be written; it must be a stroke, a ring or a text", name, s)
		}
		segments := path.Segments()
		for _, seg := range segments {
			pieces = append(pieces, newPiece(name, seg))
		}
		if isCut(name.role) {
			if a := math.Abs(path.Area()); !(a >= shortest*shortest) {
				return fmt.Errorf("%v: it encloses %.4f mm²; at least %g", name, a, shortest*shortest)
			}
			contours = append(contours, contour{name, path, segments, path.Bounds()})
		}
	}
	if !slices.ContainsFunc(contours, func(c contour) bool { return c.role == drawing.CutOuter }) {
		return fmt.Errorf("no outline to cut")
	}
	if err := lintPieces(pieces); err != nil {
		return err
	}
	return lintContours(contours)
}

// label names a shape in a message.
type label struct {
	index int
	role  drawing.Role
}

func (l label) String() string {
	what := "paper"
	switch l.role {
	case drawing.CutOuter:
		what = "outline"
	case drawing.CutInner:
		what = "hole"
	case drawing.Mark:
		what = "mark"
	case drawing.Note:
		what = "note"
	}
	return fmt.Sprintf("shape %d (%s)", l.index+1, what)
}

// lintPath checks one path by itself.
func lintPath(p geom.Path, cut bool) error {
	if cut && !p.Closed {
		return fmt.Errorf("the contour is open; what is cut must be closed")
	}
	if len(p.Vertices) < 2 {
		return fmt.Errorf("%d vertices; a path needs two", len(p.Vertices))
	}
	for i, v := range p.Vertices {
		if !within(v.X, v.Y) || math.IsNaN(v.Bulge) || math.IsInf(v.Bulge, 0) {
			return fmt.Errorf("vertex %d at %g, %g with bulge %g: numbers must be finite and within %g mm", i+1, v.X, v.Y, v.Bulge, float64(largest))
		}
	}
	for i, s := range p.Segments() {
		// Chord first: the arc that leads from a point back to itself is a
		// circle, or nothing.
		if s.Chord() < geom.Coincident {
			return fmt.Errorf("vertex %d at %.3f, %.3f is repeated", i+1, s.From.X, s.From.Y)
		}
		if !flat(s) {
			// A bulge of 1e300 is finite, its arc is not.
			if r := s.Radius(); !(r <= largest) {
				return fmt.Errorf("arc at %.3f, %.3f has a radius of %g mm; at most %g", s.From.X, s.From.Y, r, float64(largest))
			}
		}
		if n := s.Length(); !(n >= shortest-geom.Coincident) {
			return fmt.Errorf("piece of %.4f mm at %.3f, %.3f; at least %g", n, s.From.X, s.From.Y, shortest)
		}
	}
	if !cut {
		return nil
	}
	// A contour that comes back to one of its corners is two contours, or an
	// edge there and back.
	for i, v := range p.Vertices {
		for _, w := range p.Vertices[i+1:] {
			if math.Abs(v.X-w.X) < geom.Coincident && math.Abs(v.Y-w.Y) < geom.Coincident {
				return fmt.Errorf("vertex at %.3f, %.3f is repeated", v.X, v.Y)
			}
		}
	}
	return nil
}

func lintCircle(c geom.Circle) error {
	if !within(c.Centre.X, c.Centre.Y, c.Radius) {
		return fmt.Errorf("circle at %g, %g of radius %g: numbers must be finite and within %g mm", c.Centre.X, c.Centre.Y, c.Radius, float64(largest))
	}
	if !(2*c.Radius >= shortest-geom.Coincident) {
		return fmt.Errorf("circle at %.3f, %.3f has a diameter of %g mm; at least %g", c.Centre.X, c.Centre.Y, 2*c.Radius, shortest)
	}
	return nil
}

func lintText(t drawing.Text) error {
	if isCut(t.Role) {
		return fmt.Errorf("text %q on what is cut; it must be a mark or a note", t.Words)
	}
	if !within(t.At.X, t.At.Y, t.Height, float64(t.Angle)) {
		return fmt.Errorf("text %q: numbers must be finite and within %g mm", t.Words, float64(largest))
	}
	if !(t.Height >= shortest-geom.Coincident) {
		return fmt.Errorf("text %q is %g mm high; at least %g", t.Words, t.Height, shortest)
	}
	if strings.TrimSpace(lettering.Lettered(t.Words)) == "" {
		return fmt.Errorf("text without words")
	}
	if n := utf8.RuneCountInString(t.Words); n > longestText {
		return fmt.Errorf("text %.20q... has %d characters; at most %d", t.Words, n, longestText)
	}
	return nil
}

// within reports whether all numbers are finite and no larger than a drawing
// can be.
func within(v ...float64) bool {
	for _, x := range v {
		if !(math.Abs(x) <= largest) {
			return false
		}
	}
	return true
}

// piece is a segment in the form in which two are compared.
type piece struct {
	label
	a, b, mid geom.Point
}

func newPiece(l label, s geom.Segment) piece {
	_, second := s.Halves()
	return piece{l, s.From, s.To, second.From}
}

// same reports whether p and q are one piece, whichever way they run.
func (p piece) same(q piece) bool {
	if p.mid.Dist(q.mid) >= touching {
		return false
	}
	return p.a.Dist(q.a) < touching && p.b.Dist(q.b) < touching ||
		p.a.Dist(q.b) < touching && p.b.Dist(q.a) < touching
}

// lintPieces refuses a piece laid down twice: a table would cut it twice.
func lintPieces(pieces []piece) error {
	slices.SortFunc(pieces, func(p, q piece) int {
		switch {
		case p.mid.X < q.mid.X:
			return -1
		case p.mid.X > q.mid.X:
			return 1
		}
		return p.index - q.index
	})
	for i, p := range pieces {
		for _, q := range pieces[i+1:] {
			if q.mid.X-p.mid.X > touching {
				break
			}
			if p.same(q) {
				return fmt.Errorf("piece from %.3f, %.3f to %.3f, %.3f is there twice, in %v and %v", p.a.X, p.a.Y, p.b.X, p.b.Y, p.label, q.label)
			}
		}
	}
	return nil
}

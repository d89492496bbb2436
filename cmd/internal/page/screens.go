package page

import (
	"fmt"
	"strings"

	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/sheet"
	"overbend/cmd/internal/words"
)

// shownScreen is a drawing of the kit with what stands beside it.
type shownScreen struct {
	Picture *picture
	Lines   []string
	Table   *table
}

func (v *view) screen(id, title, desc string, s kit.Screen) (*shownScreen, error) {
	out := &shownScreen{Lines: s.Lines}
	if len(s.Table) > 0 {
		out.Table = &table{Head: []string{"point", "what", "x, " + v.U.String(), "y, " + v.U.String()}, Rows: s.Table}
	}
	var err error
	share := 1.0
	if v.small { // its lettering is the larger, and takes what the part needs
		share = 1.4
	}
	out.Picture, err = v.picture(id, title, desc, share, 0.6, func(w, h float64) sheet.Picture {
		return v.draw.Fit(s.Size, w, h, s.Draw)
	})
	return out, err
}

// Points is the finished part with a letter at every point of its table, nil where
// it can't be made.
func (v *view) Points() (*shownScreen, error) {
	s, ok := kit.PartScreen(v.P, v.U)
	if !ok {
		return nil, nil
	}
	return v.screen("points", "The finished part with its points", "The table below it has the coordinates of every letter.", s)
}

// Fixture is the plate on which the ends are cut, nil where there is none.
func (v *view) Fixture() (*shownScreen, error) {
	s, ok := kit.FixtureScreen(v.P, v.U)
	if !ok {
		return nil, nil
	}
	return v.screen("fixture", "The trim fixture", fmt.Sprintf("A plate of %s with holes for %d pins and 2 datum holes; the table below it has where they are.",
		v.U.Size(s.Size.X, s.Size.Y), len(v.P.Fixture.Pins)), s)
}

// Outlines are those of the form block, one by one.
func (v *view) Outlines() ([]*shownScreen, error) {
	var out []*shownScreen
	for i, s := range kit.BlockScreens(v.P, v.U) {
		o, err := v.screen(fmt.Sprintf("outline-%d", i+1), "Outline of the form block", strings.Join(s.Lines, "; "), s)
		if err != nil {
			return nil, err
		}
		out = append(out, o)
	}
	return out, nil
}

// aboutSection reports whether advice says what a bend left of the section, which
// stands at its picture.
func aboutSection(a words.Advice) bool {
	return a.Code == words.BendLeft || a.Code == words.ExistingLeft
}

// Left says what the bend left of the section.
func (v *view) Left() []note {
	var out []note
	for _, a := range v.P.Advice {
		if aboutSection(a) {
			out = append(out, v.note(a))
		}
	}
	return out
}

// Section is the tube's section as bent.
func (v *view) Section() (*picture, error) {
	a := v.P.After
	return v.picture("section", "The section after the bend", fmt.Sprintf("Over the straight section. Outside: wall %s, width %s; inside: wall %s, width %s.",
		v.U.Length(a.OuterWall), v.U.Length(a.OuterWidth), v.U.Length(a.InnerWall), v.U.Length(a.InnerWidth)), min(1, 110/v.wide), 0.9, v.draw.Section)
}

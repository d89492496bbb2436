// Package words turns codes and figures into sentences in the reader's units.
// Every sentence that the program says about a job stands once, in catalogue.go,
// and paper.go for the job sheet;
// plan and mechanics hand on what is to be said as values.
//
// It computes nothing and reads no file. Sentences about what is wrong with a
// job file's text, before anything is worked out, are package job's.
package words

import (
	"fmt"
	"slices"
	"strings"

	"overbend/cmd/internal/quantity"
)

// Figures fill the gaps of a sentence, by name. A figure is a
// [quantity.Value], a [Limit], a [Size], a string, an int, a [Reason] or a
// [Quoted].
type Figures map[string]any

// Size is a width and a height in mm, shown as "1000 x 500 mm".
type Size [2]float64

// Reason is something to be said: a sentence of the catalogue and its figures.
type Reason struct {
	Code    Code
	Figures Figures
}

// Say returns the sentence in lower case and without a full stop. A number and
// its unit are joined by a space at which no line may be broken.
func (r Reason) Say(u quantity.Units) string { return fill(r.Code.entry().long, r.Figures, u) }

// Brief returns the sentence in as few words as do for the job sheet.
func (r Reason) Brief(u quantity.Units) string {
	e := r.Code.entry()
	if e.short == "" {
		return r.Say(u)
	}
	return fill(e.short, r.Figures, u)
}

// fill puts the figures into the gaps {name} of a sentence. A gap without a
// figure is our own mistake.
func fill(sentence string, f Figures, u quantity.Units) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(sentence, "{")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		name, after, _ := strings.Cut(rest, "}")
		sentence = after
		switch v := f[name].(type) {
		case quantity.Value:
			b.WriteString(u.Show(v))
		case string:
			b.WriteString(v)
		case Limit:
			b.WriteString(u.Show(u.Inward(v.Value, v.Upper)))
		case Size:
			b.WriteString(u.Size(v[:]...))
		case int:
			fmt.Fprint(&b, v)
		case Reason:
			b.WriteString(v.Say(u))
		case Quoted:
			b.WriteString(fill(v.Text, v.Figures, u))
		default:
			panic(fmt.Sprintf("words: no figure for {%s}", name))
		}
	}
}

// Code names a sentence of the catalogue.
type Code string

// entry returns the catalogue's entry. A code that is not in it is our own
// mistake.
func (c Code) entry() entry {
	for _, list := range [...][]entry{catalogue[:], paper[:], drawn[:]} {
		if i := slices.IndexFunc(list, func(e entry) bool { return e.code == c }); i >= 0 {
			return list[i]
		}
	}
	panic("words: no sentence for " + string(c))
}

// entry is a sentence of the catalogue: in full and, where the job sheet has no
// room for that, in few words.
type entry struct {
	code        Code
	long, short string
}

// Level grades a piece of advice.
type Level string

// The levels.
const (
	Note    Level = "note"
	Caution Level = "caution" // about people's safety
	Warning Level = "warning"
	Stop    Level = "stop" // the job can't be made as asked
)

// Step is a step of the work, to which a piece of advice belongs.
type Step string

// The steps, in the order of the work.
const (
	Design   Step = "design" // before anything is cut
	Cut      Step = "cut"
	Fill     Step = "fill"
	SetUp    Step = "set up"
	Press    Step = "press"
	MeltOut  Step = "melt out"
	Check    Step = "check"
	Trial    Step = "trial"
	Anywhere Step = "" // the whole job
)

// Advice is one thing that the operator should know.
type Advice struct {
	Level Level
	Step  Step
	// About is what it is about: the job's key where it is about one
	// ("press.supports"), else a word ("elongation").
	About string
	Reason
}

// Count returns a number of things: "1 layer", "4 layers".
func Count(n int, of string) string {
	if n != 1 {
		of += "s"
	}
	return fmt.Sprintf("%d %s", n, of)
}

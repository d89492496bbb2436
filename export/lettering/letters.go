package lettering

import (
	"iter"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// Sign stands in every format for a letter that can't be lettered. Every face
// and every dialect of DXF has it.
const Sign = '?'

// Windows1252 returns the code of r in Windows-1252, the character set of the
// PDF core fonts (WinAnsiEncoding). Two signs of the trade that it lacks become
// their nearest kin: the minus sign a hyphen, the diameter sign Ø. For any other
// character, control characters too, it returns false.
func Windows1252(r rune) (byte, bool) {
	switch r {
	case '\u2212': // minus sign
		return '-', true
	case '\u2300': // diameter sign
		return 'Ø', true
	}
	if r < utf8.RuneSelf { // what most words are made of
		return byte(r), ' ' <= r && r <= '~'
	}
	return charmap.Windows1252.EncodeRune(r)
}

// Lettered returns words as they stand on parts and paper, the same in every
// format: [Sign] for each letter that can't be lettered (see [Lacking]), a space
// for a control character, and nothing for a variation selector, which has no
// shape of its own.
func Lettered(words string) string { return strings.Map(lettered, words) }

// lettered returns what stands for one letter, -1 for nothing.
func lettered(r rune) rune {
	switch {
	case advance(r, false) > 0:
		return r
	case unicode.IsControl(r):
		return ' '
	case unicode.Is(unicode.Variation_Selector, r):
		return -1
	}
	return Sign
}

// Lacking returns the letters of words that can't be lettered, each once, in
// order: what is neither in Windows-1252 nor, of Latin, Greek, Cyrillic and
// common signs, in the face that stands in. An accent that is a letter of its
// own is one of them, for nothing here places it.
func Lacking(words string) []rune {
	var out []rune
	for _, r := range words {
		if r != Sign && lettered(r) == Sign && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}

// advance returns the width of a letter in thousandths of the font's size, 0 for
// one that can't be lettered.
func advance(r rune, bold bool) int {
	if c, ok := Windows1252(r); ok {
		if bold {
			return int(helveticaBold[c-' '])
		}
		return int(helvetica[c-' '])
	}
	i, found := slices.BinarySearchFunc(liberation[:], r, func(b block, r rune) int { return int(b.first - r) })
	if !found {
		i--
	}
	if i < 0 || int(r-liberation[i].first) >= len(liberation[i].regular) {
		return 0
	}
	b := liberation[i]
	if bold {
		return int(b.bold[r-b.first])
	}
	return int(b.regular[r-b.first])
}

// block is a run of letters that Windows-1252 lacks and their widths in
// Liberation Sans, in thousandths of the font's size; 0 for a letter that it
// lacks, too.
type block struct {
	first         rune
	regular, bold []uint16
}

// alone are the signs of Windows-1252 that are not as wide in Liberation Sans as
// in Helvetica, and those that [Windows1252] replaces: they stay Helvetica's in
// any words, so that a letter has one width.
const alone = "¯±µ·÷−⌀"

// Runs breaks words, as [Lettered] returns them, into pieces of one face each,
// and says of each whether that is Helvetica. Words that are all in Windows-1252
// are one such piece; any others are Liberation Sans, which has Helvetica's widths
// and looks like it, but for [alone].
func Runs(words string) iter.Seq2[string, bool] {
	core := func(r rune) bool { return strings.ContainsRune(alone, r) }
	return func(yield func(string, bool) bool) {
		if !strings.ContainsFunc(words, func(r rune) bool { _, ok := Windows1252(r); return !ok }) {
			yield(words, true)
			return
		}
		for words != "" {
			first, _ := utf8.DecodeRuneInString(words)
			n := strings.IndexFunc(words, func(r rune) bool { return core(r) != core(first) })
			if n < 0 {
				n = len(words)
			}
			if !yield(words[:n], core(first)) {
				return
			}
			words = words[n:]
		}
	}
}

package dxf

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/unicode/norm"

	"overbend/export/drawing"
	"overbend/export/lettering"
	"overbend/geom"
)

// alphabet is how a file writes letters.
type alphabet struct {
	plain bool // none but plain ones
	// page holds those that are written as one byte: the file's code page, as
	// AutoCAD itself writes a drawing before AC1021. name is $DWGCODEPAGE's.
	page *charmap.Charmap
	name string
}

// alphabetOf returns how to write words, in a plain file or not: by the first code
// page that holds the most of their letters.
func alphabetOf(words string, plain bool) alphabet {
	best, most := alphabet{plain, charmap.Windows1252, "ANSI_1252"}, -1
	for _, a := range [...]alphabet{
		best,
		{plain, charmap.Windows1250, "ANSI_1250"}, // central Europe
		{plain, charmap.Windows1251, "ANSI_1251"}, // Cyrillic
		{plain, charmap.Windows1253, "ANSI_1253"}, // Greek
		{plain, charmap.Windows1254, "ANSI_1254"}, // Turkish
		{plain, charmap.Windows1257, "ANSI_1257"}, // Baltic
	} {
		n := 0
		for _, r := range words {
			if _, ok := a.page.EncodeRune(r); ok && byLetter(r) {
				n++
			}
		}
		if n > most {
			best, most = a, n
		}
	}
	return best
}

// byLetter reports whether a file that is not plain has a character as it is:
// letters, a sign that stands in names, and what has no plain spelling.
func byLetter(r rune) bool {
	return r >= utf8.RuneSelf && !strings.ContainsRune("°±⌀\u00a0", r) && (unicode.IsLetter(r) || r == '№' || spelled(r) == "")
}

// encoded returns words as a DXF text string (see [lettering.Lettered]): the
// format's own codes for degree (%%d), diameter (%%c) and plus-minus (%%p), signs
// spelled with plain ones, and other letters in the code page or, where that lacks
// them, as \U+XXXX; in a plain file spelled with plain ones, too. What has no plain
// spelling is \U+XXXX even there. It also returns what a reader shows of it.
func (a alphabet) encoded(words string) (text, shown string) {
	words = lettering.Lettered(words)
	var b, see strings.Builder
	b.Grow(len(words) + 8)
	for i, n := 0, 0; i < len(words); i += n {
		var r rune
		r, n = utf8.DecodeRuneInString(words[i:])
		put := func(s string) { b.WriteString(s); see.WriteString(s) }
		code := func(s string, r rune) { b.WriteString(s); see.WriteRune(r) }
		switch {
		case r == '%':
			// Two in a row start a code; three stand for one.
			code(percent(words, i), r)
		case r == '^':
			code("^ ", r) // a lone caret starts a control code
		case r == '\\':
			put("/") // a backslash starts a code too
		case r == '\u00a0':
			put(" ")
		case r < utf8.RuneSelf:
			put(string(r))
		case r == '°' || r == 'º':
			code("%%d", '°')
		case r == '⌀' || (r == 'Ø' || r == 'ø') && digitAt(words, i+n):
			code("%%c", '⌀') // a diameter; before a letter Ø is a letter
		case r == '±':
			code("%%p", '±')
		default:
			s := ""
			if a.plain || !byLetter(r) {
				s = spelled(r)
			}
			c, ok := a.page.EncodeRune(r)
			switch {
			case s != "":
				put(s)
			case ok && !a.plain:
				code(string([]byte{c}), r)
			default:
				code(fmt.Sprintf(`\U+%04X`, r), r)
			}
		}
	}
	return b.String(), see.String()
}

// words returns a text as the file has it.
func (f *file) words(words string) string {
	text, _ := f.letters.encoded(words)
	return text
}

// squeeze returns the factor by which a text is made narrower so that it takes no
// more room than its words were given, 1 for none.
func (f *file) squeeze(t drawing.Text) float64 {
	_, shown := f.letters.encoded(t.Words)
	if w, s := t.Width(), t.Face().Width(shown); s > w {
		return w / s
	}
	return 1
}

// pieces returns a text in pieces that a reader takes, most often the one it is:
// with letters that take seven characters each a long name would be too long. It is broken behind spaces where it can be.
func (f *file) pieces(t drawing.Text) []drawing.Text {
	if len(f.words(t.Words)) <= longestText {
		return []drawing.Text{t}
	}
	t.At, t.Anchor = start(t), drawing.Left
	rest := []rune(lettering.Lettered(t.Words))
	var out []drawing.Text
	for len(rest) > 0 {
		n, space := 1, 0
		for n < len(rest) && len(f.words(string(rest[:n+1]))) <= longestText {
			if n++; rest[n-1] == ' ' {
				space = n
			}
		}
		if n < len(rest) && space > 0 {
			n = space
		}
		t.Words = string(rest[:n])
		if strings.TrimSpace(t.Words) != "" {
			out = append(out, t)
		}
		t.At = t.At.Add(geom.Polar(t.Width(), t.Angle))
		rest = rest[n:]
	}
	return out
}

// start returns where the lettering of a text starts, whatever its anchor.
func start(t drawing.Text) geom.Point {
	back := 0.0
	switch t.Anchor {
	case drawing.Middle:
		back = t.Width() / 2
	case drawing.Right:
		back = t.Width()
	}
	return t.At.Sub(geom.Polar(back, t.Angle))
}

// digitAt reports whether words[i] is a decimal digit.
func digitAt(words string, i int) bool {
	return i < len(words) && words[i] >= '0' && words[i] <= '9'
}

// percent returns the percent sign at words[i] such that no reader takes it
// for a part of a code.
func percent(words string, i int) string {
	codeNear := func(s string) bool {
		for _, c := range []string{"%", "°", "⌀", "±", "Ø", "ø"} {
			if strings.HasPrefix(s, c) {
				return true
			}
		}
		return false
	}
	if codeNear(words[i+1:]) || i > 0 && words[i-1] == '%' {
		return "%%%"
	}
	return "%"
}

// spelled returns a character outside ASCII in plain ones, "" for one that has no
// plain spelling.
func spelled(r rune) string {
	switch r {
	case '×':
		return "x"
	case '÷', '⁄', '∕':
		return "/"
	case '·', '•', '∙':
		return "."
	case '‐', '‑', '‒', '–', '—', '−':
		return "-"
	case '‘', '’', '′':
		return "'"
	case '“', '”', '″', '„', '«', '»':
		return "\""
	case '…':
		return "..."
	case '≈':
		return "~"
	case '≤':
		return "<="
	case '≥':
		return ">="
	case 'µ', 'μ':
		return "u"
	case '¹':
		return "1"
	case '²':
		return "2"
	case '³':
		return "3"
	case '½':
		return "1/2"
	case '¼':
		return "1/4"
	case '¾':
		return "3/4"
	case '№':
		return "No"
	case 'Ä':
		return "Ae"
	case 'Ö':
		return "Oe"
	case 'Ü':
		return "Ue"
	case 'ä':
		return "ae"
	case 'ö':
		return "oe"
	case 'ü':
		return "ue"
	case 'ß':
		return "ss"
	case 'ẞ':
		return "SS"
	case 'Æ':
		return "AE"
	case 'æ':
		return "ae"
	case 'Œ':
		return "OE"
	case 'œ':
		return "oe"
	case 'Þ':
		return "Th"
	case 'þ':
		return "th"
	}
	if s := latin(r); s != "" {
		return s
	}
	// The letter that is left without its accents.
	if bare := []rune(norm.NFD.String(string(r))); len(bare) > 1 {
		return spelled(bare[0])
	}
	if r < utf8.RuneSelf {
		return string(r)
	}
	return ""
}

// latin returns a letter of another alphabet in Latin ones, or a Latin letter with
// a stroke without it; "" for any other. Cyrillic goes by ICAO Doc 9303-3,
// section 6 B, as in a passport; Greek by ISO 843, type 2, letter by letter (both
// from memory).
func latin(r rune) string {
	const from = "ĐđĦħıĸĿŀŁłŊŋØøŦŧÐð" +
		"АБВГДЕЖЗИЙКЛМНОПРСТУФХЦЧШЩЫЭЮЯЄІЇЂЃЈЉЊЋЌЏЅҐЎ" +
		"ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩς"
	to := strings.Fields("D d H h i k L l L l N n O o T t D d " +
		"A B V G D E Zh Z I I K L M N O P R S T U F Kh Ts Ch Sh Shch Y E Iu Ia Ie I I D G J Lj Nj C K Dz Dz G U " +
		"A V G D E Z I Th I K L M N X O P R S T Y F Ch Ps O s")
	switch r {
	case 'Ъ', 'ъ', 'Ь', 'ь':
		return "'"
	case 'Ё':
		return "E"
	case 'ё':
		return "e"
	}
	find := func(r rune) string {
		i := 0
		for _, f := range from {
			if f == r {
				return to[i]
			}
			i++
		}
		return ""
	}
	if s := find(r); s != "" {
		return s
	}
	return strings.ToLower(find(unicode.ToUpper(r)))
}

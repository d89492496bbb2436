package dxf

import (
	"strings"
	"unicode/utf8"

	"overbend/export/lettering"
)

// ascii returns words as a DXF text string: printable ASCII, with the format's
// own codes for degree (%%d), diameter (%%c) and plus-minus (%%p), other
// characters spelled with plain ones, and a question mark for what has no
// plain spelling. A line break or tab becomes a space: it would end the value.
func ascii(words string) string {
	var b strings.Builder
	b.Grow(len(words) + 8)
	for i, n := 0, 0; i < len(words); i += n {
		var r rune
		r, n = utf8.DecodeRuneInString(words[i:])
		switch {
		case r == '%':
			// Two in a row start a code; three stand for one.
			b.WriteString(percent(words, i))
		case r == '^':
			b.WriteString("^ ") // a lone caret starts a control code
		case r == '\\':
			b.WriteByte('/') // a backslash starts a code too
		case r < ' ' || r == 0x7f || r == 0xa0:
			b.WriteByte(' ')
		case r < 0x7f:
			b.WriteByte(byte(r))
		case (r == 'Ø' || r == 'ø') && digitAt(words, i+n):
			b.WriteString("%%c") // a diameter; before a letter it is a letter
		default:
			b.WriteString(spell(r))
		}
	}
	return b.String()
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

// spell returns a character outside ASCII in plain ones.
func spell(r rune) string {
	switch r {
	case '°', 'º':
		return "%%d"
	case '⌀':
		return "%%c"
	case '±':
		return "%%p"
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
	if c, ok := lettering.PlainLetter(r); ok {
		return string(rune(c))
	}
	return "?"
}

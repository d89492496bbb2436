package dxf

import "testing"

func TestASCII(t *testing.T) {
	for _, c := range []struct{ words, want string }{
		{"davit-arm", "davit-arm"},
		{"33°", "33%%d"},
		{"⌀13 Ø13 ø9 BJØRN", "%%c13 %%c13 %%c9 BJORN"},
		{"±0.5", "%%p0.5"},
		{"40×40×3, R½″ – 2 mm²", "40x40x3, R1/2\" - 2 mm2"},
		{"Größe, naïve Łódź", "Groesse, naive Lodz"},
		{"50 % of 20%", "50 % of 20%"},
		{"a%%d", "a%%%%%%d"}, // two percent signs and a d, not a degree sign
		{"5%°", "5%%%%%d"},
		{"x^Jy", "x^ Jy"},
		{`\U+00B0`, "/U+00B0"},
		{"two\r\nlines\tand", "two  lines and"},
		{"\xff\x80", "??"},
		{"長", "?"},
		{"ÀçĐéîŁñØřŠůÝž", "AcDeiLnOrSuYz"},
	} {
		if got := ascii(c.words); got != c.want {
			t.Errorf("ascii(%q) = %q, want %q", c.words, got, c.want)
		}
	}
}

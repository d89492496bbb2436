package dxfread

import (
	"strconv"
	"strings"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/japanese"
	"golang.org/x/text/encoding/korean"
	"golang.org/x/text/encoding/simplifiedchinese"
	"golang.org/x/text/encoding/traditionalchinese"
)

// codePage returns the encoding that $DWGCODEPAGE names, nil for one that is not
// known. Files from 2007 on (AC1021) are UTF-8 whatever it says [DXF].
func codePage(name string) encoding.Encoding {
	name = strings.ToLower(name)
	_, n, _ := strings.Cut(name, "_")
	switch n {
	case "1250":
		return charmap.Windows1250
	case "1251":
		return charmap.Windows1251
	case "1252":
		return charmap.Windows1252
	case "1253":
		return charmap.Windows1253
	case "1254":
		return charmap.Windows1254
	case "1255":
		return charmap.Windows1255
	case "1256":
		return charmap.Windows1256
	case "1257":
		return charmap.Windows1257
	case "1258":
		return charmap.Windows1258
	case "874":
		return charmap.Windows874
	case "932":
		return japanese.ShiftJIS
	case "936":
		return simplifiedchinese.GBK
	case "949":
		return korean.EUCKR
	case "950":
		return traditionalchinese.Big5
	}
	return nil
}

// decoder returns what turns bytes of the file into text.
func decoder(version, page string) func([]byte) string {
	e := codePage(page)
	if e == nil || version >= "AC1021" {
		return fromUTF8
	}
	d := e.NewDecoder()
	return func(b []byte) string {
		for _, c := range b {
			if c >= 0x80 {
				out, err := d.Bytes(b)
				if err != nil {
					return fromUTF8(b)
				}
				return fromUTF8(out)
			}
		}
		return string(b)
	}
}

// unescape turns \U+XXXX, with which older files write what their code page
// lacks, into the character.
func unescape(s string) string {
	const mark = `\U+`
	if !strings.Contains(s, mark) {
		return s
	}
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(s, mark)
		b.WriteString(before)
		if !found {
			return b.String()
		}
		if len(rest) >= 4 {
			if v, err := strconv.ParseUint(rest[:4], 16, 32); err == nil {
				b.WriteRune(rune(v))
				s = rest[4:]
				continue
			}
		}
		b.WriteString(mark)
		s = rest
	}
}

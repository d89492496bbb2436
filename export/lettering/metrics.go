package lettering

// Helvetica advance widths in thousandths of the font size, Windows-1252 codes
// 32 to 255. Source: the Adobe Core 14 font metrics (AFM), which every PDF
// reader's built-in face and the common metric-compatible faces share.
var (
	helvetica = [224]uint16{
		278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
		556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
		1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
		667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
		333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
		556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584, 350,
		556, 350, 222, 556, 333, 1000, 556, 556, 333, 1000, 667, 333, 1000, 350, 611, 350,
		350, 222, 222, 333, 333, 350, 556, 1000, 333, 1000, 500, 333, 944, 350, 500, 667,
		278, 333, 556, 556, 556, 556, 260, 556, 333, 737, 370, 556, 584, 333, 737, 333,
		400, 584, 333, 333, 333, 556, 537, 278, 333, 333, 365, 556, 834, 834, 834, 611,
		667, 667, 667, 667, 667, 667, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278,
		722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611,
		556, 556, 556, 556, 556, 556, 889, 500, 556, 556, 556, 556, 278, 278, 278, 278,
		556, 556, 556, 556, 556, 556, 556, 584, 611, 556, 556, 556, 556, 500, 556, 500,
	}
	helveticaBold = [224]uint16{
		278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
		556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
		975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
		667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
		333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
		611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584, 350,
		556, 350, 278, 556, 500, 1000, 556, 556, 333, 1000, 667, 333, 1000, 350, 611, 350,
		350, 278, 278, 500, 500, 350, 556, 1000, 333, 1000, 556, 333, 944, 350, 500, 667,
		278, 333, 556, 556, 556, 556, 280, 556, 333, 737, 370, 556, 584, 333, 737, 333,
		400, 584, 333, 333, 333, 611, 556, 278, 333, 333, 365, 556, 834, 834, 834, 611,
		722, 722, 722, 722, 722, 722, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278,
		722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611,
		556, 556, 556, 556, 556, 556, 889, 556, 556, 556, 556, 556, 278, 278, 278, 278,
		611, 611, 611, 611, 611, 611, 611, 584, 611, 611, 611, 611, 611, 556, 611, 556,
	}
)

// CapHeight is the height of Helvetica's capitals as a share of the font size
// (AFM: 718 of 1000): lettering h mm high is set at a size of h/CapHeight mm.
const CapHeight = 0.718

// Windows1252 returns the code of r in Windows-1252, the character set of the
// PDF core fonts (WinAnsiEncoding). A few signs of the trade that it lacks
// become their nearest kin: the minus sign a hyphen, the diameter sign Ø, a
// letter with another accent the plain one. For any other character, control
// characters too, it returns '?' and false.
func Windows1252(r rune) (byte, bool) {
	switch {
	case r >= 0x20 && r <= 0x7E, r >= 0xA0 && r <= 0xFF:
		return byte(r), true
	}
	switch r {
	case '\u2212': // minus sign
		return '-', true
	case '\u2300': // diameter sign
		return 0xD8, true
	case '€':
		return 0x80, true
	case '‚':
		return 0x82, true
	case 'ƒ':
		return 0x83, true
	case '„':
		return 0x84, true
	case '…':
		return 0x85, true
	case '†':
		return 0x86, true
	case '‡':
		return 0x87, true
	case 'ˆ':
		return 0x88, true
	case '‰':
		return 0x89, true
	case 'Š':
		return 0x8A, true
	case '‹':
		return 0x8B, true
	case 'Œ':
		return 0x8C, true
	case 'Ž':
		return 0x8E, true
	case '‘':
		return 0x91, true
	case '’':
		return 0x92, true
	case '“':
		return 0x93, true
	case '”':
		return 0x94, true
	case '•':
		return 0x95, true
	case '–':
		return 0x96, true
	case '—':
		return 0x97, true
	case '˜':
		return 0x98, true
	case '™':
		return 0x99, true
	case 'š':
		return 0x9A, true
	case '›':
		return 0x9B, true
	case 'œ':
		return 0x9C, true
	case 'ž':
		return 0x9E, true
	case 'Ÿ':
		return 0x9F, true
	}
	if c, ok := PlainLetter(r); ok {
		return c, true
	}
	return '?', false
}

package dxfread

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Limits bound what one drawing may cost. A zero field takes its default.
type Limits struct {
	Bytes    int64 // of the file; 64 MB: a large drawing has ten
	Vertices int   // kept of all paths together, and of all blocks; 300,000
	Inserts  int   // followed, those of rows and columns each; 100,000
}

// The defaults, and the depth to which blocks may lie in each other.
const (
	mostBytes    = 64 << 20
	mostVertices = 300_000
	mostInserts  = 100_000
	mostDepth    = 32
)

func (l Limits) filled() Limits {
	if l.Bytes == 0 {
		l.Bytes = mostBytes
	}
	if l.Vertices == 0 {
		l.Vertices = mostVertices
	}
	if l.Inserts == 0 {
		l.Inserts = mostInserts
	}
	return l
}

// Error is what is wrong with a drawing, in one sentence.
type Error struct {
	Line int    // of the file, from 1; 0: the file as a whole
	Text string // lower case, no full stop
}

// Error returns the sentence with its line.
func (e *Error) Error() string {
	if e.Line == 0 {
		return e.Text
	}
	return fmt.Sprintf("line %d: %s", e.Line, e.Text)
}

func faultf(line int, format string, args ...any) *Error {
	return &Error{line, fmt.Sprintf(format, args...)}
}

// mostLine is how much of a line is kept, in bytes. The format allows 2049 for a
// text; no value that is read here has more than a few hundred.
const mostLine = 4096

// tag is a group code and its value.
type tag struct {
	code  int
	value string
	line  int // of the value
}

// scanner cuts a stream into tags.
type scanner struct {
	r     *bufio.Reader
	limit int64
	read  int64
	line  int
	text  func([]byte) string // from the file's encoding
}

func newScanner(r io.Reader, limit int64) *scanner {
	return &scanner{r: bufio.NewReaderSize(r, 1<<16), limit: limit, text: fromUTF8}
}

// fromUTF8 returns the text of a file that does not name its code page.
func fromUTF8(b []byte) string { return strings.ToValidUTF8(string(b), "?") }

// look refuses by its first bytes what is no text DXF.
func (s *scanner) look() error {
	head, _ := s.r.Peek(22)
	has := func(prefix string) bool { return bytes.HasPrefix(head, []byte(prefix)) }
	switch {
	case len(head) == 0:
		return faultf(0, "the file is empty")
	case has("AutoCAD Binary DXF"):
		return faultf(0, "a binary DXF can't be read; save it as a text (ASCII) DXF")
	case has("AC10") && !bytes.ContainsAny(head[:min(8, len(head))], "\r\n"):
		return faultf(0, "a DWG can't be read; save it as a text (ASCII) DXF")
	case has("\xff\xfe"), has("\xfe\xff"), bytes.IndexByte(head, 0) >= 0:
		return faultf(0, "the file is no text in 8-bit characters or UTF-8; save it as a text (ASCII) DXF")
	case has("%PDF"), has("PK\x03\x04"), has("<"), has("\x89PNG"), has("\xff\xd8"):
		return faultf(0, "the file is no DXF; save the drawing as a text (ASCII) DXF")
	case has("\xef\xbb\xbf"):
		s.r.Discard(3)
	}
	return nil
}

// next returns the next line without its end: CR LF, LF or CR. io.EOF only where
// nothing is left.
func (s *scanner) next() ([]byte, error) {
	s.line++
	var out []byte
	for {
		c, err := s.r.ReadByte()
		if err == io.EOF {
			if out == nil {
				return nil, io.EOF
			}
			return out, nil
		}
		if err != nil {
			return nil, faultf(s.line, "not readable; %v", err)
		}
		if s.read++; s.read > s.limit {
			return nil, faultf(s.line, "the drawing has more than the %d MB that are allowed; save the part alone, without pictures and blocks that it does not use", s.limit>>20)
		}
		switch {
		case c == '\r':
			if n, _ := s.r.Peek(1); len(n) == 1 && n[0] == '\n' {
				s.r.Discard(1)
			}
			fallthrough
		case c == '\n':
			if out == nil {
				out = []byte{}
			}
			return out, nil
		case len(out) < mostLine:
			if out == nil {
				out = make([]byte, 0, 32)
			}
			out = append(out, c)
		}
	}
}

// tag returns the next group; io.EOF at the end of the file between two.
func (s *scanner) tag() (tag, error) {
	head, err := s.next()
	if err != nil {
		return tag{}, err
	}
	at := s.line
	text := strings.TrimSpace(string(head))
	code, err := strconv.Atoi(text)
	if err != nil || code < -5 || code > 1071 {
		if text == "" {
			// Blank lines at the end of a file mean nothing.
			if rest, err := s.next(); err == io.EOF {
				return tag{}, io.EOF
			} else if err == nil && strings.TrimSpace(string(rest)) == "" {
				return s.tag()
			}
		}
		return tag{}, faultf(at, "%q is no group code, a whole number from -5 to 1071", show(text))
	}
	value, err := s.next()
	if err == io.EOF {
		return tag{}, faultf(at, "the file breaks off: group %d has no value", code)
	}
	if err != nil {
		return tag{}, err
	}
	return tag{code, strings.TrimSpace(s.text(value)), s.line}, nil
}

// show returns a text of the file such that it can stand between quotes in one
// line.
func show(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most]) + "..."
	}
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) || r == '"' || r == '\\' || r == utf8.RuneError {
			return '?'
		}
		return r
	}, s)
}

// mostNumber is the largest coordinate that is taken, in the drawing's unit: far
// beyond any part, and small enough that its square is a number.
const mostNumber = 1e12

// number returns a group's value as a real number.
func (t tag) number() (float64, error) {
	v, err := strconv.ParseFloat(t.value, 64)
	if err != nil || math.IsNaN(v) || math.Abs(v) > mostNumber {
		return 0, faultf(t.line, "%q in group %d is no number that a drawing can hold", show(t.value), t.code)
	}
	return v, nil
}

// integer returns a group's value as a whole number. Some programs write one
// with a decimal point.
func (t tag) integer() (int, error) {
	v, err := t.number()
	if err != nil || v != math.Trunc(v) || math.Abs(v) > math.MaxInt32 {
		return 0, faultf(t.line, "%q in group %d is no whole number", show(t.value), t.code)
	}
	return int(v), nil
}

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
	buf   []byte              // of the line
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
		return s.noDXF()
	case has("\xef\xbb\xbf"):
		s.r.Discard(3)
	}
	return nil
}

// noDXF says that the file is something else altogether.
func (*scanner) noDXF() error {
	return faultf(0, "the file is no DXF; save the drawing as a text (ASCII) DXF")
}

// next returns the next line without its end, CR LF, LF or CR, until the next call.
// io.EOF only where nothing is left.
func (s *scanner) next() ([]byte, error) {
	s.line++
	s.buf = s.buf[:0]
	for some := false; ; some = true {
		if _, err := s.r.Peek(1); err == io.EOF && some {
			return s.buf, nil
		} else if err == io.EOF {
			return nil, io.EOF
		} else if err != nil {
			return nil, faultf(s.line, "not readable; %v", err)
		}
		chunk, _ := s.r.Peek(s.r.Buffered())
		taken, ended := len(chunk), false
		if lf := bytes.IndexByte(chunk, '\n'); lf >= 0 {
			chunk, taken, ended = chunk[:lf], lf+1, true
		}
		cr := bytes.IndexByte(chunk, '\r')
		if cr >= 0 {
			// Before the LF it belongs to it; else it ends a line by itself, or the
			// LF is yet to be read.
			if !ended || cr < len(chunk)-1 {
				taken = cr + 1
			}
			chunk, ended = chunk[:cr], true
		}
		if s.read += int64(taken); s.read > s.limit {
			return nil, faultf(s.line, "the drawing has more than the %d MB that are allowed; save the part alone, without pictures and blocks that it does not use", s.limit>>20)
		}
		s.buf = append(s.buf, chunk[:min(len(chunk), mostLine-len(s.buf))]...)
		s.r.Discard(taken)
		if ended && taken == cr+1 {
			if n, _ := s.r.Peek(1); len(n) == 1 && n[0] == '\n' {
				s.r.Discard(1)
			}
		}
		if ended {
			return s.buf, nil
		}
	}
}

// code reads a group code.
func code(b []byte) (int, bool) {
	b = bytes.TrimSpace(b)
	digits := bytes.TrimPrefix(b, []byte("-"))
	v := 0
	for _, c := range digits {
		if c < '0' || c > '9' || v > 1071 {
			return 0, false
		}
		v = 10*v + int(c-'0')
	}
	if len(digits) < len(b) {
		v = -v
	}
	return v, len(digits) > 0 && v >= -5 && v <= 1071
}

// tag returns the next group; io.EOF at the end of the file between two. Values of
// groups that nothing here reads are passed over.
func (s *scanner) tag() (tag, error) {
	head, err := s.next()
	if err != nil {
		return tag{}, err
	}
	at := s.line
	c, ok := code(head)
	if !ok {
		text := strings.TrimSpace(string(head))
		for err == nil && text == "" {
			// Blank lines at the end of a file mean nothing.
			if head, err = s.next(); err == nil && len(bytes.TrimSpace(head)) > 0 {
				break
			}
		}
		if err != nil {
			return tag{}, err
		}
		if at == 1 {
			return tag{}, s.noDXF()
		}
		return tag{}, faultf(at, "%q is no group code, a whole number from -5 to 1071", show(text))
	}
	value, err := s.next()
	if err == io.EOF {
		return tag{}, faultf(at, "the file breaks off: group %d has no value", c)
	}
	if err != nil {
		return tag{}, err
	}
	if c > 9 && !wanted(c) {
		return tag{code: c, line: s.line}, nil
	}
	return tag{c, strings.TrimSpace(s.text(value)), s.line}, nil
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
